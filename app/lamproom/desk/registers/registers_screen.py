"""The Registers: spaces, people, instruments, time, forms, workings. Left which, then the list, right one page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button
from lamproom.desk.parts.choice import Choice, Option
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.questions import scrolled
from lamproom.desk.registers import instrument_pages, people_pages, site_pages, space_pages, workings_pages
from lamproom.desk.registers.entry_page import EntryPage
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class Register:
    """A register: its rows, the page of one, whether something new can be put in."""

    listed: Callable[[Desk], list[Option]]
    opened: Callable[[Desk, str], QWidget]
    grows: bool = True
    wide: int = 344
    """Pixels of its list."""


REGISTERS: dict[str, Register] = {
    "spaces": Register(space_pages.listed, space_pages.opened),
    "people": Register(people_pages.listed, people_pages.opened),
    "instruments": Register(instrument_pages.listed, instrument_pages.opened),
    "time": Register(lambda _desk: [], lambda desk, _id: site_pages.TimePage(desk), grows=False),
    "form": Register(site_pages.forms_listed, site_pages.form_opened, grows=False),
    "workings": Register(workings_pages.listed, workings_pages.opened, grows=False, wide=412),
}
_ALSO = {"space": "spaces", "person": "people", "instrument": "instruments", "figures": "form"}


class RegistersScreen(QWidget):
    """``show_where(register="people", id="P-02")``; an obstacle's ``target`` ('time', 'figures', 'space') works too."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._register = ""
        self._id = ""
        self._page: QWidget | None = None
        self._gone: QWidget | None = None
        self._tabs: dict[str, Button] = {}
        self._title = Label(size=Letter.HEAD, bold=True)
        self._new = Button("", sign=Sign.PLUS)
        self._choice = Choice("")
        self._empty = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._middle = QWidget()
        self._right = QVBoxLayout()
        self._lay()
        desk.changed.connect(self._changed)
        self.show_register("spaces")

    def _lay(self) -> None:
        left = QWidget()
        left.setFixedWidth(178)
        column = QVBoxLayout(left)
        column.setContentsMargins(20, 14, 12, 12)
        column.setSpacing(8)
        for key in REGISTERS:
            tab = Button(say(f"registers.tab.{key}"))
            tab.setObjectName(f"registers.{key}")
            tab.setCheckable(True)
            tab.clicked.connect(lambda _checked=False, key=key: self.show_register(key))
            self._tabs[key] = tab
            column.addWidget(tab)
        column.addStretch(1)
        middle = QVBoxLayout(self._middle)
        middle.setContentsMargins(14, 12, 14, 12)
        middle.setSpacing(8)
        middle.addWidget(self._title)
        self._new.setObjectName("registers.new")
        self._new.clicked.connect(lambda: self.open("new"))
        middle.addWidget(self._new)
        self._choice.chosen.connect(self.open)
        inner = QWidget()
        rows = QVBoxLayout(inner)
        rows.setContentsMargins(0, 0, 8, 0)
        rows.addWidget(self._empty)
        rows.addWidget(self._choice)
        rows.addStretch(1)
        area: QScrollArea = scrolled(inner)
        middle.addWidget(area, 1)
        page = QHBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(0)
        page.addWidget(left)
        page.addWidget(rule(vertical=True, strong=True))
        page.addWidget(self._middle)
        page.addWidget(rule(vertical=True, strong=True))
        self._right.setContentsMargins(0, 0, 0, 0)
        page.addLayout(self._right, 1)

    # Where ------------------------------------------------------------------------------------------------------------

    def show_where(self, **where: str) -> None:
        """Open a register, and in it whatever has the id."""
        wanted = where.get("register", "") or where.get("target", "").split("/")[0]
        register = _ALSO.get(wanted, wanted)
        if register not in REGISTERS:
            return
        self.show_register(register)
        id = where.get("id", "")
        if not id and register == "spaces" and where.get("permit"):
            id = self._desk.office.permit(where["permit"]).opened.space
        if id:
            page, _, question = where.get("target", "").partition("/")[2].partition("/")
            self.open(f"{id}/{page}" if page else id)
            self._lead_to(question)

    def _lead_to(self, question: str) -> None:
        """To the very question that an obstacle's link names, once the page has its size."""
        page = self._page
        if question and isinstance(page, EntryPage):
            page.show_question(question)
            QTimer.singleShot(0, page, lambda: page.show_question(question))

    def show_register(self, register: str) -> None:
        """Open a register with its first row, or with the page for the first entry where it is empty."""
        self._register = register
        for key, tab in self._tabs.items():
            tab.setChecked(key == register)
        self._title.setText(say(f"registers.tab.{register}"))
        self._new.setVisible(REGISTERS[register].grows)
        self._new.set_words(say(f"registers.new.{register}") if REGISTERS[register].grows else "")
        self._middle.setFixedWidth(REGISTERS[register].wide)
        self._middle.setVisible(register != "time")
        options = self._list()
        self.open(options[0].value if options else "new")

    def _list(self) -> list[Option]:
        options = REGISTERS[self._register].listed(self._desk)
        self._choice.set_options(options)
        for option in options:
            self._choice.row(option.value).setObjectName(f"registers.row.{option.value}")
        self._empty.setText("" if options else say("registers.empty"))
        self._empty.setVisible(not options)
        return options

    def open(self, id: str) -> None:
        """Show one page of the register; what was half typed on it before is there again."""
        self._id = id
        self._choice.set_values([id.split("/")[0]])
        if self._page is not None:
            self._right.removeWidget(self._page)
            # Away at once, alive until its own press has returned.
            self._gone = self._page
            self._gone.setParent(None)
            self._gone.hide()
            self._gone.deleteLater()
        page = REGISTERS[self._register].opened(self._desk, id)
        recorded = getattr(page, "recorded", None)
        if recorded is not None:
            recorded.connect(self._recorded)
        self._page = page
        self._right.addWidget(page)
        page.show()

    def _recorded(self, id: str) -> None:
        self._list()
        self.open(id)

    def _changed(self, streams: object) -> None:
        touched = streams if isinstance(streams, frozenset) else frozenset()
        if any(stream.split("/")[0] in ("space", "person", "instrument") for stream in touched):
            self._list()
            self._choice.set_values([self._id.split("/")[0]])
