"""What air and work do to people: toxic dose, heat, a sealed space, grain. For showing, never for permitting."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from types import MappingProxyType

from lamproom.air.working import Unworkable, Working, above_zero, of, within, worked
from lamproom.words import say, sentence

TENTH = Decimal("0.1")
HUNDREDTH = Decimal("0.01")
WHOLE = Decimal(1)

# Minutes -> ppm of carbon monoxide that keep carboxyhemoglobin under 2.5 %: WHO air quality guidelines for Europe.
MONOXIDE_GUIDE: Mapping[int, int] = MappingProxyType({15: 90, 30: 50, 60: 25, 480: 10})

# Who -> (oxygen used, carbon dioxide made), ft³ a minute and person, as an engineering report for refuges prints them.
BREATHING: Mapping[str, tuple[Decimal, Decimal]] = MappingProxyType(
    {
        "average": (Decimal("0.022"), Decimal("0.019")),  # Foster-Miller 1983
        "rescue": (Decimal("0.022"), Decimal("0.018")),  # MSHA PIB 07-03
        "sitting": (Decimal("0.011"), Decimal("0.009")),  # NAVSEA 2006
        "walking": (Decimal("0.042"), Decimal("0.040")),  # NAVSEA 2006, 4 mph
    }
)
FT3_PER_M3 = Decimal("35.3146667")

# Grain: 2 to 3 s until helpless in flowing grain (an OSHA drawing); with a 10-inch auger 5 s until one cannot free
# oneself, 25 s until covered, 900 lb to lift out (an extension engineer in the farm press).
HELPLESS_S = (2, 3)
FT3_PER_BUSHEL = Decimal("1.2444")


def monoxide_guide(minutes: Decimal) -> Working:
    """The ppm of carbon monoxide that the WHO guideline has for a time of that length, of its four the next longer.

    >>> monoxide_guide(Decimal(20)).result
    Decimal('50')
    """
    length = within("minutes", above_zero("minutes", minutes), 0, max(MONOXIDE_GUIDE))
    next_longer = min(known for known in MONOXIDE_GUIDE if known >= length)
    ppm = Decimal(MONOXIDE_GUIDE[next_longer])
    source = "WHO air quality guidelines for Europe"
    return worked("monoxide_guide", ppm, "ppm", (of("minutes", minutes, "min"),), source, showing=True)


def carboxyhemoglobin(ppm: Decimal, minutes: Decimal) -> Working:
    """Carboxyhemoglobin in % of a person at rest, to 0.1: log10 = 0.85753 log10 ppm + 0.62995 log10 min - 2.29519.

    Source: Peterson and Stewart (1970), from memory.

    >>> carboxyhemoglobin(Decimal(35), Decimal(480)).result
    Decimal('5.2')
    """
    level, time = above_zero("ppm", ppm), above_zero("minutes", minutes)
    log = Decimal("0.85753") * level.log10() + Decimal("0.62995") * time.log10() - Decimal("2.29519")
    share = min(Decimal(10) ** log, Decimal(100)).quantize(TENTH, ROUND_HALF_UP)
    inputs = (of("ppm", ppm, "ppm"), of("minutes", minutes, "min"))
    return worked("carboxyhemoglobin", share, "%", inputs, "Peterson and Stewart (1970)", showing=True)


def same_effect(ppm: Decimal, minutes: Decimal, wanted_min: Decimal, exponent: Decimal) -> Working:
    """The level that does the same in another time, whole ppm: ppm x (minutes / wanted)^(1 / n).

    Source: NIOSH documentation for IDLH values (1994); n is 3.5 for chlorine, 2.2 for hydrogen sulfide.

    >>> same_effect(Decimal(293), Decimal(60), Decimal(30), Decimal("3.5")).result
    Decimal('357')
    """
    ratio = above_zero("minutes", minutes) / above_zero("wanted_min", wanted_min)
    level = above_zero("ppm", ppm) * ratio ** (1 / above_zero("exponent", exponent))
    inputs = (
        of("ppm", ppm, "ppm"),
        of("minutes", minutes, "min"),
        of("wanted_min", wanted_min, "min"),
        of("exponent", exponent),
    )
    source = "NIOSH documentation for IDLH values (1994)"
    return worked("same_effect", level.quantize(WHOLE, ROUND_HALF_UP), "ppm", inputs, source, showing=True)


def heat_limit(watts: Decimal, used_to_it: bool) -> Working:
    """NIOSH's limit of one hour's mean WBGT in °C, to 0.01, rounded down: 56.7 - 11.5 log10 M for people used to heat,
    59.9 - 14.1 log10 M for others; M in W.

    Source: NIOSH 2016-106, from memory.

    >>> heat_limit(Decimal(300), True).result, heat_limit(Decimal(300), False).result
    (Decimal('28.21'), Decimal('24.97'))
    """
    top, slope = (Decimal("56.7"), Decimal("11.5")) if used_to_it else (Decimal("59.9"), Decimal("14.1"))
    limit = top - slope * within("watts", watts, 100, 700).log10()
    used = say("air.result.yes") if used_to_it else say("air.result.no")
    inputs = (of("watts", watts, "W"), of("used_to_heat", used))
    return worked("heat_limit", limit.quantize(HUNDREDTH, ROUND_FLOOR), "°C", inputs, "NIOSH 2016-106", showing=True)


def wbgt(wet_bulb: Decimal, globe: Decimal, air: Decimal | None = None) -> Working:
    """Wet bulb globe temperature in °C, to 0.1: 0.7 wet + 0.3 globe inside; 0.7 wet + 0.2 globe + 0.1 air in the sun.

    ``air`` is None inside or in the shade. Source: NIOSH 2016-106, from memory.

    >>> wbgt(Decimal(25), Decimal(40)).result, wbgt(Decimal(25), Decimal(45), Decimal(32)).result
    (Decimal('29.5'), Decimal('29.7'))
    """
    wet, black = within("wet_bulb", wet_bulb, -20, 60), within("globe", globe, -20, 100)
    value = Decimal("0.7") * wet + Decimal("0.3") * black
    if air is not None:
        value = Decimal("0.7") * wet + Decimal("0.2") * black + TENTH * within("air_celsius", air, -20, 60)
    sun = () if air is None else (of("air_celsius", air, "°C"),)
    inputs = (of("wet_bulb", wet, "°C"), of("globe", black, "°C"), *sun)
    return worked("wbgt", value.quantize(TENTH, ROUND_HALF_UP), "°C", inputs, "NIOSH 2016-106", showing=True)


def sealed_minutes(
    volume_m3: Decimal,
    people: Decimal,
    activity: str = "rescue",
    carbon_dioxide: Decimal | None = None,
    oxygen: Decimal | None = None,
) -> Working:
    """Whole minutes until a sealed space reaches a share of carbon dioxide (from 0.04 vol%) or an oxygen (from 20.9),
    rounded down; the earlier of the two that are given. ``activity`` is a row of ``BREATHING``.

    >>> sealed_minutes(Decimal("28.3168"), Decimal(1), carbon_dioxide=Decimal("0.5")).result
    Decimal('255')
    """
    if activity not in BREATHING:
        raise Unworkable(sentence("air.unworkable.no_activity", activity=activity, known=", ".join(BREATHING)))
    if carbon_dioxide is None and oxygen is None:
        raise Unworkable(sentence("air.unworkable.no_target"))
    used, made = (rate / FT3_PER_M3 * above_zero("people", people) for rate in BREATHING[activity])
    room = above_zero("volume_of_space", volume_m3) / 100
    times = []
    if carbon_dioxide is not None:
        times.append(room * (within("carbon_dioxide", carbon_dioxide, Decimal("0.04"), 100) - Decimal("0.04")) / made)
    if oxygen is not None:
        times.append(room * (Decimal("20.9") - within("oxygen", oxygen, 0, Decimal("20.9"))) / used)
    inputs = (
        of("volume_of_space", volume_m3, "m³"),
        of("people", people),
        of("activity", activity),
        *(() if carbon_dioxide is None else (of("carbon_dioxide", carbon_dioxide, "vol%"),)),
        *(() if oxygen is None else (of("oxygen", oxygen, "vol%"),)),
    )
    source = "MSHA PIB 07-03; NAVSEA (2006)"
    return worked("sealed_minutes", min(times).quantize(WHOLE, ROUND_FLOOR), "min", inputs, source, showing=True)


def grain_flow(bushels_min: Decimal) -> Working:
    """The flow of grain in ft³ a minute, to 0.1: bushels x 1.2444. A person in it is helpless after 2 to 3 seconds.

    >>> grain_flow(Decimal(68)).result
    Decimal('84.6')
    """
    flow = (within("bushels_min", bushels_min, 0) * FT3_PER_BUSHEL).quantize(TENTH, ROUND_HALF_UP)
    return worked(
        "grain_flow",
        flow,
        "ft³/min",
        (of("bushels_min", bushels_min, "bu/min"),),
        "OSHA; farm press",
        showing=True,
        low_s=str(HELPLESS_S[0]),
        high_s=str(HELPLESS_S[1]),
    )
