"""Add a hazard that the evaluation does not have."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def add_hazard(
    office: Office,
    permit: str,
    hazard: str,
    name: str,
    shows: str,
    gas: str | None,
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Add a hazard that the evaluation does not have."""
    on_permit(office, permit, e.HazardAdded(hazard=hazard, name=name, shows=shows, gas=gas), by=by, act=act)
