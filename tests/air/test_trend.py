"""Where readings are heading, and readings that cannot be."""

import math
from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.limits import Kind, limit_of
from lamproom.air.trend import (
    Direction,
    cannot_be,
    direction,
    disagree,
    furthest,
    minutes_to_level,
    oxygen_left,
    toward,
    unmoved,
)
from lamproom.air.working import Unworkable

START = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
MONOXIDE = limit_of(Kind.TOXIC, "carbon monoxide", "ppm", None, Decimal(35), "site rule")
OXYGEN = limit_of(Kind.OXYGEN, "oxygen", "vol%", Decimal("19.5"), Decimal("23.5"), "29 CFR 1910.146(b)")
ONE = Decimal(1)
levels = st.integers(0, 1000).map(lambda n: Decimal(n) / 10)


def at(*pairs: tuple[int, str]) -> list[tuple[datetime, Decimal]]:
    return [(START + timedelta(minutes=m), Decimal(v)) for m, v in pairs]


@pytest.mark.parametrize(
    ("readings", "going"),
    [
        ("2 3 5", "rising"),
        ("2 5 5", "steady"),
        ("5 2 6", "rising"),
        ("9 8 7", "falling"),
        ("9 7 8", "steady"),
        ("7 9 6", "falling"),
        ("5 5.4 5.9", "steady"),
        ("1 5", "unknown"),
        ("", "unknown"),
        ("99 2 2 3", "rising"),
    ],
)
def test_the_direction_is_told_by_the_last_against_both_before(readings: str, going: str) -> None:
    assert direction([Decimal(v) for v in readings.split()], ONE).value == going


def test_rising_toward_a_limit_says_when_by_the_steepest_pace() -> None:
    """From 12 to 20 in 10 min is 0.8 a minute, from 5 to 20 in 20 min 0.75: 15 / 0.8 = 18.75 min."""
    found = toward(at((0, "5"), (10, "12"), (20, "20")), MONOXIDE, ONE)
    assert (found.direction, found.toward, found.outside) == (Direction.RISING, True, False)
    assert (found.working.result, found.at) == (18, START + timedelta(minutes=38))


def test_oxygen_heads_for_its_low_side_by_falling_and_for_its_high_side_by_rising() -> None:
    down = toward(at((0, "20.9"), (10, "20.5"), (20, "20.1")), OXYGEN, Decimal("0.1"))
    assert (down.toward, down.at) == (True, START + timedelta(minutes=20 + 15))
    up = toward(at((0, "20.9"), (10, "21.5"), (20, "22.5")), OXYGEN, Decimal("0.1"))
    assert (up.toward, up.working.result) == (True, 10)


@pytest.mark.parametrize(
    ("readings", "outside"),
    [
        (((0, "20"), (10, "12"), (20, "5")), False),
        (((0, "5"), (10, "5"), (20, "5")), False),
        (((0, "5"), (10, "20"), (20, "36")), True),
        (((0, "5"), (10, "20"), (20, "35")), True),
        (((0, "5"), (10, "20")), False),
        (((0, "5"), (0, "6"), (0, "9")), False),
    ],
)
def test_what_is_not_heading_there_has_no_moment(readings: tuple[tuple[int, str], ...], outside: bool) -> None:
    found = toward(at(*readings), MONOXIDE, ONE)
    assert (found.toward, found.at, found.outside) == (False, None, outside)
    assert found.working.result == "not heading for its limit"


@given(levels, levels, levels.filter(lambda v: v > 0))
def test_the_level_is_not_yet_there_after_its_minutes_and_is_a_minute_later(
    level: Decimal, bound: Decimal, pace: Decimal
) -> None:
    minutes = Decimal(minutes_to_level(level, bound, pace).result)
    assert minutes * pace <= abs(bound - level) < (minutes + 1) * pace


def test_readings_out_of_order_or_missing_are_told() -> None:
    with pytest.raises(Unworkable, match="not in the order"):
        toward(at((10, "5"), (0, "6")), MONOXIDE, ONE)
    with pytest.raises(Unworkable, match="no readings"):
        toward([], MONOXIDE, ONE)


@pytest.mark.parametrize(
    ("readings", "changed", "frozen"),
    [
        ("20.9 20.9 20.9 20.9", False, False),
        ("20.8 20.8 20.8", False, False),
        ("20.4 20.4 20.4", False, True),
        ("20.4 20.4", False, False),
        ("20.4 20.5 20.4", False, False),
        ("19 20.4 20.4 20.4", False, True),
        ("20.9 20.9 20.9", True, True),
    ],
)
def test_a_display_is_suspected_only_away_from_clean_air_or_after_a_known_change(
    readings: str, changed: bool, frozen: bool
) -> None:
    found = unmoved([Decimal(v) for v in readings.split()], Decimal("20.9"), Decimal("0.1"), changed)
    assert found is frozen


@given(levels, st.integers(0, 600).map(Decimal), st.integers(1, 120).map(Decimal))
def test_a_step_of_a_first_order_sensor_is_never_called_impossible(level: Decimal, s: Decimal, t90: Decimal) -> None:
    """Worked out apart: after s seconds 1 - exp(-s ln 10 / t90) of the step to the end of the range is done."""
    done = 1 - math.exp(-float(s) * math.log(10) / float(t90))
    up, down = float(level) + (100 - float(level)) * done, float(level) * (1 - done)
    assert abs(float(furthest(level, s, t90, Decimal(100), Decimal(0)).result) - up) <= 0.006
    for now in (up, down):
        figure = Decimal(f"{now:.1f}")
        assert not cannot_be(level, figure, s, t90, Decimal(100), step=Decimal("0.1"))
    too_far = Decimal(f"{up + 0.3:.1f}")
    assert cannot_be(level, too_far, s, t90, Decimal(100), step=Decimal("0.1"))
    too_low = Decimal(f"{down - 0.3:.1f}")
    assert cannot_be(level, too_low, s, t90, Decimal(100), step=Decimal("0.1"))


def test_a_reading_beyond_the_range_cannot_be() -> None:
    assert cannot_be(Decimal(20), Decimal("30.1"), Decimal(600), Decimal(15), Decimal(30))
    assert cannot_be(Decimal(1), Decimal("-0.1"), Decimal(600), Decimal(15), Decimal(30))
    assert not cannot_be(Decimal(1), Decimal("29.9"), Decimal(600), Decimal(15), Decimal(30))


@pytest.mark.parametrize(
    ("oxygen", "gas", "wrong"),
    [
        ("20.9", "0.5", False),
        ("20.9", "5", True),
        ("19.9", "5", False),
        ("20.16", "5", False),
        ("20.17", "5", True),
        ("9", "0", False),
        ("20.9", "-0.2", False),
    ],
)
def test_oxygen_that_a_gas_should_have_pushed_out_is_a_contradiction(oxygen: str, gas: str, wrong: bool) -> None:
    """5 vol% of gas leaves 20.9 x 0.95 = 19.86 vol% of oxygen (19.855, rounded); 0.3 vol% is the tolerance."""
    assert disagree(Decimal(oxygen), Decimal(gas), Decimal("0.3")) is wrong
    assert oxygen_left(Decimal("20.9"), Decimal(5)).result == Decimal("19.86")
