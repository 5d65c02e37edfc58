"""The air as the Watch shows it: the last value of each gas, one gas over time, and what is to be read next."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal

from lamproom.bench.bump import gas_name
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.permit.facts import Facts, at_point, hold, points, tests_of
from lamproom.permit.form import LimitLine
from lamproom.permit.obstacles.atmosphere import current
from lamproom.permit.plausible import Doubt, doubt
from lamproom.permit.state import OUTSIDE, Assigned, Permit, ReadingSet, outside
from lamproom.permit.words import clock, figure_words, limit_words, place_words
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class GasRow:
    """The last value of a gas. ``old``: taken longer ago than the interval, or before the permit ended; ``direction``
    is a word. ``age`` is said of an old one, of one from an older set than the newest, and of all while everyone is
    called out; ``passed`` is the same without 'old'. ``bounds`` is the limit without its unit. ``place`` is where it
    was read, ``spot`` the same in the fewest words."""

    gas: str
    name: str
    unit: str
    limit: str
    figure: str
    sign: str
    direction: str
    direction_sign: str
    outside: bool
    old: bool
    age: str
    bounds: str
    place: str = ""
    spot: str = ""
    passed: str = ""

    @property
    def stale_tick(self) -> bool:
        """Within its limit when it was taken, and old: it says nothing about now, so no tick."""
        return self.old and self.sign == "WITHIN"


@dataclass(frozen=True, slots=True)
class TrendMark:
    """One reading of the plot: seconds since the epoch, height, the text typed and its story."""

    at: float
    value: float
    text: str
    late: bool
    corrected: bool
    outside: bool
    detail: str


@dataclass(frozen=True, slots=True)
class TrendData:
    """One gas over the last hours, in seconds since the epoch; ``moves`` are (time, in or out, name)."""

    gas: str
    name: str
    unit: str
    marks: tuple[TrendMark, ...]
    scale: tuple[float, float]
    limits: tuple[tuple[float, str], ...]
    start: float
    now: float
    every: float
    times: tuple[tuple[float, str], ...]
    moves: tuple[tuple[float, str, str], ...]
    late_from: float | None


@dataclass(frozen=True, slots=True)
class PointChoice:
    """A place to read: its depth (None: somewhere inside), its words, and whether it is done since the air changed."""

    point_m: str | None
    words: str
    done: str


@dataclass(frozen=True, slots=True)
class InstrumentChoice:
    """An instrument that serves now. ``hold_s`` is how long its probe must rest at a point, None when not known."""

    instrument: str
    words: str
    note: str
    ready: bool
    hold_s: int | None


@dataclass(frozen=True, slots=True)
class Box:
    """An empty box: gas, unit, limit, the last value beside it. ``seen`` False: this instrument has no such sensor."""

    gas: str
    name: str
    unit: str
    limit: str
    last: str
    seen: bool


@dataclass(frozen=True, slots=True)
class ReadingPlan:
    """What the next set is for. ``full`` means that all points must be tested again, each with its wait."""

    phase: e.Phase
    full: bool
    points: tuple[PointChoice, ...]
    instruments: tuple[InstrumentChoice, ...]
    left: int


@dataclass(frozen=True, slots=True)
class Echo:
    """What a committed figure looks like to the record, before anything is stored."""

    words: str
    outside: bool
    doubt: Doubt | None


def lasting(passed: timedelta) -> str:
    """How long, in the largest two units: 44 min, 3 h 38 min."""
    minutes = max(0, int(passed.total_seconds() // 60))
    if minutes < 60:
        return say("watch.minutes", minutes=minutes)
    return say("watch.hours_minutes", hours=minutes // 60, minutes=minutes % 60)


def inside_sets(permit: Permit) -> tuple[ReadingSet, ...]:
    """All sets taken inside the space, oldest first."""
    return tuple(one for one in permit.sets if one.event.phase not in OUTSIDE)


def gas_rows(facts: Facts, *, aged: bool = False, over: bool = False) -> tuple[GasRow, ...]:
    """A row for each gas that the form limits, in the form's order: oxygen, flammable, toxic. ``aged``: each says how
    old it is, also before it is old. ``over``: the permit has ended, so every figure is of the past."""
    return tuple(_row(facts, line, aged, over) for line in facts.permit.form.limits)


def shown(facts: Facts, gas: str) -> ReadingSet | None:
    """The newest set with this gas; one that stands outside its limit goes before a newer one elsewhere."""
    for one in current(facts):
        if any(figure.gas == gas for figure in outside(facts.permit.form, one.figures)):
            return one
    return next((one for one in reversed(inside_sets(facts.permit)) if one.figure(gas) is not None), None)


def _row(facts: Facts, line: LimitLine, aged: bool, over: bool) -> GasRow:
    permit, one = facts.permit, shown(facts, line.gas)
    name, limit = gas_name(line.gas).say(), limit_words(line).say()
    bounds = limit.removesuffix(line.unit).strip()
    figure = one.figure(line.gas) if one is not None else None
    if one is None or figure is None:
        words = say("watch.not_read")
        return GasRow(line.gas, name, line.unit, limit, "", "NOT_MEASURED", words, "", False, False, "", bounds)
    past = facts.at - one.event.taken
    old = over or past > timedelta(minutes=permit.form.retest.every_min)
    bad = bool(outside(permit.form, (figure,)))
    if figure.state == "measured" and figure.figure is not None:
        text, sign = figure.figure, "DANGER" if bad else "WITHIN"
    else:
        text = figure_words(figure).say()
        sign = {"over-range": "DANGER", "fault": "FAULT"}.get(figure.state, "NOT_MEASURED")
    word, arrow = ("", "") if over else _direction(permit, line, one)
    older = one.version != inside_sets(permit)[-1].version if inside_sets(permit) else False
    passed = lasting(past) if old or aged or older else ""
    age = say("watch.old", age=passed) if passed else ""
    point = one.event.point_m
    place = place_words(one.event.phase, point).say()
    spot = say("watch.point", depth=point) if point is not None else place
    if older:
        place = say("watch.older_set", place=place)
    return GasRow(line.gas, name, line.unit, limit, text, sign, word, arrow, bad, old, age, bounds, place, spot, passed)


def _direction(permit: Permit, line: LimitLine, one: ReadingSet) -> tuple[str, str]:
    """Rising or falling against both of the two sets before, and by more than nothing; else steady."""
    values = [
        Decimal(figure.figure)
        for before in inside_sets(permit)
        if before.version <= one.version
        and before.event.point_m == one.event.point_m
        and (figure := before.figure(line.gas)) is not None
        and figure.figure is not None
    ][-3:]
    if len(values) < 2:
        return say("watch.first"), ""
    now, before_it = values[-1], values[:-1]
    if all(now > value for value in before_it):
        near = line.high is not None and now * 2 >= Decimal(line.high) and line.low is None
        return say("watch.rising_toward" if near else "watch.rising"), "RISING"
    if all(now < value for value in before_it):
        near = line.low is not None and now <= (Decimal(line.low) + Decimal("20.9")) / 2
        return say("watch.falling_toward" if near else "watch.falling"), "FALLING"
    return say("watch.steady"), "STEADY"


def nearest(facts: Facts) -> str:
    """The gas that stands nearest to its limit: what the plot shows until someone chooses another."""
    best, share = facts.permit.form.limits[0].gas, Decimal(0)
    for line in facts.permit.form.limits:
        sets = [f for s in inside_sets(facts.permit)[-3:] if (f := s.figure(line.gas)) and f.figure is not None]
        if line.low is None and line.high is not None and sets:
            most = max(Decimal(figure.figure or "0") for figure in sets) / Decimal(line.high)
            if most > share:
                best, share = line.gas, most
    return best


def trend(facts: Facts, gas: str, late_from: datetime | None) -> TrendData:
    """The last two hours of one gas at least, all of this permit where it is longer than that by little."""
    permit = facts.permit
    line = permit.form.limit(gas)
    begun = min((trip.came_in for trip in permit.tally.trips), default=None)
    two_hours = facts.at - timedelta(hours=2)
    since = max(two_hours, begun - timedelta(minutes=30)) if begun is not None else two_hours
    sets = [
        one
        for one in _at_work(permit, inside_sets(permit))
        if one.event.taken >= since and (f := one.figure(gas)) is not None and f.figure is not None
    ]
    first = min((one.event.taken for one in sets), default=facts.at)
    start = min(first - timedelta(minutes=5), facts.at - timedelta(minutes=30))
    marks = tuple(_mark(facts, one, gas) for one in sets)
    step = 30 if facts.at - start <= timedelta(hours=2, minutes=30) else 60
    tick = start.astimezone(permit.zone).replace(minute=0, second=0, microsecond=0)
    times = []
    while tick <= facts.at:
        if tick >= start + (facts.at - start) / 12:
            times.append((tick.timestamp(), clock(tick, permit.zone)))
        tick += timedelta(minutes=step)
    limits = tuple((float(v), v) for v in (line.low, line.high) if v is not None) if line else ()
    top = float(line.high) * 1.5 if line and line.high else 10.0
    return TrendData(
        gas,
        gas_name(gas).say(),
        line.unit if line else "",
        marks,
        (18.0, 25.0) if gas == "oxygen" else (0.0, top),
        limits,
        start.timestamp(),
        facts.at.timestamp(),
        permit.form.retest.every_min * 60.0,
        tuple(times),
        _moves(facts, start),
        late_from.timestamp() if late_from is not None and late_from < facts.at else None,
    )


def _at_work(permit: Permit, sets: tuple[ReadingSet, ...]) -> tuple[ReadingSet, ...]:
    """The sets at the points where the work is; all of them where none is named. A figure outside its limit anywhere
    is never left out."""
    named = {Decimal(point) for point in permit.opened.evaluated.retest_points_m}
    kept = tuple(
        one
        for one in sets
        if one.event.point_m is None or Decimal(one.event.point_m) in named or outside(permit.form, one.figures)
    )
    return kept if named else sets


def _mark(facts: Facts, one: ReadingSet, gas: str) -> TrendMark:
    figure = one.figure(gas)
    assert figure is not None and figure.figure is not None
    zone = facts.permit.zone
    detail = say(
        "watch.mark",
        figure=figure_words(figure),
        time=clock(one.event.taken, zone),
        place=place_words(one.event.phase, one.event.point_m),
        name=facts.name(one.by or ""),
    )
    every = timedelta(minutes=facts.permit.form.retest.every_min + facts.permit.form.retest.grace_min)
    before = next((s for s in reversed(inside_sets(facts.permit)) if s.version < one.version), None)
    late = before is not None and before.inside > 0 and one.event.taken - before.event.taken > every
    return TrendMark(
        one.event.taken.timestamp(),
        float(figure.figure),
        figure_words(figure).say(),
        late,
        any(correction.event.gas == gas for correction in one.corrections),
        bool(outside(facts.permit.form, (figure,))),
        detail,
    )


def _moves(facts: Facts, start: datetime) -> tuple[tuple[float, str, str], ...]:
    moves = []
    for trip in facts.permit.tally.trips:
        for at, sign in ((trip.came_in, "GO_IN"), (trip.went_out, "GO_OUT")):
            if at is not None and at >= start:
                moves.append((at.timestamp(), sign, trip.name or facts.name(trip.who)))
    return tuple(moves)


def reading_plan(office: Office, number: str) -> ReadingPlan:
    """What the next set is for: the points still to be tested when all must be, else the evaluation's retest points."""
    facts = office.facts(number)
    permit = facts.permit
    depths = points(permit) or ()
    missing = [depth for depth in depths if not tests_of(facts, depth)]
    phase = next_phase(facts)
    full = phase != "work"
    if full:
        choices = tuple(_full_point(facts, depth) for depth in depths)
    else:
        chosen = permit.opened.evaluated.retest_points_m or tuple(str(depth) for depth in depths)
        choices = tuple(PointChoice(depth, say("watch.point", depth=depth), "") for depth in chosen)
    return ReadingPlan(phase, full, choices, _instruments(facts), len(missing))


