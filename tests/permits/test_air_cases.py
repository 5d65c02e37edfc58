"""Air that must be refused, air that says nothing, and ordinary air that must pass without a word: each told in a
document, judged by `assess` and shown by the window's own views, beside the same permit with good air."""

from __future__ import annotations

import json
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from tests.permits.lived import lived

from lamproom.intake.permit_document import example, read_document
from lamproom.office.assess import assess
from lamproom.office.opening import forms_at_hand
from lamproom.office.views.cautions import caution_lines, cautions_of
from lamproom.office.views.workbook import workbook
from lamproom.permit.obstacles import Stage

Told = dict[str, Any]
BEFORE_SIGNING = "2026-11-17T08:40:00-06:00"


def drafted() -> Told:
    """The example, complete, at the moment before it is signed."""
    told: Told = json.loads(example())
    told["at"] = BEFORE_SIGNING
    told["happened"] = [act for act in told["happened"] if act["at"] < BEFORE_SIGNING]
    return told


def sets(told: Told, phase: str = "ventilating") -> list[Told]:
    return [act for act in told["happened"] if act["what"] == "readings-taken" and act.get("phase") == phase]


def put(one: Told, gas: str, figure: float, unit: str = "") -> None:
    for known in one["figures"]:
        if known["gas"] == gas:
            known["figure"] = figure
            return
    one["figures"].append({"gas": gas, "unit": unit, "figure": figure})


def everywhere(gas: str, *figures: float) -> Callable[[Told], None]:
    """A gas at the points, from the top down; one figure stands for all."""

    def change(told: Told) -> None:
        points = sets(told)
        for at, one in enumerate(points):
            put(one, gas, figures[min(at, len(figures) - 1)])

    return change


def all_of(*changes: Callable[[Told], None]) -> Callable[[Told], None]:
    def change(told: Told) -> None:
        for one in changes:
            one(told)

    return change


def hazard(gas: str, name: str) -> Callable[[Told], None]:
    def change(told: Told) -> None:
        told["evaluation"]["hazards"].append(
            {"id": gas, "name": name, "shows": "no sign", "control": "air blown in", "gas": gas, "sort": "atmosphere"}
        )
        held = next(act for act in told["happened"] if act["what"] == "hazard-held")
        told["happened"].append({**held, "hazard": gas, "how": "air blown in"})

    return change


def sensor(gas: str, unit: str, technology: str, top: str, applied: str) -> Callable[[Told], None]:
    """The instrument also has this sensor, calibrated and bump tested like the others."""

    def change(told: Told) -> None:
        one = told["instruments"][0]
        one["sensors"].append(
            {"gas": gas, "unit": unit, "technology": technology, "range_high": top, "resolution": "1",
             "response_s": "30"}
        )  # fmt: skip
        for act in one["happened"]:
            if act["what"] in ("calibrated", "bump-tested"):
                act["cylinder"]["gases"][gas] = applied
                row = {"gas": gas, "applied": applied}
                if act["what"] == "calibrated":
                    act["results"].append({**row, "as_found": applied, "as_left": applied})
                else:
                    act["results"].append({**row, "reading": applied, "alarm_s": "20"})

    return change


def flammable_with(**fields: Any) -> Callable[[Told], None]:
    def change(told: Told) -> None:
        next(s for s in told["instruments"][0]["sensors"] if s["gas"] == "flammable").update(fields)

    return change


def damp(yard: tuple[str, str] | None, inside: tuple[str, str] | None) -> Callable[[Told], None]:
    def change(told: Told) -> None:
        for where, phase in ((yard, "upwind"), (inside, "ventilating")):
            for one in sets(told, phase):
                if where is not None:
                    one["temperature_c"], one["humidity_pct"] = where

    return change


def at_altitude(meters: str, oxygen: float) -> Callable[[Told], None]:
    """High above the sea, where this place's own fresh air reads this much, at set-up as upwind."""

    def change(told: Told) -> None:
        told["space"]["altitude_m"] = meters
        for act in told["instruments"][0]["happened"]:
            if act["what"] == "checked-before-use":
                act["fresh_air"]["oxygen_before"] = act["fresh_air"]["oxygen_after"] = oxygen
        for one in (*sets(told, "upwind"), *sets(told, "through-lid"), *sets(told, "duct"), *sets(told)):
            put(one, "oxygen", oxygen)

    return change


def no_bottom(told: Told) -> None:
    told["happened"].remove(sets(told)[-1])


def fan_moved_after(told: Told) -> None:
    started = next(act for act in told["happened"] if act["what"] == "ventilation-started")
    told["happened"].append({**deepcopy(started), "at": "2026-11-17T08:30:00-06:00", "intake": "behind the pump house"})
    read = deepcopy(sets(told, "duct")[0])
    read["at"] = read["taken"] = "2026-11-17T08:32:00-06:00"
    told["happened"].append(read)


