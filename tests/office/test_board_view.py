"""The Board judges each permit anew from the record and the clock, and puts need first."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.desk.board.busy import busy_day, late_day
from tests.desk.board.day import CODE, JUNO, KIT, MARA, NIA, OSKAR, TEO, Day

from lamproom.desk.signs import Sign
from lamproom.office.end_permit import end_permit
from lamproom.office.go_out import go_out
from lamproom.office.order_stop import order_stop
from lamproom.office.someone_went_in import someone_went_in
from lamproom.office.views.board import board, people_for_desk, spaces, supervisions
from lamproom.office.views.board_cards import SIGNS, Section
from lamproom.permit.words import State


@pytest.fixture
def day(tmp_path: Path) -> Day:
    return Day(tmp_path)


def test_an_empty_site_says_that_nothing_is_open(day: Day) -> None:
    view = board(day.office)
    assert view.empty
    assert view.site == "Osprel Bend Waterworks"
    assert not view.coming
    assert len(view.instruments) == 4


def test_each_permit_stands_in_the_section_of_its_need(tmp_path: Path) -> None:
    view = board(busy_day(tmp_path).office)
    assert [card.number for card in view.under_way] == ["26-0002", "26-0003"]
    assert [card.number for card in view.preparing] == ["26-0004", "26-0005"]
    assert [card.number for card in view.ended] == ["26-0001"]
    assert not view.overdue
    assert view.under_way_count == "2 permits, 1 person inside"


def test_a_permit_becomes_late_and_then_everyone_out_by_the_clock_alone(day: Day) -> None:
    """Form: a set every 15 min, 2 min of grace, out after two intervals."""
    number = day.run("S-3", "06:22", "12:00", "11", NIA, KIT)
    day.read(number, "work", "1.5", "11")
    day.wait(minutes=14)
    day.call(number)
    (calm,) = board(day.office).under_way
    assert calm.state is State.ALLOWED
    day.wait(minutes=2)
    (due,) = board(day.office).under_way
    assert due.state is State.DUE
    assert "Reading due since" in due.lines[-1][1]
    day.wait(minutes=2, seconds=5)
    (late,) = board(day.office).overdue
    assert (late.state, late.sign, late.band) == (State.LATE, "CAUTION", "Late 3:05")
    day.wait(minutes=9)
    (late,) = board(day.office).overdue
    assert late.lines[0] == ("CAUTION", "Contact with those inside is late: it was due at 06:48.")
    day.wait(minutes=4)
    (out,) = board(day.office).overdue
    assert (out.state, out.sign, out.inside) == (State.OUT, "DANGER", 1)
    assert out.people == "Kit Sorrel 06:22"


def test_a_missed_contact_check_waits_for_someone_like_a_late_set_does(day: Day) -> None:
    """Form: contact every 10 min; 2 min of grace are ours (common practice)."""
    number = day.run("S-3", "06:22", "12:00", "11", NIA, KIT)
    day.read(number, "work", "1.5", "11")
    day.wait(minutes=9)
    (calm,) = board(day.office).under_way
    assert calm.state is State.ALLOWED
    contact = next(line for line in board(day.office).coming if line.words.startswith("Contact"))
    assert (contact.words, contact.clock, contact.past, contact.late) == (
        "Contact with those inside, Filter gallery sump", "06:32", True, False
    )  # fmt: skip
    day.wait(minutes=1, seconds=35)
    (card,) = board(day.office).overdue
    assert (card.sign, card.band) == ("CAUTION", "No contact 3:05")
    assert card.reason == "Contact with those inside is late: it was due at 06:32."
    assert ("RADIO", "Attendant Nia Falk") in card.lines
    assert next(line for line in board(day.office).coming if line.words.startswith("Contact")).late
    day.call(number)
    assert not board(day.office).overdue
    order_stop(day.office, number, by=NIA)
    day.wait(minutes=30)
    (out,) = board(day.office).overdue
    assert not any("ontact" in words for _sign, words in out.lines)
    assert not any(line.words.startswith("Contact") for line in board(day.office).coming)


def test_danger_stands_before_lateness(tmp_path: Path) -> None:
    view = board(late_day(tmp_path).office)
    assert [card.state for card in view.overdue] == [State.OUT, State.LATE]
    assert view.overdue_count == "2 permits"


def test_a_stop_says_its_cause_and_after_everyone_is_out_who_acts_next(day: Day) -> None:
    number = day.run("S-3", "06:22", "12:00", "11", NIA, KIT)
    order_stop(day.office, number, by=NIA)
    (card,) = board(day.office).overdue
    assert card.reason == "Ordered out at 06:23: ordered by hand."
    assert card.after == "The watch calls them out and counts them."
    go_out(day.office, number, KIT, by=NIA)
    (card,) = board(day.office).overdue
    assert card.after == "Everyone is out. The supervisor signs what was found."


def test_someone_inside_under_a_draft_is_overdue(day: Day) -> None:
    number = day.open("S-1", "10:00", "15:00")
    someone_went_in(day.office, number, by=MARA)
    (card,) = board(day.office).overdue
    assert (card.number, card.inside, card.opens) == (number, 1, "watch")


def test_a_permit_that_ended_stays_under_way_until_it_is_closed_out(day: Day) -> None:
    number = day.run("S-3", "06:22", "12:00", "11", NIA, KIT)
    go_out(day.office, number, KIT, by=NIA)
    end_permit(day.office, number, "work-complete", "", MARA, CODE, None)
    (card,) = board(day.office).under_way
    assert card.lines[0][1] == "Close it out: tools, cover, locks"
    assert card.opens == "watch"


def test_a_permit_past_its_hours_waits_for_someone(day: Day) -> None:
    number = day.run("S-3", "06:22", "06:30", "11", NIA, KIT)
    go_out(day.office, number, KIT, by=NIA)
    day.at("06:31")
    (card,) = board(day.office).overdue
    assert (card.state, card.band, card.section) == (State.EXPIRED, "Expired", Section.OVERDUE)


def test_yesterdays_closed_permits_are_not_shown_but_yesterdays_drafts_are(tmp_path: Path) -> None:
    day = busy_day(tmp_path)
    day.wait(hours=24)
    view = board(day.office)
    assert not view.ended
    assert [card.number for card in view.preparing] == ["26-0004", "26-0005"]


def test_what_is_next_lists_late_things_above_now_and_never_calls_a_planned_start_late(tmp_path: Path) -> None:
    view = board(late_day(tmp_path).office)
    assert [line.past for line in view.coming] == sorted((line.past for line in view.coming), reverse=True)
    first = view.coming[0]
    assert (first.words, first.late) == ("Reading, Valve chamber V-14", True)
    assert first.span.startswith("late ")


def test_a_reading_in_its_grace_is_past_but_not_late(day: Day) -> None:
    number = day.run("S-3", "06:22", "12:00", "11", NIA, KIT)
    day.read(number, "work", "1.5", "11")
    day.wait(minutes=16)
    day.call(number)
    first = board(day.office).coming[0]
    assert (first.past, first.late) == (True, False)


def test_instruments_not_ready_come_first_with_their_reason(tmp_path: Path) -> None:
    first, *others = board(busy_day(tmp_path).office).instruments
    assert (first.id, first.until, first.sign) == ("08", None, "REFUSED")
    assert first.why == "Its bump test failed: Oxygen did not alarm."
    assert all(line.until is not None for line in others)
    assert others[0].words == "Ready until 06:00 tomorrow"


def test_a_draft_leads_to_the_first_thing_before_entry(day: Day) -> None:
    number = day.open("S-1", "10:00", "15:00")
    (card,) = board(day.office).preparing
    assert card.opens == "workbook"
    assert card.word == f"{len(list(day.standing(number)))} things before entry"
    assert card.target == "space/different-today"


def test_every_state_has_a_sign_that_the_desk_can_draw() -> None:
    assert set(SIGNS) == set(State)
    assert all(name in Sign.__members__ for name in SIGNS.values())


def test_spaces_say_which_permits_are_open_there(day: Day) -> None:
    number = day.open("S-1", "10:00", "15:00")
    notes = {choice.name: choice.note for choice in spaces(day.office)}
    assert notes["Wet well 2"] == f"Lift station North; open now: {number}"
    assert notes["Lime silo 2"] == "Dosing house"


def test_entrants_do_not_sit_at_the_desk_and_supervision_is_offered_to_other_supervisors(day: Day) -> None:
    assert TEO not in {person.id for person in people_for_desk(day.office)}
    number = day.run("S-3", "06:22", "12:00", "11", NIA, KIT)
    assert [one.number for one in supervisions(day.office, JUNO)] == [number]
    assert supervisions(day.office, MARA) == ()
    assert supervisions(day.office, OSKAR) == ()
