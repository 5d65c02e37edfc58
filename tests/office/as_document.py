"""A permit of a site told as a document: what the journal holds, in the document's words."""

from __future__ import annotations

from typing import Any

from lamproom.bench import events as b
from lamproom.bench.happening import Happening
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.permit.people import PersonRegistered, PersonTrained
from lamproom.record.kinds import data_of

UNTOLD = {"against", "on_version", "entrants", "begins", "ink", "outgoing", "inside", "last_set", "open_alarms"}


def document_of(office: Office, number: str) -> dict[str, Any]:
    """The whole permit, judged at the moment of its last event."""
    past = list(office.happenings(f"permit/{number}"))
    opened = past[0].event
    assert isinstance(opened, e.PermitOpened)
    space = data_of(opened.registered)
    space["openings"] = [space.pop("portal")]
    permit = office.permit(number)
    named = {h.event.person for h in past if isinstance(h.event, e.PersonNamed)} | {permit.supervisor}
    acting = {h.by for h in past if h.by}
    acting |= {h.by for id in permit.instruments for h in office.happenings(f"instrument/{id}") if h.by}
    return {
        "lamproom": "permit 1",
        "at": past[-1].at.isoformat(),
        "zone": opened.zone,
        "number": number,
        "form_text": opened.form,
        "route": opened.route,
        "clock_confirmed": True,
        "figures_confirmed": True,
        "opened": {"at": past[0].at.isoformat(), "by": past[0].by},
        "space": {"id": opened.space, **space},
        "evaluation": data_of(opened.evaluated),
        "people": [_person(office, id) for id in sorted((named | acting) - {None})],
        "instruments": [_instrument(office, id) for id in permit.instruments],
        "others": [],
        "happened": [told for h in past[1:] if (told := _told(h)) is not None],
    }


def _person(office: Office, id: str) -> dict[str, Any]:
    past = [h.event for h in office.happenings(f"person/{id}")]
    roles = next(event for event in past if isinstance(event, PersonRegistered))
    training = [data_of(event) for event in past if isinstance(event, PersonTrained)]
    return {"id": id, "name": office.names()[id], "roles": list(roles.roles), "training": training}


def _instrument(office: Office, id: str) -> dict[str, Any]:
    past = office.happenings(f"instrument/{id}")
    registered = next(h.event for h in past if isinstance(h.event, b.InstrumentRegistered))
    return {"id": id, **data_of(registered), "happened": [_act(h) for h in past if h.event is not registered]}


def _act(happening: Happening) -> dict[str, Any]:
    act = {"what": happening.event.kind, "at": happening.at.isoformat(), "by": happening.by}
    return act | data_of(happening.event)


def _told(happening: Happening) -> dict[str, Any] | None:
    event, act = happening.event, _act(happening)
    match event:
        case e.PageFiled():
            return None
        case e.ReadingsTaken():
            return act | {
                "id": f"set-{happening.version}",
                "place": "outside" if event.phase == "upwind" else "this-space",
            }
        case e.ReadingCorrected():
            return {k: v for k, v in act.items() if k != "set_version"} | {"reading": f"set-{event.set_version}"}
        case e.Briefed():
            return {k: v for k, v in act.items() if k != "inks"} | {"people": [ink.person for ink in event.inks]}
        case e.SomeoneNamed():
            return {**act, "what": event.kind, "who": event.what}
        case e.InstrumentAssigned():
            return {k: v for k, v in act.items() if k != "registered"}
        case e.Authorised() | e.Reendorsed() | e.StopDetermined() | e.Extended():
            kept = {
                k: v
                for k, v in act.items()
                if k not in UNTOLD and not (k == "ends" and isinstance(event, e.Authorised))
            }
            return {k: v for k, v in kept.items() if k != "after"} | {"signed": True}
        case e.Relieved() | e.WentIn() | e.Ended():
            return {k: v for k, v in act.items() if k not in UNTOLD}
    return act
