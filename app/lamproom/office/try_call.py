"""Record that the means of summoning rescue was tried."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def try_call(
    office: Office, permit: str, means: str, answered_by: str, seconds: str, *, by: str | None, act: str | None = None
) -> None:
    """Record that the means of summoning rescue was tried."""
    on_permit(
        office,
        permit,
        e.RescueCallTried(means=means.strip(), answered_by=answered_by.strip(), seconds=seconds),
        by=by,
        act=act,
    )
