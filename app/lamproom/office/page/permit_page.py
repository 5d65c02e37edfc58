"""A permit as its page shows it, at a moment: state and clock brought into the plain values that paper draws."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime

from lamproom.office.page import air as page_air
from lamproom.office.page import course as page_course
from lamproom.office.page import people as page_people
from lamproom.office.page.parts import SHORT, Pages, closed, gas_column, offset_words
from lamproom.paper import content as c
from lamproom.permit import events as e
from lamproom.permit.form import LimitLine
from lamproom.permit.obstacles import Stage, barring
from lamproom.permit.state import Permit
from lamproom.permit.timing import expired
from lamproom.permit.words import limit_words
from lamproom.words import say, say_count


def permit_page(
    pages: Pages, site: str, code: str, printed_at: datetime, copy: int = 1, authority: str = ""
) -> c.PermitPage:
    """The whole page. ``code`` is the fingerprint of the record that it shows (22 signs); ``authority`` that of the
    site's certificate authority."""
    permit = pages.permit
    shape = permit.opened.registered
    evaluated = permit.opened.evaluated
    state, words, time = _state(pages)
    retests = page_air.retests(pages)
    return c.PermitPage(
        number=permit.number,
        version=permit.version,
        site=site,
        form_title=permit.form.title,
        form_rules=say("page.form_rules", version=permit.form.version),
        state=state,
        state_words=words,
        state_time=time,
        space_name=shape.name,
        space_place=shape.place,
        space_lines=(
            c.Said(
                "",
                say(
                    "page.space_words",
                    across=shape.across_m,
                    depth=shape.depth_m,
                    contents=shape.contents,
                ),
            ),
            c.Said(
                "",
                say(
                    "page.evaluated_by",
                    name=evaluated.by_name,
                    what=evaluated.qualified_as,
                    review=evaluated.review_by.isoformat(),
                ),
            ),
        ),
        hours_line=page_course.hours_line(pages),
        zone_words=say("page.zone", zone=permit.opened.zone, offset=offset_words(pages.facts.at, pages.zone)),
        purpose=(c.Said("", permit.purpose),) if permit.purpose else (),
        counts=page_course.counts(pages),
        obstacles=page_course.obstacles(pages),
        life=page_course.life(pages),
        entrants=page_people.entrants(pages),
        attendants=page_people.attendants(pages),
        supervisor=page_people.supervisor(pages),
        hazards=page_course.hazards(pages),
        isolation=page_course.isolation(pages),
        acceptable=page_course.acceptable(pages),
        acceptable_bars=page_course.acceptable_bars(pages),
        tests_before=page_air.tests_before(pages),
        section=page_air.section(pages),
        instruments=page_air.instruments(pages),
        retests=retests,
        tally=page_people.tally(pages),
        rescue=_rescue(pages),
        communication=(
            c.Said(say("page.planned"), closed(evaluated.communication)),
            *page_course.item_said(pages, "communication", evaluated.communication),
        ),
        equipment=_equipment(pages),
        other=(c.Said("", evaluated.remarks or say("page.nothing_more")),),
        additional_permits=page_course.item_said(pages, "other-permits"),
        signatures=page_people.signatures(pages),
        cautions=permit.form.cautions,
        code=code,
        authority=authority,
        printed=pages.moment(printed_at),
        copy=copy,
        language=permit.form.language,
        in_brief=page_course.in_brief(pages),
        ventilation=(),
        stops=page_course.stops(pages),
        breaks=page_course.breaks(pages),
        changed=page_course.changed(pages),
        closing=page_course.closing(pages),
        signatures_note=say("page.signatures_note"),
        printed_at=printed_at,
    )


def _state(pages: Pages) -> tuple[c.PageState, str, str]:
    """The state, its word, and since when it holds: not the time of printing, which stands in the foot."""
    permit = pages.permit
    if permit.ended is not None and isinstance(permit.ended.event, e.Ended):
        if permit.closed_out is not None:
            since = say("page.state_time.since", time=pages.moment(permit.closed_out.at))
            return "closed", say("page.state.closed"), since
        return "ended", say("page.state.canceled"), say("page.state_time.since", time=pages.moment(permit.ended.at))
    if permit.authorised is not None:
        since = say("page.state_time.since", time=pages.moment(permit.authorised.at))
        return "authorized", say("page.state.authorized"), since
    return "draft", say("page.state.draft"), say("page.state_time.draft", time=pages.moment(pages.facts.at))


