"""The journal's one door: what a store must do, and the values that go through it.

The journal knows envelopes, not permits. An event is written once, as exact bytes that were signed; it stands in
the order of its stream (expected version, hash of the one before) and in the order of the site (number, chain).
Memory, SQLite and, later, a shared server keep the same promises and pass the same suite of tests.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

GENESIS = bytes(32)
"""The hash before the first event of a stream, and the chain before the first event of a site."""


@dataclass(frozen=True, slots=True)
class Sealed:
    """One event as signed, not yet stored.

    ``body`` is the canonical JSON that was signed (see ``envelope``); ``hash`` its SHA-256 with purpose prefix;
    ``key`` the id of the signing key (SHA-256 of its public key, hex). ``version`` counts from 1 in its stream.
    """

    stream: str
    version: int
    kind: str
    kind_version: int
    act: str
    body: bytes
    hash: bytes
    signature: bytes
    key: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One event as stored: the sealed event with its place in the site's order.

    ``number`` counts from 1 over the whole site without a gap; ``chain`` binds this entry to the one before it.
    """

    sealed: Sealed
    number: int
    chain: bytes


@dataclass(frozen=True, slots=True)
class File:
    """A page that was filed (a signed PDF): kept with the journal in the same transaction as its event."""

    sha256: str
    name: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Head:
    """The newest entry of the site: its number and chain, (0, GENESIS) before the first."""

    number: int
    chain: bytes


@dataclass(frozen=True, slots=True)
class KeyRow:
    """A key or certificate the site keeps, never in plain: id, holder (person id, 'station' or 'authority'),
    certificate (DER), the private key as encrypted by ``office`` (None where only the certificate is known)."""

    key: str
    holder: str
    certificate: bytes
    sealed_private: bytes | None


class Journal(Protocol):
    """The door. Every method raises a Refusal for trouble the user can mend (full disk, locked, damaged, read-only)."""

    def append(self, events: Sequence[Sealed], files: Sequence[File] = ()) -> tuple[Entry, ...]:
        """Store one act: all of its events and files in one transaction, acknowledged only after the commit.

        All events carry the same act id. An act id that is already stored with the same streams and kinds returns the
        entries stored then and changes nothing (a repeat is one event); with others it raises ``RepeatedOtherwise``.
        A version or previous hash that is no longer the stream's next raises ``Overtaken`` and stores nothing.
        """
        ...

    def head(self) -> Head: ...

    def tail(self, stream: str) -> tuple[int, bytes]:
        """Version and hash of the stream's newest event; (0, GENESIS) for a stream not begun."""
        ...

    def stream(self, stream: str, after: int = 0) -> tuple[Entry, ...]:
        """The stream's entries with a version above ``after``, in order."""
        ...

    def entries(self, after: int = 0) -> Iterator[Entry]:
        """The site's entries with a number above ``after``, in order."""
        ...

    def streams(self, prefix: str = "") -> tuple[str, ...]:
        """Names of the streams that begin with ``prefix``, in order of their first event."""
        ...

    def act(self, act: str) -> tuple[Entry, ...]:
        """The entries one act stored; empty when it stored none."""
        ...

    def file(self, sha256: str) -> File | None:
        """The filed page with this hash (SHA-256, hex), its content checked against it; None when none was filed."""
        ...

    def files(self) -> tuple[str, ...]:
        """The hashes of all filed pages, in the order they were filed."""
        ...

    def put_draft(self, owner: str, field: str, text: str) -> None:
        """Keep half-typed text outside the journal; owner is a permit or instrument, field a name within it."""
        ...

    def drafts(self, owner: str) -> Mapping[str, str]: ...

    def drop_draft(self, owner: str, field: str) -> None: ...

    def put_key(self, row: KeyRow) -> None: ...

    def keys(self) -> tuple[KeyRow, ...]: ...

    def put_personal(self, person: str, details: Mapping[str, str]) -> None:
        """Names and what else is personal, outside the journal (events hold person ids)."""
        ...

    def personal(self) -> Mapping[str, Mapping[str, str]]: ...

    def put_setting(self, name: str, value: str) -> None:
        """A setting of this machine's site folder that is no event (theme, recent list, counters of wrong codes)."""
        ...

    def settings(self) -> Mapping[str, str]: ...

    def put_words(self, stream: str, text: str) -> None:
        """Make the stream findable by the words of ``text`` instead of those given before. Can be made anew."""
        ...

    def find(self, words: str) -> tuple[str, ...]:
        """Streams whose text has a word beginning with each word of the question; last given first."""
        ...

    def close(self) -> None: ...
