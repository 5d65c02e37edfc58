"""The acts of the watch: what each refuses and why, what it records, and that a repeated act is one act."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from tests.permit.life import figures, ink
from tests.permit.shift import CODES, good, shift_until

from lamproom.bench.events import TestVoided as Voided
from lamproom.office.assign_instrument import assign_instrument
from lamproom.office.authorise import authorise
from lamproom.office.begin_break import begin_break
from lamproom.office.brief import brief
from lamproom.office.clear_condition import clear_condition
from lamproom.office.close_out import close_out
from lamproom.office.confirm_figures import confirm_figures
from lamproom.office.confirm_rescue import confirm_rescue
from lamproom.office.correct_reading import correct_reading
from lamproom.office.describe_work import describe_work
from lamproom.office.determine import determine
from lamproom.office.end_break import end_break
from lamproom.office.end_permit import end_permit
from lamproom.office.evaluate_space import evaluate_space
from lamproom.office.go_in import go_in
from lamproom.office.go_out import go_out
from lamproom.office.hand_over import hand_over
from lamproom.office.make_contact import make_contact
from lamproom.office.name_person import name_person
from lamproom.office.name_someone import name_someone
from lamproom.office.note import note
from lamproom.office.office import Office
from lamproom.office.open_permit import open_permit
from lamproom.office.order_stop import order_stop
from lamproom.office.permit_change import Barred
from lamproom.office.plan_hours import plan_hours
from lamproom.office.reendorse import reendorse
from lamproom.office.register_person import register_person
from lamproom.office.relieve import relieve
from lamproom.office.report_condition import report_condition
from lamproom.office.return_instrument import return_instrument
from lamproom.office.someone_went_in import someone_went_in
from lamproom.office.start_fan import start_fan
from lamproom.office.state_level import state_level
from lamproom.office.stop_fan import stop_fan
from lamproom.office.take_readings import take_readings
from lamproom.office.take_watch import take_watch
from lamproom.office.test_hose import test_hose as leak_test
from lamproom.office.unname_person import unname_person
from lamproom.office.void_test import void_test
from lamproom.permit import events as e
from lamproom.permit.obstacles import Stage, barring
from lamproom.permit.plain_reading import plain_reading
from lamproom.record.envelope import from_bytes
from lamproom.words import Refusal

MARA, OSKAR, NIA, TEO, KIT, LENA = "P-01", "P-02", "P-03", "P-04", "P-05", "P-06"
C = CODES


class Day:
    """Permit A of the demo's day at a moment."""

    def __init__(self, folder: Path, clock: str) -> None:
        self.shift = shift_until(folder, clock)
        self.office: Office = self.shift.office
        self.number = self.shift.permits["A"]

    def minutes(self, minutes: float) -> Day:
        self.shift.clock.pass_time(timedelta(minutes=minutes))
        return self

    @property
    def permit(self) -> Any:
        return self.office.permit(self.number)

    def codes(self, stage: Stage) -> set[str]:
        return {o.code for o in barring(self.office.facts(self.number), stage)}

    def read(self, **changes: str | None) -> None:
        take_readings(self.office, self.number, "work", "3.6", "07", figures(**changes), by=OSKAR)

    def kinds(self) -> list[str]:
        return [from_bytes(entry.sealed.body).kind for entry in self.office.journal.entries()]


def refused(act: Callable[[], Any]) -> str:
    """The words of a refusal: every one can be said."""
    with pytest.raises(Refusal) as told:
        act()
    said = told.value.why.say()
    assert said and "{" not in said
    return said


# Going in and out ------------------------------------------------------------------------------------------------


def test_going_in_is_refused_with_every_obstacle_and_recorded_as_a_fact_all_the_same(tmp_path: Path) -> None:
    day = Day(tmp_path, "08:59:00")
    stop_fan(day.office, day.number, "fuel", by=OSKAR)
    with pytest.raises(Barred) as barred:
        go_in(day.office, day.number, TEO, by=OSKAR)
    codes = {o.code for o in barred.value.standing}
    assert {"fan-stopped", "point-not-tested"} <= codes
    assert all(o.sentence.say() and o.clears.say() for o in barred.value.standing)
    assert "Teo Amadi" in barred.value.why.say()
    go_in(day.office, day.number, TEO, by=OSKAR, against=True)
    trip = day.permit.tally.trips[0]
    assert set(trip.against) == codes
    assert len(trip.against) == len(set(trip.against))


