"""Ventilation: how long a purge takes, how far a source fills a space, and the flow that keeps it down.

One mixing factor K, in one direction: K is 1 for air that mixes at once and more for air that does not, and the
effective flow is flow / K. Texts that name an efficiency of 1 or less mean 1 / K (see ``mixing_factor``). Volumes and
flows are in any one unit of volume. Never used to allow an entry: only a measured reading allows.
"""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal

from lamproom.air.working import Input, Working, above_zero, of, within, worked
from lamproom.words import say

MIXING = "complete mixing with an effective flow"
GAS_CONSTANT = Decimal("8.31446261815324")
MILLION = Decimal(1_000_000)
ONE = Decimal(1)
ZERO = Decimal(0)


def mixing_factor(efficiency: Decimal) -> Working:
    """The mixing factor K of a text's mixing efficiency: 1 / efficiency, to 0.01, rounded up.

    >>> mixing_factor(Decimal("0.2")).result
    Decimal('5.00')
    """
    share = within("efficiency", above_zero("efficiency", efficiency), 0, 1)
    factor = (1 / share).quantize(Decimal("0.01"), ROUND_CEILING)
    return worked("mixing_factor", factor, "", (of("efficiency", efficiency),), "definition")


def air_changes(flow_m3_min: Decimal, volume_m3: Decimal) -> Working:
    """Air changes an hour of a fan's flow, to 0.01, rounded down: flow x 60 / volume.

    >>> air_changes(Decimal(25), Decimal(50)).result
    Decimal('30.00')
    """
    changes = above_zero("fan_flow", flow_m3_min) * 60 / above_zero("volume_of_space", volume_m3)
    inputs = (of("fan_flow", flow_m3_min, "m³/min"), of("volume_of_space", volume_m3, "m³"))
    return worked("air_changes", changes.quantize(Decimal("0.01"), ROUND_FLOOR), "1/h", inputs, "definition")


def purge_changes(start: Decimal, target: Decimal, mixing: Decimal = ONE, supply: Decimal = ZERO) -> Working:
    """How many air changes bring a level down to a target, to 0.001, rounded up; 0 when it is there, the word for
    never when the supply is no cleaner than the target.

    K x ln((start - supply) / (target - supply)); the three levels in one unit. No source inside.
    Source: US Bureau of Reclamation, Design Guide for HVAC Systems (2006), with 1 / K as its K.

    >>> purge_changes(Decimal(20), Decimal("1.4"), Decimal(5)).result
    Decimal('13.297')
    """
    changes = _purge(start, target, mixing, supply)
    result = changes if isinstance(changes, str) else changes.quantize(Decimal("0.001"), ROUND_CEILING)
    inputs = _levels(start, target, mixing, supply)
    return worked("purge_changes", result, "", inputs, "Design Guide for HVAC Systems, US Bureau of Reclamation (2006)")


def purge_time(
    volume_m3: Decimal,
    flow_m3_min: Decimal,
    start: Decimal,
    target: Decimal,
    mixing: Decimal = ONE,
    supply: Decimal = ZERO,
) -> Working:
    """Minutes until a level is down to a target, to 0.1, rounded up: K x volume / flow x ln(...), see above.

    Source: ACGIH, Industrial Ventilation, chapter 2, from memory.

    >>> purge_time(Decimal(100000), Decimal(6000), Decimal(100), Decimal(25), Decimal(3)).result
    Decimal('69.4')
    """
    changes = _purge(start, target, mixing, supply)
    turn = above_zero("volume_of_space", volume_m3) / above_zero("fan_flow", flow_m3_min)
    result = changes if isinstance(changes, str) else (changes * turn).quantize(Decimal("0.1"), ROUND_CEILING)
    inputs = (*_space(volume_m3, flow_m3_min), *_levels(start, target, mixing, supply))
    return worked("purge_time", result, "min", inputs, MIXING)


