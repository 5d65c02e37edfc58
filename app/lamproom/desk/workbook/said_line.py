"""A sentence with its sign, wrapped and never cut: what was recorded, what bars, what must be done first."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import Letter


class SaidLine(QWidget):
    """As a state word, but for whole sentences; empty words hide it."""

    def __init__(self, sign: Sign, words: str = "", *, bold: bool = False, side: int = 18) -> None:
        super().__init__()
        self._sign = SignLabel(sign, words, side)
        self._label = Label(words, Letter.SMALL, bold=bold, wrap=True)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self._sign, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self._label, 1, Qt.AlignmentFlag.AlignTop)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.setAccessibleName(words)

    def say_it(self, sign: Sign, words: str) -> None:
        """Another sentence."""
        self._sign.set_sign(sign, words)
        self._label.setText(words)
        self.setAccessibleName(words)

    @property
    def sign(self) -> Sign:
        """The sign shown."""
        return self._sign.sign

    def words(self) -> str:
        """The sentence shown."""
        return self._label.text()
