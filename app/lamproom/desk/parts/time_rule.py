"""The time rule: a ruled line, a solid wedge for now, a tall stroke for due, a hatched piece for the grace.

The same rule on board, portal and bench. Times are seconds on any one scale; the rule reads no clock.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.strokes import edge_pen, hatch
from lamproom.desk.theme import Letter, Role, look_of


@dataclass(frozen=True, slots=True)
class RuleView:
    """``start`` to ``end`` is the rule; ``now`` the wedge; ``due`` the stroke with ``due_words`` ("12:00");
    ``grace`` its end; ``tick`` the distance of ticks and every ``major`` th a taller one. ``alarm``: late is filled
    with the color of caution (board); else with ink (on a tile that is filled already, whose label ``ink`` then is).
    """

    start: float
    end: float
    now: float
    due: float | None = None
    grace: float | None = None
    due_words: str = ""
    tick: float = 60.0
    major: int = 5
    alarm: bool = False
    ink: Role = Role.TEXT
    words: str = ""


class TimeRule(QWidget):
    """Shows a RuleView; ``words`` are what a screen reader says."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view: RuleView | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_view(self, view: RuleView) -> None:
        """Draw this."""
        self._view = view
        self.setAccessibleName(view.words)
        self.update()

    def sizeHint(self) -> QSize:
        """Wedge, strokes, line."""
        return QSize(260, 40)

    def minimumSizeHint(self) -> QSize:
        """Short rules still read."""
        return QSize(120, 40)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The rule, then grace or lateness, then due and now."""
        view = self._view
        if view is None or view.end <= view.start:
            return
        look = look_of(self).drawn
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ink = look.colour(view.ink)
        base = self.height() - 2.0
        left, width = 9.0, self.width() - 18.0

        def x(at: float) -> float:
            return left + width * min(max((at - view.start) / (view.end - view.start), 0.0), 1.0)

        stroke = 2.0 if look.sun else max(1.5, look.line)
        painter.setPen(edge_pen(ink, stroke))
        painter.drawLine(QPointF(left, base), QPointF(left + width, base))
        count = int((view.end - view.start) / view.tick + 1e-6)
        for at in range(count + 1):
            mark = x(view.start + at * view.tick)
            painter.drawLine(QPointF(mark, base - (13 if at % view.major == 0 else 7)), QPointF(mark, base))
        if view.due is not None:
            if view.now > view.due:
                late = QRectF(x(view.due), base - 13, x(view.now) - x(view.due), 13)
                painter.setBrush(look.colour(Role.CAUTION) if view.alarm else ink)
                painter.setPen(edge_pen(ink, stroke))
                painter.drawRect(late)
            elif view.grace is not None:
                hatch(painter, QRectF(x(view.due), base - 13, x(view.grace) - x(view.due), 13), look, view.ink, 9)
            painter.setPen(edge_pen(ink, 3))
            painter.drawLine(QPointF(x(view.due), base - 26), QPointF(x(view.due), base))
            if view.due_words:
                painter.setFont(letter(look, Letter.BODY if look.sun else Letter.SMALL, True))
                painter.setPen(ink)
                room = QRectF(x(view.due) + 7, base - 36, 80, 22)
                side = Qt.AlignmentFlag.AlignLeft
                if room.right() > self.width():
                    room.moveRight(x(view.due) - 7)
                    side = Qt.AlignmentFlag.AlignRight
                painter.drawText(room, side | Qt.AlignmentFlag.AlignVCenter, view.due_words)
        now = x(view.now)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        top = base - 28
        painter.drawPolygon(QPolygonF([QPointF(now - 9, top), QPointF(now + 9, top), QPointF(now, top + 14)]))
