"""The purge at a point: the readings of one gas since the fan was started, the curve through them, and what it says.

It says when to read again and allows nothing: only a measured reading allows.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import ROUND_HALF_UP, Decimal

from lamproom.air.decay import FEWEST, CurvePoint, Decay, Going, Timed, decay, time_to
from lamproom.air.share import round_volume
from lamproom.air.working import Working
from lamproom.bench.bump import gas_name
from lamproom.office.amount import amount
from lamproom.office.office import Office
from lamproom.office.views.working_slip import SlipPage, Step, inputs_of
from lamproom.permit import events as e
from lamproom.permit.facts import Facts, early
from lamproom.permit.form import LimitLine
from lamproom.permit.obstacles.atmosphere import base_oxygen
from lamproom.permit.state import Made, Permit, ReadingSet, in_unit
from lamproom.permit.words import clock, place_words
from lamproom.words import Refusal, say

_ROUND = ("vertical-shaft", "vertical-tank", "silo")
_CURVE = 60
"""Places of the curve that are worked out for drawing it."""
_AHEAD = Decimal("1.5")
"""How far past the newest reading the drawing looks, in spans of the readings, where the limit is not met before."""
_FARTHEST = Decimal(4)


@dataclass(frozen=True, slots=True)
class PurgeMark:
    """A reading: minutes since the fan was started, its level, and both in words."""

    minutes: float
    level: float
    words: str


@dataclass(frozen=True, slots=True)
class PurgeView:
    """The purge of one gas at one point. ``says`` is the finding in a sentence; ``curve`` is empty unless the level is
    falling. ``meets`` are the minutes at which the limit will be met, with their ends; an end may be None for never.
    ``limit``, ``marks`` and ``curve`` are in ``unit``: for oxygen what is missing of fresh air."""

    title: str
    says: str
    unit: str
    what: str
    limit: float | None
    limit_words: str
    marks: tuple[PurgeMark, ...]
    curve: tuple[CurvePoint, ...]
    meets: tuple[float, float | None, float | None] | None
    until: float
    ticks: tuple[tuple[float, str], ...]
    page: SlipPage


def timed_at(facts: Facts, gas: str, point_m: str) -> tuple[tuple[ReadingSet, Timed], ...]:
    """The readings of a gas at a point since the fan was started, oldest first; of oxygen what is missing."""
    permit, found = facts.permit, []
    fan = permit.fan
    for one in permit.sets if fan is not None else ():
        figure, line = one.figure(gas), permit.form.limit(gas)
        here = one.event.point_m is not None and Decimal(one.event.point_m) == Decimal(point_m)
        before = fan is None or one.version < fan.version or one.event.taken < fan.at
        if fan is None or before or not here or one.void or early(permit, one):
            continue
        level = in_unit(figure, line) if figure is not None and line is not None else None
        if level is not None and gas == "oxygen":
            base = base_oxygen(facts, one.event.instrument)
            level = max(base - level, Decimal(0)) if base is not None else None
        if level is not None:
            minutes = Decimal((one.event.taken - fan.at) / timedelta(seconds=1)) / 60
            found.append((one, Timed(_plain(minutes), level)))
    return tuple(sorted(found, key=lambda pair: pair[1].minutes))


def _plain(minutes: Decimal) -> Decimal:
    """To a hundredth, without noughts that say nothing."""
    whole = minutes.quantize(Decimal("0.01"), ROUND_HALF_UP)
    return whole.quantize(Decimal(1)) if whole == whole.to_integral_value() else whole.normalize()


def purge_of(office: Office, number: str, gas: str, point_m: str) -> PurgeView | None:
    """The purge of a gas at a point; None where no fan runs or the form has no limit for it."""
    facts = office.facts(number)
    permit = facts.permit
    fan, line = permit.fan, permit.form.limit(gas)
    if fan is None or line is None:
        return None
    timed = timed_at(facts, gas, point_m)
    found = _fitted(permit, gas, timed)
    target = _target(facts, line, timed)
    meets = time_to(found, target) if found.going is Going.FALLING and target is not None else None
    until = _until(timed, meets)
    place = place_words("open", point_m).say()
    start = clock(fan.at, permit.zone)
    title = say("workings.purge.title", gas=gas_name(gas), place=place, start=start)
    return PurgeView(
        title=title,
        says=_says(permit, fan, found, meets, _bound(line)),
        unit=line.unit,
        what=say("workings.purge.missing") if gas == "oxygen" else gas_name(gas).say(),
        limit=float(target) if target is not None else None,
        limit_words=say("workings.purge.limit", figure=_bound(line)),
        marks=tuple(_mark(permit, one, reading, line.unit) for one, reading in timed),
        curve=found.curve(_grid(timed, until)),
        meets=_ends(meets),
        until=until,
        ticks=_ticks(permit, fan.at, until),
        page=_page(permit, found, meets),
    )


def _fitted(permit: Permit, gas: str, timed: tuple[tuple[ReadingSet, Timed], ...]) -> Decay:
    """By the coarsest display and the slowest sensor that read it, so that nothing is claimed to be finer."""
    sensors = [
        sensor
        for one, _reading in timed
        if one.assigned is not None
        for sensor in one.assigned.registered.sensors
        if sensor.gas == gas
    ]
    step = max((Decimal(sensor.resolution) for sensor in sensors), default=Decimal("0.1" if gas == "oxygen" else 1))
    response = max((Decimal(sensor.response_s) for sensor in sensors), default=Decimal(30))
    volume, flow = volume_of(permit), _flow(permit)
    readings = [reading for _one, reading in timed]
    size = Decimal(volume.result) if volume is not None else None
    return decay(readings, step, response, size, flow if size is not None else None)


def volume_of(permit: Permit) -> Working | None:
    """The air of a space that is round all the way down, to today's level; None where its shape tells no volume."""
    space = permit.opened.registered
    level = permit.level.event if permit.level is not None else None
    deep = level.depth_m if isinstance(level, e.LevelStated) and level.depth_m is not None else space.depth_m
    if space.shape not in _ROUND:
        return None
    try:
        return round_volume(Decimal(space.across_m), Decimal(deep))
    except Refusal:
        return None


