"""Leave by: when someone would reach a limit if the air stayed as it was last read. Never 'time left'."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from decimal import ROUND_FLOOR, Decimal

import numpy as np

from lamproom.air.exposure import MINUTE, Stay, cut_at, ppm_min
from lamproom.air.means import RULE, SHIFT_MINUTES
from lamproom.air.series import MILLISECOND, THOUSANDTHS, milliseconds
from lamproom.air.working import Working, above_zero, of, within, worked
from lamproom.air.worst_window import Time, dose
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class LeaveBy:
    """When to be out by; ``at`` is None when the limit is not reached at the last level, or nobody is inside."""

    at: datetime | None
    working: Working


def minutes_to_limit(dose_ppm_min: Decimal, level: Decimal, limit: Decimal, minutes: Decimal) -> Working:
    """Minutes until a mean over so many minutes reaches its limit if the level stays, rounded down to whole ones.

    (limit x minutes - dose) / level; 0 when it is reached, a word when the level is 0. Nothing that was taken in goes
    out again: for a shift. Source: 29 CFR 1910.1000(d)(1), by arithmetic.

    >>> minutes_to_limit(Decimal(9600), Decimal(60), Decimal(35), Decimal(480)).result
    Decimal('120')
    """
    within("dose", dose_ppm_min, 0)
    left = max(above_zero("limit", limit) * above_zero("minutes", minutes) - dose_ppm_min, Decimal(0))
    result: Decimal | str = say("air.result.not_reached")
    if left == 0:
        result = Decimal(0)
    elif within("level", level, 0) > 0:
        result = (left / level).quantize(Decimal(1), ROUND_FLOOR)
    inputs = (
        of("dose", dose_ppm_min, "ppm·min"),
        of("level", level, "ppm"),
        of("limit", limit, "ppm"),
        of("minutes", minutes, "min"),
    )
    return worked("minutes_to_limit", result, "min", inputs, RULE)


def leave_by(stays: Sequence[Stay], until: datetime, limit: Decimal) -> LeaveBy:
    """When someone inside would reach the limit of a shift mean, if the air stayed as it was last read.

    It never says how long one may stay: the air may get worse, and the next reading moves it.
    """
    end = milliseconds(until)
    times = cut_at(stays, end)
    taken_in = ppm_min(int(dose(times, np.array([end], dtype=np.int64))[0]))
    working = minutes_to_limit(taken_in, _level(times, end), limit, SHIFT_MINUTES)
    return LeaveBy(_after(until, working.result), working)


def leave_by_short_term(
    stays: Sequence[Stay], until: datetime, limit: Decimal, window: timedelta = timedelta(minutes=15)
) -> LeaveBy:
    """When someone inside would reach the limit of a mean over ``window``, if the air stayed as it was last read.

    What leaves the window at its old end is counted out, so a steady level under the limit is never 'leave by'.
    """
    end, wide = milliseconds(until), window // MILLISECOND
    times = cut_at(stays, end)
    level = _level(times, end)
    target = int(above_zero("limit", limit) * THOUSANDTHS * wide)
    ms = _reached(times, end, wide, int(level * THOUSANDTHS), target)
    result = say("air.result.not_reached") if ms is None else Decimal(ms // MINUTE)
    edge = np.array([end - wide, end], dtype=np.int64)
    held = dose(times, edge)
    minutes = Decimal(wide) / MINUTE
    working = minutes_to_limit(ppm_min(int(held[1] - held[0])), level, limit, minutes)
    told = replace(
        working,
        result=result,
        formula=say("air.formula.short_term_limit"),
        validity=say("air.validity.short_term_limit"),
        key="",
    )
    return LeaveBy(_after(until, result), told)


def _level(times: tuple[Time, ...], end: int) -> Decimal:
    """The level that someone is in at the end: 0 for one who is out."""
    thousandths = 0
    for time in times:
        if time.until == end:
            last = max(int(np.searchsorted(time.air.times, end, side="right")) - 1, 0)
            thousandths += int(time.air.values[last])
    return Decimal(thousandths) / THOUSANDTHS


def _reached(times: tuple[Time, ...], end: int, wide: int, level: int, target: int) -> int | None:
    """The ms until the window's dose first meets the target, None if it never does."""
    turns = [np.array([end, end + wide], dtype=np.int64)]
    for time in times:
        edges = np.concatenate((time.air.times, np.array([time.since, time.until], dtype=np.int64)))
        turns.append(edges[(edges > end - wide) & (edges < end)] + wide)
    ends = np.unique(np.concatenate(turns))
    now = int(dose(times, np.array([end], dtype=np.int64))[0])
    doses = now + level * (ends - end) - dose(times, ends - wide)
    over = np.flatnonzero(doses >= target)
    if not len(over):
        return None
    i = int(over[0])
    if i == 0:
        return 0
    start, rise = int(ends[i - 1]), int(doses[i] - doses[i - 1])
    return start - end + (target - int(doses[i - 1])) * int(ends[i] - ends[i - 1]) // rise


def _after(until: datetime, minutes: Decimal | str) -> datetime | None:
    return None if isinstance(minutes, str) else until + timedelta(minutes=int(minutes))
