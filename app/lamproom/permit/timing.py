"""When something falls due: the next set of readings, contact, the end of the hours. All times UTC."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from lamproom.permit.facts import Facts, standing
from lamproom.permit.state import ReadingSet, where_people_work

CONTACT_GRACE = timedelta(minutes=2)
"""So long after it fell due, contact is late and no longer only due: common practice."""


@dataclass(frozen=True, slots=True)
class RetestTimes:
    """Of the next set: when it falls due, is late, and calls everyone out. ``last`` is the set before."""

    last: ReadingSet
    due: datetime
    late: datetime
    bound: datetime


def last_set(facts: Facts) -> ReadingSet | None:
    """The newest set that keeps the air known: whole and by a ready instrument, anywhere inside the space."""
    for one in facts.newest:
        if where_people_work(facts.permit, one) and standing(facts, one):
            return one
    return None


def retest(facts: Facts) -> RetestTimes | None:
    """Times of the next set, None while no set counts yet. The interval runs from the moment a set was taken."""
    last = last_set(facts)
    if last is None:
        return None
    figures = facts.permit.form.retest
    every = timedelta(minutes=figures.every_min)
    due = last.event.taken + every
    return RetestTimes(
        last, due, due + timedelta(minutes=figures.grace_min), last.event.taken + every * figures.bound_intervals
    )


def last_contact(facts: Facts) -> datetime | None:
    """When those inside were last heard: the last contact, or the moment they went in; None when nobody is inside."""
    since = facts.permit.tally.inside_since()
    contact = facts.permit.contact
    return since if since is None or contact is None else max(since, contact.at)


def contact_due(facts: Facts) -> datetime | None:
    """When the next word with those inside falls due, None when nobody is inside."""
    base = last_contact(facts)
    return None if base is None else base + timedelta(minutes=facts.permit.form.contact_every_min)


def contact_late(facts: Facts) -> datetime | None:
    """Since when word with those inside is overdue, None while it is not late. Everyone ordered out is being called."""
    due = contact_due(facts)
    if due is None or facts.permit.stop is not None or facts.at <= due + CONTACT_GRACE:
        return None
    return due


def expired(facts: Facts) -> bool:
    """Are the authorised hours over?"""
    until = facts.permit.until
    return until is not None and facts.at >= until
