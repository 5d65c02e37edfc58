"""Until when an instrument counts: bump tests, calibrations, checks and set-ups, each apart.

Sources: OSHA SHIB 09-30-2013 'Calibrating and Testing Direct-Reading Portable Gas Monitors' (a bump test before each
day's use; an instrument that fails it is calibrated before further use); the 24 hours, 10 % and the duty period are the
form's figures (common practice), so they are tested as the form's.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.permit.life import FORM, bump, calibration, check, instrument

from lamproom.bench import events as b
from lamproom.bench.duty import duty_end, duty_start
from lamproom.bench.happening import Event, Happening
from lamproom.bench.readiness import Readiness, readiness
from lamproom.bench.rules import BenchRules
from lamproom.bench.state import Instrument, as_of, fold
from lamproom.permit.form import read_form

ZONES = ("America/Chicago", "Europe/London", "Australia/Sydney")
"""Three zones whose clocks change on different nights and in different directions of the year (IANA tz database)."""

NIGHTS = {
    "America/Chicago": (date(2026, 3, 8), date(2026, 11, 1)),
    "Europe/London": (date(2026, 3, 29), date(2026, 10, 25)),
    "Australia/Sydney": (date(2026, 4, 5), date(2026, 10, 4)),
}
"""The local days on which the clock is changed (IANA tz database)."""

RULES = read_form(FORM).bench_rules(ZoneInfo("America/Chicago"))


class Bench:
    """One instrument's life. Times are local to the rules' zone."""

    def __init__(self, rules: BenchRules = RULES, id: str = "07") -> None:
        self.rules = rules
        self.past: list[Happening] = []
        self.at = datetime(2026, 1, 5, 7, 0, tzinfo=rules.zone).astimezone(UTC)
        self.do(instrument(id).model_copy(update={"calibration_days": 730}))
        self.do(calibration(due=date(2027, 12, 31)))

    def to(self, *clock: int) -> Bench:
        self.at = datetime(*clock, tzinfo=self.rules.zone).astimezone(UTC)  # type: ignore[arg-type]
        return self

    def do(self, event: Event, void: bool = False) -> Bench:
        number = len(self.past) + 1
        self.past.append(Happening("instrument/07", number, event, self.at, "P-03", number=number, void=void))
        return self

    def state(self) -> Instrument:
        return fold(self.past, Instrument("07"))

    def ready(self, after: timedelta = timedelta(0)) -> Readiness:
        return readiness(self.state(), self.rules, self.at + after)

    def codes(self, after: timedelta = timedelta(0)) -> set[str]:
        return {reason.code for reason in self.ready(after).unfit}


def test_a_new_instrument_says_all_that_is_missing_not_only_the_first() -> None:
    alone = fold([Happening("instrument/07", 1, instrument("07"), datetime(2026, 1, 5, tzinfo=UTC))], Instrument("07"))
    found = {reason.code for reason in readiness(alone, RULES, datetime(2026, 1, 5, tzinfo=UTC)).unfit}
    assert found == {"not-calibrated", "not-bumped", "not-checked"}


def test_an_unregistered_instrument_is_not_ready() -> None:
    assert not readiness(Instrument("99"), RULES, datetime(2026, 1, 5, tzinfo=UTC)).ready


def test_a_checked_and_bumped_instrument_is_ready_until_its_duty_period_ends() -> None:
    one = Bench().do(check()).do(bump())
    assert one.ready().until == datetime(2026, 1, 6, 6, 0, tzinfo=RULES.zone)


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("night", (0, 1), ids=("first change", "second change"))
def test_a_bump_test_counts_for_less_than_24_hours_on_the_watch_of_the_body_also_when_the_clock_changes(
    zone: str, night: int
) -> None:
    """Without the duty period only the 24 hours count: elapsed hours, whatever the wall clock shows in between."""
    rules = replace(RULES, zone=ZoneInfo(zone), in_duty_period=False)
    day = NIGHTS[zone][night]
    one = Bench(rules).to(day.year, day.month, day.day, 0, 30).do(bump())
    assert "bump-old" not in one.codes(timedelta(hours=23, minutes=59))
    assert "bump-old" in one.codes(timedelta(hours=24))


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("night", (0, 1), ids=("first change", "second change"))
def test_in_the_next_duty_period_a_bump_test_no_longer_counts_at_16_hours(zone: str, night: int) -> None:
    rules = replace(RULES, zone=ZoneInfo(zone))
    day = NIGHTS[zone][night] - timedelta(days=1)
    one = Bench(rules).to(day.year, day.month, day.day, 15, 0).do(bump()).do(check())
    assert one.ready().ready
    after = timedelta(hours=16)  # past 06:00 local of the next day, whichever way the clock went
    assert {"bump-other-duty", "not-checked"} <= one.codes(after)
    assert "bump-old" not in one.codes(after)


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("night", (0, 1), ids=("first change", "second change"))
def test_within_its_duty_period_of_a_long_night_a_bump_test_counts_until_the_day_start(zone: str, night: int) -> None:
    """A duty period of 23 or 25 hours ends at 06:00 local; never past 24 elapsed hours."""
    rules = replace(RULES, zone=ZoneInfo(zone))
    day = NIGHTS[zone][night] - timedelta(days=1)
    one = Bench(rules).to(day.year, day.month, day.day, 6, 0).do(check()).do(bump())
    until = one.ready().until
    next_start = datetime.combine(day + timedelta(days=1), time(6), rules.zone).astimezone(UTC)
    assert until == min(next_start, one.at + timedelta(hours=24))


@given(
    at=st.datetimes(datetime(2025, 1, 1), datetime(2028, 1, 1), timezones=st.just(UTC)),  # noqa: DTZ001
    zone=st.sampled_from((*ZONES, "America/Sao_Paulo", "Asia/Kolkata", "Pacific/Chatham")),
    start=st.times().map(lambda t: t.replace(second=0, microsecond=0)),
)
def test_every_moment_lies_in_exactly_one_duty_period(at: datetime, zone: str, start: time) -> None:
    where = ZoneInfo(zone)
    begins, ends = duty_start(at, where, start), duty_end(at, where, start)
    assert begins <= at < ends
    assert duty_start(ends, where, start) == ends
    assert duty_end(begins, where, start) == ends
    assert timedelta(hours=22) <= ends - begins <= timedelta(hours=26)


# Bump tests and calibrations --------------------------------------------------------------------------------------


def test_a_failed_bump_test_asks_for_calibration_then_for_another_bump_test() -> None:
    """OSHA SHIB 09-30-2013: an instrument that fails is adjusted by a full calibration before it is used."""
    one = Bench().do(check()).do(bump("hydrogen-sulfide"))
    assert one.codes() == {"bump-failed"}
    one.do(calibration(due=date(2027, 12, 31)))
    assert one.codes() == {"not-bumped"}
    one.do(bump())
    assert one.ready().ready


def test_a_second_try_does_not_take_the_place_of_the_calibration_that_a_failure_asks_for() -> None:
    one = Bench().do(check()).do(bump("hydrogen-sulfide")).do(bump())
    assert one.codes() == {"bump-failed"}


def test_one_result_that_fell_short_fails_the_test_also_when_the_gas_is_told_twice() -> None:
    good = bump()
    short = b.SensorResult(gas="oxygen", applied="18.0", reading="18.0", alarm_s=None)
    twice = good.model_copy(update={"results": (short, *good.results)})
    assert Bench().do(check()).do(twice).codes() == {"bump-failed"}


def test_a_sensor_without_a_result_did_not_pass() -> None:
    good = bump()
    missing = good.model_copy(update={"results": good.results[1:]})
    assert Bench().do(check()).do(missing).codes() == {"bump-failed"}


@pytest.mark.parametrize(("reading", "passes"), [("90", True), ("89.9", False), ("110", True), ("110.1", False)])
def test_a_calibration_check_passes_from_90_to_110_per_cent_of_the_applied_gas(reading: str, passes: bool) -> None:
    """The form's 10 %: SHIB 09-30-2013 names +-10 % as a common maker's range for a full-function check."""
    good = bump()
    results = tuple(
        r.model_copy(update={"reading": reading}) if r.gas == "carbon-monoxide" else r for r in good.results
    )
    assert Bench().do(check()).do(good.model_copy(update={"results": results})).ready().ready is passes


@pytest.mark.parametrize(("seconds", "passes"), [("60", True), ("60.1", False), (None, False)])
def test_a_sensor_that_alarms_late_or_never_did_not_pass(seconds: str | None, passes: bool) -> None:
    good = bump()
    results = tuple(r.model_copy(update={"alarm_s": seconds}) if r.gas == "oxygen" else r for r in good.results)
    assert Bench().do(check()).do(good.model_copy(update={"results": results})).ready().ready is passes


@pytest.mark.parametrize(("applied", "passes"), [("18.0", True), ("20.8", True), ("20.9", False), ("21", False)])
def test_oxygen_must_be_seen_to_fall(applied: str, passes: bool) -> None:
    good = bump()
    results = tuple(
        r.model_copy(update={"applied": applied, "reading": applied}) if r.gas == "oxygen" else r for r in good.results
    )
    assert Bench().do(check()).do(good.model_copy(update={"results": results})).ready().ready is passes


def test_a_function_check_does_not_do_where_the_form_asks_for_a_calibration_check() -> None:
    assert Bench().do(check()).do(bump(check="function")).codes() == {"bump-failed"}
    either = replace(RULES, check="function")
    assert Bench(either).do(check()).do(bump(check="function")).ready().ready
    assert Bench(either).do(check()).do(bump()).ready().ready, "a calibration check shows more than is asked"


def test_test_gas_counts_until_the_day_it_expires_and_not_after() -> None:
    assert Bench().do(check()).do(bump(expires=date(2026, 1, 5))).ready().ready
    assert Bench().do(check()).do(bump(expires=date(2026, 1, 4))).codes() == {"cylinder-expired"}


def test_calibration_counts_through_the_day_it_is_due() -> None:
    one = Bench().do(calibration(due=date(2026, 1, 5))).do(check()).do(bump())
    assert one.ready().until == datetime(2026, 1, 6, 0, 0, tzinfo=RULES.zone)
    assert "calibration-due" in one.to(2026, 1, 6, 0, 0).codes()


def test_a_due_day_beyond_the_registered_interval_does_not_stretch_it() -> None:
    """The register's 180 days are the stricter of maker and site; a later day that was typed counts for nothing."""
    one = Bench().do(instrument("07")).do(calibration(due=date(2099, 1, 1)))
    one.to(2026, 7, 4, 7, 0).do(check()).do(bump())
    assert one.ready().ready
    one.to(2026, 7, 5, 7, 0).do(check()).do(bump())
    assert one.codes() == {"calibration-due"}


