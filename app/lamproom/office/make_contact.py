"""Record that the attendant spoke with everyone inside."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def make_contact(office: Office, permit: str, *, by: str | None, act: str | None = None) -> None:
    """Record that the attendant spoke with everyone inside."""
    on_permit(office, permit, e.ContactMade(), by=by, act=act)
