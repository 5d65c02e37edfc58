"""Exposure: what a person, or the space itself, has taken in of one gas: highest level, 15 minutes, the shift.

An upper estimate from readings of the space, never personal sampling. It only ever adds reasons to stop: each single
reading is compared with the acceptable entry figure whatever the means say.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

import numpy as np

from lamproom.air.means import SHIFT_MINUTES, SHORT_MINUTES, dose_mean
from lamproom.air.series import MILLISECOND, THOUSANDTHS, Series, milliseconds, moment
from lamproom.air.working import Unworkable, Working, of, within, worked
from lamproom.air.worst_window import SoFar, Time, dose, grown, highest, still_holds
from lamproom.words import say, sentence

MINUTE = 60_000
THOUSANDTH = Decimal("0.001")


@dataclass(frozen=True, slots=True, eq=False)
class Stay:
    """A time that someone spent in the air of a series; ``until`` None while still inside."""

    series: Series
    since: datetime
    until: datetime | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Exposure:
    """What was taken in of ``gas`` up to ``until``; all figures in ppm.

    ``highest`` is the highest level met; ``unread`` is how long no reading was there to count (gaps are filled by the
    stricter neighbor); ``worst_at`` is the end of the worst 15 minutes, None without a dose; both doses in ppm·min.
    """

    gas: str
    until: datetime
    inside: timedelta
    unread: timedelta
    highest: Decimal
    worst_at: datetime | None
    worst_dose: Decimal
    whole_dose: Decimal
    _so_far: SoFar = field(repr=False)

    @property
    def short_term(self) -> Working:
        """The highest 15-minute mean, ppm."""
        return _named("short_term", dose_mean(self.worst_dose, SHORT_MINUTES))

    @property
    def shift(self) -> Working:
        """The mean of the whole dose over 8 hours, whatever the length of the shift, ppm."""
        return _named("shift", dose_mean(self.whole_dose, SHIFT_MINUTES))


def exposure(stays: Sequence[Stay], until: datetime, before: Exposure | None = None) -> Exposure:
    """The exposure of one person to one gas from all their stays of a day, across spaces and permits.

    For the space itself, one stay from the first reading on. ``before`` is an earlier answer of which what still holds
    is used again, so that one more reading costs little; the answer is the same without it. Two stays at one time
    (someone logged in two spaces) both count. Unworkable without a stay, or for stays of different gases.
    Source: 29 CFR 1910.1000(d)(1) for the shift mean (the divisor is 8 h always); its footnotes and NIOSH for 15 min.
    """
    end = milliseconds(until)
    times = cut_at(stays, end)
    old = before._so_far if before is not None and still_holds(before._so_far, times) else None
    if old is None:
        start = min(time.since for time in times)
        old = SoFar(times, start, 0, start, max(highest(time, start, start) for time in times))
    unsettled = [int(time.air.times[-1]) for time in times if time.until == end]
    kept = grown(old, times, max(min((end, *unsettled)), old.settled))
    whole = grown(kept, times, end)
    return Exposure(
        times[0].air.gas,
        until,
        sum(time.until - time.since for time in times) * MILLISECOND,
        sum(time.air.unread(time.since, time.until) for time in times) * MILLISECOND,
        Decimal(whole.highest) / THOUSANDTHS,
        moment(whole.worst_end) if whole.worst else None,
        ppm_min(whole.worst),
        ppm_min(int(dose(times, np.array([end], dtype=np.int64))[0])),
        kept,
    )


def highest_mean(stays: Sequence[Stay], until: datetime, window: timedelta) -> Working:
    """The highest mean over any ``window``, ppm: for ceilings that a regime judges as a mean of its own length.

    Source: 29 CFR 1910.1000(a)(1), 15 min where no instant reading is feasible; a state may take another.
    """
    end, wide = milliseconds(until), window // MILLISECOND
    times = cut_at(stays, end)
    start = min(time.since for time in times)
    worst = grown(SoFar(times, start, 0, start, 0), times, end, wide).worst
    return _named("highest_mean", dose_mean(ppm_min(worst), Decimal(wide) / MINUTE))


def minutes_above(stays: Sequence[Stay], ceiling: Decimal, until: datetime, window: timedelta | None = None) -> Working:
    """How long the level stood above a ceiling, in minutes rounded up to 0.01: the whole time, or the most in any
    ``window``. For limits with an allowed excursion, such as 10 min in a shift (Table Z-2) or 5 min in any 3 h.

    Source: 29 CFR 1910.1000(b)(2).
    """
    within("ceiling", ceiling, 0)
    end = milliseconds(until)
    times = tuple(replace(time, air=_over(time.air, ceiling)) for time in cut_at(stays, end))
    start = min(time.since for time in times)
    if window is None:
        above = int(dose(times, np.array([end], dtype=np.int64))[0])
    else:
        above = grown(SoFar(times, start, 0, start, 0), times, end, window // MILLISECOND).worst
    minutes = (Decimal(above) / MINUTE).quantize(Decimal("0.01"), ROUND_CEILING)
    over = Decimal(end - start if window is None else window // MILLISECOND) / MINUTE
    inputs = (of("ceiling", ceiling, "ppm"), of("window", over.quantize(THOUSANDTH), "min"))
    # Its readings are too many to be its inputs, so it is not one that its own inputs give again.
    return replace(worked("minutes_above", minutes, "min", inputs, "29 CFR 1910.1000(b)(2)"), key="")


def _over(air: Series, ceiling: Decimal) -> Series:
    """The series as 1 where the level is above the ceiling, 0 elsewhere, so that a dose is a time."""
    above, read = ((part > int(ceiling * THOUSANDTHS)).astype(np.int64) for part in (air.levels, air.values))
    doses = np.concatenate((np.zeros(1, dtype=np.int64), np.cumsum(above[:-1] * np.diff(air.times))))
    return replace(air, values=read, levels=above, doses=doses, root=object())


def _named(key: str, working: Working) -> Working:
    return replace(working, name=say(f"air.working.{key}"), validity=say(f"air.validity.{key}"))


def cut_at(stays: Sequence[Stay], end: int) -> tuple[Time, ...]:
    """The stays in ms, oldest first, none beyond ``end``."""
    times = []
    for stay in stays:
        since = milliseconds(stay.since)
        until = end if stay.until is None else min(milliseconds(stay.until), end)
        if since <= until:
            times.append(Time(stay.series, since, until))
    if not times:
        raise Unworkable(sentence("air.unworkable.no_stay"))
    if len({time.air.gas for time in times}) > 1:
        raise Unworkable(sentence("air.unworkable.two_gases"))
    return tuple(sorted(times, key=lambda time: (time.since, time.until)))


def ppm_min(dose: int) -> Decimal:
    """A dose of whole thousandths of ppm x ms in ppm·min, rounded half up to 0.001."""
    return (Decimal(dose) / (THOUSANDTHS * MINUTE)).quantize(THOUSANDTH, ROUND_HALF_UP)
