"""Until when is this instrument fit? Computed from its record and the clock, with what would mend it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from decimal import Decimal
from typing import Any

from lamproom.bench.bump import shortfalls
from lamproom.bench.check import faults
from lamproom.bench.duty import duty_end, duty_start
from lamproom.bench.events import BumpTested, Calibrated
from lamproom.bench.rules import BenchRules
from lamproom.bench.state import Done, Instrument
from lamproom.words import Sentence, sentence


@dataclass(frozen=True, slots=True)
class Unfit:
    """One reason why an instrument is not ready: a code, the sentence, what clears it, the rule behind it."""

    code: str
    sentence: Sentence
    clears: Sentence
    rule: str


@dataclass(frozen=True, slots=True)
class Readiness:
    """``until`` is the first of all ends, with ``ends_with`` saying which; both None when anything bars."""

    until: datetime | None
    ends_with: Sentence | None
    unfit: tuple[Unfit, ...]

    @property
    def ready(self) -> bool:
        return self.until is not None and not self.unfit


GUIDANCE = "agency bulletin on direct-reading instruments"
PRACTICE = "common practice"


def readiness(instrument: Instrument, rules: BenchRules, at: datetime) -> Readiness:
    """Ready until a time, or not ready with every reason.

    Ends: bump test under 24 h (to the minute, strictly) and within its duty period where the rules say so, never past
    the day calibration is due; the check before use counts for its duty period; a sensor until the day it expires.
    """
    unfit: list[Unfit] = []
    ends: list[tuple[datetime, Sentence]] = []
    if instrument.registered is None:
        return Readiness(
            None,
            None,
            (
                Unfit(
                    "unknown",
                    sentence("bench.unknown", name=instrument.id),
                    sentence("bench.clears.register"),
                    "site rule",
                ),
            ),
        )
    if instrument.out_of_service is not None:
        reason = instrument.out_of_service.event.reason
        unfit.append(
            Unfit(
                "out-of-service",
                sentence("bench.out_of_service", reason=reason),
                sentence("bench.clears.inspect"),
                GUIDANCE,
            )
        )
    _calibration(instrument, rules, at, unfit, ends)
    _bump(instrument, rules, at, unfit, ends)
    _check(instrument, rules, at, unfit, ends)
    for sensor in instrument.sensors:
        if sensor.expires is not None:
            end = datetime.combine(sensor.expires + timedelta(days=1), time(0), rules.zone).astimezone(UTC)
            _end(
                ends,
                unfit,
                at,
                end,
                "sensor-expired",
                sentence("bench.sensor_expired", day=sensor.expires.isoformat()),
                "bench.clears.sensor",
            )
    if unfit or not ends:
        return Readiness(None, None, tuple(unfit))
    until, which = min(ends, key=lambda pair: pair[0])
    return Readiness(until, which, ())


def _end(
    ends: list[tuple[datetime, Sentence]],
    unfit: list[Unfit],
    at: datetime,
    end: datetime,
    code: str,
    what: Sentence,
    clears: str,
    rule: str = GUIDANCE,
) -> None:
    if at >= end:
        unfit.append(Unfit(code, what, sentence(clears), rule))
    else:
        ends.append((end, what))


def _calibration(
    instrument: Instrument, rules: BenchRules, at: datetime, unfit: list[Unfit], ends: list[tuple[datetime, Sentence]]
) -> None:
    last = next((c for c in reversed(instrument.calibrations) if not (c.void and c.event.passed)), None)
    if last is None or last.at > at:
        unfit.append(
            Unfit(
                "not-calibrated",
                sentence("bench.not_calibrated"),
                sentence("bench.clears.calibrate"),
                "29 CFR 1910.146(c)(5)(ii)(C)",
            )
        )
        return
    if not (last.event.passed and in_order(last.event, rules)):
        unfit.append(
            Unfit(
                "calibration-failed", sentence("bench.calibration_failed"), sentence("bench.clears.inspect"), GUIDANCE
            )
        )
        return
    if instrument.returned is not None and _after(instrument.returned, last):
        unfit.append(
            Unfit(
                "not-calibrated", sentence("bench.calibrate_after_repair"), sentence("bench.clears.calibrate"), GUIDANCE
            )
        )
        return
    due = last.event.due
    if instrument.registered is not None:
        longest = timedelta(days=instrument.registered.calibration_days)
        due = min(due, last.at.astimezone(rules.zone).date() + longest)
    end = datetime.combine(due + timedelta(days=1), time(0), rules.zone).astimezone(UTC)
    _end(
        ends,
        unfit,
        at,
        end,
        "calibration-due",
        sentence("bench.calibration_due", day=due.isoformat()),
        "bench.clears.calibrate",
    )


def in_order(calibration: Calibrated, rules: BenchRules) -> bool:
    """Was at least one sensor calibrated, each with a gas of the cylinder and left within the form's share of it?"""
    return bool(calibration.results) and all(
        one.gas in calibration.cylinder.gases
        and Decimal(one.applied) != 0
        and rules.accept_low <= Decimal(one.as_left) / Decimal(one.applied) * 100 <= rules.accept_high
        for one in calibration.results
    )


