"""An invented site for the tests of the Workbook: people, two spaces, three instruments. Nothing here is real."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime
from pathlib import Path

from tests.capable import CAPABLE

from lamproom.bench.events import (
    BumpTested,
    Calibrated,
    CheckedBeforeUse,
    Cylinder,
    FreshAir,
    InstrumentRegistered,
    Sensor,
    SensorResult,
    SpanResult,
)
from lamproom.office.begin_site import begin_site
from lamproom.office.bump_test import bump_test
from lamproom.office.calibrate import calibrate
from lamproom.office.check_before_use import check_before_use
from lamproom.office.clock import HandClock
from lamproom.office.device import device_secret
from lamproom.office.evaluate_space import evaluate_space
from lamproom.office.key_box import CHEAPEST
from lamproom.office.office import Office
from lamproom.office.opening import open_in_memory
from lamproom.office.register_instrument import register_instrument
from lamproom.office.register_person import register_person
from lamproom.office.register_space import register_space
from lamproom.permit.people import PersonTrained, Role
from lamproom.permit.space import Hazard, IsolationPoint, Portal, RescuePlan, SpaceEvaluated, SpaceRegistered

MORNING = datetime(2026, 11, 25, 13, 40, tzinfo=UTC)  # 07:40 in Chicago
PEOPLE: Mapping[str, tuple[str, tuple[Role, ...]]] = {
    "P-01": ("Mara Velde", ("supervisor", "keeper")),
    "P-02": ("Oskar Wren", ("attendant",)),
    "P-03": ("Nia Falk", ("attendant",)),
    "P-04": ("Teo Amadi", ("entrant",)),
    "P-05": ("Kit Sorrel", ("entrant",)),
    "P-06": ("Lena Quist", ("entrant",)),
    "P-07": ("Juno Bexley", ("office",)),
}


def training(roles: tuple[Role, ...]) -> tuple[PersonTrained, ...]:
    return tuple(PersonTrained(role=role, trained_on=date(2026, 3, 2), trainer="Juno Bexley") for role in roles)


def four_gas() -> tuple[Sensor, ...]:
    """Response times and ranges as four-gas instruments commonly have them: common practice, invented here."""
    return (
        Sensor(gas="oxygen", unit="% vol", technology="galvanic", range_high="30", resolution="0.1", response_s="15",
               alarm_low="19.5", alarm_high="23.5"),
        Sensor(gas="flammable", unit="% LEL", technology="catalytic", range_high="100", resolution="1",
               response_s="30", alarm_high="10"),
        Sensor(gas="hydrogen-sulfide", unit="ppm", technology="electrochemical", range_high="100", resolution="1",
               response_s="30", alarm_high="10"),
        Sensor(gas="carbon-monoxide", unit="ppm", technology="electrochemical", range_high="500", resolution="1",
               response_s="30", alarm_high="35"),
    )  # fmt: skip


def make_ready(office: Office, instrument: str) -> None:
    """Calibrated, checked and bump tested this morning."""
    gases = {"oxygen": "18.0", "flammable": "50", "hydrogen-sulfide": "25", "carbon-monoxide": "100"}
    cylinder = Cylinder(name="C-4", lot="L-118", expires=date(2027, 6, 30), gases=gases)
    spans = tuple(SpanResult(gas=gas, applied=f, as_found=f, as_left=f) for gas, f in gases.items())
    results = tuple(SensorResult(gas=gas, applied=f, reading=f, alarm_s="8") for gas, f in gases.items())
    fresh = FreshAir(place="yard", why_clean="upwind of all tanks", oxygen_before="20.9", oxygen_after="20.9")
    calibrated = Calibrated(cylinder=cylinder, results=spans, passed=True, due=date(2027, 2, 1))
    calibrate(office, instrument, calibrated, by="P-01")
    bump_test(office, instrument, BumpTested(check="calibration", cylinder=cylinder, results=results), by="P-01")
    check = CheckedBeforeUse(
        self_test=True,
        alarm_heard=True,
        alarm_seen=True,
        alarm_felt=True,
        display_complete=True,
        housing_sound=True,
        battery_h="14",
        set_points_as_registered=True,
        block_stopped_s="3",
        fresh_air=fresh,
    )
    check_before_use(office, instrument, check, by="P-01")


def space(name: str, place: str) -> SpaceRegistered:
    return SpaceRegistered(
        name=name,
        place=place,
        shape="vertical-shaft",
        depth_m="4.9",
        across_m="2.4",
        portal=Portal(name="Hatch A", width_m="0.8"),
        contents="wastewater, settled solids",
        body_can_enter=True,
        limited_way=True,
        not_for_occupancy=True,
        bad_air_possible=True,
        engulfment_possible=True,
        trapping_shape=False,
        other_hazard=True,
    )


def evaluation(unisolable: str | None = None, standing: Mapping[str, str] | None = None) -> SpaceEvaluated:
    return SpaceEvaluated(
        by_name="Juno Bexley",
        qualified_as="safety engineer",
        review_by=date(2027, 4, 30),
        hazards=(
            Hazard(id="lack-of-oxygen", name="Lack of oxygen", shows="oxygen falls below 19.5 % vol", gas="oxygen",
                   control="Ventilate before and during entry; test at every point."),
            Hazard(id="methane", name="Methane", shows="flammable sensor rises", gas="methane",
                   control="Ventilate from clean air; no open flame within 10 m."),
            Hazard(id="hydrogen-sulfide", name="Hydrogen sulfide", shows="smell of rotten eggs, then none",
                   gas="hydrogen-sulfide", control="Ventilate; do not stir the sludge; leave at the alarm."),
            Hazard(id="carbon-dioxide", name="Carbon dioxide", shows="oxygen falls a little, headache",
                   gas="carbon-dioxide", control="Ventilate; watch oxygen for the unexplained loss."),
            Hazard(id="engulfment", name="Inflow of wastewater", shows="the level rises", sort="engulfment",
                   control="Inlet gate shut and locked, level read before entry."),
            Hazard(id="fall", name="Fall from the ladder", shows="a person slips",
                   control="Harness on the winch line from the first rung."),
        ),
        isolation=(
            IsolationPoint(id="gate-1", name="Inlet gate 1", holds="wastewater", how="Shut, chained and locked",
                           held_as="lockout"),
            IsolationPoint(id="pump-2", name="Pump 2", holds="480 V and rotation", how="Breaker 14 off and locked",
                           held_as="lockout"),
        ),
        unisolable=unisolable,
        ventilation_needed=True,
        retest_points_m=("1.2", "4.5"),
        rescue=RescuePlan(service="Site rescue team", means="Radio channel 4", then="Phone 555-0142",
                          response_min="6", retrieval="Tripod with winch over the hatch", **CAPABLE),
        communication="Voice and radio; three pulls on the line mean everyone out",
        equipment="Cap lamps, waders, ladder, horn",
        standing=dict(standing or {}),
    )  # fmt: skip


def osprel_bend(folder: Path, at: datetime = MORNING) -> tuple[Office, HandClock]:
    """The site on an ordinary morning: two instruments ready, one not, no permit yet."""
    clock = HandClock(at)
    office = open_in_memory(clock, device_secret(folder), CHEAPEST)
    name, roles = PEOPLE["P-01"]
    begin_site(office, "Osprel Bend Waterworks", "America/Chicago", "P-01", name, roles, training(roles),
               "lantern-4417", at)  # fmt: skip
    for person, (name, roles) in PEOPLE.items():
        if person != "P-01":
            register_person(office, person, name, roles, training(roles), by="P-01")
    for id in ("07", "11", "03"):
        pumped = id != "11"
        instrument = InstrumentRegistered(
            name=f"Instrument {id}",
            serial=f"OB-{id}",
            sensors=four_gas(),
            pump_l_min="0.5" if pumped else None,
            hose_m="6.0" if pumped else None,
            bore_mm="4.8" if pumped else None,
            battery_h="14",
        )
        register_instrument(office, id, instrument, by="P-01")
    make_ready(office, "07")
    make_ready(office, "11")
    register_space(office, "wet-well-2", space("Wet well 2", "Lift station North"), by="P-01")
    evaluate_space(office, "wet-well-2", evaluation(), by="P-01")
    register_space(office, "tank-3", space("Sludge holding tank 3", "Sludge house"), by="P-01")
    evaluate_space(office, "tank-3", evaluation("the digester gas main has no second valve"), by="P-01")
    register_space(office, "vault-9", space("Valve vault 9", "East main"), by="P-01")
    return office, clock
