"""Why a planned point does not count as tested: never read, not read since the air changed, or not read well."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from lamproom.bench.bump import gas_name
from lamproom.permit.facts import (
    VERIFYING,
    Facts,
    early,
    elsewhere_then,
    fit_then,
    hose_held,
    in_doubt,
    seen_by,
    since_change,
)
from lamproom.permit.state import ReadingSet, whole
from lamproom.words import Sentence, sentence


def why_untested(facts: Facts, depth: Decimal) -> tuple[str, dict[str, str | Sentence]]:
    """What is wrong with a point (m below the portal) that does not count as tested, by its newest reading: the word
    for it in the catalogue ('permit.point_…') and what its sentence names."""
    noted = [one for one in _at(facts, depth) if since_change(facts.permit, one) and not one.void]
    return _why(facts, noted[-1]) if noted else (_unread(facts, depth), {})


def _at(facts: Facts, depth: Decimal) -> Iterator[ReadingSet]:
    for one in facts.permit.sets:
        if one.event.phase in VERIFYING and one.event.point_m is not None and Decimal(one.event.point_m) == depth:
            yield one


def _unread(facts: Facts, depth: Decimal) -> str:
    """Nothing was read here, or nothing since the air last changed, or what was read was declared wrong."""
    read = list(_at(facts, depth))
    if not read:
        return "never"
    return "void" if all(one.void for one in read) else "not_since"


def _why(facts: Facts, one: ReadingSet) -> tuple[str, dict[str, str | Sentence]]:
    """Why a set that was taken here does not count, in the order in which a person would ask."""
    name: dict[str, str | Sentence] = {"name": _name(facts, one)}
    instrument = facts.instruments.get(one.event.instrument)
    if early(facts.permit, one):
        return "early", {}
    if not whole(facts.permit.form, one.figures):
        return "not_whole", {"gas": _missing(facts, one)}
    if one.by is None:
        return "nobody", {}
    if one.unconfirmed:
        return "clock", {}
    if not hose_held(one):
        return "hose", name
    if elsewhere_then(facts.permit, one):
        return "elsewhere", name
    if instrument is None or not seen_by(instrument, one):
        return "unseen", name
    if in_doubt(instrument, one, facts.rules):
        return "doubted", name
    if not fit_then(facts, one):
        return "not_ready", name
    return "not_since", {}


def _name(facts: Facts, one: ReadingSet) -> str:
    if one.assigned is not None:
        return one.assigned.registered.name
    known = facts.instruments.get(one.event.instrument)
    return known.registered.name if known is not None and known.registered is not None else one.event.instrument


def _missing(facts: Facts, one: ReadingSet) -> Sentence:
    """The first gas of the form without a figure; a set lacks them together as a rule, where a sensor failed."""
    form = facts.permit.form
    lacking = [line.gas for line in form.limits if not _held(facts, one, line.gas)]
    if len(lacking) == 1:
        return gas_name(lacking[0])
    return sentence("permit.point_gases", first=gas_name(lacking[0]), more=len(lacking) - 1)


def _held(facts: Facts, one: ReadingSet, gas: str) -> bool:
    line = facts.permit.form.limit(gas)
    figure = one.figure(gas)
    return (
        line is not None
        and figure is not None
        and figure.state == "measured"
        and figure.figure is not None
        and figure.unit == line.unit
        and Decimal(figure.figure) >= 0
    )
