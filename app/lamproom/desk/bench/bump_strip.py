"""Thirty days of bump tests as strokes: high is slow, open with a cross failed, a small ring no test."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Role, look_of
from lamproom.office.views.bench import DayMark
from lamproom.words import say


class BumpStrip(QWidget):
    """The strip; what it says stands beside it in words and in its accessible name."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._days: tuple[DayMark, ...] = ()
        self._limit = 1.0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_days(self, days: tuple[DayMark, ...], limit_s: float, words: str) -> None:
        """Thirty days, the limit of the form in seconds, the strip in words."""
        self._days, self._limit = days, limit_s
        self.setAccessibleName(words)
        self.update()

    def sizeHint(self) -> QSize:
        """A strip."""
        return QSize(500, look_of(self).px(112))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The limit dashed with its number, a stroke a day."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        right = self.width() - look.px(48)
        top, base = look.px(14), self.height() - look.px(24)
        painter.setPen(edge_pen(look.colour(Role.TEXT), look.line, dashed=True))
        painter.drawLine(QPointF(0, top), QPointF(right, top))
        painter.setFont(letter(look, Letter.TICK, True))
        painter.setPen(look.colour(Role.TEXT))
        painter.drawText(QPointF(right + 6, top + 5), say("bench_screen.limit_s", s=f"{self._limit:g}"))
        painter.setPen(QPen(look.colour(Role.EDGE), look.line))
        painter.drawLine(QPointF(0, base), QPointF(right, base))
        step = right / max(len(self._days), 1)
        for at, day in enumerate(self._days):
            self._day(painter, look, QRectF(at * step + 2, top, step - 4, base - top), day)
        painter.setFont(letter(look, Letter.TICK))
        painter.setPen(look.colour(Role.SECOND))
        if self._days:
            painter.drawText(QPointF(0, self.height() - 5), self._days[0].day)
            today = say("bench_screen.today")
            painter.drawText(QPointF(right - painter.fontMetrics().horizontalAdvance(today), self.height() - 5), today)

    def _day(self, painter: QPainter, look: Look, room: QRectF, day: DayMark) -> None:
        if not day.tested:
            painter.setPen(QPen(look.colour(Role.SECOND), 1.4))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(QPointF(room.center().x(), room.bottom() - 5), 2.6, 2.6)
            return
        share = min((day.slowest_s if day.slowest_s is not None else self._limit) / self._limit, 1.0)
        high = max(room.height() * share, 4.0)
        bar = QRectF(room.left(), room.bottom() - high, room.width(), high)
        if day.passed:
            painter.fillRect(bar, look.colour(Role.INK))
            return
        bar = QRectF(room.left(), room.top(), room.width(), room.height()).adjusted(1, 0, -1, 0)
        painter.setPen(QPen(look.colour(Role.TEXT), 1.6))
        painter.setBrush(look.colour(Role.GROUND))
        painter.drawRect(bar)
        side = min(bar.width() - 2, look.px(12))
        box = QRectF(bar.center().x() - side / 2, bar.center().y() - side / 2, side, side)
        draw_sign(painter, box, Sign.CROSS, look.theme)