def _flow(permit: Permit) -> Decimal | None:
    """The fan's flow in m³/min, None where none runs or it says nought."""
    event = permit.fan.event if permit.fan is not None else None
    if not isinstance(event, e.VentilationStarted) or Decimal(event.flow_m3_h) <= 0:
        return None
    return (Decimal(event.flow_m3_h) / 60).quantize(Decimal("0.001"), ROUND_HALF_UP)


def _target(facts: Facts, line: LimitLine, timed: tuple[tuple[ReadingSet, Timed], ...]) -> Decimal | None:
    """The level at which the limit is met: of oxygen what may be missing."""
    if line.gas != "oxygen":
        return Decimal(line.high) if line.high is not None else None
    base = base_oxygen(facts, timed[-1][0].event.instrument if timed else None)
    if base is None or line.low is None:
        return None
    return max(base - Decimal(line.low), Decimal(0))


def _bound(line: LimitLine) -> str:
    """The figure that a falling level is to come down to, of oxygen that it is to come up to."""
    return amount((line.low if line.gas == "oxygen" else line.high) or "", line.unit)


def _says(permit: Permit, fan: Made, found: Decay, meets: Working | None, limit: str) -> str:
    if found.going is Going.CANNOT_TELL:
        return say("workings.purge.cannot_tell", used=found.used, fewest=FEWEST)
    if meets is None:
        return found.why.say()
    if not isinstance(meets.result, Decimal):
        return say("workings.purge.never", why=found.why, limit=limit)
    at = _clock_at(permit, fan.at, meets.result)
    low = _clock_at(permit, fan.at, meets.low) if meets.low is not None else at
    if meets.high is None:
        return say("workings.purge.meets_open", limit=limit, at=at, low=low)
    return say("workings.purge.meets", limit=limit, at=at, low=low, high=_clock_at(permit, fan.at, meets.high))


