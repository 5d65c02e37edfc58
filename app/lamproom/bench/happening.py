"""A happening: one event with who, when and where in the record, as the floors of rules see it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Annotated, Any, ClassVar

from pydantic import AfterValidator, AwareDatetime, BaseModel, ConfigDict, Field

Moment = Annotated[AwareDatetime, AfterValidator(lambda at: at.astimezone(UTC))]
"""A moment in an event: with its zone, kept in UTC, so that the same moment is always the same bytes."""


def later(default: Any) -> Any:
    """A field that joined a kind after records of it existed: unsaid it is not written, so that what was stored before
    is still read and written as the same bytes."""
    return Field(default, exclude_if=lambda value: value == default)


class Event(BaseModel):
    """What happened, in past tense; frozen, and refused when it holds a word nobody declared."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    kind: ClassVar[str]
    """The fixed word under which the event is stored; it is never changed, only added to."""
    kind_version: ClassVar[int] = 1


@dataclass(frozen=True, slots=True)
class Happening:
    """An event in its place.

    ``at`` is the judged time (UTC) of recording. ``by`` is a person id, None for the station alone. ``unconfirmed``
    means that nobody had confirmed the clock when it was stored. ``void`` means that two named people declared the
    clock wrong over this entry: what permits then counts as never done, what stops stays.
    """

    stream: str
    version: int
    event: Event
    at: datetime
    by: str | None = None
    station: str = ""
    act: str = ""
    number: int = 0
    unconfirmed: bool = False
    void: bool = False
