"""Rebound: how strong the source is, from the rise of the level after the fan was stopped."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum

import numpy as np

from lamproom.air.decay import FEWEST, Timed, figure_of, given_to, kept
from lamproom.air.figures import shown
from lamproom.air.student import t_975
from lamproom.air.working import Working, above_zero, of, within, worked
from lamproom.words import Sentence, sentence

MILLION = 1_000_000


class Rising(Enum):
    """What the readings after the fan stopped say."""

    RISING = "rising"
    NO_RISE = "no rise"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True)
class Rebound:
    """The rise and the source behind it; ``source`` in m³/min, None unless the level is rising."""

    going: Rising
    why: Sentence
    used: int
    source: Working | None = None


def rebound(
    readings: Sequence[Timed], volume_m3: Decimal, resolution: Decimal, response_t90_s: Decimal = Decimal(0)
) -> Rebound:
    """The source from five or more readings in ppm with the fan stopped, ``minutes`` since it stopped.

    volume x slope / 1e6, the slope of the least-squares line, with its 95 % interval (Student's t). Readings sooner
    than twice the response time are left out. A space that leaks rises less: it is at least this much.

    >>> readings = [Timed(Decimal(i), Decimal(10 + 4 * i)) for i in range(6)]
    >>> rebound(readings, Decimal(50), Decimal(1)).source.result
    Decimal('0.0002')
    """
    step, volume = above_zero("resolution", resolution), above_zero("volume_of_space", volume_m3)
    late = kept(readings, within("response", response_t90_s, 0))
    t, y = np.array([float(one.minutes) for one in late]), np.array([float(one.level) for one in late])
    if len(late) < FEWEST or t[-1] <= t[0]:
        return Rebound(Rising.CANNOT_TELL, sentence("air.rebound.too_few", used=len(late), fewest=FEWEST), len(late))
    away = t - t.mean()
    slope = float(away @ y / (away @ away))
    misses = float(((y - y.mean() - slope * away) ** 2).sum())
    free = len(t) - 2
    scatter = max(misses / free, float(step) ** 2 / 6)
    half = t_975(free) * math.sqrt(scatter / float(away @ away))
    if slope - half <= 0:
        return Rebound(Rising.NO_RISE, sentence("air.rebound.no_rise", used=len(late)), len(late))
    cubic = float(volume) / MILLION
    source = worked(
        "rebound",
        figure_of(slope * cubic),
        "m³/min",
        (*given_to(late, resolution, response_t90_s), of("volume_of_space", volume_m3, "m³")),
        "least squares, Student's t",
        low=figure_of((slope - half) * cubic),
        high=figure_of((slope + half) * cubic),
    )
    why = sentence("air.rebound.rising", used=len(late), source=shown(Decimal(source.result)))
    return Rebound(Rising.RISING, why, len(late), source)
