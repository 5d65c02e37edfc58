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
    void: bool = False
    """Two people declared the clock wrong over it: it counts for nothing, but what it shows against stays."""


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
    past: tuple[Done[Any], ...] = ()
    """What voided a test, took it out of service or brought it back, in order: no later one hides an earlier."""

    @property
    def sensors(self) -> tuple[Sensor, ...]:
        return self.registered.sensors if self.registered else ()

    def sensor(self, gas: str) -> Sensor | None:
        """The sensor for a gas id, None when the instrument has none."""
        return next((sensor for sensor in self.sensors if sensor.gas == gas), None)

    @property
    def check(self) -> Done[CheckedBeforeUse] | None:
        return _newest(self.checks)

    @property
    def last_bump(self) -> Done[BumpTested] | None:
        return _newest(self.bumps)

    @property
    def last_calibration(self) -> Done[Calibrated] | None:
        return _newest(self.calibrations)


def _newest(done: tuple[Done[T], ...]) -> Done[T] | None:
    """The newest that counts: one at a time declared wrong counts as never done."""
    return next((one for one in reversed(done) if not one.void), None)


def apply(state: Instrument, happening: Happening) -> Instrument:
    """The state after one more happening. Of a void happening only what stops is used: failures, removals."""
    state = replace(state, version=happening.version)
    event = happening.event
    done: Done[Any] = Done(event, happening.at, happening.by, happening.number, happening.void)
    match event:
        case InstrumentRegistered():
            return replace(state, registered=event)
        case CheckedBeforeUse():
            return replace(state, checks=(*state.checks, done))
        case BumpTested():
            return replace(state, bumps=(*state.bumps, done))
        case Calibrated():
            return replace(state, calibrations=(*state.calibrations, done))
        case TestVoided() | TakenOutOfService():
            return _with_past(state, (*state.past, done))
        case ReturnedToService() if not happening.void:
            return _with_past(state, (*state.past, done))
    return state


def _with_past(state: Instrument, past: tuple[Done[Any], ...]) -> Instrument:
    """The state with what these say of its last bump test and its service."""
    voided = out = returned = None
    for done in past:
        match done.event:
            case TestVoided():
                voided = done
            case TakenOutOfService():
                out, returned = done, None
            case ReturnedToService():
                out, returned = None, done
    return replace(state, past=past, voided=voided, out_of_service=out, returned=returned)


def fold(happenings: Iterable[Happening], start: Instrument) -> Instrument:
    """The state after all of these happenings: fold(a + b) is fold(b, fold(a))."""
    for happening in happenings:
        start = apply(start, happening)
    return start


def as_of(state: Instrument, at: datetime, number: int = 0) -> Instrument:
    """The instrument as the record knew it at a moment, or (with ``number``) at an entry of the site: what was recorded
    later is taken away again. The entry is the surer of the two: times may be declared wrong, the order may not."""

    def known(done: Done[Any]) -> bool:
        return done.number <= number if number and done.number else done.at <= at

    then = replace(
        state,
        checks=tuple(done for done in state.checks if known(done)),
        bumps=tuple(done for done in state.bumps if known(done)),
        calibrations=tuple(done for done in state.calibrations if known(done)),
    )
    return _with_past(then, tuple(done for done in state.past if known(done)))
