"""Item 10 of the page: tests before entry at each point, instruments with their bump test, tests during entry."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Literal

from lamproom.air.sampling import point_name, verification_points
from lamproom.bench.bump import gas_name
from lamproom.bench.events import BumpTested, SensorResult
from lamproom.bench.state import Done
from lamproom.office.page.air_workings import deciding
from lamproom.office.page.parts import Pages, figures_of, gas_column, lasting, metres, nobody_can_follow
from lamproom.paper import content as c
from lamproom.permit import events as e
from lamproom.permit.facts import VERIFYING, hold, points, standing
from lamproom.permit.state import OUTSIDE, Assigned, ReadingSet
from lamproom.permit.timing import retest
from lamproom.words import Refusal, say, say_count

NOTHING = "\u2013"
"""A dash where no figure stands."""


def tests_before(pages: Pages) -> c.TestsBefore:
    """Every point with its last figures before and with ventilation, as they stood at authorization."""
    permit = pages.permit
    until = permit.authorised.version if permit.authorised is not None else permit.version
    early = [
        s for s in permit.sets if s.version <= until and s.event.phase in VERIFYING and s.event.point_m is not None
    ]
    phases = [phase for phase in ("open", "fan-stopped", "ventilating") if any(s.event.phase == phase for s in early)]
    phases = phases or ["open"]
    wanted = _planned(pages)
    depths = sorted({*wanted, *(Decimal(s.event.point_m) for s in early if s.event.point_m is not None)})
    rows = tuple(_point(pages, depth, depths, phases, early) for depth in depths)
    gases = tuple(gas_column(line) for line in permit.form.limits)
    caption = say("page.air_blown_in")
    return c.TestsBefore(
        gases, caption, tuple(say(f"page.phase.{phase}") for phase in phases), rows, tuple(_notes(pages))
    )


def _planned(pages: Pages) -> tuple[Decimal, ...]:
    """The points to be tested; on a draft without today's level those of a dry floor, so that none looks forgotten."""
    permit = pages.permit
    wanted = points(permit)
    if wanted is not None or permit.level is not None or permit.authorised is not None:
        return wanted or ()
    form, shape = permit.form.points, permit.opened.registered
    try:
        return verification_points(
            Decimal(shape.depth_m), None, Decimal(form.top_m), Decimal(form.above_m), Decimal(form.spacing_m)
        )
    except Refusal:
        return ()


def _point(
    pages: Pages, depth: Decimal, depths: list[Decimal], phases: list[str], sets: list[ReadingSet]
) -> c.TestedPoint:
    permit = pages.permit
    by_phase: list[ReadingSet | None] = [
        next((s for s in reversed(sets) if s.event.phase == phase and Decimal(s.event.point_m or "-1") == depth), None)
        for phase in phases
    ]
    columns = [figures_of(permit, one, permit.form.limits) for one in by_phase]
    return c.TestedPoint(
        name=_point_name(depths.index(depth), len(depths)),
        depth_words=say("page.depth_m", depth=str(depth)),
        depth=float(depth),
        times=tuple(pages.clock(one.event.taken) if one is not None else "" for one in by_phase),
        figures=tuple(tuple(column[gas] for column in columns) for gas in range(len(permit.form.limits))),
    )