def test_a_failed_calibration_takes_the_instrument_out() -> None:
    assert "calibration-failed" in Bench().do(calibration(passed=False)).do(check()).do(bump()).codes()


def test_a_calibration_marked_passed_that_left_a_sensor_off_is_judged_by_its_figures() -> None:
    told = calibration(due=date(2027, 12, 31))
    off = tuple(r.model_copy(update={"as_left": "60"}) if r.gas == "carbon-monoxide" else r for r in told.results)
    assert Bench().do(told.model_copy(update={"results": off})).do(check()).do(bump()).codes() == {"calibration-failed"}
    assert Bench().do(told.model_copy(update={"results": ()})).do(check()).do(bump()).codes() == {"calibration-failed"}


def test_out_of_service_ends_only_with_a_return_and_a_calibration() -> None:
    one = Bench().do(check()).do(bump()).do(b.TakenOutOfService(reason="cracked"))
    assert one.codes() == {"out-of-service"}
    one.to(2026, 1, 5, 8, 0).do(b.ReturnedToService(done="new housing"))
    assert one.codes() == {"not-calibrated"}
    one.to(2026, 1, 5, 9, 0).do(calibration(due=date(2027, 12, 31)))
    assert one.ready().ready


def test_a_return_at_the_same_moment_as_the_calibration_before_it_still_asks_for_one() -> None:
    one = Bench().do(check()).do(bump()).do(b.TakenOutOfService(reason="cracked"))
    one.do(calibration(due=date(2027, 12, 31))).do(b.ReturnedToService(done="new housing"))
    assert one.codes() == {"not-calibrated"}


