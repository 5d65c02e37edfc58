"""Where each vapor of the hazards tends in still air, by its density against air. Gases mix: every point is tested."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from lamproom.air.substances import Substance
from lamproom.air.units import vapor_density
from lamproom.air.working import Working
from lamproom.bench.bump import gas_name
from lamproom.office.views.working_slip import SlipPage, Step
from lamproom.permit.asked import excluded
from lamproom.permit.facts import Facts
from lamproom.permit.gas_limits import substance_of
from lamproom.words import say

LIKE_AIR = Decimal("0.05")
"""So near to the density of air a gas goes nowhere by its weight: common practice."""


@dataclass(frozen=True, slots=True)
class Tend:
    """A vapor: its gas id, its formula, its density against air to two decimals, 'lighter', 'like' or 'heavier'."""

    gas: str
    formula: str
    density: str
    way: str
    working: Working

    @property
    def words(self) -> str:
        """It in words."""
        return say(f"workings.tends.{self.way}", gas=gas_name(self.gas), density=self.density)


def tends_of(facts: Facts) -> tuple[Tend, ...]:
    """Each gas of today's hazards whose molar mass is known, lightest first; oxygen is no hazard of this kind."""
    gone = {id for id, *_rest in facts.permit.hazards() if excluded(facts, id)}
    gases = dict.fromkeys(gas for id, _name, _shows, gas in facts.permit.hazards() if gas and id not in gone)
    found = [tend for gas in gases if gas != "oxygen" for tend in _tend(gas, substance_of(gas))]
    return tuple(sorted(found, key=lambda one: Decimal(one.density)))


def _tend(gas: str, known: Substance | None) -> Iterator[Tend]:
    if known is None or known.molar_mass is None:
        return
    working = vapor_density(known.molar_mass.value)
    density = Decimal(working.result)
    away = density - 1
    way = "like" if abs(away) <= LIKE_AIR else "heavier" if away > 0 else "lighter"
    yield Tend(gas, known.formula, str(density.quantize(Decimal("0.01"), ROUND_HALF_UP)), way, working)


def tends_page(tends: tuple[Tend, ...]) -> Iterator[SlipPage]:
    """The densities as a page of a slip."""
    if not tends:
        return
    steps = tuple(
        Step(
            say("workings.tends.gas", gas=gas_name(one.gas), formula=one.formula),
            say("workings.tends.how", mass=one.working.inputs[0].value),
            say(f"workings.tends.short.{one.way}", density=one.density),
        )
        for one in tends
    )
    first = tends[0].working
    yield SlipPage(
        say("workings.tends.name"),
        say("workings.tends.title"),
        steps,
        source=first.source,
        aside=first.validity,
        workings=tuple(one.working for one in tends),
    )
