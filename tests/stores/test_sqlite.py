"""The SQLite store: durable settings, guard rails, and a sentence for each trouble of file and disk."""

from __future__ import annotations

import os
import random
import shutil
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest
from sqlite_utils import Database
from sqlite_utils.utils import sqlite3  # type: ignore[attr-defined]  # exported there by choice
from tests.record.signing import Pen, page, run

from lamproom.record.certificates import certificates_of
from lamproom.record.chain import verify
from lamproom.record.connection import check_library
from lamproom.record.journal import Entry, Journal
from lamproom.record.migrations import FORMAT, STEPS, migrate
from lamproom.record.opening import is_remote, open_journal, refuse_network
from lamproom.record.refusals import (
    CannotOpen,
    Closed,
    Damaged,
    DiskFull,
    JournalRefusal,
    Locked,
    NewerFormat,
    NotOurs,
    OldLibrary,
    OnNetwork,
    Overtaken,
    PageAltered,
    ReadOnly,
)
from lamproom.record.sqlite import SqliteJournal


def other(file: Path) -> sqlite3.Connection:
    """Another program at the same file, by the same library (two libraries would drop each other's locks)."""
    return sqlite3.connect(str(file), isolation_level=None, timeout=0)


@pytest.mark.parametrize(
    ("pragma", "value"),
    [
        ("journal_mode", "delete"),
        ("synchronous", 3),
        ("foreign_keys", 1),
        ("trusted_schema", 0),
        ("cell_size_check", 1),
        ("recursive_triggers", 1),
        ("busy_timeout", 5000),
    ],
)
def test_settings_hold_after_opening(sqlite: SqliteJournal, pragma: str, value: object) -> None:
    """synchronous = 3 is EXTRA (sqlite.org/pragma.html#pragma_synchronous)."""
    with sqlite._reading() as db:
        assert db.execute(f"PRAGMA {pragma}").fetchone()[0] == value


def test_a_file_that_was_left_in_wal_mode_is_brought_back(file: Path) -> None:
    SqliteJournal(file).close()
    other(file).execute("PRAGMA journal_mode = WAL").fetchone()
    journal = SqliteJournal(file)
    with journal._reading() as db:
        assert db.execute("PRAGMA journal_mode").fetchone()[0] == "delete"
    journal.close()


def test_all_tables_of_ours_are_strict(sqlite: SqliteJournal) -> None:
    with sqlite._reading() as db:
        tables = db.execute("SELECT name, strict FROM pragma_table_list WHERE type = 'table' AND schema = 'main'")
        loose = {name for name, strict in tables.fetchall() if not strict}
    assert loose == {"sqlite_schema"}


def test_an_old_library_is_refused() -> None:
    """3.51.3 is the first without the WAL reset race (sqlite.org/wal.html)."""
    check_library("3.51.3")
    check_library("3.100.0")
    for old in ("3.51.2", "3.40.1"):
        with pytest.raises(OldLibrary, match=f"version {old}; a record needs 3.51.3 or newer"):
            check_library(old)


@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE events SET body = x'00'",
        "UPDATE events SET chain = chain",
        "DELETE FROM events",
        "DELETE FROM events WHERE number = 1",
        "UPDATE files SET name = 'x'",
        "DELETE FROM files",
        "INSERT OR REPLACE INTO events SELECT * FROM events WHERE number = 1",
        "REPLACE INTO files SELECT * FROM files",
        "INSERT INTO events SELECT number + 2, stream, version + 2, kind, kind_version, act, body, hash, signature, "
        "key, chain FROM events WHERE number = 2",
    ],
)
def test_triggers_refuse_to_change_what_is_recorded(sqlite: SqliteJournal, pen: Pen, sql: str) -> None:
    sqlite.append(run(pen, 2, act="a-1"), [page()])
    before = list(sqlite.entries())
    with pytest.raises(sqlite3.IntegrityError), sqlite._writing() as db:
        db.execute(sql)
    assert list(sqlite.entries()) == before
    assert sqlite.file(page().sha256) == page()


def test_what_was_stored_is_there_after_closing_and_opening(file: Path, pen: Pen) -> None:
    journal = SqliteJournal(file)
    journal.append(run(pen, 3, act="a-1"))
    before = list(journal.entries())
    journal.close()
    journal.close()
    again = SqliteJournal(file)
    assert list(again.entries()) == before
    again.close()


def test_a_closed_journal_says_so(sqlite: SqliteJournal) -> None:
    sqlite.close()
    with pytest.raises(Closed, match="nothing more is stored"):
        sqlite.head()


