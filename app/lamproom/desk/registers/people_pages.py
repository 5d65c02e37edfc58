"""People: register one, with training and a code for those who sign; add training."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.choice import Option
from lamproom.desk.registers.entry_page import EntryPage
from lamproom.office.change_employer import change_employer
from lamproom.office.register_person import register_person
from lamproom.office.train_person import train_person
from lamproom.office.views.registers import (
    ROLES,
    TRAINED,
    Facts,
    PersonLine,
    code_words,
    next_id,
    people,
    person_from,
    role_line,
    role_words,
    training_of,
)
from lamproom.words import say

ROW = 36
"""So many letters of roles fit in a row of the list."""


class NewPersonPage(EntryPage):
    """A new person: name, roles, training; code and the keeper's code where they sign."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "person/new", "registers.people.new", say("registers.person.new"))
        self.setObjectName("registers.people.new")
        q = self.questions
        q.line("name", say("registers.person.name"), width=340)
        q.choice("roles", say("registers.person.roles"), [Option(role, role_line(role)) for role in ROLES], many=True)
        q.line("employer", say("registers.person.employer"), optional=True, width=340)
        q.note(say("registers.person.training_note"))
        q.side_by_side()
        q.line("trainer", say("registers.person.trainer"), width=230)
        q.line("trained-on", say("registers.person.trained_on"), hint=say("registers.day_hint"), width=170)
        q.line("good-until", say("registers.person.good_until"), optional=True, width=170)
        q.head(say("registers.person.code"))
        q.note(say("registers.person.code_note"))
        q.note(code_words(desk.office))
        q.side_by_side()
        q.line("code", say("registers.person.code"), secret=True, width=168)
        q.line("code-again", say("registers.person.code_again"), secret=True, width=168)
        q.line("keeper-code", say("registers.person.keeper_code"), secret=True, width=168)
        q.end()
        self.button("record", say("registers.person.record"), self._record)

    def _record(self) -> None:
        id = next_id(self.desk.office, "person", "P")
        secrets = {key: self.questions.text(key) for key in ("code", "code-again", "keeper-code")}
        filled = person_from(self.desk.office, id, self.answers(), secrets)
        self.show_troubles(filled.troubles)
        by, new = self.person(), filled.value
        if new is None or by is None:
            return
        if self.desk.do(
            register_person,
            id,
            new.name,
            new.roles,
            new.training,
            by=by,
            code=new.code,
            keeper_code=new.keeper_code,
            employer=self.questions.text("employer"),
        ):
            self.done(id, say("registers.person.recorded", name=new.name, id=id))


class PersonPage(EntryPage):
    """A person: roles, training, code; and more training."""

    def __init__(self, desk: Desk, line: PersonLine) -> None:
        super().__init__(desk, f"person/{line.id}/training", "registers.people.training", line.name)
        self.setObjectName(f"registers.people.{line.id}")
        self._id = line.id
        q = self.questions
        self.show_facts(_facts(line))
        q.head(say("registers.person.more_training"))
        q.choice(
            "role", say("registers.person.role"), [Option(role, role_words(role)) for role in TRAINED], across=True
        )
        q.side_by_side()
        q.line("trainer", say("registers.person.trainer"), width=230)
        q.line("trained-on", say("registers.person.trained_on"), hint=say("registers.day_hint"), width=170)
        q.line("good-until", say("registers.person.good_until"), optional=True, width=170)
        q.end()
        self.button("to-employer", say("registers.person.change_employer"), self._to_employer, main=False)
        self.button("record", say("registers.person.record_training"), self._record)

    def _to_employer(self) -> None:
        self.desk.go("registers", register="people", id=f"{self._id}/employer")

    def _record(self) -> None:
        filled = training_of(self.answers())
        self.show_troubles(filled.troubles)
        by, done = self.person(), filled.value
        if done is not None and by is not None and self.desk.do(train_person, self._id, done, by=by):
            self.done(self._id, say("registers.person.trained_recorded", role=role_words(done.role)))


class EmployerPage(EntryPage):
    """For whom a person works from now on."""

    def __init__(self, desk: Desk, line: PersonLine) -> None:
        title = say("registers.person.employer_title", name=line.name)
        super().__init__(desk, f"person/{line.id}/employer", "registers.people.employer", title)
        self.setObjectName(f"registers.people.{line.id}.employer")
        self._id, self._called = line.id, line.name
        self.show_facts(Facts(line.name, _employers(line)))
        self.questions.note(say("registers.person.employer_note"))
        self.questions.line("employer", say("registers.person.employer"), optional=True, width=340)
        self.questions.end()
        self.button("record", say("registers.person.record_employer"), self._record)
        self.put({"employer": line.employer})

    def _record(self) -> None:
        by, told = self.person(), self.questions.text("employer").strip()
        if by is not None and self.desk.do(change_employer, self._id, told, by=by):
            employer = told or say("registers.person.own")
            self.done(self._id, say("registers.person.employer_recorded", name=self._called, employer=employer))


def _employers(line: PersonLine) -> tuple[tuple[str, str], ...]:
    """For whom the person works, then for whom they worked."""
    now, before = say("registers.person.works_for"), say("registers.person.worked_for")
    return tuple((before if at else now, words) for at, words in enumerate(line.employed))


def _facts(line: PersonLine) -> Facts:
    lines = [
        (say("registers.person.id"), line.id),
        (say("registers.person.roles"), ", ".join(role_words(role) for role in line.roles)),
        (
            say("registers.person.code"),
            say("registers.person.has_code" if line.has_code else "registers.person.no_code"),
        ),
    ]
    lines += _employers(line)
    lines += [(say("registers.person.training"), words) for words in line.training]
    return Facts(line.name, tuple(lines))


def listed(desk: Desk) -> list[Option]:
    """The people of the register as rows."""
    return [Option(line.id, line.name, _roles_in_a_row(line)) for line in people(desk.office)]


def _roles_in_a_row(line: PersonLine) -> str:
    """The roles in the room of a row: all of them, or the first and how many more; the page names them all."""
    words = ", ".join(role_words(role) for role in line.roles)
    if len(words) <= ROW:
        return words
    return say("registers.person.roles_more", first=role_words(line.roles[0]), n=len(line.roles) - 1)


def opened(desk: Desk, id: str) -> QWidget:
    """The page of a person, of their employer ('P-02/employer'), or of a new person."""
    person, _, rest = id.partition("/")
    line = next((line for line in people(desk.office) if line.id == person), None)
    if line is None:
        return NewPersonPage(desk)
    return EmployerPage(desk, line) if rest == "employer" else PersonPage(desk, line)
