"""Add a hazard that the evaluation does not have."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.permit.space import HazardKind


def add_hazard(
    office: Office,
    permit: str,
    hazard: str,
    name: str,
    shows: str,
    gas: str | None,
    sort: HazardKind = "not-said",
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Add a hazard that the evaluation does not have. ``sort`` decides which questions it brings and which way in it
    closes."""
    on_permit(office, permit, e.HazardAdded(hazard=hazard, name=name, shows=shows, gas=gas, sort=sort), by=by, act=act)
