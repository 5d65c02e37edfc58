"""A purge as it happens: air, sensor, display. It knows nothing of the fit; all is done by small steps in time."""

import math
from dataclasses import dataclass
from decimal import Decimal

import numpy as np

STEP_MIN = 0.02


@dataclass(frozen=True)
class Purge:
    """One purge with all that is true of it, and what the display showed: (minutes, level)."""

    rate: float
    steady: float
    first: float
    t90_s: float
    step: float
    shown: list[tuple[Decimal, Decimal]]
    minutes: np.ndarray
    sensed: np.ndarray

    def met(self, level: float) -> float:
        """When the sensor, without scatter, first shows no more than the level; infinity if never in the time."""
        below = np.flatnonzero(self.sensed <= level)
        return float(self.minutes[below[0]]) if len(below) else math.inf


def purge(
    seed: int,
    number: tuple[int, int] = (6, 20),
    noise: tuple[float, float] = (0.002, 0.03),
    t90_s: tuple[float, ...] = (0, 15, 30, 60),
    steady: tuple[float, float] = (0, 0.3),
    step: float = 1.0,
    spans: tuple[float, float] = (1.5, 4),
) -> Purge:
    """A random purge: a space mixed at once, a constant source, a sensor of first order, normal scatter, a display."""
    rng = np.random.default_rng(seed)
    count, rate, first = int(rng.integers(number[0], number[1] + 1)), rng.uniform(0.04, 0.25), rng.uniform(100, 400)
    keeps = rng.uniform(*steady) * first if rng.random() < 0.8 else 0.0
    response = float(rng.choice(t90_s))
    whole = rng.uniform(*spans) / rate
    minutes = np.arange(0, 1.5 * whole, STEP_MIN)
    air = np.empty_like(minutes)
    sensed = np.empty_like(minutes)
    level = shown = first
    inflow = keeps * rate
    lag = response / 60 / math.log(10)
    for i in range(len(minutes)):
        air[i], sensed[i] = level, shown if lag else level
        middle = level + (inflow - rate * level) * STEP_MIN / 2
        if lag:
            shown += (middle - shown) * -math.expm1(-STEP_MIN / lag)
        level += (inflow - rate * middle) * STEP_MIN
    at = np.round(np.linspace(whole / count, whole, count), 2)
    scatter = rng.normal(0, rng.uniform(*noise) * first, count)
    display = np.maximum(np.round((np.interp(at, minutes, sensed) + scatter) / step) * step, 0)
    pairs = [(Decimal(f"{t:.2f}"), Decimal(f"{v:.2f}")) for t, v in zip(at, display, strict=True)]
    return Purge(rate, keeps, first, response, step, pairs, minutes, sensed)
