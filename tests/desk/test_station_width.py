"""On a screen 1280 wide no place, open or hidden behind another, makes the window wider than the screen."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from PySide6.QtWidgets import QApplication
from tests.desk.workbook.filled_site import lived_until

from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.desk.window import PLACES, MainWindow
from lamproom.permit.form import SHEETS

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


@pytest.mark.parametrize("until", ["08:41", "09:31", "11:45"])
def test_the_window_stays_as_wide_as_a_station(until: str, tmp_path: Path, qtbot: Any) -> None:
    shift = lived_until(tmp_path, until)
    load_fonts()
    window = MainWindow(Desk(shift.office, "P-03"))
    qtbot.addWidget(window)
    window.resize(1280, 800)
    window.show()
    for place in PLACES:
        for sheet in SHEETS if place == "workbook" else ("",):
            where = {"permit": shift.permits["A"], "target": sheet} if place == "workbook" else {}
            if place in ("watch", "filing"):
                where = {"permit": shift.permits["A"]}
            window.show_place(place, **where)
            for _ in range(6):
                QApplication.processEvents()
            assert window.width() == 1280, (place, sheet)
