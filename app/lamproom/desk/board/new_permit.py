"""A new permit: choose the space, open the draft, go on in the Workbook."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from lamproom.desk.carry_over import open_draft
from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import Choice, Option
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Place, Role
from lamproom.office.office import new_act
from lamproom.office.views.board import spaces
from lamproom.office.views.new_permits import opening_after
from lamproom.words import say

MANY = 6
"""From so many spaces on they can be found by words."""


class NewPermit(QWidget):
    """The panel that opens a draft. Signals: ``opened(str)`` the number of the draft, ``left()``."""

    opened = Signal(str)
    left = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._act = new_act()
        self._first = ""
        self.setProperty("ground", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(say("board.new_permit"))
        self._trouble = Label("", Letter.OFFICE, bold=True, wrap=True)
        self._find = Field(say("board.find_space"), place=Place.TRAILER, size=Letter.OFFICE)
        self._find.box.setObjectName("board.new.find")
        self._find.entered.connect(lambda _text: self._fill())
        self._find.typing.connect(lambda _text: self._fill())
        self._spaces = Choice("")
        self._spaces.chosen.connect(lambda _value: self._trouble.setText(""))
        self._none = Label("", Letter.OFFICE, tone=Role.SECOND, wrap=True)
        self._open = Button(say("board.open_draft"), Kind.MAIN)
        self._open.setObjectName("board.new.open")
        self._open.clicked.connect(self._press)
        leave = Button(say("board.leave"), keys="Escape")
        leave.setObjectName("board.new.leave")
        leave.clicked.connect(self.left)
        holder = QWidget()
        holder.setProperty("ground", "clear")
        rows = QVBoxLayout(holder)
        rows.setContentsMargins(4, 4, 8, 4)
        rows.addWidget(self._spaces)
        rows.addWidget(self._none)
        rows.addStretch(1)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setWidget(holder)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        buttons = QHBoxLayout()
        buttons.setSpacing(12)
        buttons.addWidget(self._open)
        buttons.addWidget(leave)
        buttons.addStretch(1)
        page = QVBoxLayout(self)
        page.setContentsMargins(16, 12, 12, 16)
        page.setSpacing(10)
        page.addWidget(Label(say("board.choose_space"), Letter.HEAD, bold=True))
        page.addWidget(self._find)
        page.addWidget(area, 1)
        page.addWidget(self._trouble)
        page.addLayout(buttons)

    def begin(self, after: str = "") -> None:
        """Show the spaces as they are now, nothing chosen, and take the keyboard. ``after``: what follows this permit
        is chosen."""
        self._act = new_act()
        self._find.set_text("")
        self._trouble.setText("")
        self._spaces.set_values(())
        self._fill()
        self._find.setVisible(len(spaces(self._desk.office)) > MANY)
        if after:
            self._spaces.set_values([opening_after(self._desk.office, after)])
            self._open.setFocus()
            return
        self.focus_first()

    def focus_first(self) -> None:
        """Into the field for words where there are many spaces, else onto the first space."""
        if not self._find.isHidden():
            self._find.setFocus()
            return
        (self._spaces.row(self._first) if self._first else self._open).setFocus()

    def _fill(self) -> None:
        words = self._find.text().casefold().split()
        known = spaces(self._desk.office)
        fit = [s for s in known if all(word in f"{s.name} {s.note}".casefold() for word in words)]
        self._spaces.set_options(Option(s.id, s.name, s.note, s.barred) for s in fit)
        self._first = next((s.id for s in fit if not s.barred), "")
        for s in fit:
            self._spaces.row(s.id).setObjectName(f"board.new.space.{s.id}")
        self._none.setText("" if fit else say("board.no_space_fits" if known else "board.no_space"))
        self._none.setVisible(not fit)

    def _press(self) -> None:
        space = self._spaces.value()
        if not space:
            self._trouble.setText(say("board.choose_space_first"))
            return
        chosen = next(one for one in spaces(self._desk.office) if one.id == space)
        opened = open_draft(self._desk, chosen.space, chosen.renews, chosen.route, self._act)
        if opened:
            self.opened.emit(opened)
