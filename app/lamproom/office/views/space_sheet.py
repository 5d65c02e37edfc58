"""The sheet 'space and work': the purpose, the hours, the space as it is known, and what is different today."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, time, timedelta

from lamproom.office.office import Office
from lamproom.office.views.recorded import answered_against, fixed, standing_answers
from lamproom.office.views.sheet_items import ItemView, items_of
from lamproom.permit.state import Permit
from lamproom.permit.words import clock
from lamproom.words import Refusal, say, sentence

_TIME = re.compile(r"(\d{1,2})[:.]?(\d{2})")


@dataclass(frozen=True, slots=True)
class SpaceSheetView:
    """``begins`` and ``ends`` as HH:MM, empty while not planned; ``day`` the day they stand for; ``facts`` are pairs of
    what and how, from register and evaluation; ``fixed`` says why nothing can be changed, empty while it can."""

    purpose: str
    begins: str
    ends: str
    day: str
    facts: tuple[tuple[str, str], ...]
    items: tuple[ItemView, ...]
    bars: Mapping[str, str]
    standing: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    fixed: str


def space_sheet(office: Office, number: str) -> SpaceSheetView:
    """The sheet as it stands. Refused when there is no such permit."""
    facts = office.facts(number)
    permit = facts.permit
    hours = permit.hours
    day = (hours.begins if hours is not None else facts.at).astimezone(permit.zone)
    return SpaceSheetView(
        purpose=permit.purpose or "",
        begins=clock(hours.begins, permit.zone) if hours is not None else "",
        ends=clock(hours.ends, permit.zone) if hours is not None else "",
        day=f"{day.strftime('%a')} {day.day} {day.strftime('%b %Y')}",
        facts=_facts(permit),
        items=items_of(facts, "space"),
        bars=answered_against(facts),
        standing=standing_answers(facts, "space"),
        cautions=permit.form.cautions,
        fixed=fixed(facts),
    )


def _facts(permit: Permit) -> tuple[tuple[str, str], ...]:
    space, evaluated = permit.opened.registered, permit.opened.evaluated
    portal = space.portal
    way = say("workbook.space.way_down" if portal.vertical else "workbook.space.way_across")
    shape = say(f"workbook.shape.{space.shape}")
    pairs = [
        (
            say("workbook.space.size"),
            say("workbook.space.size_words", shape=shape, depth=space.depth_m, across=space.across_m),
        ),
        (
            say("workbook.space.portal"),
            say("workbook.space.portal_words", name=portal.name, width=portal.width_m, way=way),
        ),
        (say("workbook.space.contents"), space.contents),
        (
            say("workbook.space.evaluated"),
            say(
                "workbook.space.evaluated_words",
                name=evaluated.by_name,
                qualified=evaluated.qualified_as,
                day=f"{evaluated.review_by.day} {evaluated.review_by.strftime('%b %Y')}",
            ),
        ),
    ]
    if evaluated.remarks:
        pairs.append((say("workbook.space.remarks"), evaluated.remarks))
    return tuple(pairs)


def hours_as_typed(office: Office, begins: str, ends: str) -> tuple[datetime, datetime]:
    """The hours that two times of day mean. An end before its beginning lies on the next day; hours that are already
    over are tomorrow's. Without a beginning they begin now: nobody goes in before the signature all the same. Refused
    when one of them is no time of day."""
    zone = office.zone
    now = office.now()
    today = now.astimezone(zone).date()
    first = _time_of(begins) if begins.strip() else now.astimezone(zone).time().replace(second=0, microsecond=0)
    last = _time_of(ends)
    start = datetime.combine(today, first, zone)
    end = datetime.combine(today + timedelta(days=1 if last < first else 0), last, zone)
    if end <= now:
        start, end = (datetime.combine(moment.date() + timedelta(days=1), moment.timetz()) for moment in (start, end))
    return start, end


def _time_of(text: str) -> time:
    found = _TIME.fullmatch(text.strip())
    if found is None or int(found[1]) > 23 or int(found[2]) > 59:
        raise Refusal(sentence("workbook.not_a_time", text=text.strip()))
    return time(int(found[1]), int(found[2]))


def readable_time(text: str) -> str:
    """A typed time of day as HH:MM. Refused when it is none."""
    return _time_of(text).strftime("%H:%M")
