"""The focus ring: one overlay for each window, drawn round whatever holds the keyboard, never hidden by a neighbor.

Drawn outside the control, so that taking the focus moves nothing.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

from lamproom.desk.theme import FOCUS_WIDTH, RADIUS, Role, look_of

_FOLLOWED = (QEvent.Type.Move, QEvent.Type.Resize, QEvent.Type.Show, QEvent.Type.Hide, QEvent.Type.LayoutRequest)
_REACH = 6


class FocusRing(QWidget):
    """Follows the focus inside one window. Give the window a ring once, with ``dress``."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._followed: list[QWidget] = []
        self._held: QWidget | None = None
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setObjectName("focus_ring")
        self.hide()
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._focus_changed)
        self._focus_changed(None, window.focusWidget())

    def _focus_changed(self, _old: QWidget | None, new: QWidget | None) -> None:
        for widget in self._followed:
            widget.removeEventFilter(self)
        self._followed = []
        window = self._window
        inside = new is not None and new is not window and window.isAncestorOf(new)
        self._held = new if inside else None
        step = self._held
        while step is not None and step is not window:
            step.installEventFilter(self)
            self._followed.append(step)
            step = step.parentWidget()
        self.place()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay with the control when it or anything it stands in moves."""
        if event.type() in _FOLLOWED:
            self.place()
        return False

    def place(self) -> None:
        """Lay the ring round the control that has the focus, or hide it."""
        held = self._held
        if held is None or not held.isVisible() or held.property("ring") == "own":
            self.hide()
            return
        framed = held.focusProxy() or held
        seen = self._seen(framed)
        if seen.isEmpty():
            self.hide()
            return
        self.setGeometry(seen.adjusted(-_REACH, -_REACH, _REACH, _REACH))
        self.raise_()
        self.show()
        self.update()

    def _seen(self, framed: QWidget) -> QRect:
        window = self._window
        seen = QRect(framed.mapTo(window, QPoint(0, 0)), framed.size())
        step = framed.parentWidget()
        while step is not None and step is not window:
            if isinstance(step.parentWidget(), QScrollArea):
                port = QRect(step.mapTo(window, QPoint(0, 0)), step.size())
                seen = seen.intersected(port)
            step = step.parentWidget()
        return seen

    def paintEvent(self, event: QPaintEvent) -> None:
        """A gap in the color of the ground, and the ring outside it."""
        look = look_of(self)
        width = FOCUS_WIDTH + (1 if look.sun else 0)
        gap = 2.0 if look.sun else 1.0
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        control = QRectF(self.rect()).adjusted(_REACH, _REACH, -_REACH, -_REACH)
        for role, inner, stroke in ((Role.FOCUS_GAP, 0.0, gap), (Role.FOCUS, gap, float(width))):
            painter.setPen(QPen(look.colour(role), stroke))
            out = inner + stroke / 2
            painter.drawRoundedRect(control.adjusted(-out, -out, out, out), RADIUS + out, RADIUS + out)
