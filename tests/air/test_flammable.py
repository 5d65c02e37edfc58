"""Flammable gas: the conversions undo each other, and corrections only ever tighten."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.flammable import (
    catalytic_void,
    mixture_lel,
    percent_lel_to_ppm,
    percent_lel_to_vol,
    ppm_to_percent_lel,
    ppm_to_vol,
    rebase,
    toxic_at_lel,
    vol_to_percent_lel,
    vol_to_ppm,
    warm_lel,
)

lels = st.integers(5, 300).map(lambda n: Decimal(n) / 10)
percents = st.integers(0, 1000).map(lambda n: Decimal(n) / 10)
CLOSE = Decimal("1e-20")


@given(percents, lels)
def test_each_conversion_undoes_the_other(percent: Decimal, lel: Decimal) -> None:
    assert abs(vol_to_percent_lel(percent_lel_to_vol(percent, lel), lel) - percent) < CLOSE
    assert abs(ppm_to_percent_lel(percent_lel_to_ppm(percent, lel), lel) - percent) < CLOSE
    assert ppm_to_vol(vol_to_ppm(percent)) == percent
    assert percent_lel_to_ppm(percent, lel) == vol_to_ppm(percent_lel_to_vol(percent, lel))


@given(percents, lels, lels)
def test_the_same_gas_is_more_of_a_lower_lel(percent: Decimal, a: Decimal, b: Decimal) -> None:
    assert rebase(percent, max(a, b), min(a, b)) >= percent - CLOSE


@given(lels, st.integers(-40, 300).map(Decimal))
def test_temperature_only_lowers_the_lel(lel: Decimal, temperature: Decimal) -> None:
    assert 0 < warm_lel(lel, temperature).result <= lel


@given(st.dictionaries(st.sampled_from("abcd"), st.integers(1, 99).map(Decimal), min_size=1), lels, lels)
def test_a_mixture_lies_between_its_gases(shares: dict[str, Decimal], a: Decimal, b: Decimal) -> None:
    table = {gas: (a if i % 2 else b) for i, gas in enumerate("abcd")}
    mixed = mixture_lel(shares, table).result
    assert min(table[g] for g in shares) - Decimal("0.001") <= mixed <= max(table[g] for g in shares)


def test_a_flammable_reading_names_the_toxic_level_that_it_hides() -> None:
    working = toxic_at_lel(Decimal(10), Decimal("1.1"), Decimal(200))
    assert working.validity == "10 % LEL of this vapor is 1100 ppm, 5.5 times its limit of 200 ppm."


def test_an_oxygen_reading_that_is_no_number_voids_the_flammable_one() -> None:
    assert [catalytic_void(Decimal(o)) for o in ("14.9", "15.0", "20.9", "0")] == [True, False, False, True]


@pytest.mark.parametrize("wrong", ["0", "-1", "101", "NaN"])
def test_an_impossible_lel_is_a_fault(wrong: str) -> None:
    with pytest.raises((ValueError, ArithmeticError)):
        percent_lel_to_vol(Decimal(10), Decimal(wrong))


def test_a_mixture_needs_each_gas_of_it() -> None:
    with pytest.raises(KeyError):
        mixture_lel({"methane": Decimal(1)}, {})
    with pytest.raises(ValueError, match="shares"):
        mixture_lel({}, {})
    with pytest.raises(ValueError, match="shares"):
        mixture_lel({"methane": Decimal(0)}, {"methane": Decimal(5)})
