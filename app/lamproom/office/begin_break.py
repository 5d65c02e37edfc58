"""Begin a break: everyone out, opening guarded, fan and locks left how, torches outside."""

from __future__ import annotations

from lamproom.office.amend import amend
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def begin_break(
    office: Office, permit: str, guarded: str, left: str, torches_out: bool, *, by: str | None, act: str | None = None
) -> None:
    """Timers stop; entry is barred until isolation was looked at, every point tested and entry endorsed again.

    Refused while anyone is inside, and while torches or burners are still in the space.
    """
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    if state.tally.inside:
        raise Refusal(sentence("office.break_inside", count=len(state.tally.inside)))
    if not torches_out:
        raise Refusal(sentence("office.torches"))
    if not state.running or state.pause is not None:
        raise Refusal(sentence("office.no_break_now"))
    event = e.BreakBegun(guarded=guarded.strip(), left=left.strip(), torches_out=torches_out)
    amend(office, permit, event, by=by, act=act)
