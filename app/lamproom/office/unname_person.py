"""Take a person off a part of this permit."""

from __future__ import annotations

from typing import Literal

from lamproom.office.amend import amend
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def unname_person(
    office: Office,
    permit: str,
    person: str,
    part: Literal["entrant", "attendant", "supervisor"],
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Take a person off a part of this permit. Refused for whoever stands watch, and for the supervisor once entry is
    authorized: those parts are handed over, never dropped."""
    state = office.permit(permit)
    if part == "attendant" and state.attendant == person:
        raise Refusal(sentence("office.relieve_first", name=office.names().get(person, person)))
    if part == "supervisor" and state.authorised is not None:
        raise Refusal(sentence("office.hand_over_instead", number=permit))
    amend(office, permit, e.PersonUnnamed(person=person, part=part), by=by, act=act)
