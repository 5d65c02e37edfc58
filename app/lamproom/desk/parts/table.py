"""A table of plain cells: words with a sign, a weight, or struck through and still readable."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QEvent, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter
from PySide6.QtWidgets import QHeaderView, QStyledItemDelegate, QStyleOptionViewItem, QTableView, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.dress import puts_on
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Place, Role, look_of
from lamproom.words import say

_CELL = Qt.ItemDataRole.UserRole


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell. ``struck``: an earlier value that was corrected; ``numeric``: at the right, digits under digits."""

    text: str = ""
    sign: Sign | None = None
    bold: bool = False
    tone: Role = Role.TEXT
    struck: bool = False
    numeric: bool = False


class _Cells(QAbstractTableModel):
    def __init__(self, heads: Sequence[str], parent: QWidget) -> None:
        super().__init__(parent)
        self.heads = list(heads)
        self.cells: list[list[Cell]] = []

    def rowCount(self, parent: QModelIndex | QPersistentModelIndex = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.cells)

    def columnCount(self, parent: QModelIndex | QPersistentModelIndex = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.heads)

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        cell = self.cells[index.row()][index.column()]
        if role == _CELL:
            return cell
        if role == Qt.ItemDataRole.DisplayRole:
            return cell.text
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return say("desk.table_cell_struck", text=cell.text) if cell.struck else cell.text
        return None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return self.heads[section]
        if role == Qt.ItemDataRole.TextAlignmentRole and orientation == Qt.Orientation.Horizontal:
            numeric = bool(self.cells) and self.cells[0][section].numeric
            side = Qt.AlignmentFlag.AlignRight if numeric else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignBottom
        return None


class _CellPainter(QStyledItemDelegate):
    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        view = self.parent()
        assert isinstance(view, Table)
        look, cell = look_of(view), index.data(_CELL)
        box = QRectF(option.rect)
        here = view.selectionModel().isRowSelected(index.row())
        if here:
            painter.fillRect(box, look.colour(Role.PANEL))
            if index.column() == 0:
                painter.fillRect(QRectF(box.left(), box.top(), 5, box.height()), look.colour(Role.INK))
        painter.fillRect(QRectF(box.left(), box.bottom() - 1, box.width(), 1), look.colour(Role.RULE))
        inner = box.adjusted(look.px(10), 0, -look.px(8), 0)
        if cell.sign is not None:
            side = look.px(22)
            draw_sign(painter, QRectF(inner.left(), inner.center().y() - side / 2, side, side), cell.sign, look.theme)
            inner.adjust(side + look.px(8), 0, 0, 0)
        font = view.letters(look, cell)
        painter.setFont(font)
        painter.setPen(look.colour(cell.tone))
        side_flag = Qt.AlignmentFlag.AlignRight if cell.numeric else Qt.AlignmentFlag.AlignLeft
        text = QFontMetricsF(font).elidedText(cell.text, Qt.TextElideMode.ElideRight, inner.width())
        painter.drawText(inner, side_flag | Qt.AlignmentFlag.AlignVCenter, text)

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        view = self.parent()
        assert isinstance(view, Table)
        look, cell = look_of(view), index.data(_CELL)
        wide = QFontMetricsF(view.letters(look, cell)).horizontalAdvance(cell.text)
        return QSize(round(wide) + look.px(22 + (30 if cell.sign else 0)), look.px(view.row_height))


class Table(QTableView):
    """Rows of cells under heads. A press or Enter chooses a row. Signal: ``chosen(int)``, the place of the row.

    ``stretch``: the column that takes what room is left.
    """

    chosen = Signal(int)

    def __init__(
        self,
        name: str,
        heads: Sequence[str],
        *,
        place: Place = Place.TRAILER,
        stretch: int = 0,
        choosable: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.row_height = max(46, int(place)) if choosable else 34
        self._size = Letter.OFFICE if place is Place.OFFICE else Letter.TABLE
        self._choosable = choosable
        self._cells = _Cells(heads, self)
        self.setModel(self._cells)
        self.setItemDelegate(_CellPainter(self))
        self.setAccessibleName(name)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setEditTriggers(QTableView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
        one, none = QTableView.SelectionMode.SingleSelection, QTableView.SelectionMode.NoSelection
        self.setSelectionMode(one if choosable else none)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollMode(QTableView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollMode(QTableView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        head = self.horizontalHeader()
        head.setSectionsClickable(False)
        head.setHighlightSections(False)
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(stretch, QHeaderView.ResizeMode.Stretch)
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom)
        self.clicked.connect(lambda index: self._choose(index.row()))
        self.wear(look_of(self))

    def letters(self, look: Look, cell: Cell) -> Any:
        """The font of a cell."""
        font = letter(look, self._size, cell.bold)
        font.setStrikeOut(cell.struck)
        return font

    def wear(self, look: Look) -> None:
        """Take fonts and heights from the look."""
        self.setFont(letter(look, self._size))
        self.horizontalHeader().setFont(letter(look, Letter.SMALL))
        self.verticalHeader().setDefaultSectionSize(look.px(self.row_height))

    def event(self, event: QEvent) -> bool:
        """Dress when first shown."""
        if puts_on(event):
            self.wear(look_of(self))
        return super().event(event)

    def set_rows(self, rows: Sequence[Sequence[Cell | str]]) -> None:
        """Show these rows; plain strings are plain cells. The row chosen stays chosen by its place."""
        at = self.currentIndex().row()
        self._cells.beginResetModel()
        self._cells.cells = [[cell if isinstance(cell, Cell) else Cell(cell) for cell in row] for row in rows]
        self._cells.endResetModel()
        if 0 <= at < len(rows):
            self.select(at)

    def select(self, row: int) -> None:
        """Mark a row as chosen; tells nobody."""
        self.setCurrentIndex(self._cells.index(row, 0))

    def cell(self, row: int, column: int) -> Cell:
        """What stands there."""
        return self._cells.cells[row][column]

    def row_count(self) -> int:
        """How many rows are shown."""
        return self._cells.rowCount()

    def _choose(self, row: int) -> None:
        if self._choosable:
            self.chosen.emit(row)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows walk, Enter or Space chooses."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self.currentIndex().isValid():
            self._choose(self.currentIndex().row())
            return
        super().keyPressEvent(event)
