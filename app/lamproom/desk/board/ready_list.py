"""The instruments of the site, soonest to lapse first, as bars on one axis of time."""

from __future__ import annotations

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.parts.label import Label
from lamproom.desk.parts.ready_bar import ReadyAxis, ReadyBar, ReadyRuler
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import Letter, Role
from lamproom.office.views.ready_lines import InstrumentLine
from lamproom.permit.words import clock
from lamproom.words import say

HOURS = 24
"""Length of the axis: a bump test never counts longer, so every bar ends on it."""

INDENT = 32
"""Where the bars begin, right of the signs."""


class ReadyList(QWidget):
    """The panel 'Instruments, soonest first'."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("ground", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(say("board.instruments"))
        page = QVBoxLayout(self)
        page.setContentsMargins(16, 12, 16, 10)
        page.setSpacing(6)
        page.addWidget(Label(say("board.instruments"), Letter.TABLE, bold=True))
        self._none = Label(say("board.instruments.none"), Letter.OFFICE, tone=Role.SECOND, wrap=True)
        page.addWidget(self._none)
        self._box = QVBoxLayout()
        self._box.setSpacing(8)
        page.addLayout(self._box)
        self._ruler = ReadyRuler(below=True)
        self._ruler.setFixedHeight(26)
        foot = QHBoxLayout()
        foot.setContentsMargins(INDENT, 0, 0, 0)
        foot.addWidget(self._ruler)
        page.addLayout(foot)
        self._rows: list[_Row] = []

    def show_lines(self, lines: tuple[InstrumentLine, ...], at: datetime, zone: ZoneInfo) -> None:
        """Show these on an axis that begins now."""
        while len(self._rows) > len(lines):
            row = self._rows.pop()
            self._box.removeWidget(row)
            row.hide()
            row.deleteLater()
        while len(self._rows) < len(lines):
            self._rows.append(_Row())
            self._box.addWidget(self._rows[-1])
        axis = axis_from(at, zone)
        self._none.setVisible(not lines)
        self._ruler.setVisible(bool(lines))
        self._ruler.set_axis(axis)
        for row, line in zip(self._rows, lines, strict=True):
            row.show_line(line, axis)


def axis_from(at: datetime, zone: ZoneInfo) -> ReadyAxis:
    """An axis of a day from now, named every six hours of the clock."""
    local = at.astimezone(zone).replace(minute=0, second=0, microsecond=0)
    marks: list[tuple[float, str]] = [(at.timestamp(), say("board.now"))]
    for ahead in range(1, HOURS):
        hour = local + timedelta(hours=ahead)
        if hour.hour % 6 == 0:
            marks.append((hour.timestamp(), clock(hour, zone)))
    return ReadyAxis(at.timestamp(), (at + timedelta(hours=HOURS)).timestamp(), tuple(marks))


class _Row(QWidget):
    def __init__(self) -> None:
        super().__init__()
        self._sign = SignLabel(Sign.WITHIN, "", 20)
        self._name = Label("", Letter.OFFICE, bold=True)
        self._words = Label("", Letter.SMALL)
        self._note = Label("", Letter.TICK, tone=Role.SECOND)
        self._why = Label("", Letter.TICK, tone=Role.SECOND, wrap=True)
        self._bar = ReadyBar()
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(self._name)
        top.addStretch(1)
        top.addWidget(self._note)
        lines = QVBoxLayout()
        lines.setSpacing(1)
        lines.addLayout(top)
        lines.addWidget(self._words)
        lines.addWidget(self._why)
        lines.addWidget(self._bar)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(self._sign, 0, Qt.AlignmentFlag.AlignTop)
        row.addLayout(lines, 1)

    def show_line(self, line: InstrumentLine, axis: ReadyAxis) -> None:
        self.setObjectName(f"board.instrument.{line.id}")
        self._sign.set_sign(Sign[line.sign], line.words)
        self._name.setText(line.name)
        self._words.setText(line.words)
        self._note.setText(line.note)
        self._why.setText(line.why)
        self._why.setVisible(bool(line.why))
        until = line.until.timestamp() if line.until is not None else None
        self._bar.set_ready(axis, until, line.name, line.words)
