"""Readings: what counts for entry, what counts against it, and what no later reading or correction can hide."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.permit.life import KIT, LENA, MARA, NIA, OSKAR, TEO, Life, bump, calibration, check, instrument

from lamproom.air.oxygen import unaccounted
from lamproom.bench import events as b
from lamproom.permit import events as e
from lamproom.permit.facts import at_point
from lamproom.permit.obstacles import Stage

A, E, S = Stage.AUTHORISE, Stage.ENTER, Stage.STAY

# 29 CFR 1910.146(b), 'Hazardous atmosphere': oxygen below 19.5 or above 23.5 per cent; a flammable gas in excess of
# 10 per cent of its LFL (here at 10: the stricter sign, as in Appendix E). CO 35 and H2S 10 ppm: NIOSH REL and
# ceiling, taken as instant values and failing at the figure (decision: one function, one table).
FIGURES = [
    ("oxygen", "19.5", True),
    ("oxygen", "19.4", False),
    ("oxygen", "19.49", False),
    ("oxygen", "23.5", True),
    ("oxygen", "23.6", False),
    ("flammable", "9", True),
    ("flammable", "9.9", True),
    ("flammable", "10", False),
    ("flammable", "10.0", False),
    ("carbon_monoxide", "34", True),
    ("carbon_monoxide", "34.9", True),
    ("carbon_monoxide", "35", False),
    ("hydrogen_sulfide", "9", True),
    ("hydrogen_sulfide", "9.9", True),
    ("hydrogen_sulfide", "10", False),
]


@pytest.mark.parametrize(("gas", "figure", "within"), FIGURES)
def test_a_reading_at_its_limit_is_judged_by_one_table_before_entry(gas: str, figure: str, within: bool) -> None:
    life = Life().ready().pass_time(seconds=100)
    life.read("3.6", **{gas: figure})
    assert ("reading-outside" in life.codes(A)) is not within


@pytest.mark.parametrize(("gas", "figure", "within"), FIGURES)
def test_a_reading_at_its_limit_is_judged_by_the_same_table_during_entry(gas: str, figure: str, within: bool) -> None:
    life = Life().inside().pass_time(5)
    life.read("3.6", "work", held=None, **{gas: figure})
    assert (life.permit.stop is None) is within
    assert ("reading-outside" in life.codes(S)) is not within


def test_over_range_is_outside_and_stops_everyone() -> None:
    life = Life().inside().pass_time(5)
    life.read("3.6", "work", held=None, flammable="over-range")
    assert life.permit.stop is not None
    assert {"stopped", "reading-outside"} <= life.codes(S)


def test_a_stop_latched_by_a_reading_is_lifted_by_no_later_reading_and_no_correction() -> None:
    life = Life().inside().pass_time(5)
    version = life.read("3.6", "work", held=None, hydrogen_sulfide="14")
    life.tell(e.WentOut(person=TEO))
    life.tell(
        e.ReadingCorrected(set_version=version, gas="hydrogen-sulfide", old="14", new="4", reason="typed wrong"),
    )
    life.read_all()
    assert "stopped" in life.codes(S)
    life.tell(e.StopDetermined(finding="none-arose", reason="a typing error"), by=MARA)
    assert {"point-not-tested", "reendorse"} <= life.codes(E), "every point is tested again and entry endorsed again"
    life.read_all()
    assert life.codes(E) == {"reendorse"}
    life.tell(e.Reendorsed(after="stop"), by=MARA)
    assert life.codes() == set()


def test_an_early_reading_outside_stops_at_once_and_an_early_good_one_never_counts() -> None:
    life = Life().ready().pass_time(seconds=100)
    life.read("3.6", held=10, hydrogen_sulfide="14")
    assert "reading-outside" in life.codes(A)
    life.pass_time(seconds=20).read("3.6", held=10)
    assert "reading-outside" in life.codes(A), "a good figure noted early does not answer a bad one"
    life.pass_time(seconds=100).read("3.6")
    assert life.codes(A) == set()


NOT_COUNTING: dict[str, Callable[[Life], Any]] = {
    "early": lambda life: life.read("3.6", held=10),
    "without the time of lowering": lambda life: life.read("3.6", held=None),
    "without oxygen": lambda life: life.read("3.6", oxygen=None),
    "oxygen not measured": lambda life: life.read("3.6", oxygen="not-measured"),
    "hydrogen sulfide sensor at fault": lambda life: life.read("3.6", hydrogen_sulfide="fault"),
    "below zero": lambda life: life.read("3.6", flammable="-1"),
    "clock unconfirmed": lambda life: life.read("3.6", flags={"unconfirmed": True}),
    "clock declared wrong": lambda life: life.read("3.6", flags={"void": True}),
    "by nobody": lambda life: life.read("3.6", by=None),
    "by an instrument that is not on this permit": lambda life: life.read("3.6", instrument="99"),
    "as a retest of the work": lambda life: life.read("3.6", "work", held=90),
    "at another point": lambda life: life.read("3.5"),
    "upwind": lambda life: life.read("3.6", "upwind"),
    "through the lid": lambda life: life.read("3.6", "through-lid"),
    "dated ahead": lambda life: life.read("3.6", taken=life.at + timedelta(days=3650)),
    "taken before the fan started and typed later": lambda life: life.read(
        "3.6", taken=life.at - timedelta(minutes=40)
    ),
}


@pytest.mark.parametrize("how", NOT_COUNTING)
def test_what_does_not_count_clears_no_point_and_hides_no_bad_reading(how: str) -> None:
    life = Life().check_instruments().describe().assign().pass_time(45).open_up().pass_time(20)
    for point in life.points():
        if point != "3.6":
            life.pass_time(seconds=100).read(point)
    life.pass_time(seconds=100)
    NOT_COUNTING[how](life)
    assert life.codes(A) & {"point-not-tested", "reading-early"}, how
    life.pass_time(seconds=100).read("3.6", hydrogen_sulfide="14")
    life.pass_time(seconds=100)
    NOT_COUNTING[how](life)
    assert "reading-outside" in life.codes(A), how


def test_a_figure_said_to_be_measured_without_a_number_is_missing() -> None:
    life = Life().ready().pass_time(5)
    life.tell(e.LevelStated(depth_m="5.2", how="risen"))
    none = tuple(
        e.Figure(gas=g, unit=u)
        for g, u in (
            ("oxygen", "% vol"),
            ("flammable", "% LEL"),
            ("hydrogen-sulfide", "ppm"),
            ("carbon-monoxide", "ppm"),
        )
    )
    for point in life.points():
        life.pass_time(seconds=100)
        life.tell(
            e.ReadingsTaken(
                phase="ventilating",
                point_m=point,
                instrument="07",
                lowered=life.at - timedelta(seconds=90),
                taken=life.at,
                figures=none,
            )
        )
    assert "point-not-tested" in life.codes(A)


def test_a_figure_in_another_unit_than_the_form_is_not_compared_and_so_does_not_count() -> None:
    """5 % by volume of methane is 100 % of its LEL (NFPA 497): the number alone would pass a limit of 10 % LEL."""
    life = Life().ready().pass_time(5)
    life.tell(e.LevelStated(depth_m="5.2", how="risen"))
    for point in life.points():
        life.pass_time(seconds=100)
        good = life.past[-1]
        life.read(point)
        told = life.past.pop()
        assert isinstance(told.event, e.ReadingsTaken) and good is not told
        figures = tuple(
            f.model_copy(update={"unit": "% vol", "figure": "5"}) if f.gas == "flammable" else f
            for f in told.event.figures
        )
        life.tell(told.event.model_copy(update={"figures": figures}))
    assert "point-not-tested" in life.codes(A)


def test_a_gas_that_the_instrument_has_no_sensor_for_was_not_measured_by_it() -> None:
    """29 CFR 1910.146 Appendix B(1): the atmosphere is tested with equipment that sees what may be there."""
    life = Life()
    known = instrument("07")
    three = known.model_copy(update={"sensors": tuple(s for s in known.sensors if s.gas != "carbon-monoxide")})
    life.do("07", three)
    life.ready()
    assert "point-not-tested" in life.codes(A)


def test_points_are_the_same_however_many_noughts_are_typed() -> None:
    life = Life().ready().pass_time(seconds=100)
    life.read("3.60", hydrogen_sulfide="14")
    assert "reading-outside" in life.codes(A)
    life.pass_time(seconds=100).read("3.6")
    assert life.codes(A) == set(), "a false stop: the same place, written in another way"
    assert at_point(life.facts(), Decimal("3.600")) is not None


def test_a_reading_typed_late_is_judged_by_when_it_was_taken() -> None:
    life = Life().ready().pass_time(4)
    bad_at = life.at
    life.read("3.6", hydrogen_sulfide="14")
    life.pass_time(3).read("3.6", taken=bad_at - timedelta(minutes=2))
    assert "reading-outside" in life.codes(A), "an older good one, typed later, hides nothing"
    life = Life().inside().pass_time(10)
    life.read("3.6", "work", held=None)
    life.pass_time(7).read("3.6", "work", held=None, taken=life.at - timedelta(minutes=16))
    assert "retest-late" not in life.codes(), "an older one, typed later, makes nothing late"


# Instruments and what was read with them ----------------------------------------------------------------------------


def test_readings_of_an_instrument_that_was_not_ready_never_count() -> None:
    life = Life().describe().assign().pass_time(45).open_up().pass_time(20).read_all()
    assert {"point-not-tested", "instrument-not-ready"} <= life.codes(A)
    life.check_instruments()
    assert "point-not-tested" in life.codes(A), "a bump test passed afterwards does not reach back"


def test_a_bump_test_between_taking_and_typing_does_not_reach_back() -> None:
    life = Life().describe().assign().pass_time(45).open_up().pass_time(20)
    taken = {point: life.pass_time(seconds=100).at for point in life.points()}
    life.check_instruments()
    for point, at in taken.items():
        life.read(point, taken=at)
    assert "point-not-tested" in life.codes(A)


def test_a_time_typed_before_the_test_ran_out_does_not_make_the_instrument_ready() -> None:
    life = Life().ready().pass_time(30)
    life.do("07", b.TestVoided(cause="dropped"))
    life.tell(e.LevelStated(depth_m="5.0", how="risen"))
    life.pass_time(1)
    life.read("3.6", taken=life.at - timedelta(minutes=10))
    assert "point-not-tested" in life.codes(A)


@pytest.mark.parametrize("then", ["done", "swapped"])
def test_readings_of_an_instrument_that_left_in_good_order_keep_their_standing(then: Any) -> None:
    life = Life().ready()
    life.tell(e.InstrumentReturned(instrument="07", why=then))
    life.do("09", instrument("07"))
    life.do("09", calibration())
    life.do("09", check())
    life.do("09", bump())
    life.tell(e.InstrumentAssigned(instrument="09", registered=instrument("07"), duty="test", hose_m="6"))
    life.tell(e.HoseTested(instrument="09", stopped_s="3"))
    assert life.codes(A) == set()


def test_a_later_failed_bump_test_throws_every_reading_since_the_last_pass_into_doubt() -> None:
    life = Life().ready()
    life.do("07", bump("hydrogen-sulfide"))
    assert {"point-not-tested", "instrument-not-ready"} <= life.codes(A)
    life.pass_time(5).do("07", calibration())
    life.do("07", bump())
    assert life.codes(A) == {"point-not-tested", "lid-not-tested", "duct-not-tested"}, (
        "mended, yet what it read before stays in doubt"
    )


def test_with_readings_in_doubt_nobody_knows_the_air_of_those_inside() -> None:
    life = Life().inside()
    life.do("09", instrument("07"))
    for event in (calibration(), check(), bump()):
        life.do("09", event)
    life.tell(e.InstrumentAssigned(instrument="09", registered=instrument("07"), duty="test", hose_m=None))
    assert life.codes(S) == set()
    life.pass_time(3).do("07", bump("oxygen"))
    assert life.codes(S) == {"retest-overdue"}
    life.pass_time(1).read("3.6", "work", held=None, instrument="09")
    assert life.codes(S) == set()


def test_a_hose_joined_anew_or_shortened_changes_no_wait_kept_before() -> None:
    life = Life().check_instruments().describe().assign().pass_time(45).open_up().pass_time(20)
    for point in life.points():
        life.pass_time(seconds=100).read(point, held=40)
    assert "reading-early" in life.codes(A)
    life.tell(e.InstrumentAssigned(instrument="07", registered=instrument("07"), duty="test", hose_m=None))
    assert "reading-early" in life.codes(A)


def test_what_was_drawn_through_a_hose_that_then_leaked_does_not_count() -> None:
    life = Life().ready()
    life.tell(e.HoseTested(instrument="07", stopped_s=None))
    assert {"hose-not-tested", "point-not-tested"} <= life.codes(A)
    life.tell(e.HoseTested(instrument="07", stopped_s="4"))
    assert life.codes(A) == {"point-not-tested", "lid-not-tested", "duct-not-tested"}, (
        "the joint is mended; what it drew before stays doubtful"
    )


def test_points_read_before_the_hose_was_tested_do_not_count() -> None:
    """Common practice: the joined hose is leak-tested before the first point."""
    life = Life().check_instruments().describe()
    life.tell(e.InstrumentAssigned(instrument="07", registered=instrument("07"), duty="test", hose_m="6"))
    life.tell(e.InstrumentAssigned(instrument="11", registered=instrument("11"), duty="worn"))
    life.pass_time(45).open_up().pass_time(20).read_all()
    life.tell(e.HoseTested(instrument="07", stopped_s="4"))
    assert "point-not-tested" in life.codes(A)


def test_a_hose_on_an_instrument_without_a_pump_draws_nothing() -> None:
    life = Life().check_instruments().describe()
    life.tell(e.InstrumentAssigned(instrument="11", registered=instrument("11"), duty="test", hose_m="6"))
    life.pass_time(45).open_up().pass_time(20).read_all(instrument="11")
    assert "reading-early" in life.codes(A)


# What no sensor sees -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("oxygen", "bars"), [("20.6", False), ("20.5", True)])
def test_oxygen_of_20_6_passes_and_an_unexplained_20_5_bars(oxygen: str, bars: bool) -> None:
    """Each 0.1 % of oxygen missing stands for about 4,800 ppm of something else (definition: 0.1/20.9)."""
    life = Life().ready().pass_time(seconds=100)
    life.read("3.6", oxygen=oxygen)
    assert ("unaccounted" in life.codes(A)) is bars
    inside = Life().inside().pass_time(5)
    inside.read("3.6", "work", held=None, oxygen=oxygen)
    assert ("unaccounted" in inside.codes(S)) is bars


def test_methane_that_was_measured_explains_missing_oxygen() -> None:
    """9 % of methane's LEL (5.0 % vol, NFPA 497) is 4,500 ppm; 14,354 missing less 4,500 is under 10,000."""
    life = Life().ready().pass_time(seconds=100)
    life.read("3.6", oxygen="20.5", flammable="9")
    assert "unaccounted" not in life.codes(A)


