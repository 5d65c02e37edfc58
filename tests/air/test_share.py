"""How much of its limit a reading takes up, and the volume of a round space."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.share import round_volume, share_of_limit
from lamproom.air.working import Unworkable

levels = st.decimals(min_value=0, max_value=1000, places=1)


def test_a_reading_just_below_its_limit_is_not_said_to_be_further_from_it() -> None:
    assert share_of_limit(Decimal("9.91"), Decimal("10")).result == 100
    assert share_of_limit(Decimal("35"), Decimal("35")).result == 100


@given(levels, st.decimals(min_value="0.1", max_value=1000, places=1))
def test_the_share_is_never_less_than_the_reading_is(level: Decimal, limit: Decimal) -> None:
    assert Decimal(share_of_limit(level, limit).result) >= level / limit * 100


def test_a_drifting_sensor_below_nought_takes_up_nothing() -> None:
    assert share_of_limit(Decimal("-2"), Decimal("10")).result == 0


@pytest.mark.parametrize("limit", [Decimal(0), Decimal(-1), Decimal("NaN")])
def test_there_is_no_share_of_a_limit_that_is_none(limit: Decimal) -> None:
    with pytest.raises(Unworkable):
        share_of_limit(Decimal(1), limit)


def test_a_round_space_is_as_large_as_geometry_says() -> None:
    """pi / 4 x 2.4² x 5.1 = 23.07, worked out by hand."""
    assert round_volume(Decimal("2.4"), Decimal("5.1")).result == Decimal("23.1")
