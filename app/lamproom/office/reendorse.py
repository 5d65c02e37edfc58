"""Endorse entry again after a break or a stop, on a full retest."""

from __future__ import annotations

from typing import Literal

from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.office.permit_change import refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def reendorse(
    office: Office, permit: str, supervisor: str, code: str, ink: e.Ink | None = None, *, act: str | None = None
) -> None:
    """The supervisor endorses entry again, and the permit's page is filed anew.

    Refused while anything but this endorsement bars the next person in."""
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    after: Literal["break", "stop"] = "break" if state.awaits == "break" else "stop"
    event = e.Reendorsed(after=after, ink=ink)
    refuse(takes(office.facts(permit, acting=supervisor), event, supervisor))
    signer = office.unlock(supervisor, code)
    record_with_page(office, permit, [event], supervisor, "amended", signer, act)
