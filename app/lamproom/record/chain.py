"""The chain, and the check of a record: pure functions over entries, without file or clock.

Every flaw is collected; after one the check goes on from what is written there, so that the first bad entry is named
and the good ones after it are not blamed. A record that agrees with itself may still have lost its end or have been
replaced by an older copy: only a witness from outside (a printed fingerprint, a backup, an export) can tell.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Protocol

from lamproom.record.envelope import SIGNATURE_PURPOSE, Envelope, from_bytes, hash_of
from lamproom.record.journal import GENESIS, Entry, Head, Sealed
from lamproom.record.refusals import Unreadable
from lamproom.words import Sentence, sentence

CHAIN_PURPOSE = b"lamproom chain 1\n"
START = Head(0, GENESIS)


class Verifier(Protocol):
    """What a certificate offers: the id of its key, and whether a signature over ``data`` is that key's."""

    @property
    def key(self) -> str: ...

    def verify(self, signature: bytes, data: bytes) -> bool: ...


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing wrong. ``number`` is None where the site's order was not looked at, ``stream`` where none is meant."""

    number: int | None
    stream: str | None
    version: int | None
    why: Sentence


@dataclass(frozen=True, slots=True)
class Witness:
    """What was seen of the record from outside: at entry ``number`` the chain began with these bytes (8 on paper)."""

    number: int
    chain: bytes


def link(previous_chain: bytes, sealed: Sealed) -> bytes:
    """The chain after this event: SHA-256 over the chain before, the event's hash, its signature and its key's id."""
    return hashlib.sha256(
        CHAIN_PURPOSE + previous_chain + sealed.hash + sealed.signature + sealed.key.encode("utf-8", "replace")
    ).digest()


def verify(
    entries: Iterable[Entry],
    certificates: Callable[[str], Verifier | None],
    after: Head = START,
    tails: Mapping[str, tuple[int, bytes]] | None = None,
    witnesses: Iterable[Witness] = (),
) -> list[Flaw]:
    """Everything wrong with the site's entries in their order; empty when nothing was found.

    ``certificates`` gives the verifier of a key id. A later part of the site is checked by giving ``after`` (the head
    before it) and ``tails`` (version and hash of the streams begun before it).
    """
    check = _Check(certificates, dict(tails or {}))
    waiting = sorted((w for w in witnesses if w.number > after.number), key=lambda w: w.number)
    seen: dict[int, bytes] = {}
    for entry in entries:
        if entry.number != after.number + 1:
            check.flaw(entry, "record.flaw.gap", number=entry.number, expected=after.number + 1)
        if entry.chain != link(after.chain, entry.sealed):
            check.flaw(entry, "record.flaw.chain", number=entry.number)
        check.sealed(entry.sealed, entry.number)
        if any(w.number == entry.number for w in waiting):
            seen[entry.number] = entry.chain
        after = Head(entry.number, entry.chain)
    check.flaws += [
        Flaw(w.number, None, None, sentence("record.flaw.witness", number=w.number, print=w.chain.hex()))
        for w in waiting
        if not seen.get(w.number, b"").startswith(w.chain)
    ]
    return check.flaws


def verify_streams(
    events: Iterable[Sealed],
    certificates: Callable[[str], Verifier | None],
    tails: Mapping[str, tuple[int, bytes]] | None = None,
) -> list[Flaw]:
    """Everything wrong with events that travel without the site's order (one permit, the journal inside a page)."""
    check = _Check(certificates, dict(tails or {}))
    for event in events:
        check.sealed(event, None)
    return check.flaws


class _Check:
    """One run of the check: the tails reached so far, the verifiers met, the flaws found."""

    def __init__(self, certificates: Callable[[str], Verifier | None], tails: dict[str, tuple[int, bytes]]) -> None:
        self.flaws: list[Flaw] = []
        self._certificates = certificates
        self._verifiers: dict[str, Verifier | None] = {}
        self._tails = tails

    def sealed(self, event: Sealed, number: int | None) -> None:
        if hash_of(event.body) != event.hash:
            self._of(event, number, "record.flaw.body")
        try:
            envelope = from_bytes(event.body)
        except Unreadable as unreadable:
            self._of(event, number, "record.flaw.unreadable", cause=unreadable.why)
        else:
            self._written(event, envelope, number)
        self._signature(event, number)
        self._tails[event.stream] = (event.version, event.hash)

    def _written(self, event: Sealed, envelope: Envelope, number: int | None) -> None:
        names = [
            name
            for name in ("stream", "version", "kind", "kind_version", "act")
            if getattr(event, name) != getattr(envelope, name)
        ]
        if names:
            self._of(event, number, "record.flaw.columns", names=", ".join(names))
        version, hash = self._tails.get(event.stream, (0, GENESIS))
        if event.version != version + 1:
            self._of(event, number, "record.flaw.version", expected=version + 1)
        elif envelope.previous != hash:
            self._of(event, number, "record.flaw.previous")

    def _signature(self, event: Sealed, number: int | None) -> None:
        if event.key not in self._verifiers:
            self._verifiers[event.key] = self._certificates(event.key)
        verifier = self._verifiers[event.key]
        if verifier is None or verifier.key != event.key:
            self._of(event, number, "record.flaw.key", key=event.key[:16])
        elif not verifier.verify(event.signature, SIGNATURE_PURPOSE + event.hash):
            self._of(event, number, "record.flaw.signature")

    def _of(self, event: Sealed, number: int | None, id: str, **values: str | int | Sentence) -> None:
        why = sentence(id, **{"stream": event.stream, "version": event.version, **values})
        self.flaws.append(Flaw(number, event.stream, event.version, why))

    def flaw(self, entry: Entry, id: str, **values: str | int) -> None:
        self.flaws.append(Flaw(entry.number, entry.sealed.stream, entry.sealed.version, sentence(id, **values)))
