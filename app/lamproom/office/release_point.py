"""Say that locks or blanks came off an isolation point."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def release_point(office: Office, permit: str, point: str, why: str, *, by: str | None, act: str | None = None) -> None:
    """Isolation came off a point. A fact, never refused: before the permit's end everyone comes out."""
    on_permit(office, permit, e.PointReleased(point=point, why=why.strip()), by=by, act=act)
