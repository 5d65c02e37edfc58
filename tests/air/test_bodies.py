"""What is for showing only says so, and refuses what no published rule covers."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.bodies import (
    carboxyhemoglobin,
    grain_flow,
    heat_limit,
    monoxide_guide,
    same_effect,
    sealed_minutes,
    wbgt,
)
from lamproom.air.working import Unworkable

amounts = st.integers(1, 500).map(Decimal)


def test_every_one_is_marked_for_showing_never_for_permitting() -> None:
    one = Decimal(1)
    for working in (
        monoxide_guide(Decimal(30)),
        carboxyhemoglobin(Decimal(35), Decimal(60)),
        same_effect(one, one, one, one),
        heat_limit(Decimal(300), True),
        wbgt(one, one),
        sealed_minutes(Decimal(30), one, carbon_dioxide=one),
        grain_flow(one),
    ):
        assert working.showing
        assert working.validity.startswith("For showing, never for permitting.")


@given(amounts, amounts, amounts)
def test_more_gas_or_more_time_is_never_less_in_the_blood(ppm: Decimal, minutes: Decimal, more: Decimal) -> None:
    base = carboxyhemoglobin(ppm, minutes).result
    assert base <= carboxyhemoglobin(ppm + more, minutes).result
    assert base <= carboxyhemoglobin(ppm, minutes + more).result <= 100


@given(amounts, amounts)
def test_more_people_have_less_time_and_the_earlier_of_two_ends_counts(volume: Decimal, people: Decimal) -> None:
    both = sealed_minutes(volume, people, carbon_dioxide=Decimal("0.5"), oxygen=Decimal("19.5")).result
    carbon = sealed_minutes(volume, people, carbon_dioxide=Decimal("0.5")).result
    assert both == min(carbon, sealed_minutes(volume, people, oxygen=Decimal("19.5")).result) == carbon
    assert sealed_minutes(volume, people + 1, carbon_dioxide=Decimal("0.5")).result <= carbon


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (lambda: monoxide_guide(Decimal(481)), "minutes must be from 0 to 480"),
        (lambda: heat_limit(Decimal(50), True), "heat that the body makes"),
        (lambda: sealed_minutes(Decimal(1), Decimal(1)), "share of carbon dioxide or of oxygen"),
        (lambda: sealed_minutes(Decimal(1), Decimal(1), "dancing", Decimal(1)), "“dancing”. The table has average"),
        (lambda: same_effect(Decimal(1), Decimal(1), Decimal(0), Decimal(1)), "wanted time"),
    ],
)
def test_what_no_rule_covers_is_told(wrong: object, says: str) -> None:
    with pytest.raises(Unworkable, match=says):
        wrong()  # type: ignore[operator]
