"""A scale of hours: moments become places on a line, with ticks at full steps of the clock."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import typeface

_STEPS = (5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440)
_MOST_TICKS = 9


@dataclass(frozen=True, slots=True)
class Timeline:
    """From ``begins`` at ``left`` to ``ends`` at ``right`` (points), ticks every ``step`` minutes of real time."""

    begins: datetime
    ends: datetime
    left: float
    right: float
    step: int

    @classmethod
    def over(cls, moments: Iterable[datetime], left: float, right: float) -> Timeline:
        """The line that holds all moments and begins and ends at a full step."""
        aware = list(moments)
        # One fixed offset: arithmetic in a named zone counts wall-clock time and loses an hour where clocks change.
        offset = timezone(min(aware, key=lambda moment: moment.timestamp()).utcoffset() or timedelta())
        found = [moment.astimezone(offset) for moment in aware]
        first, last = min(found), max(found)
        minutes = max((last - first).total_seconds() / 60, 1)
        step = next((s for s in _STEPS if minutes / s <= _MOST_TICKS - 1), _STEPS[-1])
        begins = _floor(first, step)
        ends = begins
        while ends < last or ends == begins:
            ends += timedelta(minutes=step)
        return cls(begins, ends, left, right, step)

    def at(self, moment: datetime) -> float:
        """The place of a moment, held within the line."""
        passed = moment.astimezone(self.begins.tzinfo) - self.begins
        part = passed / (self.ends - self.begins)
        return self.left + min(max(part, 0.0), 1.0) * (self.right - self.left)

    def ticks(self) -> Iterator[datetime]:
        moment = self.begins
        while moment <= self.ends:
            yield moment
            moment += timedelta(minutes=self.step)

    def draw_axis(self, canvas: Canvas, x: float, y: float) -> None:
        """A rule with ticks below it and their times; the outermost times stay within the line."""
        canvas.setLineWidth(0.8)
        canvas.line(x + self.left, y, x + self.right, y)
        canvas.setFont(typeface.FIGURES, 8)
        ticks = list(self.ticks())
        spread = (self.right - self.left) / max(len(ticks) - 1, 1)
        every = 2 if spread < 26 else 1
        for place, tick in enumerate(ticks):
            here = x + self.at(tick)
            canvas.line(here, y, here, y - 3.5)
            if place % every:
                continue
            text = f"{tick:%H:%M}"
            half = typeface.width(text, typeface.FIGURES, 8) / 2
            if self.left == 0:
                here = min(max(here, x + half), x + self.right - half)
            canvas.drawCentredString(here, y - 12, text)


def apart(wanted: Sequence[tuple[float, str]], left: float, right: float) -> list[tuple[float, str]]:
    """Move captions sideways until none covers another, from the left, then back from the right edge."""
    halves = [typeface.width(typeface.printable(text), typeface.FIGURES, 8) / 2 for _, text in wanted]
    middles = [middle for middle, _ in wanted]
    edge = left
    for place, half in enumerate(halves):
        middles[place] = max(middles[place], edge + half)
        edge = middles[place] + half + 6
    edge = right
    for place in reversed(range(len(halves))):
        middles[place] = min(middles[place], edge - halves[place])
        edge = middles[place] - halves[place] - 6
    return [(middle, text) for middle, (_, text) in zip(middles, wanted, strict=True)]


def _floor(moment: datetime, step: int) -> datetime:
    midnight = moment.replace(hour=0, minute=0, second=0, microsecond=0)
    minutes = (moment.hour * 60 + moment.minute) // step * step
    return midnight + timedelta(minutes=minutes)
