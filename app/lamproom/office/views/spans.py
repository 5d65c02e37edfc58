"""How a span of time is said beside a clock time: 'in 13 min', '18 min ago', 'late 3:10'."""

from __future__ import annotations

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from lamproom.permit.words import clock, day_and_clock
from lamproom.words import say


def _words(span: timedelta) -> str:
    minutes = max(int(span / timedelta(minutes=1)), 0)
    if minutes < 60:
        return say("board.span.minutes", minutes=str(minutes))
    if minutes < 48 * 60:
        return say("board.span.hours", hours=str(minutes // 60), minutes=f"{minutes % 60:02d}")
    return say("board.span.days", days=str(minutes // (24 * 60)))


def ahead(at: datetime, then: datetime) -> str:
    """How far ahead, whole minutes rounded up, so that 'in 0 min' is never said of something still to come."""
    if then <= at:
        return say("board.span.over", span=_words(at - then))
    return say("board.span.in", span=_words(then - at + timedelta(seconds=59)))


def ago(then: datetime, at: datetime) -> str:
    """How long ago, whole minutes."""
    return say("board.span.ago", span=_words(at - then))


def late_by(span: timedelta) -> str:
    """Minutes and seconds of lateness: 3:10; from an hour on with hours."""
    seconds = max(int(span / timedelta(seconds=1)), 0)
    if seconds < 3600:
        return f"{seconds // 60}:{seconds % 60:02d}"
    return f"{seconds // 3600}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"


def until_words(until: datetime, at: datetime, zone: ZoneInfo) -> str:
    """A moment to come, the same on every screen: a clock time today or tomorrow; a day beyond."""
    days = (until.astimezone(zone).date() - at.astimezone(zone).date()).days
    if days == 0:
        return clock(until, zone)
    if days == 1:
        return say("board.tomorrow", time=clock(until, zone))
    return day_and_clock(until, zone).rsplit(" ", 1)[0]
