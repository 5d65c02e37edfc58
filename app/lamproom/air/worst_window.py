"""The worst window of a day: which 15 minutes held the most; what is settled is never looked at again."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from lamproom.air.series import Series, Whole

SHORT = 15 * 60_000  # ms


@dataclass(frozen=True, slots=True, eq=False)
class Time:
    """A stay in whole ms, cut at the moment of asking."""

    air: Series
    since: int
    until: int


@dataclass(frozen=True, slots=True, eq=False)
class SoFar:
    """What is settled and need not be looked at again: the worst window that ends by ``settled``, the highest level."""

    times: tuple[Time, ...]
    settled: int
    worst: int
    worst_end: int
    highest: int


def still_holds(old: SoFar, times: tuple[Time, ...]) -> bool:
    """Do the same stays in the same readings, only longer, stand behind what was settled?"""

    def settled(all: tuple[Time, ...]) -> list[tuple[object, int, int]]:
        known = [time for time in all if time.since <= old.settled]
        return [(time.air.root, time.since, min(time.until, old.settled)) for time in known]

    if settled(old.times) != settled(times):
        return False
    for a, b in zip(old.times, times, strict=False):
        grown_by = len(b.air.times) - len(a.air.times)
        ran_out = min(a.until, old.settled) > a.air.times[-1]  # its last level was only held on, and would be a gap now
        if grown_by < 0 or (ran_out and grown_by):
            return False
    return True


def grown(old: SoFar, times: tuple[Time, ...], end: int, window: int = SHORT) -> SoFar:
    """What was settled, and what came after it up to ``end``."""
    if end <= old.settled:
        return replace(old, times=times)
    # What was over before any window that is looked at is the same at both of its ends.
    late = tuple(time for time in times if time.until > old.settled - window) or times[:1]
    ends = _ends(late, old.settled, end, window)
    held = dose(late, np.concatenate((ends, ends - window)))
    doses = held[: len(ends)] - held[len(ends) :]
    worst = int(doses.max())
    better = worst > old.worst
    return SoFar(
        times,
        end,
        worst if better else old.worst,
        int(ends[doses == worst].min()) if better else old.worst_end,  # of equal windows the first, however often asked
        max(old.highest, *(highest(time, old.settled, end) for time in late)),
    )


def _ends(times: tuple[Time, ...], after: int, end: int, window: int) -> Whole:
    """The ends that a worst window can have: its dose is greatest where it ends at a fall or begins at a rise."""
    turns = [np.array([end], dtype=np.int64)]
    for time in times:
        air, since, until = time.air, time.since, time.until
        edges = np.array([since, until, since + window, until + window], dtype=np.int64)
        turns.append(edges[(edges > after) & (edges <= end)])
        for shift in (0, window):
            low, high = max(since, after - shift), min(until, end - shift)
            a, b = (max(int(k), 1) for k in np.searchsorted(air.times, (low, high), side="right"))
            step = air.levels[a:b] - air.levels[a - 1 : max(b - 1, a - 1)]
            turns.append(air.times[a:b][step > 0 if shift else step < 0] + shift)
        first = int(air.times[0])  # before it the first reading counts, and after it perhaps a gap
        turns.append(np.array([one for one in (first, first + window) if after < one <= end], dtype=np.int64))
    return np.concatenate(turns)


def dose(times: tuple[Time, ...], at: Whole) -> Whole:
    """The dose of all stays up to each moment, in thousandths of ppm x ms."""
    whole = np.zeros(len(at), dtype=np.int64)
    for air in {id(time.air): time.air for time in times}.values():
        edges = [edge for time in times if time.air is air for edge in (time.since, time.until)]
        doses = air.dose(np.concatenate((at, np.array(edges, dtype=np.int64))))
        upto, held = doses[: len(at)], doses[len(at) :].tolist()
        for start, end in zip(held[::2], held[1::2], strict=True):
            whole += np.minimum(np.maximum(upto, start), end) - start
    return whole


def highest(time: Time, after: int, end: int) -> int:
    """The highest level met in a stay from ``after`` to ``end``; a reading at the very end counts as read."""
    a, b = max(time.since, after), min(time.until, end)
    if a > b:
        return 0
    air = time.air
    i, j = (max(int(k) - 1, 0) for k in np.searchsorted(air.times, (a, b), side="right"))
    last = air.values[j] if air.times[j] >= b else air.levels[j]
    return max(int(last), int(air.levels[i:j].max()) if j > i else 0, int(air.values[0]) if a < air.times[0] else 0)
