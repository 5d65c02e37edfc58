"""Say how a hazard is held today, or why it does not apply today."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def hold_hazard(
    office: Office,
    permit: str,
    hazard: str,
    held: bool,
    how: str,
    eliminated: bool = False,
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Say how a hazard is held today, that it is gone for good, or why it does not apply today."""
    event = e.HazardHeld(hazard=hazard, held=held, how=how.strip(), eliminated=eliminated)
    on_permit(office, permit, event, by=by, act=act)
