"""Permits with one planted fault, modelled on public reports and rules: each is refused for that fault and no other, at
its stage, and the same permit with the fault put right is allowed. All through the command line."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from lamproom.cli import main

FOLDER = Path(__file__).parent / "bad"
CASES: tuple[dict[str, Any], ...] = tuple(tomllib.loads((FOLDER / "cases.toml").read_text("utf-8"))["case"])
SEEN = {"read in a stored copy", "from memory", "rule only"}


def _file(case: dict[str, Any], repaired: bool = False) -> Path:
    return FOLDER / f"{case['id']}{'.repaired' if repaired else ''}.json"


def _told(case: dict[str, Any], repaired: bool = False) -> dict[str, Any]:
    told: dict[str, Any] = json.loads(_file(case, repaired).read_text("utf-8"))
    return told


def _cases(known: str) -> list[Any]:
    """Every case; one that is judged wrong today is expected to fail, and a test tells the day it no longer does."""
    return [
        pytest.param(
            case,
            id=case["id"],
            marks=[pytest.mark.xfail(strict=True, raises=AssertionError, reason=case[known])] if known in case else [],
        )
        for case in CASES
    ]


def _assessed(file: Path, stage: str, capsys: pytest.CaptureFixture[str]) -> tuple[int, dict[str, Any]]:
    code = main(["assess", str(file), "--stage", stage, "--json"])
    printed = capsys.readouterr()
    assert code != 2, printed.err
    answer: dict[str, Any] = json.loads(printed.out)
    return code, answer


@pytest.mark.parametrize("case", _cases("known"))
def test_bad_permit_is_refused_for_its_fault(case: dict[str, Any], capsys: pytest.CaptureFixture[str]) -> None:
    code, answer = _assessed(_file(case), case["stage"], capsys)
    assert code == 1, "allowed"
    assert answer["verdict"] == "refused"
    if case["codes"]:
        assert {one["code"] for one in answer["obstacles"]} == set(case["codes"])
    for one in answer["obstacles"]:
        assert case["stage"] in one["stages"]
        assert one["sentence"].strip() and one["citation"].strip() and one["way_out"].strip()


@pytest.mark.parametrize("case", _cases("known_repaired"))
def test_repaired_permit_is_allowed(case: dict[str, Any], capsys: pytest.CaptureFixture[str]) -> None:
    code, answer = _assessed(_file(case, repaired=True), case["stage"], capsys)
    assert [one["sentence"] for one in answer["obstacles"]] == []
    assert [one["why"] for one in answer["not_taken"]] == []
    assert (code, answer["verdict"]) == (0, "allowed")


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_twins_differ_in_the_fault_alone(case: dict[str, Any]) -> None:
    bad, repaired = _told(case), _told(case, repaired=True)
    assert bad != repaired
    for same in ("at", "number", "zone", "form", "route", "opened"):
        assert bad[same] == repaired[same]


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_case_says_where_it_comes_from(case: dict[str, Any]) -> None:
    for field in ("source", "address", "happened", "unmet", "citation"):
        assert case[field].strip(), field
    assert case["seen"] in SEEN
    assert case["address"].startswith("http")
    assert case["codes"] or "known" in case, "what must be said is not known of a case that is judged rightly"


def test_there_are_enough_and_they_vary() -> None:
    assert len(CASES) >= 45
    assert len({case["id"] for case in CASES}) == len(CASES)
    assert {case["stage"] for case in CASES} == {"authorise", "enter", "stay"}
    permits = [_told(case, repaired=True) for case in CASES]
    assert len({permit["space"]["id"] for permit in permits}) >= 8
    assert {permit["route"] for permit in permits} == {"permit", "alternate", "reclassified"}


def test_every_file_belongs_to_a_case() -> None:
    files = {file.name for file in FOLDER.glob("*.json")}
    assert files == {_file(case, repaired).name for case in CASES for repaired in (False, True)}
