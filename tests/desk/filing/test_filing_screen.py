"""Filing driven as its users drive it: a question typed, a page turned, a proof read, a note kept."""

from __future__ import annotations

import zipfile
from hashlib import sha256
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QPlainTextEdit, QWidget
from pytestqt.qtbot import QtBot
from tests.desk.board.day import JUNO, Day
from tests.desk.board.look import window_of
from tests.desk.filing.long_day import long_day

from lamproom.desk.desk import Desk
from lamproom.desk.filing.filing_screen import FilingScreen
from lamproom.desk.filing.found_list import FoundView, in_whole_phrases
from lamproom.desk.filing.page_preview import Pages
from lamproom.desk.filing.story_list import StoryList
from lamproom.desk.fonts import load_fonts
from lamproom.desk.parts.button import Button
from lamproom.desk.theme import Look
from lamproom.office.pages import filed_pdf
from lamproom.permit import events as e


class Seat:
    """Filing in a window of the office."""

    def __init__(self, qtbot: QtBot, day: Day) -> None:
        load_fonts()
        self.qtbot, self.day = qtbot, day
        self.desk = Desk(day.office, JUNO)
        self.filing = FilingScreen(self.desk)
        self.window = window_of(self.filing, Look(), 1366, 720)
        qtbot.addWidget(self.window)
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

    def type(self, name: str, text: str, enter: bool = True) -> None:
        box = self.named(name)
        assert isinstance(box, QLineEdit | QPlainTextEdit)
        box.setFocus()
        self.qtbot.keyClicks(box, text)
        if enter:
            self.qtbot.keyClick(box, Qt.Key.Key_Return)

    @property
    def found(self) -> list[str]:
        view = self.window.findChild(FoundView)
        return view.numbers()

    def shows(self, words: str) -> bool:
        return any(words in label.text() for label in self.window.findChildren(QLabel) if label.isVisible())

    @property
    def story(self) -> StoryList:
        return self.window.findChild(StoryList)


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory) -> Day:
    return long_day(tmp_path_factory.mktemp("day"))[0]


@pytest.fixture
def seat(qtbot: QtBot, day: Day) -> Seat:
    return Seat(qtbot, day)


def test_before_a_choice_the_page_says_what_to_do(seat: Seat) -> None:
    assert seat.shows("Choose a permit at the left.")
    assert len(seat.found) == 6


def test_a_question_and_enter_show_the_permit_with_page_proof_and_story(seat: Seat) -> None:
    seat.type("filing.find.words", "lime lena")
    assert seat.found == ["26-0006"]
    assert seat.shows("Lime silo 2, 26-0006")
    assert seat.shows("Page 1 of 5")
    seat.qtbot.waitUntil(lambda: seat.shows("Verified at "))
    assert seat.shows("Kept at least until 25 Nov 2027")
    assert any(line.struck == "20 ppm" for line in seat.story.lines())


def test_the_arrows_walk_the_list_and_show_each(seat: Seat) -> None:
    seat.type("filing.find.words", "wet well")
    assert seat.found == ["26-0005", "26-0001"]
    view = seat.named("filing.found")
    assert view.hasFocus()
    seat.qtbot.keyClick(view, Qt.Key.Key_Down)
    assert seat.shows("Wet well 2, 26-0001")


def test_a_day_that_cannot_be_read_is_said_and_stays_as_typed(seat: Seat) -> None:
    seat.type("filing.find.from", "11/12/26", enter=False)
    seat.qtbot.keyClick(seat.named("filing.find.from"), Qt.Key.Key_Tab)
    assert seat.shows("11/12/26 is not a day. Type it as 25 Nov 2026 or 2026-11-25.")
    box = seat.named("filing.find.from")
    assert isinstance(box, QLineEdit) and box.text() == "11/12/26"


def test_nothing_found_says_how_to_ask_otherwise_and_show_all_brings_everything_back(seat: Seat) -> None:
    seat.type("filing.find.words", "zeppelin")
    assert seat.found == []
    assert seat.shows("No permit has all of these words")
    seat.press("filing.find.all")
    assert len(seat.found) == 6


def test_pages_turn_by_press_and_by_key(seat: Seat) -> None:
    seat.filing.show_where(permit="26-0006")
    seat.press("filing.page.next")
    assert seat.shows("Page 2 of 5")
    page = seat.named("filing.page")
    seat.qtbot.keyClick(page, Qt.Key.Key_PageDown)
    assert seat.shows("Page 3 of 5")
    seat.press("filing.page.previous")
    assert seat.shows("Page 2 of 5")


