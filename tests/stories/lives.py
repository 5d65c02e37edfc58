"""The invented day, lived in different ways, and what its journal must have in common whichever way it was lived."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from lamproom.office import replay
from lamproom.office.clock import HandClock
from lamproom.office.demo import FIXED_DAY, demo_text
from lamproom.office.key_box import CHEAPEST
from lamproom.office.office import Office
from lamproom.office.opening import in_folder, open_in_memory, open_office
from lamproom.record.envelope import from_bytes
from lamproom.record.journal import Journal

DAY_TABLE = demo_text("day.txt")
"""The one list that is the day (demo/day.txt)."""

Told = list[tuple[str, str, Any]]


def begin(day: date = FIXED_DAY) -> HandClock:
    """A clock that stands where every shift begins: the day before, when the site is set up."""
    zone = ZoneInfo(replay.read_site(demo_text("site.toml"))["zone"])
    return HandClock(datetime.combine(day - timedelta(days=1), replay.SET_UP_AT, zone).astimezone(UTC))


def shift_on(office: Office, clock: HandClock, day: date = FIXED_DAY) -> replay.Shift:
    return replay.Shift(replay.read_site(demo_text("site.toml")), day, clock, office)


def in_memory(machine: Path) -> replay.Shift:
    """A shift on a journal in memory, about to be set up."""
    clock = begin()
    return shift_on(open_in_memory(clock, in_folder(machine), CHEAPEST), clock)


def in_file(folder: Path, day: date = FIXED_DAY) -> replay.Shift:
    """A shift on a journal in a file; opened again it goes on where it was."""
    clock = begin(day)
    return shift_on(open_office(folder / "site", clock, in_folder(folder / "machine"), CHEAPEST), clock, day)


def told(journal: Journal) -> Told:
    """The ordered (stream, kind, payload) of a journal, without what chance makes: keys, hashes, strokes of ink."""
    rows: Told = []
    for entry in journal.entries():
        envelope = from_bytes(entry.sealed.body)
        rows.append((envelope.stream, envelope.kind, _without_chance(envelope.data)))
    return rows


def _without_chance(data: Any) -> Any:
    if isinstance(data, dict) or hasattr(data, "items"):
        return {
            key: "…" if key in ("sha256", "length", "authority", "strokes") else _without_chance(value)
            for key, value in data.items()
        }
    if isinstance(data, list | tuple):
        return [_without_chance(value) for value in data]
    return data
