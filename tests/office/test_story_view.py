"""The story tells every event once, in words, and what time alone made happen."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from tests.desk.board.day import KIT, MARA, NIA, Day
from tests.desk.filing.long_day import long_day
from tests.permit.life import Life

from lamproom.desk.signs import Sign
from lamproom.office.order_stop import order_stop
from lamproom.office.views.story import StoryLine, story
from lamproom.office.views.story_lines import _WAYS, Teller
from lamproom.permit import events as e


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> tuple[StoryLine, ...]:
    day, number = long_day(tmp_path_factory.mktemp("day"))
    return story(day.office, number)


def one(lines: tuple[StoryLine, ...], what: str) -> StoryLine:
    found = [line for line in lines if line.what == what]
    assert len(found) == 1, [line.what for line in lines]
    return found[0]


def test_every_kind_of_event_has_its_way_of_being_told() -> None:
    assert set(_WAYS) == set(e.EVENTS)


def test_every_event_stands_in_the_story(tmp_path: Path) -> None:
    day, number = long_day(tmp_path)
    versions = {line.version for line in story(day.office, number)}
    assert versions == set(range(1, day.office.permit(number).version + 1))


def test_signs_are_signs_of_the_desk(told: tuple[StoryLine, ...]) -> None:
    assert all(line.sign in Sign.__members__ for line in told)


def test_a_correction_keeps_both_figures_the_reason_and_who(told: tuple[StoryLine, ...]) -> None:
    """21 CFR 11.10(e): a change does not obscure what was recorded before (from memory)."""
    line = next(line for line in told if line.kind == "reading-corrected")
    assert (line.struck, line.put_right) == ("20 ppm", "2 ppm")
    assert line.what == "Corrected: Carbon monoxide at 1.5 m, 07:50"
    assert line.detail == "“one nought too many”; Oskar Wren"


def test_the_row_of_a_figure_that_was_wrong_says_so_itself(told: tuple[StoryLine, ...]) -> None:
    line = next(line for line in told if "Wrong: Carbon monoxide 20;" in line.detail)
    assert line.kind == "readings-taken" and line.sign == "CAUTION"
    assert line.detail.endswith("put right to 2 at 07:50.")


def test_a_late_reading_leaves_its_missed_slot_in_the_story(told: tuple[StoryLine, ...]) -> None:
    line = one(told, "Reading due, none taken")
    assert line.heavy
    assert line.detail == "taken at 08:11, 5 min after it fell due"


def test_a_reading_past_its_limit_is_told_heavily_and_so_is_the_stop_it_made(told: tuple[StoryLine, ...]) -> None:
    line = one(told, "At 1.5 m: Hydrogen sulfide 14 ppm, limit below 10 ppm")
    assert line.heavy and line.sign == "DANGER"
    order = one(told, "Everyone ordered out")
    assert (order.detail, order.heavy) == ("Hydrogen sulfide 14 ppm", True)
    assert told.index(order) == told.index(line) + 1


def test_someone_unnamed_is_told_as_a_fact_and_named_after(told: tuple[StoryLine, ...]) -> None:
    assert one(told, "Someone not on the permit went in: unknown 1").heavy
    assert one(told, "Unknown 1 was a painter from the road crew, unauthorized")


def test_a_stop_pressed_by_hand_is_told_once_with_who_pressed(tmp_path: Path) -> None:
    day = Day(tmp_path)
    number = day.run("S-3", "06:22", "12:00", "11", NIA, KIT)
    order_stop(day.office, number, by=NIA)
    line = one(story(day.office, number), "Everyone ordered out")
    assert line.detail == "ordered by hand; Nia Falk"


def test_when_nobody_took_a_set_the_order_stands_at_the_minute_it_fell_due(tmp_path: Path) -> None:
    """The second bound is two intervals of 15 min after the last set."""
    day = Day(tmp_path)
    number = day.run("S-3", "06:22", "12:00", "11", NIA, KIT)
    day.read(number, "work", "1.5", "11")
    day.wait(minutes=40)
    day.read(number, "work", "1.5", "11")
    line = one(story(day.office, number), "Everyone ordered out")
    assert (line.clock, line.detail) == ("06:54", "no set of readings for two intervals")


def test_preparation_is_marked_so_that_it_can_be_folded_away(told: tuple[StoryLine, ...]) -> None:
    quiet = {line.kind for line in told if line.quiet}
    assert "answered" in quiet and "person-named" in quiet
    assert not quiet & {"went-in", "went-out", "readings-taken", "authorised", "ended", "noted"}


def test_the_new_kinds_are_told_with_who_and_why() -> None:
    """Isolation taken off before the end is told heavily; hours that had ended are not told as extended."""
    life = Life().inside()
    life.tell(e.PointReleased(point="pump-1", why="needed for the bypass"), by=MARA)
    off = Teller(life.permit, {}).tell(life.past[-1])
    assert off.heavy and off.what.endswith("isolation taken off") and off.detail == "needed for the bypass; P-01"
    made = Life().inside()
    ends = made.permit.until
    assert ends is not None
    longer = e.Extended(ends=ends + timedelta(hours=2), reason="bolts seized", ink=None)
    made.tell(longer, by=MARA)
    assert Teller(made.permit, {}).tell(made.past[-1]).what == "Hours extended to 18:00"
    late = Life().inside().until(16, 1)
    late.tell(longer, by=MARA)
    assert Teller(late.permit, {}).tell(late.past[-1]).what == "Hours told longer, to 18:00; not extended"
    late.tell(e.WorkStepChanged(step="lifting the pump"), e.BasisStated(basis="drained"), by=MARA)
    told = [Teller(late.permit, {}).tell(happening) for happening in late.past[-2:]]
    assert told[0].what == "Next step of the work: lifting the pump" and told[1].detail == "drained; P-01"
