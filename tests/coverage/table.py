"""The coverage of the rule, item by item: clause, form line, rule, test, result; written to ``packaging/docs``."""

from __future__ import annotations

import ast
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from lamproom.permit.form import Form, read_form

ROOT = Path(__file__).parents[2]
ITEMS = Path(__file__).parent / "items.toml"
PAGE = ROOT / "packaging" / "docs" / "coverage.md"
FORM = ROOT / "forms" / "us-general-industry.toml"
BAD = ROOT / "tests" / "permits" / "bad"


@dataclass(frozen=True, slots=True)
class Row:
    """One item of the checklist. ``status``: held, other regime, later issue."""

    id: str
    clause: str
    what: str
    status: str
    rules: tuple[str, ...]
    tests: tuple[str, ...]


@cache
def rows() -> tuple[Row, ...]:
    told = tomllib.loads(ITEMS.read_text(encoding="utf-8"))["item"]
    return tuple(Row(**{**one, "rules": tuple(one["rules"]), "tests": tuple(one["tests"])}) for one in told)


@cache
def cases() -> dict[str, dict[str, object]]:
    """The bad permits by id."""
    told = tomllib.loads((BAD / "cases.toml").read_text(encoding="utf-8"))
    return {str(case["id"]): case for case in told["case"]}


@cache
def form() -> Form:
    return read_form(FORM.read_text(encoding="utf-8"))


def line_of(rule: str) -> str:
    """Where the form says it: the line of an item or condition; empty for a rule that the program holds itself."""
    kind, _, id = rule.partition(":")
    if kind not in ("item", "condition"):
        return ""
    for number, line in enumerate(FORM.read_text(encoding="utf-8").splitlines(), 1):
        if line == f'id = "{id}"':
            return str(number)
    return "?"


def exists(test: str) -> bool:
    """Is there such a test, or such a bad permit?"""
    if test.startswith("case:"):
        return test.removeprefix("case:") in cases()
    file, _, name = test.partition("[")[0].partition("::")
    path = ROOT / file
    if not path.is_file():
        return False
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return any(isinstance(node, ast.FunctionDef) and node.name == name for node in ast.walk(tree))


def page() -> str:
    """The table as Markdown."""
    return "\n".join(_lines()) + "\n"


def _lines() -> Iterator[str]:
    held = [row for row in rows() if row.status == "held"]
    other = [row for row in rows() if row.status == "other regime"]
    later = [row for row in rows() if row.status == "later issue"]
    yield "# Coverage of 29 CFR 1910.146"
    yield ""
    yield f"Made by `python -m tests.coverage`; a test fails when it is anything else. {len(rows())} items:"
    yield f"{len(held)} held, {len(other)} of other regimes than United States general industry, {len(later)} later."
    yield ""
    yield "| Item | Clause | What | Form line | Rule | Test | Result |"
    yield "|---|---|---|---|---|---|---|"
    for row in rows():
        lines = ", ".join(line for rule in row.rules if (line := line_of(rule)))
        tests = ", ".join(test.rsplit("::", 1)[-1].replace("|", "/") for test in row.tests)
        rules = ", ".join(f"`{rule}`" for rule in row.rules)
        result = {"held": "held", "other regime": "not United States general industry"}.get(row.status, "later issue")
        yield f"| {row.id} | {row.clause} | {row.what} | {lines} | {rules} | {tests} | {result} |"
