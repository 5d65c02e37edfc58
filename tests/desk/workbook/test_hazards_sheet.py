"""The sheet 'hazards', driven by keys and clicks."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from tests.desk.workbook.by_hand import ByHand
from tests.desk.workbook.filled_site import lived_until

from lamproom.desk.signs import Sign
from lamproom.office.assign_instrument import assign_instrument
from lamproom.office.return_instrument import return_instrument
from lamproom.office.views.hazards_sheet import hazard_id, hazards_sheet
from lamproom.office.views.workbook import workbook
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


def test_read_across_each_sensor_sees_or_does_not(hand: ByHand) -> None:
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


def test_an_answer_claims_that_it_was_looked_at_and_never_that_its_control_stands(hand: ByHand) -> None:
    """The locks are recorded on another sheet, later: the row says what the control is, with no tick."""
    hand.press("workbook.hazards.engulfment.as-evaluated")
    line = hand.screen._made["hazards"]._lines["engulfment"]._held
    assert line.words() == "Control: Inlet gate shut and locked, level read before entry."
    assert line.sign is not Sign.WITHIN
    for hazard in ("lack-of-oxygen", "methane", "hydrogen-sulfide", "carbon-dioxide", "fall"):
        hand.press(f"workbook.hazards.{hazard}.as-evaluated")
    states = {sheet.key: sheet.state for sheet in workbook(hand.office, hand.number).sheets}
    assert states["hazards"] == "looked at 07:40"


def test_a_gas_that_only_displaces_air_shows_as_missing_oxygen_and_a_toxic_one_is_not_seen(tmp_path: Path) -> None:
    """Instrument 03 of the contact vessel has the four usual sensors; nitrogen is met by the oxygen figure alone."""
    shift = lived_until(tmp_path, "12:16")
    view = hazards_sheet(shift.office, shift.permits["B"])
    nitrogen = next(row for row in view.rows if row.id.startswith("nitrogen"))
    assert nitrogen.cell_words[0] == "only as missing oxygen"
    assert set(nitrogen.cell_words[1:]) == {"does not see"}
    day = hazards_sheet(shift.office, shift.permits["A"])
    sulfide = next(row for row in day.rows if row.name == "Hydrogen sulfide")
    assert sulfide.cell_words == ("does not see", "does not see", "sees", "does not see")


def test_the_head_of_a_column_says_by_what_the_sensor_sees(hand: ByHand) -> None:
    assign_instrument(hand.office, hand.number, "07", "test", "6.0", by="P-01")
    kinds = [column.kind for column in hazards_sheet(hand.office, hand.number).columns]
    assert kinds == ["galvanic", "catalytic", "cell", "cell"]
    hand.show("hazards")
    heads = [label.text() for label in hand.screen._made["hazards"]._heads.findChildren(QLabel)]
    assert "catalytic" in heads


def test_a_gas_that_only_burns_has_the_limit_of_flammable_gas(hand: ByHand) -> None:
    rows = {row.id: row for row in hazards_sheet(hand.office, hand.number).rows}
    assert rows["methane"].limit == "below 10 % LEL"


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
