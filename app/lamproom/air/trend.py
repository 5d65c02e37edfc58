"""Trend: where readings of one gas are heading, and readings that cannot be what they are called."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from enum import Enum
from itertools import pairwise

from lamproom.air.limits import Limit, Standing, judge
from lamproom.air.oxygen import FRESH_AIR
from lamproom.air.working import Unworkable, Working, above_zero, finite, of, within, worked
from lamproom.words import say, sentence

MINUTE = timedelta(minutes=1)
SAME_RUN = 3
"""So many equal figures in a row may be a frozen display: common practice."""


class Direction(Enum):
    """Where a gas is going, judged by the last readings against the two before."""

    RISING = "rising"
    FALLING = "falling"
    STEADY = "steady"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Toward:
    """Whether a gas is heading for its limit, and when it gets there at the steepest pace lately seen.

    ``at`` is None when it is not, or has arrived (``outside``).
    """

    direction: Direction
    toward: bool
    outside: bool
    at: datetime | None
    working: Working


def direction(levels: Sequence[Decimal], step: Decimal) -> Direction:
    """Rising when the last level is above both before it by a step of the display or more; falling likewise; else
    steady; unknown with fewer than three. Oldest first.

    >>> direction([Decimal(2), Decimal(3), Decimal(5)], Decimal(1))
    <Direction.RISING: 'rising'>
    """
    above_zero("resolution", step)
    if len(levels) < 3:
        return Direction.UNKNOWN
    *_, first, second, last = (finite("level", level) for level in levels)
    if last - max(first, second) >= step:
        return Direction.RISING
    return Direction.FALLING if min(first, second) - last >= step else Direction.STEADY


def toward(readings: Sequence[tuple[datetime, Decimal]], limit: Limit, step: Decimal) -> Toward:
    """Whether the readings (moment, level in the limit's unit; oldest first) head for a limit, and when it is met.

    The pace is the steeper of those from the last two readings to the newest, so the moment is rather too early than
    too late. Rounded down to whole minutes after the newest. A caution only: each reading is judged by itself.
    """
    if not readings:
        raise Unworkable(sentence("air.unworkable.no_readings"))
    if any(later < earlier for (earlier, _), (later, _) in pairwise(readings)):
        raise Unworkable(sentence("air.unworkable.out_of_order"))
    going = direction([level for _, level in readings], step)
    (at, last), before = readings[-1], readings[-3:-1]
    bound = {Direction.RISING: limit.high, Direction.FALLING: limit.low}.get(going)
    outside = judge(limit, last) is Standing.OUTSIDE
    paces = [
        abs(last - level) / (Decimal((at - then) / timedelta(microseconds=1)) / 60_000_000)
        for then, level in before
        if at > then
    ]
    pace = max(paces, default=Decimal(0)).quantize(Decimal("0.0001"), ROUND_HALF_UP)
    heading = bound is not None and not outside and pace > 0
    working = minutes_to_level(last, bound, pace) if heading and bound is not None else _no_heading(last, pace)
    minutes = working.result if heading else None
    met = at + int(minutes) * MINUTE if isinstance(minutes, Decimal) and minutes < 100_000 else None
    return Toward(going, heading, outside, met, working)


def minutes_to_level(level: Decimal, bound: Decimal, pace_per_min: Decimal) -> Working:
    """Minutes until a level meets a bound at an even pace (per minute, without a sign), rounded down to whole ones.

    >>> minutes_to_level(Decimal(6), Decimal(10), Decimal("0.3")).result
    Decimal('13')
    """
    finite("level", level)
    minutes = (abs(finite("bound", bound) - level) / above_zero("pace", pace_per_min)).quantize(Decimal(1), ROUND_FLOOR)
    inputs = (of("level", level), of("bound", bound), of("pace", pace_per_min, "1/min"))
    return worked("minutes_to_level", minutes, "min", inputs, "arithmetic")


def unmoved(levels: Sequence[Decimal], clean: Decimal, band: Decimal, after_change: bool = False) -> bool:
    """Whether a display may be frozen: the last three figures are equal and away from clean air (``clean`` give or take
    ``band``). On a feed after a known change of the air, equal figures are suspicious whatever they are.

    20.9/0/0/0 all day is the ordinary day. Source: common practice.

    >>> unmoved([Decimal(4)] * 3, Decimal(0), Decimal(1)), unmoved([Decimal("20.9")] * 9, FRESH_AIR, Decimal("0.1"))
    (True, False)
    """
    last = [finite("level", level) for level in levels[-SAME_RUN:]]
    if len(last) < SAME_RUN or len(set(last)) > 1:
        return False
    return after_change or abs(last[0] - clean) > band


def furthest(level: Decimal, seconds: Decimal, response_t90_s: Decimal, top: Decimal, bottom: Decimal) -> Working:
    """How far up a display can have moved in so many seconds, by its response time: level + (top - level) x
    (1 - 10^(-seconds / t90)), to 0.01. ``bottom`` and ``top`` are the ends of its range.

    Source: a sensor of first order, of which t90 is by definition the time to 90 % of a step.

    >>> furthest(Decimal(0), Decimal(30), Decimal(30), Decimal(100), Decimal(0)).result
    Decimal('90.00')
    """
    share = 1 - Decimal(10) ** (-within("seconds", seconds, 0) / above_zero("response", response_t90_s))
    up = within("level", level, bottom, top) + (top - level) * share
    inputs = (
        of("level", level),
        of("seconds", seconds, "s"),
        of("response", response_t90_s, "s"),
        of("top", top),
        of("bottom", bottom),
    )
    return worked("furthest", up.quantize(Decimal("0.01"), ROUND_HALF_UP), "", inputs, "definition of t90")


def cannot_be(
    before: Decimal,
    now: Decimal,
    seconds: Decimal,
    response_t90_s: Decimal,
    top: Decimal,
    bottom: Decimal = Decimal(0),
    step: Decimal = Decimal(0),
) -> bool:
    """Whether a jump is one that the sensor cannot have made: outside its range, or faster than its response allows,
    by more than a ``step`` of the display.

    >>> cannot_be(Decimal("20.9"), Decimal("2.9"), Decimal(1), Decimal(15), Decimal(30))
    True
    """
    if not bottom <= now <= top:
        return True
    if now >= before:
        return now - step > Decimal(furthest(before, seconds, response_t90_s, top, bottom).result)
    down = furthest(bottom + top - before, seconds, response_t90_s, top, bottom)
    return now + step < bottom + top - Decimal(down.result)


def oxygen_left(base: Decimal, flammable_vol: Decimal) -> Working:
    """The oxygen that so much flammable gas leaves at most, vol%, to 0.01: base x (1 - gas / 100).

    >>> oxygen_left(Decimal("20.9"), Decimal("5")).result
    Decimal('19.86')
    """
    share = 1 - within("flammable_vol", flammable_vol, 0, 100) / 100
    left = (within("base", base, 0, 100) * share).quantize(Decimal("0.01"), ROUND_HALF_UP)
    inputs = (of("base", base, "vol%"), of("flammable_vol", flammable_vol, "vol%"))
    return worked("oxygen_left", left, "vol%", inputs, "definition")


def disagree(oxygen: Decimal, flammable_vol: Decimal, tolerance: Decimal, base: Decimal = FRESH_AIR) -> bool:
    """Whether oxygen and flammable gas cannot both be right: more oxygen than that much gas can leave, by more than the
    ``tolerance`` in vol%. Less oxygen is no contradiction: something else may be missing too.

    >>> disagree(Decimal("20.9"), Decimal(5), Decimal("0.3")), disagree(Decimal("19.8"), Decimal(5), Decimal("0.3"))
    (True, False)
    """
    left = Decimal(oxygen_left(base, max(finite("flammable_vol", flammable_vol), Decimal(0))).result)
    return finite("oxygen", oxygen) > left + within("tolerance", tolerance, 0)


def _no_heading(level: Decimal, pace: Decimal) -> Working:
    inputs = (of("level", level), of("pace", pace, "1/min"))
    return worked("minutes_to_level", say("air.result.not_heading"), "min", inputs, "arithmetic")
