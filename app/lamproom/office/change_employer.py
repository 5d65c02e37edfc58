"""Say whom a registered person works for from now on."""

from __future__ import annotations

from lamproom.office.office import Office, ToRecord
from lamproom.permit.people import PersonEmployed
from lamproom.words import Refusal, sentence

OWN = "own"
"""The mark of whoever works for the site itself."""


def change_employer(office: Office, person: str, employer: str, *, by: str | None, act: str | None = None) -> None:
    """Record the employer; nothing typed means the site's own. Refused for someone unknown or who left, and where it is
    the employer already."""
    if act is not None and office.journal.act(act):
        return
    known = office.person(person)
    name = office.names().get(person, person)
    if not known.version or known.left:
        raise Refusal(sentence("office.no_person", person=name))
    told = employer.strip() or OWN
    if told.casefold() == known.employer.casefold():
        whom = sentence("office.own_employer") if told == OWN else known.employer
        raise Refusal(sentence("office.same_employer", name=name, employer=whom))
    office.record([ToRecord(f"person/{person}", PersonEmployed(employer=told))], by, act)
