"""Endorse entry again after a break or a stop, on a full retest."""

from __future__ import annotations

from typing import Literal

from lamproom.office.go_in import Barred
from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.office.supervisor import require_supervisor
from lamproom.permit import events as e
from lamproom.permit.obstacles import Stage, barring
from lamproom.words import Refusal, sentence


def reendorse(
    office: Office, permit: str, supervisor: str, code: str, ink: e.Ink | None = None, *, act: str | None = None
) -> None:
    """The supervisor endorses entry again. Refused while anything but this endorsement bars the next person in."""
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    if state.awaits not in ("break", "stop"):
        raise Refusal(sentence("office.nothing_to_endorse"))
    require_supervisor(office, state, supervisor)
    standing = tuple(o for o in barring(office.facts(permit), Stage.ENTER) if o.code != "reendorse")
    if standing:
        raise Barred(office.names().get(supervisor, supervisor), standing)
    signer = office.unlock(supervisor, code)
    after: Literal["break", "stop"] = "break" if state.awaits == "break" else "stop"
    on_permit(office, permit, e.Reendorsed(after=after, ink=ink), by=supervisor, act=act, signer=signer)