def test_a_gas_that_the_cylinder_does_not_hold_has_tested_and_calibrated_no_sensor() -> None:
    """Physics: a sensor answers to the gas that is applied."""

    def without_oxygen(event: Any) -> Any:
        left = {gas: figure for gas, figure in event.cylinder.gases.items() if gas != "oxygen"}
        return event.model_copy(update={"cylinder": event.cylinder.model_copy(update={"gases": left})})

    assert Bench().do(check()).do(bump()).ready().ready
    assert Bench().do(check()).do(without_oxygen(bump())).codes() == {"bump-failed"}
    assert Bench().do(check()).do(bump()).do(without_oxygen(calibration())).codes() == {"calibration-failed"}


@pytest.mark.parametrize("cause", ["dropped", "poisoned", "over-range", "sensor-changed", "check-failed"])
def test_what_voids_a_bump_test_stands_until_the_next_one(cause: Any) -> None:
    one = Bench().do(check()).do(bump()).do(b.TestVoided(cause=cause))
    assert one.codes() == {"bump-voided"}
    assert one.do(bump()).ready().ready


def test_a_sensor_counts_through_the_day_it_expires() -> None:
    known = instrument("07")
    sensors = (known.sensors[0].model_copy(update={"expires": date(2026, 1, 5)}), *known.sensors[1:])
    one = Bench().do(known.model_copy(update={"sensors": sensors})).do(check()).do(bump())
    assert one.ready().ready
    assert "sensor-expired" in one.to(2026, 1, 6, 0, 0).codes()


