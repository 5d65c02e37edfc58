"""Put a person into the register, with training and, where they sign, a code."""

from __future__ import annotations

from lamproom.office.office import Office, ToRecord, new_act
from lamproom.permit.people import PersonRegistered, PersonTrained, Role
from lamproom.words import Refusal, sentence


def register_person(
    office: Office,
    person: str,
    name: str,
    roles: tuple[Role, ...],
    training: tuple[PersonTrained, ...],
    *,
    by: str | None,
    code: str | None = None,
    keeper_code: str | None = None,
    employer: str = "own",
    act: str | None = None,
) -> None:
    """The name goes into the table of people; roles and training are events. A code is needed only by those who sign.

    Refused without a name, and for an id that was ever given before (ids are never given again).
    """
    if not name.strip():
        raise Refusal(sentence("office.name_missing"))
    if person in office.ids("person") and act is None:
        raise Refusal(sentence("office.person_known", person=person))
    if code is not None and person not in office.keys.people():
        office.keys.enrol(person, name.strip(), code, keeper_code or "", office.now())
    office.journal.put_personal(person, {"name": name.strip()})
    stream = f"person/{person}"
    joined = PersonRegistered(roles=roles, employer=employer.strip() or "own")
    wanted = [ToRecord(stream, joined), *(ToRecord(stream, done) for done in training)]
    office.record(wanted, by, act or new_act())
