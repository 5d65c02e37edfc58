"""Reviewing and authorizing: gaps listed with links, ink and code asked, one question, the Watch on success."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot
from tests.desk.workbook.filled_site import Room, lived_until

from lamproom.desk.workbook.review_sheet import ReviewSheet
from lamproom.office.describe_work import describe_work
from lamproom.office.name_person import name_person
from lamproom.office.views.review_sheet import review_view
from lamproom.office.views.workbook import in_order, sheet_of
from lamproom.permit import events as e
from lamproom.permit.form import SHEETS
from lamproom.permit.obstacles import Stage, barring

READY = "08:51"
CODE = "lantern-4417"


def room_at(qtbot: QtBot, folder: Path, until: str = READY, *without: str) -> Room:
    room = Room(lived_until(folder, until, without), ReviewSheet)
    qtbot.addWidget(room.window)
    room.show(1114, 664)
    return room


def press(qtbot: QtBot, room: Room, name: str) -> None:
    qtbot.mouseClick(room.find(f"workbook.review.{name}"), Qt.MouseButton.LeftButton)


def sign(qtbot: QtBot, room: Room) -> None:
    pad = room.find("workbook.review.ink")
    qtbot.mousePress(pad, Qt.MouseButton.LeftButton, pos=QPoint(30, 60))
    for x in range(40, 200, 10):
        qtbot.mouseMove(pad, QPoint(x, 60 + (x * 7) % 40))
        QApplication.sendPostedEvents()
    qtbot.mouseRelease(pad, Qt.MouseButton.LeftButton, pos=QPoint(200, 70))


def type_code(qtbot: QtBot, room: Room, code: str) -> None:
    box = room.find("workbook.review.code")
    box.setFocus()
    qtbot.keyClicks(box, code)
    qtbot.keyClick(box, Qt.Key.Key_Return)


def test_code_then_enter_does_not_authorize_but_the_button_does(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    sign(qtbot, room)
    type_code(qtbot, room, CODE)
    assert room.shift.office.permit(room.number).authorised is None
    press(qtbot, room, "authorise")
    permit = room.shift.office.permit(room.number)
    assert permit.authorised is not None and isinstance(permit.authorised.event, e.Authorised)
    assert permit.authorised.by == "P-01"
    assert permit.authorised.event.ink is not None and permit.authorised.event.ink.person == "P-01"
    assert room.went[-1] == ("watch", {"permit": room.number})
    assert room.asked[0].facts[0] == "Entrants: Teo Amadi, Kit Sorrel, Lena Quist"


def test_signing_by_key_alone_leaves_no_ink(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    press(qtbot, room, "by-key")
    type_code(qtbot, room, CODE)
    press(qtbot, room, "authorise")
    permit = room.shift.office.permit(room.number)
    assert permit.authorised is not None and isinstance(permit.authorised.event, e.Authorised)
    assert permit.authorised.event.ink is None


def test_pressing_with_gaps_lists_them_in_the_words_of_the_obstacles_with_links(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, READY, "brief", "item: equipment")
    press(qtbot, room, "authorise")
    assert room.shift.office.permit(room.number).authorised is None
    standing = in_order(barring(room.shift.office.facts(room.number), Stage.AUTHORISE))
    view = review_view(room.shift.office, room.number)
    assert [one.sentence for one in view.standing] == [o.sentence.say() for o in standing]
    focused = QApplication.focusWidget()
    assert focused is not None and room.find("workbook.review.gaps").isAncestorOf(focused)
    qtbot.keyClick(focused, Qt.Key.Key_Return)
    assert room.went[-1] == ("workbook", {"permit": room.number, "target": standing[0].target})


def test_a_wrong_code_is_refused_and_the_ink_stays(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    sign(qtbot, room)
    type_code(qtbot, room, "lantern-4418")
    press(qtbot, room, "authorise")
    assert room.shift.office.permit(room.number).authorised is None
    assert room.sheet.message.text() == room.refused[-1]
    assert room.find("workbook.review.ink").strokes()  # type: ignore[attr-defined]
    assert room.find("workbook.review.code").text() == ""  # type: ignore[attr-defined]


def test_without_ink_or_code_it_says_which(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    press(qtbot, room, "authorise")
    assert "Sign on the pad" in room.sheet.message.text()
    sign(qtbot, room)
    press(qtbot, room, "authorise")
    assert "Type your code" in room.sheet.message.text()
    assert room.find("workbook.review.code").hasFocus()


def test_saying_not_yet_authorizes_nothing(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    room.answers = False
    sign(qtbot, room)
    type_code(qtbot, room, CODE)
    press(qtbot, room, "authorise")
    assert room.shift.office.permit(room.number).authorised is None
    assert room.asked[0].no == "Not yet"


def test_a_change_of_the_record_wipes_the_ink_and_changes_the_fingerprint(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    sign(qtbot, room)
    before = room.sheet.fingerprint.text()
    describe_work(room.shift.office, room.number, "Something else", by="P-01")
    QApplication.processEvents()
    assert not room.find("workbook.review.ink").strokes()  # type: ignore[attr-defined]
    assert room.sheet.fingerprint.text() != before


def test_the_button_says_the_hours_and_the_review_the_last_readings(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    assert room.sheet.do.words == "Authorize entry, 09:00 to 14:00"
    view = review_view(room.shift.office, room.number)
    assert view.air.rows[-1] == ("4.8", "08:44", ("20.8", "1", "2", "0"))
    assert view.meaning.endswith("from 09:00 to 14:00 for Teo Amadi, Kit Sorrel, Lena Quist.")


def test_once_authorized_there_is_nothing_left_to_sign(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "08:57")
    assert not room.find("workbook.review.code").isVisible()
    press(qtbot, room, "go-watch")
    assert room.went[-1] == ("watch", {"permit": room.number})


def test_after_the_authorization_no_old_trouble_and_no_meaning_stay(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    press(qtbot, room, "authorise")
    assert room.sheet.message.text()
    sign(qtbot, room)
    type_code(qtbot, room, CODE)
    press(qtbot, room, "authorise")
    assert not room.sheet.message.text()
    assert not room.sheet.meaning.isVisible()


def test_in_a_low_window_the_button_stays_in_sight_below_what_scrolls(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    room.window.resize(1114, 560)
    QApplication.processEvents()
    button = room.find("workbook.review.authorise")
    assert room.window.height() == 560
    assert room.window.rect().contains(button.mapTo(room.window, button.rect().bottomRight()))


def test_readings_outside_are_listed_first_then_the_order_of_the_rail(tmp_path: Path) -> None:
    shift = lived_until(tmp_path, "08:05")
    standing = review_view(shift.office, shift.permits["A"]).standing
    codes = [one.code for one in standing]
    outside = codes.count("reading-outside")
    assert outside and codes[:outside] == ["reading-outside"] * outside
    at_portal = ("fan-missing", "opening-not-stated", "level-missing")  # follow the tests before them, see the frame
    places = [SHEETS.index(sheet_of(one.target)) for one in standing[outside:] if one.code not in at_portal]
    assert places == sorted(places)


def test_the_question_says_when_the_air_was_last_tested(qtbot: QtBot, tmp_path: Path) -> None:
    shift = lived_until(tmp_path, READY)
    facts = review_view(shift.office, shift.permits["A"]).facts
    assert "Air last tested: 08:44" in facts


def test_names_instruments_and_rescue_are_in_sight_beside_the_button_and_what_is_not_is_announced(
    qtbot: QtBot, tmp_path: Path
) -> None:
    """At 1366 by 768 nobody signs names that lie below an edge where nothing seems to follow."""
    room = room_at(qtbot, tmp_path)
    rows = room.sheet.rows
    seen = [label.text() for label in rows.findChildren(QLabel) if not label.visibleRegion().isEmpty()]
    assert any("Teo Amadi, Kit Sorrel, Lena Quist" in words for words in seen)
    assert any("worn inside" in words for words in seen)
    assert any("Bend County Fire" in words for words in seen)
    more = room.find("workbook.review.more")
    assert more.isVisible()
    for _ in range(3):
        if more.isVisible():
            press(qtbot, room, "more")
    assert not more.isVisible()
    assert not room.find("workbook.review.whole").visibleRegion().isEmpty()


def in_sight(room: Room, words: str) -> bool:
    labels = room.sheet.rows.findChildren(QLabel)
    return any(words in one.text() and one.visibleRegion().boundingRect().height() == one.height() for one in labels)


@pytest.mark.parametrize("by", ["ink", "key", "code"])
def test_what_lies_below_comes_into_sight_by_itself_as_the_signer_signs(qtbot: QtBot, tmp_path: Path, by: str) -> None:
    """At 1366 by 768 hazards and controls lie below the edge: they were in sight before the code is taken."""
    room = room_at(qtbot, tmp_path)
    more = room.find("workbook.review.more")
    assert more.words.startswith("2 parts below: Hazards and controls, Does not apply.")  # type: ignore[attr-defined]
    assert not in_sight(room, "Lack of oxygen")
    if by == "ink":
        sign(qtbot, room)
    elif by == "key":
        press(qtbot, room, "by-key")
    else:
        qtbot.keyClicks(room.find("workbook.review.code"), "l")
    assert in_sight(room, "Lack of oxygen") and in_sight(room, "does not apply")
    assert not more.isVisible()


def test_nothing_is_signed_while_a_part_was_never_in_sight(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    room.window.resize(1114, 460)
    QApplication.processEvents()
    sign(qtbot, room)
    room.find("workbook.review.code").setText(CODE)  # type: ignore[attr-defined]
    press(qtbot, room, "authorise")
    assert room.shift.office.permit(room.number).authorised is None
    assert room.sheet.message.text().startswith("Nothing was signed yet. Look at what came into sight:")
    assert in_sight(room, "does not apply")
    press(qtbot, room, "authorise")
    assert room.shift.office.permit(room.number).authorised is not None


def test_where_all_is_in_sight_nothing_is_said_to_be_below(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    room.window.resize(1650, 1000)
    QApplication.processEvents()
    assert not room.find("workbook.review.more").isVisible()
    press(qtbot, room, "by-key")
    type_code(qtbot, room, CODE)
    press(qtbot, room, "authorise")
    assert room.shift.office.permit(room.number).authorised is not None


def test_cautions_are_read_before_signing_each_with_its_rule_and_bar_nothing(qtbot: QtBot, tmp_path: Path) -> None:
    room = Room(lived_until(tmp_path, READY), ReviewSheet)
    qtbot.addWidget(room.window)
    name_person(room.shift.office, room.number, "P-01", "attendant", by="P-01")
    room.show(1114, 664)
    press(qtbot, room, "back")
    assert in_sight(room, "29 CFR 1910.146(b), entry supervisor, note")
    assert not any("1910.146(b)" in one.rule for one in review_view(room.shift.office, room.number).standing)


def test_a_refusal_leaves_the_code_whole(qtbot: QtBot, tmp_path: Path) -> None:
    """At 1366 by 768, with the longest name for who signs."""
    room = room_at(qtbot, tmp_path)
    press(qtbot, room, "authorise")
    QApplication.processEvents()
    box = room.find("workbook.review.code")
    assert room.sheet.message.isVisible()
    assert box.visibleRegion().boundingRect().height() == box.height()


def test_nothing_open_is_not_said_as_if_entry_were_allowed(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    assert room.sheet.finding.accessibleName().startswith("Nothing open. Not yet authorized.")


def test_a_refused_press_says_that_nothing_was_signed_and_the_list_takes_the_sheet(
    qtbot: QtBot, tmp_path: Path
) -> None:
    room = room_at(qtbot, tmp_path, "07:20")
    assert room.sheet.gaps.height() > 500, "what is missing has the sheet from the first"
    press(qtbot, room, "authorise")
    count = len(review_view(room.shift.office, room.number).standing)
    assert (
        room.sheet.message.text()
        == f"Cannot be authorized yet: nothing was signed. {count} things stand between you and entry."
    )
    assert room.sheet.gaps.height() > 500
    assert not room.sheet.rows.isVisible()
    whole = room.find("workbook.review.back")
    qtbot.mouseClick(whole, Qt.MouseButton.LeftButton)
    assert room.sheet.rows.isVisible()
