"""One recorded set of readings against one bare durable commit of as many bytes."""

from __future__ import annotations

from itertools import count
from pathlib import Path

from sqlite_utils.utils import sqlite3
from tests.benchmarks.floors import Ratio, paired
from tests.stories.lives import DAY_TABLE, in_file

from lamproom.office import replay
from lamproom.office.shift_table import rows_of
from lamproom.office.take_readings import take_readings
from lamproom.permit import events as e


def measure(folder: Path, rounds: int = 200) -> Ratio:
    """A set of readings on a permit that has lived half a day, in a real file."""
    shift = in_file(folder)
    replay.set_up(shift)
    for row in rows_of(DAY_TABLE):
        replay.live_row(shift, row)
        if row.act == "go in":
            break
    permit = shift.permits["A"]
    figures = replay.figures_of(next(r for r in rows_of(DAY_TABLE) if r.act == "take readings"), shift.office, permit)

    def record() -> None:
        take_readings(shift.office, permit, "work", "3.6", "07", figures, by="P-02")

    record()
    entry = list(shift.office.journal.stream(f"permit/{permit}"))[-1].sealed
    body = entry.body + entry.signature + entry.hash
    bare = sqlite3.connect(folder / "bare.db", isolation_level=None)
    bare.executescript(
        "PRAGMA journal_mode=DELETE; PRAGMA synchronous=EXTRA; CREATE TABLE t (n INTEGER PRIMARY KEY, b BLOB) STRICT"
    )
    numbers = count(1)

    def commit() -> None:
        bare.execute("BEGIN IMMEDIATE")
        bare.execute("INSERT INTO t VALUES (?, ?)", (next(numbers), body))
        bare.execute("COMMIT")

    assert isinstance(shift.office.permit(permit).sets[-1].event, e.ReadingsTaken)
    return paired("one recorded set of readings / one bare durable commit", record, commit, rounds, 2.0)
