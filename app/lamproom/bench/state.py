"""The state of an instrument: the fold of its events."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, Generic, TypeVar

from lamproom.bench.events import (
    BumpTested,
    Calibrated,
    CheckedBeforeUse,
    InstrumentRegistered,
    ReturnedToService,
    Sensor,
    TakenOutOfService,
    TestVoided,
)
from lamproom.bench.happening import Happening

T = TypeVar("T", covariant=True)


@dataclass(frozen=True, slots=True)
class Done(Generic[T]):
    """An event with who did it and when it was recorded."""

    event: T
    at: datetime
    by: str | None
    number: int = 0


@dataclass(frozen=True, slots=True)
class Instrument:
    """What the record says about one instrument; None and empty mean that it never happened."""

    id: str
    registered: InstrumentRegistered | None = None
    checks: tuple[Done[CheckedBeforeUse], ...] = ()
    bumps: tuple[Done[BumpTested], ...] = ()
    calibrations: tuple[Done[Calibrated], ...] = ()
    voided: Done[TestVoided] | None = None
    out_of_service: Done[TakenOutOfService] | None = None
    returned: Done[ReturnedToService] | None = None
    version: int = 0

    @property
    def sensors(self) -> tuple[Sensor, ...]:
        return self.registered.sensors if self.registered else ()

    def sensor(self, gas: str) -> Sensor | None:
        """The sensor for a gas id, None when the instrument has none."""
        return next((sensor for sensor in self.sensors if sensor.gas == gas), None)

    @property
    def check(self) -> Done[CheckedBeforeUse] | None:
        return self.checks[-1] if self.checks else None

    @property
    def last_bump(self) -> Done[BumpTested] | None:
        return self.bumps[-1] if self.bumps else None

    @property
    def last_calibration(self) -> Done[Calibrated] | None:
        return self.calibrations[-1] if self.calibrations else None


def apply(state: Instrument, happening: Happening) -> Instrument:
    """The state after one more happening. A void happening leaves only what stops: failures and removals from service."""
    event, at, by, number = happening.event, happening.at, happening.by, happening.number
    state = replace(state, version=happening.version)
    match event:
        case InstrumentRegistered():
            return replace(state, registered=event)
        case TestVoided():
            return replace(state, voided=Done(event, at, by, number))
        case TakenOutOfService():
            return replace(state, out_of_service=Done(event, at, by, number), returned=None)
        case _ if happening.void:
            return state
        case CheckedBeforeUse():
            return replace(state, checks=(*state.checks, Done(event, at, by, number)))
        case BumpTested():
            return replace(state, bumps=(*state.bumps, Done(event, at, by, number)))
        case Calibrated():
            return replace(state, calibrations=(*state.calibrations, Done(event, at, by, number)))
        case ReturnedToService():
            return replace(state, out_of_service=None, returned=Done(event, at, by, number))
    return state


def fold(happenings: Iterable[Happening], start: Instrument) -> Instrument:
    """The state after all of these happenings: fold(a + b) is fold(b, fold(a))."""
    for happening in happenings:
        start = apply(start, happening)
    return start


def as_of(state: Instrument, at: datetime) -> Instrument:
    """The instrument as the record knew it at a moment: what was recorded later is taken away again."""

    def known(done: Done[Any] | None) -> bool:
        return done is not None and done.at <= at

    return replace(
        state,
        checks=tuple(done for done in state.checks if done.at <= at),
        bumps=tuple(done for done in state.bumps if done.at <= at),
        calibrations=tuple(done for done in state.calibrations if done.at <= at),
        voided=state.voided if known(state.voided) else None,
        out_of_service=state.out_of_service if known(state.out_of_service) else None,
        returned=state.returned if known(state.returned) else None,
    )
