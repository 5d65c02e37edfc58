"""Living a shift from its table through the office's acts, on a clock that is turned by hand."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from typing import Any, Literal, cast

from lamproom.bench.events import (
    BumpTested,
    Calibrated,
    CheckedBeforeUse,
    Cylinder,
    FreshAir,
    InstrumentRegistered,
    SensorResult,
    SpanResult,
)
from lamproom.office.answer import answer
from lamproom.office.assign_instrument import assign_instrument
from lamproom.office.authorise import authorise
from lamproom.office.begin_break import begin_break
from lamproom.office.begin_site import begin_site
from lamproom.office.brief import brief
from lamproom.office.bump_test import bump_test
from lamproom.office.calibrate import calibrate
from lamproom.office.change_employer import change_employer
from lamproom.office.check_before_use import check_before_use
from lamproom.office.clock import HandClock
from lamproom.office.close_out import close_out
from lamproom.office.confirm_rescue import confirm_rescue
from lamproom.office.correct_reading import correct_reading
from lamproom.office.describe_work import describe_work
from lamproom.office.determine import determine
from lamproom.office.end_break import end_break
from lamproom.office.end_permit import end_permit
from lamproom.office.evaluate_space import evaluate_space
from lamproom.office.go_in import go_in
from lamproom.office.go_out import go_out
from lamproom.office.hold_hazard import hold_hazard
from lamproom.office.isolate_point import isolate_point
from lamproom.office.make_contact import make_contact
from lamproom.office.name_person import name_person
from lamproom.office.office import Office
from lamproom.office.open_permit import open_permit
from lamproom.office.open_space import open_space
from lamproom.office.order_stop import order_stop
from lamproom.office.plan_hours import plan_hours
from lamproom.office.reendorse import reendorse
from lamproom.office.register_instrument import register_instrument
from lamproom.office.register_person import register_person
from lamproom.office.register_space import register_space
from lamproom.office.relieve import relieve
from lamproom.office.shift_table import Row, rows_of
from lamproom.office.start_fan import start_fan
from lamproom.office.state_level import state_level
from lamproom.office.take_readings import take_readings
from lamproom.office.take_watch import take_watch
from lamproom.office.test_hose import test_hose
from lamproom.office.try_call import try_call
from lamproom.permit import events as e
from lamproom.permit.people import PersonTrained, Role
from lamproom.permit.space import SpaceEvaluated, SpaceRegistered
from lamproom.words import Refusal, sentence

SET_UP_AT = time(15, 0)
"""The day before the shift, at this hour, the site is set up and its instruments are calibrated."""


@dataclass(slots=True)
class Shift:
    """A shift being lived: its site as data, its day, its clock, and the permits opened so far by letter."""

    site: Mapping[str, Any]
    day: date
    clock: HandClock
    office: Office
    permits: dict[str, str] = field(default_factory=dict)

    def person(self, first_name: str) -> str:
        """The id of someone of the table by first name."""
        for person in self.site["people"]:
            if person["name"].split()[0] == first_name:
                return str(person["id"])
        raise Refusal(sentence("office.shift.nobody", name=first_name))

    def code(self, person: str) -> str:
        return str(next(p.get("code", "") for p in self.site["people"] if p["id"] == person))

    def permit(self, row: Row) -> str:
        letter = row["permit"]
        if letter not in self.permits:
            raise Refusal(sentence("office.shift.no_permit", line=row.line, letter=letter))
        return self.permits[letter]

    def at(self, row: Row, name: str) -> datetime:
        return row.clock(name, self.day, self.office.zone).astimezone(UTC)


def read_site(text: str) -> Mapping[str, Any]:
    """The invented site of a table, from TOML."""
    return tomllib.loads(text)


def set_up(shift: Shift) -> None:
    """Everything that stands before the day begins: site, people, spaces, instruments, each calibrated."""
    office, site = shift.office, shift.site
    from zoneinfo import ZoneInfo

    zone = ZoneInfo(site["zone"])
    shift.clock.turn_to(datetime.combine(shift.day - timedelta(days=1), SET_UP_AT, zone))
    founder = next(p for p in site["people"] if p["id"] == site["founder"])
    begin_site(
        office,
        site["name"],
        site["zone"],
        founder["id"],
        founder["name"],
        _roles(founder),
        _training(founder),
        founder["code"],
        shift.clock.sample().wall,
        act="set-up-site",
    )
    for person in site["people"]:
        if person is not founder:
            register_person(
                office,
                person["id"],
                person["name"],
                _roles(person),
                _training(person),
                by=founder["id"],
                code=person.get("code"),
                keeper_code=founder["code"],
                act=f"set-up-{person['id']}",
            )
    for space in site["spaces"]:
        by = founder["id"]
        register_space(
            office, space["id"], SpaceRegistered.model_validate(space["registered"]), by=by, act=f"set-up-{space['id']}"
        )
        evaluated = SpaceEvaluated.model_validate({"unisolable": None, **space["evaluated"]})
        evaluate_space(office, space["id"], evaluated, by=by, act=f"set-up-{space['id']}-evaluated")
    for instrument in site["instruments"]:
        _instrument(shift, instrument, founder["id"])


def _roles(person: Mapping[str, Any]) -> tuple[Role, ...]:
    return cast("tuple[Role, ...]", tuple(person["roles"]))


def _training(person: Mapping[str, Any]) -> tuple[PersonTrained, ...]:
    return tuple(
        PersonTrained(
            role=role, trained_on=person["trained_on"], trainer=person["trainer"], good_until=person.get("good_until")
        )
        for role in _roles(person)
    )


def _instrument(shift: Shift, instrument: Mapping[str, Any], by: str) -> None:
    registered = InstrumentRegistered.model_validate(instrument["registered"])
    id = instrument["id"]
    register_instrument(shift.office, id, registered, by=by, act=f"set-up-{id}")
    cylinder = cylinder_of(shift, shift.site["cylinders"][0]["name"])
    results = tuple(
        SpanResult(
            gas=s.gas, applied=cylinder.gases[s.gas], as_found=cylinder.gases[s.gas], as_left=cylinder.gases[s.gas]
        )
        for s in registered.sensors
    )
    due = shift.day + timedelta(days=registered.calibration_days - 1)
    calibrate(
        shift.office,
        id,
        Calibrated(cylinder=cylinder, results=results, passed=True, due=due),
        by=by,
        act=f"set-up-{id}-calibrated",
    )


def cylinder_of(shift: Shift, name: str) -> Cylinder:
    """A cylinder of test gas of the site by its mark."""
    return Cylinder.model_validate(next(c for c in shift.site["cylinders"] if c["name"] == name))


def live(shift: Shift, table: str, told: Callable[[Row], None] | None = None) -> None:
    """Live a table row by row. Each act has its own id, so that a replay cut short goes on where it was."""
    rows = list(rows_of(table))
    reached = max((at for at, row in enumerate(rows) if shift.office.journal.act(f"row-{row.line}")), default=-1)
    for at, row in enumerate(rows):
        # A refused row leaves nothing to know it by; lived again behind what is stored, it would set the clock back.
        if at > reached or row.get("refused") != "yes":
            live_row(shift, row)
        if told is not None:
            told(row)


def live_row(shift: Shift, row: Row) -> None:
    """Live one row at its time; a row that says 'refused: yes' must be refused, and leaves nothing.

    A row whose act is stored already is not lived again: a shift that was cut short goes on where it was.
    """
    shift.clock.turn_to(row.moment(shift.day, shift.office.zone))
    if stored := shift.office.journal.act(f"row-{row.line}"):
        if row.act == "open permit":
            shift.permits[row["permit"]] = stored[0].sealed.stream.removeprefix("permit/")
        return
    act = _ACTS.get(row.act)
    if act is None:
        raise Refusal(sentence("office.shift.no_act", line=row.line, act=row.act))
    by = shift.person(row.who)
    if row.get("refused") != "yes":
        act(shift, row, by, f"row-{row.line}")
        return
    try:
        act(shift, row, by, f"row-{row.line}")
    except Refusal:
        return
    raise AssertionError(f"line {row.line} was not refused")


def ink_of(person: str, at: datetime) -> e.Ink:
    """An invented scribble for a person at a moment: the same for the same two, never the same for others."""
    seed = sum(ord(c) * (i + 7) for i, c in enumerate(person)) + int(at.timestamp())
    strokes: list[e.Stroke] = []
    x = 80
    for letter in range(2):
        points = []
        for step in range(24):
            seed = (seed * 1103515245 + 12345) % 2**31
            x += 6 + seed % 11
            high = 260 if step % 4 == (letter + seed) % 3 else 520
            points.append((min(x, 960), high + (seed >> 8) % 160, letter * 900 + step * 24))
        strokes.append(tuple(points))
        x += 60
    return e.Ink(person=person, strokes=tuple(strokes))


def figures_of(row: Row, office: Office, permit: str) -> tuple[e.Figure, ...]:
    """The figures of a row, in the order of the form, with the form's units."""
    return tuple(
        e.Figure(gas=line.gas, unit=line.unit, figure=row[line.gas]) for line in office.permit(permit).form.limits
    )


