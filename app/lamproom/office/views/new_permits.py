"""What a new permit may be opened for: each space, by each way in that is open, and again after a canceled permit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta

from lamproom.office.office import Office
from lamproom.office.views.ways_in import ways_in
from lamproom.permit import events as e
from lamproom.permit.state import Permit
from lamproom.permit.words import clock
from lamproom.words import say

FOLLOWED = timedelta(hours=24)
"""So long a permit that ended before its work was done is offered to be followed."""


@dataclass(frozen=True, slots=True)
class Opening:
    """One thing to choose. ``key`` names it: the space's id, then its route, or the permit that it follows."""

    key: str
    space: str
    route: e.Route
    renews: str | None
    name: str
    note: str


def more_openings(office: Office, space: str) -> tuple[Opening, ...]:
    """Beside the ordinary permit: the shorter ways in that are open to the space, and the permits to be followed."""
    known = office.space(space)
    if known.registered is None:
        return ()
    name = known.registered.name
    found = [
        Opening(f"{space}.after.{one.number}", space, one.route, one.number, *_again(one, name))
        for one in _to_follow(office, space)
    ]
    for way in ways_in(office, space):
        if way.route != "permit" and way.open:
            words = say("board.by_way", space=name, way=way.name[:1].lower() + way.name[1:])
            found.append(Opening(f"{space}.{way.route}", space, way.route, None, words, way.rule))
    return tuple(found)


def _again(permit: Permit, space: str) -> tuple[str, str]:
    at = clock(permit.ended.at, permit.zone) if permit.ended is not None else ""
    return say("board.again", space=space), say("board.again_after", number=permit.number, time=at)


def _to_follow(office: Office, space: str) -> list[Permit]:
    """The space's permits that ended within a day before their work was done, and that none follows yet."""
    permits = [office.permit(number) for number in office.ids("permit")]
    followed = {permit.opened.renews for permit in permits}
    now = office.now()
    return [
        permit
        for permit in permits
        if permit.opened.space == space
        and permit.number not in followed
        and permit.ended is not None
        and isinstance(permit.ended.event, e.Ended)
        and permit.ended.event.cause != "work-complete"
        and now - permit.ended.at <= FOLLOWED
    ]


def opening_after(office: Office, number: str) -> str:
    """The key of what follows a permit: again after it where that may be, else its space by the ordinary way."""
    space = office.permit(number).opened.space
    wanted = f"{space}.after.{number}"
    return wanted if wanted in {one.key for one in more_openings(office, space)} else space


def descriptions(office: Office, number: str) -> Mapping[str, str]:
    """What the permit that this one follows described, by sheet and field: to be read and recorded anew, or changed.

    No answer, reading, time, name of a verifier, ink or signature is among them.
    """
    after = office.permit(number).opened.renews
    if after is None:
        return {}
    old = office.permit(after)
    found: dict[str, str] = {}
    for item, made in old.answers.items():
        asked = old.form.item(item)
        if asked is not None and isinstance(made.event, e.Answered) and made.event.answer == "yes":
            found[f"{asked.sheet}.{item}.found"] = made.event.found
    for point, made in old.isolated.items():
        if isinstance(made.event, e.PointIsolated):
            found |= {
                f"isolation.{point}.lock": made.event.lock,
                f"isolation.{point}.owner": made.event.owner,
                f"isolation.{point}.box": made.event.box,
            }
    if old.open_since is not None and isinstance(old.open_since.event, e.SpaceOpened):
        found["isolation.open"] = old.open_since.event.guarded
    if old.level is not None and isinstance(old.level.event, e.LevelStated):
        found["isolation.level.how"] = old.level.event.how
    starts = [one.event for one in office.happenings(f"permit/{after}")]
    blown = next((event for event in reversed(starts) if isinstance(event, e.VentilationStarted)), None)
    if blown is not None:
        found |= {"isolation.fan": blown.flow_m3_h, "isolation.fan.intake": blown.intake}
        found |= {"isolation.fan.noticed": blown.stop_noticed_by, "isolation.fan.power": blown.power}
    if old.call_tried is not None and isinstance(old.call_tried.event, e.RescueCallTried):
        found["rescue.means"] = old.call_tried.event.means
    return {key: text for key, text in found.items() if text.strip()}
