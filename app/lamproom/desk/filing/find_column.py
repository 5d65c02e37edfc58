"""The question: words and days typed, the permits that fit listed below."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.filing.found_list import FoundView
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Place, Role
from lamproom.office.views.filing import FoundList, found, read_day
from lamproom.words import Refusal, say


class FindColumn(QWidget):
    """Finds permits. Signals: ``chosen(str)`` the number of the one to show, ``export_asked()``."""

    chosen = Signal(str)
    export_asked = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._words = Field(say("filing.words"), place=Place.OFFICE)
        self._words.box.setObjectName("filing.find.words")
        self._from = Field(say("filing.from"), place=Place.OFFICE)
        self._from.box.setObjectName("filing.find.from")
        self._to = Field(say("filing.to"), place=Place.OFFICE)
        self._to.box.setObjectName("filing.find.to")
        for field in (self._words, self._from, self._to):
            field.typing.connect(lambda _text: self.ask())
            field.committed.connect(lambda _text: self.ask())
            field.entered.connect(lambda _text: self._go_to_first())
        for field in (self._from, self._to):
            field.box.setAccessibleDescription(say("filing.day_form"))
        self._trouble = Label("", Letter.SMALL, tone=Role.DANGER_TEXT, wrap=True)
        self._count = Label("", Letter.OFFICE, bold=True)
        self._all = Button(say("filing.show_all"), Kind.LINK, Place.OFFICE)
        self._all.setObjectName("filing.find.all")
        self._all.clicked.connect(self._clear)
        self._export = Button(say("filing.export"), Kind.LINK, Place.OFFICE)
        self._export.setObjectName("filing.export")
        self._export.clicked.connect(self.export_asked)
        self._empty = Label("", Letter.OFFICE, tone=Role.SECOND, wrap=True)
        self.view = FoundView()
        self.view.chosen.connect(self.chosen)
        self._lay()

    def _lay(self) -> None:
        days = QHBoxLayout()
        days.setSpacing(12)
        days.addWidget(self._from)
        days.addWidget(self._to)
        line = QHBoxLayout()
        line.setSpacing(14)
        line.addWidget(self._count, 1)
        line.addWidget(self._all)
        line.addWidget(self._export)
        page = QVBoxLayout(self)
        page.setContentsMargins(24, 12, 8, 0)
        page.setSpacing(8)
        page.addWidget(Label(say("filing.find"), Letter.TITLE, bold=True))
        page.addWidget(self._words)
        page.addLayout(days)
        page.addWidget(self._trouble)
        page.addLayout(line)
        page.addWidget(self._empty)
        page.addWidget(self.view, 100)
        # Where nothing was found the list is hidden, and what stands above it must not spread.
        page.addStretch(1)

    def ask(self) -> None:
        """Ask again, with what stands in the fields; a day that cannot be read is said beside and asks nothing."""
        days: list[date | None] = []
        for field in (self._from, self._to):
            field.clear_error()
            try:
                days.append(read_day(field.text()))
            except Refusal as refusal:
                self._say(refusal.why.say())
                field.box.setProperty("trouble", True)
                return
        try:
            result = found(self._desk.office, self._words.text(), days[0], days[1])
        except Refusal as refusal:
            self._say(refusal.why.say())
            return
        self._say("")
        self._show(result)

    def _say(self, trouble: str) -> None:
        self._trouble.setText(trouble)
        self._trouble.setVisible(bool(trouble))

    def _show(self, result: FoundList) -> None:
        asked = any(field.text() for field in (self._words, self._from, self._to))
        self._count.setText(result.count)
        self._all.setVisible(asked)
        self._empty.setText(result.empty)
        self._empty.setVisible(bool(result.empty))
        self.view.setVisible(bool(result.rows))
        self.view.show_rows(result.rows, self.view.current())

    def _go_to_first(self) -> None:
        """Enter shows the first that was found, and the arrows then walk the list."""
        self.ask()
        numbers = self.view.numbers()
        if numbers and self.view.isVisibleTo(self):
            first = numbers[0] if self.view.current() not in numbers else self.view.current()
            self.mark(first)
            self.chosen.emit(first)
            self.view.setFocus()

    def _clear(self) -> None:
        for field in (self._words, self._from, self._to):
            field.set_text("")
        self.ask()
        self._words.setFocus()

    def mark(self, number: str) -> None:
        """Mark a permit in the list, if it is listed."""
        rows = self.view.numbers()
        if number in rows:
            self.view.mark(number)
