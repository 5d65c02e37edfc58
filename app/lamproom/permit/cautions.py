"""Cautions: what a careful supervisor would want to know and what bars nothing. Shown and printed, never counted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal

from lamproom.bench.bump import gas_name
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.atmosphere import counted
from lamproom.permit.people import trained
from lamproom.permit.words import clock, figure_words, limit_words, place_words
from lamproom.words import Sentence, sentence

LONG_HOURS = timedelta(hours=8)
"""A sample permit of the rule's Appendix D is good for 8 hours; the rule itself names none."""
TRAINING_SOON = timedelta(days=14)


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution: its id, what it says, and where it comes from."""

    code: str
    sentence: Sentence
    rule: str


def cautions(facts: Facts) -> tuple[Caution, ...]:
    """Every caution at this moment."""
    return tuple(
        found
        for rule in (_hours, _parts, _runs_out, _near_limit, _training, _summons, _others)
        for found in rule(facts)
    )


def _hours(facts: Facts) -> Iterator[Caution]:
    hours = facts.permit.hours
    if hours is not None and hours.ends - hours.begins > LONG_HOURS:
        yield Caution("long-hours", sentence("permit.caution.long_hours"), "29 CFR 1910.146 Appendix D, sample D-2")


def _parts(facts: Facts) -> Iterator[Caution]:
    """A supervisor may also go in or watch where trained and equipped for each: definition of entry supervisor."""
    permit = facts.permit
    for part, people in (("entrant", permit.entrants), ("attendant", permit.attendants)):
        if permit.supervisor is not None and permit.supervisor in people:
            yield Caution(
                "two-parts",
                sentence(
                    "permit.caution.two_parts",
                    name=facts.name(permit.supervisor),
                    role=sentence(f"permit.role.{part}"),
                ),
                "29 CFR 1910.146(b), entry supervisor, note",
            )


def _runs_out(facts: Facts) -> Iterator[Caution]:
    """Readiness that ends before the hours do bars the next person then, and plans nothing away now."""
    permit = facts.permit
    ends = permit.until or (permit.hours.ends if permit.hours is not None else None)
    for one in (*permit.assigned("test"), *permit.assigned("worn")):
        until = facts.ready(one.instrument).until
        if until is not None and ends is not None and until < ends:
            said = sentence(
                "permit.instrument_runs_out",
                name=one.registered.name,
                until=clock(until, permit.zone),
                ends=clock(ends, permit.zone),
            )
            yield Caution("instrument-runs-out", said, "site rule")


def _near_limit(facts: Facts) -> Iterator[Caution]:
    """Within the limit and past half of it, flammable and toxic: the level at which the alternate route would end."""
    for one in counted(facts):
        for figure in one.figures:
            line = facts.permit.form.limit(figure.gas)
            if line is None or line.high is None or figure.gas == "oxygen" or figure.figure is None:
                continue
            if Decimal(line.high) / 2 <= Decimal(figure.figure) < Decimal(line.high):
                yield Caution(
                    "past-half",
                    sentence(
                        "permit.caution.past_half",
                        gas=gas_name(figure.gas),
                        figure=figure_words(figure),
                        place=place_words(one.event.phase, one.event.point_m),
                        limit=limit_words(line),
                    ),
                    "common practice",
                )


def _training(facts: Facts) -> Iterator[Caution]:
    day = facts.at.astimezone(facts.permit.zone).date()
    for id in dict.fromkeys((*facts.permit.entrants, *facts.permit.attendants)):
        person = facts.people.get(id)
        if person is None:
            continue
        for role in ("entrant", "attendant"):
            if trained(person, role, day) and not trained(person, role, day + TRAINING_SOON):
                role_words = sentence(f"permit.role.{role}")
                said = sentence("permit.caution.training_ends", name=facts.name(id), role=role_words)
                yield Caution("training-ends", said, "site rule")


def _summons(facts: Facts) -> Iterator[Caution]:
    """A call for help alone is no rescue plan; said until somebody there confirmed that they can come. The shorter
    routes ask for none: (k) is waived on them."""
    permit = facts.permit
    if permit.route == "permit" and permit.rescue is None and permit.opened.evaluated.rescue.team == "outside":
        said = sentence("permit.caution.summons", service=permit.opened.evaluated.rescue.service)
        yield Caution("summons", said, "29 CFR 1910.146(k)(1)")


def _others(facts: Facts) -> Iterator[Caution]:
    for other in facts.others:
        if other.near:
            said = sentence("permit.caution.near", number=other.number, space=other.space)
            yield Caution("near-permit", said, "29 CFR 1910.146(d)(11)")
