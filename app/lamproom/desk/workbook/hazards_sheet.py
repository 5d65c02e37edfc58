"""The sheet 'hazards': read across, who sees this hazard; below each, how it is held today."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.choice import DropList, Option
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.kept_rows import keep_rows
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.parts.notice import MessageLine
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.hazard_row import HazardLine, HeadCells
from lamproom.desk.workbook.questions import Questions
from lamproom.desk.workbook.sheet import WIDEST, Sheet, block, columns
from lamproom.office.add_hazard import add_hazard
from lamproom.office.state_basis import state_basis
from lamproom.office.views.hazards_sheet import HazardsSheetView, hazard_id, hazards_sheet
from lamproom.words import say

_NO_GAS = "none"
_BAR = 14
"""Width of the scroll bar."""


class HazardsSheet(Sheet):
    """Hazards of the evaluation, then those added today."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "hazards", say("workbook.hazards.title"))
        self._view: HazardsSheetView | None = None
        self._lines: dict[str, HazardLine] = {}
        self._heads: HeadCells | None = None
        self._sensors: tuple[tuple[str, ...], tuple[str, ...]] | None = None
        self._none = Label(say("workbook.hazards.no_sensors"), Letter.SMALL, bold=True)
        self._assign = self.button(
            "assign",
            say("workbook.hazards.assign"),
            lambda: self.desk.go("workbook", permit=self.number, target="instruments/assign"),
            Kind.LINK,
        )
        self._bare, bare = block()
        bare.addLayout(columns(self._none, self._assign, None, middle=True))
        self.pinned.addWidget(self._bare)
        top = QWidget()
        self._top = QVBoxLayout(top)
        # As wide as the rows, which leave room for the bar at the right.
        self._top.setContentsMargins(0, 0, _BAR, 0)
        self._top.addWidget(rule(strong=True))
        top.setMaximumWidth(WIDEST - 2 * 18 + _BAR)
        self.pinned.addWidget(top)
        self._area.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self._list = QVBoxLayout()
        self._list.setSpacing(6)
        self.page.addLayout(self._list)
        self._lay_add()
        self._about, about = block()
        about.addWidget(rule(strong=True))
        self._questions = Questions(self, lambda row: self.move_on(row, self._questions.open_places()))
        about.addWidget(self._questions)
        self.page.addWidget(self._about)
        self._gone, gone = block()
        gone.addWidget(rule(strong=True))
        gone.addWidget(Label(say("workbook.hazards.basis_how"), Letter.SMALL, tone=Role.SECOND, wrap=True))
        self._basis = self.field("basis", Field(say("workbook.hazards.basis")))
        self._basis_note = Label("", Letter.SMALL, tone=Role.SECOND)
        gone.addWidget(self._basis)
        gone.addWidget(self._basis_note)
        self._basis.committed.connect(self._state_basis)
        self.page.addWidget(self._gone)
        self.page.addStretch(1)

    def _lay_add(self) -> None:
        self._add = self.button("add", say("workbook.hazards.add"), self._open_add)
        self._add.set_words(say("workbook.hazards.add"), sign=Sign.PLUS)
        self._new, page = block()
        self._name = self.field("add.name", Field(say("workbook.hazards.name")))
        self._shows = self.field("add.shows", Field(say("workbook.hazards.shows")))
        self._gas = DropList(say("workbook.hazards.gas"))
        self._gas.box.setObjectName(self.name("add.gas"))
        self._sort = DropList(say("workbook.hazards.sort"))
        self._sort.box.setObjectName(self.name("add.sort"))
        self._sort.hide()
        self._add_it = self.button("add.record", say("workbook.hazards.add_it"), self._record_add, Kind.MAIN)
        self._cancel = self.button("add.cancel", say("workbook.hazards.do_not_add"), self._close_add)
        self._gas_wrong = MessageLine()
        page.addWidget(self._name)
        page.addWidget(self._shows)
        page.addWidget(self._gas)
        page.addWidget(self._sort)
        page.addWidget(self._gas_wrong)
        page.addLayout(columns(self._add_it, self._cancel, None))
        self._new.hide()
        self.page.addLayout(columns(self._add, None))
        self.page.addWidget(self._new)
        self._name.entered.connect(lambda _text: self.reach(self._shows.box))
        self._gas.chosen.connect(self._gas_chosen)
        self._sort.chosen.connect(lambda _sort: self._gas_wrong.clear())
        self._shows.entered.connect(lambda _text: self.reach(self._gas.box))

    def refresh(self) -> None:
        """Paint what is recorded now."""
        view = hazards_sheet(self.desk.office, self.number)
        self.say_fixed(view.fixed)
        sensors = tuple(column.name for column in view.columns)
        self._show_heads(sensors, tuple(column.kind for column in view.columns))
        of = {row.id: row for row in view.rows}
        keep_rows(self._list, self._lines, of, lambda id: HazardLine(self, of[id], self._held))
        for row in view.rows:
            self._lines[row.id].show_hazard(row, sensors, view.gone_asked)
        if self._view is None or self._view.gases != view.gases:
            options = [Option(_NO_GAS, say("workbook.hazards.no_gas_option"))]
            self._gas.set_options([*options, *(Option(gas, name) for gas, name in view.gases)])
            self._sort.set_options(Option(sort, name) for sort, name in view.sorts)
        self._questions.show_items(view.items, view.bars, view.standing)
        self._about.setVisible(bool(view.items) or bool(view.standing))
        self._gone.setVisible(view.gone_asked)
        self._basis_note.setText(view.basis_note)
        if not self._basis.box.hasFocus():
            self._basis.set_text(view.basis)
            draft = self.draft("basis")
            if draft and draft != view.basis:
                self._basis.set_draft(draft)
        if not self._new.isVisibleTo(self) and self.draft("add.name"):
            self._name.set_draft(self.draft("add.name"))
            self._shows.set_draft(self.draft("add.shows"))
            self._new.show()
            self._add.hide()
        self._view = view

    def concerns(self, streams: object) -> bool:
        """Acts on the permit alone."""
        return isinstance(streams, frozenset) and f"permit/{self.number}" in streams

    def _state_basis(self, text: str) -> None:
        stored = self._view.basis if self._view is not None else ""
        if not text.strip() or text.strip() == stored:
            return
        self.keep("basis", text.strip())
        if self.record(state_basis, text.strip(), beside=self._basis):
            self.keep("basis", "")

    def _gas_chosen(self, gas: str) -> None:
        """A hazard that is no gas says what sort it is: hot work and dust bring their own questions."""
        self._gas_wrong.clear()
        self._sort.setVisible(gas == _NO_GAS)
        if gas == _NO_GAS:
            self.reach(self._sort.box)

    def _show_heads(self, sensors: tuple[str, ...], kinds: tuple[str, ...]) -> None:
        self._bare.setVisible(not sensors)
        if (sensors, kinds) == self._sensors:
            return
        if self._heads is not None:
            self._top.removeWidget(self._heads)
            self._heads.hide()
            self._heads.deleteLater()
        self._sensors = sensors, kinds
        self._heads = HeadCells(sensors, kinds)
        self._top.insertWidget(0, self._heads)

    def _held(self, line: QWidget) -> None:
        self.move_on(line, self.open_places())

    def open_places(self) -> list[QWidget]:
        """The hazards that nobody has looked at today, then the questions, then the basis."""
        places = [place for one in self._lines.values() if (place := one.open_place()) is not None]
        places += self._questions.open_places()
        if self._view is not None and self._view.gone_asked and not self._view.basis:
            places.append(self._basis.box)
        return places

    def _open_add(self) -> None:
        self._new.show()
        self._add.hide()
        self.reach(self._name.box)

    def _close_add(self) -> None:
        for name, field in (("add.name", self._name), ("add.shows", self._shows)):
            self.keep(name, "")
            field.set_text("")
            field.clear_error()
        self._gas.set_value("")
        self._sort.set_value("")
        self._sort.hide()
        self._gas_wrong.clear()
        self._new.hide()
        self._add.show()
        self.reach(self._add)

    def _record_add(self) -> None:
        name, shows, gas = self._name.text().strip(), self._shows.text().strip(), self._gas.value()
        if not name or not shows:
            (self._name if not name else self._shows).show_error(say("workbook.hazards.add_needs"))
            self.reach((self._name if not name else self._shows).box)
            return
        if not gas:
            self._gas_wrong.say_it(Sign.DANGER, say("workbook.hazards.gas_needed"), at_once=True)
            self.reach(self._gas.box)
            # Once the words have their room below the field.
            QTimer.singleShot(0, self, lambda: self._area.ensureWidgetVisible(self._gas_wrong, 0, 16))
            return
        sort = self._sort.value() if gas == _NO_GAS else "atmosphere"
        if not sort:
            self._gas_wrong.say_it(Sign.DANGER, say("workbook.hazards.sort_needed"), at_once=True)
            self.reach(self._sort.box)
            QTimer.singleShot(0, self, lambda: self._area.ensureWidgetVisible(self._gas_wrong, 0, 16))
            return
        id = hazard_id(name, self._lines)
        if self.record(add_hazard, id, name, shows, None if gas == _NO_GAS else gas, sort, beside=self._name):
            self._close_add()
            self.refresh()
            self.reach(self._lines[id].place())

    def place(self, rest: str) -> QWidget | None:
        """A hazard by its id, the basis, or a question."""
        if rest == "basis":
            return self._basis.box
        line = self._lines.get(rest)
        return line.place() if line is not None else self._questions.place(rest)
