"""Record what was found when a reported condition was gone."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit, refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def clear_condition(
    office: Office, permit: str, condition: str, found: str, *, by: str | None, act: str | None = None
) -> None:
    """Record what was found when a reported condition was gone. Refused while that is not said."""
    if act is not None and office.journal.act(act):
        return
    event = e.ConditionCleared(condition=condition, found=found.strip())
    refuse(takes(office.facts(permit), event, by))
    on_permit(office, permit, event, by=by, act=act)
