"""Change the watch: three facts agreed, the incoming attendant's code."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


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
    state = office.permit(permit)
    name = office.names().get(incoming, incoming)
    if incoming not in state.attendants:
        raise Refusal(sentence("office.not_attendant", name=name))
    if state.attendant is None or state.attendant == incoming:
        raise Refusal(sentence("office.nobody_to_relieve", name=name))
    if state.tally.is_inside(incoming):
        raise Refusal(sentence("office.attendant_inside", name=name))
    now_inside = tuple(trip.who for trip in state.tally.inside)
    if inside != now_inside or last_set != (state.sets[-1].version if state.sets else None):
        raise Refusal(sentence("office.facts_changed"))
    signer = office.unlock(incoming, code)
    event = e.Relieved(
        outgoing=state.attendant, incoming=incoming, inside=inside, last_set=last_set, open_alarms=open_alarms
    )
    on_permit(office, permit, event, by=incoming, act=act, signer=signer)