def test_two_writers_make_one_chain_and_the_loser_is_told(file: Path, pen: Pen) -> None:
    first, second = SqliteJournal(file), SqliteJournal(file)
    first.append(run(pen, 1))
    with pytest.raises(Overtaken):
        second.append(run(pen, 1, act="other"))
    second.append(run(pen, 1, "instrument/7"))
    assert verify(first.entries(), certificates_of([pen.row()])) == []
    assert first.head() == second.head()
    first.close()
    second.close()


def test_a_locked_record_is_told_and_the_act_can_be_repeated(file: Path, pen: Pen) -> None:
    journal = SqliteJournal(file, patience_s=0.05)
    holder = other(file)
    holder.execute("BEGIN IMMEDIATE")
    with pytest.raises(Locked) as refused:
        journal.append(run(pen, 1))
    assert "busy for 0.05 seconds" in str(refused.value)
    holder.execute("ROLLBACK")
    assert len(journal.append(run(pen, 1))) == 1
    holder.close()
    journal.close()


def test_a_reader_that_holds_up_the_commit_leaves_nothing_half_done(file: Path, pen: Pen) -> None:
    journal = SqliteJournal(file, patience_s=0.05)
    reader = other(file)
    reader.execute("BEGIN")
    reader.execute("SELECT count(*) FROM events").fetchone()
    with pytest.raises(Locked):
        journal.append(run(pen, 1))
    reader.execute("ROLLBACK")
    assert journal.head().number == 0
    assert len(journal.append(run(pen, 1))) == 1
    reader.close()
    journal.close()


def test_a_full_disk_is_told_and_nothing_is_stored(sqlite: SqliteJournal, pen: Pen) -> None:
    """SQLITE_FULL is raised by SQLite itself, at a limit of pages instead of the disk's."""
    with sqlite._reading() as db:
        pages = db.execute("PRAGMA page_count").fetchone()[0]
        db.execute(f"PRAGMA max_page_count = {pages}").fetchone()
    with pytest.raises(DiskFull) as refused:
        sqlite.append(run(pen, 1, data={"note": "x" * 100_000}))
    assert "is full. Free some space and try again. Until then use paper." in str(refused.value)
    assert sqlite.head().number == 0
    assert len(sqlite.append(run(pen, 1))) == 1


_CHILD = """
    import resource, sys
    from pathlib import Path
    from lamproom.record.sqlite import SqliteJournal
    from lamproom.words import Refusal
    from tests.record.signing import Pen, page, run

    journal = SqliteJournal(Path(sys.argv[1]))
    pen = Pen()
    journal.append(run(pen, 1))
    size = Path(sys.argv[1]).stat().st_size
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))
    for events in (run(pen, 1, "permit/2", data={"note": "x" * 100_000}), run(pen, 1, "permit/3")):
        try:
            journal.append(events)
            print("stored")
        except Refusal as refused:
            print(type(refused).__name__, refused)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no limit on the size of files")
def test_after_a_disk_error_the_journal_closes_and_refuses(file: Path) -> None:
    """A write past the limit of file size fails with EFBIG, which SQLite tells as an I/O error."""
    lines = _run(_CHILD, str(file)).splitlines()
    assert lines[0].startswith("DiskError The disk failed at ")
    assert "Whether the last act was recorded is not known, so the record is closed. Entry is not allowed" in lines[0]
    assert lines[1].startswith("Closed ")
    again = SqliteJournal(file)
    assert again.head().number == 1
    again.close()


def test_a_record_that_was_made_read_only_is_told(sqlite: SqliteJournal, pen: Pen) -> None:
    with sqlite._reading() as db:
        db.execute("PRAGMA query_only = ON")
    with pytest.raises(ReadOnly, match="cannot be written to"):
        sqlite.append(run(pen, 1))


_OPEN = """
    import os, sys
    from pathlib import Path
    from lamproom.record.opening import open_journal
    from lamproom.words import Refusal
    if os.getuid() == 0:
        os.setgid(65534)
        os.setuid(65534)
    try:
        open_journal(Path(sys.argv[1]))
        print("opened")
    except Refusal as refused:
        print(type(refused).__name__, refused)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="modes of folders are another matter there")
