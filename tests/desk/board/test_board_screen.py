"""The Board driven as its users drive it: by keys and presses on what has a name."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot
from tests.desk.board.busy import busy_day, late_day, silent_day
from tests.desk.board.day import CODE, JUNO, KIT, MARA, NIA, Day
from tests.desk.board.look import window_of

from lamproom.desk.board.board_screen import BoardScreen
from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.desk.theme import Look
from lamproom.office.end_permit import end_permit
from lamproom.office.views.board import board, spaces
from lamproom.permit.words import State

WIDTH, HEIGHT = 1366, 720


class Seat:
    """The Board in a window, with what the desk was asked to show and to say."""

    def __init__(self, qtbot: QtBot, day: Day, person: str | None = MARA) -> None:
        load_fonts()
        self.qtbot, self.day = qtbot, day
        self.desk = Desk(day.office, person)
        self.board = BoardScreen(self.desk)
        self.window = window_of(self.board, Look(), WIDTH, HEIGHT)
        qtbot.addWidget(self.window)
        self.window.activateWindow()
        qtbot.waitUntil(self.window.isActiveWindow)
        self.went: list[tuple[str, dict[str, str]]] = []
        self.said: list[tuple[str, str]] = []
        self.desk.went.connect(lambda place, where: self.went.append((place, where)))
        self.desk.said.connect(lambda kind, words: self.said.append((kind, words)))

    def named(self, name: str) -> QWidget:
        """The one visible widget of that name; what was just added is shown by Qt a moment later."""

        def visible() -> list[QWidget]:
            return [w for w in self.window.findChildren(QWidget, name) if w.isVisible()]

        self.qtbot.waitUntil(lambda: len(visible()) == 1, timeout=1000)
        return visible()[0]

    def press(self, name: str) -> None:
        self.qtbot.mouseClick(self.named(name), Qt.MouseButton.LeftButton)

    def shows(self, words: str) -> bool:
        from PySide6.QtWidgets import QLabel

        return any(words in label.text() for label in self.window.findChildren(QLabel) if label.isVisible())


@pytest.fixture
def busy(qtbot: QtBot, tmp_path: Path) -> Seat:
    return Seat(qtbot, busy_day(tmp_path))


@pytest.mark.parametrize(
    ("number", "place"), [("26-0001", "filing"), ("26-0002", "watch"), ("26-0003", "watch"), ("26-0004", "workbook")]
)
def test_a_card_opens_the_place_where_the_permit_is_worked_on(busy: Seat, number: str, place: str) -> None:
    busy.press(f"board.open.{number}")
    assert busy.went[0][0] == place
    assert busy.went[0][1]["permit"] == number


def test_a_card_opens_by_the_keyboard_too(busy: Seat) -> None:
    card = busy.named("board.open.26-0004")
    card.setFocus()
    busy.qtbot.keyClick(card, Qt.Key.Key_Space)
    assert busy.went == [("workbook", {"permit": "26-0004", "target": "space/different-today"})]


def test_an_overdue_permit_opens_the_watch_and_says_why(qtbot: QtBot, tmp_path: Path) -> None:
    seat = Seat(qtbot, late_day(tmp_path))
    assert seat.shows("Reading late: it was due at 08:05.")
    seat.press("board.open.26-0006")
    assert seat.went == [("watch", {"permit": "26-0006"})]


def test_a_missed_contact_check_fills_the_card_and_stands_above_now(qtbot: QtBot, tmp_path: Path) -> None:
    seat = Seat(qtbot, silent_day(tmp_path))
    (card,) = board(seat.day.office).overdue
    assert card.band.startswith("No contact ")
    assert seat.shows(card.reason)
    assert seat.shows("Contact with those inside, Filter gallery sump")
    seat.press(f"board.open.{card.number}")
    assert seat.went == [("watch", {"permit": card.number})]


def test_a_new_permit_is_opened_for_the_space_that_was_chosen(busy: Seat) -> None:
    busy.press("board.new-permit")
    busy.press("board.new.space.S-2")
    busy.press("board.new.open")
    assert busy.went == [("workbook", {"permit": "26-0006"})]
    permit = busy.day.office.permit("26-0006")
    assert (permit.opened.space, permit.opened_by) == ("S-2", MARA)
    assert busy.named("board.open.26-0006")


def test_a_new_permit_is_opened_by_keys_alone(busy: Seat) -> None:
    busy.qtbot.keyClick(busy.board, Qt.Key.Key_N, Qt.KeyboardModifier.ControlModifier)
    first = busy.named("board.new.space.S-3")
    busy.qtbot.waitUntil(first.hasFocus)
    busy.qtbot.keyClick(first, Qt.Key.Key_Down)
    second = busy.window.focusWidget()
    assert second is not None
    busy.qtbot.keyClick(second, Qt.Key.Key_Space)
    opener = busy.named("board.new.open")
    opener.setFocus()
    busy.qtbot.keyClick(opener, Qt.Key.Key_Space)
    assert busy.day.office.permit("26-0006").opened.space == "S-4"


def test_nothing_is_chosen_beforehand_and_a_press_without_a_choice_says_so(busy: Seat) -> None:
    busy.press("board.new-permit")
    busy.press("board.new.open")
    assert busy.shows("Choose a space first.")
    assert len(busy.day.office.ids("permit")) == 5


def test_two_presses_on_open_make_one_permit(busy: Seat) -> None:
    busy.press("board.new-permit")
    busy.press("board.new.space.S-2")
    opener = busy.named("board.new.open")
    assert isinstance(opener, QAbstractButton)
    opener.click()
    opener.click()
    assert len(busy.day.office.ids("permit")) == 6


def test_escape_leaves_the_panel_and_opens_nothing(busy: Seat) -> None:
    busy.press("board.new-permit")
    busy.press("board.new.space.S-2")
    busy.qtbot.keyClick(busy.named("board.new.open"), Qt.Key.Key_Escape)
    busy.qtbot.waitUntil(lambda: busy.shows("What is next"))
    assert len(busy.day.office.ids("permit")) == 5


def test_whoever_opens_a_permit_says_first_who_they_are(qtbot: QtBot, tmp_path: Path) -> None:
    seat = Seat(qtbot, Day(tmp_path), person=None)
    seat.press("board.new-permit")
    assert seat.shows("Say first who is at the desk.")
    seat.press(f"board.duty.person.{JUNO}")
    seat.press("board.duty.sit")
    assert seat.desk.person == JUNO
    seat.press("board.new.space.S-1")
    seat.press("board.new.open")
    assert seat.day.office.permit("26-0001").opened_by == JUNO


def test_supervision_is_taken_over_with_a_code_and_a_wrong_one_keeps_the_text(busy: Seat) -> None:
    busy.press("board.hand-over")
    busy.press(f"board.duty.person.{JUNO}")
    busy.press("board.duty.sit")
    code = busy.named("board.duty.code")
    assert isinstance(code, QLineEdit)
    busy.qtbot.keyClicks(code, "not-the-code")
    busy.press("board.duty.take-over.26-0002")
    assert busy.said[0][0] == "refused"
    assert code.text() == "not-the-code"
    assert busy.day.office.permit("26-0002").supervisor == MARA
    code.clear()
    busy.qtbot.keyClicks(code, f"code-of-{JUNO}")
    busy.press("board.duty.take-over.26-0002")
    assert busy.day.office.permit("26-0002").supervisor == JUNO
    assert busy.said[-1] == ("done", "Juno Bexley supervises 26-0002 now.")


def test_the_board_turns_late_as_the_clock_ticks_and_the_focus_stays(qtbot: QtBot, tmp_path: Path) -> None:
    day = Day(tmp_path)
    number = day.run("S-3", "06:22", "12:00", "11", NIA, KIT)
    day.read(number, "work", "1.5", "11")
    day.open("S-1", "10:00", "15:00")
    seat = Seat(qtbot, day)
    draft = seat.named("board.open.26-0002")
    draft.setFocus()
    assert seat.shows("Entry allowed")
    day.clock.pass_time(timedelta(minutes=18))
    seat.desk.ticked.emit()
    qtbot.wait(1)
    assert seat.shows("Reading late: it was due at 06:39.")
    assert seat.window.focusWidget() is draft


def test_an_act_elsewhere_shows_at_once(busy: Seat) -> None:
    busy.day.open("S-2", "14:00", "16:00")
    assert busy.named("board.open.26-0006")


def test_an_empty_site_says_what_to_do(qtbot: QtBot, tmp_path: Path) -> None:
    seat = Seat(qtbot, Day(tmp_path))
    assert seat.shows("No permit is open and none ended today.")
    assert seat.shows("Press New permit and choose the space to enter.")


def test_everything_that_takes_the_keyboard_has_a_name_to_be_read(busy: Seat) -> None:
    for panel in (lambda: None, lambda: busy.press("board.new-permit"), lambda: busy.press("board.hand-over")):
        panel()
        for widget in busy.window.findChildren(QWidget):
            if widget.isVisible() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isEnabled():
                assert widget.accessibleName(), widget
                assert widget.objectName(), widget


@pytest.mark.parametrize("size", [(1366, 720), (1920, 1032)])
def test_no_words_of_a_card_are_cut(qtbot: QtBot, tmp_path: Path, size: tuple[int, int]) -> None:
    seat = Seat(qtbot, late_day(tmp_path))
    seat.window.resize(*size)
    qtbot.wait(20)
    from lamproom.desk.parts.label import Label

    for label in seat.window.findChildren(Label):
        if label.isVisible() and label.text():
            needed = label.heightForWidth(label.width()) if label.wordWrap() else label.sizeHint().height()
            assert label.height() >= needed - 1, label.text()
            if not label.wordWrap():
                assert label.width() >= label.sizeHint().width() - 1, label.text()


def test_nobody_is_asked_for_a_reading_where_everyone_was_ordered_out(qtbot: QtBot, tmp_path: Path) -> None:
    """An order to leave outranks a reading that is due: 29 CFR 1910.146(h)(5)."""
    seat = Seat(qtbot, late_day(tmp_path))
    view = board(seat.day.office)
    out = next(card for card in view.overdue if card.state is State.OUT)
    assert out.inside and out.rule is None
    readings = [line for line in view.coming if line.words.startswith("Reading")]
    assert readings and out.number not in {line.number for line in readings}
    assert seat.shows("Needs someone now")


def test_after_signing_the_board_says_when_the_hours_begin_and_everything_that_it_waits_for(
    qtbot: QtBot, tmp_path: Path
) -> None:
    day = Day(tmp_path)
    number = day.open("S-1", "09:00", "12:00")
    day.prepare(number, "07", NIA, KIT)
    day.authorise(number)
    view = board(day.office)
    card = view.under_way[0]
    assert card.state is State.WAITS and card.sign == "DUE"
    words = [words for _sign, words in card.lines]
    assert "The hours begin at 09:00." in words and "Nobody stands watch." in words
    assert next((line.clock, line.words) for line in view.coming) == ("09:00", "Hours begin, " + card.space)
    day.at("09:00")
    assert not any(line.words.startswith("Hours begin") for line in board(day.office).coming)


@pytest.mark.parametrize(("number", "words"), [("26-0003", "Open the watch"), ("26-0004", "Open the permit")])
def test_a_card_says_what_a_press_does(busy: Seat, number: str, words: str) -> None:
    card = busy.named(f"board.open.{number}")
    assert any(label.text() == words for label in card.findChildren(QLabel) if label.isVisible())


def test_a_lone_card_does_not_span_the_board(qtbot: QtBot, tmp_path: Path) -> None:
    day = Day(tmp_path)
    number = day.open("S-1", "09:00", "12:00")
    seat = Seat(qtbot, day)
    assert seat.named(f"board.open.{number}").width() < 560


def test_an_ordinary_space_offers_its_permit_alone(busy: Seat) -> None:
    busy.press("board.new-permit")
    offered = [one for one in spaces(busy.day.office) if not one.barred]
    assert {one.route for one in offered} == {"permit"}
    assert all(one.renews is None for one in offered if one.id == one.space)


def test_what_an_ended_permit_needs_leads_to_a_new_one_that_cites_it(busy: Seat) -> None:
    """The link of the obstacle 'ended' is board/new; what follows the permit is chosen, one press opens it."""
    office = busy.day.office
    number = office.ids("permit")[3]
    end_permit(office, number, "never-entered", "", MARA, CODE)
    busy.board.show_where(target="new", permit=number)
    busy.press("board.new.open")
    made = office.permit(office.ids("permit")[-1])
    assert made.opened.renews == number and made.opened.space == office.permit(number).opened.space
    assert made.purpose == office.permit(number).purpose and not made.answers and not made.held
