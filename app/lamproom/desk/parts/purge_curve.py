"""The purge at one point: readings since the fan started, the falling curve with its band, when the limit is met."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.strokes import edge_pen, hatch_shape
from lamproom.desk.theme import Letter, Look, Role, look_of
from lamproom.words import say

_TOP, _BOTTOM, _RIGHT = 30.0, 52.0, 14.0


@dataclass(frozen=True, slots=True)
class CurveView:
    """What is drawn. Times are minutes on the axis, ``ticks`` their words; ``marks`` (minutes, level, words);
    ``curve`` (minutes, level, low, high), empty where nothing falls; ``meets`` the minutes at which the limit is met
    with the ends of its interval, None for an end that may never come; ``until`` the right end."""

    what: str
    unit: str
    limit: float | None
    limit_words: str
    marks: tuple[tuple[float, float, str], ...]
    curve: tuple[tuple[float, float, float, float], ...]
    meets: tuple[float, float | None, float | None] | None
    until: float
    ticks: tuple[tuple[float, str], ...]
    says: str

    def top(self) -> float:
        """The upper end of the scale: every reading and the limit are in view, from nought."""
        levels = [level for _at, level, _words in self.marks]
        wanted = [*levels, self.limit * 1.25 if self.limit is not None else 0.0, 0.0]
        band = [high for _at, _level, _low, high in self.curve[:1]]
        return max((*wanted, *(min(one, max(wanted) * 1.4) for one in band)), default=1.0) * 1.08 or 1.0


class PurgeCurve(QWidget):
    """The plot; a screen reader hears its finding and every reading."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view: CurveView | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(320, 150)

    def set_view(self, view: CurveView) -> None:
        """Draw this."""
        self._view = view
        self.setAccessibleName(say("desk.trend", gas=view.what, unit=view.unit))
        self.setAccessibleDescription(self.summary())
        self.update()

    def summary(self) -> str:
        """The plot in words: what it says, then each reading with its time."""
        view = self._view
        if view is None:
            return ""
        return "; ".join((view.says, *(words for _at, _level, words in view.marks)))

    def sizeHint(self) -> QSize:
        """The room over the slip."""
        return QSize(722, 300)

    def _plot(self, view: CurveView, look: Look) -> QRectF:
        font = QFontMetricsF(letter(look, Letter.TABLE))
        left = max(font.horizontalAdvance(text) for text in ("0", f"{view.top():.3g}", _short(view.limit))) + 16
        return QRectF(left, _TOP, self.width() - left - _RIGHT, self.height() - _TOP - _BOTTOM)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Axes, limit, band, curve, readings, and when the limit is met."""
        view = self._view
        if view is None:
            return
        look = look_of(self).drawn
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        plot, top = self._plot(view, look), view.top()

        def at(minutes: float, level: float) -> QPointF:
            return QPointF(
                plot.left() + plot.width() * minutes / view.until, plot.bottom() - plot.height() * min(level / top, 1.0)
            )

        self._paint_head(painter, view, look)
        self._paint_curve(painter, [[at(m, level), at(m, lo), at(m, hi)] for m, level, lo, hi in view.curve], look)
        self._paint_limit(painter, view, plot, at(0, view.limit or 0).y(), look)
        self._paint_meets(painter, view, plot, look)
        self._paint_axes(painter, view, plot, look)
        ink = look.colour(Role.TEXT)
        for minutes, level, _words in view.marks:
            painter.setPen(edge_pen(ink, 2))
            painter.setBrush(ink)
            dot = at(minutes, level)
            painter.drawRect(QRectF(dot.x() - 4, dot.y() - 4, 8, 8))

    def _paint_head(self, painter: QPainter, view: CurveView, look: Look) -> None:
        painter.setFont(letter(look, Letter.SMALL, True))
        painter.setPen(look.colour(Role.TEXT))
        painter.drawText(QPointF(2, 16), f"{view.what}, {view.unit}")

    def _paint_limit(self, painter: QPainter, view: CurveView, plot: QRectF, y: float, look: Look) -> None:
        """A dashed line with its words; nothing behind the curve, so that its band is told from the limit."""
        if view.limit is None:
            return
        painter.setPen(edge_pen(look.colour(Role.TEXT), look.line, dashed=True))
        painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y))
        font = letter(look, Letter.SMALL, True)
        painter.setFont(font)
        wide = QFontMetricsF(font).horizontalAdvance(view.limit_words)
        box = QRectF(plot.right() - wide - 12, y - 24, wide + 8, 20)
        painter.fillRect(box, look.colour(Role.GROUND))
        painter.setPen(look.colour(Role.TEXT))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, view.limit_words)

    def _paint_curve(self, painter: QPainter, places: Sequence[Sequence[QPointF]], look: Look) -> None:
        """The curve over its band: a fine hatch, edged, so that it is told from the limit's without a color."""
        if not places:
            return
        band = QPolygonF([*(low for _level, low, _high in places), *(high for _level, _low, high in reversed(places))])
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour(Role.PANEL))
        painter.drawPolygon(band)
        hatch_shape(painter, band, look, Role.HATCH, 6)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(edge_pen(look.colour(Role.TEXT if look.sun else Role.SECOND), 1, dashed=True))
        for edge in (1, 2):
            painter.drawPolyline(QPolygonF([one[edge] for one in places]))
        painter.setPen(edge_pen(look.colour(Role.TEXT), max(2.0, look.line)))
        painter.drawPolyline(QPolygonF([one[0] for one in places]))

    def _paint_meets(self, painter: QPainter, view: CurveView, plot: QRectF, look: Look) -> None:
        """A bar on the axis of time: from the earliest to the latest moment at which the limit may be met."""
        if view.meets is None or view.limit is None:
            return
        best, low, high = view.meets
        each = plot.width() / view.until
        left = plot.left() + each * min(low if low is not None else best, view.until)
        right = plot.left() + each * min(high if high is not None else view.until, view.until)
        y = plot.bottom() + 9
        painter.setPen(edge_pen(look.colour(Role.TEXT), 4))
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        painter.setPen(edge_pen(look.colour(Role.TEXT), 2))
        ends = [left, *([right] if high is not None and high <= view.until else [])]
        for x in ends:
            painter.drawLine(QPointF(x, y - 6), QPointF(x, y + 6))
        if high is None or high > view.until:  # it goes on, perhaps for ever
            painter.drawPolyline(QPolygonF([QPointF(right - 8, y - 6), QPointF(right, y), QPointF(right - 8, y + 6)]))
        if best <= view.until:
            x = plot.left() + each * best
            bottom = plot.bottom() - plot.height() * view.limit / view.top()
            painter.setPen(edge_pen(look.colour(Role.TEXT), look.line, dashed=True))
            painter.drawLine(QPointF(x, bottom), QPointF(x, y))

    def _paint_axes(self, painter: QPainter, view: CurveView, plot: QRectF, look: Look) -> None:
        ink = look.colour(Role.TEXT)
        painter.setPen(edge_pen(ink, look.line))
        painter.drawLine(plot.bottomLeft(), plot.topLeft())
        painter.drawLine(plot.bottomLeft(), plot.bottomRight())
        painter.setFont(letter(look, Letter.TABLE))
        numbers = {0.0: "0"}
        if view.limit is not None:
            numbers[view.limit] = _short(view.limit)
        highest = max((level for _at, level, _words in view.marks), default=0.0)
        if highest > 0 and (view.limit is None or abs(highest - view.limit) * plot.height() / view.top() > 24):
            numbers[highest] = _short(highest)
        for value, text in numbers.items():
            y = plot.bottom() - plot.height() * value / view.top()
            painter.setPen(edge_pen(ink, look.line))
            painter.drawLine(QPointF(plot.left() - 6, y), QPointF(plot.left(), y))
            painter.setPen(ink)
            side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(QRectF(0, y - 12, plot.left() - 9, 24), side, text)
        painter.setFont(letter(look, Letter.SMALL))
        for minutes, words in view.ticks:
            x = plot.left() + plot.width() * minutes / view.until
            painter.setPen(edge_pen(ink, look.line))
            painter.drawLine(QPointF(x, plot.bottom()), QPointF(x, plot.bottom() + 5))
            painter.setPen(ink)
            left = min(max(x - 40, 0.0), self.width() - 80.0)
            painter.drawText(QRectF(left, plot.bottom() + 20, 80, 20), Qt.AlignmentFlag.AlignCenter, words)


def _short(value: float | None) -> str:
    return "" if value is None else f"{value:.4g}"