def test_missing_oxygen_is_counted_also_by_an_instrument_of_which_nothing_is_known() -> None:
    life = Life().ready().pass_time(seconds=100)
    life.read("3.6", oxygen="19.6", instrument="99")
    assert "unaccounted" in life.codes(A)


@pytest.mark.parametrize(
    "how",
    [
        {"instrument": "99"},
        {"flags": {"unconfirmed": True}},
        {"flags": {"void": True}},
        {"oxygen": "19.4"},
    ],
    ids=str,
)
def test_a_low_base_that_cannot_be_relied_on_explains_nothing_away(how: dict[str, Any]) -> None:
    life = Life().ready().pass_time(seconds=100)
    life.read(None, "upwind", held=None, **{"oxygen": "20.0", **how})
    life.read("3.6", oxygen="20.0")
    assert "unaccounted" in life.codes(A)


def test_bad_air_upwind_is_a_danger_outside_and_bars_until_it_is_read_good() -> None:
    life = Life().ready().pass_time(1)
    life.read(None, "upwind", held=None, hydrogen_sulfide="12")
    assert life.codes(A) == {"reading-outside"}
    life.pass_time(1).read(None, "upwind", held=None)
    assert life.codes(A) == set()


def test_the_test_through_the_lid_counts_only_by_a_ready_instrument_that_kept_its_wait() -> None:
    for how in ({"held": 5}, {"oxygen": "fault"}, {"instrument": "99"}, {"flags": {"unconfirmed": True}}):
        life = Life().check_instruments().describe().assign().pass_time(45)
        life.read(None, "through-lid", **how)  # type: ignore[arg-type]
        assert "lid-not-tested" in life.codes(A), how
        life.pass_time(3).read(None, "through-lid")
        assert "lid-not-tested" not in life.codes(A)


