"""Everything a judgement may look at, as values: the permit, its instruments and people, and this moment."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any, TypeVar

from lamproom.air.sampling import points as planned_points
from lamproom.air.sampling import verification_points, wait
from lamproom.air.working import Working
from lamproom.bench.bump import shortfalls
from lamproom.bench.readiness import Readiness, readiness
from lamproom.bench.rules import BenchRules
from lamproom.bench.state import Instrument, as_of
from lamproom.permit import events as e
from lamproom.permit.flammable_reading import voids
from lamproom.permit.people import Person
from lamproom.permit.state import SOON, Assigned, Permit, ReadingSet, held_tight, outside, whole
from lamproom.words import Refusal

T = TypeVar("T")

VERIFYING: frozenset[str] = frozenset({"open", "ventilating", "fan-stopped", "after-break"})
"""Phases in which the points are tested one by one with a probe, so that the wait at each point counts."""


@dataclass(frozen=True, slots=True)
class OtherPermit:
    """Another permit that runs now, as far as it touches this one.

    ``near``: at the same space, or at one that adjoins it. ``attendant``: who stands watch there. ``worn``: the
    instruments worn there. ``unlocked``: the locks that came off a point there and are not back.
    """

    number: str
    space: str
    near: bool = True
    attendant: str | None = None
    worn: frozenset[str] = frozenset()
    unlocked: frozenset[str] = frozenset()


def touching(permit: Permit, other: Permit) -> OtherPermit:
    """What one running permit is to another."""
    adjoining = permit.opened.evaluated.adjoining
    near = other.opened.space == permit.opened.space or other.opened.space in adjoining
    near = near or permit.opened.space in other.opened.evaluated.adjoining
    off = {
        made.event.lock.strip()
        for made in other.unlocked
        if isinstance(made.event, e.PointIsolated) and made.event.lock.strip()
    }
    return OtherPermit(
        other.number,
        other.opened.registered.name,
        near,
        other.attendant,
        frozenset(one.instrument for one in other.assigned("worn")),
        frozenset(off),
    )


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known at ``at``. ``clock_confirmed`` and ``figures_confirmed`` are the site's."""

    permit: Permit
    instruments: Mapping[str, Instrument]
    people: Mapping[str, Person]
    at: datetime
    clock_confirmed: bool = True
    figures_confirmed: bool = True
    names: Mapping[str, str] = field(default_factory=dict)
    others: tuple[OtherPermit, ...] = ()
    worked: dict[tuple[str, object], Any] = field(default_factory=dict, init=False, compare=False, repr=False)
    """What was worked out once of these facts; many rules ask the same of the same set. Never copied by ``replace``."""

    def once(self, what: str, of: object, work: Callable[[], T]) -> T:
        """The answer to a question about these facts, worked out the first time it is asked."""
        key = (what, of)
        if key not in self.worked:
            self.worked[key] = work()
        answer: T = self.worked[key]
        return answer

    @property
    def newest(self) -> list[ReadingSet]:
        """The permit's sets by the time they were taken, the newest first."""
        return self.once("newest", None, lambda: newest_first(self.permit.sets))

    def name(self, person: str) -> str:
        """How a person is called; the id where no name is known."""
        return self.names.get(person, person)

    @property
    def rules(self) -> BenchRules:
        return self.once("rules", None, lambda: self.permit.form.bench_rules(self.permit.zone))

    def ready(self, instrument: str) -> Readiness:
        """Readiness of an instrument now; an unknown one is not ready."""
        return readiness(self.instruments.get(instrument, Instrument(instrument)), self.rules, self.at)


def points(permit: Permit) -> tuple[Decimal, ...] | None:
    """The depths (m below the portal) to be tested before entry, for today's level; None while that is not stated
    or leaves no air to test."""
    planned = _planned(permit)
    try:
        return verification_points(*planned) if planned is not None else None
    except Refusal:
        return None


def points_working(permit: Permit) -> Working | None:
    """The same points with all that they were made of."""
    planned = _planned(permit)
    try:
        return planned_points(*planned) if planned is not None else None
    except Refusal:
        return None