def next_phase(facts: Facts) -> e.Phase:
    """The phase of the next set on an authorized permit: work, or that of a full retest while one is owed."""
    permit = facts.permit
    if permit.awaits is not None:
        return "after-break"
    if all(tests_of(facts, depth) for depth in points(permit) or ()):
        return "work"
    return "ventilating" if permit.fan is not None else "open"


def _full_point(facts: Facts, depth: Decimal) -> PointChoice:
    done = at_point(facts, depth)
    words = clock(done.event.taken, facts.permit.zone) if done is not None else ""
    return PointChoice(str(depth), say("watch.point", depth=str(depth)), words)


def _instruments(facts: Facts) -> tuple[InstrumentChoice, ...]:
    serving = (*facts.permit.assigned("test"), *facts.permit.assigned("worn"))
    choices = [_instrument(facts, one) for one in serving]
    sets = facts.permit.sets
    last = sets[-1].event.instrument if sets else ""
    return tuple(sorted(choices, key=lambda one: (not one.ready, one.instrument != last)))


def _instrument(facts: Facts, one: Assigned) -> InstrumentChoice:
    readiness = facts.ready(one.instrument)
    if readiness.ready and readiness.until is not None:
        note = say("watch.ready_until", time=clock(readiness.until, facts.permit.zone))
    else:
        note = say("watch.not_ready", why=readiness.unfit[0].sentence if readiness.unfit else "")
    held = hold(facts.permit, one)
    seconds = int(held.to_integral_value(rounding="ROUND_CEILING")) if held is not None else None
    return InstrumentChoice(one.instrument, one.registered.name, note, readiness.ready, seconds)


