"""What the face says in each state: limits and age of values, alarms, the name on watch, clocks and breaks."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from tests.desk.watch import crew
from tests.desk.watch.conftest import Station
from tests.desk.watch.test_face import everyone_out, late, on_break

from lamproom.desk.parts.button import Kind
from lamproom.office.end_break import end_break
from lamproom.office.end_permit import end_permit
from lamproom.office.take_readings import take_readings
from lamproom.office.take_watch import take_watch
from lamproom.permit import events as e

Make = Callable[..., Station]


def calm(one: crew.Site) -> crew.Site:
    return crew.working(one)


def long_break(one: crew.Site) -> crew.Site:
    on_break(one)
    one.minutes(20)
    return one


def back(one: crew.Site) -> crew.Site:
    long_break(one)
    end_break(one.office, one.number, "lock 12 on", by="P-02")
    return one


def ended(one: crew.Site) -> crew.Site:
    crew.working(one)
    everyone_out(one)
    end_permit(one.office, one.number, "work-complete", "", "P-01", crew.CODES["P-01"], None)
    return one


@pytest.mark.parametrize("live", [late, long_break, back])
@pytest.mark.parametrize("panel", ["", "relieve"])
def test_an_old_value_keeps_its_limit_and_direction_and_says_how_old(station: Make, live: Callable, panel: str) -> None:
    one = station(live)
    if panel:
        one.watch.open(panel)
    for gas, limit in (("oxygen", "19.5 to 23.5"), ("hydrogen-sulfide", "below 10 ppm")):
        tile = one.part(f"watch.gas.{gas}")
        drawn = " ".join(tile.drawn())  # type: ignore[attr-defined]
        assert limit.removesuffix(" ppm") in drawn and (" min" if panel else " min old") in drawn
        assert "3.9 m" in drawn
        assert tile.row.direction_sign in {"RISING", "FALLING", "STEADY"}  # type: ignore[attr-defined]


def test_every_tile_says_where_its_figure_was_read_and_which_one_is_of_an_older_set(station: Make) -> None:
    one = station(crew.working)
    for name in ("oxygen", "flammable", "hydrogen-sulfide", "carbon-monoxide"):
        assert "at 3.9 m" in one.part(f"watch.gas.{name}").drawn()  # type: ignore[attr-defined]
    one.minutes(4)
    figures = [e.Figure(gas=g, unit=u, figure=f) for (g, u), f in zip(crew.GASES[:3], ("20.9", "0", "0"), strict=True)]
    take_readings(one.site.office, one.site.number, "work", "1.5", "I-02", figures, by="P-02")
    one.watch.refresh()
    assert "at 1.5 m" in one.part("watch.gas.oxygen").drawn()  # type: ignore[attr-defined]
    tile = one.part("watch.gas.carbon-monoxide")
    assert tile.drawn()[2] == "at 3.9 m, older set"  # type: ignore[attr-defined]
    assert "min old" in tile.drawn()[4]  # type: ignore[attr-defined]


def test_after_the_end_no_tile_claims_to_be_current(station: Make) -> None:
    one = station(ended)
    for name in ("oxygen", "carbon-monoxide"):
        tile = one.part(f"watch.gas.{name}")
        row = tile.row  # type: ignore[attr-defined]
        assert row.stale_tick and not row.direction and not row.direction_sign
        assert tile.drawn()[4].endswith("old")  # type: ignore[attr-defined]


def past_half(one: crew.Site) -> crew.Site:
    """6 ppm of hydrogen sulfide where the limit is 10: worth knowing (common practice), and no reason to bar."""
    crew.working(one)
    one.read("20.8 0 6 1", phase="open", lowered=True)
    return one


def test_cautions_stand_quietly_under_the_plot_and_give_way_to_an_alarm(station: Make) -> None:
    one = station(past_half)
    pane = one.part("watch.cautions")
    assert pane.isVisible() and "(common practice)" in pane.text()  # type: ignore[attr-defined]
    # What is heading for its limit, with when, stands before what lies past half of it.
    assert pane.text().startswith("2 cautions")  # type: ignore[attr-defined]
    assert "rising: 10 ppm about" in pane.text()  # type: ignore[attr-defined]
    plot = one.part("watch.trend")
    assert plot.geometry().bottom() < pane.geometry().top()
    assert one.word().startswith("ENTRY ALLOWED")
    one.minutes(16)
    assert one.watch.view.alarms and one.shown("watch.trend")  # type: ignore[union-attr]
    assert not one.shown("watch.cautions")


def test_all_cautions_stand_with_their_rules_below_what_bars_and_are_not_counted(station: Make) -> None:
    one = station(past_half)
    one.watch.open("stands")
    rows = one.watch.panel._list.rows()  # type: ignore[union-attr]
    assert [row.code for row in rows] == ["heading", "past-half"]
    assert {row.rule for row in rows} == {"common practice"}
    assert one.part("watch.stands.list").accessibleName() == "Nothing stands between you and entry"


def test_two_alarms_stand_on_two_lines_each_with_its_subject(station: Make) -> None:
    one = station(late)
    one.minutes(2)
    lines = one.watch.view.band.sentence.split("\n")  # type: ignore[union-attr]
    assert lines == [
        "No contact since 08:39. Call them now.",
        "Reading late since 08:54. Take a set now, or all out 09:09.",
    ]
    assert all(len(line.split()) <= 12 for line in lines)


@pytest.mark.parametrize("live", [calm, late, long_break, back])
def test_the_attendant_and_the_last_contact_stand_in_every_state(station: Make, live: Callable) -> None:
    one = station(live)
    duty = one.part("watch.attendant")
    assert duty.accessibleName() == "Attendant Oskar Wren"
    assert duty.accessibleDescription() == "on watch since 08:04"
    assert one.part("watch.contact").accessibleDescription().startswith("last 08:39\n")


def test_an_ended_permit_says_when_in_words_first(station: Make) -> None:
    one = station(ended)
    assert one.part("watch.clock").accessibleName().startswith("Ended 08:46")
    assert one.watch.view.clock.digits == ""  # type: ignore[union-attr]


def test_an_ended_permit_offers_neither_the_watch_nor_a_reading_first(station: Make) -> None:
    one = station(crew.authorised)
    assert one.shown("watch.panel.take")
    end_permit(one.site.office, one.site.number, "never-entered", "", "P-01", crew.CODES["P-01"], None)
    one.minutes(0.1)
    assert not one.shown("watch.panel.take")
    assert one.part("watch.reading").kind is Kind.PLAIN  # type: ignore[attr-defined]
    assert one.part("watch.next").accessibleName() == "Close out"
    one.watch.show_where(permit=one.site.number)
    assert not one.shown("watch.panel.take")


def test_a_break_says_since_when_and_what_it_needs_not_a_running_clock(station: Make) -> None:
    one = station(long_break)
    clock = one.part("watch.clock").accessibleName()
    assert clock.startswith("On break since 08:46") and "Full retest before anyone goes in" in clock
    assert "Last reading 08:39" in clock
    assert one.watch.view.clock.digits == ""  # type: ignore[union-attr]


def test_back_from_the_break_a_full_retest_is_asked_and_no_lateness_is_counted(station: Make) -> None:
    one = station(back)
    clock = one.part("watch.clock").accessibleName()
    assert clock.startswith("Full retest needed") and "4 of 4 points left" in clock and "late" not in clock
    assert "late" not in one.word()
    one.site.read("20.9 0 1 0", "after-break", "0.3", lowered=True)
    one.minutes(0.1)
    assert "3 of 4 points left" in one.part("watch.clock").accessibleName()


def test_nobody_inside_no_lateness_clock_and_the_rule_stays(station: Make) -> None:
    """The set is still asked before the next person goes in; but nobody waits for it inside."""
    one = station(crew.working)
    everyone_out(one.site)
    one.minutes(15)
    clock = one.part("watch.clock").accessibleName()
    assert "late" not in clock and "before anyone goes in" in clock
    assert one.word().startswith("ENTRY REFUSED")


def test_taking_the_watch_by_key_leaves_the_face_calm(station: Make) -> None:
    one = station(crew.authorised)
    take_watch(one.site.office, one.site.number, "P-02")
    one.minutes(0.1)
    one.key(Qt.Key.Key_F9)
    assert one.shown("watch.panel.more")
