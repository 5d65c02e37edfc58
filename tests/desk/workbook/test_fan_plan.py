"""Ventilation planned with figures on the isolation sheet: both named, shown, never recorded and never needed."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit
from pytestqt.qtbot import QtBot
from tests.desk.workbook.filled_site import Room, lived_until

from lamproom.air.working_list import WORKINGS
from lamproom.air.workings import again
from lamproom.desk.workbook.isolation_sheet import IsolationSheet
from lamproom.office.views.fan_plan import plan_fan, volume_offered
from lamproom.office.views.workbook import workbook

FIGURES = {"flow": "1200", "volume": "60", "mixing": "3", "start": "400", "target": "20"}


def room_at(qtbot: QtBot, folder: Path) -> Room:
    room = Room(lived_until(folder, "08:03"), IsolationSheet)
    qtbot.addWidget(room.window)
    room.show()
    return room


def press(room: Room, name: str) -> None:
    button = room.find(name)
    assert isinstance(button, QAbstractButton)
    button.click()
    QApplication.processEvents()


def test_flow_and_volume_give_air_changes_and_three_more_figures_the_time_of_a_purge() -> None:
    """1,200 m³/h in 60 m³ are 20 an hour; 3 x 60 / 20 x ln(400 / 20) = 26.96 min. By hand."""
    plan = plan_fan(FIGURES)
    assert [page.steps[-1].figure for page in plan.pages] == ["20.00 1/h", "27.0 min"]
    assert plan_fan({key: FIGURES[key] for key in ("flow", "volume")}).pages == plan.pages[:1]
    for page in plan.pages:
        (working,) = page.workings
        assert again(WORKINGS, working).result == working.result
        assert "Mixing factor 1 or more" in page.aside or working.key == "air_changes"


@pytest.mark.parametrize("key", FIGURES)
def test_each_figure_moves_the_plan(key: str) -> None:
    moved = plan_fan(FIGURES | {key: str(float(FIGURES[key]) * 1.5)})
    assert [page.steps[-1].figure for page in moved.pages] != [
        page.steps[-1].figure for page in plan_fan(FIGURES).pages
    ]


@pytest.mark.parametrize(
    ("key", "text"), [("flow", "12oo"), ("volume", "0"), ("mixing", "0.5"), ("start", ""), ("flow", "")]
)
def test_what_is_wrong_is_said_at_its_field(key: str, text: str) -> None:
    plan = plan_fan(FIGURES | {key: text})
    assert not plan.pages and key in plan.troubles


def test_the_volume_is_offered_where_the_space_is_round(tmp_path: Path) -> None:
    """pi / 4 x 2.4² x 5.1 m of air = 23.1 m³: the wet well with its level of the day."""
    shift = lived_until(tmp_path, "08:03")
    assert volume_offered(shift.office, shift.permits["A"]) == "23.1"


def test_the_plan_is_opened_by_a_press_and_records_and_clears_nothing(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    office, head = room.shift.office, room.shift.office.journal.head()
    before = workbook(office, room.number).obstacles
    press(room, "workbook.isolation.fan.plan")
    for key, text in FIGURES.items():
        box = room.find(f"workbook.isolation.fan.plan.{key}")
        assert isinstance(box, QLineEdit)
        box.setText(text)
    press(room, "workbook.isolation.fan.plan.do")
    assert "20.00 1/h" in room.find("workbook.isolation.fan.plan.slip").accessibleDescription()
    press(room, "workbook.isolation.fan.plan.slip.page.1")
    assert "27.0 min" in room.find("workbook.isolation.fan.plan.slip").accessibleDescription()
    assert office.journal.head() == head and workbook(office, room.number).obstacles == before
