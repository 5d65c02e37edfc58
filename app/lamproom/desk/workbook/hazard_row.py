"""One hazard: which sensor sees it, and how it is held today: as evaluated by one press, otherwise in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.dress import puts_on
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import Letter, Look, Role, look_of
from lamproom.desk.workbook.said_line import SaidLine
from lamproom.desk.workbook.sheet import Sheet
from lamproom.office.hold_hazard import hold_hazard
from lamproom.office.views.hazards_sheet import HazardRow
from lamproom.words import say

SENSOR, SEEN, _GAP = 97, 122, 12
"""Widths of a sensor's column and of the last one, and the room kept free at the right of each, pixels at 100 %."""


class HazardLine(QWidget):
    """``done`` is called after a record, so that the sheet can move on."""

    def __init__(self, sheet: Sheet, hazard: HazardRow, done: Callable[[QWidget], None]) -> None:
        super().__init__()
        self._sheet, self._hazard, self._done = sheet, hazard, done
        self._opened = ""
        self._gone_asked = False
        self._changing = False
        self._name = Label(size=Letter.BODY, wrap=True)
        self._shows = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._cells: list[_Seen] = []
        self._seen = _Seen()
        self._control = Label(size=Letter.SMALL, wrap=True)
        id = hazard.id
        self._as_evaluated = sheet.button(
            f"{id}.as-evaluated", say("workbook.hazards.as_evaluated"), self._hold_as_evaluated
        )
        self._otherwise = sheet.button(f"{id}.otherwise", say("workbook.hazards.otherwise"), lambda: self._open("how"))
        self._gone = sheet.button(f"{id}.gone", say("workbook.hazards.gone"), lambda: self._open("gone"))
        self._not_today = sheet.button(f"{id}.not-today", say("workbook.hazards.not_today"), lambda: self._open("why"))
        # No tick: that a control stands in the world is recorded on other sheets.
        self._held = SaidLine(Sign.PEN)
        self._note = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._change = sheet.button(f"{id}.change", say("workbook.change"), self._reopen, Kind.LINK)
        self._how = sheet.field(f"{id}.how", Field(say("workbook.hazards.how")))
        self._why = sheet.field(f"{id}.why", Field(say("workbook.hazards.why_not")))
        self._gone_how = sheet.field(f"{id}.gone-how", Field(say("workbook.hazards.gone_how")))
        self._lay_out()
        self._fields = {"how": self._how, "why": self._why, "gone": self._gone_how}
        for way, field in self._fields.items():
            field.committed.connect(lambda text, way=way: self._say(way, text))
            field.entered.connect(lambda _text: self._done(self))

    def _lay_out(self) -> None:
        self._head = QHBoxLayout()
        self._head.setSpacing(0)
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addWidget(self._name)
        words.addWidget(self._shows)
        self._head.addLayout(words, 1)
        self._head.addWidget(self._seen)
        self._acts = QWidget()
        acts = QGridLayout(self._acts)
        acts.setContentsMargins(0, 0, 0, 0)
        acts.setHorizontalSpacing(12)
        acts.setVerticalSpacing(4)
        acts.setColumnStretch(0, 1)
        acts.addWidget(self._control, 0, 0)
        acts.addWidget(self._as_evaluated, 0, 1)
        acts.addWidget(self._gone, 0, 1)
        acts.addWidget(self._otherwise, 0, 2)
        acts.addWidget(self._not_today, 0, 3)
        self._answer = QWidget()
        answer = QHBoxLayout(self._answer)
        answer.setContentsMargins(0, 0, 0, 0)
        answer.setSpacing(12)
        answer.addWidget(self._held, 1, Qt.AlignmentFlag.AlignVCenter)
        answer.addWidget(self._note)
        answer.addWidget(self._change)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(4)
        page.addLayout(self._head)
        for widget in (self._acts, self._how, self._why, self._gone_how, self._answer):
            page.addWidget(widget)
        page.addWidget(rule())
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_hazard(self, hazard: HazardRow, sensors: Sequence[str], gone_asked: bool = False) -> None:
        """Show what is recorded; a text half typed stays open. ``gone_asked``: held back is not enough."""
        self._hazard, self._gone_asked = hazard, gone_asked
        unseen = (hazard.seen is False or hazard.blocked) and hazard.held is not False
        self._name.setText(hazard.name)
        self._name.set_tone(Role.TEXT, bold=unseen)
        limit = say("workbook.hazards.limit", limit=hazard.limit) if hazard.limit else ""
        self._shows.setText("\n".join(part for part in (hazard.shows, limit) if part))
        self._show_cells(hazard, sensors)
        sign = {None: Sign.EQUAL, True: Sign.WITHIN, False: Sign.REFUSED}[hazard.seen]
        self._seen.set_state(Sign.REFUSED if hazard.blocked else sign, hazard.seen_words)
        self._control.setText(hazard.control)
        self._as_evaluated.setVisible(bool(hazard.control) and not gone_asked)
        self._otherwise.setVisible(not gone_asked)
        self._gone.setVisible(gone_asked)
        for way, field in self._fields.items():
            draft = self._sheet.draft(self._kept_as(way))
            if draft and not field.box.hasFocus():
                field.set_draft(draft)
                self._opened = way
        self._show_answer()

    def _show_cells(self, hazard: HazardRow, sensors: Sequence[str]) -> None:
        wanted = len(sensors) if hazard.cells else 0
        while len(self._cells) > wanted:
            gone = self._cells.pop()
            self._head.removeWidget(gone)
            gone.hide()
            gone.deleteLater()
        while len(self._cells) < wanted:
            cell = _Seen(bold=False, side=16)
            self._head.insertWidget(1 + len(self._cells), cell)
            self._cells.append(cell)
        for cell, sees, words in zip(self._cells, hazard.cells, hazard.cell_words, strict=False):
            cell.set_state(Sign.WITHIN if sees else Sign.CROSS, words)
        self.wear(look_of(self))

    def wear(self, look: Look) -> None:
        """Columns grow with the letters."""
        _widths(look, self._cells, self._seen)

    def event(self, event: QEvent) -> bool:
        """Dress when first shown."""
        if puts_on(event):
            self.wear(look_of(self))
        return super().event(event)

    def _show_answer(self) -> None:
        hazard = self._hazard
        answered = hazard.held is not None and not self._changing and not self._opened
        self._acts.setVisible(not answered)
        for way, field in self._fields.items():
            field.setVisible(not answered and self._opened == way)
        self._answer.setVisible(answered)
        if hazard.held is not None:
            words = "workbook.hazards.held" if hazard.held else "workbook.hazards.not_today_done"
            words = "workbook.hazards.gone_done" if hazard.eliminated else words
            enough = hazard.eliminated or not self._gone_asked
            sign = (Sign.PEN if enough else Sign.SOME_OPEN) if hazard.held else Sign.EQUAL
            self._held.say_it(sign, say(words, how=hazard.how))
        self._note.setText(hazard.note)

    def _reopen(self) -> None:
        self._changing = True
        self._show_answer()
        self._sheet.reach(self.place())

    def _open(self, way: str) -> None:
        self._opened = way
        self._show_answer()
        self._sheet.reach(self._fields[way].box)

    def _hold_as_evaluated(self) -> None:
        self._record("", self._hazard.control)

    def _say(self, way: str, text: str) -> None:
        if text.strip():
            self._record(way, text.strip())

    def _kept_as(self, way: str) -> str:
        return f"{self._hazard.id}.{'gone-how' if way == 'gone' else way}"

    def _record(self, way: str, how: str) -> None:
        """Record it in one of the ways: held in these words or (empty) as evaluated, gone, or not today and why."""
        hazard, field = self._hazard, self._fields.get(way)
        held, gone = way != "why", way == "gone"
        if (held, how, gone) != (hazard.held, hazard.how, hazard.eliminated):
            opened, changing = self._opened, self._changing
            self._opened, self._changing = "", False
            for each in self._fields:
                self._sheet.keep(self._kept_as(each), "")
            if not self._sheet.record(hold_hazard, hazard.id, held, how, gone, beside=field):
                self._opened, self._changing = opened, changing
                if way:
                    self._sheet.keep(self._kept_as(way), how)
                self._show_answer()
                return
        self._opened, self._changing = "", False
        for one in self._fields.values():
            one.set_text("")
        self._show_answer()
        if field is None:
            self._done(self)

    def open_place(self) -> QWidget | None:
        """What waits to be answered here; None when the hazard is answered."""
        hazard = self._hazard
        waits = hazard.held is None or (self._gone_asked and hazard.held and not hazard.eliminated)
        return self.place() if waits else None

    def place(self) -> QWidget:
        """Where a link to this hazard leads."""
        if not self._acts.isVisibleTo(self):
            return self._change
        if self._opened:
            return self._fields[self._opened].box
        if self._gone_asked:
            return self._gone
        return self._as_evaluated if self._hazard.control else self._otherwise


