"""One isolation point: lock, whose lock, tried and found dead, verified by another; recorded when all stands."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.choice import DropList, Option
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.parts.three_way import Answer, ThreeWayBar
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.said_line import SaidLine
from lamproom.desk.workbook.sheet import Sheet, columns
from lamproom.office.isolate_point import isolate_point
from lamproom.office.views.isolation_sheet import PointRow
from lamproom.words import say

_PARTS = ("lock", "box", "owner", "dead", "verified")


class IsolationPointLine(QWidget):
    """What is half given is kept as drafts. ``done`` is called after a record, so that the sheet can move on."""

    def __init__(self, sheet: Sheet, point: PointRow, done: Callable[[QWidget], None]) -> None:
        super().__init__()
        self._sheet, self._point, self._done = sheet, point, done
        self._changing = False
        self._people: tuple[tuple[str, str], ...] = ()
        id = point.id
        self._lock = sheet.field(f"{id}.lock", Field(say("workbook.isolation.lock"), width=96))
        self._box = sheet.field(f"{id}.box", Field(say("workbook.isolation.box"), width=96, optional=True))
        self._owner = DropList(say("workbook.isolation.owner"))
        self._owner.box.setObjectName(sheet.name(f"{id}.owner"))
        self._tried = ThreeWayBar(say("workbook.isolation.tried"), may_not_apply=False)
        for segment, word in zip(self._tried.findChildren(QAbstractButton), ("yes", "no"), strict=True):
            segment.setObjectName(sheet.name(f"{id}.dead.{word}"))
        self._second = DropList(say("workbook.isolation.second"))
        self._second.box.setObjectName(sheet.name(f"{id}.verified"))
        self._state = SaidLine(Sign.WITHIN)
        self._note = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._change = sheet.button(f"{id}.change", say("workbook.change"), self._reopen, Kind.LINK)
        self._wrong = SaidLine(Sign.REFUSED, bold=True)
        self._lay_out()
        self._lock.committed.connect(lambda text: self._given("lock", text.strip()))
        self._lock.entered.connect(lambda _text: sheet.reach(self._owner.box))
        self._box.committed.connect(lambda text: self._given("box", text.strip()))
        self._owner.chosen.connect(self._owner_chosen)
        self._tried.answered.connect(self._tried_answered)
        self._second.chosen.connect(lambda person: self._given("verified", person))

    def _lay_out(self) -> None:
        self._ask = QWidget()
        tried = QVBoxLayout()
        tried.setSpacing(2)
        tried.addWidget(Label(say("workbook.isolation.tried"), Letter.TABLE, bold=True))
        tried.addWidget(self._tried)
        asked = QVBoxLayout(self._ask)
        asked.setContentsMargins(0, 2, 0, 4)
        asked.setSpacing(4)
        row = QHBoxLayout()
        asked.addLayout(row)
        asked.addLayout(columns(self._box, None))
        row.setSpacing(12)
        row.addWidget(self._lock, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self._owner, 1, Qt.AlignmentFlag.AlignTop)
        row.addLayout(tried)
        row.addWidget(self._second, 1, Qt.AlignmentFlag.AlignTop)
        self._answer = QWidget()
        answer = QHBoxLayout(self._answer)
        answer.setContentsMargins(0, 0, 0, 0)
        answer.setSpacing(12)
        answer.addWidget(self._state, 1, Qt.AlignmentFlag.AlignVCenter)
        answer.addWidget(self._note)
        answer.addWidget(self._change)
        self._holds = Label(self._point.holds, Letter.SMALL, tone=Role.SECOND, wrap=True)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(2)
        page.addLayout(columns(Label(self._point.name, Letter.BODY, bold=True), None))
        for widget in (self._holds, self._ask, self._answer, self._wrong):
            page.addWidget(widget)
        page.addWidget(rule())
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_point(self, point: PointRow, people: tuple[tuple[str, str], ...]) -> None:
        """Show what is recorded, or the drafts of what is not yet whole."""
        self._point = point
        if people != self._people:
            self._people = people
            self._owner.set_options(self._options(people))
        if not self._lock.box.hasFocus():
            self._lock.set_text(self._kept("lock", point.lock))
        if not self._box.box.hasFocus():
            self._box.set_text(self._kept("box", point.box))
        self._owner.set_value(self._kept("owner", point.owner))
        dead = {None: "", True: "yes", False: "no"}[point.tried_dead]
        self._tried.set_answer(Answer(self._kept("dead", dead)))
        self._show_second()
        self._second.set_value(self._kept("verified", point.verified_by))
        self._state.say_it(Sign.SOME_OPEN if point.wrong else Sign.WITHIN, point.done)
        self._note.setText(point.note)
        not_tried = point.tried_dead is False
        self._change.set_words(say("workbook.isolation.record_try" if not_tried else "workbook.change"))
        self._wrong.say_it(Sign.REFUSED, point.wrong)
        self._wrong.setVisible(bool(point.wrong))
        self._show_state()

    def _options(self, people: Sequence[tuple[str, str]]) -> list[Option]:
        return [Option(id, name) for id, name in people]

    def _kept(self, part: str, recorded: str) -> str:
        return self._sheet.draft(f"{self._point.id}.{part}") or (recorded if not self._changing else "")

    def _show_second(self) -> None:
        """Anyone but the owner of the lock."""
        others = [pair for pair in self._people if pair[0] != self._owner.value()]
        self._second.set_options(self._options(others))

    def _show_state(self) -> None:
        answered = bool(self._point.done) and not self._changing and not self._begun()
        self._ask.setVisible(not answered)
        self._answer.setVisible(answered)

    def _begun(self) -> bool:
        return any(self._sheet.draft(f"{self._point.id}.{part}") for part in _PARTS)

    def _reopen(self) -> None:
        self._changing = True
        if self._point.tried_dead is False:
            self._reopen_the_try()
            return
        self._lock.set_text("")
        self._box.set_text("")
        self._owner.set_value("")
        self._tried.set_answer(Answer.NONE)
        self._second.set_value("")
        self._show_state()
        self._sheet.reach(self._lock.box)

    def _reopen_the_try(self) -> None:
        """The lock hangs as it did: only the try and who saw it are asked."""
        point = self._point
        for part, known in (("lock", point.lock), ("box", point.box), ("owner", point.owner)):
            self._sheet.keep(f"{point.id}.{part}", known)
        self.show_point(point, self._people)
        self._sheet.reach(self._tried.first())

    def _owner_chosen(self, person: str) -> None:
        self._show_second()
        self._given("owner", person)

    def _tried_answered(self, value: str) -> None:
        self._given("dead", value)

    def _given(self, part: str, text: str) -> None:
        """One more of the four stands. A point that was not found dead needs no second person to be put on record."""
        self._sheet.keep(f"{self._point.id}.{part}", text)
        lock, owner = self._lock.text().strip(), self._owner.value()
        tried, second = self._tried.answer(), self._second.value()
        whole = lock and owner and (tried is Answer.NO or (tried is Answer.YES and second))
        if not whole:
            self._next_of(part)
            return
        point = self._point
        dead = tried is Answer.YES
        verified = second if dead else None
        box = self._box.text().strip()
        known = (point.lock, point.owner, point.tried_dead, point.verified_by or None, point.box)
        if (lock, owner, dead, verified, box) == known:
            self._forget()
        else:
            drafts = {part: self._sheet.draft(f"{point.id}.{part}") for part in _PARTS}
            self._forget()
            if not self._sheet.record(isolate_point, point.id, lock, owner, dead, verified, box, beside=self._lock):
                for part, kept in drafts.items():
                    self._sheet.keep(f"{point.id}.{part}", kept)
                self._show_state()
                return
        self._show_state()
        self._done(self)

    def _forget(self) -> None:
        self._changing = False
        for part in _PARTS:
            self._sheet.keep(f"{self._point.id}.{part}", "")

    def _next_of(self, part: str) -> None:
        if part == "owner":
            self._sheet.reach(self._tried.first())
        elif part == "dead":
            self._sheet.reach(self._second.box)

    def open_place(self) -> QWidget | None:
        """What waits here; None when the point is recorded and nothing is wrong with it."""
        return self.place() if self._point.wrong or not self._point.done else None

    def place(self) -> QWidget:
        """Where a link to this point leads."""
        if not self._ask.isVisibleTo(self):
            return self._change
        if not self._lock.text().strip():
            return self._lock.box
        if not self._owner.value():
            return self._owner.box
        return self._tried.first() if self._tried.answer() is Answer.NONE else self._second.box