def test_going_in_and_out_twice_or_by_strangers_is_refused(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    assert "already inside" in refused(lambda: go_in(day.office, day.number, TEO, by=OSKAR))
    assert "not an entrant" in refused(lambda: go_in(day.office, day.number, NIA, by=OSKAR))
    assert "not inside" in refused(lambda: go_out(day.office, day.number, LENA, by=OSKAR))


def test_someone_unknown_gets_the_next_label_and_can_be_named_and_go_out(tmp_path: Path) -> None:
    day = Day(tmp_path, "08:50:00")
    assert someone_went_in(day.office, day.number, by=OSKAR) == "unknown 1"
    assert someone_went_in(day.office, day.number, by=OSKAR, act="tap") == "unknown 2"
    assert someone_went_in(day.office, day.number, by=OSKAR, act="tap") == "unknown 2", "one tap, one person"
    name_someone(day.office, day.number, "unknown 1", "a fitter", "unauthorised", by=OSKAR)
    go_out(day.office, day.number, "unknown 1", by=OSKAR)
    assert [trip.who for trip in day.permit.tally.inside] == ["unknown 2"]
    assert someone_went_in(day.office, day.number, by=OSKAR) == "unknown 3", "a label is never given again"


def test_someone_goes_in_also_on_a_permit_that_has_ended(tmp_path: Path) -> None:
    day = Day(tmp_path, "11:40:00")
    label = someone_went_in(day.office, day.number, by=NIA)
    assert "inside" in refused(lambda: close_out(day.office, day.number, "a", "b", "c", by=MARA))
    start_fan(day.office, day.number, "680", "upwind", "streamer", by=NIA)
    go_out(day.office, day.number, label, by=NIA)
    close_out(day.office, day.number, "counted", "shut", "off", by=MARA)


# Acts repeated ---------------------------------------------------------------------------------------------------


def test_every_act_of_the_day_repeated_with_its_id_is_one_act_and_is_not_refused(tmp_path: Path) -> None:
    """A station that lost the answer of the record asks again: the same act, the same answer, nothing twice."""
    day = Day(tmp_path, "08:50:00")
    office, number = day.office, day.number
    steps: list[tuple[str, Callable[[str], Any]]] = [
        ("authorise", lambda act: authorise(office, number, MARA, C[MARA], ink(MARA, 70), act=act)),
        ("watch", lambda act: take_watch(office, number, OSKAR, act=act)),
        ("read", lambda act: take_readings(office, number, "work", "3.6", "07", good(), by=OSKAR, act=act)),
        ("in", lambda act: go_in(office, number, TEO, by=OSKAR, act=act)),
        (
            "correct",
            lambda act: correct_reading(
                office,
                number,
                office.permit(number).sets[-1].version,
                "carbon-monoxide",
                "2",
                "slip",
                by=OSKAR,
                act=act,
            ),
        ),
        (
            "relieve",
            lambda act: relieve(
                office, number, NIA, C[NIA], (TEO,), office.permit(number).sets[-1].version, (), act=act
            ),
        ),
        ("out", lambda act: go_out(office, number, TEO, by=NIA, act=act)),
        ("break", lambda act: begin_break(office, number, "rail", "fan runs", True, by=NIA, act=act)),
        ("back", lambda act: end_break(office, number, "as left", by=NIA, act=act)),
        ("stop", lambda act: order_stop(office, number, by=None, act=act)),
        ("determine", lambda act: determine(office, number, "none-arose", "a slip", MARA, C[MARA], act=act)),
        ("end", lambda act: end_permit(office, number, "work-complete", "done", MARA, C[MARA], act=act)),
        ("close", lambda act: close_out(office, number, "counted", "shut", "off", by=MARA, act=act)),
    ]
    for name, step in steps:
        day.minutes(8 if name == "in" else 1)
        step(name)
        stored = office.journal.head().number
        state = office.permit(number)
        step(name)
        assert office.journal.head().number == stored, name
        assert office.permit(number) == state, name


def test_a_repeated_endorsement_and_hand_over_are_one(tmp_path: Path) -> None:
    day = Day(tmp_path, "10:26:00")
    for _ in range(2):
        reendorse(day.office, day.number, MARA, C[MARA], act="endorse")
    assert day.kinds().count("reendorsed") == 1
    from datetime import date

    from lamproom.office.office import ToRecord
    from lamproom.office.train_person import train_person
    from lamproom.permit.people import PersonRegistered, PersonTrained

    day.office.record([ToRecord(f"person/{NIA}", PersonRegistered(roles=("supervisor", "attendant")))], by=MARA)
    train_person(
        day.office,
        NIA,
        PersonTrained(role="supervisor", trained_on=date(2026, 4, 14), trainer="D. Harrow"),
        by=MARA,
    )
    for _ in range(2):
        hand_over(day.office, day.number, NIA, C[NIA], act="hand-over")
    assert day.permit.supervisor == NIA
    assert day.kinds().count("supervision-handed-over") == 1


# Codes -----------------------------------------------------------------------------------------------------------


def test_a_wrong_code_is_an_event_of_its_owner_and_stores_nothing_else(tmp_path: Path) -> None:
    day = Day(tmp_path, "08:50:00")
    before = day.kinds()
    refused(lambda: authorise(day.office, day.number, MARA, "not-the-code-1", None))
    added = day.kinds()[len(before) :]
    assert added == ["code-failed"]
    assert not day.permit.authorised


def test_only_the_named_trained_supervisor_authorizes_and_only_once(tmp_path: Path) -> None:
    day = Day(tmp_path, "08:50:00")
    assert "not the entry supervisor" in refused(lambda: authorise(day.office, day.number, NIA, C[NIA], None))
    authorise(day.office, day.number, MARA, C[MARA], None)
    assert "already authorized" in refused(lambda: authorise(day.office, day.number, MARA, C[MARA], None))


def test_authorizing_too_early_says_every_obstacle(tmp_path: Path) -> None:
    day = Day(tmp_path, "07:06:00")
    with pytest.raises(Barred) as told:
        authorise(day.office, day.number, MARA, C[MARA], None)
    assert len(told.value.standing) > 10
    assert all(o.sentence.say() and o.clears.say() and o.rule for o in told.value.standing)


# The watch changes hands -------------------------------------------------------------------------------------------


def test_a_relief_needs_the_three_facts_as_they_are_now_and_a_named_attendant_outside(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    last = day.permit.sets[-1].version
    relief = lambda inside, seen: relieve(day.office, day.number, NIA, C[NIA], inside, seen, ())  # noqa: E731
    assert "changed meanwhile" in refused(lambda: relief((TEO,), last))
    assert "changed meanwhile" in refused(lambda: relief((TEO, KIT), last - 1))
    assert "changed meanwhile" in refused(lambda: relief((TEO, KIT), None))
    assert "not named attendant" in refused(
        lambda: relieve(day.office, day.number, MARA, C[MARA], (TEO, KIT), last, ())
    )
    assert "nobody" in refused(lambda: relieve(day.office, day.number, OSKAR, C[OSKAR], (TEO, KIT), last, ()))
    refused(lambda: relieve(day.office, day.number, NIA, "not-the-code-1", (TEO, KIT), last, ()))
    assert day.permit.attendant == OSKAR, "until it is stored the outgoing attendant watches"
    relief((TEO, KIT), last)
    assert day.permit.attendant == NIA
    assert "stands watch" in refused(lambda: take_watch(day.office, day.number, OSKAR))


# Stops and what was found ------------------------------------------------------------------------------------------


def test_with_a_plain_reading_only_the_prohibited_condition_is_offered(tmp_path: Path) -> None:
    """29 CFR 1910.146(e)(5)(ii): a condition not allowed under the permit cancels it."""
    day = Day(tmp_path, "09:04:00")
    day.read(hydrogen_sulfide="14")
    assert "inside" in refused(lambda: determine(day.office, day.number, "none-arose", "a", MARA, C[MARA]))
    for who in (TEO, KIT):
        go_out(day.office, day.number, who, by=OSKAR)
    assert plain_reading(day.permit)
    assert "uncorrected" in refused(lambda: determine(day.office, day.number, "none-arose", "a", MARA, C[MARA]))
    assert "found" in refused(lambda: determine(day.office, day.number, "prohibited-condition", " ", MARA, C[MARA]))
    determine(day.office, day.number, "prohibited-condition", "gas from the sludge", MARA, C[MARA])
    assert day.permit.ended is not None
    again = open_permit(day.office, "S-01", by=MARA, renews=day.number)
    fresh = day.office.permit(again)
    assert (fresh.opened.renews, fresh.answers, fresh.sets, fresh.signed) == (day.number, {}, (), ())


def test_a_reading_corrected_as_a_typing_error_allows_none_arose(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    day.read(hydrogen_sulfide="14")
    version = day.permit.sets[-1].version
    for who in (TEO, KIT):
        go_out(day.office, day.number, who, by=OSKAR)
    correct_reading(day.office, day.number, version, "hydrogen-sulfide", "4", "a one too many", by=OSKAR)
    determine(day.office, day.number, "none-arose", "typed wrong", MARA, C[MARA])
    assert {"reendorse", "point-not-tested"} <= day.codes(Stage.ENTER)
    assert "office" not in refused(lambda: correct_reading(day.office, day.number, version, "oxygen", "x", "a", by=NIA))


def test_a_bad_reading_that_comes_too_late_is_plain_all_the_same(tmp_path: Path) -> None:
    """The set was overdue when it came, so the stop is called overdue; the reading still stands behind it."""
    day = Day(tmp_path, "09:04:00").minutes(25.1)
    day.read(hydrogen_sulfide="50")
    assert day.permit.stop.cause == "retest-overdue"
    assert plain_reading(day.permit)


def test_an_older_figure_corrected_to_a_bad_one_after_a_stop_is_plain(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    version = day.permit.sets[-1].version
    order_stop(day.office, day.number, by=None)
    correct_reading(day.office, day.number, version, "hydrogen-sulfide", "50", "a nought missing", by=OSKAR)
    assert plain_reading(day.permit)


@pytest.mark.parametrize("cause", ["expired", "work-complete"])
def test_no_other_cause_ends_a_permit_past_a_stop_that_nobody_determined(tmp_path: Path, cause: Any) -> None:
    day = Day(tmp_path, "09:04:00")
    day.read(hydrogen_sulfide="14")
    for who in (TEO, KIT):
        go_out(day.office, day.number, who, by=OSKAR)
    day.minutes(6 * 60)
    assert "stop" in refused(lambda: end_permit(day.office, day.number, cause, "", MARA, C[MARA]))
    end_permit(day.office, day.number, "prohibited-condition", "gas", MARA, C[MARA])


def test_a_permit_can_end_with_people_inside_and_goes_on_counting_them(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    end_permit(day.office, day.number, "work-complete", "", MARA, C[MARA])
    assert "already ended" in refused(lambda: end_permit(day.office, day.number, "expired", "", MARA, C[MARA]))
    day.read()
    make_contact(day.office, day.number, by=OSKAR)
    confirm_rescue(day.office, day.number, "duty officer", day.office.now() + timedelta(hours=1), "14", by=OSKAR)
    assert "ended" in refused(lambda: go_in(day.office, day.number, LENA, by=OSKAR))
    for who in (TEO, KIT):
        go_out(day.office, day.number, who, by=OSKAR)
    close_out(day.office, day.number, "counted", "shut", "off", by=MARA)
    assert "closed out" in refused(lambda: make_contact(day.office, day.number, by=None))
    someone_went_in(day.office, day.number, by=None)
    order_stop(day.office, day.number, by=None)
    assert [trip.who for trip in day.permit.tally.inside] == ["unknown 1"], "a fact is never refused"
    note(day.office, day.number, "found later", by=MARA)


def test_never_entered_and_expired_must_be_true(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:56:00")
    assert "inside" in refused(lambda: end_permit(day.office, day.number, "never-entered", "", MARA, C[MARA]))
    assert "not over" in refused(lambda: end_permit(day.office, day.number, "expired", "", MARA, C[MARA]))


def test_unexplained_gas_and_a_lost_monitor_are_latched_as_they_are_seen(tmp_path: Path) -> None:
    """A stay obstacle during entry is itself a latched stop: one good figure later undoes nothing."""
    day = Day(tmp_path, "09:04:00")
    day.read(oxygen="20.4")
    assert day.permit.stop.cause == "unaccounted"
    day.minutes(1).read()
    assert "stopped" in day.codes(Stage.STAY)
    assert all(o.sentence.say() for o in barring(day.office.facts(day.number), Stage.STAY))
    day = Day(tmp_path / "other", "09:04:00")
    return_instrument(day.office, day.number, "11", "done", by=OSKAR)
    assert day.permit.stop.cause == "continuous-lost"
    assign_instrument(day.office, day.number, "11", "worn", None, by=OSKAR)
    assert "stopped" in day.codes(Stage.STAY)


def test_an_instrument_dropped_at_the_bench_stops_at_the_next_set(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    void_test(day.office, "07", Voided(cause="dropped"), by=NIA)
    assert "instrument-lost" in day.codes(Stage.STAY)
    day.read()
    assert day.permit.stop.cause == "instrument-lost"


def test_any_word_can_be_the_cause_of_a_stop_and_any_condition_reported(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    report_condition(day.office, day.number, "bees in the shaft", by=OSKAR)
    found = barring(day.office.facts(day.number), Stage.STAY)
    assert {"stopped", "condition-stay"} <= {o.code for o in found}
    assert all(o.sentence.say() for o in found)
    assert refused(lambda: clear_condition(day.office, day.number, "bees in the shaft", " ", by=OSKAR)) == (
        "Say what was found."
    )
    clear_condition(day.office, day.number, "bees in the shaft", "gone", by=OSKAR)
    assert "stopped" in day.codes(Stage.STAY), "gone is not determined"


# Figures and times at the door -------------------------------------------------------------------------------------


def test_readings_are_refused_only_for_what_cannot_be(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    office, number, now = day.office, day.number, day.office.now()
    stored = office.journal.head().number

    def take(**how: Any) -> None:
        told = {"phase": "work", "point_m": "3.6", "instrument": "07", "figures": good(), "by": OSKAR} | how
        take_readings(office, number, **told)

    nothing = tuple(f.model_copy(update={"state": "not-measured", "figure": None}) for f in good())
    hollow = tuple(f.model_copy(update={"figure": None}) for f in good())
    assert "No figure" in refused(lambda: take(figures=nothing))
    assert "No figure" in refused(lambda: take(figures=hollow))
    assert "ahead" in refused(lambda: take(taken=now + timedelta(minutes=1, seconds=1)))
    assert "ahead" in refused(lambda: take(taken=now - timedelta(hours=12, seconds=1)))
    assert "rest" in refused(lambda: take(lowered=now + timedelta(seconds=1)))
    refused(lambda: take(point_m="three"))
    assert office.journal.head().number == stored
    take(figures=figures(oxygen="fault", flammable="over-range"), instrument="99", lowered=now)
    assert office.journal.head().number > stored


def test_text_that_is_no_figure_is_refused_in_words(tmp_path: Path) -> None:
    day = Day(tmp_path, "07:50:00")
    office, number = day.office, day.number
    version = day.permit.sets[-1].version
    stored = office.journal.head().number
    for text in ("", "abc", "NaN", "1e3", "2O.9", "5 m"):
        refused(lambda: state_level(office, number, text, "gauge", by=MARA))  # noqa: B023
        refused(lambda: correct_reading(office, number, version, "oxygen", text, "slip", by=MARA))  # noqa: B023
        refused(lambda: leak_test(office, number, "07", text, by=NIA))  # noqa: B023
        refused(lambda: start_fan(office, number, text, "upwind", "streamer", by=MARA))  # noqa: B023
        refused(lambda: assign_instrument(office, number, "07", "test", text, by=MARA))  # noqa: B023
    assert "below the floor" in refused(lambda: state_level(office, number, "5.7", "gauge", by=MARA))
    assert office.journal.head().number == stored
    state_level(office, number, "5,1", "gauge", by=MARA)
    assert day.permit.level.event.depth_m == "5.1"


def test_a_correction_needs_a_reason_a_reading_and_a_change(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    version = day.permit.sets[-1].version
    correct = lambda v, gas, new, why: correct_reading(day.office, day.number, v, gas, new, why, by=OSKAR)  # noqa: E731
    assert "why" in refused(lambda: correct(version, "oxygen", "20.8", " "))
    assert "no such reading" in refused(lambda: correct(version + 900, "oxygen", "20.8", "slip"))
    assert "no such reading" in refused(lambda: correct(version, "argon", "20.8", "slip"))
    assert "already" in refused(lambda: correct(version, "oxygen", "20.9", "slip"))


# Drafts, breaks and registers ----------------------------------------------------------------------------------------


def test_after_authorizing_a_change_of_purpose_or_hours_needs_a_new_permit(tmp_path: Path) -> None:
    day = Day(tmp_path, "08:58:00")
    now = day.office.now()
    assert "new permit" in refused(lambda: describe_work(day.office, day.number, "weld a bracket", by=MARA))
    assert "new permit" in refused(lambda: plan_hours(day.office, day.number, now, now + timedelta(hours=20), by=MARA))
    assert "end after" in refused(lambda: plan_hours(day.office, day.number, now, now, by=MARA))


def test_a_break_needs_everyone_out_and_torches_out(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    assert "2 inside" in refused(lambda: begin_break(day.office, day.number, "rail", "fan", True, by=OSKAR))
    for who in (TEO, KIT):
        go_out(day.office, day.number, who, by=OSKAR)
    assert "torches" in refused(lambda: begin_break(day.office, day.number, "rail", "fan", False, by=OSKAR))
    assert "not on a break" in refused(lambda: end_break(day.office, day.number, "as left", by=OSKAR))
    begin_break(day.office, day.number, "rail", "fan", True, by=OSKAR)
    assert "no entry to break off" in refused(
        lambda: begin_break(day.office, day.number, "rail", "fan", True, by=OSKAR)
    )
    assert "isolation" in refused(lambda: end_break(day.office, day.number, " ", by=OSKAR))
    with pytest.raises(Barred):
        reendorse(day.office, day.number, MARA, C[MARA])


def test_a_briefing_needs_a_witness_and_everyone_s_own_fresh_ink(tmp_path: Path) -> None:
    day = Day(tmp_path, "08:49:00")
    mine = ink(TEO, 50)
    assert "witness" in refused(lambda: brief(day.office, day.number, [mine], by=None))
    assert "Ink is missing" in refused(lambda: brief(day.office, day.number, [e.Ink(person=TEO, strokes=())], by=MARA))
    assert "Ink is missing" in refused(lambda: brief(day.office, day.number, [], by=MARA))
    brief(day.office, day.number, [mine], by=MARA)
    assert "used before" in refused(lambda: brief(day.office, day.number, [ink(KIT, 50)], by=MARA))


def test_what_is_not_there_is_refused_in_words(tmp_path: Path) -> None:
    day = Day(tmp_path, "07:04:00")
    office = day.office
    assert "no permit" in refused(lambda: office.permit("99-0001"))
    assert "no space" in refused(lambda: open_permit(office, "S-99", by=MARA))
    assert "no form" in refused(lambda: open_permit(office, "S-01", by=MARA, form="none"))
    assert "no instrument" in refused(lambda: assign_instrument(office, day.number, "99", "test", None, by=MARA))
    assert "which text" in refused(lambda: confirm_figures(office, "us-general-industry", " ", by=MARA))
    assert "No stop" in refused(lambda: determine(office, day.number, "none-arose", "a", MARA, C[MARA]))
    assert "Nothing waits" in refused(lambda: reendorse(office, day.number, MARA, C[MARA]))
    assert "given before" in refused(lambda: register_person(office, TEO, "Teo", ("entrant",), (), by=MARA))
    assert "name" in refused(lambda: register_person(office, "P-99", " ", ("entrant",), (), by=MARA))
    assert evaluate_space is not None


def test_watch_and_supervision_are_handed_over_never_dropped_or_taken_without_a_code(tmp_path: Path) -> None:
    """29 CFR 1910.146(i)(4) and (j)(6): the attendant stays until relieved; supervision changes hands knowingly."""
    day = Day(tmp_path, "09:04:00")
    assert "Relieve" in refused(lambda: unname_person(day.office, day.number, OSKAR, "attendant", by=MARA))
    assert "code" in refused(lambda: name_person(day.office, day.number, NIA, "supervisor", by=NIA))
    assert "code" in refused(lambda: unname_person(day.office, day.number, MARA, "supervisor", by=NIA))
    assert (day.permit.attendant, day.permit.supervisor) == (OSKAR, MARA)
    unname_person(day.office, day.number, NIA, "attendant", by=MARA)


def test_two_permits_at_once_keep_their_own_tally_and_their_own_stop(tmp_path: Path) -> None:
    day = Day(tmp_path, "09:04:00")
    other = open_permit(day.office, "S-01", by=MARA)
    order_stop(day.office, other, by=None)
    assert day.permit.stop is None
    assert day.office.permit(other).tally.inside == ()
    assert [o.number for o in day.office.facts(other).others] == [day.number]
