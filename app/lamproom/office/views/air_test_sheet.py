"""The air test as plain values: the plan in its order, the figures with their limits, and what shows beside them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from decimal import Decimal

from lamproom.air.sampling import hose_delay, point_name
from lamproom.bench.bump import gas_name
from lamproom.bench.events import Sensor
from lamproom.office.office import Office
from lamproom.office.views.air_table import AirTable, air_table
from lamproom.office.views.air_working import Step, hides_gas
from lamproom.permit import events as e
from lamproom.permit.facts import VERIFYING, Facts, at_point, early, hold, points, standing
from lamproom.permit.form import LimitLine
from lamproom.permit.obstacles.atmosphere import current
from lamproom.permit.state import Assigned, Permit, ReadingSet, outside
from lamproom.permit.words import clock, figure_words, limit_words, place_words
from lamproom.words import Refusal, say, say_count


@dataclass(frozen=True, slots=True)
class PlacePlan:
    """One place of the plan: ``key`` as in a target ("upwind", "lid", "point/2.7"); ``state`` is 'done', 'open',
    'again' (read, and it does not count) or 'shut' (after opening only). ``waits``: a probe rests there first."""

    key: str
    name: str
    say_down: str
    phase: e.Phase
    point_m: str | None
    state: str
    words: str
    waits: bool


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
class TesterChoice:
    """An instrument assigned to test. ``parts``: the wait in its parts (name, seconds); ``hold_s`` None where the
    register does not say enough, with ``why``."""

    instrument: str
    name: str
    words: str
    hold_s: int | None
    parts: tuple[tuple[str, float], ...]
    steps: tuple[Step, ...]
    why: str


@dataclass(frozen=True, slots=True)
class Struck:
    """A figure that was corrected: its column, as it was, and in words what took its place, why, who and when."""

    column: int
    old: str
    words: str


@dataclass(frozen=True, slots=True)
class SetLine:
    """One set as a line of the table: where, when, by whom, its figures in the order of the boxes, what was struck."""

    version: int
    place: str
    time: str
    by: str
    figures: tuple[str, ...]
    struck: tuple[Struck, ...]
    counts: str


@dataclass(frozen=True, slots=True)
class AirTestView:
    """The whole sheet. ``closed`` says why nothing can be read here now (empty: it can)."""

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

    def place(self, key: str) -> PlacePlan | None:
        return next((place for place in self.plan if place.key == key), None)

    @property
    def next_place(self) -> PlacePlan | None:
        """The first place of the plan that still wants a reading and can have one."""
        return next((place for place in self.plan if place.state in ("open", "again")), None)


def air_test_view(office: Office, number: str) -> AirTestView:
    """The sheet as it stands now. Refused when there is no such permit."""
    facts = office.facts(number)
    permit = facts.permit
    gases = _gases(permit)
    depths = points(permit) or ()
    level = permit.level.event.depth_m if permit.level and isinstance(permit.level.event, e.LevelStated) else None
    return AirTestView(
        number=number,
        depth=float(permit.opened.registered.depth_m),
        level=float(level) if level is not None else None,
        level_words=_level_words(permit, level),
        vertical=permit.opened.registered.portal.vertical,
        points=tuple((float(depth), f"{depth} m", _time_at(facts, depth)) for depth in depths),
        plan=tuple(_plan(facts, depths)),
        boxes=tuple(_box(permit, gas, unit) for gas, unit in gases),
        scales=tuple(_scale(permit, gas, unit) for gas, unit in gases),
        values=tuple(_values(facts)),
        testers=tuple(_tester(permit, one) for one in permit.assigned("test")),
        sets=tuple(_line(facts, one, gases) for one in permit.sets),
        outside=tuple(_outside_words(permit, one) for one in current(facts) if outside(permit.form, one.figures)),
        air=air_table(facts),
        closed=_closed(permit),
    )


def _closed(permit: Permit) -> str:
    if permit.ended is not None:
        return say("permit.ended")
    return "" if permit.assigned("test") else say("sheets.air.no_instrument")


def _level_words(permit: Permit, level: str | None) -> str:
    if permit.level is None:
        return say("sheets.air.level_missing")
    return say("sheets.air.level", depth=level) if level is not None else say("sheets.air.dry")


# The plan -------------------------------------------------------------------------------------------------------------


def phase_now(permit: Permit) -> e.Phase | None:
    """The phase that a point read now belongs to; None while the space is shut."""
    if permit.awaits is not None:
        return "after-break"
    if permit.authorised is not None:
        return "work"
    if permit.fan is not None:
        return "ventilating"
    if permit.fan_stopped is not None:
        return "fan-stopped"
    return "open" if permit.open_since is not None or not permit.opened.registered.portal.lid else None


def _plan(facts: Facts, depths: tuple[Decimal, ...]) -> Iterator[PlacePlan]:
    permit = facts.permit
    yield _outer(facts, "upwind", "upwind")
    if permit.opened.registered.portal.lid:
        yield _outer(facts, "lid", "through-lid")
    phase = phase_now(permit)
    for index, depth in enumerate(depths):
        done = at_point(facts, depth)
        noted = _noted(permit, depth)
        words = point_name(index, len(depths)).say()
        state = "open"
        if done is not None:
            state, words = "done", clock(done.event.taken, permit.zone)
        elif noted is not None:
            early_one = early(permit, noted)
            state, words = "again", say("sheets.air.early" if early_one else "sheets.air.not_counted")
        elif phase is None:
            state, words = "shut", say("sheets.air.after_opening")
        name = say("sheets.air.point", depth=str(depth))
        down = say("sheets.air.at_point", depth=str(depth))
        yield PlacePlan(f"point/{depth}", name, down, phase or "open", str(depth), state, words, True)


def _outer(facts: Facts, key: str, phase: e.Phase) -> PlacePlan:
    """Upwind or through the lid: read once, before anything is opened; it does not go stale with the air inside."""
    permit = facts.permit
    done = next((s for s in reversed(permit.sets) if s.event.phase == phase and not s.void), None)
    shut = key == "lid" and done is None and permit.open_since is not None
    words = clock(done.event.taken, permit.zone) if done is not None else say(f"sheets.air.{key}_first")
    return PlacePlan(
        key=key,
        name=say(f"sheets.air.{key}"),
        say_down=say(f"sheets.air.at_{key}"),
        phase=phase,
        point_m=None,
        state="done" if done is not None else "open",
        words=say("sheets.air.lid_late") if shut else words,
        waits=key == "lid",
    )


def _noted(permit: Permit, depth: Decimal) -> ReadingSet | None:
    """The newest set at a point since the air last changed, whether it counts or not."""
    return next(
        (
            s
            for s in reversed(permit.sets)
            if s.version > permit.counts_from
            and s.event.phase in VERIFYING
            and s.event.point_m is not None
            and Decimal(s.event.point_m) == depth
        ),
        None,
    )


def _time_at(facts: Facts, depth: Decimal) -> str:
    """When a point was read; an early reading shows its figures and says so."""
    counted = at_point(facts, depth)
    if counted is not None:
        return clock(counted.event.taken, facts.permit.zone)
    noted = _noted(facts.permit, depth)
    if noted is None:
        return ""
    return say("sheets.air.time_early", time=clock(noted.event.taken, facts.permit.zone))


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


# Instruments and waits ------------------------------------------------------------------------------------------------


def _tester(permit: Permit, one: Assigned) -> TesterChoice:
    seconds = hold(permit, one)
    registered = one.registered
    if registered.pump_l_min and one.hose_m:
        words = say(
            "sheets.air.pumped",
            name=registered.name,
            flow=registered.pump_l_min,
            hose=one.hose_m,
            bore=registered.bore_mm or "?",
        )
    else:
        words = say("sheets.air.diffusion", name=registered.name)
    why = "" if seconds is not None else say("sheets.air.no_hold", name=registered.name)
    parts = _parts(permit, one) if seconds is not None else ()
    steps = _steps(permit, one, parts, int(seconds)) if seconds is not None else ()
    return TesterChoice(
        one.instrument, registered.name, words, int(seconds) if seconds is not None else None, parts, steps, why
    )


def _steps(permit: Permit, one: Assigned, parts: tuple[tuple[str, float], ...], seconds: int) -> tuple[Step, ...]:
    """The wait as a working: each part with what it comes from, then the whole."""
    registered = one.registered
    hows = {
        say("sheets.air.part_hose"): say(
            "sheets.air.hose_how",
            hose=one.hose_m or "",
            bore=registered.bore_mm or "",
            flow=registered.pump_l_min or "",
        ),
        say("sheets.air.part_flush"): say_count("sheets.air.flush_how", permit.form.points.flushes),
        say("sheets.air.part_sensor"): say("sheets.air.sensor_how"),
    }
    lines = [Step(hows[name], "", say("sheets.air.seconds", seconds=f"{length:g}")) for name, length in parts]
    rounded = say("sheets.air.rounded_up") if len(parts) > 1 else ""
    return (*lines, Step(say("sheets.air.whole_wait"), rounded, say("sheets.air.seconds", seconds=seconds), total=True))


def _parts(permit: Permit, one: Assigned) -> tuple[tuple[str, float], ...]:
    registered = one.registered
    slowest = max(float(sensor.response_s) for sensor in registered.sensors)
    sensor = (say("sheets.air.part_sensor"), slowest)
    if not (registered.pump_l_min and one.hose_m and registered.bore_mm):
        return (sensor,)
    try:
        hose = float(
            hose_delay(Decimal(one.hose_m), Decimal(registered.bore_mm), Decimal(registered.pump_l_min)).result
        )
    except Refusal:
        return (sensor,)  # the figures cannot be; then there is no hold either and the sheet says why
    flush = hose * permit.form.points.flushes
    return ((say("sheets.air.part_hose"), hose), (say("sheets.air.part_flush"), flush), sensor)


def sensor_of(permit: Permit, instrument: str, gas: str) -> Sensor | None:
    """The sensor of an assigned instrument for a gas."""
    one = permit.instruments.get(instrument)
    return next((s for s in one.registered.sensors if s.gas == gas), None) if one is not None else None


# Lines of the table ---------------------------------------------------------------------------------------------------


def _line(facts: Facts, one: ReadingSet, gases: tuple[tuple[str, str], ...]) -> SetLine:
    permit = facts.permit
    figures = []
    for gas, _unit in gases:
        figure = one.figure(gas)
        figures.append("\u2013" if figure is None else figure.figure or figure_words(figure).say())
    key = {"upwind": "upwind", "through-lid": "lid"}.get(one.event.phase)
    place = say(f"sheets.air.{key}") if key else say("sheets.air.point", depth=one.event.point_m or "?")
    time = clock(one.event.taken, permit.zone)
    columns = [gas for gas, _unit in gases]
    struck = tuple(
        Struck(
            columns.index(c.event.gas) if c.event.gas in columns else 0,
            c.event.old,
            say(
                "sheets.air.struck",
                place=place,
                time=time,
                gas=gas_name(c.event.gas),
                old=c.event.old,
                new=c.event.new,
                reason=c.event.reason,
                at=clock(c.at, permit.zone),
                name=facts.name(c.by or ""),
            ),
        )
        for c in one.corrections
    )
    return SetLine(
        one.version,
        place,
        time,
        facts.name(one.by) if one.by else "",
        tuple(figures),
        struck,
        _counts(facts, one),
    )


def _counts(facts: Facts, one: ReadingSet) -> str:
    """Why a set does not count for entry now; empty when it does, or stands outside the plan."""
    permit = facts.permit
    if one.event.phase in ("upwind", "through-lid"):
        return ""
    if one.version <= permit.counts_from:
        return say("sheets.air.air_changed")
    if early(permit, one):
        return say("sheets.air.early")
    return "" if standing(facts, one) else say("sheets.air.not_counted")


# Times from a watch ---------------------------------------------------------------------------------------------------


def watch_time(office: Office, text: str) -> datetime | None:
    """A time of day typed from a watch (HH:MM or HH:MM:SS, site zone) as the latest such moment; None if it is none."""
    parts = text.strip().replace(".", ":").split(":")
    if len(parts) not in (2, 3) or not all(part.isascii() and part.isdigit() and len(part) <= 2 for part in parts):
        return None
    hour, minute, second = (*(int(part) for part in parts), 0)[:3]
    if hour > 23 or minute > 59 or second > 59:
        return None
    now = office.now().astimezone(office.zone)
    at = now.replace(hour=hour, minute=minute, second=second, microsecond=0)
    if at > now + timedelta(minutes=1):
        at -= timedelta(days=1)
    return at.astimezone(UTC)
