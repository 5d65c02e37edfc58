"""A permit of 500 events opened, verified and judged, with the share of each part."""

from __future__ import annotations

from pathlib import Path
from statistics import median

from tests.benchmarks.floors import timed
from tests.stories.lives import DAY_TABLE, in_file

from lamproom.office import replay
from lamproom.office.office import Office
from lamproom.office.shift_table import rows_of
from lamproom.office.take_readings import take_readings
from lamproom.permit.obstacles import obstacles
from lamproom.record.certificates import certificates_of
from lamproom.record.chain import verify_streams


def measure(folder: Path, events: int = 500, rounds: int = 15) -> list[str]:
    """Lines to print: the whole in seconds with its goal, then the parts."""
    shift = in_file(folder)
    replay.set_up(shift)
    for row in rows_of(DAY_TABLE):
        replay.live_row(shift, row)
        if row.act == "go in":
            break
    permit = shift.permits["A"]
    figures = replay.figures_of(next(r for r in rows_of(DAY_TABLE) if r.act == "take readings"), shift.office, permit)
    while shift.office.permit(permit).version < events:
        take_readings(shift.office, permit, "work", "3.6", "07", figures, by="P-02")
    office = shift.office
    parts: dict[str, list[float]] = {"read and fold": [], "verify chain and signatures": [], "judge every rule": []}
    for _ in range(rounds):
        fresh = Office(office.journal, office.clock, office.keys, office.station, office.forms)
        parts["read and fold"].append(timed(lambda fresh=fresh: fresh.permit(permit)))
        parts["verify chain and signatures"].append(timed(lambda: _verify(office, permit)))
        facts = fresh.facts(permit)
        parts["judge every rule"].append(timed(lambda facts=facts: obstacles(facts)))
    medians = {name: median(times) for name, times in parts.items()}
    total = sum(medians.values())
    verdict = "goal met" if total <= 0.2 else "GOAL MISSED"
    lines = [f"a permit of {events} events opened, verified, judged: {total:.3f} s (goal at most 0.2 s)  {verdict}"]
    lines += [f"    {name}: {took * 1000:.1f} ms, {took / total:.0%}" for name, took in medians.items()]
    return lines


def _verify(office: Office, permit: str) -> None:
    flaws = verify_streams(
        (entry.sealed for entry in office.journal.stream(f"permit/{permit}")), certificates_of(office.journal.keys())
    )
    assert not flaws
