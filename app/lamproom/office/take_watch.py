"""Take the watch at the portal, as the first attendant of this permit."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def take_watch(office: Office, permit: str, person: str, *, act: str | None = None) -> None:
    """The named attendant takes the watch. Refused for someone not named attendant, or while another stands watch."""
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    name = office.names().get(person, person)
    if person not in state.attendants:
        raise Refusal(sentence("office.not_attendant", name=name))
    if state.attendant is not None:
        raise Refusal(sentence("office.watch_held", name=office.names().get(state.attendant, state.attendant)))
    on_permit(office, permit, e.WatchTaken(person=person), by=person, act=act)
