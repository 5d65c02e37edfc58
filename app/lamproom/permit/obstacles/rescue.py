"""Rescue: who comes, until when they can, and whether the call was tried."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from lamproom.permit import events as e
from lamproom.permit.asked import stands
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.regime import REGIMES
from lamproom.permit.space import RescuePlan
from lamproom.permit.words import clock
from lamproom.words import sentence


def year_after(day: date) -> date:
    """The same day a year later, the last that is still 'within 12 months', 1910.146(k)(2)(iv); of February 29 the
    28th."""
    return day.replace(year=day.year + 1, day=28 if (day.month, day.day) == (2, 29) else day.day)


def found(facts: Facts) -> Iterator[Found]:
    yield from _confirmed(facts)
    yield from _capable(facts)
    yield from _device(facts)


def _capable(facts: Facts) -> Iterator[Found]:
    """Is the rescue service judged able to reach people here in time, and is it owed nothing: 1910.146(k)(1), (2)?"""
    plan = facts.permit.opened.evaluated.rescue
    today = facts.at.astimezone(facts.permit.zone).date()
    judged = plan.evaluated_on is not None and plan.evaluated_on <= today and bool(plan.evaluated_by.strip())
    if plan.team == "not-said" or not judged:
        says, clears = "permit.rescue_not_evaluated", "permit.clears.rescue_not_evaluated"
        yield _plan("rescue-not-evaluated", says, clears, plan.service, "29 CFR 1910.146(k)(1)(i), (ii)")
    if plan.team == "outside" and not (plan.told_hazards and plan.access_given):
        says, clears = "permit.rescue_not_told", "permit.clears.rescue_not_told"
        yield _plan("rescue-not-told", says, clears, plan.service, "29 CFR 1910.146(k)(1)(iv), (v)")
    if plan.team == "own":
        practised = plan.practised_on
        if practised is None or not practised <= today <= year_after(practised):
            says, clears = "permit.rescue_practice_old", "permit.clears.rescue_practice_old"
            yield _plan("rescue-practice-old", says, clears, plan.service, "29 CFR 1910.146(k)(2)(iv)")
        if plan.first_aid_until is None or plan.first_aid_until < today:
            says, clears = "permit.rescue_no_first_aid", "permit.clears.rescue_no_first_aid"
            yield _plan("rescue-no-first-aid", says, clears, plan.service, "29 CFR 1910.146(k)(2)(iii)")


_ASKED = {
    "rescue-not-evaluated": "judged-by",
    "rescue-not-told": "told-hazards",
    "rescue-practice-old": "practised-on",
    "rescue-no-first-aid": "first-aid-until",
    "no-mechanical-device": "mechanical",
}
"""The question of the evaluation that each waits for."""


def _plan(code: str, says: str, clears: str, service: str, rule: str) -> Found:
    target = f"registers/space/evaluate/{_ASKED[code]}"
    return Found(code, sentence(says, service=service), rule, sentence(clears), target)


def _device(facts: Facts) -> Iterator[Found]:
    """A line in a vertical space deeper than 5 ft ends at a mechanical device: 1910.146(k)(3)(ii)."""
    permit = facts.permit
    space = permit.opened.registered
    made = permit.answers.get("retrieval")
    answer = made.event if made is not None else None
    waived = isinstance(answer, e.Answered) and answer.answer == "does not apply" and bool(answer.found.strip())
    item = permit.form.item("retrieval")
    if waived or (item is not None and stands(facts, item)):
        return
    over = Decimal(space.depth_m) > REGIMES[permit.form.regime].device_over_m
    if space.portal.vertical and over and not permit.opened.evaluated.rescue.mechanical:
        yield Found(
            "no-mechanical-device",
            sentence("permit.no_mechanical_device", depth=space.depth_m),
            "29 CFR 1910.146(k)(3)(ii)",
            sentence("permit.clears.mechanical_device"),
            f"registers/space/evaluate/{_ASKED['no-mechanical-device']}",
        )


def _slower(plan: RescuePlan, rescue: e.RescueConfirmed) -> Iterator[Found]:
    """The service was judged able to reach people here in the minutes of its evaluation, not in more: (k)(1)(i)."""
    if Decimal(rescue.response_min) > Decimal(plan.response_min):
        yield Found(
            "rescue-slow",
            sentence("permit.rescue_slow", service=plan.service, minutes=rescue.response_min, judged=plan.response_min),
            "29 CFR 1910.146(k)(1)(i)",
            sentence("permit.clears.rescue_slow", minutes=plan.response_min),
            "rescue/confirm",
        )


def _confirmed(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    rescue = permit.rescue.event if permit.rescue is not None else None
    if not isinstance(rescue, e.RescueConfirmed) or not rescue.answered_by.strip():
        yield Found(
            "rescue-open",
            sentence("permit.rescue_open", service=permit.opened.evaluated.rescue.service),
            "29 CFR 1910.146(j)(4)",
            sentence("permit.clears.rescue"),
            "rescue/confirm",
        )
    else:
        yield from _slower(permit.opened.evaluated.rescue, rescue)
        ends = permit.hours.ends if permit.hours is not None else facts.at
        if permit.authorised is None and rescue.good_until < ends:
            yield Found(
                "rescue-open",
                sentence(
                    "permit.rescue_short", until=clock(rescue.good_until, permit.zone), ends=clock(ends, permit.zone)
                ),
                "29 CFR 1910.146(j)(4)",
                sentence("permit.clears.rescue"),
                "rescue/confirm",
            )
        elif facts.at >= rescue.good_until:
            yield Found(
                "rescue-over",
                sentence("permit.rescue_over", until=clock(rescue.good_until, permit.zone)),
                "29 CFR 1910.146(j)(4)",
                sentence("permit.clears.rescue"),
                "rescue/confirm",
            )
    tried = permit.call_tried.event if permit.call_tried is not None else None
    if not isinstance(tried, e.RescueCallTried) or not (tried.answered_by.strip() and tried.means.strip()):
        yield Found(
            "call-not-tried",
            sentence("permit.call_not_tried"),
            "29 CFR 1910.146(j)(4)",
            sentence("permit.clears.call"),
            "rescue/call",
        )
