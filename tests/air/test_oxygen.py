"""What a low oxygen reading may hide, and laws of it."""

from decimal import Decimal

import pytest
from fluids import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.humidity import Moist, water_vapor
from lamproom.air.oxygen import partial_pressure, standard_pressure, unaccounted
from lamproom.air.working import Unworkable

tenths = st.integers(0, 250).map(lambda n: Decimal(n) / 10)
ppm = st.integers(0, 300_000).map(Decimal)
BASE = Decimal("20.9")


def hidden(oxygen: str, **more: object) -> Decimal | str:
    return unaccounted(Decimal(oxygen), BASE, {}, **more).result  # type: ignore[arg-type]


def test_three_tenths_missing_hide_9569_ppm_and_four_hide_14354() -> None:
    """(0.3 - 0.1) / 20.9 x 1e6 = 9569.4 and 0.3 / 20.9 x 1e6 = 14354.07: worked out by hand."""
    assert (hidden("20.6"), hidden("20.5")) == (9569, 14354)


@pytest.mark.parametrize("oxygen", ["20.9", "20.8", "21.3"])
def test_a_reading_within_the_tolerance_hides_nothing(oxygen: str) -> None:
    assert hidden(oxygen) == 0


@given(tenths, st.dictionaries(st.sampled_from(["methane", "carbon dioxide"]), ppm), st.none() | ppm)
def test_taking_a_measurement_away_never_hides_less(
    oxygen: Decimal, measured: dict[str, Decimal], water: Decimal | None
) -> None:
    assert unaccounted(oxygen, BASE, {}).result >= unaccounted(oxygen, BASE, measured, water=water).result >= 0


@given(tenths, tenths)
def test_less_oxygen_never_hides_less(a: Decimal, b: Decimal) -> None:
    assert unaccounted(min(a, b), BASE, {}).result >= unaccounted(max(a, b), BASE, {}).result


@given(tenths)
def test_a_sensor_that_shows_less_than_nothing_explains_nothing(oxygen: Decimal) -> None:
    below = unaccounted(oxygen, BASE, {"methane": Decimal(-5000)})
    assert below.result == unaccounted(oxygen, BASE, {}).result


def test_clean_air_that_is_drier_inside_reads_more_and_hides_nothing_but_the_same_reading_hides_gas() -> None:
    """A yard of 35 C and 70 %, a cellar of 16 C and 95 %: clean air reads 21.4 there (Dalton's law)."""
    water = Decimal(water_vapor(Moist(Decimal(35), Decimal(70)), Moist(Decimal(16), Decimal(95))).result)
    assert unaccounted(Decimal("21.4"), BASE, {}, water=water).result == 0
    assert 17_000 < Decimal(unaccounted(BASE, BASE, {}, water=water).result) < 19_000


def test_the_working_names_what_was_taken_off_and_what_was_not_known() -> None:
    working = unaccounted(Decimal("20.5"), BASE, {"carbon dioxide": Decimal(4000)})
    assert working.result == 10354
    assert [(i.name, i.value) for i in working.inputs][3:] == [
        ("carbon dioxide", "4000"),
        ("extra water vapor", "not known, nothing taken off"),
    ]
    assert "not used up" in working.validity


@pytest.mark.parametrize("missing", ["NaN", "Infinity"])
def test_a_missing_reading_is_never_worked_with(missing: str) -> None:
    with pytest.raises(Unworkable, match="no reading"):
        unaccounted(Decimal(missing), BASE, {})
    with pytest.raises(Unworkable, match="no reading"):
        unaccounted(BASE, BASE, {"methane": Decimal(missing)})
    with pytest.raises(Unworkable, match="hide gas"):
        unaccounted(BASE, BASE, {}, tolerance=Decimal("-0.1"))


def test_partial_pressure_stands_beside_this_places_own_fresh_air_and_never_allows() -> None:
    working = partial_pressure(Decimal("19.5"), Decimal("84559.7"))
    assert (working.result, working.unit) == (124, "mmHg")
    assert "133 mmHg" in working.validity
    assert "never allows an entry" in working.validity
    with pytest.raises(Unworkable, match="air pressure must be more than 0"):
        partial_pressure(BASE, Decimal(0))


@given(st.integers(0, 110_000).map(lambda n: Decimal(n) / 10))
def test_the_standard_atmosphere_agrees_with_an_open_library(altitude: Decimal) -> None:
    """`fluids.ATMOSPHERE_1976` at any altitude up to 11 km, to 0.1 Pa and its rounding."""
    ours = standard_pressure(altitude)
    assert abs(float(ours.result) - ATMOSPHERE_1976(float(altitude)).P) <= 0.11
    assert Decimal(ours.result).as_tuple().exponent == -1


@pytest.mark.parametrize("outside", ["-1", "11001", "NaN"])
def test_the_standard_atmosphere_is_not_stretched(outside: str) -> None:
    with pytest.raises((Unworkable, ArithmeticError)):
        standard_pressure(Decimal(outside))


def test_water_alone_explains_a_damp_vault_and_an_unread_hygrometer_explains_nothing() -> None:
    """A yard of 5 C and 70 %, a vault of 22 C and 100 %: 20.5 is water alone (the arithmetic is Dalton's law)."""
    yard, vault = Moist(Decimal(5), Decimal(70)), Moist(Decimal(22), Decimal(100))
    water = Decimal(water_vapor(yard, vault).result)
    assert hidden("20.5", water=water) == 0
    assert hidden("20.5", water=Decimal(water_vapor(yard, None).result)) == 14354
    assert hidden("20.3", water=water) == 23923 - int(water)  # (0.6 - 0.1) / 20.9 = 23,923 ppm, less the water
