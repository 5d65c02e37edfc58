"""Sign what was found about a stop."""

from __future__ import annotations

from typing import Literal

from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.office.permit_change import on_permit, refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


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
    found = e.StopDetermined(finding=finding, reason=reason.strip())
    refuse(takes(office.facts(permit, acting=supervisor), found, supervisor))
    signer = office.unlock(supervisor, code)
    if finding == "prohibited-condition":
        ended = e.Ended(cause="prohibited-condition", reason=reason.strip())
        record_with_page(office, permit, [found, ended], supervisor, "ended", signer, act)
    else:
        on_permit(office, permit, found, by=supervisor, act=act, signer=signer)
