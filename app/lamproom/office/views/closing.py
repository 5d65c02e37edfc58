"""What the last acts on a permit ask for, and times of day as typed on the Watch."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from lamproom.office.office import Office
from lamproom.office.views.space_sheet import readable_time
from lamproom.permit.asked import other_employer
from lamproom.permit.obstacles import Stage, barring
from lamproom.permit.takes import hot_work


@dataclass(frozen=True, slots=True)
class Closing:
    """Beside tools, cover and locks: is a debriefing asked for, and until when a fire watch stayed?"""

    debrief: bool
    fire_watch: bool


def closing(office: Office, number: str) -> Closing:
    """What the close-out of this permit asks for: 29 CFR 1910.146(c)(8)(v), 1910.252(a)(2)(iii)(B)."""
    facts = office.facts(number)
    return Closing(other_employer(facts), hot_work(facts) and bool(facts.permit.tally.trips))


def time_after(office: Office, after: datetime, text: str) -> datetime:
    """The first such time of day after a moment. Refused when it is no time of day."""
    hour, minute = readable_time(text).split(":")
    local = after.astimezone(office.zone)
    at = local.replace(hour=int(hour), minute=int(minute), second=0, microsecond=0)
    return at if at > local else at + timedelta(days=1)


def time_before(office: Office, before: datetime, text: str) -> datetime:
    """The last such time of day before a moment, or at it. Refused when it is no time of day."""
    hour, minute = readable_time(text).split(":")
    local = before.astimezone(office.zone)
    at = local.replace(hour=int(hour), minute=int(minute), second=0, microsecond=0)
    return at if at <= local else at - timedelta(days=1)


def only_endorsement(office: Office, number: str) -> bool:
    """Is the supervisor's endorsement all that is left before the next person goes in?"""
    return {one.code for one in barring(office.facts(number), Stage.ENTER)} == {"reendorse"}
