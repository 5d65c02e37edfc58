"""What the attendant always sees, in every state, by name and by place."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import QRect, Qt
from PySide6.QtWidgets import QAbstractButton, QWidget
from tests.desk.watch import crew
from tests.desk.watch.conftest import Station

from lamproom.desk.parts.button import Kind
from lamproom.desk.theme import Theme
from lamproom.desk.watch.zones import zones
from lamproom.office.begin_break import begin_break
from lamproom.office.go_out import go_out
from lamproom.office.report_condition import report_condition

Make = Callable[..., Station]
NINE = ("head", "state", "count", "clock", "people", "gases", "rescue", "evacuate")
"""Eight widgets for the nine things of 29 CFR 1910.146(i)'s duties: the head holds space, end, and this station."""


def everyone_out(one: crew.Site) -> None:
    for trip in one.office.permit(one.number).tally.inside:
        go_out(one.office, one.number, trip.who, by="P-02")


def late(one: crew.Site) -> crew.Site:
    crew.working(one)
    one.minutes(11)
    return one


def on_break(one: crew.Site) -> crew.Site:
    crew.working(one)
    everyone_out(one)
    begin_break(one.office, one.number, "rails", "fan on, locks on", True, by="P-02")
    return one


def refused(one: crew.Site) -> crew.Site:
    crew.allowed(one)
    report_condition(one.office, one.number, "engine-started", by="P-02")
    return one


def outside(one: crew.Site) -> crew.Site:
    crew.working(one)
    one.read("20.6 2 14 0")
    return one


def over(one: crew.Site) -> crew.Site:
    crew.working(one)
    everyone_out(one)
    one.minutes(440)
    return one


STATES = [
    (crew.draft, "NOT AUTHORIZED"),
    (crew.authorised, "NOBODY ON WATCH"),
    (crew.allowed, "ENTRY ALLOWED"),
    (crew.working, "ENTRY ALLOWED"),
    (late, "READING LATE"),
    (refused, "ENTRY REFUSED"),
    (on_break, "ON BREAK"),
    (outside, "EVERYONE OUT"),
    (over, "EXPIRED"),
]


@pytest.mark.parametrize(("live", "word"), STATES)
def test_the_state_has_its_word_and_the_nine_things_stand_in_it(station: Make, live: Callable, word: str) -> None:
    one = station(live)
    assert one.word().startswith(word)
    for name in NINE:
        # While everyone is called out the means stand once, with the words to say.
        called = name == "rescue" and word == "EVERYONE OUT"
        assert one.part("watch.call" if called else f"watch.{name}").isVisible()


def test_while_everyone_is_called_out_rescue_stands_once_and_nothing_near_evacuate_takes_a_press(
    station: Make,
) -> None:
    """10 mm at 4.9 px a millimeter between EVACUATE and the next thing that a finger can press."""
    one = station(outside)
    assert "radio" in one.part("watch.call").accessibleName() and not one.shown("watch.rescue")
    assert one.watch.keys["reading"].kind is Kind.PLAIN
    near = one.part("watch.evacuate").geometry().adjusted(-49, -49, 49, 49)
    for x in range(near.left(), min(near.right(), one.watch.width() - 1), 10):
        for y in range(near.top(), min(near.bottom(), one.watch.height() - 1), 10):
            hit = one.watch.childAt(x, y)
            assert hit is None or not isinstance(hit, QAbstractButton) or hit.objectName() == "watch.evacuate"


@pytest.mark.parametrize("panel", ["reading", "log", "more", "conditions", "relieve", "end", "determine", "note"])
def test_no_panel_covers_or_moves_what_must_be_seen(station: Make, panel: str) -> None:
    """EVACUATE, band, count, clock, rescue and head keep their places; the last values stay in sight."""
    one = station(crew.working)
    fixed = ("head", "state", "count", "clock", "rescue", "evacuate")
    before = {name: one.part(f"watch.{name}").geometry() for name in fixed}
    one.watch.open(panel)
    assert {name: one.part(f"watch.{name}").geometry() for name in fixed} == before
    panel_rect = one.watch.panel.geometry()  # type: ignore[union-attr]
    assert not any(panel_rect.intersects(rect) for rect in before.values())
    assert not panel_rect.intersects(one.part("watch.people").geometry())
    assert panel == "reading" or one.part("watch.gases").isVisible()