def test_the_preview_draws_the_page_with_ink_on_it(seat: Seat) -> None:
    pdf = filed_pdf(seat.day.office, "26-0006")
    assert pdf is not None
    image = Pages(pdf).image(0, 600)
    shades = {image.pixelColor(x, y).lightness() for x in range(0, 600, 3) for y in range(0, image.height(), 3)}
    assert min(shades) < 40 and max(shades) == 255
    assert abs(image.height() / image.width() - 11 / 8.5) < 0.01


def test_an_earlier_page_can_be_looked_at(seat: Seat) -> None:
    seat.filing.show_where(permit="26-0006")
    box = seat.named("filing.page.which")
    assert isinstance(box, QComboBox)
    box.setFocus()
    assert box.currentData() == "closed-out"
    seat.qtbot.keyClick(box, Qt.Key.Key_Down)
    seat.qtbot.waitUntil(box.view().isVisible)
    seat.qtbot.keyClick(box.view(), Qt.Key.Key_Down)
    seat.qtbot.keyClick(box.view(), Qt.Key.Key_Return)
    seat.qtbot.waitUntil(lambda: box.currentData() == "ended")
    assert seat.shows("Page 1 of")


def test_a_page_to_be_read_takes_the_room_of_the_proof_and_gives_it_back(seat: Seat) -> None:
    seat.filing.show_where(permit="26-0006")
    narrow = seat.named("filing.page").width()
    seat.press("filing.page.larger")
    seat.qtbot.wait(20)
    assert seat.named("filing.page").width() > 2 * narrow
    seat.press("filing.page.larger")
    seat.qtbot.wait(20)
    assert seat.named("filing.story").isVisible()


def test_save_writes_the_bytes_that_were_filed(seat: Seat, tmp_path: Path) -> None:
    seat.filing.show_where(permit="26-0006")
    offered: list[str] = []

    def name(_parent: QWidget, suggested: str) -> str:
        offered.append(suggested)
        return str(tmp_path / suggested)

    seat.filing.page.ask_name = name
    seat.press("filing.save")
    assert offered == ["2026-11-25-lime-silo-2-26-0006-closed-out.pdf"]
    saved = (tmp_path / offered[0]).read_bytes()
    assert sha256(saved).hexdigest() in seat.day.office.journal.files()


def test_a_folder_that_cannot_be_written_is_said_with_what_to_do(seat: Seat, tmp_path: Path) -> None:
    seat.filing.show_where(permit="26-0006")
    seat.filing.page.ask_name = lambda _parent, name: str(tmp_path / "missing" / name)
    seat.press("filing.save")
    kind, words = seat.said[-1]
    assert kind == "refused" and words.endswith("Choose another folder.")


def test_print_sends_every_page_to_the_printer(seat: Seat, tmp_path: Path) -> None:
    """Printed to a PDF here: an independent reader counts its pages."""
    seat.filing.show_where(permit="26-0006")
    target = tmp_path / "printed.pdf"

    def printer(_parent: QWidget) -> QPrinter:
        made = QPrinter(QPrinter.PrinterMode.HighResolution)
        made.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        made.setOutputFileName(str(target))
        return made

    seat.filing.page.ask_printer = printer
    seat.press("filing.print")
    assert seat.said[-1] == ("done", "5 pages sent to the printer.")
    assert len(pypdfium2.PdfDocument(target)) == 5


def test_a_note_is_kept_in_the_name_of_whoever_is_at_the_desk_and_shows_in_the_story(seat: Seat) -> None:
    seat.filing.show_where(permit="26-0006")
    seat.press("filing.note")
    seat.press("filing.note.keep")
    assert seat.shows("Type the note first.")
    seat.type("filing.note.text", "Reviewed with the crew.", enter=False)
    seat.press("filing.note.keep")
    made = seat.day.office.permit("26-0006").notes[-1]
    assert isinstance(made.event, e.Noted)
    assert (made.event.text, made.by) == ("Reviewed with the crew.", JUNO)
    assert seat.story.lines()[-1].what == "Note: Reviewed with the crew."