class _Seen(QWidget):
    """By what a hazard is seen: a sign and its words, in as many lines as the instruments need."""

    def __init__(self, bold: bool = True, side: int = 20) -> None:
        super().__init__()
        self._sign = SignLabel(Sign.WITHIN, "", side)
        self._words = Label(size=Letter.SMALL, bold=bold, wrap=True)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self._sign)
        row.addWidget(self._words, 1)

    def set_state(self, sign: Sign, words: str) -> None:
        self._sign.set_sign(sign, words)
        self._words.setText(words)
        self.setAccessibleName(words)


class HeadCells(QWidget):
    """The heads over the sensors' columns."""

    def __init__(self, sensors: Sequence[str], kinds: Sequence[str]) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        hazard = Label(say("workbook.hazards.hazard"), Letter.SMALL, tone=Role.SECOND)
        row.addWidget(hazard, 1, Qt.AlignmentFlag.AlignBottom)
        self._cells = [_head(sensor, kind) for sensor, kind in zip(sensors, kinds, strict=True)]
        self._seen = Label(say("workbook.hazards.is_seen"), Letter.SMALL, bold=True)
        for cell in (*self._cells, self._seen):
            row.addWidget(cell, 0, Qt.AlignmentFlag.AlignBottom)
        self.wear(look_of(self))

    def wear(self, look: Look) -> None:
        """Columns grow with the letters."""
        _widths(look, self._cells, self._seen)

    def event(self, event: QEvent) -> bool:
        """Dress when first shown."""
        if puts_on(event):
            self.wear(look_of(self))
        return super().event(event)


def _head(sensor: str, kind: str) -> QWidget:
    """What a sensor is for, and below it by what it sees."""
    head = QWidget()
    lines = QVBoxLayout(head)
    lines.setContentsMargins(0, 0, 0, 0)
    lines.setSpacing(0)
    lines.addWidget(Label(sensor, Letter.SMALL, bold=True, wrap=True))
    lines.addWidget(Label(kind, Letter.TICK, tone=Role.SECOND, wrap=True))
    return head


def _widths(look: Look, cells: Sequence[QWidget], seen: QWidget) -> None:
    for cell in cells:
        cell.setFixedWidth(look.px(SENSOR))
        cell.setContentsMargins(0, 0, look.px(_GAP), 0)
    seen.setFixedWidth(look.px(SEEN))
