"""The EVACUATE button: one size, one place, acts on press, asks nothing.

A label on a screen, not a machine stop: it is no mushroom and has no yellow ground (that look belongs to stopping
devices, ISO 13850), and the screen it opens says that the order must also be given by voice, radio or horn.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QTouchEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Role, look_of
from lamproom.words import say

WIDTH, HEIGHT, CLEAR = 300, 112, 51
"""Pixels at 96 to the inch: 79 x 30 mm, and 13.5 mm from every other target."""


class EvacuateButton(QAbstractButton):
    """Emits ``ordered`` on press, by finger, pen, mouse or key; never on release, never twice for one press."""

    ordered = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._below = say("desk.evacuate_below")
        self.setAttribute(Qt.WidgetAttribute.WA_AcceptTouchEvents)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self._tell()

    def set_below(self, text: str) -> None:
        """The second line: how to press it, or when it was ordered."""
        self._below = text
        self._tell()

    def _tell(self) -> None:
        self.setAccessibleName(say("desk.evacuate"))
        self.setAccessibleDescription(self._below)
        self.update()

    def sizeHint(self) -> QSize:
        """Does not grow with the text: its place is fixed."""
        return QSize(WIDTH, HEIGHT)

    def minimumSizeHint(self) -> QSize:
        """Never smaller."""
        return self.sizeHint()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """The order is given on press."""
        if event.button() is Qt.MouseButton.LeftButton:
            self.setDown(True)
            self.ordered.emit()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """A second quick press is the same order."""
        self.setDown(True)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Nothing more happens on release."""
        self.setDown(False)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space and Enter give the order; a key held down gives it once."""
        if event.key() in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if not event.isAutoRepeat():
                self.setDown(True)
                self.ordered.emit()
            return
        super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Nothing more happens on release."""
        self.setDown(False)

    def event(self, event: QEvent) -> bool:
        """A touch counts as it begins, without waiting for Qt to make a mouse press of it."""
        if isinstance(event, QTouchEvent):
            if event.type() is QEvent.Type.TouchBegin:
                self.setDown(True)
                self.ordered.emit()
            elif event.type() in (QEvent.Type.TouchEnd, QEvent.Type.TouchCancel):
                self.setDown(False)
            event.accept()
            return True
        return super().event(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The one filled thing of a calm screen."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        label = look.colour(Role.DANGER_LABEL)
        width = 5.0 if self.isDown() else 3.0
        painter.setPen(QPen(label if self.isDown() else look.colour(Role.DANGER_EDGE), width))
        painter.setBrush(look.colour(Role.DANGER))
        inset = width / 2
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), RADIUS, RADIUS)
        draw_sign(painter, QRectF(27, 24, 64, 64), Sign.DANGER, look.theme, label)
        painter.setPen(label)
        painter.setFont(letter(type(look)(look.theme), 33, True))
        painter.drawText(QPointF(102, 54), say("desk.evacuate"))
        painter.setFont(letter(type(look)(look.theme), 20, True))
        painter.drawText(QPointF(103, 82), self._below)
