"""Limiting oxygen: how little of it still lets a fuel burn. For showing and planning, never for permitting."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_FLOOR, Decimal
from types import MappingProxyType

from lamproom.air.flammable import lel_figure
from lamproom.air.working import Unworkable, Working, above_zero, of, within, worked
from lamproom.words import sentence

HUNDREDTH = Decimal("0.01")
ASTM = "ASTM E2079-19, 5.4"

# Fuel -> vol% oxygen with nitrogen as the inert gas: 120-L vessel and 20-L vessel, None where none is printed.
MEASURED: Mapping[str, tuple[Decimal, Decimal | None]] = MappingProxyType(
    {
        "hydrogen": (Decimal("4.6"), Decimal("4.7")),
        "carbon monoxide": (Decimal("5.1"), None),
        "methane": (Decimal("11.1"), Decimal("10.7")),
        "ethylene": (Decimal("8.5"), Decimal("8.6")),
        "propane": (Decimal("10.7"), Decimal("10.5")),
    }
)


def limiting_oxygen(fuel: str) -> Working:
    """The measured limiting oxygen of a fuel in nitrogen, vol%: the lower of the printed figures.

    Unworkable for a fuel without a figure. Source: ASTM E2079-19, 5.4.

    >>> limiting_oxygen("methane").result
    Decimal('10.7')
    """
    if fuel not in MEASURED:
        raise Unworkable(sentence("air.unworkable.no_loc", fuel=fuel, known=", ".join(MEASURED)))
    large, small = MEASURED[fuel]
    lowest = large if small is None else min(large, small)
    return worked("limiting_oxygen", lowest, "vol%", (of("fuel", fuel),), ASTM, showing=True)


def old_tube_oxygen(printed: Decimal) -> Working:
    """An old figure from a narrow tube, made stricter: less 2 vol% from 10 up, else x 0.85; rounded down to 0.01.

    Source: NFPA 69 amendment (some prints subtract 1.5): tube figures lie about 1.5 vol% high, on the unsafe side.

    >>> old_tube_oxygen(Decimal(12)).result, old_tube_oxygen(Decimal(5)).result
    (Decimal('10.00'), Decimal('4.25'))
    """
    oxygen = within("tube_oxygen", above_zero("tube_oxygen", printed), 0, 21)
    lower = oxygen - 2 if oxygen >= 10 else oxygen * Decimal("0.85")
    inputs = (of("tube_oxygen", printed, "vol%"),)
    return worked("old_tube_oxygen", lower.quantize(HUNDREDTH, ROUND_FLOOR), "vol%", inputs, "NFPA 69", showing=True)


def estimated_oxygen(lel_vol_percent: Decimal, oxygen_per_fuel: Decimal) -> Working:
    """A guess at the limiting oxygen, vol%: LEL x moles of oxygen that burn one mole of fuel; rounded down to 0.01.

    Source: Crowl and Louvar, Chemical Process Safety, from memory. Measured figures lie on both sides of it.

    >>> estimated_oxygen(Decimal("1.9"), Decimal("6.5")).result
    Decimal('12.35')
    """
    lel, moles = lel_figure("lel", lel_vol_percent), above_zero("oxygen_per_fuel", oxygen_per_fuel)
    inputs = (of("lel", lel, "vol%"), of("oxygen_per_fuel", moles, "mol/mol"))
    estimate = (lel * moles).quantize(HUNDREDTH, ROUND_FLOOR)
    return worked("estimated_oxygen", estimate, "vol%", inputs, "Crowl and Louvar", showing=True)