@pytest.mark.parametrize(
    "wrong",
    [
        {"self_test": False},
        {"alarm_heard": False},
        {"alarm_seen": False},
        {"alarm_felt": False},
        {"display_complete": False},
        {"housing_sound": False},
        {"set_points_as_registered": False},
        {"block_stopped_s": None},
        {"block_stopped_s": "30.1"},
        {"air": {"why_clean": "  "}},
        {"air": {"beside_portal": True}},
        {"air": {"oxygen_before": "20.5"}},
        {"air": {"oxygen_before": "21.3"}},
    ],
    ids=str,
)
def test_each_answer_of_the_check_before_use_is_judged_apart(wrong: dict[str, Any]) -> None:
    one = Bench().do(check(**wrong)).do(bump())
    assert one.codes() == {"check-failed"}
    assert len(one.ready().unfit) == 1
    assert one.do(check()).ready().ready, "a check that passes clears it"


def test_everything_wrong_with_a_check_is_said_not_only_the_first() -> None:
    assert len(Bench().do(check(alarm_heard=False, alarm_felt=False)).do(bump()).ready().unfit) == 2


def test_a_set_up_that_moves_oxygen_by_three_tenths_is_within_the_form() -> None:
    assert Bench().do(check(air={"oxygen_before": "20.6"})).do(bump()).ready().ready


def test_an_instrument_without_a_pump_needs_no_block_test() -> None:
    one = Bench(id="11").do(check(block_stopped_s=None)).do(bump())
    assert one.ready().ready


# The clock declared wrong, and looking back -----------------------------------------------------------------------


def test_over_entries_declared_wrong_a_pass_counts_as_never_done_and_a_failure_stays() -> None:
    assert Bench().do(check()).do(bump(), void=True).codes() == {"not-bumped"}
    assert Bench().do(check(), void=True).do(bump()).codes() == {"not-checked"}
    assert Bench().do(check()).do(bump()).do(bump("oxygen"), void=True).codes() == {"bump-failed"}
    assert "calibration-failed" in Bench().do(check()).do(bump()).do(calibration(passed=False), void=True).codes()
    assert Bench().do(check()).do(bump()).do(check(alarm_heard=False), void=True).codes() == {"check-failed"}
    assert Bench().do(check()).do(bump()).do(b.TakenOutOfService(reason="wet"), void=True).codes() == {"out-of-service"}


def test_a_test_recorded_ahead_of_now_does_not_count() -> None:
    one = Bench()
    one.at += timedelta(days=3650)
    one.do(check()).do(bump()).do(calibration(due=date(2099, 1, 1)))
    one.to(2026, 1, 5, 8, 0)
    assert {"not-bumped", "not-checked"} <= one.codes()


@pytest.mark.parametrize("first", [b.TestVoided(cause="dropped"), b.TakenOutOfService(reason="wet")], ids=str)
def test_looking_back_a_later_event_never_hides_that_the_instrument_was_unfit_then(first: Event) -> None:
    """Dropped at 8, dropped again at 10 (or brought back at 10): at 9 it was unfit, and stays so in the record."""
    for later in (first, b.ReturnedToService(done="inspected")):
        if isinstance(first, b.TestVoided) and isinstance(later, b.ReturnedToService):
            continue
        one = Bench().do(check()).do(bump()).to(2026, 1, 5, 8, 0).do(first)
        nine = datetime(2026, 1, 5, 9, 0, tzinfo=RULES.zone).astimezone(UTC)
        one.to(2026, 1, 5, 10, 0).do(later)
        assert not readiness(as_of(one.state(), nine), RULES, nine).ready
        assert not readiness(as_of(one.state(), nine, len(one.past) - 1), RULES, nine).ready


def test_looking_back_a_later_drop_or_removal_takes_nothing_from_what_was_read_before() -> None:
    for later in (b.TestVoided(cause="dropped"), b.TakenOutOfService(reason="wet")):
        one = Bench().do(check()).do(bump()).to(2026, 1, 5, 10, 0).do(later)
        nine = datetime(2026, 1, 5, 9, 0, tzinfo=RULES.zone).astimezone(UTC)
        assert readiness(as_of(one.state(), nine), RULES, nine).ready
        assert not one.ready().ready
