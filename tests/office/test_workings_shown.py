"""Every figure of the air test opens its workings; each is made of what it shows, and of nothing else."""

from __future__ import annotations

import json
from collections.abc import Iterator
from copy import deepcopy
from decimal import Decimal
from pathlib import Path

import pytest
from tests.permits.lived import Lived, lived
from tests.permits.test_air_cases import (
    CASES,
    TOLUENE_SHEET,
    Told,
    all_of,
    at_altitude,
    damp,
    drafted,
    everywhere,
    flammable_with,
    hazard,
    put,
    sets,
)

from lamproom.air.decay import FEWEST
from lamproom.air.working import Working
from lamproom.air.working_list import WORKINGS
from lamproom.air.workings import Form, again, typed_of, work_out
from lamproom.intake.permit_document import read_document
from lamproom.office.views.air_test_sheet import air_test_view
from lamproom.office.views.air_working import working_view
from lamproom.office.views.purge import purge_of
from lamproom.words import Refusal

PURGED = ("90", "72", "58", "46", "37", "29", "24")


def purged(*levels: str) -> object:
    """The lowest point read again and again while the fan runs, every two minutes."""

    def change(told: Told) -> None:
        last = sets(told)[-1]
        told["happened"] = [act for act in told["happened"] if act is not last]
        for at, level in enumerate(levels):
            one = deepcopy(last)
            one["lowered"] = f"2026-11-17T08:{24 + 2 * at:02d}:00-06:00"
            one["at"] = one["taken"] = f"2026-11-17T08:{25 + 2 * at:02d}:30-06:00"
            put(one, "hydrogen-sulfide", float(level))
            told["happened"].append(one)

    return change


def round_space(told: Told) -> None:
    told["space"]["shape"] = "vertical-shaft"


def unseen(told: Told) -> None:
    """So much oxygen is missing, beside some gas, that every input of the displacement matters."""
    all_of(everywhere("oxygen", 19.9), everywhere("flammable", 3), damp(("5", "70"), ("22", "90")))(told)


EXTRA = {
    "much missing, some gas, some water, high above the sea": all_of(at_altitude("2400", 20.6), unseen),
    "toluene with the maker's factor": all_of(
        hazard("toluene", "Toluene"), flammable_with(factors=[TOLUENE_SHEET]), everywhere("flammable", 3)
    ),
    "a purge": all_of(round_space, purged(*PURGED)),  # type: ignore[arg-type]
}
TOLD = {name: case.change for name, case in CASES.items()} | EXTRA


def site_of(name: str, folder: Path) -> Lived:
    told = drafted()
    TOLD[name](told)
    return lived(read_document(json.dumps(told)), folder)


def workings_of(site: Lived) -> Iterator[Working]:
    """Every working that the air test can show of this permit."""
    view = air_test_view(site.office, site.number)
    for value in view.values:
        shown = working_view(site.office, site.number, value.set_version, value.gas)
        assert shown is not None
        for page in shown.pages:
            yield from page.workings
        purge = purge_of(site.office, site.number, value.gas, value.depth)
        if purge is not None:
            yield from purge.page.workings
    for tester in view.testers:
        for page in tester.pages:
            yield from page.workings


@pytest.mark.parametrize("name", TOLD)
def test_no_figure_stands_without_its_workings(name: str, tmp_path: Path) -> None:
    site = site_of(name, tmp_path)
    view = air_test_view(site.office, site.number)
    assert (view.values or view.old) and view.testers
    assert all(len(tester.pages) == 3 for tester in view.testers)
    for value in view.values:
        shown = working_view(site.office, site.number, value.set_version, value.gas)
        assert shown is not None and shown.pages[0].workings, value
        for page in shown.pages:
            assert page.name and page.title and page.steps and page.workings


def moves(working: Working, key: str) -> bool:
    """Does another figure for one input give another result, another interval, or a refusal?"""
    entry = next(entry for entry in WORKINGS if entry.key == working.key)
    ask = next(ask for ask in entry.asks if ask.key == key or key in ask.parts)
    for factor in (Decimal("0.5"), Decimal("1.3"), Decimal(0), Decimal(100)):
        inputs = tuple(one if one.key != key else deepcopy_with(one, factor) for one in working.inputs)
        try:
            other = work_out(entry, typed_of(entry, inputs))
        except Refusal:
            return True
        if (other.result, other.low, other.high, other.validity) != (
            working.result,
            working.low,
            working.high,
            working.validity,
        ):
            return True
    return ask.form is Form.WORD


def deepcopy_with(one, factor: Decimal):  # type: ignore[no-untyped-def]
    value = (Decimal(one.value.replace("\u2212", "-")) * factor).quantize(Decimal("0.0001")).normalize()
    return type(one)(one.name, f"{value:f}", one.unit, one.source, one.key, one.gas)


