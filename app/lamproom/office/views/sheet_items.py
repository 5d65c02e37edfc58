"""The questions of a sheet as plain values: what is asked, what was answered, what the evaluation suggests."""

from __future__ import annotations

from dataclasses import dataclass

from lamproom.permit import events as e
from lamproom.permit.asked import asked, why_asked
from lamproom.permit.facts import Facts
from lamproom.permit.form import Item
from lamproom.permit.space import SpaceEvaluated
from lamproom.permit.state import Permit
from lamproom.permit.words import clock
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class ItemView:
    """A question. ``answer`` is '' while nobody answered; ``found`` the text with it; ``asks_found`` the label of that
    text (empty: none is asked); ``suggested`` what the evaluation describes. ``note``: who answered, and when.
    ``waits``: why it cannot be answered yet (empty: it can). ``because``: why this permit is asked what others are
    not (empty: every permit is)."""

    id: str
    question: str
    rule: str
    may_not_apply: bool
    asks_found: str
    answer: str
    found: str
    suggested: str
    note: str
    expects: str
    waits: str = ""
    because: str = ""


def items_of(facts: Facts, sheet: str) -> tuple[ItemView, ...]:
    """The questions that this sheet asks on this permit, in the order of the form."""
    permit = facts.permit
    return tuple(_view(facts, item) for item in permit.form.items if item.sheet == sheet and asked(facts, item))


def needs_text(item: ItemView, answer: str) -> bool:
    """Must something be said with this answer before it is recorded?"""
    if answer == "does not apply":
        return True
    if not item.asks_found:
        return False
    return answer == item.expects or (item.expects == "any" and answer == "yes")


def _view(facts: Facts, item: Item) -> ItemView:
    made = facts.permit.answers.get(item.id)
    event = made.event if made is not None and isinstance(made.event, e.Answered) else None
    note = ""
    if made is not None and event is not None:
        note = say("sheets.item.noted", time=clock(made.at, facts.permit.zone), name=facts.name(made.by or ""))
    return ItemView(
        item.id,
        item.question,
        item.rule,
        item.may_not_apply,
        item.found,
        event.answer if event is not None else "",
        event.found if event is not None else "",
        _suggested(facts.permit.opened.evaluated, item.id),
        note,
        item.expect,
        _waits(facts.permit, item.id) if event is None else "",
        say("sheets.item.because", why=why) if (why := why_asked(facts, item)) is not None else "",
    )


def _waits(permit: Permit, item: str) -> str:
    """Nobody can have watched tests that were not made: at least one point is read first, since the opening."""
    if item != "observed":
        return ""
    opened = permit.open_since.version if permit.open_since is not None else 0
    read = any(s.event.point_m is not None and not s.void and s.version > opened for s in permit.sets)
    return "" if read else say("sheets.item.nothing_read")


def _suggested(evaluated: SpaceEvaluated, item: str) -> str:
    """What the evaluation describes of this matter: a description to take, never an answer."""
    known = {
        "retrieval": evaluated.rescue.retrieval,
        "communication": evaluated.communication,
        "equipment": evaluated.equipment,
    }
    return known.get(item, "")
