"""End a permit: authority to enter ceases, once and for good, with its cause."""

from __future__ import annotations

from typing import Literal

from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.office.permit_change import refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes
from lamproom.words import Refusal, sentence


def end_permit(
    office: Office,
    permit: str,
    cause: Literal["work-complete", "prohibited-condition", "expired", "never-entered"],
    reason: str,
    supervisor: str,
    code: str,
    ink: e.Ink | None = None,
    *,
    act: str | None = None,
) -> None:
    """The supervisor ends the permit (29 CFR 1910.146(e)(5)). Allowed with people inside: authority ends at once, and
    the tally goes on until everyone is out.

    Refused for a permit that has ended, 'never entered' when someone was inside, 'expired' before its hours are over,
    and a standing stop that nobody has determined yet unless the cause is the prohibited condition.
    """
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    if state.ended is not None:
        raise Refusal(sentence("office.already_ended", number=permit))
    event = e.Ended(cause=cause, reason=reason.strip(), ink=ink)
    refuse(takes(office.facts(permit, acting=supervisor), event, supervisor))
    signer = office.unlock(supervisor, code)
    record_with_page(office, permit, [event], supervisor, "ended", signer, act)
