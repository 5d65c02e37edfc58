"""Acceptable figures for gases that the hazards name and the form does not: the law's own, from the published table."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from lamproom.air.entry_figure import entry_figure
from lamproom.air.figures import shown
from lamproom.air.substance_table import SUBSTANCES
from lamproom.air.substances import ExposureLimit, Substance
from lamproom.permit.form import Form, LimitLine, half, halved, read_form
from lamproom.words import say


def substance_of(gas: str) -> Substance | None:
    """The published substance of a gas id ('carbon-dioxide', 'n-hexane'); None where the table has none."""
    return SUBSTANCES.get(gas) or SUBSTANCES.get(gas.replace("-", " "))


def line_for(gas: str) -> LimitLine | None:
    """The enforceable limit that is strictest as an instant value, as a form's line; None where the table has none.

    Every single reading is compared with it, also where the law allows an average: 190 ppm of carbon monoxide for 2 h
    has a mean over the shift within 50 ppm. A figure that rests on memory alone is none.
    """
    known = substance_of(gas)
    found = entry_figure(known) if known is not None else None
    if found is None or found.basis is None:
        return None
    return LimitLine(
        gas=gas, unit="ppm", high=str(found.basis.ppm.value), fails_at_high=True, basis=_basis(found.basis)
    )


def not_adopted(gas: str) -> tuple[ExposureLimit, ...]:
    """The recommended limits of a gas, which the law does not enforce, the strictest first: cautions, no obstacles.

    NIOSH's alone: another country's figures would say something of every ordinary permit here.
    """
    known = substance_of(gas)
    return tuple(one for one in entry_figure(known, ()).cautions if one.adopter == "NIOSH") if known is not None else ()


@lru_cache(maxsize=64)
def form_for(text: str, route: str, gases: frozenset[str]) -> Form:
    """The form of a permit, halved for the alternate procedures, with a line for each of these gases that it lacks."""
    form = halved(text) if route == "alternate" else read_form(text)
    missing = sorted(gas for gas in gases if form.limit(gas) is None)
    lines = [line for gas in missing if (line := line_for(gas)) is not None]
    if route == "alternate":
        lines = [half(line) for line in lines]
    return form.model_copy(update={"limits": (*form.limits, *lines)}) if lines else form


def gases_of(hazards: Iterable[tuple[str, str, str, str | None]], gone: frozenset[str]) -> frozenset[str]:
    """The gases that hazards name, but those of hazards that were said not to apply today."""
    return frozenset(gas for id, _name, _shows, gas in hazards if gas is not None and id not in gone)


def _basis(limit: ExposureLimit) -> str:
    return say("permit.limit.from_table", adopter=limit.adopter, kind=limit.kind, ppm=shown(limit.ppm.value))
