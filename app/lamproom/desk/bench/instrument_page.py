"""One instrument opened: its state, what to do, its sensors with the last bump test, its thirty days."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from lamproom.desk.bench.act_page import ActPage
from lamproom.desk.bench.bump_strip import BumpStrip
from lamproom.desk.bench.check_page import CheckPage
from lamproom.desk.bench.gas_pages import BumpPage, CalibrationPage
from lamproom.desk.bench.service_page import ServicePage
from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.questions import scrolled
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import Letter, Role
from lamproom.office.views.bench import InstrumentView, SensorLine, instrument_view
from lamproom.words import say

ACTS = ("check", "bump", "calibrate", "service")
_PAGES: dict[str, type[CheckPage] | type[BumpPage] | type[CalibrationPage] | type[ServicePage]] = {
    "check": CheckPage,
    "bump": BumpPage,
    "calibrate": CalibrationPage,
    "service": ServicePage,
}
_HEADS = ("sensor", "unit", "gas", "read", "alarm_at", "share", "accept", "alarm")


class InstrumentPage(QWidget):
    """The right side of the Bench. Signal: ``recorded()`` when an act was stored."""

    recorded = Signal()

    def __init__(self, desk: Desk, id: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self.id = desk, id
        self._title = Label(size=Letter.TITLE, bold=True)
        self._about = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._state = StateWord(Sign.WITHIN, "", Letter.HEAD, side=24)
        self._then = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._acts = {act: Button(say(f"bench_screen.act.{act}")) for act in ACTS}
        self._overview = QWidget()
        self._overview_page = QVBoxLayout(self._overview)
        self._open: ActPage | None = None
        self._reason, self._told = "", ""
        self._gone: ActPage | None = None
        self._mend: str | None = None
        self._stack = QStackedWidget()
        self._lay()
        self.refresh()

    def _lay(self) -> None:
        page = QVBoxLayout(self)
        page.setContentsMargins(18, 12, 20, 12)
        page.setSpacing(8)
        top = QHBoxLayout()
        top.setSpacing(12)
        top.addWidget(self._title)
        top.addWidget(self._about, 1)
        page.addLayout(top)
        state = QHBoxLayout()
        state.setSpacing(12)
        state.addWidget(self._state)
        state.addWidget(self._then, 1)
        page.addLayout(state)
        acts = QHBoxLayout()
        acts.setSpacing(10)
        for act, button in self._acts.items():
            button.setObjectName(f"bench.act.{act}")
            button.setCheckable(True)
            button.clicked.connect(lambda _checked=False, act=act: self.open_act(act))
            acts.addWidget(button)
        acts.addStretch(1)
        page.addLayout(acts)
        self._overview_page.setContentsMargins(0, 4, 8, 0)
        self._overview_page.setSpacing(8)
        self._stack.addWidget(scrolled(self._overview))
        page.addWidget(self._stack, 1)

    # Acts -------------------------------------------------------------------------------------------------------------

    def open_act(self, act: str) -> None:
        """Open the page of an act; what was half typed is there again."""
        self._close()
        made = _PAGES[act](self._desk, instrument_view(self._desk.office, self.id))
        made.left.connect(self._close)
        made.recorded.connect(self._was_recorded)
        self._open = made
        self._stack.addWidget(made)
        self._stack.setCurrentWidget(made)
        for known, button in self._acts.items():
            button.setChecked(known == act)
        self._tell_why()
        made.questions.focus_first()

    def focus_mend(self) -> None:
        """Put the keyboard on the act that mends the first thing wrong; on the first act where nothing is."""
        button = self._acts[self._mend] if self._mend in self._acts else next(iter(self._acts.values()))
        button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _close(self) -> None:
        if self._open is not None:
            self._stack.removeWidget(self._open)
            # Away at once, so that nothing finds its fields; alive until its own press has returned.
            self._gone = self._open
            self._gone.setParent(None)
            self._gone.hide()
            self._gone.deleteLater()
            self._open = None
        for button in self._acts.values():
            button.setChecked(False)
        self._stack.setCurrentIndex(0)
        self._tell_why()

    def _was_recorded(self) -> None:
        self._close()
        self.refresh()
        self.recorded.emit()

    # Overview ---------------------------------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show what the record says now; an open page keeps what is typed in it."""
        view = instrument_view(self._desk.office, self.id)
        self.setAccessibleName(view.title)
        self._title.setText(view.title)
        self._about.setText(view.about)
        sign = Sign.WITHIN if view.ready else Sign.FAULT if view.out_of_service else Sign.REFUSED
        self._state.set_state(sign, view.state)
        self._reason = view.reasons[0][0] if view.reasons else ""
        self._told = view.then
        self._tell_why()
        self._mend = view.mend
        for act, button in self._acts.items():
            button.set_kind(Kind.MAIN if act == view.mend else Kind.PLAIN)
            button.setAccessibleDescription(say("bench_screen.mends") if act == view.mend else "")
        self._fill(view)

    def _tell_why(self) -> None:
        """Beside the state what comes next; the first reason while a page hides the reasons."""
        self._then.setText(self._reason if self._open is not None and self._reason else self._told)

    def _fill(self, view: InstrumentView) -> None:
        page = self._overview_page
        while page.count():
            item = page.takeAt(0)
            widget = item.widget() if item is not None else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for why, clears, source in view.reasons:
            page.addWidget(_reason(why, clears, source))
        page.addWidget(_sensors(view.sensors))
        page.addWidget(Label(view.last_test, Letter.SMALL, tone=Role.SECOND, wrap=True))
        page.addWidget(Label(view.last_calibration, Letter.SMALL, tone=Role.SECOND, wrap=True))
        page.addWidget(rule())
        page.addWidget(_heading(say("bench_screen.strip_head"), say("bench_screen.strip_scale")))
        strip = BumpStrip()
        strip.set_days(view.strip, view.limit_s, view.strip_words)
        page.addWidget(strip)
        page.addWidget(Label(view.strip_words, Letter.SMALL, wrap=True))
        page.addStretch(1)


