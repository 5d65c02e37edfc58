"""Kill a writer at random moments and look at what it left: ``python -m tests.stores.kills 200``.

The child appends acts and tells each over a pipe only after ``append`` returned. The parent kills it with SIGKILL,
opens the journal and compares: every act told must be there, no act may be half there, the chain must hold.
This shows what a kill does, not what a power cut does: the system's cache survives a kill.
"""

from __future__ import annotations

import os
import random
import signal
import sys
import tempfile
from pathlib import Path

from tests.record.signing import Pen, envelope, page

from lamproom.record.certificates import certificates_of
from lamproom.record.chain import verify
from lamproom.record.envelope import seal
from lamproom.record.journal import Head
from lamproom.record.sqlite import SqliteJournal

EVENTS_IN_AN_ACT = 3


def write_until_killed(where: Path, pen: Pen, told: int) -> None:
    """Append acts of three events and a page for ever; write each act's id to ``told`` once it is acknowledged."""
    journal = SqliteJournal(where)
    while True:
        version, previous = journal.tail("permit/1")
        act = f"act-{version}"
        events = []
        for step in range(1, EVENTS_IN_AN_ACT + 1):
            events.append(seal(envelope("permit/1", version + step, previous, act=act), pen))
            previous = events[-1].hash
        journal.append(events, [page(act.encode())])
        os.write(told, f"{act}\n".encode())


def kill_once(where: Path, pen: Pen, after_s: float) -> list[str]:
    """The acts a writer acknowledged before it was killed ``after_s`` seconds after its first one."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(reading)
            write_until_killed(where, pen, writing)
        finally:
            os._exit(3)  # a writer never ends by itself
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        first = pipe.readline()
        signal.sigtimedwait([], after_s)  # sleeps without a clock of our own
        os.kill(child, signal.SIGKILL)
        rest = pipe.read()
    _, status = os.waitpid(child, 0)
    if not os.WIFSIGNALED(status):
        raise AssertionError("the writer ended by itself")
    return (first + rest).decode().split()


def look_at(where: Path, pen: Pen, acknowledged: list[str], before: Head) -> Head:
    """The journal's head after a kill. AssertionError names an act that is lost or half there, or a flaw."""
    journal = SqliteJournal(where)
    for act in acknowledged:
        if len(journal.act(act)) != EVENTS_IN_AN_ACT or journal.file(page(act.encode()).sha256) is None:
            raise AssertionError(f"{act} was acknowledged and is not whole")
    new = list(journal.entries(after=before.number))
    if len(new) % EVENTS_IN_AN_ACT:
        raise AssertionError("half an act is stored")
    tail = journal.stream("permit/1", after=before.number - 1)[:1] if before.number else ()
    tails = {"permit/1": (tail[0].sealed.version, tail[0].sealed.hash)} if tail else {}
    flaws = verify(new, certificates_of([pen.row()]), after=before, tails=tails)
    if flaws:
        raise AssertionError(str(flaws[0].why))
    head = journal.head()
    journal.close()
    return head


def kills(count: int, folder: Path, seed: int = 1) -> tuple[int, int]:
    """Kill ``count`` writers one after the other on one journal; events acknowledged and events stored."""
    chance, pen = random.Random(seed), Pen()
    where, head, acknowledged = folder / "site.lamproom", Head(0, bytes(32)), 0
    for _ in range(count):
        acts = kill_once(where, pen, chance.uniform(0.0, 0.06))
        acknowledged += len(acts) * EVENTS_IN_AN_ACT
        head = look_at(where, pen, acts, head)
    journal = SqliteJournal(where)
    flaws = verify(journal.entries(), certificates_of([pen.row()]))
    journal.close()
    if flaws:
        raise AssertionError(str(flaws[0].why))
    return acknowledged, head.number


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 50
    with tempfile.TemporaryDirectory() as folder:
        acknowledged, stored = kills(count, Path(folder))
    sys.stdout.write(f"{count} kills: {acknowledged} events acknowledged, {stored} stored, none lost, chain whole\n")


if __name__ == "__main__":
    main()
