"""Water vapor: how much oxygen a damp space loses to it, so that it is not taken for another gas."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal

from lamproom.air.working import Input, Working, above_zero, of, within, worked

STANDARD_PASCAL = Decimal("101325")
MAGNUS = "WMO-No. 8, Guide to Instruments and Methods of Observation, Annex 4.B"


@dataclass(frozen=True, slots=True)
class Moist:
    """Air as a thermometer and a hygrometer show it: ``celsius`` in °C, ``humidity`` relative to water, in %."""

    celsius: Decimal
    humidity: Decimal


def saturation_pressure(celsius: Decimal) -> Working:
    """Vapor pressure of water over water in Pa, whole, by the Magnus formula: 611.2 exp(17.62 t / (243.12 + t)).

    Valid from -45 to 60 °C (Unworkable outside). Source: WMO-No. 8, Annex 4.B; within 0.32 % of IAPWS-95 at 0 to 60 °C.

    >>> saturation_pressure(Decimal("22")).result
    Decimal('2637')
    """
    pascal = _saturation(celsius).quantize(Decimal(1), ROUND_HALF_UP)
    return worked("saturation_pressure", pascal, "Pa", (of("temperature", celsius, "°C"),), MAGNUS)


def water_vapor(outside: Moist | None, inside: Moist | None, pressure_pa: Decimal = STANDARD_PASCAL) -> Working:
    """What water vapor takes from the oxygen reading of a space, as ppm of something else, whole, rounded down.

    Below 0 where the space is drier than the air of the set-up: there clean air reads more oxygen, and the same reading
    hides that much. 0 when either side is not known, since unknown water explains nothing.

    (water inside - water outside) / (1 - water outside) x 1e6, water as a share of the air: humidity x saturation
    pressure / air pressure. With it what is left unaccounted for is never less than Dalton's law leaves.
    Source: Dalton's law, with the Magnus formula of WMO-No. 8, Annex 4.B.

    >>> yard, vault = Moist(Decimal(5), Decimal(70)), Moist(Decimal(22), Decimal(100))
    >>> water_vapor(yard, vault).result, water_vapor(vault, yard).result, water_vapor(yard, None).result
    (Decimal('20128'), Decimal('-20542'), Decimal('0'))
    """
    above_zero("pressure", pressure_pa)
    extra = Decimal(0)
    if outside is not None and inside is not None:
        here, there = _share(inside, pressure_pa), _share(outside, pressure_pa)
        extra = (here - there) / (1 - within("water_share", there, 0, Decimal("0.99"))) * 1_000_000
    return worked(
        "water_vapor",
        extra.quantize(Decimal(1), ROUND_FLOOR),
        "ppm",
        (*_moist("outside", outside), *_moist("inside", inside), of("pressure", pressure_pa, "Pa")),
        f"Dalton's law; {MAGNUS}",
    )


def damp_oxygen(base: Decimal, outside: Moist, inside: Moist, pressure_pa: Decimal = STANDARD_PASCAL) -> Working:
    """What an instrument that reads ``base`` vol% outside would read inside if water vapor were the only difference.

    base x (1 - water inside) / (1 - water outside), rounded half up to 0.1 vol%. Source: Dalton's law.

    >>> damp_oxygen(Decimal("20.9"), Moist(Decimal(5), Decimal(70)), Moist(Decimal(22), Decimal(100))).result
    Decimal('20.5')
    """
    within("base", base, 0, 100)
    above_zero("pressure", pressure_pa)
    reads = base * (1 - _share(inside, pressure_pa)) / (1 - _share(outside, pressure_pa))
    inputs = (of("base", base, "vol%"), *_moist("outside", outside), *_moist("inside", inside))
    return worked(
        "damp_oxygen",
        reads.quantize(Decimal("0.1"), ROUND_HALF_UP),
        "vol%",
        (*inputs, of("pressure", pressure_pa, "Pa")),
        f"Dalton's law; {MAGNUS}",
    )


def _saturation(celsius: Decimal) -> Decimal:
    t = within("temperature", celsius, -45, 60)
    return Decimal("611.2") * (Decimal("17.62") * t / (Decimal("243.12") + t)).exp()


def _share(air: Moist, pressure_pa: Decimal) -> Decimal:
    """Water as a share of all the air, 0 to 1."""
    share = within("humidity", air.humidity, 0, 100) / 100 * _saturation(air.celsius) / pressure_pa
    return within("water_share", share, 0, 1)


def _moist(where: str, air: Moist | None) -> tuple[Input, Input]:
    celsius, humidity = (None, None) if air is None else (air.celsius, air.humidity)
    return of(f"{where}_celsius", celsius, "°C"), of(f"{where}_humidity", humidity, "%")
