"""Behind a figure: what it may hide, how far it is from its limit, step by step."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from lamproom.air.figures import shown
from lamproom.air.oxygen import FRESH_AIR, MILLION
from lamproom.air.substance_table import SUBSTANCES
from lamproom.air.substances import Sure, enforceable
from lamproom.bench.bump import gas_name
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.atmosphere import base_oxygen, measured_ppm, unaccounted_at, water_at
from lamproom.permit.state import ReadingSet
from lamproom.permit.words import clock, figure_words, limit_words, place_words
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a working: what, from what, how much."""

    what: str
    how: str = ""
    figure: str = ""
    total: bool = False


@dataclass(frozen=True, slots=True)
class WorkingView:
    """The working behind a figure; ``figure`` is what a correction would strike."""

    title: str
    steps: tuple[Step, ...]
    source: str
    aside: str
    figure: str
    corrections: tuple[str, ...]


def working_view(office: Office, number: str, set_version: int, gas: str) -> WorkingView | None:
    """The working behind one figure of a set; None when the set has no such figure."""
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
    steps, source, aside = _oxygen(facts, one) if gas == "oxygen" else _against_limit(facts, gas, figure.figure)
    struck = tuple(
        say("sheets.work.corrected", old=c.event.old, new=c.event.new, reason=c.event.reason)
        for c in one.corrections
        if c.event.gas == gas
    )
    return WorkingView(title, steps, source, aside, figure.figure or figure.state, struck)


def hides_gas(facts: Facts, one: ReadingSet) -> bool:
    """Does the oxygen of this set leave more gas unaccounted for than the form allows?"""
    ppm = unaccounted_ppm(facts, one)
    return ppm is not None and ppm > Decimal(facts.permit.form.unaccounted.ppm)


def unaccounted_ppm(facts: Facts, one: ReadingSet) -> Decimal | None:
    """What the rule finds unaccounted for, in ppm; None without an oxygen figure or a base."""
    working = unaccounted_at(facts, one)
    return Decimal(working.result) if working is not None and base_oxygen(facts, one.event.instrument) else None


def _oxygen(facts: Facts, one: ReadingSet) -> tuple[tuple[Step, ...], str, str]:
    """Missing oxygen, less the tolerance, as air pushed out; less what the other sensors saw."""
    oxygen, base = one.figure("oxygen"), base_oxygen(facts, one.event.instrument)
    if oxygen is None or oxygen.figure is None or base is None:
        return (Step(say("sheets.work.no_base")),), "", ""
    read, tolerance = Decimal(oxygen.figure), Decimal(facts.permit.form.unaccounted.tolerance)
    missing = base - read - tolerance
    pushed = int(max(missing, Decimal(0)) / FRESH_AIR * MILLION)
    steps = [
        Step(
            say("sheets.work.missing"),
            say("sheets.work.missing_how", base=shown(base), oxygen=shown(read), tolerance=shown(tolerance)),
            say("sheets.work.volume", figure=shown(max(missing, Decimal(0)))),
        ),
        Step(
            say("sheets.work.pushed_out"),
            say("sheets.work.pushed_how", missing=shown(max(missing, Decimal(0))), fresh=shown(FRESH_AIR)),
            say("sheets.work.ppm", figure=f"{pushed:,}"),
        ),
    ]
    for gas, ppm in measured_ppm(facts, one).items():
        figure = one.figure(gas)
        how = figure_words(figure).say() if figure is not None else ""
        seen = say("sheets.work.seen", gas=gas_name(gas).say().lower())
        steps.append(Step(seen, how, say("sheets.work.ppm", figure=_grouped(ppm))))
    water = Decimal(water_at(facts, one).result)
    if water > 0:
        how = say("sheets.work.water_how", celsius=one.event.temperature_c or "", humidity=one.event.humidity_pct or "")
        steps.append(Step(say("sheets.work.water"), how, say("sheets.work.ppm", figure=_grouped(water))))
    unseen = unaccounted_ppm(facts, one) or Decimal(0)
    limit = int(Decimal(facts.permit.form.unaccounted.ppm))
    steps.append(
        Step(
            say("sheets.work.unseen"),
            say("sheets.work.unseen_limit", ppm=f"{limit:,}"),
            say("sheets.work.ppm", figure=f"{int(unseen):,}"),
            total=True,
        )
    )
    return tuple(steps), say("sheets.work.source"), _if_carbon_dioxide(unseen)


def _grouped(ppm: Decimal) -> str:
    """A figure of ppm with its thousands apart and no nought too many."""
    return f"{ppm.quantize(Decimal(1)):,f}" if ppm == ppm.to_integral_value() else f"{ppm.normalize():,f}"


def _if_carbon_dioxide(unseen: Decimal) -> str:
    """To proportion: what the same amount of carbon dioxide would be, where its limit was read in its source."""
    limit = enforceable(SUBSTANCES["carbon dioxide"])
    if unseen <= 0:
        return say("sheets.work.one_place")
    if limit is None or limit.ppm.sure is Sure.MEMORY:
        return say("air.validity.unaccounted")
    times = (unseen / limit.ppm.value).quantize(Decimal("0.1"))
    return say("sheets.work.carbon_dioxide", times=str(times), limit=f"{int(limit.ppm.value):,}")


def _against_limit(facts: Facts, gas: str, figure: str | None) -> tuple[tuple[Step, ...], str, str]:
    line = facts.permit.form.limit(gas)
    if line is None:
        return (Step(say("permit.limit.none")),), "", ""
    steps = [Step(say("sheets.work.limit"), line.basis, limit_words(line).say())]
    if figure is not None and line.unit == "% LEL" and line.lel_vol is not None:
        ppm = Decimal(figure) * Decimal(line.lel_vol) * 100
        how = say("sheets.work.lel_how", figure=shown(figure), lel=line.lel_vol)
        steps.append(Step(say("sheets.work.as_ppm"), how, say("sheets.work.ppm", figure=_grouped(ppm))))
    if figure is not None and line.high is not None:
        share = (Decimal(figure) / Decimal(line.high) * 100).quantize(Decimal(1))
        steps.append(
            Step(
                say("sheets.work.share"),
                f"{shown(figure)} \u00f7 {line.high}",
                say("sheets.work.percent", n=str(share)),
            )
        )
    return tuple(steps), "", say("sheets.work.one_place")


def event_figure(gas: str, unit: str, state: str, figure: str) -> e.Figure:
    """A figure ready to store: its digits with a point, or the state in place of it."""
    if state == "measured":
        return e.Figure(gas=gas, unit=unit, figure=figure)
    kept: dict[str, str | None] = {"gas": gas, "unit": unit, "state": state, "figure": None}
    return e.Figure.model_validate(kept)
