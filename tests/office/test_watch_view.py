"""The Watch's values without a window: state, alarms, plausibility, what is read next."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from tests.desk.watch import crew

from lamproom.office.begin_break import begin_break
from lamproom.office.end_break import end_break
from lamproom.office.end_permit import end_permit
from lamproom.office.go_out import go_out
from lamproom.office.order_stop import order_stop
from lamproom.office.someone_went_in import someone_went_in
from lamproom.office.views.watch import Station, causes, digits, findings, hours_words, to_watch, typed_view, watch_view
from lamproom.office.views.watch_air import boxes, echo, reading_plan, trend
from lamproom.office.views.watch_alarms import Alarm, Attention
from lamproom.office.views.watch_log import log_sets
from lamproom.permit import events as e
from lamproom.permit.plausible import doubt

AT = datetime(2026, 11, 25, 18, 0, tzinfo=UTC)


@pytest.fixture
def site(tmp_path: Path) -> crew.Site:
    return crew.site(tmp_path)


def keys(one: crew.Site, silent: bool = False) -> list[tuple[str, int]]:
    view = watch_view(one.office, one.number, Station(silent=silent))
    return [(alarm.key.split("/")[0], alarm.priority) for alarm in view.alarms]


# Alarms: 29 CFR 1910.146(i) says what the attendant acts on; priorities as in ISA-18.2 ------------------------------


def test_a_calm_entry_has_no_alarm(site: crew.Site) -> None:
    assert keys(crew.working(site)) == []


def test_due_is_soon_late_is_now_and_one_cause_is_one_alarm(site: crew.Site) -> None:
    one = crew.working(site)
    one.minutes(8)
    assert [key for key in keys(one) if key[0] != "contact"] == [("due", 3)]
    one.minutes(3)
    assert ("late", 2) in keys(one) and ("due", 3) not in keys(one)


def test_past_the_second_bound_everyone_comes_out_without_a_press(site: crew.Site) -> None:
    one = crew.working(site)
    one.minutes(24)
    view = watch_view(one.office, one.number)
    assert view.state.value == "out" and view.alarms[0].priority == 1 and view.alarms[0].pattern == "limit"


def test_the_everyone_out_pattern_comes_from_an_order_alone(site: crew.Site) -> None:
    one = crew.working(site)
    one.read("20.6 2 14 0")
    assert watch_view(one.office, one.number).alarms[0].pattern == "limit"
    two = watch_view(one.office, one.number)
    assert two.alarms[0].what == "Hydrogen sulfide 14 ppm"


def test_an_order_sounds_three_minutes_also_with_nobody_inside(site: crew.Site) -> None:
    """At least 180 s: ISO 8201 (from memory)."""
    one = crew.allowed(site)
    order_stop(one.office, one.number, by="P-02")
    assert watch_view(one.office, one.number).alarms[0].pattern == "everyone-out"
    one.minutes(3.1)
    assert keys(one) == []


def test_people_inside_after_the_end_are_danger(site: crew.Site) -> None:
    one = crew.working(site)
    end_permit(one.office, one.number, "work-complete", "", "P-01", crew.CODES["P-01"])
    assert keys(one)[0] == ("ended", 1)
    assert watch_view(one.office, one.number).state.value == "out"


def test_missed_contact_and_a_silent_station_are_said(site: crew.Site) -> None:
    one = crew.working(site)
    one.minutes(5)
    assert ("contact", 2) in keys(one)
    assert ("silent", 2) in keys(one, silent=True)


def test_silence_never_hides_a_new_alarm_and_ends_by_itself() -> None:
    late = Alarm("late/1", 2, "late", "", "", "")
    limit = Alarm("stop/2", 1, "limit", "", "", "")
    attention = Attention()
    attention.silence((late,), AT)
    assert attention.sounding((late,), AT + timedelta(seconds=119)) is None
    assert attention.sounding((limit, late), AT + timedelta(seconds=1)) is limit
    assert attention.sounding((late,), AT + timedelta(seconds=121)) is late
    assert attention.unseen((late,)) is late


def test_one_press_acknowledges_one_alarm_and_danger_sounds_again_after_a_minute() -> None:
    limit, late = Alarm("stop/2", 1, "limit", "", "", ""), Alarm("contact/1", 2, "late", "", "", "")
    attention = Attention()
    assert attention.acknowledge((limit, late), AT) is limit
    assert attention.unseen((limit, late)) is late
    assert attention.sounding((limit,), AT + timedelta(seconds=59)) is None
    assert attention.sounding((limit,), AT + timedelta(seconds=60)) is limit


def test_a_soft_beep_comes_once() -> None:
    due = Alarm("due/1", 3, "soon", "", "", "")
    attention = Attention()
    assert attention.sounding((due,), AT) is due
    assert attention.sounding((due,), AT + timedelta(seconds=30)) is None


# Plausibility: out-by-ten slips (Thimbleby & Cairns 2010); ranges of the table are common practice -------------------

ONE, TENTH = Decimal(1), Decimal("0.1")


@pytest.mark.parametrize(
    ("typed", "gas", "unit", "last", "step", "kind", "meant"),
    [
        ("20.9", "oxygen", "% vol", "20.8", TENTH, None, None),
        ("209", "oxygen", "% vol", "20.9", TENTH, "over_hundred", "20.9"),
        ("209", "oxygen", "% vol", "", TENTH, "over_hundred", "20.9"),
        ("2.09", "oxygen", "% vol", "20.9", TENTH, "jump", "20.9"),
        ("2.09", "oxygen", "% vol", "", TENTH, "odd_oxygen", "20.9"),
        ("26.0", "oxygen", "% vol", "20.9", TENTH, "odd_oxygen", None),
        ("20", "oxygen", "% vol", "20.9", TENTH, "no_tenths", None),
        ("20.95", "oxygen", "% vol", "20.9", TENTH, "too_fine", None),
        ("-1", "hydrogen-sulfide", "ppm", "0", ONE, "below_zero", None),
        ("0", "flammable", "% LEL", "0 0 0", ONE, None, None),
        ("0", "carbon-monoxide", "ppm", "0 0 0", TENTH, None, None),
        ("20.9", "oxygen", "% vol", "20.9 20.9 20.9", TENTH, None, None),
        ("20.4", "oxygen", "% vol", "20.4 20.4 20.4", TENTH, "frozen", None),
        ("6", "hydrogen-sulfide", "ppm", "6 6 6", ONE, "frozen", None),
        ("6", "hydrogen-sulfide", "ppm", "6 6 5", ONE, None, None),
        ("30", "carbon-monoxide", "ppm", "3", ONE, "jump", "3"),
        ("8", "carbon-monoxide", "ppm", "3", ONE, None, None),
        ("3", "carbon-monoxide", "ppm", "0", ONE, None, None),
        ("600", "carbon-monoxide", "ppm", "10", ONE, "over_range", None),
        ("1,250", "carbon-monoxide", "ppm", "10", ONE, "read_as", None),
    ],
)
def test_what_is_doubted(
    typed: str, gas: str, unit: str, last: str, step: Decimal, kind: str | None, meant: str | None
) -> None:
    before = [Decimal(figure) for figure in last.split()]
    value = Decimal(typed.replace(",", "."))
    found = doubt(typed, value, gas, unit, before, step, Decimal(500))
    assert (found.question.id.rsplit(".", 1)[1] if found else None) == kind
    assert (found.meant if found else None) == meant
    assert (found is not None and found.impossible) == (kind in ("below_zero", "over_hundred"))


def test_an_echo_says_gas_figure_unit_and_limit_and_stores_nothing(site: crew.Site) -> None:
    one = crew.working(site)
    before = one.office.permit(one.number).version
    told = echo(one.office, one.number, "I-02", "hydrogen-sulfide", "ppm", "10", Decimal(10))
    assert told.words == "Hydrogen sulfide 10 ppm (limit below 10 ppm)"
    assert told.outside
    assert one.office.permit(one.number).version == before


# What is read next ----------------------------------------------------------------------------------------------------


def test_during_work_the_evaluation_names_the_points(site: crew.Site) -> None:
    one = crew.working(site)
    plan = reading_plan(one.office, one.number)
    assert (plan.phase, plan.full, [p.point_m for p in plan.points]) == ("work", False, ["3.9"])
    assert plan.instruments[0].instrument == "I-02" and plan.instruments[0].hold_s


def test_after_a_break_every_point_is_tested_again(site: crew.Site) -> None:
    one = crew.working(site)
    for trip in one.office.permit(one.number).tally.inside:
        go_out(one.office, one.number, trip.who, by="P-02")
    begin_break(one.office, one.number, "rails", "fan on", True, by="P-02")
    end_break(one.office, one.number, "as left", by="P-02")
    plan = reading_plan(one.office, one.number)
    assert (plan.phase, plan.full, plan.left) == ("after-break", True, 4)
    crew.test_all_points(one, "after-break")
    assert reading_plan(one.office, one.number).left == 0


def test_boxes_stand_in_the_order_oxygen_flammable_toxic(site: crew.Site) -> None:
    """29 CFR 1910.146(d)(5)(iii): oxygen, then combustible, then toxic gases."""
    one = crew.working(site)
    made = boxes(one.office, one.number, "I-02")
    assert [box.gas for box in made] == ["oxygen", "flammable", "hydrogen-sulfide", "carbon-monoxide"]
    assert [box.last for box in made] == ["20.8", "1", "3", "1"]


def test_direction_compares_with_the_two_sets_before(site: crew.Site) -> None:
    one = crew.working(site)
    rows = {row.gas: row.direction for row in watch_view(one.office, one.number).gases}
    assert rows["hydrogen-sulfide"] == "rising" and rows["oxygen"] == "steady"
    one.read("20.8 1 6 1")
    assert watch_view(one.office, one.number).gases[2].direction == "rising to limit"


def test_a_value_older_than_the_interval_is_old(site: crew.Site) -> None:
    one = crew.working(site)
    assert not any(row.old for row in watch_view(one.office, one.number).gases)
    one.minutes(8)
    assert all(row.old for row in watch_view(one.office, one.number).gases)


def test_the_plot_keeps_the_limit_in_view_and_tells_moves(site: crew.Site) -> None:
    one = crew.working(site)
    data = trend(one.office.facts(one.number), "hydrogen-sulfide", None)
    assert data.scale == (0.0, 15.0) and data.limits == ((10.0, "10"),)
    assert [sign for _at, sign, _name in data.moves] == ["GO_IN", "GO_IN"]


# The rest -------------------------------------------------------------------------------------------------------------


def test_count_and_list_are_one_thing(site: crew.Site) -> None:
    one = crew.working(site)
    someone_went_in(one.office, one.number, by="P-02")
    view = watch_view(one.office, one.number)
    assert view.inside == 3 == sum(row.inside for row in view.people)
    assert view.people[-1].name == "Unknown 1"


def test_the_words_for_rescue_say_where_how_many_how_deep_and_what(site: crew.Site) -> None:
    one = crew.working(site)
    one.read("20.6 2 14 0")
    words = watch_view(one.office, one.number).call[2]
    for part in ("Osprel Bend Waterworks", "Wet well 2", "Two people are inside", "3.9 m", "Hydrogen sulfide 14 ppm"):
        assert part in words.replace("\u00a0", " ")


def test_without_an_order_nothing_says_ordered_and_the_clock_runs(site: crew.Site) -> None:
    one = crew.working(site)
    one.minutes(24)
    view = watch_view(one.office, one.number)
    assert view.state.value == "out" and view.ordered == ""
    assert "reading" in view.clock.first and view.clock.digits != "0:00"
    before = view.clock.digits
    one.minutes(1)
    assert watch_view(one.office, one.number).clock.digits != before


def test_a_press_after_a_limit_is_the_order_with_its_own_time(site: crew.Site) -> None:
    one = crew.working(site)
    one.read("20.6 2 14 0")
    seen = watch_view(one.office, one.number)
    assert (seen.ordered, seen.clock.first.split()[-1]) == ("", "limit")
    one.minutes(1)
    pressed = one.office.now().astimezone(one.office.zone).strftime("%H:%M:%S")
    order_stop(one.office, one.number, by="P-02")
    view = watch_view(one.office, one.number)
    assert view.ordered == pressed and view.clock.first.split()[-1] == "order"
    assert view.alarms[0].pattern == "everyone-out"


def test_an_alarm_in_calm_stands_in_words_in_the_band(site: crew.Site) -> None:
    one = crew.working(site)
    one.minutes(5)
    band = watch_view(one.office, one.number).band
    assert band.sentence.startswith("No contact since") and band.sentence.endswith("Call them now.")
    assert band.mark == "CAUTION"


def test_a_typed_outside_figure_bars_going_in_and_is_an_alarm(site: crew.Site) -> None:
    view = typed_view(watch_view(crew.working(site).office, site.number), "Flammable gas 12 % LEL")
    assert "Flammable gas 12 % LEL" in view.band.sentence and "Get everyone out" in view.band.sentence
    assert all(row.inside or row.barred for row in view.people)
    assert view.alarms[0].priority == 1 and typed_view(view, "") is view


def test_when_all_are_out_the_words_for_rescue_say_so(site: crew.Site) -> None:
    one = crew.working(site)
    for trip in one.office.permit(one.number).tally.inside:
        go_out(one.office, one.number, trip.who, by="P-02")
    assert "Everyone is out." in watch_view(one.office, one.number).call[2]


def test_only_findings_and_causes_that_can_be_true_are_offered(site: crew.Site) -> None:
    one = crew.working(site)
    assert [cause for cause, _words in causes(one.office, one.number)] == ["work-complete", "prohibited-condition"]
    one.read("20.6 2 14 0")
    assert [bool(one.barred) for one in findings(one.office, one.number)] == [False, True]


def test_a_correction_leaves_the_old_figure_readable(site: crew.Site) -> None:
    from lamproom.office.correct_reading import correct_reading

    one = crew.working(site)
    version = one.office.permit(one.number).sets[-1].version
    correct_reading(one.office, one.number, version, "carbon-monoxide", "2", "typed wrong", by="P-02")
    figure = log_sets(one.office, one.number)[0].figures[3]
    assert (figure.figure, figure.struck) == ("2", ("1",))


def test_the_station_opens_on_the_permit_with_people_inside(site: crew.Site) -> None:
    one = crew.working(site)
    first = one.number
    from lamproom.office.open_permit import open_permit

    open_permit(one.office, "wet-well-2", by="P-01")
    assert to_watch(one.office) == first


def test_long_times_are_hours() -> None:
    assert digits(timedelta(seconds=440)) == "7:20"
    assert digits(timedelta(minutes=432)) == "7 h 12"


@pytest.mark.parametrize("live", [crew.draft, crew.authorised, crew.allowed, crew.working])
def test_the_view_never_gives_a_verdict_of_ours(site: crew.Site, live) -> None:  # type: ignore[no-untyped-def]
    words = repr(watch_view(live(site).office, site.number)).lower()
    assert " safe" not in words and " ok " not in words


@pytest.mark.parametrize(("after", "words"), [(0, "15 min"), (2, "13 min"), (13.5, "2 min"), (14.5, "30 s")])
def test_what_is_left_until_the_next_set_never_looks_like_a_time_of_day(
    site: crew.Site, after: float, words: str
) -> None:
    crew.working(site)
    site.read("20.9 0 1 0")
    site.minutes(after)
    assert watch_view(site.office, site.number, Station()).clock.second == f"next in {words}"


def test_before_they_begin_the_hours_are_told_with_their_begin(site: crew.Site) -> None:
    crew.authorised(site)
    made = site.office.permit(site.number).authorised
    assert made is not None and isinstance(made.event, e.Authorised)
    later = replace(made, event=made.event.model_copy(update={"begins": site.office.now() + timedelta(minutes=5)}))
    facts = site.office.facts(site.number)
    early = replace(facts, permit=replace(facts.permit, authorised=later))
    assert hours_words(early).startswith("From ")
    assert hours_words(facts).startswith("Ends ")
