"""Published examples of dose, heat, sealed spaces and grain: the source stands beside each. For showing only."""

from decimal import Decimal

import pytest

from lamproom.air.bodies import (
    BREATHING,
    FT3_PER_M3,
    HELPLESS_S,
    carboxyhemoglobin,
    grain_flow,
    heat_limit,
    monoxide_guide,
    same_effect,
    sealed_minutes,
    wbgt,
)
from lamproom.air.units import ppm_to_mg


@pytest.mark.parametrize(
    ("minutes", "ppm", "mg"),
    [(15, 90, 100), (30, 50, 60), (60, 25, 30), (480, 10, 10), (16, 50, 60), (481 - 1, 10, 10)],
)
def test_carbon_monoxide_by_the_who(minutes: int, ppm: int, mg: int) -> None:
    """WHO air quality guidelines for Europe, as a paper of 2018 quotes them. Rounded there: 100 mg/m³ is 87 ppm."""
    assert monoxide_guide(Decimal(minutes)).result == ppm
    assert abs(Decimal(ppm_to_mg(Decimal(ppm), Decimal("28.010")).result) / mg - 1) < Decimal("0.15")


@pytest.mark.parametrize(("ppm", "minutes", "percent"), [("35", "480", "5.2"), ("100", "60", "3.5")])
def test_carboxyhemoglobin(ppm: str, minutes: str, percent: str) -> None:
    """Peterson and Stewart (1970), from memory; NIOSH built its 35 ppm on about 5 %."""
    assert carboxyhemoglobin(Decimal(ppm), Decimal(minutes)).result == Decimal(percent)


@pytest.mark.parametrize(("ppm", "exponent", "published"), [("293", "3.5", 357), ("713", "2.2", 977)])
def test_the_same_effect_in_half_an_hour(ppm: str, exponent: str, published: int) -> None:
    """NIOSH documentation for IDLH values (1994): chlorine 293 ppm for 1 h is 357 for 30 min, hydrogen sulfide 713 is
    977 (factors 1.22 and 1.37)."""
    assert same_effect(Decimal(ppm), Decimal(60), Decimal(30), Decimal(exponent)).result == published


@pytest.mark.parametrize(
    ("watts", "new", "used"), [("300", "24.97", "28.21"), ("200", "27.46", "30.24"), ("520", "21.60", "25.47")]
)
def test_limits_of_heat(watts: str, new: str, used: str) -> None:
    """NIOSH 2016-106, formula from memory; two decimals, ours rounded down (within 0.01)."""
    assert 0 <= Decimal(new) - Decimal(heat_limit(Decimal(watts), False).result) <= Decimal("0.01")
    assert 0 <= Decimal(used) - Decimal(heat_limit(Decimal(watts), True).result) <= Decimal("0.01")


def test_wet_bulb_globe_temperature() -> None:
    """NIOSH 2016-106, from memory."""
    assert wbgt(Decimal(25), Decimal(40)).result == Decimal("29.5")
    assert wbgt(Decimal(25), Decimal(45), Decimal(32)).result == Decimal("29.7")


def test_rates_of_breathing() -> None:
    """An engineering report for refuges, citing Foster-Miller (1983), MSHA PIB 07-03 and NAVSEA (2006), in ft³/min. The
    second is MSHA's 1.32 and 1.08 ft³/h (from memory, 30 CFR part 7 subpart L)."""
    assert {who: (str(used), str(made)) for who, (used, made) in BREATHING.items()} == {
        "average": ("0.022", "0.019"),
        "rescue": ("0.022", "0.018"),
        "sitting": ("0.011", "0.009"),
        "walking": ("0.042", "0.040"),
    }
    assert [rate * 60 for rate in BREATHING["rescue"]] == [Decimal("1.320"), Decimal("1.080")]


@pytest.mark.parametrize(
    ("target", "minutes"),
    [({"carbon_dioxide": "0.5"}, 256), ({"oxygen": "19.5"}, 636), ({"carbon_dioxide": "4"}, 2200)],
)
def test_carbon_dioxide_comes_first(target: dict[str, str], minutes: int) -> None:
    """By arithmetic on the rates above: one person in 1000 ft³. Exact 255.6, 636.4 and 2200; ours rounds down."""
    volume = 1000 / FT3_PER_M3
    found = sealed_minutes(volume, Decimal(1), "rescue", **{name: Decimal(v) for name, v in target.items()})
    assert 0 <= minutes - Decimal(found.result) <= 1


def test_grain() -> None:
    """An OSHA drawing: 2 to 3 seconds until helpless. Farm press: a 10-inch auger moves 68 bushels a minute, which is
    84.6 ft³ (1 bushel = 1.2444 ft³)."""
    found = grain_flow(Decimal(68))
    assert found.result == Decimal("84.6")
    assert HELPLESS_S == (2, 3)
    assert "helpless after 2 to 3 seconds" in found.validity