# What changes the air ------------------------------------------------------------------------------------------------

CHANGES: dict[str, Callable[[Life], Any]] = {
    "the level": lambda life: life.tell(e.LevelStated(depth_m="5.0", how="risen")),
    "the fan starts": lambda life: life.tell(
        e.VentilationStarted(flow_m3_h="680", intake="upwind", stop_noticed_by="streamer")
    ),
    "the fan stops": lambda life: life.tell(e.VentilationStopped(why="fuel")),
    "a break": lambda life: life.tell(
        e.BreakBegun(guarded="rail", left="fan runs", torches_out=True), e.BreakEnded(isolation_found="as left")
    ),
    "a stop determined": lambda life: life.tell(
        e.StopOrdered(cause="pressed"), e.StopDetermined(finding="none-arose", reason="a slip")
    ),
    "an engine": lambda life: life.tell(
        e.ConditionReported(condition="engine-started"), e.ConditionCleared(condition="engine-started", found="off")
    ),
    "a condition that the form does not know": lambda life: life.tell(
        e.ConditionReported(condition="bees"), e.ConditionCleared(condition="bees", found="gone")
    ),
}


@pytest.mark.parametrize("what", CHANGES)
def test_after_the_air_may_have_changed_every_point_is_tested_again(what: str) -> None:
    life = Life().authorised()
    life.read("3.6", "work", held=None)
    assert life.codes(E) == set()
    life.pass_time(1)
    CHANGES[what](life)
    assert "point-not-tested" in life.codes(E)
    assert len([o for o in life.found() if o.code == "point-not-tested"]) == len(life.points())
    life.pass_time(1).read("3.6", "work", held=None)
    left = len([o for o in life.found() if o.code == "point-not-tested"])
    assert left == len(life.points()), "a retest at the work point stands for no point of the test before entry"
    life.read_all("after-break")
    assert "point-not-tested" not in life.codes(E)