def _check(shift: Shift, row: Row, by: str, act: str) -> None:
    air = FreshAir(
        place=row["place"],
        why_clean=row["why-clean"],
        oxygen_before=row["before"],
        oxygen_after=row["after"],
        beside_portal=row.yes("beside-portal"),
    )
    check = CheckedBeforeUse(
        self_test=row.yes("self-test"),
        alarm_heard=row.yes("heard"),
        alarm_seen=row.yes("seen"),
        alarm_felt=row.yes("felt"),
        display_complete=row.yes("display"),
        housing_sound=row.yes("housing"),
        battery_h=row["battery-h"],
        set_points_as_registered=row.yes("set-points"),
        block_stopped_s=row.get("block-s") or None,
        fresh_air=air,
    )
    check_before_use(shift.office, row["instrument"], check, by=by, act=act)


def _bump(shift: Shift, row: Row, by: str, act: str) -> None:
    cylinder = cylinder_of(shift, row["cylinder"])
    results = []
    for sensor in shift.office.instrument(row["instrument"]).sensors:
        reading, _, seconds = row[sensor.gas].partition(" in ")
        results.append(
            SensorResult(gas=sensor.gas, applied=cylinder.gases[sensor.gas], reading=reading, alarm_s=seconds or None)
        )
    check = cast(Literal["function", "calibration"], row["check"])
    bump_test(
        shift.office,
        row["instrument"],
        BumpTested(check=check, cylinder=cylinder, results=tuple(results)),
        by=by,
        act=act,
    )


