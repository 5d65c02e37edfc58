"""Every system call that an act writes with is made to fail, or to be the last one, in turn."""

from __future__ import annotations

import shutil
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest
from tests.record.signing import Pen, run

from lamproom.record.certificates import certificates_of
from lamproom.record.chain import verify
from lamproom.record.sqlite import SqliteJournal

_STRACE = shutil.which("strace")


def _may_trace() -> bool:
    return _STRACE is not None and subprocess.run([_STRACE, "true"], capture_output=True, check=False).returncode == 0


pytestmark = [
    pytest.mark.full,
    pytest.mark.skipif(not _may_trace(), reason="needs strace and the right to trace"),
]

# Prints each act once it is acknowledged, and the name of each refusal. A withdrawal after a failure is tried once.
_WRITER = """
    import sys
    from pathlib import Path
    from lamproom.record.sqlite import SqliteJournal
    from lamproom.words import Refusal
    from tests.record.signing import Pen, page, run
    try:
        journal = SqliteJournal(Path(sys.argv[1]))
    except Refusal as refused:
        sys.exit(print(type(refused).__name__))
    pen = Pen()
    for number in (2, 3):
        try:
            journal.append(run(pen, 2, f"permit/{number}", act=f"a-{number}"), [page(str(number).encode())])
            print("stored", number, flush=True)
        except Refusal as refused:
            print(type(refused).__name__, flush=True)
"""


@pytest.fixture
def begun(tmp_path: Path) -> Path:
    journal = SqliteJournal(tmp_path / "begun.lamproom")
    journal.append(run(Pen(), 3, "permit/1", act="a-1"))
    journal.close()
    return tmp_path / "begun.lamproom"


def _write(begun: Path, where: Path, inject: str) -> list[str]:
    """What the writer said while ``inject`` (see strace(1), syscall tampering) hit its calls on the journal's files."""
    where.unlink(missing_ok=True)
    journal = where.with_name(where.name + "-journal")
    journal.unlink(missing_ok=True)
    shutil.copy(begun, where)
    assert _STRACE is not None
    done = subprocess.run(
        [
            *(_STRACE, "-f", "-qq", "-o", "/dev/null", "-P", str(where), "-P", str(journal), "-e", f"inject={inject}"),
            *(sys.executable, "-c", textwrap.dedent(_WRITER), str(where)),
        ],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        check=False,
    )
    assert "Traceback" not in done.stderr or "KILL" in inject, done.stderr
    return done.stdout.splitlines()


def _look(where: Path, said: list[str]) -> None:
    """Everything that was acknowledged is there and whole, nothing is half there, and the chain holds."""
    journal = SqliteJournal(where)
    try:
        assert len(journal.act("a-1")) == 3
        for number in (2, 3):
            stored = len(journal.act(f"a-{number}"))
            assert stored in (0, 2)
            assert stored == 2 or f"stored {number}" not in said
            assert len(journal.files()) == sum(1 for n in (2, 3) if journal.act(f"a-{n}"))
        assert not [flaw for flaw in verify(journal.entries(), certificates_of(())) if flaw.why.id != "record.flaw.key"]
    finally:
        journal.close()


@pytest.mark.parametrize("call", ["pwrite64", "fsync,fdatasync", "unlink", "openat"])
def test_killed_at_any_call_an_acknowledged_act_is_there(begun: Path, tmp_path: Path, call: str) -> None:
    where, hits = tmp_path / "site.lamproom", 0
    for number in range(1, 200):
        said = _write(begun, where, f"{call}:signal=KILL:when={number}")
        _look(where, said)
        if said == ["stored 2", "stored 3"]:
            break
        hits += 1
    assert hits < 198, "the writer never came through"


@pytest.mark.parametrize(
    ("call", "error", "refusals"),
    [
        ("pwrite64", "ENOSPC", {"DiskFull", "DiskError", "Closed"}),
        ("pwrite64", "EIO", {"DiskError", "Closed"}),
        ("fsync,fdatasync", "EIO", {"DiskError", "Closed"}),  # builds of SQLite use the one or the other
    ],
)
def test_a_call_that_fails_is_told_and_nothing_false_is_acknowledged(
    begun: Path, tmp_path: Path, call: str, error: str, refusals: set[str]
) -> None:
    where, met = tmp_path / "site.lamproom", set()
    for number in range(1, 200):
        said = _write(begun, where, f"{call}:error={error}:when={number}")
        _look(where, said)
        if said == ["stored 2", "stored 3"]:
            break
        met |= {word for word in said if not word.startswith("stored")}
        if "DiskError" in said:
            assert "stored" not in " ".join(said[said.index("DiskError") :]), "the journal went on after a disk error"
    assert met
    assert met <= refusals
