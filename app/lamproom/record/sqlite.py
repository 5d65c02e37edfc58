"""The journal in one SQLite file: the site's folder on one machine. One act is one durable transaction.

Transactions are our own (BEGIN IMMEDIATE, COMMIT): a deferred one could be refused as locked after it has read. The
connection belongs to the thread that opened it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import MappingProxyType
from typing import Any

from sqlite_utils import Database

from lamproom.record.connection import PATIENCE_S, connect, copy_database, told
from lamproom.record.journal import GENESIS, Entry, File, Head, KeyRow, Sealed
from lamproom.record.placing import check_act, place, repeated
from lamproom.record.refusals import Closed, Damaged, DiskError, PageAltered
from lamproom.record.search import match_expression, plain_words

_SEALED = ("stream", "version", "kind", "kind_version", "act", "body", "hash", "signature", "key")
_ENTRY = ", ".join(("number", *_SEALED, "chain"))
_PAGE_OF_ENTRIES = 500


class SqliteJournal:
    """A journal in the file ``path``, made when it is not there. Raises a Refusal for whatever the user can mend."""

    def __init__(self, path: Path, patience_s: float = PATIENCE_S) -> None:
        self.path = path
        self._patience_s = patience_s
        self._database: Database | None = connect(path, patience_s)

    def append(self, events: Sequence[Sealed], files: Sequence[File] = ()) -> tuple[Entry, ...]:
        act = check_act(events, files)
        with self._writing() as db:
            stored = _entries(db, "WHERE act = ? ORDER BY number", (act,))
            if stored:
                return repeated(stored, events)
            entries = place(events, _head(db), lambda stream: _tail(db, stream))
            for entry in entries:
                db.execute(f"INSERT INTO events ({_ENTRY}) VALUES ({','.join('?' * 11)})", _row(entry))
            for file in files:
                db.execute(
                    "INSERT INTO files (sha256, name, content) SELECT ?, ?, ? "
                    "WHERE NOT EXISTS (SELECT 1 FROM files WHERE sha256 = ?)",
                    (file.sha256, file.name, file.content, file.sha256),
                )
        return entries

    def head(self) -> Head:
        with self._reading() as db:
            return _head(db)

    def tail(self, stream: str) -> tuple[int, bytes]:
        with self._reading() as db:
            return _tail(db, stream)

    def stream(self, stream: str, after: int = 0) -> tuple[Entry, ...]:
        with self._reading() as db:
            return _entries(db, "WHERE stream = ? AND version > ? ORDER BY version", (stream, after))

    def entries(self, after: int = 0) -> Iterator[Entry]:
        """In pages, so that the file is not held locked, nor the whole record in memory, while the caller works."""
        while True:
            with self._reading() as db:
                page = _entries(db, "WHERE number > ? ORDER BY number LIMIT ?", (after, _PAGE_OF_ENTRIES))
            yield from page
            if len(page) < _PAGE_OF_ENTRIES:
                return
            after = page[-1].number

    def streams(self, prefix: str = "") -> tuple[str, ...]:
        with self._reading() as db:
            rows = db.execute(
                "SELECT stream FROM events WHERE version = 1 AND substr(stream, 1, ?) = ? ORDER BY number",
                (len(prefix), prefix),
            ).fetchall()
        return tuple(row[0] for row in rows)

    def act(self, act: str) -> tuple[Entry, ...]:
        with self._reading() as db:
            return _entries(db, "WHERE act = ? ORDER BY number", (act,))

    def file(self, sha256: str) -> File | None:
        with self._reading() as db:
            row = db.execute("SELECT sha256, name, content FROM files WHERE sha256 = ?", (sha256,)).fetchone()
        if row is None:
            return None
        if hashlib.sha256(row[2]).hexdigest() != sha256:
            raise PageAltered(row[1])
        return File(*row)

    def files(self) -> tuple[str, ...]:
        with self._reading() as db:
            return tuple(row[0] for row in db.execute("SELECT sha256 FROM files ORDER BY place").fetchall())

    def put_draft(self, owner: str, field: str, text: str) -> None:
        with self._writing() as db:
            db.execute(
                "INSERT INTO drafts (owner, field, text) VALUES (?, ?, ?) "
                "ON CONFLICT (owner, field) DO UPDATE SET text = excluded.text",
                (owner, field, text),
            )

    def drafts(self, owner: str) -> Mapping[str, str]:
        with self._reading() as db:
            return _pairs(db, "SELECT field, text FROM drafts WHERE owner = ? ORDER BY field", (owner,))

    def drop_draft(self, owner: str, field: str) -> None:
        with self._writing() as db:
            db.execute("DELETE FROM drafts WHERE owner = ? AND field = ?", (owner, field))

    def put_key(self, row: KeyRow) -> None:
        with self._writing() as db:
            db.execute(
                "INSERT INTO keys (key, holder, certificate, sealed_private) VALUES (?, ?, ?, ?) "
                "ON CONFLICT (key) DO UPDATE SET holder = excluded.holder, certificate = excluded.certificate, "
                "sealed_private = excluded.sealed_private",
                (row.key, row.holder, row.certificate, row.sealed_private),
            )

    def keys(self) -> tuple[KeyRow, ...]:
        with self._reading() as db:
            rows = db.execute("SELECT key, holder, certificate, sealed_private FROM keys ORDER BY place").fetchall()
        return tuple(KeyRow(*row) for row in rows)

    def put_personal(self, person: str, details: Mapping[str, str]) -> None:
        with self._writing() as db:
            db.execute("DELETE FROM personal WHERE person = ?", (person,))
            for name, value in details.items():
                db.execute("INSERT INTO personal (person, name, value) VALUES (?, ?, ?)", (person, name, value))

    def personal(self) -> Mapping[str, Mapping[str, str]]:
        people: dict[str, dict[str, str]] = {}
        with self._reading() as db:
            for person, name, value in db.execute("SELECT person, name, value FROM personal").fetchall():
                people.setdefault(person, {})[name] = value
        return MappingProxyType({person: MappingProxyType(details) for person, details in people.items()})

    def put_setting(self, name: str, value: str) -> None:
        with self._writing() as db:
            db.execute(
                "INSERT INTO settings (name, value) VALUES (?, ?) "
                "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                (name, value),
            )

    def settings(self) -> Mapping[str, str]:
        with self._reading() as db:
            return _pairs(db, "SELECT name, value FROM settings ORDER BY name", ())

    def put_words(self, stream: str, text: str) -> None:
        with self._writing() as db, told(self.path, self._patience_s, doubtful=True):
            db.execute("DELETE FROM words WHERE rowid = (SELECT place FROM findable WHERE stream = ?)", (stream,))
            db.execute("DELETE FROM findable WHERE stream = ?", (stream,))
            place = db.execute("SELECT coalesce(max(place), 0) + 1 FROM findable").fetchone()[0]
            db.execute("INSERT INTO findable (place, stream) VALUES (?, ?)", (place, stream))
            db.execute("INSERT INTO words (rowid, text) VALUES (?, ?)", (place, " ".join(plain_words(text))))

    def find(self, words: str) -> tuple[str, ...]:
        question = plain_words(words)
        if not question:
            return ()
        with self._reading() as db, told(self.path, self._patience_s, doubtful=True):
            rows = db.execute(
                "SELECT findable.stream FROM words JOIN findable ON findable.place = words.rowid "
                "WHERE words MATCH ? ORDER BY findable.place DESC",
                (match_expression(question),),
            ).fetchall()
        return tuple(row[0] for row in rows)

    def close(self) -> None:
        if self._database is not None:
            self._database.close()
            self._database = None

    def copy_into(self, target: Path) -> None:
        """A copy of the whole database as it stands between two acts, by SQLite's own backup. See ``backup``."""
        with self._reading() as db:
            copy_database(db, target)

    @contextmanager
    def _reading(self) -> Iterator[Database]:
        if self._database is None:
            raise Closed(self.path)
        try:
            with told(self.path, self._patience_s):
                yield self._database
        except (DiskError, Damaged):
            self.close()
            raise

    @contextmanager
    def _writing(self) -> Iterator[Database]:
        """One transaction, done when the block is left without an exception and COMMIT has returned.

        After a disk error or damage the journal closes: the kernel may drop what it could not write, so that a second
        sync reports success with the data gone.
        """
        with self._reading() as db:
            db.conn.execute("BEGIN IMMEDIATE")
            try:
                yield db
                db.conn.execute("COMMIT")
            except BaseException:
                if db.conn.in_transaction:
                    db.conn.execute("ROLLBACK")
                raise


def _head(db: Database) -> Head:
    row = db.execute("SELECT number, chain FROM events ORDER BY number DESC LIMIT 1").fetchone()
    return Head(*row) if row else Head(0, GENESIS)


def _tail(db: Database, stream: str) -> tuple[int, bytes]:
    row = db.execute(
        "SELECT version, hash FROM events WHERE stream = ? ORDER BY version DESC LIMIT 1", (stream,)
    ).fetchone()
    return (row[0], row[1]) if row else (0, GENESIS)


def _entries(db: Database, where: str, values: tuple[Any, ...]) -> tuple[Entry, ...]:
    rows = db.execute(f"SELECT {_ENTRY} FROM events {where}", values).fetchall()
    return tuple(Entry(Sealed(*row[1:10]), row[0], row[10]) for row in rows)


def _row(entry: Entry) -> tuple[Any, ...]:
    return (entry.number, *(getattr(entry.sealed, column) for column in _SEALED), entry.chain)


def _pairs(db: Database, sql: str, values: tuple[str, ...]) -> Mapping[str, str]:
    return MappingProxyType(dict(db.execute(sql, values).fetchall()))
