"""The Bench, driven by its buttons and keys: the list, the guided check, bump test, calibration, service."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit, QWidget

from lamproom.bench.readiness import readiness
from lamproom.desk.bench.bench_screen import BenchScreen
from lamproom.desk.bench.instrument_row import InstrumentRow
from lamproom.desk.bench.pump_block import PumpBlock
from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.office.clock import HandClock
from lamproom.office.office import Office
from lamproom.office.views.bench import bench_view, instrument_view, rules_here
from lamproom.words import say


@pytest.fixture
def desk(office: Office, qtbot: object) -> Desk:
    load_fonts()
    return Desk(office, "P-01")


@pytest.fixture
def screen(desk: Desk, qtbot: object) -> BenchScreen:
    screen = BenchScreen(desk)
    qtbot.addWidget(screen)  # type: ignore[attr-defined]
    screen.resize(1366, 720)
    screen.show()
    return screen


def press(screen: QWidget, name: str) -> None:
    button = screen.findChild(QAbstractButton, name)
    assert button is not None and button.isEnabled(), name
    button.click()


def fill(screen: QWidget, name: str, text: str) -> None:
    box = screen.findChild(QLineEdit, name)
    assert box is not None, name
    box.setText(text)
    box.textEdited.emit(text)
    box.editingFinished.emit()


def text(screen: QWidget, name: str) -> str:
    box = screen.findChild(QLineEdit, name)
    assert box is not None, name
    return box.text()


def shown(screen: QWidget) -> list[str]:
    QApplication.processEvents()
    rows = [row for row in screen.findChildren(InstrumentRow) if row.isVisible()]
    return [row.line.id for row in sorted(rows, key=lambda row: row.y())]


def answer_check(screen: QWidget, **other: str) -> None:
    for key in ("self-test", "heard", "seen", "felt", "display", "housing", "set-points"):
        press(screen, f"bench.check.{key}.{other.get(key, 'yes')}")
    fill(screen, "bench.check.battery", "11")
    fill(screen, "bench.check.place", "gate 3")
    fill(screen, "bench.check.why-clean", "open field, wind from the west")
    fill(screen, "bench.check.before", "20.8")
    fill(screen, "bench.check.after", "20,9")
    press(screen, "bench.check.beside.no")


def time_block(screen: QWidget, clock: HandClock, seconds: float) -> None:
    press(screen, "bench.check.block")
    clock.pass_time(timedelta(seconds=seconds))
    block = screen.findChild(PumpBlock)
    assert block is not None
    block.tick()
    if seconds <= 30:
        press(screen, "bench.check.block")


def test_what_is_not_ready_stands_first_with_what_mends_it(screen: BenchScreen, office: Office) -> None:
    assert shown(screen) == ["05", "03", "09", "02", "07"]
    lines = {line.id: line for line in bench_view(office).lines}
    assert [lines[id].mend for id in ("05", "03", "09", "02")] == ["service", "calibrate", "calibrate", None]
    assert lines["07"].until == readiness(office.instrument("07"), rules_here(office), office.now()).until.timestamp()  # type: ignore[union-attr]


def test_the_sentence_above_counts_what_is_ready(office: Office) -> None:
    assert bench_view(office).summary == say("bench_screen.summary.other", n="5", ready="2")


def test_arrows_walk_along_the_list_and_enter_opens(screen: BenchScreen, qtbot: object) -> None:
    first = screen.findChild(QWidget, "bench.row.05")
    assert first is not None
    first.setFocus()
    qtbot.keyClick(first, Qt.Key.Key_Down)  # type: ignore[attr-defined]
    second = screen.findChild(QAbstractButton, "bench.row.03")
    assert second is not None and second.hasFocus()
    qtbot.keyClick(second, Qt.Key.Key_Return)  # type: ignore[attr-defined]
    assert second.isChecked()


def test_the_last_bump_test_is_shown_by_sensor_with_its_share(office: Office) -> None:
    lines = {line.gas: line for line in instrument_view(office, "03").sensors}
    assert lines["hydrogen-sulfide"].share == say("bench_screen.share", share="80.0")
    assert lines["hydrogen-sulfide"].passed is False
    assert lines["carbon-monoxide"].passed is True


def test_the_figures_of_a_sensor_share_one_unit_that_stands_beside_them(screen: BenchScreen) -> None:
    press(screen, "bench.row.07")
    words = [label.text() for label in screen.findChildren(QLabel) if label.isVisible()]
    at = words.index("Hydrogen sulfide")
    assert words[at + 1 : at + 3] == ["ppm", "25"]


def test_a_day_with_a_failed_test_stays_failed_on_the_strip(office: Office) -> None:
    strip = instrument_view(office, "07").strip
    assert len(strip) == 30
    failed = [mark.day for mark in strip if mark.tested and not mark.passed]
    assert failed == ["9 Nov 2026"]


def test_a_check_with_anything_unanswered_records_nothing(screen: BenchScreen, office: Office) -> None:
    screen.show_where(instrument="09", act="check")
    press(screen, "bench.check.record")
    assert office.instrument("09").check is None
    press(screen, "bench.check.heard.yes")
    fill(screen, "bench.check.place", "gate 3")
    press(screen, "bench.check.record")
    assert office.instrument("09").check is None
    assert text(screen, "bench.check.place") == "gate 3"


def test_a_guided_check_is_recorded_once_with_every_answer_apart(
    screen: BenchScreen, office: Office, clock: HandClock
) -> None:
    screen.show_where(instrument="09", act="check")
    answer_check(screen, felt="no")
    time_block(screen, clock, 4.2)
    press(screen, "bench.check.record")
    checks = office.instrument("09").checks
    assert len(checks) == 1 and checks[0].by == "P-01"
    event = checks[0].event
    assert (event.alarm_heard, event.alarm_felt) == (True, False)
    assert event.block_stopped_s == "4.2"
    assert event.fresh_air.oxygen_after == "20.9"
    assert not event.fresh_air.beside_portal


def test_a_pump_that_runs_on_past_its_limit_did_not_stop(screen: BenchScreen, office: Office, clock: HandClock) -> None:
    screen.show_where(instrument="09", act="check")
    answer_check(screen)
    time_block(screen, clock, 30.2)
    press(screen, "bench.check.record")
    assert office.instrument("09").checks[0].event.block_stopped_s is None


def test_what_is_half_answered_is_there_again_after_leaving(
    screen: BenchScreen, desk: Desk, qtbot: object, office: Office
) -> None:
    screen.show_where(instrument="09", act="check")
    press(screen, "bench.check.heard.no")
    fill(screen, "bench.check.why-clean", "open field")
    press(screen, "bench.check.leave")
    other = BenchScreen(desk)
    qtbot.addWidget(other)  # type: ignore[attr-defined]
    other.show_where(instrument="09", act="check")
    assert text(other, "bench.check.why-clean") == "open field"
    no = other.findChild(QAbstractButton, "bench.check.heard.no")
    assert no is not None and no.isChecked()


def choose_first_cylinder(screen: QWidget, page: str) -> None:
    box = screen.findChild(QComboBox, f"bench.{page}.which")
    assert box is not None
    box.setCurrentIndex(1)
    box.activated.emit(1)


def test_a_cylinder_used_before_fills_in_its_gases_and_no_result(screen: BenchScreen) -> None:
    screen.show_where(instrument="09", act="bump")
    choose_first_cylinder(screen, "bump")
    assert text(screen, "bench.bump.cylinder") == "C 118"
    assert text(screen, "bench.bump.hydrogen-sulfide.applied") == "25"
    assert text(screen, "bench.bump.hydrogen-sulfide.reading") == ""


def test_a_bump_test_is_recorded_with_what_each_sensor_did(screen: BenchScreen, office: Office) -> None:
    screen.show_where(instrument="09", act="bump")
    choose_first_cylinder(screen, "bump")
    for gas, read, seconds in (("oxygen", "18.1", "9"), ("flammable", "48", "14"), ("hydrogen-sulfide", "24", "22")):
        fill(screen, f"bench.bump.{gas}.reading", read)
        fill(screen, f"bench.bump.{gas}.seconds", seconds)
    fill(screen, "bench.bump.carbon-monoxide.reading", "98")
    press(screen, "bench.bump.record")
    assert office.instrument("09").last_bump is None, "seconds missing, and nobody said that there was no alarm"
    press(screen, "bench.bump.carbon-monoxide.silent.silent")
    press(screen, "bench.bump.record")
    last = office.instrument("09").last_bump
    assert last is not None and last.event.check == "calibration"
    assert [(r.gas, r.alarm_s) for r in last.event.results][-1] == ("carbon-monoxide", None)


def fill_calibration(screen: QWidget) -> None:
    screen_fill: Callable[[str, str], None] = lambda key, value: fill(screen, f"bench.calibrate.{key}", value)  # noqa: E731
    choose_first_cylinder(screen, "calibrate")
    for gas, found in (("oxygen", "18.1"), ("flammable", "44"), ("hydrogen-sulfide", "20"), ("carbon-monoxide", "97")):
        screen_fill(f"{gas}.found", found)
        screen_fill(f"{gas}.left", "25")


def test_a_calibration_falls_due_by_the_registered_interval_or_earlier_never_later(
    screen: BenchScreen, office: Office
) -> None:
    screen.show_where(instrument="09", act="calibrate")
    fill_calibration(screen)
    press(screen, "bench.calibrate.passed.yes")
    fill(screen, "bench.calibrate.due", "2027-12-01")
    press(screen, "bench.calibrate.record")
    assert office.instrument("09").last_calibration is None
    fill(screen, "bench.calibrate.due", "")
    press(screen, "bench.calibrate.record")
    last = office.instrument("09").last_calibration
    assert last is not None
    assert last.event.due == date(2026, 11, 25) + timedelta(days=180)


def test_an_instrument_goes_out_of_service_with_its_reason_and_comes_back(screen: BenchScreen, office: Office) -> None:
    screen.show_where(instrument="02", act="service")
    press(screen, "bench.service.out")
    assert office.instrument("02").out_of_service is None, "no reason was given"
    fill(screen, "bench.service.reason", "clip broken")
    press(screen, "bench.service.out")
    assert office.instrument("02").out_of_service is not None
    screen.show_where(instrument="05", act="service")
    box = screen.findChild(QWidget, "bench.service.done")
    assert box is not None
    box.setPlainText("housing replaced by the maker")  # type: ignore[attr-defined]
    press(screen, "bench.service.back")
    assert office.instrument("05").out_of_service is None


def test_a_drop_ends_the_standing_of_the_bump_test(screen: BenchScreen, office: Office) -> None:
    screen.show_where(instrument="02", act="service")
    press(screen, "bench.service.cause.dropped")
    press(screen, "bench.service.void")
    codes = [unfit.code for unfit in readiness(office.instrument("02"), rules_here(office), office.now()).unfit]
    assert codes == ["bump-voided"]
    assert shown(screen)[:4] == ["05", "02", "03", "09"]


def test_nothing_is_recorded_while_nobody_is_at_the_desk(screen: BenchScreen, desk: Desk, office: Office) -> None:
    said: list[str] = []
    desk.said.connect(lambda _kind, words: said.append(words))
    desk.set_person(None)
    screen.show_where(instrument="02", act="service")
    fill(screen, "bench.service.reason", "clip broken")
    press(screen, "bench.service.out")
    assert office.instrument("02").out_of_service is None
    assert said == [say("bench_screen.who_first")]
    assert text(screen, "bench.service.reason") == "clip broken"
