"""Make the authorized hours longer, before they end."""

from __future__ import annotations

from datetime import datetime

from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.office.permit_change import refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def extend(
    office: Office,
    permit: str,
    ends: datetime,
    reason: str,
    supervisor: str,
    code: str,
    ink: e.Ink | None = None,
    *,
    act: str | None = None,
) -> None:
    """The entry supervisor signs longer hours for the task that is not done yet (29 CFR 1910.146(e)(4)); the permit's
    page is issued again. Refused after the old end, past the form's longest permit, and while anything calls people
    out."""
    if act is not None and office.journal.act(act):
        return
    event = e.Extended(ends=ends, reason=reason.strip(), ink=ink)
    refuse(takes(office.facts(permit, acting=supervisor), event, supervisor))
    signer = office.unlock(supervisor, code)
    record_with_page(office, permit, [event], supervisor, "amended", signer, act)
