"""Published examples of units and densities: the source stands beside each."""

from decimal import Decimal

import pytest

from lamproom.air.units import EUROPE, UNITED_STATES, mg_to_ppm, molar_volume, ppm_to_mg, vapor_density


@pytest.mark.parametrize(
    ("mass", "published"),
    [("58.1", "2.38"), ("34.0", "1.39"), ("104.2", "4.26"), ("60.1", "2.46"), ("62.5", "2.56")],
    ids=["n-butane", "phosphine", "styrene", "isopropanol", "vinyl chloride"],
)
def test_mg_for_each_ppm_at_25_degrees(mass: str, published: str) -> None:
    """NIOSH Pocket Guide, 1 ppm = ... mg/m³; two decimals, from a molar mass of one."""
    assert Decimal(ppm_to_mg(Decimal(1), Decimal(mass)).result).quantize(Decimal("0.01")) == Decimal(published)


@pytest.mark.parametrize(("ppm", "published"), [("0.5", "1.3"), ("1", "2.7")])
def test_sulfur_dioxide_at_20_degrees(ppm: str, published: str) -> None:
    """ECHA, Directive 2017/164/EU: 0.5 ppm is 1.3 mg/m³, 1 ppm 2.7; with 24.45 L/mol the second would print 2.6."""
    mass = Decimal("64.064")
    assert Decimal(ppm_to_mg(Decimal(ppm), mass, EUROPE).result).quantize(Decimal("0.1")) == Decimal(published)
    assert Decimal(ppm_to_mg(Decimal(1), mass, UNITED_STATES).result).quantize(Decimal("0.1")) == Decimal("2.6")


def test_a_round_limit_of_carbon_dioxide() -> None:
    """NIOSH and OSHA print 5000 ppm as 9,000 mg/m³ (exact 8999.9 with M 44.0095)."""
    assert abs(Decimal(ppm_to_mg(Decimal(5000), Decimal("44.0095")).result) - 9000) < Decimal("0.2")
    assert abs(Decimal(mg_to_ppm(Decimal(9000), Decimal("44.0095")).result) - 5000) < Decimal("0.1")


def test_the_molar_volume_in_three_books() -> None:
    """Canadian Centre for Occupational Health and Safety: 62.4 x (273.2 + t) / mmHg, which is 24.484 L at 25 C; the gas
    law gives 24.4654, handbooks print 24.45: all within 0.15 %. EH40's 24.05526 at 20 C (from memory) is 24.0551."""
    law = Decimal(molar_volume(Decimal(25)).result)
    assert law.quantize(Decimal("0.0001")) == Decimal("24.4654")
    canada = Decimal("62.4") * (Decimal("273.2") + 25) / 760
    for other in (canada, UNITED_STATES):
        assert abs(other / law - 1) < Decimal("0.0015")
    assert abs(Decimal(molar_volume(Decimal(20)).result) / EUROPE - 1) < Decimal("0.00001")


def test_one_ppm_of_40_grams_a_mole() -> None:
    """`chemicals.ppmv_to_mgm3(1.0, 40.0)` prints 1.6349617809430446 (298.15 K, 101,325 Pa)."""
    assert ppm_to_mg(Decimal(1), Decimal(40), Decimal(molar_volume(Decimal(25)).result)).result == Decimal("1.635")


@pytest.mark.parametrize(
    ("mass", "published"),
    [("28.010", "0.97"), ("33.998", "1.18"), ("44.096", "1.55"), ("62.498", "2.21"), ("58.122", "2.11")],
    ids=["carbon monoxide", "phosphine", "propane", "vinyl chloride", "n-butane"],
)
def test_density_against_air(mass: str, published: str) -> None:
    """NIOSH Pocket Guide and OSHA Occupational Chemical Database. Real gases near their boiling point are denser than
    their molar mass says, butane by 5.1 %: hence 6 % and never less."""
    ours = Decimal(vapor_density(Decimal(mass)).result)
    assert Decimal("-0.005") <= Decimal(published) / ours - 1 <= Decimal("0.06")


def test_a_dilute_vapor_is_hardly_denser_than_air() -> None:
    """By definition: n-pentane at 10 % of its LFL, 0.15 vol%, is 1.0022."""
    assert vapor_density(Decimal("72.149"), Decimal("0.15")).result == Decimal("1.0022")
