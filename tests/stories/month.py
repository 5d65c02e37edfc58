"""A month of ordinary shifts: permits that differ in space, crew, hours, breaks and slips, lived through the office.

Everything is invented, drawn from a seed: the same seed gives the same month. Nothing in it is an emergency, so that
every refusal is a false stop, and every prompt or loud alarm a nuisance that is counted.
"""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

from tests.stories.lives import in_memory

from lamproom.air.sampling import verification_points
from lamproom.office import replay
from lamproom.office.demo import FIXED_DAY
from lamproom.office.shift_table import rows_of
from lamproom.office.views.watch_air import echo
from lamproom.office.views.watch_alarms import alarms
from lamproom.permit.obstacles import Stage, barring, obstacles

GASES = ("oxygen", "flammable", "hydrogen-sulfide", "carbon-monoxide")
DEPTHS = ("5.6", "3.4", "2.4", "4.2", "7.0", "3.0")


@dataclass(slots=True)
class Month:
    """What was lived and what was counted."""

    shift: replay.Shift
    permits: int = 0
    readings: int = 0
    prompts: list[str] = field(default_factory=list)
    loud: list[str] = field(default_factory=list)
    entry_hours: float = 0.0
    cleared: list[str] = field(default_factory=list)
    """Obstacles that went away although nothing happened in the world."""
    stood: dict[str, int] = field(default_factory=dict)
    """Codes that barred the next act at its time, with how often; none on an ordinary day."""


def spaces(site: Any) -> Any:
    """The invented site with four more spaces: a vault, a manhole, a tank and a dry pit, made like its own."""
    site = deepcopy(site)
    pattern = next(space for space in site["spaces"] if space["id"] == "S-01")
    for index, (id, name, shape) in enumerate(
        (("S-11", "Valve vault 3", "vault"), ("S-12", "Manhole 40", "vertical-shaft"),
         ("S-13", "Backwash tank", "vertical-tank"), ("S-14", "Meter pit 7", "vault"))
    ):  # fmt: skip
        one = deepcopy(pattern)
        one["id"] = id
        one["registered"] |= {
            "name": name,
            "shape": shape,
            "depth_m": DEPTHS[index + 1],
            "contents": "dry",
            "engulfment_possible": False,
        }
        one["evaluated"] |= {"isolation": [], "unisolable": None, "retest_points_m": ["1.8"]}
        del one["evaluated"]["unisolable"]
        one["evaluated"]["hazards"] = [h for h in one["evaluated"]["hazards"] if h["id"] not in ("inflow", "pumps")]
        site["spaces"].append(one)
    return site


def table(day: int, chance: Random) -> str:
    """One day as a table: the bench in the morning, then three permits one after the other."""
    rows: list[str] = ["#"] * (day * 400)
    rows += _bench()
    for letter, begins in (("A", 7 * 60), ("B", 10 * 60 + 20), ("C", 13 * 60 + 40)):
        rows += _Permit(f"{letter}{day}", begins, chance).rows()
    return "\n".join(rows)


def _at(minutes: float) -> str:
    seconds = round(minutes * 60)
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"


def _bench() -> Iterator[str]:
    for minute, id in ((385, "07"), (397, "11")):
        pump = "; block-s: 4" if id == "07" else ""
        yield (
            f"{_at(minute)} | Nia | check before use | instrument: {id}; self-test: yes; heard: yes; seen: yes; "
            f"felt: yes; display: yes; housing: yes; set-points: yes{pump}; battery-h: 14; place: yard gate;"
            " why-clean: upwind of the station, no engine running; before: 20.9; after: 20.9; beside-portal: no"
        )
        yield (
            f"{_at(minute + 6)} | Nia | bump test | instrument: {id}; check: calibration; cylinder: C 118; "
            "oxygen: 18.1 in 9; flammable: 49 in 14; hydrogen-sulfide: 24 in 22; carbon-monoxide: 98 in 19"
        )


