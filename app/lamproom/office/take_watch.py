"""Take the watch at the portal, as the first attendant of this permit."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit, refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def take_watch(office: Office, permit: str, person: str, *, act: str | None = None) -> None:
    """The named attendant takes the watch. Refused for someone not named attendant, or while another stands watch."""
    if act is not None and office.journal.act(act):
        return
    event = e.WatchTaken(person=person)
    refuse(takes(office.facts(permit), event, person))
    on_permit(office, permit, event, by=person, act=act)
