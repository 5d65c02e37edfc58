"""The one table between stored words and events: fixed kind and version to class. It only ever grows."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError

from lamproom.bench import events as bench
from lamproom.bench.happening import Event, Happening
from lamproom.permit import events as permit
from lamproom.permit import people, site, space
from lamproom.record.envelope import Envelope, from_bytes
from lamproom.record.journal import Entry, Sealed
from lamproom.words import Refusal, sentence

KINDS: dict[tuple[str, int], type[Event]] = {
    (event.kind, event.kind_version): event
    for event in (*site.EVENTS, *space.EVENTS, *people.EVENTS, *bench.EVENTS, *permit.EVENTS)
}


class UnknownKind(Refusal):
    """The record holds a kind of event that this program does not know: a newer one wrote it."""

    def __init__(self, kind: str, version: int, stream: str) -> None:
        super().__init__(sentence("record.unknown_kind", kind=kind, version=version, stream=stream))


class UnreadableEvent(Refusal):
    """An event whose content does not fit its kind: damaged or forged."""

    def __init__(self, kind: str, stream: str, version: int) -> None:
        super().__init__(sentence("record.unreadable_event", kind=kind, stream=stream, version=version))


def data_of(event: Event) -> dict[str, Any]:
    """What stands in the envelope for an event: plain JSON, figures as text, times as ISO 8601."""
    return event.model_dump(mode="json")


def event_of(envelope: Envelope) -> Event:
    """The event that an envelope holds. Refused when the kind is unknown or its content does not fit."""
    known = KINDS.get((envelope.kind, envelope.kind_version))
    if known is None:
        raise UnknownKind(envelope.kind, envelope.kind_version, envelope.stream)
    try:
        return known.model_validate(envelope.data)
    except ValidationError as error:
        raise UnreadableEvent(envelope.kind, envelope.stream, envelope.version) from error


def happening_of(sealed: Sealed, number: int = 0, void: bool = False) -> Happening:
    """The happening that a sealed event tells; ``number`` and ``void`` are its place in the site, when known."""
    envelope = from_bytes(sealed.body)
    return Happening(
        stream=envelope.stream,
        version=envelope.version,
        event=event_of(envelope),
        at=envelope.at,
        by=envelope.by,
        station=envelope.station,
        act=envelope.act,
        number=number,
        unconfirmed=envelope.unconfirmed,
        void=void,
    )


def happened(entry: Entry, void: bool = False) -> Happening:
    """The happening that a stored entry tells."""
    return happening_of(entry.sealed, entry.number, void)
