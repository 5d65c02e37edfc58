"""Take a set of readings at one point."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from lamproom.air.figures import canonical, read_figure
from lamproom.air.humidity import Moist, water_vapor
from lamproom.office.latch_stop import latch_stop
from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence

LONGEST_AGO = timedelta(hours=12)
"""A reading noted longer ago than this belongs to another day's paper, not to this permit."""


def take_readings(
    office: Office,
    permit: str,
    phase: e.Phase,
    point_m: str | None,
    instrument: str,
    figures: Sequence[e.Figure],
    *,
    by: str | None,
    lowered: datetime | None = None,
    taken: datetime | None = None,
    called_in_by: str | None = None,
    as_typed: bool = False,
    celsius: str | None = None,
    humidity: str | None = None,
    act: str | None = None,
) -> None:
    """Record the worst values seen during the hold. ``taken`` None means now; times from a watch are checked later.

    ``celsius`` and ``humidity`` (%) are the air's at that place, both or none.

    Refused: no figure at all, a time that lies ahead, or one that lies before the probe came to rest, a temperature or
    humidity that no air has. Never refused: a figure outside a limit, an early one, or one of an instrument that is not
    ready. Those count against entry.
    """
    if act is not None and office.journal.act(act):
        return
    now = office.now()
    moment = taken or now
    if point_m is not None:
        point_m = canonical(read_figure(point_m))
    if not any(_says_something(figure) for figure in figures):
        raise Refusal(sentence("office.no_figures"))
    if moment > now + timedelta(minutes=1) or moment < now - LONGEST_AGO:
        raise Refusal(sentence("office.taken_ahead"))
    if lowered is not None and lowered > moment:
        raise Refusal(sentence("office.lowered_after"))
    if celsius is not None and humidity is not None:
        _check_air(celsius, humidity)
    event = e.ReadingsTaken(
        phase=phase,
        point_m=point_m,
        instrument=instrument,
        lowered=lowered,
        taken=moment,
        figures=tuple(figures),
        called_in_by=called_in_by,
        as_typed=as_typed,
        temperature_c=celsius,
        humidity_pct=humidity,
    )
    on_permit(office, permit, event, by=by, act=act)
    latch_stop(office, permit, act)


def _check_air(celsius: str, humidity: str) -> None:
    air = Moist(read_figure(celsius), read_figure(humidity))
    water_vapor(air, air)


def _says_something(figure: e.Figure) -> bool:
    return figure.figure is not None if figure.state == "measured" else figure.state != "not-measured"
