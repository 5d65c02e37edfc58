"""Take a person off a part of this permit."""

from __future__ import annotations

from typing import Literal

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def unname_person(
    office: Office,
    permit: str,
    person: str,
    part: Literal["entrant", "attendant", "supervisor"],
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Take a person off a part of this permit."""
    on_permit(office, permit, e.PersonUnnamed(person=person, part=part), by=by, act=act)
