"""What the bench shows and reads: until when each instrument is ready, its last tests, and what was typed about it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Literal, get_args
from zoneinfo import ZoneInfo

from lamproom.bench.bump import gas_name, shortfalls
from lamproom.bench.events import (
    BumpTested,
    Calibrated,
    CheckedBeforeUse,
    Cylinder,
    FreshAir,
    Sensor,
    SensorResult,
    SpanResult,
    TestVoided,
)
from lamproom.bench.readiness import Readiness, readiness
from lamproom.bench.rules import BenchRules
from lamproom.bench.state import Instrument
from lamproom.office.office import Office
from lamproom.office.views.spans import until_words
from lamproom.office.views.typed import Filled, Typed, day_words
from lamproom.permit.form import Form
from lamproom.permit.words import clock
from lamproom.words import say, say_count

Mend = Literal["check", "bump", "calibrate", "service"]
AXIS_H = 24
SOON = timedelta(hours=2)
STRIP_DAYS = 30
NO_BLOCK = "none"
"""The answer that says: the blocked pump did not stop in time."""
_MENDS: Mapping[str, Mend] = {
    "out-of-service": "service",
    "not-calibrated": "calibrate",
    "calibration-failed": "calibrate",
    "calibration-due": "calibrate",
    "sensor-expired": "calibrate",
    "bump-failed": "calibrate",
    "not-checked": "check",
    "check-failed": "check",
}


@dataclass(frozen=True, slots=True)
class InstrumentLine:
    """One instrument in the list. ``until`` in seconds since 1970, None when not ready; ``mend`` the act that helps."""

    id: str
    sees: str
    ready: bool
    soon: bool
    out_of_service: bool
    state: str
    until: float | None
    mend: Mend | None
    mend_words: str
    assigned: str


@dataclass(frozen=True, slots=True)
class BenchView:
    """The list, not ready first, then soonest; the axis of the bars in seconds; the sentence above."""

    lines: tuple[InstrumentLine, ...]
    summary: str
    now: float
    end: float
    marks: tuple[tuple[float, str], ...]


@dataclass(frozen=True, slots=True)
class SensorLine:
    """A sensor with its part of the last bump test; empty words where there was none."""

    gas: str
    name: str
    unit: str
    applied: str
    read: str
    share: str
    accept: str
    seconds: str
    alarm_at: str
    passed: bool | None


@dataclass(frozen=True, slots=True)
class DayMark:
    """One day of the strip: no test, or passed or failed with the slowest alarm in seconds (None: some gave none)."""

    day: str
    tested: bool
    passed: bool
    slowest_s: float | None


@dataclass(frozen=True, slots=True)
class InstrumentView:
    """One instrument opened."""

    id: str
    title: str
    about: str
    ready: bool
    out_of_service: bool
    state: str
    then: str
    mend: Mend | None
    reasons: tuple[tuple[str, str, str], ...]
    sensors: tuple[SensorLine, ...]
    last_test: str
    strip: tuple[DayMark, ...]
    strip_words: str
    limit_s: float
    has_pump: bool
    block_s: int
    check_kind: str
    calibration_due: date
    calibration_words: str
    last_calibration: str


def site_form(office: Office) -> Form:
    """The form whose figures the bench shows: the first at hand by id. Each permit is judged on its own form."""
    form, _text = office.form(min(office.forms))
    return form


def rules_here(office: Office) -> BenchRules:
    """The figures that decide readiness on the bench."""
    return site_form(office).bench_rules(office.zone)


def gas_words(gas: str) -> str:
    """The name of a gas."""
    return gas_name(gas).say()


def bench_view(office: Office) -> BenchView:
    """Every instrument with its readiness now."""
    now, rules = office.now(), rules_here(office)
    end = now + timedelta(hours=AXIS_H)
    assigned = _assignments(office)
    found = [(office.instrument(id), readiness(office.instrument(id), rules, now)) for id in office.ids("instrument")]
    lines = tuple(_line(office, one, ready, now, assigned.get(one.id, "")) for one, ready in _by_need(found))
    ready_count = sum(line.ready for line in lines)
    marks = tuple(
        (at.timestamp(), words)
        for at, words in (
            (now, say("bench_screen.now")),
            *((at, clock(at, office.zone)) for at in _sixth_hours(now, office.zone)),
        )
    )
    summary = say_count("bench_screen.summary", len(lines), ready=str(ready_count))
    return BenchView(lines, summary, now.timestamp(), end.timestamp(), marks)


def _sixth_hours(now: datetime, zone: ZoneInfo) -> tuple[datetime, ...]:
    """Every sixth hour of the clock on the axis."""
    hour = now.astimezone(zone).replace(minute=0, second=0, microsecond=0)
    ahead = (hour + timedelta(hours=n) for n in range(1, AXIS_H))
    return tuple(at for at in ahead if at.hour % 6 == 0)


def _by_need(found: Iterable[tuple[Instrument, Readiness]]) -> list[tuple[Instrument, Readiness]]:
    def need(pair: tuple[Instrument, Readiness]) -> tuple[bool, bool, float, str]:
        one, ready = pair
        until = ready.until.timestamp() if ready.until is not None else 0.0
        return (ready.ready, one.out_of_service is None, until, one.id)

    return sorted(found, key=need)


def _line(office: Office, one: Instrument, ready: Readiness, now: datetime, assigned: str) -> InstrumentLine:
    mend = mend_of(ready)
    state = until_words(ready.until, now, office.zone) if ready.until is not None else _first_words(ready)
    return InstrumentLine(
        one.id,
        sees_words(one),
        ready.ready,
        ready.until is not None and ready.until - now <= SOON,
        one.out_of_service is not None,
        state,
        ready.until.timestamp() if ready.until is not None else None,
        mend,
        say(f"bench_screen.mend.{mend}") if mend is not None else "",
        assigned or say("bench_screen.assigned_none"),
    )


def mend_of(ready: Readiness) -> Mend | None:
    """The act that mends the first thing wrong; None when nothing is."""
    if not ready.unfit:
        return None
    return _MENDS.get(ready.unfit[0].code, "bump")


def _first_words(ready: Readiness) -> str:
    return say(f"bench_screen.short.{ready.unfit[0].code}") if ready.unfit else say("bench_screen.short.none")


def sees_words(one: Instrument) -> str:
    """What an instrument sees, in few words: 'Four gases', or the names of up to two."""
    gases = {sensor.gas for sensor in one.sensors}
    if gases == {"oxygen", "flammable", "hydrogen-sulfide", "carbon-monoxide"}:
        return say("bench_screen.four_gases")
    if not gases:
        return say("bench_screen.no_sensors")
    if len(gases) <= 2:
        return ", ".join(gas_words(sensor.gas) for sensor in one.sensors)
    return say_count("bench_screen.gases", len(gases))


def _assignments(office: Office) -> Mapping[str, str]:
    found: dict[str, str] = {}
    for number in office.ids("permit"):
        permit = office.permit(number)
        if permit.ended is None:
            found.update({a.instrument: number for a in permit.instruments.values() if a.returned is None})
    return found


# One instrument -------------------------------------------------------------------------------------------------------


def instrument_view(office: Office, id: str) -> InstrumentView:
    """One instrument with its last bump test, its days and what it needs."""
    now, form = office.now(), site_form(office)
    rules = form.bench_rules(office.zone)
    one = office.instrument(id)
    registered = one.registered
    ready = readiness(one, rules, now)
    due = now.astimezone(office.zone).date() + timedelta(days=registered.calibration_days if registered else 0)
    last = one.last_calibration
    strip = tuple(_strip(office, one, rules, now))
    return InstrumentView(
        id=id,
        title=say("bench_screen.title", id=id),
        about=_about(one),
        ready=ready.ready,
        out_of_service=one.out_of_service is not None,
        state=(
            say("bench_screen.ready_until", until=until_words(ready.until, now, office.zone))
            if ready.until is not None
            else say("bench_screen.not_ready")
        ),
        then=say(f"bench_screen.then.{ready.ends_with.id.removeprefix('bench.')}")
        if ready.ends_with is not None
        else "",
        mend=mend_of(ready),
        reasons=tuple((unfit.sentence.say(), unfit.clears.say(), unfit.rule) for unfit in ready.unfit),
        sensors=tuple(_sensor_line(sensor, one, rules) for sensor in one.sensors),
        last_test=_last_test(office, one, rules),
        strip=strip,
        strip_words=_strip_words(strip),
        limit_s=rules.alarm_within.total_seconds(),
        has_pump=registered is not None and registered.pump_l_min is not None,
        block_s=int(rules.block_within.total_seconds()),
        check_kind=rules.check,
        calibration_due=due,
        calibration_words=say(
            "bench_screen.calibrate.due", day=day_words(due), days=registered.calibration_days if registered else 0
        ),
        last_calibration=(
            say(
                "bench_screen.calibrated",
                day=day_words(last.at.astimezone(office.zone).date()),
                due=day_words(last.event.due),
            )
            if last is not None
            else say("bench_screen.calibrated_never")
        ),
    )


def _about(one: Instrument) -> str:
    registered = one.registered
    if registered is None:
        return ""
    kind = say("bench_screen.pumped" if registered.pump_l_min is not None else "bench_screen.diffusion")
    if registered.name == say("bench_screen.title", id=one.id):
        return say("bench_screen.about_plain", kind=kind, serial=registered.serial)
    return say("bench_screen.about", name=registered.name, kind=kind, serial=registered.serial)


def _sensor_line(sensor: Sensor, one: Instrument, rules: BenchRules) -> SensorLine:
    sets = [figure for figure in (sensor.alarm_low, sensor.alarm_high) if figure is not None]
    alarm_at = say("bench_screen.and", first=sets[0], second=sets[1]) if len(sets) == 2 else "".join(sets)
    test = one.last_bump.event if one.last_bump is not None else None
    result = next((r for r in test.results if r.gas == sensor.gas), None) if test is not None else None
    if test is None or result is None:
        return SensorLine(sensor.gas, gas_words(sensor.gas), sensor.unit, "", "", "", "", "", alarm_at, None)
    return SensorLine(
        sensor.gas,
        gas_words(sensor.gas),
        sensor.unit,
        result.applied,
        result.reading,
        _share(test, result),
        say("bench_screen.accept", low=str(rules.accept_low), high=str(rules.accept_high))
        if test.check == "calibration"
        else "",
        say("bench_screen.seconds", s=result.alarm_s) if result.alarm_s is not None else say("bench_screen.no_alarm"),
        alarm_at,
        not shortfalls(test, (sensor,), rules),
    )


def _share(test: BumpTested, result: SensorResult) -> str:
    applied = Decimal(result.applied)
    if test.check != "calibration" or not applied:
        return ""
    # Shown to a tenth; the sign beside it is judged on the exact figure.
    share = Decimal(result.reading) / applied * 100
    return say("bench_screen.share", share=str(share.quantize(Decimal("0.1"))))


def _last_test(office: Office, one: Instrument, rules: BenchRules) -> str:
    last = one.last_bump
    if last is None:
        return say("bench_screen.never_bumped")
    failed = bool(shortfalls(last.event, one.sensors, rules))
    at = last.at.astimezone(office.zone)
    return say(
        "bench_screen.last_test",
        kind=say(f"bench_screen.kind.{last.event.check}"),
        ended=say("bench_screen.failed" if failed else "bench_screen.passed"),
        day=day_words(at.date()),
        clock=clock(last.at, office.zone),
        name=office.names().get(last.by or "", last.by or say("bench_screen.station")),
        cylinder=last.event.cylinder.name,
        lot=last.event.cylinder.lot,
        expires=day_words(last.event.cylinder.expires),
    )


def _strip(office: Office, one: Instrument, rules: BenchRules, now: datetime) -> Iterable[DayMark]:
    today = now.astimezone(office.zone).date()
    for back in range(STRIP_DAYS - 1, -1, -1):
        day = today - timedelta(days=back)
        tests = [done for done in one.bumps if done.at.astimezone(office.zone).date() == day]
        if not tests:
            yield DayMark(day_words(day), False, False, None)
            continue
        # A day with a failure shows it, whatever came after; a pass under a clock declared wrong was never done.
        failed = [done for done in tests if shortfalls(done.event, one.sensors, rules)]
        tests = failed or [done for done in tests if not done.void]
        if not tests:
            yield DayMark(day_words(day), False, False, None)
            continue
        shown = failed[-1] if failed else tests[-1]
        times = [Decimal(r.alarm_s) if r.alarm_s is not None else None for r in shown.event.results]
        known = [time for time in times if time is not None]
        slowest = float(max(known)) if known and len(known) == len(times) else None
        yield DayMark(day_words(day), True, not failed, slowest)


def _strip_words(strip: tuple[DayMark, ...]) -> str:
    failed = [mark.day for mark in strip if mark.tested and not mark.passed]
    tested = sum(mark.tested for mark in strip)
    if failed:
        return say("bench_screen.strip_failed", tested=tested, days=", ".join(failed))
    return say("bench_screen.strip", tested=tested)


# What was typed -------------------------------------------------------------------------------------------------------

CHECKS = ("self-test", "heard", "seen", "felt", "display", "housing", "set-points")


def check_from(answers: Mapping[str, str], has_pump: bool) -> Filled[CheckedBeforeUse]:
    """The check before use as answered. Nothing unanswered is taken as passed; what failed is recorded as failed."""
    typed = Typed(answers)
    given = {key: typed.yes(key) for key in CHECKS}
    battery = typed.figure("battery")
    block = typed.one("block") if has_pump else NO_BLOCK
    if "block" in typed.troubles:
        typed.troubles["block"] = say("bench_screen.block.missing")
    place, why = typed.text("place"), typed.text("why-clean")
    before, after, beside = typed.figure("before"), typed.figure("after"), typed.yes("beside")
    if typed.troubles or battery is None or before is None or after is None or beside is None:
        return Filled(None, typed.troubles)
    air = FreshAir(place=place, why_clean=why, oxygen_before=before, oxygen_after=after, beside_portal=beside)
    check = CheckedBeforeUse(
        self_test=bool(given["self-test"]),
        alarm_heard=bool(given["heard"]),
        alarm_seen=bool(given["seen"]),
        alarm_felt=bool(given["felt"]),
        display_complete=bool(given["display"]),
        housing_sound=bool(given["housing"]),
        battery_h=battery,
        set_points_as_registered=bool(given["set-points"]),
        block_stopped_s=None if block == NO_BLOCK else block,
        fresh_air=air,
    )
    return Filled(check, {})


def cylinders(office: Office) -> tuple[Cylinder, ...]:
    """Cylinders used before, newest use first, each mark and lot once."""
    used: list[tuple[int, Cylinder]] = []
    for id in office.ids("instrument"):
        one = office.instrument(id)
        used += [(done.number, done.event.cylinder) for done in one.bumps]
        used += [(done.number, done.event.cylinder) for done in one.calibrations]
    found: dict[tuple[str, str], Cylinder] = {}
    for _number, cylinder in sorted(used, key=lambda pair: -pair[0]):
        found.setdefault((cylinder.name, cylinder.lot), cylinder)
    return tuple(found.values())


def cylinder_words(office: Office, cylinder: Cylinder) -> str:
    """A cylinder in one line, with the day it expires, and whether it has."""
    today = office.now().astimezone(office.zone).date()
    id = "bench_screen.cylinder.expired" if cylinder.expires < today else "bench_screen.cylinder.line"
    return say(id, name=cylinder.name, lot=cylinder.lot, day=day_words(cylinder.expires))


def _cylinder_from(typed: Typed, applied: Mapping[str, str | None]) -> Cylinder | None:
    name, lot, expires = typed.text("cylinder"), typed.text("lot"), typed.day("expires")
    if expires is None:
        return None
    gases = {gas: figure for gas, figure in applied.items() if figure is not None}
    return Cylinder(name=name, lot=lot, expires=expires, gases=gases)


def bump_from(
    answers: Mapping[str, str], sensors: tuple[Sensor, ...], check: Literal["function", "calibration"]
) -> Filled[BumpTested]:
    """The bump test as typed: for each sensor applied, read, and seconds to its alarm or 'no alarm'."""
    typed = Typed(answers)
    applied = {sensor.gas: typed.figure(f"{sensor.gas}.applied") for sensor in sensors}
    cylinder = _cylinder_from(typed, applied)
    results = []
    for sensor in sensors:
        reading = typed.figure(f"{sensor.gas}.reading")
        silent = answers.get(f"{sensor.gas}.silent", "") == "silent"
        seconds = None if silent else typed.figure(f"{sensor.gas}.seconds")
        given = applied[sensor.gas]
        if given is not None and reading is not None:
            results.append(SensorResult(gas=sensor.gas, applied=given, reading=reading, alarm_s=seconds))
    if typed.troubles or cylinder is None:
        return Filled(None, typed.troubles)
    return Filled(BumpTested(check=check, cylinder=cylinder, results=tuple(results)), {})


def calibration_from(answers: Mapping[str, str], sensors: tuple[Sensor, ...], due: date) -> Filled[Calibrated]:
    """The calibration as typed; it may fall due earlier than its interval says, never later."""
    typed = Typed(answers)
    applied = {sensor.gas: typed.figure(f"{sensor.gas}.applied") for sensor in sensors}
    cylinder = _cylinder_from(typed, applied)
    results = []
    for sensor in sensors:
        found, left = typed.figure(f"{sensor.gas}.found"), typed.figure(f"{sensor.gas}.left")
        given = applied[sensor.gas]
        if given is not None and found is not None and left is not None:
            results.append(SpanResult(gas=sensor.gas, applied=given, as_found=found, as_left=left))
    passed = typed.yes("passed")
    earlier = typed.day("due", needed=False)
    if earlier is not None and earlier > due:
        typed.troubles["due"] = say("bench_screen.calibrate.later", day=day_words(due))
    if typed.troubles or cylinder is None or passed is None:
        return Filled(None, typed.troubles)
    made = Calibrated(cylinder=cylinder, results=tuple(results), passed=passed, due=earlier or due)
    return Filled(made, {})


Cause = Literal["dropped", "poisoned", "over-range", "sensor-changed", "check-failed"]
CAUSES: tuple[Cause, ...] = get_args(Cause)


def cause_words(cause: str) -> str:
    """What ended a bump test early."""
    return say(f"bench.voided.{cause}")


def voided_from(answers: Mapping[str, str]) -> Filled[TestVoided]:
    """What happened to the instrument, and a note."""
    typed = Typed(answers)
    given, note = typed.one("cause"), typed.text("note", needed=False)
    cause = next((known for known in CAUSES if known == given), None)
    if cause is None:
        return Filled(None, typed.troubles)
    return Filled(TestVoided(cause=cause, note=note), {})
