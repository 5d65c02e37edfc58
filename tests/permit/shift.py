"""The demo's day lived through the office in memory, up to a moment: for tests of acts, clock and laws."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from tests.permit.life import figures

from lamproom.office import replay
from lamproom.office.clock import HandClock
from lamproom.office.demo import FIXED_DAY, demo_text
from lamproom.office.key_box import CHEAPEST
from lamproom.office.office import Office
from lamproom.office.opening import in_folder, open_in_memory
from lamproom.office.shift_table import Row, rows_of
from lamproom.permit import events as e

ZONE = ZoneInfo("America/Chicago")
CODES = {"P-01": "lantern-4417", "P-02": "tallyboard-62", "P-03": "brass-hook-903"}


def rows() -> Iterator[Row]:
    return rows_of(demo_text("day.txt"))


def shift_until(folder: Path, clock: str) -> replay.Shift:
    """The demo's site, its day lived up to a time of day (that moment's rows included). The clock then stands there."""
    begins = datetime.combine(FIXED_DAY - timedelta(days=1), replay.SET_UP_AT, ZONE)
    hand = HandClock(begins.astimezone(UTC))
    office = open_in_memory(hand, in_folder(folder), CHEAPEST)
    shift = replay.Shift(replay.read_site(demo_text("site.toml")), FIXED_DAY, hand, office)
    replay.set_up(shift)
    last = time.fromisoformat(clock)
    for row in rows():
        if row.at > last:
            break
        replay.live_row(shift, row)
    hand.turn_to(datetime.combine(FIXED_DAY, last, ZONE))
    return shift


def opened_again(shift: replay.Shift, folder: Path) -> Office:
    """The same journal opened by a program that starts anew."""
    from lamproom.office.keys import KeyRing
    from lamproom.office.opening import forms_at_hand

    keys = KeyRing(shift.office.journal, in_folder(folder), CHEAPEST)
    return Office(shift.office.journal, shift.clock, keys, shift.office.station, forms_at_hand())


def good(**changes: str | None) -> tuple[e.Figure, ...]:
    return figures(**changes)
