"""Hazards, isolation, ventilation and what changed: everything that must be held before and while people are inside."""

from __future__ import annotations

from collections.abc import Iterator

from lamproom.permit import events as e
from lamproom.permit.asked import asked, fan_needed, why_asked
from lamproom.permit.facts import Facts
from lamproom.permit.form import Item
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.space import AIRBORNE
from lamproom.words import Sentence, sentence

MEASURES = "29 CFR 1910.146(d)(3)"


def found(facts: Facts) -> Iterator[Found]:
    yield from _items(facts)
    yield from _unnamed(facts)
    yield from _hazards(facts)
    yield from _isolation(facts)
    yield from _released(facts)
    yield from _opening(facts)
    yield from _fan(facts)
    yield from _conditions(facts)


def _items(facts: Facts) -> Iterator[Found]:
    for item in facts.permit.form.items:
        if not asked(facts, item):
            continue
        made = facts.permit.answers.get(item.id)
        target = f"{item.sheet}/{item.id}"
        clears = sentence("permit.said", text=item.clears)
        if made is None or not isinstance(made.event, e.Answered):
            yield Found("item-open", _not_answered(facts, item), item.rule, clears, target, item.id)
            continue
        answer = made.event
        if answer.answer == "does not apply":
            if not item.may_not_apply or not answer.found.strip():
                yield Found(
                    "item-open",
                    sentence("permit.item_needs_reason", question=item.question),
                    item.rule,
                    clears,
                    target,
                    item.id,
                )
        elif item.expect != "any" and answer.answer != item.expect:
            yield Found(
                "item-answered-against",
                sentence(
                    "permit.item_against", question=item.question, answer=sentence(f"permit.answer.{answer.answer}")
                ),
                item.rule,
                clears,
                target,
                item.id,
            )
        elif item.found and not answer.found.strip() and not (item.expect == "any" and answer.answer == "no"):
            yield Found(
                "item-open",
                sentence("permit.item_needs_found", question=item.question, what=item.found),
                item.rule,
                clears,
                target,
                item.id,
            )


def _not_answered(facts: Facts, item: Item) -> Sentence:
    """With the reason where only some permits are asked: it is what makes the answer matter."""
    why = why_asked(facts, item)
    if why is None:
        return sentence("permit.item_open", question=item.question)
    return sentence("permit.item_open_because", question=item.question, why=why)


def _hazards(facts: Facts) -> Iterator[Found]:
    for id, name, _shows, _gas in facts.permit.hazards():
        held = facts.permit.held.get(id)
        target = f"hazards/{id}"
        if held is None or not isinstance(held.event, e.HazardHeld):
            yield Found(
                "hazard-open",
                sentence("permit.hazard_open", hazard=name),
                MEASURES,
                sentence("permit.clears.hazard", hazard=name),
                target,
                id,
            )
        elif not held.event.how.strip():
            yield Found(
                "hazard-not-held",
                sentence("permit.hazard_not_held", hazard=name),
                MEASURES,
                sentence("permit.clears.hazard", hazard=name),
                target,
                id,
            )
        elif facts.permit.route == "reclassified" and not (held.event.eliminated or not held.event.held):
            yield Found(
                "hazard-not-eliminated",
                sentence("permit.hazard_not_eliminated", hazard=name),
                "29 CFR 1910.146(c)(7)(i)",
                sentence("permit.clears.eliminate", hazard=name),
                target,
                id,
            )


_ANSWERS: tuple[tuple[str, str, frozenset[str]], ...] = (
    ("bad_air_possible", "atmosphere", AIRBORNE),
    ("engulfment_possible", "engulfment", frozenset({"engulfment"})),
    ("trapping_shape", "trapping", frozenset({"trapping"})),
    ("other_hazard", "other", frozenset({"energy", "fall", "heat", "hot-work", "other", "not-said"})),
)
"""The four answers that make a space permit-required, and the sorts of hazard that each must have brought."""


def _unnamed(facts: Facts) -> Iterator[Found]:
    """What the register says of the space must stand among its hazards: one that names none looked at none."""
    permit = facts.permit
    known = {"atmosphere" if gas is not None else sort for sort, gas in permit.sorts().values()}
    asked = {"permit": _ANSWERS, "alternate": _ANSWERS[:1], "reclassified": ()}[permit.route]  # the rest: route.py
    for answer, words, sorts in asked:
        if getattr(permit.opened.registered, answer) and not known & sorts:
            yield Found(
                "hazard-unnamed",
                sentence("permit.hazard_unnamed", what=sentence(f"permit.hazard_sort.{words}")),
                "29 CFR 1910.146(f)(7), (d)(2)",
                sentence("permit.clears.hazard_unnamed"),
                "registers/space/evaluate/hazards",
                words,
            )


_NOT_TRIED = {"lockout": "permit.isolation_not_dead.locked"}
"""What moves by power is tried by starting it (29 CFR 1910.147(d)(6)); a line by looking whether anything comes."""


