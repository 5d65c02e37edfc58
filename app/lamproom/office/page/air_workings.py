"""The workings that decided, beside the table of tests: missing oxygen that bars, water that explains it, a factor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from lamproom.air.working import Working
from lamproom.bench.bump import gas_name
from lamproom.office.amount import amount
from lamproom.office.page.parts import Pages
from lamproom.paper import content as c
from lamproom.permit.flammable_reading import as_vapors
from lamproom.permit.obstacles.atmosphere import base_oxygen, unaccounted_at, water_at
from lamproom.permit.state import ReadingSet
from lamproom.permit.words import figure_words, place_words
from lamproom.words import say


def deciding(pages: Pages, sets: Sequence[ReadingSet]) -> Iterator[tuple[c.Said, Working]]:
    """A line for each kind of working that decided something at these sets, where it came out highest, with
    the working itself; none on most days."""
    highest: dict[str, tuple[c.Said, Working]] = {}
    for said, working in _all(pages, sets):
        known = highest.get(said.lead)
        if known is None or _figure(working) > _figure(known[1]):
            highest[said.lead] = (said, working)
    yield from highest.values()


def _figure(working: Working) -> Decimal:
    return working.result if isinstance(working.result, Decimal) else Decimal(0)


def _all(pages: Pages, sets: Sequence[ReadingSet]) -> Iterator[tuple[c.Said, Working]]:
    gases = frozenset(gas for _id, _name, _shows, gas in pages.permit.hazards() if gas is not None)
    for one in sets:
        yield from _missing_oxygen(pages, one)
        for gas, told in as_vapors(pages.permit, one, gases):
            figure = one.figure("flammable")
            said = say(
                "page.work.factor",
                figure=figure_words(figure) if figure is not None else "",
                place=_place(one),
                factor=next(put.value for put in told.inputs if put.key == "factor"),
                result=amount(told.result, told.unit),
                sheet=told.source,
            )
            yield c.Said(say("page.work.as_vapor", gas=gas_name(gas).say().lower()), said), told


def _missing_oxygen(pages: Pages, one: ReadingSet) -> Iterator[tuple[c.Said, Working]]:
    """What is missing and seen by no sensor, where it bars; the water, where it alone keeps it from barring."""
    facts = pages.facts
    if base_oxygen(facts, one.event.instrument) is None:
        return
    working, water = unaccounted_at(facts, one), water_at(facts, one)
    if working is None:
        return
    bars, unseen = Decimal(facts.permit.form.unaccounted.ppm), Decimal(working.result)
    given = {put.key: put.value for put in working.inputs}
    if unseen > bars:
        seen = sum((Decimal(put.value) for put in working.inputs if put.key == "measured"), Decimal(0))
        said = say(
            "page.work.unseen",
            place=_place(one),
            base=given["base"],
            oxygen=given["oxygen"],
            tolerance=given["tolerance"],
            seen=amount(seen, "ppm"),
            water=amount(water.result, "ppm"),
            result=amount(unseen, "ppm"),
            bars=amount(bars, "ppm"),
        )
        yield c.Said(say("page.work.missing"), said), working
    elif unseen + Decimal(water.result) > bars:
        said = say(
            "page.work.water",
            place=_place(one),
            oxygen=given["oxygen"],
            water=amount(water.result, "ppm"),
            inside=say("page.work.moist", celsius=one.event.temperature_c or "", humidity=one.event.humidity_pct or ""),
            result=amount(unseen, "ppm"),
            bars=amount(bars, "ppm"),
        )
        yield c.Said(say("page.work.damp"), said), water


def _place(one: ReadingSet) -> str:
    return place_words(one.event.phase, one.event.point_m).say()