def test_the_same_level_stated_again_changes_nothing() -> None:
    life = Life().ready()
    life.tell(e.LevelStated(depth_m="5.10", how="looked again"))
    assert life.codes(A) == set()


def test_a_higher_level_moves_the_lowest_point() -> None:
    life = Life().ready()
    assert life.points()[-1] == "4.8"
    life.tell(e.LevelStated(depth_m="4.0", how="risen"))
    assert life.points()[-1] == "3.7"
    life.tell(e.LevelStated(depth_m="0", how="full"))
    assert "no-air" in life.codes(A)


# Retests -------------------------------------------------------------------------------------------------------------


def test_a_retest_falls_due_late_and_overdue_to_the_second() -> None:
    life = Life().inside()
    start = life.at
    life.tell(e.ContactMade())

    def at(minutes: int, seconds: int = 0) -> set[str]:
        return life.codes(at=start + timedelta(minutes=minutes, seconds=seconds))

    assert at(17) == set()
    assert at(17, 1) == {"retest-late"}
    assert at(30) == {"retest-late"}
    assert at(30, 1) == {"retest-overdue"}
    assert life.codes(S, at=start + timedelta(minutes=30, seconds=1)) == {"retest-overdue"}


def test_with_nobody_inside_a_late_set_bars_the_next_person_and_orders_nobody() -> None:
    life = Life().authorised()
    life.pass_time(300)
    assert life.codes(S) == set()
    assert life.codes(E) == {"retest-late", "verification-old"}
    life.read("3.6", "work", held=None)
    assert life.codes(E) == {"verification-old"}, "one set says nothing of the points tested five hours ago"
    life.read_all()
    assert life.codes(E) == set()


