"""Put a space into the register."""

from __future__ import annotations

from lamproom.office.office import Office, ToRecord
from lamproom.permit.space import SpaceRegistered


def register_space(
    office: Office, space: str, registered: SpaceRegistered, *, by: str | None, act: str | None = None
) -> None:
    """Put a space into the register."""
    office.record([ToRecord(f"space/{space}", registered)], by, act)
