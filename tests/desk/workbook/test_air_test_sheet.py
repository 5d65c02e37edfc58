"""The air test is lived by keys and presses: wait, figures, doubts, the working and the correction."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLineEdit
from pytestqt.qtbot import QtBot
from tests.desk.workbook.filled_site import Room, lived_until
from tests.stories.lives import DAY_TABLE

from lamproom.desk.parts.stray import STRAY
from lamproom.desk.signs import Sign
from lamproom.desk.workbook.air_test_sheet import AirTestSheet
from lamproom.office import replay
from lamproom.office.shift_table import rows_of
from lamproom.office.take_readings import take_readings
from lamproom.office.views.air_test_sheet import air_test_view
from lamproom.office.views.air_working import working_view
from lamproom.office.views.watch_time import watch_time

OPENED = "07:55"
"""The space is open, no point is read yet."""


def room_at(qtbot: QtBot, folder: Path, until: str, *without: str) -> Room:
    room = Room(lived_until(folder, until, without), AirTestSheet, "P-03")
    qtbot.addWidget(room.window)
    room.show()
    return room


def pass_time(room: Room, seconds: int) -> None:
    room.shift.clock.pass_time(timedelta(seconds=seconds))
    room.desk.ticked.emit()


def type_figures(qtbot: QtBot, room: Room, oxygen: str, lel: str = "0", h2s: str = "0", co: str = "0") -> None:
    for gas, text in (("oxygen", oxygen), ("flammable", lel), ("hydrogen-sulfide", h2s), ("carbon-monoxide", co)):
        box = room.find(f"workbook.air-test.figure.{gas}")
        box.setFocus()
        qtbot.keyClicks(box, text)
        qtbot.keyClick(box, Qt.Key.Key_Return)


def press(qtbot: QtBot, room: Room, name: str) -> None:
    qtbot.mouseClick(room.find(name), Qt.MouseButton.LeftButton)


def last_set(room: Room):  # type: ignore[no-untyped-def]
    return room.shift.office.permit(room.number).sets[-1]


def test_the_boxes_open_only_when_the_wait_is_over_and_the_set_counts(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    hold = air_test_view(room.shift.office, room.number).testers[0].hold_s
    assert hold is not None
    press(qtbot, room, "workbook.air-test.lowered")
    pass_time(room, hold - 1)
    assert not room.find("workbook.air-test.figure.oxygen").isVisible()
    pass_time(room, 1)
    assert room.find("workbook.air-test.figure.oxygen").isVisible()
    type_figures(qtbot, room, "20,9")
    stored = last_set(room)
    assert (stored.event.phase, stored.event.point_m, stored.by) == ("open", "0.3", "P-03")
    assert [figure.figure for figure in stored.figures] == ["20.9", "0", "0", "0"]
    assert air_test_view(room.shift.office, room.number).place("point/0.3").state == "done"  # type: ignore[union-attr]


def test_enter_walks_from_box_to_box_and_in_the_last_one_stores(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    before = len(room.shift.office.permit(room.number).sets)
    type_figures(qtbot, room, "20.9")
    assert len(room.shift.office.permit(room.number).sets) == before + 1
    assert last_set(room).event.phase == "upwind"
    assert last_set(room).event.lowered is None


def test_after_storing_the_next_place_of_the_plan_is_at_hand_with_empty_boxes(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    type_figures(qtbot, room, "20.9")
    assert room.find("workbook.air-test.place.lid").isChecked()  # type: ignore[attr-defined]
    assert room.find("workbook.air-test.lowered").hasFocus()
    assert room.find("workbook.air-test.figure.oxygen").text() == ""  # type: ignore[attr-defined]


def test_enter_once_too_often_after_storing_does_not_say_that_the_probe_is_at_rest(
    qtbot: QtBot, tmp_path: Path
) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    type_figures(qtbot, room, "20.9")
    down = room.find("workbook.air-test.lowered")
    assert down.hasFocus()
    qtbot.keyClick(down, Qt.Key.Key_Return)
    assert room.sheet._lowered is None
    qtbot.wait(STRAY + 200)
    qtbot.keyClick(down, Qt.Key.Key_Return)
    assert room.sheet._lowered is not None


def test_an_unreadable_figure_is_refused_beside_the_boxes_and_its_text_stays(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    before = len(room.shift.office.permit(room.number).sets)
    type_figures(qtbot, room, "2O.9")
    press(qtbot, room, "workbook.air-test.store")
    assert len(room.shift.office.permit(room.number).sets) == before
    assert "Oxygen" in room.sheet.entry.message.text()
    assert room.find("workbook.air-test.figure.oxygen").text() == "2O.9"  # type: ignore[attr-defined]


def test_an_empty_box_is_never_a_zero(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    before = len(room.shift.office.permit(room.number).sets)
    type_figures(qtbot, room, "20.9", co="")
    press(qtbot, room, "workbook.air-test.store")
    assert len(room.shift.office.permit(room.number).sets) == before
    assert room.sheet.entry.message.text() == "Carbon monoxide: type the figure, or say that there is none."


def test_a_comma_before_three_digits_is_asked_about_once_and_stored_as_typed(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    before = len(room.shift.office.permit(room.number).sets)
    type_figures(qtbot, room, "20.9", co="1,250")
    assert len(room.shift.office.permit(room.number).sets) == before
    assert "1.250" in room.sheet.entry.message.text()
    press(qtbot, room, "workbook.air-test.store")
    stored = last_set(room)
    assert stored.event.as_typed
    assert stored.figures[3].figure == "1.250"


def test_209_is_queried_and_never_silently_changed(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    before = len(room.shift.office.permit(room.number).sets)
    type_figures(qtbot, room, "209")
    press(qtbot, room, "workbook.air-test.store")
    assert len(room.shift.office.permit(room.number).sets) == before
    assert "209" in room.sheet.entry.message.text()
    assert room.find("workbook.air-test.figure.oxygen").text() == "209"  # type: ignore[attr-defined]


def test_209_offers_20_9_and_one_press_takes_it(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    box = room.find("workbook.air-test.figure.oxygen")
    offer = room.find("workbook.air-test.meant")
    assert isinstance(box, QLineEdit)
    assert not offer.isVisible()
    box.setFocus()
    qtbot.keyClicks(box, "209")
    qtbot.keyClick(box, Qt.Key.Key_Return)
    assert room.sheet.entry.message.text() == "Oxygen: 209 is over 100 %. Did you mean 20.9?"
    assert offer.isVisible() and box.text() == "209"
    press(qtbot, room, "workbook.air-test.meant")
    assert box.text() == "20.9"
    assert not offer.isVisible() and room.sheet.entry.message.text() == ""
    assert room.find("workbook.air-test.figure.flammable").hasFocus()
    assert room.sheet.kept("figure.oxygen") == "20.9"


def test_a_figure_past_its_limit_alarms_first_also_where_another_was_perhaps_meant(
    qtbot: QtBot, tmp_path: Path
) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    box = room.find("workbook.air-test.figure.oxygen")
    box.setFocus()
    qtbot.keyClicks(box, "2.09")
    qtbot.keyClick(box, Qt.Key.Key_Return)
    assert room.sheet.entry.message.text() == (
        "Oxygen 2.09 % vol is outside: the limit is 19.5 to 23.5 % vol. Did you mean 20.9?"
    )
    assert room.find("workbook.air-test.meant").isVisible()


def test_a_figure_outside_its_limit_alarms_while_it_stands_in_the_box(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    box = room.find("workbook.air-test.figure.oxygen")
    qtbot.keyClicks(box, "19.4")
    qtbot.keyClick(box, Qt.Key.Key_Return)
    assert "is outside" in room.sheet.entry.message.text()


@pytest.mark.parametrize("state", ["not-measured", "fault", "over-range"])
def test_what_stands_in_place_of_a_figure_is_kept_apart_from_zero(qtbot: QtBot, tmp_path: Path, state: str) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    type_figures(qtbot, room, "20.9", co="")
    drop = room.find("workbook.air-test.state.carbon-monoxide")
    assert isinstance(drop, QComboBox)
    drop.setCurrentIndex(drop.findData(state))
    drop.activated.emit(drop.currentIndex())
    press(qtbot, room, "workbook.air-test.store")
    assert (last_set(room).figures[3].state, last_set(room).figures[3].figure) == (state, None)


def test_times_from_a_watch_are_checked_and_a_short_wait_is_stored_but_does_not_count(
    qtbot: QtBot, tmp_path: Path
) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    press(qtbot, room, "workbook.air-test.type-times")
    for name, text in (("lowered-at", "07:51:10"), ("noted-at", "07:51:40")):
        box = room.find(f"workbook.air-test.{name}")
        box.setFocus()
        qtbot.keyClicks(box, text)
        qtbot.keyClick(box, Qt.Key.Key_Return)
    assert "too short" in room.sheet.entry.words.text()
    type_figures(qtbot, room, "20.9")
    stored = last_set(room)
    assert (stored.event.taken - stored.event.lowered).total_seconds() == 30
    place = air_test_view(room.shift.office, room.number).place("point/0.3")
    assert place is not None and (place.state, place.words) == ("again", "early, read again")


def test_a_time_that_is_none_is_said_beside_its_field_and_stays(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    press(qtbot, room, "workbook.air-test.type-times")
    box = room.find("workbook.air-test.lowered-at")
    qtbot.keyClicks(box, "7.75")
    qtbot.keyClick(box, Qt.Key.Key_Return)
    assert "7.75" in room.sheet.entry.at_rest.error()
    assert isinstance(box, QLineEdit) and box.text() == "7.75"


def test_the_wait_and_half_typed_figures_come_back_after_a_restart(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    press(qtbot, room, "workbook.air-test.lowered")
    pass_time(room, 90)
    box = room.find("workbook.air-test.figure.oxygen")
    qtbot.keyClicks(box, "20.8")
    again = Room(room.shift, AirTestSheet, "P-03")
    qtbot.addWidget(again.window)
    again.show()
    assert again.find("workbook.air-test.figure.oxygen").isVisible()
    assert again.find("workbook.air-test.figure.oxygen").text() == "20.8"  # type: ignore[attr-defined]


def test_points_wait_for_the_opening_and_the_sheet_leads_there(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:51")
    assert room.find("workbook.air-test.lead").isVisible()
    press(qtbot, room, "workbook.air-test.lead")
    assert room.went[-1] == ("workbook", {"permit": room.number, "target": "isolation/open"})


def test_the_phase_of_a_point_is_that_of_the_moment(qtbot: QtBot, tmp_path: Path) -> None:
    blown = tmp_path / "blown"
    blown.mkdir()
    assert {p.phase for p in _points(lived_until(tmp_path, OPENED))} == {"open"}
    assert {p.phase for p in _points(lived_until(blown, "08:11"))} == {"ventilating"}


def _points(shift):  # type: ignore[no-untyped-def]
    plan = air_test_view(shift.office, shift.permits["A"]).plan
    return [place for place in plan if place.point_m is not None]


def test_the_working_of_oxygen_ends_in_what_the_rule_finds(tmp_path: Path) -> None:
    """20.9 − 20.8 − 0.1 leaves nothing: worked out by hand."""
    shift = lived_until(tmp_path, "08:03")
    number = shift.permits["A"]
    value = next(v for v in air_test_view(shift.office, number).values if (v.gas, v.depth) == ("oxygen", "3.6"))
    working = working_view(shift.office, number, value.set_version, "oxygen")
    assert working is not None
    steps = working.pages[0].steps
    assert [step.figure for step in steps][:2] == ["0.0 % vol", "0 ppm"]
    assert steps[-1].total and steps[-1].figure == "0 ppm"


def test_a_figure_outside_is_ringed_with_its_limit_and_said(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "08:03")
    assert room.sheet.alarm.text() == ("Hydrogen sulfide 11 ppm at 3.6 m at 08:02; the limit is below 10 ppm.")
    outside = [v for v in air_test_view(room.shift.office, room.number).values if v.outside]
    assert [(v.gas, v.depth, v.ringed) for v in outside] == [("hydrogen-sulfide", "3.6", True)]


def test_a_correction_asks_once_and_leaves_both_figures_in_the_table(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "08:03")
    room.find("workbook.air-test.picture").setFocus()
    room.sheet.picture.choose("hydrogen-sulfide", 3.6)
    press(qtbot, room, "workbook.air-test.correct")
    qtbot.keyClicks(room.find("workbook.air-test.correct.new"), "1")
    qtbot.keyClick(room.find("workbook.air-test.correct.new"), Qt.Key.Key_Return)
    qtbot.keyClicks(room.find("workbook.air-test.correct.reason"), "a one typed twice")
    press(qtbot, room, "workbook.air-test.correct.do")
    assert [question.yes for question in room.asked] == ["Correct"]
    press(qtbot, room, "workbook.air-test.as-table")
    table = room.sheet.table.table
    cells = [table.cell(row, column) for row in range(table.row_count()) for column in range(8)]
    assert [cell.text for cell in cells if cell.struck] == ["11"]
    assert "a one typed twice" in room.sheet.table.reasons.text()


def test_a_correction_without_a_reason_is_not_made(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "08:03")
    room.sheet.picture.choose("hydrogen-sulfide", 3.6)
    press(qtbot, room, "workbook.air-test.correct")
    qtbot.keyClicks(room.find("workbook.air-test.correct.new"), "1")
    press(qtbot, room, "workbook.air-test.correct.do")
    assert room.sheet.correction.reason.error() == "Say why the figure is corrected."
    assert not room.asked


def test_a_link_of_an_obstacle_leads_to_its_place(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    room.sheet.show_target("point/2.5")
    assert room.find("workbook.air-test.place.point/2.5").isChecked()  # type: ignore[attr-defined]
    assert room.find("workbook.air-test.lowered").hasFocus()


def test_without_an_instrument_the_sheet_says_where_to_assign_one(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:41", "assign instrument", "test hose")
    assert "Assign one" in room.sheet.entry.words.text()
    press(qtbot, room, "workbook.air-test.lead")
    assert room.went[-1][1]["target"] == "instruments/assign"


@pytest.mark.parametrize("text", ["", "24:00", "7", "07:60", "07:00:60", "ab:cd", "007:30"])
def test_no_time_is_read_from(text: str, tmp_path: Path) -> None:
    assert watch_time(lived_until(tmp_path, "07:30").office, text) is None


def test_a_time_ahead_of_now_is_yesterdays(tmp_path: Path) -> None:
    office = lived_until(tmp_path, "07:30").office
    late, early = watch_time(office, "23:59:30"), watch_time(office, "07:10")
    assert late is not None and early is not None
    assert late < early <= office.now()


def test_a_place_whose_figures_are_outside_is_signed_and_never_ticked(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    read_point(qtbot, room, "19.4")
    place = air_test_view(room.shift.office, room.number).place("point/0.3")
    assert place is not None and place.state == "outside"
    assert place.words.startswith("past limit, ")


def test_a_place_with_gas_that_nothing_here_sees_is_never_ticked(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    read_point(qtbot, room, "20.3")
    place = air_test_view(room.shift.office, room.number).place("point/0.3")
    assert place is not None and place.state == "outside"
    assert place.words.startswith("unseen gas, ")


def test_after_a_set_is_stored_the_plan_moves_on_and_never_sits_on_a_read_place(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    view = air_test_view(room.shift.office, room.number)
    keys = [place.key for place in view.plan if place.point_m is not None]
    for key, following in zip(keys, [*keys[1:], None], strict=True):
        assert room.find(f"workbook.air-test.place.{key}").isChecked()  # type: ignore[attr-defined]
        read_point(qtbot, room, "20.9")
        if following is not None:
            assert room.find(f"workbook.air-test.place.{following}").isChecked()  # type: ignore[attr-defined]
    assert room.sheet.entry.words.text() == "Every place of the plan is read."
    press(qtbot, room, "workbook.air-test.lead")
    assert room.find("workbook.air-test.shown-close").isVisible()


def test_a_link_to_a_point_finds_it_though_the_sheet_was_hidden_when_the_plan_was_made(
    qtbot: QtBot, tmp_path: Path
) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    room.sheet.hide()
    rows = [row for row in DAY_TABLE.splitlines() if "07:42" <= row[:5] < OPENED]
    replay.live(room.shift, "\n".join(rows))
    room.desk.changed.emit(frozenset({f"permit/{room.number}"}))
    room.sheet.show_target("point/1.4")
    assert room.sheet._here == "point/1.4"


def test_the_slip_closes_when_its_set_is_no_longer_the_newest_at_the_point(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    read_point(qtbot, room, "20.9")
    room.sheet.picture.choose("oxygen", 0.3)
    assert room.sheet.below.currentIndex() == 1
    view = air_test_view(room.shift.office, room.number)
    set_before = last_set(room)
    assert room.desk.do(
        take_readings,
        room.number,
        "open",
        "0.3",
        view.testers[0].instrument,
        set_before.figures,
        by="P-03",
        lowered=room.shift.office.now() - timedelta(seconds=90),
    )
    assert room.sheet.below.currentIndex() == 0


def test_the_table_signs_what_is_outside_and_ends_with_the_limits(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    read_point(qtbot, room, "19.4")
    press(qtbot, room, "workbook.air-test.as-table")
    model = room.sheet.table.table.model()
    cells = [model.index(row, 2).data(Qt.ItemDataRole.UserRole) for row in range(model.rowCount())]
    last = model.columnCount() - 1
    bad = next(row for row, cell in enumerate(cells) if cell.text == "19.4")
    assert cells[bad].sign is Sign.DANGER and cells[bad].bold
    assert model.index(bad, last).data() == "yes, outside"
    assert [cell.text for cell in cells][-1] == "19.5 to 23.5"


def test_the_working_slip_never_widens_the_window(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    read_point(qtbot, room, "20.9")
    room.sheet.picture.choose("oxygen", 0.3)
    assert room.sheet.minimumSizeHint().width() <= 1366 - 252 - 356


def read_point(qtbot: QtBot, room: Room, oxygen: str) -> None:
    """The place at hand, its wait kept."""
    hold = air_test_view(room.shift.office, room.number).testers[0].hold_s
    press(qtbot, room, "workbook.air-test.lowered")
    pass_time(room, int(hold or 0))
    type_figures(qtbot, room, oxygen)


def checked(room: Room, key: str) -> bool:
    return bool(room.find(f"workbook.air-test.place.{key}").isChecked())  # type: ignore[attr-defined]


def start_fan_beside(room: Room) -> None:
    """The day's fan is started while the sheet stands open."""
    replay.live_row(room.shift, next(row for row in rows_of(DAY_TABLE) if row.act == "start fan"))
    room.sheet.refresh()


