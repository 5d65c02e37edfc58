"""An invented day at Osprel Bend Waterworks for the tests of Board and Filing: every act through its own door."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from itertools import count
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
from lamproom.office.answer import answer
from lamproom.office.assign_instrument import assign_instrument
from lamproom.office.authorise import authorise
from lamproom.office.begin_site import begin_site
from lamproom.office.brief import brief
from lamproom.office.bump_test import bump_test
from lamproom.office.calibrate import calibrate
from lamproom.office.check_before_use import check_before_use
from lamproom.office.clock import HandClock
from lamproom.office.confirm_figures import confirm_figures
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
from lamproom.office.state_level import state_level
from lamproom.office.take_readings import take_readings
from lamproom.office.take_watch import take_watch
from lamproom.office.test_hose import test_hose
from lamproom.office.try_call import try_call
from lamproom.permit import events as e
from lamproom.permit.asked import asked
from lamproom.permit.facts import points
from lamproom.permit.obstacles import Stage, barring
from lamproom.permit.people import PersonTrained, Role
from lamproom.permit.space import Hazard, IsolationPoint, Portal, RescuePlan, SpaceEvaluated, SpaceRegistered

CODE = "lantern-4417"
MARA, OSKAR, NIA, TEO, KIT, LENA, JUNO = "P-01", "P-02", "P-03", "P-04", "P-05", "P-06", "P-07"
PEOPLE: tuple[tuple[str, str, tuple[Role, ...]], ...] = (
    (OSKAR, "Oskar Wren", ("attendant",)),
    (NIA, "Nia Falk", ("attendant",)),
    (TEO, "Teo Amadi", ("entrant",)),
    (KIT, "Kit Sorrel", ("entrant",)),
    (LENA, "Lena Quist", ("entrant",)),
    (JUNO, "Juno Bexley", ("office", "supervisor")),
)
SPACES = (
    ("S-1", "Wet well 2", "Lift station North", "5.5"),
    ("S-2", "Valve chamber V-14", "East main", "3.2"),
    ("S-3", "Filter gallery sump", "Building C", "2.4"),
    ("S-4", "Lime silo 2", "Dosing house", "4.0"),
)
ODD = Sensor(
    gas="oxygen",
    unit="% vol",
    technology="galvanic",
    range_high="30",
    resolution="0.1",
    response_s="15",
    alarm_low="19.5",
    alarm_high="23.5",
)


def _sensor(gas: str, unit: str, high: str, alarm: str) -> Sensor:
    return Sensor(
        gas=gas, unit=unit, technology="cell", range_high=high, resolution="1", response_s="25", alarm_high=alarm
    )


SENSORS = (
    ODD,
    _sensor("flammable", "% LEL", "100", "10"),
    _sensor("hydrogen-sulfide", "ppm", "200", "10"),
    _sensor("carbon-monoxide", "ppm", "500", "35"),
)
GASES = {"oxygen": "18.0", "flammable": "50", "hydrogen-sulfide": "25", "carbon-monoxide": "100"}
CYLINDER = Cylinder(name="C-31", lot="L7", expires=date(2027, 6, 1), gases=GASES)


class Day:
    """The site at 06:20 local time, with instruments ready and nothing open yet."""

    def __init__(self, folder: Path) -> None:
        self.clock = HandClock(datetime(2026, 11, 25, 12, 10, tzinfo=UTC))
        self.office: Office = open_in_memory(self.clock, device_secret(folder), CHEAPEST)
        self._strokes = count(1)
        self._site()
        for id, name, place, depth in SPACES:
            self._space(id, name, place, depth)
        for id in ("03", "07", "08", "11"):
            self.instrument(id)

    def at(self, time: str) -> None:
        """Turn the clock to a local time of the day (UTC-6 in November)."""
        hour, minute = time.split(":")
        self.clock.turn_to(datetime(2026, 11, 25, 6 + int(hour), int(minute), tzinfo=UTC))

    def wait(self, **time: float) -> None:
        self.clock.pass_time(timedelta(**time))

    def _site(self) -> None:
        office = self.office

        def trained(role: Role) -> PersonTrained:
            return PersonTrained(role=role, trained_on=date(2026, 1, 12), trainer="Rui Lindqvist")

        roles: tuple[Role, ...] = ("supervisor", "keeper", "tester")
        begin_site(
            office,
            "Osprel Bend Waterworks",
            "America/Chicago",
            MARA,
            "Mara Velde",
            roles,
            tuple(trained(role) for role in roles),
            CODE,
            self.clock.sample().wall,
        )
        for person, name, parts in PEOPLE:
            code = f"code-of-{person}" if "entrant" not in parts else None
            register_person(
                office,
                person,
                name,
                parts,
                tuple(trained(role) for role in parts),
                by=MARA,
                code=code,
                keeper_code=CODE if code else None,
            )
        form, text = office.form("us-general-industry")
        if form.memory_figures:
            confirm_figures(office, text, "the text published today", by=MARA)

    def _space(self, id: str, name: str, place: str, depth: str) -> None:
        portal = Portal(name="cover", width_m="0.8")
        register_space(
            self.office,
            id,
            SpaceRegistered(
                name=name,
                place=place,
                shape="vertical-shaft",
                depth_m=depth,
                across_m="2.4",
                portal=portal,
                contents="sewage",
                body_can_enter=True,
                limited_way=True,
                not_for_occupancy=True,
                bad_air_possible=True,
                engulfment_possible=True,
                trapping_shape=False,
                other_hazard=False,
            ),
            by=MARA,
        )
        evaluate_space(
            self.office,
            id,
            SpaceEvaluated(
                by_name="Rui Lindqvist",
                qualified_as="safety engineer",
                review_by=date(2027, 3, 1),
                hazards=(
                    Hazard(
                        id="sulfide",
                        name="Hydrogen sulfide",
                        shows="rises from stirred sludge",
                        control="test every point; leave on any alarm",
                        gas="hydrogen-sulfide",
                    ),
                    Hazard(id="inflow", name="Engulfment", shows="inflow", control="gate shut", sort="engulfment"),
                ),
                isolation=(
                    IsolationPoint(id="gate", name="Inlet gate", holds="sewage", how="shut, locked", held_as="lockout"),
                ),
                unisolable=None,
                ventilation_needed=False,
                retest_points_m=("1.5",),
                rescue=RescuePlan(
                    service="Fire district 4",
                    means="phone",
                    then="radio",
                    response_min="9",
                    retrieval="winch",
                    **CAPABLE,
                ),
                communication="voice and radio channel 4",
                equipment="harness, light",
                standing={},
            ),
            by=MARA,
        )

    def instrument(self, id: str) -> None:
        """Register an instrument, calibrate it, check it and bump test it."""
        office = self.office
        registered = InstrumentRegistered(
            name=f"Instrument {id}", serial=f"SN-{id}", sensors=SENSORS, pump_l_min="0.5", hose_m="6", bore_mm="3"
        )
        register_instrument(office, id, registered, by=MARA)
        spans = tuple(SpanResult(gas=gas, applied=c, as_found=c, as_left=c) for gas, c in GASES.items())
        calibration = Calibrated(cylinder=CYLINDER, results=spans, passed=True, due=date(2027, 2, 1))
        calibrate(office, id, calibration, by=MARA)
        air = FreshAir(place="yard", why_clean="upwind, no engine", oxygen_before="20.9", oxygen_after="20.9")
        check_before_use(
            office,
            id,
            CheckedBeforeUse(
                self_test=True,
                alarm_heard=True,
                alarm_seen=True,
                alarm_felt=True,
                display_complete=True,
                housing_sound=True,
                battery_h="10",
                set_points_as_registered=True,
                block_stopped_s="6",
                fresh_air=air,
            ),
            by=MARA,
        )
        self.bump(id)

    def bump(self, id: str, alarm_s: str | None = "12") -> None:
        results = tuple(SensorResult(gas=gas, applied=c, reading=c, alarm_s=alarm_s) for gas, c in GASES.items())
        bump_test(self.office, id, BumpTested(check="calibration", cylinder=CYLINDER, results=results), by=MARA)

    def open(self, space: str, begins: str, ends: str, purpose: str = "Replace the float switch.") -> str:
        """A draft with its purpose and hours."""
        number = open_permit(self.office, space, by=MARA)
        describe_work(self.office, number, purpose, by=MARA)
        plan_hours(self.office, number, self.time(begins), self.time(ends), by=MARA)
        name_person(self.office, number, MARA, "supervisor", by=MARA)
        return number

    def time(self, local: str) -> datetime:
        hour, minute = local.split(":")
        return datetime(2026, 11, 25, 6 + int(hour), int(minute), tzinfo=UTC)

    def figures(self, oxygen: str = "20.9", sulfide: str = "0", monoxide: str = "0") -> tuple[e.Figure, ...]:
        return (
            e.Figure(gas="oxygen", unit="% vol", figure=oxygen),
            e.Figure(gas="flammable", unit="% LEL", figure="0"),
            e.Figure(gas="hydrogen-sulfide", unit="ppm", figure=sulfide),
            e.Figure(gas="carbon-monoxide", unit="ppm", figure=monoxide),
        )

    def read(self, number: str, phase: e.Phase, point: str | None, instrument: str, **figures: str) -> None:
        """Lower the probe, wait, note the figures."""
        lowered = self.office.now()
        self.wait(seconds=90)
        take_readings(self.office, number, phase, point, instrument, self.figures(**figures), by=MARA, lowered=lowered)

    def call(self, number: str) -> None:
        """Word with those inside."""
        make_contact(self.office, number, by=self.office.permit(number).attendant)

    def prepare(self, number: str, instrument: str, attendant: str, *entrants: str) -> None:
        """Everything between the draft and the signature."""
        office = self.office
        assign_instrument(office, number, instrument, "test", "6", by=MARA)
        test_hose(office, number, instrument, "6", by=MARA)
        for hazard in ("sulfide", "inflow"):
            hold_hazard(office, number, hazard, True, "as evaluated", by=MARA)
        isolate_point(office, number, "gate", "L-12", MARA, True, OSKAR, by=MARA)
        state_level(office, number, None, "seen dry with a lamp", by=MARA)
        for item in office.permit(number).form.items:
            if not asked(office.facts(number), item):
                continue
            reply = "no" if item.id in ("different-today", "other-work", "other-permits") else "yes"
            answer(office, number, item.id, reply, "seen at the place", by=MARA)  # type: ignore[arg-type]
        self.read(number, "upwind", None, instrument)
        self.read(number, "through-lid", None, instrument)
        open_space(office, number, "rails and a guard", by=MARA)
        for depth in points(office.permit(number)) or ():
            self.read(number, "open", str(depth), instrument)
        for entrant in entrants:
            name_person(office, number, entrant, "entrant", by=MARA)
        name_person(office, number, attendant, "attendant", by=MARA)
        hours = office.permit(number).hours
        assert hours is not None
        confirm_rescue(office, number, "duty officer", hours.ends, "9", by=MARA)
        try_call(office, number, "phone", "duty officer", "8", by=MARA)
        brief(office, number, [self.ink(person) for person in (*entrants, attendant, MARA)], by=MARA)

    def ink(self, person: str) -> e.Ink:
        n = next(self._strokes)
        stroke = tuple((100 + 40 * i, 500 + (n * 37 * i) % 300, 20 * i) for i in range(12))
        return e.Ink(person=person, strokes=(stroke,))

    def authorise(self, number: str) -> None:
        authorise(self.office, number, MARA, CODE, self.ink(MARA))

    def run(self, space: str, begins: str, ends: str, instrument: str, attendant: str, *entrants: str) -> str:
        """A permit from its opening until its entrants are inside."""
        number = self.open(space, begins, ends)
        self.prepare(number, instrument, attendant, *entrants)
        self.authorise(number)
        self.at(begins)
        take_watch(self.office, number, attendant)
        for entrant in entrants:
            go_in(self.office, number, entrant, by=attendant)
            self.wait(minutes=1)
        return number

    def standing(self, number: str, stage: Stage = Stage.AUTHORISE) -> Iterator[str]:
        return (one.sentence.say() for one in barring(self.office.facts(number), stage))

    def running(self) -> str:
        """The first permit that is running with people inside."""
        return next(
            n for n in self.office.ids("permit") if self.office.permit(n).running and self.office.permit(n).tally.inside
        )
