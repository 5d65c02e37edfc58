"""The second derivation against what others published, before it judges anything."""

from fractions import Fraction

import numpy as np
import pytest
from tests.air.second_derivation.displacement import (
    read_if_only_water,
    saturation_pressure_hpa,
    something_else_ppm,
    unaccounted_ppm,
    water_share,
)
from tests.air.second_derivation.exposure import (
    Read,
    Stay,
    above,
    breathed,
    highest_mean,
    level_by_second,
    long_shift_factor,
    shift_mean,
)
from tests.air.second_derivation.purge_fit import fit

HOUR, MINUTE = 3600, 60


def spans(*told: tuple[float, float]) -> np.ndarray:
    """Minutes at a level, one after another."""
    return np.concatenate(
        [np.full(int(minutes * MINUTE), round(level * 1000), dtype=np.int64) for minutes, level in told]
    )


def test_the_rules_own_example_is_81_and_a_quarter() -> None:
    """29 CFR 1910.1000(d)(1)(ii): 2 h at 150, 2 h at 75, 4 h at 50 ppm."""
    assert shift_mean(spans((120, 150), (120, 75), (240, 50))) == Fraction("81.25")


def test_a_shorter_shift_is_still_divided_by_eight_hours() -> None:
    """HSE EH40, from memory: 7 h 20 min at 0.12 is 0.11, and a day in four sessions is 0.186."""
    assert shift_mean(spans((440, 0.12))) == Fraction("0.11")
    sessions = spans((150, 0.32), (15, 0), (120, 0.07), (45, 0), (120, 0.20), (15, 0), (90, 0.10))
    assert shift_mean(sessions) == Fraction("0.18625")


def test_five_minutes_at_600_are_200_over_fifteen() -> None:
    """South Africa, Regulations for Hazardous Chemical Agents 2020, Annexure 3, 95."""
    assert highest_mean(spans((5, 600), (30, 0))) == 200
    assert highest_mean(spans((5, 600))) == 200


def test_the_window_rolls() -> None:
    """Ten minutes at 50 that lie across a quarter of the clock: 33.33, not 16.67."""
    readings = [Read(60 * m, 50_000 if 10 <= m < 20 else 0) for m in range(60)]
    assert highest_mean(level_by_second(readings, 0, HOUR, 60)) == Fraction(100, 3)


def test_no_longer_mean_is_above_the_highest_short_one() -> None:
    """Same, 96: if the longer mean is above the short-term limit, some fifteen minutes were."""
    rng = np.random.default_rng(3)
    for _ in range(50):
        grid = rng.integers(0, 90_000, size=int(rng.integers(900, 9000)))
        assert highest_mean(grid) >= Fraction(int(grid.sum()), len(grid) * 1000)


def test_a_gap_takes_the_worse_neighbour_on_either_side() -> None:
    readings = [Read(0, 10), Read(600, 40), Read(1200, 5)]
    assert set(level_by_second(readings, 0, 1200, 60).tolist()) == {40}
    assert level_by_second(readings, 0, 1300, 600)[[0, 599, 600, 1200, 1299]].tolist() == [10, 10, 40, 5, 5]


def test_who_is_out_breathes_nothing_and_two_permits_add_up() -> None:
    readings = {"A": [Read(0, 20_000)], "B": [Read(0, 50_000)]}
    day = breathed([Stay("A", 0, HOUR), Stay("B", 2 * HOUR, None)], readings, 8 * HOUR, 4 * HOUR, None)
    assert shift_mean(day) == Fraction(20 + 100, 8)
    assert above(day, 20_000, at_counts=False) == [(2 * HOUR, 4 * HOUR, 50_000)]
    assert above(day, 20_000, at_counts=True)[0] == (0, HOUR, 20_000)


@pytest.mark.parametrize(("hours", "factor"), [(8, "1"), (12, "0.5"), (6, "1"), (10, "0.7")])
def test_brief_and_scala(hours: int, factor: str) -> None:
    assert long_shift_factor(Fraction(hours)) == Fraction(factor)


@pytest.mark.parametrize(("celsius", "pascal"), [(0, 611.2), (5, 872.5), (20, 2339.3), (25, 3169.7), (40, 7384.9)])
def test_water_boils_as_in_the_steam_tables(celsius: float, pascal: float) -> None:
    """IAPWS figures, from memory; Buck's formula carries the moist air's enhancement of under half a per cent."""
    assert saturation_pressure_hpa(celsius) * 100 == pytest.approx(pascal, rel=6e-3)


def test_water_alone_brings_a_warm_wet_space_to_20_and_a_half() -> None:
    outside, inside = water_share(5, 70), water_share(22, 100)
    assert read_if_only_water(20.9, outside, inside) == pytest.approx(20.48, abs=0.01)
    assert something_else_ppm(20.9, 20.48, outside, inside) == pytest.approx(0, abs=250)


@pytest.mark.parametrize(
    ("reading", "ppm"), [(20.7, 9569), (20.4, 23923), (19.9, 47847), (19.5, 66986), (18.0, 138756), (10.0, 521531)]
)
def test_a_tenth_of_oxygen_hides_4800_ppm(reading: float, ppm: int) -> None:
    assert something_else_ppm(20.9, reading) == pytest.approx(ppm, abs=0.5)
    assert unaccounted_ppm(20.9, reading, 0.1, 5000) == pytest.approx(max(0.0, ppm - 4784.7 - 5000), abs=0.5)


def test_a_clean_decay_gives_its_constant_back() -> None:
    minutes = list(range(0, 40, 4))
    found = fit(minutes, [2 + 60 * np.exp(-0.12 * m) for m in minutes])
    assert found.k == pytest.approx(0.12, rel=1e-4)
    assert found.floor == pytest.approx(2, abs=1e-3)


def test_what_does_not_fall_has_no_constant() -> None:
    with pytest.raises(LookupError):
        fit([0, 5, 10, 15, 20], [10, 12, 14, 16, 18])
