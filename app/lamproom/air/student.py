"""Two quantiles for fits with few readings: of Student's t, and of F with two degrees above."""

from __future__ import annotations

import math


def t_975(free: int) -> float:
    """The 97.5 % quantile of Student's t with ``free`` degrees of freedom (1 or more).

    Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4, halved until it fits.

    >>> [round(t_975(free), 3) for free in (1, 2, 5, 30)]
    [12.706, 4.303, 2.571, 2.042]
    """
    low, high = 0.0, 1000.0
    while high - low > 1e-9:
        middle = (low + high) / 2
        low, high = (middle, high) if _within(middle, free) < 0.95 else (low, middle)
    return high


def worse_by_chance(f: float, free: int) -> float:
    """The chance of an F with 2 and ``free`` degrees of freedom at least so large: (1 + 2 F / free)^(-free / 2).

    >>> round(worse_by_chance(9.552, 3), 3)
    0.05
    """
    return float((1 + 2 * max(f, 0.0) / free) ** (-free / 2))


def _within(t: float, free: int) -> float:
    """The chance that Student's t lies between -t and t."""
    angle = math.atan(t / math.sqrt(free))
    sine, square = math.sin(angle), math.cos(angle) ** 2
    term, total = (math.cos(angle), 0.0) if free % 2 else (1.0, 0.0)
    for k in range(1 if free % 2 else 0, free - 1, 2):
        total += term
        term *= square * (k + 1) / (k + 2)
    if free % 2:
        return 2 / math.pi * (angle + sine * total)
    return sine * total
