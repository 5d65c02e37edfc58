"""What is worth knowing and bars nothing, in small words under the plot; an alarm takes its place."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from lamproom.desk.theme import Letter, look_of
from lamproom.desk.watch.lettering import write


class CautionPane(QWidget):
    """Words without sign, fill or edge: it asks for nothing."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.cautions")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._words = ""

    def show_words(self, words: str) -> None:
        """Say this."""
        if words != self._words:
            self._words = words
            self.setAccessibleName(words)
            self.update()

    def text(self) -> str:
        """What is said."""
        return self._words

    def paintEvent(self, event: QPaintEvent) -> None:
        """As many lines as fit, in letters that fit."""
        look, painter = look_of(self), QPainter(self)
        room = QRectF(0, 0, self.width(), self.height())
        write(painter, look, room, self._words, Letter.TABLE, bold=look.sun, wrap=True)
