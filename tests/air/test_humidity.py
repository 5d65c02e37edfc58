"""Water vapor: the published formula against an independent one, and laws of what it may explain."""

from decimal import Decimal

import pytest
from chemicals import iapws95_Psat
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.humidity import Moist, damp_oxygen, saturation_pressure, water_vapor
from lamproom.air.working import Unworkable

celsius = st.integers(-450, 600).map(lambda n: Decimal(n) / 10)
warm = st.integers(0, 400).map(lambda n: Decimal(n) / 10)
humidity = st.integers(0, 1000).map(lambda n: Decimal(n) / 10)
air = st.builds(Moist, warm, humidity)
BASE = Decimal("20.9")


@given(st.integers(1, 600).map(lambda n: Decimal(n) / 10))
def test_the_saturation_pressure_agrees_with_the_steam_tables(t: Decimal) -> None:
    """IAPWS-95, as the open library `chemicals` works it out, above freezing: within 0.32 % (and 0.5 Pa of rounding);
    the worst of all tenths of a degree is 0.313 % at 29.3 °C."""
    true = iapws95_Psat(float(t) + 273.15)
    assert abs(float(saturation_pressure(t).result) - true) <= 0.0032 * true + 0.5


@pytest.mark.parametrize(("t", "pascal"), [("0", 611), ("20", 2339), ("25", 3169), ("40", 7384)])
def test_the_saturation_pressure_at_four_round_temperatures(t: str, pascal: int) -> None:
    """Steam tables (IAPWS), from memory: 611, 2339, 3169 and 7384 Pa."""
    assert abs(int(saturation_pressure(Decimal(t)).result) - pascal) <= 0.003 * pascal


def test_a_saturated_vault_of_22_degrees_reads_20_5_from_a_yard_of_5_degrees_and_70_percent() -> None:
    yard, vault = Moist(Decimal(5), Decimal(70)), Moist(Decimal(22), Decimal(100))
    assert damp_oxygen(BASE, yard, vault).result == Decimal("20.5")
    assert damp_oxygen(BASE, vault, yard).result == Decimal("21.3")
    assert water_vapor(vault, yard).result < -20_000


@given(air, air)
def test_water_never_explains_more_than_what_truly_goes_missing(outside: Moist, inside: Moist) -> None:
    """Worked out apart: dry air shrinks by (1 - inside) / (1 - outside); the loss as a share of the set-up reading."""

    def share(one: Moist) -> float:
        return float(one.humidity) / 100 * iapws95_Psat(float(one.celsius) + 273.15) / 101325

    lost = 1 - (1 - share(inside)) / (1 - share(outside))
    explained = float(water_vapor(outside, inside).result) / 1e6
    assert explained <= lost + abs(lost) * 0.01 + 5e-5


@given(air, air, air)
def test_damper_inside_never_explains_less(outside: Moist, a: Moist, b: Moist) -> None:
    low, high = sorted((a, b), key=lambda one: water_vapor(Moist(Decimal(0), Decimal(0)), one).result)
    assert water_vapor(outside, low).result <= water_vapor(outside, high).result


@given(air)
def test_what_nobody_read_explains_nothing(one: Moist) -> None:
    for working in (water_vapor(None, one), water_vapor(one, None), water_vapor(None, None)):
        assert working.result == 0
        assert "not known, nothing taken off" in {given.value for given in working.inputs}


@pytest.mark.parametrize(
    ("moist", "says"),
    [
        (Moist(Decimal(20), Decimal(101)), "relative humidity must be from 0 to 100. It says 101."),
        (Moist(Decimal(61), Decimal(50)), "temperature must be from −45 to 60. It says 61."),
        (Moist(Decimal("NaN"), Decimal(50)), "temperature must be from −45 to 60. It says NaN."),
    ],
)
def test_a_figure_that_cannot_be_is_told(moist: Moist, says: str) -> None:
    with pytest.raises(Unworkable, match=says):
        water_vapor(Moist(Decimal(5), Decimal(70)), moist)
