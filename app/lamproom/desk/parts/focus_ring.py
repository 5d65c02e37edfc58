"""The focus ring: one overlay for each window, drawn round whatever holds the keyboard, never hidden by a neighbor.

Drawn outside the control, so that taking the focus moves nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from weakref import ref

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget
from shiboken6 import isValid

from lamproom.desk.theme import FOCUS_WIDTH, RADIUS, Role, look_of

_FOLLOWED = (QEvent.Type.Move, QEvent.Type.Resize, QEvent.Type.Show, QEvent.Type.Hide, QEvent.Type.LayoutRequest)
_REACH = 6


class FocusRing(QWidget):
    """Follows the focus inside one window. Give the window a ring once, with ``dress``."""

    # On the class, because Qt still sends events to a window that Python has begun to take apart.
    _held: QWidget | None = None
    _followed: Sequence[QWidget] = ()

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setObjectName("focus_ring")
        self.hide()
        application = QApplication.instance()
        if isinstance(application, QApplication):
            _follow_application(self, application)
        self.follow(window.focusWidget())

    def follow(self, new: QWidget | None) -> None:
        """Go round another control, or none, when it stands outside this window."""
        window = self.parentWidget()
        if window is None:
            return
        for widget in self._followed:
            if isValid(widget):
                widget.removeEventFilter(self)
        inside = new is not None and new is not window and window.isAncestorOf(new)
        self._held = new if inside else None
        followed = []
        step = self._held
        while step is not None and step is not window:
            step.installEventFilter(self)
            followed.append(step)
            step = step.parentWidget()
        self._followed = followed
        self.place()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay with the control when it or anything it stands in moves."""
        if self._held is not None and event.type() in _FOLLOWED:
            self.place()
        return False

    def place(self) -> None:
        """Lay the ring round the control that has the focus, or hide it."""
        held, window = self._held, self.parentWidget()
        if held is None or window is None or not isValid(held) or not held.isVisible():
            self.hide()
            return
        framed = held.focusProxy() or held
        seen = _seen(framed, window)
        if seen.isEmpty():
            self.hide()
            return
        self.setGeometry(seen.adjusted(-_REACH, -_REACH, _REACH, _REACH))
        self.raise_()
        self.show()
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """A gap in the color of the ground, and the ring outside it."""
        look = look_of(self._held or self)  # the Watch wears its own look within the window
        width = FOCUS_WIDTH + (1 if look.sun else 0)
        gap = 2.0 if look.sun else 1.0
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        control = QRectF(self.rect()).adjusted(_REACH, _REACH, -_REACH, -_REACH)
        for role, inner, stroke in ((Role.FOCUS_GAP, 0.0, gap), (Role.FOCUS, gap, float(width))):
            painter.setPen(QPen(look.colour(role), stroke))
            out = inner + stroke / 2
            painter.drawRoundedRect(control.adjusted(-out, -out, out, out), RADIUS + out, RADIUS + out)


def _seen(framed: QWidget, window: QWidget) -> QRect:
    """Where a control lies in the window, as far as scroll areas let it be seen."""
    seen = QRect(framed.mapTo(window, QPoint(0, 0)), framed.size())
    step = framed.parentWidget()
    while step is not None and step is not window:
        if isinstance(step.parentWidget(), QScrollArea):
            seen = seen.intersected(QRect(step.mapTo(window, QPoint(0, 0)), step.size()))
        step = step.parentWidget()
    return seen


def _follow_application(ring: FocusRing, application: QApplication) -> None:
    """Tell the ring of every change of focus while it lives; a bound slot would outlive its window and crash."""
    weak = ref(ring)

    def changed(_old: QWidget | None, new: QWidget | None) -> None:
        alive = weak()
        if alive is not None and isValid(alive):
            alive.follow(new)

    application.focusChanged.connect(changed)
    ring.destroyed.connect(lambda: application.focusChanged.disconnect(changed))
