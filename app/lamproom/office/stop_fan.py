"""Record that the fan stopped or was shut off."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def stop_fan(office: Office, permit: str, why: str, *, by: str | None, act: str | None = None) -> None:
    """Record that the fan stopped or was shut off."""
    on_permit(office, permit, e.VentilationStopped(why=why.strip()), by=by, act=act)
