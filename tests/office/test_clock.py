"""The clock rule: nobody gains time by turning a clock back, nobody loses a day by a slip, and stopping never waits."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.permit.life import bump, check
from tests.permit.shift import CODES, good, opened_again, shift_until

from lamproom.office.authorise import authorise
from lamproom.office.bump_test import bump_test
from lamproom.office.check_before_use import check_before_use
from lamproom.office.clock import (
    FORWARD_JUMP,
    HandClock,
    Judged,
    Mark,
    confirmed_as,
    judge,
    moved_on,
    started_over,
)
from lamproom.office.confirm_time import confirm_time
from lamproom.office.declare_clock_wrong import declare_clock_wrong
from lamproom.office.go_in import go_in
from lamproom.office.go_out import go_out
from lamproom.office.make_contact import make_contact
from lamproom.office.office import Office, ToRecord
from lamproom.office.order_stop import order_stop
from lamproom.office.permit_change import Barred
from lamproom.office.reendorse import reendorse
from lamproom.office.someone_went_in import someone_went_in
from lamproom.office.take_readings import take_readings
from lamproom.permit import events as e
from lamproom.permit.obstacles import Stage, barring
from lamproom.permit.timing import retest
from lamproom.record.envelope import from_bytes
from lamproom.record.memory import MemoryJournal
from lamproom.words import Refusal

START = datetime(2026, 11, 17, 15, 0, tzinfo=UTC)
MARA, OSKAR, NIA, TEO, KIT = "P-01", "P-02", "P-03", "P-04", "P-05"


class Watched:
    """A hand clock, and the mark that an office would keep while it looks at it."""

    def __init__(self) -> None:
        self.clock = HandClock(START)
        self.mark: Mark = confirmed_as(self.clock.sample(), START, START)

    def look(self) -> Judged:
        judged = judge(self.mark, self.clock.sample())
        self.mark = moved_on(self.mark, judged)
        return judged


BACK = [timedelta(seconds=1), timedelta(hours=3), timedelta(hours=24), timedelta(days=3653)]


@pytest.mark.parametrize("back", BACK, ids=str)
def test_a_wall_clock_set_back_gains_nothing(back: timedelta) -> None:
    one = Watched()
    one.clock.set_wall(START - back)
    one.clock.pass_time(timedelta(minutes=10))
    judged = one.look()
    assert judged.now == START + timedelta(minutes=10)
    assert judged.confirmed
    assert judged.behind == back


def test_time_passes_however_often_it_is_looked_at() -> None:
    """The clock set back 3 h, a screen that looks 1,800 times a second: ten minutes stay ten minutes."""
    one = Watched()
    one.clock.set_wall(START - timedelta(hours=3))
    for _ in range(18_000):
        one.clock.pass_time(timedelta(microseconds=555))
        one.look()
    passed = 18_000 * timedelta(microseconds=555)
    assert abs(one.look().now - (START + passed)) <= timedelta(milliseconds=1)


@given(steps=st.lists(st.tuples(st.integers(-(10**9), 10**9), st.integers(0, 10**6)), max_size=30))
def test_the_judged_time_never_goes_back_and_never_runs_more_than_the_jump_ahead(steps: list[tuple[int, int]]) -> None:
    """Whatever is done to the wall clock (milliseconds), and whatever passes between (milliseconds)."""
    one = Watched()
    before, passed = START, timedelta(0)
    for moved, went in steps:
        one.clock.set_wall(one.clock.sample().wall + timedelta(milliseconds=moved))
        one.clock.pass_time(timedelta(milliseconds=went))
        passed += timedelta(milliseconds=went)
        now = one.look().now
        assert now >= before
        assert START + passed <= now <= START + passed + FORWARD_JUMP
        before = now


def test_a_forward_jump_over_two_minutes_is_not_believed() -> None:
    one = Watched()
    one.clock.set_wall(START + timedelta(minutes=2))
    assert one.look().confirmed
    one = Watched()
    one.clock.set_wall(START + timedelta(minutes=2, milliseconds=1))
    judged = one.look()
    assert not judged.confirmed
    assert judged.now == START
    one.clock.set_wall(START)
    assert not one.look().confirmed, "only a named person confirms it again"


def test_many_small_forward_steps_add_up() -> None:
    one = Watched()
    for _ in range(119):
        one.clock.set_wall(one.clock.sample().wall + timedelta(seconds=1))
        assert one.look().confirmed
    for _ in range(2):
        one.clock.set_wall(one.clock.sample().wall + timedelta(seconds=1))
        judged = one.look()
    assert not judged.confirmed


def test_a_restart_leaves_the_time_unconfirmed_and_never_takes_it_back() -> None:
    for back in BACK:
        one = Watched()
        one.clock.restart("boot-2")
        one.clock.set_wall(START - back)
        judged = one.look()
        assert (judged.now, judged.confirmed, judged.restarted) == (START, False, True)
        one.clock.pass_time(timedelta(minutes=10))
        assert one.look().now == START + timedelta(minutes=10)


def test_the_same_boot_running_backwards_is_another_boot() -> None:
    one = Watched()
    one.clock.restart("boot-1")
    assert one.look().restarted


def test_confirming_never_goes_back_and_starting_over_may() -> None:
    sample = HandClock(START).sample()
    assert confirmed_as(sample, START - timedelta(hours=1), START).now == START
    assert started_over(sample, START - timedelta(days=3653)).now == START - timedelta(days=3653)


def test_nothing_known_is_unconfirmed() -> None:
    assert not judge(None, HandClock(START).sample()).confirmed


# In the office -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("back", BACK, ids=str)
@pytest.mark.parametrize("restart", [False, True], ids=["running", "opened again in the same boot"])
def test_with_the_clock_set_back_and_people_inside_a_retest_due_in_10_minutes_falls_due_in_10_minutes(
    tmp_path: Path, back: timedelta, restart: bool
) -> None:
    shift = shift_until(tmp_path, "09:13:30")  # two inside, a set just taken: due at 09:28:30
    number = shift.permits["A"]
    shift.clock.pass_time(timedelta(minutes=5))
    office = shift.office
    assert len(office.permit(number).tally.inside) == 2
    make_contact(office, number, by=OSKAR)
    shift.clock.set_wall(shift.clock.sample().wall - back)
    if restart:
        office = opened_again(shift, tmp_path)

    def due_in() -> timedelta:
        times = retest(office.facts(number))
        assert times is not None
        return times.due - office.now()

    assert due_in() == timedelta(minutes=10)
    shift.clock.pass_time(timedelta(minutes=9, seconds=59))
    assert due_in() == timedelta(seconds=1)
    shift.clock.pass_time(timedelta(seconds=1))
    assert due_in() == timedelta(0)
    shift.clock.pass_time(timedelta(minutes=15, seconds=1))
    assert "retest-overdue" in {o.code for o in barring(office.facts(number), Stage.STAY)}
    make_contact(office, number, by=OSKAR)
    assert office.permit(number).stop is not None, "latched by time alone"


def test_after_a_restart_acts_of_authority_wait_and_everything_else_is_stored_and_marked(tmp_path: Path) -> None:
    shift = shift_until(tmp_path, "08:50:00")
    number = shift.permits["A"]
    shift.clock.restart("boot-2")
    office = opened_again(shift, tmp_path)
    with pytest.raises(Barred) as refused:
        authorise(office, number, MARA, CODES[MARA], None)
    assert [o.code for o in refused.value.standing] == ["clock-unconfirmed"]
    before = office.journal.head().number
    take_readings(office, number, "work", "3.6", "07", good(), by=OSKAR)
    someone_went_in(office, number, by=OSKAR)
    go_out(office, number, "unknown 1", by=OSKAR)
    order_stop(office, number, by=None)
    told = [from_bytes(entry.sealed.body) for entry in office.journal.entries(before)]
    assert [t.kind for t in told] == ["readings-taken", "someone-went-in", "went-out", "stop-ordered"]
    assert all(t.unconfirmed for t in told)
    confirm_time(office, shift.clock.sample().wall, by=MARA)
    assert not from_bytes(list(office.journal.entries())[-1].sealed.body).unconfirmed
    assert "clock-unconfirmed" not in {o.code for o in barring(office.facts(number), Stage.AUTHORISE)}


def test_after_a_restart_nobody_goes_in_and_no_one_endorses_until_the_time_is_confirmed(tmp_path: Path) -> None:
    shift = shift_until(tmp_path, "10:26:00")
    number = shift.permits["A"]
    shift.clock.restart("boot-2")
    office = opened_again(shift, tmp_path)
    with pytest.raises(Barred) as barred:
        reendorse(office, number, MARA, CODES[MARA])
    assert {o.code for o in barred.value.standing} == {"clock-unconfirmed"}
    with pytest.raises(Barred):
        go_in(office, number, TEO, by=OSKAR)
    confirm_time(office, office.now(), by=OSKAR)
    reendorse(office, number, MARA, CODES[MARA])
    go_in(office, number, TEO, by=OSKAR)


def test_a_watch_behind_the_record_is_refused_and_nobody_unnamed_confirms(tmp_path: Path) -> None:
    shift = shift_until(tmp_path, "06:31:00")
    now = shift.office.now()
    with pytest.raises(Refusal, match="before the latest time"):
        confirm_time(shift.office, now - timedelta(minutes=2), by=MARA)
    with pytest.raises(Refusal, match="who you are"):
        confirm_time(shift.office, now, by=None)
    confirm_time(shift.office, now - timedelta(seconds=30), by=MARA)
    assert shift.office.now() >= now


def test_one_event_dated_2036_can_be_put_right_by_two_named_people(tmp_path: Path) -> None:
    """The board battery died over night: the machine starts in 2036, someone bump tests and orders a stop there."""
    shift = shift_until(tmp_path, "08:50:00")
    number = shift.permits["A"]
    right = shift.clock.sample().wall
    shift.clock.restart("boot-2")
    shift.clock.set_wall(right + timedelta(days=3653))
    office = opened_again(shift, tmp_path)
    first = office.journal.head().number + 1
    check_before_use(office, "07", check(), by=NIA)
    bump_test(office, "07", bump(), by=NIA)
    order_stop(office, number, by=OSKAR)
    take_readings(office, number, "work", "3.6", "07", good(hydrogen_sulfide="14"), by=OSKAR)
    last = office.journal.head().number
    assert office.now().year == 2036
    shift.clock.set_wall(right)
    with pytest.raises(Refusal, match="before the latest time"):
        confirm_time(office, right, by=MARA)
    with pytest.raises(Refusal, match="Two different people"):
        declare_clock_wrong(office, first, last, right, ((MARA, CODES[MARA]), (MARA, CODES[MARA])))
    with pytest.raises(Refusal):
        declare_clock_wrong(office, first, last, right, ((MARA, CODES[MARA]), (OSKAR, "not-the-code-1")))
    assert office.now().year == 2036, "half a declaration declares nothing"
    declare_clock_wrong(office, first, last, right, ((MARA, CODES[MARA]), (OSKAR, CODES[OSKAR])))
    for opened in (office, opened_again(shift, tmp_path)):
        judged = opened.judged()
        assert judged.confirmed and abs(judged.now - right) < timedelta(seconds=1)
        assert opened.permit(number).stop is not None, "a stop stays"
        assert opened.permit(number).sets[-1].void
        ready = opened.facts(number).ready("07")
        assert ready.ready, "the bump test of the morning still counts"
        assert ready.until is not None and ready.until.year == 2026
    shift.clock.set_wall(right + timedelta(minutes=3))
    assert not office.judged().confirmed, "a jump is seen again"
    assert not opened_again(shift, tmp_path).judged().confirmed


def test_after_it_was_put_right_the_day_goes_on_to_an_entry(tmp_path: Path) -> None:
    shift = shift_until(tmp_path, "08:50:00")
    number = shift.permits["A"]
    right = shift.clock.sample().wall
    shift.clock.restart("boot-2")
    shift.clock.set_wall(right + timedelta(days=3653))
    office = opened_again(shift, tmp_path)
    first = office.journal.head().number + 1
    make_contact(office, number, by=OSKAR)
    from lamproom.office.state_level import state_level

    state_level(office, number, "5.0", "staff gauge", by=MARA)  # a fact: it stays, and asks for every point again
    shift.clock.set_wall(right)
    declare_clock_wrong(
        office, first, office.journal.head().number, right, ((MARA, CODES[MARA]), (OSKAR, CODES[OSKAR]))
    )
    codes = {o.code for o in barring(office.facts(number), Stage.AUTHORISE)}
    assert codes == {"point-not-tested"}
    for point in ("0.3", "1.4", "2.5", "3.6", "4.7"):
        shift.clock.pass_time(timedelta(seconds=100))
        at = office.now()
        take_readings(office, number, "ventilating", point, "07", good(), by=NIA, lowered=at - timedelta(seconds=90))
    assert not barring(office.facts(number), Stage.AUTHORISE)
    authorise(office, number, MARA, CODES[MARA], None)
    assert office.permit(number).running


def test_an_authorization_at_a_time_declared_wrong_counts_as_never_given(tmp_path: Path) -> None:
    shift = shift_until(tmp_path, "09:04:00")
    number, office = shift.permits["A"], shift.office
    wrong = next(
        entry.number for entry in office.journal.entries() if from_bytes(entry.sealed.body).kind == "authorised"
    )
    now = office.now()
    declare_clock_wrong(office, wrong, wrong, now, ((MARA, CODES[MARA]), (OSKAR, CODES[OSKAR])))
    permit = office.permit(number)
    assert permit.authorised is None
    assert len(permit.tally.inside) == 2, "who is inside is a fact"
    assert "not-authorised" in {o.code for o in barring(office.facts(number), Stage.ENTER)}


def test_entries_of_other_stations_never_move_the_mark(tmp_path: Path) -> None:
    shift = shift_until(tmp_path, "08:50:00")
    office = shift.office
    now = office.now()
    other = HandClock(now + timedelta(days=3653), boot="boot-other")
    from lamproom.office.key_box import CHEAPEST
    from lamproom.office.keys import KeyRing
    from lamproom.office.opening import forms_at_hand, in_folder

    keys = KeyRing(office.journal, in_folder(tmp_path), CHEAPEST)
    elsewhere = Office(office.journal, other, keys, "station-2", forms_at_hand())
    elsewhere.record([ToRecord(f"permit/{shift.permits['A']}", e.Noted(text="from the other machine"))], by=MARA)
    again = opened_again(shift, tmp_path)
    assert abs(again.now() - now) < timedelta(seconds=1)
    assert again.judged().confirmed


def test_a_fresh_journal_has_no_mark_and_nothing_confirmed(tmp_path: Path) -> None:
    from lamproom.office.key_box import CHEAPEST
    from lamproom.office.keys import KeyRing
    from lamproom.office.opening import in_folder

    journal = MemoryJournal()
    office = Office(journal, HandClock(START), KeyRing(journal, in_folder(tmp_path), CHEAPEST), "station-1", {})
    assert not office.judged().confirmed
