"""The list of permits that were found: two lines a permit, its state as a sign."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QPainter
from PySide6.QtWidgets import QListView, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Role, look_of
from lamproom.office.views.filing import FoundRow
from lamproom.words import say

_ROW = Qt.ItemDataRole.UserRole
Index = QModelIndex | QPersistentModelIndex


_PHRASES = (". ", ": ", "; ", ", ")


def in_whole_phrases(words: str, metrics: QFontMetricsF, room: float) -> str:
    """Words that fit their room: whole phrases are dropped, so that no figure is cut to a smaller one ('19.…')."""
    whole = words
    while words and metrics.horizontalAdvance(words if words == whole else f"{words}\u2026") > room:
        cut = max(words.rfind(mark) for mark in _PHRASES)
        words = words[: cut if cut >= 0 else max(words.rfind(" "), 0)]
    return words if words == whole else f"{words}\u2026"


class _Rows(QAbstractListModel):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.rows: tuple[FoundRow, ...] = ()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        row = self.rows[index.row()]
        if role == _ROW:
            return row
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return say("filing.row", space=row.space, number=row.number, day=row.day, word=row.word, line=row.line)
        return None


class _RowPainter(QStyledItemDelegate):
    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        view = self.parent()
        assert isinstance(view, QWidget)
        return QSize(200, look_of(view).px(54))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        view = self.parent()
        assert isinstance(view, QListView)
        look, row = look_of(view), index.data(_ROW)
        box = QRectF(option.rect)
        if view.currentIndex().row() == index.row():
            painter.fillRect(box, look.colour(Role.PANEL))
            painter.fillRect(QRectF(box.left(), box.top(), 5, box.height()), look.colour(Role.INK))
        painter.fillRect(QRectF(box.left(), box.bottom() - 1, box.width(), 1), look.colour(Role.RULE))
        side = look.px(22)
        left = box.left() + look.px(14)
        mark = QRectF(left, box.center().y() - side / 2, side, side)
        draw_sign(painter, mark, Sign[row.sign], look.theme)
        text = QRectF(mark.right() + look.px(12), box.top() + look.px(6), 0, look.px(21))
        text.setRight(box.right() - look.px(10))
        day = letter(look, Letter.TICK)
        painter.setFont(day)
        painter.setPen(look.colour(Role.SECOND))
        wide = QFontMetricsF(day).horizontalAdvance(row.day) + 4
        painter.drawText(text, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, row.day)
        bold, plain = letter(look, Letter.OFFICE, True), letter(look, Letter.OFFICE)
        room = text.width() - wide - look.px(12)
        number = QFontMetricsF(plain).horizontalAdvance(row.number) + look.px(10)
        space = QFontMetricsF(bold).elidedText(row.space, Qt.TextElideMode.ElideRight, room - number)
        painter.setPen(look.colour(Role.TEXT))
        painter.setFont(bold)
        painter.drawText(text, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, space)
        after = text.adjusted(QFontMetricsF(bold).horizontalAdvance(space) + look.px(10), 0, 0, 0)
        painter.setFont(plain)
        painter.drawText(after, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, row.number)
        small = letter(look, Letter.SMALL)
        below = text.translated(0, look.px(21))
        words = f"{row.word}. {row.line}" if row.line else row.word
        painter.setFont(small)
        painter.setPen(look.colour(Role.SECOND))
        words = in_whole_phrases(words, QFontMetricsF(small), below.width())
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)


class FoundView(QListView):
    """Arrows walk and show at once, a press shows. Signal: ``chosen(str)`` with the number of the permit."""

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows = _Rows(self)
        self.setModel(self._rows)
        self.setItemDelegate(_RowPainter(self))
        self.setObjectName("filing.found")
        self.setAccessibleName(say("filing.find"))
        self.setUniformItemSizes(True)
        self.setFrameShape(QListView.Shape.NoFrame)
        # The ground of the window shows through, in every theme.
        self.viewport().setAutoFillBackground(False)
        self.setEditTriggers(QListView.EditTrigger.NoEditTriggers)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._quiet = False
        self.selectionModel().currentChanged.connect(self._moved)

    def show_rows(self, rows: tuple[FoundRow, ...], number: str) -> None:
        """Show these, with the permit ``number`` marked if it is among them; tells nobody."""
        if rows == self._rows.rows and self.current() == number:
            return
        self._quiet = True
        self._rows.beginResetModel()
        self._rows.rows = rows
        self._rows.endResetModel()
        at = next((place for place, row in enumerate(rows) if row.number == number), -1)
        if at >= 0:
            self.setCurrentIndex(self._rows.index(at))
        self._quiet = False

    def mark(self, number: str) -> None:
        """Mark a permit that is listed; tells nobody."""
        self._quiet = True
        self.setCurrentIndex(self._rows.index(self.numbers().index(number)))
        self._quiet = False

    def current(self) -> str:
        """The number of the permit that is marked; empty when none is."""
        at = self.currentIndex().row()
        return self._rows.rows[at].number if 0 <= at < len(self._rows.rows) else ""

    def numbers(self) -> list[str]:
        """The numbers in the order shown."""
        return [row.number for row in self._rows.rows]

    def _moved(self, current: QModelIndex, _before: QModelIndex) -> None:
        self.viewport().update()
        if not self._quiet and current.isValid():
            self.chosen.emit(self.current())