def _open(shift: Shift, row: Row, by: str, act: str) -> None:
    shift.permits[row["permit"]] = open_permit(shift.office, row["space"], by=by, form=shift.site["form"], act=act)


def _hours(shift: Shift, row: Row, by: str, act: str) -> None:
    plan_hours(shift.office, shift.permit(row), shift.at(row, "begins"), shift.at(row, "ends"), by=by, act=act)


EVALUATED = {"communication": "communication", "equipment": "equipment"}
"""Items of the form whose answer the evaluation has words for."""


def evaluated_words(office: Office, permit: str, item: str) -> str:
    """What the evaluation of the space says to an item."""
    evaluated = office.permit(permit).opened.evaluated
    return evaluated.rescue.retrieval if item == "retrieval" else str(getattr(evaluated, EVALUATED[item]))


def _answer(shift: Shift, row: Row, by: str, act: str) -> None:
    if row.get("as-evaluated") == "yes":
        words = evaluated_words(shift.office, shift.permit(row), row["item"])
        answer(shift.office, shift.permit(row), row["item"], "yes", words, by=by, act=act)
        return
    given = cast(Literal["yes", "no", "does not apply"], row["answer"])
    answer(shift.office, shift.permit(row), row["item"], given, row.get("found"), by=by, act=act)


def _hazard(shift: Shift, row: Row, by: str, act: str) -> None:
    permit = shift.permit(row)
    evaluated = shift.office.permit(permit).opened.evaluated
    how = next(h.control for h in evaluated.hazards if h.id == row["hazard"]) if row.yes("as-evaluated") else row["how"]
    hold_hazard(shift.office, permit, row["hazard"], True, how, by=by, act=act)


def _isolate(shift: Shift, row: Row, by: str, act: str) -> None:
    owner, verified = shift.person(row["owner"]), shift.person(row["verified-by"])
    isolate_point(
        shift.office, shift.permit(row), row["point"], row["lock"], owner, row.yes("dead"), verified, by=by, act=act
    )


def _name(shift: Shift, row: Row, by: str, act: str) -> None:
    part = cast(Literal["entrant", "attendant", "supervisor"], row["part"])
    name_person(shift.office, shift.permit(row), shift.person(row["person"]), part, by=by, act=act)


def _assign(shift: Shift, row: Row, by: str, act: str) -> None:
    duty = cast(Literal["test", "worn"], row["duty"])
    assign_instrument(shift.office, shift.permit(row), row["instrument"], duty, row.get("hose") or None, by=by, act=act)


def _rescue(shift: Shift, row: Row, by: str, act: str) -> None:
    until = shift.at(row, "good-until")
    confirm_rescue(shift.office, shift.permit(row), row["answered-by"], until, row["minutes"], by=by, act=act)


def _call(shift: Shift, row: Row, by: str, act: str) -> None:
    try_call(shift.office, shift.permit(row), row["means"], row["answered-by"], row["seconds"], by=by, act=act)


def _hose(shift: Shift, row: Row, by: str, act: str) -> None:
    test_hose(shift.office, shift.permit(row), row["instrument"], row["stopped-s"], by=by, act=act)


