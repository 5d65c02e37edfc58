"""Rescue as plain values: who comes, whether they said so, whether the call was tried, and the words to say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from lamproom.office.office import Office
from lamproom.office.views.recorded import answered_against, standing_answers
from lamproom.office.views.sheet_items import ItemView, items_of
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.words import clock
from lamproom.words import say, say_count


@dataclass(frozen=True, slots=True)
class Confirmed:
    """What rescue answered: the fields as they were given, and in words who recorded it and when."""

    answered_by: str
    until: str
    minutes: str
    words: str


@dataclass(frozen=True, slots=True)
class Tried:
    """The call that was tried: the fields as they were given, and in words who recorded it and when."""

    means: str
    answered_by: str
    seconds: str
    words: str


@dataclass(frozen=True, slots=True)
class RescueView:
    """The whole sheet. ``hours_end`` is the end of the planned hours, HH:MM (empty: not stated)."""

    number: str
    service: str
    means: str
    then: str
    minutes: str
    retrieval: str
    hours_end: str
    confirmed: Confirmed | None
    tried: Tried | None
    items: tuple[ItemView, ...]
    bars: Mapping[str, str]
    standing: tuple[tuple[str, str], ...]
    call: tuple[str, ...]
    not_asked: str = ""
    """Why rescue is not asked for before entry; empty where it is."""


def rescue_view(office: Office, number: str) -> RescueView:
    """The sheet as it stands now. Refused when there is no such permit."""
    facts = office.facts(number)
    permit = facts.permit
    plan = permit.opened.evaluated.rescue
    return RescueView(
        number,
        plan.service,
        plan.means,
        plan.then,
        plan.response_min,
        plan.retrieval,
        clock(permit.hours.ends, permit.zone) if permit.hours is not None else "",
        _confirmed(facts),
        _tried(facts),
        items_of(facts, "rescue"),
        answered_against(facts),
        standing_answers(facts, "rescue"),
        call_words(office, facts),
        say("sheets.rescue.not_asked", way=say(f"registers.way.{permit.route}")) if permit.route != "permit" else "",
    )


def _confirmed(facts: Facts) -> Confirmed | None:
    made = facts.permit.rescue
    if made is None or not isinstance(made.event, e.RescueConfirmed):
        return None
    zone, event = facts.permit.zone, made.event
    words = say("sheets.item.noted", time=clock(made.at, zone), name=facts.name(made.by or ""))
    return Confirmed(event.answered_by, clock(event.good_until, zone), event.response_min, words)


def _tried(facts: Facts) -> Tried | None:
    made = facts.permit.call_tried
    if made is None or not isinstance(made.event, e.RescueCallTried):
        return None
    event = made.event
    words = say("sheets.item.noted", time=clock(made.at, facts.permit.zone), name=facts.name(made.by or ""))
    return Tried(event.means, event.answered_by, event.seconds, words)


def call_words(office: Office, facts: Facts) -> tuple[str, ...]:
    """What is said when it matters: which site, where, what can be wrong in there, how many, what is needed."""
    permit = facts.permit
    space = permit.opened.registered
    site = office.site.begun.name if office.site.begun is not None else ""
    hazards = ", ".join(name for _id, name, _shows, _gas in permit.hazards())
    people = len(permit.entrants)
    return (
        say("sheets.rescue.say_who", site=site),
        say("sheets.rescue.say_where", space=space.name, place=space.place),
        say("sheets.rescue.say_depth", depth=space.depth_m, width=space.portal.width_m),
        say_count("sheets.rescue.say_people", people) if people else say("sheets.rescue.say_nobody"),
        say("sheets.rescue.say_hazards", hazards=hazards or say("sheets.rescue.no_hazards")),
        say("sheets.rescue.say_not_in"),
    )


def time_today(office: Office, number: str, text: str) -> datetime | None:
    """HH:MM as the next such moment after the permit's hours begin (or now): a rescue's 'until'. None: no time."""
    parts = text.strip().replace(".", ":").split(":")
    if len(parts) != 2 or not all(part.isascii() and part.isdigit() and len(part) <= 2 for part in parts):
        return None
    hour, minute = int(parts[0]), int(parts[1])
    if hour > 23 or minute > 59:
        return None
    hours = office.permit(number).hours
    start = max(hours.begins, office.now()) if hours is not None else office.now()
    local = start.astimezone(office.zone)
    at = local.replace(hour=hour, minute=minute, second=0, microsecond=0)
    if at <= local:
        # A time that has just passed today is a slip or an answer that is over; only a night shift means tomorrow.
        crosses = hours is not None and hours.ends.astimezone(office.zone).date() > local.date()
        at = at + timedelta(days=1) if crosses else at
    return at.astimezone(UTC)
