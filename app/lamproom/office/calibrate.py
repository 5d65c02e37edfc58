"""Record a calibration: as found, as left, and when the next is due."""

from __future__ import annotations

from lamproom.bench.events import Calibrated, TakenOutOfService
from lamproom.bench.happening import Event
from lamproom.office.office import Office, ToRecord
from lamproom.words import say


def calibrate(
    office: Office, instrument: str, calibration: Calibrated, *, by: str | None, act: str | None = None
) -> None:
    """Record a calibration. A failed one takes the instrument out of service in the same act, until an inspection or
    repair by someone who may is recorded (agency bulletin on direct-reading instruments)."""
    events: list[Event] = [calibration]
    if not calibration.passed:
        events.append(TakenOutOfService(reason=say("office.calibration_failed")))
    office.record([ToRecord(f"instrument/{instrument}", event) for event in events], by, act)