def _read(shift: Shift, row: Row, by: str, act: str) -> None:
    permit = shift.permit(row)
    lowered = shift.at(row, "lowered") if row.get("lowered") else None
    phase = cast(e.Phase, row["phase"])
    figures = figures_of(row, shift.office, permit)
    take_readings(
        shift.office, permit, phase, row.get("at") or None, row["with"], figures, by=by, lowered=lowered, act=act
    )


def _level(shift: Shift, row: Row, by: str, act: str) -> None:
    depth = None if row["depth"] == "dry" else row["depth"]
    state_level(shift.office, shift.permit(row), depth, row["how"], by=by, act=act)


def _guard(shift: Shift, row: Row, by: str, act: str) -> None:
    open_space(shift.office, shift.permit(row), row["guarded"], by=by, act=act)


def _fan(shift: Shift, row: Row, by: str, act: str) -> None:
    start_fan(shift.office, shift.permit(row), row["flow"], row["intake"], row["noticed-by"], by=by, act=act)


def _brief(shift: Shift, row: Row, by: str, act: str) -> None:
    at = row.moment(shift.day, shift.office.zone)
    people = [shift.person(name.strip()) for name in row["people"].split(",")]
    brief(shift.office, shift.permit(row), [ink_of(person, at) for person in people], by=by, act=act)


def _authorise(shift: Shift, row: Row, by: str, act: str) -> None:
    ink = ink_of(by, row.moment(shift.day, shift.office.zone))
    authorise(shift.office, shift.permit(row), by, shift.code(by), ink, act=act)


def _correct(shift: Shift, row: Row, by: str, act: str) -> None:
    permit = shift.permit(row)
    newest = shift.office.permit(permit).sets[-1].version
    correct_reading(shift.office, permit, newest, row["gas"], row["new"], row["reason"], by=by, act=act)


def _break(shift: Shift, row: Row, by: str, act: str) -> None:
    begin_break(shift.office, shift.permit(row), row["guarded"], row["left"], row.yes("torches-out"), by=by, act=act)


def _relieve(shift: Shift, row: Row, by: str, act: str) -> None:
    permit = shift.permit(row)
    state = shift.office.permit(permit)
    inside = tuple(trip.who for trip in state.tally.inside)
    relieve(shift.office, permit, by, shift.code(by), inside, state.sets[-1].version, (), act=act)


def _determine(shift: Shift, row: Row, by: str, act: str) -> None:
    finding = cast(Literal["prohibited-condition", "none-arose"], row["finding"])
    determine(shift.office, shift.permit(row), finding, row["reason"], by, shift.code(by), act=act)


def _end(shift: Shift, row: Row, by: str, act: str) -> None:
    cause = cast(Literal["work-complete", "prohibited-condition", "expired", "never-entered"], row["cause"])
    end_permit(shift.office, shift.permit(row), cause, row.get("reason"), by, shift.code(by), act=act)


def _close(shift: Shift, row: Row, by: str, act: str) -> None:
    close_out(shift.office, shift.permit(row), row["tools"], row["cover"], row["locks"], by=by, act=act)


_ACTS: dict[str, Callable[[Shift, Row, str, str], None]] = {
    "check before use": _check,
    "bump test": _bump,
    "open permit": _open,
    "describe work": lambda s, r, by, act: describe_work(s.office, s.permit(r), r["purpose"], by=by, act=act),
    "plan hours": _hours,
    "answer": _answer,
    "hold hazard": _hazard,
    "isolate point": _isolate,
    "name person": _name,
    "change employer": lambda s, r, by, act: change_employer(
        s.office, s.person(r["person"]), r["employer"], by=by, act=act
    ),
    "assign instrument": _assign,
    "confirm rescue": _rescue,
    "try call": _call,
    "test hose": _hose,
    "take readings": _read,
    "state level": _level,
    "open space": _guard,
    "start fan": _fan,
    "brief": _brief,
    "authorise": _authorise,
    "take watch": lambda s, r, by, act: take_watch(s.office, s.permit(r), by, act=act),
    "go in": lambda s, r, by, act: go_in(s.office, s.permit(r), s.person(r["person"]), by=by, act=act),
    "go out": lambda s, r, by, act: go_out(s.office, s.permit(r), s.person(r["person"]), by=by, act=act),
    "make contact": lambda s, r, by, act: make_contact(s.office, s.permit(r), by=by, act=act),
    "correct reading": _correct,
    "begin break": _break,
    "end break": lambda s, r, by, act: end_break(s.office, s.permit(r), r["isolation-found"], by=by, act=act),
    "reendorse": lambda s, r, by, act: reendorse(s.office, s.permit(r), by, s.code(by), act=act),
    "order stop": lambda s, r, by, act: order_stop(s.office, s.permit(r), by=by, act=act),
    "determine": _determine,
    "relieve": _relieve,
    "end permit": _end,
    "close out": _close,
}
