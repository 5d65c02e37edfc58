"""The alarms of the Watch: what, since when, what to do; one cause, one alarm. All else is a line in the log.

Priorities follow the practice of process alarms (ISA-18.2): 1 danger, 2 act now, 3 soon.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from typing import ClassVar, Literal

from lamproom.permit.facts import Facts
from lamproom.permit.obstacles import Obstacle, Stage
from lamproom.permit.timing import contact_late, expired, last_contact, retest
from lamproom.permit.words import clock, stop_words
from lamproom.words import say

Pattern = Literal["everyone-out", "limit", "late", "soon"]
"""Which sound: the everyone-out pattern comes from an order alone."""

ORDER_SOUNDS = timedelta(seconds=180)
"""An order sounds at least this long, also with nobody inside: ISO 8201."""


@dataclass(frozen=True, slots=True)
class Alarm:
    """An alarm that stands. ``key`` tells causes apart; a new or worse one has another key."""

    key: str
    priority: int
    pattern: Pattern
    what: str
    since: str
    todo: str

    @property
    def words(self) -> str:
        """The alarm in one line."""
        what = f"{self.what} {self.since}".strip()
        return say("watch.alarm", what=what if what.endswith(".") else f"{what}.", todo=self.todo).strip()


def alarms(
    facts: Facts, found: tuple[Obstacle, ...], silent: bool, ordered: datetime | None = None
) -> tuple[Alarm, ...]:
    """All alarms, first the most urgent. ``silent``: this station has no sound that could be heard; ``ordered``: when
    somebody pressed EVACUATE, also where the station had seen a cause before."""
    return tuple(sorted(_all(facts, found, silent, ordered), key=lambda alarm: alarm.priority))


def _all(facts: Facts, found: tuple[Obstacle, ...], silent: bool, ordered: datetime | None) -> Iterator[Alarm]:
    permit = facts.permit
    if permit.closed_out is not None:
        return
    inside = bool(permit.tally.inside)
    danger = _danger(facts, found, inside, ordered)
    if danger is not None:
        yield danger
    elif permit.pause is None:
        yield from _retest(facts, inside)
    yield from _contact(facts)
    if inside and silent:
        yield Alarm("silent", 2, "late", say("watch.alarm.silent"), "", say("watch.alarm.silent_do"))
    if inside and not facts.clock_confirmed:
        yield Alarm("clock", 2, "late", say("watch.alarm.clock"), "", say("watch.alarm.clock_do"))
    yield from _ending(facts)
    yield from _batteries(facts)


def _danger(facts: Facts, found: tuple[Obstacle, ...], inside: bool, pressed: datetime | None) -> Alarm | None:
    permit, zone = facts.permit, facts.permit.zone
    stop = permit.stop
    if stop is not None and permit.ended is None:
        ordered = pressed is not None
        sounding = pressed is not None and facts.at - pressed < ORDER_SOUNDS
        if inside or sounding:
            return Alarm(
                f"stop/{stop.version}/{'ordered' if ordered else 'seen'}",
                1,
                "everyone-out" if ordered else "limit",
                _capital(stop_words(permit, stop).say()),
                clock(stop.at, zone),
                say("watch.alarm.out_do"),
            )
        return None
    if not inside or permit.authorised is None:
        return None
    if permit.ended is not None:
        return Alarm(
            "ended", 1, "limit", say("watch.alarm.ended"), clock(permit.ended.at, zone), say("watch.alarm.out_do")
        )
    if expired(facts) and permit.until is not None:
        return Alarm(
            "expired", 1, "limit", say("watch.alarm.expired"), clock(permit.until, zone), say("watch.alarm.out_do")
        )
    staying = [one for one in found if one.bars(Stage.STAY)]
    if staying:
        return Alarm(f"stay/{staying[0].code}", 1, "limit", staying[0].sentence.say(), "", say("watch.alarm.out_do"))
    return None


def _retest(facts: Facts, inside: bool) -> Iterator[Alarm]:
    permit = facts.permit
    times = retest(facts) if permit.running and inside and permit.awaits is None else None
    if times is None:
        return
    since = clock(times.due, permit.zone)
    if facts.at > times.late:
        late_do = say("watch.alarm.late_do", time=clock(times.bound, permit.zone))
        yield Alarm(f"late/{times.last.version}", 2, "late", say("watch.alarm.late"), since, late_do)
    elif facts.at >= times.due:
        yield Alarm(f"due/{times.last.version}", 3, "soon", say("watch.alarm.due"), since, say("watch.alarm.due_do"))


def _contact(facts: Facts) -> Iterator[Alarm]:
    due = contact_late(facts)
    if due is not None:
        since = clock(last_contact(facts) or due, facts.permit.zone)
        yield Alarm(f"contact/{since}", 2, "late", say("watch.alarm.contact"), since, say("watch.alarm.contact_do"))


def _ending(facts: Facts) -> Iterator[Alarm]:
    until = facts.permit.until
    if until is None or not facts.permit.running or facts.at >= until:
        return
    left = until - facts.at
    reached = [minutes for minutes in facts.permit.form.hours.warn_min if left <= timedelta(minutes=minutes)]
    if reached:
        ends = clock(until, facts.permit.zone)
        yield Alarm(
            f"ending/{min(reached)}", 3, "soon", say("watch.alarm.ending", time=ends), "", say("watch.alarm.ending_do")
        )


def _batteries(facts: Facts) -> Iterator[Alarm]:
    for one in facts.permit.instruments.values():
        known = facts.instruments.get(one.instrument)
        if one.returned is not None or not facts.permit.running or known is None or known.check is None:
            continue
        empty = known.check.at + timedelta(hours=float(Decimal(known.check.event.battery_h)))
        if facts.at > empty - timedelta(minutes=30):
            yield Alarm(
                f"battery/{one.instrument}",
                3,
                "soon",
                say("watch.alarm.battery", name=one.registered.name, time=clock(empty, facts.permit.zone)),
                "",
                say("watch.alarm.battery_do"),
            )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


@dataclass(frozen=True, slots=True)
class Quiet:
    """What was silenced or acknowledged: until when it stays quiet, and whether someone acknowledged it."""

    until: datetime
    acknowledged: bool


class Attention:
    """Which alarms sound and flash at this station now. Silence is short and is no acknowledgment; a new or worse
    alarm always sounds; an acknowledged one sounds again while its cause lasts (60 s for danger, 5 min for the rest).
    """

    SILENCE: ClassVar = {1: timedelta(seconds=60), 2: timedelta(seconds=120), 3: timedelta(seconds=120)}
    AGAIN: ClassVar = {1: timedelta(seconds=60), 2: timedelta(minutes=5), 3: timedelta(minutes=15)}

    def __init__(self) -> None:
        self._quiet: dict[str, Quiet] = {}
        self._once: set[str] = set()

    def keep(self, standing: tuple[Alarm, ...]) -> None:
        """Forget what no longer stands, so that its return is new."""
        keys = {alarm.key for alarm in standing}
        self._quiet = {key: quiet for key, quiet in self._quiet.items() if key in keys}
        self._once &= keys

    def sounding(self, standing: tuple[Alarm, ...], at: datetime) -> Alarm | None:
        """The alarm that is to be heard, None for quiet. The soft beep of priority 3 comes once."""
        for alarm in standing:
            quiet = self._quiet.get(alarm.key)
            if quiet is not None and at < quiet.until:
                continue
            if alarm.priority == 3 and (quiet is not None or alarm.key in self._once):
                continue
            self._once.add(alarm.key)
            return alarm
        return None

    def silence(self, standing: tuple[Alarm, ...], at: datetime) -> None:
        """Quiet for everything that stands now, for a short time."""
        for alarm in standing:
            before = self._quiet.get(alarm.key)
            until = at + self.SILENCE[alarm.priority]
            self._quiet[alarm.key] = Quiet(until, before is not None and before.acknowledged)

    def acknowledge(self, standing: tuple[Alarm, ...], at: datetime) -> Alarm | None:
        """Someone saw the first alarm that nobody acknowledged; None when there is none. One at a time."""
        alarm = self.unseen(standing)
        if alarm is not None:
            self._quiet[alarm.key] = Quiet(at + self.AGAIN[alarm.priority], True)
        return alarm

    def unseen(self, standing: tuple[Alarm, ...]) -> Alarm | None:
        """The first alarm that nobody acknowledged."""
        for alarm in standing:
            quiet = self._quiet.get(alarm.key)
            if quiet is None or not quiet.acknowledged:
                return alarm
        return None

    def silent_for(self, standing: tuple[Alarm, ...], at: datetime) -> int:
        """Seconds until something that stands may sound again; 0 when nothing is silenced."""
        left = [quiet.until - at for alarm in standing if (quiet := self._quiet.get(alarm.key)) is not None]
        return max(0, int(min(left, default=timedelta(0)).total_seconds()))
