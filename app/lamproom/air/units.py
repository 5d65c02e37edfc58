"""Units: ppm and mg/m³, and how dense a gas or a mixture is against air.

Three molar volumes are in use, and a limit belongs to one of them: 24.45 L/mol (25 °C, United States), 24.05526 L/mol
(20 °C, United Kingdom and European Union), and the gas law at the temperature and pressure of the day.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from lamproom.air.working import Working, above_zero, of, within, worked

AIR_MOLAR_MASS = Decimal("28.964")
"""Dry air, g/mol: US Standard Atmosphere 1976 (28.9644, from memory)."""
UNITED_STATES = Decimal("24.45")
EUROPE = Decimal("24.05526")
GAS_CONSTANT = Decimal("8.31446261815324")
THOUSANDTH = Decimal("0.001")


def ppm_to_mg(ppm: Decimal, molar_mass: Decimal, molar_volume: Decimal = UNITED_STATES) -> Working:
    """mg/m³ of a gas in ppm, to 0.001: ppm x M / molar volume (M in g/mol, volume in L/mol).

    >>> ppm_to_mg(Decimal(1), Decimal("58.1")).result
    Decimal('2.376')
    """
    mg = within("ppm", ppm, 0) * above_zero("molar_mass", molar_mass) / above_zero("molar_volume", molar_volume)
    inputs = (of("ppm", ppm, "ppm"), of("molar_mass", molar_mass, "g/mol"), of("molar_volume", molar_volume, "L/mol"))
    return worked("ppm_to_mg", mg.quantize(THOUSANDTH, ROUND_HALF_UP), "mg/m³", inputs, "NIOSH Pocket Guide, EH40")


def mg_to_ppm(mg: Decimal, molar_mass: Decimal, molar_volume: Decimal = UNITED_STATES) -> Working:
    """ppm of a gas in mg/m³, to 0.001: mg x molar volume / M.

    >>> mg_to_ppm(Decimal(9000), Decimal("44.0095")).result
    Decimal('5000.057')
    """
    ppm = within("mg", mg, 0) * above_zero("molar_volume", molar_volume) / above_zero("molar_mass", molar_mass)
    inputs = (of("mg", mg, "mg/m³"), of("molar_mass", molar_mass, "g/mol"), of("molar_volume", molar_volume, "L/mol"))
    return worked("mg_to_ppm", ppm.quantize(THOUSANDTH, ROUND_HALF_UP), "ppm", inputs, "NIOSH Pocket Guide, EH40")


def molar_volume(celsius: Decimal, pressure_pa: Decimal = Decimal(101_325)) -> Working:
    """Liters that a mole of gas fills at a temperature and pressure, to 0.00001: R T / p. Source: ideal gas law.

    >>> molar_volume(Decimal(20)).result, molar_volume(Decimal(25)).result
    (Decimal('24.05512'), Decimal('24.46540'))
    """
    kelvin = within("temperature", celsius, -100, 500) + Decimal("273.15")
    liters = GAS_CONSTANT * kelvin / above_zero("pressure", pressure_pa) * 1000
    inputs = (of("temperature", celsius, "°C"), of("pressure", pressure_pa, "Pa"))
    return worked("molar_volume", liters.quantize(Decimal("0.00001"), ROUND_HALF_UP), "L/mol", inputs, "ideal gas law")


def vapor_density(molar_mass: Decimal, share_percent: Decimal = Decimal(100)) -> Working:
    """Density against dry air, to 0.0001, of a gas, or of air that holds so many vol% of it: what counts in a space.

    1 + share x (M / 28.964 - 1). A dilute vapor is hardly denser than air, so density never excuses a level from being
    tested. Real gases near their boiling point are up to 6 % denser. Source: ideal gas law.

    >>> vapor_density(Decimal("72.149"), Decimal("0.15")).result
    Decimal('1.0022')
    """
    share = within("share_percent", share_percent, 0, 100) / 100
    density = 1 + share * (above_zero("molar_mass", molar_mass) / AIR_MOLAR_MASS - 1)
    inputs = (of("molar_mass", molar_mass, "g/mol"), of("share_percent", share_percent, "vol%"))
    return worked("vapor_density", density.quantize(Decimal("0.0001"), ROUND_HALF_UP), "", inputs, "ideal gas law")


def saturated_density(
    molar_mass: Decimal, vapor_pressure_pa: Decimal, pressure_pa: Decimal = Decimal(101_325)
) -> Working:
    """Density against dry air, to 0.0001, of air that holds all the vapor it can over its liquid: the share is vapor
    pressure / air pressure, at most all. Source: Dalton's law.

    >>> saturated_density(Decimal("92.138"), Decimal(2910)).result
    Decimal('1.0626')
    """
    share = min(within("vapor_pressure", vapor_pressure_pa, 0) / above_zero("pressure", pressure_pa), Decimal(1))
    density = 1 + share * (above_zero("molar_mass", molar_mass) / AIR_MOLAR_MASS - 1)
    inputs = (
        of("molar_mass", molar_mass, "g/mol"),
        of("vapor_pressure", vapor_pressure_pa, "Pa"),
        of("pressure", pressure_pa, "Pa"),
    )
    return worked("saturated_density", density.quantize(Decimal("0.0001"), ROUND_HALF_UP), "", inputs, "Dalton's law")
