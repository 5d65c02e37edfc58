"""Take an instrument for a permit: to test the air, or to be worn where people work."""

from __future__ import annotations

from typing import Literal

from lamproom.air.figures import canonical, read_figure
from lamproom.office.amend import amend
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def assign_instrument(
    office: Office,
    permit: str,
    instrument: str,
    duty: Literal["test", "worn"],
    hose_m: str | None,
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Assign a registered instrument. ``hose_m`` None means no hose (a diffusion instrument, or worn).

    Readiness is no condition here: an instrument that is not ready stands as an obstacle, with what mends it.
    """
    registered = office.instrument(instrument).registered
    if registered is None:
        raise Refusal(sentence("office.no_instrument", instrument=instrument))
    if hose_m is not None:
        hose_m = canonical(read_figure(hose_m))
    event = e.InstrumentAssigned(instrument=instrument, registered=registered, duty=duty, hose_m=hose_m)
    amend(office, permit, event, by=by, act=act)
