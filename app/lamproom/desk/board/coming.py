"""What is next, on one line of time: above the line for now is late, below it to come."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.parts.label import Label
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Role, look_of
from lamproom.office.views.board_next import NextLine
from lamproom.words import say


class Mark(QWidget):
    """A place on the line of time: a ring, or the sign of lateness; or nothing but the line."""

    def __init__(self, sign: Sign | None) -> None:
        super().__init__()
        self._sign = sign
        self.setFixedWidth(24)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        return QSize(24, 24)

    def paintEvent(self, event: QPaintEvent) -> None:
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        middle = self.width() / 2
        painter.setPen(edge_pen(look.colour(Role.EDGE), 1))
        painter.drawLine(QPointF(middle, 0), QPointF(middle, self.height()))
        if self._sign is Sign.CAUTION:
            draw_sign(painter, QRectF(middle - 10, 1, 20, 20), Sign.CAUTION, look.theme)
        elif self._sign is not None:
            painter.setPen(edge_pen(look.colour(Role.TEXT), 1.6))
            painter.setBrush(look.colour(Role.PANEL))
            painter.drawEllipse(QPointF(middle, 11), 4.6, 4.6)


class NowLine(QWidget):
    """The line for now."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def sizeHint(self) -> QSize:
        return QSize(80, 22)

    def paintEvent(self, event: QPaintEvent) -> None:
        look = look_of(self)
        QPainter(self).fillRect(QRectF(0, self.height() / 2 - 1, self.width(), 2), look.colour(Role.INK))


class Coming(QWidget):
    """The panel 'What is next'."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("ground", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(say("board.next"))
        page = QVBoxLayout(self)
        page.setContentsMargins(16, 12, 16, 12)
        page.setSpacing(8)
        page.addWidget(Label(say("board.next"), Letter.TABLE, bold=True))
        self._none = Label(say("board.next.none"), Letter.OFFICE, tone=Role.SECOND, wrap=True)
        page.addWidget(self._none)
        self._box = QVBoxLayout()
        page.addLayout(self._box)
        self._rows: QWidget | None = None
        self._shape: tuple[tuple[str, bool, bool], ...] | None = None
        self._clocks: list[tuple[Label, Label, Label]] = []

    def show_lines(self, lines: tuple[NextLine, ...]) -> None:
        """Show these. Only words change while the same things are due in the same order."""
        self._none.setVisible(not lines)
        shape = tuple((line.words, line.past, line.late) for line in lines)
        if shape != self._shape:
            self._shape = shape
            self._build(lines)
        for (clock, span, words), line in zip(self._clocks, lines, strict=True):
            clock.setText(line.clock)
            span.setText(line.span)
            words.setText(line.words)

    def _build(self, lines: tuple[NextLine, ...]) -> None:
        if self._rows is not None:
            self._box.removeWidget(self._rows)
            self._rows.hide()
            self._rows.deleteLater()
        self._rows = QWidget()
        grid = QGridLayout(self._rows)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(0)
        grid.setColumnStretch(2, 1)
        self._clocks = []
        row = 0
        said_now = not lines
        for line in lines:
            if not line.past and not said_now:
                row, said_now = self._now(grid, row), True
            left = QWidget()
            pair = QVBoxLayout(left)
            pair.setContentsMargins(0, 0, 0, 7)
            pair.setSpacing(0)
            clock = Label(line.clock, Letter.TABLE, bold=True)
            span = Label(line.span, Letter.TICK, tone=Role.SECOND)
            for label in (clock, span):
                label.setAlignment(Qt.AlignmentFlag.AlignRight)
                pair.addWidget(label)
            words = Label(line.words, Letter.OFFICE, wrap=True, bold=line.late)
            grid.addWidget(left, row, 0)
            grid.addWidget(Mark(Sign.CAUTION if line.late else Sign.NOT_STARTED), row, 1)
            grid.addWidget(words, row, 2, Qt.AlignmentFlag.AlignTop)
            self._clocks.append((clock, span, words))
            row += 1
        if not said_now:
            self._now(grid, row)
        self._box.addWidget(self._rows)

    def _now(self, grid: QGridLayout, row: int) -> int:
        now = Label(say("board.now"), Letter.TICK, bold=True)
        now.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        grid.addWidget(now, row, 0)
        grid.addWidget(Mark(None), row, 1)
        grid.addWidget(NowLine(), row, 2)
        return row + 1
