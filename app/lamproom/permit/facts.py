"""Everything a judgement may look at, as values: the permit, its instruments and people, and this moment."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from decimal import Decimal

from lamproom.air.sampling import verification_points, wait
from lamproom.bench.bump import shortfalls
from lamproom.bench.readiness import Readiness, readiness
from lamproom.bench.rules import BenchRules
from lamproom.bench.state import Instrument, as_of
from lamproom.permit import events as e
from lamproom.permit.people import Person
from lamproom.permit.state import Assigned, Permit, ReadingSet
from lamproom.words import Refusal

VERIFYING: frozenset[str] = frozenset({"open", "ventilating", "fan-stopped", "after-break"})
"""Phases in which the points are tested one by one with a probe, so that the wait at each point counts."""


@dataclass(frozen=True, slots=True)
class OtherPermit:
    """Another permit that is open at the same space or a neighbour: number and state in a word."""

    number: str
    space: str


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known at ``at``. ``clock_confirmed`` and ``figures_confirmed`` are the site's; ``names`` are for sentences."""

    permit: Permit
    instruments: Mapping[str, Instrument]
    people: Mapping[str, Person]
    at: datetime
    clock_confirmed: bool = True
    figures_confirmed: bool = True
    names: Mapping[str, str] = field(default_factory=dict)
    others: tuple[OtherPermit, ...] = ()

    def name(self, person: str) -> str:
        """How a person is called; the id where no name is known."""
        return self.names.get(person, person)

    @property
    def rules(self) -> BenchRules:
        return self.permit.form.bench_rules(self.permit.zone)

    def ready(self, instrument: str) -> Readiness:
        """Readiness of an instrument now; an unknown one is not ready."""
        return readiness(self.instruments.get(instrument, Instrument(instrument)), self.rules, self.at)


def points(permit: Permit) -> tuple[Decimal, ...] | None:
    """The depths (m below the portal) to be tested before entry, for today's level; None while that is not stated
    or leaves no air to test."""
    if permit.level is None or not isinstance(permit.level.event, e.LevelStated):
        return None
    level = permit.level.event.depth_m
    figures = permit.form.points
    try:
        return verification_points(
            Decimal(permit.opened.registered.depth_m),
            Decimal(level) if level is not None else None,
            Decimal(figures.top_m),
            Decimal(figures.above_m),
            Decimal(figures.spacing_m),
        )
    except Refusal:
        return None


def hold(permit: Permit, one: Assigned) -> Decimal | None:
    """Seconds that a probe must rest at a point before figures count; None when the register does not say enough."""
    instrument = one.registered
    slowest = max((Decimal(sensor.response_s) for sensor in instrument.sensors), default=None)
    if slowest is None:
        return None
    pumped = instrument.pump_l_min is not None and one.hose_m is not None
    try:
        working = wait(
            Decimal(one.hose_m) if pumped and one.hose_m else None,
            Decimal(instrument.bore_mm) if pumped and instrument.bore_mm else None,
            Decimal(instrument.pump_l_min) if pumped and instrument.pump_l_min else None,
            permit.form.points.flushes,
            slowest,
        )
    except Refusal:
        return None
    return Decimal(working.result)


def early(permit: Permit, one: ReadingSet) -> bool:
    """Was it noted before its time? Only probe tests point by point have a wait; an unknown wait counts as not kept."""
    if one.event.phase not in VERIFYING and one.event.phase != "through-lid":
        return False
    assigned = permit.instruments.get(one.event.instrument)
    needed = hold(permit, assigned) if assigned is not None else None
    if needed is None or one.event.lowered is None:
        return True
    held = Decimal(str((one.event.taken - one.event.lowered) / timedelta(seconds=1)))
    return held < needed


def in_doubt(instrument: Instrument, one: ReadingSet, rules: BenchRules) -> bool:
    """Did the next bump test after this set fail? Then every reading since the last pass is in doubt."""
    after = next((bump for bump in instrument.bumps if bump.at > one.at), None)
    return after is not None and bool(shortfalls(after.event, instrument.sensors, rules))


def complete(permit: Permit, one: ReadingSet) -> bool:
    """Does the set hold a measured figure for every gas that the form limits?"""
    return all(
        (figure := one.figure(line.gas)) is not None and figure.state == "measured" for line in permit.form.limits
    )


def standing(facts: Facts, one: ReadingSet) -> bool:
    """May this set count for entry? It is whole, kept its wait, the clock was confirmed, nobody voided it, and its
    instrument was ready when it was taken and has not been thrown into doubt since. Against entry every set counts."""
    permit = facts.permit
    if one.void or one.unconfirmed or one.by is None or not complete(permit, one) or early(permit, one):
        return False
    instrument = facts.instruments.get(one.event.instrument)
    if instrument is None or one.event.instrument not in permit.instruments:
        return False
    if in_doubt(instrument, one, facts.rules):
        return False
    return readiness(as_of(instrument, one.at), facts.rules, max(one.event.taken, one.at)).ready


def at_point(facts: Facts, depth: Decimal) -> ReadingSet | None:
    """The newest set that may count at a point, taken since the air last changed; None when there is none."""
    permit = facts.permit
    for one in reversed(permit.sets):
        if one.version <= permit.counts_from or one.event.point_m is None:
            continue
        if one.event.phase in VERIFYING and Decimal(one.event.point_m) == depth and standing(facts, one):
            return one
    return None
