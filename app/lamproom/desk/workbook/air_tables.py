"""The air test as a table of all sets with what was corrected, and large for the entrants who are shown the results."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.parts.table import Cell, Table
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.permit_sheet import Press
from lamproom.office.views.air_test_sheet import AirTestView
from lamproom.words import say


class AirTable(QWidget):
    """Every set that was taken, in order; a correction stands below its set, the old figure struck."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._page = QVBoxLayout(self)
        self._page.setContentsMargins(0, 0, 0, 0)
        self._gases: tuple[str, ...] | None = None
        self.table: Table | None = None

    def show_view(self, view: AirTestView) -> None:
        """All sets, newest last."""
        gases = tuple(f"{box.name}, {box.unit}" for box in view.boxes)
        if self.table is None or gases != self._gases:
            self._build(gases)
        rows: list[Sequence[Cell | str]] = []
        corrected: list[int] = []
        for line in view.sets:
            first = [Cell(line.place, bold=True), Cell(line.time)]
            figures = [Cell(figure, numeric=True, bold=True) for figure in line.figures]
            counts = Cell(line.counts or say("sheets.air.table_counts_yes"), tone=Role.SECOND)
            rows.append([*first, *figures, Cell(line.by), counts])
            for struck in line.struck:
                corrected.append(len(rows))
                rows.append([Cell(struck, tone=Role.SECOND), *([Cell("")] * (len(figures) + 3))])
        if self.table is not None:
            self.table.set_rows(rows)
            self.table.clearSpans()
            for at in corrected:
                self.table.setSpan(at, 0, 1, len(gases) + 4)

    def _build(self, gases: tuple[str, ...]) -> None:
        if self.table is not None:
            self._page.removeWidget(self.table)
            self.table.deleteLater()
        self._gases = gases
        heads = [say("sheets.air.table_place"), say("sheets.air.table_time"), *gases]
        heads += [say("sheets.air.table_by"), say("sheets.air.table_counts")]
        self.table = Table(say("sheets.air.table_name"), heads, choosable=False)
        self.table.setObjectName("workbook.air-test.table")
        self._page.addWidget(self.table)


class ShownResults(QWidget):
    """The results in large figures, for entrants at the screen: 29 CFR 1910.146(d)(5)(vi). Signal: ``closed()``."""

    closed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = Label(size=Letter.TITLE, bold=True, wrap=True)
        self.note = Label(say("sheets.air.shown_note"), Letter.TABLE, wrap=True)
        self.back = Press(say("sheets.air.shown_close"), Kind.MAIN)
        self.back.setObjectName("workbook.air-test.shown-close")
        self.back.clicked.connect(self.closed)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(18)
        self._grid.setVerticalSpacing(6)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(12)
        page.addWidget(self.title)
        page.addLayout(self._grid)
        page.addStretch(1)
        page.addWidget(self.note)
        page.addWidget(self.back, 0, Qt.AlignmentFlag.AlignLeft)

    def show_view(self, view: AirTestView, space: str) -> None:
        """The newest figures at each point, against the limits."""
        self.title.setText(say("sheets.air.shown_title", space=space))
        while self._grid.count():
            item = self._grid.takeAt(0)
            if item is not None and (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        for column, scale in enumerate(view.scales, 1):
            self._put(Label(scale.name, Letter.TABLE, bold=True, wrap=True), 0, column)
            self._put(Label(scale.unit, Letter.SMALL, tone=Role.SECOND), 1, column)
        self._grid.addWidget(rule(strong=True), 2, 0, 1, len(view.scales) + 1)
        for row, (_depth, name, time) in enumerate(view.points, 3):
            self._put(Label(name, Letter.HEAD, bold=True), row, 0, Qt.AlignmentFlag.AlignLeft)
            for column, scale in enumerate(view.scales, 1):
                self._put(self._cell(view, name.removesuffix(" m"), scale.gas, time), row, column)
        last = len(view.points) + 3
        self._grid.addWidget(rule(strong=True), last, 0, 1, len(view.scales) + 1)
        self._put(Label(say("sheets.air.shown_limit"), Letter.TABLE), last + 1, 0, Qt.AlignmentFlag.AlignLeft)
        for column, scale in enumerate(view.scales, 1):
            self._put(Label(scale.limit, Letter.TABLE), last + 1, column)

    def _cell(self, view: AirTestView, depth: str, gas: str, time: str) -> QWidget:
        found = next((v for v in view.values if v.depth == depth and v.gas == gas), None)
        if found is None:
            return Label(say("sheets.review.not_tested") if not time else "\u2013", Letter.SMALL, tone=Role.SECOND)
        if found.outside:
            return StateWord(Sign.DANGER, found.text, Letter.BIG, side=26)
        return Label(found.text, Letter.BIG, bold=True)

    def _put(
        self, widget: QWidget, row: int, column: int, side: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignRight
    ) -> None:
        self._grid.addWidget(widget, row, column, side | Qt.AlignmentFlag.AlignVCenter)
