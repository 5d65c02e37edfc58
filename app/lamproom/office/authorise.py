"""Authorize entry: the supervisor's code and ink, the signed page and its hash, all in one act."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.office.permit_change import refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def authorise(
    office: Office, permit: str, supervisor: str, code: str, ink: e.Ink | None, *, act: str | None = None
) -> None:
    """The named entry supervisor authorizes entry for the planned hours (29 CFR 1910.146(e)(2), (j)(2)).

    Refused while any obstacle bars authorizing, for anyone but the supervisor named, and for a wrong code. The PDF, its
    hash and the events are stored in one transaction: there is no authorized permit without its page.
    """
    if act is not None and office.journal.act(act):
        return
    state = office.permit(permit)
    hours = state.hours
    event = e.Authorised(
        begins=max(hours.begins, office.now()) if hours is not None else office.now(),
        ends=hours.ends if hours is not None else office.now(),
        on_version=state.version,
        entrants=state.entrants,
        ink=ink,
    )
    refuse(takes(office.facts(permit, acting=supervisor), event, supervisor))
    signer = office.unlock(supervisor, code)
    record_with_page(office, permit, [event], supervisor, "authorised", signer, act)
