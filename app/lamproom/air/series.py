"""Readings of one gas over time: what level counts between two of them, and the dose up to any moment.

Exact: times are whole milliseconds and levels thousandths of a ppm (rounded up) in 64-bit integers, so that a sum of a
day has no rounding and one more reading changes nothing of what was summed before.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from decimal import Decimal

import numpy as np
from numpy.typing import NDArray

from lamproom.air.working import Unworkable
from lamproom.words import say, sentence

Whole = NDArray[np.int64]
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
THOUSANDTHS = 1000
MOST_PPM = 1_000_000
MILLISECOND = timedelta(milliseconds=1)


@dataclass(frozen=True, slots=True, eq=False)
class Series:
    """Readings of one gas in one space, oldest first; at least one.

    ``every`` is the interval in ms at which an instrument logged them, None for readings noted by hand. Up to one and
    a half times that, a reading stands until the next. Anything longer is a gap, and so is all that lies between
    readings noted by hand: there the higher of the two neighbors counts throughout. Before the first and after the
    last reading the only neighbor counts. So a gap is never nought and never left out.

    ``levels`` are the levels from each reading to the next, ``doses`` the dose from the first reading up to each,
    ``holes`` the ms of gaps up to each.
    ``root`` is shared with every series that this one was lengthened from.
    """

    gas: str
    every: int | None
    times: Whole
    values: Whole
    levels: Whole
    doses: Whole
    holes: Whole
    root: object = field(repr=False)

    def add(self, at: datetime, ppm: Decimal) -> Series:
        """The series with one more reading; one that is older than the last is put in its place."""
        time, value = milliseconds(at), int(_thousandths([ppm])[0])
        if time <= self.times[-1]:
            return _series(self.gas, self.every, np.append(self.times, time), np.append(self.values, value))
        step = time - int(self.times[-1])
        gap = self.every is None or step * 2 > 3 * self.every
        last = max(int(self.values[-1]), value) if gap else int(self.values[-1])
        levels = np.append(self.levels, np.int64(value))
        levels[-2] = last
        dose = int(self.doses[-1]) + last * step
        return Series(
            self.gas,
            self.every,
            np.append(self.times, np.int64(time)),
            np.append(self.values, np.int64(value)),
            levels,
            np.append(self.doses, np.int64(dose)),
            np.append(self.holes, self.holes[-1] + (step if gap else 0)),
            self.root,
        )

    def dose(self, at: Whole) -> Whole:
        """The dose from the first reading to each moment, in thousandths of ppm x ms; below 0 before the first."""
        i = np.maximum(np.searchsorted(self.times, at, side="right") - 1, 0)
        away = at - self.times[i]
        return self.doses[i] + away * np.where(away < 0, self.values[0], self.levels[i])

    def unread(self, start: int, end: int) -> int:
        """The ms between two moments that lie in gaps, before the first or after the last reading stood."""
        first, last = int(self.times[0]), int(self.times[-1])
        stood = last + (self.every or 0)
        outer = max(min(first, end) - start, 0) + max(end - max(stood, start), 0)
        return outer + self._holed(min(end, last)) - self._holed(max(min(start, last), first))

    def _holed(self, at: int) -> int:
        """The ms of gaps from the first reading to a moment that is not after the last."""
        i = int(np.searchsorted(self.times, at, side="left"))
        if i == 0:
            return 0
        in_gap = self.holes[i] > self.holes[i - 1]
        return int(self.holes[i - 1]) + (at - int(self.times[i - 1]) if in_gap else 0)


def series(gas: str, readings: Iterable[tuple[datetime, Decimal]], every: timedelta | None = None) -> Series:
    """The series of readings (moment with its zone, ppm), in any order; of two at one moment the higher counts.

    A figure below 0 counts as 0. Unworkable without a reading or with a figure that is none.

    >>> at = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
    >>> len(series("carbon monoxide", [(at, Decimal("12")), (at + timedelta(minutes=5), Decimal("9"))]).times)
    2
    """
    pairs = list(readings)
    return logged([at for at, _ in pairs], {gas: [ppm for _, ppm in pairs]}, every)[gas]


def logged(
    times: Sequence[datetime], figures: Mapping[str, Sequence[Decimal]], every: timedelta | None = None
) -> dict[str, Series]:
    """The series of all gases of one log, by gas: each has one figure in ppm for each moment."""
    if not times or any(len(column) != len(times) for column in figures.values()):
        raise Unworkable(sentence("air.unworkable.no_readings"))
    moments = np.fromiter(map(milliseconds, times), dtype=np.int64, count=len(times))
    step = None if every is None else every // MILLISECOND
    return {gas: _series(gas, step, moments, _thousandths(column)) for gas, column in figures.items()}


def milliseconds(at: datetime) -> int:
    """Whole ms since 1970; a moment without a zone is a fault (TypeError)."""
    return (at - EPOCH) // MILLISECOND


def moment(ms: int) -> datetime:
    """The moment of so many ms, in UTC."""
    return EPOCH + ms * MILLISECOND


def _series(gas: str, every: int | None, times: Whole, values: Whole) -> Series:
    order = np.lexsort((values, times))
    times, values = times[order], values[order]
    last_of_moment = np.append(times[1:] != times[:-1], True)
    times, values = times[last_of_moment], values[last_of_moment]
    steps = np.diff(times)
    gaps = _gaps(steps, every)
    between = np.where(gaps, np.maximum(values[:-1], values[1:]), values[:-1])
    levels = np.append(between, values[-1])
    return Series(gas, every, times, values, levels, _sums(between * steps), _sums(np.where(gaps, steps, 0)), object())


def _sums(parts: Whole) -> Whole:
    """The sum before each part and after the last."""
    return np.concatenate((np.zeros(1, dtype=np.int64), np.cumsum(parts, dtype=np.int64)))


def _gaps(steps: Whole, every: int | None) -> NDArray[np.bool_]:
    return steps * 2 > 3 * every if every is not None else np.ones(len(steps), dtype=np.bool_)


def _thousandths(figures: Sequence[Decimal]) -> Whole:
    """ppm as whole thousandths, rounded up, never below 0."""
    ppm = np.fromiter(map(float, figures), dtype=np.float64, count=len(figures))
    if not bool(np.isfinite(ppm).all()):
        raise Unworkable(sentence("air.unworkable.no_reading", what=say("air.input.measured_any"), value="NaN"))
    scaled = np.clip(ppm, 0, None) * THOUSANDTHS
    if scaled.size and scaled.max() > MOST_PPM * THOUSANDTHS:
        raise Unworkable(sentence("air.unworkable.over_million"))
    near = np.rint(scaled)
    # A figure of up to three decimals is met exactly; the slack is a float's own error at a million ppm.
    return np.where(np.abs(scaled - near) < 1e-4, near, np.ceil(scaled)).astype(np.int64)
