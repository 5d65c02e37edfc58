"""Two invented entries by the shorter routes, lived through the office: a meter vault whose only hazard is its air
(29 CFR 1910.146(c)(5)) and a mixer whose hazards were eliminated ((c)(7))."""

from __future__ import annotations

from datetime import date, timedelta

from tests.capable import CAPABLE
from tests.desk.watch import crew

from lamproom.office.answer import answer
from lamproom.office.assign_instrument import assign_instrument
from lamproom.office.authorise import authorise
from lamproom.office.describe_work import describe_work
from lamproom.office.evaluate_space import evaluate_space
from lamproom.office.hold_hazard import hold_hazard
from lamproom.office.isolate_point import isolate_point
from lamproom.office.name_person import name_person
from lamproom.office.open_permit import open_permit
from lamproom.office.open_space import open_space
from lamproom.office.plan_hours import plan_hours
from lamproom.office.register_space import register_space
from lamproom.office.start_fan import start_fan
from lamproom.office.state_basis import state_basis
from lamproom.office.state_level import state_level
from lamproom.office.test_hose import test_hose as block_hose
from lamproom.permit import events as e
from lamproom.permit.asked import asked
from lamproom.permit.obstacles import Stage, barring
from lamproom.permit.space import (
    AlternateBasis,
    Hazard,
    IsolationPoint,
    Portal,
    RescuePlan,
    SpaceEvaluated,
    SpaceRegistered,
)

INK = e.Ink(person="P-01", strokes=(((100, 500, 0), (300, 200, 90), (600, 700, 200), (900, 300, 300)),))


def _space(site: crew.Site, id: str, registered: dict[str, object], evaluated: dict[str, object]) -> None:
    shape: dict[str, object] = {
        "shape": "vault",
        "depth_m": "2.4",
        "across_m": "2.0",
        "portal": Portal(name="hatch", width_m="0.8"),
        "body_can_enter": True,
        "limited_way": True,
        "not_for_occupancy": True,
        "engulfment_possible": False,
        "trapping_shape": False,
        "other_hazard": False,
    }
    register_space(site.office, id, SpaceRegistered.model_validate(shape | registered), by="P-01")
    plan = RescuePlan(
        service="Osprel Bend Fire Department",
        means="radio channel 4",
        then="telephone 911, gate 3",
        response_min="8",
        retrieval="winch over the hatch",
        **CAPABLE,
    )
    known: dict[str, object] = {
        "by_name": "Juno Bexley",
        "qualified_as": "industrial hygienist",
        "review_by": date(2027, 6, 1),
        "isolation": (),
        "unisolable": None,
        "retest_points_m": ("1.8",),
        "rescue": plan,
        "communication": "voice",
        "equipment": "ladder, lamp",
        "standing": {},
    }
    evaluate_space(site.office, id, SpaceEvaluated.model_validate(known | evaluated), by="P-01")


def _begin(site: crew.Site, space: str, route: e.Route, work: str, entrants: tuple[str, ...]) -> str:
    office = site.office
    site.number = number = open_permit(office, space, by="P-01", route=route)
    describe_work(office, number, work, by="P-01")
    now = office.now()
    plan_hours(office, number, now, now + timedelta(hours=3), by="P-01")
    for person in entrants:
        name_person(office, number, person, "entrant", by="P-01")
    name_person(office, number, "P-01", "supervisor", by="P-01")
    return number


def _answer(site: crew.Site) -> None:
    facts = site.office.facts(site.number)
    for item in facts.permit.form.items:
        if asked(facts, item):
            given = "no" if item.expect in ("no", "any") else "yes"
            answer(site.office, site.number, item.id, given, "seen today", by="P-01")  # type: ignore[arg-type]


def vault(site: crew.Site, entrants: tuple[str, ...] = ("P-04", "P-05"), certified: bool = True) -> str:
    """An entry by the alternate procedures; certified unless it is left a draft."""
    hazards = (
        Hazard(
            id="low-oxygen",
            name="Lack of oxygen",
            shows="no sign before collapse",
            control="air blown in",
            gas="oxygen",
            sort="atmosphere",
        ),
        Hazard(
            id="co",
            name="Carbon monoxide from the road",
            shows="headache",
            control="blown out",
            gas="carbon-monoxide",
            sort="atmosphere",
        ),
    )
    basis = AlternateBasis(
        monitoring="binder 4, sheets 1 to 14, worst 20.4 % oxygen without the fan, 20.9 % with it",
        inspection="binder 4, sheet 15: no pipe under pressure, fixed ladder, no water",
        ventilation_alone=True,
        decided_by="Juno Bexley",
        decided_on=date(2026, 5, 4),
    )
    _space(
        site,
        "meter-vault-9",
        {"name": "Meter vault 9", "place": "Lark Road", "contents": "meter, dry", "bad_air_possible": True},
        {"hazards": hazards, "ventilation_needed": True, "alternate": basis},
    )
    number = _begin(site, "meter-vault-9", "alternate", "Read and replace the meter", entrants)
    office = site.office
    assign_instrument(office, number, "I-02", "test", "6", by="P-01")
    block_hose(office, number, "I-02", "4", by="P-01")
    for hazard in hazards:
        hold_hazard(office, number, hazard.id, True, "air blown in, tested at every point", by="P-01")
    site.read("20.9 0 0 0", "upwind", None)
    site.read("20.6 0 0 2", "through-lid", None, lowered=True)
    state_level(office, number, None, "lamp through the hatch", by="P-01")
    open_space(office, number, "rails on four sides; lid lifted after the test", by="P-01")
    start_fan(office, number, "900", "the field side, upwind", "a streamer at the duct", by="P-01")
    site.read("20.9 0 0 0", "duct", None)
    site.minutes(20)
    crew.test_all_points(site, "ventilating")
    _answer(site)
    if certified:
        certify(site)
    return number


def mixer(site: crew.Site, entrants: tuple[str, ...] = ("P-04",), certified: bool = True) -> str:
    """An entry into a reclassified space; certified unless it is left a draft."""
    hazards = (
        Hazard(id="blades", name="Mixing blades", shows="they turn", control="locked out", sort="energy"),
        Hazard(id="fall", name="Fall into the bowl", shows="2.4 m deep", control="platform set in", sort="fall"),
    )
    point = IsolationPoint(id="drive", name="Drive M-4", holds="rotation", how="locked out at MCC 2", held_as="lockout")
    _space(
        site,
        "mixer-4",
        {
            "name": "Lime mixer 4",
            "place": "Dosing house",
            "contents": "empty, washed",
            "bad_air_possible": False,
            "other_hazard": True,
        },
        {"hazards": hazards, "ventilation_needed": False, "isolation": (point,)},
    )
    number = _begin(site, "mixer-4", "reclassified", "Change the liner", entrants)
    office = site.office
    for hazard in hazards:
        hold_hazard(office, number, hazard.id, True, f"{hazard.control}, tried", eliminated=True, by="P-01")
    isolate_point(office, number, "drive", "lock 12", "P-01", True, "P-02", by="P-01")
    open_space(office, number, "rails on four sides", by="P-01")
    state_basis(office, number, "Drive locked out and tried; bowl washed, inspected from the platform", by="P-01")
    _answer(site)
    if certified:
        certify(site)
    return number


def certify(site: crew.Site) -> None:
    """Nothing bars it, and the supervisor signs."""
    standing = barring(site.office.facts(site.number), Stage.AUTHORISE)
    assert not standing, [obstacle.sentence.say() for obstacle in standing]
    site.minutes(1)
    authorise(site.office, site.number, "P-01", crew.CODES["P-01"], INK)