def test_every_working_is_worked_out_again_from_what_it_shows_and_every_input_of_it_moves_it(tmp_path: Path) -> None:
    """A figure that is shown and changes nothing would be a decoration; each input moves some working of its kind."""
    seen: set[tuple[str, str]] = set()
    moved: set[tuple[str, str]] = set()
    kinds: set[str] = set()
    for at, name in enumerate(TOLD):
        folder = tmp_path / str(at)
        folder.mkdir()
        for working in set(workings_of(site_of(name, folder))):
            twice = again(WORKINGS, working)
            assert (twice.result, twice.low, twice.high) == (working.result, working.low, working.high), working
            kinds.add(working.key)
            words = {ask.key for e in WORKINGS if e.key == working.key for ask in e.asks if ask.form is Form.WORD}
            for one in working.inputs:
                if one.key and one.key not in words and _figure(one.value):
                    seen.add((working.key, one.key))
                    if (working.key, one.key) not in moved and moves(working, one.key):
                        moved.add((working.key, one.key))
    assert seen - moved == set()
    assert kinds >= {
        "unaccounted", "water_vapor", "partial_pressure", "air_pressure", "share_of_limit", "lel_in_ppm", "as_vapor",
        "toxic_at_lel", "entry_figure", "wait", "points", "decay_rate", "effective_changes", "fitted_mixing",
        "fitted_steady", "time_to", "round_volume",
    }  # fmt: skip


def _figure(text: str) -> bool:
    return text.replace("\u2212", "").replace(".", "").isdigit()


def test_the_purge_says_when_the_limit_is_met_and_never_that_it_is(tmp_path: Path) -> None:
    """90 falling by a fifth every two minutes: 10 ppm about 20 min after the first, by hand: 2 x ln 9 / ln 1.25."""
    site = site_of("a purge", tmp_path)
    view = air_test_view(site.office, site.number)
    deepest = max(view.points)[1].removesuffix(" m")
    purge = purge_of(site.office, site.number, "hydrogen-sulfide", deepest)
    assert purge is not None and purge.curve and purge.meets is not None
    first = purge.marks[0].minutes
    assert purge.meets[0] - first == pytest.approx(19.7, abs=1.5)
    low, high = purge.meets[1:]
    assert low is not None and low <= purge.meets[0] and (high is None or high >= purge.meets[0])
    assert "Read again then" in purge.says and "Only a reading allows" in purge.page.aside


@pytest.mark.parametrize("count", range(1, FEWEST))
def test_with_fewer_readings_the_purge_cannot_tell_yet_and_says_how_many_it_has(count: int, tmp_path: Path) -> None:
    told = drafted()
    purged(*PURGED[:count])(told)  # type: ignore[operator]
    site = lived(read_document(json.dumps(told)), tmp_path)
    deepest = max(air_test_view(site.office, site.number).points)[1].removesuffix(" m")
    purge = purge_of(site.office, site.number, "hydrogen-sulfide", deepest)
    assert purge is not None and not purge.curve and purge.meets is None
    assert purge.says.startswith(f"Cannot tell yet: {count} of {FEWEST}")


def test_a_level_that_does_not_fall_is_said_so_plainly(tmp_path: Path) -> None:
    told = drafted()
    purged("40", "41", "39", "42", "40", "41")(told)  # type: ignore[operator]
    site = lived(read_document(json.dumps(told)), tmp_path)
    deepest = max(air_test_view(site.office, site.number).points)[1].removesuffix(" m")
    purge = purge_of(site.office, site.number, "hydrogen-sulfide", deepest)
    assert purge is not None and purge.says.startswith("Not falling") and not purge.curve


def test_a_reading_noted_before_its_time_is_no_point_of_the_curve(tmp_path: Path) -> None:
    told = drafted()
    purged(*PURGED)(told)  # type: ignore[operator]
    hasty = sets(told)[-1]
    hasty["lowered"] = hasty["taken"]
    site = lived(read_document(json.dumps(told)), tmp_path)
    deepest = max(air_test_view(site.office, site.number).points)[1].removesuffix(" m")
    purge = purge_of(site.office, site.number, "hydrogen-sulfide", deepest)
    assert purge is not None and len(purge.marks) == len(PURGED) - 1


def test_a_flammable_figure_that_low_oxygen_spoils_is_said_not_to_count(tmp_path: Path) -> None:
    site = site_of("flammable 8 % with oxygen 9 %", tmp_path)
    view = air_test_view(site.office, site.number)
    value = next(v for v in view.values if v.gas == "flammable" and v.figure == "8")
    shown = working_view(site.office, site.number, value.set_version, "flammable")
    assert shown is not None
    assert any("not taken" in step.how and "9" in step.how for step in shown.pages[0].steps)


def test_ten_percent_of_the_lel_is_told_for_each_vapor_that_only_this_sensor_sees(tmp_path: Path) -> None:
    """10 % of 1.1 vol% is 1,100 ppm (NIOSH documentation, 1994), 5.5 times the 200 ppm of Table Z-2."""
    site = site_of("toluene with the maker's factor", tmp_path)
    view = air_test_view(site.office, site.number)
    value = next(v for v in view.values if v.gas == "flammable")
    shown = working_view(site.office, site.number, value.set_version, "flammable")
    assert shown is not None
    told = {page.name: page for page in shown.pages}
    (line,) = told["What it can hide"].steps
    assert "1,100 ppm" in line.how and line.figure == "5.5 times"
    assert told["As toluene"].steps[-1].figure == "7.8 % LEL"
