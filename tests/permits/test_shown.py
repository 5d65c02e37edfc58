"""What a document is refused for is what the window shows of the same permit: sentence, rule, way out and where."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from tests.permits.lived import lived

from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.desk.parts.obstacle_list import ObstacleList, Row
from lamproom.desk.window import MainWindow
from lamproom.intake.permit_document import PermitDocument, read_document
from lamproom.office.assess import assess
from lamproom.office.opening import forms_at_hand
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


FILES = [file for folder in (BAD, GOOD) for file in sorted(folder.glob("*.json"))]


@pytest.mark.parametrize("file", [pytest.param(file, id=file.stem) for file in FILES])
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
    for one in told:
        seen = shown[one.sentence.say()]
        assert (seen.clears, seen.rule) == (one.clears.say().rstrip("."), one.rule)
        row = _row(window, one.sentence.say())
        QTest.keyClick(row, " ")
        QApplication.processEvents()
        held = QApplication.focusWidget()
        assert held is not None and held is not row and not isinstance(held, Row)
        window.show_place("workbook", permit=site.number)
        QApplication.processEvents()


def _row(window: QWidget, sentence: str) -> Row:
    rows = [row for part in window.findChildren(ObstacleList) if part.isVisible() for row in part.findChildren(Row)]
    return next(row for row in rows if row.shown.sentence == sentence)