@pytest.mark.parametrize(("folder_mode", "file_mode"), [(0o555, 0o666), (0o777, 0o444), (0o555, 0o444)])
def test_a_read_only_folder_or_file_is_told_at_the_start(tmp_path: Path, folder_mode: int, file_mode: int) -> None:
    site = tmp_path / "site"
    open_journal(site).close()
    for above in (tmp_path, *list(tmp_path.parents)[:3]):  # with several workers there is one folder more
        if not above.stat().st_mode & 0o001:
            above.chmod(above.stat().st_mode | 0o011)
    (site / "site.lamproom").chmod(file_mode)
    site.chmod(folder_mode)
    told = _run(_OPEN, str(site))
    site.chmod(0o755)
    assert told.startswith(("ReadOnly Not recorded", "CannotOpen ")), told
    assert "Until then use paper." in told


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "note").write_text("a file, no folder")
    with pytest.raises(CannotOpen, match="cannot be opened"):
        open_journal(tmp_path / "note" / "site")


def test_a_newer_format_is_refused_and_left_as_it_is(file: Path) -> None:
    SqliteJournal(file).close()
    other(file).execute("PRAGMA user_version = 99")
    before = file.read_bytes()
    with pytest.raises(NewerFormat) as refused:
        SqliteJournal(file)
    assert f"it has format 99, this one reads up to {FORMAT}" in str(refused.value)
    assert file.read_bytes() == before


def test_a_database_of_another_program_is_refused_and_left_as_it_is(file: Path) -> None:
    stranger = other(file)
    stranger.execute("CREATE TABLE recipes (name)")
    stranger.close()
    before = file.read_bytes()
    with pytest.raises(NotOurs, match="database of another program"):
        SqliteJournal(file)
    assert file.read_bytes() == before


def test_a_file_that_is_no_database_is_refused_and_left_as_it_is(file: Path) -> None:
    file.write_bytes(b"this is a shopping list\n" * 100)
    with pytest.raises(Damaged) as refused:
        SqliteJournal(file)
    assert "Keep the file as it is, and restore the newest backup into another folder." in str(refused.value)
    assert file.read_bytes() == b"this is a shopping list\n" * 100


def test_a_file_cut_at_any_page_is_refused_or_reported(file: Path, pen: Pen) -> None:
    journal = SqliteJournal(file)
    journal.append(run(pen, 40, act="a-1"))
    head = journal.head()
    journal.close()
    whole = file.read_bytes()
    for length in range(1024, len(whole), 1024):
        file.write_bytes(whole[:length])
        with pytest.raises(Damaged):
            _read_through(file, pen)
    file.write_bytes(whole)
    assert _read_through(file, pen) == head.number


def _read_through(file: Path, pen: Pen) -> int:
    journal = SqliteJournal(file)
    try:
        assert verify(journal.entries(), certificates_of([pen.row()])) == []
        return journal.head().number
    finally:
        journal.close()


def test_a_changed_page_is_not_handed_out(file: Path, pen: Pen) -> None:
    journal = SqliteJournal(file)
    journal.append(run(pen, 1), [page()])
    journal.close()
    file.write_bytes(file.read_bytes().replace(b"%PDF- invented", b"%PDF- Invented"))
    again = SqliteJournal(file)
    with pytest.raises(PageAltered, match=r"permit 1 authorised\.pdf"):
        again.file(page().sha256)
    again.close()


def test_each_step_is_recorded_and_done_once(file: Path) -> None:
    journal = SqliteJournal(file)
    with journal._reading() as db:
        rows = db.execute("SELECT number, name FROM migrations ORDER BY number").fetchall()
        assert rows == [(number, name) for number, (name, _) in enumerate(STEPS, 1)]
        assert migrate(db) == ()
    journal.close()


def test_a_step_that_fails_leaves_the_format_before_it(sqlite: SqliteJournal) -> None:
    def broken(db: Database) -> None:
        db.create_table("half_done", {"name": str})
        raise ZeroDivisionError

    with sqlite._reading() as db:
        with pytest.raises(ZeroDivisionError):
            migrate(db, (*STEPS, ("broken", broken)))
        assert db.execute("PRAGMA user_version").fetchone()[0] == FORMAT
        assert "half_done" not in db.table_names()
    sqlite.put_setting("still", "written")


def test_opening_makes_the_folder_and_its_file(tmp_path: Path) -> None:
    journal: Journal = open_journal(tmp_path / "new" / "site")
    journal.close()
    assert [f.name for f in (tmp_path / "new" / "site").iterdir()] == ["site.lamproom"]


