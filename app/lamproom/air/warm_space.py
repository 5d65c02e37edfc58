"""The LEL of a warm space: three published rules, and the one that Lamproom uses, the lowest of them."""

from __future__ import annotations

from decimal import ROUND_FLOOR, Decimal

from lamproom.air.flammable import lel_figure
from lamproom.air.working import Working, above_zero, of, within, worked

MILLIONTH = Decimal("0.000001")
WARMEST = 300


def warm_lel(lel_vol_percent: Decimal, temperature_c: Decimal, heat_kcal_mol: Decimal | None = None) -> Working:
    """The LEL of a warm space in vol%: only ever lowered, never raised, rounded down to 0.001.

    LEL x (1 - (T - 25) / 875) above 25 C: a straight line to zero at 900 C, which lies below the line of Bulletin 627
    (zero near 1400 C, and published as overstating the limit of methane, methanol and formaldehyde). With the heat of
    combustion in kcal/mol the modified Burgess-Wheeler rule is worked out too, and the lowest is taken. Unworkable
    above 300 C. Source: a study of upward flames at 1 atm (900 C); US Bureau of Mines Bulletin 627 (1965), from memory.

    >>> warm_lel(Decimal("5.0"), Decimal("100")).result, warm_lel(Decimal("5.0"), Decimal("-5")).result
    (Decimal('4.571'), Decimal('5.000'))
    """
    lel = lel_figure("lel", lel_vol_percent)
    rules = [Decimal(1), 1 - _above_25(temperature_c) / 875, _bulletin(temperature_c)]
    if heat_kcal_mol is not None:
        rules.append(_burgess(lel, temperature_c, heat_kcal_mol) / lel)
    lowest = max(lel * min(rules), Decimal(0)).quantize(Decimal("0.001"), ROUND_FLOOR)
    heat = () if heat_kcal_mol is None else (of("heat", heat_kcal_mol, "kcal/mol"),)
    inputs = (of("lel", lel, "vol%"), of("temperature", temperature_c, "°C"), *heat)
    return worked("warm_lel", lowest, "vol%", inputs, "upward flame limits, zero near 900 °C; Bulletin 627 (1965)")


def bulletin_factor(temperature_c: Decimal) -> Working:
    """The factor of Bulletin 627 on an LEL, 1 - 0.000721 (T - 25), to six places; above 1 in the cold. For showing:
    it overstates the limit of some fuels. Source: US Bureau of Mines Bulletin 627 (1965), from memory.

    >>> bulletin_factor(Decimal(100)).result
    Decimal('0.945925')
    """
    factor = _bulletin(temperature_c).quantize(MILLIONTH)
    inputs = (of("temperature", temperature_c, "°C"),)
    return worked("bulletin_factor", factor, "", inputs, "US Bureau of Mines Bulletin 627 (1965)", showing=True)


def burgess_wheeler(lel_vol_percent: Decimal, temperature_c: Decimal, heat_kcal_mol: Decimal) -> Working:
    """The LEL in vol% by the modified Burgess-Wheeler rule, LEL - 0.75 / heat x (T - 25), rounded down to 0.001. For
    showing. Source: US Bureau of Mines Bulletin 627 (1965); Crowl and Louvar, from memory.

    >>> burgess_wheeler(Decimal("5.0"), Decimal(100), Decimal("212.79")).result
    Decimal('4.735')
    """
    lel = lel_figure("lel", lel_vol_percent)
    warm = max(_burgess(lel, temperature_c, heat_kcal_mol), Decimal(0)).quantize(Decimal("0.001"), ROUND_FLOOR)
    inputs = (of("lel", lel, "vol%"), of("temperature", temperature_c, "°C"), of("heat", heat_kcal_mol, "kcal/mol"))
    return worked("burgess_wheeler", warm, "vol%", inputs, "US Bureau of Mines Bulletin 627 (1965)", showing=True)


def _above_25(temperature_c: Decimal) -> Decimal:
    return max(within("temperature", temperature_c, -100, WARMEST) - 25, Decimal(0))


def _bulletin(temperature_c: Decimal) -> Decimal:
    return 1 - Decimal("0.000721") * (within("temperature", temperature_c, -100, WARMEST) - 25)


def _burgess(lel: Decimal, temperature_c: Decimal, heat_kcal_mol: Decimal) -> Decimal:
    degrees = within("temperature", temperature_c, -100, WARMEST) - 25
    return lel - Decimal("0.75") / above_zero("heat", heat_kcal_mol) * degrees
