"""Backups: a copy of the whole record under a new name, read back and checked before it counts as one.

Copying the file itself is no backup: it can miss an act that is being written.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from lamproom.record.certificates import certificates_of
from lamproom.record.chain import verify
from lamproom.record.durable import written_new
from lamproom.record.journal import Head
from lamproom.record.refusals import BackupFailed, CannotWrite, JournalRefusal
from lamproom.record.sqlite import SqliteJournal
from lamproom.words import Sentence, sentence


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup that was read back: where it lies, and the head it reaches (a witness against a cut record)."""

    where: Path
    head: Head


def back_up(journal: SqliteJournal, target: Path) -> Backup:
    """Copy the journal to ``target``, which must be a new name, and check the copy entry by entry.

    Exists, CannotWrite, DiskFull and the like when the copy cannot be written; BackupFailed, and no file, when what was
    written does not read back as a whole record that reaches the journal's head.
    """
    with written_new(target) as part:
        wanted = journal.head()
        try:
            journal.copy_into(part)
        except CannotWrite as refusal:
            raise CannotWrite(target, refusal.cause) from refusal
        head = _read_back(part, target, wanted)
    return Backup(target, head)


def _read_back(part: Path, target: Path, wanted: Head) -> Head:
    try:
        copy = SqliteJournal(part)
    except JournalRefusal as refusal:
        raise BackupFailed(target, refusal.why) from refusal
    try:
        flaws = verify(copy.entries(), certificates_of(copy.keys()))
        if flaws:
            raise BackupFailed(target, flaws[0].why)
        head = copy.head()
    finally:
        copy.close()
    if head.number < wanted.number:
        raise BackupFailed(target, _short(head, wanted))
    return head


def _short(head: Head, wanted: Head) -> Sentence:
    return sentence("record.backup_short", found=head.number, wanted=wanted.number)
