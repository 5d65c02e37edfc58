"""What those inside have taken in: means over the shift, of the space's readings. Averages only ever add obstacles."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from decimal import Decimal
from functools import cache

from lamproom.air.exposure import Stay, exposure
from lamproom.air.figures import shown
from lamproom.air.leave_by import leave_by
from lamproom.air.long_shifts import daily_limit
from lamproom.air.means import Nearness, nearness
from lamproom.air.series import Series, series
from lamproom.air.substances import ExposureLimit
from lamproom.air.working import Unworkable
from lamproom.bench.bump import gas_name
from lamproom.permit.facts import Facts
from lamproom.permit.form import LimitLine
from lamproom.permit.gas_limits import substance_of
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.state import in_unit, where_people_work
from lamproom.permit.words import clock
from lamproom.words import Sentence, sentence

RULE = "29 CFR 1910.1000(d)(1)"
SHIFT = Decimal(480)
"""Minutes that a shift mean is taken over, whatever the length of the shift: 29 CFR 1910.1000(d)(1)(i)."""
HALF = Decimal("0.5")
HOUR = timedelta(hours=1)


def found(facts: Facts) -> Iterator[Found]:
    """Means that come near their limit bar the next person in; one that reaches it calls everyone out."""
    if not facts.permit.tally.trips:
        return
    for line in facts.permit.form.limits:
        limit = _mean_limit(line.gas) if line.unit == "ppm" else None
        if limit is not None:
            yield from _judged(facts, line, limit)


@cache
def _mean_limit(gas: str) -> ExposureLimit | None:
    """The law's mean over the shift for a gas; None where it has only a ceiling, or nothing."""
    known = substance_of(gas)
    lawful = known.limits if known is not None else ()
    return next((one for one in lawful if one.adopter == "OSHA" and one.kind == "TWA"), None)


def _judged(facts: Facts, line: LimitLine, limit: ExposureLimit) -> Iterator[Found]:
    times = facts.once("periods", None, lambda: periods(facts))
    minutes = sum(((until or facts.at) - since) / timedelta(minutes=1) for since, until in times)
    allowed = _for_hours(facts, limit.ppm.value)
    peak = facts.permit.peaks.get(line.gas, Decimal(0))
    if peak * Decimal(str(minutes)) < allowed * HALF * SHIFT:  # most days end here
        return
    readings = _readings(facts, line)
    if not readings:
        return
    air: Series = series(line.gas, readings)
    stays = [Stay(air, since, until) for since, until in times]
    mean = exposure(stays, facts.at).shift.result
    near = nearness(mean, allowed)
    if near not in (Nearness.REACHED, Nearness.APPROACHING):
        return
    said: dict[str, str | int | Sentence] = {"gas": gas_name(line.gas), "mean": f"{Decimal(mean):.3g}"}
    said["limit"] = shown(f"{allowed.normalize():f}")
    said["hours"] = str(_hours(facts))
    out = leave_by(stays, facts.at, allowed).at
    if near is Nearness.REACHED:
        yield Found(
            "exposure-over",
            sentence("permit.exposure_over", **said),
            RULE,
            sentence("permit.clears.exposure_over"),
            "air-test/points",
            line.gas,
        )
    else:
        yield Found(
            "exposure-near",
            sentence("permit.exposure_near", **said),
            RULE,
            sentence("permit.clears.exposure_near", time=clock(out, facts.permit.zone))
            if out is not None
            else sentence("permit.clears.exposure_far"),
            "air-test/points",
            line.gas,
        )


def _readings(facts: Facts, line: LimitLine) -> list[tuple[datetime, Decimal]]:
    """Every figure of the gas where people work, whoever took it: what does not count for entry counts against it."""
    told = []
    for one in facts.permit.sets:
        figure = one.figure(line.gas)
        value = in_unit(figure, line) if figure is not None else None
        if value is not None and not one.void and where_people_work(facts.permit, one):
            told.append((one.event.taken, value))
    return told


def periods(facts: Facts) -> list[tuple[datetime, datetime | None]]:
    """When somebody was inside, without overlaps; the last one open while somebody still is."""
    spans = sorted(((trip.came_in, trip.went_out) for trip in facts.permit.tally.trips), key=lambda span: span[0])
    merged: list[tuple[datetime, datetime | None]] = []
    for since, until in spans:
        last = merged[-1] if merged else None
        if last is not None and (last[1] is None or since <= last[1]):
            ends = (last[1], until)
            merged[-1] = (last[0], None if None in ends else max(end for end in ends if end is not None))
        elif until is None or until > since:
            merged.append((since, until))
    return merged


def _hours(facts: Facts) -> Decimal:
    """The length of the shift that the permit plans, in hours rounded up, 8 at the least."""
    permit = facts.permit
    begins = permit.authorised.at if permit.authorised is not None else facts.at
    ends = permit.until or (permit.hours.ends if permit.hours is not None else None)
    if ends is None or ends <= begins:
        return Decimal(8)
    return max(Decimal(8), Decimal(-((begins - ends) // HOUR)))


def _for_hours(facts: Facts, limit: Decimal) -> Decimal:
    """The limit of the shift, less for one longer than 8 h: Brief and Scala (1975)."""
    try:
        return Decimal(daily_limit(limit, _hours(facts)).result)
    except Unworkable:
        return limit
