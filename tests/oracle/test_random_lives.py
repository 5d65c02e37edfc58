"""Random lives against a second opinion (R4), and changes for the worse that must let nobody in (R5)."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

import pytest
from tests.oracle.lives import GOOD, Doc, allowed, at_each, barring, good_permit, points_of, reading_act, run, whole
from tests.oracle.rules import unmet
from tests.oracle.stricter import loosened, refusals


@pytest.mark.parametrize("count", [60, pytest.param(500, marks=pytest.mark.full)])
def test_nothing_unmet_is_allowed(count: int) -> None:
    tally = run(count)
    faults = [
        f"seed {seed} at {document['at']}: {stage} allowed, yet {one}"
        for seed, stage, wrong, document in tally.faults
        for one in wrong
    ]
    assert not faults, "\n".join(faults)
    assert tally.reached_later >= 0.05 * tally.lives, "too few lives reach 'allowed to enter' for this to mean anything"


def test_one_pass_says_what_assess_says() -> None:
    """Lives are judged in one pass; a document cut off at a moment must get the same answer."""
    for seed in range(3):
        document, moments = whole(seed)
        passed = at_each(document, moments)
        for index in random.Random(seed).sample(range(len(moments)), 4):
            assert passed[index] == barring({**document, "at": moments[index].isoformat()})


def test_good_permits_are_let_in() -> None:
    """No two alike, nothing missing: neither the program nor the second opinion has anything against them."""
    for seed in range(40):
        document = good_permit(random.Random(seed))
        assert barring(document)["enter"] == [], seed
        assert unmet(document, datetime.fromisoformat(document["at"]), "enter") == [], seed


@pytest.mark.parametrize("count", [8, pytest.param(60, marks=pytest.mark.full)])
def test_nothing_worse_lets_in(count: int) -> None:
    faults = [
        f"seed {seed} at {state['at']}: {fault}"
        for seed in range(count)
        for state in refusals(seed, 1 if count < 60 else 2)
        for fault in loosened(state)
    ]
    assert not faults, "\n".join(faults)


# The second opinion can say no ---------------------------------------------------------------------------------------


def _entered() -> Doc:
    """A good permit with one point of retest at work, nobody inside yet."""
    seed = next(s for s in range(99) if _fits(good_permit(random.Random(s))))
    return good_permit(random.Random(seed))


def _fits(document: Doc) -> bool:
    named = document["evaluation"]["retest_points_m"]
    return bool(named) and named[0] > 3 and document["happened"][-1]["what"] != "went-in"


def _then(document: Doc, minutes: float, what: str, **fields: Any) -> Doc:
    at = (datetime.fromisoformat(document["at"]) + timedelta(minutes=minutes)).isoformat()
    return {**document, "at": at, "happened": [*document["happened"], {"what": what, "at": at, "by": "P-01", **fields}]}


def _read(document: Doc, minutes: float, point: float, **figures: str) -> Doc:
    at = datetime.fromisoformat(document["at"]) + timedelta(minutes=minutes)
    act = reading_act(at, at, point, {**GOOD, **figures}, "07", "work", 75)
    return {**document, "at": at.isoformat(), "happened": [*document["happened"], act]}


def _without(document: Doc, what: str) -> Doc:
    return {**document, "happened": [a for a in document["happened"] if a["what"] != what]}


BAD: dict[str, Callable[[Doc], Doc]] = {
    "not confirmed": lambda d: _without(d, "rescue-confirmed"),
    "was not tried": lambda d: _without(d, "rescue-call-tried"),
    "not briefed": lambda d: _without(d, "briefed"),
    "no supervisor signed": lambda d: _without(d, "authorised"),
    "not tested since": lambda d: _then(d, 1, "ventilation-stopped", why="no fuel"),
    "a stop stands": lambda d: _then(d, 1, "stop-ordered", cause="pressed"),
    "condition stands": lambda d: _then(d, 1, "condition-reported", condition="dust", note=""),
    "a reading": lambda d: _read(d, 1, 0.3, oxygen="19.4"),
    "unaccounted": lambda d: _read(d, 1, 0.3, oxygen="20.5"),
    "the permit has ended": lambda d: _then(d, 1, "ended", cause="work-complete", reason=""),
    "not isolated": lambda d: _then(d, 1, "point-released", point="main-east", why="test"),
    "not held": lambda d: _then(d, 1, "hazard-added", hazard="x", name="x", shows="x", gas=None, sort="heat"),
}


@pytest.mark.parametrize("word", BAD)
def test_both_refuse(word: str) -> None:
    document = BAD[word](_entered())
    found = unmet(document, datetime.fromisoformat(document["at"]), "enter")
    assert any(word in one for one in found), found
    assert not allowed(document)["enter"]


# What stands between the two, each by its smallest case --------------------------------------------------------------


@pytest.mark.parametrize("stage", ["enter", "stay"])
def test_an_attendant_who_went_in_watches_nobody(stage: str) -> None:
    document = _then(_entered(), 1, "went-in", person="P-02")
    assert not allowed(document)[stage]


def test_a_set_at_the_top_does_not_renew_the_bottom() -> None:
    document = _read(_entered(), 90, 0.3)
    assert not allowed(document)["enter"]


def test_a_set_at_the_top_is_no_retest_where_people_work() -> None:
    document = _then(_entered(), 1, "went-in", person="P-04")
    for _ in range(3):
        document = _read(document, 14, 0.3)
    assert not allowed(document)["stay"]


def test_a_set_told_before_it_was_taken_proves_nothing() -> None:
    document = _entered()
    early = [{**a, "at": "2026-11-17T07:56:00-06:00"} if a.get("lowered") else a for a in document["happened"]]
    assert not allowed({**document, "happened": early})["enter"]


def test_without_a_named_entrant_nobody_may_go_in() -> None:
    document = _entered()
    for person in ("P-04", "P-05"):
        document = _then(document, 0, "person-unnamed", person=person, part="entrant")
    assert not allowed(document)["enter"]


def test_a_training_without_a_trainer_is_none() -> None:
    document = _entered()
    document["people"][2]["training"][0]["trainer"] = ""
    assert not allowed(document)["enter"]


def _engine(document: Doc) -> Doc:
    """An engine ran at the opening while every point was read; it is off now."""
    document = _then(document, 1, "condition-reported", condition="engine-started", note="")
    level = next(a for a in document["happened"] if a["what"] == "level-stated")["depth_m"]
    for point in points_of(float(level or document["space"]["depth_m"])):
        document = _read(document, 2, point)
        document["happened"][-1]["phase"] = "ventilating"
    return _then(document, 1, "condition-cleared", condition="engine-started", found="off")


def test_sets_taken_while_the_engine_ran_prove_nothing() -> None:
    document = _engine(_entered())
    assert not allowed(document)["enter"]


def test_documents_are_plain() -> None:
    """What lives make is JSON all through, so that a case can be kept as a file."""
    document, _ = whole(0)
    assert json.loads(json.dumps(document)) == document
