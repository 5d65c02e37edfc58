"""Close out a permit: nobody inside, tools counted, space closed off, locks off."""

from __future__ import annotations

from lamproom.office.key_signers import Signer
from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def close_out(
    office: Office, permit: str, tools: str, cover: str, locks: str, *, by: str | None, act: str | None = None
) -> None:
    """The last act on a permit; its final page is signed by the station. Refused before the end, with anyone inside,
    and while it is not said what became of tools, cover and locks (29 CFR 1910.146(d)(12))."""
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    if state.ended is None:
        raise Refusal(sentence("office.not_ended"))
    if state.tally.inside:
        raise Refusal(sentence("office.end_inside", count=len(state.tally.inside)))
    if state.closed_out is not None:
        raise Refusal(sentence("office.closed_out", number=permit))
    if not (tools.strip() and cover.strip() and locks.strip()):
        raise Refusal(sentence("office.close_words"))
    event = e.ClosedOut(tools=tools.strip(), cover=cover.strip(), locks=locks.strip())
    station: Signer = office.station_signer()
    record_with_page(office, permit, [event], by, "closed-out", station, act)
