"""Why the journal refuses: one class for each sentence, built from the facts, so that callers can tell them apart."""

from __future__ import annotations

from pathlib import Path

from lamproom.words import Refusal, Sentence, sentence


class Overtaken(Refusal):
    """Someone else wrote to the stream after the caller read it. Nothing was stored."""

    def __init__(self, stream: str, seen: int, now: int) -> None:
        super().__init__(sentence("record.overtaken", stream=stream, seen=seen, now=now))
        self.stream, self.seen, self.now = stream, seen, now


class RepeatedOtherwise(Refusal):
    """The act's id is already stored, but with other streams or kinds. Nothing was stored."""

    def __init__(self, act: str) -> None:
        super().__init__(sentence("record.repeated_otherwise", act=act))


class Unreadable(Refusal):
    """Bytes that should be an event are not."""

    def __init__(self, cause: Sentence) -> None:
        super().__init__(sentence("record.unreadable", cause=cause))


class UnusableCertificate(Refusal):
    """A certificate that cannot check our signatures."""

    def __init__(self) -> None:
        super().__init__(sentence("record.certificate"))


class JournalRefusal(Refusal):
    """Trouble with the journal's file or the disk it lies on; ``where`` is the file."""

    def __init__(self, id: str, where: Path, /, **values: str | int | Sentence) -> None:
        super().__init__(sentence(id, where=str(where), **values))
        self.where = where


class DiskFull(JournalRefusal):
    def __init__(self, where: Path) -> None:
        super().__init__("record.disk_full", where)


class Locked(JournalRefusal):
    def __init__(self, where: Path, seconds: float) -> None:
        super().__init__("record.locked", where, seconds=f"{seconds:g}")


class ReadOnly(JournalRefusal):
    def __init__(self, where: Path) -> None:
        super().__init__("record.read_only", where)


class CannotOpen(JournalRefusal):
    def __init__(self, where: Path) -> None:
        super().__init__("record.cannot_open", where)


class DiskError(JournalRefusal):
    """Read, write or sync failed. A second try could report success with the data gone, so the journal closes."""

    def __init__(self, where: Path, cause: str) -> None:
        super().__init__("record.disk_error", where, cause=cause)


class Closed(JournalRefusal):
    def __init__(self, where: Path) -> None:
        super().__init__("record.closed", where)


class Damaged(JournalRefusal):
    def __init__(self, where: Path, cause: str) -> None:
        super().__init__("record.damaged", where, cause=cause)


class NotOurs(JournalRefusal):
    def __init__(self, where: Path) -> None:
        super().__init__("record.not_ours", where)


class NewerFormat(JournalRefusal):
    def __init__(self, where: Path, found: int, known: int) -> None:
        super().__init__("record.newer", where, found=found, known=known)


class OnNetwork(JournalRefusal):
    def __init__(self, where: Path, type: str) -> None:
        super().__init__("record.remote", where, type=type)


class SettingNotHeld(JournalRefusal):
    def __init__(self, where: Path, name: str, found: str, wanted: str) -> None:
        super().__init__("record.setting_not_held", where, name=name, found=found, wanted=wanted)


class Exists(JournalRefusal):
    """A backup or an export never writes over anything."""

    def __init__(self, where: Path) -> None:
        super().__init__("record.exists", where)


class CannotWrite(JournalRefusal):
    def __init__(self, where: Path, cause: str) -> None:
        super().__init__("record.cannot_write", where, cause=cause)
        self.cause = cause


class BackupFailed(JournalRefusal):
    def __init__(self, where: Path, cause: Sentence | str) -> None:
        super().__init__("record.backup_failed", where, cause=cause)


class NotAnExport(JournalRefusal):
    def __init__(self, where: Path, cause: Sentence) -> None:
        super().__init__("record.not_an_export", where, cause=cause)


class OldLibrary(Refusal):
    def __init__(self, found: str, needed: str) -> None:
        super().__init__(sentence("record.old_library", found=found, needed=needed))


class PageAltered(Refusal):
    def __init__(self, name: str) -> None:
        super().__init__(sentence("record.page_altered", name=name))
