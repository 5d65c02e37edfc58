"""Notices: a line with its sign, and the bar that offers to undo for a while. Neither covers anything."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QTimer, Signal
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from lamproom.desk.parts.button import Button
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import RADIUS, Letter, Place, Role, look_of
from lamproom.words import say

UNDO_FOR = 10_000
"""Milliseconds that the undo bar stays."""


class MessageLine(QWidget):
    """A sentence with its sign, in a place kept for it. A new one is announced to screen readers."""

    def __init__(self, place: Place = Place.TRAILER, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sign = SignLabel(Sign.CAUTION, "", 24)
        self._label = Label(size=Letter.BODY if place is Place.PORTAL else Letter.TABLE, bold=True, wrap=True)
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 8, 12, 8)
        row.setSpacing(10)
        row.addWidget(self._sign)
        row.addWidget(self._label, 1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.hide()

    def say_it(self, sign: Sign, text: str, at_once: bool = False) -> None:
        """Show and announce; ``at_once`` breaks into what a screen reader is saying (priorities 1 and 2)."""
        self._sign.set_sign(sign, text)
        self._label.setText(text)
        self.setAccessibleName(text)
        self.show()
        announcement = QAccessibleAnnouncementEvent(self, text)
        if at_once:
            announcement.setPoliteness(QAccessible.AnnouncementPoliteness.Assertive)
        QAccessible.updateAccessibility(announcement)

    def clear(self) -> None:
        """Nothing to say any more."""
        self._label.setText("")
        self.hide()

    def text(self) -> str:
        """What is said; empty when nothing is."""
        return "" if self.isHidden() else self._label.text()

    def paintEvent(self, event: QPaintEvent) -> None:
        """An ink edge, no fill."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        half = look.emphasis / 2
        painter.setPen(edge_pen(look.colour(Role.INK), look.emphasis))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)


class UndoBar(QWidget):
    """What was just done, and Undo, for ten seconds. Signals: ``undone()``, ``gone()`` when the time is over."""

    undone = Signal()
    gone = Signal()

    def __init__(self, place: Place = Place.PORTAL, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._label = Label(size=Letter.BODY, wrap=True)
        self._button = Button(say("desk.undo"), place=place)
        self._button.clicked.connect(self._undo)
        self._timer = QTimer(self, singleShot=True, interval=UNDO_FOR)
        self._timer.timeout.connect(self._leave)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(self._label, 1)
        row.addWidget(self._button)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy = self.sizePolicy()
        policy.setRetainSizeWhenHidden(True)
        self.setSizePolicy(policy)
        self.hide()

    def offer(self, text: str) -> None:
        """Say what was done; a later one takes the place of the earlier."""
        self._label.setText(text)
        self.setAccessibleName(text)
        self._button.setAccessibleDescription(text)
        self.show()
        self._timer.start()

    def _undo(self) -> None:
        self._timer.stop()
        self.hide()
        self.undone.emit()

    def _leave(self) -> None:
        self.hide()
        self.gone.emit()
