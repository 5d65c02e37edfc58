"""The shorter routes: when the alternate procedures or a reclassification are open, and what each does not ask for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lamproom.permit import events as e
from lamproom.permit.asked import excluded
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.space import airborne
from lamproom.words import sentence

ALTERNATE = "29 CFR 1910.146(c)(5)"
RECLASSIFIED = "29 CFR 1910.146(c)(7)"

_PERMIT_ONLY = frozenset(
    {
        "no-attendant",
        "nobody-on-watch",
        "attendant-elsewhere",
        "two-parts",
        "not-briefed",
        "rescue-open",
        "rescue-over",
        "rescue-slow",
        "call-not-tried",
        "rescue-not-evaluated",
        "rescue-not-told",
        "rescue-practice-old",
        "rescue-no-first-aid",
        "no-mechanical-device",
    }
)
"""Paragraphs (d) to (f) and (h) to (k) are waived on both shorter routes: (c)(5)(i), (c)(7)."""

WAIVED: Mapping[e.Route, frozenset[str]] = {
    "permit": frozenset(),
    "alternate": _PERMIT_ONLY,
    "reclassified": _PERMIT_ONLY
    | {
        "level-missing",
        "no-air",
        "lid-not-tested",
        "base-missing",
        "point-not-tested",
        "reading-early",
        "verification-old",
        "retest-late",
        "retest-overdue",
        "no-instrument",
        "instrument-lost",
        "not-continuous",
        "continuous-lost",
        "duct-not-tested",
        "not-permit-required",
        "fan-missing",
    },
}
"""Codes that a route does not ask for. A reading at or past a limit, gas unaccounted for, a condition or a stop bars on
every route; training, 1910.146(g), is asked on every route."""


def found(facts: Facts) -> Iterator[Found]:
    if facts.permit.route == "alternate":
        yield from _alternate(facts)
    if facts.permit.route == "reclassified":
        yield from _reclassified(facts)


def _alternate(facts: Facts) -> Iterator[Found]:
    """Open only where the air is the only hazard and blown air alone keeps it good, shown by data: (c)(5)(i)."""
    permit = facts.permit
    for name in other_hazards(facts):
        yield Found(
            "alternate-other-hazard",
            sentence("permit.alternate_other_hazard", hazard=name),
            f"{ALTERNATE}(i)(A)",
            sentence("permit.clears.full_permit"),
            "board/new",
            name,
        )
    basis = permit.opened.evaluated.alternate
    today = facts.at.astimezone(permit.zone).date()
    if basis is None or not (basis.monitoring.strip() and basis.inspection.strip() and basis.decided_by.strip()):
        yield Found(
            "alternate-no-data",
            sentence("permit.alternate_no_data"),
            f"{ALTERNATE}(i)(C), (D), (E)",
            sentence("permit.clears.alternate_data"),
            "registers/space/evaluate/monitoring",
        )
    elif not basis.ventilation_alone or basis.decided_on > today:
        yield Found(
            "alternate-not-by-air-alone",
            sentence("permit.alternate_not_by_air_alone"),
            f"{ALTERNATE}(i)(B)",
            sentence("permit.clears.full_permit"),
            "board/new",
        )


def other_hazards(facts: Facts) -> tuple[str, ...]:
    """What is no hazard of the air: of the register's questions, and of each hazard not excluded today."""
    permit = facts.permit
    space = permit.opened.registered
    asked = (
        ("engulfment", space.engulfment_possible),
        ("trapping", space.trapping_shape),
        ("other", space.other_hazard),
    )
    named = {id: name for id, name, _shows, _gas in permit.hazards()}
    sorts = permit.sorts()
    return tuple(sentence(f"permit.hazard_sort.{key}").say() for key, yes in asked if yes) + tuple(
        named[id] for id, (sort, gas) in sorts.items() if not airborne(sort, gas) and not excluded(facts, id)
    )


def _reclassified(facts: Facts) -> Iterator[Found]:
    """Open only with no actual or potential hazard of the air and every other hazard gone: (c)(7)(i)."""
    permit = facts.permit
    names = {id: name for id, name, _shows, _gas in permit.hazards()}
    air = [names[id] for id, (sort, gas) in permit.sorts().items() if airborne(sort, gas)]
    if permit.opened.registered.bad_air_possible:
        air.append(sentence("permit.hazard_sort.atmosphere").say())
    for name in air:
        yield Found(
            "reclassified-air",
            sentence("permit.reclassified_air", hazard=name),
            f"{RECLASSIFIED}(i)",
            sentence("permit.clears.full_or_alternate"),
            "board/new",
            name,
        )
    if permit.opened.evaluated.ventilation_needed or permit.fan is not None:
        yield Found(
            "reclassified-by-fan",
            sentence("permit.reclassified_by_fan"),
            f"{RECLASSIFIED}, note",
            sentence("permit.clears.full_or_alternate"),
            "board/new",
        )
    basis = permit.basis.event if permit.basis is not None else None
    if not isinstance(basis, e.BasisStated) or not basis.basis.strip():
        yield Found(
            "basis-missing",
            sentence("permit.basis_missing"),
            f"{RECLASSIFIED}(iii)",
            sentence("permit.clears.basis"),
            "hazards/basis",
        )
