"""A time of day typed from a watch."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from lamproom.office.office import Office


def watch_time(office: Office, text: str) -> datetime | None:
    """A time of day typed from a watch (HH:MM or HH:MM:SS, site zone) as the latest such moment; None if it is none."""
    parts = text.strip().replace(".", ":").split(":")
    if len(parts) not in (2, 3) or not all(part.isascii() and part.isdigit() and len(part) <= 2 for part in parts):
        return None
    hour, minute, second = (*(int(part) for part in parts), 0)[:3]
    if hour > 23 or minute > 59 or second > 59:
        return None
    now = office.now().astimezone(office.zone)
    at = now.replace(hour=hour, minute=minute, second=second, microsecond=0)
    if at > now + timedelta(minutes=1):
        at -= timedelta(days=1)
    return at.astimezone(UTC)
