"""One gas over time: a mark for each reading, the limit dashed with its number, the line broken where a gap is."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.depth_scale import spread
from lamproom.desk.parts.strokes import edge_pen, hatch
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Role, look_of
from lamproom.words import say

_TOP, _BOTTOM, _RIGHT = 34.0, 52.0, 32.0
_SIDE, _LABEL = 18.0, 62.0
"""The side of a sign of someone going in or out, and the room of the words before them."""
_AXIS = 16.0
"""Between the axis and the first mark, so that no sign stands on the numbers."""


@dataclass(frozen=True, slots=True)
class TrendPoint:
    """One reading: ``at`` in seconds, its height, the text typed, and in words who, when and what of it."""

    at: float
    value: float
    text: str
    late: bool = False
    corrected: bool = False
    outside: bool = False
    detail: str = ""


@dataclass(frozen=True, slots=True)
class TrendView:
    """``scale`` keeps the limits in view; ``limits`` are (value, number); ``marks`` (at, words) on the axis of time;
    ``moves`` (at, sign, words) below it; ``every`` the interval in seconds: a longer gap than 1.5 of it breaks the
    line. ``late_from``: the reading due then has not come; what follows is hatched.
    """

    gas: str
    unit: str
    points: tuple[TrendPoint, ...]
    scale: tuple[float, float]
    limits: tuple[tuple[float, str], ...]
    start: float
    now: float
    every: float
    marks: tuple[tuple[float, str], ...] = ()
    moves: tuple[tuple[float, Sign, str], ...] = ()
    late_from: float | None = None

    def ends(self) -> tuple[float, float, bool]:
        """The ends of the scale, widened (True) only where a value lies outside them."""
        low, high = self.scale
        least = min((p.value for p in self.points), default=low)
        most = max((p.value for p in self.points), default=high)
        return (min(low, least), high if most <= high else most * 1.05, least < low or most > high)

    def gaps(self) -> list[tuple[TrendPoint, TrendPoint]]:
        """Neighbours too far apart in time to be joined by a line."""
        return [(a, b) for a, b in zip(self.points, self.points[1:], strict=False) if b.at - a.at > 1.5 * self.every]


class Trend(QWidget):
    """The plot. Left and right arrows, or a press, choose a reading. Signal: ``point_chosen(int)``, its place."""

    point_chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view: TrendView | None = None
        self._chosen: int | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(220, 180)

    def set_view(self, view: TrendView) -> None:
        """Draw this; a screen reader hears last, lowest, highest, gaps, crossings."""
        if self._view is not None and self._view.points != view.points:
            self._chosen = None
        self._view = view
        self.setAccessibleName(say("desk.trend", gas=view.gas, unit=view.unit))
        self.setAccessibleDescription(self.summary())
        self.update()

    def summary(self) -> str:
        """The plot in words."""
        view = self._view
        if view is None or not view.points:
            return say("desk.trend_empty")
        return say(
            "desk.trend_summary",
            last=view.points[-1].text,
            lowest=min(view.points, key=lambda p: p.value).text,
            highest=max(view.points, key=lambda p: p.value).text,
            gaps=len(view.gaps()),
            outside=sum(p.outside for p in view.points),
        )

    def sizeHint(self) -> QSize:
        """The tile of the portal."""
        return QSize(352, 336)

    def choose(self, at: int) -> None:
        """Ring a reading and say so."""
        self._chosen = at
        self.update()
        self.point_chosen.emit(at)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and right walk along the readings, from the newest."""
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()), 0)
        if not step or self._view is None or not self._view.points:
            super().keyPressEvent(event)
            return
        last = len(self._view.points) - 1
        self.choose(last if self._chosen is None else min(max(self._chosen + step, 0), last))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press chooses the nearest reading."""
        if self._view is None or not self._view.points:
            return
        x = [self._x(p.at) for p in self._view.points]
        self.choose(min(range(len(x)), key=lambda at: abs(x[at] - event.position().x())))

    def _plot(self) -> QRectF:
        left = 12.0
        if self._view:
            font = QFontMetricsF(letter(look_of(self).drawn, Letter.TABLE))
            left += max(font.horizontalAdvance(number) for number in self._numbers())
        top = _TOP + 4
        return QRectF(left + 6, top, self.width() - left - 6 - _RIGHT, self.height() - top - _BOTTOM)

    def _numbers(self) -> list[str]:
        view = self._view
        if view is None:
            return [""]
        low, high, _wide = view.ends()
        return [f"{low:g}", f"{high:.4g}", *(number for _value, number in view.limits)]

    def _x(self, at: float) -> float:
        view, plot = self._view, self._plot()
        if view is None or view.now <= view.start:
            return plot.left()
        return plot.left() + _AXIS + (plot.width() - _AXIS) * (at - view.start) / (view.now - view.start)

    def _y(self, value: float) -> float:
        plot = self._plot()
        low, high, _wide = self._view.ends() if self._view else (0.0, 1.0, False)
        return plot.bottom() - plot.height() * (value - low) / (high - low)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Title or chosen reading, axes, limits, line, marks, moves."""
        view = self._view
        if view is None:
            return
        look = look_of(self).drawn
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(look.colour(Role.TEXT))
        painter.setFont(letter(look, Letter.BODY, look.sun))
        title = f"{view.gas}, {view.unit}"
        if self._chosen is not None and self._chosen < len(view.points):
            point = view.points[self._chosen]
            title = point.detail or point.text
        fitted = QFontMetricsF(painter.font()).elidedText(title, Qt.TextElideMode.ElideRight, self.width() - 4)
        painter.drawText(QPointF(2, 20), fitted)
        self._paint_axes(painter, view, look)
        self._paint_limits(painter, view, look)
        self._paint_line(painter, view, look)
        self._paint_moves(painter, view, look)

    def _paint_axes(self, painter: QPainter, view: TrendView, look: Look) -> None:
        plot, ink = self._plot(), look.colour(Role.TEXT)
        low, high, widened = view.ends()
        if view.late_from is not None and view.late_from < view.now:
            hatch(
                painter,
                QRectF(self._x(view.late_from), plot.top(), plot.right() - self._x(view.late_from), plot.height()),
                look,
            )
        painter.setPen(edge_pen(ink, look.line))
        painter.drawLine(plot.bottomLeft(), plot.topLeft())
        painter.drawLine(plot.bottomLeft(), plot.bottomRight())
        painter.drawLine(QPointF(plot.right(), plot.top()), QPointF(plot.right(), plot.bottom() + 6))
        painter.setFont(letter(look, Letter.TABLE))
        for value in (low, high):
            self._number(painter, value, f"{value:.4g}", look)
        if widened:
            painter.drawText(QRectF(plot.left() + 6, plot.top() - 2, 160, 20), 0, say("desk.scale_widened"))
        for at, words in view.marks:
            x = self._x(at)
            painter.setPen(edge_pen(ink, look.line))
            painter.drawLine(QPointF(x, plot.bottom()), QPointF(x, plot.bottom() + 6))
            painter.setPen(ink)
            painter.drawText(QRectF(x - 40, plot.bottom() + 5, 80, 22), Qt.AlignmentFlag.AlignCenter, words)

    def _number(self, painter: QPainter, value: float, number: str, look: Look) -> None:
        plot, y = self._plot(), self._y(value)
        painter.setPen(edge_pen(look.colour(Role.TEXT), look.line))
        painter.drawLine(QPointF(plot.left() - 6, y), QPointF(plot.left(), y))
        painter.setPen(look.colour(Role.TEXT))
        side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(QRectF(0, y - 12, plot.left() - 9, 24), side, number)

    def _paint_limits(self, painter: QPainter, view: TrendView, look: Look) -> None:
        plot = self._plot()
        for value, number in view.limits:
            painter.setFont(letter(look, Letter.TABLE, True))
            self._number(painter, value, number, look)
            painter.setPen(edge_pen(look.colour(Role.TEXT), look.line, dashed=True))
            painter.drawLine(QPointF(plot.left(), self._y(value)), QPointF(plot.right(), self._y(value)))

    def _paint_line(self, painter: QPainter, view: TrendView, look: Look) -> None:
        ink = look.colour(Role.TEXT)
        gaps = view.gaps()
        painter.setPen(edge_pen(ink, max(2.0, look.line)))
        for a, b in zip(view.points, view.points[1:], strict=False):
            if (a, b) not in gaps:
                painter.drawLine(QPointF(self._x(a.at), self._y(a.value)), QPointF(self._x(b.at), self._y(b.value)))
        painter.setFont(letter(look, Letter.SMALL))
        for a, b in gaps:
            middle = (self._x(a.at) + self._x(b.at)) / 2
            y = min(self._y(a.value), self._y(b.value)) - 26
            painter.setPen(ink)
            words = say("desk.gap", minutes=f"{(b.at - a.at) / 60:.0f}")
            painter.drawText(QRectF(middle - 50, y, 100, 20), Qt.AlignmentFlag.AlignCenter, words)
        for at, point in enumerate(view.points):
            self._paint_mark(painter, point, at == self._chosen, look)

    def _paint_mark(self, painter: QPainter, point: TrendPoint, chosen: bool, look: Look) -> None:
        ink, at = look.colour(Role.TEXT), QPointF(self._x(point.at), self._y(point.value))
        painter.setPen(edge_pen(ink, 2))
        if point.late:
            painter.setBrush(look.colour(Role.GROUND))
            offsets = ((0, -7), (7, 0), (0, 7), (-7, 0))
            painter.drawPolygon(QPolygonF([at + QPointF(dx, dy) for dx, dy in offsets]))
        else:
            painter.setBrush(ink)
            painter.drawRect(QRectF(at.x() - 4, at.y() - 4, 8, 8))
        if point.corrected:
            painter.drawLine(at + QPointF(-8, 9), at + QPointF(8, 9))
        if point.outside:
            draw_sign(
                painter,
                QRectF(at.x() - 9, at.y() - 28 if at.y() - 28 > self._plot().top() - 8 else at.y() + 10, 18, 18),
                Sign.DANGER,
                look.theme,
            )
        if chosen:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(edge_pen(look.colour(Role.FOCUS), 3))
            painter.drawEllipse(at, 12, 12)

    def _paint_moves(self, painter: QPainter, view: TrendView, look: Look) -> None:
        if not view.moves:
            return
        painter.setFont(letter(look, Letter.SMALL))
        painter.setPen(look.colour(Role.TEXT))
        painter.drawText(
            QRectF(2, self.height() - 25, _LABEL - 2, 22), Qt.AlignmentFlag.AlignVCenter, say("desk.in_out")
        )
        for x, sign in self.moves():
            draw_sign(painter, QRectF(x - _SIDE / 2, self.height() - 23, _SIDE, _SIDE), sign, look.theme)

    def moves(self) -> list[tuple[float, Sign]]:
        """The middle of each sign of someone going in or out. Those minutes apart stand beside one another, as near to
        their moment as they fit; where not all fit, the newest do."""
        low, high, apart = _LABEL + _SIDE / 2, self.width() - _SIDE / 2, _SIDE + 2
        made = sorted(self._view.moves if self._view is not None else (), key=lambda move: move[0])
        made = made[-max(1, int((high - low) / apart) + 1) :]
        places = spread([self._x(at) for at, _sign, _words in made], apart, low, high)
        return [(x, sign) for x, (_at, sign, _words) in zip(places, made, strict=True)]
