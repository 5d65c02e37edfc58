"""The Workbook's frame: sheets, links, keys, and choosing a permit."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLineEdit, QWidget
from tests.desk.workbook.by_hand import ByHand
from tests.desk.workbook.filled_site import lived_until

from lamproom.office.office import ToRecord
from lamproom.office.views.board_cards import card_of
from lamproom.office.views.workbook import permits, sheet_of, spaces, workbook
from lamproom.permit import events as e
from lamproom.words import say

SHEETS = ("space", "hazards", "isolation", "instruments", "air-test", "people", "rescue", "review")


@pytest.fixture
def hand(qtbot: object, tmp_path: Path) -> ByHand:
    return ByHand(qtbot, tmp_path)


def test_alt_and_a_digit_opens_each_of_the_eight_sheets(hand: ByHand) -> None:
    for at, key in enumerate(SHEETS, 1):
        hand.key(Qt.Key(Qt.Key.Key_0.value + at), Qt.KeyboardModifier.AltModifier)
        assert hand.screen._rail.current() == key
        hand.screen.activateWindow()  # a part that shows itself before it has its place takes the activation with it
        QApplication.processEvents()
    assert hand.screen._column.isHidden()
    hand.key(Qt.Key.Key_1, Qt.KeyboardModifier.AltModifier)
    assert not hand.screen._column.isHidden()


def test_every_obstacle_of_the_first_four_sheets_leads_to_a_control_that_takes_the_keyboard(hand: ByHand) -> None:
    """Each open item is a link to its field; followed one by one as a person would."""
    targets = [row.target for row in hand.screen._obstacles.rows()]
    mine = [target for target in targets if target.split("/")[0] in SHEETS[:4]]
    assert len(mine) > 15
    for target in mine:
        hand.screen.follow(target)
        QApplication.processEvents()
        sheet, _, rest = target.partition("/")
        assert hand.focus.startswith(f"workbook.{sheet}"), (target, hand.focus)
        if sheet in ("hazards", "isolation") and "/" not in rest:
            assert f".{rest}" in hand.focus, (target, hand.focus)


def test_the_column_counts_and_says_the_same_words_as_the_rules(hand: ByHand) -> None:
    view = workbook(hand.office, hand.number)
    rows = hand.screen._obstacles.rows()
    assert [row.sentence for row in rows] == [obstacle.sentence for obstacle in view.obstacles]
    assert str(len(rows)) in hand.screen._obstacles.title()
    opened = {sheet.key: sheet.state for sheet in view.sheets}
    assert opened["hazards"] == "6 open"


def test_a_sheet_is_complete_with_the_time_of_its_last_answer(hand: ByHand) -> None:
    hand.show("hazards")
    hand.clock.pass_time(timedelta(minutes=5))
    for hazard in ("lack-of-oxygen", "methane", "hydrogen-sulfide", "carbon-dioxide", "engulfment", "fall"):
        hand.press(f"workbook.hazards.{hazard}.as-evaluated")
    sheet = {sheet.key: sheet for sheet in workbook(hand.office, hand.number).sheets}["hazards"]
    assert (sheet.standing, sheet.state) == ("complete", say("workbook.looked_at", time="07:45"))


def test_targets_outside_the_workbook_go_to_their_screens(hand: ByHand) -> None:
    hand.screen.follow("bench/07")
    hand.screen.follow("watch/condition/symptoms")
    hand.screen.follow("site/time")
    assert [place for place, _where in hand.went] == ["bench", "watch", "registers"]
    assert hand.went[1][1] == {"permit": hand.number, "target": "condition/symptoms"}
    assert sheet_of("bench/07") == "instruments"
    assert sheet_of("site/time") == "review"


def test_escape_goes_back_to_what_stands_in_the_way_and_keeps_what_is_typed(hand: ByHand) -> None:
    hand.type("workbook.space.purpose", "half", None)
    hand.key(Qt.Key.Key_Escape)
    focused = QApplication.focusWidget()
    assert focused is not None and hand.screen._obstacles.isAncestorOf(focused)
    assert hand.find("workbook.space.purpose").text() == "half"


def test_a_press_on_a_link_counts_even_when_it_commits_a_field_first(hand: ByHand) -> None:
    """Leaving the field records it, which shortens the list under the mouse."""
    hand.type("workbook.space.purpose", "Replace the float switch", None)
    row = next(row for row in hand.screen._obstacles.findChildren(QAbstractButton) if row.shown.target == "space/hours")
    QTest.mouseClick(row, Qt.MouseButton.LeftButton)
    QApplication.processEvents()
    assert hand.focus == "workbook.space.begins"
    assert len(hand.events(e.WorkDescribed)) == 1


def test_f6_goes_round_rail_sheet_and_column(hand: ByHand) -> None:
    where = []
    for _ in range(3):
        hand.key(Qt.Key.Key_F6)
        focused = QApplication.focusWidget()
        parts = {"rail": hand.screen._rail, "sheet": hand.screen._sheets, "column": hand.screen._obstacles}
        where.append(next(name for name, part in parts.items() if focused and part.isAncestorOf(focused)))
    assert sorted(where) == ["column", "rail", "sheet"]


def test_a_new_permit_is_opened_for_a_space_and_shown_with_the_keyboard_on_its_purpose(hand: ByHand) -> None:
    hand.press("workbook.others")
    assert {entry.number for entry in permits(hand.office)} == {hand.number}
    hand.press("workbook.new.tank-3")
    assert len(hand.office.ids("permit")) == 2
    assert hand.focus == "workbook.space.purpose"
    assert hand.office.happenings("permit/26-0002")[0].by == "P-01"


def test_an_open_permit_is_chosen_from_the_list(hand: ByHand) -> None:
    hand.press("workbook.others")
    hand.press(f"workbook.open.{hand.number}")
    hand.find("workbook.space.purpose")


def test_a_space_without_evaluation_cannot_be_chosen_and_says_why(hand: ByHand) -> None:
    hand.press("workbook.others")
    assert not hand.find("workbook.new.vault-9").isEnabled()
    barred = {space.id: space.barred for space in spaces(hand.office)}
    assert barred["vault-9"] == say("workbook.not_evaluated")
    assert barred["wet-well-2"] == ""


def test_time_alone_brings_up_an_obstacle_without_an_act(hand: ByHand) -> None:
    hand.show("instruments")
    hand.press("workbook.instruments.07.test")
    before = {row.sentence for row in hand.screen._obstacles.rows()}
    hand.clock.pass_time(timedelta(hours=23))
    hand.desk.ticked.emit()
    new = {row.sentence for row in hand.screen._obstacles.rows()} - before
    assert any("Instrument 07 is not ready" in sentence for sentence in new)


def test_after_authorizing_the_line_shows_the_hours_and_the_column_what_bars_entry(hand: ByHand) -> None:
    now = hand.office.now()
    authorised = e.Authorised(begins=now, ends=now + timedelta(hours=2), on_version=1, entrants=(), ink=None)
    hand.office.record([ToRecord(f"permit/{hand.number}", authorised)], by="P-01")
    view = workbook(hand.office, hand.number)
    assert view.facts[1] == say("workbook.hours_authorised", begins="07:40", ends="09:40")
    assert view.sheets[-1].state == say("workbook.authorised_at", time="07:40")
    assert say("permit.nobody_on_watch") in [obstacle.sentence for obstacle in view.obstacles]


def test_every_control_of_the_first_four_sheets_has_a_name_to_hear_and_a_name_to_find(hand: ByHand) -> None:
    for key in SHEETS[:4]:
        hand.show(key)
        sheet = hand.screen._made[key]
        for kind in (QAbstractButton, QLineEdit, QComboBox):
            for control in sheet.findChildren(kind):
                assert control.objectName().startswith(f"workbook.{key}."), (key, control)
                assert control.accessibleName(), control.objectName()


def test_no_sheet_opens_a_second_window(hand: ByHand) -> None:
    for key in SHEETS[:4]:
        hand.show(key)
    assert [w for w in QApplication.topLevelWidgets() if w.isVisible() and isinstance(w, QWidget)] == [hand.screen]


def test_nothing_of_the_first_four_sheets_is_wider_than_its_place(hand: ByHand) -> None:
    """At 1366 pixels nothing is cut at the right edge."""
    for key in SHEETS[:4]:
        hand.show(key)
        sheet = hand.screen._made[key]
        content = sheet._content
        assert content.width() <= sheet._area.viewport().width(), key
        assert content.minimumSizeHint().width() <= sheet._area.viewport().width(), key


def test_what_must_come_first_in_the_world_stands_first_in_the_list(tmp_path: Path) -> None:
    """Nobody lifts a cover before the air was tested through it: 29 CFR 1910.146(d)(5)(i), Appendix B."""
    shift = lived_until(tmp_path, "07:20")
    view = workbook(shift.office, shift.permits["A"])
    codes = [obstacle.code for obstacle in view.obstacles]
    chain = ["hose-not-tested", "lid-not-tested", "opening-not-stated", "level-missing", "fan-missing"]
    assert [code for code in codes if code in chain] == chain
    later = lived_until(tmp_path, "08:05")
    codes = [obstacle.code for obstacle in workbook(later.office, later.permits["A"]).obstacles]
    assert codes.index("reading-outside") < codes.index("fan-missing") < codes.index("point-not-tested")


def test_the_board_names_as_next_what_stands_first_in_the_workbook(tmp_path: Path) -> None:
    shift = lived_until(tmp_path, "07:20")
    first = workbook(shift.office, shift.permits["A"]).obstacles[0]
    card = card_of(shift.office, shift.permits["A"], shift.office.now())
    assert card.lines[0] == ("RIGHT", first.sentence)
    assert card.target == first.target


def test_what_lies_below_the_edge_of_the_list_is_counted_and_no_entry_is_shown_by_halves(hand: ByHand) -> None:
    column = hand.screen._obstacles
    rows = column._rows
    whole = [row for row in rows if row.visibleRegion().boundingRect().height() >= row.height() - 2]
    assert column.more() == f"{len(rows) - len(whole)} more below"
    cut = next(row for row in rows if row not in whole and not row.visibleRegion().isEmpty())
    assert cut._hidden()
    bar = column._scroll.verticalScrollBar()
    bar.setValue(bar.maximum())
    assert column.more() == ""
