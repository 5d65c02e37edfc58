"""The sheet 'instruments': every instrument with its readiness on one axis, and what serves this permit."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.kept_rows import keep_rows
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.ready_bar import ReadyAxis, ReadyRuler
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.instrument_row import BAR, InstrumentLine
from lamproom.desk.workbook.sheet import Sheet
from lamproom.office.views.instruments_sheet import instruments_sheet
from lamproom.words import say


class InstrumentsSheet(Sheet):
    """The ready ones first; a row keeps its place while its instrument is assigned and returned."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "instruments", say("workbook.instruments.title"), say("workbook.instruments.under"))
        self._lines: dict[str, InstrumentLine] = {}
        self._asked = Label(size=Letter.TABLE, wrap=True)
        self._none = Label(say("workbook.instruments.none"), Letter.SMALL, tone=Role.SECOND)
        self._ruler = ReadyRuler()
        self._ruler.setFixedWidth(BAR)
        self.page.addWidget(self._asked)
        self.page.addWidget(self._none)
        over = QHBoxLayout()
        over.addStretch(1)
        over.addWidget(self._ruler)
        self.page.addLayout(over)
        self._list = QVBoxLayout()
        self._list.setSpacing(10)
        self.page.addLayout(self._list)
        self.page.addStretch(1)

    def concerns(self, streams: Iterable[str]) -> bool:
        """Acts on the permit, and on any instrument: a bump test makes one ready."""
        return any(stream == f"permit/{self.number}" or stream.startswith("instrument/") for stream in streams)

    def refresh(self) -> None:
        """Paint what is recorded now."""
        view = instruments_sheet(self.desk.office, self.number)
        self.say_fixed(view.ended)
        self._asked.setText(view.asked)
        self._none.setVisible(not view.rows)
        axis = ReadyAxis(view.now, view.end, view.marks)
        self._ruler.set_axis(axis)
        self._ruler.setVisible(bool(view.rows))
        of = {row.id: row for row in view.rows}
        keep_rows(self._list, self._lines, of, lambda id: InstrumentLine(self, of[id], self._done))
        for row in view.rows:
            self._lines[row.id].show_instrument(row, axis)

    def _done(self, line: QWidget) -> None:
        self.move_on(line, self.open_places())

    def open_places(self) -> list[QWidget]:
        """Hose tests that wait; before anything tests the air, the first that could."""
        waits = [place for one in self._lines.values() if (place := one.open_place()) is not None]
        first = self.place("assign")
        return waits if any(line.serves for line in self._lines.values()) or first is None else [*waits, first]

    def place(self, rest: str) -> QWidget | None:
        """'assign': the first that is ready and free; 'hose/ID': its leak test; an instrument by its id."""
        head, _, id = rest.partition("/")
        if head == "hose" and id in self._lines:
            return self._lines[id].hose_place()
        if head in self._lines:
            return self._lines[head].assign_place()
        free = [line for line in self._lines.values() if not line.serves]
        first = next((line for line in free if line.ready), next(iter(free), None))
        return first.assign_place() if first is not None else None
