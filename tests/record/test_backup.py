"""A backup is a copy that was read back; anything else is refused and leaves nothing behind."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.record.signing import Pen, page, run

from lamproom.record.backup import back_up
from lamproom.record.durable import written_new
from lamproom.record.refusals import BackupFailed, CannotWrite, Exists
from lamproom.record.sqlite import SqliteJournal


@pytest.fixture
def journal(tmp_path: Path, pen: Pen) -> Iterator[SqliteJournal]:
    journal = SqliteJournal(tmp_path / "site.lamproom")
    journal.put_key(pen.row())
    for event in run(pen, 5):
        journal.append([event], [page()])
    journal.put_draft("permit/1", "work", "half-ty")
    yield journal
    journal.close()


def test_a_backup_holds_all_and_tells_its_head(journal: SqliteJournal, tmp_path: Path) -> None:
    made = back_up(journal, tmp_path / "copies" / "monday.lamproom")
    assert made.head == journal.head()
    copy = SqliteJournal(made.where)
    assert list(copy.entries()) == list(journal.entries())
    assert copy.file(page().sha256) == page()
    assert copy.drafts("permit/1") == {"work": "half-ty"}
    copy.close()
    assert os.listdir(tmp_path / "copies") == ["monday.lamproom"]


def test_a_backup_never_writes_over_another(journal: SqliteJournal, tmp_path: Path) -> None:
    target = tmp_path / "monday.lamproom"
    target.write_text("older")
    with pytest.raises(Exists, match="already exists"):
        back_up(journal, target)
    assert target.read_text() == "older"


def test_a_backup_whose_entries_do_not_verify_is_removed(journal: SqliteJournal, pen: Pen, tmp_path: Path) -> None:
    journal.append(run(Pen(), 1, "permit/2"))
    with pytest.raises(BackupFailed) as refused:
        back_up(journal, tmp_path / "copies" / "monday.lamproom")
    assert "permit/2, entry 1 is signed with a key this site does not know" in str(refused.value)
    assert os.listdir(tmp_path / "copies") == []


def test_a_copy_that_lags_behind_is_no_backup(
    journal: SqliteJournal, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = tmp_path / "old.lamproom"
    journal.copy_into(old)
    journal.append(run(Pen(), 1, "permit/2"))
    monkeypatch.setattr(journal, "copy_into", lambda target: target.write_bytes(old.read_bytes()))
    with pytest.raises(BackupFailed, match="ends at entry 5 instead of 6"):
        back_up(journal, tmp_path / "monday.lamproom")


def test_a_copy_that_was_torn_is_no_backup(
    journal: SqliteJournal, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = tmp_path / "whole.lamproom"
    journal.copy_into(whole)
    monkeypatch.setattr(journal, "copy_into", lambda target: target.write_bytes(whole.read_bytes()[:20_000]))
    with pytest.raises(BackupFailed, match="does not read back as it was written"):
        back_up(journal, tmp_path / "monday.lamproom")
    assert not (tmp_path / "monday.lamproom").exists()


def test_a_place_that_cannot_be_written_is_told(journal: SqliteJournal, tmp_path: Path) -> None:
    (tmp_path / "note").write_text("a file")
    with pytest.raises(CannotWrite, match="cannot be written"):
        back_up(journal, tmp_path / "note" / "monday.lamproom")


def test_nothing_half_written_takes_the_name(tmp_path: Path) -> None:
    with pytest.raises(ZeroDivisionError), written_new(tmp_path / "page.pdf") as part:
        part.write_bytes(b"half")
        raise ZeroDivisionError
    assert os.listdir(tmp_path) == []


def test_a_name_taken_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    with pytest.raises(Exists), written_new(tmp_path / "page.pdf") as part:
        part.write_bytes(b"mine")
        (tmp_path / "page.pdf").write_bytes(b"theirs")
    assert (tmp_path / "page.pdf").read_bytes() == b"theirs"
    assert os.listdir(tmp_path) == ["page.pdf"]


def test_a_full_stick_is_told_and_leaves_the_record_open(
    journal: SqliteJournal, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The stick's trouble is not the record's: after a failed copy the next act is stored all the same."""
    resource = pytest.importorskip("resource")
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (8192, before[1]))
    try:
        with pytest.raises(CannotWrite) as refused:
            back_up(journal, tmp_path / "copies" / "monday.lamproom")
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert str(tmp_path / "copies" / "monday.lamproom") in str(refused.value)
    assert ".part" not in str(refused.value)
    assert os.listdir(tmp_path / "copies") == []
    journal.put_setting("still", "written")
