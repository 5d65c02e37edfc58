"""Every item of the checklist has its rule and its test, and each rule is missed when it is taken away."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.coverage.mutants import forget, found, without
from tests.coverage.table import BAD, PAGE, ROOT, Row, cases, exists, form, page, rows

from lamproom.intake.permit_document import read_document
from lamproom.office.assess import assess
from lamproom.office.opening import forms_at_hand
from lamproom.permit import events as e
from lamproom.permit.obstacles import STAGES, Stage

KINDS = {event.kind for event in e.EVENTS}
SLOW = frozenset(
    (
        "C2 C13 C15 C16 C17 C18 C19 C20 C21 C22 C23 C24 C25 C26 C27 C28 C29 C30 C31 C32 C33 C38 C47 C53 C56 C66 C69 "
        "C72 C73 C76 C77 C78 C83"
    ).split()
)
"""Items whose mutants take more than a moment."""
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
            "part": kind == "part" and bool(found(id)),
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


MUTANTS = [
    (row.id, test.removeprefix("case:"))
    for row in rows()
    if row.status == "held"
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


HELD_BY_TESTS = [
    row for row in rows() if row.status == "held" and not any(test.startswith("case:") for test in row.tests)
]


def test_every_held_item_has_a_mutant() -> None:
    """By a bad permit, or by the tests that it names with a rule of its own taken away."""
    assert [row.id for row in HELD_BY_TESTS if not row.rules] == []
    assert {item for item, _case in MUTANTS} | {row.id for row in HELD_BY_TESTS} == {
        row.id for row in rows() if row.status == "held"
    }


@pytest.mark.parametrize(
    "row",
    [pytest.param(row, id=row.id, marks=[pytest.mark.full] if row.id in SLOW else []) for row in HELD_BY_TESTS],
)
def test_with_its_rule_removed_a_test_of_the_item_fails(row: Row, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of each item without a bad permit: each part removed is missed, and of its other rules at least one."""
    missed = {}
    for rule in row.rules:
        with monkeypatch.context() as patched:
            without(patched, rule)
            missed[rule] = fails(row.tests)
    assert any(missed.values()), f"the tests pass without {row.rules}"
    assert [rule for rule, seen in missed.items() if rule.startswith("part:") and not seen] == []


def fails(tests: tuple[str, ...]) -> bool:
    """Does one of these tests fail, run here and now?"""
    quiet = ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist"]
    forget()
    code = pytest.main([*(f"{ROOT / test}" for test in tests), *quiet])
    forget()
    assert code in (pytest.ExitCode.OK, pytest.ExitCode.TESTS_FAILED), code
    return code == pytest.ExitCode.TESTS_FAILED
