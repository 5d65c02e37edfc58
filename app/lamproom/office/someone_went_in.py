"""Record in one tap that someone not on the permit went in."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.record.envelope import from_bytes
from lamproom.record.kinds import event_of


def someone_went_in(office: Office, permit: str, *, by: str | None, act: str | None = None) -> str:
    """A fact, never refused, never judged. Returns the label ('unknown 1') under which the tally counts the person."""
    if act is not None and (before := office.journal.act(act)):
        event = event_of(from_bytes(before[0].sealed.body))
        if isinstance(event, e.SomeoneWentIn):
            return event.label
    label = f"unknown {office.permit(permit).tally.unknowns + 1}"
    on_permit(office, permit, e.SomeoneWentIn(label=label), by=by, act=act)
    return label
