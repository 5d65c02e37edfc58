"""The air test as plain values: the plan in its order, the figures with their limits, and what shows beside them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from lamproom.bench.bump import gas_name
from lamproom.office.office import Office
from lamproom.office.views.air_places import OldFigure, PlacePlan, before_what, old_set, old_words, plan_of, time_at
from lamproom.office.views.air_sets import SetLine, line_of
from lamproom.office.views.air_table import AirTable, air_table
from lamproom.office.views.air_tends import Tend, tends_of
from lamproom.office.views.air_testers import TesterChoice, tester_of
from lamproom.office.views.air_working import hides_gas
from lamproom.permit import events as e
from lamproom.permit.facts import Facts, points
from lamproom.permit.form import LimitLine
from lamproom.permit.obstacles.atmosphere import current
from lamproom.permit.state import Permit, ReadingSet, outside
from lamproom.permit.words import clock, figure_words, limit_words, place_words
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class GasBox:
    """A figure to type: its unit, its limit in words, and what was read last (empty: nothing yet)."""

    gas: str
    name: str
    unit: str
    limit: str
    last: str


@dataclass(frozen=True, slots=True)
class GasScale:
    """A gas beside the depth: the ends of its panel keep its limits in view."""

    gas: str
    name: str
    unit: str
    low: float | None
    high: float
    ends: tuple[float, float]
    limit: str


@dataclass(frozen=True, slots=True)
class Value:
    """A figure at a depth as it stands now; ``ringed`` where it is outside or hides gas that nothing here sees."""

    set_version: int
    gas: str
    depth: str
    figure: str
    text: str
    time: str
    outside: bool
    ringed: bool


@dataclass(frozen=True, slots=True)
class AirTestView:
    """The whole sheet. ``closed`` says why nothing can be read here now (empty: it can). ``old``: figures of points
    that were not read since the air changed; ``old_times``: depth, time and sentence of each such point. ``opening``:
    the clear share of the width ``across``; ``tends``: where the vapors of the hazards go, with its ``caution``."""

    number: str
    depth: float
    level: float | None
    level_words: str
    vertical: bool
    points: tuple[tuple[float, str, str], ...]
    plan: tuple[PlacePlan, ...]
    boxes: tuple[GasBox, ...]
    scales: tuple[GasScale, ...]
    values: tuple[Value, ...]
    testers: tuple[TesterChoice, ...]
    sets: tuple[SetLine, ...]
    outside: tuple[str, ...]
    air: AirTable
    closed: str
    old: tuple[OldFigure, ...] = ()
    old_times: tuple[tuple[str, str, str], ...] = ()
    old_legend: str = ""
    shape: str = "vertical-shaft"
    across: float = 0.0
    opening: float = 0.36
    tends: tuple[Tend, ...] = ()
    caution: str = ""

    def place(self, key: str) -> PlacePlan | None:
        return next((place for place in self.plan if place.key == key), None)

    @property
    def next_place(self) -> PlacePlan | None:
        """The first place of the plan that still wants a reading and can have one."""
        return next((place for place in self.plan if _wanting(place)), None)

    def place_after(self, key: str) -> PlacePlan | None:
        """Where the probe goes once a place is read: the next point below that wants a reading, for it is on its way
        down; else the first place of the plan that does."""
        keys = [place.key for place in self.plan]
        below = self.plan[keys.index(key) + 1 :] if key in keys else ()
        return next((place for place in below if _wanting(place)), self.next_place)


def _wanting(place: PlacePlan) -> bool:
    return place.state in ("open", "again", "outside") and not place.counted


def air_test_view(office: Office, number: str) -> AirTestView:
    """The sheet as it stands now. Refused when there is no such permit."""
    facts = office.facts(number)
    permit = facts.permit
    gases = _gases(permit)
    depths = points(permit) or ()
    level = permit.level.event.depth_m if permit.level and isinstance(permit.level.event, e.LevelStated) else None
    tends = tends_of(facts)
    stale = [depth for depth in depths if not time_at(facts, depth) and old_set(permit, depth) is not None]
    return AirTestView(
        number=number,
        depth=float(permit.opened.registered.depth_m),
        level=float(level) if level is not None else None,
        level_words=_level_words(permit, level),
        vertical=permit.opened.registered.portal.vertical,
        points=tuple((float(depth), f"{depth} m", time_at(facts, depth)) for depth in depths),
        plan=tuple(plan_of(facts, depths)),
        boxes=tuple(_box(permit, gas, unit) for gas, unit in gases),
        scales=tuple(_scale(permit, gas, unit) for gas, unit in gases),
        values=tuple(_values(facts)),
        testers=tuple(tester_of(permit, one, tends) for one in permit.assigned("test")),
        sets=tuple(line_of(facts, one, gases) for one in permit.sets),
        outside=tuple(_outside_words(permit, one) for one in current(facts) if outside(permit.form, one.figures)),
        air=air_table(facts),
        closed=_closed(permit),
        old=tuple(one for depth in stale for one in _old(permit, depth)),
        old_times=tuple(
            (str(d), clock(one.event.taken, permit.zone), old_words(facts, d))
            for d in stale
            if (one := old_set(permit, d)) is not None
        ),
        old_legend=say("sheets.air.old_legend", why=before_what(permit)) if stale else "",
        shape=permit.opened.registered.shape,
        across=float(permit.opened.registered.across_m),
        opening=_opening(permit),
        tends=tends,
        caution=say("workings.tends.caution") if tends else "",
    )


def _opening(permit: Permit) -> float:
    """The clear share of the width of the space that its portal leaves, never more than all."""
    space = permit.opened.registered
    across = float(space.across_m)
    return min(float(space.portal.width_m) / across, 1.0) if across > 0 else 0.36


def _old(permit: Permit, depth: Decimal) -> Iterator[OldFigure]:
    one = old_set(permit, depth)
    if one is None:
        return
    out = {figure.gas for figure in outside(permit.form, one.figures)}
    for figure in one.figures:
        if figure.figure is not None or figure.gas in out:
            text = figure.figure or figure_words(figure).say()
            yield OldFigure(str(depth), figure.gas, figure.figure or "", text, figure.gas in out)


def _closed(permit: Permit) -> str:
    if permit.ended is not None:
        return say("permit.ended")
    return "" if permit.assigned("test") else say("sheets.air.no_instrument")


def _level_words(permit: Permit, level: str | None) -> str:
    if permit.level is None:
        return say("sheets.air.level_missing")
    return say("sheets.air.level", depth=level) if level is not None else say("sheets.air.dry")


# Gases and figures ----------------------------------------------------------------------------------------------------


def _gases(permit: Permit) -> tuple[tuple[str, str], ...]:
    """Gas and unit in the order of the form (oxygen, flammable, toxic), then what else the instruments see."""
    known = {line.gas: line.unit for line in permit.form.limits}
    for one in permit.assigned("test"):
        for sensor in one.registered.sensors:
            known.setdefault(sensor.gas, sensor.unit)
    return tuple(known.items())


def _box(permit: Permit, gas: str, unit: str) -> GasBox:
    line = permit.form.limit(gas)
    last = next((f for s in reversed(permit.sets) if (f := s.figure(gas)) is not None), None)
    return GasBox(
        gas,
        gas_name(gas).say(),
        unit,
        limit_words(line).say() if line is not None else say("permit.limit.none"),
        last.figure or figure_words(last).say() if last is not None else "",
    )


def _scale(permit: Permit, gas: str, unit: str) -> GasScale:
    """Oxygen from 18 to 25 % vol, else 0 to one and a half times the limit, so that limits are always in view."""
    line = permit.form.limit(gas)
    name = gas_name(gas).say()
    if line is None or line.high is None:
        top = _range(permit, gas)
        return GasScale(gas, name, unit, None, top, (0.0, top), say("permit.limit.none"))
    high = float(line.high)
    low = float(line.low) if line.low is not None else None
    ends = (18.0, 25.0) if gas == "oxygen" else (0.0, high * 1.5)
    return GasScale(gas, name, unit, low, high, ends, _short_limit(line))


def _short_limit(line: LimitLine) -> str:
    if line.low is not None and line.high is not None:
        return say("sheets.air.limit_band", low=line.low, high=line.high)
    return say("sheets.air.limit_below" if line.fails_at_high else "sheets.air.limit_up_to", high=line.high or "")


def _range(permit: Permit, gas: str) -> float:
    sensors = [s for one in permit.assigned("test") for s in one.registered.sensors if s.gas == gas]
    return max((float(sensor.range_high) for sensor in sensors), default=100.0)


def _values(facts: Facts) -> Iterator[Value]:
    permit = facts.permit
    for one in current(facts):
        if one.event.point_m is None:
            continue
        out = {figure.gas for figure in outside(permit.form, one.figures)}
        for figure in one.figures:
            if figure.figure is None:
                continue
            ringed = figure.gas in out or (figure.gas == "oxygen" and hides_gas(facts, one))
            yield Value(
                one.version,
                figure.gas,
                one.event.point_m,
                figure.figure,
                figure.figure,
                clock(one.event.taken, permit.zone),
                figure.gas in out,
                ringed,
            )


def _outside_words(permit: Permit, one: ReadingSet) -> str:
    """The first figure of a set that is outside, in the words of the obstacle."""
    figure = outside(permit.form, one.figures)[0]
    line = permit.form.limit(figure.gas)
    return say(
        "permit.reading_outside",
        gas=gas_name(figure.gas),
        figure=figure_words(figure),
        place=place_words(one.event.phase, one.event.point_m),
        time=clock(one.event.taken, permit.zone),
        limit=limit_words(line) if line else say("permit.limit.none"),
    )
