"""Rescue: who comes, until when they can, and whether the call was tried."""

from __future__ import annotations

from collections.abc import Iterator

from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.words import clock
from lamproom.words import sentence


def found(facts: Facts) -> Iterator[Found]:
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
    if not isinstance(tried, e.RescueCallTried) or not tried.answered_by.strip():  # a call that nobody answered
        yield Found(
            "call-not-tried",
            sentence("permit.call_not_tried"),
            "29 CFR 1910.146(j)(4)",
            sentence("permit.clears.call"),
            "rescue/call",
        )
