"""Ventilation: laws of purging and filling, each formula against the other."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.ventilation import (
    air_changes,
    build_up_time,
    flow_needed,
    level_after,
    mixing_factor,
    purge_changes,
    purge_time,
    steady_state,
    vapor_source,
)
from lamproom.air.working import Unworkable

volumes = st.integers(1, 500).map(Decimal)
flows = st.integers(1, 200).map(Decimal)
levels = st.integers(1, 5000).map(Decimal)
factors = st.integers(10, 100).map(lambda n: Decimal(n) / 10)
supplies = st.integers(0, 100).map(Decimal)
sources = st.integers(1, 1000).map(lambda n: Decimal(n) / 1_000_000)


@given(volumes, flows, flows, levels, levels, factors)
def test_more_flow_never_takes_longer_and_worse_mixing_never_less(
    volume: Decimal, a: Decimal, b: Decimal, start: Decimal, target: Decimal, mixing: Decimal
) -> None:
    slow = purge_time(volume, min(a, b), start, target, mixing).result
    assert slow >= purge_time(volume, max(a, b), start, target, mixing).result
    assert slow >= purge_time(volume, min(a, b), start, target).result >= 0


@given(volumes, flows, levels, levels, factors, supplies)
def test_after_the_purge_time_the_level_is_there_and_just_before_it_is_not(
    volume: Decimal, flow: Decimal, start: Decimal, target: Decimal, mixing: Decimal, supply: Decimal
) -> None:
    minutes = purge_time(volume, flow, start, target, mixing, supply).result

    def level(at: Decimal) -> Decimal:
        return Decimal(level_after(at, volume, flow, start, mixing=mixing, supply_ppm=supply).result)

    if isinstance(minutes, str):
        assert minutes == "never"
        assert supply >= target
        assert start > target
    elif minutes > 0:
        assert level(minutes) <= target + Decimal("0.001")
        assert level(minutes - Decimal("0.1")) >= target - Decimal("0.001")
        changes = Decimal(purge_changes(start, target, mixing, supply).result)
        assert abs(changes * volume / flow - minutes) <= Decimal("0.11") + volume / flow / 1000
    else:
        assert start <= target


@given(volumes, flows, sources, levels, factors)
def test_a_source_fills_to_the_level_at_its_time_and_never_beyond_its_steady_state(
    volume: Decimal, flow: Decimal, source: Decimal, level: Decimal, mixing: Decimal
) -> None:
    minutes = build_up_time(volume, flow, source, level, mixing).result
    top = Decimal(steady_state(source, flow, mixing).result)
    if isinstance(minutes, str):
        assert level >= top - 1
    else:
        reached = Decimal(level_after(minutes, volume, flow, Decimal(0), source, mixing).result)
        assert reached <= level + Decimal("0.001")
        later = level_after(minutes + Decimal("0.1"), volume, flow, Decimal(0), source, mixing).result
        assert later >= level - Decimal("0.001")


@given(volumes, sources, levels)
def test_without_a_fan_a_source_fills_in_a_straight_line(volume: Decimal, source: Decimal, level: Decimal) -> None:
    minutes = Decimal(build_up_time(volume, Decimal(0), source, level).result)
    assert abs(minutes * source / volume * 1_000_000 - level) <= source / volume * 100_000 + Decimal("0.000001")
    assert build_up_time(volume, Decimal(0), Decimal(0), level).result == "never"
    assert build_up_time(volume, Decimal(0), source, level, start_ppm=level).result == 0


@given(sources, levels, factors, supplies)
def test_the_flow_needed_keeps_the_source_at_the_limit(
    source: Decimal, limit: Decimal, mixing: Decimal, supply: Decimal
) -> None:
    flow = flow_needed(source, limit, mixing, supply).result
    if isinstance(flow, str):
        assert supply >= limit
    else:
        assert steady_state(source, flow, mixing, supply).result <= limit
        less = flow - Decimal("0.11")
        assert less <= 0 or steady_state(source, less, mixing, supply).result >= limit


@given(st.integers(1, 100).map(lambda n: Decimal(n) / 100))
def test_an_efficiency_of_one_or_less_is_a_factor_of_one_or_more(efficiency: Decimal) -> None:
    factor = Decimal(mixing_factor(efficiency).result)
    assert factor >= 1
    assert 0 <= factor * efficiency - 1 <= efficiency * Decimal("0.01")


def test_a_fans_flow_in_air_changes_is_rounded_down() -> None:
    assert air_changes(Decimal("10"), Decimal("7")).result == Decimal("85.71")


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: purge_time(Decimal(0), Decimal(1), Decimal(2), Decimal(1)),
        lambda: purge_time(Decimal(1), Decimal(1), Decimal(2), Decimal(1), Decimal("0.2")),
        lambda: mixing_factor(Decimal("1.1")),
        lambda: steady_state(Decimal(-1), Decimal(1)),
        lambda: build_up_time(Decimal(1), Decimal(1), Decimal(1), Decimal(1_000_001)),
        lambda: vapor_source(Decimal(1), Decimal(1), Decimal(0)),
        lambda: level_after(Decimal("NaN"), Decimal(1), Decimal(1), Decimal(1)),
    ],
)
def test_a_figure_that_cannot_be_is_told(wrong: object) -> None:
    with pytest.raises(Unworkable):
        wrong()  # type: ignore[operator]
