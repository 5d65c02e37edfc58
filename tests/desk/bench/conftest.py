"""An invented bench: four-gas instruments in every state."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from lamproom.bench import events as b
from lamproom.office.begin_site import begin_site
from lamproom.office.bump_test import bump_test
from lamproom.office.calibrate import calibrate
from lamproom.office.check_before_use import check_before_use
from lamproom.office.clock import HandClock
from lamproom.office.device import device_secret
from lamproom.office.key_box import CHEAPEST
from lamproom.office.office import Office
from lamproom.office.opening import open_in_memory
from lamproom.office.register_instrument import register_instrument
from lamproom.office.take_out_of_service import take_out_of_service

MORNING = datetime(2026, 11, 25, 13, 20, tzinfo=UTC)  # 07:20 in Chicago

SENSORS = (
    b.Sensor(
        gas="oxygen",
        unit="% vol",
        technology="electrochemical",
        range_high="30",
        resolution="0.1",
        response_s="15",
        alarm_low="19.5",
        alarm_high="23.5",
    ),
    b.Sensor(
        gas="flammable",
        unit="% LEL",
        technology="catalytic",
        range_high="100",
        resolution="1",
        response_s="20",
        alarm_high="10",
    ),
    b.Sensor(
        gas="hydrogen-sulfide",
        unit="ppm",
        technology="electrochemical",
        range_high="100",
        resolution="0.1",
        response_s="30",
        alarm_high="10",
    ),
    b.Sensor(
        gas="carbon-monoxide",
        unit="ppm",
        technology="electrochemical",
        range_high="500",
        resolution="1",
        response_s="30",
        alarm_high="35",
    ),
)
CYLINDER = b.Cylinder(
    name="C 118",
    lot="2216",
    expires=date(2027, 3, 31),
    gases={"oxygen": "18.0", "flammable": "50", "hydrogen-sulfide": "25", "carbon-monoxide": "100"},
)


def bump(read: dict[str, str] | None = None, cylinder: b.Cylinder = CYLINDER) -> b.BumpTested:
    figures = {"oxygen": "18.1", "flammable": "48", "hydrogen-sulfide": "24", "carbon-monoxide": "98"} | (read or {})
    times = {"oxygen": "9", "flammable": "14", "hydrogen-sulfide": "22", "carbon-monoxide": "19"}
    results = tuple(
        b.SensorResult(gas=gas, applied=cylinder.gases[gas], reading=figure, alarm_s=times[gas])
        for gas, figure in figures.items()
    )
    return b.BumpTested(check="calibration", cylinder=cylinder, results=results)


def calibration(due: date = date(2027, 2, 18)) -> b.Calibrated:
    results = tuple(
        b.SpanResult(gas=gas, applied=figure, as_found=figure, as_left=figure) for gas, figure in CYLINDER.gases.items()
    )
    return b.Calibrated(cylinder=CYLINDER, results=results, passed=True, due=due)


def check() -> b.CheckedBeforeUse:
    return b.CheckedBeforeUse(
        self_test=True,
        alarm_heard=True,
        alarm_seen=True,
        alarm_felt=True,
        display_complete=True,
        housing_sound=True,
        battery_h="11",
        set_points_as_registered=True,
        block_stopped_s="4",
        fresh_air=b.FreshAir(
            place="gate 3", why_clean="open field, wind from the west", oxygen_before="20.8", oxygen_after="20.9"
        ),
    )


@pytest.fixture
def clock() -> HandClock:
    return HandClock(MORNING - timedelta(days=29))


@pytest.fixture
def office(tmp_path: Path, clock: HandClock) -> Office:
    """Instruments 02 ready, 03 failed its bump test, 05 out of service, 07 ready with 30 days, 09 new."""
    office = open_in_memory(clock, device_secret(tmp_path), CHEAPEST)
    begin_site(
        office,
        "Osprel Bend Waterworks",
        "America/Chicago",
        "P-01",
        "Mara Velde",
        ("supervisor", "keeper"),
        (),
        "lantern-4417",
        office.now(),
    )
    for id in ("02", "03", "05", "07", "09"):
        registered = b.InstrumentRegistered(
            name="four-gas", serial=f"OB 22{id}", sensors=SENSORS, pump_l_min="0.5", hose_m="6", bore_mm="4"
        )
        register_instrument(office, id, registered, by="P-01")
    for id in ("02", "03", "05", "07"):
        calibrate(office, id, calibration(), by="P-01")
    for day in range(29):
        if day % 7 not in (4, 5):
            failed = {"hydrogen-sulfide": "20"} if day == 13 else None
            bump_test(office, "07", bump(failed), by="P-01")
            if failed is not None:  # what a failed test asks for: calibrated, and tested again
                calibrate(office, "07", calibration(), by="P-01")
                bump_test(office, "07", bump(), by="P-01")
        clock.pass_time(timedelta(days=1))
    office.accept_watch(clock.sample().wall)
    for id in ("02", "07"):
        bump_test(office, id, bump(), by="P-01")
        check_before_use(office, id, check(), by="P-01")
    bump_test(office, "03", bump({"hydrogen-sulfide": "20"}), by="P-01")
    take_out_of_service(office, "05", "housing cracked", by="P-01")
    return office
