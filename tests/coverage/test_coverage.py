"""Every item of the checklist has its rule and its test, and each rule is missed when it is taken away."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.coverage.table import BAD, PAGE, Row, cases, exists, form, page, rows

from lamproom.intake.permit_document import read_document
from lamproom.office.assess import assess
from lamproom.office.opening import forms_at_hand
from lamproom.permit import events as e
from lamproom.permit import obstacles as rules
from lamproom.permit.obstacles import STAGES, Stage, isolation

KINDS = {event.kind for event in e.EVENTS}
CHECKLIST = 95
"""Items C1 to C95 of the checklist that the program is measured by."""


def test_the_table_in_the_docs_is_what_the_program_holds() -> None:
    assert PAGE.read_text(encoding="utf-8") == page()


def test_every_item_is_there_once_in_order() -> None:
    assert [row.id for row in rows()] == [f"C{n}" for n in range(1, CHECKLIST + 1)]


@pytest.mark.parametrize("row", [row for row in rows() if row.status == "held"], ids=lambda row: row.id)
def test_a_held_item_has_a_rule_that_exists_and_a_test_that_exists(row: Row) -> None:
    assert row.tests, "no test holds it"
    assert [test for test in row.tests if not exists(test)] == []
    for rule in row.rules:
        kind, _, id = rule.partition(":")
        known = {
            "code": id in STAGES,
            "item": form().item(id) is not None,
            "condition": form().condition(id) is not None,
            "act": id in KINDS,
        }
        assert known[kind], rule


def test_what_is_not_held_is_said_to_be() -> None:
    assert {row.status for row in rows()} <= {"held", "other regime", "later issue"}


SITE_RULES = {
    "battery-short", "clock-unconfirmed", "duct-not-tested", "fan-missing", "fan-not-described", "figures-unconfirmed",
    "gas-unseen", "hazard-not-held", "hose-not-tested", "hours-over", "instrument-lost", "instrument-runs-out",
    "isolation-lost", "no-instrument", "not-begun", "not-briefed", "opening-not-stated", "reendorse", "rescue-over",
    "set-point-above", "unaccounted", "verification-old", "worn-elsewhere", "condition", "alternate-not-by-air-alone",
    "flammable-void", "vapor-factor-missing", "exposure-near", "exposure-over",
}  # fmt: skip
"""Codes beyond the checklist: of the form, of common practice, or finer than an item."""


def test_no_code_is_an_orphan() -> None:
    cited = {rule.removeprefix("code:") for row in rows() for rule in row.rules if rule.startswith("code:")}
    assert set(STAGES) - cited - SITE_RULES == set()
    assert cited & SITE_RULES == set()


def asked(case: str) -> set[str]:
    """The codes that stand in the way of a bad permit's stage."""
    told = cases()[case]
    document = read_document(Path(BAD / f"{case}.json").read_text(encoding="utf-8"))
    return {one.code for one in assess(document, forms_at_hand(), Stage(str(told["stage"]))).standing}


def without(monkeypatch: pytest.MonkeyPatch, rule: str) -> None:
    """Take a rule away: a code bars nothing, an item is not asked, a condition is not reported."""
    kind, _, id = rule.partition(":")
    if kind == "code":
        monkeypatch.setitem(rules.STAGES, id, frozenset())
    elif kind == "item":
        plain = isolation.asked
        monkeypatch.setattr(isolation, "asked", lambda facts, item: item.id != id and plain(facts, item))
    else:
        monkeypatch.setattr(isolation, "_conditions", lambda facts: iter(()))
        monkeypatch.setitem(rules.STAGES, "stopped", frozenset())


MUTANTS = [
    (row.id, test.removeprefix("case:"))
    for row in rows()
    if row.status == "held" and row.rules
    for test in row.tests
    if test.startswith("case:")
]


@pytest.mark.parametrize(("item", "case"), MUTANTS)
def test_with_its_rule_removed_the_bad_permit_is_missed(item: str, case: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A mutant for each item: at least one of its rules, removed, changes what stands against the bad permit."""
    expected = set(map(str, _list(cases()[case]["codes"])))
    row = next(row for row in rows() if row.id == item)
    assert asked(case) == expected
    missed = []
    for rule in row.rules:
        with monkeypatch.context() as patched:
            without(patched, rule)
            missed.append(asked(case) != expected)
    assert any(missed), f"{case} is refused the same without {row.rules}"


def _list(value: Any) -> list[Any]:
    return list(value)
