"""What a document leaves unsaid, says blank, or tells in nobody's name lets nobody in; what counts against, counts."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from tests.office.fields import sources

from lamproom.intake.permit_document import Unreadable, example, read_document
from lamproom.office.assess import Assessment, assess
from lamproom.office.opening import forms_at_hand
from lamproom.permit.obstacles import Stage

Told = dict[str, Any]


def told(source: str) -> Told:
    document: Told = json.loads(sources()[source])
    return document


def judged(document: Told, stage: Stage | None = None) -> Assessment:
    return assess(read_document(json.dumps(document)), forms_at_hand(), stage)


def codes(document: Told, stage: Stage | None = None) -> set[str]:
    return {one.code for one in judged(document, stage).standing}


def act(document: Told, what: str) -> Told:
    found: Told = next(one for one in document["happened"] if one["what"] == what)
    return found


NAMELESS = [
    ("cistern-lock-changes-hands", "level-stated", "level-missing"),
    ("cistern-lock-changes-hands", "space-opened", "opening-not-stated"),
    ("cistern-lock-changes-hands", "ventilation-started", "fan-missing"),
    ("lime-slaker-sick-hand-struck-off", "person-unnamed", "not-briefed"),
    ("pump-pit-typo-corrected", "reading-corrected", "reading-outside"),
]


@pytest.mark.parametrize(("source", "what", "code"), NAMELESS, ids=[what for _source, what, _code in NAMELESS])
def test_told_in_nobodys_name_it_clears_nothing(source: str, what: str, code: str) -> None:
    document = told(source)
    assert codes(document) == set()
    del act(document, what)["by"]
    answer = judged(document, Stage.AUTHORISE)
    assert code in {one.code for one in answer.standing}
    assert what in {lost.what for lost in answer.not_taken}


def test_a_correction_without_a_reason_clears_nothing() -> None:
    document = told("pump-pit-typo-corrected")
    act(document, "reading-corrected")["reason"] = " "
    assert "reading-outside" in codes(document)


def test_a_correction_for_the_worse_counts_in_whosever_name() -> None:
    document = told("pump-pit-typo-corrected")
    act(document, "reading-corrected").update(by=None, reason="", new="14.0")
    answer = judged(document)
    assert "reading-outside" in {one.code for one in answer.standing}
    assert [lost for lost in answer.not_taken if lost.what == "reading-corrected"] == []


def test_who_the_unknown_was_is_told() -> None:
    trips = judged(told("passerby-sent-out-and-named")).facts.permit.tally.trips
    assert [(trip.who, trip.name, trip.what) for trip in trips if trip.unknown] == [
        ("unknown 1", "a man of the paving crew", "unauthorised")
    ]


def test_a_unit_that_another_permit_has_out_is_not_worn_here() -> None:
    document = told("culvert-unit-back-from-repair")
    assert document["instruments"][1]["holder"] == document["number"] and codes(document, Stage.ENTER) == set()
    document["instruments"][1]["holder"] = "26-0999"
    assert "worn-elsewhere" in codes(document, Stage.ENTER)


def test_a_pump_that_tests_says_its_hose_or_that_it_has_none() -> None:
    document = told("cistern-lock-changes-hands")
    del act(document, "instrument-assigned")["hose_m"]
    assert "no-instrument" in codes(document)
    act(document, "instrument-assigned")["hose_m"] = None
    assert "no-instrument" not in codes(document)


def test_a_unit_that_is_worn_says_no_hose() -> None:
    document = told("culvert-unit-back-from-repair")
    worn = [one for one in document["happened"] if one.get("duty") == "worn"]
    assert ["hose_m" in one for one in worn] == [False]
    assert codes(document) == set()


def test_back_from_a_break_needs_the_isolation_looked_at() -> None:
    document = told("settling-tank-after-lunch")
    assert codes(document, Stage.ENTER) == set()
    act(document, "break-ended")["isolation_found"] = " "
    assert "on-break" in codes(document, Stage.ENTER)


def test_a_condition_stands_until_somebody_found_it_gone() -> None:
    document = told("passerby-sent-out-and-named")
    assert codes(document, Stage.ENTER) == set()
    act(document, "condition-cleared")["found"] = ""
    assert codes(document, Stage.ENTER) == {"condition"}


def test_nobody_closes_out_nothing() -> None:
    document = told("plating-tank-bracket")
    assert judged(document).facts.permit.closed_out is not None
    act(document, "closed-out")["by"] = None
    assert judged(document).facts.permit.closed_out is None


def _taken_out(*path: str) -> Callable[[Told], None]:
    def spoil(document: Told) -> None:
        inner: Any = document
        for key in path[:-1]:
            inner = inner[key]
        del inner[path[-1]]

    return spoil


def _beside_unsaid(document: Told) -> None:
    checked = next(one for one in document["instruments"][0]["happened"] if one["what"] == "checked-before-use")
    del checked["fresh_air"]["beside_portal"]


def _no_retest(document: Told) -> None:
    document["evaluation"]["retest_points_m"] = []


def _blank_name(document: Told) -> None:
    document["evaluation"]["by_name"] = "  "


@pytest.mark.parametrize(
    ("spoil", "field"),
    [
        (_taken_out("others"), "others"),
        (_taken_out("evaluation", "isolation"), "evaluation.isolation"),
        (_taken_out("evaluation", "unisolable"), "evaluation.unisolable"),
        (_beside_unsaid, "fresh_air.beside_portal"),
        (_no_retest, "evaluation.retest_points_m"),
        (_blank_name, "evaluation.by_name"),
    ],
    ids=["others", "isolation", "unisolable", "beside the portal", "retest depths", "who evaluated"],
)
def test_what_would_read_as_favorable_is_said(spoil: Callable[[Told], None], field: str) -> None:
    document = json.loads(example())
    spoil(document)
    with pytest.raises(Unreadable) as refused:
        read_document(json.dumps(document))
    assert field in refused.value.why.say()


def test_a_reclassified_space_names_no_depth_of_retest() -> None:
    assert told("dough-mixer-reclassified")["evaluation"]["retest_points_m"] == []
    assert codes(told("dough-mixer-reclassified")) == set()
