"""What happened on the page: hazards, isolation, controls, life, stops, breaks, changes, closing, in brief."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from lamproom.office.page.air import late_by
from lamproom.office.page.parts import Pages, closed, gas_column, grouped, lasting, nobody_can_follow
from lamproom.paper import content as c
from lamproom.permit import events as e
from lamproom.permit.asked import asked
from lamproom.permit.obstacles import STAGES, Stage, barring
from lamproom.permit.obstacles.atmosphere import sees
from lamproom.permit.state import OUTSIDE, Made, Permit, outside
from lamproom.permit.timing import retest
from lamproom.permit.words import figure_words, limit_words, place_words, stop_words
from lamproom.words import say, say_count


def hazards(pages: Pages) -> tuple[c.Hazard, ...]:
    """Item 7, with what holds each today and whether an instrument sees it."""
    rows = []
    planned = {known.id: known.control for known in pages.permit.opened.evaluated.hazards}
    for id, name, shows, gas in pages.permit.hazards():
        held = pages.permit.held.get(id)
        how = ""
        if held is not None and isinstance(held.event, e.HazardHeld):
            how = _held_words(pages, held.event)
        unseen = gas is not None and not sees(pages.facts, gas)
        rows.append(c.Hazard(name, shows, how, unseen, planned.get(id, "")))
    return tuple(rows)


def _held_words(pages: Pages, held: e.HazardHeld) -> str:
    """How a hazard is held; where it must be gone, whether it is."""
    if not held.held:
        return say("page.not_today", why=held.how)
    if pages.permit.route != "reclassified":
        return held.how
    return say("page.eliminated" if held.eliminated else "page.not_eliminated", how=held.how)


def isolation(pages: Pages) -> tuple[c.Check, ...]:
    """Item 8 in the order of the walk-round: points, level, opening, then the form's items."""
    return tuple(_checks(pages))


def _checks(pages: Pages) -> Iterator[c.Check]:
    permit = pages.permit
    for point in permit.opened.evaluated.isolation:
        made = permit.isolated.get(point.id)
        lead = c.Said(point.name, f"{point.how} ({point.holds})")
        if made is None or not isinstance(made.event, e.PointIsolated):
            yield c.Check(lead, "", "", "", "not answered")
            continue
        dead = say("page.tried_dead") if made.event.tried_dead else say("page.not_tried")
        found = say("page.lock", lock=made.event.lock, owner=pages.name(made.event.owner), dead=dead)
        by = ", ".join(pages.initials(p) for p in (made.by, made.event.verified_by) if p)
        yield c.Check(lead, found, by, pages.clock(made.at))
    if permit.opened.evaluated.unisolable is not None:
        worn = ", ".join(a.registered.name for a in permit.assigned("worn")) or ""
        found = say("page.worn", names=worn) if worn else ""
        lead = c.Said(say("page.unisolable"), permit.opened.evaluated.unisolable)
        first = next(iter(permit.assigned("worn")), None)
        if first is None:
            yield c.Check(lead, "", "", "", "not answered")
        else:
            yield c.Check(lead, found, pages.initials(permit.supervisor), pages.clock(first.at))
    if permit.level is not None or permit.route != "reclassified":
        yield _made_check(
            pages,
            say("page.level"),
            permit.level,
            lambda x: (
                say("page.level_found", level=x.depth_m, how=x.how) if x.depth_m else say("page.level_dry", how=x.how)
            ),
        )
    yield _made_check(pages, say("page.opening"), permit.open_since, lambda x: x.guarded)
    if permit.opened.evaluated.ventilation_needed or permit.fan is not None:
        yield _made_check(
            pages,
            say("page.fan"),
            permit.fan,
            lambda x: say("page.fan_found", flow=x.flow_m3_h, intake=x.intake, noticed=x.stop_noticed_by),
        )
    for item in permit.form.items:
        if item.sheet in ("space", "isolation") and item.page_item in (None, 8) and asked(pages.facts, item):
            yield _item_check(pages, item.id, item.question, item.critical)
    for item_id, reason in permit.opened.evaluated.standing.items():
        known = permit.form.item(item_id)
        if known is not None:
            yield c.Check(c.Said("", known.question), say("page.standing", reason=reason), "", "", "does not apply")


