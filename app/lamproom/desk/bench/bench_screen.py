"""The Bench: which instruments are ready and for how long, and one of them opened."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from lamproom.desk.bench.instrument_page import InstrumentPage
from lamproom.desk.bench.instrument_row import Heads, InstrumentRow
from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.parts.ready_bar import ReadyAxis
from lamproom.desk.questions import scrolled
from lamproom.desk.theme import Letter, Role
from lamproom.office.views.bench import BenchView, bench_view
from lamproom.words import say


class BenchScreen(QWidget):
    """Left the list, right the instrument chosen. ``show_where(instrument=..., act=...)`` opens one; ``target`` too."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._rows: dict[str, InstrumentRow] = {}
        self._pages: dict[str, InstrumentPage] = {}
        self._order: tuple[str, ...] = ()
        self._summary = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._heads = Heads()
        self._list = QWidget()
        self._list_page = QVBoxLayout(self._list)
        self._right = QStackedWidget()
        self._line = rule(strong=True)
        self._lay()
        desk.changed.connect(self._changed)
        desk.ticked.connect(self._ticked)
        self._minute = ""
        self.refresh()

    def _lay(self) -> None:
        left = QWidget()
        page = QVBoxLayout(left)
        page.setContentsMargins(20, 12, 14, 12)
        page.setSpacing(4)
        top = QHBoxLayout()
        top.setSpacing(14)
        top.addWidget(Label(say("bench_screen.head"), Letter.TITLE, bold=True))
        top.addWidget(self._summary, 1)
        page.addLayout(top)
        page.addWidget(self._heads)
        self._list_page.setContentsMargins(0, 0, 0, 0)
        self._list_page.setSpacing(0)
        page.addWidget(scrolled(self._list), 1)
        foot = QHBoxLayout()
        foot.setSpacing(16)
        foot.addWidget(Label(say("bench_screen.order"), Letter.SMALL, tone=Role.SECOND))
        register = Button(say("bench_screen.register"), Kind.LINK)
        register.setObjectName("bench.register")
        register.clicked.connect(lambda: self._desk.go("registers", register="instruments"))
        foot.addWidget(register)
        foot.addStretch(1)
        page.addLayout(foot)
        nothing = QWidget()
        empty = QVBoxLayout(nothing)
        empty.setContentsMargins(18, 18, 18, 18)
        self._nothing = Label(size=Letter.BODY, tone=Role.SECOND, wrap=True)
        empty.addWidget(self._nothing)
        empty.addStretch(1)
        self._right.addWidget(nothing)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(left, 27)
        row.addWidget(rule(vertical=True, strong=True))
        row.addWidget(self._right, 26)

    # What is shown ----------------------------------------------------------------------------------------------------

    def show_where(self, **where: str) -> None:
        """Open an instrument, and the page of an act on it."""
        instrument = where.get("instrument", "") or where.get("target", "").split("/")[0]
        if instrument in self._rows:
            self.open_instrument(instrument)
            if "act" in where:
                self._pages[instrument].open_act(where["act"])
            else:
                self._pages[instrument].focus_mend()

    def open_instrument(self, id: str) -> None:
        """Show one instrument at the right."""
        if id not in self._pages:
            self._pages[id] = InstrumentPage(self._desk, id)
            self._right.addWidget(self._pages[id])
        self._right.setCurrentWidget(self._pages[id])
        for known, row in self._rows.items():
            row.setChecked(known == id)

    def refresh(self) -> None:
        """Everything anew; rows stay where the order stays, so that the keyboard keeps its place."""
        view = bench_view(self._desk.office)
        axis = ReadyAxis(view.now, view.end, view.marks)
        self._heads.set_axis(axis)
        self._summary.setText(view.summary if view.lines else "")
        self._nothing.setText(say("bench_screen.choose" if view.lines else "bench_screen.empty"))
        order = tuple(line.id for line in view.lines)
        if order != self._order:
            self._order = order
            self._rebuild(view, axis)
        for line in view.lines:
            self._rows[line.id].set_line(line, axis)
        for page in self._pages.values():
            page.refresh()

    def _rebuild(self, view: BenchView, axis: ReadyAxis) -> None:
        focused = next((id for id, row in self._rows.items() if row.hasFocus()), "")
        chosen = next((id for id, row in self._rows.items() if row.isChecked()), "")
        while self._list_page.count():
            self._list_page.takeAt(0)
        for line in view.lines:
            if line.id not in self._rows:
                row = InstrumentRow(line, axis)
                row.clicked.connect(lambda _checked=False, id=line.id: self.open_instrument(id))
                self._rows[line.id] = row
        shown_ready = False
        self._line.hide()
        for line in view.lines:
            if line.ready and not shown_ready and line is not view.lines[0]:
                self._list_page.addWidget(self._line)
                self._line.show()
            shown_ready = shown_ready or line.ready
            self._list_page.addWidget(self._rows[line.id])
        self._list_page.addStretch(1)
        before: QWidget | None = None
        for line in view.lines:
            if before is not None:
                QWidget.setTabOrder(before, self._rows[line.id])
            before = self._rows[line.id]
        for id, row in self._rows.items():
            row.setChecked(id == chosen)
        if focused in self._rows:
            self._rows[focused].setFocus()

    def _changed(self, streams: object) -> None:
        touched = streams if isinstance(streams, frozenset) else frozenset()
        if any(stream.startswith(("instrument/", "permit/", "site")) for stream in touched):
            self.refresh()

    def _ticked(self) -> None:
        # Readiness is said to the minute; between minutes nothing here moves.
        minute = self._desk.office.now().strftime("%H:%M")
        if minute != self._minute and self.isVisible():
            self._minute = minute
            self.refresh()
