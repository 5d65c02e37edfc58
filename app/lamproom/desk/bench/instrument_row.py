"""One row of the list of instruments: sign, number, what it sees, until when, the bar or what mends it, its permit."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.ready_bar import GAP, ReadyAxis, ticks
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Place, Role, look_of
from lamproom.office.views.bench import InstrumentLine
from lamproom.words import say

HIGH = 46


@dataclass(frozen=True, slots=True)
class Columns:
    """Where the columns stand, in logical pixels: shared by the rows and by the heads above them."""

    wide: float

    @property
    def bar(self) -> tuple[float, float]:
        """Left edge and width of the bar."""
        return 404, max(self.wide - 404 - 118, 90)

    id, sees, until = 34, 84, 238

    @property
    def assigned(self) -> float:
        """Left edge of the last column."""
        return self.bar[0] + self.bar[1] + 16


def sign_of(line: InstrumentLine) -> Sign:
    """The sign of a state."""
    if line.out_of_service:
        return Sign.FAULT
    if not line.ready:
        return Sign.REFUSED
    return Sign.DUE if line.soon else Sign.WITHIN


class InstrumentRow(QAbstractButton):
    """A row to press; the whole of it opens the instrument."""

    def __init__(self, line: InstrumentLine, axis: ReadyAxis, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line, self._axis = line, axis
        self.setCheckable(True)
        self.setObjectName(f"bench.row.{line.id}")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.set_line(line, axis)

    def set_line(self, line: InstrumentLine, axis: ReadyAxis) -> None:
        """The same instrument, later."""
        self.line, self._axis = line, axis
        self.setAccessibleName(
            say("bench_screen.row", id=line.id, sees=line.sees, state=line.state, assigned=line.assigned)
        )
        self.setAccessibleDescription(line.mend_words)
        self.update()

    def sizeHint(self) -> QSize:
        """As high as a trailer target."""
        return QSize(600, look_of(self).px(max(HIGH, int(Place.TRAILER))))

    def nextCheckState(self) -> None:
        """The screen says which row is open."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down walk, Enter opens."""
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            (self.focusNextChild if event.key() == Qt.Key.Key_Down else self.focusPreviousChild)()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Words on one line, the bar last but one."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.isChecked() or self.isDown():
            painter.fillRect(QRectF(self.rect()), look.colour(Role.PANEL))
            painter.fillRect(QRectF(0, 0, 5, self.height()), look.colour(Role.INK))
        painter.fillRect(QRectF(0, self.height() - 1, self.width(), 1), look.colour(Role.RULE))
        side = look.px(22)
        draw_sign(painter, QRectF(look.px(8), (self.height() - side) / 2, side, side), sign_of(self.line), look.theme)
        at = Columns(self.width() / look.scale)
        ready = self.line.ready
        self._words(painter, look, at.id, at.sees, self.line.id, True)
        self._words(painter, look, at.sees, at.until, self.line.sees, False)
        self._words(painter, look, at.until, at.bar[0], self.line.state, not ready)
        left, wide = at.bar
        if ready and self.line.until is not None:
            self._bar(painter, look, look.px(left), look.px(wide), self.line.until)
        else:
            self._mend(painter, look, look.px(left))
        self._words(painter, look, at.assigned, self.width() / look.scale, self.line.assigned, False, Role.SECOND)

    def _words(
        self, painter: QPainter, look: Look, left: float, right: float, text: str, bold: bool, tone: Role = Role.TEXT
    ) -> None:
        font = letter(look, Letter.OFFICE, bold)
        metrics = QFontMetricsF(font)
        painter.setFont(font)
        painter.setPen(look.colour(tone))
        shown = metrics.elidedText(text, Qt.TextElideMode.ElideRight, look.px(right - left - 8))
        painter.drawText(QPointF(look.px(left), self.height() / 2 + metrics.capHeight() / 2), shown)

    def _bar(self, painter: QPainter, look: Look, left: float, wide: float, until: float) -> None:
        base = self.height() / 2 + 4
        painter.fillRect(QRectF(left, base, wide, 2 if look.sun else 1), look.colour(Role.EDGE))
        painter.fillRect(QRectF(left, base - 8, wide * self._axis.share(until), 9), look.colour(Role.INK))

    def _mend(self, painter: QPainter, look: Look, left: float) -> None:
        font = letter(look, Letter.SMALL, True)
        metrics = QFontMetricsF(font)
        wide = metrics.horizontalAdvance(self.line.mend_words)
        base = self.height() / 2 + metrics.capHeight() / 2
        painter.setFont(font)
        painter.setPen(QPen(look.colour(Role.TEXT), 1.2))
        painter.drawText(QPointF(left, base), self.line.mend_words)
        painter.drawLine(QPointF(left, base + 3.5), QPointF(left + wide, base + 3.5))
        side = look.px(18)
        draw_sign(painter, QRectF(left + wide + 8, (self.height() - side) / 2, side, side), Sign.RIGHT, look.theme)


class Heads(QWidget):
    """The heads of the columns, with the axis of the bars."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._axis = ReadyAxis(0, 1)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_axis(self, axis: ReadyAxis) -> None:
        """From now on."""
        self._axis = axis
        self.update()

    def sizeHint(self) -> QSize:
        """One line of words and ticks."""
        return QSize(600, look_of(self).px(38))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Words at the left, ticks over the bars."""
        look = look_of(self)
        painter = QPainter(self)
        at = Columns(self.width() / look.scale)
        painter.setFont(letter(look, Letter.SMALL))
        painter.setPen(look.colour(Role.SECOND))
        base = self.height() - look.px(8)
        for left, key in ((at.id, "id"), (at.sees, "sees"), (at.until, "until"), (at.assigned, "assigned")):
            painter.drawText(QPointF(look.px(left), base), say(f"bench_screen.column.{key}"))
        left, wide = look.px(at.bar[0]), look.px(at.bar[1])
        line = self.height() - look.px(2)
        painter.drawLine(QPointF(left, line), QPointF(left + wide, line))
        for tick in ticks(self._axis):
            x = left + wide * self._axis.share(tick)
            painter.drawLine(QPointF(x, line), QPointF(x, line - look.px(5)))
        for mark, _words in self._axis.marks:
            x = left + wide * self._axis.share(mark)
            painter.drawLine(QPointF(x, line), QPointF(x, line - look.px(8)))
        painter.setFont(letter(look, Letter.TICK))
        metrics = painter.fontMetrics()
        free = float(left)
        for mark, words in self._axis.marks:
            x = left + wide * self._axis.share(mark)
            half = metrics.horizontalAdvance(words) / 2
            x = min(max(x - half, left), left + wide - 2 * half)
            if x < free:
                continue
            free = x + 2 * half + GAP
            painter.drawText(QPointF(x, line - look.px(12)), words)
