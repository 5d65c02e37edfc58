"""What the Workbook's sheets say of anything recorded: who and when, what it bars, what can no longer be changed."""

from __future__ import annotations

from collections.abc import Mapping

from lamproom.permit.facts import Facts
from lamproom.permit.form import Sheet
from lamproom.permit.obstacles import obstacles
from lamproom.permit.state import Made
from lamproom.permit.words import clock
from lamproom.words import say


def who_and_when(facts: Facts, made: Made | None) -> str:
    """'Mara Velde, 08:41': who recorded something and when; empty where nobody did."""
    if made is None:
        return ""
    name = facts.name(made.by) if made.by is not None else say("workbook.station")
    return say("workbook.who_and_when", name=name, time=clock(made.at, facts.permit.zone))


def fixed(facts: Facts) -> str:
    """Why hazards, isolation, hours and purpose cannot be changed any more; empty while they can."""
    permit = facts.permit
    if permit.ended is not None:
        return say("office.ended", number=permit.number)
    return say("office.needs_new_permit", number=permit.number) if permit.authorised is not None else ""


def answered_against(facts: Facts) -> Mapping[str, str]:
    """Questions whose answer bars entry: by item id, what clears it."""
    return {
        o.found.subject: say("workbook.item.bars", clears=o.clears)
        for o in obstacles(facts)
        if o.code == "item-answered-against"
    }


def standing_answers(facts: Facts, sheet: Sheet) -> tuple[tuple[str, str], ...]:
    """Questions of a sheet that the evaluation answered for good: pairs of question and reason."""
    standing = facts.permit.opened.evaluated.standing
    return tuple(
        (item.question, say("workbook.item.standing", reason=standing[item.id]))
        for item in facts.permit.form.items
        if item.sheet == sheet and item.id in standing
    )
