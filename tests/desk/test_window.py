"""The main window, driven by its keys and buttons: places, theme, person, time, what is said, the first start."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QWidget

from lamproom.desk.desk import Desk, Question
from lamproom.desk.dialogs import ConfirmTimeDialog, PersonDialog, QuestionDialog
from lamproom.desk.fonts import load_fonts
from lamproom.desk.opening import keep_running, open_window
from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Look, Role, Theme, look_of
from lamproom.desk.window import MainWindow
from lamproom.office.begin_site import begin_site
from lamproom.office.clock import HandClock
from lamproom.office.device import device_secret
from lamproom.office.key_box import CHEAPEST
from lamproom.office.office import Office
from lamproom.office.opening import open_in_memory
from lamproom.office.register_person import register_person
from lamproom.words import Refusal, say, sentence

MORNING = datetime(2026, 11, 25, 13, 20, tzinfo=UTC)  # 07:20 in Chicago


class PlainScreen(QWidget):
    """Stands in for a screen of another room."""

    def __init__(self, place: str) -> None:
        super().__init__()
        self.setObjectName(place)
        self.shown: list[dict[str, str]] = []

    def show_where(self, **where: str) -> None:
        self.shown.append(where)


@pytest.fixture
def clock() -> HandClock:
    return HandClock(MORNING)


@pytest.fixture
def office(tmp_path: Path, clock: HandClock) -> Office:
    return open_in_memory(clock, device_secret(tmp_path), CHEAPEST)


@pytest.fixture
def site(office: Office) -> Office:
    begin_site(
        office,
        "Osprel Bend Waterworks",
        "America/Chicago",
        "P-01",
        "Mara Velde",
        ("supervisor", "keeper"),
        (),
        "lantern-4417",
        MORNING,
    )
    register_person(office, "P-02", "Oskar Wren", ("attendant",), (), by="P-01")
    return office


def window_on(office: Office, qtbot: object, person: str | None = "P-01") -> MainWindow:
    load_fonts()
    desk = Desk(office, person)
    window = MainWindow(desk, lambda place, _desk: PlainScreen(place))
    qtbot.addWidget(window)  # type: ignore[attr-defined]
    window.show()
    window._kept = desk  # type: ignore[attr-defined]
    return window


@pytest.fixture
def window(site: Office, qtbot: object) -> Iterator[MainWindow]:
    yield window_on(site, qtbot)


def named(window: QWidget, name: str) -> QWidget:
    found = window.findChild(QWidget, name)
    assert found is not None, name
    return found


def press(window: QWidget, name: str) -> None:
    button = named(window, name)
    assert isinstance(button, QAbstractButton) and button.isEnabled()
    button.click()


def fill(window: QWidget, name: str, text: str) -> None:
    box = named(window, name)
    assert isinstance(box, QLineEdit)
    box.setFocus()
    box.setText(text)
    box.textEdited.emit(text)
    box.editingFinished.emit()


@pytest.mark.parametrize(
    ("key", "place"),
    [(1, "board"), (2, "workbook"), (3, "watch"), (4, "bench"), (5, "filing"), (6, "registers")],
)
def test_each_place_has_its_key(window: MainWindow, qtbot: object, key: int, place: str) -> None:
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)  # type: ignore[attr-defined]
    window.show_place("bench" if place == "board" else "board")
    qtbot.keyClick(window, getattr(Qt.Key, f"Key_{key}"), Qt.KeyboardModifier.ControlModifier)  # type: ignore[attr-defined]
    assert window.place == place


def test_a_screen_is_made_once_and_only_when_it_is_shown(site: Office, qtbot: object) -> None:
    made: list[str] = []

    def make(place: str, _desk: Desk) -> QWidget:
        made.append(place)
        return PlainScreen(place)

    desk = Desk(site, "P-01")
    window = MainWindow(desk, make)
    qtbot.addWidget(window)  # type: ignore[attr-defined]
    press(window, "window.bench")
    press(window, "window.board")
    press(window, "window.bench")
    assert made == ["board", "bench"]


def test_where_a_screen_is_sent_reaches_it(window: MainWindow) -> None:
    window._desk.go("workbook", permit="26-0001", target="air-test/point/2.7")
    screen = named(window, "workbook")
    assert isinstance(screen, PlainScreen)
    assert screen.shown == [{"permit": "26-0001", "target": "air-test/point/2.7"}]


def test_the_watch_has_the_whole_window(window: MainWindow) -> None:
    window.show_place("watch")
    assert not window.bar.isVisible()
    window.show_place("board")
    assert window.bar.isVisible()


def test_f8_goes_round_the_themes_and_the_machine_keeps_the_last(window: MainWindow, site: Office) -> None:
    seen = []
    for _ in range(3):
        window.next_theme()
        seen.append(window.look.theme)
    assert seen == [Theme.DARK, Theme.SUN, Theme.LIGHT]
    window.next_theme()
    assert site.journal.settings()["theme"] == "dark"


def test_a_screen_with_a_look_of_its_own_keeps_it(window: MainWindow) -> None:
    window.show_place("watch")
    watch = named(window, "watch")
    dress(watch, Look(Theme.SUN))
    label = Label("Air", parent=watch)
    window.show_place("board")
    window.next_theme()
    assert window.look.theme is Theme.DARK
    assert look_of(label).theme is Theme.SUN
    assert label.palette().color(QPalette.ColorRole.WindowText) == Look(Theme.SUN).colour(Role.TEXT)


def test_choosing_who_is_at_the_desk_asks_no_code(window: MainWindow, site: Office) -> None:
    press(window, "window.person")
    dialog = window.findChild(PersonDialog)
    assert dialog is not None
    press(dialog, "person.P-02")
    assert window._desk.person == "P-02"
    assert site.journal.settings()["person"] == "P-02"
    assert named(window, "window.person").accessibleName() == "Oskar Wren"


def test_after_a_restart_the_window_asks_for_another_watch_and_takes_it(
    window: MainWindow, site: Office, clock: HandClock
) -> None:
    assert not named(window, "window.time-not-confirmed").isVisible()
    clock.restart("boot-2")
    clock.set_wall(MORNING + timedelta(minutes=5))
    window._desk.ticked.emit()
    assert named(window, "window.time-not-confirmed").isVisible()
    press(window, "window.confirm-time")
    dialog = window.findChild(ConfirmTimeDialog)
    assert dialog is not None
    fill(dialog, "confirm-time.watch", "07.26")
    fill(dialog, "confirm-time.day", "25 Nov 2026")
    press(dialog, "confirm-time.record")
    window._desk.ticked.emit()
    assert site.judged().confirmed
    assert not named(window, "window.time-not-confirmed").isVisible()


def test_a_watch_before_the_record_is_refused_and_what_was_typed_stays(window: MainWindow) -> None:
    window.confirm_time()
    dialog = window.findChild(ConfirmTimeDialog)
    assert dialog is not None
    fill(dialog, "confirm-time.watch", "06:00")
    fill(dialog, "confirm-time.day", "2026-11-25")
    press(dialog, "confirm-time.record")
    assert dialog.isVisible()
    box = named(dialog, "confirm-time.watch")
    assert isinstance(box, QLineEdit) and box.text() == "06:00"


def test_a_refusal_is_said_in_the_window_until_the_next_act(window: MainWindow, site: Office) -> None:
    def act(_office: Office) -> None:
        raise Refusal(sentence("office.name_missing"))

    assert not window._desk.do(act)
    assert window._notice.text() == say("office.name_missing")
    register_person(site, "P-03", "Nia Falk", ("attendant",), (), by="P-01")
    assert window._notice.text() == ""


def test_what_is_stored_is_said_with_its_time(window: MainWindow, site: Office, clock: HandClock) -> None:
    clock.pass_time(timedelta(seconds=41))
    register_person(site, "P-03", "Nia Falk", ("attendant",), (), by="P-01")
    assert window.bar._stored.text() == say("desk.window.stored", clock="07:20:41")


def test_a_fault_is_said_and_the_window_goes_on(window: MainWindow, capsys: pytest.CaptureFixture[str]) -> None:
    hook = keep_running(window, window._desk)
    try:
        raise ZeroDivisionError("a fault of ours")
    except ZeroDivisionError:
        kind, error, trace = sys.exc_info()
        assert kind is not None and error is not None
        hook(kind, error, trace)
    assert window._notice.text() == say("desk.window.fault")
    assert "a fault of ours" in capsys.readouterr().err


def test_enter_on_a_harmful_question_gives_no(window: MainWindow, qtbot: object) -> None:
    dialog = QuestionDialog(window, Question("End permit 26-0001?", ("Nobody is inside.",), "End it", "Go back"))
    dialog.show()
    held = dialog.focusWidget()
    assert held is not None and held.objectName() == "question.no"
    qtbot.keyClick(held, Qt.Key.Key_Return)  # type: ignore[attr-defined]
    assert dialog.result() == QuestionDialog.DialogCode.Rejected


def test_the_window_opens_in_the_name_of_whoever_sat_there_last(site: Office, qtbot: object) -> None:
    site.journal.put_setting("person", "P-02")
    desk, window = open_window(site)
    qtbot.addWidget(window)  # type: ignore[attr-defined]
    assert desk.person == "P-02"
    site.journal.put_setting("person", "P-99")
    desk, other = open_window(site)
    qtbot.addWidget(other)  # type: ignore[attr-defined]
    assert desk.person is None, "a person nobody registered sits nowhere"


def test_a_site_begins_on_the_first_page(office: Office, qtbot: object) -> None:
    window = window_on(office, qtbot, None)
    assert window.place == "" and not window.bar.isVisible()
    press(window, "first.begin")
    assert not office.begun, "an empty page begins nothing"
    fill(window, "first.name", "Mara Velde")
    press(window, "first.roles.supervisor")
    press(window, "first.roles.keeper")
    fill(window, "first.trainer", "Ilse Hart")
    fill(window, "first.trained-on", "2026-03-02")
    fill(window, "first.site", "Osprel Bend Waterworks")
    zone = named(window, "first.zone")
    assert isinstance(zone, QComboBox)
    zone.setCurrentIndex(zone.findData("America/Chicago"))
    zone.activated.emit(zone.currentIndex())
    fill(window, "first.code", "lantern-4417")
    fill(window, "first.code-again", "lantern-4418")
    fill(window, "first.watch", "07:21")
    fill(window, "first.day", "2026-11-25")
    press(window, "first.begin")
    assert not office.begun, "two codes that differ begin nothing"
    fill(window, "first.code-again", "lantern-4417")
    press(window, "first.begin")
    assert office.begun and office.zone.key == "America/Chicago"
    assert window.place == "registers" and window._desk.person == "P-01"
    person = office.person("P-01")
    assert person.roles == ("supervisor", "keeper")
    assert [done.role for done in person.trained] == ["supervisor"]
    assert "lantern" not in str(office.journal.drafts("first"))


def test_a_machine_whose_clock_runs_ahead_of_the_watch_does_not_begin_a_site(office: Office, qtbot: object) -> None:
    window = window_on(office, qtbot, None)
    from lamproom.office.views.registers import founding_from

    answers = {
        "site": "Osprel Bend Waterworks",
        "zone": "America/Chicago",
        "name": "Mara Velde",
        "roles": "keeper",
        "watch": "06:20",
        "day": "2026-11-25",
    }
    filled = founding_from(office, answers, "lantern-4417", "lantern-4417")
    assert filled.value is None
    assert filled.troubles == {"watch": say("registers.first.machine_ahead", minutes=60)}
    assert window.place == ""