def test_a_half_typed_note_comes_back(seat: Seat) -> None:
    seat.filing.show_where(permit="26-0006")
    seat.press("filing.note")
    seat.type("filing.note.text", "Half a th", enter=False)
    seat.qtbot.wait(900)
    again = FilingScreen(seat.desk)
    seat.qtbot.addWidget(again)
    again.show_where(permit="26-0006")
    boxes = again.findChildren(QPlainTextEdit, "filing.note.text")
    assert [box.toPlainText() for box in boxes] == ["Half a th"]


def test_export_writes_the_record_as_one_file(seat: Seat, tmp_path: Path) -> None:
    seat.filing.ask_export = lambda _parent, name: str(tmp_path / name)
    seat.press("filing.export")
    assert "record-2026-11-25.zip" in seat.said[-1][1]
    with zipfile.ZipFile(tmp_path / "record-2026-11-25.zip") as archive:
        assert "journal.jsonl" in archive.namelist()


def test_a_file_handed_in_with_one_changed_byte_is_called_altered(seat: Seat, tmp_path: Path) -> None:
    seat.filing.show_where(permit="26-0006")
    pdf = bytearray(filed_pdf(seat.day.office, "26-0006") or b"")
    pdf[len(pdf) // 3] ^= 1
    (tmp_path / "handed-in.pdf").write_bytes(pdf)
    seat.filing.proof.ask_file = lambda _parent: str(tmp_path / "handed-in.pdf")
    seat.press("filing.verify.file")
    assert seat.shows("File handed-in.pdf: altered, found at ")


def test_preparation_is_folded_until_it_is_asked_for(seat: Seat) -> None:
    seat.filing.show_where(permit="26-0006")
    main = len(seat.story.lines())
    more = seat.named("filing.story.more")
    assert isinstance(more, Button)
    assert more.words == f"Show preparation, {seat.day.office.permit('26-0006').version + 2 - main} more"
    seat.press("filing.story.more")
    assert any(line.kind == "answered" for line in seat.story.lines())


def test_a_permit_that_is_not_over_leads_to_where_it_is_worked_on(seat: Seat) -> None:
    seat.filing.show_where(permit="26-0004")
    seat.press("filing.open")
    seat.filing.show_where(permit="26-0002")
    seat.press("filing.open")
    assert seat.went == [("workbook", {"permit": "26-0004"}), ("watch", {"permit": "26-0002"})]


def test_an_unknown_number_is_refused_and_what_was_shown_stays(seat: Seat) -> None:
    seat.filing.show_where(permit="26-0006")
    seat.filing.show_where(permit="99-0001")
    assert seat.said[-1] == ("refused", "There is no permit 99-0001 at this site.")
    assert seat.shows("Lime silo 2, 26-0006")


def test_everything_that_takes_the_keyboard_has_a_name_to_be_read(seat: Seat) -> None:
    seat.filing.show_where(permit="26-0006")
    seat.press("filing.note")
    for widget in seat.window.findChildren(QWidget):
        if widget.isVisible() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isEnabled():
            assert widget.accessibleName(), (widget, widget.parentWidget())
            assert widget.objectName(), (widget, widget.parentWidget())


def test_another_place_may_ask_for_one_page_of_a_permit(qtbot: QtBot, tmp_path: Path) -> None:
    day = Day(tmp_path)
    number = day.open("S-1", "09:00", "12:00")
    other = day.open("S-2", "09:00", "12:00")
    seat = Seat(qtbot, day)
    seat.filing.show_where(permit=number, page="now")
    which = seat.named("filing.page.which")
    assert isinstance(which, QComboBox) and which.currentText() == "as it stands now, unsigned"
    seat.filing.show_where(permit=other, page="closed-out")
    assert which.currentText() == "as it stands now, unsigned", "a page that it does not have is not shown"


def test_a_line_that_is_too_long_loses_whole_phrases_and_never_half_a_figure(seat: Seat) -> None:
    """'Oxygen 19.…' could be 19.5 or 19.9."""
    metrics = QFontMetricsF(seat.window.font())
    words = "Closed out. Everyone ordered out: Oxygen 19.2 % vol"
    for cut in range(len(words) - 1, 20, -1):
        shown = in_whole_phrases(words, metrics, metrics.horizontalAdvance(words[:cut]) + 1)
        assert shown in ("Closed out. Everyone ordered out\u2026", "Closed out\u2026")
    assert in_whole_phrases(words, metrics, 10_000) == words
