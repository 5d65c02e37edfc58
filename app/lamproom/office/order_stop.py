"""Order everyone out. Anyone may, at once: no code, no question."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def order_stop(office: Office, permit: str, cause: str = "pressed", *, by: str | None, act: str | None = None) -> None:
    """Order everyone out. Anyone may, at once: no code, no question."""
    on_permit(office, permit, e.StopOrdered(cause=cause), by=by, act=act)
