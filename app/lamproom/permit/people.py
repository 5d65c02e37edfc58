"""People as rules see them: an id, the roles they may fill and until when they are trained. Names live elsewhere."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import ClassVar, Literal

from lamproom.bench.happening import Event, Happening

Role = Literal["supervisor", "attendant", "entrant", "tester", "keeper", "office"]
"""What a person may do: authorise; watch; go in; test the air; keep instruments, people and keys; file and review."""


class PersonRegistered(Event):
    """A person joined the site. The name is in the table of people; ``employer`` is 'own' or another's mark."""

    kind: ClassVar[str] = "person-registered"
    roles: tuple[Role, ...]
    employer: str = "own"


class PersonTrained(Event):
    """Training for a role, certified: trainer and date (29 CFR 1910.146(g)(4)). ``good_until`` None: no site date."""

    kind: ClassVar[str] = "person-trained"
    role: Role
    trained_on: date
    trainer: str
    good_until: date | None = None


class PersonEmployed(Event):
    """The person works for somebody else from now on: 'own', or the other employer's mark. What host and contractor owe
    each other follows it, 29 CFR 1910.146(c)(8), (c)(9)."""

    kind: ClassVar[str] = "person-employed"
    employer: str


class PersonLeft(Event):
    """The person no longer works here; the id is never given again."""

    kind: ClassVar[str] = "person-left"
    reason: str = ""


class CodeFailed(Event):
    """Someone gave a wrong code for this person at this station; shown to its owner."""

    kind: ClassVar[str] = "code-failed"
    tries_left: int


EVENTS: tuple[type[Event], ...] = (PersonRegistered, PersonTrained, PersonEmployed, PersonLeft, CodeFailed)


@dataclass(frozen=True, slots=True)
class Person:
    """What the register knows of one person."""

    id: str
    roles: tuple[str, ...] = ()
    trained: tuple[PersonTrained, ...] = ()
    left: bool = False
    employer: str = "own"
    version: int = 0

    def training(self, role: str) -> PersonTrained | None:
        """The newest training for a role, None when there is none."""
        return next((done for done in reversed(self.trained) if done.role == role), None)


def trained(person: Person, role: str, day: date) -> bool:
    """May this person fill the role on that day: registered for it, trained on or before it, and not past its date."""
    if person.left or role not in person.roles:
        return False
    return any(
        done.role == role
        and done.trainer.strip()
        and done.trained_on <= day
        and (done.good_until is None or done.good_until >= day)
        for done in person.trained
    )


def apply(state: Person, happening: Happening) -> Person:
    state = replace(state, version=happening.version)
    match happening.event:
        case PersonRegistered() as event:
            return replace(state, roles=event.roles, employer=event.employer)
        case PersonTrained() as event if not happening.void:
            return replace(state, trained=(*state.trained, event))
        case PersonEmployed() as event:
            return replace(state, employer=event.employer)
        case PersonLeft():
            return replace(state, left=True)
    return state


def fold(happenings: Iterable[Happening], start: Person) -> Person:
    for happening in happenings:
        start = apply(start, happening)
    return start
