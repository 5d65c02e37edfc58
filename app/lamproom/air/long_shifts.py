"""Limits for shifts longer than the eight hours or forty that a limit was made for: only ever lower."""

from __future__ import annotations

from decimal import ROUND_FLOOR, Decimal

from lamproom.air.working import Unworkable, Working, above_zero, of, within, worked
from lamproom.words import sentence

BRIEF_AND_SCALA = "Brief and Scala (1975)"
THOUSANDTH = Decimal("0.001")


def daily_limit(limit: Decimal, hours: Decimal, kind: str = "TWA") -> Working:
    """A shift limit for a longer day, in its own unit, rounded down to 0.001: x (8 / h) x (24 - h) / 16, never above 1.

    Only for ``kind`` 'TWA': a ceiling, peak or 15-minute limit is Unworkable, for it stays what it is.
    Source: Brief and Scala (1975), as explained by a hygienist; factor 1.0 at 8 h, 0.5 at 12 h.

    >>> daily_limit(Decimal(50), Decimal(12)).result, daily_limit(Decimal(50), Decimal(6)).result
    (Decimal('25.000'), Decimal('50.000'))
    """
    h = within("hours_a_day", above_zero("hours_a_day", hours), 0, 24)
    return _reduced("daily_limit", limit, (8 * (24 - h), 16 * h), kind, "hours_a_day", h)


def weekly_limit(limit: Decimal, hours: Decimal, kind: str = "TWA") -> Working:
    """A shift limit for a longer week, the same way: x (40 / h) x (168 - h) / 128, never above 1.

    Source: Brief and Scala (1975), from memory; factor 1 at 40 h, 0.78125 at 48 h, 0.3125 at 84 h.

    >>> weekly_limit(Decimal(100), Decimal(84)).result
    Decimal('31.250')
    """
    h = within("hours_a_week", above_zero("hours_a_week", hours), 0, 168)
    return _reduced("weekly_limit", limit, (40 * (168 - h), 128 * h), kind, "hours_a_week", h)


def lead_limit(hours: Decimal) -> Working:
    """OSHA's own milder rule, for lead alone, in ug/m3, rounded down to 0.001: 400 / hours worked over 8. For showing.

    Source: 29 CFR 1910.1025(c)(2). Brief and Scala would give 35 for 10 h, where this gives 40.

    >>> lead_limit(Decimal(10)).result
    Decimal('40.000')
    """
    h = within("hours_a_day", above_zero("hours_a_day", hours), 0, 24)
    limit = min(400 / h, Decimal(50)).quantize(THOUSANDTH, ROUND_FLOOR)
    return worked("lead_limit", limit, "µg/m³", (of("hours_a_day", h, "h"),), "29 CFR 1910.1025(c)(2)", showing=True)


def _reduced(
    key: str, limit: Decimal, factor: tuple[Decimal, Decimal], kind: str, hours_key: str, hours: Decimal
) -> Working:
    """``factor`` as what to multiply with and what to divide by: multiplied first, so that a round figure stays one."""
    if kind != "TWA":
        raise Unworkable(sentence("air.unworkable.not_twa", kind=kind))
    times, by = factor
    lower = min(above_zero("limit", limit) * times / by, limit).quantize(THOUSANDTH, ROUND_FLOOR)
    return worked(key, lower, "ppm", (of("limit", limit, "ppm"), of(hours_key, hours, "h")), BRIEF_AND_SCALA)
