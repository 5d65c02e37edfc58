"""The tally: who is inside, since when, and every trip. Count and list are one thing, so they cannot disagree."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Trip:
    """One stay inside. ``who`` is a person id or the label of an unknown; ``against`` the obstacles that stood."""

    who: str
    came_in: datetime
    went_out: datetime | None = None
    against: tuple[str, ...] = ()
    unknown: bool = False
    name: str = ""
    what: str = ""


@dataclass(frozen=True, slots=True)
class Tally:
    """All trips in order of going in. An 'in' of someone inside, or an 'out' of someone outside, changes nothing."""

    trips: tuple[Trip, ...] = ()

    @property
    def inside(self) -> tuple[Trip, ...]:
        return tuple(trip for trip in self.trips if trip.went_out is None)

    def is_inside(self, who: str) -> bool:
        return any(trip.who == who for trip in self.inside)

    def inside_since(self) -> datetime | None:
        """When the first of those inside went in, None when nobody is."""
        return min((trip.came_in for trip in self.inside), default=None)

    @property
    def unknowns(self) -> int:
        """How many unnamed people have gone in so far."""
        return sum(trip.unknown for trip in self.trips)

    def went_in(self, who: str, at: datetime, against: tuple[str, ...] = ()) -> Tally:
        return self if self.is_inside(who) else Tally((*self.trips, Trip(who, at, against=against)))

    def someone_in(self, label: str, at: datetime) -> Tally:
        return self if self.is_inside(label) else Tally((*self.trips, Trip(label, at, unknown=True)))

    def named(self, label: str, name: str, what: str) -> Tally:
        return Tally(tuple(replace(t, name=name, what=what) if t.who == label else t for t in self.trips))

    def went_out(self, who: str, at: datetime) -> Tally:
        return Tally(tuple(replace(t, went_out=at) if t.who == who and t.went_out is None else t for t in self.trips))
