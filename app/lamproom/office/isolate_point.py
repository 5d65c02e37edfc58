"""Isolate a point: lock, owner, tried and found dead, verified by another."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def isolate_point(
    office: Office,
    permit: str,
    point: str,
    lock: str,
    owner: str,
    tried_dead: bool,
    verified_by: str | None,
    box: str = "",
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Isolate a point: lock, owner, tried and found dead, verified by another."""
    on_permit(
        office,
        permit,
        e.PointIsolated(
            point=point, lock=lock, owner=owner, tried_dead=tried_dead, verified_by=verified_by, box=box.strip()
        ),
        by=by,
        act=act,
    )
