"""What a document is refused for is what the window shows of the same permit: sentence, rule, way out and where."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit, QWidget
from tests.permits.lived import Lived, lived

from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.obstacle_list import ObstacleList, Row
from lamproom.desk.window import MainWindow
from lamproom.desk.workbook.question_row import QuestionRow
from lamproom.intake.permit_document import PermitDocument, read_document
from lamproom.office.assess import assess
from lamproom.office.opening import forms_at_hand
from lamproom.office.views.listed import listed
from lamproom.office.views.workbook import workbook
from lamproom.permit.obstacles import Stage, obstacles

BAD = Path(__file__).parent / "bad"
GOOD = Path(__file__).parent / "good"
CASES: tuple[dict[str, Any], ...] = tuple(tomllib.loads((BAD / "cases.toml").read_text("utf-8"))["case"])
FIVE = ("top-only", "bump-failed", "no-line-and-no-team", "lockout-not-tried", "nitrogen-not-blanked")


def _document(file: Path) -> PermitDocument:
    return read_document(file.read_text("utf-8"))


def _alone(document: PermitDocument) -> bool:
    """Can a site of this one permit tell it? Not one whose fault is another permit, or a clock nobody confirmed."""
    return not document.others and document.clock_confirmed


ALWAYS = 3
"""One permit in so many is lived always, all of them in the full set."""
FILES = [file for folder in (BAD, GOOD) for file in sorted(folder.glob("*.json"))]


@pytest.mark.parametrize(
    "file",
    [
        pytest.param(file, id=file.stem, marks=[pytest.mark.full] if at % ALWAYS else [])
        for at, file in enumerate(FILES)
    ],
)
def test_the_site_judges_as_the_document_is_judged(file: Path, tmp_path: Path) -> None:
    document = _document(file)
    if not _alone(document):
        assert "others" in json.loads(file.read_text("utf-8")) or not document.clock_confirmed
        return
    told = assess(document, forms_at_hand())
    site = lived(document, tmp_path)
    facts = site.office.facts(site.number, document.at)
    mine = {(o.code, o.found.subject, o.sentence.say(), o.clears.say(), o.rule, o.stages) for o in obstacles(facts)}
    theirs = {
        (o.code, o.found.subject, o.sentence.say(), o.clears.say(), o.rule, o.stages)
        for o in (*told.standing, *told.others)
    }
    assert mine == theirs


def test_few_permits_cannot_be_told_alone() -> None:
    assert sum(_alone(_document(file)) for file in FILES) >= len(FILES) - 40


@pytest.mark.parametrize("id", FIVE)
def test_in_the_window_the_person_sees_what_is_wrong_and_is_led_to_where_it_is_cleared(
    id: str, tmp_path: Path, qtbot: Any
) -> None:
    case = next(one for one in CASES if one["id"] == id)
    document = _document(BAD / f"{id}.json")
    site = lived(document, tmp_path)
    load_fonts()
    window = MainWindow(Desk(site.office, document.opened.by))
    qtbot.addWidget(window)
    window.resize(1366, 768)
    window.show()
    window.show_place("workbook", permit=site.number)
    QApplication.processEvents()
    told = [o for o in assess(document, forms_at_hand(), Stage(case["stage"])).standing if o.code in case["codes"]]
    assert told
    shown = {row.sentence: row for row in workbook(site.office, site.number).obstacles}
    rows = listed(told)
    assert {one.code for one in rows} == {one.code for one in told}
    for one in rows:
        seen = shown[one.sentence.say()]
        assert (seen.clears, seen.rule) == (one.clears.say().rstrip("."), one.rule)
        row = _row(window, one.sentence.say())
        QTest.keyClick(row, " ")
        QApplication.processEvents()
        held = QApplication.focusWidget()
        assert held is not None and held is not row and not isinstance(held, Row)
        window.show_place("workbook", permit=site.number)
        QApplication.processEvents()


def _window(id: str, folder: Path, qtbot: Any) -> tuple[MainWindow, Lived]:
    document = _document(BAD / f"{id}.json")
    site = lived(document, folder)
    load_fonts()
    window = MainWindow(Desk(site.office, document.opened.by))
    qtbot.addWidget(window)
    window.resize(1366, 768)
    window.show()
    window.show_place("workbook", permit=site.number)
    QApplication.processEvents()
    return window, site


def _held() -> str:
    held = QApplication.focusWidget()
    return held.objectName() if held is not None else ""


def _press(window: MainWindow, name: str) -> None:
    button = window.findChild(QWidget, name)
    assert button is not None and button.isVisible(), name
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    QApplication.processEvents()


@pytest.mark.parametrize(
    ("id", "sheet"),
    [
        ("top-only", "air-test"),
        ("bump-failed", "instruments"),
        ("no-line-and-no-team", "rescue"),
        ("lockout-not-tried", "isolation"),
        ("nitrogen-not-blanked", "isolation"),
    ],
)
def test_the_sheet_of_the_fault_is_open_on_the_rail_and_turned_to_at_opening(
    id: str, sheet: str, tmp_path: Path, qtbot: Any
) -> None:
    window, site = _window(id, tmp_path, qtbot)
    standing = {one.key: one.standing for one in workbook(site.office, site.number).sheets}
    assert standing[sheet] != "complete"
    rail = window.findChild(QWidget, f"workbook.sheet.{sheet}")
    assert isinstance(rail, QAbstractButton) and rail.isChecked()


def test_a_weak_isolation_names_the_danger_and_leads_to_that_point_and_back(tmp_path: Path, qtbot: Any) -> None:
    window, site = _window("nitrogen-not-blanked", tmp_path, qtbot)
    row = _row(
        window,
        "Nitrogen purge line is not blanked, disconnected, double blocked or locked out. It holds nitrogen, 3 bar.",
    )
    assert row.shown.clears.startswith("A line: blank, disconnect, or double block and bleed it.")
    QTest.keyClick(row, " ")
    QApplication.processEvents()
    assert _held() == "registers.spaces.evaluate.isolation.2.held_as"
    box = QApplication.focusWidget()
    assert box is not None and box.visibleRegion().boundingRect().height() == box.height(), "in sight"
    assert "Nitrogen purge line bars entry" in _words(window)
    _press(window, "window.back")
    assert window.place == "workbook" and site.number in _words(window)
    back = window.findChild(QWidget, "window.back")
    assert back is not None and not back.isVisible()


def test_one_closed_valve_says_what_it_does_not_hold_back(tmp_path: Path, qtbot: Any) -> None:
    window, _site = _window("one-closed-valve", tmp_path, qtbot)
    assert _row(window, "North main: one closed valve does not hold back water, 6 bar.")


def test_a_failed_bump_test_leads_to_calibrating_that_instrument(tmp_path: Path, qtbot: Any) -> None:
    window, _site = _window("bump-failed", tmp_path, qtbot)
    rows = [row for row in window.findChildren(Row) if row.isVisible() and row.shown.code == "instrument-not-ready"]
    assert "read 15 ppm of 25 ppm applied" in rows[0].shown.sentence
    QTest.keyClick(rows[0], " ")
    QApplication.processEvents()
    assert _held() == "bench.act.calibrate"
    assert "Bump test (calibration check) failed" in _words(window)
    _press(window, "window.back")
    assert window.place == "workbook"


def test_a_question_of_this_permit_says_why_and_is_not_answered_by_one_enter_too_many(
    tmp_path: Path, qtbot: Any
) -> None:
    window, site = _window("no-line-and-no-team", tmp_path, qtbot)
    because = (
        "Asked because nobody is on a retrieval line (a line would snag on every baffle), and the air here can be bad"
    )
    assert because in _words(window)
    asked = QApplication.focusWidget()
    assert isinstance(asked, QuestionRow) and asked.visibleRegion().boundingRect().height() == asked.height(), (
        "in sight"
    )
    row = next(row for row in window.findChildren(Row) if row.isVisible() and because in row.shown.sentence)
    QTest.keyClick(row, " ")
    QApplication.processEvents()
    held = QApplication.focusWidget()
    assert isinstance(held, QuestionRow) and held.visibleRegion().boundingRect().height() > 40
    QTest.keyClick(held, Qt.Key.Key_Return)
    QTest.keyClick(held, Qt.Key.Key_Space)
    assert "standby-team" not in site.office.permit(site.number).answers


def test_a_lock_that_nobody_tried_is_not_said_to_be_verified_and_the_try_alone_is_asked(
    tmp_path: Path, qtbot: Any
) -> None:
    window, site = _window("lockout-not-tried", tmp_path, qtbot)
    said = _words(window)
    assert "Mixer breaker is locked, but nobody has tried to start it and found it dead." in said
    assert "Lock 40 in Box 1, Tove Ashby; lock seen by Cleo Marsh." in said
    change = window.findChild(Button, "workbook.isolation.mixer-breaker.change")
    assert change is not None and change.words == "Record the try"
    _press(window, "workbook.isolation.mixer-breaker.change")
    assert _held() == "workbook.isolation.mixer-breaker.dead.yes"
    lock = window.findChild(QLineEdit, "workbook.isolation.mixer-breaker.lock")
    assert lock is not None and lock.text() == "40"
    _press(window, "workbook.isolation.mixer-breaker.dead.yes")
    second = window.findChild(QComboBox, "workbook.isolation.mixer-breaker.verified")
    assert second is not None
    at = second.findText("Cleo Marsh")
    second.setCurrentIndex(at)
    second.activated.emit(at)
    QApplication.processEvents()
    assert not workbook(site.office, site.number).obstacles


def test_the_review_of_a_barred_permit_asks_for_no_signature(tmp_path: Path, qtbot: Any) -> None:
    window, site = _window("nitrogen-not-blanked", tmp_path, qtbot)
    window.show_place("workbook", permit=site.number, target="review")
    QApplication.processEvents()
    assert "Cannot be signed yet" in _words(window) and "1 thing stands between you and entry" in _words(window)
    for name in ("ink", "code", "by-key"):
        part = window.findChild(QWidget, f"workbook.review.{name}")
        assert part is not None and not part.isVisible(), name
    assert "tests named here are done" not in _words(window)
    do = window.findChild(Button, "workbook.review.authorise")
    assert do is not None and do.kind is Kind.PLAIN
    _press(window, "workbook.review.authorise")
    assert "Cannot be authorized yet: nothing was signed." in _words(window)
    assert isinstance(QApplication.focusWidget(), Row)
    assert site.office.permit(site.number).authorised is None
    _press(window, "workbook.review.back")
    assert "Hazards and controls" in _words(window), "what is signed can still be looked at"


def _words(window: QWidget) -> str:
    return "\n".join(label.text() for label in window.findChildren(QLabel) if label.isVisible())


def _row(window: QWidget, sentence: str) -> Row:
    rows = [row for part in window.findChildren(ObstacleList) if part.isVisible() for row in part.findChildren(Row)]
    return next(row for row in rows if row.shown.sentence == sentence)
