"""Endorse entry again after a break or a stop, on a full retest."""

from __future__ import annotations

from typing import Literal

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit, refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def reendorse(
    office: Office, permit: str, supervisor: str, code: str, ink: e.Ink | None = None, *, act: str | None = None
) -> None:
    """The supervisor endorses entry again. Refused while anything but this endorsement bars the next person in."""
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    after: Literal["break", "stop"] = "break" if state.awaits == "break" else "stop"
    event = e.Reendorsed(after=after, ink=ink)
    refuse(takes(office.facts(permit, acting=supervisor), event, supervisor))
    signer = office.unlock(supervisor, code)
    on_permit(office, permit, event, by=supervisor, act=act, signer=signer)
