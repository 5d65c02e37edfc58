"""How a state, a figure, a limit and a time are said: the same on screen, page and command line."""

from __future__ import annotations

from datetime import datetime
from enum import Enum
from zoneinfo import ZoneInfo

from lamproom.bench.bump import gas_name
from lamproom.permit import events as e
from lamproom.permit.form import LimitLine
from lamproom.permit.state import OUTSIDE, Permit, Stop, outside
from lamproom.words import Sentence, sentence


class State(Enum):
    """The one word for a permit at a moment; computed, never stored."""

    DRAFT = "draft"
    READY = "ready"
    WAITS = "waits"
    ALLOWED = "allowed"
    DUE = "due"
    LATE = "late"
    REFUSED = "refused"
    OUT = "out"
    BREAK = "break"
    EXPIRED = "expired"
    ENDED = "ended"
    CLOSED = "closed"


def clock(at: datetime, zone: ZoneInfo) -> str:
    """A time of day on the site's wall: 24 h, no seconds."""
    return at.astimezone(zone).strftime("%H:%M")


def day_and_clock(at: datetime, zone: ZoneInfo) -> str:
    """Day and time with offset, unambiguous in every country: 25 Nov 2026, 09:42 -06:00."""
    local = at.astimezone(zone)
    offset = local.strftime("%z")
    sign = "\u2212" if offset.startswith("-") else "+"
    return f"{local.day} {local.strftime('%b %Y, %H:%M')} {sign}{offset[1:3]}:{offset[3:5]}"


def figure_words(figure: e.Figure) -> Sentence:
    """A figure with its unit, or the words for not measured, fault and over range: four different things."""
    if figure.state == "measured" and figure.figure is not None:
        return sentence("permit.figure.measured", figure=figure.figure, unit=figure.unit)
    return sentence(f"permit.figure.{figure.state}")


def limit_words(line: LimitLine) -> Sentence:
    """A limit as it is said: '19.5 to 23.5 % vol', 'below 10 % LEL'."""
    if line.low is not None and line.high is not None:
        return sentence("permit.limit.band", low=line.low, high=line.high, unit=line.unit)
    if line.high is not None:
        return sentence(
            "permit.limit.below" if line.fails_at_high else "permit.limit.up_to", high=line.high, unit=line.unit
        )
    return sentence("permit.limit.above", low=line.low or "", unit=line.unit)


def place_words(phase: str, point_m: str | None) -> Sentence:
    """Where a set was taken: at a depth, through the lid, upwind."""
    if phase in OUTSIDE:
        return sentence(f"permit.place.{phase}")
    return sentence("permit.place.depth", depth=point_m) if point_m else sentence("permit.place.inside")


STOP_CAUSES = frozenset(
    {"pressed", "retest-overdue", "ventilation-stopped", "unaccounted", "instrument-lost", "continuous-lost"}
    | {"isolation-released", "new-hazard"}
)
"""What the tool itself calls a cause; every other is a condition of the form, or the words in which it was told."""


def stop_words(permit: Permit, stop: Stop) -> Sentence:
    """Why a stop was ordered."""
    if stop.cause == "reading":
        from_set = next((s for s in permit.sets if s.version == stop.set_version), None)
        if from_set is not None:
            first = next(iter(outside(permit.form, from_set.event.figures)), None)
            if first is not None:
                return sentence("permit.stop.reading", gas=gas_name(first.gas), figure=figure_words(first))
        return sentence("permit.stop.reading_corrected")
    line = permit.form.condition(stop.cause)
    if line is not None:
        return sentence("permit.said", text=line.words)
    if stop.cause in STOP_CAUSES:
        return sentence(f"permit.stop.{stop.cause}")
    return sentence("permit.said", text=stop.cause)


WAITING = frozenset({"not-begun", "nobody-on-watch"})
"""What bars the next person in between authorizing and the first step, on the best of days."""


def state_of(
    permit: Permit,
    at: datetime,
    barred: frozenset[str],
    due: datetime | None,
    late: datetime | None,
    codes: frozenset[str] = frozenset(),
) -> State:
    """The word for a permit at a moment, given the stages that obstacles bar and when its next set falls due.

    ``codes`` are the obstacles that bar the next person in: where only the hours and the watch have yet to begin,
    nothing is refused, the permit waits.
    """
    if permit.closed_out is not None:
        return State.CLOSED
    if permit.ended is not None:
        return State.OUT if permit.tally.inside else State.ENDED
    if permit.authorised is None:
        if permit.tally.inside:
            return State.OUT
        return State.DRAFT if "authorise" in barred else State.READY
    if permit.stop is not None or ("stay" in barred and permit.tally.inside):
        return State.OUT
    if permit.until is not None and at >= permit.until:
        return State.EXPIRED
    if permit.pause is not None:
        return State.BREAK
    if late is not None and at > late and permit.tally.inside:
        return State.LATE
    if "enter" in barred:
        return State.WAITS if codes and codes <= WAITING else State.REFUSED
    if due is not None and at >= due:
        return State.DUE
    return State.ALLOWED