def _after(one: Done[Any], other: Done[Any]) -> bool:
    """Came one after the other? By the site's order where both have a place in it: times can be declared wrong."""
    return one.number > other.number if one.number and other.number else one.at > other.at


def _bump(
    instrument: Instrument, rules: BenchRules, at: datetime, unfit: list[Unfit], ends: list[tuple[datetime, Sentence]]
) -> None:
    failed = _last_failed(instrument, rules)
    if failed is not None:
        mended = next(
            (
                c
                for c in reversed(instrument.calibrations)
                if c.event.passed and in_order(c.event, rules) and not c.void
            ),
            None,
        )
        if mended is None or not _after(mended, failed):
            short = shortfalls(failed.event, instrument.sensors, rules)
            unfit.extend(
                Unfit(
                    "bump-failed",
                    sentence("bench.bump_failed", why=why),
                    sentence("bench.clears.calibrate_and_bump"),
                    GUIDANCE,
                )
                for why in short
            )
            return
    last = instrument.last_bump
    if failed is not None and (last is None or not _after(last, failed)):
        unfit.append(
            Unfit("not-bumped", sentence("bench.bump_after_calibration"), sentence("bench.clears.bump"), GUIDANCE)
        )
        return
    if last is None or last.at > at:
        unfit.append(Unfit("not-bumped", sentence("bench.not_bumped"), sentence("bench.clears.bump"), GUIDANCE))
        return
    if last.event.cylinder.expires < last.at.astimezone(rules.zone).date():
        unfit.append(
            Unfit(
                "cylinder-expired",
                sentence(
                    "bench.cylinder_expired",
                    cylinder=last.event.cylinder.name,
                    day=last.event.cylinder.expires.isoformat(),
                ),
                sentence("bench.clears.cylinder"),
                GUIDANCE,
            )
        )
        return
    if instrument.voided is not None and _after(instrument.voided, last):
        cause = sentence(f"bench.voided.{instrument.voided.event.cause}")
        unfit.append(
            Unfit("bump-voided", sentence("bench.bump_voided", cause=cause), sentence("bench.clears.bump"), GUIDANCE)
        )
        return
    _end(
        ends,
        unfit,
        at,
        last.at + rules.bump_under,
        "bump-old",
        sentence("bench.bump_old", hours=int(rules.bump_under.total_seconds() // 3600)),
        "bench.clears.bump",
    )
    if rules.in_duty_period:
        end = duty_end(last.at, rules.zone, rules.day_start)
        _end(
            ends,
            unfit,
            at,
            end,
            "bump-other-duty",
            sentence("bench.bump_other_duty", start=rules.day_start.strftime("%H:%M")),
            "bench.clears.bump",
            "site rule",
        )


def _last_failed(instrument: Instrument, rules: BenchRules) -> Done[BumpTested] | None:
    """The newest bump test that fell short, also one at a time declared wrong: what stops stays."""
    return next((b for b in reversed(instrument.bumps) if shortfalls(b.event, instrument.sensors, rules)), None)


def _check(
    instrument: Instrument, rules: BenchRules, at: datetime, unfit: list[Unfit], ends: list[tuple[datetime, Sentence]]
) -> None:
    assert instrument.registered is not None
    done = next(
        (c for c in reversed(instrument.checks) if not c.void or faults(c.event, instrument.registered, rules)), None
    )
    if done is None or done.at > at or done.at < duty_start(at, rules.zone, rules.day_start):
        unfit.append(Unfit("not-checked", sentence("bench.not_checked"), sentence("bench.clears.check"), PRACTICE))
        return
    wrong = faults(done.event, instrument.registered, rules)
    unfit.extend(
        Unfit("check-failed", sentence("bench.check_failed", why=why), sentence("bench.clears.check"), PRACTICE)
        for why in wrong
    )
    if not wrong:
        ends.append(
            (
                duty_end(done.at, rules.zone, rules.day_start),
                sentence("bench.check_ends", start=rules.day_start.strftime("%H:%M")),
            )
        )
