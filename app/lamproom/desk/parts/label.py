"""Words on a screen: plain text only, so that a name with a < in it can change nothing."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QPalette, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.dress import puts_on
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import Letter, Look, Role, look_of


class Label(QLabel):
    """A line or paragraph of plain text in one size, weight and tone."""

    def __init__(
        self,
        text: str = "",
        size: Letter | int = Letter.BODY,
        *,
        bold: bool = False,
        tone: Role = Role.TEXT,
        wrap: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._size, self._bold, self._tone = size, bold, tone
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(wrap)
        self.setText(text)
        self.wear(look_of(self))

    def set_tone(self, tone: Role, bold: bool | None = None) -> None:
        """Another tone, and another weight if given."""
        self._tone = tone
        self._bold = self._bold if bold is None else bold
        self.wear(look_of(self))

    def wear(self, look: Look) -> None:
        """Take font and color from the look."""
        self.setFont(letter(look, self._size, self._bold))
        colours = QPalette(self.palette())
        colours.setColor(QPalette.ColorRole.WindowText, look.colour(self._tone))
        self.setPalette(colours)
        self._keep_height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrapped words are never cut: a crowded layout must take the room elsewhere."""
        super().resizeEvent(event)
        self._keep_height()

    def setText(self, text: str) -> None:
        """Other words."""
        super().setText(text)
        self._keep_height()

    def _keep_height(self) -> None:
        if self.wordWrap():
            # A label's own answer is never below its least height, so that is taken away before it is asked.
            self.setMinimumHeight(0)
            self.setMinimumHeight(self.heightForWidth(self.width()) if self.text() else 0)

    def event(self, event: QEvent) -> bool:
        """Dress when shown."""
        if puts_on(event):
            self.wear(look_of(self))
        return super().event(event)


class StateWord(QWidget):
    """A sign and its word, which always go together."""

    def __init__(
        self,
        sign: Sign,
        word: str,
        size: Letter | int = Letter.BODY,
        *,
        bold: bool = True,
        tone: Role = Role.TEXT,
        side: int = 22,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._label = Label(word, size, bold=bold, tone=tone)
        self._sign = SignLabel(sign, word, side)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self._sign)
        row.addWidget(self._label, 1)
        self.setAccessibleName(word)

    def set_state(self, sign: Sign, word: str) -> None:
        """Another state."""
        self._sign.set_sign(sign, word)
        self._label.setText(word)
        self.setAccessibleName(word)

    @property
    def word(self) -> str:
        """The word shown."""
        return self._label.text()

    @property
    def sign(self) -> Sign:
        """The sign shown."""
        return self._sign.sign


def rule(vertical: bool = False, strong: bool = False) -> QFrame:
    """A line that separates and says nothing; ``strong`` is the line between columns."""
    line = QFrame()
    line.setProperty("frame", "edge" if strong else "rule")
    if vertical:
        line.setFixedWidth(1)
    else:
        line.setFixedHeight(1)
    return line
