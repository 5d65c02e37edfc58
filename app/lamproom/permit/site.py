"""What happened to the site itself: its name and zone, forms confirmed, the clock confirmed or declared wrong."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import ClassVar

from lamproom.bench.happening import Event, Happening, Moment


class SiteBegun(Event):
    """The site was set up: its name, its time zone, the fingerprint of its certificate authority."""

    kind: ClassVar[str] = "site-begun"
    name: str
    zone: str
    authority: str
    founder: str


class FiguresConfirmed(Event):
    """A named person compared the form's figures that rest on memory with the current text of the law."""

    kind: ClassVar[str] = "figures-confirmed"
    form_sha256: str
    form_title: str
    against: str


class TimeConfirmed(Event):
    """A named person read another watch and said what time it is."""

    kind: ClassVar[str] = "time-confirmed"
    watch_says: Moment


class ClockDeclaredWrong(Event):
    """Two named people declared that the clock was wrong from one entry of the site to another, both included."""

    kind: ClassVar[str] = "clock-declared-wrong"
    first: int
    last: int
    second_person: str
    watch_says: Moment


EVENTS: tuple[type[Event], ...] = (SiteBegun, FiguresConfirmed, TimeConfirmed, ClockDeclaredWrong)


@dataclass(frozen=True, slots=True)
class Site:
    """The site as its stream tells it."""

    begun: SiteBegun | None = None
    confirmed: frozenset[str] = frozenset()
    wrong: tuple[tuple[int, int], ...] = ()
    version: int = 0

    def void(self, number: int) -> bool:
        """Was the clock declared wrong over this entry of the site?"""
        return any(first <= number <= last for first, last in self.wrong)


def apply(state: Site, happening: Happening) -> Site:
    state = replace(state, version=happening.version)
    match happening.event:
        case SiteBegun() as event:
            return replace(state, begun=event)
        case FiguresConfirmed() as event:
            return replace(state, confirmed=state.confirmed | {event.form_sha256})
        case ClockDeclaredWrong() as event:
            return replace(state, wrong=(*state.wrong, (event.first, event.last)))
    return state


def fold(happenings: Iterable[Happening], start: Site) -> Site:
    for happening in happenings:
        start = apply(start, happening)
    return start
