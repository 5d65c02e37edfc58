"""A box for one figure at the portal: empty, its last value and limit above it, what is odd said beside it."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from lamproom.air.figures import read_figure
from lamproom.desk.parts.field import LineBox
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Place, Role, look_of
from lamproom.desk.watch.lettering import LEFT, RIGHT, write
from lamproom.office.views.watch_air import Box
from lamproom.words import Refusal, say

BOX_WIDE = 150


class _Line(LineBox):
    """The line itself; tells when the keyboard comes to it."""

    came = Signal()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.came.emit()


class TypedBox(QWidget):
    """Signals: ``judged()`` when the box was left or Enter pressed, ``entered()`` on Enter, ``typing(str)``."""

    judged = Signal()
    entered = Signal()
    came = Signal()

    def __init__(self, name: str, box: Box, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.box = box
        self.mark = ""
        """'over-range' or 'fault' where no figure can be read off; empty for a figure."""
        self._sign: Sign | None = None
        self._words = ""
        self.line = _Line(Place.PORTAL, Letter.VALUE, True, self)
        self.line.setObjectName(name)
        self.line.setAccessibleName(say("watch.box", gas=box.name, unit=box.unit, limit=box.limit))
        self.line.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.line.setInputMethodHints(Qt.InputMethodHint.ImhFormattedNumbersOnly)
        self.line.setEnabled(box.seen)
        self.line.editingFinished.connect(self.judged)
        self.line.returnPressed.connect(self.entered)
        self.line.textEdited.connect(self._typed)
        self.line.came.connect(self.came)

    def _typed(self, _text: str) -> None:
        self.mark = ""
        self.tell(None, "")

    def text(self) -> str:
        """As typed."""
        return self.line.text().strip()

    def value(self) -> Decimal:
        """The figure typed. Raises Refusal when it is none."""
        return read_figure(self.text())

    def readable(self) -> Refusal | None:
        """What is wrong with the text, None when nothing is."""
        if not self.text():
            return None
        try:
            self.value()
        except Refusal as refusal:
            return refusal
        return None

    def empty(self) -> bool:
        """Neither a figure nor a mark."""
        return not self.text() and not self.mark

    def set_mark(self, mark: str) -> None:
        """Over range or fault, in place of a figure."""
        self.mark = mark
        self.line.clear()
        words = {"over-range": say("watch.over_range"), "fault": say("watch.fault")}.get(mark, "")
        self.tell(Sign.DANGER if mark == "over-range" else Sign.FAULT if mark else None, words)

    def set_text(self, text: str) -> None:
        """Another figure, chosen by the person."""
        self.mark = ""
        self.line.setText(text)
        self.tell(None, "")

    def tell(self, sign: Sign | None, words: str) -> None:
        """What is odd or how it stands, beside the box."""
        self._sign, self._words = sign, words
        self.line.setAccessibleDescription(words)
        self.line.setProperty("trouble", sign in (Sign.DANGER, Sign.CAUTION))
        self.line.style().unpolish(self.line)
        self.line.style().polish(self.line)
        self.update()

    def said(self) -> str:
        """The words beside the box."""
        return self._words

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The line at the right foot."""
        high = self.line.height()
        wide = min(BOX_WIDE, self.width() - 90)
        self.line.setGeometry(self.width() - wide, self.height() - high, wide, high)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Name and last value above; unit and limit, or what is said, beside."""
        look, painter, box = look_of(self), QPainter(self), self.box
        w, h = float(self.width()), float(self.height())
        top = max(24.0, h - self.line.height() - 4)
        write(painter, look, QRectF(0, 0, w * 0.62, top), box.name, Letter.HEAD, bold=True)
        last = say("watch.last", value=box.last) if box.last else ""
        write(painter, look, QRectF(w * 0.62, 0, w * 0.38, top), last, Letter.BODY, align=RIGHT)
        room = QRectF(0, top + 4, w - self.line.width() - 10, h - top - 4)
        if not box.seen:
            write(painter, look, room, say("watch.no_sensor"), Letter.TABLE, wrap=True, align=LEFT)
            return
        if self._sign is not None:
            draw_sign(painter, QRectF(0, room.top() + 2, 24, 24), self._sign, look.theme)
            under = QRectF(0, room.top() + 28, room.width(), room.height() - 28)
            if not self._words:
                write(painter, look, under, box.limit, Letter.TABLE, wrap=True)
            write(painter, look, under, self._words, Letter.TABLE, bold=True, wrap=True)
            return
        tone = look.colour(Role.TEXT)
        write(painter, look, room, box.limit, Letter.BODY, wrap=True, colour=tone)
