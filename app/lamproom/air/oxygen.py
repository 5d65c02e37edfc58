"""Oxygen: what a missing part of it may hide, and its partial pressure at this altitude."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_HALF_UP, Decimal

from lamproom.air.figures import shown
from lamproom.air.humidity import STANDARD_PASCAL
from lamproom.air.working import Input, Unworkable, Working, above_zero, finite, of, within, worked
from lamproom.words import sentence

# Oxygen in dry fresh air, vol%, as instruments are set up: 20.9 (20.95 rounded down). Common practice.
FRESH_AIR = Decimal("20.9")
TOLERANCE = Decimal("0.1")
MILLION = Decimal(1_000_000)
PASCAL_PER_MMHG = Decimal("133.322387415")


def unaccounted(
    oxygen: Decimal,
    base: Decimal,
    measured: Mapping[str, Decimal],
    tolerance: Decimal = TOLERANCE,
    water: Decimal | None = None,
) -> Working:
    """How many ppm of something else a low oxygen reading may hide, whole ppm, never below 0.

    (base - oxygen - tolerance) / 20.9 x 1e6 - sum of ``measured`` - ``water``. ``oxygen`` and ``base`` (the fresh air
    reading taken upwind at this space) and ``tolerance`` in vol%; ``measured`` by gas in ppm; ``water`` the water
    vapor in ppm that the space holds above the fresh air, None when nobody measured it (nothing is taken off then);
    below 0 it is added, for in drier air the same reading hides more. Gases below 0 count as 0, so that a drifting
    sensor never hides more.

    Validity: the share of air displaced, x = 1 - O2/20.9, holds for a gas that pushes air out; oxygen used up by rust
    or rot gives the same figure without a contaminant, hence "up to". Unworkable for figures that are no readings.
    Source: definition, rounded half up to whole ppm; each 0.1 vol% of oxygen stands for about 4,800 ppm.

    >>> unaccounted(Decimal("20.6"), Decimal("20.9"), {}).result
    Decimal('9569')
    >>> unaccounted(Decimal("20.5"), Decimal("20.9"), {"carbon dioxide": Decimal("5000")}).result
    Decimal('9354')
    """
    for key, figure in (("oxygen", oxygen), ("base", base), ("tolerance", tolerance)):
        finite(key, figure)
    for ppm in (*measured.values(), *(() if water is None else (water,))):
        finite("measured_any", ppm)
    if tolerance < 0:
        raise Unworkable(sentence("air.unworkable.hides_gas", tolerance=shown(tolerance)))
    displaced = (base - oxygen - tolerance) / FRESH_AIR * MILLION
    seen = sum((max(ppm, Decimal(0)) for ppm in measured.values()), water or Decimal(0))
    ppm = max(displaced - seen, Decimal(0)).quantize(Decimal(1), ROUND_HALF_UP)
    return worked("unaccounted", ppm, "ppm", _inputs(oxygen, base, measured, tolerance, water), "definition")


def standard_pressure(altitude_m: Decimal) -> Working:
    """Air pressure in Pa at a geometric altitude in m, by the US Standard Atmosphere 1976, to 0.1 Pa.

    Valid from 0 to 11,000 m (Unworkable outside). Weather moves the true pressure by some 3 % either way.
    Source: US Standard Atmosphere 1976, NOAA-S/T 76-1562 (constants from memory; checked against published values).

    >>> standard_pressure(Decimal("1500")).result
    Decimal('84559.7')
    """
    within("altitude", altitude_m, 0, 11_000)
    radius = Decimal(6_356_766)
    height = radius * altitude_m / (radius + altitude_m)
    ratio = 1 - Decimal("0.0065") * height / Decimal("288.15")
    pascal = STANDARD_PASCAL * ratio ** Decimal("5.255879")
    result = pascal.quantize(Decimal("0.1"), ROUND_HALF_UP)
    return worked("air_pressure", result, "Pa", (of("altitude", altitude_m, "m"),), "US Standard Atmosphere 1976")


def partial_pressure(oxygen: Decimal, pressure_pa: Decimal, base: Decimal = FRESH_AIR) -> Working:
    """Partial pressure of oxygen in mmHg, whole, with this place's own fresh air beside it.

    oxygen / 100 x pressure. ``oxygen`` and ``base`` in vol%, ``pressure_pa`` in Pa. It is a caution, never an obstacle
    and never a reason to allow: 29 CFR 1910.146 judges oxygen in volume percent at every altitude. (OSHA's letter of
    2007-04-02 declines partial pressure in place of 19.5 %.)

    >>> partial_pressure(Decimal("19.5"), Decimal("101325")).result
    Decimal('148')
    """
    finite("oxygen", oxygen)
    finite("base", base)
    above_zero("pressure", pressure_pa)
    return worked(
        "partial_pressure",
        _mmhg(oxygen, pressure_pa),
        "mmHg",
        (of("oxygen", oxygen, "vol%"), of("pressure", pressure_pa, "Pa"), of("base", base, "vol%")),
        "Dalton's law",
        fresh=shown(_mmhg(base, pressure_pa)),
    )


def _mmhg(oxygen: Decimal, pressure_pa: Decimal) -> Decimal:
    return (oxygen / 100 * pressure_pa / PASCAL_PER_MMHG).quantize(Decimal(1), ROUND_HALF_UP)


def _inputs(
    oxygen: Decimal, base: Decimal, measured: Mapping[str, Decimal], tolerance: Decimal, water: Decimal | None
) -> tuple[Input, ...]:
    return (
        of("oxygen", oxygen, "vol%"),
        of("base", base, "vol%"),
        of("tolerance", tolerance, "vol%"),
        *(Input(gas, shown(ppm), "ppm", key="measured", gas=gas) for gas, ppm in measured.items()),
        of("water", water, "ppm"),
    )
