"""Keep a remark with the permit."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def note(office: Office, permit: str, text: str, *, by: str | None, act: str | None = None) -> None:
    """Keep a remark with the permit."""
    on_permit(office, permit, e.Noted(text=text.strip()), by=by, act=act)