def _made_check(pages: Pages, lead: str, made: Made | None, found: object) -> c.Check:
    if made is None:
        return c.Check(c.Said(lead), "", "", "", "not answered")
    words = found(made.event) if callable(found) else ""
    return c.Check(c.Said(lead), words, pages.initials(made.by), pages.clock(made.at))


def _item_check(pages: Pages, item: str, question: str, critical: bool) -> c.Check:
    made = pages.permit.answers.get(item)
    measure = c.Said(question, "") if critical else c.Said("", question)
    if made is None or not isinstance(made.event, e.Answered):
        return c.Check(measure, "", "", "", "not answered")
    answer = made.event
    if answer.answer == "does not apply":
        return c.Check(measure, answer.found, pages.initials(made.by), pages.clock(made.at), "does not apply")
    said = say(f"page.answer.{answer.answer}")
    found = f"{said}: {answer.found}" if answer.found else said
    return c.Check(measure, found, pages.initials(made.by), pages.clock(made.at))


def item_said(pages: Pages, item: str, planned: str = "") -> tuple[c.Said, ...]:
    """One item of the form as a paragraph, after its question, so that it reads in ten years; empty when nobody
    answered it and no standing answer covers it. An answer that repeats what was ``planned`` says just that."""
    permit = pages.permit
    line = permit.form.item(item)
    question = line.question if line is not None else ""
    standing = permit.opened.evaluated.standing.get(item)
    if standing is not None:
        return (c.Said(question), c.Said(say("page.does_not_apply"), closed(standing)))
    made = permit.answers.get(item)
    if made is None or not isinstance(made.event, e.Answered):
        return ()
    found = made.event.found.strip()
    answer = say(f"page.answer.{made.event.answer}")
    if same_words(found, planned):
        told = say("page.as_planned", answer=answer)
    else:
        told = f"{answer}: {closed(found)}" if found else f"{answer}."
    return (
        c.Said(question, told),
        c.Said("", say("page.said_by", name=pages.name(made.by), time=pages.clock(made.at))),
    )


def same_words(found: str, planned: str) -> bool:
    """Does an answer only repeat the plan?"""
    return bool(found) and found.strip().rstrip(".").casefold() == planned.strip().rstrip(".").casefold()


def acceptable(pages: Pages) -> tuple[c.Acceptable, ...]:
    """Item 9: every limit with its basis, and how often the air is tested."""
    form = pages.permit.form
    rows = [c.Acceptable(gas_column(line).name, limit_words(line).say(), line.basis) for line in form.limits]
    retest = form.retest
    rows.append(
        c.Acceptable(
            say("page.retest"),
            say("page.every", every=retest.every_min),
            say("page.late_after", grace=retest.grace_min),
        )
    )
    return tuple(rows)


def acceptable_bars(pages: Pages) -> tuple[c.Said, ...]:
    """What bars entry beside the limits: no figure of it is acceptable, so it stands in no row of limits."""
    unaccounted = pages.permit.form.unaccounted
    words = say("page.unseen_bars_words", ppm=grouped(unaccounted.ppm), basis=unaccounted.reason)
    return (c.Said(say("page.unseen_bars"), words),)


def _time_with_anyone_inside(pages: Pages) -> timedelta:
    """How long at least one person was inside: the union of the stays, not their sum."""
    stays = sorted((trip.came_in, trip.went_out or pages.facts.at) for trip in pages.permit.tally.trips)
    total, reached = timedelta(0), None
    for begins, ends in stays:
        begins = begins if reached is None else max(begins, reached)
        if ends > begins:
            total += ends - begins
        reached = ends if reached is None else max(reached, ends)
    return total


