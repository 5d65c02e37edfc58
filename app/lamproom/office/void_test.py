"""Record what ends the standing of a bump test early: a drop, a poison, a change of sensor."""

from __future__ import annotations

from lamproom.bench.events import TestVoided
from lamproom.office.office import Office, ToRecord


def void_test(office: Office, instrument: str, voided: TestVoided, *, by: str | None, act: str | None = None) -> None:
    """Record what ends the standing of a bump test early: a drop, a poison, a change of sensor."""
    office.record([ToRecord(f"instrument/{instrument}", voided)], by, act)
