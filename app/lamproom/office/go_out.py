"""Record that someone came out."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def go_out(office: Office, permit: str, who: str, *, by: str | None, act: str | None = None) -> None:
    """Out: a person, or the label of someone unknown. Refused only for someone who is not inside."""
    if act is not None and office.journal.act(act):
        return
    if not office.permit(permit).tally.is_inside(who):
        raise Refusal(sentence("office.not_inside", name=office.names().get(who, who)))
    on_permit(office, permit, e.WentOut(person=who), by=by, act=act)