@dataclass(slots=True)
class _Permit:
    """One ordinary permit as rows; ``now`` is the minute of the day."""

    letter: str
    now: float
    chance: Random
    told: list[str] = field(default_factory=list)

    def row(self, who: str, act: str, after: float = 0.3, **how: str) -> None:
        self.now += after
        details = "; ".join(f"{k.replace('_', '-')}: {v}" for k, v in {"permit": self.letter, **how}.items())
        self.told.append(f"{_at(self.now)} | {who} | {act} | {details}")

    def read(self, who: str, phase: str, after: float, depth: str = "", held: bool = False) -> None:
        chance = self.chance
        figures = {
            "oxygen": chance.choice(("20.9", "20.9", "20.9", "20.8", "20.8", "20.7")),
            "flammable": chance.choice(("0", "0", "0", "0", "1")),
            "hydrogen_sulfide": chance.choice(("0", "0", "0", "1", "2")),
            "carbon_monoxide": chance.choice(("0", "0", "0", "1", "2", "3")),
        }
        if phase in ("upwind", "duct"):
            figures |= {"oxygen": "20.9", "flammable": "0", "hydrogen_sulfide": "0", "carbon_monoxide": "0"}
        how = {"phase": phase, **({"at": depth} if depth else {}), "with": "07"}
        if held:
            how["lowered"] = _at(self.now + after - 1.25)
        self.row(who, "take readings", after, **how, **figures)

    def rows(self) -> list[str]:
        chance = self.chance
        space = chance.choice(("S-01", "S-11", "S-12", "S-13", "S-14"))
        wet = space == "S-01"
        crew = chance.sample(("Teo", "Kit", "Lena"), chance.choice((1, 2, 2, 3)))
        watch, second = chance.sample(("Oskar", "Nia"), 2)
        begins = self.now
        self.row("Mara", "open permit", 0, space=space)
        self.row("Mara", "describe work", purpose="Look at the seal and replace it")
        ends = min(begins + 190, 17 * 60 + 20)
        self.row("Mara", "plan hours", begins=_at(begins + 40)[:5], ends=_at(ends)[:5])
        for item in ("different-today", "other-work", "other-permits"):
            self.row("Mara", "answer", item=item, answer="no")
        hazards = ["lack-of-oxygen", "hydrogen-sulfide", "methane", "fall"] + (["inflow", "pumps"] if wet else [])
        for hazard in hazards:
            self.row("Mara", "hold hazard", 0.1, hazard=hazard, as_evaluated="yes")
        for point, lock in (("pump-1", "14"), ("pump-2", "15")) if wet else ():
            self.row("Mara", "isolate point", 1, point=point, lock=lock, owner=crew[0], dead="yes", verified_by=second)
        for person in crew:
            self.row("Mara", "name person", 0.1, person=person, part="entrant")
        for person in (watch, second):
            self.row("Mara", "name person", 0.1, person=person, part="attendant")
        self.row("Mara", "name person", 0.1, person="Mara", part="supervisor")
        self.row("Mara", "assign instrument", instrument="07", duty="test", hose="6")
        if wet:
            self.row("Mara", "assign instrument", instrument="11", duty="worn")
        self.row("Nia", "test hose", 3, instrument="07", stopped_s="4")
        self.read("Nia", "upwind", 2)
        self.read("Nia", "through-lid", 3, held=True)
        depth = {"S-01": "5.1"}.get(space)
        self.row("Nia", "state level", 2, depth=depth or "dry", how="staff gauge" if wet else "floor seen dry")
        self.row("Nia", "open space", 2, guarded="rail on four sides")
        self.row("Nia", "start fan", 2, flow="680", intake="8 m upwind", noticed_by="streamer at the duct")
        self.read("Nia", "duct", 2)
        self.now += 8
        self.points("Nia", "ventilating", space)
        self.row("Mara", "confirm rescue", answered_by="duty officer", good_until="19:00", minutes="14")
        self.row("Mara", "try call", means="radio channel 4", answered_by="desk 2", seconds="20")
        for item in ("retrieval", "communication", "equipment"):
            self.row("Mara", "answer", item=item, as_evaluated="yes")
        self.row("Mara", "answer", item="observed", answer="yes", found=f"{crew[0]} watched")
        self.row("Mara", "brief", 2, people=", ".join((*crew, watch, second)))
        self.row("Mara", "authorise", 1)
        self.now = max(self.now, begins + 41)
        self.row(watch, "take watch", 1)
        self.work(watch, second, crew, space, ends)
        return self.told

    def points(self, who: str, phase: str, space: str) -> None:
        depth, level = {
            "S-01": ("5.6", "5.1"), "S-11": ("3.4", None), "S-12": ("2.4", None), "S-13": ("4.2", None),
            "S-14": ("7.0", None),
        }[space]  # fmt: skip
        for point in verification_points(Decimal(depth), Decimal(level) if level else None):
            self.read(who, phase, 1.8, str(point), held=True)

    def work(self, watch: str, second: str, crew: list[str], space: str, ends: float) -> None:
        """In, readings in time, contact, perhaps a slip put right, a relief or a break, out, end, close."""
        chance = self.chance
        retest = "3.6" if space == "S-01" else "1.8"
        self.read(watch, "work", 1, retest)
        for person in crew:
            self.row(watch, "go in", 1, person=person)
        rested = relieved = False
        for turn in range(chance.choice((3, 4, 5))):
            if self.now > ends - 28:
                break
            self.row(watch, "make contact", chance.choice((6, 7, 8)))
            self.read(watch, "work", chance.choice((4, 5, 6)), retest)
            if chance.random() < 0.08:
                self.row(watch, "correct reading", 0.5, gas="carbon-monoxide", new="4", reason="read the wrong line")
            if not relieved and chance.random() < 0.15:
                relieved = True
                watch, second = second, watch
                self.row(watch, "relieve", 1)
            if not rested and turn == 1 and self.now < ends - 75 and chance.random() < 0.35:
                rested = True
                for person in crew:
                    self.row(watch, "go out", 1, person=person)
                self.row(watch, "begin break", 1, guarded="grating shut", left="fan runs", torches_out="yes")
                self.row(watch, "end break", 12, isolation_found="as left, tried dead")
                self.points(watch, "after-break", space)
                self.row("Mara", "reendorse", 1)
                for person in crew:
                    self.row(watch, "go in", 1, person=person)
        for person in crew:
            self.row(watch, "go out", 1, person=person)
        self.row("Mara", "end permit", 2, cause="work-complete", reason="seal replaced")
        self.row(watch, "close out", 3, tools="all out", cover="hatch shut", locks="off")


