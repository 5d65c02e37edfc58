"""Record the check before use, every alarm answered apart."""

from __future__ import annotations

from lamproom.bench.events import CheckedBeforeUse
from lamproom.office.office import Office, ToRecord


def check_before_use(
    office: Office, instrument: str, check: CheckedBeforeUse, *, by: str | None, act: str | None = None
) -> None:
    """Record the check before use, every alarm answered apart."""
    office.record([ToRecord(f"instrument/{instrument}", check)], by, act)
