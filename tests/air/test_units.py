"""Units: an open library over random inputs, and conversions that undo each other."""

from decimal import Decimal

from chemicals import mgm3_to_ppmv, ppmv_to_mgm3
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.units import mg_to_ppm, molar_volume, ppm_to_mg, saturated_density, vapor_density

ppm = st.integers(0, 100_000).map(lambda n: Decimal(n) / 10)
masses = st.integers(20, 3000).map(lambda n: Decimal(n) / 10)
celsius = st.integers(-400, 600).map(lambda n: Decimal(n) / 10)
pascals = st.integers(60_000, 105_000).map(Decimal)


@given(ppm, masses, celsius, pascals)
def test_the_gas_law_agrees_with_an_open_library(level: Decimal, mass: Decimal, t: Decimal, p: Decimal) -> None:
    """`chemicals.ppmv_to_mgm3` and back, at any temperature and pressure."""
    volume = Decimal(molar_volume(t, p).result)
    theirs = ppmv_to_mgm3(float(level), float(mass), T=float(t) + 273.15, P=float(p))
    assert abs(float(ppm_to_mg(level, mass, volume).result) - theirs) <= 0.0006 + 1e-6 * theirs
    back = mgm3_to_ppmv(float(level), float(mass), T=float(t) + 273.15, P=float(p))
    assert abs(float(mg_to_ppm(level, mass, volume).result) - back) <= 0.0006 + 1e-6 * back


@given(ppm, masses)
def test_there_and_back_is_the_same(level: Decimal, mass: Decimal) -> None:
    there = Decimal(ppm_to_mg(level, mass).result)
    assert abs(Decimal(mg_to_ppm(there, mass).result) - level) <= Decimal("0.0005") * 25 / mass + Decimal("0.0005")


@given(masses, st.integers(0, 1000).map(lambda n: Decimal(n) / 10))
def test_a_mixture_is_no_denser_than_its_gas_and_no_lighter_than_air(mass: Decimal, share: Decimal) -> None:
    pure, mixed = Decimal(vapor_density(mass).result), Decimal(vapor_density(mass, share).result)
    assert min(pure, 1) <= mixed <= max(pure, 1)


@given(masses, st.integers(0, 200_000).map(Decimal))
def test_air_full_of_vapor_is_at_most_the_vapor_itself(mass: Decimal, pressure: Decimal) -> None:
    pure, full = Decimal(vapor_density(mass).result), Decimal(saturated_density(mass, pressure).result)
    assert min(pure, 1) <= full <= max(pure, 1)
    assert pressure < 101_325 or full == pure
