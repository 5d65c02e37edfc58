"""The sheet 'instruments', driven by keys and clicks."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from tests.desk.workbook.by_hand import ByHand
from tests.desk.workbook.osprel_bend import make_ready

from lamproom.office.views.instruments_sheet import instruments_sheet
from lamproom.permit import events as e
from lamproom.words import say


@pytest.fixture
def hand(qtbot: object, tmp_path: Path) -> ByHand:
    hand = ByHand(qtbot, tmp_path)
    hand.show("instruments/assign")
    return hand


def test_one_press_assigns_with_the_registered_hose_and_the_leak_test_comes_next(hand: ByHand) -> None:
    assert hand.focus == "workbook.instruments.07.test"
    hand.key(Qt.Key.Key_Return)
    (assigned,) = hand.events(e.InstrumentAssigned)
    assert (assigned.instrument, assigned.duty, assigned.hose_m) == ("07", "test", "6.0")
    assert hand.focus == "workbook.instruments.07.leak"
    hand.keys("4")
    hand.key(Qt.Key.Key_Return)
    assert hand.events(e.HoseTested) == [e.HoseTested(instrument="07", stopped_s="4")]
    assert hand.hidden("workbook.instruments.07.leak")


def test_another_hose_is_typed(hand: ByHand) -> None:
    hand.press("workbook.instruments.07.other-hose")
    hand.keys("8,5")
    hand.key(Qt.Key.Key_Return)
    (assigned,) = hand.events(e.InstrumentAssigned)
    assert assigned.hose_m == "8.5"


def test_a_pump_that_did_not_stop_stands_in_the_way_and_can_be_tested_again(hand: ByHand) -> None:
    hand.press("workbook.instruments.07.test")
    hand.press("workbook.instruments.07.leak.not-stopped")
    assert hand.events(e.HoseTested) == [e.HoseTested(instrument="07", stopped_s=None)]
    column = [row.sentence for row in hand.screen._obstacles.rows()]
    assert say("permit.hose_not_tested", name="Instrument 07") in column
    hand.press("workbook.instruments.07.leak.again")
    hand.keys("3")
    hand.key(Qt.Key.Key_Return)
    assert len(hand.events(e.HoseTested)) == 2
    column = [row.sentence for row in hand.screen._obstacles.rows()]
    assert say("permit.hose_not_tested", name="Instrument 07") not in column


def test_one_without_a_pump_is_worn_and_has_no_hose(hand: ByHand) -> None:
    assert hand.hidden("workbook.instruments.11.other-hose")
    hand.press("workbook.instruments.11.worn")
    (assigned,) = hand.events(e.InstrumentAssigned)
    assert (assigned.duty, assigned.hose_m) == ("worn", None)
    assert hand.hidden("workbook.instruments.11.leak")


@pytest.mark.parametrize("why", ["done", "swapped", "failed", "dropped", "battery-flat"])
def test_an_instrument_is_returned_with_its_reason(hand: ByHand, why: str) -> None:
    hand.press("workbook.instruments.11.worn")
    hand.press("workbook.instruments.11.return")
    hand.press(f"workbook.instruments.11.return.{why}")
    assert hand.events(e.InstrumentReturned) == [e.InstrumentReturned(instrument="11", why=why)]
    hand.find("workbook.instruments.11.worn")


def test_one_that_is_not_ready_says_why_and_can_be_assigned_all_the_same(hand: ByHand) -> None:
    rows = {row.id: row for row in instruments_sheet(hand.office, hand.number).rows}
    assert rows["03"].until is None
    assert say("bench.not_bumped") in rows["03"].reasons[1]
    hand.press("workbook.instruments.03.test")
    assert len(hand.events(e.InstrumentAssigned)) == 1
    column = " ".join(row.sentence for row in hand.screen._obstacles.rows())
    assert "Instrument 03 is not ready" in column
    hand.press("workbook.instruments.03.bench")
    assert hand.went[-1] == ("bench", {"target": "03"})


def test_a_bump_test_on_the_bench_is_seen_here_at_once(hand: ByHand) -> None:
    hand.find("workbook.instruments.03.bench")
    make_ready(hand.office, "03")
    assert hand.hidden("workbook.instruments.03.bench")


def test_the_ready_ones_stand_first_and_the_axis_holds_every_end(hand: ByHand) -> None:
    view = instruments_sheet(hand.office, hand.number)
    assert [row.id for row in view.rows] == ["07", "11", "03"]
    assert all(row.until is None or row.until <= view.end for row in view.rows)


def test_the_hose_test_says_within_what_the_pump_stops_and_its_figure_is_stored_by_a_button(hand: ByHand) -> None:
    hand.press("workbook.instruments.07.test")
    leak = hand.screen._made["instruments"]._lines["07"]._leak
    assert any("within 30 s" in label.text() for label in leak.findChildren(QLabel))
    hand.type("workbook.instruments.07.leak", "4", None)
    hand.press("workbook.instruments.07.leak.store")
    assert [event.stopped_s for event in hand.events(e.HoseTested)] == ["4"]
