"""The posted page as plain values: what hangs at the portal, and what it says once it no longer lets anyone in."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime

from lamproom.office.page import amended as page_amended
from lamproom.office.page import cautions as page_cautions
from lamproom.office.page import certificate as page_certificate
from lamproom.office.page import people as page_people
from lamproom.office.page.parts import SHORT, Pages, gas_column, offset_words
from lamproom.office.page.permit_page import state_of_page
from lamproom.paper import content as c
from lamproom.permit import events as e
from lamproom.permit.form import LimitLine
from lamproom.permit.obstacles import STAGES, Stage, barring
from lamproom.permit.state import Permit
from lamproom.permit.timing import expired
from lamproom.permit.words import limit_words
from lamproom.words import say, say_count


def posted_page(
    pages: Pages, site: str, code: str, printed_at: datetime, copy: int = 1, changes: int = 3
) -> c.PostedPage:
    """What hangs at the portal, with so many of the newest changes."""
    permit = pages.permit
    state, words, _time = state_of_page(pages)
    plan = permit.opened.evaluated.rescue
    authorised = permit.authorised.event if permit.authorised else None
    if isinstance(authorised, e.Authorised):
        local = pages.local(authorised.begins)
        valid = say(
            "page.valid",
            day=f"{local.day} {local.strftime('%b %Y')}",
            begins=pages.clock(authorised.begins),
            ends=pages.clock(permit.until or authorised.ends),
        )
    else:
        valid = say("page.no_hours_granted")
    attendant = permit.attendant or (permit.attendants[0] if permit.attendants else None)
    certificate = page_certificate.certificate(pages, page_people.signatures(pages))
    nobody = say("page.nobody") if certificate is None else ""
    read = permit.route != "reclassified"
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
            c.Limit(SHORT.get(line.gas, gas_column(line).name), _glance_limit(line))
            for line in permit.form.limits
            if read
        ),
        test_every=say("page.test_every", every=permit.form.retest.every_min) if read else "",
        entrants=tuple(pages.name(p) for p in permit.entrants),
        entrants_note=say("page.these_only"),
        attendant=pages.name(attendant) if attendant else nobody,
        attendant_note=say("page.stays"),
        rescue=(_from_outside(plan.retrieval), say("page.posted_rescue", means=plan.means, then=plan.then)),
        rescue_note=_rescue_note(pages),
        everyone_out=(
            c.Said(say("page.out_lead"), say("page.out_text", signs=_out_signs(permit))),
            c.Said(
                say(f"page.supervisor_lead.{pages.paper}"),
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
        certificate=_certificate(certificate),
        certified=certificate.signature if certificate is not None else None,
        hazards_title="" if read else say("page.hazards_eliminated"),
        told=page_cautions.at_the_portal(pages),
        changed=page_amended.issued_again(pages, changes),
    )
    if permit.ended is not None:
        return _void(pages, page)
    if permit.authorised is None:
        return _not_yet(pages, page)
    if expired(pages.facts):
        return _void(pages, page)
    return _held_back(pages, page)


def _certificate(certificate: c.Certificate | None) -> tuple[c.Said, ...]:
    """The certificate's short form: what it is, by which paragraph, and the words that its signature stands under."""
    if certificate is None:
        return ()
    named = c.Said(f"{certificate.title}.", f"{certificate.rule}.")
    return (named, c.Said("", certificate.statement), c.Said(say("page.ends_lead"), certificate.ends))


def _held_back(pages: Pages, page: c.PostedPage) -> c.PostedPage:
    """The page of a permit that holds, and on which nobody may go in now: a stop, a break, an endorsement or a test
    that is still to come. It is issued again once that is over, and never read as if it were."""
    permit = pages.permit
    inside = ", ".join(pages.name(trip.who) for trip in permit.tally.inside)
    why, since, note = _what_holds_back(pages)
    if since is None:
        return page
    told = say("page.bar.inside", names=inside) if why == "stopped" and inside else say(f"page.bar.{note}_note")
    return replace(page, bar=say(f"page.bar.{why}", time=pages.clock(since)), bar_note=told, valid="")


def _what_holds_back(pages: Pages) -> tuple[str, datetime | None, str]:
    """What bars the next person in until something is done, since when, and which words say what."""
    permit = pages.permit
    if permit.stop is not None:
        return "stopped", permit.stop.at, "stopped"
    if permit.pause is not None:
        return "on_break", permit.pause.begun.at, "endorse"
    if permit.awaits is not None:
        return "awaits", permit.stops[-1].at if permit.awaits == "stop" else permit.pauses[-1].begun.at, "endorse"
    tested = Stage.ENTER not in STAGES["point-not-tested"] or not any(
        one.code == "point-not-tested" for one in barring(pages.facts, Stage.ENTER)
    )
    return ("", None, "") if tested else ("untested", permit.counts_since or pages.facts.at, "untested")


def _rescue_note(pages: Pages) -> str:
    """How far away the rescue is: as it was confirmed, and never so that a plan reads like a confirmation. Where no
    rescue is asked for, only whom to call."""
    permit = pages.permit
    if pages.certificate is not None:
        return permit.opened.evaluated.rescue.service
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
        bar=say(f"page.bar.{why}.{pages.paper}", time=pages.clock(since)),
        bar_note=say("page.bar.inside", names=", ".join(inside)) if inside else say(f"page.bar.{why}_note"),
        valid="",
        limits=(),
        test_every="",
        entrants=(),
        everyone_out=page.everyone_out[1:],
        certificate=page.certificate[:1],
        told=(),
        changed=(),
    )
    if inside:
        return replace(page, attendant_note=say("page.stays_until_out"))
    return replace(page, attendant="", rescue=())


def _not_yet(pages: Pages, page: c.PostedPage) -> c.PostedPage:
    """The page of a draft: what bars it, and nobody on it that looks named for good."""
    count = len(barring(pages.facts, Stage.AUTHORISE))
    return replace(
        page,
        bar=say_count("page.bar.draft", count) if count else say(f"page.bar.draft_only.{pages.paper}"),
        bar_note=say(f"page.bar.draft_note.{pages.paper}"),
        certificate=page.certificate[:1],
        told=(),
        valid="",
        entrants_title=say("page.named_only"),
        entrants_note=say(f"page.not_authorized.{pages.paper}"),
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
