"""The table of obstacles, cell by cell: which code bars which stage. A change here is a change of what stops people."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from lamproom.permit.obstacles import GROUPS, STAGES, Stage

APP = Path(__file__).parents[2] / "app" / "lamproom"

TABLE = """
                            authorise enter stay
alternate-no-data           x         x     .
alternate-not-by-air-alone  x         x     .
alternate-other-hazard      x         x     .
attendant-elsewhere         x         x     .
base-missing                x         x     .
basis-missing               x         x     .
battery-short               x         .     .
call-not-tried              x         x     .
changed-after-signing       .         x     .
clock-unconfirmed           x         x     .
condition                   x         x     .
condition-stay              x         x     x
continuous-lost             .         x     x
duct-not-tested             x         x     .
ended                       x         x     x
expired                     .         x     x
exposure-near               .         x     .
exposure-over               .         x     x
fan-missing                 x         x     .
fan-not-described           x         x     .
fan-stopped                 x         x     x
figures-unconfirmed         x         .     .
flammable-void              x         x     .
gas-unseen                  x         x     .
hazard-not-eliminated       x         x     .
hazard-not-held             x         x     .
hazard-new              .         x     x
hazard-open                 x         x     .
hazard-unnamed          x         .     .
hose-not-tested             x         x     .
hours-missing               x         .     .
hours-over                  x         .     .
hours-too-long              x         .     .
instrument-lost             .         x     x
instrument-not-ready        x         x     .
isolation-lost              x         x     x
isolation-not-dead          x         x     .
isolation-one-person        x         x     .
isolation-open              x         x     .
isolation-weak              x         x     .
item-answered-against       x         x     .
item-open                   x         x     .
level-missing               x         x     .
lid-not-tested              x         x     .
limit-missing               x         x     .
no-air                      x         x     .
no-attendant                x         x     .
no-entrant                  x         x     .
no-instrument               x         x     .
no-mechanical-device        x         x     .
no-supervisor               x         x     .
nobody-on-watch             .         x     x
not-authorised              .         x     x
not-begun                   .         x     .
not-briefed                 x         x     .
not-continuous              x         x     .
not-permit-required         x         .     .
not-trained                 x         x     .
on-break                    .         x     .
opening-not-stated          x         x     .
point-not-tested            x         x     .
purpose-missing             x         .     .
reading-early               x         x     .
reading-outside             x         x     x
reclassified-air            x         x     .
reclassified-by-fan         x         x     .
reendorse                   .         x     .
rescue-no-first-aid         x         x     .
rescue-not-evaluated        x         .     .
rescue-not-told             x         .     .
rescue-open                 x         x     .
rescue-over                 .         x     .
rescue-practice-old         x         x     .
rescue-slow                 x         x     .
retest-late                 .         x     .
retest-overdue              .         x     x
review-overdue              x         .     .
set-point-above             x         x     .
stopped                     x         x     x
stranger-inside         .         x     .
two-parts                   x         x     .
unaccounted                 x         x     x
vapor-factor-missing        x         x     .
verification-old            x         x     .
worn-elsewhere              x         x     .
"""


def cells() -> dict[str, frozenset[Stage]]:
    head, *rows = [line.split() for line in TABLE.strip().splitlines()]
    stages = [Stage(name) for name in head]
    return {
        code: frozenset(stage for stage, mark in zip(stages, marks, strict=True) if mark == "x")
        for code, *marks in rows
    }


@pytest.mark.parametrize("code", sorted(set(cells()) | set(STAGES)))
def test_each_code_bars_the_stages_of_the_table(code: str) -> None:
    assert STAGES.get(code) == cells().get(code)


def test_what_calls_people_out_bars_the_next_person_in_too() -> None:
    assert all(Stage.ENTER in stages for stages in STAGES.values() if Stage.STAY in stages)


def test_no_code_bars_nothing() -> None:
    assert all(STAGES.values())


MAKERS = frozenset({"Found", "_plan"})


def _codes_in_the_rules() -> set[str]:
    """Every code that stands first in a ``Found(...)`` of the rules, or in a helper that makes one; read from their
    text."""
    found: set[str] = set()
    for group in GROUPS:
        file = APP.parent / Path(*group.__name__.split(".")).with_suffix(".py")
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in MAKERS:
                first = node.args[0]
                names = [first] if isinstance(first, ast.Constant) else []
                found.update(str(name.value) for name in names)
            if isinstance(node, ast.Assign) and isinstance(node.value, ast.IfExp):
                if any(isinstance(target, ast.Name) and target.id == "code" for target in node.targets):
                    for branch in (node.value.body, node.value.orelse):
                        assert isinstance(branch, ast.Constant)
                        found.add(str(branch.value))
    return found


def test_every_code_of_the_table_comes_from_a_rule_and_every_rule_has_its_row() -> None:
    assert _codes_in_the_rules() == set(STAGES)