def steady_state(
    source_m3_min: Decimal, flow_m3_min: Decimal, mixing: Decimal = ONE, supply_ppm: Decimal = ZERO
) -> Working:
    """The level in ppm that a steady source keeps up, whole, rounded up: supply + source x K / flow x 1e6, at most all.

    >>> steady_state(Decimal("0.0997"), Decimal(1425), Decimal(5)).result
    Decimal('350')
    """
    effective = _effective(flow_m3_min, mixing)
    level = within("supply", supply_ppm, 0) + within("source", source_m3_min, 0) / effective * MILLION
    inputs = (
        of("source", source_m3_min, "m³/min"),
        of("fan_flow", flow_m3_min, "m³/min"),
        of("mixing", mixing),
        of("supply", supply_ppm, "ppm"),
    )
    return worked("steady_state", min(level, MILLION).quantize(ONE, ROUND_CEILING), "ppm", inputs, MIXING)


def flow_needed(
    source_m3_min: Decimal, limit_ppm: Decimal, mixing: Decimal = ONE, supply_ppm: Decimal = ZERO
) -> Working:
    """The flow that keeps a steady source at a limit, to 0.1, rounded up: K x source / (limit - supply) x 1e6; the word
    for never when the supply is no cleaner than the limit. Source: ACGIH, Industrial Ventilation, from memory.

    >>> flow_needed(Decimal("0.0997"), Decimal(350), Decimal(5)).result
    Decimal('1424.3')
    """
    room = above_zero("limit", limit_ppm) - within("supply", supply_ppm, 0)
    result: Decimal | str = say("air.result.never")
    factor, source = within("mixing", mixing, 1), within("source", source_m3_min, 0)
    if room > 0:
        result = (factor * source / room * MILLION).quantize(Decimal("0.1"), ROUND_CEILING)
    inputs = (
        of("source", source_m3_min, "m³/min"),
        of("limit", limit_ppm, "ppm"),
        of("mixing", mixing),
        of("supply", supply_ppm, "ppm"),
    )
    return worked("flow_needed", result, "m³/min", inputs, MIXING)


def build_up_time(
    volume_m3: Decimal,
    flow_m3_min: Decimal,
    source_m3_min: Decimal,
    level_ppm: Decimal,
    mixing: Decimal = ONE,
    start_ppm: Decimal = ZERO,
) -> Working:
    """Minutes until a steady source has filled a ventilated space to a level, to 0.1, rounded down (it comes sooner
    rather than later); the word for never when the level lies above what the source can keep up.

    -(V K / flow) x ln((G - Q C) / (G - Q C0)), Q = flow / K. Without any flow: V (C - C0) / G.
    Source: ACGIH, Industrial Ventilation, chapter 2, from memory.

    >>> build_up_time(Decimal(100000), Decimal(6000), Decimal("1.2"), Decimal(200), Decimal(3)).result
    Decimal('20.2')
    """
    volume, source = above_zero("volume_of_space", volume_m3), within("source", source_m3_min, 0)
    flow = within("fan_flow", flow_m3_min, 0) / within("mixing", mixing, 1)
    level, start = within("level", level_ppm, 0, MILLION) / MILLION, within("start", start_ppm, 0, MILLION) / MILLION
    result: Decimal | str = say("air.result.never")
    if level <= start:
        result = ZERO
    elif flow == 0 and source > 0:
        result = (volume * (level - start) / source).quantize(Decimal("0.1"), ROUND_FLOOR)
    elif source > flow * level:
        rest = (source - flow * level) / (source - flow * start)
        result = (-volume / flow * rest.ln()).quantize(Decimal("0.1"), ROUND_FLOOR)
    inputs = (
        *_space(volume_m3, flow_m3_min),
        of("source", source_m3_min, "m³/min"),
        of("level", level_ppm, "ppm"),
        of("mixing", mixing),
        of("start", start_ppm, "ppm"),
    )
    return worked("build_up_time", result, "min", inputs, MIXING)


