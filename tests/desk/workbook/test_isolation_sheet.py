"""The sheet 'isolation and controls', driven by keys and clicks."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox
from tests.desk.workbook.by_hand import ByHand

from lamproom.desk.workbook.said_line import SaidLine
from lamproom.permit import events as e
from lamproom.words import say

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)  # lists without a screen


@pytest.fixture
def hand(qtbot: object, tmp_path: Path) -> ByHand:
    hand = ByHand(qtbot, tmp_path)
    hand.show("isolation/gate-1")
    return hand


def isolate_gate(hand: ByHand, dead: str = "yes") -> None:
    hand.keys("14")
    hand.key(Qt.Key.Key_Return)
    hand.choose("workbook.isolation.gate-1.owner", "Teo")
    hand.press(f"workbook.isolation.gate-1.dead.{dead}")


def test_a_point_is_recorded_by_keys_alone_once_all_four_stand(hand: ByHand) -> None:
    assert hand.focus == "workbook.isolation.gate-1.lock"
    hand.keys("14")
    hand.key(Qt.Key.Key_Return)
    hand.choose("workbook.isolation.gate-1.owner", "Teo")
    assert hand.focus == "workbook.isolation.gate-1.dead.yes"
    hand.key(Qt.Key.Key_Space)
    assert hand.events(e.PointIsolated) == []
    hand.choose("workbook.isolation.gate-1.verified", "Kit")
    assert hand.events(e.PointIsolated) == [
        e.PointIsolated(point="gate-1", lock="14", owner="P-04", tried_dead=True, verified_by="P-05")
    ]
    assert hand.focus == "workbook.isolation.pump-2.lock"


def test_the_owner_of_the_lock_cannot_be_chosen_to_verify_it(hand: ByHand) -> None:
    isolate_gate(hand)
    second = hand.find("workbook.isolation.gate-1.verified")
    assert isinstance(second, QComboBox)
    assert second.findData("P-04") == -1
    assert second.findData("P-05") > 0


def test_a_point_that_is_not_dead_is_recorded_at_once_and_stands_in_the_way(hand: ByHand) -> None:
    isolate_gate(hand, "no")
    assert hand.events(e.PointIsolated) == [
        e.PointIsolated(point="gate-1", lock="14", owner="P-04", tried_dead=False, verified_by=None)
    ]
    column = [row.sentence for row in hand.screen._obstacles.rows()]
    assert say("permit.isolation_not_dead.locked", point="Inlet gate 1") in column


def test_what_is_half_given_comes_back_after_a_restart(hand: ByHand) -> None:
    isolate_gate(hand)
    hand.screen.hide()
    hand.open_screen()
    hand.show("isolation/gate-1")
    assert hand.find("workbook.isolation.gate-1.lock").text() == "14"
    assert hand.focus == "workbook.isolation.gate-1.verified"
    hand.choose("workbook.isolation.gate-1.verified", "Kit")
    assert len(hand.events(e.PointIsolated)) == 1


def test_a_point_can_be_isolated_anew(hand: ByHand) -> None:
    isolate_gate(hand)
    hand.choose("workbook.isolation.gate-1.verified", "Kit")
    hand.press("workbook.isolation.gate-1.change")
    assert hand.find("workbook.isolation.gate-1.lock").text() == ""
    hand.keys("15")
    hand.key(Qt.Key.Key_Return)
    hand.choose("workbook.isolation.gate-1.owner", "Lena")
    hand.press("workbook.isolation.gate-1.dead.yes")
    hand.choose("workbook.isolation.gate-1.verified", "Kit")
    assert [event.lock for event in hand.events(e.PointIsolated)] == ["14", "15"]


def test_the_level_is_recorded_when_depth_and_way_of_measuring_stand(hand: ByHand) -> None:
    hand.type("workbook.isolation.level", "4,2")
    assert hand.focus == "workbook.isolation.level.how"
    assert hand.events(e.LevelStated) == []
    hand.keys("dip rod from the hatch")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.LevelStated) == [e.LevelStated(depth_m="4.2", how="dip rod from the hatch")]


def test_a_dry_floor_is_one_press_and_how_it_was_seen(hand: ByHand) -> None:
    hand.press("workbook.isolation.level.dry")
    hand.keys("lamp from the hatch")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.LevelStated) == [e.LevelStated(depth_m=None, how="lamp from the hatch")]


def test_a_level_below_the_floor_is_refused_beside_and_what_was_typed_stays(hand: ByHand) -> None:
    hand.type("workbook.isolation.level", "6")
    hand.keys("dip rod")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.LevelStated) == []
    assert hand.find("workbook.isolation.level").text() == "6"
    assert hand.find("workbook.isolation.level.how").text() == "dip rod"
    assert hand.said[-1] == ("refused", say("office.level_below_floor", level="6", floor="4.9"))


def test_neither_depth_nor_dry_is_never_read_as_dry(hand: ByHand) -> None:
    hand.type("workbook.isolation.level.how", "dip rod")
    assert hand.events(e.LevelStated) == []


def test_lifting_the_cover_says_that_the_lid_test_comes_first_and_needs_its_guard(hand: ByHand) -> None:
    assert not hand.hidden("workbook.isolation.to-lid")
    hand.press("workbook.isolation.open.record")
    assert hand.events(e.SpaceOpened) == []
    hand.keys("rail and cone round the hatch")
    hand.press("workbook.isolation.open.record")
    assert hand.events(e.SpaceOpened) == [e.SpaceOpened(guarded="rail and cone round the hatch")]
    assert hand.hidden("workbook.isolation.open.record")


def test_leaving_the_guard_field_by_tab_does_not_lift_the_cover(hand: ByHand) -> None:
    hand.type("workbook.isolation.open", "rail round the hatch", Qt.Key.Key_Tab)
    assert hand.events(e.SpaceOpened) == []


def test_the_fan_starts_with_three_answers_and_a_press_and_stops_with_a_reason(hand: ByHand) -> None:
    hand.show("isolation/fan")
    hand.keys("1700")
    hand.key(Qt.Key.Key_Return)
    hand.keys("yard, north side")
    hand.key(Qt.Key.Key_Return)
    hand.press("workbook.isolation.fan.start")
    assert hand.events(e.VentilationStarted) == []
    hand.type("workbook.isolation.fan.noticed", "flag at the duct mouth")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.VentilationStarted) == [
        e.VentilationStarted(flow_m3_h="1700", intake="yard, north side", stop_noticed_by="flag at the duct mouth")
    ]
    hand.press("workbook.isolation.fan.stop")
    assert hand.events(e.VentilationStopped) == []
    hand.keys("fuel ran out")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.VentilationStopped) == [e.VentilationStopped(why="fuel ran out")]


def test_an_unreadable_flow_starts_nothing_and_stays(hand: ByHand) -> None:
    hand.type("workbook.isolation.fan", "17O0")
    hand.type("workbook.isolation.fan.intake", "yard")
    hand.type("workbook.isolation.fan.noticed", "flag")
    hand.press("workbook.isolation.fan.start")
    assert hand.events(e.VentilationStarted) == []
    assert hand.find("workbook.isolation.fan").text() == "17O0"


def test_a_source_that_cannot_be_isolated_is_said_with_what_it_demands(qtbot: object, tmp_path: Path) -> None:
    """29 CFR 1910.146(d)(5)(i): continuous monitoring where entrants work, if isolation is infeasible."""
    hand = ByHand(qtbot, tmp_path, "tank-3")
    hand.show("isolation")
    why = "the digester gas main has no second valve"
    shown = [line.words() for line in hand.screen.findChildren(SaidLine) if line.isVisible()]
    assert say("workbook.isolation.unisolable", why=why) in shown
