"""Authorize entry: the supervisor's code and ink, the signed page and its hash, all in one act."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.pages import record_with_page
from lamproom.office.supervisor import require_supervisor
from lamproom.permit import events as e
from lamproom.permit.obstacles import Obstacle, Stage, barring
from lamproom.words import Refusal, sentence


class NotAuthorised(Refusal):
    """Obstacles stand: each with what clears it."""

    def __init__(self, standing: tuple[Obstacle, ...]) -> None:
        self.standing = standing
        super().__init__(sentence("office.barred_authorise", first=standing[0].sentence, count=len(standing)))


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
    if state.authorised is not None:
        raise Refusal(sentence("office.already_authorised", number=permit))
    standing = barring(office.facts(permit), Stage.AUTHORISE)
    if standing:
        raise NotAuthorised(standing)
    if state.hours is None:
        raise Refusal(sentence("office.authorise_hours"))
    if state.supervisor != supervisor:
        raise Refusal(sentence("office.other_supervisor", name=office.names().get(supervisor, supervisor)))
    require_supervisor(office, state, supervisor)
    signer = office.unlock(supervisor, code)
    event = e.Authorised(
        begins=max(state.hours.begins, office.now()),
        ends=state.hours.ends,
        on_version=state.version,
        entrants=state.entrants,
        ink=ink,
    )
    record_with_page(office, permit, [event], supervisor, "authorised", signer, act)