def _isolation(facts: Facts) -> Iterator[Found]:
    for point in facts.permit.opened.evaluated.isolation:
        made = facts.permit.isolated.get(point.id)
        target = f"isolation/{point.id}"
        if point.held_as in ("single-valve", "not-said"):
            yield Found(
                "isolation-weak",
                sentence(f"permit.isolation_weak.{point.held_as}", point=point.name, holds=point.holds),
                "29 CFR 1910.146(b), isolation",
                sentence(f"permit.clears.isolation_weak.{point.held_as}"),
                f"registers/space/evaluate/isolation/{point.id}",
                point.id,
            )
        event = made.event if made is not None else None
        locked = isinstance(event, e.PointIsolated) and (point.held_as != "lockout" or bool(event.lock.strip()))
        if made is None or not isinstance(made.event, e.PointIsolated) or not locked:
            yield Found(
                "isolation-open",
                sentence("permit.isolation_open", point=point.name),
                "29 CFR 1910.146(d)(3)(iii)",
                sentence("permit.clears.isolate", point=point.name),
                target,
                point.id,
            )
            continue
        if not made.event.tried_dead:
            yield Found(
                "isolation-not-dead",
                sentence(_NOT_TRIED.get(point.held_as, "permit.isolation_not_dead.held"), point=point.name),
                "29 CFR 1910.147(d)(6)",
                sentence("permit.clears.try", point=point.name),
                target,
                point.id,
            )
        owner, other = made.event.owner.strip(), (made.event.verified_by or "").strip()
        if not owner or not other or other == owner:
            yield Found(
                "isolation-one-person",
                sentence("permit.isolation_one_person", point=point.name),
                "site rule",
                sentence("permit.clears.second", point=point.name),
                target,
                point.id,
            )


def _again(facts: Facts, point: str) -> Sentence:
    """What clears it: a draft is isolated again; after the signature a changed isolation needs a new permit."""
    if facts.permit.authorised is None:
        return sentence("permit.clears.isolate", point=point)
    return sentence("permit.clears.new")


def _released(facts: Facts) -> Iterator[Found]:
    """Locks come off after the end. Before it, whoever is inside has lost what held matter and energy back."""
    permit = facts.permit
    if permit.ended is not None and not permit.tally.inside:
        return
    names = {point.id: point.name for point in permit.opened.evaluated.isolation}
    for made in permit.released:
        if isinstance(made.event, e.PointReleased) and made.event.point not in permit.isolated:
            yield Found(
                "isolation-lost",
                sentence("permit.isolation_lost", point=names.get(made.event.point, made.event.point)),
                "29 CFR 1910.146(d)(3)(iii), (e)(5)(ii)",
                _again(facts, names.get(made.event.point, made.event.point)),
                f"isolation/{made.event.point}",
                made.event.point,
            )
    for id, made in permit.isolated.items():
        lock = made.event.lock.strip() if isinstance(made.event, e.PointIsolated) else ""
        elsewhere = next((other for other in facts.others if lock and lock in other.unlocked), None)
        if elsewhere is not None:
            yield Found(
                "isolation-lost",
                sentence(
                    "permit.isolation_lost_elsewhere", point=names.get(id, id), lock=lock, number=elsewhere.number
                ),
                "29 CFR 1910.146(d)(3)(iii), (d)(11)",
                _again(facts, names.get(id, id)),
                f"isolation/{id}",
                id,
            )


def _opening(facts: Facts) -> Iterator[Found]:
    opened = facts.permit.open_since
    if opened is None or not (isinstance(opened.event, e.SpaceOpened) and opened.event.guarded.strip()):
        yield Found(
            "opening-not-stated",
            sentence("permit.opening_not_stated"),
            "29 CFR 1910.146(d)(3)(v)",
            sentence("permit.clears.open"),
            "isolation/open",
        )


def _fan(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    if permit.fan is not None:
        yield from _fan_described(facts)
        return
    if permit.fan_stopped is not None:
        yield Found(
            "fan-stopped",
            sentence("permit.fan_stopped"),
            "29 CFR 1910.146(d)(3)(iv)",
            sentence("permit.clears.fan"),
            "isolation/fan",
        )
    elif fan_needed(facts):
        yield Found(
            "fan-missing",
            sentence("permit.fan_missing"),
            "29 CFR 1910.146(d)(3)(iv)",
            sentence("permit.clears.fan"),
            "isolation/fan",
        )


def _fan_described(facts: Facts) -> Iterator[Found]:
    """A fan is a control when it is known where it draws, and how its stopping is noticed."""
    fan = facts.permit.fan.event if facts.permit.fan is not None else None
    if not isinstance(fan, e.VentilationStarted) or not fan_needed(facts):
        return
    if not (fan.intake.strip() and fan.stop_noticed_by.strip()):
        yield Found(
            "fan-not-described",
            sentence("permit.fan_not_described"),
            "29 CFR 1910.146(c)(5)(ii)(E), (d)(3)(iv)",
            sentence("permit.clears.fan_described"),
            "isolation/fan",
        )


def _conditions(facts: Facts) -> Iterator[Found]:
    for id in facts.permit.conditions:
        line = facts.permit.form.condition(id)
        words = line.words if line is not None else id
        clears = sentence("permit.said", text=line.clears) if line else sentence("permit.clears.condition")
        code = "condition" if line is not None and line.stage == "enter" else "condition-stay"
        yield Found(
            code,
            sentence("permit.condition", words=words),
            "29 CFR 1910.146(e)(5)(ii)",
            clears,
            f"watch/condition/{id}",
            id,
        )
