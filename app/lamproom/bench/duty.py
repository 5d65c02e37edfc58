"""The duty period: from the site's day start to the next, in the site's own zone."""

from __future__ import annotations

from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo


def duty_start(at: datetime, zone: ZoneInfo, day_start: time) -> datetime:
    """The start (UTC) of the duty period that ``at`` lies in.

    A start that a clock change skips is taken an hour later by the zone's own rule; the result is never after ``at``.
    """
    local = at.astimezone(zone)
    start = datetime.combine(local.date(), day_start, zone)
    if start.astimezone(UTC) > at:
        start = datetime.combine(local.date() - timedelta(days=1), day_start, zone)
    return start.astimezone(UTC)


def duty_end(at: datetime, zone: ZoneInfo, day_start: time) -> datetime:
    """The end (UTC) of the duty period that ``at`` lies in: the next day start after it."""
    local = at.astimezone(zone)
    end = datetime.combine(local.date(), day_start, zone)
    if end.astimezone(UTC) <= at:
        end = datetime.combine(local.date() + timedelta(days=1), day_start, zone)
    return end.astimezone(UTC)
