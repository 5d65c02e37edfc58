"""Put an instrument into the register."""

from __future__ import annotations

from lamproom.bench.events import InstrumentRegistered
from lamproom.office.office import Office, ToRecord


def register_instrument(
    office: Office, instrument: str, registered: InstrumentRegistered, *, by: str | None, act: str | None = None
) -> None:
    """Put an instrument into the register."""
    office.record([ToRecord(f"instrument/{instrument}", registered)], by, act)