def _heading(words: str, aside: str) -> QWidget:
    head = QWidget()
    row = QHBoxLayout(head)
    row.setContentsMargins(0, 0, 0, 0)
    row.addWidget(Label(words, Letter.TABLE, bold=True))
    row.addStretch(1)
    row.addWidget(Label(aside, Letter.SMALL, tone=Role.SECOND))
    return head


def _reason(why: str, clears: str, source: str) -> QWidget:
    line = QWidget()
    row = QHBoxLayout(line)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(10)
    row.addWidget(SignLabel(Sign.REFUSED, why, 20))
    words = QVBoxLayout()
    words.setSpacing(0)
    words.addWidget(Label(say("bench_screen.reason", why=why, clears=clears), Letter.TABLE, wrap=True))
    words.addWidget(Label(source, Letter.SMALL, tone=Role.SECOND))
    row.addLayout(words, 1)
    return line


def _sensors(lines: tuple[SensorLine, ...]) -> QWidget:
    table = QWidget()
    table.setAccessibleName(say("bench_screen.sensors"))
    grid = QGridLayout(table)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setHorizontalSpacing(10)
    grid.setVerticalSpacing(3)
    grid.setColumnStretch(1, 1)
    for column, head in enumerate(_HEADS):
        grid.addWidget(_cell(say(f"bench_screen.column.{head}"), column, False, Role.SECOND), 0, column + 1)
    for at, line in enumerate(lines):
        row = 2 + at * 2
        grid.addWidget(rule(), row - 1, 0, 1, len(_HEADS) + 1)
        if line.passed is not None:
            sign = Sign.WITHIN if line.passed else Sign.REFUSED
            word = say("bench_screen.passed" if line.passed else "bench_screen.failed")
            grid.addWidget(SignLabel(sign, word, 18), row, 0)
        cells = (
            line.name,
            line.unit,
            line.applied,
            line.read,
            line.alarm_at,
            line.share,
            line.accept,
            line.seconds,
        )
        for column, text in enumerate(cells):
            grid.addWidget(_cell(text, column, _HEADS[column] in ("sensor", "share"), Role.TEXT), row, column + 1)
    return table


def _cell(text: str, column: int, bold: bool, tone: Role) -> Label:
    cell = Label(text, Letter.SMALL, bold=bold, tone=tone)
    side = cell.alignment()
    if column:
        side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
    cell.setAlignment(side)
    return cell
