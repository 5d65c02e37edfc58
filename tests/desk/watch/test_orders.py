"""An order, or a stop that the station sees, takes the whole screen at once, whatever panel stands open."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from tests.desk.watch import crew
from tests.desk.watch.conftest import Station

from lamproom.office.go_out import go_out
from lamproom.office.order_stop import order_stop
from lamproom.office.take_watch import take_watch

Make = Callable[..., Station]
PANELS = ["relieve", "reading", "more", "log", "conditions", "break", "end", "note", "stands", "sound"]


def order(one: Station) -> None:
    order_stop(one.site.office, one.site.number, by="P-02")


def limit(one: Station) -> None:
    one.site.read("20.6 2 14 0")


def called_out(one: Station) -> None:
    """The arrangement of an evacuation: call words, who is inside with OUT, what ends it, how old the air is."""
    assert one.watch.panel is None and one.watch.mode == "out"
    call = one.part("watch.call").accessibleName()
    assert "Two people are inside" in call and "Hazards:" in call and "Lift station North" in call
    assert one.part("watch.out.P-04").isVisible() and one.part("watch.out.P-05").isVisible()
    assert not one.shown("watch.contact") and not one.shown("watch.conditions")
    assert "Stay outside. This ends only when" in one.part("watch.attendant").accessibleName()
    assert "ago" in one.part("watch.gases").accessibleName()
    for gas, _unit in crew.GASES:
        assert "min old" in one.part(f"watch.gas.{gas}").accessibleName()


@pytest.mark.parametrize("panel", PANELS)
@pytest.mark.parametrize("stop", [order, limit])
def test_a_stop_from_elsewhere_takes_the_place_of_an_open_panel(
    station: Make, panel: str, stop: Callable[[Station], None]
) -> None:
    one = station(crew.working)
    one.watch.open(panel)
    stop(one)
    one.minutes(1.1)
    called_out(one)
    assert one.watch.focusWidget() in (None, one.watch)


@pytest.mark.parametrize("panel", PANELS)
def test_evacuate_takes_the_place_of_an_open_panel(station: Make, panel: str) -> None:
    one = station(crew.working)
    one.watch.open(panel)
    one.key(Qt.Key.Key_F12)
    called_out(one)


def test_a_late_set_that_calls_everyone_out_takes_the_place_of_the_panel(station: Make) -> None:
    one = station(crew.working)
    one.watch.open("relieve")
    one.minutes(60)
    assert one.watch.panel is None and one.watch.mode == "out"
    assert "Two people are inside" in one.part("watch.call").accessibleName()


def test_half_typed_words_are_kept_by_an_order_and_nothing_is_stored(station: Make) -> None:
    one = station(crew.working)
    one.watch.open("note")
    one.type("watch.note.text", "pump two hu", None)
    notes, sets = len(one.permit.notes), len(one.permit.sets)
    one.key(Qt.Key.Key_F12)
    assert (len(one.permit.notes), len(one.permit.sets)) == (notes, sets)
    one.watch.open("note")
    assert one.part("watch.note.text").text() == "pump two hu"  # type: ignore[attr-defined]


def test_a_panel_opened_after_the_order_stays_and_the_order_is_not_forgotten(station: Make) -> None:
    """Still inside first; nobody is asked for contact or for what changed; the way it ends stays said."""
    one = station(crew.working, ("P-04", "P-05", "P-06"), 2)
    go_out(one.site.office, one.site.number, "P-04", by="P-02")
    one.press("watch.evacuate")
    one.watch.open("note")
    one.minutes(0.5)
    assert one.shown("watch.panel.note")
    assert next(row.who for row in one.watch.people.rows()) == "P-05"
    assert not one.shown("watch.contact") and not one.shown("watch.conditions")
    assert "Stay outside." in one.part("watch.attendant").accessibleName()


def test_an_order_after_a_stop_that_was_seen_takes_the_screen_again(station: Make) -> None:
    one = station(crew.working)
    limit(one)
    one.minutes(0.1)
    one.watch.open("note")
    order(one)
    one.minutes(1)
    called_out(one)


def test_the_question_who_takes_the_watch_goes_when_somebody_has_taken_it(station: Make) -> None:
    one = station(crew.authorised)
    assert one.shown("watch.panel.take")
    take_watch(one.site.office, one.site.number, "P-02")
    one.minutes(0.1)
    assert not one.shown("watch.panel.take") and one.shown("watch.trend")