def test_the_probe_goes_on_down_from_a_point_that_was_turned_to(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    press(qtbot, room, "workbook.air-test.place.point/3.6")
    read_point(qtbot, room, "20.8")
    assert checked(room, "point/4.8"), "the next below"
    read_point(qtbot, room, "20.8")
    assert checked(room, "point/0.3"), "nothing is left below: the first that is open"


def test_a_duct_that_joined_the_plan_is_at_hand_where_nothing_was_begun(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    assert checked(room, "point/0.3")
    start_fan_beside(room)
    assert checked(room, "duct")


@pytest.mark.parametrize("begun", ["workbook.air-test.place.point/2.5", "workbook.air-test.lowered"])
def test_a_place_that_a_person_turned_to_or_began_stays_though_a_duct_joins(
    qtbot: QtBot, tmp_path: Path, begun: str
) -> None:
    room = room_at(qtbot, tmp_path, OPENED)
    press(qtbot, room, begun)
    start_fan_beside(room)
    assert checked(room, begun.rsplit("place.")[-1] if "place." in begun else "point/0.3")


def test_a_figure_read_before_the_fan_stays_to_be_seen_as_old_and_the_point_as_not_tested_since(
    qtbot: QtBot, tmp_path: Path
) -> None:
    """At 08:12 the fan runs: 11 and 14 ppm of 08:02 and 08:04 count for nothing, and are not forgotten."""
    room = room_at(qtbot, tmp_path, "08:12")
    view = air_test_view(room.shift.office, room.number)
    old = {(one.depth, one.gas): one.text for one in view.old}
    assert old["3.6", "hydrogen-sulfide"] == "11" and old["4.8", "hydrogen-sulfide"] == "14"
    assert {one.gas for one in view.old if one.outside} == {"hydrogen-sulfide"}
    place = view.place("point/3.6")
    assert place is not None and place.words == "was 08:02"
    said = room.sheet.picture.accessibleDescription()
    assert "3.6 m: not tested since the air changed; 08:02, before the fan" in said
    assert "0.3 m: not tested;" in said
    assert room.sheet.picture.legend == "Struck: before the fan. Not tested since the air changed."


def test_over_the_limit_the_next_step_is_to_change_the_air_and_a_point_is_read_only_by_choice(
    qtbot: QtBot, tmp_path: Path
) -> None:
    room = room_at(qtbot, tmp_path, "08:05")
    assert not room.find("workbook.air-test.lowered").isVisible()
    assert "Change the air first" in room.sheet.entry.words.text()
    assert not room.find("workbook.air-test.place.point/0.3").isChecked()  # type: ignore[attr-defined]
    press(qtbot, room, "workbook.air-test.lead")
    assert room.went[-1] == ("workbook", {"permit": room.number, "target": "isolation/fan"})
    press(qtbot, room, "workbook.air-test.place.point/0.3")
    assert room.find("workbook.air-test.lowered").isVisible()


def test_a_place_past_its_limit_says_so_with_its_time(tmp_path: Path) -> None:
    shift = lived_until(tmp_path, "08:05")
    place = air_test_view(shift.office, shift.permits["A"]).place("point/3.6")
    assert place is not None and place.words == "past limit, 08:02"


def test_temperature_and_humidity_are_typed_where_it_is_damp_and_both_or_neither_stored(
    qtbot: QtBot, tmp_path: Path
) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    before = len(room.shift.office.permit(room.number).sets)
    press(qtbot, room, "workbook.air-test.damp")
    celsius, humidity = room.find("workbook.air-test.celsius"), room.find("workbook.air-test.humidity")
    qtbot.keyClicks(celsius, "-2,5")
    type_figures(qtbot, room, "20.9")
    assert len(room.shift.office.permit(room.number).sets) == before, "one of the two alone is asked for, not stored"
    assert humidity.hasFocus()
    qtbot.keyClicks(humidity, "70")
    qtbot.keyClick(humidity, Qt.Key.Key_Return)
    stored = last_set(room)
    assert (stored.event.temperature_c, stored.event.humidity_pct) == ("-2.5", "70")
    assert not room.find("workbook.air-test.celsius").isVisible()


def test_a_humidity_that_no_air_has_is_refused_and_what_was_typed_stays(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:42")
    before = len(room.shift.office.permit(room.number).sets)
    press(qtbot, room, "workbook.air-test.damp")
    qtbot.keyClicks(room.find("workbook.air-test.celsius"), "20")
    qtbot.keyClicks(room.find("workbook.air-test.humidity"), "170")
    type_figures(qtbot, room, "20.9")
    assert len(room.shift.office.permit(room.number).sets) == before
    assert "170" in room.sheet.entry.message.text()
    assert room.find("workbook.air-test.humidity").text() == "170"  # type: ignore[attr-defined]
