"""The instruments of the permit: are there any, are they ready, can they see, do they last."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal

from lamproom.air.limits import Limit, looser
from lamproom.bench.bump import gas_name
from lamproom.bench.events import Sensor
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.form import LimitLine, read_form
from lamproom.permit.obstacles.atmosphere import unseen
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.state import Assigned, held_tight
from lamproom.permit.words import clock
from lamproom.words import sentence

LONGEST_BATTERY = Decimal(1000)
"""Hours; more than this is a slip of the hand and counts as this much."""
GUIDANCE = "agency bulletin on direct-reading instruments"


def found(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    testing = permit.assigned("test")
    if not testing:
        yield Found(
            "no-instrument",
            sentence("permit.no_instrument"),
            "29 CFR 1910.146(d)(4)(i)",
            sentence("permit.clears.assign"),
            "instruments/assign",
        )
    for one in (*testing, *permit.assigned("worn")):
        yield from _ready(facts, one)
        yield from _set_points(facts, one)
    for one in testing:
        yield from _hose(one)
    yield from _worn_elsewhere(facts)
    yield from _continuous(facts)
    yield from lost(facts)
    yield from unseen(facts)


def _worn_elsewhere(facts: Facts) -> Iterator[Found]:
    """An instrument worn in another space cannot watch the air here."""
    for one in facts.permit.assigned("worn"):
        other = next((other for other in facts.others if one.instrument in other.worn), None)
        if other is not None:
            yield Found(
                "worn-elsewhere",
                sentence("permit.worn_elsewhere", name=one.registered.name, number=other.number),
                "29 CFR 1910.146(d)(5)(i)",
                sentence("permit.clears.worn_elsewhere", name=one.registered.name),
                "instruments/assign",
                one.instrument,
            )


def _ready(facts: Facts, one: Assigned) -> Iterator[Found]:
    permit = facts.permit
    readiness = facts.ready(one.instrument)
    name = one.registered.name
    for reason in readiness.unfit:
        yield Found(
            "instrument-not-ready",
            sentence("permit.instrument_not_ready", name=name, why=reason.sentence),
            reason.rule,
            reason.clears,
            f"bench/{one.instrument}",
            f"{one.instrument}/{reason.code}",
        )
    ends = permit.hours.ends if permit.hours is not None else None
    known = facts.instruments.get(one.instrument)
    if known is not None and known.check is not None and ends is not None:
        lasts = known.check.at + timedelta(hours=float(min(Decimal(known.check.event.battery_h), LONGEST_BATTERY)))
        if lasts < ends:
            yield Found(
                "battery-short",
                sentence(
                    "permit.battery_short", name=name, until=clock(lasts, permit.zone), ends=clock(ends, permit.zone)
                ),
                "common practice",
                sentence("permit.clears.battery"),
                f"bench/{one.instrument}",
                one.instrument,
            )


def _set_points(facts: Facts, one: Assigned) -> Iterator[Found]:
    """An alarm that sounds only past the permit's figure warns too late."""
    whole = read_form(facts.permit.opened.form)  # half limits decide whether to go in, not when an alarm must sound
    for sensor in one.registered.sensors:
        line = whole.limit(sensor.gas)
        if line is not None and _sounds_late(sensor, line):
            yield Found(
                "set-point-above",
                sentence("permit.set_point_above", name=one.registered.name, gas=gas_name(sensor.gas)),
                "site rule",
                sentence("permit.clears.set_point"),
                f"bench/{one.instrument}",
                f"{one.instrument}/{sensor.gas}",
            )


def _sounds_late(sensor: Sensor, line: LimitLine) -> bool:
    """Would some reading be outside the permit's figure without an alarm? So too without a set point to compare."""
    low = Decimal(sensor.alarm_low) if sensor.alarm_low is not None else None
    high = Decimal(sensor.alarm_high) if sensor.alarm_high is not None else None
    if sensor.unit != line.unit or (low is None and high is None):
        return True
    if low is not None and high is not None and low > high:
        return True
    points = Limit(sensor.gas, line.unit, low, high, line.fails_at_low, line.fails_at_high, line.basis)
    return looser(points, line.limit())


def _hose(one: Assigned) -> Iterator[Found]:
    """A joined hose is blocked at its far end before the first point: a leak at the joint draws the portal's air."""
    if one.registered.pump_l_min is None or one.hose_m is None:
        return
    tested = one.hose_tested
    event = tested.event if tested is not None else None
    if not isinstance(event, e.HoseTested) or not held_tight(event):
        yield Found(
            "hose-not-tested",
            sentence("permit.hose_not_tested", name=one.registered.name),
            "common practice",
            sentence("permit.clears.hose"),
            f"instruments/hose/{one.instrument}",
            one.instrument,
        )


def _continuous(facts: Facts) -> Iterator[Found]:
    """A space that cannot be isolated is monitored continuously where people work: 1910.146(d)(5)(i)."""
    permit = facts.permit
    if permit.opened.evaluated.unisolable is None:
        return
    ready = [one for one in permit.assigned("worn") if facts.ready(one.instrument).ready]
    if not ready:
        yield Found(
            "not-continuous",
            sentence("permit.not_continuous", why=permit.opened.evaluated.unisolable),
            "29 CFR 1910.146(d)(5)(i)",
            sentence("permit.clears.worn"),
            "instruments/assign",
        )


def lost(facts: Facts) -> Iterator[Found]:
    """Lost means failed, dropped, flat or withdrawn; readiness that lapses by time keeps earlier readings standing."""
    permit = facts.permit
    if not permit.running:
        return
    gone = [one for one in permit.instruments.values() if _is_lost(facts, one)]
    if not gone:
        return
    serving = [one for one in permit.assigned("test") if one not in gone]
    if not serving:
        yield Found(
            "instrument-lost",
            sentence("permit.instrument_lost", name=gone[-1].registered.name),
            "29 CFR 1910.146(d)(5)(ii)",
            sentence("permit.clears.assign"),
            "instruments/assign",
        )
    if permit.opened.evaluated.unisolable is not None and not [o for o in permit.assigned("worn") if o not in gone]:
        yield Found(
            "continuous-lost",
            sentence("permit.continuous_lost", name=gone[-1].registered.name),
            "29 CFR 1910.146(d)(5)(i)",
            sentence("permit.clears.worn"),
            "instruments/assign",
        )


def _is_lost(facts: Facts, one: Assigned) -> bool:
    if one.returned is not None and isinstance(one.returned.event, e.InstrumentReturned):
        # Given back in good order it is lost to those who are inside all the same.
        return one.returned.event.why in ("failed", "dropped", "battery-flat") or bool(facts.permit.tally.inside)
    failures = {"out-of-service", "bump-failed", "calibration-failed", "bump-voided", "check-failed"}
    return any(reason.code in failures for reason in facts.ready(one.instrument).unfit)
