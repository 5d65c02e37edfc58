"""What a flammable sensor's figure says of the air: whether it stands at all, and what it means for another vapor."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from lamproom.air.flammable import CATALYTIC_NEEDS_OXYGEN, ENRICHED_ABOVE, as_vapor, void
from lamproom.air.flammable import Factor as Sheet
from lamproom.air.substances import Exposure
from lamproom.air.working import Working
from lamproom.bench.events import Sensor
from lamproom.permit.gas_limits import substance_of
from lamproom.permit.state import Permit, ReadingSet
from lamproom.words import Sentence

FLAMMABLE = "flammable"


def sensor_of(one: ReadingSet) -> Sensor | None:
    """The flammable sensor of the instrument that took a set; None where it has none, or served no longer."""
    if one.assigned is None:
        return None
    return next((sensor for sensor in one.assigned.registered.sensors if sensor.gas == FLAMMABLE), None)


def needs_oxygen(sensor: Sensor) -> Decimal | None:
    """The oxygen in % vol that the sensor must have, None for one that needs none.

    Only an infrared sensor needs none; another counts as catalytic, and needs 15 % vol until its maker's figure is
    entered (common practice).
    """
    if sensor.technology.strip().lower().startswith("infrared"):
        return None
    return Decimal(sensor.needs_oxygen) if sensor.needs_oxygen is not None else CATALYTIC_NEEDS_OXYGEN


def voids(one: ReadingSet) -> tuple[Sentence, ...]:
    """Why the flammable figure of a set counts as not taken; none when it stands, or when the set has none."""
    figure, sensor = one.figure(FLAMMABLE), sensor_of(one)
    if figure is None or figure.figure is None or figure.unit != "% LEL" or sensor is None:
        return ()
    oxygen = one.figure("oxygen")
    read = Decimal(oxygen.figure) if oxygen is not None and oxygen.figure is not None else None
    return void(Decimal(figure.figure), read, needs_oxygen(sensor), Decimal(sensor.range_high), ENRICHED_ABOVE)


def sheet_for(sensor: Sensor, gas: str) -> Sheet | None:
    """The maker's factor for a vapor, with sheet and date; None where nobody entered one, or not from which sheet."""
    for one in sensor.factors:
        if one.vapour == gas and Decimal(one.factor) > 0 and one.source.strip():
            return Sheet(gas, Decimal(one.factor), one.source, one.dated)
    return None


def by_flammable_sensor_alone(permit: Permit, gas: str) -> tuple[Sensor, ...]:
    """The flammable sensors at hand that must stand for a vapor, since no sensor here shows that vapor itself."""
    known = substance_of(gas)
    burns = known is not None and known.burns
    if not burns or gas == FLAMMABLE:
        return ()
    sensors = [
        sensor
        for assigned in permit.instruments.values()
        if assigned.returned is None
        for sensor in assigned.registered.sensors
    ]
    if any(sensor.gas == gas for sensor in sensors):
        return ()
    return tuple(sensor for sensor in sensors if sensor.gas == FLAMMABLE)


def shows(sensor: Sensor, gas: str) -> bool:
    """Can the sensor's figure be told as this vapor: by its calibration, or by a factor with source and date?"""
    return sensor.calibrated_with == gas or sheet_for(sensor, gas) is not None


def as_vapors(permit: Permit, one: ReadingSet, gases: frozenset[str]) -> Iterator[tuple[str, Working]]:
    """The flammable figure of a set told as each vapor that its sensor has a factor for."""
    figure, sensor = one.figure(FLAMMABLE), sensor_of(one)
    if figure is None or figure.figure is None or figure.unit != "% LEL" or sensor is None:
        return
    for gas in sorted(gases):
        sheet = sheet_for(sensor, gas)
        if sheet is not None and sensor.calibrated_with != gas:
            yield gas, as_vapor(Decimal(figure.figure), gas, sheet)


def governs_alone(gas: str) -> bool:
    """Has the vapor no exposure limit, so that oxygen and the share of its LEL govern?"""
    known = substance_of(gas)
    return known is not None and known.exposure is Exposure.NONE_EXISTS
