"""Where to test and how long to wait: today's level and the hose change the plan."""

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.sampling import NoSuchPoints, NoSuchWait, hose_delay, point_name, verification_points, wait

centimeters = st.integers(1, 3000).map(lambda n: Decimal(n) / 100)


@st.composite
def spaces(draw: st.DrawFn) -> tuple[Decimal, Decimal]:
    depth = draw(centimeters)
    return depth, draw(centimeters.filter(lambda level: level <= depth)) if draw(st.booleans()) else depth


@given(spaces())
def test_the_plan_keeps_its_laws(space: tuple[Decimal, Decimal]) -> None:
    """At most 1.2 m apart, whole tenths, strictly downward, never into the liquid, none twice."""
    depth, level = space
    points = verification_points(depth, level)
    assert list(points) == sorted(set(points))
    assert all(0 <= point < level and point * 10 == int(point * 10) for point in points)
    gaps = [below - above for above, below in pairwise(points)]
    assert all(gap <= Decimal("1.2") for gap in gaps)
    if gaps:
        assert max(gaps) - min(gaps) <= Decimal("0.1"), "evenly spread"


@given(spaces())
def test_the_first_point_is_at_the_portal_and_the_last_just_above_the_level(space: tuple[Decimal, Decimal]) -> None:
    depth, level = space
    points = verification_points(depth, level)
    if level > Decimal("0.7"):
        assert points[0] == Decimal("0.3")
        assert Decimal("0.2") < level - points[-1] <= Decimal("0.3")
    else:
        assert points[0] <= Decimal("0.4")


@given(spaces(), centimeters)
def test_a_lower_level_never_takes_points_away(space: tuple[Decimal, Decimal], drop: Decimal) -> None:
    depth, level = space
    lower = min(level + drop, depth)
    before, after = verification_points(depth, level), verification_points(depth, lower)
    assert len(after) >= len(before)
    assert after[-1] >= before[-1]


def test_a_dry_floor_is_tested_down_to_the_floor() -> None:
    assert verification_points(Decimal("4.2"), None) == verification_points(Decimal("4.2"), Decimal("4.2"))


def test_todays_level_changes_the_plan() -> None:
    assert verification_points(Decimal("4.2"), Decimal("3.6")) != verification_points(Decimal("4.2"), Decimal("2.4"))


def test_a_space_tested_at_depths_worked_out_by_hand() -> None:
    """Level 3.6 m: last point 3.3 m; 3.0 m of way in three steps of 1.0 m."""
    assert [str(p) for p in verification_points(Decimal("4.2"), Decimal("3.6"))] == ["0.3", "1.3", "2.3", "3.3"]


@pytest.mark.parametrize(
    ("depth", "level", "word"),
    [("4.2", "4.3", "below the floor"), ("0", None, "more than 0"), ("-1", None, "more than 0"), ("4", "0", "no air")],
)
def test_figures_that_contradict_each_other_make_no_plan(depth: str, level: str | None, word: str) -> None:
    with pytest.raises(NoSuchPoints, match=word):
        verification_points(Decimal(depth), None if level is None else Decimal(level))


@pytest.mark.parametrize("broken", ["NaN", "Infinity"])
def test_an_unknown_depth_makes_no_plan(broken: str) -> None:
    with pytest.raises(NoSuchPoints):
        verification_points(Decimal(broken), None)
    with pytest.raises(NoSuchPoints):
        verification_points(Decimal(4), Decimal(broken))


@pytest.mark.parametrize(
    ("count", "names"),
    [
        (1, ["only point"]),
        (2, ["top", "bottom"]),
        (3, ["top", "middle", "bottom"]),
        (5, ["top", "middle 1", "middle 2", "middle 3", "bottom"]),
    ],
)
def test_points_have_the_trades_names(count: int, names: list[str]) -> None:
    assert [point_name(i, count).say() for i in range(count)] == names


@given(st.integers(1, 50), st.integers(1, 10), st.integers(0, 5), st.integers(1, 120))
def test_a_longer_hose_or_a_wider_bore_or_more_flushes_never_shorten_the_wait(
    hose: int, bore: int, flushes: int, t90: int
) -> None:
    flow = Decimal("0.5")
    base = wait(Decimal(hose), Decimal(bore), flow, flushes, Decimal(t90)).result
    assert base >= t90
    assert wait(Decimal(hose + 1), Decimal(bore), flow, flushes, Decimal(t90)).result >= base
    assert wait(Decimal(hose), Decimal(bore + 1), flow, flushes, Decimal(t90)).result >= base
    assert wait(Decimal(hose), Decimal(bore), flow, flushes + 1, Decimal(t90)).result >= base
    assert wait(Decimal(hose), Decimal(bore), flow / 2, flushes, Decimal(t90)).result >= base


def test_a_wait_worked_out_by_hand() -> None:
    """125.66 mL at 8.33 mL/s is 15.08 s; once to fill, twice to flush, 30 s to respond: 75.2 s, so 76 s."""
    assert wait(Decimal(10), Decimal(4), Decimal("0.5"), 2, Decimal(30)).result == 76
    assert wait(Decimal(10), Decimal(4), Decimal("0.5"), 0, Decimal(30)).result == 46


def test_an_instrument_that_samples_by_diffusion_waits_its_response_time() -> None:
    assert wait(None, None, None, 2, Decimal("29.2")).result == 30
    assert wait(Decimal(0), None, None, 2, Decimal(30)).result == 30


@pytest.mark.parametrize(
    ("hose", "bore", "flow", "flushes", "t90", "word"),
    [
        ("10", None, "0.5", 2, "30", "hose bore"),
        ("10", "4", None, 2, "30", "pump flow"),
        ("10", "4", "0", 2, "30", "pump flow"),
        ("10", "4", "0.5", -1, "30", "flushes"),
        ("10", "4", "0.5", 2, "0", "response time"),
        ("-1", "4", "0.5", 2, "30", "hose length"),
        ("NaN", "4", "0.5", 2, "30", "hose length"),
    ],
)
def test_a_missing_figure_gives_no_wait(
    hose: str, bore: str | None, flow: str | None, flushes: int, t90: str, word: str
) -> None:
    with pytest.raises(NoSuchWait, match=word):
        wait(Decimal(hose), bore and Decimal(bore), flow and Decimal(flow), flushes, Decimal(t90))


def test_the_working_of_a_wait_shows_its_inputs() -> None:
    working = wait(Decimal(10), Decimal(4), Decimal("0.5"), 2, Decimal(30))
    assert [(i.name, i.value, i.unit) for i in working.inputs] == [
        ("hose length", "10", "m"),
        ("hose bore", "4", "mm"),
        ("pump flow", "0.5", "L/min"),
        ("flushes", "2", ""),
        ("response time", "30", "s"),
    ]
    assert hose_delay(Decimal(10), Decimal(4), Decimal("0.5")).unit == "s"
