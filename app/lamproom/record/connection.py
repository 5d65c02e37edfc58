"""The connection to the site's database: how it is opened, what is asserted of it, what its errors mean to a person.

``sqlite3`` is taken from ``sqlite_utils`` alone: two SQLite libraries in one process would drop each other's locks on
the file (sqlite.org, "How To Corrupt An SQLite Database File", 2.2.1).
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path

from sqlite_utils import Database
from sqlite_utils.utils import sqlite3  # type: ignore[attr-defined]  # exported there by choice, see above

from lamproom.record.migrations import APPLICATION, FORMAT, migrate, shape
from lamproom.record.refusals import (
    CannotOpen,
    CannotWrite,
    Closed,
    Damaged,
    DiskError,
    DiskFull,
    JournalRefusal,
    Locked,
    NewerFormat,
    NotOurs,
    OldLibrary,
    ReadOnly,
    SettingNotHeld,
)

NEEDED = (3, 51, 3)
"""Older libraries can lose a commit in the WAL reset race (sqlite.org/wal.html); 3.51.3 is the first without."""
PATIENCE_S = 5.0
"""How long an act waits for another program to let go of the file."""

# Primary result codes (sqlite.org/rescode.html); the library's own constants differ between builds.
_ERROR, _PERM, _BUSY, _LOCKED, _READONLY, _IOERR, _CORRUPT, _FULL, _CANTOPEN, _NOTADB = (
    1,
    3,
    5,
    6,
    8,
    10,
    11,
    13,
    14,
    26,
)
_HELD: dict[str, str] = {
    "journal_mode": "delete",
    "synchronous": "3",  # EXTRA: also syncs the folder, else power loss can take back the last commit
    "foreign_keys": "1",
    "trusted_schema": "0",
    "cell_size_check": "1",
    "recursive_triggers": "1",  # else INSERT OR REPLACE would delete past the triggers
    "mmap_size": "0",  # a read error in mapped memory kills the process instead of being told
}


def connect(where: Path, patience_s: float = PATIENCE_S) -> Database:
    """The database of a journal, new or old: checked, brought to this format, writable. A Refusal says why not."""
    check_library(sqlite3.sqlite_version)
    with told(where, patience_s):
        connection = sqlite3.connect(str(where), timeout=patience_s, isolation_level=None)
        try:
            database = Database(connection, execute_plugins=False, strict=True)
            with told(where, patience_s, doubtful=True):
                refuse_strangers(database, where)
                hold_settings(database, where)
                refuse_damaged(database, where)
            migrate(database)
            with told(where, patience_s, doubtful=True):
                refuse_other_shape(database, where)
            _refuse_read_only(database)
        except BaseException:
            connection.close()
            raise
    return database


def check_library(version: str) -> None:
    """OldLibrary unless the SQLite in use is one that keeps its promises."""
    if tuple(int(part) for part in version.split(".")) < NEEDED:
        raise OldLibrary(version, ".".join(map(str, NEEDED)))


def refuse_strangers(database: Database, where: Path) -> None:
    """NotOurs for another program's database, NewerFormat for one from a later release; both before anything is set."""
    application, format = number(database, "application_id"), number(database, "user_version")
    empty = not database.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0]
    if application != APPLICATION and not (empty and application == 0 and format == 0):
        raise NotOurs(where)
    if format > FORMAT:
        raise NewerFormat(where, found=format, known=FORMAT)


def hold_settings(database: Database, where: Path) -> None:
    """Set what durability and caution need, and assert that it took: a pragma that fails does not say so."""
    wanted = {**_HELD, **({"fullfsync": "1"} if sys.platform == "darwin" else {})}
    for name, value in wanted.items():
        database.execute(f"PRAGMA {name} = {value}").fetchall()
    for name, value in wanted.items():
        row = database.execute(f"PRAGMA {name}").fetchone()
        found = str(row[0]) if row else "0"  # a library built without mapped memory gives no row
        if found != value:
            raise SettingNotHeld(where, name, found=found, wanted=value)


