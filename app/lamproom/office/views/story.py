"""The story of a permit: one line an event, in words, in the order of the record; and what time alone made happen.

A late reading and a stop that nobody pressed are no events: they are told where the record shows them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from lamproom.bench.bump import gas_name
from lamproom.bench.happening import Event, Happening
from lamproom.office.office import Office
from lamproom.office.permit_change import stream_of
from lamproom.office.views.story_lines import QUIET, Teller, Told
from lamproom.permit import events as e
from lamproom.permit.state import OUTSIDE, Permit, Stop, apply, begin
from lamproom.permit.words import clock, stop_words
from lamproom.words import say, say_count


@dataclass(frozen=True, slots=True)
class StoryLine:
    """One line. ``at`` is when it happened (UTC), ``clock`` the same on the site's wall, ``sign`` a name of the desk's
    signs. ``struck`` and ``put_right`` are the figures of a correction. ``heavy`` marks what no reader may miss;
    ``quiet`` what belongs to the preparation. ``version`` is that of the event in its stream."""

    at: datetime
    clock: str
    sign: str
    what: str
    detail: str
    struck: str
    put_right: str
    heavy: bool
    quiet: bool
    version: int
    kind: str


def story(office: Office, number: str) -> tuple[StoryLine, ...]:
    """The whole story of a permit. Refused where there is none of that number."""
    office.permit(number)
    return told(office.happenings(stream_of(number)), office.names())


def told(past: Iterable[Happening], names: Mapping[str, str]) -> tuple[StoryLine, ...]:
    """The story of a permit's happenings, with the names that people are called by."""
    state: Permit | None = None
    lines: list[StoryLine] = []
    for happening in past:
        before = state
        state = begin(happening) if state is None else apply(state, happening)
        lines.extend(_lines(before, state, happening, Teller(state, names)))
    return tuple(_put_right(line, state) for line in lines)


def _put_right(line: StoryLine, permit: Permit | None) -> StoryLine:
    """The row of a set whose figure was wrong says so: who reads it alone is not to take the figure for true."""
    one = next((s for s in permit.sets if s.version == line.version), None) if permit is not None else None
    if permit is None or one is None or line.kind != e.ReadingsTaken.kind or not one.corrections:
        return line
    words = [
        say(
            "filing.story.put_right",
            gas=gas_name(c.event.gas),
            old=c.event.old,
            new=c.event.new,
            time=clock(c.at, permit.zone),
        )
        for c in one.corrections
    ]
    return replace(
        line, sign="CAUTION", detail=". ".join(part.rstrip(".") for part in (line.detail, *words) if part) + "."
    )


def _lines(before: Permit | None, after: Permit, happening: Happening, teller: Teller) -> Iterator[StoryLine]:
    if before is not None:
        yield from _overdue(before, after, happening)
        yield from _late(before, happening)
    one = teller.tell(happening)
    yield _line(after, happening, one, one.at or happening.at)
    if before is not None and len(after.stops) > len(before.stops):
        stop = after.stops[-1]
        if stop.cause != "retest-overdue" and not isinstance(happening.event, e.StopOrdered):
            yield _line(after, happening, _ordered(after, stop), stop.at)


def _overdue(before: Permit, after: Permit, happening: Happening) -> Iterator[StoryLine]:
    """Everyone had to come out because no set was taken: it stood before whatever was recorded next."""
    if len(after.stops) > len(before.stops) and after.stops[-1].cause == "retest-overdue":
        stop = after.stops[-1]
        yield _line(after, happening, _ordered(after, stop), stop.at)


def _ordered(permit: Permit, stop: Stop) -> Told:
    return Told("DANGER", say("filing.story.ordered_out"), str(stop_words(permit, stop)), heavy=True)


def _late(before: Permit, happening: Happening) -> Iterator[StoryLine]:
    """A set that was taken after its grace, while somebody was inside: the missed slot stays to be seen."""
    event = happening.event
    if not isinstance(event, e.ReadingsTaken) or not before.running or event.phase in OUTSIDE:
        return
    taken = [one.event.taken for one in before.sets if one.event.phase not in OUTSIDE]
    if not taken:
        return
    due = max(taken) + timedelta(minutes=before.form.retest.every_min)
    late = due + timedelta(minutes=before.form.retest.grace_min)
    if event.taken <= late or not any(
        trip.came_in <= late and (trip.went_out is None or trip.went_out > late) for trip in before.tally.trips
    ):
        return
    minutes = int((event.taken - due) / timedelta(minutes=1))
    detail = say_count("filing.story.late_by", minutes, taken=clock(event.taken, before.zone))
    yield _line(before, happening, Told("DUE", say("filing.story.no_reading"), detail, heavy=True), due)


def _line(permit: Permit, happening: Happening, one: Told, at: datetime) -> StoryLine:
    event: Event = happening.event
    return StoryLine(
        at=at,
        clock=clock(at, permit.zone),
        sign=one.sign,
        what=one.what[:1].upper() + one.what[1:],
        detail=one.detail,
        struck=one.struck,
        put_right=one.put_right,
        heavy=one.heavy,
        quiet=isinstance(event, QUIET) and not one.heavy,
        version=happening.version,
        kind=event.kind,
    )
