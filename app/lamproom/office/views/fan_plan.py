"""A fan planned with figures: air changes and the time of a purge. For planning alone: only a reading allows."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from decimal import ROUND_FLOOR, Decimal

from lamproom.air.figures import Unreadable, read_figure
from lamproom.air.ventilation import air_changes, purge_time
from lamproom.air.working import Unworkable, Working
from lamproom.office.office import Office
from lamproom.office.views.purge import volume_of
from lamproom.office.views.working_slip import SlipPage, page_of
from lamproom.words import say

KEYS = ("flow", "volume", "mixing", "start", "target")
NEEDED = ("flow", "volume")
_OF = {"flow": "fan_flow", "volume": "volume_of_space", "mixing": "mixing", "start": "start", "target": "target"}


@dataclass(frozen=True, slots=True)
class FanPlan:
    """The slip's pages, or what is wrong by its field."""

    pages: tuple[SlipPage, ...] = ()
    troubles: Mapping[str, str] = field(default_factory=dict)


def volume_offered(office: Office, number: str) -> str:
    """The volume in m³ where the shape and today's level tell one; empty where it must be measured."""
    volume = volume_of(office.permit(number))
    return str(volume.result) if volume is not None else ""


def plan_fan(answers: Mapping[str, str]) -> FanPlan:
    """Air changes from flow (m³/h) and volume (m³); with mixing factor, level now and level to reach also the time."""
    troubles: dict[str, str] = {}
    figures: dict[str, Decimal] = {}
    for key in KEYS:
        text = answers.get(key, "").strip()
        if not text and key in NEEDED:
            troubles[key] = say("workings.plan.missing")
        elif text:
            try:
                figures[key] = read_figure(text)
            except Unreadable as unreadable:
                troubles[key] = str(unreadable)
    of_purge = [key for key in ("mixing", "start", "target") if key in figures or key in troubles]
    for key in ("mixing", "start", "target") if of_purge else ():
        if key not in figures and key not in troubles:
            troubles[key] = say("workings.plan.missing_too")
    if troubles:
        return FanPlan(troubles=troubles)
    flow = (figures["flow"] / 60).quantize(Decimal("0.0001"), ROUND_FLOOR)
    works: list[tuple[str, Callable[[], Working]]] = [
        (say("workings.plan.changes"), lambda: air_changes(flow, figures["volume"]))
    ]
    if of_purge:
        works.append((
            say("workings.plan.time"),
            lambda: purge_time(figures["volume"], flow, figures["start"], figures["target"], figures["mixing"]),
        ))  # fmt: skip
    pages = []
    for name, work in works:
        try:
            pages.append(page_of(work(), name))
        except Unworkable as unworkable:
            troubles[_about(unworkable)] = str(unworkable)
    return FanPlan(troubles=troubles) if troubles else FanPlan(tuple(pages))


def _about(unworkable: Unworkable) -> str:
    what = str(dict(unworkable.why.values).get("what", ""))
    return next((key for key, named in _OF.items() if say(f"air.input.{named}") == what), "flow")
