"""Everything that can happen to an instrument. Figures are decimal strings as typed, times are UTC."""

from __future__ import annotations

from datetime import date
from typing import Annotated, ClassVar, Literal

from pydantic import BaseModel, ConfigDict, StringConstraints

from lamproom.bench.happening import Event, later

Number = Annotated[str, StringConstraints(pattern=r"^-?[0-9]+(\.[0-9]+)?$", max_length=20)]
"""A figure that rules compute with, as typed: text that is none is refused before it is stored, never after."""


class Value(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Factor(Value):
    """What a flammable sensor's figure is multiplied by for another vapor, from the maker's sheet and its date."""

    vapour: str
    factor: Number
    source: str
    dated: date


class Sensor(Value):
    """One sensor: its gas (a substance id, or 'flammable'), unit, range and what it alarms at.

    ``response_s`` is the maker's T90 in seconds. ``alarm_low`` and ``alarm_high`` are the instrument's own set
    points; None means that it has none on that side. ``fitted`` and ``expires`` are dates, None means not stated.
    A flammable sensor shows ``calibrated_with`` truly (methane unless said), another vapor only by one of its
    ``factors``; ``needs_oxygen`` (% vol) is the least oxygen by its maker's sheet.
    """

    gas: str
    unit: str
    technology: str
    range_high: Number
    resolution: Number
    response_s: Number
    alarm_high: Number | None = None
    alarm_low: Number | None = None
    fitted: date | None = None
    expires: date | None = None
    factors: tuple[Factor, ...] = later(())
    needs_oxygen: Number | None = later(None)
    calibrated_with: str = later("methane")


class InstrumentRegistered(Event):
    """An instrument joined the site. ``pump_l_min`` None means diffusion. ``calibration_days`` is the stricter of the
    maker's and the site's interval. ``battery_h`` is what a full battery lasts by its maker."""

    kind: ClassVar[str] = "instrument-registered"
    name: str
    serial: str
    sensors: tuple[Sensor, ...]
    pump_l_min: Number | None = None
    hose_m: Number | None = None
    bore_mm: Number | None = None
    battery_h: Number = "10"
    calibration_days: int = 180


class FreshAir(Value):
    """A fresh-air set-up: where, why that air is known to be clean, oxygen shown before and after (% vol)."""

    place: str
    why_clean: str
    oxygen_before: Number
    oxygen_after: Number
    beside_portal: bool = False


class CheckedBeforeUse(Event):
    """The check before use; every alarm is answered apart: heard, seen, felt. ``block_stopped_s`` is the seconds until
    the blocked pump stopped or alarmed, None when it did not within 30 s or the instrument has no pump."""

    kind: ClassVar[str] = "checked-before-use"
    self_test: bool
    alarm_heard: bool
    alarm_seen: bool
    alarm_felt: bool
    display_complete: bool
    housing_sound: bool
    battery_h: Number
    set_points_as_registered: bool
    block_stopped_s: Number | None
    fresh_air: FreshAir


class Cylinder(Value):
    """Test gas: its mark, lot, the day it expires and its concentrations by gas (unit of the sensor)."""

    name: str
    lot: str
    expires: date
    gases: dict[str, Number]


class SensorResult(Value):
    """What one sensor did with an applied concentration: highest reading and seconds to its alarm."""

    gas: str
    applied: Number
    reading: Number
    alarm_s: Number | None


class BumpTested(Event):
    """A bump test. ``check`` says which kind: function check (alarms) or calibration check (figures compared)."""

    kind: ClassVar[str] = "bump-tested"
    check: Literal["function", "calibration"]
    cylinder: Cylinder
    results: tuple[SensorResult, ...]


class SpanResult(Value):
    """One sensor at calibration: applied, as found and as left."""

    gas: str
    applied: Number
    as_found: Number
    as_left: Number


class Calibrated(Event):
    """A calibration with its cylinder; ``due`` is the day by which the next one is due."""

    kind: ClassVar[str] = "calibrated"
    cylinder: Cylinder
    results: tuple[SpanResult, ...]
    passed: bool
    due: date


class TestVoided(Event):
    """Something that ends the standing of the last bump test before its time."""

    kind: ClassVar[str] = "test-voided"
    cause: Literal["dropped", "poisoned", "over-range", "sensor-changed", "check-failed"]
    note: str = ""


class TakenOutOfService(Event):
    """The instrument is not to be used; only an inspection or repair by someone who may brings it back."""

    kind: ClassVar[str] = "taken-out-of-service"
    reason: str


class ReturnedToService(Event):
    """Inspected or repaired: by whom stands in the envelope, what was done here. It needs a calibration next."""

    kind: ClassVar[str] = "returned-to-service"
    done: str


EVENTS: tuple[type[Event], ...] = (
    InstrumentRegistered,
    CheckedBeforeUse,
    BumpTested,
    Calibrated,
    TestVoided,
    TakenOutOfService,
    ReturnedToService,
)
