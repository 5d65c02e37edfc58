"""Record a bump test: what each sensor did, never just that it passed."""

from __future__ import annotations

from lamproom.bench.events import BumpTested
from lamproom.office.office import Office, ToRecord


def bump_test(office: Office, instrument: str, test: BumpTested, *, by: str | None, act: str | None = None) -> None:
    """Record a bump test: what each sensor did, never just that it passed."""
    office.record([ToRecord(f"instrument/{instrument}", test)], by, act)
