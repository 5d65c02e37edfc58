"""Published examples of purging, filling and steady sources: the source stands beside each."""

from decimal import Decimal

import pytest

from lamproom.air.ventilation import (
    air_changes,
    build_up_time,
    flow_needed,
    level_after,
    mixing_factor,
    purge_changes,
    purge_time,
    steady_state,
    vapor_source,
)

FT3_PER_M3 = Decimal("35.3147")


def test_a_purge_by_dilution() -> None:
    """US Bureau of Reclamation, Design Guide for HVAC Systems (2006), p. 106: 20 % to 1.4 % with K = 0.20 (an
    efficiency) is 13.3 air changes, at 2 a minute 6.65 min. Ours rounds up: 13.297 and 6.7."""
    factor = Decimal(mixing_factor(Decimal("0.20")).result)
    assert factor == 5
    changes = Decimal(purge_changes(Decimal(20), Decimal("1.4"), factor).result)
    assert (changes, changes.quantize(Decimal("0.1"))) == (Decimal("13.297"), Decimal("13.3"))
    assert abs(changes / 2 - Decimal("6.65")) < Decimal("0.005")
    minutes = purge_time(Decimal(1000), Decimal(2000), Decimal(20), Decimal("1.4"), factor)
    assert minutes.result == Decimal("6.7")
    assert air_changes(Decimal(2000), Decimal(1000)).result == 120


def test_filling_with_gas() -> None:
    """The same guide (set-up seen, result by arithmetic): 15 ft³/min of gas in 85 ft³/min of air, 1000 ft³, K = 0.2, to
    5 %: 1.666 changes, 19.6 min. There the efficiency holds the gas back as well as the air, so the source is 15 x 0.2
    here; with all the gas mixing in at once, our own reading of the same room, it takes 3.4 min."""
    factor = Decimal(mixing_factor(Decimal("0.2")).result)
    held_back = build_up_time(Decimal(1000), Decimal(85), Decimal(3), Decimal(50_000), factor)
    assert held_back.result == Decimal("19.5")  # 19.59, rounded down
    assert build_up_time(Decimal(1000), Decimal(85), Decimal(15), Decimal(50_000), factor).result == Decimal("3.4")


def test_build_up_and_purge_of_a_hall() -> None:
    """ACGIH, Industrial Ventilation, ch. 2 (from memory; arithmetic agrees): 20.3 min (exact 20.273) and 69.3 min
    (exact 69.315). Ours rounds a build-up down and a purge up."""
    hall, fan, k = Decimal(100_000), Decimal(6000), Decimal(3)
    assert build_up_time(hall, fan, Decimal("1.2"), Decimal(200), k).result == Decimal("20.2")
    assert purge_time(hall, fan, Decimal(100), Decimal(25), k).result == Decimal("69.4")


def test_a_steady_source_of_vapor() -> None:
    """The same (from memory): methyl chloroform, 1.5 pints in 60 min, specific gravity 1.32, M 133.4, 350 ppm, K = 5:
    G 0.0997, Q' 285, Q 1425 ft³/min. The book's constant 403 is rounded (387 ft³ a pound-mole at 70 F, 1.042 lb a
    pint): from the gas law G is 0.0998, 0.1 % more."""
    liters = Decimal("1.5") * Decimal("0.473176") / 60
    source = Decimal(vapor_source(liters, Decimal("1.32"), Decimal("133.4"), Decimal("21.11")).result) * FT3_PER_M3
    assert abs(source / Decimal("0.0997") - 1) < Decimal("0.002")
    assert flow_needed(Decimal("0.0997"), Decimal(350), Decimal(5)).result == Decimal("1424.3")
    assert abs(Decimal(flow_needed(Decimal("0.0997"), Decimal(350)).result) - 285) < Decimal("0.5")
    assert steady_state(Decimal("0.0997"), Decimal("1424.29"), Decimal(5)).result == 350


@pytest.mark.parametrize(
    ("changes", "minutes", "published"), [("2", "40", "0.3682"), ("1", "80", "0.7364"), ("0.5", "160", "1.4728")]
)
def test_the_approach_to_a_steady_state(changes: str, minutes: str, published: str) -> None:
    """A general engineering table of room pollution, q = 1 and V = 1: c = q / (nV) (1 - e^(-nt)), four decimals. Here q
    is one millionth of the room an hour, so the table's figure is in ppm."""
    source = Decimal("0.000001") / 60
    level = level_after(Decimal(minutes), Decimal(1), Decimal(changes) / 60, Decimal(0), source)
    assert level.result == Decimal(published)


def test_a_fan_that_sucks_in_exhaust_purges_to_exhaust() -> None:
    """The same table's rule for a supply that is not clean: the level goes to the supply's, never to 0."""
    level = level_after(Decimal(10_000), Decimal(50), Decimal(20), Decimal(500), supply_ppm=Decimal(60))
    assert level.result == 60
    assert purge_time(Decimal(50), Decimal(20), Decimal(500), Decimal(35), supply=Decimal(60)).result == "never"
