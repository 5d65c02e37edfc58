"""An invented site that has just begun."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.desk.registers.registers_screen import RegistersScreen
from lamproom.office.begin_site import begin_site
from lamproom.office.clock import HandClock
from lamproom.office.device import device_secret
from lamproom.office.key_box import CHEAPEST
from lamproom.office.office import Office
from lamproom.office.opening import open_in_memory
from lamproom.permit.people import PersonTrained

MORNING = datetime(2026, 11, 25, 13, 20, tzinfo=UTC)  # 07:20 in Chicago


@pytest.fixture
def office(tmp_path: Path) -> Office:
    office = open_in_memory(HandClock(MORNING), device_secret(tmp_path), CHEAPEST)
    trained = PersonTrained(role="supervisor", trained_on=date(2026, 3, 2), trainer="Ilse Hart")
    begin_site(
        office,
        "Osprel Bend Waterworks",
        "America/Chicago",
        "P-01",
        "Mara Velde",
        ("supervisor", "keeper"),
        (trained,),
        "lantern-4417",
        MORNING,
    )
    return office


@pytest.fixture
def desk(office: Office, qtbot: object) -> Desk:
    load_fonts()
    return Desk(office, "P-01")


@pytest.fixture
def screen(desk: Desk, qtbot: object) -> RegistersScreen:
    screen = RegistersScreen(desk)
    qtbot.addWidget(screen)  # type: ignore[attr-defined]
    desk.went.connect(lambda place, where: screen.show_where(**where) if place == "registers" else None)
    screen.resize(1366, 720)
    screen.show()
    return screen
