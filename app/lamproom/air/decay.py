"""The fit of a purge: from timed readings at one point, how fast the air is really changed, and how sure that is.

The model is a level that falls toward what a constant source keeps up: steady + (first - steady) e^(-rate t). Readings
too soon after the air changed are left out, because a slow sensor shows them too high or too low; after that its lag
leaves the rate as it is. The interval is the set of rates whose best curve is not worse than the best of all by more
than scatter explains (95 %). Floats are used here, for the curves alone. Never used to allow: only a reading allows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from lamproom.air.figures import shown
from lamproom.air.student import t_975, worse_by_chance
from lamproom.air.working import Input, Unworkable, Working, above_zero, of, within, worked
from lamproom.words import Sentence, say, sentence

Floats = NDArray[np.float64]
FEWEST = 5
RATES = 600
CLOSER = 3
MOST_SPANS = 100
SOURCE = "least squares, profile likelihood"


class Going(Enum):
    """What the readings at one point say."""

    FALLING = "falling"
    NOT_FALLING = "not falling"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True)
class Timed:
    """A reading at the point: ``minutes`` since the air changed (the fan was started), ``level`` in any one unit."""

    minutes: Decimal
    level: Decimal


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """A point of the fitted curve: ``low`` to ``high`` is what the curves that fit as well go through."""

    minutes: float
    level: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Decay:
    """What was fitted. ``why`` says the state in words; the workings are None unless the level is falling.

    ``rate`` is the decay constant in 1/min; ``changes`` the effective air changes an hour; ``mixing`` the mixing factor
    K = flow / (volume x rate), None without both; ``steady`` the level it is falling toward.
    """

    going: Going
    why: Sentence
    used: int
    rate: Working | None = None
    changes: Working | None = None
    mixing: Working | None = None
    steady: Working | None = None
    _fit: _Fit | None = field(default=None, repr=False, compare=False)

    def curve(self, minutes: Sequence[Decimal]) -> tuple[CurvePoint, ...]:
        """The fitted curve at these minutes, for drawing; empty unless the level is falling."""
        return () if self._fit is None else self._fit.curve(np.array([float(m) for m in minutes]))


@dataclass(frozen=True, slots=True, eq=False)
class _Fit:
    """All curves that were tried, one for each rate, and how much worse each may be."""

    t: Floats
    y: Floats
    rates: Floats
    steady: Floats
    first: Floats
    misses: Floats
    allowed: float

    def curve(self, minutes: Floats) -> tuple[CurvePoint, ...]:
        fits = self.misses <= self.allowed
        levels = self.steady[:, None] + self.first[:, None] * np.exp(-np.outer(self.rates, minutes - self.t[0]))
        best, low, high = levels[np.argmin(self.misses)], levels[fits].min(axis=0), levels[fits].max(axis=0)
        rows = zip(minutes, best, low, high, strict=True)
        return tuple(CurvePoint(float(m), float(b), float(lo), float(hi)) for m, b, lo, hi in rows)


def decay(
    readings: Sequence[Timed],
    resolution: Decimal,
    response_t90_s: Decimal = Decimal(0),
    volume_m3: Decimal | None = None,
    flow_m3_min: Decimal | None = None,
) -> Decay:
    """The decay at one point from five or more timed readings; fewer: cannot tell.

    ``resolution`` is the instrument's step in the readings' unit, ``response_t90_s`` the sensor's response time:
    readings sooner than twice that after the air changed are left out. For oxygen give what is missing of fresh air.
    Source: nonlinear least squares with the profile of the rate; quantiles of Student's t and of F.

    >>> levels = ["100", "82", "67", "55", "45", "37", "30"]
    >>> readings = [Timed(Decimal(2 * i), Decimal(v)) for i, v in enumerate(levels)]
    >>> decay(readings, Decimal(1)).going.value
    'falling'
    """
    step, response = above_zero("resolution", resolution), within("response", response_t90_s, 0)
    late = kept(readings, response)
    if len(late) < FEWEST:
        why = sentence("air.decay.too_few", used=len(late), fewest=FEWEST)
        return Decay(Going.CANNOT_TELL, why, len(late))
    fit = _fitted(late, float(step))
    if fit is None:
        return Decay(Going.NOT_FALLING, sentence("air.decay.not_falling", used=len(late)), len(late))
    best = int(np.argmin(fit.misses))
    low, high = _interval(fit)
    given = given_to(late, resolution, response_t90_s)
    rate = worked("decay_rate", figure_of(fit.rates[best]), "1/min", given, SOURCE, low=figure_of(low), high=_end(high))
    changes = worked(
        "effective_changes",
        figure_of(fit.rates[best] * 60),
        "1/h",
        given,
        SOURCE,
        low=figure_of(low * 60),
        high=_end(high * 60),
    )
    mixing = None
    if volume_m3 is not None and flow_m3_min is not None:
        turns = float(above_zero("fan_flow", flow_m3_min) / above_zero("volume_of_space", volume_m3))
        more = (of("volume_of_space", volume_m3, "m³"), of("fan_flow", flow_m3_min, "m³/min"))
        mixing = worked(
            "fitted_mixing",
            figure_of(turns / fit.rates[best]),
            "",
            (*given, *more),
            SOURCE,
            low=figure_of(turns / high),
            high=_end(turns / low if low > 0 else math.inf),
        )
    steady = worked("fitted_steady", figure_of(fit.steady[best]), "", given, SOURCE)
    why = sentence("air.decay.falling", used=len(late), changes=shown(Decimal(changes.result)))
    return Decay(Going.FALLING, why, len(late), rate, changes, mixing, steady, fit)


def time_to(found: Decay, target: Decimal) -> Working:
    """Minutes, counted as the readings were, at which the falling level will meet a target, with its interval.

    The word for 'cannot tell' when there is no fall, and for never when the source keeps it above the target; ``high``
    is None when it may be never. It says when to read again; it allows nothing.
    """
    within("target", target, 0)
    fit = found._fit
    inputs = (*(found.rate.inputs if found.rate is not None else ()), of("target", target))
    if fit is None:
        return worked("time_to", say("air.result.cannot_tell"), "min", inputs, SOURCE)
    best = _met(fit, float(target), int(np.argmin(fit.misses)))
    result = figure_of(best) if math.isfinite(best) else say("air.result.never")
    low, high = _times_meeting(fit, float(target))
    return worked("time_to", result, "min", inputs, SOURCE, low=_end(low), high=_end(high))


def _met(fit: _Fit, limit: float, i: int) -> float:
    """When the curve of one rate meets the limit, infinity for never; not before the first reading."""
    over = limit - float(fit.steady[i])
    if over <= 0:
        return math.inf
    return float(fit.t[0]) + max(math.log(max(float(fit.first[i]) / over, 1.0)), 0.0) / float(fit.rates[i])


def _times_meeting(fit: _Fit, limit: float) -> tuple[float, float]:
    """The first and last time at which a falling curve that fits may meet the limit; infinity for never."""
    fits = np.flatnonzero(fit.misses <= fit.allowed)
    around = [_met(fit, limit, int(i)) for i in fits]
    finite = [time for time in around if math.isfinite(time)]
    span = float(fit.t[-1] - fit.t[0])
    last = float(fit.t[0]) + MOST_SPANS * span
    if not finite:
        return math.inf, math.inf
    low, high = min(finite), min(max(around), last)
    rates = np.geomspace(fit.rates[fits[0]] * 0.97, fit.rates[fits[-1]] * 1.03, 240)
    while True:
        wide = max(high - low, span / 500)
        grid = np.linspace(max(low - wide, fit.t[0]), min(high + wide, last), 300)
        met = np.flatnonzero(_misses_meeting(fit, limit, grid, rates) <= fit.allowed)
        if not len(met):
            return low, high
        open_low, open_high = met[0] == 0 and grid[0] > fit.t[0], met[-1] == len(grid) - 1 and grid[-1] < last
        if not open_low and not open_high:
            return float(grid[met[0]]), math.inf if grid[met[-1]] >= last else float(grid[met[-1]])
        low, high = float(grid[0]) if open_low else low, float(grid[-1]) if open_high else high


def kept(readings: Sequence[Timed], response: Decimal) -> list[Timed]:
    """The readings late enough for the sensor, oldest first."""
    for one in readings:
        within("minutes", one.minutes, 0)
        if not one.level.is_finite():
            raise Unworkable(sentence("air.unworkable.no_reading", what=say("air.input.level"), value=str(one.level)))
    late = [one for one in readings if one.minutes * 60 >= 2 * response]
    return sorted(late, key=lambda one: one.minutes)


def _fitted(late: Sequence[Timed], step: float) -> _Fit | None:
    """The best curve for each rate; None when no falling curve is better than a level line by more than chance."""
    t, y = np.array([float(one.minutes) for one in late]), np.array([float(one.level) for one in late])
    span = t[-1] - t[0]
    if span <= 0:
        return None
    rates = np.geomspace(0.01 / span, 20 * len(t) / span, RATES)
    for _ in range(CLOSER):  # precise readings tell rates apart that lie closer than those first tried
        best = int(np.argmin(_misses(rates, t, y)[2]))
        around = rates[max(best - 2, 0)], rates[min(best + 2, len(rates) - 1)]
        rates = np.unique(np.concatenate((rates, np.geomspace(*around, RATES // 10))))
    steady, first, misses = _misses(rates, t, y)
    best, free = int(np.argmin(misses)), len(t) - 3
    scatter = max(float(misses[best]) / free, step * step / 6)
    flat = float(((y - y.mean()) ** 2).sum())
    if first[best] <= 0 or worse_by_chance((flat - float(misses[best])) / 2 / scatter, free) > 0.05:
        return None
    return _Fit(t, y, rates, steady, first, misses, float(misses[best]) + scatter * t_975(free) ** 2)


def _misses(rates: Floats, t: Floats, y: Floats) -> tuple[Floats, Floats, Floats]:
    """For each rate its best curve (steady level, first height) and by how much that misses the readings, squared."""
    shape = np.exp(-np.outer(rates, t - t[0]))
    steady, first = _lines(shape, y)
    return steady, first, np.asarray(((y - steady[:, None] - first[:, None] * shape) ** 2).sum(axis=1))


def _lines(shape: Floats, y: Floats) -> tuple[Floats, Floats]:
    """The best steady level and first height for each shape; no steady level lies under nought."""
    middle = shape.mean(axis=1, keepdims=True)
    spread = np.maximum(((shape - middle) ** 2).sum(axis=1), 1e-300)
    first = ((shape - middle) * (y - y.mean())).sum(axis=1) / spread
    steady = y.mean() - first * middle[:, 0]
    from_nought = (shape * y).sum(axis=1) / (shape * shape).sum(axis=1)
    below = steady < 0
    return np.where(below, 0.0, steady), np.where(below, from_nought, first)


def _interval(fit: _Fit) -> tuple[float, float]:
    """The lowest and highest rate that fit, between the tried ones; 0 and infinity where none was too low or high."""
    fits = np.flatnonzero(fit.misses <= fit.allowed)
    a, b = int(fits[0]), int(fits[-1])
    low = 0.0 if a == 0 else _crossing(fit, a - 1, a)
    high = math.inf if b == len(fit.rates) - 1 else _crossing(fit, b, b + 1)
    return low, high


def _crossing(fit: _Fit, i: int, j: int) -> float:
    share = (fit.allowed - fit.misses[i]) / (fit.misses[j] - fit.misses[i])
    return float(np.exp(np.log(fit.rates[i]) + share * (np.log(fit.rates[j]) - np.log(fit.rates[i]))))


def _misses_meeting(fit: _Fit, limit: float, times: Floats, rates: Floats) -> Floats:
    """For each time the least misses of the falling curves that meet the limit just then."""
    shape = np.exp(-np.outer(rates, fit.t - fit.t[0]))
    met = np.exp(-np.outer(times - fit.t[0], rates))
    y = fit.y - limit
    # level = limit + first x (shape - met): for each pair of time and rate only the height is free.
    sums, n = shape.sum(axis=1), len(y)
    across = shape @ y - met * y.sum()
    square = np.maximum((shape * shape).sum(axis=1) - 2 * met * sums + n * met * met, 1e-300)
    first = np.clip(across / square, 0, limit / np.maximum(met, 1e-300))
    misses = (y * y).sum() - 2 * first * across + first * first * square
    return np.asarray(misses.min(axis=1))


def given_to(late: Sequence[Timed], resolution: Decimal, response: Decimal) -> tuple[Input, ...]:
    timed = tuple(one for r in late for one in (of("minutes", r.minutes, "min"), of("level", r.level)))
    return (*timed, of("resolution", resolution), of("response", response, "s"))


def figure_of(value: float) -> Decimal:
    """Four figures, as a decimal."""
    return Decimal(f"{value:.4g}")


def _end(value: float) -> Decimal | None:
    return figure_of(value) if math.isfinite(value) else None
