"""Half-typed figures belong to the point they were typed for; one outside its limit is never forgotten."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from tests.desk.watch import crew
from tests.desk.watch.conftest import Recorder, Station
from tests.desk.watch.test_words import back

from lamproom.desk.desk import Desk
from lamproom.desk.watch.watch_screen import WatchScreen

Make = Callable[..., Station]


def again(one: Station, qtbot: QtBot) -> Station:
    """The program begins anew on the same journal, and somebody opens the Watch."""
    desk, sound = Desk(one.site.office, "P-02"), Recorder()
    watch = WatchScreen(desk, sound)
    qtbot.addWidget(watch)
    watch.resize(1280, 800)
    watch.show_where(permit=one.site.number)
    watch.show()
    return Station(one.site, watch, desk, sound)


def to_point(one: Station, point: str) -> None:
    one.press("watch.reading.point")
    one.press(f"watch.reading.point.{point}")


def text(one: Station, gas: str) -> str:
    return one.part(f"watch.reading.{gas}").text()  # type: ignore[attr-defined, no-any-return]


def test_figures_stay_with_the_point_they_were_typed_for(station: Make) -> None:
    one = station(back)
    one.watch.open("reading")
    one.type("watch.reading.oxygen", "20.7")
    to_point(one, "1.5")
    assert text(one, "oxygen") == "" and "0.3 m" in one.said()
    one.type("watch.reading.oxygen", "20.9")
    to_point(one, "0.3")
    assert text(one, "oxygen") == "20.7"
    one.key(Qt.Key.Key_Escape)
    one.watch.open("reading", point="1.5")
    assert text(one, "oxygen") == "20.9"


def test_a_stored_set_has_the_figures_of_its_point_alone(station: Make) -> None:
    one = station(back)
    one.watch.open("reading")
    one.type("watch.reading.oxygen", "20.1")
    to_point(one, "1.5")
    one.press("watch.reading.lowered")
    one.minutes(3)
    for gas, figure in zip(
        ("oxygen", "flammable", "hydrogen-sulfide", "carbon-monoxide"), "20.9 0 1 0".split(), strict=True
    ):
        one.type(f"watch.reading.{gas}", figure)
    one.key(Qt.Key.Key_F2)
    last = one.permit.sets[-1]
    assert (last.event.point_m, last.figure("oxygen").figure) == ("1.5", "20.9")
    assert text(one, "oxygen") == "20.1"


def test_an_outside_figure_sounds_on_while_another_point_is_read(station: Make) -> None:
    one = station(back)
    one.watch.open("reading")
    one.type("watch.reading.hydrogen-sulfide", "14")
    to_point(one, "1.5")
    assert one.word().startswith("OUTSIDE LIMIT") and one.sound.heard[-1] == "LIMIT"
    one.type("watch.reading.oxygen", "20.9")
    assert one.word().startswith("OUTSIDE LIMIT")
    one.key(Qt.Key.Key_Escape)
    one.watch.follow("watch/reading")
    assert text(one, "hydrogen-sulfide") == "14"
    one.type("watch.reading.hydrogen-sulfide", "1")
    assert not one.word().startswith("OUTSIDE LIMIT")


def test_an_outside_figure_stands_again_when_the_program_begins_anew(station: Make, qtbot: QtBot) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.flammable", "12", None)
    new = again(one, qtbot)
    assert new.word().startswith("OUTSIDE LIMIT") and "12" in new.word()
    assert new.sound.heard[-1] == "LIMIT" and not new.shown("watch.panel.reading")
    assert new.watch.view.people[-1].barred  # type: ignore[union-attr]
    new.watch.open("reading")
    new.type("watch.reading.flammable", "2")
    assert not new.word().startswith("OUTSIDE LIMIT")
    assert not again(new, qtbot).word().startswith("OUTSIDE LIMIT")


def test_over_range_stands_again_too(station: Make, qtbot: QtBot) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.oxygen", "20.8")
    one.press("watch.reading.over-range")
    assert again(one, qtbot).word().startswith("OUTSIDE LIMIT")


def test_figures_within_limits_and_impossible_ones_raise_nothing(station: Make, qtbot: QtBot) -> None:
    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.oxygen", "209", None)
    one.type("watch.reading.flammable", "2", None)
    assert again(one, qtbot).word().startswith("ENTRY ALLOWED")


def test_an_order_sounds_before_a_figure_that_is_only_typed(station: Make) -> None:
    from lamproom.office.order_stop import order_stop

    one = station(crew.working)
    one.key(Qt.Key.Key_F2)
    one.type("watch.reading.flammable", "12")
    order_stop(one.site.office, one.site.number, by="P-02")
    one.minutes(0.1)
    assert one.sound.heard[-1] == "EVERYONE_OUT"
