"""The log of the Watch: the sets of readings with what was corrected in them, and everything else that happened."""

from __future__ import annotations

from dataclasses import dataclass

from lamproom.bench.bump import gas_name
from lamproom.office.office import Office
from lamproom.permit.state import Permit, ReadingSet, outside
from lamproom.permit.words import clock, figure_words, limit_words, place_words
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class LogFigure:
    """A figure that can be corrected: what holds now, what was struck, whether it lies outside its limit."""

    gas: str
    name: str
    unit: str
    figure: str
    struck: tuple[str, ...]
    outside: bool
    limit: str


@dataclass(frozen=True, slots=True)
class LogSet:
    """One set of readings: its version in the permit's stream, when, where, by whom."""

    version: int
    time: str
    place: str
    by: str
    figures: tuple[LogFigure, ...]


def log_sets(office: Office, number: str) -> tuple[LogSet, ...]:
    """All sets, the newest first."""
    permit, names = office.permit(number), office.names()
    return tuple(_set(permit, one, names.get(one.by or "", "")) for one in reversed(permit.sets))


def _set(permit: Permit, one: ReadingSet, by: str) -> LogSet:
    bad = {figure.gas for figure in outside(permit.form, one.figures)}
    figures = []
    for figure in one.figures:
        line = permit.form.limit(figure.gas)
        struck = tuple(c.event.old for c in one.corrections if c.event.gas == figure.gas)
        shown = figure.figure if figure.figure is not None else figure_words(figure).say()
        figures.append(
            LogFigure(
                figure.gas,
                gas_name(figure.gas).say(),
                figure.unit,
                shown,
                struck,
                figure.gas in bad,
                limit_words(line).say() if line is not None else say("permit.limit.none"),
            )
        )
    place = place_words(one.event.phase, one.event.point_m).say()
    return LogSet(one.version, clock(one.event.taken, permit.zone), place, by, tuple(figures))
