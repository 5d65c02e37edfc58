"""One instrument on the sheet: how long it is ready, what it does on this permit, its hose."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.air.figures import read_figure
from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.parts.ready_bar import ReadyAxis, ReadyBar
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.said_line import SaidLine
from lamproom.desk.workbook.sheet import Sheet, block, columns
from lamproom.office.assign_instrument import assign_instrument
from lamproom.office.return_instrument import return_instrument
from lamproom.office.test_hose import test_hose
from lamproom.office.views.instruments_sheet import InstrumentRow
from lamproom.permit.state import STOPS_WITHIN_S
from lamproom.words import say

BAR = 240
REASONS = ("done", "swapped", "failed", "dropped", "battery-flat")


class InstrumentLine(QWidget):
    """``done`` is called after a record, so that the sheet can move on."""

    def __init__(self, sheet: Sheet, one: InstrumentRow, done: Callable[[QWidget], None]) -> None:
        super().__init__()
        self._sheet, self._one, self._done = sheet, one, done
        self._asks_hose = self._returning = self._hose_again = False
        self._name = Label(one.name, Letter.BODY, bold=True)
        self._sensors = Label(one.sensors, Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._ready = StateWord(Sign.WITHIN, "", Letter.TABLE, side=20)
        self._bar = ReadyBar()
        self._bar.setFixedWidth(BAR)
        self._reasons = Label(size=Letter.SMALL, wrap=True)
        self._make_acts()
        self._make_serving()
        self._make_hose()
        self._lay_out()

    def _button(self, part: str, words: str, pressed: Callable[[], object], kind: Kind = Kind.PLAIN) -> QWidget:
        return self._sheet.button(f"{self._one.id}.{part}", words, pressed, kind)

    def _make_acts(self) -> None:
        one = self._one
        self._bench = self._button(
            "bench", say("workbook.instruments.bench"), lambda: self._sheet.desk.go("bench", target=one.id), Kind.LINK
        )
        with_hose = one.pumped and one.hose
        if with_hose:
            words = say("workbook.instruments.to_test_hose", hose=one.hose)
        else:
            words = say("workbook.instruments.to_test")
        known = with_hose or not one.pumped
        self._to_test = self._button("test", words, self._assign_as_registered if known else self._ask_hose)
        self._other = self._button("other-hose", say("workbook.instruments.other_hose"), self._ask_hose)
        self._to_wear = self._button("worn", say("workbook.instruments.to_wear"), lambda: self._assign("worn", None))
        self._hose = FigureField(say("workbook.instruments.hose"), "m", width=110, error_below=True)
        self._sheet.field(f"{one.id}.hose", self._hose)
        self._hose.figure.connect(lambda text: self._assign("test", str(read_figure(text))))
        self._acts, acts = block()
        acts.addLayout(columns(self._to_test, self._other, self._to_wear, None))
        acts.addWidget(self._hose)

    def _make_serving(self) -> None:
        self._serving = StateWord(Sign.TICK, "", Letter.TABLE, side=18)
        self._since = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._return = self._button("return", say("workbook.instruments.return"), self._ask_why, Kind.LINK)
        self._why = QWidget()
        row = QHBoxLayout(self._why)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(Label(say("workbook.instruments.why"), Letter.SMALL, bold=True))
        self._whys = []
        for why in REASONS:
            button = self._button(f"return.{why}", say(f"workbook.return.{why}"), partial(self._give_back, why))
            self._whys.append(button)
            row.addWidget(button)
        row.addStretch(1)

    def _make_hose(self) -> None:
        self._leak, leak = block(spacing=2)
        self._seconds = FigureField(say("workbook.hose.seconds"), "s", width=110, error_below=True)
        self._sheet.field(f"{self._one.id}.leak", self._seconds)
        self._seconds.figure.connect(lambda text: self._tested(str(read_figure(text))))
        self._seconds.entered.connect(lambda _text: self._done(self))
        self._store = self._button("leak.store", say("workbook.hose.store"), self._seconds.commit)
        self._stuck = self._button("leak.not-stopped", say("workbook.hose.not_stopped"), self._did_not_stop)
        leak.addWidget(Label(say("workbook.hose.title", seconds=STOPS_WITHIN_S), Letter.TABLE, bold=True, wrap=True))
        row = QHBoxLayout()
        row.setSpacing(16)
        row.addWidget(self._seconds, 0, Qt.AlignmentFlag.AlignBottom)
        row.addWidget(self._store, 0, Qt.AlignmentFlag.AlignBottom)
        row.addWidget(self._stuck, 0, Qt.AlignmentFlag.AlignBottom)
        row.addStretch(1)
        leak.addLayout(row)
        self._leak_done = SaidLine(Sign.WITHIN)
        self._again = self._button("leak.again", say("workbook.hose.again"), self._test_again, Kind.LINK)

    def _lay_out(self) -> None:
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addWidget(self._name)
        words.addWidget(self._sensors)
        grid = QGridLayout()
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(2)
        grid.setColumnStretch(0, 1)
        grid.addLayout(words, 0, 0, 2, 1)
        grid.addWidget(self._ready, 0, 1)
        grid.addWidget(self._bar, 1, 1, Qt.AlignmentFlag.AlignBottom)
        self._trouble = QWidget()
        trouble = QHBoxLayout(self._trouble)
        trouble.setContentsMargins(0, 0, 0, 0)
        trouble.setSpacing(16)
        trouble.addWidget(self._reasons, 1)
        trouble.addWidget(self._bench)
        self._served = QWidget()
        served = QHBoxLayout(self._served)
        served.setContentsMargins(0, 0, 0, 0)
        served.setSpacing(12)
        served.addWidget(self._serving)
        served.addWidget(self._since)
        served.addStretch(1)
        served.addWidget(self._return)
        self._leaked = QWidget()
        leaked = QHBoxLayout(self._leaked)
        leaked.setContentsMargins(0, 0, 0, 0)
        leaked.addWidget(self._leak_done, 1, Qt.AlignmentFlag.AlignVCenter)
        leaked.addWidget(self._again)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(4)
        page.addLayout(grid)
        for widget in (self._trouble, self._acts, self._served, self._why, self._leak, self._leaked):
            page.addWidget(widget)
        page.addWidget(rule())
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_instrument(self, one: InstrumentRow, axis: ReadyAxis) -> None:
        """Show how it stands now."""
        self._one = one
        self._ready.set_state(Sign.WITHIN if one.until is not None else Sign.REFUSED, one.ready_words)
        self._bar.set_ready(axis, one.until, one.name, one.ready_words)
        self._reasons.setText("\n".join(one.reasons))
        self._trouble.setVisible(bool(one.reasons))
        self._serving.set_state(Sign.TICK, one.serving)
        self._since.setText(say("workbook.instruments.since", time=one.note) if one.note else "")
        self._leak_done.say_it(Sign.REFUSED if one.hose_open else Sign.WITHIN, one.hose_test)
        if not one.duty:
            self._returning = self._hose_again = False
        self._show_parts()

    def _show_parts(self) -> None:
        one = self._one
        self._acts.setVisible(not one.duty)
        self._other.setVisible(one.pumped and bool(one.hose))
        self._hose.setVisible(self._asks_hose)
        self._served.setVisible(bool(one.duty))
        self._why.setVisible(bool(one.duty) and self._returning)
        asks = one.leak_test and (not one.hose_test or self._hose_again)
        self._leak.setVisible(asks)
        self._leaked.setVisible(one.leak_test and not asks)

    # Acts -------------------------------------------------------------------------------------------------------------

    def _assign_as_registered(self) -> None:
        self._assign("test", str(read_figure(self._one.hose)) if self._one.pumped and self._one.hose else None)

    def _ask_hose(self) -> None:
        self._asks_hose = True
        self._show_parts()
        self._sheet.reach(self._hose.box)

    def _assign(self, duty: str, hose: str | None) -> None:
        if self._one.duty:
            return
        beside = self._hose if self._asks_hose and duty == "test" else None
        self._sheet.keep(f"{self._one.id}.hose", "")
        if self._sheet.record(assign_instrument, self._one.id, duty, hose, beside=beside):
            self._asks_hose = False
            self._hose.set_text("")
            self._show_parts()
            if self._leak.isVisibleTo(self):
                self._sheet.reach(self._seconds.box)
            else:
                self._sheet.reach(self._return)
                self._done(self)

    def _ask_why(self) -> None:
        self._returning = not self._returning
        self._show_parts()
        if self._returning:
            self._sheet.reach(self._whys[0])

    def _give_back(self, why: str) -> None:
        if self._sheet.record(return_instrument, self._one.id, why):
            self._sheet.reach(self._to_test)

    def _tested(self, seconds: str) -> None:
        self._sheet.keep(f"{self._one.id}.leak", "")
        if self._sheet.record(test_hose, self._one.id, seconds, beside=self._seconds):
            self._tested_now()

    def _did_not_stop(self) -> None:
        if self._sheet.record(test_hose, self._one.id, None):
            self._tested_now()
            self._sheet.reach(self._again)

    def _tested_now(self) -> None:
        self._hose_again = False
        self._seconds.set_text("")
        self._show_parts()

    def _test_again(self) -> None:
        self._hose_again = True
        self._show_parts()
        self._sheet.reach(self._seconds.box)

    # Places -----------------------------------------------------------------------------------------------------------

    @property
    def serves(self) -> bool:
        """Does it serve this permit now?"""
        return bool(self._one.duty)

    @property
    def ready(self) -> bool:
        """Is it ready now?"""
        return self._one.until is not None

    def open_place(self) -> QWidget | None:
        """The hose test that waits, None when none does."""
        return self._seconds.box if self._leak.isVisibleTo(self) else None

    def hose_place(self) -> QWidget:
        """Where a link to the hose test leads."""
        return self._seconds.box if self._leak.isVisibleTo(self) else self._again

    def assign_place(self) -> QWidget:
        """Where a link to assigning leads."""
        return self._return if self.serves else self._to_test
