"""Who may act as entry supervisor today."""

from __future__ import annotations

from lamproom.office.office import Office
from lamproom.permit.people import trained
from lamproom.permit.state import Permit
from lamproom.words import Refusal, sentence


def require_supervisor(office: Office, permit: Permit, person: str) -> None:
    """Refuse a person who is not trained as entry supervisor today."""
    day = office.now().astimezone(permit.zone).date()
    if not trained(office.person(person), "supervisor", day):
        raise Refusal(sentence("office.not_supervisor", name=office.names().get(person, person)))
