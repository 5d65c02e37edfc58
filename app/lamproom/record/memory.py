"""The journal in memory: keeps every promise of the door but the disk. For tests and records read from a page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from lamproom.record.journal import GENESIS, Entry, File, Head, KeyRow, Sealed
from lamproom.record.placing import check_act, place, repeated
from lamproom.record.search import fits, plain_words


class MemoryJournal:
    """A journal that lasts as long as the object."""

    def __init__(self) -> None:
        self._entries: list[Entry] = []
        self._streams: dict[str, list[Entry]] = {}
        self._acts: dict[str, list[Entry]] = {}
        self._files: dict[str, File] = {}
        self._drafts: dict[str, dict[str, str]] = {}
        self._keys: dict[str, KeyRow] = {}
        self._personal: dict[str, dict[str, str]] = {}
        self._settings: dict[str, str] = {}
        self._words: dict[str, tuple[str, ...]] = {}

    def append(self, events: Sequence[Sealed], files: Sequence[File] = ()) -> tuple[Entry, ...]:
        act = check_act(events, files)
        if act in self._acts:
            return repeated(self._acts[act], events)
        entries = place(events, self.head(), self.tail)
        for entry in entries:
            self._entries.append(entry)
            self._streams.setdefault(entry.sealed.stream, []).append(entry)
        self._acts[act] = list(entries)
        for file in files:
            self._files.setdefault(file.sha256, file)
        return entries

    def head(self) -> Head:
        return Head(self._entries[-1].number, self._entries[-1].chain) if self._entries else Head(0, GENESIS)

    def tail(self, stream: str) -> tuple[int, bytes]:
        entries = self._streams.get(stream)
        return (entries[-1].sealed.version, entries[-1].sealed.hash) if entries else (0, GENESIS)

    def stream(self, stream: str, after: int = 0) -> tuple[Entry, ...]:
        return tuple(self._streams.get(stream, ())[max(after, 0) :])

    def entries(self, after: int = 0) -> Iterator[Entry]:
        yield from self._entries[max(after, 0) :]

    def streams(self, prefix: str = "") -> tuple[str, ...]:
        return tuple(name for name in self._streams if name.startswith(prefix))

    def act(self, act: str) -> tuple[Entry, ...]:
        return tuple(self._acts.get(act, ()))

    def file(self, sha256: str) -> File | None:
        return self._files.get(sha256)

    def files(self) -> tuple[str, ...]:
        return tuple(self._files)

    def put_draft(self, owner: str, field: str, text: str) -> None:
        self._drafts.setdefault(owner, {})[field] = text

    def drafts(self, owner: str) -> Mapping[str, str]:
        return MappingProxyType(dict(self._drafts.get(owner, {})))

    def drop_draft(self, owner: str, field: str) -> None:
        self._drafts.get(owner, {}).pop(field, None)

    def put_key(self, row: KeyRow) -> None:
        self._keys[row.key] = row

    def keys(self) -> tuple[KeyRow, ...]:
        return tuple(self._keys.values())

    def put_personal(self, person: str, details: Mapping[str, str]) -> None:
        self._personal[person] = dict(details)

    def personal(self) -> Mapping[str, Mapping[str, str]]:
        return MappingProxyType({person: MappingProxyType(dict(d)) for person, d in self._personal.items()})

    def put_setting(self, name: str, value: str) -> None:
        self._settings[name] = value

    def settings(self) -> Mapping[str, str]:
        return MappingProxyType(dict(self._settings))

    def put_words(self, stream: str, text: str) -> None:
        self._words.pop(stream, None)
        self._words[stream] = plain_words(text)

    def find(self, words: str) -> tuple[str, ...]:
        question = plain_words(words)
        return tuple(stream for stream in reversed(self._words) if fits(question, self._words[stream]))

    def close(self) -> None:
        """Nothing to let go of."""
