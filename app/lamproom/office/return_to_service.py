"""Bring an instrument back after an inspection or repair; it needs a calibration next."""

from __future__ import annotations

from lamproom.bench.events import ReturnedToService
from lamproom.office.office import Office, ToRecord


def return_to_service(office: Office, instrument: str, done: str, *, by: str | None, act: str | None = None) -> None:
    """Bring an instrument back after an inspection or repair; it needs a calibration next."""
    office.record([ToRecord(f"instrument/{instrument}", ReturnedToService(done=done.strip()))], by, act)
