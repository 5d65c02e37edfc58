"""Hand supervision over to another entry supervisor."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.office.supervisor import require_supervisor
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def hand_over(office: Office, permit: str, incoming: str, code: str, *, act: str | None = None) -> None:
    """The incoming supervisor takes over, having found conditions as the permit says: 29 CFR 1910.146(j)(6)."""
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    if state.supervisor is None or state.supervisor == incoming:
        raise Refusal(sentence("office.nobody_to_relieve", name=office.names().get(incoming, incoming)))
    require_supervisor(office, state, incoming)
    signer = office.unlock(incoming, code)
    event = e.SupervisionHandedOver(outgoing=state.supervisor, incoming=incoming)
    on_permit(office, permit, event, by=incoming, act=act, signer=signer)
