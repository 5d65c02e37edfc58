"""Say how a hazard is held today, or why it does not apply today."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def hold_hazard(
    office: Office, permit: str, hazard: str, held: bool, how: str, *, by: str | None, act: str | None = None
) -> None:
    """Say how a hazard is held today, or why it does not apply today."""
    on_permit(office, permit, e.HazardHeld(hazard=hazard, held=held, how=how.strip()), by=by, act=act)
