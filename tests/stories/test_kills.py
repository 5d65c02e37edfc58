"""Killed in the middle: what was acknowledged is there, what was half typed comes back."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import traceback
from pathlib import Path

import pytest
from tests.stories.lives import DAY_TABLE, in_file, told

from lamproom.office import replay
from lamproom.office.shift_table import rows_of
from lamproom.office.verify import verify_site

TYPIST = """
import sys
import traceback
from pathlib import Path
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit
from lamproom.desk.opening import open_window
from lamproom.office.key_box import CHEAPEST
from lamproom.office.opening import in_folder, open_office
application = QApplication([])
folder = Path(sys.argv[1])
office = open_office(folder / "site", None, in_folder(folder / "machine"), CHEAPEST)
desk, window = open_window(office)
desk.set_person("P-01")
window.show()
window.show_place("workbook", permit="26-0001", target="space/purpose")
QTest.qWait(100)
box = next(w for w in window.findChildren(QLineEdit) if w.objectName() == "workbook.space.purpose")
QTest.mouseClick(box, Qt.MouseButton.LeftButton)
for letter in "Change the float swi":
    QTest.keyClicks(box, letter)
    QTest.qWait(10)
print("typed", flush=True)
QTest.qWait(60_000)
"""


def test_half_typed_text_comes_back_after_a_kill(tmp_path: Path) -> None:
    """The window is killed while a field is typed in, long before anyone pressed Enter; at most 5 s may be lost."""
    shift = in_file(tmp_path)
    replay.set_up(shift)
    replay.live_row(shift, next(row for row in rows_of(DAY_TABLE) if row.act == "open permit"))
    shift.office.journal.close()
    with subprocess.Popen([sys.executable, "-c", TYPIST, str(tmp_path)], stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        assert child.stdout.readline().strip() == "typed"
        signal.sigtimedwait([], 1.5)
        child.send_signal(signal.SIGKILL)
    again = in_file(tmp_path)
    assert again.office.permit("26-0001").purpose is None
    kept = again.office.journal.drafts("permit/26-0001")
    assert kept.get("workbook.space.purpose") == "Change the float swi"


def kills_during_acts(folder: Path, kills: int, seed: int) -> tuple[int, int]:
    """Live the day over and over in a child that is killed at random moments; each row is told once its act returned.

    After each kill every told row's act must be in the journal, and at the end of each day the chain must hold.
    Returns how many rows were told and how many days were lived.
    """
    chance = random.Random(seed)
    acknowledged, day = 0, 0
    while kills:
        place = folder / f"day-{day}"
        shift = in_file(place)
        replay.set_up(shift)
        shift.office.journal.close()
        finished = False
        while kills and not finished:
            told_rows, finished = _killed_once(place, chance.uniform(0.002, 0.25))
            kills -= not finished
            acknowledged += len(told_rows)
            after = in_file(place)
            missing = [line for line in told_rows if not after.office.journal.act(f"row-{line}")]
            assert not missing, f"told and lost: {missing}"
            assert verify_site(after.office).code == 0
            after.office.journal.close()
        day += 1
    return acknowledged, day


def _killed_once(place: Path, after_s: float) -> tuple[list[int], bool]:
    """The lines told by one child before it was killed, and whether it came to the end of the day first."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(reading)
            shift = in_file(place)
            refused = {row.line for row in rows_of(DAY_TABLE) if row.get("refused") == "yes"}
            replay.live(
                shift,
                DAY_TABLE,
                lambda row: None if row.line in refused else _tell(writing, row.line),
            )
            os._exit(0)
        except BaseException:
            traceback.print_exc()
            raise
        finally:
            os._exit(3)
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        signal.sigtimedwait([], after_s)
        os.kill(child, signal.SIGKILL)
        lines = [int(line) for line in pipe.read().split()]
    _, status = os.waitpid(child, 0)
    if os.WIFEXITED(status):
        assert os.WEXITSTATUS(status) == 0, "the child failed by itself"
        return lines, True
    return lines, False


def _tell(pipe: int, line: int) -> None:
    os.write(pipe, f"{line}\n".encode())


@pytest.mark.parametrize("kills", [20, pytest.param(200, marks=pytest.mark.full)])
def test_every_acknowledged_act_survives_random_kills(tmp_path: Path, kills: int) -> None:
    acknowledged, _days = kills_during_acts(tmp_path, kills, seed=kills)
    assert acknowledged > 0


def test_told_rows_and_journal_are_the_same_day(tmp_path: Path) -> None:
    """A day cut into pieces by kills ends as one that was lived through."""
    kills_during_acts(tmp_path / "cut", 4, seed=7)
    whole = in_file(tmp_path / "whole")
    replay.set_up(whole)
    replay.live(whole, DAY_TABLE)
    pieces = in_file(tmp_path / "cut" / "day-0")
    replay.live(pieces, DAY_TABLE)
    assert told(pieces.office.journal) == told(whole.office.journal)


def test_a_day_that_is_lived_again_passes_by_what_was_refused(tmp_path: Path) -> None:
    """A refused row leaves nothing to know it by; lived again behind what is stored, it would set the clock back."""
    shift = in_file(tmp_path)
    replay.set_up(shift)
    rows = list(rows_of(DAY_TABLE))
    refused = next(at for at, row in enumerate(rows) if row.get("refused") == "yes")
    for row in rows[: refused + 6]:
        replay.live_row(shift, row)
    shift.office.journal.close()
    again = in_file(tmp_path)
    replay.live(again, DAY_TABLE)
    assert again.office.permit(again.permits["C"]).closed_out is not None
