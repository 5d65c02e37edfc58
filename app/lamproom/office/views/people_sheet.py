"""Who goes in, who watches, who authorizes, and what the crew is told, as plain values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from lamproom.office.office import Office
from lamproom.office.views.air_table import AirTable, air_table
from lamproom.office.views.recorded import answered_against, standing_answers
from lamproom.office.views.sheet_items import ItemView, items_of
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.people import Person, trained
from lamproom.permit.words import clock
from lamproom.words import say

Part = Literal["entrant", "attendant", "supervisor"]


@dataclass(frozen=True, slots=True)
class Candidate:
    """Someone of the register for a part. ``words``: trained until when, or why not; ``barred`` empty when they may."""

    person: str
    name: str
    words: str
    barred: str
    named: bool


@dataclass(frozen=True, slots=True)
class ToSign:
    """Someone who is briefed: their part, and when they signed (empty: not yet)."""

    person: str
    name: str
    part: str
    signed: str


@dataclass(frozen=True, slots=True)
class Told:
    """One thing that the crew is told: its head and its lines."""

    head: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PeopleView:
    """The whole sheet. ``witness`` is the supervisor's id in whose name a briefing is recorded (None: not named)."""

    number: str
    entrants: tuple[Candidate, ...]
    attendants: tuple[Candidate, ...]
    supervisors: tuple[Candidate, ...]
    items: tuple[ItemView, ...]
    bars: Mapping[str, str]
    standing: tuple[tuple[str, str], ...]
    told: tuple[Told, ...]
    air: AirTable
    crew: tuple[ToSign, ...]
    witness: str | None
    witness_words: str
    same: tuple[tuple[str, Part], ...] = ()
    """Who was named on the permit that this one follows, for which part, and may be named again."""
    not_asked: str = ""
    """Why no attendant and no briefing are asked for; empty where they are."""


def people_view(office: Office, number: str) -> PeopleView:
    """The sheet as it stands now. Refused when there is no such permit."""
    facts = office.facts(number)
    permit = facts.permit
    day = facts.at.astimezone(permit.zone).date()
    register = [office.person(id) for id in office.ids("person")]
    supervisor = (permit.supervisor,) if permit.supervisor is not None else ()
    witness = facts.name(permit.supervisor) if permit.supervisor is not None else ""
    entrants = tuple(_candidates(facts, register, "entrant", permit.entrants, day))
    attendants = tuple(_candidates(facts, register, "attendant", permit.attendants, day))
    supervisors = tuple(_candidates(facts, register, "supervisor", supervisor, day))
    return PeopleView(
        number,
        entrants,
        attendants,
        supervisors,
        items_of(facts, "people"),
        answered_against(facts),
        standing_answers(facts, "people"),
        tuple(_told(facts)),
        air_table(facts),
        tuple(_crew(facts)),
        permit.supervisor,
        say("sheets.people.witness", name=witness) if witness else say("sheets.people.no_witness"),
        tuple(_same(office, facts, {"entrant": entrants, "attendant": attendants, "supervisor": supervisors})),
        say("sheets.people.not_asked", way=say(f"registers.way.{permit.route}")) if permit.route != "permit" else "",
    )


def _same(office: Office, facts: Facts, offered: Mapping[Part, tuple[Candidate, ...]]) -> Iterator[tuple[str, Part]]:
    """Those named on the permit that this one follows whom nobody named here yet and nothing keeps from their part."""
    after = facts.permit.opened.renews
    if after is None or facts.permit.authorised is not None:
        return
    old = office.permit(after)
    named: Mapping[Part, tuple[str, ...]] = {
        "entrant": old.entrants,
        "attendant": old.attendants,
        "supervisor": (old.supervisor,) if old.supervisor is not None else (),
    }
    for part, candidates in offered.items():
        for one in candidates:
            if one.person in named[part] and not one.named and not one.barred:
                yield one.person, part


def _candidates(
    facts: Facts, register: list[Person], part: str, named: tuple[str, ...], day: date
) -> Iterator[Candidate]:
    """Those of the register who have the part; then any named one who has it no more."""
    fit = sorted((p for p in register if part in p.roles and not p.left), key=lambda p: not trained(p, part, day))
    for person in fit:
        words, barred = _training(person, part, day)
        other = _other_part(facts, person.id, part)
        here = person.id in named
        yield Candidate(
            person.id, facts.name(person.id), words or barred or other, "" if here else barred or other, here
        )
    for id in named:
        if id not in {person.id for person in fit}:
            yield Candidate(id, facts.name(id), say("sheets.people.not_in_role"), "", True)


def _training(person: Person, part: str, day: date) -> tuple[str, str]:
    """Trained until when, or why not."""
    training = person.training(part)
    role = say(f"permit.role.{part}")
    if training is None:
        return "", say("sheets.people.untrained", role=role)
    if training.trained_on > day:
        return "", say("sheets.people.trained_later", day=_day(training.trained_on))
    if training.good_until is None:
        return say("sheets.people.trained", day=_day(training.trained_on)), ""
    if training.good_until < day:
        return "", say("sheets.people.training_over", day=_day(training.good_until))
    return say("sheets.people.trained_until", day=_day(training.good_until)), ""


def _other_part(facts: Facts, person: str, part: str) -> str:
    """Nobody is entrant and attendant at once: 29 CFR 1910.146(i)(4)."""
    if part == "entrant" and person in facts.permit.attendants:
        return say("sheets.people.is_attendant")
    return say("sheets.people.is_entrant") if part == "attendant" and person in facts.permit.entrants else ""


def _day(day: date) -> str:
    return f"{day.day} {day.strftime('%b %Y')}"


# The briefing ---------------------------------------------------------------------------------------------------------


def _crew(facts: Facts) -> Iterator[ToSign]:
    permit = facts.permit
    parts = [(p, "entrant") for p in permit.entrants] + [(p, "attendant") for p in permit.attendants]
    for person, part in parts:
        made = permit.briefed.get(person)
        signed = say("sheets.people.signed", time=clock(made.at, permit.zone)) if made is not None else ""
        yield ToSign(person, facts.name(person), say(f"permit.role.{part}"), signed)


def _told(facts: Facts) -> Iterator[Told]:
    """What the page of the briefing says, from the record alone; results and limits are a table of their own."""
    permit = facts.permit
    hazards = []
    for id, name, shows, _gas in permit.hazards():
        made = permit.held.get(id)
        how = made.event.how if made is not None and isinstance(made.event, e.HazardHeld) else ""
        if how:
            hazards.append(say("sheets.people.hazard_held", hazard=name, shows=shows, how=how))
        else:
            hazards.append(say("sheets.people.hazard_open", hazard=name, shows=shows))
    yield Told(say("sheets.people.hazards"), tuple(hazards))
    answer = permit.answers.get("communication")
    tried = answer.event.found if answer is not None and isinstance(answer.event, e.Answered) else ""
    signal = tried or permit.opened.evaluated.communication
    yield Told(say("sheets.people.signals"), (signal, say("sheets.people.leave")))
    plan = permit.opened.evaluated.rescue
    yield Told(
        say("sheets.people.rescue"),
        (say("sheets.people.rescue_words", service=plan.service, means=plan.means), plan.retrieval),
    )
