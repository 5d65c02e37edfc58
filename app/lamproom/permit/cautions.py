"""Cautions: what a careful supervisor would want to know and what bars nothing. Shown and printed, never counted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal

from lamproom.air.flammable import percent_lel_to_ppm, toxic_at_lel
from lamproom.air.oxygen import partial_pressure
from lamproom.bench.bump import CLEAN_OXYGEN, gas_name
from lamproom.permit.facts import Facts
from lamproom.permit.flammable_reading import by_flammable_sensor_alone
from lamproom.permit.gas_limits import line_for, not_adopted, substance_of
from lamproom.permit.obstacles.atmosphere import base_oxygen, counted, pressure_at, unaccounted_at, water_at
from lamproom.permit.people import trained
from lamproom.permit.words import clock, figure_words, limit_words, place_words
from lamproom.words import Sentence, sentence

LONG_HOURS = timedelta(hours=8)
"""A sample permit of the rule's Appendix D is good for 8 hours; the rule itself names none."""
THIN_FROM_M = Decimal(915)
"""3,001 ft, where the first band of Table II of 29 CFR 1910.134(d)(2)(iii) begins."""
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
        for rule in (
            _hours,
            _parts,
            _runs_out,
            _near_limit,
            _damp,
            _thin,
            _hidden,
            _recommended,
            _training,
            _summons,
            _others,
        )
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


def _damp(facts: Facts) -> Iterator[Caution]:
    """Measured water vapor explains oxygen that would bar otherwise: said, since it leans on two more readings."""
    permit = facts.permit
    for one in counted(facts):
        water, found = water_at(facts, one), unaccounted_at(facts, one)
        oxygen, base = one.figure("oxygen"), base_oxygen(facts, one.event.instrument)
        if found is None or oxygen is None or base is None:
            continue
        dry = Decimal(found.result) + Decimal(water.result)
        if Decimal(water.result) > 0 and dry > Decimal(permit.form.unaccounted.ppm) >= Decimal(found.result):
            said = sentence(
                "permit.caution.damp_air",
                oxygen=oxygen.figure or "",
                place=place_words(one.event.phase, one.event.point_m),
                ppm=f"{int(Decimal(water.result)):,}",
            )
            yield Caution("damp-air", said, water.source)


def _thin(facts: Facts) -> Iterator[Caution]:
    """High above the sea an instrument may read fresh air low, and that reading is the base: said with what it holds.
    Volume percent governs all the same, and 20.9 needs no word."""
    permit = facts.permit
    altitude, base = permit.opened.registered.altitude_m, base_oxygen(facts, None)
    if altitude is None or base is None or Decimal(altitude) < THIN_FROM_M:
        return
    if base >= CLEAN_OXYGEN - Decimal(permit.form.unaccounted.tolerance):
        return
    told = partial_pressure(base, pressure_at(altitude), base)
    said = sentence("permit.caution.thin_air", altitude=altitude, oxygen=str(base), mmhg=str(told.result))
    yield Caution("thin-air", said, "29 CFR 1910.134(d)(2)(iii), Table II")


def _hidden(facts: Facts) -> Iterator[Caution]:
    """What a flammable sensor calls nothing can be many times a toxic limit."""
    for _id, name, _shows, gas in facts.permit.hazards():
        known = substance_of(gas) if gas is not None else None
        line = facts.permit.form.limit(gas) or line_for(gas) if gas is not None else None
        if known is None or known.lel is None or line is None or line.unit != "ppm" or line.high is None:
            continue
        if not by_flammable_sensor_alone(facts.permit, gas or ""):
            continue
        told = toxic_at_lel(Decimal(10), known.lel.value, Decimal(line.high))
        ppm = percent_lel_to_ppm(Decimal(10), known.lel.value)
        said = sentence(
            "permit.caution.hidden", hazard=name, ppm=f"{int(ppm):,}", times=str(told.result), limit=limit_words(line)
        )
        yield Caution("toxic-below-lel", said, known.lel.source)


def _recommended(facts: Facts) -> Iterator[Caution]:
    """A published figure that this form has not adopted and that is stricter than the one it judges by."""
    for line in facts.permit.form.limits:
        if line.unit != "ppm" or line.high is None:
            continue
        for other in not_adopted(line.gas)[:1]:
            if other.ppm.value < Decimal(line.high):
                said = sentence(
                    "permit.caution.recommended",
                    gas=gas_name(line.gas),
                    adopter=other.adopter,
                    kind=other.kind,
                    ppm=str(other.ppm.value),
                    limit=limit_words(line),
                )
                yield Caution("not-adopted", said, other.ppm.source)


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
