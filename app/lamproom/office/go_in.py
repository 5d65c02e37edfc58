"""Record that an entrant goes in."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.office.permit_change import on_permit, refuse
from lamproom.permit import events as e
from lamproom.permit.takes import takes


def go_in(
    office: Office, permit: str, person: str, *, by: str | None, against: bool = False, act: str | None = None
) -> None:
    """The named entrant goes in. Refused while anything bars entry; ``against`` records the fact all the same, with
    the obstacles that stood. Someone not on the permit goes in by ``someone_went_in``."""
    if act is not None and office.journal.act(act):
        return
    refused = takes(office.facts(permit), e.WentIn(person=person), by)
    if refused is not None and not (against and refused.standing):
        refuse(refused)
    standing = refused.standing if refused is not None else ()
    codes = tuple(dict.fromkeys(obstacle.code for obstacle in standing))
    on_permit(office, permit, e.WentIn(person=person, against=codes), by=by, act=act)