def _point_name(index: int, count: int) -> str:
    """Top, middle and bottom by name; the points between are told by their depth alone."""
    named = {0, count // 2, count - 1}
    return point_name(index, count).say().split()[0].capitalize() if index in named else ""


def _readers(pages: Pages, sets: Iterable[ReadingSet]) -> str:
    """Who took these sets, each with the initials that stand in the rows."""
    people = dict.fromkeys(s.by for s in sets if s.by is not None)
    return ", ".join(f"{pages.name(p)} ({pages.initials(p)})" for p in people)


def _notes(pages: Pages) -> Iterator[c.Said]:
    permit = pages.permit
    until = permit.authorised.version if permit.authorised is not None else permit.version
    early = [s for s in permit.sets if s.version <= until]
    if testers := _readers(pages, (s for s in early if s.event.phase in VERIFYING)):
        yield c.Said(say("page.tested_by"), testers + ".")
    observed = permit.answers.get("observed")
    if observed is not None and isinstance(observed.event, e.Answered):
        answer = say(f"page.answer.{observed.event.answer}")
        who = observed.event.found.strip().rstrip(".")
        yield c.Said(say("page.watched"), say("page.watched_by", answer=answer, who=who) if who else f"{answer}.")
    if permit.level is None and permit.authorised is None and _planned(pages):
        yield c.Said(say("page.dry_floor"), say("page.dry_floor_words"))
    for one in permit.assigned("test"):
        if permit.authorised is None and not pages.facts.ready(one.instrument).ready:
            yield c.Said(say("page.not_ready", name=one.registered.name), say("page.not_ready_words"))
            continue
        seconds = hold(permit, one)
        if seconds is not None:
            yield c.Said(say("page.wait"), say("page.wait_words", seconds=str(seconds), name=one.registered.name))
    yield from (said for said, _working in deciding(pages, _newest(early)))
    for place in early:
        if place.event.phase in OUTSIDE:
            figures = figures_of(permit, place, permit.form.limits)
            words = ", ".join(
                f"{gas_column(line).short} {figure.text or NOTHING}"
                for line, figure in zip(permit.form.limits, figures, strict=True)
            )
            said = say("page.place_words", time=pages.clock(place.event.taken), figures=words)
            yield c.Said(say(f"page.place.{place.event.phase}"), said)


def _newest(sets: Iterable[ReadingSet]) -> tuple[ReadingSet, ...]:
    """The newest of each point, from the top down."""
    points = {Decimal(one.event.point_m): one for one in sets if one.event.point_m is not None and not one.void}
    return tuple(points[depth] for depth in sorted(points))


def section(pages: Pages) -> c.Section:
    """The space cut open, with today's level and what blows air in."""
    permit = pages.permit
    shape = permit.opened.registered
    level = permit.level.event if permit.level is not None else None
    depth = level.depth_m if isinstance(level, e.LevelStated) else None
    fan = permit.fan.event if permit.fan is not None else None
    retests = permit.opened.evaluated.retest_points_m
    return c.Section(
        unit="m",
        depth=metres(shape.depth_m),
        width=metres(shape.across_m),
        opening=metres(shape.portal.width_m),
        opening_at=metres(shape.across_m) / 2,
        ladder=shape.portal.vertical,
        level=metres(depth) if depth is not None else None,
        level_words=_level_words(level),
        fan_words=say("page.fan_short", flow=fan.flow_m3_h) if isinstance(fan, e.VentilationStarted) else "",
        duct_depth=metres(shape.depth_m) * 0.7 if isinstance(fan, e.VentilationStarted) else None,
        works_at=metres(retests[0]) if retests else None,
        above_ground=shape.shape not in ("vertical-shaft", "vault"),
        retrieval=_retrieval(pages),
    )


def _retrieval(pages: Pages) -> Literal["", "tripod", "davit"]:
    """What stands over the portal: as the supervisor found it, else as the evaluation plans it; unnamed, nothing."""
    made = pages.permit.answers.get("retrieval")
    found = made.event.found if made is not None and isinstance(made.event, e.Answered) else ""
    for words in (found, pages.permit.opened.evaluated.rescue.retrieval):
        if "tripod" in words.lower():
            return "tripod"
        if "davit" in words.lower():
            return "davit"
    return ""


def _level_words(level: object) -> str:
    if not isinstance(level, e.LevelStated):
        return ""
    return say("page.dry") if level.depth_m is None else say("page.level_m", level=level.depth_m)


def instruments(pages: Pages) -> tuple[c.Instrument, ...]:
    """Each instrument of the permit with what its readiness stands on."""
    return tuple(_instrument(pages, one) for one in pages.permit.instruments.values())


def _instrument(pages: Pages, one: Assigned) -> c.Instrument:
    known = pages.facts.instruments.get(one.instrument)
    words = [
        c.Said(
            one.registered.name + ".",
            say("page.serial", serial=one.registered.serial, duty=say(f"page.duty.{one.duty}")),
        )
    ]
    if known is not None:
        if known.last_calibration is not None:
            done = known.last_calibration
            words.append(c.Said("", say("page.calibrated", day=_day(pages, done.at), due=done.event.due.isoformat())))
        if known.check is not None:
            check = known.check.event
            words.append(
                c.Said(
                    "",
                    say(
                        "page.checked",
                        time=pages.clock(known.check.at),
                        place=check.fresh_air.place,
                        why=check.fresh_air.why_clean,
                        battery=check.battery_h,
                    ),
                )
            )
    if (
        one.hose_tested is not None
        and isinstance(one.hose_tested.event, e.HoseTested)
        and one.hose_tested.event.stopped_s
    ):
        words.append(
            c.Said("", say("page.hose_tested", hose=one.hose_m or "0", seconds=one.hose_tested.event.stopped_s))
        )
    bump = known.last_bump if known is not None else None
    title = (
        say("page.bump_title", time=pages.moment(bump.at), by=pages.name(bump.by))
        if bump is not None
        else say("page.no_bump")
    )
    return c.Instrument(
        tuple(words), title, tuple(_bump_row(pages, bump, result) for result in bump.event.results) if bump else ()
    )


def _bump_row(pages: Pages, bump: Done[BumpTested], result: SensorResult) -> c.BumpRow:
    rules = pages.facts.rules
    applied, reading = Decimal(result.applied), Decimal(result.reading)
    low, high = applied * rules.accept_low / 100, applied * rules.accept_high / 100
    within = low <= reading <= high and result.alarm_s is not None
    limit = int(rules.alarm_within.total_seconds())
    response = say("page.response", seconds=result.alarm_s, limit=limit) if result.alarm_s else say("page.no_alarm")
    return c.BumpRow(
        gas_name(result.gas).say(), result.applied, result.reading, f"{low:.4g} to {high:.4g}", response, within
    )


def _day(pages: Pages, at: datetime) -> str:
    local = pages.local(at)
    return f"{local.day} {local.strftime('%b %Y')}"


def retests(pages: Pages) -> c.Retests:
    """Every set after authorization, with when it was due, how late it was and what was corrected."""
    permit = pages.permit
    gases = tuple(gas_column(line) for line in permit.form.limits)
    if permit.authorised is None:
        return c.Retests(gases, (), say("page.retests.not_authorized"))
    after = [s for s in permit.sets if s.version > permit.authorised.version]
    if not after:
        return c.Retests(gases, (), _none_words(pages))
    return c.Retests(
        gases,
        tuple(_retest(pages, one, _apart(pages, one, after)) for one in after),
        note=say("page.retests.note", every=permit.form.retest.every_min)
        + (" " + say("page.retests.read_by", who=readers) if (readers := _readers(pages, after)) else ""),
        stops=tuple(pages.local(stop.at) for stop in permit.stops),
        breaks=tuple(
            c.Span(pages.local(p.begun.at), pages.local(p.ended.at) if p.ended is not None else None)
            for p in permit.pauses
        ),
    )


def _none_words(pages: Pages) -> str:
    """Why there is no set after authorization: it is over and nobody went in, or the first is still to come."""
    if pages.permit.tally.trips:
        return say("page.retests.none")
    if nobody_can_follow(pages):
        return say("page.retests.unused")
    every = pages.permit.form.retest.every_min
    first = retest(pages.facts)
    if first is None:
        return say("page.retests.before", every=every)
    return say("page.retests.to_come", time=pages.clock(first.due), every=every)


def _at_work(pages: Pages, one: ReadingSet) -> bool:
    """Was the set taken where the retests are, so that the trend may join it with the others there?"""
    places = pages.permit.opened.evaluated.retest_points_m
    point = one.event.point_m
    return one.event.phase == "work" and (not places or point is None or Decimal(point) == Decimal(places[0]))


def _apart(pages: Pages, one: ReadingSet, after: list[ReadingSet]) -> bool:
    """No line leads to a set over a break, over a stop, or over more than one and a half intervals."""
    before = [s for s in after if s.version < one.version and _at_work(pages, s)]
    if not before:
        return True
    last = before[-1]
    longest = timedelta(minutes=pages.permit.form.retest.every_min) * 1.5
    cut = any(last.version < version < one.version for version in _interruptions(pages))
    return cut or one.event.taken - last.event.taken > longest


def due_before(pages: Pages, one: ReadingSet) -> datetime | None:
    """When this set was due: the set before it plus the interval; None after a break or a stop, when none was due."""
    permit = pages.permit
    if one.event.phase == "after-break":
        return None
    before = [
        s for s in permit.sets if s.version < one.version and s.event.phase != "upwind" and standing(pages.facts, s)
    ]
    if not before:
        return None
    last = before[-1]
    paused = any(last.version < v < one.version for v in _interruptions(pages))
    return None if paused else last.event.taken + timedelta(minutes=permit.form.retest.every_min)


def _interruptions(pages: Pages) -> tuple[int, ...]:
    permit = pages.permit
    return tuple(p.begun.version for p in permit.pauses) + tuple(s.version for s in permit.stops)


def late_by(pages: Pages, one: ReadingSet) -> timedelta | None:
    """How late a set was, None where it was on time or none was due."""
    due = due_before(pages, one)
    grace = timedelta(minutes=pages.permit.form.retest.grace_min)
    return one.event.taken - due if due is not None and one.event.taken > due + grace else None


def _retest(pages: Pages, one: ReadingSet, apart: bool) -> c.Retest:
    permit = pages.permit
    due, late = due_before(pages, one), late_by(pages, one)
    corrected = "; ".join(
        say(
            "page.corrected_words",
            gas=gas_name(x.event.gas).say(),
            who=pages.name(x.by),
            time=pages.clock(x.at),
            why=x.event.reason,
        )
        for x in one.corrections
    )
    place = say("page.depth_m", depth=one.event.point_m) if one.event.point_m else say(f"page.place.{one.event.phase}")
    note = (
        place
        if one.event.phase == "work"
        else say("page.phase_note", phase=say(f"page.phase.{one.event.phase}"), place=place)
    )
    return c.Retest(
        at=pages.local(one.event.taken),
        due=pages.clock(due) if due is not None else "",
        taken=pages.clock(one.event.taken),
        figures=figures_of(permit, one, permit.form.limits),
        by=pages.initials(one.by),
        late=say_count("page.late_words", one.inside, time=lasting(late)) if late is not None else "",
        corrected=corrected,
        note=note,
        keep=bool(one.corrections) or late is not None,
        at_work=_at_work(pages, one),
        apart=apart,
    )