def life(pages: Pages) -> c.Life:
    """Item 3 as a line and in words."""
    permit = pages.permit
    tests = tuple(
        pages.local(s.event.taken)
        for s in permit.sets
        if permit.authorised is None or s.version < permit.authorised.version
    )
    inside = tuple(
        c.Span(pages.local(trip.came_in), pages.local(trip.went_out) if trip.went_out else None)
        for trip in permit.tally.trips
    )
    return c.Life(
        words=life_words(pages),
        tests=tests,
        authorised_at=pages.local(permit.authorised.at) if permit.authorised else None,
        until=pages.local(permit.until) if permit.until else None,
        inside=inside,
        inside_words=lasting(_time_with_anyone_inside(pages)) if inside else "",
        ended_at=pages.local(permit.ended.at) if permit.ended else None,
    )


def hours_line(pages: Pages) -> str:
    """The hours as the page's head shows them: cut short where the permit was canceled."""
    ended = pages.permit.ended
    hours = hours_words(pages)
    if not ended:
        return hours
    return say(f"page.hours_over.{pages.paper}", hours=hours.rstrip("."), time=pages.clock(ended.at))


def hours_words(pages: Pages) -> str:
    """The hours granted (or planned) in one short line."""
    authorised = pages.permit.authorised.event if pages.permit.authorised else None
    if isinstance(authorised, e.Authorised):
        local = pages.local(authorised.begins)
        day = f"{local.day} {local.strftime('%b %Y')}"
        return say(
            "page.valid", day=day, begins=pages.clock(authorised.begins), ends=pages.clock(_ends(pages, authorised))
        )
    hours = pages.permit.hours
    if hours is None:
        return say("page.no_hours")
    return say("page.hours_planned", begins=pages.clock(hours.begins), ends=pages.clock(hours.ends))


def _ends(pages: Pages, authorised: e.Authorised) -> datetime:
    """Until when the hours run: as extended, else as authorized."""
    return pages.permit.until or authorised.ends


def life_words(pages: Pages) -> str:
    """The hours with their length."""
    authorised = pages.permit.authorised.event if pages.permit.authorised else None
    if not isinstance(authorised, e.Authorised):
        return hours_words(pages)
    return say(
        "page.hours_granted", hours=hours_words(pages), time=lasting(_ends(pages, authorised) - authorised.begins)
    )


def stops(pages: Pages) -> tuple[c.StopRow, ...]:
    """Every stop with how everyone came out and what was found."""
    rows = []
    for stop in pages.permit.stops:
        outs = [
            t.went_out
            for t in pages.permit.tally.trips
            if t.went_out is not None and t.went_out >= stop.at and t.came_in <= stop.at
        ]
        out = (
            say("page.all_out", time=pages.clock(max(outs)), took=lasting(max(outs) - stop.at))
            if outs
            else say("page.nobody_inside")
        )
        if pages.permit.tally.inside and stop.determined is None:
            out = say_count("page.still_inside", len(pages.permit.tally.inside))
        found = ""
        if stop.determined is not None and isinstance(stop.determined.event, e.StopDetermined):
            event = stop.determined.event
            found = say(
                f"page.finding.{event.finding}",
                reason=event.reason,
                name=pages.name(stop.determined.by),
                time=pages.clock(stop.determined.at),
            )
        what = say("page.stop_by", cause=stop_words(pages.permit, stop).say(), name=pages.name(stop.by))
        rows.append(c.StopRow(pages.clock(stop.at), what, out, found))
    return tuple(rows)


def breaks(pages: Pages) -> tuple[c.BreakRow, ...]:
    """Every break and the return from it."""
    rows = []
    for pause in pages.permit.pauses:
        begun, ended = pause.begun.event, pause.ended.event if pause.ended else None
        left = _left_words(begun) if isinstance(begun, e.BreakBegun) else ""
        back = say("page.break_back", found=ended.isolation_found) if isinstance(ended, e.BreakEnded) else ""
        rows.append(
            c.BreakRow(pages.clock(pause.begun.at), pages.clock(pause.ended.at) if pause.ended else "", left, back)
        )
    return tuple(rows)


