"""What the last acts on a permit ask for, and times of day as typed on the Watch."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from lamproom.office.office import Office
from lamproom.office.views.space_sheet import readable_time
from lamproom.permit.asked import hot_work, other_employer


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
