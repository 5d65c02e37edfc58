"""A permit told in a document, lived into a site of its own, so that the real window can show it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from lamproom.bench.happening import Event, Happening
from lamproom.intake.permit_document import PermitDocument
from lamproom.office import assess as judged
from lamproom.office.begin_site import begin_site
from lamproom.office.clock import HandClock
from lamproom.office.key_box import CHEAPEST
from lamproom.office.office import Office, ToRecord
from lamproom.office.opening import forms_at_hand, in_folder, open_in_memory
from lamproom.permit.people import PersonRegistered
from lamproom.permit.space import SpaceEvaluated, SpaceRegistered

KEEPER = "keeper"


@dataclass(frozen=True, slots=True)
class Lived:
    """The site, its clock, and the permit's number. The clock stands at the document's moment."""

    office: Office
    clock: HandClock
    number: str


class _Noting(judged._Lived):
    """The document's own living, that notes what it records."""

    __slots__ = ("past",)

    def _happening(self, stream: str, event: Event, at: datetime, by: str | None) -> Happening:
        made = super()._happening(stream, event, at, by)
        self.past.append(made)
        return made


def lived(document: PermitDocument, folder: Path) -> Lived:
    """Live a document into a new site: the same events that ``assess`` folds, at the same times."""
    text = document.form_text or forms_at_hand()[document.form]
    told = _Noting(document, text, document.at)
    told.past = []
    told.live()
    past = sorted(told.past, key=lambda happening: happening.at)
    begin = min(past[0].at, document.at) - timedelta(days=1)
    clock = HandClock(begin)
    office = open_in_memory(clock, in_folder(folder), CHEAPEST)
    begin_site(office, "Site", document.zone, KEEPER, "Keeper", ("keeper", "office"), (), "lantern-1", begin)
    _register(office, document)
    for one in past:
        if one.at > clock.sample().wall:
            clock.turn_to(one.at)
        office.record([ToRecord(one.stream, one.event)], one.by)
    if document.at > clock.sample().wall:
        clock.turn_to(document.at)
    return Lived(office, clock, document.number)


def _register(office: Office, document: PermitDocument) -> None:
    for person in document.people:
        office.journal.put_personal(person.id, {"name": person.name or person.id})
        for event in _person(person):
            office.record([ToRecord(f"person/{person.id}", event)], KEEPER)
    space = document.space.model_dump(exclude={"id", "openings", "altitude_m"})
    registered = SpaceRegistered.model_validate({**space, "portal": document.space.openings[0].model_dump()})
    evaluated = SpaceEvaluated.model_validate(document.evaluation.model_dump())
    for event in (registered, evaluated):
        office.record([ToRecord(f"space/{document.space.id}", event)], KEEPER)


def _person(told: Any) -> Iterator[Event]:
    yield PersonRegistered(roles=told.roles, employer=told.employer)
    yield from told.training
