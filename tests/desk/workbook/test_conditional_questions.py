"""Questions that are asked only where their cause stands: each appears when it does, and can be answered by clicks."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from tests.desk.workbook.by_hand import ByHand
from tests.desk.workbook.filled_site import Room, lived_until

from lamproom.desk.workbook.space_sheet import SpaceSheet
from lamproom.office.open_permit import open_permit
from lamproom.permit import events as e
from lamproom.permit.obstacles import Stage, barring

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)  # lists without a screen
FORMS = Path(__file__).parents[3] / "forms"
ASKING = {"space", "hazards", "isolation", "people", "rescue"}
"""The sheets of the Workbook that ask the questions of the form."""


@pytest.fixture
def hand(qtbot: QtBot, tmp_path: Path) -> ByHand:
    return ByHand(qtbot, tmp_path)


def targets(hand: ByHand) -> set[str]:
    return {one.target for one in barring(hand.office.facts(hand.number), Stage.AUTHORISE)}


def answered(hand: ByHand, item: str) -> list[tuple[str, str]]:
    return [(one.answer, one.found) for one in hand.events(e.Answered) if one.item == item]


@pytest.mark.parametrize("form", sorted(FORMS.glob("*.toml")), ids=lambda path: path.stem)
def test_no_question_of_a_form_stands_on_a_sheet_that_asks_none(form: Path) -> None:
    items = tomllib.loads(form.read_text(encoding="utf-8"))["items"]
    assert {item["sheet"] for item in items} <= ASKING


def test_combustible_dust_brings_its_question_and_the_answer_clears_it(hand: ByHand) -> None:
    """29 CFR 1910.146(b), hazardous atmosphere (2): dust that obscures vision at 5 ft or less."""
    hand.show("isolation")
    assert hand.hidden("workbook.isolation.dust-clear.yes")
    hand.show("hazards")
    hand.press("workbook.hazards.add")
    hand.keys("Grain dust")
    hand.key(Qt.Key.Key_Return)
    hand.keys("a haze in the lamp")
    hand.key(Qt.Key.Key_Return)
    hand.choose("workbook.hazards.add.gas", "no")
    hand.choose("workbook.hazards.add.sort", "dust")
    hand.press("workbook.hazards.add.record")
    (target,) = (one for one in targets(hand) if one.endswith("/dust-clear"))
    hand.show(target)
    hand.press("workbook.isolation.dust-clear.yes")
    hand.keys("the far wall, 2.4 m")
    hand.key(Qt.Key.Key_Return)
    assert answered(hand, "dust-clear") == [("yes", "the far wall, 2.4 m")]
    assert target not in targets(hand)
    hand.press("workbook.isolation.dust-clear.no")
    assert target in targets(hand)


def test_without_retrieval_in_bad_air_a_team_is_asked_for_and_the_answer_clears_it(hand: ByHand) -> None:
    """29 CFR 1910.146(k)(3): no retrieval where it would add risk; then a team stands by, (k)(1)(ii), note."""
    hand.show("rescue")
    assert hand.hidden("workbook.rescue.standby-team.yes")
    hand.press("workbook.rescue.retrieval.does-not-apply")
    hand.keys("the line would foul on the mixer")
    hand.key(Qt.Key.Key_Return)
    assert "rescue/standby-team" in targets(hand)
    hand.show("rescue/standby-team")
    hand.press("workbook.rescue.standby-team.yes")
    hand.keys("Lena Quist, with Kit Sorrel")
    hand.key(Qt.Key.Key_Return)
    assert answered(hand, "standby-team") == [("yes", "Lena Quist, with Kit Sorrel")]
    assert "rescue/standby-team" not in targets(hand)


def test_another_permit_running_here_brings_its_question_and_the_answer_clears_it(qtbot: QtBot, tmp_path: Path) -> None:
    """29 CFR 1910.146(d)(11): entries of more than one employer, or side by side, are coordinated."""
    shift = lived_until(tmp_path, "08:53")
    running = shift.office.permit(shift.permits["A"])
    assert running.running
    shift.permits["N"] = open_permit(shift.office, running.opened.space, by="P-01")
    room = Room(shift, SpaceSheet, letter="N")
    qtbot.addWidget(room.window)
    room.show()
    row = room.find("workbook.space.near-permits.yes")
    assert row.isVisible()
    QTest.mouseClick(row, Qt.MouseButton.LeftButton)
    QApplication.processEvents()
    found = room.find("workbook.space.near-permits.found")
    assert found.isVisible()
    QTest.keyClicks(found, "with Mara Velde: one crew at a time")
    QTest.keyClick(found, Qt.Key.Key_Return)
    QApplication.processEvents()
    made = shift.office.permit(room.number).answers["near-permits"].event
    assert isinstance(made, e.Answered) and (made.answer, made.found) == ("yes", "with Mara Velde: one crew at a time")
    standing = barring(shift.office.facts(room.number), Stage.AUTHORISE)
    assert not any(one.target == "space/near-permits" for one in standing)


def test_without_another_permit_nothing_is_asked_of_it(hand: ByHand) -> None:
    hand.show("space")
    assert hand.hidden("workbook.space.near-permits.yes")