def test_an_overdue_retest_is_latched_by_time_alone_and_a_good_set_does_not_lift_it() -> None:
    life = Life().inside().pass_time(30, 1)
    life.read("3.6", "work", held=None)
    stop = life.permit.stop
    assert stop is not None and stop.cause == "retest-overdue"
    assert "stopped" in life.codes(S)


def test_half_a_set_does_not_keep_the_air_known() -> None:
    life = Life().inside().pass_time(20)
    life.read("3.6", "work", held=None, oxygen="not-measured")
    life.pass_time(10, 1).read("3.6", "work", held=None)
    assert life.permit.stop is not None


def test_a_set_dated_ahead_does_not_put_off_the_next_one() -> None:
    life = Life().inside().pass_time(5)
    life.read("3.6", "work", held=None, taken=life.at + timedelta(days=3650))
    life.pass_time(25, 1)
    assert "retest-overdue" in life.codes(S)
    life.tell(e.ContactMade())
    assert life.permit.stop is not None


def test_points_tested_longer_ago_than_the_form_allows_do_not_authorize() -> None:
    life = Life().ready()
    first = next(s for s in life.permit.sets if s.event.point_m == "0.3").event.taken
    assert life.codes(A, at=first + timedelta(minutes=60)) == set()
    assert life.codes(A, at=first + timedelta(minutes=60, seconds=1)) == {"verification-old"}


