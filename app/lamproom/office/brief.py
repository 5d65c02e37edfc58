"""Brief the crew on one page, with everyone's ink, witnessed by the supervisor."""

from __future__ import annotations

from collections.abc import Sequence

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def brief(office: Office, permit: str, inks: Sequence[e.Ink], *, by: str | None, act: str | None = None) -> None:
    """Record who was briefed. Refused without a witness, without ink, or with a drawing that was seen before."""
    if act is not None and office.journal.act(act):
        return
    if by is None:
        raise Refusal(sentence("office.briefing_witness"))
    empty = [ink.person for ink in inks if not ink.strokes]
    if not inks or empty:
        raise Refusal(sentence("office.briefing_ink", names=", ".join(office.names().get(p, p) for p in empty)))
    known = {
        ink.strokes
        for made in office.permit(permit).briefed.values()
        if isinstance(made.event, e.Briefed)
        for ink in made.event.inks
    }
    if any(ink.strokes in known for ink in inks):
        raise Refusal(sentence("office.ink_seen_before"))
    on_permit(office, permit, e.Briefed(inks=tuple(inks)), by=by, act=act)
