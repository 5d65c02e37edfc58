"""Come back from a break: isolation looked at again."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit, refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes
from lamproom.words import Refusal, sentence


def end_break(office: Office, permit: str, isolation_found: str, *, by: str | None, act: str | None = None) -> None:
    """Back from the break. Entry then waits for a full retest and for the supervisor's endorsement."""
    if act is not None and office.journal.act(act):
        return
    if office.permit(permit).pause is None:
        raise Refusal(sentence("office.not_on_break"))
    event = e.BreakEnded(isolation_found=isolation_found.strip())
    refuse(takes(office.facts(permit), event, by))
    on_permit(office, permit, event, by=by, act=act)
