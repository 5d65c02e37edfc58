"""The slip: a working, a reason or a query with an ink edge, in a place kept for it; it covers nothing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.parts.label import Label, rule
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Letter, Place, Role, look_of
from lamproom.words import say

_ASIDE = 170
"""The least width of the note at the right, pixels."""


@dataclass(frozen=True, slots=True)
class SlipLine:
    """One step: what, how (inputs), the figure; ``total`` stands under a line and in bold. One without ``what`` is
    said across the slip."""

    what: str
    how: str = ""
    figure: str = ""
    total: bool = False


class _CloseCross(QAbstractButton):
    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("desk.close"))

    def sizeHint(self) -> QSize:
        side = look_of(self).px(Place.TRAILER)
        return QSize(side, side)

    def paintEvent(self, event: QPaintEvent) -> None:
        side = look_of(self).px(16)
        box = QRectF((self.width() - side) / 2, (self.height() - side) / 2, side, side)
        draw_sign(QPainter(self), box, Sign.CROSS, look_of(self).theme)


class Slip(QWidget):
    """Title, lines with a total, a note at the right. Signal: ``closed()``; the screen hides it.

    ``add(widget)`` puts buttons under the lines, for a question that the slip asks.
    """

    closed = Signal()

    def __init__(self, *, closable: bool = True, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = Label(size=Letter.TABLE, bold=True, wrap=True)
        self._source = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._close = _CloseCross()
        if not closable:  # shown before it has a parent it would be a window of its own for a moment
            self._close.hide()
        self._close.clicked.connect(self.closed)
        self._words = Label(size=Letter.TABLE, wrap=True)
        self._aside = Label(size=Letter.SMALL, wrap=True)
        self._aside_source = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._aside.setMinimumWidth(_ASIDE)
        self._lines = QGridLayout()
        self._lines.setHorizontalSpacing(16)
        self._lines.setVerticalSpacing(2)
        self._lines.setColumnStretch(1, 1)
        self._shown: list[QWidget] = []
        self._hows: list[tuple[int, Label]] = []
        self._head = head = QHBoxLayout()
        head.setSpacing(12)
        head.addWidget(self._title, 1)
        head.addWidget(self._source)
        head.addWidget(self._close)
        left = QVBoxLayout()
        left.addWidget(self._words)
        left.addLayout(self._lines)
        left.addStretch(1)
        self._divider = rule(vertical=True, strong=True)
        right = QVBoxLayout()
        right.addWidget(self._aside)
        right.addWidget(self._aside_source)
        right.addStretch(1)
        body = QHBoxLayout()
        body.setSpacing(16)
        body.addLayout(left, 4)
        body.addWidget(self._divider)
        body.addLayout(right, 1)
        self._acts = QHBoxLayout()
        self._acts.setSpacing(12)
        page = QVBoxLayout(self)
        page.setContentsMargins(16, 4, 10, 14)
        page.setSpacing(4)
        page.addLayout(head)
        page.addLayout(body)
        page.addLayout(self._acts)
        self._acts.addStretch(1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self.set_slip("", ())

    def set_slip(
        self,
        title: str,
        lines: Sequence[SlipLine] = (),
        *,
        words: str = "",
        source: str = "",
        aside: str = "",
        aside_source: str = "",
    ) -> None:
        """Show a working (lines) or a reason (words), with its source."""
        self.setAccessibleName(title)
        self._title.setText(title)
        for label, text in (
            (self._source, source),
            (self._words, words),
            (self._aside, aside),
            (self._aside_source, aside_source),
        ):
            label.setText(text)
            label.setVisible(bool(text))
        self._divider.setVisible(bool(aside))
        for widget in self._shown:
            self._lines.removeWidget(widget)
            widget.hide()
            widget.deleteLater()
        self._shown, self._hows = [], []
        for row in range(self._lines.rowCount()):
            self._lines.setRowMinimumHeight(row, 0)
        row = 0
        for line in lines:
            if line.total:
                self._put(rule(strong=True), row, 0, 3)
                row += 1
            how = Label(line.how, Letter.OFFICE, tone=Role.SECOND, wrap=True)
            self._put(how, row, 1 if line.what else 0, 1 if line.what else 3)
            self._hows.append((row, how))
            if not line.what:
                row += 1
                continue
            self._put(Label(line.what, Letter.OFFICE, bold=line.total), row, 0)
            figure = Label(line.figure, Letter.OFFICE, bold=True)
            figure.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self._put(figure, row, 2)
            row += 1
        self.setAccessibleDescription(
            "; ".join(say("desk.slip_line", what=line.what, how=line.how, figure=line.figure) for line in lines)
            or words
        )
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width wraps elsewhere."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """A step whose inputs need two lines gets the height of two."""
        layout = self.layout()
        if layout is None or not self.isVisible():
            return
        layout.activate()
        for row, how in self._hows:
            needed = how.heightForWidth(how.width()) if how.text() else 0
            if needed != self._lines.rowMinimumHeight(row):
                self._lines.setRowMinimumHeight(row, needed)

    def event(self, event: QEvent) -> bool:
        """Widths and letters are known once the parts are laid out and dressed."""
        taken = super().event(event)
        if event.type() in (QEvent.Type.LayoutRequest, QEvent.Type.Show):
            self._fit()
        return taken

    def _put(self, widget: QWidget, row: int, column: int, wide: int = 1) -> None:
        self._lines.addWidget(widget, row, column, 1, wide)
        self._shown.append(widget)
        widget.show()

    def add(self, widget: QWidget, beside_title: bool = False) -> None:
        """A button or link under the lines, or beside the title where the place is low."""
        if beside_title:
            self._head.insertWidget(1, widget)
        else:
            self._acts.insertWidget(self._acts.count() - 1, widget)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The ink edge."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        width = look.emphasis
        half = width / 2
        painter.setPen(edge_pen(look.colour(Role.INK), width))
        painter.setBrush(look.colour(Role.GROUND))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)
