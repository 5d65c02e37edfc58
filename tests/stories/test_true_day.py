"""The true day of Osprel Bend, as the table in demo/day.txt tells it, lived in several ways."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from tests.stories.lives import DAY_TABLE, in_file, in_memory, told

from lamproom.office import replay
from lamproom.office.demo import demo_in
from lamproom.office.shift_table import rows_of
from lamproom.office.verify import verify_permit, verify_site
from lamproom.permit import events as e
from lamproom.permit.obstacles import Stage, barring


@pytest.fixture(scope="module")
def lived(tmp_path_factory: pytest.TempPathFactory) -> replay.Shift:
    """The day, lived once through the office on a journal in memory."""
    shift = in_memory(tmp_path_factory.mktemp("machine"))
    replay.set_up(shift)
    replay.live(shift, DAY_TABLE)
    return shift


def test_the_day_ends_with_one_good_one_refused_and_one_canceled_permit(lived: replay.Shift) -> None:
    good, refused, canceled = (lived.office.permit(lived.permits[letter]) for letter in "ABC")
    assert good.closed_out is not None and good.ended is not None
    assert isinstance(good.ended.event, e.Ended) and good.ended.event.cause == "work-complete"
    assert refused.authorised is None
    assert canceled.ended is not None and isinstance(canceled.ended.event, e.Ended)
    assert canceled.ended.event.cause == "prohibited-condition"
    assert not good.tally.inside and not canceled.tally.inside


def test_the_refused_permit_says_why_each_with_what_clears_it(lived: replay.Shift) -> None:
    standing = barring(lived.office.facts(lived.permits["B"]), Stage.AUTHORISE)
    said = [obstacle.sentence.say() for obstacle in standing]
    assert any("Nitrogen line N-3 is not isolated." == words for words in said)
    assert any("Its bump test failed" in words and "14 ppm of 25 ppm" in words for words in said)
    assert all(obstacle.clears.say() and obstacle.rule for obstacle in standing)


def test_nobody_went_in_against_an_obstacle_and_the_tally_is_whole(lived: replay.Shift) -> None:
    trips = lived.office.permit(lived.permits["A"]).tally.trips
    assert [trip.against for trip in trips] == [()] * 6
    assert [trip.who for trip in trips] == ["P-04", "P-05", "P-04", "P-06", "P-04", "P-06"]


def test_the_correction_keeps_both_figures(lived: replay.Shift) -> None:
    permit = lived.office.permit(lived.permits["A"])
    corrected = [one for one in permit.sets if one.corrections]
    assert [(c.event.old, c.event.new) for one in corrected for c in one.corrections] == [("20", "2")]
    figure = corrected[0].figure("carbon-monoxide")
    assert figure is not None and figure.figure == "2"
    assert corrected[0].event.figures[3].figure == "20"


def test_the_pressed_stop_was_stood_down_and_the_bad_air_was_not(lived: replay.Shift) -> None:
    findings = [
        stop.determined.event.finding
        for letter in "AC"
        for stop in lived.office.permit(lived.permits[letter]).stops
        if stop.determined is not None and isinstance(stop.determined.event, e.StopDetermined)
    ]
    assert findings == ["none-arose", "prohibited-condition"]


def test_every_permit_and_the_site_verify(lived: replay.Shift) -> None:
    assert verify_site(lived.office).code == 0
    assert verify_permit(lived.office, lived.permits["A"]).code == 0
    assert verify_permit(lived.office, lived.permits["C"]).code == 0


def test_the_demo_leaves_the_same_journal_as_the_office(lived: replay.Shift, tmp_path: Path) -> None:
    demo_in(tmp_path / "demo", lambda _line: None)
    assert told(in_file(tmp_path / "demo").office.journal) == told(lived.office.journal)


def test_killed_and_reopened_at_five_random_moments_it_ends_the_same(lived: replay.Shift, tmp_path: Path) -> None:
    """A child lives the day and is killed with SIGKILL after a random row, five times; then it finishes."""
    shift = in_file(tmp_path)
    replay.set_up(shift)
    shift.office.journal.close()
    rows = len(list(rows_of(DAY_TABLE)))
    chance = random.Random(2)
    for after in sorted(chance.sample(range(5, rows - 5), 5)):
        assert _live_until_killed(tmp_path, after) is not None
    assert _live_until_killed(tmp_path, None) == 0
    again = in_file(tmp_path)
    assert told(again.office.journal) == told(lived.office.journal)
    assert verify_site(again.office).code == 0


def _live_until_killed(folder: Path, after: int | None) -> int | None:
    """Live the day in a child process; kill it once it has told so many rows. Its exit code, -9 when killed."""
    command = [sys.executable, "-c", _CHILD, str(folder)]
    # the same code as here, also where the program is not the installed one
    path = os.pathsep.join((".", os.environ.get("PYTHONPATH", "")))
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=os.environ | {"PYTHONPATH": path}) as child:
        assert child.stdout is not None
        for count, _line in enumerate(child.stdout, 1):
            if after is not None and count >= after:
                child.send_signal(signal.SIGKILL)
                break
        return child.wait()


_CHILD = """
import sys
from pathlib import Path
from tests.stories.lives import DAY_TABLE, in_file
from lamproom.office import replay
shift = in_file(Path(sys.argv[1]))
replay.live(shift, DAY_TABLE, lambda row: print(row.line, flush=True))
"""
