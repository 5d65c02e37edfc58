"""Flammable gas: the conversions undo each other, and corrections only ever tighten."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.flammable import (
    Factor,
    as_vapor,
    catalytic_void,
    percent_lel_to_ppm,
    percent_lel_to_vol,
    ppm_to_percent_lel,
    ppm_to_vol,
    rebase,
    toxic_at_lel,
    void,
    vol_to_percent_lel,
    vol_to_ppm,
)
from lamproom.air.working import Unworkable

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


def test_a_flammable_reading_names_the_toxic_level_that_it_hides() -> None:
    working = toxic_at_lel(Decimal(10), Decimal("1.1"), Decimal(200))
    assert working.validity == "10 % LEL of this vapor is 1100 ppm, 5.5 times its limit of 200 ppm."


def test_an_oxygen_reading_that_is_no_number_voids_the_flammable_one() -> None:
    assert [catalytic_void(Decimal(o)) for o in ("14.9", "15.0", "20.9", "0")] == [True, False, False, True]


@pytest.mark.parametrize("wrong", ["0", "-1", "101", "NaN"])
def test_an_impossible_lel_is_a_fault(wrong: str) -> None:
    with pytest.raises((Unworkable, ArithmeticError)):
        percent_lel_to_vol(Decimal(10), Decimal(wrong))


def test_all_reasons_that_void_a_reading_are_told() -> None:
    """29 CFR 1910.146 Appendix C and 1915.12(b) test oxygen first, because most combustible gas meters depend on it."""
    ids = [[one.id.rpartition(".")[2] for one in void(Decimal(lel), o2 and Decimal(o2))] for lel, o2 in CASES]
    assert ids == [
        [],
        [],
        ["low_oxygen"],
        ["enriched"],
        [],
        ["over_range"],
        ["over_range", "low_oxygen"],
        ["oxygen_unread"],
        ["no_reading", "oxygen_unread"],
    ]


CASES: list[tuple[str, str | None]] = [
    ("8", "20.9"),
    ("100", "15"),
    ("8", "9"),
    ("0", "23.6"),
    ("0", "23.5"),
    ("100.1", "20.9"),
    ("101", "14.9"),
    ("0", None),
    ("NaN", "NaN"),
]


def test_a_sensor_that_needs_no_oxygen_is_not_void_for_want_of_it() -> None:
    assert void(Decimal(3), Decimal(5), needs=None) == ()
    assert void(Decimal(3), None, needs=None)[0].id == "air.void.oxygen_unread"
    said = void(Decimal(8), Decimal(9), needs=Decimal(10))[0].say()
    assert said == "Oxygen is 9 vol%, and this flammable gas sensor needs 10 vol%. It may read too low."


@pytest.mark.parametrize(
    ("factor", "result"),
    [
        (Factor("toluene", Decimal("2.6"), "maker's sheet 12", date(2026, 3, 1)), Decimal("7.8")),
        (Factor("toluene", Decimal("2.61"), "maker's sheet 12", date(2026, 3, 1)), Decimal("7.9")),
        (Factor("toluene", Decimal("2.6"), " ", date(2026, 3, 1)), "unknown"),
        (Factor("xylene", Decimal("2.6"), "maker's sheet 12", date(2026, 3, 1)), "unknown"),
        (None, "unknown"),
    ],
)
def test_a_factor_counts_only_with_its_sheet_and_its_vapor(factor: Factor | None, result: Decimal | str) -> None:
    working = as_vapor(Decimal(3), "toluene", factor)
    assert working.result == result
    assert (working.source == "maker's sheet 12, 2026-03-01") is (result != "unknown")
    with pytest.raises(Unworkable, match="factor"):
        as_vapor(Decimal(3), "toluene", Factor("toluene", Decimal(0), "sheet", date(2026, 3, 1)))
