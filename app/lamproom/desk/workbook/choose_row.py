"""A row to press: a name in large letters, what belongs to it beside, a sign with its word below."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy

from lamproom.desk.fonts import letter
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Letter, Role, look_of
from lamproom.words import say

_HIGH = 72


class ChooseRow(QAbstractButton):
    """Up and down walk along the rows, Enter chooses. Signal: ``clicked`` of Qt."""

    def __init__(self, name: str, number: str, state: str, note: str, sign: Sign) -> None:
        super().__init__()
        self._name, self._number, self._state, self._note, self._sign = name, number, state, note, sign
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("workbook.permit_row", number=number, space=name, state=state, note=note))

    def sizeHint(self) -> QSize:
        """Two lines."""
        look = look_of(self)
        return QSize(look.px(280), look.px(_HIGH))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down walk, Enter or Space chooses."""
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            (self.focusNextChild if event.key() == Qt.Key.Key_Down else self.focusPreviousChild)()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """A frame, dashed where it cannot be chosen."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        edge = look.edge()
        half = edge / 2
        painter.setPen(edge_pen(look.colour(Role.EDGE), edge, dashed=not self.isEnabled()))
        painter.setBrush(look.colour(Role.PANEL if self.isDown() else Role.GROUND))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)
        side, left = look.px(24), look.px(52)
        draw_sign(painter, QRectF(look.px(16), (self.height() - side) / 2, side, side), self._sign, look.theme)
        bold, plain = letter(look, Letter.BODY, True), letter(look, Letter.SMALL)
        room = self.width() - left - look.px(16)
        painter.setPen(look.colour(Role.SECOND))
        painter.setFont(plain)
        number = QFontMetricsF(plain).horizontalAdvance(self._number)
        painter.drawText(QPointF(self.width() - look.px(16) - number, look.px(30)), self._number)
        painter.setPen(look.colour(Role.TEXT if self.isEnabled() else Role.SECOND))
        painter.setFont(bold)
        name = QFontMetricsF(bold).elidedText(self._name, Qt.TextElideMode.ElideRight, room - number - look.px(12))
        painter.drawText(QPointF(left, look.px(30)), name)
        painter.setFont(plain)
        parts = [part for part in (self._state, self._note) if part]
        below = QFontMetricsF(plain).elidedText(" · ".join(parts), Qt.TextElideMode.ElideRight, room)
        painter.drawText(QPointF(left, look.px(54)), below)