def _rescue(pages: Pages) -> tuple[c.Said, ...]:
    permit = pages.permit
    plan = permit.opened.evaluated.rescue
    said = [
        c.Said(say("page.rescue_outside"), closed(plan.retrieval)),
        c.Said(
            say("page.rescue_entry"),
            say("page.rescue_service", service=plan.service, means=plan.means, then=plan.then),
        ),
    ]
    if permit.rescue is not None and isinstance(permit.rescue.event, e.RescueConfirmed):
        event = permit.rescue.event
        said.append(
            c.Said(
                say("page.rescue_confirmed"),
                say(
                    "page.rescue_confirmed_words",
                    who=event.answered_by,
                    time=pages.clock(permit.rescue.at),
                    until=pages.clock(event.good_until),
                    minutes=event.response_min,
                ),
            )
        )
    else:
        said.append(c.Said(say("page.rescue_confirmed"), say("page.not_answered")))
    if permit.call_tried is not None and isinstance(permit.call_tried.event, e.RescueCallTried):
        tried = permit.call_tried.event
        said.append(
            c.Said(
                say("page.call_tried"),
                say(
                    "page.call_tried_words",
                    means=tried.means,
                    who=tried.answered_by,
                    seconds=tried.seconds,
                    time=pages.clock(permit.call_tried.at),
                    by=pages.name(permit.call_tried.by),
                ),
            )
        )
    said.extend(page_course.item_said(pages, "retrieval", plan.retrieval))
    return tuple(said)


def _equipment(pages: Pages) -> tuple[c.Provided, ...]:
    permit = pages.permit
    rows = [c.Provided(say("page.equipment.planned"), permit.opened.evaluated.equipment)]
    made = permit.answers.get("equipment")
    if made is not None and isinstance(made.event, e.Answered):
        answer, found = say(f"page.answer.{made.event.answer}"), made.event.found
        same = page_course.same_words(found, permit.opened.evaluated.equipment)
        told = say("page.as_planned", answer=answer) if same else f"{answer}: {found}" if found else answer
        rows.append(c.Provided(say("page.equipment.here"), told))
    testing = ", ".join(f"{a.registered.name} ({say(f'page.duty.{a.duty}')})" for a in permit.instruments.values())
    if testing:
        rows.append(c.Provided(say("page.equipment.testing"), testing))
    return tuple(rows)


def posted_page(pages: Pages, site: str, code: str, printed_at: datetime, copy: int = 1) -> c.PostedPage:
    """What hangs at the portal."""
    permit = pages.permit
    state, words, _time = _state(pages)
    plan = permit.opened.evaluated.rescue
    authorised = permit.authorised.event if permit.authorised else None
    if isinstance(authorised, e.Authorised):
        local = pages.local(authorised.begins)
        valid = say(
            "page.valid",
            day=f"{local.day} {local.strftime('%b %Y')}",
            begins=pages.clock(authorised.begins),
            ends=pages.clock(authorised.ends),
        )
    else:
        valid = say("page.no_hours_granted")
    attendant = permit.attendant or (permit.attendants[0] if permit.attendants else None)
    page = c.PostedPage(
        number=permit.number,
        version=permit.version,
        site=site,
        state=state,
        state_words=words,
        space_name=permit.opened.registered.name,
        valid=valid,
        offset=offset_words(pages.facts.at, pages.zone),
        hazards=tuple(name for _id, name, _shows, _gas in permit.hazards()),
        limits=tuple(
            c.Limit(SHORT.get(line.gas, gas_column(line).name), _glance_limit(line)) for line in permit.form.limits
        ),
        test_every=say("page.test_every", every=permit.form.retest.every_min),
        entrants=tuple(pages.name(p) for p in permit.entrants),
        entrants_note=say("page.these_only"),
        attendant=pages.name(attendant) if attendant else say("page.nobody"),
        attendant_note=say("page.stays"),
        rescue=(_from_outside(plan.retrieval), say("page.posted_rescue", means=plan.means, then=plan.then)),
        rescue_note=_rescue_note(permit),
        everyone_out=(
            c.Said(say("page.out_lead"), say("page.out_text", signs=_out_signs(permit))),
            c.Said(
                say("page.supervisor_lead"),
                pages.name(permit.supervisor) if permit.supervisor else say("page.nobody"),
            ),
        ),
        code=code,
        printed=pages.moment(printed_at),
        copy=copy,
        language=permit.form.language,
        carry_on_gases=tuple(gas_column(line) for line in permit.form.limits),
        carry_on_unit="m",
        printed_at=printed_at,
        space_place=permit.opened.registered.place,
    )
    if permit.ended is not None:
        return _void(pages, page)
    if permit.authorised is None:
        return _not_yet(pages, page)
    return _void(pages, page) if expired(pages.facts) else page


