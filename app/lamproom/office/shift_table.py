"""A shift told as a plain table: time | who | what happened | how. One row, one act."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from lamproom.words import Refusal, sentence


@dataclass(frozen=True, slots=True)
class Row:
    """One happening of the table: when, who (a first name), which act, and its details as they are written."""

    line: int
    at: time
    who: str
    act: str
    details: Mapping[str, str]

    def moment(self, day: date, zone: ZoneInfo) -> datetime:
        """When it happens on a given day."""
        return datetime.combine(day, self.at, zone)

    def __getitem__(self, name: str) -> str:
        try:
            return self.details[name]
        except KeyError as error:
            raise Refusal(sentence("office.shift.detail", line=self.line, name=name)) from error

    def get(self, name: str, otherwise: str = "") -> str:
        return self.details.get(name, otherwise)

    def yes(self, name: str) -> bool:
        """A yes or no of the table; anything else is refused."""
        return is_yes(self.line, self[name])

    def clock(self, name: str, day: date, zone: ZoneInfo) -> datetime:
        """A time of day of the table."""
        return datetime.combine(day, time.fromisoformat(self[name]), zone)


def is_yes(line: int, text: str) -> bool:
    if text not in ("yes", "no"):
        raise Refusal(sentence("office.shift.yes_no", line=line, text=text))
    return text == "yes"


def rows_of(text: str) -> Iterator[Row]:
    """The rows of a table; empty lines and lines that begin with # are skipped. A line that is no row is refused."""
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        yield _row(number, line)


def _row(number: int, line: str) -> Row:
    try:
        at, who, act, *rest = (part.strip() for part in line.split("|"))
        details = dict(_detail(pair) for pair in (rest[0] if rest else "").split(";") if pair.strip())
        return Row(number, time.fromisoformat(at), who, act, details)
    except ValueError as error:
        raise Refusal(sentence("office.shift.row", line=number, text=line)) from error


def _detail(pair: str) -> tuple[str, str]:
    name, colon, value = pair.partition(":")
    if not colon:
        raise ValueError(pair)
    return name.strip(), value.strip()