# Breaks, ends and those who go in all the same ---------------------------------------------------------------------


def test_after_a_break_entry_waits_for_isolation_points_and_endorsement() -> None:
    life = Life().inside().pass_time(5)
    life.tell(e.WentOut(person=TEO))
    life.tell(e.BreakBegun(guarded="rail", left="fan runs", torches_out=True))
    assert life.pass_time(60).codes(S) == set(), "timers stand still"
    assert "on-break" in life.codes(E)
    life.tell(e.BreakEnded(isolation_found="as left"))
    assert {"reendorse", "point-not-tested"} <= life.codes(E)
    life.read_all("after-break")
    assert life.codes(E) == {"reendorse"}
    life.tell(e.Reendorsed(after="break"), by=MARA)
    assert life.codes() == set()


def test_a_break_stops_no_timer_of_someone_who_goes_in_during_it() -> None:
    life = Life().authorised()
    life.read("3.6", "work", held=None)
    life.tell(e.BreakBegun(guarded="rail", left="fan runs", torches_out=True))
    life.tell(e.SomeoneWentIn(label="unknown 1"))
    assert "retest-overdue" in life.pass_time(31).codes(S)


def test_whoever_is_inside_without_an_authorized_permit_or_after_its_end_is_called_out() -> None:
    """29 CFR 1910.146(e)(5): the permit's end is the end of authority to be inside, not only to go in."""
    life = Life().ready()
    life.tell(e.SomeoneWentIn(label="unknown 1"))
    assert "not-authorised" in life.codes(S)
    life = Life().inside()
    life.tell(e.Ended(cause="work-complete"), by=MARA)
    assert "ended" in life.codes(S)


def test_hours_end_to_the_second_and_call_everyone_out() -> None:
    life = Life().inside()
    until = life.permit.until
    assert until is not None
    assert "expired" not in life.codes(at=until - timedelta(seconds=1))
    assert "expired" in life.codes(S, at=until)


def test_before_the_hours_begin_nobody_goes_in() -> None:
    life = Life()
    life.check_instruments().describe(begins=(12, 0)).assign().pass_time(45).open_up().pass_time(20).read_all()
    hours = life.permit.hours
    assert hours is not None
    life.tell(
        e.Authorised(begins=hours.begins, ends=hours.ends, on_version=life.permit.version, entrants=(TEO,), ink=None)
    )
    life.tell(e.WatchTaken(person=OSKAR))
    assert "not-begun" in life.codes(E)
    assert "not-begun" not in life.codes(at=hours.begins)


def test_hours_in_the_past_do_not_authorize() -> None:
    life = Life()
    life.check_instruments().describe(begins=(5, 0), ends=(7, 30)).assign().pass_time(45).open_up().pass_time(20)
    life.read_all()
    assert life.codes(A) == {"hours-over"}


