"""The page of the permit that was chosen, and what can be done with it: turn, print, save, annotate."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.filing.note_slip import NoteSlip
from lamproom.desk.filing.page_preview import PagePreview
from lamproom.desk.filing.printing import ask_printer, print_pdf
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import DropList, Option
from lamproom.desk.parts.label import Label, StateWord
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place, Role
from lamproom.office.office import Office
from lamproom.office.views.filing import OnFile, made_page, on_file, page_name
from lamproom.words import Refusal, say, say_count, sentence


def written(path: str, content: bytes) -> None:
    """Write a file. Refused, with why, when it cannot be written."""
    try:
        Path(path).write_bytes(content)
    except OSError as error:
        raise Refusal(sentence("filing.not_saved", name=path, why=error.strerror or str(error))) from error


class PageColumn(QWidget):
    """Shows one permit's pages. Signal: ``widened(bool)`` when the page wants the whole room or gives it back."""

    widened = Signal(bool)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._number = ""
        self._shown: tuple[str, str, int] | None = None
        self._pdf: bytes | None = None
        self._wide = False
        self.ask_printer: Callable[[QWidget], QPrinter | None] = ask_printer
        self.ask_name: Callable[[QWidget, str], str] = ask_name
        self._heading = Label("", Letter.HEAD, bold=True)
        self._state = StateWord(Sign.DRAFT, "", Letter.OFFICE, side=20)
        self._which = DropList(say("filing.which_page"), place=Place.OFFICE)
        self._which.box.setObjectName("filing.page.which")
        self._which.chosen.connect(lambda _id: self._draw())
        self._preview = PagePreview()
        self._preview.setObjectName("filing.page")
        self._preview.turned.connect(lambda _page: self._say_page())
        self._area = QScrollArea()
        self._area.setWidgetResizable(True)
        self._area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._area.setWidget(self._preview)
        self._page = Label("", Letter.SMALL)
        self._previous = self._button("filing.previous", "filing.page.previous", lambda: self._preview.turn(-1))
        self._next = self._button("filing.next", "filing.page.next", lambda: self._preview.turn(1))
        self._larger = self._button("filing.larger", "filing.page.larger", self._widen)
        self._print = self._button("filing.print", "filing.print", self._print_it, Kind.PLAIN)
        self._save = self._button("filing.save", "filing.save", self._save_it, Kind.PLAIN)
        self._note = self._button("filing.note", "filing.note", self._annotate, Kind.PLAIN)
        self._open = self._button("filing.open_watch", "filing.open", self._open_it, Kind.PLAIN)
        self._sheet = Label("", Letter.SMALL, bold=True, wrap=True)
        self._sheet.setObjectName("filing.page.sheet")
        self._sheet.setVisible(False)
        self._slip = NoteSlip(desk)
        self._slip.left.connect(lambda: self._note.setFocus())
        self._kept = Label("", Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._never = Label(say("filing.never_changed"), Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._lay()

    def _button(self, id: str, name: str, act: Callable[[], None], kind: Kind = Kind.LINK) -> Button:
        button = Button(say(id), kind, Place.OFFICE)
        button.setObjectName(name)
        button.clicked.connect(lambda _checked=False: act())
        return button

    def _lay(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self._heading, 1)
        head.addWidget(self._state)
        turning = QHBoxLayout()
        turning.setSpacing(14)
        turning.addWidget(self._page, 1)
        for button in (self._previous, self._next, self._larger):
            turning.addWidget(button)
        acts = QHBoxLayout()
        acts.setSpacing(10)
        for button in (self._print, self._save, self._note, self._open):
            acts.addWidget(button)
        acts.addStretch(1)
        page = QVBoxLayout(self)
        page.setContentsMargins(14, 14, 14, 12)
        page.setSpacing(8)
        page.addLayout(head)
        page.addWidget(self._which)
        page.addWidget(self._area, 1)
        page.addWidget(self._sheet)
        page.addLayout(turning)
        page.addLayout(acts)
        page.addWidget(self._slip)
        page.addWidget(self._kept)
        page.addWidget(self._never)

    def show_permit(self, number: str) -> None:
        """Show a permit's newest page; the same permit anew keeps page and note as they are."""
        other = number != self._number
        self._number = number
        known = on_file(self._desk.office, number)
        self._heading.setText(known.heading)
        self._state.set_state(Sign[known.sign], known.word)
        self._kept.setText(known.kept)
        if other:
            self._slip.show_permit(number)
            self._which.set_value("")
        self._which.set_options(Option(page.id, page.words) for page in known.pages)
        if not self._which.value() and known.pages:
            self._which.set_value(known.pages[0].id)
        self._show_way(known)
        self._draw()

    def choose(self, page: str) -> None:
        """Show one of the permit's pages; one that it does not have changes nothing."""
        if page in (known.id for known in on_file(self._desk.office, self._number).pages):
            self._which.set_value(page)
            self._draw()

    def _show_way(self, known: OnFile) -> None:
        """Where a permit that is not over is worked on."""
        permit = self._desk.office.permit(known.number)
        self._open.setVisible(permit.closed_out is None)
        draft = permit.authorised is None and permit.ended is None
        self._open.set_words(say("filing.open_workbook" if draft else "filing.open_watch"))

    def _open_it(self) -> None:
        permit = self._desk.office.permit(self._number)
        draft = permit.authorised is None and permit.ended is None
        self._desk.go("workbook" if draft else "watch", permit=self._number)

    def _draw(self) -> None:
        """Draw the chosen page, unless it is the one that is drawn."""
        page = self._which.value()
        version = self._desk.office.permit(self._number).version if page in ("now", "posted") else 0
        if self._shown == (self._number, page, version):
            return
        self._shown = (self._number, page, version)
        self._pdf = None
        made: list[tuple[bytes, str]] = []
        self._sheet.setText("")

        def make(office: Office) -> None:
            made.append(made_page(office, self._number, page))

        if page and self._desk.do(make):
            self._pdf, said = made[0]
            self._sheet.setText(said)
        self._sheet.setVisible(bool(self._sheet.text()))
        self._preview.show_pdf(self._pdf)
        for button in (self._print, self._save):
            button.set_available(self._pdf is not None, say("filing.nothing_chosen"))
        self._say_page()

    def _say_page(self) -> None:
        at, pages = self._preview.page + 1, self._preview.pages
        self._page.setText(say("filing.page_count", page=str(at), pages=str(pages)) if pages else "")
        self._preview.setAccessibleName(
            say("filing.page_picture", heading=self._heading.text(), page=str(at), pages=str(pages))
        )
        self._previous.set_available(at > 1)
        self._next.set_available(at < pages)

    def _widen(self) -> None:
        self._wide = not self._wide
        self._larger.set_words(say("filing.smaller" if self._wide else "filing.larger"))
        self.widened.emit(self._wide)
        self._preview.set_wide(self._wide)

    def _print_it(self) -> None:
        if self._pdf is None:
            return
        printer = self.ask_printer(self)
        if printer is None:
            return
        pdf, count = self._pdf, [0]

        def send(_office: Office) -> None:
            count[0] = print_pdf(pdf, printer)

        if self._desk.do(send):
            self._desk.said.emit("done", say_count("filing.printed", count[0]))

    def _save_it(self) -> None:
        if self._pdf is None:
            return
        name = self.ask_name(self, page_name(self._desk.office, self._number, self._which.value()))
        if not name:
            return
        pdf = self._pdf
        if self._desk.do(lambda _office: written(name, pdf)):
            self._desk.said.emit("done", say("filing.saved", name=name))

    def _annotate(self) -> None:
        self._slip.begin()


def ask_name(parent: QWidget, name: str) -> str:
    """The system's own question for a file's name; empty when the person left it."""
    chosen, _kind = QFileDialog.getSaveFileName(parent, say("filing.save"), name, say("filing.pdf_files"))
    return chosen
