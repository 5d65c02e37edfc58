"""Record training for a role."""

from __future__ import annotations

from lamproom.office.office import Office, ToRecord
from lamproom.permit.people import PersonTrained


def train_person(
    office: Office, person: str, training: PersonTrained, *, by: str | None, act: str | None = None
) -> None:
    """Certified training: role, date, trainer (29 CFR 1910.146(g)(4))."""
    office.record([ToRecord(f"person/{person}", training)], by, act)
