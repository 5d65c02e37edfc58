"""Record a calibration: as found, as left, and when the next is due."""

from __future__ import annotations

from lamproom.bench.events import Calibrated
from lamproom.office.office import Office, ToRecord


def calibrate(
    office: Office, instrument: str, calibration: Calibrated, *, by: str | None, act: str | None = None
) -> None:
    """Record a calibration: as found, as left, and when the next is due."""
    office.record([ToRecord(f"instrument/{instrument}", calibration)], by, act)
