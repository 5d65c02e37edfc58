"""Rescue's answer and the tried call are recorded once their fields are filled; times and figures are read aloud."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from tests.desk.workbook.filled_site import Room, lived_until

from lamproom.desk.workbook.rescue_sheet import RescueSheet
from lamproom.office.views.rescue_sheet import rescue_view, time_today
from lamproom.permit import events as e
from lamproom.permit.words import clock

BEFORE = "07:20"
"""Hours are planned from 09:00 to 14:00; rescue has not been called."""


def room_at(qtbot: QtBot, folder: Path, until: str, *without: str) -> Room:
    room = Room(lived_until(folder, until, without), RescueSheet)
    qtbot.addWidget(room.window)
    room.show()
    return room


def fill(qtbot: QtBot, room: Room, **texts: str) -> None:
    for name, text in texts.items():
        box = room.find(f"workbook.rescue.{name.replace('_', '-')}")
        box.setFocus()
        qtbot.keyClicks(box, text)
        qtbot.keyClick(box, Qt.Key.Key_Return)


def press(qtbot: QtBot, room: Room, name: str) -> None:
    qtbot.mouseClick(room.find(f"workbook.rescue.{name}"), Qt.MouseButton.LeftButton)


def test_enter_goes_through_the_fields_and_records_the_answer_at_the_last(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, BEFORE)
    fill(qtbot, room, answered_by="duty officer", until="15:00")
    assert room.shift.office.permit(room.number).rescue is None
    fill(qtbot, room, minutes="14")
    permit = room.shift.office.permit(room.number)
    assert permit.rescue is not None and isinstance(permit.rescue.event, e.RescueConfirmed)
    event = permit.rescue.event
    assert (event.answered_by, event.response_min) == ("duty officer", "14")
    assert clock(event.good_until, permit.zone) == "15:00"


def test_empty_fields_are_said_beside_and_nothing_is_recorded(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, BEFORE)
    fill(qtbot, room, answered_by="duty officer")
    press(qtbot, room, "confirm")
    assert room.shift.office.permit(room.number).rescue is None
    assert room.sheet._until.error() == "This is not filled in."
    assert room.find("workbook.rescue.answered-by").text() == "duty officer"  # type: ignore[attr-defined]


def test_a_time_that_is_none_is_refused_and_kept(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, BEFORE)
    fill(qtbot, room, answered_by="duty officer", until="25:00", minutes="14")
    press(qtbot, room, "confirm")
    assert room.shift.office.permit(room.number).rescue is None
    assert "25:00" in room.sheet._until.error()


def test_the_planned_means_is_taken_by_one_press(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, BEFORE)
    press(qtbot, room, "means-as-planned")
    fill(qtbot, room, call_answered_by="desk 2", seconds="20")
    press(qtbot, room, "call")
    tried = room.shift.office.permit(room.number).call_tried
    assert tried is not None
    assert tried.event == e.RescueCallTried(means="radio channel 4", answered_by="desk 2", seconds="20")


def test_the_evaluations_words_answer_a_question_by_one_press(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, BEFORE)
    press(qtbot, room, "equipment.as-evaluated")
    made = room.shift.office.permit(room.number).answers["equipment"]
    described = room.shift.office.permit(room.number).opened.evaluated.equipment
    assert isinstance(made.event, e.Answered)
    assert (made.event.answer, made.event.found) == ("yes", described)
    assert not room.find("workbook.rescue.equipment.as-evaluated").isVisible()


def test_retrieval_that_does_not_apply_needs_its_reason(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, BEFORE)
    press(qtbot, room, "retrieval.does-not-apply")
    assert "retrieval" not in room.shift.office.permit(room.number).answers
    box = room.find("workbook.rescue.retrieval.reason")
    qtbot.keyClicks(box, "the line would foul the mixer")
    qtbot.keyClick(box, Qt.Key.Key_Return)
    made = room.shift.office.permit(room.number).answers["retrieval"]
    assert isinstance(made.event, e.Answered)
    assert (made.event.answer, made.event.found) == ("does not apply", "the line would foul the mixer")


def test_half_typed_words_come_back(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, BEFORE)
    fill(qtbot, room, answered_by="duty officer")
    again = Room(room.shift, RescueSheet)
    qtbot.addWidget(again.window)
    again.show()
    assert again.find("workbook.rescue.answered-by").text() == "duty officer"  # type: ignore[attr-defined]


def test_the_words_to_say_name_site_place_depth_and_hazards(tmp_path: Path) -> None:
    shift = lived_until(tmp_path, "08:51")
    call = rescue_view(shift.office, shift.permits["A"]).call
    assert call[0] == "This is Osprel Bend Waterworks. Confined-space rescue."
    assert "Wet well 2" in call[1]
    assert call[3] == "3 people work inside."


@pytest.mark.parametrize("text", ["", "9", "24:00", "12:60", "noon", "12:00:00"])
def test_no_time_of_day_is_none(text: str, tmp_path: Path) -> None:
    shift = lived_until(tmp_path, BEFORE)
    assert time_today(shift.office, shift.permits["A"], text) is None


def test_a_time_before_the_hours_begin_never_becomes_tomorrow(tmp_path: Path) -> None:
    """An answer of 08:30 for hours from 09:00 is over before they begin; it may not turn into a day of cover."""
    shift = lived_until(tmp_path, BEFORE)
    until = time_today(shift.office, shift.permits["A"], "08:30")
    hours = shift.office.permit(shift.permits["A"]).hours
    assert until is not None and hours is not None and until < hours.begins
