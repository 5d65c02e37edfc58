"""A purge from its readings: dC/dt = G - k C, so C(t) = floor + height exp(-k t). Least squares by other people's code.

``scipy.optimize.curve_fit`` finds the three figures; the interval of k is k +- t(0.975, n - 3) times its standard
error, the textbook interval of a nonlinear least-squares fit; the profile interval (all k whose best fit is not worse
than F(0.95, 1, n - 3) allows, Bates and Watts 1988, from memory) is beside it, since for few readings the two differ.
Nothing of the program is imported here.
"""

from __future__ import annotations

import warnings
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import optimize, stats


@dataclass(frozen=True)
class Fitted:
    """k per minute with its two intervals, the floor and the height above it, in the readings' unit."""

    k: float
    linear: tuple[float, float]
    profile: tuple[float, float]
    floor: float
    height: float
    squares: float


def _best_floor_and_height(t: np.ndarray, y: np.ndarray, k: float) -> tuple[float, float, float]:
    """Given k the rest is a straight line in exp(-k t); neither part can be below nothing."""
    shape = np.column_stack((np.ones_like(t), np.exp(-k * t)))
    (floor, height), residual = optimize.nnls(shape, y)
    return float(floor), float(height), float(residual) ** 2


def fit(minutes: Sequence[float], levels: Sequence[float]) -> Fitted:
    """The best k by a search over many, polished; LookupError where no decay is better than a level line."""
    t, y = np.asarray(minutes, dtype=float), np.asarray(levels, dtype=float)
    t = t - t[0]
    span = float(t[-1])
    trial = np.geomspace(0.001 / span, 20 * len(t) / span, 2000)
    squares = np.array([_best_floor_and_height(t, y, k)[2] for k in trial])
    at = int(squares.argmin())
    low, high = trial[max(at - 1, 0)], trial[min(at + 1, len(trial) - 1)]
    k = float(
        optimize.minimize_scalar(
            lambda v: _best_floor_and_height(t, y, v)[2], bounds=(low, high), options={"xatol": 1e-9}
        ).x
    )
    floor, height, least = _best_floor_and_height(t, y, k)
    if height <= 0:
        raise LookupError("it does not fall")
    free = len(t) - 3
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a fit without slack says so by an infinite variance
        found, covariance = optimize.curve_fit(
            lambda x, a, b, c: a + b * np.exp(-c * x), t, y, p0=(floor, height, k), maxfev=20000
        )
    error = float(np.sqrt(covariance[2, 2])) * float(stats.t.ppf(0.975, free))
    worst = least * (1 + float(stats.f.ppf(0.95, 1, free)) / free)
    held = trial[squares <= worst]
    profile = (float(held.min()), float(held.max())) if held.size else (k, k)
    return Fitted(k, (float(found[2]) - error, float(found[2]) + error), profile, floor, height, least)
