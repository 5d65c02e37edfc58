"""Behind an oxygen figure: what fills the place of the missing part, the water in it, and its pressure up here."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from lamproom.air.figures import shown
from lamproom.air.oxygen import FRESH_AIR, MILLION, partial_pressure, standard_pressure
from lamproom.air.substance_table import SUBSTANCES
from lamproom.air.substances import Sure, enforceable
from lamproom.air.working import Unworkable, Working
from lamproom.bench.bump import gas_name
from lamproom.office.amount import amount
from lamproom.office.views.working_slip import SlipPage, Step, page_of
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.atmosphere import base_oxygen, unaccounted_at, water_at
from lamproom.permit.state import ReadingSet
from lamproom.permit.words import figure_words
from lamproom.words import say


def oxygen_pages(facts: Facts, one: ReadingSet, title: str) -> Iterator[SlipPage]:
    """The displacement first; water where it was read at both places, pressure where the altitude is registered."""
    working = unaccounted_at(facts, one)
    if working is None or base_oxygen(facts, one.event.instrument) is None:
        yield SlipPage(say("workings.oxygen.missing"), title, (Step(say("sheets.work.no_base")),))
        return
    water = water_at(facts, one)
    yield displacement(facts, one, working, water, title)
    if Decimal(water.result) != 0:
        yield page_of(water, say("workings.oxygen.water"))
    yield from _pressure(facts, one)


def displacement(facts: Facts, one: ReadingSet, working: Working, water: Working, title: str) -> SlipPage:
    """Missing oxygen, less the tolerance, as air pushed out; less what the other sensors saw, and water.

    Every line is worked out from the inputs of the working itself.
    """
    given = {put.key: put.value for put in working.inputs if put.key != "measured"}
    base, read, tolerance = (Decimal(given[key]) for key in ("base", "oxygen", "tolerance"))
    more = Decimal(water.result)
    missing = base - read - tolerance
    if more >= 0:  # drier air is added to it, so that it may be less than none
        missing = max(missing, Decimal(0))
    limit = Decimal(facts.permit.form.unaccounted.ppm)
    steps = [
        Step(
            say("sheets.work.missing"),
            say("sheets.work.missing_how", base=shown(base), oxygen=shown(read), tolerance=shown(tolerance)),
            amount(missing, "vol%"),
        ),
        Step(
            say("sheets.work.pushed_out"),
            say("sheets.work.pushed_how", missing=shown(missing), fresh=shown(FRESH_AIR)),
            amount((missing / FRESH_AIR * MILLION).quantize(Decimal(1)), "ppm"),
        ),
    ]
    for put in working.inputs:
        if put.key == "measured":
            figure = one.figure(put.gas)
            how = figure_words(figure).say() if figure is not None else ""
            seen = say("sheets.work.seen", gas=gas_name(put.gas).say().lower())
            steps.append(Step(seen, how, amount(put.value, put.unit)))
    if more:
        how = say("sheets.work.water_how", celsius=one.event.temperature_c or "", humidity=one.event.humidity_pct or "")
        water_line = say("sheets.work.water" if more > 0 else "sheets.work.drier")
        steps.append(Step(water_line, how, amount(abs(more), "ppm")))
    bars = say("sheets.work.unseen_limit", ppm=f"{int(limit):,}")
    steps.append(Step(say("sheets.work.unseen"), bars, amount(working.result, "ppm"), total=True))
    name = say("workings.oxygen.missing")
    aside = _if_carbon_dioxide(Decimal(working.result))
    return SlipPage(name, title, tuple(steps), source=say("sheets.work.source"), aside=aside, workings=(working,))


def _if_carbon_dioxide(unseen: Decimal) -> str:
    """To proportion: what the same amount of carbon dioxide would be, where its limit was read in its source."""
    limit = enforceable(SUBSTANCES["carbon dioxide"])
    if unseen <= 0:
        return say("sheets.work.one_place")
    if limit is None or limit.ppm.sure is Sure.MEMORY:
        return say("air.validity.unaccounted")
    times = (unseen / limit.ppm.value).quantize(Decimal("0.1"))
    return say("sheets.work.carbon_dioxide", times=str(times), limit=f"{int(limit.ppm.value):,}")


def _pressure(facts: Facts, one: ReadingSet) -> Iterator[SlipPage]:
    """What volume percent means at this height; a caution, never a reason to allow."""
    altitude, base = facts.permit.opened.registered.altitude_m, base_oxygen(facts, one.event.instrument)
    oxygen = one.figure("oxygen")
    if altitude is None or base is None or oxygen is None or oxygen.figure is None:
        return
    try:
        air = standard_pressure(Decimal(altitude))
        part = partial_pressure(Decimal(oxygen.figure), Decimal(air.result), base)
    except Unworkable:
        return
    steps = (
        Step(say("workings.oxygen.altitude"), "", amount(altitude, "m")),
        Step(say("workings.oxygen.pressure"), air.source, amount(air.result, air.unit)),
        Step(say("workings.oxygen.part"), part.formula, amount(part.result, part.unit), total=True),
    )
    name = say("workings.oxygen.up_here")
    yield SlipPage(name, part.name, steps, source=part.source, aside=part.validity, workings=(part, air))