def refuse_damaged(database: Database, where: Path) -> None:
    """Damaged when SQLite's own quick check finds anything. Changed contents are found by the chain, not here."""
    found = [str(row[0]) for row in database.execute("PRAGMA quick_check(1)")]
    if found != ["ok"]:
        raise Damaged(where, found[0] if found else "quick_check")


def refuse_other_shape(database: Database, where: Path) -> None:
    """Damaged when a column is missing, or a trigger that keeps the entries as they are was taken away."""
    lost = _shape_as_made() - shape(database)
    if lost:
        raise Damaged(where, " ".join(min(lost)[:3]))


@cache
def _shape_as_made() -> frozenset[tuple[str, ...]]:
    """The shape of a journal that was made just now, in memory."""
    connection = sqlite3.connect(":memory:", isolation_level=None)
    try:
        fresh = Database(connection, execute_plugins=False, strict=True)
        migrate(fresh)
        return shape(fresh)
    finally:
        connection.close()


def _refuse_read_only(database: Database) -> None:
    """Write and take back, so that a read-only file or folder is told at the start and not at the first act."""
    database.conn.execute("BEGIN IMMEDIATE")
    try:
        database.conn.execute(f"PRAGMA user_version = {FORMAT}")
    finally:
        if database.conn.in_transaction:
            database.conn.execute("ROLLBACK")


def copy_database(database: Database, target: Path) -> None:
    """Copy all pages by SQLite's online backup, which waits for an act that is being written and misses none.

    CannotWrite for whatever goes wrong: trouble with the disk of a copy is none of the record itself.
    """
    try:
        copy = sqlite3.connect(str(target), isolation_level=None)
        try:
            database.conn.backup(copy)
        finally:
            copy.close()
    except sqlite3.Error as error:
        raise CannotWrite(target, str(error)) from error


def number(database: Database, pragma: str) -> int:
    return int(database.execute(f"PRAGMA {pragma}").fetchone()[0])


@contextmanager
def told(where: Path, patience_s: float = PATIENCE_S, doubtful: bool = False) -> Iterator[None]:
    """Turn the library's errors into refusals by result code; what nobody but us can mend is raised as it is.

    ``doubtful`` is for fixed statements on parts that the quick check does not look into (the schema's own words, the
    full-text index): there a plain error is damage.
    """
    try:
        yield
    except UnicodeDecodeError as error:
        # The binding cannot put the library's own message into text when damage has got into a name that it quotes.
        raise Damaged(where, "text that is not UTF-8") from error
    except sqlite3.Error as error:
        refusal = refusal_for(error, where, patience_s, doubtful)
        if refusal is None:
            raise
        raise refusal from error


def refusal_for(
    error: sqlite3.Error, where: Path, patience_s: float = PATIENCE_S, doubtful: bool = False
) -> JournalRefusal | None:
    """The refusal an error of SQLite amounts to; None for a fault of ours."""
    code = getattr(error, "sqlite_errorcode", None)
    name = str(getattr(error, "sqlite_errorname", error))
    if code is None:
        # The binding itself complains without a code when stored text is not UTF-8, or after close().
        if "decode to UTF-8" in str(error):
            return Damaged(where, "text that is not UTF-8")
        return Closed(where) if "closed database" in str(error) else None
    primary = code & 0xFF
    if primary in (_BUSY, _LOCKED):
        return Locked(where, patience_s)
    if primary == _IOERR:
        return DiskError(where, name)
    if primary in (_CORRUPT, _NOTADB) or (doubtful and primary == _ERROR):
        return Damaged(where, name)
    plain = {_FULL: DiskFull, _READONLY: ReadOnly, _PERM: ReadOnly, _CANTOPEN: CannotOpen}.get(primary)
    return plain(where) if plain else None
