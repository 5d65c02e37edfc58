"""Numbers that somebody published, or that follow from a published rule: the source stands beside each."""

from decimal import Decimal
from itertools import pairwise

import pytest

from lamproom.air.flammable import percent_lel_to_ppm, percent_lel_to_vol, toxic_at_lel
from lamproom.air.flammable_mixture import (
    INERT_COEFFICIENTS,
    Inert,
    inert_lel,
    mixture_lel,
    mixture_percent_lel,
    mixture_uel,
)
from lamproom.air.limiting_oxygen import MEASURED, estimated_oxygen, limiting_oxygen, old_tube_oxygen
from lamproom.air.limits import Kind, Standing, judge, limit_of
from lamproom.air.oxygen import partial_pressure, standard_pressure, unaccounted
from lamproom.air.sampling import hose_delay, verification_points
from lamproom.air.substance_table import SUBSTANCES
from lamproom.air.substances import relative_density
from lamproom.air.units import molar_volume, ppm_to_mg
from lamproom.air.warm_space import bulletin_factor, burgess_wheeler, warm_lel


@pytest.mark.parametrize(
    ("lel", "ppm"),
    [("4.0", 4000), ("12.5", 12500), ("15", 15000), ("1.79", 1790), ("1.1", 1100), ("1.2", 1200), ("1.05", 1050)],
)
def test_ten_percent_of_the_lel_in_ppm(lel: str, ppm: int) -> None:
    """NIOSH documentation for IDLH values (1994) prints both, e.g. carbon monoxide "12.5% (10% LEL, 12,500 ppm)",
    benzene "1.2% (10% LEL, 1,200 ppm)"."""
    assert percent_lel_to_ppm(Decimal(10), Decimal(lel)) == ppm


def test_half_of_ten_percent_of_methane_is_a_quarter_percent() -> None:
    """OSHA's preamble of 1993, 58 FR 4488: LFL 5 percent, hazardous 0.5 percent, ventilated space 0.25 percent."""
    assert percent_lel_to_vol(Decimal(10), Decimal(5)) == Decimal("0.5")
    assert percent_lel_to_vol(Decimal(5), Decimal(5)) == Decimal("0.25")


def test_a_flammable_alarm_is_far_over_the_toxic_limit_of_benzene_and_of_carbon_monoxide() -> None:
    """NIOSH (1994) for the LELs; limits 1 ppm (29 CFR 1910.1028) and IDLH 1,200 ppm."""
    assert toxic_at_lel(Decimal(10), Decimal("1.2"), Decimal(1)).result == 1200
    assert toxic_at_lel(Decimal(10), Decimal("12.5"), Decimal(1200)).result == Decimal("10.4")


def test_natural_gas() -> None:
    """US Bureau of Mines Bulletin 503, Coward and Jones (1952): 4.37 % (from memory; arithmetic agrees)."""
    shares = {"methane": Decimal(80), "ethane": Decimal(15), "propane": Decimal(4), "butane": Decimal(1)}
    lels = {"methane": "5.0", "ethane": "3.22", "propane": "2.37", "butane": "1.86"}
    result = mixture_lel(shares, {gas: Decimal(lel) for gas, lel in lels.items()}).result
    assert abs(Decimal(result) - Decimal("4.37")) <= Decimal("0.005")


def test_hexane_methane_ethylene() -> None:
    """Crowl and Louvar, Chemical Process Safety, 2nd ed.: 2.75 % with the fractions as the book rounds them
    (the open library `chemicals` prints 0.027511721 for it)."""
    shares = {"hexane": Decimal("0.24"), "methane": Decimal("0.61"), "ethylene": Decimal("0.15")}
    lels = {"hexane": Decimal("1.2"), "methane": Decimal("5.3"), "ethylene": Decimal("3.1")}
    assert mixture_lel(shares, lels).result == Decimal("2.751")


CROWL = {"hexane": "0.24", "methane": "0.61", "ethylene": "0.15"}


def figures(**given: str) -> dict[str, Decimal]:
    return {name: Decimal(value) for name, value in given.items()}


def test_hexane_methane_ethylene_as_shares_and_upper_limit() -> None:
    """Crowl and Louvar, Chemical Process Safety, 2nd ed.: UFL 12.9 % (`chemicals` prints 0.129275518). As shares of
    the limits 0.8/1.2 + 2.0/5.3 + 0.5/3.1 = 120.53 %, by arithmetic: shown rounded up to 120.6, the stricter way."""
    lels = figures(hexane="1.2", methane="5.3", ethylene="3.1")
    uel = mixture_uel(figures(**CROWL), figures(hexane="7.5", methane="15", ethylene="32"))
    assert uel.result == Decimal("12.928")
    assert uel.showing
    volumes = figures(hexane="0.8", methane="2.0", ethylene="0.5")
    assert mixture_percent_lel(volumes, lels).result == Decimal("120.6")
    assert mixture_lel(volumes, lels).result == Decimal("2.737")  # 2.738 with unrounded fractions; ours rounds down