def _planned(permit: Permit) -> tuple[Decimal, Decimal | None, Decimal, Decimal, Decimal] | None:
    """What the points are planned from; None while today's level is not stated."""
    if permit.level is None or not isinstance(permit.level.event, e.LevelStated):
        return None
    level, figures = permit.level.event.depth_m, permit.form.points
    return (
        Decimal(permit.opened.registered.depth_m),
        Decimal(level) if level is not None else None,
        Decimal(figures.top_m),
        Decimal(figures.above_m),
        Decimal(figures.spacing_m),
    )


def hold(permit: Permit, one: Assigned) -> Decimal | None:
    """Seconds that a probe must rest at a point before figures count; None when the register does not say enough."""
    working = wait_of(permit, one)
    return Decimal(working.result) if working is not None else None


def wait_of(permit: Permit, one: Assigned) -> Working | None:
    """The wait at each point with all that it was made of; None when the register does not say enough."""
    instrument = one.registered
    slowest = max((Decimal(sensor.response_s) for sensor in instrument.sensors), default=None)
    if slowest is None:
        return None
    if one.hose_m is not None and instrument.pump_l_min is None:
        return None  # nothing draws air through the hose: what it shows is the air at the portal
    pumped = one.hose_m is not None
    try:
        return wait(
            Decimal(one.hose_m) if pumped and one.hose_m else None,
            Decimal(instrument.bore_mm) if pumped and instrument.bore_mm else None,
            Decimal(instrument.pump_l_min) if pumped and instrument.pump_l_min else None,
            permit.form.points.flushes,
            slowest,
        )
    except Refusal:
        return None


def early(permit: Permit, one: ReadingSet) -> bool:
    """Was it noted before its time? Only probe tests point by point have a wait; an unknown wait counts as not kept."""
    if one.event.phase not in VERIFYING and one.event.phase != "through-lid":
        return False
    needed = hold(permit, one.assigned) if one.assigned is not None else None
    if needed is None or one.event.lowered is None:
        return True
    held = Decimal(str((one.event.taken - one.event.lowered) / timedelta(seconds=1)))
    return held < needed


def in_doubt(instrument: Instrument, one: ReadingSet, rules: BenchRules) -> bool:
    """Did the next bump test after this set fail? Then every reading since the last pass is in doubt."""
    after = next((bump for bump in instrument.bumps if _later(bump.number, bump.at, one)), None)
    return after is not None and bool(shortfalls(after.event, instrument.sensors, rules))


def _later(number: int, at: datetime, one: ReadingSet) -> bool:
    """Came it after the set? By the site's order where both have a place in it: times can be declared wrong later."""
    return number > one.number if number and one.number else at > one.at


def complete(permit: Permit, one: ReadingSet) -> bool:
    """Does the set hold a measured figure that stands for every gas that the form limits?"""
    # Spoiled by oxygen that is itself outside, it is said so, and bars; the place was read all the same.
    return whole(permit.form, one.figures) and (not voids(one) or bool(outside(permit.form, one.figures)))


def seen_by(instrument: Instrument, one: ReadingSet) -> bool:
    """Has the instrument a sensor for every figure of the set? One without cannot have shown it."""
    return all(instrument.sensor(figure.gas) is not None for figure in one.figures if figure.state == "measured")


def hose_held(one: ReadingSet) -> bool:
    """Was the joined hose leak-tested before the set, and not found leaking after it? True without a hose."""
    if one.assigned is None or one.hose_leaked:
        return False
    if one.assigned.hose_m is None or one.event.phase == "upwind":
        return True
    tested = one.assigned.hose_tested
    return tested is not None and isinstance(tested.event, e.HoseTested) and held_tight(tested.event)


def standing(facts: Facts, one: ReadingSet) -> bool:
    """May this set count for entry? It is whole, kept its wait, the clock was confirmed, nobody voided it, and its
    instrument was ready both when it was taken and when it was recorded, and has not been thrown into doubt since.
    Against entry every set counts."""
    return facts.once("standing", one.version, lambda: _standing(facts, one))


def _standing(facts: Facts, one: ReadingSet) -> bool:
    permit = facts.permit
    if one.void or one.unconfirmed or one.by is None or not complete(permit, one) or early(permit, one):
        return False
    return hose_held(one) and fit_then(facts, one) and not elsewhere_then(permit, one)