_MOUNTS = textwrap.dedent(
    r"""
    /dev/sda2 / ext4 rw,relatime 0 0
    proc /proc proc rw 0 0
    server:/export /srv/share nfs4 rw,vers=4.2 0 0
    //server/site /mnt/site\040files cifs rw 0 0
    me@host: /srv/people/me/remote fuse.sshfs rw 0 0
    /dev/sdb1 /srv/share/local ext4 rw 0 0
    host /mnt/plan 9p rw 0 0
    /dev/sdc1 /media/stick fuseblk rw 0 0
    gocryptfs /srv/people/me/vault fuse.gocryptfs rw 0 0
    /dev/sdd1 /mnt/over ext4 rw 0 0
    server:/x /mnt/over nfs rw 0 0
    """
)


@pytest.mark.parametrize(
    ("path", "type"),
    [
        ("/srv/people/me/site", None),
        ("/srv/share/site", "nfs4"),
        ("/srv/share", "nfs4"),
        ("/srv/shared/site", None),
        ("/srv/share/local/site", None),
        ("/mnt/site files/a", "cifs"),
        ("/srv/people/me/remote/a/b", "fuse.sshfs"),
        ("/mnt/plan/a", "9p"),
        ("/media/stick/a", None),
        ("/srv/people/me/vault/a", None),
        ("/mnt/over/a", "nfs"),
    ],
)
def test_network_folders_are_known_by_the_mount_table(path: str, type: str | None) -> None:
    """The format of /proc/mounts: proc_pid_mounts(5) and fstab(5)."""
    assert is_remote(Path(path), _MOUNTS) == type


def test_a_network_folder_is_refused_with_its_type(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lamproom.record.opening.is_remote", lambda path, mounts: "nfs4")
    with pytest.raises(OnNetwork, match=r"network folder \(nfs4\).*a disk of this computer"):
        refuse_network(tmp_path)
    with pytest.raises(OnNetwork):
        open_journal(tmp_path / "site")
    assert not (tmp_path / "site").exists()


def _run(program: str, *arguments: str) -> str:
    root = Path(__file__).parents[2]
    done = subprocess.run(
        [sys.executable, "-c", textwrap.dedent(program), *arguments],
        cwd=root,
        env={**os.environ, "PYTHONPATH": os.pathsep.join((str(root), os.environ.get("PYTHONPATH", "")))},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_a_copy_of_a_record_opens_elsewhere(file: Path, pen: Pen, tmp_path: Path) -> None:
    journal = SqliteJournal(file)
    journal.append(run(pen, 1))
    journal.close()
    shutil.copy(file, tmp_path / "elsewhere.lamproom")
    assert _read_through(tmp_path / "elsewhere.lamproom", pen) == 1


def test_a_record_without_its_guard_rails_is_refused(file: Path) -> None:
    SqliteJournal(file).close()
    other(file).execute("DROP TRIGGER events_never_delete")
    with pytest.raises(Damaged, match="trigger events_never_delete"):
        SqliteJournal(file)


@pytest.mark.parametrize("count", [400, pytest.param(20_000, marks=pytest.mark.full)])
def test_a_changed_byte_of_the_file_never_passes_as_another_record(file: Path, pen: Pen, count: int) -> None:
    """Many bytes of a database hold no entry, and their change is not seen; but no changed entry gets through."""
    journal = SqliteJournal(file)
    journal.put_key(pen.row())
    journal.append(run(pen, 6, act="a-1"), [page()])
    journal.put_words("permit/1", "wet well")
    stored = list(journal.entries())
    journal.close()
    whole, chance, seen = file.read_bytes(), random.Random(11), 0
    for _ in range(count):
        at, change = chance.randrange(len(whole)), chance.randrange(1, 256)
        file.write_bytes(bytes([*whole[:at], whole[at] ^ change, *whole[at + 1 :]]))
        found = _reads_as(file, pen)
        assert found in (None, stored), f"byte {at} was changed by {change}, and the record reads otherwise"
        seen += found is None
    assert seen > count // 20


def _reads_as(file: Path, pen: Pen) -> list[Entry] | None:
    """The entries of a journal in which nothing is found wrong; None when it is refused or has a flaw."""
    try:
        journal = SqliteJournal(file)
    except JournalRefusal:
        return None
    try:
        entries = list(journal.entries())
        for sha256 in journal.files():
            journal.file(sha256)
        journal.find("wet")
        return None if verify(entries, certificates_of([pen.row()])) else entries
    except (JournalRefusal, PageAltered):
        return None
    finally:
        journal.close()
