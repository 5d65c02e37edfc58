"""A press that was meant for what stood here before: the second of a double click, Enter once too often."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractButton, QApplication, QWidget

STRAY = 500
"""Milliseconds, the usual longest time between the two clicks of a double click."""
_PRESSES = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class StrayGuard(QObject):
    """After ``begin`` the area takes no click, and its buttons no key, for a moment. What is typed goes on."""

    def __init__(self, area: QWidget) -> None:
        super().__init__(area)
        self._area = area
        self.cover = QWidget(area)
        self.cover.setAttribute(Qt.WidgetAttribute.WA_NoMousePropagation)
        self.cover.hide()
        self._end = QTimer(self, singleShot=True, interval=STRAY)
        self._end.timeout.connect(self._over)

    def begin(self) -> None:
        """What stands here changed under the hand."""
        self.cover.setGeometry(self._area.rect())
        self.cover.show()
        self.cover.raise_()
        application = QApplication.instance()
        if application is not None:
            application.removeEventFilter(self)
            application.installEventFilter(self)
        self._end.start()

    def _over(self) -> None:
        self.cover.hide()
        application = QApplication.instance()
        if application is not None:
            application.removeEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Swallow a key that would press a button of the area."""
        return (
            isinstance(event, QKeyEvent)
            and event.type() is QEvent.Type.KeyPress
            and event.key() in _PRESSES
            and isinstance(watched, QAbstractButton)
            and self._area.isAncestorOf(watched)
        )
