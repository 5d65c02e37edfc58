"""With no permit open in the Workbook: the permits that are not closed out, and the spaces for a new one."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from lamproom.desk.carry_over import open_draft
from lamproom.desk.desk import Desk
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.choose_row import ChooseRow
from lamproom.desk.workbook.state_signs import sign_of
from lamproom.office.views.workbook import SpaceEntry, permits, spaces
from lamproom.words import say


class ChoosePermit(QWidget):
    """Left the open permits, right the spaces. Signal: ``chosen(str)`` with the number of a permit, new or old."""

    chosen = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._rows: list[QWidget] = []
        self._permits, left = self._column(say("workbook.choose"), "")
        self._spaces, right = self._column(say("workbook.new"), say("workbook.new_how"))
        row = QHBoxLayout(self)
        row.setContentsMargins(24, 18, 24, 18)
        row.setSpacing(32)
        row.addWidget(left, 1)
        row.addWidget(rule(vertical=True, strong=True))
        row.addWidget(right, 1)

    def _column(self, title: str, under: str) -> tuple[QVBoxLayout, QWidget]:
        inside = QWidget()
        inside.setProperty("ground", "clear")
        rows = QVBoxLayout(inside)
        rows.setContentsMargins(6, 6, 6, 6)
        rows.setSpacing(8)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(inside)
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(Label(title, Letter.TITLE, bold=True))
        if under:
            column.addWidget(Label(under, Letter.TABLE, tone=Role.SECOND, wrap=True))
        column.addWidget(scroll, 1)
        return rows, whole

    def refresh(self) -> None:
        """Show what can be chosen now."""
        focused = next((row.objectName() for row in self._rows if row.hasFocus()), "")
        for row in self._rows:
            row.hide()
            row.deleteLater()
        self._rows = []
        for column in (self._permits, self._spaces):
            while column.takeAt(0) is not None:
                pass
        office = self._desk.office
        for entry in permits(office):
            row = ChooseRow(entry.space, entry.number, entry.state_words, entry.note, sign_of(entry.state))
            self._put(self._permits, row, f"workbook.open.{entry.number}", self._open(entry.number))
        for space in spaces(office):
            row = ChooseRow(space.name, "", space.place, space.barred, Sign.PLUS)
            row.setAccessibleName(say("workbook.space_row", space=space.name))
            row.setAccessibleDescription(space.place)
            row.setEnabled(not space.barred)
            self._put(self._spaces, row, f"workbook.new.{space.id}", self._new(space))
        if not permits(office):
            self._say_none(self._permits, say("workbook.none_open"))
        if not spaces(office):
            self._say_none(self._spaces, say("workbook.no_spaces"))
        self._permits.addStretch(1)
        self._spaces.addStretch(1)
        for row in self._rows:
            if row.objectName() == focused:
                row.setFocus()

    def _put(self, column: QVBoxLayout, row: ChooseRow, name: str, pressed: Callable[[], None]) -> None:
        row.setObjectName(name)
        row.clicked.connect(lambda _checked=False: pressed())
        column.addWidget(row)
        self._rows.append(row)

    def _say_none(self, column: QVBoxLayout, words: str) -> None:
        label = Label(words, Letter.TABLE, tone=Role.SECOND, wrap=True)
        column.addWidget(label)
        self._rows.append(label)

    def _open(self, number: str) -> Callable[[], None]:
        return lambda: self.chosen.emit(number)

    def _new(self, space: SpaceEntry) -> Callable[[], None]:
        return lambda: self.open_new(space)

    def open_new(self, entry: SpaceEntry) -> None:
        """Open a draft and show it."""
        if self._desk.person is None:
            self._desk.said.emit("refused", say("workbook.who"))
            return
        opened = open_draft(self._desk, entry.space, entry.renews, entry.route)
        if opened:
            self.chosen.emit(opened)

    def focus_first(self, new: bool) -> None:
        """Give the keyboard to the first permit, or to the first space."""
        wanted = "workbook.new." if new else "workbook.open."
        names = [row for row in self._rows if row.objectName().startswith(wanted)]
        for row in (*names, *self._rows):
            if row.isEnabled() and row.focusPolicy() != Qt.FocusPolicy.NoFocus:
                row.setFocus(Qt.FocusReason.OtherFocusReason)
                return
