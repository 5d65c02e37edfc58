"""The Workbook goes on by itself where an answer leaves nothing to do, and nowhere else."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication
from tests.desk.workbook.by_hand import ByHand

from lamproom.desk.parts.stray import STRAY
from lamproom.office.views.hazards_sheet import hazards_sheet
from lamproom.office.views.workbook import ObstacleView, leads_to
from lamproom.permit import events as e

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)  # lists without a screen


@pytest.fixture
def hand(qtbot: object, tmp_path: Path) -> ByHand:
    return ByHand(qtbot, tmp_path)


def one(code: str, target: str) -> ObstacleView:
    return ObstacleView(code, "", "", "", target)


@pytest.mark.parametrize(
    ("standing", "sheet", "leads"),
    [
        ([], "people", "review"),
        ([one("hours-missing", "space/hours")], "hazards", "space/hours"),
        # The sheet's own is first: the hand goes there.
        ([one("answer-missing", "space/other-work"), one("x", "people/entrants")], "space", "space/other-work"),
        # Something of the sheet still stands, though another sheet comes first: nobody is taken away.
        ([one("hours-missing", "space/hours"), one("not-briefed", "people/briefing")], "people", ""),
        # The opening has its turn after the test through the lid.
        (
            [one("base-missing", "air-test/upwind"), one("level-missing", "isolation/level")],
            "isolation",
            "air-test/upwind",
        ),
        # Cleared on another screen: the sheet stays, the list beside it says where.
        ([one("bump-missing", "bench/07/bump")], "instruments", ""),
    ],
)
def test_where_the_work_goes_on(standing: list[ObstacleView], sheet: str, leads: str) -> None:
    assert leads_to(standing, sheet) == leads


def hazard_ids(hand: ByHand) -> list[str]:
    return [row.id for row in hazards_sheet(hand.office, hand.number).rows]


def hazards_but_one(hand: ByHand) -> str:
    hand.show("hazards")
    ids = hazard_ids(hand)
    for id in ids[:-1]:
        hand.press(f"workbook.hazards.{id}.as-evaluated")
        assert hand.screen.at[1] == "hazards"
    return f"workbook.hazards.{ids[-1]}.as-evaluated"


def test_the_last_hazard_turns_to_what_is_first_in_the_way(hand: ByHand) -> None:
    hand.press(hazards_but_one(hand))
    assert hand.screen.at[1] == "space"  # purpose and hours are still open in this draft
    assert hand.focus.startswith("workbook.space.")


def test_the_second_click_of_a_double_click_falls_on_nothing(hand: ByHand, qtbot: object) -> None:
    hand.press(hazards_but_one(hand))
    sheet = hand.screen.sheet("space")
    under = hand.screen.childAt(sheet.mapTo(hand.screen, sheet.rect().center()))  # type: ignore[attr-defined]
    assert under is not None and not sheet.isAncestorOf(under)  # type: ignore[attr-defined]
    qtbot.wait(STRAY + 200)  # type: ignore[attr-defined]
    under = hand.screen.childAt(sheet.mapTo(hand.screen, sheet.rect().center()))  # type: ignore[attr-defined]
    assert under is not None and (under is sheet or sheet.isAncestorOf(under))  # type: ignore[attr-defined]


def test_leaving_a_field_records_it_and_turns_no_page(hand: ByHand) -> None:
    last = hazards_but_one(hand)
    hand.press(last.replace("as-evaluated", "otherwise"))
    hand.keys("Locked out by the shift")
    hand.key(Qt.Key.Key_Tab)
    QApplication.processEvents()
    held = hand.events(e.HazardHeld)
    assert held and held[-1].how == "Locked out by the shift"  # type: ignore[attr-defined]
    assert hand.screen.at[1] == "hazards"


def test_enter_held_down_answers_once(hand: ByHand) -> None:
    hand.show("hazards")
    first = hand.find(f"workbook.hazards.{hazard_ids(hand)[0]}.as-evaluated")
    first.setFocus()
    hand.key(Qt.Key.Key_Return)
    again = QApplication.focusWidget()
    assert again is not None and again is not first
    held = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Return, Qt.KeyboardModifier.NoModifier, "", True)
    QApplication.sendEvent(again, held)
    assert len(hand.events(e.HazardHeld)) == 1
