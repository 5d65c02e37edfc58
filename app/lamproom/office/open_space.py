"""State that the space was opened and how the opening is guarded."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def open_space(office: Office, permit: str, guarded: str, *, by: str | None, act: str | None = None) -> None:
    """State that the space was opened and how the opening is guarded."""
    on_permit(office, permit, e.SpaceOpened(guarded=guarded.strip()), by=by, act=act)
