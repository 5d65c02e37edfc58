"""A space as the register knows it: where, how shaped, what can happen in it, by whose evaluation."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import ClassVar, Literal

from lamproom.bench.events import Number, Value
from lamproom.bench.happening import Event, Happening, later

HazardKind = Literal[
    "atmosphere", "engulfment", "trapping", "dust", "energy", "fall", "heat", "hot-work", "other", "not-said"
]
"""What sort of hazard it is. It decides which lawful route is open: (c)(5) is for the atmosphere alone."""

Holding = Literal[
    "blank", "removed-section", "double-block-and-bleed", "lockout", "disconnected-link", "single-valve", "not-said"
]
"""How an isolation point is held. The definition of isolation in 29 CFR 1910.146(b) knows no single closed valve."""


class Hazard(Value):
    """A hazard of the space: its id, name, how it shows, and the control that the evaluation asks for.

    ``gas`` is a substance id when the air carries it, None for others (engulfment, machines, falls).
    """

    id: str
    name: str
    shows: str
    control: str
    gas: str | None = None
    sort: HazardKind = later("not-said")


class IsolationPoint(Value):
    """A point that must be held before entry: what it is, which energy or matter it holds back, how it is held."""

    id: str
    name: str
    holds: str
    how: str
    held_as: Holding = later("not-said")


class Portal(Value):
    """An opening: name, place, clear width in metres, vertical way in or not, whether a lid can be tested through."""

    name: str
    width_m: Number
    vertical: bool = True
    lid: bool = True


class RescuePlan(Value):
    """Who comes, how they are called, how long they take (minutes), and how people are fetched without entry.

    ``team`` says whose it is. ``evaluated_by`` and ``evaluated_on``: who judged it able to reach people here in time.
    ``told_hazards`` and ``access_given`` are what an outside service is owed, 29 CFR 1910.146(k)(1)(iv), (v);
    ``practised_on`` and ``first_aid_until`` what an own team needs, (k)(2)(iii), (iv). ``mechanical``: the line ends at
    a mechanical device, (k)(3)(ii). None and empty mean that nobody said it.
    """

    service: str
    means: str
    then: str
    response_min: Number
    retrieval: str
    team: Literal["outside", "own", "not-said"] = later("not-said")
    evaluated_by: str = later("")
    evaluated_on: date | None = later(None)
    told_hazards: bool | None = later(None)
    access_given: bool | None = later(None)
    practised_on: date | None = later(None)
    first_aid_until: date | None = later(None)
    mechanical: bool | None = later(None)


class AlternateBasis(Value):
    """Why the shorter route of 29 CFR 1910.146(c)(5) is open: where the monitoring and the inspection data are kept
    that show that the air is the only hazard and that blown air alone keeps it good; who decided so, and when."""

    monitoring: str
    inspection: str
    ventilation_alone: bool
    decided_by: str
    decided_on: date


class SpaceRegistered(Event):
    """A space joined the register. Lengths in metres from the portal downwards; figures as typed.

    The three questions that make it a confined space and the four that make it permit-required follow
    29 CFR 1910.146(b); each is answered, None is not allowed. ``altitude_m`` above the sea, None unless said.
    """

    kind: ClassVar[str] = "space-registered"
    name: str
    place: str
    shape: Literal["vertical-shaft", "vertical-tank", "silo", "horizontal-tank", "vault"]
    depth_m: Number
    across_m: Number
    portal: Portal
    contents: str
    body_can_enter: bool
    limited_way: bool
    not_for_occupancy: bool
    bad_air_possible: bool
    engulfment_possible: bool
    trapping_shape: bool
    other_hazard: bool
    altitude_m: Number | None = later(None)


class SpaceEvaluated(Event):
    """The evaluation of a space by a named qualified person (the envelope says who recorded it).

    ``unisolable`` holds the reason why a source cannot be shut off, None when all can. ``retest_points_m`` are the few
    depths tested during work. ``standing`` are answers that do not apply here, with reasons, by item id of the form.
    ``adjoining`` are the ids of spaces from which something can come in here. ``alternate`` is the basis of the shorter
    route, None when nobody decided that it is open.
    """

    kind: ClassVar[str] = "space-evaluated"
    by_name: str
    qualified_as: str
    review_by: date
    hazards: tuple[Hazard, ...]
    isolation: tuple[IsolationPoint, ...]
    unisolable: str | None
    ventilation_needed: bool
    retest_points_m: tuple[Number, ...]
    rescue: RescuePlan
    communication: str
    equipment: str
    standing: dict[str, str]
    remarks: str = ""
    adjoining: tuple[str, ...] = later(())
    alternate: AlternateBasis | None = later(None)


class SpaceRetired(Event):
    """The space is no longer entered: filled, removed, or no longer ours."""

    kind: ClassVar[str] = "space-retired"
    reason: str


EVENTS: tuple[type[Event], ...] = (SpaceRegistered, SpaceEvaluated, SpaceRetired)


@dataclass(frozen=True, slots=True)
class Space:
    """What the register knows of one space; None where it was never said."""

    id: str
    registered: SpaceRegistered | None = None
    evaluated: SpaceEvaluated | None = None
    retired: SpaceRetired | None = None
    version: int = 0


AIRBORNE: frozenset[str] = frozenset({"atmosphere", "dust"})


def airborne(sort: str, gas: str | None) -> bool:
    """Is it a hazard of the air? One with a gas is, whatever sort was said; one of no stated sort may be."""
    return gas is not None or sort in AIRBORNE


def permit_required(space: SpaceRegistered) -> bool:
    """Is it a permit-required confined space? All three of the first, any one of the four: 29 CFR 1910.146(b)."""
    confined = space.body_can_enter and space.limited_way and space.not_for_occupancy
    return confined and any(
        (space.bad_air_possible, space.engulfment_possible, space.trapping_shape, space.other_hazard)
    )


def apply(state: Space, happening: Happening) -> Space:
    state = replace(state, version=happening.version)
    match happening.event:
        case SpaceRegistered() as event:
            return replace(state, registered=event)
        case SpaceEvaluated() as event:
            return replace(state, evaluated=event)
        case SpaceRetired() as event:
            return replace(state, retired=event)
    return state


def fold(happenings: Iterable[Happening], start: Space) -> Space:
    for happening in happenings:
        start = apply(start, happening)
    return start
