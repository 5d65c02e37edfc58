"""On the Watch: longer hours, the next work step, isolation that came off, and what a close-out asks besides."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from tests.desk.watch import crew
from tests.desk.watch.conftest import Station

from lamproom.office.add_hazard import add_hazard
from lamproom.office.answer import answer
from lamproom.office.authorise import authorise
from lamproom.office.brief import brief
from lamproom.office.end_permit import end_permit
from lamproom.office.go_out import go_out
from lamproom.office.hold_hazard import hold_hazard
from lamproom.office.name_person import name_person
from lamproom.office.register_person import register_person
from lamproom.office.take_watch import take_watch
from lamproom.permit import events as e
from lamproom.permit.words import clock


def more(station: Station, panel: str) -> None:
    station.press("watch.more")
    station.press(f"watch.more.{panel}")


def until(station: Station) -> str:
    return clock(station.permit.until, station.permit.zone)


def test_the_supervisor_signs_longer_hours_with_the_code(station: Callable[..., Station]) -> None:
    here = station(crew.working)
    before = until(here)
    hour = (int(before[:2]) + 1) % 24
    more(here, "extend")
    here.type("watch.extend.ends", f"{hour:02d}:{before[3:]}")
    here.type("watch.extend.reason", "the second bracket is seized")
    here.type("watch.extend.code", crew.CODES["P-01"])
    here.key(Qt.Key.Key_F2)
    assert until(here) == f"{hour:02d}:{before[3:]}"
    assert here.permit.signed[-1].by == "P-01"


def test_longer_hours_without_a_reason_or_with_a_wrong_code_change_nothing(station: Callable[..., Station]) -> None:
    here = station(crew.working)
    before = until(here)
    hour = (int(before[:2]) + 1) % 24
    more(here, "extend")
    here.type("watch.extend.ends", f"{hour:02d}:{before[3:]}")
    here.type("watch.extend.code", crew.CODES["P-01"])
    here.key(Qt.Key.Key_F2)
    assert until(here) == before and "needs longer" in here.said()
    here.type("watch.extend.reason", "the second bracket is seized")
    here.type("watch.extend.code", "wrong-code-1")
    here.key(Qt.Key.Key_F2)
    assert until(here) == before


def test_a_time_that_is_none_is_said_and_nothing_is_signed(station: Callable[..., Station]) -> None:
    here = station(crew.working)
    more(here, "extend")
    here.type("watch.extend.ends", "half past")
    here.key(Qt.Key.Key_F2)
    assert "half past" in here.said() and not here.permit.extended


def test_the_next_work_step_is_recorded_and_asks_for_the_points_anew(station: Callable[..., Station]) -> None:
    here = station(crew.working)
    counts = here.permit.counts_from
    more(here, "step")
    here.key(Qt.Key.Key_F2)
    assert here.permit.counts_from == counts, "a step without words is none"
    here.type("watch.step.step", "grind the old bracket off")
    here.key(Qt.Key.Key_F2)
    steps = [h.event for h in here.site.office.happenings(f"permit/{here.site.number}")]
    assert [s.step for s in steps if isinstance(s, e.WorkStepChanged)] == ["grind the old bracket off"]
    assert here.permit.counts_from > counts


def test_isolation_that_came_off_is_one_press_and_the_point_and_calls_everyone_out(
    station: Callable[..., Station],
) -> None:
    here = station(crew.working)
    point = here.permit.opened.evaluated.isolation[0].id
    here.press("watch.conditions")
    here.press("watch.condition.release")
    here.press(f"watch.release.{point}")
    assert here.permit.stop is not None
    assert [made.event.point for made in here.permit.released] == [point]


def hot_work_ended(one: crew.Site) -> crew.Site:
    """Welding under the permit, everyone out again, the permit ended 40 minutes ago."""
    crew.draft(one)
    office, number = one.office, one.number
    add_hazard(office, number, "welding", "Welding", "sparks", None, "hot-work", by="P-01")
    hold_hazard(office, number, "welding", True, "fire watch", by="P-01")
    for item in ("hot-work-permit", "fire-watch", "cylinders-outside"):
        answer(office, number, item, "yes", "seen today", by="P-01")
    people = ("P-04", "P-05", "P-06", "P-02", "P-03")
    inks = [e.Ink(person=who, strokes=(((30 + i, 20, 0), (80, 50 + i, 90)),)) for i, who in enumerate(people)]
    brief(office, number, inks, by="P-01")
    authorise(office, number, "P-01", crew.CODES["P-01"], None)
    take_watch(office, number, "P-02")
    one.enter("P-04")
    one.minutes(5)
    go_out(office, number, "P-04", by="P-02")
    end_permit(office, number, "work-complete", "", "P-01", crew.CODES["P-01"])
    one.minutes(40)
    return one


def test_after_hot_work_the_close_out_asks_until_when_the_fire_watch_stayed(station: Callable[..., Station]) -> None:
    here = station(hot_work_ended)
    here.watch.open("close")
    assert not here.shown("watch.close.debrief")
    for key, words in (("tools", "9 of 9"), ("cover", "shut"), ("locks", "off")):
        here.type(f"watch.close.{key}", words)
    here.key(Qt.Key.Key_F2)
    assert here.permit.closed_out is None and "fire watch" in here.said()
    here.type("watch.close.fire-watch", clock(here.site.office.now(), here.permit.zone))
    here.key(Qt.Key.Key_F2)
    assert here.permit.closed_out is not None and here.permit.closed_out.event.fire_watch_until is not None


def test_an_ordinary_close_out_asks_nothing_more(station: Callable[..., Station]) -> None:
    here = station(crew.working)
    here.watch.open("close")
    assert here.shown("watch.close.tools")
    assert not here.shown("watch.close.debrief") and not here.shown("watch.close.fire-watch")


def contractor_ended(one: crew.Site) -> crew.Site:
    """Someone of another employer was on the permit, which ended before anyone went in."""
    register_person(
        one.office, "P-20", "Bo Lark", ("entrant",), crew._training("entrant"), by="P-01", employer="Lark Lining"
    )
    crew.draft(one)
    name_person(one.office, one.number, "P-20", "entrant", by="P-01")
    end_permit(one.office, one.number, "never-entered", "", "P-01", crew.CODES["P-01"])
    return one


def test_with_another_employers_people_the_close_out_asks_for_the_debriefing(
    station: Callable[..., Station],
) -> None:
    here = station(contractor_ended)
    here.watch.open("close")
    for key, words in (("tools", "9 of 9"), ("cover", "shut"), ("locks", "off")):
        here.type(f"watch.close.{key}", words)
    here.key(Qt.Key.Key_F2)
    assert here.permit.closed_out is None and "host and contractor" in here.said()
    here.type("watch.close.debrief", "no hazard found beside those told")
    here.key(Qt.Key.Key_F2)
    assert here.permit.closed_out is not None
