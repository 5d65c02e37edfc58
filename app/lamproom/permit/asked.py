"""Which items of the form are asked on a permit: its route, what its evaluation answers for good, and its facts."""

from __future__ import annotations

from collections.abc import Callable
from functools import reduce

from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.form import Item
from lamproom.permit.space import airborne
from lamproom.words import Sentence, sentence

ABOUT: dict[str, Callable[[Facts], bool]] = {
    "space:bad-air": lambda facts: _bad_air(facts),
    "hazard:hot-work": lambda facts: hot_work(facts),
    "hazard:dust": lambda facts: _has(facts, "dust"),
    "people:other-employer": lambda facts: other_employer(facts),
    "others:near": lambda facts: any(other.near for other in facts.others),
}
"""The facts that an item may depend on, by the words that a form uses for them."""


def asked(facts: Facts, item: Item) -> bool:
    """Is the item asked on this permit: on its route, not answered by the evaluation for good, its conditions met?"""
    if facts.permit.route not in item.routes or stands(facts, item):
        return False
    return all(_met(facts, one.strip()) for one in item.only_if.split(",") if one.strip())


def why_asked(facts: Facts, item: Item) -> Sentence | None:
    """The facts of this permit that bring a question which others are not asked; None where every permit is asked."""
    reasons = [_why(facts, one.strip()) for one in item.only_if.split(",") if one.strip()]
    if not reasons:
        return None
    return reduce(lambda before, one: sentence("permit.because.and", before=before, last=one), reasons)


_SHORT = {"retrieval=does not apply": "permit.because.no_retrieval", "different-today=yes": "permit.because.different"}
"""What needs no quoting of the question, since everyone knows it by this."""


def _why(facts: Facts, condition: str) -> Sentence:
    if condition in ABOUT:
        return sentence(f"permit.because.{condition.replace(':', '.')}")
    id, wanted = condition.split("=", 1)
    item = facts.permit.form.item(id)
    question = item.question if item is not None else id
    made = facts.permit.answers.get(id)
    said = made.event.found if made is not None and isinstance(made.event, e.Answered) else ""
    said = facts.permit.opened.evaluated.standing.get(id, "").strip() or said.strip()
    if said and condition in _SHORT:
        return sentence(_SHORT[condition], found=said)
    answer = sentence(f"permit.answer.{wanted}")
    if not said:
        return sentence("permit.because.answer", question=question, answer=answer)
    return sentence("permit.because.answer_found", question=question, answer=answer, found=said)


def stands(facts: Facts, item: Item) -> bool:
    """Does the evaluation say, with its reason, that the item does not apply to this space?"""
    return item.may_not_apply and bool(facts.permit.opened.evaluated.standing.get(item.id, "").strip())


def _met(facts: Facts, condition: str) -> bool:
    about = ABOUT.get(condition)
    if about is not None:
        return about(facts)
    other, wanted = condition.split("=", 1)
    if wanted == "does not apply" and facts.permit.opened.evaluated.standing.get(other, "").strip():
        return True
    made = facts.permit.answers.get(other)
    return made is not None and isinstance(made.event, e.Answered) and made.event.answer == wanted


def _bad_air(facts: Facts) -> bool:
    """Can the air here asphyxiate or poison: by the register, or by any hazard of the air that is not excluded?"""
    permit = facts.permit
    return permit.opened.registered.bad_air_possible or any(
        airborne(sort, gas) and not excluded(facts, id) for id, (sort, gas) in permit.sorts().items()
    )


def _has(facts: Facts, wanted: str) -> bool:
    return any(sort == wanted and not excluded(facts, id) for id, (sort, _gas) in facts.permit.sorts().items())


def hot_work(facts: Facts) -> bool:
    """Is there hot work on this permit? Then a watch stays half an hour after it: 29 CFR 1910.252(a)(2)(iii)(B)."""
    return _has(facts, "hot-work")


def fan_needed(facts: Facts) -> bool:
    """Is blown air part of what lets people in: by the evaluation, or because the alternate procedures rest on it?"""
    return facts.permit.opened.evaluated.ventilation_needed or facts.permit.route == "alternate"


def excluded(facts: Facts, hazard: str) -> bool:
    """Was it said today, with a reason, that this hazard does not apply?"""
    held = facts.permit.held.get(hazard)
    return held is not None and isinstance(held.event, e.HazardHeld) and not held.event.held


def other_employer(facts: Facts) -> bool:
    """Does anyone on the permit work for somebody else? Then host and contractor owe each other what they know."""
    permit = facts.permit
    named = (*permit.entrants, *permit.attendants, *((permit.supervisor,) if permit.supervisor else ()))
    return any(facts.people[id].employer != "own" for id in named if id in facts.people)
