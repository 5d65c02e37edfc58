"""The Workbook's frame: the permit's line, how each sheet stands, and what stands in the way of the next stage."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from lamproom.bench.happening import Event
from lamproom.office.office import Office
from lamproom.office.views.listed import listed
from lamproom.office.views.new_permits import more_openings
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.form import SHEETS, Form
from lamproom.permit.obstacles import Obstacle, Stage, obstacles
from lamproom.permit.state import Permit
from lamproom.permit.timing import retest
from lamproom.permit.words import State, clock, state_of
from lamproom.words import say, say_count

Standing = Literal["none", "some", "complete", "not-asked"]

_SHEET_OF: dict[type[Event], str] = {
    e.WorkDescribed: "space",
    e.HoursPlanned: "space",
    e.HazardHeld: "hazards",
    e.HazardAdded: "hazards",
    e.BasisStated: "hazards",
    e.PointIsolated: "isolation",
    e.LevelStated: "isolation",
    e.SpaceOpened: "isolation",
    e.VentilationStarted: "isolation",
    e.VentilationStopped: "isolation",
    e.InstrumentAssigned: "instruments",
    e.InstrumentReturned: "instruments",
    e.HoseTested: "instruments",
    e.ReadingsTaken: "air-test",
    e.ReadingCorrected: "air-test",
    e.PersonNamed: "people",
    e.PersonUnnamed: "people",
    e.Briefed: "people",
    e.RescueConfirmed: "rescue",
    e.RescueCallTried: "rescue",
    e.Authorised: "review",
}

_FIRST = ("reading-outside",)
_AT_THE_PORTAL = (
    "base-missing",
    "lid-not-tested",
    "opening-not-stated",
    "level-missing",
    "fan-missing",
    "fan-stopped",
)
"""Clean air upwind, then through the lid, then the cover off, the level seen and the fan on; only then the points
(29 CFR 1910.146(d)(5)(i), Appendix B)."""


@dataclass(frozen=True, slots=True)
class SheetView:
    """One sheet of the rail: its key, its name, how it stands, and that in words ('2 open', 'complete 08:41')."""

    key: str
    name: str
    standing: Standing
    state: str


@dataclass(frozen=True, slots=True)
class ObstacleView:
    """One obstacle in words; ``target`` is where it is cleared."""

    code: str
    sentence: str
    clears: str
    rule: str
    target: str


@dataclass(frozen=True, slots=True)
class WorkbookView:
    """The frame of one permit. ``state`` is the value of its State; ``facts`` are short: number, hours."""

    number: str
    space: str
    place: str
    state: str
    state_words: str
    facts: tuple[str, ...]
    sheets: tuple[SheetView, ...]
    obstacles: tuple[ObstacleView, ...]
    computed: str
    foot: str
    authorised: bool = False


@dataclass(frozen=True, slots=True)
class PermitEntry:
    """A permit that is not closed out, to be chosen: its number, its space, its state."""

    number: str
    space: str
    state: str
    state_words: str
    note: str


@dataclass(frozen=True, slots=True)
class SpaceEntry:
    """A space of the register; ``barred`` says why no permit can be opened for it, empty where one can."""

    id: str
    name: str
    place: str
    barred: str
    space: str = ""
    route: e.Route = "permit"
    renews: str | None = None


def workbook(office: Office, number: str) -> WorkbookView:
    """The frame of a permit at this moment. Refused when there is no such permit."""
    facts = office.facts(number)
    permit = facts.permit
    found = obstacles(facts)
    stage = Stage.AUTHORISE if permit.authorised is None else Stage.ENTER
    standing = listed(in_order(obstacle for obstacle in found if obstacle.bars(stage)))
    state = _state(facts, found)
    seconds = facts.at.astimezone(permit.zone).strftime("%H:%M:%S")
    return WorkbookView(
        number=number,
        space=permit.opened.registered.name,
        place=permit.opened.registered.place,
        state=state.value,
        state_words=_capital(say(f"permit.state.{state.value}")),
        facts=(say("workbook.permit_number", number=number), _hours(permit), *_way(permit)),
        sheets=_sheets(office, permit, standing),
        obstacles=tuple(
            ObstacleView(o.code, o.sentence.say(), o.clears.say().rstrip("."), o.rule, o.target) for o in standing
        ),
        computed=say("workbook.computed", time=seconds),
        foot=say("workbook.foot", title=permit.form.title, version=permit.form.version),
        authorised=permit.authorised is not None,
    )


def _state(facts: Facts, found: Sequence[Obstacle]) -> State:
    times = retest(facts)
    barred = frozenset(stage.value for obstacle in found for stage in obstacle.stages)
    return state_of(
        facts.permit,
        facts.at,
        barred,
        times.due if times is not None else None,
        times.late if times is not None else None,
        frozenset(obstacle.code for obstacle in found if obstacle.bars(Stage.ENTER)),
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _hours(permit: Permit) -> str:
    hours = permit.authorised.event if permit.authorised is not None else permit.hours
    if not isinstance(hours, e.HoursPlanned | e.Authorised):
        return say("workbook.hours_open")
    kind = "workbook.hours_planned" if isinstance(hours, e.HoursPlanned) else "workbook.hours_authorised"
    return say(kind, begins=clock(hours.begins, permit.zone), ends=clock(hours.ends, permit.zone))


_SUBJECTS: dict[str, tuple[str, ...]] = {
    "space": (
        "not-permit-required",
        "review-overdue",
        "alternate-other-hazard",
        "alternate-no-data",
        "alternate-not-by-air-alone",
        "reclassified-air",
        "reclassified-by-fan",
        "not-begun",
        "expired",
        "on-break",
    ),
    "hazards": ("hazard-unnamed", "hazard-new", "condition", "condition-stay"),
    "isolation": ("isolation-weak", "fan-missing", "fan-stopped", "fan-not-described"),
    "instruments": ("instrument-not-ready", "battery-short", "set-point-above"),
    "air-test": ("retest-late", "retest-overdue"),
    "people": ("nobody-on-watch", "attendant-elsewhere", "stranger-inside"),
    "rescue": (
        "rescue-not-evaluated",
        "rescue-not-told",
        "rescue-practice-old",
        "rescue-no-first-aid",
        "no-mechanical-device",
    ),
}
"""What an obstacle is about, where the place that clears it does not tell: no sheet may seem complete beside it."""
_ABOUT = {code: sheet for sheet, codes in _SUBJECTS.items() for code in codes}


def subject_of(code: str, target: str) -> str:
    """The sheet on whose line of the rail an obstacle counts: that of its subject, wherever it is cleared."""
    return _ABOUT.get(code) or sheet_of(target)


def sheet_of(target: str) -> str:
    """The sheet where an obstacle is cleared; what is cleared in no sheet has its turn before the review."""
    head = target.split("/", 1)[0]
    if head == "bench":
        return "instruments"
    return head if head in SHEETS else "review"


def leads_to(standing: Sequence[ObstacleView], sheet: str) -> str:
    """Where the work goes on from a sheet on which something was just answered: the target of what is first in order,
    empty to stay. It stays while anything of the sheet itself stands, but for what has its turn at the portal later,
    and while what is first is cleared elsewhere than in the Workbook."""
    if not standing:
        return "review"
    first = standing[0].target
    if sheet_of(first) != sheet and any(
        sheet_of(one.target) == sheet and one.code not in _AT_THE_PORTAL for one in standing
    ):
        return ""
    return first if first.split("/", 1)[0] in SHEETS else ""


def in_order(standing: Iterable[Obstacle]) -> tuple[Obstacle, ...]:
    """In the order in which it is mended in the world; what is outside a limit first, since it endangers people now.

    Sheet by sheet as in the rail, but what opens the space and moves its air follows the instruments, and stands
    after the tests that must come before it.
    """
    return tuple(sorted(standing, key=_rank))


def _rank(obstacle: Obstacle) -> tuple[int, int]:
    if obstacle.code in _FIRST:
        return -1, 0
    if obstacle.code in _AT_THE_PORTAL:
        return SHEETS.index("air-test"), _AT_THE_PORTAL.index(obstacle.code)
    return SHEETS.index(sheet_of(obstacle.target)), len(_AT_THE_PORTAL)


def _sheets(office: Office, permit: Permit, standing: Sequence[Obstacle]) -> tuple[SheetView, ...]:
    last: dict[str, str] = {}
    for happening in office.happenings(f"permit/{permit.number}"):
        sheet = _touched(happening.event, permit.form)
        if sheet:
            last[sheet] = clock(happening.at, permit.zone)
    open_ones = [subject_of(obstacle.code, obstacle.target) for obstacle in standing]
    return tuple(
        _review(last.get(key, ""), len(standing))
        if key == "review"
        else _sheet(key, open_ones.count(key), last.get(key, ""), asked=permit.route == "permit" or key != "rescue")
        for key in SHEETS
    )


def _touched(event: Event, form: Form) -> str:
    """The sheet that an event belongs to, empty for those of the Watch."""
    if isinstance(event, e.Answered):
        item = form.item(event.item)
        return item.sheet if item is not None else ""
    return _SHEET_OF.get(type(event), "")


def _way(permit: Permit) -> tuple[str, ...]:
    """By which way in, and which permit it follows; nothing for an ordinary permit."""
    way = (say(f"registers.way.{permit.route}"),) if permit.route != "permit" else ()
    after = permit.opened.renews
    return (*way, say("workbook.follows", number=after)) if after is not None else way


def _sheet(key: str, count: int, last: str, asked: bool = True) -> SheetView:
    name = say(f"workbook.sheet.{key}")
    if not asked and not count:
        return SheetView(key, name, "not-asked", say("workbook.not_asked"))
    if count:
        return SheetView(key, name, "some" if last else "none", say_count("workbook.open", count))
    # What is said of a hazard is that somebody looked at it; that its control stands is recorded elsewhere.
    done = "workbook.looked_at" if key == "hazards" else "workbook.complete_at"
    return SheetView(key, name, "complete", say(done, time=last) if last else say("workbook.complete"))


def _review(authorised: str, count: int) -> SheetView:
    name = say("workbook.sheet.review")
    if authorised:
        return SheetView("review", name, "complete", say("workbook.authorised_at", time=authorised))
    if count:
        return SheetView("review", name, "none", say("workbook.not_yet"))
    return SheetView("review", name, "some", say("workbook.to_sign"))


def permits(office: Office) -> tuple[PermitEntry, ...]:
    """The permits that are not closed out, newest first."""
    entries = []
    for number in office.ids("permit"):
        permit = office.permit(number)
        if permit.closed_out is None:
            entries.append(_entry(office, permit))
    return tuple(reversed(entries))


def _entry(office: Office, permit: Permit) -> PermitEntry:
    facts = office.facts(permit.number)
    found = obstacles(facts)
    state = _state(facts, found)
    standing = len(listed(obstacle for obstacle in found if obstacle.bars(Stage.AUTHORISE)))
    note = say_count("workbook.before_entry", standing) if permit.authorised is None else _hours(permit)
    name = permit.opened.registered.name
    return PermitEntry(permit.number, name, state.value, say(f"permit.state.{state.value}"), note)


def spaces(office: Office) -> tuple[SpaceEntry, ...]:
    """The spaces of the register that are still entered, by name."""
    entries = []
    for id in office.ids("space"):
        space = office.space(id)
        if space.registered is None or space.retired is not None:
            continue
        barred = "" if space.evaluated is not None else say("workbook.not_evaluated")
        entries.append(SpaceEntry(id, space.registered.name, space.registered.place, barred, id))
        if not barred:
            entries += [
                SpaceEntry(one.key, one.name, one.note, "", id, one.route, one.renews)
                for one in more_openings(office, id)
            ]
    return tuple(sorted(entries, key=lambda entry: entry.name))
