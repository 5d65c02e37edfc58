"""Take an instrument out of service."""

from __future__ import annotations

from lamproom.bench.events import TakenOutOfService
from lamproom.office.office import Office, ToRecord


def take_out_of_service(
    office: Office, instrument: str, reason: str, *, by: str | None, act: str | None = None
) -> None:
    """Take an instrument out of service."""
    office.record([ToRecord(f"instrument/{instrument}", TakenOutOfService(reason=reason.strip()))], by, act)
