"""What was typed on a page of questions, read once, with everything wrong collected and nothing guessed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from typing import Generic, TypeVar
from zoneinfo import ZoneInfo

from lamproom.air.figures import read_figure
from lamproom.words import Refusal, say, sentence

T = TypeVar("T", covariant=True)
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


@dataclass(frozen=True, slots=True)
class Filled(Generic[T]):
    """What a page became: the value, or None and every trouble by the key of its question."""

    value: T | None
    troubles: Mapping[str, str]


class Typed:
    """The answers of a page by key. Each method reads one; a trouble is noted under its key and reading goes on."""

    def __init__(self, answers: Mapping[str, str]) -> None:
        self._answers = answers
        self.troubles: dict[str, str] = {}

    def text(self, key: str, needed: bool = True) -> str:
        """Words; a needed one that is empty is a trouble."""
        text = self._answers.get(key, "").strip()
        if needed and not text:
            self.troubles[key] = say("registers.typed.missing")
        return text

    def figure(self, key: str, needed: bool = True) -> str | None:
        """A decimal string; None when empty or unreadable."""
        text = self._answers.get(key, "").strip()
        if not text:
            if needed:
                self.troubles[key] = say("registers.typed.missing")
            return None
        try:
            return str(read_figure(text))
        except Refusal as refusal:
            self.troubles[key] = str(refusal)
            return None

    def number(self, key: str) -> int | None:
        """A whole number above 0."""
        text = self.figure(key)
        if text is None:
            return None
        if not text.isdigit() or int(text) == 0:
            self.troubles[key] = say("registers.typed.whole")
            return None
        return int(text)

    def day(self, key: str, needed: bool = True) -> date | None:
        """A day such as 2026-11-25 or 25 Nov 2026."""
        text = self._answers.get(key, "").strip()
        if not text:
            if needed:
                self.troubles[key] = say("registers.typed.missing")
            return None
        try:
            return read_day(text)
        except Refusal as refusal:
            self.troubles[key] = str(refusal)
            return None

    def yes(self, key: str) -> bool | None:
        """Yes or no; None and a trouble when not answered."""
        answer = self._answers.get(key, "")
        if answer not in ("yes", "no"):
            self.troubles[key] = say("registers.typed.answer")
            return None
        return answer == "yes"

    def one(self, key: str, needed: bool = True) -> str:
        """One of a list."""
        answer = self._answers.get(key, "")
        if needed and not answer:
            self.troubles[key] = say("registers.typed.choose")
        return answer

    def many(self, key: str, needed: bool = True) -> tuple[str, ...]:
        """Any number of a list."""
        answer = tuple(part for part in self._answers.get(key, "").split("\n") if part)
        if needed and not answer:
            self.troubles[key] = say("registers.typed.choose_some")
        return answer


def read_day(text: str) -> date:
    """A day typed as 2026-11-25 or 25 Nov 2026. Orders of figures that differ between countries are refused."""
    typed = text.strip()
    parts = typed.replace(",", " ").split()
    try:
        if len(parts) == 3 and parts[1][:3].lower() in _MONTHS:
            return date(int(parts[2]), _MONTHS.index(parts[1][:3].lower()) + 1, int(parts[0]))
        if len(typed) == 10 and typed[4] == typed[7] == "-":
            return date.fromisoformat(typed)
    except ValueError as error:
        raise Refusal(sentence("registers.typed.day", text=typed)) from error
    raise Refusal(sentence("registers.typed.day", text=typed))


def read_watch(day: str, clock: str, zone: ZoneInfo) -> datetime:
    """What another watch says (UTC): its day, and its time as 09:42 on a 24-hour dial."""
    on = read_day(day)
    digits = clock.strip().replace(".", ":")
    hours, _, minutes = digits.partition(":")
    if not (hours.isdigit() and minutes.isdigit() and len(minutes) == 2 and int(hours) < 24 and int(minutes) < 60):
        raise Refusal(sentence("registers.typed.clock", text=clock.strip()))
    return datetime.combine(on, time(int(hours), int(minutes)), zone).astimezone(UTC)


def day_words(day: date) -> str:
    """A day as people say it: 25 Nov 2026."""
    return f"{day.day} {day.strftime('%b %Y')}"
