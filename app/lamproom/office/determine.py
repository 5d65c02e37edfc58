"""Sign what was found about a stop."""

from __future__ import annotations

from typing import Literal

from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.office.permit_change import on_permit
from lamproom.office.supervisor import require_supervisor
from lamproom.permit import events as e
from lamproom.permit.plain_reading import plain_reading
from lamproom.words import Refusal, sentence


def determine(
    office: Office,
    permit: str,
    finding: Literal["prohibited-condition", "none-arose"],
    reason: str,
    supervisor: str,
    code: str,
    *,
    act: str | None = None,
) -> None:
    """The supervisor's determination. A prohibited condition ends the permit in the same act; a new one may cite it.

    None arose: entry stays barred until every point is tested again and entry is endorsed again. Refused while anyone
    is inside, without a reason, and 'none arose' while an uncorrected reading outside a limit is plain.
    """
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    if state.stop is None:
        raise Refusal(sentence("office.no_stop"))
    if state.tally.inside:
        raise Refusal(sentence("office.determine_inside", count=len(state.tally.inside)))
    if not reason.strip():
        raise Refusal(sentence("office.determine_reason"))
    if finding == "none-arose" and plain_reading(state):
        raise Refusal(sentence("office.reading_is_plain"))
    require_supervisor(office, state, supervisor)
    signer = office.unlock(supervisor, code)
    found = e.StopDetermined(finding=finding, reason=reason.strip())
    if finding == "prohibited-condition":
        ended = e.Ended(cause="prohibited-condition", reason=reason.strip())
        record_with_page(office, permit, [found, ended], supervisor, "ended", signer, act)
    else:
        on_permit(office, permit, found, by=supervisor, act=act, signer=signer)
