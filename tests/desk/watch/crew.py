"""An invented site for the Watch: one wet well, one crew, two ready instruments, a day to be lived by steps."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from tests.capable import CAPABLE

from lamproom.bench import events as b
from lamproom.office.answer import answer
from lamproom.office.assign_instrument import assign_instrument
from lamproom.office.authorise import authorise
from lamproom.office.begin_site import begin_site
from lamproom.office.brief import brief
from lamproom.office.bump_test import bump_test
from lamproom.office.calibrate import calibrate
from lamproom.office.check_before_use import check_before_use
from lamproom.office.clock import HandClock
from lamproom.office.confirm_rescue import confirm_rescue
from lamproom.office.describe_work import describe_work
from lamproom.office.device import device_secret
from lamproom.office.evaluate_space import evaluate_space
from lamproom.office.go_in import go_in
from lamproom.office.hold_hazard import hold_hazard
from lamproom.office.isolate_point import isolate_point
from lamproom.office.key_box import CHEAPEST
from lamproom.office.make_contact import make_contact
from lamproom.office.name_person import name_person
from lamproom.office.office import Office
from lamproom.office.open_permit import open_permit
from lamproom.office.open_space import open_space
from lamproom.office.opening import open_in_memory
from lamproom.office.plan_hours import plan_hours
from lamproom.office.register_instrument import register_instrument
from lamproom.office.register_person import register_person
from lamproom.office.register_space import register_space
from lamproom.office.start_fan import start_fan
from lamproom.office.state_level import state_level
from lamproom.office.take_readings import take_readings
from lamproom.office.take_watch import take_watch
from lamproom.office.test_hose import test_hose as block_hose
from lamproom.office.try_call import try_call
from lamproom.permit import events as e
from lamproom.permit.facts import points
from lamproom.permit.obstacles import Stage, barring
from lamproom.permit.people import PersonTrained, Role
from lamproom.permit.space import Hazard, IsolationPoint, Portal, RescuePlan, SpaceEvaluated, SpaceRegistered

MORNING = datetime(2026, 11, 25, 14, 0, tzinfo=UTC)
"""08:00 at the site."""

NAMES = {
    "P-01": "Mara Velde",
    "P-02": "Oskar Wren",
    "P-03": "Nia Falk",
    "P-04": "Teo Amadi",
    "P-05": "Kit Sorrel",
    "P-06": "Lena Quist",
    "P-07": "Juno Bexley",
    "P-08": "Ada Finch",
    "P-09": "Sol Merrin",
    "P-10": "Bo Larkin",
}
CODES = {"P-01": "lantern-4417", "P-02": "culvert-8823", "P-03": "ferrule-2096"}
GASES = (("oxygen", "% vol"), ("flammable", "% LEL"), ("hydrogen-sulfide", "ppm"), ("carbon-monoxide", "ppm"))


@dataclass
class Site:
    """The open site, its clock turned by hand, and the number of its permit."""

    office: Office
    clock: HandClock
    number: str = ""

    def minutes(self, count: float) -> None:
        """Time passes."""
        self.clock.pass_time(timedelta(minutes=count))

    def read(self, figures: str, phase: e.Phase = "work", point: str | None = "3.9", lowered: bool = False) -> None:
        """A set by the test instrument: four figures with spaces between, in the order of GASES."""
        now = self.office.now()
        take_readings(
            self.office,
            self.number,
            phase,
            point,
            "I-02",
            [e.Figure(gas=g, unit=u, figure=f) for (g, u), f in zip(GASES, figures.split(), strict=True)],
            lowered=now - timedelta(minutes=3) if lowered else None,
            by="P-02",
        )

    def enter(self, *people: str) -> None:
        """They go in, a minute apart."""
        for person in people:
            go_in(self.office, self.number, person, by="P-02")
            self.minutes(1)


def _sensor(gas: str, unit: str, range_high: str, step: str, low: str | None, high: str | None) -> b.Sensor:
    return b.Sensor(
        gas=gas,
        unit=unit,
        technology="electrochemical",
        range_high=range_high,
        resolution=step,
        response_s="20",
        alarm_low=low,
        alarm_high=high,
    )


SENSORS = (
    _sensor("oxygen", "% vol", "30", "0.1", "19.5", "23.5"),
    _sensor("flammable", "% LEL", "100", "1", None, "10"),
    _sensor("hydrogen-sulfide", "ppm", "100", "1", None, "10"),
    _sensor("carbon-monoxide", "ppm", "500", "1", None, "35"),
)


def _training(*roles: Role) -> tuple[PersonTrained, ...]:
    return tuple(PersonTrained(role=role, trained_on=date(2026, 3, 2), trainer="Juno Bexley") for role in roles)


def site(folder: Path) -> Site:
    """A site with people, a wet well and two instruments, at 08:00."""
    clock = HandClock(MORNING)
    office = open_in_memory(clock, device_secret(folder), CHEAPEST)
    keeper: tuple[Role, ...] = ("supervisor", "keeper")
    begin_site(
        office,
        "Osprel Bend Waterworks",
        "America/Chicago",
        "P-01",
        NAMES["P-01"],
        keeper,
        _training("supervisor"),
        CODES["P-01"],
        MORNING,
    )
    for person, name in list(NAMES.items())[1:]:
        roles: tuple[Role, ...] = ("attendant",) if person in ("P-02", "P-03") else ("entrant",)
        register_person(
            office,
            person,
            name,
            roles,
            _training(*roles),
            by="P-01",
            code=CODES.get(person),
            keeper_code=CODES["P-01"],
        )
    _register_well(office)
    for instrument, name, pump in (("I-02", "Instrument 2", "0.5"), ("I-07", "Instrument 7", None)):
        _ready_instrument(office, instrument, name, pump)
    return Site(office, clock)


def _register_well(office: Office) -> None:
    register_space(
        office,
        "wet-well-2",
        SpaceRegistered(
            name="Wet well 2",
            place="Lift station North, gate 3",
            shape="vertical-shaft",
            depth_m="5.2",
            across_m="2.4",
            portal=Portal(name="hatch", width_m="0.8"),
            contents="sewage",
            body_can_enter=True,
            limited_way=True,
            not_for_occupancy=True,
            bad_air_possible=True,
            engulfment_possible=True,
            trapping_shape=False,
            other_hazard=False,
        ),
        by="P-01",
    )
    evaluated = SpaceEvaluated(
        by_name="Juno Bexley",
        qualified_as="industrial hygienist",
        review_by=date(2027, 6, 1),
        hazards=(
            Hazard(
                id="hydrogen-sulfide",
                name="Hydrogen sulfide",
                shows="gas",
                control="ventilate",
                gas="hydrogen-sulfide",
            ),
            Hazard(id="inflow", name="Inflow", shows="water", control="shut the penstock"),
        ),
        isolation=(
            IsolationPoint(id="penstock", name="Penstock 2", holds="sewage", how="lock and tag", held_as="lockout"),
        ),
        unisolable=None,
        ventilation_needed=True,
        retest_points_m=("3.9",),
        rescue=RescuePlan(
            service="Osprel Bend Fire Department",
            means="radio channel 4",
            then="telephone 911, gate 3",
            response_min="8",
            retrieval="winch over the hatch",
            **CAPABLE,
        ),
        communication="voice, radio channel 2",
        equipment="light, harness",
        standing={},
    )
    evaluate_space(office, "wet-well-2", evaluated, by="P-01")


def _ready_instrument(office: Office, instrument: str, name: str, pump: str | None) -> None:
    register_instrument(
        office,
        instrument,
        b.InstrumentRegistered(
            name=name,
            serial=f"{instrument}-33",
            sensors=SENSORS,
            pump_l_min=pump,
            hose_m="6" if pump else None,
            bore_mm="4" if pump else None,
            battery_h="14",
        ),
        by="P-01",
    )
    gases = {"oxygen": "18", "flammable": "50", "hydrogen-sulfide": "25", "carbon-monoxide": "100"}
    cylinder = b.Cylinder(name="mix 4", lot="L-88", expires=date(2027, 8, 1), gases=gases)
    calibrate(
        office,
        instrument,
        b.Calibrated(
            cylinder=cylinder,
            results=tuple(b.SpanResult(gas=g, applied=v, as_found=v, as_left=v) for g, v in gases.items()),
            passed=True,
            due=date(2027, 4, 1),
        ),
        by="P-01",
    )
    check_before_use(
        office,
        instrument,
        b.CheckedBeforeUse(
            self_test=True,
            alarm_heard=True,
            alarm_seen=True,
            alarm_felt=True,
            display_complete=True,
            housing_sound=True,
            battery_h="13",
            set_points_as_registered=True,
            block_stopped_s="3" if pump else None,
            fresh_air=b.FreshAir(
                place="yard", why_clean="upwind, no engine", oxygen_before="20.9", oxygen_after="20.9"
            ),
        ),
        by="P-01",
    )
    bump_test(
        office,
        instrument,
        b.BumpTested(
            check="calibration",
            cylinder=cylinder,
            results=tuple(b.SensorResult(gas=g, applied=v, reading=v, alarm_s="12") for g, v in gases.items()),
        ),
        by="P-01",
    )


def draft(one: Site, entrants: tuple[str, ...] = ("P-04", "P-05", "P-06")) -> Site:
    """A draft permit on which nothing bars authorizing, at about 08:20."""
    office = one.office
    one.number = open_permit(office, "wet-well-2", by="P-01")
    number = one.number
    now = office.now()
    describe_work(office, number, "change the float switch", by="P-01")
    plan_hours(office, number, now, now + timedelta(hours=7, minutes=30), by="P-01")
    for item in office.permit(number).form.items:
        if item.only_if:
            continue
        given = "no" if item.expect in ("no", "any") else "yes"
        answer(office, number, item.id, given, "seen today", by="P-01")
    for hazard in ("hydrogen-sulfide", "inflow"):
        hold_hazard(office, number, hazard, True, "as evaluated", by="P-01")
    isolate_point(office, number, "penstock", "lock 12", "P-01", True, "P-02", by="P-01")
    assign_instrument(office, number, "I-02", "test", "6", by="P-01")
    assign_instrument(office, number, "I-07", "worn", None, by="P-01")
    block_hose(office, number, "I-02", "4", by="P-01")
    one.read("20.9 0 0 0", "upwind", None)
    one.read("20.9 0 1 0", "through-lid", None, lowered=True)
    state_level(office, number, "4.2", "dipped", by="P-01")
    open_space(office, number, "rails", by="P-01")
    start_fan(office, number, "900", "gate side", "the attendant hears it", by="P-01")
    one.read("20.9 0 0 0", "duct", None)
    one.minutes(4)
    test_all_points(one, "ventilating")
    for person in entrants:
        name_person(office, number, person, "entrant", by="P-01")
    for person in ("P-02", "P-03"):
        name_person(office, number, person, "attendant", by="P-01")
    name_person(office, number, "P-01", "supervisor", by="P-01")
    confirm_rescue(office, number, "dispatcher 4", now + timedelta(hours=9), "8", by="P-01")
    try_call(office, number, "radio channel 4", "dispatcher 4", "6", by="P-01")
    crew = (*entrants, "P-02", "P-03")
    inks = [e.Ink(person=p, strokes=(((10 + i, 10, 0), (60, 40 + i, 90)),)) for i, p in enumerate(crew)]
    brief(office, number, inks, by="P-01")
    return one


def test_all_points(one: Site, phase: e.Phase) -> None:
    """Every point with its wait, all within limits."""
    for depth in points(one.office.permit(one.number)) or ():
        one.read("20.9 0 1 0", phase, str(depth), lowered=True)


def authorised(one: Site, entrants: tuple[str, ...] = ("P-04", "P-05", "P-06")) -> Site:
    """Authorized, nobody on watch yet."""
    draft(one, entrants)
    standing = barring(one.office.facts(one.number), Stage.AUTHORISE)
    assert not standing, [obstacle.sentence.say() for obstacle in standing]
    authorise(one.office, one.number, "P-01", CODES["P-01"], None)
    return one


def allowed(one: Site, entrants: tuple[str, ...] = ("P-04", "P-05", "P-06")) -> Site:
    """Oskar Wren on watch, entry allowed, nobody inside."""
    authorised(one, entrants)
    take_watch(one.office, one.number, "P-02")
    return one


def working(one: Site, entrants: tuple[str, ...] = ("P-04", "P-05", "P-06"), inside: int = 2) -> Site:
    """Some inside since half an hour, three sets taken, the last 7 minutes ago."""
    allowed(one, entrants)
    one.enter(*entrants[:inside])
    for figures in ("20.9 0 1 0", "20.8 0 2 1", "20.8 1 3 1"):
        one.minutes(11)
        one.read(figures)
        make_contact(one.office, one.number, by="P-02")
    one.minutes(7.3)
    return one
