"""The sets of readings as lines of a table, with every figure that was struck."""

from __future__ import annotations

from dataclasses import dataclass

from lamproom.bench.bump import gas_name
from lamproom.permit.facts import Facts, early, standing
from lamproom.permit.state import OUTSIDE, ReadingSet, outside
from lamproom.permit.words import clock, figure_words
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class Struck:
    """A figure that was corrected: its column, as it was, and in words what took its place, why, who and when."""

    column: int
    old: str
    words: str


@dataclass(frozen=True, slots=True)
class SetLine:
    """One set as a line of the table: where, when, by whom, its figures in the order of the boxes, what was struck,
    whether it counts; ``out``: the columns of figures that are outside their limit."""

    version: int
    place: str
    time: str
    by: str
    figures: tuple[str, ...]
    struck: tuple[Struck, ...]
    counts: str
    out: frozenset[int] = frozenset()


def line_of(facts: Facts, one: ReadingSet, gases: tuple[tuple[str, str], ...]) -> SetLine:
    permit = facts.permit
    figures = []
    for gas, _unit in gases:
        figure = one.figure(gas)
        figures.append("\u2013" if figure is None else figure.figure or figure_words(figure).say())
    key = {"upwind": "upwind", "through-lid": "lid", "duct": "duct"}.get(one.event.phase)
    place = say(f"sheets.air.{key}") if key else say("sheets.air.point", depth=one.event.point_m or "?")
    time = clock(one.event.taken, permit.zone)
    columns = [gas for gas, _unit in gases]
    struck = tuple(
        Struck(
            columns.index(c.event.gas) if c.event.gas in columns else 0,
            c.event.old,
            say(
                "sheets.air.struck",
                place=place,
                time=time,
                gas=gas_name(c.event.gas),
                old=c.event.old,
                new=c.event.new,
                reason=c.event.reason,
                at=clock(c.at, permit.zone),
                name=facts.name(c.by or ""),
            ),
        )
        for c in one.corrections
    )
    return SetLine(
        one.version,
        place,
        time,
        facts.name(one.by) if one.by else "",
        tuple(figures),
        struck,
        _counts(facts, one),
        frozenset(columns.index(figure.gas) for figure in outside(permit.form, one.figures) if figure.gas in columns),
    )


def _counts(facts: Facts, one: ReadingSet) -> str:
    """Why a set does not count for entry now; empty when it does, or stands outside the plan."""
    permit = facts.permit
    if one.event.phase in OUTSIDE:
        return ""
    if one.version <= permit.counts_from:
        return say("sheets.air.air_changed")
    if early(permit, one):
        return say("sheets.air.early")
    return "" if standing(facts, one) else say("sheets.air.not_counted")