def test_fuel_with_inert_gas() -> None:
    """ISO 10156:2017, sample: 14.2737 % (`chemicals` prints 0.1427372274). Mere dilution gives 13.97 %, and that lower
    figure is our answer; the standard's stands beside it."""
    inerts = {"carbon dioxide": "30", "nitrogen": "38.95", "oxygen": "1.05"}
    working = inert_lel(
        figures(hydrogen="15", methane="15"),
        figures(hydrogen="4", methane="4.4"),
        {gas: Inert(Decimal(share), INERT_COEFFICIENTS[gas]) for gas, share in inerts.items()},
    )
    assert working.result == Decimal("13.968")
    assert "13.968 vol%, by ISO 10156:2017 14.274 vol%" in working.validity


@pytest.mark.parametrize(
    ("celsius", "factor", "ours"),
    [(0, "1.018025", "1"), (50, "0.981975", None), (100, "0.945925", "0.914"), (200, "0.873825", "0.800")],
)
def test_a_warm_lel_is_never_above_the_bureau_of_mines_line(celsius: int, factor: str, ours: str | None) -> None:
    """US Bureau of Mines Bulletin 627, Zabetakis (1965): 1 - 0.000721 (T - 25), from memory. Ours is the steeper line
    to zero at 900 C (study of upward flames at 1 atm): 0.914 at 100 C and 0.800 at 200 C; in the cold it stays 1."""
    assert bulletin_factor(Decimal(celsius)).result == Decimal(factor)
    used = Decimal(warm_lel(Decimal(5), Decimal(celsius)).result) / 5
    assert used <= Decimal(factor)
    assert ours is None or abs(used - Decimal(ours)) < Decimal("0.0005")


def test_methane_at_100_degrees_by_three_rules() -> None:
    """Bulletin 627: 5.0 x 0.945925 = 4.73 %; modified Burgess-Wheeler with 212.79 kcal/mol: 4.736 % (both from
    memory), which rounds down to 4.735. Ours takes the lowest, 4.571 by the line to 900 C."""
    heat = Decimal("212.79")
    assert burgess_wheeler(Decimal(5), Decimal(100), heat).result == Decimal("4.735")
    assert warm_lel(Decimal(5), Decimal(100), heat).result == Decimal("4.571")
    hydrogen = warm_lel(Decimal(4), Decimal(100), Decimal("57.8"))  # 4 - 0.75 x 75 / 57.8: here that rule is lowest
    assert hydrogen.result == Decimal("3.026")


@pytest.mark.parametrize(
    ("fuel", "large", "small"),
    [
        ("hydrogen", "4.6", "4.7"),
        ("carbon monoxide", "5.1", None),
        ("methane", "11.1", "10.7"),
        ("ethylene", "8.5", "8.6"),
        ("propane", "10.7", "10.5"),
    ],
)
def test_limiting_oxygen(fuel: str, large: str, small: str | None) -> None:
    """ASTM E2079-19, 5.4, 120-L and 20-L vessel with nitrogen."""
    assert MEASURED[fuel] == (Decimal(large), small and Decimal(small))
    assert limiting_oxygen(fuel).result == min(Decimal(large), Decimal(small or large))
    assert limiting_oxygen(fuel).showing


def test_old_and_estimated_limiting_oxygen() -> None:
    """NFPA 69 amendment: 12 becomes 10.0, 5 becomes 4.25. Crowl and Louvar (from memory): butane 12.4 (exact 12.35)."""
    assert [old_tube_oxygen(Decimal(v)).result for v in ("12", "10", "9.9", "5")] == [
        Decimal(v) for v in ("10.00", "8.00", "8.41", "4.25")
    ]
    assert estimated_oxygen(Decimal("1.9"), Decimal("6.5")).result == Decimal("12.35")


@pytest.mark.parametrize(
    ("oxygen", "ppm"),
    [("20.7", 9569), ("20.4", 23923), ("19.9", 47847), ("19.5", 66986), ("18.0", 138756), ("10.0", 521531)],
)
def test_missing_oxygen_as_gas_that_pushed_it_out(oxygen: str, ppm: int) -> None:
    """By definition 1 - O2/20.9; no government table was found. 29 CFR 1915 subpart B Appendix A: a lower oxygen
    content than normal air's has a reason, and "the reasons for this deficiency should be determined"."""
    assert unaccounted(Decimal(oxygen), Decimal("20.9"), {}, tolerance=Decimal(0)).result == ppm


