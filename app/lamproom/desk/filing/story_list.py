"""The story of a permit on screen: time, sign, what happened, by whom; a corrected figure is struck and readable."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QResizeEvent
from PySide6.QtWidgets import QListView, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Role, look_of
from lamproom.office.views.story import StoryLine
from lamproom.words import say

_LINE = Qt.ItemDataRole.UserRole
Index = QModelIndex | QPersistentModelIndex
_WRAP = int(Qt.AlignmentFlag.AlignLeft) | int(Qt.TextFlag.TextWordWrap)


class _Lines(QAbstractListModel):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.lines: tuple[StoryLine, ...] = ()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.lines)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        line = self.lines[index.row()]
        if role == _LINE:
            return line
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            if line.struck:
                return say(
                    "filing.story_row_corrected",
                    clock=line.clock,
                    what=line.what,
                    struck=line.struck,
                    put_right=line.put_right,
                    detail=line.detail,
                )
            return say("filing.story_row", clock=line.clock, what=line.what, detail=line.detail)
        return None


class _LinePainter(QStyledItemDelegate):
    def _fonts(self, look: Look, line: StoryLine) -> tuple[QFont, QFont]:
        return letter(look, Letter.OFFICE, line.heavy), letter(look, Letter.SMALL)

    def _text_left(self, look: Look) -> int:
        return look.px(94)

    def _heights(self, look: Look, line: StoryLine, width: float) -> tuple[float, float, float]:
        """Of what happened, of the corrected figures, of the detail."""
        first, second = (QFontMetricsF(font) for font in self._fonts(look, line))
        room = QRectF(0, 0, max(width - self._text_left(look) - look.px(10), 60), 4000)
        what = first.boundingRect(room, _WRAP, line.what).height()
        struck = second.height() if line.struck else 0.0
        detail = second.boundingRect(room, _WRAP, line.detail).height() if line.detail else 0.0
        return what, struck, detail

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        view = self.parent()
        assert isinstance(view, QListView)
        look = look_of(view)
        heights = self._heights(look, index.data(_LINE), view.viewport().width())
        return QSize(100, round(sum(heights)) + look.px(9))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        view = self.parent()
        assert isinstance(view, QListView)
        look, line = look_of(view), index.data(_LINE)
        box = QRectF(option.rect)
        if view.hasFocus() and view.currentIndex().row() == index.row():
            painter.fillRect(box, look.colour(Role.PANEL))
        first, second = self._fonts(look, line)
        painter.setFont(letter(look, Letter.OFFICE, True))
        painter.setPen(look.colour(Role.TEXT))
        high = QFontMetricsF(first).height()
        painter.drawText(
            QRectF(box.left() + 2, box.top(), look.px(54), high), int(Qt.AlignmentFlag.AlignLeft), line.clock
        )
        side = look.px(20)
        mark = QRectF(box.left() + look.px(60), box.top() + (high - side) / 2, side, side)
        painter.fillRect(
            QRectF(mark.center().x() - 0.5, mark.bottom() + 3, 1, box.bottom() - mark.bottom() - 3),
            look.colour(Role.EDGE),
        )
        draw_sign(painter, mark, Sign[line.sign], look.theme)
        self._paint_words(painter, look, line, box, (first, second))

    def _paint_words(
        self, painter: QPainter, look: Look, line: StoryLine, box: QRectF, fonts: tuple[QFont, QFont]
    ) -> None:
        what, struck, detail = self._heights(look, line, box.width())
        left = box.left() + self._text_left(look)
        room = QRectF(left, box.top(), box.right() - left - look.px(10), what + 1)
        painter.setFont(fonts[0])
        painter.setPen(look.colour(Role.TEXT))
        painter.drawText(room, _WRAP, line.what)
        top = box.top() + what
        if line.struck:
            old, new = QFont(fonts[1]), letter(look, Letter.SMALL, True)
            old.setStrikeOut(True)
            painter.setFont(old)
            painter.drawText(QRectF(left, top, 400, struck), _WRAP, line.struck)
            wide = QFontMetricsF(old).horizontalAdvance(line.struck) + look.px(8)
            painter.setFont(new)
            painter.drawText(QRectF(left + wide, top, 400, struck), _WRAP, line.put_right)
            top += struck
        painter.setFont(fonts[1])
        painter.setPen(look.colour(Role.SECOND))
        painter.drawText(QRectF(left, top, room.width(), detail + 1), _WRAP, line.detail)


class StoryList(QListView):
    """Shows the lines of a story; arrows walk through them for a screen reader."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines = _Lines(self)
        self.setModel(self._lines)
        self.setItemDelegate(_LinePainter(self))
        self.setAccessibleName(say("filing.story"))
        self.setFrameShape(QListView.Shape.NoFrame)
        # The ground of the window shows through, in every theme.
        self.viewport().setAutoFillBackground(False)
        self.setEditTriggers(QListView.EditTrigger.NoEditTriggers)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def show_lines(self, lines: tuple[StoryLine, ...]) -> None:
        """Show these, from the first on unless they only grew."""
        if lines == self._lines.lines:
            return
        grew = bool(self._lines.lines) and lines[: len(self._lines.lines)] == self._lines.lines
        place = self.verticalScrollBar().value()
        self._lines.beginResetModel()
        self._lines.lines = lines
        self._lines.endResetModel()
        if grew:
            self.verticalScrollBar().setValue(place)
        else:
            self.scrollToTop()

    def lines(self) -> tuple[StoryLine, ...]:
        """What is shown."""
        return self._lines.lines

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Words wrap anew."""
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()
