"""Report a change in or near the space; the form says whether it bars or calls everyone out."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def report_condition(
    office: Office, permit: str, condition: str, note: str = "", *, by: str | None, act: str | None = None
) -> None:
    """Report a change in or near the space; the form says whether it bars or calls everyone out."""
    on_permit(office, permit, e.ConditionReported(condition=condition, note=note.strip()), by=by, act=act)
