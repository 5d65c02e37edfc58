"""Name a person for a part on this permit."""

from __future__ import annotations

from typing import Literal

from lamproom.office.amend import amend
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.words import Refusal, sentence


def name_person(
    office: Office,
    permit: str,
    person: str,
    part: Literal["entrant", "attendant", "supervisor"],
    *,
    by: str | None,
    act: str | None = None,
) -> None:
    """Name a person for a part on this permit. Refused for another supervisor once entry is authorized: that takes the
    incoming person's code (29 CFR 1910.146(j)(6))."""
    state = office.permit(permit)
    if part == "supervisor" and state.authorised is not None and person != state.supervisor:
        raise Refusal(sentence("office.hand_over_instead", number=permit))
    amend(office, permit, e.PersonNamed(person=person, part=part), by=by, act=act)
