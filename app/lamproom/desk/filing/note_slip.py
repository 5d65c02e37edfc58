"""A note to keep with a permit: typed on a slip, kept once, never changed after."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.theme import RADIUS, Place, Role, look_of
from lamproom.office.note import note
from lamproom.words import say


class NoteSlip(QWidget):
    """Hidden until it is asked for, or half-typed text waits. Signal: ``left()``."""

    left = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._number = ""
        self._text = Field(say("filing.note_text"), lines=2, place=Place.OFFICE)
        self._text.box.setObjectName("filing.note.text")
        self._text.typing.connect(self._keep_draft)
        self._keep = Button(say("filing.keep_note"), Kind.MAIN, Place.OFFICE)
        self._keep.setObjectName("filing.note.keep")
        self._keep.clicked.connect(self._keep_note)
        leave = Button(say("filing.leave_note"), place=Place.OFFICE)
        leave.setObjectName("filing.note.leave")
        leave.clicked.connect(self._leave)
        row = QHBoxLayout()
        row.setSpacing(10)
        row.addWidget(self._keep)
        row.addWidget(leave)
        row.addStretch(1)
        page = QVBoxLayout(self)
        page.setContentsMargins(14, 10, 14, 12)
        page.setSpacing(8)
        page.addWidget(self._text)
        page.addLayout(row)
        self.hide()

    @property
    def _owner(self) -> str:
        return f"permit/{self._number}"

    def show_permit(self, number: str) -> None:
        """Another permit: its own half-typed note comes back."""
        self._number = number
        self._text.clear_error()
        draft = self._desk.draft(self._owner, "note")
        self._text.set_draft(draft)
        self.setVisible(bool(draft))

    def begin(self) -> None:
        """Show the slip and take the keyboard."""
        self.show()
        self._text.setFocus()

    def _keep_draft(self, text: str) -> None:
        if self._number:
            self._desk.keep_draft(self._owner, "note", text)

    def _keep_note(self) -> None:
        text = self._text.text().strip()
        if not text:
            self._text.show_error(say("filing.note_empty"))
            self._text.setFocus()
            return
        self._text.clear_error()
        if self._desk.do(note, self._number, text, by=self._desk.person):
            self._text.set_text("")
            self._desk.keep_draft(self._owner, "note", "")
            self._desk.said.emit("done", say("filing.noted", number=self._number))
            self._leave()

    def _leave(self) -> None:
        self.hide()
        self.left.emit()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The ink edge of a slip."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        half = look.emphasis / 2
        painter.setPen(edge_pen(look.colour(Role.INK), look.emphasis))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)
