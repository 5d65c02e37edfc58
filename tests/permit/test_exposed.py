"""Means over the shift: near the limit bars the next person in, at it calls everyone out; they never allow anything."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from tests.permit.life import Life, figures

from lamproom.permit import events as e
from lamproom.permit.obstacles import Stage
from lamproom.permit.obstacles.exposed import periods


def breathing(ppm: str, hours: int, every_min: int = 15) -> Life:
    """People inside for so many hours, the air read in time and always the same."""
    life = Life().inside()
    for _ in range(hours * 60 // every_min):
        life.pass_time(every_min)
        life.read("3.6", "work", held=None, carbon_monoxide=ppm)
    return life


def test_the_worked_example_of_the_rule_stays_within_and_the_next_hours_do_not() -> None:
    """29 CFR 1910.1000(d)(1): the divisor is 8 h. 30 ppm for 4 h is a mean of 15 of 50: said nothing; for 7 h it is
    26.25, past half."""
    assert not breathing("30", 4).codes() & {"exposure-near", "exposure-over"}
    assert "exposure-near" in breathing("30", 7).codes(Stage.ENTER)
    assert "exposure-near" not in breathing("30", 7).codes(Stage.STAY)


def test_clean_air_all_day_says_nothing() -> None:
    assert not breathing("2", 8).codes() & {"exposure-near", "exposure-over"}


def test_time_outside_is_not_counted_and_overlaps_are_counted_once() -> None:
    life = breathing("30", 1)
    spans = periods(life.facts())
    assert len(spans) == 1
    inside = sum(((until or life.at) - since for since, until in spans), timedelta())
    assert inside <= timedelta(hours=1, minutes=5)
    assert Decimal(inside / timedelta(hours=1)) >= 1


@pytest.mark.parametrize("ppm", ["10", "20", "34"])
def test_no_mean_ever_removes_an_obstacle(ppm: str) -> None:
    life = breathing(ppm, 2)
    before = {one.code for one in life.found()} - {"exposure-near", "exposure-over"}
    plain = {one.code for one in breathing("0", 2).found()}
    assert plain <= before


def test_the_highest_figure_is_kept_in_ppm_whatever_its_unit_and_before_it_had_a_limit() -> None:
    life = Life().inside()
    bad = e.Figure(gas="carbon-dioxide", unit="% vol", figure="0.6")
    life.tell(
        e.ReadingsTaken(
            phase="work", point_m="3.6", instrument="07", lowered=None, taken=life.at, figures=(*figures(), bad)
        )
    )
    life.read("3.6", "work", held=None)
    assert life.permit.form.limit("carbon-dioxide") is None
    assert life.permit.peaks["carbon-dioxide"] == 6000