def early(told: Told) -> None:
    """The probe rested 5 s at the lowest point: less than hose and sensor need."""
    sets(told)[-1]["lowered"] = "2026-11-17T08:28:55-06:00"


METHANE = hazard("methane", "Methane")
CARBON_DIOXIDE = all_of(
    hazard("carbon-dioxide", "Carbon dioxide"), sensor("carbon-dioxide", "ppm", "infrared", "50000", "5000")
)
TOLUENE_SHEET = {"vapour": "toluene", "factor": "2.6", "source": "maker's sheet 12", "dated": "2026-03-01"}


@dataclass(frozen=True, slots=True)
class Case:
    """What is changed, the codes that must stand before signing, the cautions that must be said."""

    change: Callable[[Told], None]
    codes: frozenset[str] = frozenset()
    cautions: frozenset[str] = frozenset()


def bad(change: Callable[[Told], None], *codes: str) -> Case:
    return Case(change, frozenset(codes))


def with_carbon_dioxide(*figures: float) -> Callable[[Told], None]:
    def change(told: Told) -> None:
        CARBON_DIOXIDE(told)
        for phase in ("upwind", "through-lid", "duct", "ventilating"):
            for at, one in enumerate(sets(told, phase)):
                value = figures[min(at, len(figures) - 1)] if phase == "ventilating" else 400
                put(one, "carbon-dioxide", value, "ppm")

    return change


