"""Hand supervision over to another entry supervisor."""

from __future__ import annotations

from lamproom.office.amend import amend
from lamproom.office.office import Office
from lamproom.office.permit_change import refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def hand_over(office: Office, permit: str, incoming: str, code: str, *, act: str | None = None) -> None:
    """The incoming supervisor takes over, having found conditions as the permit says: 29 CFR 1910.146(j)(6)."""
    if act is not None and office.journal.act(act):
        return
    event = e.SupervisionHandedOver(outgoing=office.permit(permit).supervisor or "", incoming=incoming)
    refuse(takes(office.facts(permit, acting=incoming), event, incoming))
    signer = office.unlock(incoming, code)
    amend(office, permit, event, by=incoming, act=act, signer=signer)
