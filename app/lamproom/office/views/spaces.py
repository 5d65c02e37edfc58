"""What the register of spaces shows and reads: registration, classification, evaluation."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeVar, get_args

from lamproom.office.office import Office
from lamproom.office.views.bench import site_form
from lamproom.office.views.registers import Facts
from lamproom.office.views.typed import Filled, Typed, day_words
from lamproom.permit.space import (
    AlternateBasis,
    Hazard,
    HazardKind,
    Holding,
    IsolationPoint,
    Portal,
    RescuePlan,
    SpaceEvaluated,
    SpaceRegistered,
    permit_required,
)
from lamproom.permit.space import Space as KnownSpace
from lamproom.words import say, say_count

T = TypeVar("T", bound=str)
Shape = Literal["vertical-shaft", "vertical-tank", "silo", "horizontal-tank", "vault"]
SHAPES: tuple[Shape, ...] = get_args(Shape)
SORTS: tuple[HazardKind, ...] = tuple(sort for sort in get_args(HazardKind) if sort != "not-said")
HELD_AS: tuple[Holding, ...] = tuple(held for held in get_args(Holding) if held != "not-said")
Team = Literal["outside", "own", "not-said"]
TEAMS: tuple[Team, ...] = ("outside", "own")
BASIS = ("monitoring", "inspection", "ventilation-alone", "decided-by", "decided-on")
"""What is said when the alternate procedures are decided to be open: all of it or nothing."""
CONFINED = ("body_can_enter", "limited_way", "not_for_occupancy")
PERMIT = ("bad_air_possible", "engulfment_possible", "trapping_shape", "other_hazard")
HAZARD_GASES = (
    "oxygen",
    "flammable",
    "hydrogen-sulfide",
    "carbon-monoxide",
    "carbon-dioxide",
    "methane",
    "nitrogen",
    "argon",
    "ammonia",
    "chlorine",
    "sulfur-dioxide",
)


@dataclass(frozen=True, slots=True)
class SpaceLine:
    """A space in the list: id, name, its class and evaluation in one line."""

    id: str
    name: str
    note: str


def spaces(office: Office) -> tuple[SpaceLine, ...]:
    """Every space ever registered."""
    lines = []
    for id in office.ids("space"):
        space = office.space(id)
        if space.registered is None:
            continue
        if space.retired is not None:
            note = say("registers.space.retired")
        elif space.evaluated is None:
            note = say("registers.space.not_evaluated")
        else:
            note = say("registers.space.review_by", day=day_words(space.evaluated.review_by))
        lines.append(SpaceLine(id, space.registered.name, note))
    return tuple(lines)


def class_words(registered: SpaceRegistered) -> str:
    """What the seven answers make of a space: 29 CFR 1910.146(b)."""
    if permit_required(registered):
        return say("registers.space.permit_required")
    confined = registered.body_can_enter and registered.limited_way and registered.not_for_occupancy
    return say("registers.space.confined" if confined else "registers.space.not_confined")


def danger_words(registered: SpaceRegistered | None) -> str:
    """What the sign at a permit-required space says, 29 CFR 1910.146(c)(2); empty for another space."""
    return say("registers.space.danger") if registered is not None and permit_required(registered) else ""


def neighbours(office: Office, id: str) -> tuple[tuple[str, str], ...]:
    """The other spaces of the register, as pairs of id and name."""
    known = ((other, office.space(other).registered) for other in office.ids("space") if other != id)
    return tuple((other, registered.name) for other, registered in known if registered is not None)


def _capability(office: Office, made: SpaceEvaluated) -> list[tuple[str, str]]:
    """What the evaluation says of rescue, neighbours and the alternate procedures; what nobody said is left out."""
    plan, basis = made.rescue, made.alternate
    lines = []
    if plan.team != "not-said":
        lines.append((say("registers.space.team"), say(f"registers.team.{plan.team}")))
    if plan.evaluated_by and plan.evaluated_on is not None:
        judged = say("registers.space.on_words", name=plan.evaluated_by, day=day_words(plan.evaluated_on))
        lines.append((say("registers.space.judged_by"), judged))
    names = [_name(office.space(other), other) for other in made.adjoining]
    if names:
        lines.append((say("registers.space.adjoining"), ", ".join(names)))
    if basis is not None:
        decided = say("registers.space.on_words", name=basis.decided_by, day=day_words(basis.decided_on))
        lines.append((say("registers.space.decided_by"), decided))
        lines.append((say("registers.space.monitoring"), basis.monitoring))
        lines.append((say("registers.space.inspection"), basis.inspection))
    return lines


def _name(space: KnownSpace, id: str) -> str:
    return space.registered.name if space.registered is not None else id


def space_facts(office: Office, id: str) -> Facts:
    """A space as registered and evaluated."""
    space = office.space(id)
    known, made = space.registered, space.evaluated
    if known is None:
        return Facts(id, ())
    lines = [
        (say("registers.space.class"), class_words(known)),
        (say("registers.space.place"), known.place),
        (say("registers.space.shape"), say(f"registers.shape.{known.shape}")),
        (say("registers.space.depth"), say("registers.with_unit", figure=known.depth_m, unit="m")),
        (say("registers.space.across"), say("registers.with_unit", figure=known.across_m, unit="m")),
        *(
            ((say("registers.space.altitude"), say("registers.with_unit", figure=known.altitude_m, unit="m")),)
            if known.altitude_m
            else ()
        ),
        (say("registers.space.portal"), known.portal.name),
        (say("registers.space.contents"), known.contents),
    ]
    if made is not None:
        lines += [
            (
                say("registers.space.by"),
                say("registers.space.by_words", name=made.by_name, qualified=made.qualified_as),
            ),
            (say("registers.space.review"), day_words(made.review_by)),
            (say("registers.space.hazards"), ", ".join(hazard.name for hazard in made.hazards)),
            (say("registers.space.isolation"), say_count("registers.space.points", len(made.isolation))),
            (say("registers.space.unisolable"), made.unisolable or say("registers.space.all_isolable")),
            (say("registers.space.retest"), _depths(made.retest_points_m)),
            (say("registers.space.rescue"), made.rescue.service),
            *_capability(office, made),
        ]
    return Facts(known.name, tuple(lines))


def _depths(points_m: tuple[str, ...]) -> str:
    """Depths below the portal, each with its unit."""
    return ", ".join(say("registers.space.depth_m", depth=point) for point in points_m)


@dataclass(frozen=True, slots=True)
class PointInList:
    """Where an isolation point stands in its evaluation, and why it counts for nothing (empty: it counts)."""

    at: int
    weak: str


def point_row(office: Office, id: str, point: str) -> PointInList | None:
    """The row of an isolation point in the evaluation of a space; None where that does not name it."""
    made = office.space(id).evaluated
    for at, known in enumerate(made.isolation if made is not None else ()):
        if known.id == point:
            weak = known.held_as in ("single-valve", "not-said")
            return PointInList(at, say("registers.space.held_as_weak", point=known.name) if weak else "")
    return None


def space_from(answers: Mapping[str, str]) -> Filled[SpaceRegistered]:
    """A space as typed; each of the seven questions must be answered."""
    typed = Typed(answers)
    name, place, contents = typed.text("name"), typed.text("place"), typed.text("contents")
    given = typed.one("shape")
    shape = next((known for known in SHAPES if known == given), None)
    depth, across = typed.figure("depth"), typed.figure("across")
    portal, width = typed.text("portal"), typed.figure("portal-width")
    vertical, lid = typed.yes("vertical"), typed.yes("lid")
    seven = {key: typed.yes(key) for key in (*CONFINED, *PERMIT)}
    altitude = typed.figure("altitude", needed=False)
    if typed.troubles or shape is None or depth is None or across is None or width is None:
        return Filled(None, typed.troubles)
    registered = SpaceRegistered(
        name=name,
        place=place,
        shape=shape,
        depth_m=depth,
        across_m=across,
        portal=Portal(name=portal, width_m=width, vertical=bool(vertical), lid=bool(lid)),
        contents=contents,
        altitude_m=altitude,
        body_can_enter=bool(seven["body_can_enter"]),
        limited_way=bool(seven["limited_way"]),
        not_for_occupancy=bool(seven["not_for_occupancy"]),
        bad_air_possible=bool(seven["bad_air_possible"]),
        engulfment_possible=bool(seven["engulfment_possible"]),
        trapping_shape=bool(seven["trapping_shape"]),
        other_hazard=bool(seven["other_hazard"]),
    )
    return Filled(registered, {})


def space_answers(office: Office, id: str) -> Mapping[str, str]:
    """What is registered of a space, as answers of its page."""
    known = office.space(id).registered
    if known is None:
        return {}
    words = {key: "yes" if getattr(known, key) else "no" for key in (*CONFINED, *PERMIT)}
    return words | {
        "name": known.name,
        "place": known.place,
        "contents": known.contents,
        "shape": known.shape,
        "depth": known.depth_m,
        "across": known.across_m,
        "altitude": known.altitude_m or "",
        "portal": known.portal.name,
        "portal-width": known.portal.width_m,
        "vertical": "yes" if known.portal.vertical else "no",
        "lid": "yes" if known.portal.lid else "no",
    }


def standing_items(office: Office) -> tuple[tuple[str, str], ...]:
    """Items of the form that may not apply to a space for good: (id, question)."""
    return tuple((item.id, item.question) for item in site_form(office).items if item.may_not_apply)


def id_of(name: str, taken: set[str]) -> str:
    """An id from a name, such as 'hydrogen-sulfide'; the same name gives the same id at each evaluation."""
    plain = "-".join("".join(mark if mark.isalnum() else " " for mark in name.lower()).split()) or "one"
    id, number = plain, 2
    while id in taken:
        id, number = f"{plain}-{number}", number + 1
    taken.add(id)
    return id


def rows_of(answers: Mapping[str, str], list_key: str) -> tuple[int, ...]:
    """The rows of a list in which anything was typed."""
    rows = {int(key.split(".")[1]) for key, text in answers.items() if key.startswith(f"{list_key}.") and text.strip()}
    return tuple(sorted(rows))


def _known(given: str, known: tuple[T, ...], otherwise: T) -> T:
    return next((one for one in known if one == given), otherwise)


def _said(answers: Mapping[str, str], key: str) -> bool | None:
    """Yes, no, or None while nobody said it."""
    return {"yes": True, "no": False}.get(answers.get(key, ""))


def _plan(typed: Typed, answers: Mapping[str, str]) -> RescuePlan | None:
    """Who comes, and what is known of whether they can; the latter may be said later, and bars entry until then."""
    service, means, then = typed.text("service"), typed.text("means"), typed.text("then")
    response, retrieval = typed.figure("response"), typed.text("retrieval")
    judged, practised = typed.day("judged-on", needed=False), typed.day("practised-on", needed=False)
    first_aid = typed.day("first-aid-until", needed=False)
    if response is None:
        return None
    return RescuePlan(
        service=service,
        means=means,
        then=then,
        response_min=response,
        retrieval=retrieval,
        team=_known(typed.one("team", needed=False), TEAMS, "not-said"),
        evaluated_by=typed.text("judged-by", needed=False),
        evaluated_on=judged,
        told_hazards=_said(answers, "told-hazards"),
        access_given=_said(answers, "access-given"),
        practised_on=practised,
        first_aid_until=first_aid,
        mechanical=_said(answers, "mechanical"),
    )


def _basis(typed: Typed, answers: Mapping[str, str]) -> AlternateBasis | None:
    """The basis of the alternate procedures: None when nothing of it was said, else all of it is needed."""
    if not any(answers.get(key, "").strip() for key in BASIS):
        return None
    monitoring, inspection = typed.text("monitoring"), typed.text("inspection")
    alone, by, on = typed.yes("ventilation-alone"), typed.text("decided-by"), typed.day("decided-on")
    if on is None:
        return None
    return AlternateBasis(
        monitoring=monitoring, inspection=inspection, ventilation_alone=bool(alone), decided_by=by, decided_on=on
    )


def _hazards(typed: Typed, answers: Mapping[str, str]) -> tuple[Hazard, ...]:
    taken: set[str] = set()
    found = []
    for row in rows_of(answers, "hazards"):
        name, shows = typed.text(f"hazards.{row}.name"), typed.text(f"hazards.{row}.shows")
        control, gas = typed.text(f"hazards.{row}.control"), typed.one(f"hazards.{row}.gas", needed=False)
        sort = _known(typed.one(f"hazards.{row}.sort", needed=False), SORTS, "not-said")
        found.append(Hazard(id=id_of(name, taken), name=name, shows=shows, control=control, gas=gas or None, sort=sort))
    return tuple(found)


def _points(typed: Typed, answers: Mapping[str, str]) -> tuple[IsolationPoint, ...]:
    taken: set[str] = set()
    found = []
    for row in rows_of(answers, "isolation"):
        name, holds = typed.text(f"isolation.{row}.name"), typed.text(f"isolation.{row}.holds")
        how = typed.text(f"isolation.{row}.how")
        held_as = _known(typed.one(f"isolation.{row}.held_as", needed=False), HELD_AS, "not-said")
        found.append(IsolationPoint(id=id_of(name, taken), name=name, holds=holds, how=how, held_as=held_as))
    return tuple(found)


def _retest(typed: Typed, answers: Mapping[str, str]) -> tuple[str, ...]:
    found = [typed.figure(f"retest.{row}.depth") for row in rows_of(answers, "retest")]
    if not found:
        typed.troubles["retest.0.depth"] = say("registers.typed.missing")
    return tuple(depth for depth in found if depth is not None)


def evaluation_from(office: Office, answers: Mapping[str, str]) -> Filled[SpaceEvaluated]:
    """An evaluation as typed, by a named qualified person."""
    typed = Typed(answers)
    name, qualified, review = typed.text("by"), typed.text("qualified"), typed.day("review")
    hazards, points, retest = _hazards(typed, answers), _points(typed, answers), _retest(typed, answers)
    if not hazards:
        typed.troubles["hazards.0.name"] = say("registers.space.hazard_missing")
    can_all = typed.yes("isolable")
    unisolable = typed.text("unisolable") if can_all is False else None
    ventilation = typed.yes("ventilation")
    plan, basis = _plan(typed, answers), _basis(typed, answers)
    communication, equipment = typed.text("communication"), typed.text("equipment")
    standing = {id: typed.text(f"standing.{id}", needed=False) for id, _question in standing_items(office)}
    if typed.troubles or review is None or plan is None:
        return Filled(None, typed.troubles)
    evaluated = SpaceEvaluated(
        by_name=name,
        qualified_as=qualified,
        review_by=review,
        hazards=hazards,
        isolation=points,
        unisolable=unisolable,
        ventilation_needed=bool(ventilation),
        retest_points_m=retest,
        rescue=plan,
        communication=communication,
        equipment=equipment,
        standing={id: reason for id, reason in standing.items() if reason},
        remarks=typed.text("remarks", needed=False),
        adjoining=typed.many("adjoining", needed=False),
        alternate=basis,
    )
    return Filled(evaluated, {})


def evaluation_answers(office: Office, id: str) -> Mapping[str, str]:
    """The evaluation that stands, as answers of its page; descriptions only. Names, days and whatever
    somebody judged (rescue told and shown, air alone keeps it good) are given anew."""
    made = office.space(id).evaluated
    if made is None:
        return {}
    found = {
        "isolable": "no" if made.unisolable is not None else "yes",
        "unisolable": made.unisolable or "",
        "ventilation": "yes" if made.ventilation_needed else "no",
        "service": made.rescue.service,
        "means": made.rescue.means,
        "then": made.rescue.then,
        "response": made.rescue.response_min,
        "retrieval": made.rescue.retrieval,
        "communication": made.communication,
        "equipment": made.equipment,
        "remarks": made.remarks,
        "team": made.rescue.team if made.rescue.team != "not-said" else "",
        "adjoining": "\n".join(made.adjoining),
    }
    if made.alternate is not None:
        found |= {"monitoring": made.alternate.monitoring, "inspection": made.alternate.inspection}
    for row, hazard in enumerate(made.hazards):
        found |= {
            f"hazards.{row}.name": hazard.name,
            f"hazards.{row}.shows": hazard.shows,
            f"hazards.{row}.control": hazard.control,
            f"hazards.{row}.gas": hazard.gas or "",
            f"hazards.{row}.sort": hazard.sort if hazard.sort != "not-said" else "",
        }
    for row, point in enumerate(made.isolation):
        found |= {
            f"isolation.{row}.name": point.name,
            f"isolation.{row}.holds": point.holds,
            f"isolation.{row}.how": point.how,
            f"isolation.{row}.held_as": point.held_as if point.held_as != "not-said" else "",
        }
    found |= {f"retest.{row}.depth": depth for row, depth in enumerate(made.retest_points_m)}
    found |= {f"standing.{item}": reason for item, reason in made.standing.items()}
    return found