NEXT = {"authorise": Stage.AUTHORISE, "go in": Stage.ENTER}


def live(folder: Path, days: int, seed: int = 1) -> Month:
    """Live that many days of three permits each."""
    shift = in_memory(folder)
    shift.site = spaces(shift.site)
    replay.set_up(shift)
    month = Month(shift)
    chance = Random(seed)
    for day in range(days):
        shift.day = FIXED_DAY + timedelta(days=day)
        rows = list(rows_of(table(day, chance)))
        for row, following in zip(rows, [*rows[1:], None], strict=True):
            _row(month, row, shift.day)
            if following is not None:
                _between(month, row, following.moment(shift.day, shift.office.zone), shift.day)
        month.permits += 3
    return month


def _row(month: Month, row: Any, day: date) -> None:
    shift = month.shift
    shift.clock.turn_to(row.moment(day, shift.office.zone))
    stage = NEXT.get(row.act)
    number = shift.permits.get(row.get("permit"))
    if stage is not None and number is not None:
        for found in barring(shift.office.facts(number), stage):
            month.stood[f"{stage.value}: {found.code}"] = month.stood.get(f"{stage.value}: {found.code}", 0) + 1
    if row.act == "take readings" and number is not None:
        month.readings += 1
        permit = shift.office.permit(number)
        for gas in GASES:
            line = permit.form.limit(gas)
            assert line is not None
            odd = echo(shift.office, number, row["with"], gas, line.unit, row[gas], Decimal(row[gas])).doubt
            if odd is not None:
                month.prompts.append(f"{number} {row.at} {gas} {row[gas]}: {odd.question.say()}")
    replay.live_row(shift, row)


def _between(month: Month, row: Any, until: datetime, day: date) -> None:
    """Until the next row nothing happens: no obstacle goes away, and alarms are counted minute by minute."""
    shift = month.shift
    number = shift.permits.get(row.get("permit"))
    if number is None or not shift.office.permit(number).running:
        return
    last: set[tuple[str, str]] | None = None
    heard: set[str] = set()
    at = shift.office.now()
    while at < until:
        facts = shift.office.facts(number, at)
        found = obstacles(facts)
        standing = {(one.code, one.found.subject) for one in found}
        if last is not None:
            gone = {one for one in last - standing if one[0] != "not-begun"}
            month.cleared += [f"{number} {at:%H:%M}: {code} {subject}" for code, subject in gone]
        last = standing
        for alarm in alarms(facts, found, False):
            if alarm.priority <= 2 and alarm.key not in heard:
                heard.add(alarm.key)
                month.loud.append(f"{number} {at:%H:%M}: {alarm.words}")
        if facts.permit.tally.inside:
            month.entry_hours += 1 / 60
        at += timedelta(minutes=1)