@pytest.mark.parametrize(
    ("altitude", "pascal"),
    [(0, "101325.0"), (1000, "89876.3"), (1500, "84559.7"), (2000, "79501.4"), (3000, "70121.2"), (4000, "61660.4")],
)
def test_the_standard_atmosphere(altitude: int, pascal: str) -> None:
    """US Standard Atmosphere 1976, as the open library `fluids` 1.3.1 gives it (to 0.1 Pa)."""
    assert abs(Decimal(standard_pressure(Decimal(altitude)).result) - Decimal(pascal)) <= Decimal("0.1")


@pytest.mark.parametrize(("oxygen", "mmhg"), [("16", 122), ("19.5", 148), ("21.4", 163)])
def test_partial_pressure_at_sea_level(oxygen: str, mmhg: int) -> None:
    """NIOSH 80-106, classes A, B and C: 122, 148 and 163 mmHg (from memory; arithmetic agrees)."""
    assert partial_pressure(Decimal(oxygen), Decimal(101325)).result == mmhg


def test_fresh_air_at_610_meters_is_as_thin_as_the_least_oxygen_at_the_sea() -> None:
    """A trade journal of 2017 and a review of 2009: at 610 m (2000 ft) fresh air (20.946 %) holds 148.0 mmHg of oxygen,
    as 19.5 % does at sea level (148.2). It is a caution: OSHA's letter of 2007-04-02 keeps to percent."""
    high = partial_pressure(Decimal("20.946"), Decimal(standard_pressure(Decimal(610)).result))
    assert high.result == partial_pressure(Decimal("19.5"), Decimal(101325)).result == 148


def test_a_limit_in_ppm_is_compared_unchanged_at_altitude() -> None:
    """Canadian Centre for Occupational Health and Safety: a limit in mg/m³ is a fixed amount, and the same ppm is less
    of it in thin air; OSHA compares at 25 C and 760 mmHg. So a reading in ppm meets a limit in ppm as it is."""
    sea, high = (molar_volume(Decimal(25), Decimal(pascal)).result for pascal in ("101325", "84559.7"))
    at_sea, up_high = (ppm_to_mg(Decimal(35), Decimal("28.010"), Decimal(v)).result for v in (sea, high))
    assert abs(Decimal(up_high) / Decimal(at_sea) - Decimal("84559.7") / 101325) < Decimal("0.0001")
    limit = limit_of(Kind.TOXIC, "carbon monoxide", "ppm", None, Decimal(35), "site rule")
    assert judge(limit, Decimal(35)) is Standing.OUTSIDE


@pytest.mark.parametrize(
    ("altitude_ft", "oxygen"),
    [(3000, "16.0"), (4000, "16.4"), (5000, "17.1"), (6000, "17.8"), (7000, "18.5"), (8000, "19.3")],
)
def test_the_respirator_table_holds_one_partial_pressure(altitude_ft: int, oxygen: str) -> None:
    """29 CFR 1910.134 Table II (read in a state's copy, one row from memory): about 108 mmHg at each band's top.
    It selects respirators; it never makes air under 19.5 % acceptable."""
    pressure = Decimal(standard_pressure(Decimal(altitude_ft) * Decimal("0.3048")).result)
    assert Decimal(107) <= Decimal(partial_pressure(Decimal(oxygen), pressure).result) <= Decimal(110)


@pytest.mark.parametrize(("gas", "published"), [("carbon monoxide", "0.97")])
def test_density_against_air(gas: str, published: str) -> None:
    """OSHA Occupational Chemical Database prints 0.97 for carbon monoxide."""
    assert relative_density(SUBSTANCES[gas]) == Decimal(published)


def test_the_first_air_through_a_hose() -> None:
    """Geometry: 10 m of 4 mm bore at 0.5 L/min is 125.7 mL and 15.1 s. No published figure was found."""
    assert hose_delay(Decimal(10), Decimal(4), Decimal("0.5")).result == Decimal("15.1")


def test_points_are_no_further_apart_than_appendix_b_says() -> None:
    """29 CFR 1910.146 Appendix B (4): "approximately 4 feet (1.22 meters) in the direction of travel"."""
    points = verification_points(Decimal(12), None)
    assert max(b - a for a, b in pairwise(points)) <= Decimal("1.22")
