"""The sheet 'instruments': which are ready and until when, which serve this permit, and whether the hose is tight."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from lamproom.bench.bump import gas_name
from lamproom.bench.readiness import Readiness, readiness
from lamproom.bench.state import Instrument
from lamproom.office.office import Office
from lamproom.office.views.recorded import who_and_when
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles import obstacles
from lamproom.permit.state import Assigned
from lamproom.permit.words import clock
from lamproom.words import say

_LEAST_AXIS = timedelta(hours=8)


@dataclass(frozen=True, slots=True)
class InstrumentRow:
    """One instrument. ``until`` in seconds since the epoch, None when it is not ready; ``reasons`` say why not and
    what mends it.

    ``duty`` is 'test', 'worn' or empty; ``serving`` says it in words with the hose; ``hose`` is the registered length,
    empty where there is none; ``pumped`` whether a hose can be joined. ``leak_test``: it has a joined hose, whose far
    end is blocked once; ``hose_test`` says how that went, empty before it; ``hose_open`` whether one is still wanted.
    """

    id: str
    name: str
    sensors: str
    until: float | None
    ready_words: str
    reasons: tuple[str, ...]
    duty: str
    serving: str
    note: str
    pumped: bool
    hose: str
    leak_test: bool
    hose_test: str
    hose_open: bool


@dataclass(frozen=True, slots=True)
class InstrumentsSheetView:
    """``now`` and ``end`` bound the shared axis (seconds since the epoch); ``marks`` are its named times; ``asked``
    what this permit needs."""

    now: float
    end: float
    marks: tuple[tuple[float, str], ...]
    asked: str
    rows: tuple[InstrumentRow, ...]
    ended: str


def instruments_sheet(office: Office, number: str) -> InstrumentsSheetView:
    """The sheet as it stands: the ready ones first, each group by name. Refused when there is no such permit."""
    facts = office.facts(number)
    permit = facts.permit
    hours = permit.hours
    known = [office.instrument(id) for id in office.ids("instrument")]
    rows = [_row(facts, one) for one in known if one.registered is not None]
    ends = [(facts.at + _LEAST_AXIS).timestamp(), *(row.until for row in rows if row.until is not None)]
    if hours is not None:
        ends.append(hours.ends.timestamp())
    marks = [(facts.at.timestamp(), say("workbook.now"))]
    if hours is not None and hours.ends > facts.at:
        marks.append((hours.ends.timestamp(), say("workbook.instruments.ends", time=clock(hours.ends, permit.zone))))
    unisolable = permit.opened.evaluated.unisolable is not None
    return InstrumentsSheetView(
        now=facts.at.timestamp(),
        end=max(ends),
        marks=tuple(marks),
        asked=say("workbook.instruments.asked_worn" if unisolable else "workbook.instruments.asked"),
        rows=tuple(sorted(rows, key=lambda row: (row.until is None, row.name))),
        ended=say("office.ended", number=number) if permit.ended is not None else "",
    )


def _row(facts: Facts, one: Instrument) -> InstrumentRow:
    registered = one.registered
    assert registered is not None
    ready = readiness(one, facts.rules, facts.at)
    assigned = facts.permit.instruments.get(one.id)
    serving = assigned if assigned is not None and assigned.returned is None else None
    gases = [gas_name(sensor.gas).say() for sensor in registered.sensors]
    sensors = ", ".join([*gases[:1], *(gas.lower() for gas in gases[1:])])
    pumped = registered.pump_l_min is not None
    return InstrumentRow(
        id=one.id,
        name=registered.name,
        sensors=say("workbook.instruments.pumped", sensors=sensors, flow=registered.pump_l_min or "")
        if pumped
        else say("workbook.instruments.diffusion", sensors=sensors),
        until=ready.until.timestamp() if ready.until is not None else None,
        ready_words=_ready_words(facts, ready),
        reasons=tuple(f"{reason.sentence} {reason.clears}" for reason in ready.unfit),
        duty=serving.duty if serving is not None else "",
        serving=_serving(serving),
        note=clock(serving.at, facts.permit.zone) if serving is not None else "",
        pumped=pumped,
        hose=registered.hose_m or "",
        leak_test=pumped and serving is not None and serving.duty == "test" and serving.hose_m is not None,
        hose_test=_hose_test(facts, serving),
        hose_open=_hose_open(facts, one.id),
    )


def _ready_words(facts: Facts, ready: Readiness) -> str:
    if ready.until is None:
        return say("workbook.instruments.not_ready")
    zone = facts.permit.zone
    if _day(ready.until, facts) == _day(facts.at, facts):
        return say("workbook.instruments.ready", until=clock(ready.until, zone))
    day = ready.until.astimezone(zone).strftime("%a")
    return say("workbook.instruments.ready_day", until=clock(ready.until, zone), day=day)


def _day(at: datetime, facts: Facts) -> str:
    return at.astimezone(facts.permit.zone).date().isoformat()


def _serving(one: Assigned | None) -> str:
    if one is None:
        return ""
    if one.duty == "worn":
        return say("workbook.instruments.worn")
    if one.hose_m is None:
        return say("workbook.instruments.tests")
    return say("workbook.instruments.tests_hose", hose=one.hose_m)


def _hose_test(facts: Facts, one: Assigned | None) -> str:
    event = one.hose_tested.event if one is not None and one.hose_tested is not None else None
    if one is None or not isinstance(event, e.HoseTested):
        return ""
    note = who_and_when(facts, one.hose_tested)
    if event.stopped_s is None:
        return say("workbook.hose.did_not", note=note)
    return say("workbook.hose.stopped", seconds=event.stopped_s, note=note)


def _hose_open(facts: Facts, instrument: str) -> bool:
    target = f"instruments/hose/{instrument}"
    return any(obstacle.target == target for obstacle in obstacles(facts))
