"""How much of its limit a reading takes up."""

from __future__ import annotations

from decimal import ROUND_CEILING, Decimal

from lamproom.air.working import Working, above_zero, finite, of, within, worked


def share_of_limit(level: Decimal, limit: Decimal) -> Working:
    """A level in percent of its limit, whole, rounded up so that a reading never looks further from it than it is.

    Both in one unit. Source: arithmetic.

    >>> share_of_limit(Decimal("9.9"), Decimal("10")).result
    Decimal('99')
    """
    share = max(finite("level", level), Decimal(0)) / above_zero("limit", limit) * 100
    inputs = (of("level", level), of("limit", limit))
    return worked("share_of_limit", share.quantize(Decimal(1), ROUND_CEILING), "%", inputs, "arithmetic")


def round_volume(across_m: Decimal, depth_m: Decimal) -> Working:
    """The volume of a space that is round all the way down, m³, to 0.1: pi / 4 x across² x depth. Source: geometry.

    >>> round_volume(Decimal("2.4"), Decimal("5.1")).result
    Decimal('23.1')
    """
    across, depth = above_zero("across", across_m), above_zero("depth", within("depth", depth_m, 0, 200))
    cubic = Decimal("0.78539816339744830962") * across * across * depth
    inputs = (of("across", across_m, "m"), of("depth", depth_m, "m"))
    return worked("round_volume", cubic.quantize(Decimal("0.1"), ROUND_CEILING), "m³", inputs, "geometry")