def test_after_the_end_outs_are_still_counted() -> None:
    life = Life().inside()
    life.tell(e.Ended(cause="work-complete"), by=MARA)
    assert len(life.permit.tally.inside) == 1
    life.tell(e.WentOut(person=TEO))
    assert life.permit.tally.inside == ()
    assert "ended" in life.codes(E)


def test_a_permit_ends_once_and_keeps_its_first_cause() -> None:
    life = Life().inside()
    life.tell(e.Ended(cause="prohibited-condition"), by=MARA)
    life.tell(e.Ended(cause="work-complete"), by=MARA)
    ended = life.permit.ended
    assert ended is not None and isinstance(ended.event, e.Ended) and ended.event.cause == "prohibited-condition"


def test_someone_unknown_counts_as_inside_until_out_under_the_same_label() -> None:
    life = Life().authorised()
    life.tell(e.SomeoneWentIn(label="unknown 1"))
    life.tell(e.SomeoneNamed(label="unknown 1", name="a visitor", what="unauthorised"))
    assert [trip.who for trip in life.permit.tally.inside] == ["unknown 1"]
    life.tell(e.WentOut(person="unknown 1"))
    assert life.permit.tally.inside == ()
    assert life.permit.tally.unknowns == 1


# Corrections ---------------------------------------------------------------------------------------------------------


def test_a_correction_to_a_figure_outside_stops_as_a_reading_does() -> None:
    life = Life().inside().pass_time(2)
    version = life.read("3.6", "work", held=None)
    life.tell(e.ReadingCorrected(set_version=version, gas="carbon-monoxide", old="0", new="60", reason="read it wrong"))
    stop = life.permit.stop
    assert stop is not None and stop.set_version == version


def test_a_correction_of_a_correction_keeps_all_three_figures() -> None:
    life = Life().ready()
    version = life.permit.sets[-1].version
    for old, new in (("0", "60"), ("60", "6")):
        life.tell(e.ReadingCorrected(set_version=version, gas="carbon-monoxide", old=old, new=new, reason="slip"))
    one = next(s for s in life.permit.sets if s.version == version)
    figure, typed = one.figure("carbon-monoxide"), one.event.figures[-1]
    assert figure is not None and (figure.figure, typed.figure) == ("6", "0")
    assert [c.event.new for c in one.corrections] == ["60", "6"]


def test_a_correction_never_makes_a_past_decision_allowed() -> None:
    """Went in against a bad reading: corrected later, the record still says what stood then."""
    life = Life().authorised()
    version = life.read("3.6", "work", held=None, hydrogen_sulfide="14")
    against = tuple(sorted(life.codes(E)))
    life.tell(e.WentIn(person=TEO, against=against))
    life.tell(e.ReadingCorrected(set_version=version, gas="hydrogen-sulfide", old="14", new="4", reason="slip"))
    assert "reading-outside" in life.permit.tally.trips[0].against
    assert "stopped" in life.codes(S)


@pytest.mark.parametrize("text", ["", "abc", "NaN", "Infinity", "1e3", "20,9", " 20.9", "٢", "9" * 40])
def test_text_that_is_no_figure_never_reaches_the_record(text: str) -> None:
    """A stored text that no rule can compute with would shut the permit for good, with people inside."""
    with pytest.raises(ValueError, match="figure"):
        e.Figure(gas="oxygen", unit="% vol", figure=text)
    with pytest.raises(ValueError, match="new"):
        e.ReadingCorrected(set_version=1, gas="oxygen", old="1", new=text, reason="slip")
    with pytest.raises(ValueError, match="depth_m"):
        e.LevelStated(depth_m=text, how="")
    with pytest.raises(ValueError, match="stopped_s"):
        e.HoseTested(instrument="07", stopped_s=text)


# Who and what serves -------------------------------------------------------------------------------------------------


def test_the_only_monitor_taken_from_those_inside_calls_them_out() -> None:
    """29 CFR 1910.146(d)(5)(i): a space that cannot be isolated is monitored continuously where people work."""
    for why in ("done", "swapped", "failed", "dropped", "battery-flat"):
        life = Life().inside()
        life.tell(e.InstrumentReturned.model_validate({"instrument": "11", "why": why}))
        assert "continuous-lost" in life.codes(S), why
        assert "not-continuous" in life.codes(E)


