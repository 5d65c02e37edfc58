"""The line of the permit: space and where it is, its state in sign and word, number, hours."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QWidget

from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role, look_of

HEIGHT = 56


class PermitLine(QWidget):
    """Stands under the top bar on every sheet of a permit; shows, takes nothing."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._space = Label(size=Letter.TITLE, bold=True)
        self._where = Label(size=Letter.TABLE, tone=Role.SECOND)
        self._state = StateWord(Sign.DRAFT, "", Letter.TABLE, side=22)
        row = QHBoxLayout(self)
        row.setContentsMargins(24, 0, 24, 1)
        row.setSpacing(12)
        row.addWidget(self._space)
        row.addWidget(self._where)
        row.addStretch(1)
        row.addWidget(self._state)
        self._row = row
        self._facts: list[QWidget] = []
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def set_permit(self, space: str, where: str, sign: Sign, state: str, facts: Sequence[str] = ()) -> None:
        """Show a permit; ``facts`` are short: its number, its hours."""
        self._space.setText(space)
        self._where.setText(where)
        self._state.set_state(sign, state)
        for widget in self._facts:
            self._row.removeWidget(widget)
            widget.hide()
            widget.deleteLater()
        self._facts = []
        for fact in facts:
            line = rule(vertical=True, strong=True)
            line.setFixedHeight(22)
            self._facts += [line, Label(fact, Letter.TABLE)]
        for widget in self._facts:
            self._row.addWidget(widget)

    def sizeHint(self) -> QSize:
        """As high as its line."""
        return QSize(super().sizeHint().width(), look_of(self).px(HEIGHT))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The line under it."""
        look = look_of(self)
        QPainter(self).fillRect(0, self.height() - 1, self.width(), 1, look.colour(Role.EDGE))
