"""Record that rescue said it can come: who answered, until when, in how many minutes."""

from __future__ import annotations

from datetime import datetime

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def confirm_rescue(
    office: Office,
    permit: str,
    answered_by: str,
    good_until: datetime,
    response_min: str,
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Record that rescue said it can come: who answered, until when, in how many minutes."""
    on_permit(
        office,
        permit,
        e.RescueConfirmed(answered_by=answered_by.strip(), good_until=good_until, response_min=response_min),
        by=by,
        act=act,
    )
