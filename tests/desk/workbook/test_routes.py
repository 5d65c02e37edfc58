"""The shorter ways in, in the Workbook: what each sheet asks, what a reclassification says of hazards and its basis."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel
from tests.desk.workbook.by_hand import ByHand

from lamproom.desk.parts.rail import Rail
from lamproom.desk.signs import Sign
from lamproom.office.end_permit import end_permit
from lamproom.office.open_permit import open_permit
from lamproom.permit import events as e
from lamproom.words import Refusal, say

CODE = "lantern-4417"
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)  # lists without a screen


@pytest.fixture
def hand(qtbot: object, tmp_path: Path) -> ByHand:
    return ByHand(qtbot, tmp_path)


def words(hand: ByHand) -> str:
    return "\n".join(label.text() for label in hand.screen.findChildren(QLabel) if label.isVisible())


def on_route(hand: ByHand, route: e.Route) -> None:
    hand.number = open_permit(hand.office, "wet-well-2", by="P-01", route=route)


def test_an_ordinary_permit_holds_hazards_and_asks_no_basis(hand: ByHand) -> None:
    hand.show("hazards")
    assert hand.hidden("workbook.hazards.methane.gone") and hand.hidden("workbook.hazards.basis")
    assert not hand.hidden("workbook.hazards.methane.as-evaluated")


def test_a_reclassification_asks_of_each_hazard_that_it_is_gone_and_why(hand: ByHand) -> None:
    on_route(hand, "reclassified")
    hand.show("hazards")
    assert hand.hidden("workbook.hazards.methane.as-evaluated")
    hand.press("workbook.hazards.methane.gone")
    hand.keys("line removed, space purged and tested")
    hand.key(Qt.Key.Key_Return)
    held = hand.events(e.HazardHeld)[-1]
    assert (held.held, held.eliminated, held.how) == (True, True, "line removed, space purged and tested")


def test_the_basis_is_stated_and_its_link_leads_there(hand: ByHand) -> None:
    on_route(hand, "reclassified")
    hand.show("hazards/basis")
    assert hand.focus == "workbook.hazards.basis"
    hand.keys("inspected dry and blanked; nothing flows in")
    hand.key(Qt.Key.Key_Return)
    assert [event.basis for event in hand.events(e.BasisStated)] == ["inspected dry and blanked; nothing flows in"]


@pytest.mark.parametrize("route", ["alternate", "reclassified"])
def test_rescue_and_the_attendant_are_said_not_to_be_asked_on_the_shorter_ways(hand: ByHand, route: e.Route) -> None:
    on_route(hand, route)
    hand.show("rescue")
    way = say(f"registers.way.{route}")
    assert say("sheets.rescue.not_asked", way=way) in words(hand)
    assert hand.hidden("workbook.rescue.retrieval.yes")
    hand.show("people")
    assert say("sheets.people.not_asked", way=way) in words(hand)
    assert hand.hidden("workbook.people.attendant.P-02")


@pytest.mark.parametrize("route", ["alternate", "reclassified"])
def test_no_tick_stands_beside_what_is_not_asked_on_this_way_in(hand: ByHand, route: e.Route) -> None:
    on_route(hand, route)
    hand.show("hazards")
    rail = hand.screen.findChild(Rail)
    rows = {row.shown.key: row.shown for row in rail.findChildren(QAbstractButton)}
    assert rows["rescue"].state == say("workbook.not_asked")
    assert rows["rescue"].sign is Sign.EQUAL


def test_a_lock_box_is_recorded_with_its_point_and_may_stay_empty(hand: ByHand) -> None:
    hand.show("isolation")
    point = hand.office.permit(hand.number).opened.evaluated.isolation[0].id
    name = f"workbook.isolation.{point}"
    hand.type(f"{name}.box", "3")
    hand.type(f"{name}.lock", "14")
    hand.choose(f"{name}.owner", "Teo")
    hand.press(f"{name}.dead.yes")
    hand.choose(f"{name}.verified", "Oskar")
    made = hand.events(e.PointIsolated)
    assert [(one.lock, one.box) for one in made] == [("14", "3")]


def test_the_fan_may_say_what_drives_it(hand: ByHand) -> None:
    hand.show("isolation/fan")
    hand.type("workbook.isolation.fan", "680", None)
    hand.type("workbook.isolation.fan.intake", "upwind", None)
    hand.type("workbook.isolation.fan.power", "air motor", None)
    hand.type("workbook.isolation.fan.noticed", "streamer")
    assert [one.power for one in hand.events(e.VentilationStarted)] == ["air motor"]


def test_a_permit_may_only_follow_one_of_its_space_that_has_ended(hand: ByHand) -> None:
    with pytest.raises(Refusal):
        open_permit(hand.office, "wet-well-2", by="P-01", renews=hand.number)


def test_a_new_permit_cites_the_canceled_one_from_the_list_of_spaces(hand: ByHand) -> None:
    before = hand.number
    assert hand.hidden(f"workbook.new.wet-well-2.after.{before}")
    end_permit(hand.office, before, "never-entered", "", "P-01", CODE, act="end")
    hand.screen.choose(new=True)
    QApplication.processEvents()
    hand.press(f"workbook.new.wet-well-2.after.{before}")
    number = hand.office.ids("permit")[-1]
    assert hand.office.permit(number).opened.renews == before