def boxes(office: Office, number: str, instrument: str | None) -> tuple[Box, ...]:
    """The boxes of a set: the form's gases in their order, then what else this instrument sees."""
    permit = office.permit(number)
    one = permit.instruments.get(instrument or "")
    sensors = one.registered.sensors if one is not None else ()
    seen = {sensor.gas for sensor in sensors}
    made = [_box(permit, line.gas, line.unit, limit_words(line).say(), line.gas in seen) for line in permit.form.limits]
    known = {line.gas for line in permit.form.limits}
    made += [
        _box(permit, sensor.gas, sensor.unit, say("permit.limit.none"), True)
        for sensor in sensors
        if sensor.gas not in known
    ]
    return tuple(made)


def _box(permit: Permit, gas: str, unit: str, limit: str, seen: bool) -> Box:
    last = next((f for one in reversed(inside_sets(permit)) if (f := one.figure(gas)) is not None), None)
    words = "" if last is None else last.figure if last.figure is not None else figure_words(last).say()
    return Box(gas, gas_name(gas).say(), unit, limit, words or "", seen)


def echo(
    office: Office,
    number: str,
    instrument: str | None,
    gas: str,
    unit: str,
    typed: str,
    value: Decimal,
    before: int | None = None,
) -> Echo:
    """How a figure stands against its limit and what is odd about it; nothing is stored by asking.

    ``before`` is the version of a set that is being corrected: only sets before it are looked at, since a figure typed
    ten times too high says nothing about the one that puts it right.
    """
    permit = office.permit(number)
    figure = e.Figure(gas=gas, unit=unit, figure=str(value))
    line = permit.form.limit(gas)
    last = [
        Decimal(f.figure)
        for one in reversed(inside_sets(permit))
        if (before is None or one.version < before) and (f := one.figure(gas)) is not None and f.figure is not None
    ]
    one = permit.instruments.get(instrument or "")
    sensor = next((s for s in one.registered.sensors if s.gas == gas), None) if one is not None else None
    same_unit = sensor is not None and sensor.unit == unit
    found = doubt(
        typed,
        value,
        gas,
        unit,
        last,
        Decimal(sensor.resolution) if sensor is not None and same_unit else None,
        Decimal(sensor.range_high) if sensor is not None and same_unit else None,
    )
    limit = limit_words(line).say() if line is not None else say("permit.limit.none")
    return Echo(
        say("watch.echo", gas=gas_name(gas), figure=figure_words(figure), limit=limit),
        bool(outside(permit.form, (figure,))),
        found,
    )
