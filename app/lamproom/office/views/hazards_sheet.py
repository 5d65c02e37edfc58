"""The sheet 'hazards': what can hurt people in this space, which sensor sees it, and how it is held today."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import get_args

from lamproom.bench.bump import gas_name
from lamproom.office.office import Office
from lamproom.office.views.recorded import answered_against, fixed, standing_answers, who_and_when
from lamproom.office.views.sheet_items import ItemView, items_of
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.atmosphere import FLAMMABLE_ONLY, NO_LIMIT, sees
from lamproom.permit.space import HazardKind
from lamproom.permit.state import Assigned
from lamproom.permit.words import limit_words
from lamproom.words import say

_TOGETHER = ",\u00a0"
"""Between names that stay on one line."""
_OF_THE_AIR = ("atmosphere", "not-said")
"""Sorts that nobody chooses for a hazard that is no gas."""
_OFFERED = (
    "oxygen",
    "flammable",
    "hydrogen-sulfide",
    "carbon-monoxide",
    "carbon-dioxide",
    "methane",
    "nitrogen",
    "argon",
    "hydrogen",
    "ammonia",
    "chlorine",
    "sulfur-dioxide",
    "benzene",
    "toluene",
    "gasoline-vapor",
)


@dataclass(frozen=True, slots=True)
class SensorColumn:
    """One kind of sensor on the instruments of this permit, the instruments that carry it, and by what it sees."""

    gas: str
    name: str
    carried_by: str
    kind: str = ""


@dataclass(frozen=True, slots=True)
class HazardRow:
    """One hazard. ``cells``: for each column whether that sensor sees it, empty for a hazard that is no gas;
    ``cell_words`` say so.

    ``seen`` is None for a hazard that no sensor is for; ``blocked``: what sees it is not ready.
    ``held`` is None while nobody has looked at it today;
    ``control`` is what the evaluation asks for, empty for a hazard added today.
    """

    id: str
    name: str
    shows: str
    limit: str
    cells: tuple[bool, ...]
    seen: bool | None
    seen_words: str
    control: str
    held: bool | None
    how: str
    note: str
    blocked: bool = False
    cell_words: tuple[str, ...] = ()
    eliminated: bool = False


@dataclass(frozen=True, slots=True)
class HazardsSheetView:
    """``gases`` are the substances that an added hazard may be, as pairs of id and name; ``sorts`` the sorts of one
    that is no gas. ``gone_asked``: for a reclassification each hazard must be gone for good; ``basis`` says why it is.
    """

    columns: tuple[SensorColumn, ...]
    rows: tuple[HazardRow, ...]
    gases: tuple[tuple[str, str], ...]
    items: tuple[ItemView, ...]
    bars: Mapping[str, str]
    standing: tuple[tuple[str, str], ...]
    fixed: str
    sorts: tuple[tuple[str, str], ...] = ()
    gone_asked: bool = False
    basis: str = ""
    basis_note: str = ""


def hazards_sheet(office: Office, number: str) -> HazardsSheetView:
    """The sheet as it stands. Refused when there is no such permit."""
    facts = office.facts(number)
    serving = [one for one in facts.permit.instruments.values() if one.returned is None]
    columns = _columns(serving)
    controls = {hazard.id: hazard.control for hazard in facts.permit.opened.evaluated.hazards}
    return HazardsSheetView(
        columns=columns,
        rows=tuple(
            _row(facts, serving, columns, id, name, shows, gas, controls.get(id, ""))
            for id, name, shows, gas in facts.permit.hazards()
        ),
        gases=tuple((gas, gas_name(gas).say()) for gas in _OFFERED),
        items=items_of(facts, "hazards"),
        bars=answered_against(facts),
        standing=standing_answers(facts, "hazards"),
        fixed=fixed(facts),
        sorts=tuple((sort, say(f"registers.sort.{sort}")) for sort in get_args(HazardKind) if sort not in _OF_THE_AIR),
        gone_asked=facts.permit.route == "reclassified",
        basis=_basis(facts),
        basis_note=who_and_when(facts, facts.permit.basis),
    )


def _basis(facts: Facts) -> str:
    event = facts.permit.basis.event if facts.permit.basis is not None else None
    return event.basis if isinstance(event, e.BasisStated) else ""


def _columns(serving: Collection[Assigned]) -> tuple[SensorColumn, ...]:
    carried: dict[str, list[str]] = {}
    kinds: dict[str, str] = {}
    for one in serving:
        for sensor in one.registered.sensors:
            carried.setdefault(sensor.gas, []).append(one.registered.name)
            kinds.setdefault(sensor.gas, _kind(sensor.technology))
    return tuple(SensorColumn(gas, gas_name(gas).say(), ", ".join(by), kinds[gas]) for gas, by in carried.items())


def _kind(technology: str) -> str:
    """By what a sensor sees, in one word where the register has several: 'catalytic, methane' is 'catalytic'."""
    first = technology.split(",")[0].strip()
    return say("workbook.hazards.kind_cell") if first.startswith("electrochemical") else first


def _cell_words(column: SensorColumn, gas: str, sees_it: bool) -> str:
    """A gas that only takes the place of air (nitrogen, argon, helium) moves the oxygen figure and no other."""
    if column.gas == "oxygen" and gas in NO_LIMIT:
        return say("workbook.hazards.as_oxygen")
    return say("workbook.hazards.sees" if sees_it else "workbook.hazards.not_seen")


def _row(
    facts: Facts,
    serving: Collection[Assigned],
    columns: tuple[SensorColumn, ...],
    id: str,
    name: str,
    shows: str,
    gas: str | None,
    control: str,
) -> HazardRow:
    made = facts.permit.held.get(id)
    event = made.event if made is not None and isinstance(made.event, e.HazardHeld) else None
    form = facts.permit.form
    line = form.limit(gas) if gas is not None else None
    if line is None and gas in FLAMMABLE_ONLY:
        line = form.limit("flammable")
    cells = tuple(_sees(facts, serving, column.gas, gas) for column in columns) if gas is not None else ()
    seen = sees(facts, gas) if gas is not None else None
    words, ready = _seen_words(facts, serving, gas, seen)
    return HazardRow(
        id=id,
        name=name,
        shows=shows,
        limit=limit_words(line).say() if line is not None else "",
        cells=cells,
        seen=seen,
        seen_words=words,
        control=control,
        held=event.held if event is not None else None,
        how=event.how if event is not None else "",
        note=who_and_when(facts, made),
        blocked=bool(seen) and not ready,
        cell_words=tuple(_cell_words(c, gas, cell) for c, cell in zip(columns, cells, strict=True)) if gas else (),
        eliminated=event.eliminated if event is not None else False,
    )


def _sees(facts: Facts, serving: Collection[Assigned], sensor_gas: str, gas: str) -> bool:
    """Does this kind of sensor alone see the gas? The rule is asked with every other sensor taken away."""
    alone = {}
    for one in serving:
        sensors = tuple(sensor for sensor in one.registered.sensors if sensor.gas == sensor_gas)
        alone[one.instrument] = replace(one, registered=one.registered.model_copy(update={"sensors": sensors}))
    return sees(replace(facts, permit=replace(facts.permit, instruments=alone)), gas)


def _seen_words(facts: Facts, serving: Collection[Assigned], gas: str | None, seen: bool | None) -> tuple[str, bool]:
    """By what it is seen, and whether that is ready now: an instrument that is not ready sees nothing."""
    if gas is None or not seen:
        return say("workbook.hazards.no_gas" if seen is None else "workbook.hazards.unseen"), False
    those = [one.instrument for one in serving if _alone_sees(facts, one, gas)]
    ready = [one for one in those if facts.ready(one).ready]
    words = "workbook.hazards.seen" if ready else "workbook.hazards.seen_not_ready"
    return say(words, names=_TOGETHER.join(dict.fromkeys(ready or those))), bool(ready)


def _alone_sees(facts: Facts, one: Assigned, gas: str) -> bool:
    return sees(replace(facts, permit=replace(facts.permit, instruments={one.instrument: one})), gas)


def hazard_id(name: str, taken: Collection[str]) -> str:
    """An id for a hazard added today: its name in small letters and dashes, numbered when it is taken."""
    plain = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "hazard"
    count = 1
    while (plain if count == 1 else f"{plain}-{count}") in taken:
        count += 1
    return plain if count == 1 else f"{plain}-{count}"
