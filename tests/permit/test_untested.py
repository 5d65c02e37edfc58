"""A point that does not count says what is wrong with it, in words that tell what to do otherwise."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from tests.permit.life import Life, bump

from lamproom.permit import events as e


def opened() -> Life:
    """Ready but for the point 3.6 m."""
    life = Life().check_instruments().describe().assign().pass_time(45).open_up().pass_time(20)
    for point in life.points():
        if point != "3.6":
            life.pass_time(seconds=100).read(point)
    return life.pass_time(seconds=100)


def said(life: Life, point: str = "3.6") -> str:
    found = [o for o in life.found() if o.target == f"air-test/point/{point}" and o.code != "reading-outside"]
    assert len(found) == 1, [o.code for o in found]
    return found[0].sentence.say()


WHY: dict[str, tuple[Callable[[Life], Any], str]] = {
    "never": (lambda life: None, "3.6 m is not tested."),
    "early": (
        lambda life: life.read("3.6", held=10),
        "At 3.6 m the figures were noted before the wait was over.",
    ),
    "without a gas": (
        lambda life: life.read("3.6", hydrogen_sulfide="fault"),
        "3.6 m was read without Hydrogen sulfide.",
    ),
    "without two": (
        lambda life: life.read("3.6", hydrogen_sulfide="fault", flammable="not-measured"),
        "3.6 m was read without Flammable gas and 1 more.",
    ),
    "clock": (
        lambda life: life.read("3.6", flags={"unconfirmed": True}),
        "3.6 m was read before anyone confirmed the clock.",
    ),
    "by nobody": (lambda life: life.read("3.6", by=None), "3.6 m was read, and nobody is named who read it."),
    "declared wrong": (
        lambda life: life.read("3.6", flags={"void": True}),
        "3.6 m: what was read there was declared wrong.",
    ),
}


@pytest.mark.parametrize("how", WHY)
def test_a_point_says_why_it_does_not_count(how: str) -> None:
    read, words = WHY[how]
    life = opened()
    read(life)
    assert said(life) == words


def test_read_before_the_air_changed() -> None:
    life = Life().ready().pass_time(5)
    life.tell(e.VentilationStopped(why="fuel"))
    assert said(life) == "3.6 m is not tested since the air last changed."


def test_read_with_an_instrument_that_was_not_ready_or_fell_into_doubt() -> None:
    life = Life().describe().assign().pass_time(45).open_up().pass_time(20).read_all()
    assert said(life) == "3.6 m was read with Instrument 07 when it was not ready."
    doubted = Life().ready()
    doubted.do("07", bump("hydrogen-sulfide"))
    assert said(doubted) == "3.6 m was read with Instrument 07, which failed its next bump test."


def test_read_through_a_hose_that_leaked() -> None:
    life = Life().ready()
    life.tell(e.HoseTested(instrument="07", stopped_s=None))
    assert said(life) == "3.6 m was read with Instrument 07, whose hose was not shown to be tight."


def test_one_obstacle_a_point() -> None:
    life = Life().ready()
    life.do("07", bump("hydrogen-sulfide"))
    assert len([o for o in life.found() if o.code == "point-not-tested"]) == len(life.points())