def level_after(
    minutes: Decimal,
    volume_m3: Decimal,
    flow_m3_min: Decimal,
    start_ppm: Decimal,
    source_m3_min: Decimal = ZERO,
    mixing: Decimal = ONE,
    supply_ppm: Decimal = ZERO,
) -> Working:
    """The level in ppm after so many minutes of ventilation, to 0.0001: what the supply brings, what is left of the
    start, and what the source has added.

    supply + (start - supply) e^(-n t) + source / (n V) x (1 - e^(-n t)) x 1e6, n = flow / K / V. With an unclean supply
    it goes to the supply's level, never to 0. Source: the same balance, as engineering tables print it.

    >>> level_after(Decimal(600), Decimal(50), Decimal(10), Decimal(400), supply_ppm=Decimal(60)).result
    Decimal('60.0000')
    """
    effective = _effective(flow_m3_min, mixing)
    n = effective / above_zero("volume_of_space", volume_m3)
    left = (-n * within("minutes", minutes, 0)).exp()
    supply = within("supply", supply_ppm, 0)
    added = within("source", source_m3_min, 0) / effective * MILLION * (1 - left)
    level = supply + (within("start", start_ppm, 0) - supply) * left + added
    inputs = (
        of("minutes", minutes, "min"),
        *_space(volume_m3, flow_m3_min),
        of("start", start_ppm, "ppm"),
        of("source", source_m3_min, "m³/min"),
        of("mixing", mixing),
        of("supply", supply_ppm, "ppm"),
    )
    return worked("level_after", level.quantize(Decimal("0.0001"), ROUND_HALF_UP), "ppm", inputs, MIXING)


def vapor_source(
    liters_min: Decimal, density_kg_l: Decimal, molar_mass: Decimal, celsius: Decimal = Decimal(20)
) -> Working:
    """The vapor in m³/min that a liquid makes as it evaporates, to six places: liters x density / molar mass x molar
    volume (at 101,325 Pa). ``molar_mass`` in g/mol. Source: ideal gas law.

    >>> vapor_source(Decimal("0.011829"), Decimal("1.32"), Decimal("133.4"), Decimal("21.1")).result
    Decimal('0.002826')
    """
    kelvin = within("temperature", celsius, -50, 300) + Decimal("273.15")
    moles = within("liters_min", liters_min, 0) * 1000 * above_zero("density", density_kg_l)
    cubic = moles / above_zero("molar_mass", molar_mass) * GAS_CONSTANT * kelvin / Decimal(101_325)
    inputs = (
        of("liters_min", liters_min, "L/min"),
        of("density", density_kg_l, "kg/L"),
        of("molar_mass", molar_mass, "g/mol"),
        of("temperature", celsius, "°C"),
    )
    return worked("vapor_source", cubic.quantize(Decimal("0.000001"), ROUND_HALF_UP), "m³/min", inputs, "ideal gas law")


def _purge(start: Decimal, target: Decimal, mixing: Decimal, supply: Decimal) -> Decimal | str:
    """Air changes from start to target, or the word for never."""
    factor = within("mixing", mixing, 1)
    above, wanted = within("start", start, 0) - within("supply", supply, 0), within("target", target, 0) - supply
    if start <= target:
        return ZERO
    return factor * (above / wanted).ln() if wanted > 0 else say("air.result.never")


def _effective(flow: Decimal, mixing: Decimal) -> Decimal:
    return above_zero("fan_flow", flow) / within("mixing", mixing, 1)


def _space(volume: Decimal, flow: Decimal) -> tuple[Input, Input]:
    return of("volume_of_space", volume, "m³"), of("fan_flow", flow, "m³/min")


def _levels(start: Decimal, target: Decimal, mixing: Decimal, supply: Decimal) -> tuple[Input, ...]:
    return of("start", start), of("target", target), of("mixing", mixing), of("supply", supply)
