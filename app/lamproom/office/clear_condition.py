"""Record what was found when a reported condition was gone."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def clear_condition(
    office: Office, permit: str, condition: str, found: str, *, by: str | None, act: str | None = None
) -> None:
    """Record what was found when a reported condition was gone."""
    on_permit(office, permit, e.ConditionCleared(condition=condition, found=found.strip()), by=by, act=act)
