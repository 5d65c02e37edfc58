"""Small pieces that several blocks of the page need: times, names, figures, signatures as the page wants them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

from lamproom.bench.bump import gas_name
from lamproom.bench.happening import Happening
from lamproom.paper import content as c
from lamproom.permit import events as e
from lamproom.permit.facts import Facts
from lamproom.permit.form import Certificate, LimitLine
from lamproom.permit.state import Permit, ReadingSet, outside
from lamproom.permit.timing import expired
from lamproom.permit.words import clock, day_and_clock, limit_words
from lamproom.words import say

SHORT = {"oxygen": "O2", "flammable": "LEL", "hydrogen-sulfide": "H2S", "carbon-monoxide": "CO"}
"""Gases as the narrow heads of tables write them; a gas without a short form is written out."""


@dataclass(frozen=True, slots=True)
class Pages:
    """What the blocks of a page are made from: the facts at the page's moment and what happened up to it."""

    facts: Facts
    past: tuple[Happening, ...]
    signed: Facts | None = None
    """The facts as they stood when it was authorized; None before that."""

    @property
    def permit(self) -> Permit:
        return self.facts.permit

    @property
    def certificate(self) -> Certificate | None:
        """The form's certificate for this route; None where the permit itself is the paper."""
        return self.permit.form.certificate(self.permit.route)

    @property
    def paper(self) -> str:
        """What the page is: the end of the id of each sentence that says it differently of the two."""
        return "permit" if self.certificate is None else "certificate"

    @property
    def zone(self) -> ZoneInfo:
        return self.permit.zone

    def name(self, person: str | None) -> str:
        """A person's name; the words for nobody where none was named."""
        if person is None:
            return say("page.nobody")
        trip = next((t for t in self.permit.tally.trips if t.who == person and t.name), None)
        return trip.name if trip is not None else self.facts.name(person)

    def initials(self, person: str | None) -> str:
        """Initials for narrow columns."""
        return "".join(word[0] for word in self.name(person).split() if word) if person else "\u2013"

    def clock(self, at: datetime) -> str:
        return clock(at, self.zone)

    def moment(self, at: datetime) -> str:
        return day_and_clock(at, self.zone)

    def local(self, at: datetime) -> datetime:
        return at.astimezone(self.zone)


def offset_words(at: datetime, zone: ZoneInfo) -> str:
    """The offset of the site's zone at a moment: '\u221206:00'."""
    text = at.astimezone(zone).strftime("%z")
    return ("\u2212" if text.startswith("-") else "+") + f"{text[1:3]}:{text[3:5]}"


def closed(words: str) -> str:
    """Words that someone typed, ended with a period where another sentence follows on the same line."""
    text = words.strip()
    return text if not text or text[-1] in ".!?" else f"{text}."


def lasting(passed: timedelta) -> str:
    """A duration in words: '3 h 05 min', '5 h', '12 min', '50 s' where no minute is full."""
    seconds = int(passed.total_seconds())
    if 0 < seconds < 60:
        return say("page.sec", s=seconds)
    minutes = int(passed.total_seconds() // 60)
    if minutes < 60:
        return say("page.min", m=minutes)
    hours, rest = divmod(minutes, 60)
    return say("page.h_min", h=hours, m=f"{rest:02d}") if rest else say("page.h", h=hours)


def grouped(figure: str) -> str:
    """A figure of five or more digits with its thousands set apart: '10,000'."""
    whole = Decimal(figure)
    return f"{whole:,f}" if whole >= 10_000 else figure


def nobody_can_follow(pages: Pages) -> bool:
    """Is it over with going in: ended, or its hours past?"""
    return pages.permit.ended is not None or expired(pages.facts)


def gas_column(line: LimitLine) -> c.Gas:
    """A limit of the form as the head of a column."""
    words = limit_words(line).say().removesuffix(line.unit).strip().replace("below", say("page.under"))
    return c.Gas(
        gas_name(line.gas).say(), SHORT.get(line.gas, gas_name(line.gas).say()), line.unit, words, line.low, line.high
    )


def figures_of(permit: Permit, one: ReadingSet | None, gases: Iterable[LimitLine]) -> tuple[c.Figure, ...]:
    """The figures of a set in the order of the gases; a gas nobody measured stays open."""
    return tuple(_figure(permit, one, line.gas) for line in gases)


def _figure(permit: Permit, one: ReadingSet | None, gas: str) -> c.Figure:
    figure = one.figure(gas) if one is not None else None
    if one is None or figure is None or figure.state == "not-measured":
        return c.NOT_TESTED
    first = next((x.event.old for x in one.corrections if x.event.gas == gas), "")
    text = figure.figure if figure.figure is not None else say(f"page.figure.{figure.state}")
    return c.Figure(text, outside=figure in outside(permit.form, one.figures), first=first)


def strokes_of(ink: e.Ink | None) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Ink as the page draws it."""
    return tuple(tuple((float(x), float(y)) for x, y, _ms in stroke) for stroke in ink.strokes) if ink else ()


def metres(text: str) -> float:
    """A length for drawing only; every figure that decides stays a decimal."""
    return float(Decimal(text))