def _left_words(begun: e.BreakBegun) -> str:
    """How the opening was left: each of the two as a sentence of its own."""
    guarded, left = (typed.strip().rstrip(".") for typed in (begun.guarded, begun.left))
    return say("page.break_left", guarded=guarded[:1].upper() + guarded[1:], left=left[:1].upper() + left[1:])


def closing(pages: Pages) -> c.Closing | None:
    """How it ended, what was closed, what problems were met, how long it is kept."""
    permit = pages.permit
    if permit.ended is None or not isinstance(permit.ended.event, e.Ended):
        return None
    cause = say(f"page.cause.{permit.ended.event.cause}")
    reason = permit.ended.event.reason
    why = say("page.ended_why", reason=reason) if reason else ""
    ended_by = say(f"page.ended_by.{pages.paper}", name=pages.name(permit.ended.by), why=why)
    done = [c.Dated(pages.clock(permit.ended.at), ended_by)]
    if permit.closed_out is not None and isinstance(permit.closed_out.event, e.ClosedOut):
        out = permit.closed_out.event
        at = pages.clock(permit.closed_out.at)
        done += [
            c.Dated(at, say("page.closed_tools", text=out.tools)),
            c.Dated(at, say("page.closed_cover", text=out.cover)),
            c.Dated(at, say("page.closed_locks", text=out.locks)),
        ]
    problems = [c.Dated(row.at, row.what) for row in stops(pages)]
    for one in permit.sets:
        late = late_by(pages, one) if permit.authorised and one.version > permit.authorised.version else None
        if late is not None:
            problems.append(c.Dated(pages.clock(one.event.taken), say("page.problem_late", time=lasting(late))))
    problems += [
        c.Dated(pages.clock(made.at), made.event.text) for made in permit.notes if isinstance(made.event, e.Noted)
    ]
    keep = permit.ended.at + timedelta(days=permit.form.keep_days)
    return c.Closing(
        cause,
        tuple(done),
        tuple(problems),
        (c.Said(say("page.keep"), say(f"page.keep_until.{pages.paper}", day=pages.local(keep).date().isoformat())),),
    )


def _outside_when(permit: Permit) -> c.OutsideWhen:
    """Were the sets outside a limit all taken before anyone went in, or at least with nobody inside?"""
    bad = [s for s in permit.sets if s.event.phase not in OUTSIDE and outside(permit.form, s.figures)]
    if not bad or any(s.inside for s in bad):
        return "outside"
    first_in = min((trip.came_in for trip in permit.tally.trips), default=None)
    before = first_in is None or all(s.event.taken < first_in for s in bad)
    return "outside_before" if before else "outside_empty"


def counts(pages: Pages) -> c.Counts:
    """The six counted facts."""
    permit = pages.permit
    after = [s for s in permit.sets if permit.authorised is not None and s.version > permit.authorised.version]
    not_applying = sum(
        isinstance(m.event, e.Answered) and m.event.answer == "does not apply" for m in permit.answers.values()
    )
    return c.Counts(
        retests=len(after),
        late=sum(late_by(pages, s) is not None for s in after),
        corrected=sum(len(s.corrections) for s in permit.sets),
        outside=sum(bool(outside(permit.form, s.figures)) for s in permit.sets if s.event.phase not in OUTSIDE),
        evacuations=len(permit.stops),
        outside_when=_outside_when(permit),
        does_not_apply=not_applying + len(permit.opened.evaluated.standing),
    )


