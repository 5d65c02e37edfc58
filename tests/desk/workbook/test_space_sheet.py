"""The sheet 'space and work', driven by keys and clicks."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from tests.desk.workbook.by_hand import ByHand
from tests.desk.workbook.osprel_bend import osprel_bend

from lamproom.office.views.space_sheet import hours_as_typed
from lamproom.permit import events as e
from lamproom.words import Refusal, say


@pytest.fixture
def hand(qtbot: object, tmp_path: Path) -> ByHand:
    return ByHand(qtbot, tmp_path)


def test_purpose_and_hours_are_recorded_once_each_and_enter_moves_on(hand: ByHand) -> None:
    assert hand.focus == "workbook.space.purpose"
    hand.keys("Replace the float switch")
    hand.key(Qt.Key.Key_Return)
    hand.keys("08:00")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.HoursPlanned) == []
    hand.keys("14:30")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.WorkDescribed) == [e.WorkDescribed(purpose="Replace the float switch")]
    # America/Chicago is UTC−6 in November (IANA time zone database).
    assert hand.events(e.HoursPlanned) == [
        e.HoursPlanned(begins=datetime(2026, 11, 25, 14, tzinfo=UTC), ends=datetime(2026, 11, 25, 20, 30, tzinfo=UTC))
    ]
    assert hand.focus == "workbook.space.different-today.yes"
    before = hand.count
    hand.find("workbook.space.purpose").setFocus()
    hand.key(Qt.Key.Key_Return)
    assert hand.count == before


def test_a_time_that_cannot_be_read_is_said_beside_and_kept(hand: ByHand) -> None:
    hand.type("workbook.space.begins", "8 o'clock", Qt.Key.Key_Tab)
    assert hand.find("workbook.space.begins").text() == "8 o'clock"
    assert say("workbook.not_a_time", text="8 o'clock") in hand.find("workbook.space.begins").accessibleDescription()
    assert hand.events(e.HoursPlanned) == []


def test_an_answer_that_needs_nothing_more_is_recorded_at_the_press_and_only_once(hand: ByHand) -> None:
    hand.press("workbook.space.other-work.no")
    hand.press("workbook.space.other-work.no")
    assert hand.events(e.Answered) == [e.Answered(item="other-work", answer="no")]


def test_an_answer_that_needs_words_is_recorded_with_the_words_and_not_before(hand: ByHand) -> None:
    hand.press("workbook.space.other-permits.yes")
    assert hand.events(e.Answered) == []
    assert hand.focus == "workbook.space.other-permits.found"
    hand.keys("Hot work 26-H07")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.Answered) == [e.Answered(item="other-permits", answer="yes", found="Hot work 26-H07")]


def test_an_answer_that_bars_entry_says_so_beside_and_in_the_column(hand: ByHand) -> None:
    hand.press("workbook.space.other-work.yes")
    column = [row.sentence for row in hand.screen._obstacles.rows()]
    asked = "Does other work nearby affect this space?"
    assert say("permit.item_against", question=asked, answer="yes") in column
    hand.press("workbook.space.other-work.no")
    assert asked not in " ".join(row.sentence for row in hand.screen._obstacles.rows())


def test_a_question_that_depends_on_another_is_asked_only_after_it(hand: ByHand) -> None:
    assert hand.hidden("workbook.space.difference-judged.yes")
    hand.press("workbook.space.different-today.yes")
    hand.keys("a pump was hung in the shaft")
    hand.key(Qt.Key.Key_Return)
    hand.find("workbook.space.difference-judged.yes")


def test_half_typed_text_and_a_half_given_answer_come_back_after_a_restart(hand: ByHand) -> None:
    hand.type("workbook.space.purpose", "Replace the fl", None)
    hand.qtbot.wait(900)  # type: ignore[attr-defined]
    hand.desk.keep_draft(f"permit/{hand.number}", "workbook.space.purpose", "Replace the fl")
    hand.press("workbook.space.other-permits.yes")
    events = hand.count
    hand.screen.hide()
    hand.open_screen()
    hand.find("workbook.space.other-permits.found")
    assert hand.count == events


def test_after_authorizing_nothing_on_it_can_be_changed_and_it_says_why(hand: ByHand) -> None:
    from lamproom.office.office import ToRecord

    now = hand.office.now()
    authorised = e.Authorised(begins=now, ends=now + timedelta(hours=2), on_version=1, entrants=(), ink=None)
    hand.office.record([ToRecord(f"permit/{hand.number}", authorised)], by="P-01")
    before = hand.count
    hand.type("workbook.space.purpose", "Something else")
    assert hand.count == before
    assert hand.said[-1] == ("refused", say("office.needs_new_permit", number=hand.number))


def test_nothing_is_recorded_in_nobodys_name(qtbot: object, tmp_path: Path) -> None:
    hand = ByHand(qtbot, tmp_path, person=None)
    before = hand.count
    hand.press("workbook.space.other-work.no")
    assert hand.count == before
    assert hand.said[-1] == ("refused", say("workbook.who"))


@pytest.mark.parametrize(
    ("begins", "ends", "expected"),
    [
        ("08:00", "14:30", ((25, 14, 0), (25, 20, 30))),
        ("8:00", "1430", ((25, 14, 0), (25, 20, 30))),
        ("22:00", "04:00", ((26, 4, 0), (26, 10, 0))),  # over midnight
        ("01:00", "05:00", ((26, 7, 0), (26, 11, 0))),  # already over at 07:40: tomorrow's
    ],
)
def test_two_times_of_day_mean_the_next_hours_that_are_not_over(
    tmp_path: Path, begins: str, ends: str, expected: tuple[tuple[int, int, int], tuple[int, int, int]]
) -> None:
    office, _clock = osprel_bend(tmp_path)
    first, last = hours_as_typed(office, begins, ends)
    assert tuple((m.day, m.hour, m.minute) for m in (first.astimezone(UTC), last.astimezone(UTC))) == expected


def test_without_a_beginning_the_hours_begin_now(tmp_path: Path) -> None:
    office, _clock = osprel_bend(tmp_path)
    first, last = hours_as_typed(office, " ", "14:30")
    now = office.now().astimezone(office.zone)
    assert (first.hour, first.minute, first.second) == (now.hour, now.minute, 0)
    assert (last.hour, last.minute) == (14, 30)
    with pytest.raises(Refusal):
        hours_as_typed(office, "08:00", "")


@pytest.mark.parametrize("text", ["8", "24:00", "08:60", "noon", "08:000"])
def test_what_is_no_time_of_day_is_refused(tmp_path: Path, text: str) -> None:
    office, _clock = osprel_bend(tmp_path)
    with pytest.raises(Refusal):
        hours_as_typed(office, text, "14:30")
