"""Sheet 6, people: who goes in, who watches, who authorizes; and the one page on which the crew is briefed."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.choice import Choice, Option, OptionRow
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.briefing_page import BriefingPage
from lamproom.desk.workbook.evaluated_questions import EvaluatedQuestions
from lamproom.desk.workbook.sheet import Sheet, columns
from lamproom.office.brief import brief
from lamproom.office.name_person import name_person
from lamproom.office.unname_person import unname_person
from lamproom.office.views.people_sheet import Candidate, Part, PeopleView, people_view
from lamproom.words import say


class PeopleSheet(Sheet):
    """Two pages: who, and the briefing. A press on a name names or unnames; nothing else is asked."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "people", say("sheets.people.title"))
        self._view: PeopleView | None = None
        self._of = ""
        self._who = self.button("who", say("sheets.people.names"), lambda: self._turn("who"))
        self._told = self.button("briefing", say("sheets.people.briefing"), lambda: self._turn("briefing"))
        pages = QHBoxLayout()
        pages.setSpacing(12)
        for button in (self._who, self._told):
            button.setCheckable(True)
            pages.addWidget(button)
        pages.addStretch(1)
        self.pinned.addLayout(pages)
        self._choices: dict[Part, Choice] = {
            "entrant": Choice(say("sheets.people.entrants"), many=True),
            "attendant": Choice(say("sheets.people.attendants"), many=True),
            "supervisor": Choice(say("sheets.people.supervisor")),
        }
        self._nobody: dict[Part, Label] = {}
        for part, choice in self._choices.items():
            choice.chosen.connect(lambda person, part=part: self._press(part, person))
            self._nobody[part] = Label(say("sheets.people.nobody"), Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._same = self.button("same", "", self._name_same)
        self._same.hide()
        self._not_asked = Label("", Letter.TABLE, tone=Role.SECOND, wrap=True)
        self._questions = EvaluatedQuestions(self)
        self._names = QWidget()
        self._briefing = BriefingPage()
        self._briefing.briefed.connect(self._brief)
        self._lay()
        self._turn("who")

    def _lay(self) -> None:
        left, right = QVBoxLayout(), QVBoxLayout()
        for side, parts in ((left, ("entrant",)), (right, ("attendant", "supervisor"))):
            side.setSpacing(6)
            for part in parts:
                side.addWidget(self._choices[part])  # type: ignore[index]
                side.addWidget(self._nobody[part])  # type: ignore[index]
                side.addSpacing(10)
            side.addStretch(1)
        names = QHBoxLayout()
        names.setSpacing(24)
        names.addLayout(left, 1)
        names.addLayout(right, 1)
        page = QVBoxLayout(self._names)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(12)
        page.addWidget(self._not_asked)
        page.addLayout(columns(self._same, None))
        page.addLayout(names)
        page.addWidget(rule(strong=True))
        page.addWidget(self._questions)
        self.page.addWidget(self._names)
        self.page.addWidget(self._briefing)
        self.page.addStretch(1)

    def _turn(self, page: str) -> None:
        self._names.setVisible(page == "who")
        self._briefing.setVisible(page == "briefing")
        self._who.setChecked(page == "who")
        self._told.setChecked(page == "briefing")
        self._area.verticalScrollBar().setValue(0)

    # Painted ----------------------------------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Paint who is named now."""
        if self._of != self.number:
            self._of = self.number
            self._briefing.begin()
            self._turn("who")
        view = self._view = people_view(self.desk.office, self.number)
        for part, candidates in self._candidates(view).items():
            self._options(part, candidates)
        self._questions.show_items(view.items, view.bars, view.standing)
        self._same.setVisible(bool(view.same))
        self._same.set_words(say("sheets.people.same_n", n=len(view.same)))
        self._not_asked.setText(view.not_asked)
        self._not_asked.setVisible(bool(view.not_asked))
        for widget in (self._choices["attendant"], self._told):
            widget.setVisible(not view.not_asked)
        if view.not_asked:
            self._nobody["attendant"].hide()
        missing = sum(1 for one in view.crew if not one.signed)
        self._told.set_words(
            say("sheets.people.briefing_open", n=missing) if missing else say("sheets.people.briefing")
        )
        self._briefing.show_view(view)

    def _candidates(self, view: PeopleView) -> dict[Part, tuple[Candidate, ...]]:
        return {"entrant": view.entrants, "attendant": view.attendants, "supervisor": view.supervisors}

    def _options(self, part: Part, candidates: tuple[Candidate, ...]) -> None:
        choice = self._choices[part]
        choice.set_options(
            Option(one.person, one.name, "" if one.barred else one.words, one.barred) for one in candidates
        )
        choice.set_values(one.person for one in candidates if one.named)
        for one in candidates:
            choice.row(one.person).setObjectName(self.name(part, one.person))
        self._nobody[part].setVisible(not candidates)

    def place(self, rest: str) -> QWidget | None:
        """'entrants', 'attendant', 'supervisor', 'briefing', or the id of a question."""
        self._turn("briefing" if rest == "briefing" else "who")
        if rest == "briefing":
            return self._briefing.done
        asked = self._questions.place(rest)
        if asked is not None:
            return asked
        part = rest.removesuffix("s")
        choice = next((c for p, c in self._choices.items() if p == part), self._choices["entrant"])
        return next((row for row in choice.findChildren(OptionRow) if row.isEnabled() and row.isVisibleTo(self)), None)

    def concerns(self, streams: object) -> bool:
        """The register of people changes who may be named."""
        named = streams if isinstance(streams, frozenset) else frozenset()
        return super().concerns(named) or any(str(stream).startswith("person/") for stream in named)

    # Acts -------------------------------------------------------------------------------------------------------------

    def _press(self, part: Part, person: str) -> None:
        known = self._candidates(self._view)[part] if self._view is not None else ()
        named = any(one.person == person and one.named for one in known)
        if part == "supervisor" and named:
            return
        if not self.record(unname_person if named else name_person, person, part):
            self.refresh()

    def _name_same(self) -> None:
        """Name again whom the permit before named: each is checked like anyone, briefed anew, and signs anew."""
        for person, part in self._view.same if self._view is not None else ():
            if not self.record(name_person, person, part):
                self.refresh()
                return
        self.move_on(self._same, self._questions.open_places())

    def _brief(self, inks: object) -> None:
        witness = self._view.witness if self._view is not None else None
        if isinstance(inks, tuple):
            if self.desk.do(brief, self.number, inks, by=witness):
                self.finished.emit()