def test_the_last_instrument_taken_from_those_inside_calls_them_out_and_a_swap_does_not() -> None:
    life = Life().inside()
    life.tell(e.InstrumentReturned(instrument="07", why="done"))
    assert "instrument-lost" in life.codes(S)
    life = Life().inside()
    life.do("09", instrument("07"))
    for event in (calibration(), check(), bump()):
        life.do("09", event)
    life.tell(e.InstrumentAssigned(instrument="09", registered=instrument("07"), duty="test", hose_m=None))
    life.tell(e.InstrumentReturned(instrument="07", why="swapped"))
    assert life.codes(S) == set()


def test_an_instrument_whose_readiness_lapses_by_time_calls_nobody_out() -> None:
    """Paper dates that pass during an entry bar the next person in; they drive nobody up a ladder (decision: stay)."""
    life = Life().inside()
    life.do(
        "07",
        b.Calibrated(
            cylinder=calibration().cylinder,
            results=calibration().results,
            passed=True,
            due=life.at.date() - timedelta(days=1),
        ),
    )
    assert "instrument-not-ready" in life.codes(E)
    assert life.codes(S) == set()


def test_an_instrument_dropped_at_the_bench_is_lost_at_the_portal() -> None:
    life = Life().inside()
    life.do("07", b.TestVoided(cause="dropped"))
    assert "instrument-lost" in life.codes(S)


def test_attendants_swap_and_the_one_on_watch_is_the_incoming() -> None:
    life = Life().inside()
    life.tell(e.Relieved(outgoing=OSKAR, incoming=NIA, inside=(TEO,), last_set=None, open_alarms=()), by=NIA)
    assert life.permit.attendant == NIA
    assert life.codes() == set()
    assert [duty.until is None for duty in life.permit.watch] == [False, True]


def test_an_entrant_added_after_authorizing_is_briefed_before_anyone_goes_in() -> None:
    life = Life().authorised()
    life.read("3.6", "work", held=None)
    life.tell(e.PersonNamed(person=LENA, part="entrant"), by=MARA)
    assert life.codes(E) == {"not-briefed"}
    life.tell(e.PersonUnnamed(person=LENA, part="entrant"), by=MARA)
    assert life.codes(E) == set()


def test_nobody_is_attendant_and_entrant_at_once() -> None:
    """29 CFR 1910.146(i)(4): the attendant remains outside."""
    life = Life().ready()
    life.tell(e.PersonNamed(person=KIT, part="attendant"), by=MARA)
    assert "two-parts" in life.codes(A)


def test_a_stop_in_a_draft_that_was_stood_down_needs_no_second_endorsement_once_authorized() -> None:
    life = Life().ready()
    life.tell(e.StopOrdered(cause="pressed"))
    life.tell(e.StopDetermined(finding="none-arose", reason="a slip"), by=MARA)
    life.read_all()
    assert life.codes(A) == set()
    permit = life.permit
    assert permit.hours is not None
    life.tell(
        e.Authorised(
            begins=life.at, ends=permit.hours.ends, on_version=permit.version, entrants=permit.entrants, ink=None
        ),
        by=MARA,
    )
    assert "reendorse" not in life.codes(E)


@given(oxygen=st.integers(195, 212), base=st.integers(206, 212), ppm=st.integers(0, 34))
def test_whatever_the_figures_the_obstacle_stands_exactly_where_the_working_says_so(
    oxygen: int, base: int, ppm: int
) -> None:
    """The rule takes a short way where nothing is missing; it must never differ from the published working."""
    life = Life().ready().pass_time(seconds=100)
    life.read(None, "upwind", held=None, oxygen=str(Decimal(base) / 10))
    life.read("3.6", oxygen=str(Decimal(oxygen) / 10), carbon_monoxide=str(ppm))
    worked = unaccounted(Decimal(oxygen) / 10, Decimal(base) / 10, {"carbon-monoxide": Decimal(ppm)}, Decimal("0.1"))
    at_this_point = [o for o in life.found() if o.code == "unaccounted" and o.found.subject == "3.6"]
    assert bool(at_this_point) is (Decimal(worked.result) > 10_000)
