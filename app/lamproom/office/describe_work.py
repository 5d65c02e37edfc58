"""State the purpose of the entry."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def describe_work(office: Office, permit: str, purpose: str, *, by: str | None, act: str | None = None) -> None:
    """State the purpose of the entry."""
    on_permit(office, permit, e.WorkDescribed(purpose=purpose.strip()), by=by, act=act)
