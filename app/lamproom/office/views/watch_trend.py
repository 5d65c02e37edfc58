"""Where the readings at each place are heading, and which cannot be: quiet words beside the plot, never an alarm."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal

from lamproom.air.flammable import percent_lel_to_vol
from lamproom.air.oxygen import FRESH_AIR
from lamproom.air.trend import SAME_RUN, Toward, cannot_be, disagree, toward, unmoved
from lamproom.air.working import Unworkable, Working
from lamproom.bench.bump import gas_name
from lamproom.bench.events import Sensor
from lamproom.office.amount import amount
from lamproom.office.views.cautions import CautionLine
from lamproom.permit.facts import Facts
from lamproom.permit.form import LimitLine
from lamproom.permit.obstacles.atmosphere import base_oxygen
from lamproom.permit.state import OUTSIDE, ReadingSet, in_unit
from lamproom.permit.words import clock, figure_words, place_words
from lamproom.words import Sentence, say, sentence

LAST = 3
"""So many sets at a place are looked at: the newest and the two before, as the word beside the figure is."""
STILL = 2
"""Steps of the display around clean air within which equal figures are ordinary: common practice."""
_RULE = "common practice"


@dataclass(frozen=True, slots=True)
class TrendLine:
    """A line about the trend with the working of its figure, where it has one."""

    words: str
    code: str
    working: Working | None = None


def trend_cautions(facts: Facts) -> tuple[CautionLine, ...]:
    """The lines as cautions: what is heading for a limit first."""
    return tuple(CautionLine(one.code, one.words, _RULE) for one in trend_lines(facts))


def trend_lines(facts: Facts) -> tuple[TrendLine, ...]:
    """Rising or falling toward a limit with when; then jumps, sensors that disagree, figures that do not move."""
    heading: list[TrendLine] = []
    odd: list[TrendLine] = []
    for sets in _by_place(facts):
        for line in facts.permit.form.limits:
            heading += _heading(facts, sets, line)
            odd += _odd(sets, line)
        odd += _disagreeing(facts, sets[-1])
    return (*heading, *odd)


def _by_place(facts: Facts) -> Iterator[tuple[ReadingSet, ...]]:
    """The newest sets of each place inside, oldest first, all since the air was last changed on purpose."""
    places: dict[Decimal | None, list[ReadingSet]] = {}
    for one in facts.permit.sets:
        if one.event.phase not in OUTSIDE and not one.void and one.version > facts.permit.counts_from:
            place = Decimal(one.event.point_m) if one.event.point_m is not None else None
            places.setdefault(place, []).append(one)
    for sets in places.values():
        yield tuple(sorted(sets, key=lambda one: (one.event.taken, one.version))[-LAST:])


def _levels(sets: tuple[ReadingSet, ...], line: LimitLine) -> list[tuple[datetime, Decimal]]:
    """Moment and level in the limit's unit, up to the newest; a set without this gas breaks the row."""
    found: list[tuple[datetime, Decimal]] = []
    for one in sets:
        figure = one.figure(line.gas)
        level = in_unit(figure, line) if figure is not None else None
        found = [*found, (one.event.taken, level)] if level is not None else []
    return found


def _sensor(one: ReadingSet, gas: str) -> Sensor | None:
    sensors = one.assigned.registered.sensors if one.assigned is not None else ()
    return next((sensor for sensor in sensors if sensor.gas == gas), None)


def toward_limit(sets: tuple[ReadingSet, ...], line: LimitLine) -> Toward | None:
    """Where the last three levels of a gas at a place are heading; None with fewer, or with no display known."""
    levels, sensor = _levels(sets, line), _sensor(sets[-1], line.gas)
    if len(levels) < LAST or sensor is None or Decimal(sensor.resolution) <= 0:
        return None
    try:
        return toward(levels, line.limit(), Decimal(sensor.resolution))
    except Unworkable:
        return None


def _heading(facts: Facts, sets: tuple[ReadingSet, ...], line: LimitLine) -> Iterator[TrendLine]:
    """Only what gets there before the permit ends: a slow drift within its band is no news."""
    found = toward_limit(sets, line)
    ends = facts.permit.until or facts.at + timedelta(hours=8)
    if found is None or not found.toward or found.at is None or found.at > ends:
        return
    bound = line.low if line.gas == "oxygen" and found.direction.value == "falling" else line.high
    key = "by_now" if found.at <= facts.at else found.direction.value
    words = say(
        f"workings.trend.{key}",
        gas=gas_name(line.gas),
        place=_place(sets[-1]),
        limit=amount(bound or "", line.unit),
        time=clock(found.at, facts.permit.zone),
    )
    yield TrendLine(words, "heading", found.working)


def _odd(sets: tuple[ReadingSet, ...], line: LimitLine) -> Iterator[TrendLine]:
    newest, sensor, levels = sets[-1], _sensor(sets[-1], line.gas), _levels(sets, line)
    figure = newest.figure(line.gas)
    if sensor is None or figure is None or not levels or figure.unit != sensor.unit or line.unit != sensor.unit:
        return
    said: dict[str, Sentence | str] = {
        "gas": gas_name(line.gas),
        "place": _place(newest),
        "figure": figure_words(figure),
    }
    step = Decimal(sensor.resolution)
    clean = FRESH_AIR if line.gas == "oxygen" else Decimal(0)
    if len(levels) >= SAME_RUN and unmoved([level for _at, level in levels], clean, STILL * step):
        yield TrendLine(sentence("workings.trend.unmoved", n=str(SAME_RUN), **said).say(), "unmoved")
    if len(levels) > 1 and len(sets) > 1 and newest.event.instrument == sets[-2].event.instrument:
        (before_at, before), (at, now) = levels[-2:]
        seconds = Decimal((at - before_at) / timedelta(seconds=1))
        if _jumped(before, now, seconds, sensor, step):
            yield TrendLine(sentence("workings.trend.jump", before=amount(before, line.unit), **said).say(), "jump")


def _jumped(before: Decimal, now: Decimal, seconds: Decimal, sensor: Sensor, step: Decimal) -> bool:
    try:
        return cannot_be(before, now, seconds, Decimal(sensor.response_s), Decimal(sensor.range_high), step=step)
    except Unworkable:
        return False


def _disagreeing(facts: Facts, one: ReadingSet) -> Iterator[TrendLine]:
    """More oxygen than so much flammable gas can leave: one of the two sensors is wrong."""
    line, gas, oxygen = facts.permit.form.limit("flammable"), one.figure("flammable"), one.figure("oxygen")
    base = base_oxygen(facts, one.event.instrument)
    level = in_unit(gas, line) if gas is not None and line is not None else None
    if line is None or line.lel_vol is None or level is None or gas is None or oxygen is None or base is None:
        return
    if oxygen.figure is None or line.unit != "% LEL":
        return
    tolerance = Decimal(facts.permit.form.unaccounted.tolerance)
    volume = percent_lel_to_vol(level, Decimal(line.lel_vol))
    if disagree(Decimal(oxygen.figure), volume, tolerance, base):
        words = say(
            "workings.trend.disagree", place=_place(one), oxygen=figure_words(oxygen), flammable=figure_words(gas)
        )
        yield TrendLine(words, "disagree")


def _place(one: ReadingSet) -> Sentence:
    return place_words(one.event.phase, one.event.point_m)