def _clock_at(permit: Permit, start: datetime, minutes: Decimal) -> str:
    """A time of day, rounded up to the minute; a day away and more is said so."""
    if minutes >= 1440:
        return say("workings.purge.another_day")
    return clock(start + timedelta(minutes=int(minutes.to_integral_value(rounding="ROUND_CEILING"))), permit.zone)


def _ends(meets: Working | None) -> tuple[float, float | None, float | None] | None:
    if meets is None or not isinstance(meets.result, Decimal):
        return None
    low, high = (float(end) if end is not None else None for end in (meets.low, meets.high))
    return (float(meets.result), low, high)


def _until(timed: tuple[tuple[ReadingSet, Timed], ...], meets: Working | None) -> float:
    """How far the drawing goes: past the newest reading, and to where the limit is met unless that is far away."""
    last = timed[-1][1].minutes if timed else Decimal(10)
    wanted = last * _AHEAD
    if meets is not None and isinstance(meets.result, Decimal):
        wanted = max(wanted, min(meets.result * Decimal("1.15"), last * _FARTHEST))
    return float(max(wanted, Decimal(5)))


def _grid(timed: tuple[tuple[ReadingSet, Timed], ...], until: float) -> list[Decimal]:
    first = timed[0][1].minutes if timed else Decimal(0)
    step = (Decimal(until) - first) / (_CURVE - 1)
    return [first + step * at for at in range(_CURVE)]


def _mark(permit: Permit, one: ReadingSet, reading: Timed, unit: str) -> PurgeMark:
    words = say("workings.purge.mark", time=clock(one.event.taken, permit.zone), level=amount(reading.level, unit))
    return PurgeMark(float(reading.minutes), float(reading.level), words)


def _ticks(permit: Permit, start: datetime, until: float) -> tuple[tuple[float, str], ...]:
    """Round times of day under the drawing, six at the most."""
    step = next((step for step in (1, 2, 5, 10, 15, 30, 60, 120, 240) if until / step <= 6), 480)
    local = start.astimezone(permit.zone)
    gone = Decimal(local.hour * 60 + local.minute) + Decimal(local.second) / 60
    first = float((step - gone % step) % step)
    count = max(int((until - first) // step), 0) + 1
    whole = (first + step * at for at in range(count))
    return tuple((m, clock(start + timedelta(minutes=m, seconds=1), permit.zone)) for m in whole if m <= until)


def _page(permit: Permit, found: Decay, meets: Working | None) -> SlipPage:
    """What the fit found, each figure with its interval."""
    steps: list[Step] = []
    workings: list[Working] = []
    shown = {"meets_after": meets, "changes": found.changes, "mixing": found.mixing, "steady": found.steady}
    for key, one in shown.items():
        if one is not None:
            steps.append(Step(say(f"workings.purge.{key}"), _between(one), amount(one.result, one.unit)))
            workings.append(one)
    if found.rate is not None:
        steps += inputs_of(found.rate)
        workings.append(found.rate)
    volume, flow = volume_of(permit), _flow(permit)
    if found.mixing is not None and volume is not None and flow is not None:
        workings.append(volume)
    return SlipPage(
        say("workings.purge.name"),
        say("workings.purge.working"),
        tuple(steps),
        say("workings.formula", formula=found.rate.formula) if found.rate is not None else "",
        found.rate.source if found.rate is not None else "",
        say("workings.purge.aside"),
        tuple(workings),
    )


def _between(one: Working) -> str:
    if one.low is None and one.high is None:
        return ""
    low, high = (say("workings.no_end") if end is None else amount(end) for end in (one.low, one.high))
    return say("workings.between", low=low, high=high)
