"""What a careful supervisor would want to know and what bars nothing, in words: the same on screen and on paper."""

from __future__ import annotations

from dataclasses import dataclass

from lamproom.office.office import Office
from lamproom.permit.cautions import cautions
from lamproom.permit.facts import Facts


@dataclass(frozen=True, slots=True)
class CautionLine:
    """A caution: its id, what it says, and the rule it comes from. It bars nothing and is never counted."""

    code: str
    words: str
    rule: str


def caution_lines(facts: Facts) -> tuple[CautionLine, ...]:
    """Every caution at the moment of the facts, each said once, in the order of the rules."""
    said = (CautionLine(one.code, one.sentence.say(), one.rule) for one in cautions(facts))
    return tuple(dict.fromkeys(said))


def cautions_of(office: Office, number: str) -> tuple[CautionLine, ...]:
    """The cautions of a permit now. Refused when there is no such permit."""
    return caution_lines(office.facts(number))
