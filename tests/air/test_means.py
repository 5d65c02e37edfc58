"""Means against their limits: the laws of the shift, of gases of like effect and of long shifts."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.leave_by import minutes_to_limit
from lamproom.air.long_shifts import daily_limit, lead_limit, weekly_limit
from lamproom.air.means import Nearness, additive, dose_mean, nearness, rest_of_shift, shift_mean
from lamproom.air.working import Unworkable

levels = st.integers(0, 5000).map(Decimal)
limits = st.integers(1, 5000).map(Decimal)
minutes = st.integers(0, 480).map(Decimal)


@given(st.lists(st.tuples(minutes, levels), min_size=1), minutes, minutes, levels)
def test_a_shift_mean_is_additive_over_a_split_of_time(
    spans: list[tuple[Decimal, Decimal]], a: Decimal, b: Decimal, level: Decimal
) -> None:
    whole, split = shift_mean([*spans, (a + b, level)]), shift_mean([*spans, (a, level), (b, level)])
    assert whole.result == split.result >= shift_mean(spans).result


@given(st.dictionaries(st.sampled_from("abc"), st.tuples(levels, limits), min_size=1), levels, limits, limits)
def test_one_more_gas_and_a_stricter_limit_never_lower_the_sum(
    gases: dict[str, tuple[Decimal, Decimal]], level: Decimal, limit: Decimal, other: Decimal
) -> None:
    low, high = sorted((limit, other))
    sums = [additive(gases).result, additive({**gases, "d": (level, high)}).result]
    sums.append(additive({**gases, "d": (level, low)}).result)
    assert sums == sorted(sums)


@pytest.mark.parametrize("hours", [Decimal(n) / 2 for n in range(1, 48)])
def test_a_long_shift_never_raises_a_limit(hours: Decimal) -> None:
    assert daily_limit(Decimal(50), hours).result <= 50
    assert weekly_limit(Decimal(50), hours * 3).result <= 50
    assert daily_limit(Decimal(50), hours).result >= daily_limit(Decimal(50), hours + Decimal("0.5")).result
    assert lead_limit(hours).result <= 50


def test_a_limit_that_comes_out_round_stays_round() -> None:
    """379.354 x 8 x (24 - 16.75) / (16 x 16.75) is 82.099 exactly; a factor rounded first would leave 82.098."""
    assert daily_limit(Decimal("379.354"), Decimal("16.75")).result == Decimal("82.099")


def test_a_ceiling_is_never_lowered_for_a_long_shift() -> None:
    for kind in ("ceiling", "STEL", "peak"):
        with pytest.raises(Unworkable, match=f"A {kind} is not lowered"):
            daily_limit(Decimal(20), Decimal(12), kind)


@pytest.mark.parametrize("hours", ["0", "24.5", "-1", "NaN"])
def test_a_day_has_24_hours(hours: str) -> None:
    with pytest.raises(Unworkable, match="hours a day"):
        daily_limit(Decimal(20), Decimal(hours))


def test_reached_is_at_the_figure_and_approaching_from_half_of_it() -> None:
    found = [nearness(Decimal(v), Decimal(10)).value for v in ("4.99", "5", "9.99", "10", "11", "NaN")]
    assert found == ["under", "approaching", "approaching", "reached", "reached", "unknown"]
    assert nearness(Decimal("7.9"), Decimal(10), Decimal("0.8")) is Nearness.UNDER


@given(levels, limits, st.integers(1, 3000).map(Decimal))
def test_minutes_to_the_limit_are_those_that_fill_it(dose: Decimal, limit: Decimal, level: Decimal) -> None:
    found = minutes_to_limit(dose, level, limit, Decimal(480)).result
    assert isinstance(found, Decimal)
    assert dose + level * (found + 1) > limit * 480 or found == 0
    assert dose + level * found <= limit * 480 or found == 0


def test_clean_air_reaches_no_limit_and_a_full_dose_has_reached_it() -> None:
    assert minutes_to_limit(Decimal(5), Decimal(0), Decimal(1), Decimal(480)).result == "not reached at this level"
    assert minutes_to_limit(Decimal(480), Decimal(0), Decimal(1), Decimal(480)).result == 0


def test_a_long_excursion_leaves_nothing_for_the_rest() -> None:
    assert rest_of_shift(Decimal(10), Decimal(480), Decimal(500), Decimal(10)).result == 0
    with pytest.raises(Unworkable, match="rest of the shift"):
        rest_of_shift(Decimal(10), Decimal(480), Decimal(50), Decimal(480))


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: shift_mean([]),
        lambda: shift_mean([(Decimal(-1), Decimal(5))]),
        lambda: additive({}),
        lambda: additive({"a": (Decimal("NaN"), Decimal(1))}),
        lambda: additive({"a": (Decimal(1), Decimal(0))}),
        lambda: dose_mean(Decimal(1), Decimal(0)),
    ],
)
def test_what_is_no_figure_is_not_worked_with(wrong: object) -> None:
    with pytest.raises(Unworkable):
        wrong()  # type: ignore[operator]
