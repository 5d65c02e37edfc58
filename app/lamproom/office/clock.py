"""The only file that reads the clock, and the rule by which its reading is judged.

``now`` is the highest time seen plus the boot clock's time passed since: turning a wall clock back gains nothing.
A boot clock that cannot be compared (restart, another machine), or a wall clock that jumped forward by more than two
minutes against it, leaves the time unconfirmed until a named person has read another watch.
"""

from __future__ import annotations

import time
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Protocol
from uuid import uuid4

FORWARD_JUMP = timedelta(minutes=2)
"""The wall clock may run ahead of the boot clock by this much (a network clock settling) before a person is asked."""


@dataclass(frozen=True, slots=True)
class Sample:
    """What the machine's clocks show: wall (UTC, whole ms), boot id, nanoseconds since boot (sleep counts)."""

    wall: datetime
    boot: str
    boot_ns: int


class Clock(Protocol):
    """Whatever gives samples: the machine, or a clock that a test or a replay turns by hand."""

    def sample(self) -> Sample: ...


@dataclass(frozen=True, slots=True)
class Mark:
    """The highest time seen, at which boot clock, and the anchor: the time a person last confirmed in this boot.

    ``confirmed`` says that a named person confirmed the time in this boot and nothing has contradicted it since.
    """

    now: datetime
    boot: str
    boot_ns: int
    anchor: datetime
    anchor_ns: int
    confirmed: bool


@dataclass(frozen=True, slots=True)
class Judged:
    """The time as judged: ``now`` for every rule, the sample it came from, and whether it is confirmed.

    ``behind`` is how far the wall clock lies behind ``now`` (it was set back), ``ahead`` how far it jumped forward;
    ``restarted`` that the boot clock could not be compared.
    """

    now: datetime
    sample: Sample
    confirmed: bool
    behind: timedelta = timedelta(0)
    ahead: timedelta = timedelta(0)
    restarted: bool = False


def judge(mark: Mark | None, sample: Sample) -> Judged:
    """The judged time of a sample, given the highest time seen before. Pure; the rule stands in the module's head."""
    if mark is None:
        return Judged(sample.wall, sample, False, restarted=True)
    if sample.boot != mark.boot or sample.boot_ns < mark.boot_ns:
        now = max(mark.now, sample.wall)
        return Judged(now, sample, False, behind=max(now - sample.wall, timedelta(0)), restarted=True)
    passed = _ms((sample.boot_ns - mark.boot_ns) / 1e6)
    least = mark.now + passed
    if sample.wall <= least:
        return Judged(least, sample, mark.confirmed, behind=least - sample.wall)
    anchored = mark.anchor + _ms((sample.boot_ns - mark.anchor_ns) / 1e6)
    ahead = sample.wall - anchored
    if ahead <= FORWARD_JUMP:
        return Judged(sample.wall, sample, mark.confirmed)
    return Judged(least, sample, False, ahead=ahead)


def _ms(milliseconds: float) -> timedelta:
    return timedelta(milliseconds=int(milliseconds))


def moved_on(mark: Mark | None, judged: Judged) -> Mark:
    """The mark after a judged sample: the highest time seen moves on, what a person confirmed stays where it was."""
    sample = judged.sample
    if mark is None or judged.restarted:
        return Mark(judged.now, sample.boot, sample.boot_ns, judged.now, sample.boot_ns, False)
    # Only whole milliseconds were counted: what is left over is kept, or many calls a second would hold the time back.
    counted = sample.boot_ns - (sample.boot_ns - mark.boot_ns) % 1_000_000
    return replace(mark, now=judged.now, boot_ns=counted, confirmed=judged.confirmed)


def confirmed_as(sample: Sample, watch_says: datetime, highest: datetime) -> Mark:
    """The mark after a named person read another watch: never before the highest time seen."""
    now = max(watch_says, highest)
    return Mark(now, sample.boot, sample.boot_ns, now, sample.boot_ns, True)


def started_over(sample: Sample, watch_says: datetime) -> Mark:
    """The mark after two named people declared the clock wrong: the watch alone counts."""
    return Mark(watch_says, sample.boot, sample.boot_ns, watch_says, sample.boot_ns, True)


class MachineClock:
    """This machine's clocks. The boot clock counts sleep where the system has one that does."""

    def __init__(self) -> None:
        self._boot = _boot_id()
        self._boot_clock = getattr(time, "CLOCK_BOOTTIME", None)

    def sample(self) -> Sample:
        wall = datetime.now(UTC)
        wall = wall.replace(microsecond=wall.microsecond // 1000 * 1000)
        passed = time.monotonic_ns() if self._boot_clock is None else time.clock_gettime_ns(self._boot_clock)
        return Sample(wall, self._boot, passed)


def _boot_id() -> str:
    """The system's id of this boot; where it has none, one of this program run, so that a restart asks a person."""
    file = Path("/proc/sys/kernel/random/boot_id")
    return file.read_text().strip() if file.exists() else f"run-{uuid4()}"


class HandClock:
    """A clock turned by hand: for replays and tests. Wall and boot clock move together unless set apart."""

    def __init__(self, wall: datetime, boot: str = "boot-1", boot_ns: int = 1_000_000_000_000) -> None:
        self._wall = wall.astimezone(UTC)
        self._boot = boot
        self._boot_ns = boot_ns

    def sample(self) -> Sample:
        return Sample(self._wall, self._boot, self._boot_ns)

    def pass_time(self, passed: timedelta) -> None:
        """Time passes on both clocks."""
        self._wall += passed
        self._boot_ns += int(passed / timedelta(microseconds=1)) * 1000

    def turn_to(self, wall: datetime) -> None:
        """Time passes until the wall shows this; never backwards."""
        self.pass_time(max(wall.astimezone(UTC) - self._wall, timedelta(0)))

    def set_wall(self, wall: datetime) -> None:
        """Someone sets the wall clock; the boot clock does not move."""
        self._wall = wall.astimezone(UTC)

    def restart(self, boot: str) -> None:
        """The machine starts again: a new boot clock from nothing."""
        self._boot, self._boot_ns = boot, 0
