"""The sheet 'hazards', driven by keys and clicks."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from tests.desk.workbook.by_hand import ByHand
from tests.desk.workbook.filled_site import lived_until

from lamproom.office.assign_instrument import assign_instrument
from lamproom.office.return_instrument import return_instrument
from lamproom.office.views.hazards_sheet import hazard_id, hazards_sheet
from lamproom.permit import events as e
from lamproom.words import say

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)  # lists without a screen


@pytest.fixture
def hand(qtbot: object, tmp_path: Path) -> ByHand:
    hand = ByHand(qtbot, tmp_path)
    hand.show("hazards")
    return hand


def test_one_press_holds_a_hazard_as_evaluated_and_the_next_open_one_gets_the_keyboard(hand: ByHand) -> None:
    hand.press("workbook.hazards.methane.as-evaluated")
    control = "Ventilate from clean air; no open flame within 10 m."
    assert hand.events(e.HazardHeld) == [e.HazardHeld(hazard="methane", held=True, how=control)]
    assert hand.focus == "workbook.hazards.hydrogen-sulfide.as-evaluated"


def test_otherwise_and_does_not_apply_are_recorded_with_their_words(hand: ByHand) -> None:
    hand.press("workbook.hazards.methane.otherwise")
    hand.keys("Fan on since 06:30")
    hand.key(Qt.Key.Key_Return)
    hand.press("workbook.hazards.carbon-dioxide.not-today")
    assert len(hand.events(e.HazardHeld)) == 1
    hand.keys("drained and washed yesterday")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.HazardHeld) == [
        e.HazardHeld(hazard="methane", held=True, how="Fan on since 06:30"),
        e.HazardHeld(hazard="carbon-dioxide", held=False, how="drained and washed yesterday"),
    ]


def test_does_not_apply_without_a_reason_records_nothing(hand: ByHand) -> None:
    hand.press("workbook.hazards.carbon-dioxide.not-today")
    hand.keys("   ")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.HazardHeld) == []


def test_a_hazard_can_be_answered_anew_and_the_same_answer_is_not_recorded_twice(hand: ByHand) -> None:
    hand.press("workbook.hazards.methane.as-evaluated")
    hand.press("workbook.hazards.methane.change")
    hand.press("workbook.hazards.methane.as-evaluated")
    assert len(hand.events(e.HazardHeld)) == 1
    hand.press("workbook.hazards.methane.change")
    hand.press("workbook.hazards.methane.otherwise")
    hand.keys("Fan on")
    hand.key(Qt.Key.Key_Return)
    assert [event.how for event in hand.events(e.HazardHeld)][-1] == "Fan on"


def test_an_added_hazard_of_a_gas_that_nothing_sees_stands_in_the_way(hand: ByHand) -> None:
    hand.press("workbook.hazards.add")
    hand.keys("Solvent vapor")
    hand.key(Qt.Key.Key_Return)
    hand.keys("sweet smell")
    hand.key(Qt.Key.Key_Return)
    assert hand.focus == "workbook.hazards.add.gas"
    hand.choose("workbook.hazards.add.gas", "Toluene")
    hand.press("workbook.hazards.add.record")
    assert hand.events(e.HazardAdded) == [
        e.HazardAdded(
            hazard="solvent-vapor", name="Solvent vapor", shows="sweet smell", gas="toluene", sort="atmosphere"
        )
    ]
    assert hand.focus == "workbook.hazards.solvent-vapor.otherwise"
    column = [row.sentence for row in hand.screen._obstacles.rows()]
    assert say("permit.gas_unseen", hazard="Solvent vapor") in column


def test_a_hazard_is_not_added_before_name_signs_and_gas_are_given(hand: ByHand) -> None:
    hand.press("workbook.hazards.add")
    hand.press("workbook.hazards.add.record")
    assert hand.focus == "workbook.hazards.add.name"
    hand.keys("Bees")
    hand.key(Qt.Key.Key_Return)
    hand.keys("buzzing at the hatch")
    hand.key(Qt.Key.Key_Return)
    hand.press("workbook.hazards.add.record")
    assert hand.events(e.HazardAdded) == []
    hand.choose("workbook.hazards.add.gas", "no")
    hand.press("workbook.hazards.add.record")
    assert hand.events(e.HazardAdded) == [], "a hazard that is no gas says what sort it is"
    hand.choose("workbook.hazards.add.sort", "other")
    hand.press("workbook.hazards.add.record")
    assert (hand.events(e.HazardAdded)[0].gas, hand.events(e.HazardAdded)[0].sort) == (None, "other")


def test_read_across_each_sensor_sees_or_is_blind(hand: ByHand) -> None:
    """A catalytic flammable sensor answers to methane; no cell of a four-gas instrument answers to carbon dioxide:
    common practice."""
    assign_instrument(hand.office, hand.number, "07", "test", "6.0", by="P-01")
    view = hazards_sheet(hand.office, hand.number)
    rows = {row.id: row for row in view.rows}
    assert [column.gas for column in view.columns] == ["oxygen", "flammable", "hydrogen-sulfide", "carbon-monoxide"]
    assert rows["methane"].cells == (False, True, False, False)
    assert rows["lack-of-oxygen"].cells == (True, False, False, False)
    assert rows["carbon-dioxide"].cells == (False, False, False, False)
    assert rows["carbon-dioxide"].seen is False
    assert rows["fall"].cells == () and rows["fall"].seen is None


def test_an_instrument_that_was_returned_sees_nothing(hand: ByHand) -> None:
    assign_instrument(hand.office, hand.number, "07", "test", "6.0", by="P-01")
    return_instrument(hand.office, hand.number, "07", "done", by="P-01")
    view = hazards_sheet(hand.office, hand.number)
    assert view.columns == ()
    assert {row.seen for row in view.rows} == {False, None}


def test_an_id_is_never_given_twice() -> None:
    assert hazard_id("Solvent vapor!", ()) == "solvent-vapor"
    assert hazard_id("Solvent vapor", ("solvent-vapor", "solvent-vapor-2")) == "solvent-vapor-3"
    assert hazard_id("…", ()) == "hazard"


def test_an_instrument_that_is_not_ready_is_said_and_is_no_eye(tmp_path: Path) -> None:
    """At 12:16 instrument 03 serves the contact vessel and was not bump tested that day."""
    shift = lived_until(tmp_path, "12:16")
    rows = {row.name: row for row in hazards_sheet(shift.office, shift.permits["B"]).rows}
    assert (rows["Lack of oxygen"].seen_words, rows["Lack of oxygen"].blocked) == ("03 not ready", True)


def test_it_is_said_by_what_a_hazard_is_seen(tmp_path: Path) -> None:
    shift = lived_until(tmp_path, "08:00")
    rows = {row.name: row for row in hazards_sheet(shift.office, shift.permits["A"]).rows}
    assert rows["Hydrogen sulfide"].seen_words == "Seen by 07,\u00a011"
    assert not rows["Hydrogen sulfide"].blocked


def test_hot_work_that_is_added_brings_its_own_questions_to_the_sheet(hand: ByHand) -> None:
    assert hand.hidden("workbook.hazards.hot-work-permit.yes")
    hand.press("workbook.hazards.add")
    hand.keys("Welding")
    hand.key(Qt.Key.Key_Return)
    hand.keys("sparks, fume")
    hand.key(Qt.Key.Key_Return)
    hand.choose("workbook.hazards.add.gas", "no")
    hand.choose("workbook.hazards.add.sort", "hot work")
    hand.press("workbook.hazards.add.record")
    hand.show("hazards/hot-work-permit")
    for item in ("hot-work-permit", "fire-watch", "cylinders-outside"):
        assert not hand.hidden(f"workbook.hazards.{item}.yes"), item
