"""The slip behind a figure of the air test, its pages, and the purge curve that it leads to."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QAbstractButton, QApplication
from pytestqt.qtbot import QtBot
from tests.desk.workbook.filled_site import Room, lived_until

from lamproom.desk.workbook.air_test_sheet import AirTestSheet
from lamproom.office.start_fan import start_fan
from lamproom.office.take_readings import take_readings
from lamproom.permit import events as e

UNITS = {"oxygen": "% vol", "flammable": "% LEL", "hydrogen-sulfide": "ppm", "carbon-monoxide": "ppm"}


def room_at(qtbot: QtBot, folder: Path, *levels: str) -> Room:
    """The sheet after the point at 3.6 m was read so often with the fan running."""
    shift = lived_until(folder, "08:03")
    office, number = shift.office, shift.permits["A"]
    if levels:
        start_fan(office, number, "600", "beside the lift station", "bell on the fan", by="P-03")
    for level in levels:
        lowered = office.now()
        shift.clock.pass_time(timedelta(minutes=2))
        figures = {"oxygen": "20.8", "flammable": "2", "hydrogen-sulfide": level, "carbon-monoxide": "0"}
        take_readings(
            office, number, "ventilating", "3.6", next(iter(office.permit(number).instruments)),
            tuple(e.Figure(gas=gas, unit=UNITS[gas], figure=figure) for gas, figure in figures.items()),
            by="P-03", lowered=lowered,
        )  # fmt: skip
    room = Room(shift, AirTestSheet, "P-03")
    qtbot.addWidget(room.window)
    room.show()
    return room


def press(room: Room, name: str) -> None:
    button = room.find(name)
    assert isinstance(button, QAbstractButton)
    button.click()
    QApplication.processEvents()


@pytest.mark.parametrize("gas", UNITS)
def test_every_figure_opens_a_slip_that_stays_within_the_sheet(qtbot: QtBot, tmp_path: Path, gas: str) -> None:
    room = room_at(qtbot, tmp_path)
    room.sheet.picture.choose(gas, 3.6)
    QApplication.processEvents()
    assert room.sheet.slip.isVisible() and room.sheet.slip.accessibleDescription()
    for at in range(len(room.sheet.slip._pages)):
        room.sheet.slip.show_page(at)
        QApplication.processEvents()
        assert (room.window.width(), room.window.height()) == (758, 664)
        right = room.sheet.slip.mapTo(room.window, QPoint(room.sheet.slip.width(), 0)).x()
        assert right <= room.window.width()


def test_a_link_turns_to_the_published_limits_and_back(qtbot: QtBot, tmp_path: Path) -> None:
    """Ceiling 20 ppm: 29 CFR 1910.1000 Table Z-2."""
    room = room_at(qtbot, tmp_path)
    room.sheet.picture.choose("hydrogen-sulfide", 3.6)
    press(room, "workbook.air-test.slip.page.1")
    assert "OSHA ceiling" in room.sheet.slip.accessibleDescription()
    assert "20 ppm" in room.sheet.slip.accessibleDescription()
    press(room, "workbook.air-test.slip.page.0")
    assert "OSHA ceiling," not in room.sheet.slip.accessibleDescription()


def test_without_a_fan_no_purge_is_spoken_of(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path)
    room.sheet.picture.choose("hydrogen-sulfide", 3.6)
    with pytest.raises(KeyError):
        room.find("workbook.air-test.slip.purge")


def test_the_purge_curve_is_opened_from_the_slip_and_left_by_its_button(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "82", "67", "55", "45", "37", "30")
    room.sheet.picture.choose("hydrogen-sulfide", 3.6)
    press(room, "workbook.air-test.slip.purge")
    assert room.sheet.purge.isVisible() and room.sheet.purge.back.hasFocus()
    assert "10 ppm is met about" in room.sheet.purge.says.text()
    assert room.sheet.purge.curve.summary().count(";") >= 6
    press(room, "workbook.air-test.purge.back")
    assert not room.sheet.purge.isVisible() and room.sheet.picture.isVisible()


def test_a_new_reading_joins_the_curve_while_it_is_shown(qtbot: QtBot, tmp_path: Path) -> None:
    room = room_at(qtbot, tmp_path, "82", "67")
    room.sheet.picture.choose("hydrogen-sulfide", 3.6)
    press(room, "workbook.air-test.slip.purge")
    assert "2 of 5" in room.sheet.purge.says.text()
    office, number = room.shift.office, room.number
    lowered = office.now()
    room.shift.clock.pass_time(timedelta(minutes=2))
    figures = tuple(
        e.Figure(gas=gas, unit=unit, figure="20.8" if gas == "oxygen" else "55") for gas, unit in UNITS.items()
    )
    tester = next(iter(office.permit(number).instruments))
    room.desk.do(take_readings, number, "ventilating", "3.6", tester, figures, by="P-03", lowered=lowered)
    QApplication.processEvents()
    assert "3 of 5" in room.sheet.purge.says.text()


def test_the_wait_also_says_why_the_points_are_where_they_are(qtbot: QtBot, tmp_path: Path) -> None:
    shift = lived_until(tmp_path, "07:55")
    room = Room(shift, AirTestSheet, "P-03")
    qtbot.addWidget(room.window)
    room.show()
    press(room, "workbook.air-test.wait.page.1")
    assert "0.3, 1.4, 2.5, 3.6, 4.8 m" in room.sheet.entry.wait.accessibleDescription()
