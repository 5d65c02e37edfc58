"""An obstacle: what stands between people and entry, why, what clears it, and where."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from lamproom.words import Sentence


class Stage(Enum):
    """What an obstacle bars: authorising, the next person in, or staying inside."""

    AUTHORISE = "authorise"
    ENTER = "enter"
    STAY = "stay"


@dataclass(frozen=True, slots=True)
class Found:
    """What a rule found, before the stage table says what it bars. ``target`` is the place that clears it, such as
    'air-test/point/2.7'; ``subject`` tells several of the same kind apart."""

    code: str
    sentence: Sentence
    rule: str
    clears: Sentence
    target: str
    subject: str = ""


@dataclass(frozen=True, slots=True)
class Obstacle:
    """A finding with the stages it bars. Never empty: what bars nothing is a caution."""

    found: Found
    stages: frozenset[Stage]

    @property
    def code(self) -> str:
        return self.found.code

    @property
    def sentence(self) -> Sentence:
        return self.found.sentence

    @property
    def clears(self) -> Sentence:
        return self.found.clears

    @property
    def rule(self) -> str:
        return self.found.rule

    @property
    def target(self) -> str:
        return self.found.target

    def bars(self, stage: Stage) -> bool:
        return stage in self.stages