def _rescue_note(permit: Permit) -> str:
    """How far away the rescue is: as it was confirmed, and never so that a plan reads like a confirmation."""
    service = permit.opened.evaluated.rescue.service
    if permit.rescue is None or not isinstance(permit.rescue.event, e.RescueConfirmed):
        return say("page.rescue_unconfirmed", service=service)
    return say("page.rescue_note", minutes=permit.rescue.event.response_min, service=service)


def _void(pages: Pages, page: c.PostedPage) -> c.PostedPage:
    """The page of a permit that ended or whose hours are over: since when, and nothing that a live one says; but who is
    still inside stands on it, with the attendant and the way to fetch them."""
    permit = pages.permit
    inside = tuple(pages.name(trip.who) for trip in permit.tally.inside)
    why = "canceled" if permit.ended is not None else "expired"
    since = permit.ended.at if permit.ended is not None else permit.until or pages.facts.at
    page = replace(
        page,
        state="ended" if page.state == "authorized" else page.state,
        state_words=page.state_words if permit.ended is not None else say("page.state.expired"),
        bar=say(f"page.bar.{why}", time=pages.clock(since)),
        bar_note=say("page.bar.inside", names=", ".join(inside)) if inside else say(f"page.bar.{why}_note"),
        valid="",
        limits=(),
        test_every="",
        entrants=(),
        everyone_out=page.everyone_out[1:],
    )
    if inside:
        return replace(page, attendant_note=say("page.stays_until_out"))
    return replace(page, attendant="", rescue=())


def _not_yet(pages: Pages, page: c.PostedPage) -> c.PostedPage:
    """The page of a draft: what bars it, and nobody on it that looks named for good."""
    count = len(barring(pages.facts, Stage.AUTHORISE))
    return replace(
        page,
        bar=say_count("page.bar.draft", count) if count else say("page.bar.draft_only"),
        bar_note=say("page.bar.draft_note"),
        valid="",
        entrants_title=say("page.named_only"),
        entrants_note=say("page.not_authorized"),
        attendant_note=say("page.named_attendant") if pages.permit.attendants else "",
    )


_NOBODY_IN = re.compile(r"[\s;,.]*nobody goes in\.?$", re.IGNORECASE)


def _from_outside(retrieval: str) -> str:
    """Nobody goes in, then how people are fetched; a plan that says so itself does not say it twice."""
    how = _NOBODY_IN.sub("", retrieval).strip().rstrip(".")
    return say("page.posted_retrieval", how=how[:1].upper() + how[1:]) if how else say("page.posted_nobody_in")


def _out_signs(permit: Permit) -> str:
    """What sends everyone out of this space: its fan, where one blows, and those of its hazards that no air carries."""
    fan = (say("page.out_fan"),) if permit.opened.evaluated.ventilation_needed or permit.fan is not None else ()
    bodily = tuple(name[:1].lower() + name[1:] for _id, name, _shows, gas in permit.hazards() if gas is None)
    return "".join(f"{sign}, " for sign in (*fan, *bodily))


def _glance_limit(line: LimitLine) -> str:
    """A limit as it is read at one meter: '19.5 to 23.5 %', 'under 10 ppm'."""
    words = limit_words(line).say().replace("below", say("page.under"))
    return words.replace("% vol", "%").replace("% LEL", "%")
