"""Instruments that test on a permit, and how long each must rest at a point before its figures count."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from lamproom.air.sampling import hose_delay
from lamproom.air.working import Working
from lamproom.office.views.air_tends import Tend, tends_page
from lamproom.office.views.working_slip import SlipPage, Step, page_of
from lamproom.permit.facts import hold, points_working, wait_of
from lamproom.permit.state import Assigned, Permit
from lamproom.words import Refusal, say, say_count


@dataclass(frozen=True, slots=True)
class TesterChoice:
    """An instrument assigned to test. ``parts``: the wait in its parts (name, seconds); ``hold_s`` None where the
    register does not say enough, with ``why``. ``pages``: the wait, why the points are where
    they are, and where vapors tend."""

    instrument: str
    name: str
    words: str
    hold_s: int | None
    parts: tuple[tuple[str, float], ...]
    pages: tuple[SlipPage, ...]
    why: str


def tester_of(permit: Permit, one: Assigned, tends: tuple[Tend, ...] = ()) -> TesterChoice:
    seconds = hold(permit, one)
    registered = one.registered
    if registered.pump_l_min and one.hose_m:
        words = say(
            "sheets.air.pumped",
            name=registered.name,
            flow=registered.pump_l_min,
            hose=one.hose_m,
            bore=registered.bore_mm or "?",
        )
    else:
        words = say("sheets.air.diffusion", name=registered.name)
    why = "" if seconds is not None else say("sheets.air.no_hold", name=registered.name)
    parts = _parts(permit, one) if seconds is not None else ()
    waited = wait_of(permit, one) if seconds is not None else None
    pages: tuple[SlipPage, ...] = (_wait_page(permit, one, parts, waited),) if waited is not None else ()
    whole = int(seconds) if seconds is not None else None
    return TesterChoice(
        one.instrument, registered.name, words, whole, parts, (*pages, *_points_page(permit), *tends_page(tends)), why
    )


def _wait_page(permit: Permit, one: Assigned, parts: tuple[tuple[str, float], ...], waited: Working) -> SlipPage:
    steps = _steps(permit, one, parts, str(waited.result))
    title, name = say("sheets.air.wait_title"), say("workings.test.wait")
    return SlipPage(name, title, steps, source=waited.source, aside=waited.validity, workings=(waited,))


def _points_page(permit: Permit) -> Iterator[SlipPage]:
    planned = points_working(permit)
    if planned is not None:
        yield page_of(planned, say("workings.test.points"), say("workings.test.points_title"))


def _steps(permit: Permit, one: Assigned, parts: tuple[tuple[str, float], ...], seconds: str) -> tuple[Step, ...]:
    """The wait as a working: each part with what it comes from, then the whole."""
    registered = one.registered
    hows = {
        say("sheets.air.part_hose"): say(
            "sheets.air.hose_how",
            hose=one.hose_m or "",
            bore=registered.bore_mm or "",
            flow=registered.pump_l_min or "",
        ),
        say("sheets.air.part_flush"): say_count("sheets.air.flush_how", permit.form.points.flushes),
        say("sheets.air.part_sensor"): say("sheets.air.sensor_how"),
    }
    lines = [Step(hows[name], "", say("sheets.air.seconds", seconds=f"{length:g}")) for name, length in parts]
    rounded = say("sheets.air.rounded_up") if len(parts) > 1 else ""
    return (*lines, Step(say("sheets.air.whole_wait"), rounded, say("sheets.air.seconds", seconds=seconds), total=True))


def _parts(permit: Permit, one: Assigned) -> tuple[tuple[str, float], ...]:
    registered = one.registered
    slowest = max(float(sensor.response_s) for sensor in registered.sensors)
    sensor = (say("sheets.air.part_sensor"), slowest)
    if not (registered.pump_l_min and one.hose_m and registered.bore_mm):
        return (sensor,)
    try:
        hose = float(
            hose_delay(Decimal(one.hose_m), Decimal(registered.bore_mm), Decimal(registered.pump_l_min)).result
        )
    except Refusal:
        return (sensor,)  # the figures cannot be; then there is no hold either and the sheet says why
    flush = hose * permit.form.points.flushes
    return ((say("sheets.air.part_hose"), hose), (say("sheets.air.part_flush"), flush), sensor)
