"""The rail of sheets: where you are, and what is open on each, in a sign and in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.kept_rows import keep_rows
from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Role, look_of
from lamproom.words import say

WIDTH, ROW = 252, 66


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One sheet: key, name, sign (NOT_STARTED, SOME_OPEN, WITHIN, EQUAL) and its words ("2 open", "complete 08:41")."""

    key: str
    name: str
    sign: Sign
    state: str


class _Row(QAbstractButton):
    def __init__(self, shown: SheetRow, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.shown = shown
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.show_row(shown)

    def show_row(self, shown: SheetRow) -> None:
        self.shown = shown
        self.setAccessibleName(say("desk.sheet_row", name=shown.name, state=shown.state))
        self.update()

    def sizeHint(self) -> QSize:
        look = look_of(self)
        return QSize(look.px(WIDTH), look.px(ROW))

    def nextCheckState(self) -> None:
        """The rail shows where you are; only the screen moves it."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            (self.focusNextChild if event.key() == Qt.Key.Key_Down else self.focusPreviousChild)()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        here = self.isChecked()
        if here or self.isDown():
            painter.fillRect(self.rect(), look.colour(Role.GROUND))
            painter.fillRect(QRectF(0, 0, 6, self.height()), look.colour(Role.INK))
            painter.setPen(QPen(look.colour(Role.EDGE), 1))
            painter.drawLine(0, 0, self.width(), 0)
            painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
        middle, left = self.height() / 2, look.px(52)
        side = look.px(24)
        draw_sign(painter, QRectF(look.px(18), middle - side / 2, side, side), self.shown.sign, look.theme)
        room = self.width() - left - 4
        font = letter(look, Letter.BODY, here)
        if QFontMetricsF(font).horizontalAdvance(self.shown.name) > room:
            font = letter(look, Letter.TABLE, here)
        painter.setFont(font)
        painter.setPen(look.colour(Role.TEXT))
        name = QFontMetricsF(font).elidedText(self.shown.name, Qt.TextElideMode.ElideRight, room)
        painter.drawText(QPointF(left, middle - look.px(4)), name)
        painter.setFont(letter(look, Letter.SMALL))
        painter.setPen(look.colour(Role.TEXT if here else Role.SECOND))
        painter.drawText(QPointF(left, middle + look.px(18)), self.shown.state)


class Rail(QWidget):
    """The list of sheets at the left. Signal: ``chosen(str)`` with the key of the sheet pressed."""

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: dict[str, _Row] = {}
        self.setProperty("ground", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(say("desk.sheets"))
        self.setFixedWidth(WIDTH)
        inside = QWidget()
        inside.setProperty("ground", "clear")
        self._list = QVBoxLayout(inside)
        self._list.setContentsMargins(0, 0, 0, 0)
        self._list.setSpacing(2)
        self._foot = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._foot.setContentsMargins(18, 12, 12, 12)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 8, 0, 0)
        # At large letters the sheets scroll; at 100 % all eight stand on a screen 768 high.
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(inside)
        page.addWidget(scroll, 1)
        self._list.addWidget(self._foot)
        self._list.addStretch(1)

    def wear(self, look: object) -> None:
        """Grow with the text."""
        self.setFixedWidth(look_of(self).px(WIDTH))

    def set_sheets(self, sheets: Sequence[SheetRow]) -> None:
        """Show these; rows that stay keep their place and the keyboard."""
        of = {sheet.key: sheet for sheet in sheets}
        keep_rows(self._list, self._rows, of, lambda key: self._row(of[key]))
        for sheet in sheets:
            self._rows[sheet.key].show_row(sheet)

    def _row(self, sheet: SheetRow) -> _Row:
        row = _Row(sheet)
        row.clicked.connect(lambda: self.chosen.emit(sheet.key))
        return row

    def set_current(self, key: str) -> None:
        """The sheet that is open."""
        for each, row in self._rows.items():
            row.setChecked(each == key)

    def current(self) -> str:
        """The key of the sheet that is open; empty before one is."""
        return next((key for key, row in self._rows.items() if row.isChecked()), "")

    def set_foot(self, text: str) -> None:
        """What stands under the sheets: the form and the site's rules."""
        self._foot.setText(text)

    def row(self, key: str) -> QAbstractButton:
        """The button of a sheet, for focus."""
        return self._rows[key]

    def paintEvent(self, event: QPaintEvent) -> None:
        """The panel and the line at its right."""
        look = look_of(self)
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour(Role.PANEL))
        painter.fillRect(self.width() - 1, 0, 1, self.height(), look.colour(Role.EDGE))
