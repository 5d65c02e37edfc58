"""Means against limits: the shift of eight hours, like effects together, and where a mean stands against its limit."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from enum import Enum

from lamproom.air.working import Unworkable, Working, above_zero, of, within, worked
from lamproom.words import say, sentence

RULE = "29 CFR 1910.1000(d)(1)"
SHIFT_MINUTES = Decimal(480)
SHORT_MINUTES = Decimal(15)
THOUSANDTH = Decimal("0.001")


class Nearness(Enum):
    """Where an exposure stands against its limit."""

    UNDER = "under"
    APPROACHING = "approaching"
    REACHED = "reached"
    """At the limit or over it: a toxic figure fails at the figure."""
    UNKNOWN = "unknown"


def dose_mean(dose_ppm_min: Decimal, minutes: Decimal) -> Working:
    """The mean of a dose over so many minutes, ppm, rounded half up to 0.001: dose / minutes.

    The minutes are those of the limit (15, or 480 for a shift of any length), not those spent inside.
    Source: 29 CFR 1910.1000(d)(1).

    >>> dose_mean(Decimal(39000), Decimal(480)).result
    Decimal('81.250')
    """
    mean = within("dose", dose_ppm_min, 0) / above_zero("minutes", minutes)
    inputs = (of("dose", dose_ppm_min, "ppm·min"), of("minutes", minutes, "min"))
    return worked("dose_mean", mean.quantize(THOUSANDTH, ROUND_HALF_UP), "ppm", inputs, RULE)


def shift_mean(spans: Iterable[tuple[Decimal, Decimal]]) -> Working:
    """The 8-hour mean of levels that lasted so long: (minutes, level), level in ppm or mg/m3; to 0.001, half up.

    Sum of minutes x level / 480, whatever the hours worked. A break counts with the level it had; 0 only where the
    person was truly out of it. Source: 29 CFR 1910.1000(d)(1)(i).

    >>> shift_mean([(Decimal(120), Decimal(150)), (Decimal(120), Decimal(75)), (Decimal(240), Decimal(50))]).result
    Decimal('81.250')
    """
    given = [(within("minutes", minutes, 0), within("level", level, 0)) for minutes, level in spans]
    if not given:
        raise Unworkable(sentence("air.unworkable.no_readings"))
    dose = sum((minutes * level for minutes, level in given), Decimal(0))
    inputs = tuple(one for m, v in given for one in (of("minutes", m, "min"), of("level", v, "ppm")))
    mean = (dose / SHIFT_MINUTES).quantize(THOUSANDTH, ROUND_HALF_UP)
    return worked("shift_mean", mean, "ppm", inputs, f"{RULE}(i)")


def additive(levels: Mapping[str, tuple[Decimal, Decimal]]) -> Working:
    """How much of their common limit gases of like effect use up together: sum of level / limit, up to 0.001.

    ``levels`` by gas: (level, limit), both in one unit. Above 1 the mixture is over its limit although each gas alone
    is within. A level below 0 counts as 0. Source: 29 CFR 1910.1000(d)(2)(i).

    >>> three = {"B": (Decimal(500), Decimal(1000)), "C": (Decimal(45), Decimal(200)), "D": (Decimal(40), Decimal(200))}
    >>> additive(three).result
    Decimal('0.925')
    """
    if not levels:
        raise Unworkable(sentence("air.unworkable.no_readings"))
    parts = []
    for level, limit in levels.values():
        parts.append(max(_read(level), Decimal(0)) / above_zero("limit", limit))
    inputs = tuple(
        one
        for gas, (level, limit) in levels.items()
        for one in (replace(of("level", level, "ppm"), name=gas, gas=gas), of("limit_of", limit, "ppm", gas=gas))
    )
    return worked(
        "additive", sum(parts, Decimal(0)).quantize(THOUSANDTH, ROUND_CEILING), "", inputs, "29 CFR 1910.1000(d)(2)(i)"
    )


def nearness(mean: Decimal | str, limit: Decimal, approaching: Decimal = Decimal("0.5")) -> Nearness:
    """Where a mean stands against its limit: reached at the figure, approaching from that share of it on.

    A result that is a word (unknown) stays unknown. Half the limit is the action level of several OSHA standards.

    >>> nearness(Decimal("17.5"), Decimal(35)), nearness(Decimal(35), Decimal(35)), nearness("unknown", Decimal(35))
    (<Nearness.APPROACHING: 'approaching'>, <Nearness.REACHED: 'reached'>, <Nearness.UNKNOWN: 'unknown'>)
    """
    above_zero("limit", limit)
    if isinstance(mean, str) or not mean.is_finite():
        return Nearness.UNKNOWN
    if mean >= limit:
        return Nearness.REACHED
    return Nearness.APPROACHING if mean >= limit * approaching else Nearness.UNDER


def rest_of_shift(twa: Decimal, shift_min: Decimal, peak: Decimal, peak_min: Decimal) -> Working:
    """The level that the rest of a shift may have after an excursion, in ppm rounded down to 0.001, never below 0.

    (TWA x shift - peak x minutes) / (shift - minutes). For showing. Source: 29 CFR 1910.1000(b)(2), by arithmetic.

    >>> rest_of_shift(Decimal(10), Decimal(480), Decimal(50), Decimal(10)).result
    Decimal('9.148')
    """
    rest = above_zero("rest_min", shift_min - within("peak_min", peak_min, 0))
    level = (above_zero("limit", twa) * shift_min - within("peak", peak, 0) * peak_min) / rest
    inputs = (
        of("limit", twa, "ppm"),
        of("shift_min", shift_min, "min"),
        of("peak", peak, "ppm"),
        of("peak_min", peak_min, "min"),
    )
    left = max(level, Decimal(0)).quantize(THOUSANDTH, ROUND_FLOOR)
    return worked("rest_of_shift", left, "ppm", inputs, "29 CFR 1910.1000(b)(2)", showing=True)


def _read(level: Decimal) -> Decimal:
    if not level.is_finite():
        raise Unworkable(sentence("air.unworkable.no_reading", what=say("air.input.level"), value=str(level)))
    return level
