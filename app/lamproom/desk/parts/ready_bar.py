"""How long each instrument is still ready: bars on one axis of time, so that lengths can be compared."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.theme import Letter, Role, look_of
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class ReadyAxis:
    """From now to the end of the axis, in seconds of one scale; ``marks`` (at, words); a tick each ``tick`` seconds."""

    now: float
    end: float
    marks: tuple[tuple[float, str], ...] = ()
    tick: float = 7200.0

    def share(self, at: float) -> float:
        """Where a time lies on the axis, 0 to 1; later than its end is its end."""
        if self.end <= self.now:
            return 0.0
        return min(max((at - self.now) / (self.end - self.now), 0.0), 1.0)


GAP = 6.0
"""Two names on the ruler stand at least so far apart; one that would stand nearer is left out."""


def ticks(axis: ReadyAxis) -> list[float]:
    """Where ticks stand: on whole steps from the second mark, so that ticks and names of the clock fall together."""
    start = axis.marks[1][0] if len(axis.marks) > 1 else axis.now
    first = axis.now + (start - axis.now) % axis.tick
    return [first + n * axis.tick for n in range(int((axis.end - first) / axis.tick) + 1)]


class ReadyBar(QWidget):
    """One bar; empty (a line) when the instrument is not ready. A time before now is an empty bar."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._axis = ReadyAxis(0, 1)
        self._until: float | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_ready(self, axis: ReadyAxis, until: float | None, name: str, words: str) -> None:
        """``until`` on the axis, None when not ready; name and words are what a screen reader says."""
        self._axis, self._until = axis, until
        self.setAccessibleName(say("desk.ready_bar", name=name, words=words))
        self.update()

    def sizeHint(self) -> QSize:
        """Slim."""
        return QSize(180, 14)

    def minimumSizeHint(self) -> QSize:
        """Still comparable."""
        return QSize(80, 14)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The line, and the bar on it."""
        look = look_of(self).drawn
        painter = QPainter(self)
        base = self.height() - 2.0
        painter.fillRect(QRectF(0, base, self.width(), 2 if look.sun else 1), look.colour(Role.EDGE))
        if self._until is not None:
            painter.fillRect(
                QRectF(0, base - 8, self.width() * self._axis.share(self._until), 9), look.colour(Role.INK)
            )


class ReadyRuler(QWidget):
    """The axis above or below the bars; says nothing to a screen reader, since each bar says its own time."""

    def __init__(self, below: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._axis = ReadyAxis(0, 1)
        self._below = below
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_axis(self, axis: ReadyAxis) -> None:
        """Show this axis."""
        self._axis = axis
        self.update()

    def sizeHint(self) -> QSize:
        """Words and ticks."""
        return QSize(180, 26)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Ticks, longer and named at the marks."""
        look = look_of(self).drawn
        painter = QPainter(self)
        colour = look.colour(Role.TEXT if look.sun else Role.SECOND)
        painter.setFont(letter(look, Letter.TICK))
        painter.setPen(edge_pen(colour, look.line))
        base, way = (0.0, 1.0) if self._below else (float(self.height()), -1.0)
        painter.drawLine(QPointF(0, base), QPointF(self.width(), base))
        for at in ticks(self._axis):
            x = self.width() * self._axis.share(at)
            painter.drawLine(QPointF(x, base), QPointF(x, base + way * 5))
        free = 0.0
        for mark, words in self._axis.marks:
            x = self.width() * self._axis.share(mark)
            painter.drawLine(QPointF(x, base), QPointF(x, base + way * 8))
            wide = painter.fontMetrics().horizontalAdvance(words) + 2
            left = min(max(x - wide / 2, 0), self.width() - wide)
            if left < free:
                continue
            free = left + wide + GAP
            top = 8.0 if self._below else 0.0
            painter.drawText(QRectF(left, top, wide, 17), Qt.AlignmentFlag.AlignCenter, words)
