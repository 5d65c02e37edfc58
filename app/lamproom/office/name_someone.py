"""Say who the unknown person was that went in."""

from __future__ import annotations

from typing import Literal

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def name_someone(
    office: Office,
    permit: str,
    label: str,
    name: str,
    what: Literal["rescuer", "unauthorised", "entrant", "other"],
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Say who the unknown person was that went in."""
    on_permit(office, permit, e.SomeoneNamed(label=label, name=name.strip(), what=what), by=by, act=act)
