"""Published examples of means, short terms and long shifts: the source stands beside each."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest

from lamproom.air.exposure import Stay, exposure, highest_mean, minutes_above
from lamproom.air.long_shifts import daily_limit, lead_limit, weekly_limit
from lamproom.air.means import additive, rest_of_shift, shift_mean
from lamproom.air.series import series

START = datetime(2026, 3, 2, 14, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


def spans(*pairs: tuple[str, str]) -> list[tuple[Decimal, Decimal]]:
    return [(Decimal(hours) * 60, Decimal(level)) for hours, level in pairs]


def test_the_eight_hour_mean_of_the_rule() -> None:
    """29 CFR 1910.1000(d)(1)(ii): 2 h at 150, 2 h at 75, 4 h at 50 ppm is 81.25 ppm."""
    assert shift_mean(spans(("2", "150"), ("2", "75"), ("4", "50"))).result == Decimal("81.25")


def test_the_same_shift_from_readings_noted_each_minute() -> None:
    """The same example through the readings: 480 of them, one a minute."""
    levels = [150] * 120 + [75] * 120 + [50] * 240
    air = series("B", [(START + i * MINUTE, Decimal(v)) for i, v in enumerate(levels)], MINUTE)
    found = exposure([Stay(air, START, START + 480 * MINUTE)], START + 480 * MINUTE)
    assert (found.shift.result, found.short_term.result, found.highest) == (Decimal("81.25"), 150, 150)


def test_the_mixture_of_the_rule() -> None:
    """29 CFR 1910.1000(d)(2)(ii): 500/1000 + 45/200 + 40/200 = 0.925."""
    gases = {"B": ("500", "1000"), "C": ("45", "200"), "D": ("40", "200")}
    assert additive({g: (Decimal(v), Decimal(m)) for g, (v, m) in gases.items()}).result == Decimal("0.925")


def test_a_peak_must_be_made_up_for() -> None:
    """29 CFR 1910.1000(b)(2), substance A (10 TWA, 25 ceiling, 50 peak for 10 min): the rest of the shift may be at
    (10 x 480 - 50 x 10) / 470 = 9.1489 ppm. Published nowhere as 9.149: ours rounds down, to 9.148."""
    assert rest_of_shift(Decimal(10), Decimal(480), Decimal(50), Decimal(10)).result == Decimal("9.148")
    air = series("A", [(START, Decimal(50)), (START + 11 * MINUTE, Decimal(9))], 11 * MINUTE)
    stays = [Stay(air, START, START + 480 * MINUTE)]
    assert minutes_above(stays, Decimal(25), START + 480 * MINUTE).result == 11  # one minute too long
    found = exposure(stays, START + 480 * MINUTE)
    assert found.shift.result < 10


@pytest.mark.parametrize(
    ("given", "published"),
    [
        # South Africa, Hazardous Chemical Substances Regulations 1995, Annexure 2; HSE EH40: 7 h 20 min at 0.12 mg/m3
        ((("7.333333333", "0.12"),), "0.11"),
        # the same: exactly 8 h at 0.15
        ((("8", "0.15"),), "0.15"),
        # the same (levels from memory): four sessions, breaks without exposure; exact 0.18625
        ((("2.5", "0.32"), ("0.25", "0"), ("2", "0.07"), ("0.75", "0"), ("2", "0.20"), ("1.5", "0.10")), "0.19"),
    ],
)
def test_short_whole_and_broken_shifts(given: tuple[tuple[str, str], ...], published: str) -> None:
    assert Decimal(shift_mean(spans(*given)).result).quantize(Decimal("0.01")) == Decimal(published)


def test_a_brief_exposure_against_fifteen_minutes() -> None:
    """South Africa, Regulations for Hazardous Chemical Agents 2020, Annexure 3, 95: 5 min at 600 ppm is 200 ppm."""
    air = series("X", [(START, Decimal(600))])
    found = exposure([Stay(air, START, START + 5 * MINUTE)], START + 60 * MINUTE)
    assert (found.short_term.result, found.worst_at) == (200, START + 5 * MINUTE)


def test_any_fifteen_minutes_and_not_the_quarters_of_the_clock() -> None:
    """By the definition of a short-term limit: 50 ppm from 09:10 to 09:20 is 33.33 ppm, not 16.67 twice."""
    nine = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
    readings = [(nine + i * MINUTE, Decimal(50 if 10 <= i < 20 else 0)) for i in range(60)]
    found = exposure([Stay(series("X", readings, MINUTE), nine)], nine + 60 * MINUTE)
    assert Decimal(found.short_term.result).quantize(Decimal("0.01")) == Decimal("33.33")


def test_a_ceiling_may_be_judged_as_a_mean_of_the_regimes_own_minutes() -> None:
    """29 CFR 1910.1000(a)(1): without an instant reading a ceiling is a 15-minute mean. Michigan (memo, 2014) judges
    its 200 ppm of carbon monoxide as a 5-minute mean: 4 min at 210 and 1 at 20 are 172."""
    air = series("carbon monoxide", [(START, Decimal(210)), (START + 4 * MINUTE, Decimal(20))], 4 * MINUTE)
    stays = [Stay(air, START, START + 60 * MINUTE)]
    assert minutes_above(stays, Decimal(200), START + 60 * MINUTE, 5 * MINUTE).result == 4
    assert highest_mean(stays, START + 60 * MINUTE, 5 * MINUTE).result == 172
    assert highest_mean(stays, START + 60 * MINUTE, 4 * MINUTE).result == 210
    assert exposure(stays, START + 60 * MINUTE).short_term.result < 200


@pytest.mark.parametrize(("hours", "limit"), [("8", 50), ("12", 25), ("10", 35), ("6", 50)])
def test_brief_and_scala_by_the_day(hours: str, limit: int) -> None:
    """Brief and Scala (1975) as a hygienist explains it: 1.0 at 8 h, 0.5 at 12 h; never for short shifts."""
    assert daily_limit(Decimal(50), Decimal(hours)).result == limit


@pytest.mark.parametrize(("hours", "factor"), [("40", "1"), ("48", "0.78125"), ("84", "0.3125"), ("30", "1")])
def test_brief_and_scala_by_the_week(hours: str, factor: str) -> None:
    """From memory of the same paper; ours is rounded down to 0.001 of a limit of 100."""
    assert abs(Decimal(weekly_limit(Decimal(100), Decimal(hours)).result) - 100 * Decimal(factor)) < Decimal("0.001")


@pytest.mark.parametrize(("hours", "limit"), [("8", 50), ("10", 40)])
def test_the_lead_rule(hours: str, limit: int) -> None:
    """29 CFR 1910.1025(c)(2): 400 / hours worked, in ug/m3."""
    assert lead_limit(Decimal(hours)).result == limit
