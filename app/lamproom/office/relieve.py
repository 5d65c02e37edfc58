"""Change the watch: three facts agreed, the incoming attendant's code."""

from __future__ import annotations

from lamproom.office.amend import amend
from lamproom.office.office import Office
from lamproom.office.permit_change import refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def relieve(
    office: Office,
    permit: str,
    incoming: str,
    code: str,
    inside: tuple[str, ...],
    last_set: int | None,
    open_alarms: tuple[str, ...],
    *,
    act: str | None = None,
) -> None:
    """The incoming attendant takes over and agrees who is inside, the last set and the open alarms.

    Refused when the facts agreed are not those of the record at this moment, or the incoming is not a named attendant
    or is inside. The clocks never stop; the outgoing attendant watches until this act is stored.
    """
    if act is not None and office.journal.act(act):
        return
    outgoing = office.permit(permit).attendant or ""
    event = e.Relieved(outgoing=outgoing, incoming=incoming, inside=inside, last_set=last_set, open_alarms=open_alarms)
    refuse(takes(office.facts(permit), event, incoming))
    signer = office.unlock(incoming, code)
    amend(office, permit, event, by=incoming, act=act, signer=signer)
