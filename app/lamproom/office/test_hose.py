"""Record that the joined hose was blocked at its far end, and when the pump stopped."""

from __future__ import annotations

from lamproom.air.figures import canonical, read_figure
from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e


def test_hose(
    office: Office, permit: str, instrument: str, stopped_s: str | None, *, by: str | None, act: str | None = None
) -> None:
    """Record that the joined hose was blocked at its far end, and when the pump stopped."""
    if stopped_s is not None:
        stopped_s = canonical(read_figure(stopped_s))
    on_permit(office, permit, e.HoseTested(instrument=instrument, stopped_s=stopped_s), by=by, act=act)
