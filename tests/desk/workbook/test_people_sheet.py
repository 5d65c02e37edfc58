"""Who is named, why someone cannot be, and the briefing signed by everyone on one page."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot
from tests.desk.workbook.filled_site import Room, lived_until

from lamproom.desk.workbook.people_sheet import PeopleSheet
from lamproom.office.unname_person import unname_person
from lamproom.office.views.people_sheet import people_view

CREW = ("P-04", "P-05", "P-06", "P-02", "P-03")


def room_at(qtbot: QtBot, folder: Path, until: str, *without: str) -> Room:
    room = Room(lived_until(folder, until, without), PeopleSheet)
    qtbot.addWidget(room.window)
    room.show()
    return room


def press(qtbot: QtBot, room: Room, name: str) -> None:
    qtbot.mouseClick(room.find(name), Qt.MouseButton.LeftButton)


def sign(qtbot: QtBot, pad: QWidget, slant: int) -> None:
    qtbot.mousePress(pad, Qt.MouseButton.LeftButton, pos=QPoint(30, 60))
    for x in range(40, 140, 10):
        qtbot.mouseMove(pad, QPoint(x, 60 + (x * slant) % 40))
        QApplication.sendPostedEvents()
    qtbot.mouseRelease(pad, Qt.MouseButton.LeftButton, pos=QPoint(140, 60 + slant))


def test_a_press_names_and_a_second_press_unnames(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:16")
    press(qtbot, room, "workbook.people.entrant.P-04")
    assert room.shift.office.permit(room.number).entrants == ("P-04",)
    press(qtbot, room, "workbook.people.entrant.P-04")
    assert room.shift.office.permit(room.number).entrants == ()


def test_enter_on_a_name_names_it_and_arrows_alone_do_not(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:16")
    row = room.find("workbook.people.attendant.P-02")
    row.setFocus()
    qtbot.keyClick(row, Qt.Key.Key_Down)
    assert room.shift.office.permit(room.number).attendants == ()
    qtbot.keyClick(row, Qt.Key.Key_Return)
    assert room.shift.office.permit(room.number).attendants == ("P-02",)


def test_the_supervisor_named_is_not_pressed_away(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:16")
    press(qtbot, room, "workbook.people.supervisor.P-01")
    version = room.shift.office.permit(room.number).version
    press(qtbot, room, "workbook.people.supervisor.P-01")
    assert room.shift.office.permit(room.number).supervisor == "P-01"
    assert room.shift.office.permit(room.number).version == version


def test_each_name_says_until_when_it_is_trained(qtbot: QtBot, tmp_path: Path) -> None:
    view = people_view(lived_until(tmp_path, "07:16").office, "26-0001")
    assert [(one.name, one.words) for one in view.supervisors] == [("Mara Velde", "trained until 3 Mar 2027")]


def test_the_register_offers_only_those_of_the_part(tmp_path: Path) -> None:
    shift = lived_until(tmp_path, "07:16")
    view = people_view(shift.office, shift.permits["A"])
    assert {one.person for one in view.entrants} == {"P-04", "P-05", "P-06"}


def test_everyone_signs_and_one_press_records_the_briefing_in_the_supervisors_name(
    qtbot: QtBot, tmp_path: Path
) -> None:
    room = room_at(qtbot, tmp_path, "08:50")
    press(qtbot, room, "workbook.people.briefing")
    for slant, person in enumerate(CREW, 3):
        sign(qtbot, room.find(f"workbook.people.ink.{person}"), slant)
    press(qtbot, room, "workbook.people.brief")
    briefed = room.shift.office.permit(room.number).briefed
    assert set(briefed) == set(CREW)
    assert {made.by for made in briefed.values()} == {"P-01"}
    assert not room.find("workbook.people.brief").isVisible()


def test_a_missing_signature_is_said_by_name_and_the_ink_drawn_stays(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "08:50")
    press(qtbot, room, "workbook.people.briefing")
    sign(qtbot, room.find("workbook.people.ink.P-04"), 3)
    press(qtbot, room, "workbook.people.brief")
    assert not room.shift.office.permit(room.number).briefed
    assert room.refused[-1] == ("Everyone briefed signs. Ink is missing: Kit Sorrel, Lena Quist, Oskar Wren, Nia Falk.")
    assert room.find("workbook.people.ink.P-04").strokes()  # type: ignore[attr-defined]


def test_a_change_of_the_crew_keeps_the_ink_of_those_who_stay(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "08:50")
    press(qtbot, room, "workbook.people.briefing")
    sign(qtbot, room.find("workbook.people.ink.P-04"), 3)
    unname_person(room.shift.office, room.number, "P-05", "entrant", by="P-01")
    QApplication.processEvents()
    assert room.find("workbook.people.ink.P-04").strokes()  # type: ignore[attr-defined]


def test_the_crew_is_told_hazards_results_signals_and_rescue(tmp_path: Path) -> None:
    shift = lived_until(tmp_path, "08:50")
    view = people_view(shift.office, shift.permits["A"])
    assert [told.head for told in view.told] == ["Hazards", "Signals", "Rescue"]
    assert view.told[1].lines[0] == (
        "Voice and sight; radio channel 2; line: one pull stop, two slack, three bring me out"
    )
    assert [row[2] for row in view.air.rows][-1] == ("20.8", "1", "2", "0")
    assert view.air.limits == ("19.5 to 23.5", "below 10", "below 10", "below 35")


def test_who_watched_is_recorded_once_with_its_answer(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "08:46")
    press(qtbot, room, "workbook.people.observed.yes")
    assert "observed" not in room.shift.office.permit(room.number).answers
    box = room.find("workbook.people.observed.found")
    qtbot.keyClicks(box, "Teo Amadi watched")
    qtbot.keyClick(box, Qt.Key.Key_Return)
    made = room.shift.office.permit(room.number).answers["observed"]
    assert (made.event.answer, made.event.found) == ("yes", "Teo Amadi watched")  # type: ignore[attr-defined]
    version = room.shift.office.permit(room.number).version
    room.find("workbook.people.who").setFocus()
    assert room.shift.office.permit(room.number).version == version


def test_links_lead_to_names_and_to_the_briefing(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "08:50")
    room.sheet.show_target("briefing")
    assert room.find("workbook.people.brief").hasFocus()
    room.sheet.show_target("attendant")
    assert room.find("workbook.people.attendant.P-02").hasFocus()


def test_whether_the_tests_were_watched_is_asked_only_once_a_point_is_read(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "07:55")
    room.sheet.show_target("observed")
    yes = room.find("workbook.people.observed.yes")
    assert not yes.isEnabled() and not yes.hasFocus()
    item = next(one for one in people_view(room.shift.office, room.number).items if one.id == "observed")
    assert item.waits == "This is answered once a point is read after the opening."


def test_a_link_to_the_watched_question_does_not_land_on_yes(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "08:45")
    room.sheet.show_target("observed")
    yes = room.find("workbook.people.observed.yes")
    assert yes.isEnabled() and not yes.hasFocus()
    focused = QApplication.focusWidget()
    assert focused is not None and focused.isAncestorOf(yes)