CASES: dict[str, Case] = {
    # refused
    "oxygen 20.4, all else zero, nothing to explain it": bad(everywhere("oxygen", 20.4), "unaccounted"),
    "3 % LEL on a methane sensor in a toluene tank": bad(
        all_of(hazard("toluene", "Toluene"), everywhere("flammable", 3)), "gas-unseen"
    ),
    "a factor for toluene makes no toxic figure of it": bad(
        all_of(hazard("toluene", "Toluene"), flammable_with(factors=[TOLUENE_SHEET])), "gas-unseen"
    ),
    "hydrogen on a methane sensor without a factor": bad(hazard("hydrogen", "Hydrogen"), "vapor-factor-missing"),
    "carbon dioxide 11,000 ppm with oxygen 20.6": bad(
        all_of(with_carbon_dioxide(400, 400, 400, 11000), everywhere("oxygen", 20.9, 20.9, 20.9, 20.6)),
        "reading-outside",
    ),
    "carbon dioxide not read where it is a hazard": bad(
        CARBON_DIOXIDE, "lid-not-tested", "duct-not-tested", "point-not-tested"
    ),
    "top 20.9, middle 20.9, bottom 4.7": bad(
        everywhere("oxygen", 20.9, 20.9, 20.9, 4.7), "reading-outside", "unaccounted", "flammable-void"
    ),
    "carbon monoxide 60 for half an hour": bad(everywhere("carbon-monoxide", 60), "reading-outside"),
    "hydrogen sulfide 14 at one point of many": bad(everywhere("hydrogen-sulfide", 9, 9, 14, 9), "reading-outside"),
    "the bottom not read": bad(no_bottom, "point-not-tested"),
    "readings from before the fan was moved": bad(fan_moved_after, "point-not-tested"),
    "20.5 that dampness would explain, but nobody measured it": bad(everywhere("oxygen", 20.5), "unaccounted"),
    "20.5, damp inside, the yard not measured": bad(
        all_of(everywhere("oxygen", 20.5), damp(None, ("22", "100"))), "unaccounted"
    ),
    "20.9 in a cellar so dry against a muggy yard that clean air would read 21.4": bad(
        all_of(everywhere("oxygen", 20.9), damp(("35", "70"), ("16", "95"))), "unaccounted"
    ),
    # void, early
    "flammable 8 % with oxygen 9 %": bad(
        all_of(everywhere("flammable", 0, 0, 0, 8), everywhere("oxygen", 20.9, 20.9, 20.9, 9)),
        "reading-outside", "unaccounted", "flammable-void",
    ),
    "a sensor whose maker asks for more oxygen than is here": bad(
        all_of(flammable_with(needs_oxygen="20.8"), everywhere("oxygen", 20.7)),
        "flammable-void", "point-not-tested", "lid-not-tested",
    ),
    "noted 5 s after the probe came down": bad(early, "reading-early"),
    # allowed, with a caution
    "20.5 in air of 22 °C, saturated, from a yard of 5 °C and 70 %": Case(
        all_of(everywhere("oxygen", 20.5), damp(("5", "70"), ("22", "100"))), cautions=frozenset({"damp-air"})
    ),
    "19.6 % at 2,400 m, where the fresh air itself reads so": Case(
        at_altitude("2400", 19.6), cautions=frozenset({"thin-air"})
    ),
    # allowed without a word
    "21.4 in a cellar so dry against a muggy yard that clean air reads so": Case(
        all_of(everywhere("oxygen", 21.4), damp(("35", "70"), ("16", "95")))
    ),
    "20.9 in a cellar on a warm day": Case(all_of(everywhere("oxygen", 20.9), damp(("28", "60"), ("15", "95")))),
    "20.8 and zeros": Case(everywhere("oxygen", 20.8)),
    "20.9 at 2,400 m": Case(at_altitude("2400", 20.9)),
    "unmoved 20.9 and zeros": Case(everywhere("oxygen", 20.9)),
    "methane, oxygen and LEL right": Case(all_of(METHANE, everywhere("flammable", 0))),
    "carbon dioxide read and low": Case(with_carbon_dioxide(600)),
    "hydrogen with the maker's factor": Case(
        all_of(hazard("hydrogen", "Hydrogen"), flammable_with(factors=[{**TOLUENE_SHEET, "vapour": "hydrogen"}]))
    ),
    "an infrared sensor needs no oxygen to speak of": Case(
        all_of(flammable_with(technology="infrared", needs_oxygen="20.8"), everywhere("oxygen", 20.7))
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_before_signing(name: str, tmp_path: Path) -> None:
    case = CASES[name]
    told = drafted()
    case.change(told)
    document = read_document(json.dumps(told))
    answer = assess(document, forms_at_hand(), Stage.AUTHORISE)
    assert answer.not_taken == ()
    assert {one.code for one in answer.standing} == case.codes, [one.sentence.say() for one in answer.standing]
    if not case.codes:
        assert {one.code for one in answer.cautions} - QUIET == case.cautions
    site = lived(document, tmp_path)
    assert {one.code for one in workbook(site.office, site.number).obstacles} == case.codes
    assert cautions_of(site.office, site.number) == caution_lines(answer.facts)


QUIET = frozenset({"summons"})
"""A caution of the example itself: its rescue is called from outside."""


def test_a_toluene_tank_is_told_what_ten_percent_of_its_lel_hides() -> None:
    """10 % of 1.1 vol% is 1,100 ppm (NIOSH documentation, 1994, prints both), 5.5 times the 200 ppm of Table Z-2."""
    told = drafted()
    hazard("toluene", "Toluene")(told)
    said = [one.sentence.say() for one in assess(read_document(json.dumps(told)), forms_at_hand()).cautions]
    assert any("1,100 ppm" in words and "5.5 times" in words for words in said), said


def test_a_factor_turns_three_percent_into_more_than_the_limit() -> None:
    """as_vapor: 4 % LEL shown x 2.6 = 10.4 % LEL, past 10."""
    for shown, stands in (("3", set()), ("4", {"reading-outside"})):
        told = drafted()
        hazard("hydrogen", "Hydrogen")(told)
        flammable_with(factors=[{**TOLUENE_SHEET, "vapour": "hydrogen"}])(told)
        everywhere("flammable", float(shown))(told)
        answer = assess(read_document(json.dumps(told)), forms_at_hand(), Stage.AUTHORISE)
        assert {one.code for one in answer.standing} == stands


def test_a_figure_in_volume_percent_is_compared_in_the_unit_of_its_limit() -> None:
    """0.6 vol% of carbon dioxide is 6,000 ppm, past the 5,000 ppm of 29 CFR 1910.1000 Table Z-1."""
    told = drafted()
    with_carbon_dioxide(400)(told)
    for figure in sets(told)[-1]["figures"]:
        if figure["gas"] == "carbon-dioxide":
            figure["unit"], figure["figure"] = "% vol", "0.6"
    answer = assess(read_document(json.dumps(told)), forms_at_hand(), Stage.AUTHORISE)
    assert "reading-outside" in {one.code for one in answer.standing}


def test_a_second_flammable_sensor_without_the_factor_bars_since_it_may_take_the_next_set() -> None:
    told = drafted()
    hazard("hydrogen", "Hydrogen")(told)
    spare = deepcopy(told["instruments"][0])
    flammable_with(factors=[{**TOLUENE_SHEET, "vapour": "hydrogen"}])(told)
    spare["id"], spare["name"] = "08", "Instrument 08"
    told["instruments"].append(spare)
    assigned = next(act for act in told["happened"] if act["what"] == "instrument-assigned")
    told["happened"].append({**assigned, "instrument": "08", "duty": "worn"})
    answer = assess(read_document(json.dumps(told)), forms_at_hand(), Stage.AUTHORISE)
    assert "vapor-factor-missing" in {one.code for one in answer.standing}


def test_flammable_gas_in_volume_percent_explains_no_missing_oxygen() -> None:
    """Whether such a figure stands (oxygen, range) is judged in % LEL alone; 2 vol% would hide 20,000 ppm."""
    told = drafted()
    everywhere("oxygen", 20.4)(told)
    for figure in sets(told)[-1]["figures"]:
        if figure["gas"] == "flammable":
            figure["unit"], figure["figure"] = "% vol", "2"
    answer = assess(read_document(json.dumps(told)), forms_at_hand(), Stage.AUTHORISE)
    assert {one.found.subject for one in answer.standing if one.code == "unaccounted"} >= {"3.1"}