def in_brief(pages: Pages) -> tuple[str, ...]:
    """Three sentences for a reader with ten seconds."""
    permit = pages.permit
    told = counts(pages)
    went = len({trip.who for trip in permit.tally.trips})
    if not went and not nobody_can_follow(pages) and permit.authorised is not None:
        first = say("page.brief.nobody_yet")
    elif not went:
        first = say("page.brief.nobody")
    elif permit.tally.inside:
        first = say_count("page.brief.inside", len(permit.tally.inside))
    else:
        last = max(trip.went_out for trip in permit.tally.trips if trip.went_out is not None)
        begin = min(trip.came_in for trip in permit.tally.trips)
        first = say_count("page.brief.went", went, begins=pages.clock(begin), ends=pages.clock(last))
    second = _about_the_air(pages)
    notable = [
        say_count(f"page.brief.{what}", n)
        for what, n in (("late", told.late), ("corrected", told.corrected), ("stops", told.evacuations))
        if n
    ]
    third = say("page.brief.know", things=", ".join(notable)) if notable else say("page.brief.nothing")
    if not went and not notable:
        third = ""
    return tuple(words for words in (first, second, third) if words)


def _about_the_air(pages: Pages) -> str:
    """What the readings say of those inside; before anyone went in, when the first is due; never of no readings."""
    permit = pages.permit
    if permit.route == "reclassified" and not permit.sets:
        return ""  # nobody owes a reading there
    if not permit.tally.trips:
        if permit.authorised is None or nobody_can_follow(pages):
            return ""
        first, every = retest(pages.facts), permit.form.retest.every_min
        if any(s.version > permit.authorised.version for s in permit.sets):
            return ""
        if first is None:
            return say("page.brief.before", every=every)
        return say("page.brief.to_come", time=pages.clock(first.due), every=every)
    taken = [s for s in permit.sets if s.inside]
    if not taken:
        return say("page.brief.none_inside")
    bad = [s for s in taken if outside(permit.form, s.figures)]
    return say_count("page.brief.outside", len(bad)) if bad else say(f"page.brief.within.{pages.paper}")


def obstacles(pages: Pages) -> c.Obstacles:
    """Obstacles at authorization, or now on a draft; and what had to be cleared before."""
    permit = pages.permit
    rules = sum(Stage.AUTHORISE in stages for stages in STAGES.values())
    if permit.authorised is not None:
        examined = say(
            "page.examined",
            rules=rules,
            version=_examined_version(permit.authorised),
            signed=permit.authorised.version,
            time=pages.moment(permit.authorised.at),
        )
        return c.Obstacles(examined, (), tuple(_cleared(pages)))
    standing = barring(pages.facts, Stage.AUTHORISE)
    rows = tuple(c.ObstacleRow(o.sentence.say(), o.rule, o.clears.say()) for o in standing)
    examined = say("page.examined_draft", rules=rules, version=permit.version, time=pages.moment(pages.facts.at))
    return c.Obstacles(examined, rows, tuple(_cleared(pages)))


def _examined_version(made: Made) -> int:
    """The version that the supervisor's act names as the one that was examined."""
    return made.event.on_version if isinstance(made.event, e.Authorised) else made.version - 1


def _cleared(pages: Pages) -> Iterator[c.ObstacleRow]:
    """Figures outside their limit before authorization, each with the later set that cleared it."""
    permit = pages.permit
    until = permit.authorised.version if permit.authorised else permit.version
    for one in permit.sets:
        if one.version > until or one.event.phase in OUTSIDE:
            continue
        later = next(
            (
                s
                for s in reversed(permit.sets)
                if one.version < s.version <= until and s.event.point_m == one.event.point_m
            ),
            None,
        )
        for figure in outside(permit.form, one.figures):
            line = permit.form.limit(figure.gas)
            if (
                later is None
                or line is None
                or (now := later.figure(figure.gas)) is None
                or now in outside(permit.form, later.figures)
            ):
                continue
            place = place_words(one.event.phase, one.event.point_m).say()
            what = say(
                "page.was_outside",
                gas=gas_column(line).name,
                figure=figure_words(figure).say(),
                place=place,
                limit=limit_words(line).say(),
            )
            how = say(
                "page.cleared_by",
                phase=say(f"page.phase_words.{later.event.phase}"),
                time=pages.clock(later.event.taken),
                figure=figure_words(now).say(),
            )
            yield c.ObstacleRow(what, "29 CFR 1910.146(d)(5)(i)", how)
