"""A permit as its page shows it, at a moment: state and clock brought into the plain values that paper draws."""

from __future__ import annotations

from datetime import datetime

from lamproom.office.page import air as page_air
from lamproom.office.page import amended as page_amended
from lamproom.office.page import cautions as page_cautions
from lamproom.office.page import certificate as page_certificate
from lamproom.office.page import course as page_course
from lamproom.office.page import people as page_people
from lamproom.office.page.parts import Pages, closed, offset_words
from lamproom.paper import content as c
from lamproom.permit import events as e
from lamproom.words import say


def permit_page(
    pages: Pages, site: str, code: str, printed_at: datetime, copy: int = 1, authority: str = ""
) -> c.PermitPage:
    """The whole page. ``code`` is the fingerprint of the record that it shows (22 signs); ``authority`` that of the
    site's certificate authority."""
    permit = pages.permit
    shape = permit.opened.registered
    evaluated = permit.opened.evaluated
    state, words, time = state_of_page(pages)
    retests = page_air.retests(pages)
    signatures = page_people.signatures(pages)
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
        signatures=signatures,
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
        changed=page_amended.changed(pages),
        closing=page_course.closing(pages),
        signatures_note=say("page.signatures_note"),
        printed_at=printed_at,
        certificate=page_certificate.certificate(pages, signatures),
        told=page_cautions.told(pages),
    )


def state_of_page(pages: Pages) -> tuple[c.PageState, str, str]:
    """The state, its word, and since when it holds: not the time of printing, which stands in the foot."""
    permit = pages.permit
    if permit.ended is not None and isinstance(permit.ended.event, e.Ended):
        if permit.closed_out is not None:
            since = say("page.state_time.since", time=pages.moment(permit.closed_out.at))
            return "closed", say("page.state.closed"), since
        since = say("page.state_time.since", time=pages.moment(permit.ended.at))
        return "ended", say(f"page.state.ended.{pages.paper}"), since
    if permit.authorised is not None:
        since = say("page.state_time.since", time=pages.moment(permit.authorised.at))
        return "authorized", say(f"page.state.authorized.{pages.paper}"), since
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
