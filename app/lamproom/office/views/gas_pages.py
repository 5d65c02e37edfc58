"""Behind a flammable or toxic figure: its share of the limit, what it is in ppm and as other vapors, what it hides."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from lamproom.air.entry_figure import basis_name, entry_working
from lamproom.air.flammable import toxic_at_lel
from lamproom.air.flammable_units import lel_in_ppm
from lamproom.air.share import share_of_limit
from lamproom.air.substances import Sure
from lamproom.air.working import Working
from lamproom.bench.bump import gas_name
from lamproom.office.amount import amount
from lamproom.office.views.working_slip import SlipPage, Step, page_of
from lamproom.permit.facts import Facts
from lamproom.permit.flammable_reading import FLAMMABLE, as_vapors, by_flammable_sensor_alone, voids
from lamproom.permit.form import LimitLine
from lamproom.permit.gas_limits import line_for, not_adopted, substance_of
from lamproom.permit.state import ReadingSet, in_unit
from lamproom.permit.words import figure_words, limit_words
from lamproom.words import say

_TENTH_OF_LEL = Decimal(10)


def gas_pages(facts: Facts, one: ReadingSet, gas: str, title: str) -> Iterator[SlipPage]:
    """Against its limit first; then as other vapors and what it can hide, or the published limits."""
    yield _against_limit(facts, one, gas, title)
    if gas == FLAMMABLE:
        yield from _as_other_vapors(facts, one)
        yield from _hidden(facts)
    else:
        yield from _published(gas)


def _against_limit(facts: Facts, one: ReadingSet, gas: str, title: str) -> SlipPage:
    line, figure = facts.permit.form.limit(gas), one.figure(gas)
    name = say("workings.gas.against")
    if line is None:
        return SlipPage(name, title, (Step(say("permit.limit.none")),))
    level = in_unit(figure, line) if figure is not None else None
    steps: list[Step] = []
    workings: list[Working] = []
    if gas == FLAMMABLE:
        steps += [Step("", say("workings.gas.void", why=why)) for why in voids(one)]
    steps.append(Step(say("sheets.work.limit"), line.basis, limit_words(line).say()))
    if gas != FLAMMABLE:
        steps += _not_adopted(gas, line)
    if level is not None and line.unit == "% LEL" and line.lel_vol is not None:
        ppm = lel_in_ppm(level, Decimal(line.lel_vol))
        how = say("sheets.work.lel_how", figure=str(level), lel=line.lel_vol)
        steps.append(Step(say("sheets.work.as_ppm"), how, amount(ppm.result, ppm.unit)))
        workings.append(ppm)
    if level is not None and line.high is not None and Decimal(line.high) > 0:
        share = share_of_limit(level, Decimal(line.high))
        how = say("workings.gas.share_how", level=str(level), limit=line.high)
        steps.append(Step(say("sheets.work.share"), how, amount(share.result, share.unit), total=True))
        workings.append(share)
    elif figure is not None:
        steps.append(Step(say("workings.gas.reads"), "", figure_words(figure).say(), total=True))
    return SlipPage(name, title, tuple(steps), aside=say("sheets.work.one_place"), workings=tuple(workings))


def _not_adopted(gas: str, line: LimitLine) -> Iterator[Step]:
    """Published figures that this form does not judge by and that are stricter."""
    for other in not_adopted(gas):
        if line.unit == "ppm" and line.high is not None and other.ppm.value < Decimal(line.high):
            memory = other.ppm.sure is Sure.MEMORY
            how = say("workings.gas.from_memory", source=other.ppm.source) if memory else other.ppm.source
            name = say("workings.gas.not_adopted", basis=basis_name(other))
            yield Step(name, how, amount(other.ppm.value, "ppm"))


def _as_other_vapors(facts: Facts, one: ReadingSet) -> Iterator[SlipPage]:
    """The figure told as each vapor of the hazards that its sensor has a maker's factor for."""
    gases = frozenset(gas for _id, _name, _shows, gas in facts.permit.hazards() if gas is not None)
    for gas, told in as_vapors(facts.permit, one, gases):
        yield page_of(told, say("workings.gas.as", gas=gas_name(gas).say().lower()))


def _hidden(facts: Facts) -> Iterator[SlipPage]:
    """How far over its toxic limit each vapor can be that only the flammable sensor sees, at a tenth of its LEL."""
    steps: list[Step] = []
    workings: list[Working] = []
    for gas in dict.fromkeys(gas for _id, _name, _shows, gas in facts.permit.hazards() if gas is not None):
        known, line = substance_of(gas), facts.permit.form.limit(gas) or line_for(gas)
        if known is None or known.lel is None or line is None or line.unit != "ppm" or line.high is None:
            continue
        if not by_flammable_sensor_alone(facts.permit, gas):
            continue
        told = toxic_at_lel(_TENTH_OF_LEL, known.lel.value, Decimal(line.high))
        ppm = lel_in_ppm(_TENTH_OF_LEL, known.lel.value)
        how = say(
            "workings.gas.hidden_how", ppm=amount(ppm.result, "ppm"), limit=limit_words(line), lel=str(known.lel.value)
        )
        times = say("workings.gas.times", n=amount(told.result))
        steps.append(Step(gas_name(gas).say(), how, times))
        workings += [told, ppm]
    if steps:
        name, title = say("workings.gas.hidden"), say("workings.gas.hidden_title")
        aside = say("workings.gas.hidden_aside")
        yield SlipPage(name, title, tuple(steps), aside=aside, workings=tuple(workings))


def _published(gas: str) -> Iterator[SlipPage]:
    """Every published limit of the gas with its source, and the strictest of those that the law enforces."""
    known = substance_of(gas)
    if known is None:
        return
    working = entry_working(known, ("OSHA",))
    published = [put for put in working.inputs if put.unit]
    steps = [Step(put.name, put.source, amount(put.value, put.unit)) for put in published]
    unit = working.unit if isinstance(working.result, Decimal) else ""
    steps.append(Step(say("workings.gas.lawful"), "", amount(working.result, unit), total=True))
    name, title = say("workings.gas.published"), say("workings.gas.published_title", gas=known.name)
    yield SlipPage(name, title, tuple(steps), aside=say("workings.gas.published_aside"), workings=(working,))
