"""Something stated with its moment (level, opening, fan): what to fill in, or what stands, with a way to state anew."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.said_line import SaidLine
from lamproom.desk.workbook.sheet import Sheet
from lamproom.words import say


class Stated(QWidget):
    """``ask`` holds the fields; they give way to the words once stated, and come back on 'Change' with the caution
    that a new statement makes every point be tested again."""

    def __init__(self, sheet: Sheet, name: str, again: str, change: str = "") -> None:
        super().__init__()
        self._sheet = sheet
        self._done = ""
        self.changing = False
        self.first: QWidget | None = None
        self.ask = QWidget()
        self.fields = QVBoxLayout(self.ask)
        self.fields.setContentsMargins(0, 0, 0, 0)
        self.fields.setSpacing(8)
        self._again = SaidLine(Sign.MUST, again)
        self._state = SaidLine(Sign.WITHIN)
        self._note = Label(size=Letter.SMALL, tone=Role.SECOND)
        self.change = sheet.button(f"{name}.change", change or say("workbook.change"), self.reopen, Kind.LINK)
        self._answer = QWidget()
        row = QHBoxLayout(self._answer)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(self._state, 1, Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self._note)
        row.addWidget(self.change)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        page.addWidget(self._again)
        page.addWidget(self.ask)
        page.addWidget(self._answer)
        self.show_stated("", "")

    def show_stated(self, done: str, note: str, sign: Sign = Sign.WITHIN) -> None:
        """Show what stands; empty: nothing was stated."""
        if done != self._done:
            self.changing = False
        self._done = done
        self._state.say_it(sign, done)
        self._note.setText(note)
        asked = not done or self.changing
        self.ask.setVisible(asked)
        self._again.setVisible(bool(done) and self.changing)
        self._answer.setVisible(not asked)

    def reopen(self) -> None:
        """State it anew."""
        self.changing = True
        self.show_stated(self._done, self._note.text(), self._state.sign)
        if self.first is not None:
            self._sheet.reach(self.first)

    def stated(self) -> None:
        """A record was made: the fields give way."""
        self.changing = False
        self.show_stated(self._done, self._note.text(), self._state.sign)

    @property
    def is_open(self) -> bool:
        """Does it wait to be stated?"""
        return not self._done