def elsewhere_then(permit: Permit, one: ReadingSet) -> bool:
    """Was its probe said to rest at another point in the same time? Then neither of the two is a test."""
    lowered, taken = one.event.lowered, one.event.taken
    return lowered is not None and any(
        other.event.instrument == one.event.instrument
        and _depth(other) != _depth(one)
        and other.event.lowered is not None
        and other.event.lowered < taken
        and lowered < other.event.taken
        for other in permit.sets
    )


def _depth(one: ReadingSet) -> Decimal | None:
    return Decimal(one.event.point_m) if one.event.point_m is not None else None


def fit_then(facts: Facts, one: ReadingSet) -> bool:
    """Was the set taken with an instrument that could see its gases, ready then and not thrown into doubt since?"""
    return facts.once("fit", one.version, lambda: _fit_then(facts, one))


def _fit_then(facts: Facts, one: ReadingSet) -> bool:
    instrument = facts.instruments.get(one.event.instrument)
    if instrument is None or one.event.taken > min(facts.at, one.at) + SOON:
        return False
    if not seen_by(instrument, one) or in_doubt(instrument, one, facts.rules):
        return False
    recorded = as_of(instrument, one.at, one.number)
    if not readiness(recorded, facts.rules, max(one.event.taken, one.at)).ready:
        return False
    return readiness(as_of(recorded, one.event.taken), facts.rules, one.event.taken).ready


def newest_first(sets: Iterable[ReadingSet]) -> list[ReadingSet]:
    """Sets by the time they were taken, the newest first; those at a time declared wrong come last."""
    return sorted(sets, key=lambda s: (not s.void, s.event.taken, s.version), reverse=True)


def since_change(permit: Permit, one: ReadingSet) -> bool:
    """Was it taken and recorded after the air last changed? One taken before and typed later does not speak of it."""
    if one.version <= permit.counts_from:
        return False
    return permit.counts_since is None or one.event.taken >= permit.counts_since


def tests_of(facts: Facts, depth: Decimal) -> tuple[ReadingSet, ...]:
    """The sets that stand for a planned point: one taken there, else the two nearest around it that lie no further
    apart than the form lets points lie (Appendix B (4) asks for a distance, not for these very depths). Empty: not
    tested."""
    exact = at_point(facts, depth)
    if exact is not None:
        return (exact,)
    around = sorted(known for known in tested_depths(facts) if known <= _lowest(facts.permit))
    above = [known for known in around if known < depth]
    below = [known for known in around if known > depth]
    if not above or not below or below[0] - above[-1] > Decimal(facts.permit.form.points.spacing_m):
        return ()
    pair = (at_point(facts, above[-1]), at_point(facts, below[0]))
    return tuple(one for one in pair if one is not None)


def _lowest(permit: Permit) -> Decimal:
    """Where the air ends: today's level, else the floor, in metres below the portal."""
    level = permit.level.event.depth_m if permit.level and isinstance(permit.level.event, e.LevelStated) else None
    return Decimal(level) if level is not None else Decimal(permit.opened.registered.depth_m)


def tested_depths(facts: Facts) -> frozenset[Decimal]:
    """The depths at which a set counts, planned or not."""
    return facts.once("depths", None, lambda: _tested_depths(facts))


def _tested_depths(facts: Facts) -> frozenset[Decimal]:
    said = {Decimal(one.event.point_m) for one in facts.permit.sets if one.event.point_m is not None}
    return frozenset(depth for depth in said if at_point(facts, depth) is not None)


def at_point(facts: Facts, depth: Decimal) -> ReadingSet | None:
    """The newest set that may count at a point, taken since the air last changed; None when there is none."""
    return facts.once("point", depth, lambda: _at_point(facts, depth))


def _at_point(facts: Facts, depth: Decimal) -> ReadingSet | None:
    permit = facts.permit
    for one in facts.newest:
        if not since_change(permit, one) or one.event.point_m is None:
            continue
        if one.event.phase in VERIFYING and Decimal(one.event.point_m) == depth and standing(facts, one):
            return one
    return None
