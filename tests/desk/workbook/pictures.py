"""Paints the sheets on air, people, rescue and review to PNG: ``python -m tests.desk.workbook.pictures FOLDER``."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from datetime import timedelta

from PySide6.QtWidgets import QApplication
from tests.desk.workbook.filled_site import Room, lived_until

from lamproom.desk.theme import Theme
from lamproom.desk.workbook.air_test_sheet import AirTestSheet
from lamproom.desk.workbook.people_sheet import PeopleSheet
from lamproom.desk.workbook.rescue_sheet import RescueSheet
from lamproom.desk.workbook.review_sheet import ReviewSheet


def take(folder: Path, name: str, room: Room) -> None:
    for _ in range(3):
        QApplication.processEvents()
    room.window.grab().save(str(folder / f"{name}.png"))


def main(folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    app = QApplication(sys.argv)
    with TemporaryDirectory() as place:
        machine = Path(place)

        def site(until: str, *without: str):
            where = machine / f"{until}-{len(without)}".replace(":", "")
            where.mkdir(exist_ok=True)
            return lived_until(where, until, without)

        room = Room(site("07:36"), AirTestSheet, "P-03")
        room.show()
        take(folder, "air-upwind", room)
        room = Room(site("07:55"), AirTestSheet, "P-03")
        room.show()
        take(folder, "air-lower", room)
        room.find("workbook.air-test.lowered").click()
        room.shift.clock.pass_time(timedelta(seconds=20))
        room.desk.ticked.emit()
        take(folder, "air-wait", room)
        room.shift.clock.pass_time(timedelta(seconds=60))
        room.desk.ticked.emit()
        take(folder, "air-boxes", room)
        shift = site("08:03")
        for theme in Theme:
            room = Room(shift, AirTestSheet, "P-03")
            room.show(theme=theme)
            room.sheet.picture.choose("oxygen", 3.6)
            take(folder, f"air-slip-{theme.value}", room)
        room.find("workbook.air-test.correct").click()
        take(folder, "air-correct", room)
        room.sheet._close_slip()
        room.find("workbook.air-test.as-table").click()
        take(folder, "air-table", room)
        room.find("workbook.air-test.show").click()
        take(folder, "air-shown", room)
        room = Room(site("08:51", "brief", "08:43"), PeopleSheet)
        room.show()
        take(folder, "people", room)
        room.find("workbook.people.briefing").click()
        take(folder, "briefing", room)
        room = Room(site("08:51", "answer", "rescue"), RescueSheet)
        room.show()
        take(folder, "rescue-open", room)
        room = Room(site("08:51"), RescueSheet)
        room.show(theme=Theme.DARK)
        take(folder, "rescue-done", room)
        room = Room(site("08:51"), ReviewSheet)
        room.show(1114, 664)
        take(folder, "review", room)
        room = Room(room.shift, ReviewSheet)
        room.show(1668, 976, Theme.DARK)
        take(folder, "review-big", room)
        room = Room(site("08:51", "brief", "answer"), ReviewSheet)
        room.show(1114, 664)
        take(folder, "review-gaps", room)
    app.quit()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