def test_evacuate_has_one_place_in_every_arrangement() -> None:
    """At least 60 x 22 mm at 4.9 px/mm and 10 mm from the next key, wherever the rest stands."""
    for width, height in ((1280, 800), (1366, 768), (1920, 1080)):
        places = {(m, c): zones(width, height, m, c) for m in ("calm", "out", "panel", "reading") for c in (3, 7)}
        assert len({z.evacuate.getRect() for z in places.values()}) == 1
        for z in places.values():
            assert z.evacuate.width() >= 300 and z.evacuate.height() >= 108
            others = [z.keys, z.strip, z.rescue, z.panel, z.people, z.gases, z.pad, z.point, z.call]
            assert not any(z.evacuate.intersects(other) for other in others)
            assert z.evacuate.left() - z.keys.right() >= 51


def test_zones_never_overlap() -> None:
    for width, height in ((1280, 800), (1366, 768), (1920, 1080)):
        for mode in ("calm", "out", "panel", "reading"):
            for crowd in (3, 7):
                z = zones(width, height, mode, crowd)
                rooms = [z.head, z.band, z.count, z.clock, z.gases, z.people, z.trend, z.call, z.strip, z.rescue]
                rooms += [z.panel, z.point, z.pad, z.keys, z.evacuate]
                there = [room for room in rooms if not room.isEmpty()]
                window = QRect(0, 0, width, height)
                assert all(window.contains(room) for room in there), (width, mode, crowd)
                pairs = [(a, b) for i, a in enumerate(there) for b in there[i + 1 :]]
                assert not [pair for pair in pairs if pair[0].intersects(pair[1])], (width, mode, crowd)


@pytest.mark.parametrize("live", [crew.working, late, outside])
def test_every_key_at_the_portal_is_large_enough_and_has_a_name(station: Make, live: Callable) -> None:
    """76 px at 96 to the inch is 20 mm; a key of the gas list may be lower, it only chooses the plot."""
    one = station(live)
    for button in one.watch.findChildren(QAbstractButton):
        if not button.isVisible() or button.objectName().startswith("watch.gas."):
            continue
        if button.objectName() and button.objectName().startswith("watch."):
            assert button.accessibleName(), button.objectName()
            assert button.height() >= 75, button.objectName()
            assert button.width() >= 75, button.objectName()


def test_late_says_so_in_words_and_marks_every_value_as_old(station: Make) -> None:
    one = station(late)
    assert "Take a set now" in one.word()
    assert "late; was due" in one.part("watch.clock").accessibleName()
    rows = one.watch.view.gases  # type: ignore[union-attr]
    assert all(row.old and "old" in row.age for row in rows)
    assert one.part("watch.in.P-06").accessibleDescription() == "A set of readings was due at 08:54."


def test_day_begins_in_sun_and_night_in_dark_and_the_choice_is_kept(station: Make) -> None:
    one = station(crew.allowed)
    assert one.watch._look.theme is Theme.SUN
    one.press("watch.theme")
    assert one.watch._look.theme is Theme.DARK
    assert one.site.office.journal.settings()["watch-theme"] == "dark"


def test_obstacles_stand_in_place_of_the_plot_in_the_same_words(station: Make) -> None:
    one = station(refused)
    rows = one.watch.stands.rows()
    facts = one.site.office.facts(one.site.number)
    from lamproom.office.views.listed import listed
    from lamproom.permit.obstacles import Stage, barring

    assert [row.sentence for row in rows] == [o.sentence.say() for o in listed(barring(facts, Stage.ENTER))]
    assert one.shown("watch.obstacles") and not one.shown("watch.trend")


def test_many_people_all_fit_and_whoever_is_inside_is_on_the_page(station: Make) -> None:
    crowd = ("P-04", "P-05", "P-06", "P-08", "P-09", "P-10")
    one = station(crew.working, crowd, 5)
    for person in crowd[:5]:
        assert one.part(f"watch.out.{person}").isVisible()
    assert one.part("watch.in.P-10").isVisible()
    one.key(Qt.Key.Key_F9)
    for person in crowd[:5]:
        assert one.part(f"watch.out.{person}").isVisible()


def test_without_a_permit_nothing_claims_that_nothing_stands_in_the_way(station: Make) -> None:
    one = station(crew.allowed)
    one.watch._number = None
    one.watch.refresh()
    assert one.word().startswith("NO PERMIT HERE")
    assert not one.shown("watch.obstacles")
    assert one.part("watch.evacuate").isVisible()


def test_nothing_that_ticks_takes_the_keyboard(station: Make) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    held = one.watch.focusWidget()
    one.minutes(9)
    one.minutes(3)
    assert one.watch.focusWidget() is held
    assert isinstance(held, QWidget)
