"""The air test as a table of all sets with what was corrected, and large for the entrants who are shown the results."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.table import Cell, Table
from lamproom.desk.theme import Letter, Place, Role
from lamproom.desk.workbook.air_grid import air_grid
from lamproom.desk.workbook.permit_sheet import Press, emptied
from lamproom.office.views.air_table import AirTable as AirPlain
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
        self.reasons = Label(size=Letter.SMALL, wrap=True)
        self._page.addWidget(self.reasons)

    def show_view(self, view: AirTestView) -> None:
        """All sets, newest last."""
        gases = tuple(box.name.replace(" ", "\n", 1) + f"\n{box.unit}" for box in view.boxes)
        if self.table is None or gases != self._gases:
            self._build(gases)
        rows: list[Sequence[Cell | str]] = []
        for line in view.sets:
            figures = [Cell(figure, numeric=True, bold=True) for figure in line.figures]
            counts = Cell(line.counts or say("sheets.air.table_counts_yes"), tone=Role.SECOND)
            rows.append([Cell(line.place, bold=True), line.time, *figures, line.by, counts])
            for struck in line.struck:
                old = [Cell("", numeric=True)] * len(figures)
                old[struck.column] = Cell(struck.old, struck=True, numeric=True)
                rows.append([Cell(say("sheets.air.corrected"), tone=Role.SECOND), "", *old, "", ""])
        if self.table is not None:
            self.table.set_rows(rows)
        words = [struck.words for line in view.sets for struck in line.struck]
        self.reasons.setText("\n".join(words))
        self.reasons.setVisible(bool(words))

    def _build(self, gases: tuple[str, ...]) -> None:
        if self.table is not None:
            self._page.removeWidget(self.table)
            self.table.hide()
            self.table.deleteLater()
        self._gases = gases
        heads = [say("sheets.air.table_place"), say("sheets.air.table_time"), *gases]
        heads += [say("sheets.air.table_by"), say("sheets.air.table_counts")]
        last = len(heads) - 1
        self.table = Table(say("sheets.air.table_name"), heads, place=Place.OFFICE, stretch=last, choosable=False)
        self.table.setObjectName("workbook.air-test.table")
        self._page.insertWidget(0, self.table, 1)


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
        self._place = QVBoxLayout()
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(12)
        page.addWidget(self.title)
        page.addLayout(self._place)
        page.addStretch(1)
        page.addWidget(self.note)
        page.addWidget(self.back, 0, Qt.AlignmentFlag.AlignLeft)

    def show_air(self, air: AirPlain, space: str) -> None:
        """The newest figures at each point, against the limits."""
        self.title.setText(say("sheets.air.shown_title", space=space))
        emptied(self._place)
        self._place.addWidget(air_grid(air, big=True))
