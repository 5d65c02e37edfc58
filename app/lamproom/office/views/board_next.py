"""What is next over all permits: readings, starts, ends, rescue and instruments, in one line of time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from lamproom.office.office import Office
from lamproom.office.views.spans import ahead, late_by
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.state import Permit
from lamproom.permit.timing import contact_due, contact_late, retest
from lamproom.permit.words import clock
from lamproom.words import Sentence, say, sentence

HORIZON = timedelta(hours=24)
"""Nothing further ahead is listed: it is tomorrow's."""


@dataclass(frozen=True, slots=True)
class NextLine:
    """One thing that falls or fell due. ``past`` stands above the line for now; ``late`` carries the sign for it."""

    at: datetime
    clock: str
    span: str
    words: str
    past: bool
    late: bool
    number: str


def next_lines(
    office: Office, permits: Iterable[Permit], at: datetime, ordered_out: frozenset[str] = frozenset()
) -> tuple[NextLine, ...]:
    """Everything that falls due within a day on these permits, soonest first; what is overdue stays listed.

    No reading and no contact is asked for on the permits whose people are ``ordered_out``: they come out and are
    counted, nobody stays for a set.
    """
    lines: list[NextLine] = []
    for permit in permits:
        facts = office.facts(permit.number, at)
        for due, words, counts_late in _dues(facts, permit.number in ordered_out):
            if due <= at + HORIZON:
                lines.append(_line(facts, due, words, counts_late))
    return tuple(sorted(lines, key=lambda line: (line.at, line.words)))


def _dues(facts: Facts, ordered_out: bool) -> Iterator[tuple[datetime, Sentence, bool]]:
    permit = facts.permit
    space = permit.opened.registered.name
    if permit.authorised is None:
        if permit.hours is not None and permit.hours.ends > facts.at:
            yield permit.hours.begins, sentence("board.next.start", space=space), False
        return
    begins = getattr(permit.authorised.event, "begins", None)
    if begins is not None and begins > facts.at:
        yield begins, sentence("board.next.begins", space=space), False
    times = retest(facts)
    if times is not None and permit.tally.inside and not ordered_out:
        yield times.due, sentence("board.next.reading", space=space), facts.at > times.late
    contact = contact_due(facts)
    if contact is not None and not ordered_out:
        yield contact, sentence("board.next.contact", space=space), contact_late(facts) is not None
    if permit.until is not None:
        yield permit.until, sentence("board.next.ends", space=space), True
    if permit.rescue is not None and isinstance(permit.rescue.event, e.RescueConfirmed):
        until = permit.rescue.event.good_until
        if permit.until is not None and until < permit.until:
            yield until, sentence("board.next.rescue", space=space), True
    for duty in ("test", "worn"):
        for one in permit.assigned(duty):
            ready = facts.ready(one.instrument)
            if ready.until is not None and permit.until is not None and ready.until < permit.until:
                yield ready.until, sentence("board.next.instrument", name=one.registered.name, space=space), True


def _line(facts: Facts, due: datetime, words: Sentence, counts_late: bool) -> NextLine:
    past = due <= facts.at
    late = past and counts_late
    over = facts.at - due
    span = say("board.next.late", by=late_by(over)) if late and over < HORIZON else ahead(facts.at, due)
    return NextLine(due, clock(due, facts.permit.zone), span, words.say(), past, late, facts.permit.number)
