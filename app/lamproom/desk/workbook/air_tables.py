"""The air test as a table of all sets with what was corrected, and large for the entrants who are shown the results."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QPainter, QResizeEvent
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem, QVBoxLayout, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.table import Cell, Table
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place, Role, look_of
from lamproom.desk.workbook.air_grid import air_grid
from lamproom.desk.workbook.permit_sheet import Press, emptied
from lamproom.office.views.air_sets import SetLine
from lamproom.office.views.air_table import AirTable as AirPlain
from lamproom.office.views.air_test_sheet import AirTestView
from lamproom.words import say

_SIDE = 18
"""Pixels beside the words of a cell."""


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
            figures = [
                Cell(figure, Sign.DANGER if at in line.out else None, bold=at in line.out, numeric=True)
                for at, figure in enumerate(line.figures)
            ]
            rows.append([Cell(line.place, bold=True), line.time, *figures, line.by, _counts(line)])
            for struck in line.struck:
                old = [Cell("", numeric=True)] * len(figures)
                old[struck.column] = Cell(struck.old, struck=True, numeric=True)
                rows.append([Cell(say("sheets.air.corrected"), tone=Role.SECOND), "", *old, "", ""])
        limits = [Cell(box.limit.removesuffix(f" {box.unit}"), tone=Role.SECOND, numeric=True) for box in view.boxes]
        rows.append([Cell(say("sheets.air.table_limit"), tone=Role.SECOND), "", *limits, "", ""])
        if self.table is not None:
            self.table.set_rows(rows)
            self._heighten(self.table)
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
        self.table.setItemDelegateForColumn(last, _Wrapped(self.table))
        self._page.insertWidget(0, self.table, 1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width wraps elsewhere."""
        super().resizeEvent(event)
        if self.table is not None:
            self._heighten(self.table)

    def _heighten(self, table: Table) -> None:
        """A row is as high as what is said of whether it counts."""
        look = look_of(self)
        model, last = table.model(), table.model().columnCount() - 1
        metrics = QFontMetricsF(letter(look, Letter.OFFICE))
        room = QRectF(0, 0, max(40, table.columnWidth(last) - look.px(_SIDE)), 10_000)
        for row in range(model.rowCount()):
            text = str(model.data(model.index(row, last)))
            needed = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, text).height() + look.px(10)
            table.setRowHeight(row, max(look.px(table.row_height), round(needed)))


def _counts(line: SetLine) -> Cell:
    if not line.out:
        return Cell(line.counts or say("sheets.air.table_counts_yes"), tone=Role.SECOND)
    if line.counts:
        return Cell(say("sheets.air.table_outside_too", why=line.counts), bold=True)
    return Cell(say("sheets.air.table_counts_outside"), bold=True)


class _Wrapped(QStyledItemDelegate):
    """Words in as many lines as they need."""

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        table = self.parent()
        cell = index.data(Qt.ItemDataRole.UserRole)
        assert isinstance(table, Table) and isinstance(cell, Cell)
        look, box = look_of(table), QRectF(option.rect)
        painter.fillRect(QRectF(box.left(), box.bottom() - 1, box.width(), 1), look.colour(Role.RULE))
        painter.setFont(table.letters(look, cell))
        painter.setPen(look.colour(cell.tone))
        flags = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(box.adjusted(look.px(10), 0, -look.px(_SIDE - 10), 0), flags, cell.text)


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
