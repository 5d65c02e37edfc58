"""Plan the hours of the entry."""

from __future__ import annotations

from datetime import datetime

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def plan_hours(
    office: Office, permit: str, begins: datetime, ends: datetime, *, by: str | None, act: str | None = None
) -> None:
    """State from when to when people are to be allowed in. Refused when the end does not lie after the beginning."""
    if ends <= begins:
        raise Refusal(sentence("office.hours_backwards"))
    on_permit(office, permit, e.HoursPlanned(begins=begins, ends=ends), by=by, act=act)
