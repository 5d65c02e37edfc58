"""Find a permit: by words, space, person, state, and days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.permit.state import Permit
from lamproom.permit.words import stop_words
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class FoundPermit:
    """One line of what was found: number, space, day, state word (id of ``permit.state``) and what was notable."""

    number: str
    space: str
    day: date
    state: str
    line: str


def find(
    office: Office, words: str = "", begins: date | None = None, ends: date | None = None
) -> tuple[FoundPermit, ...]:
    """Permits that hold all of the words, opened within the days (both included), newest first."""
    wanted = words.casefold().replace(",", " ").split()
    found = []
    for number in office.ids("permit"):
        permit = office.permit(number)
        day = permit.opened_at.astimezone(permit.zone).date()
        if (begins is not None and day < begins) or (ends is not None and day > ends):
            continue
        text = _text(office, permit).casefold()
        if all(word in text for word in wanted):
            found.append(FoundPermit(number, permit.opened.registered.name, day, state_word(permit), _notable(permit)))
    return tuple(reversed(found))


def state_word(permit: Permit) -> str:
    """The stored part of a permit's life in one word; what the clock adds is for those who watch."""
    if permit.closed_out is not None:
        return "closed"
    if permit.ended is not None:
        return "ended"
    return "refused" if permit.authorised is not None else "draft"


def _notable(permit: Permit) -> str:
    parts = [say("office.find.stop", cause=stop_words(permit, stop)) for stop in permit.stops]
    corrections = sum(len(s.corrections) for s in permit.sets)
    if corrections:
        parts.append(say("office.find.corrected", count=corrections))
    if permit.ended is not None and isinstance(permit.ended.event, e.Ended):
        parts.append(say(f"permit.cause.{permit.ended.event.cause}"))
    return "; ".join(parts) or (permit.purpose or "")


def _text(office: Office, permit: Permit) -> str:
    names = office.names()
    people = (*permit.entrants, *permit.attendants, permit.supervisor or "")
    parts = [
        permit.number,
        permit.opened.registered.name,
        permit.opened.registered.place,
        permit.purpose or "",
        say(f"permit.state.{state_word(permit)}"),
        _notable(permit),
        *(names.get(person, "") for person in people),
        *(name for _id, name, _shows, _gas in permit.hazards()),
        *(made.event.text for made in permit.notes if isinstance(made.event, e.Noted)),
    ]
    return " ".join(parts)
