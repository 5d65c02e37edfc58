"""A permit lived in memory, event by event, without office, store or keys: for tests of the rules alone.

Everything is invented (the demo's site). Each event gets its place in the site's order, as the record would give it.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from copy import deepcopy
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from lamproom.bench import events as b
from lamproom.bench import state as bench
from lamproom.bench.happening import Event, Happening
from lamproom.permit import events as e
from lamproom.permit import people
from lamproom.permit import state as permit_state
from lamproom.permit.facts import Facts, points
from lamproom.permit.form import fingerprint, read_form
from lamproom.permit.obstacles import Obstacle, Stage, barring, obstacles
from lamproom.permit.space import SpaceEvaluated, SpaceRegistered
from lamproom.permit.state import Permit

ROOT = Path(__file__).parents[2]
FORM = (ROOT / "forms" / "us-general-industry.toml").read_text(encoding="utf-8")
ZONE = ZoneInfo("America/Chicago")
DAY = date(2026, 11, 17)
MARA, OSKAR, NIA, TEO, KIT, LENA = "P-01", "P-02", "P-03", "P-04", "P-05", "P-06"


@cache
def _site() -> Mapping[str, Any]:
    return tomllib.loads((ROOT / "demo" / "site.toml").read_text(encoding="utf-8"))


def instrument(id: str) -> b.InstrumentRegistered:
    """An instrument of the invented site as registered."""
    return b.InstrumentRegistered.model_validate(
        deepcopy(next(i["registered"] for i in _site()["instruments"] if i["id"] == id))
    )


def space(id: str = "S-01") -> tuple[SpaceRegistered, SpaceEvaluated]:
    known = deepcopy(next(s for s in _site()["spaces"] if s["id"] == id))
    return (
        SpaceRegistered.model_validate(known["registered"]),
        SpaceEvaluated.model_validate({"unisolable": None, **known["evaluated"]}),
    )


def cylinder(expires: date = date(2027, 6, 30)) -> b.Cylinder:
    gases = {"oxygen": "18.0", "flammable": "50", "hydrogen-sulfide": "25", "carbon-monoxide": "100"}
    return b.Cylinder(name="C 118", lot="7719", expires=expires, gases=gases)


def bump(short: str = "", check: Any = "calibration", expires: date = date(2027, 6, 30)) -> b.BumpTested:
    """A bump test that passes; ``short`` names the gas whose sensor did not answer."""
    gas = cylinder(expires)
    results = tuple(
        b.SensorResult(gas=g, applied=a, reading="0" if g == short else a, alarm_s=None if g == short else "12")
        for g, a in gas.gases.items()
    )
    return b.BumpTested(check=check, cylinder=gas, results=results)


def calibration(passed: bool = True, due: date = date(2027, 5, 1)) -> b.Calibrated:
    gas = cylinder()
    results = tuple(b.SpanResult(gas=g, applied=a, as_found=a, as_left=a) for g, a in gas.gases.items())
    return b.Calibrated(cylinder=gas, results=results, passed=passed, due=due)


def check(**changes: Any) -> b.CheckedBeforeUse:
    air = {"place": "yard", "why_clean": "upwind", "oxygen_before": "20.9", "oxygen_after": "20.9"}
    said: dict[str, Any] = {
        "self_test": True,
        "alarm_heard": True,
        "alarm_seen": True,
        "alarm_felt": True,
        "display_complete": True,
        "housing_sound": True,
        "battery_h": "12",
        "set_points_as_registered": True,
        "block_stopped_s": "4",
        "fresh_air": {**air, **changes.pop("air", {})},
    }
    return b.CheckedBeforeUse.model_validate(said | changes)


GOOD = {"oxygen": "20.9", "flammable": "0", "hydrogen-sulfide": "0", "carbon-monoxide": "0"}
UNITS = {"oxygen": "% vol", "flammable": "% LEL", "hydrogen-sulfide": "ppm", "carbon-monoxide": "ppm"}


def figures(**changes: str | None) -> tuple[e.Figure, ...]:
    """A whole set, in order; a gas given as None is left out, one given as a state word has that state."""
    told: dict[str, str | None] = {**GOOD, **{gas.replace("_", "-"): value for gas, value in changes.items()}}
    done = []
    for gas, value in told.items():
        if value in ("not-measured", "fault", "over-range"):
            done.append(e.Figure.model_validate({"gas": gas, "unit": UNITS[gas], "state": value}))
        elif value is not None:
            done.append(e.Figure(gas=gas, unit=UNITS[gas], figure=value))
    return tuple(done)


def ink(person: str, salt: int = 0) -> e.Ink:
    return e.Ink(person=person, strokes=(((1 + salt, 2, 0), (30, 40, 90)),))


class Life:
    """One permit's day. ``pass_time`` moves its clock, ``tell`` adds to the permit, ``do`` to an instrument."""

    def __init__(self, form: str = FORM, space_id: str = "S-01", **evaluated: Any) -> None:
        self.at = datetime(2026, 11, 17, 7, 0, tzinfo=ZONE).astimezone(UTC)
        self.number = 0
        self.past: list[Happening] = []
        self.benches: dict[str, list[Happening]] = {}
        self.clock_confirmed = True
        self.figures_confirmed = True
        registered, known = space(space_id)
        known = known.model_copy(update=evaluated)
        self.people = {
            p["id"]: people.Person(
                p["id"],
                tuple(p["roles"]),
                tuple(
                    people.PersonTrained(
                        role=role, trained_on=p["trained_on"], trainer="D. Harrow", good_until=p.get("good_until")
                    )
                    for role in p["roles"]
                ),
            )
            for p in _site()["people"]
        }
        self.tell(
            e.PermitOpened(
                number="26-0001",
                space=space_id,
                registered=registered,
                evaluated=known,
                form=form,
                zone=ZONE.key,
            )
        )
        for id in ("07", "11"):
            self.do(id, instrument(id))
            self.do(id, calibration())

    # Telling ----------------------------------------------------------------------------------------------------------

    def pass_time(self, minutes: float = 0, seconds: float = 0) -> Life:
        self.at += timedelta(minutes=minutes, seconds=seconds)
        return self

    def until(self, hour: int, minute: int = 0, second: int = 0) -> Life:
        self.at = datetime(2026, 11, 17, hour, minute, second, tzinfo=ZONE).astimezone(UTC)
        return self

    def _happening(self, past: list[Happening], stream: str, event: Event, by: str | None, **flags: bool) -> Happening:
        self.number += 1
        one = Happening(stream, len(past) + 1, event, self.at, by, "station-1", f"act-{self.number}", self.number)
        one = replace(one, **flags)
        past.append(one)
        return one

    def tell(self, *events: Event, by: str | None = OSKAR, **flags: bool) -> int:
        """Add events to the permit; the version of the last one."""
        for event in events:
            self._happening(self.past, "permit/26-0001", event, by, **flags)
        return len(self.past)

    def do(self, id: str, event: Event, by: str | None = NIA, **flags: bool) -> None:
        """Something happened to an instrument."""
        self._happening(self.benches.setdefault(id, []), f"instrument/{id}", event, by, **flags)

    def read(
        self,
        point: str | None,
        phase: e.Phase = "ventilating",
        by: str | None = NIA,
        held: float | None = 90,
        instrument: str = "07",
        taken: datetime | None = None,
        flags: Mapping[str, bool] | None = None,
        **changes: str | None,
    ) -> int:
        """A set of readings now: good ones, unless told otherwise. ``held`` are the seconds that the probe rested."""
        moment = taken or self.at
        return self.tell(
            e.ReadingsTaken(
                phase=phase,
                point_m=point,
                instrument=instrument,
                lowered=None if held is None else moment - timedelta(seconds=held),
                taken=moment,
                figures=figures(**changes),
            ),
            by=by,
            **(flags or {}),
        )

    # Asking -----------------------------------------------------------------------------------------------------------

    @property
    def permit(self) -> Permit:
        return permit_state.fold(self.past)

    def instrument(self, id: str) -> bench.Instrument:
        return bench.fold(self.benches.get(id, ()), bench.Instrument(id))

    def facts(self, at: datetime | None = None, permit: Permit | None = None) -> Facts:
        permit = permit or self.permit
        return Facts(
            permit=permit,
            instruments={id: self.instrument(id) for id in permit.instruments},
            people=self.people,
            at=at or self.at,
            clock_confirmed=self.clock_confirmed,
            figures_confirmed=self.figures_confirmed,
        )

    def found(self) -> tuple[Obstacle, ...]:
        return obstacles(self.facts())

    def codes(self, stage: Stage | None = None, at: datetime | None = None) -> set[str]:
        """Codes of all obstacles, or of those that bar a stage."""
        facts = self.facts(at)
        return {o.code for o in (obstacles(facts) if stage is None else barring(facts, stage))}

    # A day that goes well ---------------------------------------------------------------------------------------------

    def check_instruments(self) -> Life:
        for id in ("07", "11"):
            self.do(id, check())
            self.do(id, bump())
        return self

    def describe(self, begins: tuple[int, int] = (8, 0), ends: tuple[int, int] = (16, 0)) -> Life:
        def at(clock: tuple[int, int]) -> datetime:
            return datetime(2026, 11, 17, *clock, tzinfo=ZONE).astimezone(UTC)

        self.tell(e.WorkDescribed(purpose="Replace the float switch"), by=MARA)
        self.tell(e.HoursPlanned(begins=at(begins), ends=at(ends)), by=MARA)
        for item in self.permit.form.items:
            if not item.only_if:
                answer = "no" if item.expect in ("no", "any") else "yes"
                self.tell(
                    e.Answered.model_validate({"item": item.id, "answer": answer, "found": "seen today"}), by=MARA
                )
        evaluated = self.permit.opened.evaluated
        for hazard in evaluated.hazards:
            self.tell(e.HazardHeld(hazard=hazard.id, held=True, how=hazard.control), by=MARA)
        for point in evaluated.isolation:
            self.tell(
                e.PointIsolated(point=point.id, lock="14", owner=TEO, tried_dead=True, verified_by=OSKAR), by=MARA
            )
        for person in (TEO, KIT):
            self.tell(e.PersonNamed(person=person, part="entrant"), by=MARA)
        for person in (OSKAR, NIA):
            self.tell(e.PersonNamed(person=person, part="attendant"), by=MARA)
        self.tell(e.PersonNamed(person=MARA, part="supervisor"), by=MARA)
        rescue = datetime(2026, 11, 17, 17, 0, tzinfo=ZONE).astimezone(UTC)
        self.tell(e.RescueConfirmed(answered_by="duty officer", good_until=rescue, response_min="14"), by=MARA)
        self.tell(e.RescueCallTried(means="radio channel 4", answered_by="desk 2", seconds="20"), by=MARA)
        self.tell(e.Briefed(inks=tuple(ink(p, i) for i, p in enumerate((TEO, KIT, OSKAR, NIA)))), by=MARA)
        return self

    def assign(self) -> Life:
        self.tell(e.InstrumentAssigned(instrument="07", registered=instrument("07"), duty="test", hose_m="6"), by=MARA)
        self.tell(e.InstrumentAssigned(instrument="11", registered=instrument("11"), duty="worn"), by=MARA)
        self.tell(e.HoseTested(instrument="07", stopped_s="4"), by=NIA)
        return self

    def open_up(self) -> Life:
        self.read(None, "upwind", held=None)
        self.read(None, "through-lid")
        self.tell(e.LevelStated(depth_m="5.1", how="staff gauge"), by=MARA)
        self.tell(e.SpaceOpened(guarded="rail on four sides"), by=MARA)
        self.tell(e.VentilationStarted(flow_m3_h="680", intake="upwind", stop_noticed_by="streamer"), by=MARA)
        self.read(None, "duct", held=None)
        return self

    def points(self) -> tuple[str, ...]:
        return tuple(str(depth) for depth in points(self.permit) or ())

    def read_all(self, phase: e.Phase = "ventilating", instrument: str = "07") -> Life:
        for point in self.points():
            self.pass_time(seconds=100)
            self.read(point, phase, instrument=instrument)
        return self

    def ready(self) -> Life:
        """Everything done at 08:xx; nothing bars authorizing."""
        self.check_instruments().describe().assign().pass_time(45)
        return self.open_up().pass_time(20).read_all()

    def authorised(self) -> Life:
        self.ready()
        permit = self.permit
        assert permit.hours is not None
        self.tell(
            e.Authorised(
                begins=max(permit.hours.begins, self.at),
                ends=permit.hours.ends,
                on_version=permit.version,
                entrants=permit.entrants,
                ink=ink(MARA, 9),
            ),
            by=MARA,
        )
        self.tell(e.WatchTaken(person=OSKAR))
        return self

    def inside(self, *who: str) -> Life:
        self.authorised()
        self.read("3.6", "work", held=None)
        for person in who or (TEO,):
            self.tell(e.WentIn(person=person))
        return self


def confirmed_form(text: str = FORM) -> str:
    return fingerprint(text)


def altered(old: str, new: str, form: str = FORM) -> str:
    """The form's text with one passage changed; the passage must be there."""
    assert old in form, old
    return form.replace(old, new, 1)


__all__ = ["FORM", "Life", "Stage", "altered", "bump", "calibration", "check", "figures", "ink", "read_form"]
