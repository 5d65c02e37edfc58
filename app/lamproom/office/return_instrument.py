"""Give an instrument back: done, swapped, failed, dropped or flat."""

from __future__ import annotations

from typing import Literal

from lamproom.office.amend import amend
from lamproom.office.latch_stop import latch_stop
from lamproom.office.office import Office
from lamproom.permit import events as e


def return_instrument(
    office: Office,
    permit: str,
    instrument: str,
    why: Literal["done", "swapped", "failed", "dropped", "battery-flat"],
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Give an instrument back: done, swapped, failed, dropped or flat."""
    amend(office, permit, e.InstrumentReturned(instrument=instrument, why=why), by=by, act=act)
    latch_stop(office, permit, act)
