"""Sheet 6, people: who goes in, who watches, who authorizes; and the one page on which the crew is briefed."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import Choice, Option, OptionRow
from lamproom.desk.parts.ink_pad import InkPad
from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.parts.notice import MessageLine
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.permit_sheet import PermitSheet, Press, head, scrolling
from lamproom.desk.workbook.sheet_questions import SheetQuestions
from lamproom.office.brief import brief
from lamproom.office.name_person import name_person
from lamproom.office.unname_person import unname_person
from lamproom.office.views.people_sheet import Candidate, PeopleView, ToSign, people_view
from lamproom.permit.events import Ink
from lamproom.words import say

Part = Literal["entrant", "attendant", "supervisor"]


class PeopleSheet(PermitSheet):
    """Two pages: who, and the briefing. A press on a name names or unnames; nothing else is asked."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "people", parent)
        self._view: PeopleView | None = None
        self.who = Button(say("sheets.people.names"))
        self.who.setObjectName("workbook.people.who")
        self.briefing = Button(say("sheets.people.briefing"))
        self.briefing.setObjectName("workbook.people.briefing")
        for button in (self.who, self.briefing):
            button.setCheckable(True)
        self.choices: dict[Part, Choice] = {
            "entrant": Choice(say("sheets.people.entrants"), many=True),
            "attendant": Choice(say("sheets.people.attendants"), many=True),
            "supervisor": Choice(say("sheets.people.supervisor")),
        }
        for part, choice in self.choices.items():
            choice.setObjectName(f"workbook.people.{part}s")
            choice.chosen.connect(lambda person, part=part: self._press(part, person))
        self.questions = SheetQuestions(self)
        self.page = BriefingPage()
        self.page.briefed.connect(self._brief)
        self._lay()
        self.who.clicked.connect(lambda: self._turn(0))
        self.briefing.clicked.connect(lambda: self._turn(1))
        self._turn(0)

    def _lay(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(12)
        top.addWidget(head(say("sheets.people.title")))
        top.addStretch(1)
        top.addWidget(self.who)
        top.addWidget(self.briefing)
        left, right = QVBoxLayout(), QVBoxLayout()
        left.addWidget(self.choices["entrant"])
        left.addStretch(1)
        right.setSpacing(16)
        right.addWidget(self.choices["attendant"])
        right.addWidget(self.choices["supervisor"])
        right.addStretch(1)
        names = QHBoxLayout()
        names.setSpacing(24)
        names.addLayout(left, 1)
        names.addLayout(right, 1)
        who = QWidget()
        page = QVBoxLayout(who)
        page.setContentsMargins(0, 0, 8, 8)
        page.setSpacing(16)
        page.addLayout(names)
        page.addWidget(rule())
        page.addWidget(self.questions)
        page.addStretch(1)
        self.pages = QStackedWidget()
        self.pages.addWidget(scrolling(who))
        self.pages.addWidget(self.page)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(18, 8, 18, 10)
        whole.setSpacing(10)
        whole.addLayout(top)
        whole.addWidget(self.pages, 1)

    def _turn(self, page: int) -> None:
        self.pages.setCurrentIndex(page)
        self.who.setChecked(page == 0)
        self.briefing.setChecked(page == 1)

    def begin(self) -> None:
        """Another permit: its half-typed answers; ink is never kept."""
        self._view = None
        self._turn(0)
        self.questions.begin()
        self.page.begin()

    def refresh(self) -> None:
        """Paint who is named now."""
        view = self._view = people_view(self.desk.office, self.number)
        self._options("entrant", view.entrants)
        self._options("attendant", view.attendants)
        self._options("supervisor", view.supervisors)
        self.questions.show_items(view.items)
        missing = sum(1 for one in view.crew if not one.signed)
        briefing = say("sheets.people.briefing_open", n=missing) if missing else say("sheets.people.briefing")
        self.briefing.set_words(briefing)
        self.page.show_view(view)

    def _options(self, part: Part, candidates: tuple[Candidate, ...]) -> None:
        choice = self.choices[part]
        choice.set_options(
            Option(one.person, one.name, "" if one.barred else one.words, one.barred) for one in candidates
        )
        choice.set_values(one.person for one in candidates if one.named)
        for one in candidates:
            choice.row(one.person).setObjectName(f"workbook.people.{part}.{one.person}")

    def _press(self, part: Part, person: str) -> None:
        candidates = {"entrant": "entrants", "attendant": "attendants", "supervisor": "supervisors"}[part]
        known: tuple[Candidate, ...] = getattr(self._view, candidates, ())
        named = any(one.person == person and one.named for one in known)
        if part == "supervisor" and named:
            return
        act = unname_person if named else name_person
        if not self.desk.do(act, self.number, person, part, by=self.desk.person):
            self.refresh()

    def show_target(self, rest: str) -> None:
        """'entrants', 'attendant', 'supervisor', 'briefing', or the id of a question."""
        self._turn(1 if rest == "briefing" else 0)
        if rest == "briefing":
            self.page.focus_first()
        elif not self.questions.focus_item(rest):
            part = rest.removesuffix("s")
            choice = next((c for p, c in self.choices.items() if p == part), self.choices["entrant"])
            first = next((row for row in choice.findChildren(OptionRow) if row.isEnabled()), None)
            if first is not None:
                first.setFocus()

    def _brief(self, inks: object) -> None:
        witness = self._view.witness if self._view is not None else None
        if isinstance(inks, tuple):
            self.desk.do(brief, self.number, inks, by=witness)


class BriefingPage(QWidget):
    """What the crew is told, and a pad for everyone who has not signed. Signal: ``briefed(tuple of Ink)``."""

    briefed = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pads: dict[str, InkPad] = {}
        self._shown: tuple[object, ...] = ()
        self.told = QGridLayout()
        self.told.setHorizontalSpacing(16)
        self.told.setVerticalSpacing(8)
        self.told.setColumnStretch(1, 1)
        self.signed = QVBoxLayout()
        self.signed.setSpacing(4)
        self.pads = QGridLayout()
        self.pads.setHorizontalSpacing(24)
        self.pads.setVerticalSpacing(12)
        self.nobody = Label(say("sheets.people.nobody_to_brief"), Letter.BODY, wrap=True)
        self.message = MessageLine()
        self.witness = Label(size=Letter.TABLE, wrap=True)
        self.done = Press(say("sheets.people.briefed"), Kind.MAIN, sign=Sign.PEN)
        self.done.setObjectName("workbook.people.brief")
        self.done.clicked.connect(self._press)
        inner = QWidget()
        page = QVBoxLayout(inner)
        page.setContentsMargins(0, 0, 8, 8)
        page.setSpacing(10)
        page.addWidget(Label(say("sheets.people.told_title"), Letter.BODY, bold=True))
        page.addLayout(self.told)
        page.addWidget(rule())
        page.addWidget(Label(say("sheets.people.sign_title"), Letter.BODY, bold=True))
        page.addWidget(self.nobody)
        page.addLayout(self.signed)
        page.addLayout(self.pads)
        page.addStretch(1)
        foot = QHBoxLayout()
        foot.setSpacing(12)
        foot.addWidget(self.witness, 1)
        foot.addWidget(self.done)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(8)
        whole.addWidget(scrolling(inner), 1)
        whole.addWidget(self.message)
        whole.addLayout(foot)

    def begin(self) -> None:
        """Empty pads."""
        self._shown = ()
        self.message.clear()

    def show_view(self, view: PeopleView) -> None:
        """What is told now; a pad keeps its ink while the same people are still to sign."""
        _empty(self.told)
        for row, told in enumerate(view.told):
            self.told.addWidget(Label(told.head, Letter.TABLE, tone=Role.SECOND), row, 0)
            self.told.addWidget(Label("\n".join(told.lines), Letter.TABLE, wrap=True), row, 1)
        self.witness.setText(view.witness_words)
        self.nobody.setVisible(not view.crew)
        self.done.setVisible(any(not one.signed for one in view.crew))
        if view.crew != self._shown:
            self._shown = view.crew
            self._show_crew(view.crew)
        if all(one.signed for one in view.crew):
            self.message.clear()

    def _show_crew(self, crew: tuple[ToSign, ...]) -> None:
        _empty(self.signed)
        for one in crew:
            if one.signed:
                who = say("sheets.people.sign_who", name=one.name, part=one.part)
                self.signed.addWidget(StateWord(Sign.WITHIN, f"{who}, {one.signed}", Letter.TABLE, bold=False))
        kept = {person: pad.strokes() for person, pad in self._pads.items()}
        _empty(self.pads)
        self._pads = {}
        for at, one in enumerate([one for one in crew if not one.signed]):
            pad = InkPad(say("sheets.people.sign_who", name=one.name, part=one.part), by_key=False)
            pad.pad.setObjectName(f"workbook.people.ink.{one.person}")
            pad.pad.set_strokes(kept.get(one.person, []))
            pad.findChildren(Button)[0].setObjectName(f"workbook.people.ink-clear.{one.person}")
            self._pads[one.person] = pad
            self.pads.addWidget(pad, at // 2, at % 2)

    def _press(self) -> None:
        inks = tuple(
            Ink(person=person, strokes=tuple(tuple(stroke) for stroke in pad.strokes()))
            for person, pad in self._pads.items()
        )
        self.briefed.emit(inks)

    def focus_first(self) -> None:
        """Put the keyboard on the act."""
        self.done.setFocus()


def _empty(layout: QGridLayout | QVBoxLayout) -> None:
    while layout.count():
        item = layout.takeAt(0)
        if item is not None and (widget := item.widget()) is not None:
            widget.hide()
            widget.deleteLater()
