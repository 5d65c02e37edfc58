"""Hours, ends, stops and breaks: what the life of the permit itself bars."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.space import permit_required
from lamproom.permit.timing import expired
from lamproom.permit.words import clock, stop_words
from lamproom.words import sentence


def found(facts: Facts) -> Iterator[Found]:
    yield from _described(facts)
    yield from _site(facts)
    yield from _life(facts)


def _described(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    if not (permit.purpose or "").strip():
        yield Found(
            "purpose-missing",
            sentence("permit.purpose_missing"),
            "29 CFR 1910.146(f)(2)",
            sentence("permit.clears.purpose"),
            "space/purpose",
        )
    if permit.hours is None:
        yield Found(
            "hours-missing",
            sentence("permit.hours_missing"),
            "29 CFR 1910.146(f)(3)",
            sentence("permit.clears.hours"),
            "space/hours",
        )
        return
    longest = timedelta(hours=permit.form.hours.longest_h)
    if permit.hours.ends - permit.hours.begins > longest or permit.hours.ends <= permit.hours.begins:
        yield Found(
            "hours-too-long",
            sentence("permit.hours_too_long", hours=permit.form.hours.longest_h),
            "29 CFR 1910.146(e)(4)",
            sentence("permit.clears.hours"),
            "space/hours",
        )
    if permit.authorised is None and facts.at >= permit.hours.ends:
        yield Found(
            "hours-over",
            sentence("permit.hours_over", ends=clock(permit.hours.ends, permit.zone)),
            "29 CFR 1910.146(f)(3)",
            sentence("permit.clears.hours"),
            "space/hours",
        )


def _site(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    if not facts.clock_confirmed:
        yield Found(
            "clock-unconfirmed",
            sentence("permit.clock_unconfirmed"),
            "site rule",
            sentence("permit.clears.clock"),
            "site/time",
        )
    if not facts.figures_confirmed:
        yield Found(
            "figures-unconfirmed",
            sentence("permit.figures_unconfirmed", title=permit.form.title),
            "site rule",
            sentence("permit.clears.figures"),
            "site/figures",
        )
    if not permit_required(permit.opened.registered):
        yield Found(
            "not-permit-required",
            sentence("permit.not_permit_required"),
            "29 CFR 1910.146(b)",
            sentence("permit.clears.classify"),
            "registers/space/register",
        )
    review = permit.opened.evaluated.review_by
    if facts.at.astimezone(permit.zone).date() > review:
        yield Found(
            "review-overdue",
            sentence("permit.review_overdue", day=review.isoformat()),
            "site rule",
            sentence("permit.clears.review"),
            "registers/space/evaluate/review",
        )


def _life(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    if permit.ended is not None:
        yield Found(
            "ended", sentence("permit.ended"), "29 CFR 1910.146(e)(5)", sentence("permit.clears.new"), "board/new"
        )
        return
    if permit.stop is not None:
        yield Found(
            "stopped",
            sentence("permit.stopped", cause=stop_words(permit, permit.stop), time=clock(permit.stop.at, permit.zone)),
            "29 CFR 1910.146(e)(5)(ii), (i)(6)",
            sentence("permit.clears.determine"),
            "watch/determine",
        )
    if permit.authorised is None:
        yield Found(
            "not-authorised",
            sentence("permit.not_authorised"),
            "29 CFR 1910.146(e)(2)",
            sentence("permit.clears.authorise"),
            "review/authorise",
        )
        return
    if expired(facts) and permit.until is not None:
        yield Found(
            "expired",
            sentence("permit.expired", time=clock(permit.until, permit.zone)),
            "29 CFR 1910.146(f)(3)",
            sentence("permit.clears.end"),
            "watch/end",
        )
    new = [made for made in permit.changed if isinstance(made.event, e.HazardAdded)]
    if new and isinstance(new[-1].event, e.HazardAdded):
        yield Found(
            "hazard-new",
            sentence("permit.hazard_new", hazard=new[-1].event.name, time=clock(new[-1].at, permit.zone)),
            "29 CFR 1910.146(e)(5)(ii), (f)(7)",
            sentence("permit.clears.new"),
            "board/new",
        )
    elif permit.changed:
        yield Found(
            "changed-after-signing",
            sentence("permit.changed_after_signing", time=clock(permit.changed[-1].at, permit.zone)),
            "29 CFR 1910.146(e)(2), (j)(2)",
            sentence("permit.clears.new"),
            "board/new",
        )
    authorised = permit.authorised.event
    if isinstance(authorised, e.Authorised) and facts.at < authorised.begins:
        yield Found(
            "not-begun",
            sentence("permit.not_begun", time=clock(authorised.begins, permit.zone)),
            "29 CFR 1910.146(f)(3)",
            sentence("permit.clears.wait", time=clock(authorised.begins, permit.zone)),
            "watch/hours",
        )
    if permit.pause is not None:
        yield Found(
            "on-break",
            sentence("permit.on_break", time=clock(permit.pause.begun.at, permit.zone)),
            "site rule",
            sentence("permit.clears.back"),
            "watch/back",
        )
    if permit.awaits is not None:
        yield Found(
            "reendorse",
            sentence(f"permit.reendorse.{permit.awaits}"),
            "29 CFR 1910.146(j)(6)",
            sentence("permit.clears.reendorse"),
            "watch/reendorse",
        )
