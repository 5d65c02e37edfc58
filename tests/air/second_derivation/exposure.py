"""What a person or a space took in, from the definitions, second by second.

29 CFR 1910.1000(d)(1)(i): E = (Ca Ta + ... + Cn Tn) / 8, the divisor is always eight hours. 29 CFR 1910.1000(a)(1): a
ceiling is not exceeded at any time; a short-term mean is taken over any fifteen minutes, not over quarters of the
clock (W9 of the trade's examples), and its divisor is always fifteen minutes (HSE EH40, from memory: five minutes at
600 is 200).

Everything is laid out on a grid of whole seconds and added up in whole thousandths, so that no rounding, no clever
window and no incremental sum can hide anything. Nothing of the program is imported here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

import numpy as np
import numpy.typing as npt

Grid = npt.NDArray[np.int64]
SCALE = 1000
"""Levels are held in thousandths of the reading's unit."""

EIGHT_HOURS_S, FIFTEEN_MINUTES_S = 8 * 3600, 15 * 60


@dataclass(frozen=True)
class Read:
    """A reading: at which second of the day, and what, in thousandths."""

    second: int
    thousandths: int


@dataclass(frozen=True)
class Stay:
    """A time inside, under one permit; ``out`` None: not out yet."""

    permit: str
    came_in: int
    out: int | None


def level_by_second(readings: Sequence[Read], begin: int, end: int, gap_s: int | None) -> Grid:
    """The level in each second of [begin, end), in thousandths.

    A reading stands until the next one. Where the next one is further than ``gap_s`` away, nobody knows what was in
    between, and the worse of the two neighbours is taken throughout. ``gap_s`` None: that worse one between any two
    readings. Before the first and after the last reading there is one neighbour only, and it is taken.
    """
    if not readings:
        raise LookupError("no reading: the level is unknown, not zero")
    ordered = sorted(readings, key=lambda r: r.second)
    grid = np.empty(end - begin, dtype=np.int64)

    def fill(a: int, b: int, value: int) -> None:
        low, high = max(a, begin) - begin, min(b, end) - begin
        if low < high:
            grid[low:high] = value

    fill(begin, ordered[0].second, ordered[0].thousandths)
    for one, other in pairwise(ordered):
        unknown = gap_s is None or other.second - one.second > gap_s
        worse = max(one.thousandths, other.thousandths)
        fill(one.second, other.second, worse if unknown else one.thousandths)
    fill(ordered[-1].second, end, ordered[-1].thousandths)
    return grid


def highest_mean(grid: Grid, window_s: int = FIFTEEN_MINUTES_S) -> Fraction:
    """The highest mean over any ``window_s`` seconds; outside the grid nothing was breathed."""
    clean = np.zeros(window_s, dtype=np.int64)
    total = np.concatenate(([0], np.cumsum(np.concatenate((clean, grid, clean)))))
    return Fraction(int((total[window_s:] - total[:-window_s]).max()), window_s * SCALE)


def shift_mean(grid: Grid) -> Fraction:
    """E of 29 CFR 1910.1000(d)(1)(i): the sum of level and time over eight hours, whatever was worked."""
    return Fraction(int(grid.sum()), EIGHT_HOURS_S * SCALE)


def above(grid: Grid, ceiling: int, *, at_counts: bool) -> list[tuple[int, int, int]]:
    """Each stretch past ``ceiling`` (thousandths): first second, the second after its last, its peak."""
    past = grid >= ceiling if at_counts else grid > ceiling
    edges = np.flatnonzero(np.diff(np.concatenate(([0], past.astype(np.int8), [0]))))
    return [(int(a), int(b), int(grid[a:b].max())) for a, b in edges.reshape(-1, 2)]


def breathed(
    stays: Sequence[Stay], readings: Mapping[str, Sequence[Read]], day_end: int, now: int, gap_s: int | None
) -> Grid:
    """One person's day: each permit's air while inside, nothing while out (HSE EH40: a true break counts as zero).

    Two stays that overlap cannot both be true; the worse air of the two is taken.
    """
    day = np.zeros(day_end, dtype=np.int64)
    for stay in stays:
        end = now if stay.out is None else stay.out
        if end > stay.came_in:
            air = level_by_second(readings[stay.permit], stay.came_in, end, gap_s)
            day[stay.came_in : end] = np.maximum(day[stay.came_in : end], air)
    return day


def long_shift_factor(hours: Fraction) -> Fraction:
    """Brief and Scala, daily: (8/h) x (24 - h)/16, never above 1."""
    return min(Fraction(1), Fraction(8) / hours * (24 - hours) / 16)
