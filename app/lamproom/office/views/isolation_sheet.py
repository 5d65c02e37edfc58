"""The sheet 'isolation and controls': points, today's level, the opening, the fan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from lamproom.office.office import Office
from lamproom.office.views.fan_plan import volume_offered
from lamproom.office.views.recorded import answered_against, fixed, standing_answers, who_and_when
from lamproom.office.views.sheet_items import ItemView, items_of
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles import obstacles
from lamproom.permit.space import IsolationPoint
from lamproom.permit.state import ReadingSet
from lamproom.permit.words import clock
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class PointRow:
    """One isolation point. ``done`` says what was recorded, empty before; ``wrong`` what still bars about it."""

    id: str
    name: str
    holds: str
    lock: str = ""
    owner: str = ""
    tried_dead: bool | None = None
    verified_by: str = ""
    done: str = ""
    note: str = ""
    wrong: str = ""
    box: str = ""


@dataclass(frozen=True, slots=True)
class StatedView:
    """Something stated with a time (level, opening, fan): ``done`` is it in words, empty while nobody stated it."""

    done: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class IsolationSheetView:
    """``people`` are pairs of id and name. ``lid`` says how the test through the lid stands, empty where there is no
    lid; ``unisolable`` why a source cannot be shut off and what that demands, empty where all can be.
    ``fan_figures``: what is known for planning the fan, by the keys of its fields."""

    points: tuple[PointRow, ...]
    people: tuple[tuple[str, str], ...]
    unisolable: str
    level: StatedView
    depth: str
    opening: StatedView
    lid: str
    lid_tested: bool
    fan: StatedView
    fan_runs: bool
    fan_asked: str
    fan_needed: bool
    fan_figures: tuple[tuple[str, str], ...]
    items: tuple[ItemView, ...]
    bars: Mapping[str, str]
    standing: tuple[tuple[str, str], ...]
    fixed: str


_OF_A_POINT = ("isolation-weak", "isolation-not-dead", "isolation-one-person", "isolation-lost")
"""What is said under the point itself; that it is still open is seen from its empty fields."""
_A_BOX = "box"


def isolation_sheet(office: Office, number: str) -> IsolationSheetView:
    """The sheet as it stands. Refused when there is no such permit."""
    facts = office.facts(number)
    permit = facts.permit
    names = office.names()
    here = [id for id in office.ids("person") if not office.person(id).left]
    through = next((s for s in reversed(permit.sets) if s.event.phase == "through-lid"), None)
    evaluated = permit.opened.evaluated
    unisolable = evaluated.unisolable
    return IsolationSheetView(
        points=tuple(_point(facts, point) for point in evaluated.isolation),
        people=tuple(sorted(((id, names.get(id, id)) for id in here), key=lambda pair: pair[1])),
        unisolable=say("workbook.isolation.unisolable", why=unisolable) if unisolable is not None else "",
        level=_level(facts),
        depth=permit.opened.registered.depth_m,
        opening=_opening(facts),
        lid=_lid(facts, through) if permit.opened.registered.portal.lid else "",
        lid_tested=through is not None,
        fan=_fan(facts),
        fan_runs=permit.fan is not None,
        fan_needed=evaluated.ventilation_needed,
        fan_asked=say("workbook.fan.needed" if evaluated.ventilation_needed else "workbook.fan.not_asked"),
        fan_figures=(("flow", _flow(facts)), ("volume", volume_offered(office, number))),
        items=items_of(facts, "isolation"),
        bars=answered_against(facts),
        standing=standing_answers(facts, "isolation"),
        fixed=fixed(facts),
    )


_POWER = ("lockout", "disconnected-link")
"""Held off by a lock or a gap in a drive, so that it is tried and found dead; what is in a line does not come."""


def _point(facts: Facts, point: IsolationPoint) -> PointRow:
    held = say("workbook.isolation.holds", what=point.holds, how=point.how[:1].upper() + point.how[1:])
    wrong = [o for o in obstacles(facts) if o.code in _OF_A_POINT and o.found.subject == point.id]
    row = PointRow(point.id, point.name, held, wrong=" ".join(o.sentence.say() for o in wrong))
    made = facts.permit.isolated.get(point.id)
    event = made.event if made is not None else None
    if not isinstance(event, e.PointIsolated):
        return row
    lock = say("workbook.isolation.in_box", lock=event.lock, box=_box(event.box)) if event.box else event.lock
    return replace(
        row,
        lock=event.lock,
        owner=event.owner,
        tried_dead=event.tried_dead,
        verified_by=event.verified_by or "",
        box=event.box,
        done=say(
            "workbook.isolation.done" if event.tried_dead else "workbook.isolation.not_tried",
            lock=lock,
            owner=facts.name(event.owner),
            tried=say("workbook.isolation.dead" if point.held_as in _POWER else "workbook.isolation.nothing_comes"),
            verified=_verified(facts, event),
        ),
        note=who_and_when(facts, made),
    )


def _box(box: str) -> str:
    """What was typed is often 'Box 1' already."""
    return box if _A_BOX in box.casefold() else say("workbook.isolation.a_box", box=box)


def _verified(facts: Facts, event: e.PointIsolated) -> str:
    """Who verified it. Of a point that was not found dead another person saw the lock, and nothing more."""
    if event.verified_by is None:
        return say("workbook.isolation.unverified")
    kind = "workbook.isolation.verified" if event.tried_dead else "workbook.isolation.seen"
    return say(kind, name=facts.name(event.verified_by))


def _level(facts: Facts) -> StatedView:
    made = facts.permit.level
    event = made.event if made is not None else None
    if not isinstance(event, e.LevelStated):
        return StatedView()
    if event.depth_m is None:
        return StatedView(say("workbook.level.dry_done", how=event.how), who_and_when(facts, made))
    done = say("workbook.level.done", depth=event.depth_m, how=event.how)
    return StatedView(done, who_and_when(facts, made))


def _opening(facts: Facts) -> StatedView:
    made = facts.permit.open_since
    event = made.event if made is not None else None
    if not isinstance(event, e.SpaceOpened):
        return StatedView()
    return StatedView(say("workbook.opening.done", guarded=event.guarded), who_and_when(facts, made))


def _lid(facts: Facts, through: ReadingSet | None) -> str:
    if through is None:
        return say("workbook.opening.lid_first")
    return say("workbook.opening.lid_tested", time=clock(through.event.taken, facts.permit.zone))


def _flow(facts: Facts) -> str:
    """The flow that was stated for the fan that runs; empty while none does."""
    event = facts.permit.fan.event if facts.permit.fan is not None else None
    return event.flow_m3_h if isinstance(event, e.VentilationStarted) else ""


def _fan(facts: Facts) -> StatedView:
    permit = facts.permit
    event = permit.fan.event if permit.fan is not None else None
    if isinstance(event, e.VentilationStarted):
        done = say("workbook.fan.done", flow=event.flow_m3_h, intake=event.intake, noticed=event.stop_noticed_by)
        done = say("workbook.fan.done_power", done=done, power=event.power) if event.power else done
        return StatedView(done, who_and_when(facts, permit.fan))
    stopped = permit.fan_stopped.event if permit.fan_stopped is not None else None
    if isinstance(stopped, e.VentilationStopped):
        return StatedView(say("workbook.fan.stopped", why=stopped.why), who_and_when(facts, permit.fan_stopped))
    return StatedView()
