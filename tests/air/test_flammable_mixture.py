"""Mixtures and warm spaces: an independent library over random inputs, and laws that hold for every one."""

from decimal import Decimal

import pytest
from chemicals import fire_mixing
from chemicals.safety import LFL_ISO_10156_2017, ISO_10156_2017_Kks
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.flammable_mixture import (
    INERT_COEFFICIENTS,
    Inert,
    inert_lel,
    mixture_lel,
    mixture_percent_lel,
    mixture_uel,
)
from lamproom.air.limiting_oxygen import limiting_oxygen, old_tube_oxygen
from lamproom.air.warm_space import warm_lel
from lamproom.air.working import Unworkable

shares = st.integers(1, 999).map(Decimal)
lels = st.integers(5, 300).map(lambda n: Decimal(n) / 10)
fuels = st.dictionaries(st.sampled_from("abcd"), st.tuples(shares, lels), min_size=1)
volumes = st.integers(0, 500).map(lambda n: Decimal(n) / 100)
INERT_CAS = {"nitrogen": ("7727-37-9", "1"), "carbon dioxide": ("124-38-9", "1.5"), "argon": ("7440-37-1", "0.55")}


def test_the_coefficients_of_inert_gases_are_those_of_the_standard() -> None:
    """ISO 10156:2017, as the open library `chemicals` keeps it by CAS number."""
    cas = {gas: number for gas, (number, _) in INERT_CAS.items()}
    cas |= {"oxygen": "7782-44-7", "helium": "7440-59-7", "sulfur dioxide": "7446-09-5"}
    assert {gas: float(k) for gas, k in INERT_COEFFICIENTS.items()} == {
        g: ISO_10156_2017_Kks[n] for g, n in cas.items()
    }


def split(fuel: dict[str, tuple[Decimal, Decimal]]) -> tuple[dict[str, Decimal], dict[str, Decimal]]:
    return {gas: share for gas, (share, _) in fuel.items()}, {gas: lel for gas, (_, lel) in fuel.items()}


@given(fuels)
def test_le_chatelier_agrees_with_an_open_library(fuel: dict[str, tuple[Decimal, Decimal]]) -> None:
    """`chemicals.fire_mixing`, to our rounding of 0.001 vol%: down for the lower limit, up for the upper."""
    share, limit = split(fuel)
    whole = float(sum(share.values()))
    theirs = 100 * fire_mixing([float(v) / whole for v in share.values()], [float(v) / 100 for v in limit.values()])
    assert -1e-9 <= theirs - float(mixture_lel(share, limit).result) <= 0.001 + 1e-9
    assert -1e-9 <= float(mixture_uel(share, limit).result) - theirs <= 0.001 + 1e-9


@given(fuels, st.dictionaries(st.sampled_from(sorted(INERT_CAS)), shares, min_size=1))
def test_a_gas_that_is_part_inert_is_never_above_iso_10156_or_plain_dilution(
    fuel: dict[str, tuple[Decimal, Decimal]], inert: dict[str, Decimal]
) -> None:
    """`chemicals.LFL_ISO_10156_2017` over random gases; where it goes below 0 ours says 0."""
    share, limit = split(fuel)
    whole = float(sum(share.values()) + sum(inert.values()))
    zs = [float(v) / whole for v in (*share.values(), *inert.values())]
    flammable = [float(v) / 100 for v in limit.values()]
    cas = [f"fuel {gas}" for gas in share] + [INERT_CAS[gas][0] for gas in inert]
    iso = 100 * LFL_ISO_10156_2017(zs, [*flammable, *[None] * len(inert)], cas)
    dilution = float(mixture_lel(share, limit).result) * whole / float(sum(share.values()))
    ours = inert_lel(share, limit, {gas: Inert(v, Decimal(INERT_CAS[gas][1])) for gas, v in inert.items()})
    lowest = max(min(iso, dilution), 0)
    assert abs(float(ours.result) - lowest) <= 0.0011 * whole / float(sum(share.values()))


@given(fuels)
def test_a_mixture_lies_between_its_gases(fuel: dict[str, tuple[Decimal, Decimal]]) -> None:
    share, limit = split(fuel)
    assert min(limit.values()) - Decimal("0.001") <= mixture_lel(share, limit).result <= max(limit.values())


@given(st.dictionaries(st.sampled_from("abc"), volumes), volumes, lels)
def test_one_more_gas_never_brings_a_mixture_further_from_burning(
    measured: dict[str, Decimal], more: Decimal, lel: Decimal
) -> None:
    limits = dict.fromkeys("abcd", lel)
    assert mixture_percent_lel({**measured, "d": more}, limits).result >= mixture_percent_lel(measured, limits).result


def test_a_sensor_below_zero_takes_nothing_off_the_others() -> None:
    limits = {"a": Decimal(5), "b": Decimal(2)}
    assert mixture_percent_lel({"a": Decimal("-0.5"), "b": Decimal("0.1")}, limits).result == 5


@given(lels, st.integers(-40, 300).map(Decimal), st.none() | st.integers(20, 2000).map(Decimal))
def test_temperature_only_lowers_the_lel(lel: Decimal, temperature: Decimal, heat: Decimal | None) -> None:
    plain = warm_lel(lel, temperature).result
    assert 0 < plain <= lel
    assert 0 <= warm_lel(lel, temperature, heat).result <= plain


def test_a_mixture_needs_each_gas_of_it() -> None:
    with pytest.raises(Unworkable, match="There is no LEL for methane"):
        mixture_lel({"methane": Decimal(1)}, {})
    with pytest.raises(Unworkable, match="There is no LEL for methane"):
        mixture_percent_lel({"methane": Decimal(1)}, {})
    with pytest.raises(Unworkable, match="at least one gas"):
        mixture_lel({}, {})
    with pytest.raises(Unworkable, match="each share above 0"):
        mixture_lel({"methane": Decimal(0)}, {"methane": Decimal(5)})


@pytest.mark.parametrize("wrong", [lambda: warm_lel(Decimal(5), Decimal("300.1")), lambda: limiting_oxygen("sand")])
def test_what_no_published_rule_covers_is_not_worked_out(wrong: object) -> None:
    with pytest.raises(Unworkable):
        wrong()  # type: ignore[operator]


@given(st.integers(1, 210).map(lambda n: Decimal(n) / 10))
def test_an_old_tube_figure_only_goes_down(printed: Decimal) -> None:
    assert 0 <= old_tube_oxygen(printed).result <= printed
