"""The keypad of the portal: keys of 84 px with 12 px between, for gloves. The caret stays in the box that it feeds."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QGridLayout, QLineEdit, QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Place, Role, look_of
from lamproom.words import say

BACK = "back"
_KEYS = ("7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", BACK)
_WIDE, _HIGH, _GAP = 84, 80, 12


class _Key(QAbstractButton):
    def __init__(self, key: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._key = key
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName({BACK: say("desk.key_backspace"), ".": say("desk.key_point")}.get(key, key))

    def sizeHint(self) -> QSize:
        return QSize(_WIDE, _HIGH)

    def paintEvent(self, event: QPaintEvent) -> None:
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        width = look.edge(Place.PORTAL)
        half = width / 2
        painter.setPen(QPen(look.colour(Role.EDGE), width))
        painter.setBrush(look.colour(Role.INK if self.isDown() else Role.PANEL))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)
        ink = look.colour(Role.INK_LABEL if self.isDown() else Role.TEXT)
        if self._key == BACK:
            draw_sign(painter, QRectF(self.rect()).adjusted(25, 23, -25, -23), Sign.BACKSPACE, look.theme, ink)
            return
        painter.setPen(ink)
        painter.setFont(letter(type(look)(look.theme), 42, True))
        painter.drawText(QRectF(self.rect()), Qt.AlignmentFlag.AlignCenter, self._key)


class Keypad(QWidget):
    """Twelve keys. Signal: ``pressed(str)``: a digit, ".", or "back". ``send_to`` names the box they type into."""

    pressed = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._box: QLineEdit | None = None
        self.setAccessibleName(say("desk.keypad"))
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(_GAP)
        for at, key in enumerate(_KEYS):
            button = _Key(key, self)
            button.setObjectName(f"key_{key}")
            button.clicked.connect(lambda _checked=False, given=key: self._press(given))
            grid.addWidget(button, at // 3, at % 3)

    def send_to(self, box: QLineEdit | None) -> None:
        """Where the keys go, in place of the box that has the focus; None for the one with the focus."""
        self._box = box

    def _press(self, key: str) -> None:
        focused = self.window().focusWidget()
        box = self._box or (focused if isinstance(focused, QLineEdit) else None)
        if box is not None:
            if key == BACK:
                box.backspace()
            else:
                box.insert(key)
            box.textEdited.emit(box.text())
        self.pressed.emit(key)
