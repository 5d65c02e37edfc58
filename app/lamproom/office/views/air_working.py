"""Behind a figure of the air test: what it may hide and how far it is from its limit, a page for each working."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from lamproom.bench.bump import gas_name
from lamproom.office.office import Office
from lamproom.office.views.gas_pages import gas_pages
from lamproom.office.views.oxygen_pages import oxygen_pages
from lamproom.office.views.working_slip import SlipPage
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.atmosphere import base_oxygen, unaccounted_at
from lamproom.permit.state import ReadingSet
from lamproom.permit.words import clock, figure_words, place_words
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class WorkingView:
    """The workings behind a figure, the one that decides first; ``figure`` is what a correction would strike.
    ``purges``: a fan runs, so that the readings at this point since then tell how fast the air is changed."""

    pages: tuple[SlipPage, ...]
    figure: str
    corrections: tuple[str, ...]
    purges: bool


def working_view(office: Office, number: str, set_version: int, gas: str) -> WorkingView | None:
    """The workings behind one figure of a set; None when the set has no such figure."""
    facts = office.facts(number)
    one = next((s for s in facts.permit.sets if s.version == set_version), None)
    figure = one.figure(gas) if one is not None else None
    if one is None or figure is None:
        return None
    title = say(
        "sheets.work.title",
        gas=gas_name(gas),
        figure=figure_words(figure),
        place=place_words(one.event.phase, one.event.point_m),
        time=clock(one.event.taken, facts.permit.zone),
    )
    struck = tuple(
        say("sheets.work.corrected", old=c.event.old, new=c.event.new, reason=c.event.reason)
        for c in one.corrections
        if c.event.gas == gas
    )
    purges = facts.permit.fan is not None and one.event.point_m is not None and figure.figure is not None
    return WorkingView(tuple(_pages(facts, one, gas, title)), figure.figure or figure.state, struck, purges)


def _pages(facts: Facts, one: ReadingSet, gas: str, title: str) -> Iterator[SlipPage]:
    return oxygen_pages(facts, one, title) if gas == "oxygen" else gas_pages(facts, one, gas, title)


def hides_gas(facts: Facts, one: ReadingSet) -> bool:
    """Does the oxygen of this set leave more gas unaccounted for than the form allows?"""
    working = unaccounted_at(facts, one) if base_oxygen(facts, one.event.instrument) else None
    return working is not None and Decimal(working.result) > Decimal(facts.permit.form.unaccounted.ppm)


def event_figure(gas: str, unit: str, state: str, figure: str) -> e.Figure:
    """A figure ready to store: its digits with a point, or the state in place of it."""
    if state == "measured":
        return e.Figure(gas=gas, unit=unit, figure=figure)
    kept: dict[str, str | None] = {"gas": gas, "unit": unit, "state": state, "figure": None}
    return e.Figure.model_validate(kept)
