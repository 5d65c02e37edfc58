"""What the attendant does, by real keys and presses."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from tests.desk.watch import crew
from tests.desk.watch.conftest import Station

from lamproom.office.go_out import go_out
from lamproom.permit import events as e

Make = Callable[..., Station]


def inside(one: Station) -> list[str]:
    return [trip.who for trip in one.permit.tally.inside]


def everyone_out(one: Station) -> None:
    for who in inside(one):
        go_out(one.site.office, one.site.number, who, by="P-02")


# In and out -----------------------------------------------------------------------------------------------------------


def test_one_press_brings_a_person_in_and_one_out(station: Make) -> None:
    one = station(crew.allowed)
    one.press("watch.in.P-04")
    assert inside(one) == ["P-04"] and one.watch.view.inside == 1  # type: ignore[union-attr]
    one.press("watch.out.P-04")
    assert inside(one) == []


def test_undo_takes_back_the_last_move(station: Make) -> None:
    one = station(crew.working)
    one.press("watch.out.P-04")
    one.press("watch.undo")
    assert "P-04" in inside(one)
    assert not one.shown("watch.undo")


def test_a_barred_person_sees_why_and_the_fact_is_still_one_press_away(station: Make) -> None:
    one = station(crew.working)
    one.minutes(11)
    one.press("watch.in.P-06")
    assert "P-06" not in inside(one)
    assert one.part("watch.panel.stands").isVisible()
    one.press("watch.reading")
    assert "P-06" in inside(one)
    assert one.permit.tally.trips[-1].against == ("retest-late",)


def test_someone_went_in_is_one_press_and_can_be_named_after(station: Make) -> None:
    one = station(crew.working)
    one.press("watch.someone")
    assert inside(one)[-1] == "unknown 1"
    one.press("watch.someone.name")
    one.type("watch.name.name", "Ira Mott", None)
    one.press("watch.name.what.rescuer")
    one.key(Qt.Key.Key_F2)
    assert (one.permit.tally.trips[-1].name, one.permit.tally.trips[-1].what) == ("Ira Mott", "rescuer")
    one.press("watch.out.unknown-1")
    assert "unknown 1" not in inside(one)


def test_contact_and_a_note_are_recorded_in_the_name_of_the_attendant_on_duty(station: Make) -> None:
    one = station(crew.working)
    one.desk.set_person("P-01")
    one.press("watch.contact")
    assert one.permit.contact.by == "P-02"
    one.key(Qt.Key.Key_F9)
    one.press("watch.more.note")
    one.type("watch.note.text", "pump two hums", None)
    one.key(Qt.Key.Key_F2)
    assert (one.permit.notes[-1].event.text, one.permit.notes[-1].by) == ("pump two hums", "P-02")


# A set of readings ----------------------------------------------------------------------------------------------------


def enter(one: Station, *figures: str) -> None:
    gases = [gas for gas, _unit in crew.GASES]
    for gas, figure in zip(gases, figures, strict=False):
        one.type(f"watch.reading.{gas}", figure)


def test_a_set_is_typed_with_keys_alone(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    for figure in ("20.8", "0", "2", "1"):
        for digit in figure:
            one.key(Qt.Key(ord(digit)))
        one.key(Qt.Key.Key_Return)
    one.key(Qt.Key.Key_F2)
    last = one.permit.sets[-1]
    assert [figure.figure for figure in last.figures] == ["20.8", "0", "2", "1"]
    assert (last.event.phase, last.event.point_m, last.event.instrument) == ("work", "3.9", "I-02")
    assert not one.shown("watch.panel.reading")


def test_the_keypad_feeds_the_box_that_has_the_caret(station: Make) -> None:
    one = station(crew.working)
    one.press("watch.reading")
    for key in ("2", "0", ".", "9"):
        one.press(f"key_{key}")
    assert one.part("watch.reading.oxygen").text() == "20.9"  # type: ignore[attr-defined]
    one.press("key_back")
    assert one.part("watch.reading.oxygen").text() == "20."  # type: ignore[attr-defined]


@pytest.mark.parametrize("typed", ["20,8", "20.8"])
def test_point_and_comma_are_one_decimal_sign(station: Make, typed: str) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    enter(one, typed, "0", "2", "1")
    one.key(Qt.Key.Key_F2)
    assert one.permit.sets[-1].figure("oxygen").figure == "20.8"


def test_boxes_begin_empty_and_half_typed_figures_come_back(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    assert all(one.part(f"watch.reading.{gas}").text() == "" for gas, _u in crew.GASES)  # type: ignore[attr-defined]
    one.type("watch.reading.oxygen", "20.8")
    one.key(Qt.Key.Key_Escape)
    one.key(Qt.Key.Key_F2)
    assert one.part("watch.reading.oxygen").text() == "20.8"  # type: ignore[attr-defined]


def test_209_is_challenged_kept_as_typed_and_changed_only_by_a_press(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.oxygen", "209")
    assert "Did you mean 20.9?" in one.said()
    assert one.part("watch.reading.oxygen").text() == "209"  # type: ignore[attr-defined]
    before = len(one.permit.sets)
    one.key(Qt.Key.Key_F2)
    assert len(one.permit.sets) == before
    one.press("watch.reading.meant")
    assert one.part("watch.reading.oxygen").text() == "20.9"  # type: ignore[attr-defined]


def test_an_odd_figure_within_limits_is_asked_once_and_marked_as_typed(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    enter(one, "20")
    assert "steps of 0.1" in one.said()
    one.press("watch.reading.as-typed")
    enter(one, "20", "0", "2", "1")
    one.key(Qt.Key.Key_F2)
    assert one.permit.sets[-1].event.as_typed and one.permit.sets[-1].figure("oxygen").figure == "20"


def test_an_outside_figure_sounds_before_it_is_stored_and_no_question_delays_it(station: Make) -> None:
    """2.09 may be 20.9, and it may be the air: the alarm comes first, the question beside it."""
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.oxygen", "2.09")
    assert one.sound.heard[-1] == "LIMIT"
    assert one.word().startswith("OUTSIDE LIMIT")
    assert "Did you mean 20.9?" in one.said()
    one.key(Qt.Key.Key_F2)
    assert one.permit.stop is not None and one.permit.stop.cause == "reading"
    assert one.word().startswith("EVERYONE OUT")


def test_a_set_typed_long_ago_is_left_out_and_said(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.oxygen", "20.9")
    one.key(Qt.Key.Key_Escape)
    one.minutes(5.5)
    one.key(Qt.Key.Key_F2)
    assert one.part("watch.reading.oxygen").text() == ""  # type: ignore[attr-defined]
    assert one.said().startswith("Typed ") and "left out" in one.said()


@pytest.mark.parametrize("enter", [Qt.Key.Key_Return, None])
def test_an_outside_figure_left_unstored_keeps_everyone_out_until_it_is_put_right(
    station: Make, enter: Qt.Key | None
) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.flammable", "12", enter)
    one.key(Qt.Key.Key_Escape)
    assert one.word().startswith("OUTSIDE LIMIT") and "12" in one.word()
    assert one.part("watch.silence").isEnabled() and one.sound.heard[-1] == "LIMIT"
    assert one.watch.view.people[-1].barred  # type: ignore[union-attr]
    one.minutes(6)
    one.key(Qt.Key.Key_F2)
    assert "12" in one.said() and one.word().startswith("OUTSIDE LIMIT")
    one.type("watch.reading.flammable", "2")
    one.key(Qt.Key.Key_Escape)
    assert not one.word().startswith("OUTSIDE LIMIT")


def test_an_outside_figure_that_is_put_right_stops_sounding_and_stores_nothing(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    before = len(one.permit.sets)
    one.type("watch.reading.oxygen", "2.09")
    one.press("watch.reading.meant")
    assert one.sound.heard[-1] == "silence"
    assert len(one.permit.sets) == before and one.permit.stop is None


def test_rubbish_is_refused_aloud_and_kept(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.oxygen", "2O.9")
    assert "letter" in one.said()
    assert one.part("watch.reading.oxygen").text() == "2O.9"  # type: ignore[attr-defined]


def test_over_range_is_a_mark_and_counts_as_outside(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    enter(one, "20.8", "0")
    one.press("watch.reading.over-range")
    assert one.sound.heard[-1] == "LIMIT"
    one.key(Qt.Key.Key_F2)
    assert one.permit.sets[-1].figure("hydrogen-sulfide").state == "over-range"
    assert one.permit.stop is not None


def test_an_empty_box_is_named_and_nothing_is_stored(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    enter(one, "20.8", "0", "2")
    before = len(one.permit.sets)
    one.key(Qt.Key.Key_F2)
    assert len(one.permit.sets) == before and "Carbon monoxide is empty" in one.said()


# Correction -----------------------------------------------------------------------------------------------------------


def test_a_figure_is_corrected_in_three_presses_and_both_stay_readable(station: Make) -> None:
    one = station(crew.working)
    version = one.permit.sets[-1].version
    one.key(Qt.Key.Key_F5)
    one.press(f"watch.log.{version}.carbon-monoxide")
    one.type("watch.correct.new", "3")
    one.press("watch.correct.why.mistyped")
    one.key(Qt.Key.Key_F2)
    last = one.permit.sets[-1]
    assert (last.figure("carbon-monoxide").figure, last.corrections[-1].event.old) == ("3", "1")
    assert last.corrections[-1].event.reason == "Typed wrong"
    assert "Corrected: Carbon monoxide 1 to 3." in one.said()


def test_a_correction_without_a_reason_is_refused_and_keeps_the_figure(station: Make) -> None:
    one = station(crew.working)
    version = one.permit.sets[-1].version
    one.watch.open("correct", version=version, gas="carbon-monoxide")
    one.type("watch.correct.new", "3")
    one.key(Qt.Key.Key_F2)
    assert one.said() == "Say why the figure is corrected."
    assert one.part("watch.correct.new").text() == "3"  # type: ignore[attr-defined]


def test_a_correction_across_the_limit_calls_everyone_out(station: Make) -> None:
    one = station(crew.working)
    version = one.permit.sets[-1].version
    one.watch.open("correct", version=version, gas="hydrogen-sulfide")
    one.type("watch.correct.new", "13")
    one.press("watch.correct.why.misread")
    one.key(Qt.Key.Key_F2)
    assert one.word().startswith("EVERYONE OUT") and one.sound.heard[-1] == "LIMIT"


# The watch changes hands ----------------------------------------------------------------------------------------------


def test_one_press_on_a_name_takes_the_watch(station: Make) -> None:
    one = station(crew.authorised)
    one.press("watch.take.P-02")
    assert one.permit.attendant == "P-02" and one.word().startswith("ENTRY ALLOWED")


def test_relief_needs_three_facts_a_person_and_their_code(station: Make) -> None:
    one = station(crew.working)
    one.press("watch.attendant")
    one.key(Qt.Key.Key_F2)
    assert one.said() == "Say and press all three facts."
    for fact in ("inside", "set", "alarms"):
        one.press(f"watch.relieve.{fact}")
    one.type("watch.relieve.code", "wrong-code", None)
    one.key(Qt.Key.Key_F2)
    assert one.permit.attendant == "P-02" and "not the code of Nia Falk" in one.said()
    one.type("watch.relieve.code", crew.CODES["P-03"], None)
    one.key(Qt.Key.Key_F2)
    assert one.permit.attendant == "P-03"
    relieved = next(made.event for made in one.permit.signed if isinstance(made.event, e.Relieved))
    assert relieved.inside == ("P-04", "P-05")


def test_a_fact_that_changes_is_said_again(station: Make) -> None:
    one = station(crew.working)
    one.watch.open("relieve")
    one.press("watch.relieve.inside")
    one.press("watch.out.P-05")
    assert not one.part("watch.relieve.inside").isChecked()  # type: ignore[attr-defined]


# Break, return, endorsement -------------------------------------------------------------------------------------------


def test_a_break_and_the_way_back_by_keys(station: Make) -> None:
    one = station(crew.working)
    one.watch.open("break")
    one.type("watch.break.guarded", "rails, Oskar", None)
    one.type("watch.break.left", "fan on, locks on", None)
    one.press("watch.break.torches")
    one.key(Qt.Key.Key_F2)
    assert one.permit.pause is None and "A break begins when everyone is out." in one.said()
    everyone_out(one)
    one.key(Qt.Key.Key_F2)
    assert one.permit.pause is not None and one.word().startswith("ON BREAK")
    one.press("watch.next")
    one.type("watch.back.found", "lock 12 on, penstock shut", None)
    one.key(Qt.Key.Key_F2)
    assert one.permit.awaits == "break"
    for _point in range(4):
        one.press("watch.reading.lowered")
        one.minutes(3)
        enter(one, "20.9", "0", "1", "0")
        one.key(Qt.Key.Key_F2)
    assert {s.event.phase for s in one.permit.sets[-4:]} == {"after-break"}
    assert [s.event.point_m for s in one.permit.sets[-4:]] == ["0.3", "1.5", "2.7", "3.9"]
    one.press("watch.next")
    one.type("watch.endorse.code", crew.CODES["P-01"], None)
    one.key(Qt.Key.Key_F2)
    assert one.permit.awaits is None and one.word().startswith("ENTRY ALLOWED")


def test_a_set_before_its_wait_is_held_back_and_can_be_stored_early_all_the_same(station: Make) -> None:
    one = station(crew.working)
    one.press("watch.conditions")
    one.press("watch.condition.engine-started")
    one.key(Qt.Key.Key_F2)
    one.press("watch.reading.lowered")
    enter(one, "20.9", "0", "1", "0")
    before = len(one.permit.sets)
    one.key(Qt.Key.Key_F2)
    assert len(one.permit.sets) == before and "counts against entry only" in one.said()
    one.press("watch.reading.store-early")
    assert len(one.permit.sets) == before + 1


# The order, and how it ends -------------------------------------------------------------------------------------------


def test_evacuate_acts_on_press_in_the_middle_of_typing(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.oxygen", "20.", None)
    one.key(Qt.Key.Key_F12)
    assert one.permit.stop is not None and one.permit.stop.by == "P-02"
    assert one.sound.heard[-1] == "EVERYONE_OUT"
    assert one.word().startswith("EVERYONE OUT") and one.part("watch.call").isVisible()
    assert one.part("watch.out.P-04").isVisible() and not one.shown("watch.in.P-06")
    assert "Two people are inside" in one.part("watch.call").accessibleName()


def test_an_order_that_cannot_be_stored_still_sounds_and_says_use_paper(
    station: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    from lamproom.words import Refusal, sentence

    one = station(crew.working)

    def full(*_args: object, **_kwargs: object) -> None:
        raise Refusal(sentence("permit.said", text="disk full"))

    monkeypatch.setattr(one.site.office, "record", full)
    one.press("watch.evacuate")
    assert one.sound.heard[-1] == "EVERYONE_OUT"
    assert "NOT RECORDED" in one.word() and "NOT RECORDED" in one.part("watch.head").accessibleName()
    assert one.part("watch.call").isVisible()


def test_the_stop_is_latched_until_a_supervisor_signs_what_was_found(station: Make) -> None:
    one = station(crew.working)
    one.press("watch.evacuate")
    one.key(Qt.Key.Key_Escape)
    one.press("watch.out.P-04")
    one.press("watch.out.P-05")
    assert one.word().startswith("EVERYONE OUT")
    one.press("watch.next")
    one.type("watch.determine.reason", "pressed by a sleeve", None)
    one.press("watch.determine.finding.none-arose")
    one.type("watch.determine.code", crew.CODES["P-01"], None)
    one.key(Qt.Key.Key_F2)
    assert one.permit.stop is None and one.permit.awaits == "stop"
    assert one.word().startswith("ENTRY REFUSED")


def test_a_plain_reading_leaves_one_finding(station: Make) -> None:
    one = station(crew.working)
    one.site.read("20.6 2 14 0")
    everyone_out(one)
    one.watch.open("determine")
    assert not one.part("watch.determine.finding.none-arose").isEnabled()
    assert one.part("watch.determine.finding.prohibited-condition").isEnabled()


def test_a_condition_that_calls_everyone_out_is_one_press(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F7)
    one.press("watch.condition.symptoms")
    assert one.permit.stop.cause == "symptoms" and one.word().startswith("EVERYONE OUT")
    one.key(Qt.Key.Key_F7)
    one.press("watch.condition.symptoms")
    one.type("watch.clear.found", "dizzy, now with the medic", None)
    one.key(Qt.Key.Key_F2)
    assert "symptoms" not in one.permit.conditions


def test_the_fan_stopped_is_one_press(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F7)
    one.press("watch.condition.fan-stopped")
    assert one.permit.stop.cause == "ventilation-stopped"


def test_end_is_asked_once_with_the_facts_and_close_out_follows(station: Make) -> None:
    one = station(crew.working)
    everyone_out(one)
    one.watch.open("end")
    one.press("watch.end.cause.work-complete")
    one.type("watch.end.code", crew.CODES["P-01"], None)
    one.answer = False
    one.key(Qt.Key.Key_F2)
    assert one.permit.ended is None and "Wet well 2" in one.asked[0].text
    one.answer = True
    one.key(Qt.Key.Key_F2)
    assert one.permit.ended is not None and one.word().startswith("ENDED")
    one.press("watch.next")
    one.type("watch.close.tools", "14 of 14", None)
    one.type("watch.close.cover", "hatch shut", None)
    one.key(Qt.Key.Key_F2)
    assert one.permit.closed_out is None and one.said() == "Say what became of tools, cover and locks."
    assert one.part("watch.close.tools").text() == "14 of 14"  # type: ignore[attr-defined]
    one.type("watch.close.locks", "lock 12 off", None)
    one.key(Qt.Key.Key_F2)
    assert one.word().startswith("CLOSED OUT")


# Silence and acknowledge ----------------------------------------------------------------------------------------------


def test_silence_is_short_and_a_worse_alarm_sounds_at_once(station: Make) -> None:
    one = station(crew.working)
    one.minutes(11)
    assert one.sound.heard[-1] == "LATE"
    one.key(Qt.Key.Key_F4)
    assert one.sound.heard[-1] == "silence"
    one.minutes(0.5)
    assert one.sound.heard[-1] == "silence"
    one.site.read("20.6 2 14 0")
    assert one.sound.heard[-1] == "LIMIT"


def test_acknowledge_stores_the_name_keeps_the_alarm_and_it_comes_back(station: Make) -> None:
    one = station(crew.working)
    one.site.read("20.6 2 14 0")
    one.key(Qt.Key.Key_F6)
    assert "Acknowledged on the Watch" in one.permit.notes[-1].event.text and one.permit.notes[-1].by == "P-02"
    assert one.watch.view.alarms  # type: ignore[union-attr]
    assert one.sound.heard[-1] == "silence"
    one.minutes(1.1)
    assert one.sound.heard[-1] == "LIMIT"


def test_links_of_obstacles_lead_to_where_they_are_cleared(station: Make) -> None:
    one = station(crew.draft)
    one.watch.follow("review/authorise")
    assert one.went[-1] == ("workbook", {"permit": one.site.number, "target": "review/authorise"})
    one.watch.follow("bench/I-02")
    assert one.went[-1] == ("bench", {"target": "bench/I-02"})
    one.key(Qt.Key.Key_F9)
    one.press("watch.more.board")
    assert one.went[-1] == ("board", {})
