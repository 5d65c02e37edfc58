"""Where an act's events go: the rules of appending that every store keeps, whatever it is made of."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence

from lamproom.record.chain import link
from lamproom.record.envelope import from_bytes, hash_of
from lamproom.record.journal import Entry, File, Head, Sealed
from lamproom.record.refusals import Overtaken, RepeatedOtherwise


def check_act(events: Sequence[Sealed], files: Sequence[File]) -> str:
    """The one act id of the events. ValueError for a fault of the caller: none, two acts, bytes and hash at odds."""
    acts = {event.act for event in events}
    if len(acts) != 1:
        raise ValueError("an append stores the events of one act, and at least one")
    for event in events:
        envelope = from_bytes(event.body)
        signed = (envelope.stream, envelope.version, envelope.kind, envelope.kind_version, envelope.act)
        if hash_of(event.body) != event.hash or signed != _columns(event):
            raise ValueError(f"event {event.version} of {event.stream} is not what was signed")
    for file in files:
        if hashlib.sha256(file.content).hexdigest() != file.sha256:
            raise ValueError(f"file {file.name} does not have the hash it is given with")
    return acts.pop()


def repeated(stored: Sequence[Entry], events: Sequence[Sealed]) -> tuple[Entry, ...]:
    """The entries of an act that is already stored, when the events repeat it; RepeatedOtherwise when they differ."""
    before = [(entry.sealed.stream, entry.sealed.kind) for entry in stored]
    if before != [(event.stream, event.kind) for event in events]:
        raise RepeatedOtherwise(events[0].act)
    return tuple(stored)


def place(events: Sequence[Sealed], head: Head, tail: Callable[[str], tuple[int, bytes]]) -> tuple[Entry, ...]:
    """The entries the events become after ``head``; Overtaken when one is not the next of its stream."""
    tails: dict[str, tuple[int, bytes]] = {}
    entries: list[Entry] = []
    for event in events:
        version, hash = tails[event.stream] if event.stream in tails else tail(event.stream)
        if event.version != version + 1 or from_bytes(event.body).previous != hash:
            raise Overtaken(event.stream, seen=event.version - 1, now=version)
        tails[event.stream] = (event.version, event.hash)
        head = Head(head.number + 1, link(head.chain, event))
        entries.append(Entry(event, head.number, head.chain))
    return tuple(entries)


def _columns(event: Sealed) -> tuple[str, int, str, int, str]:
    return (event.stream, event.version, event.kind, event.kind_version, event.act)
