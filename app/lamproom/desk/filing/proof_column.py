"""The proof: what was verified and what cannot be, and the story of the permit minute by minute."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.board.cards import SignedLines
from lamproom.desk.desk import Desk
from lamproom.desk.filing.story_list import StoryList
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.theme import Letter, Place, Role
from lamproom.office.office import Office
from lamproom.office.views.filing import Proof, proof, proof_of_file
from lamproom.office.views.story import StoryLine, story
from lamproom.words import Refusal, say, sentence


class ProofColumn(QWidget):
    """Verifies a permit when it is shown and whenever it changed; a page file can be checked beside."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._number = ""
        self._verified: tuple[str, int] | None = None
        self._all = False
        self.ask_file: Callable[[QWidget], str] = _ask_file
        self._title = Label("", Letter.HEAD, bold=True, wrap=True)
        self._again = self._link("filing.again", "filing.verify.again", self.verify)
        self._file = self._link("filing.check_file", "filing.verify.file", self.check_file)
        self._lines = SignedLines(Letter.SMALL)
        self._proof: Proof | None = None
        self._whole = False
        self._findings = self._link("filing.fewer_findings", "filing.verify.findings", self._all_findings)
        self._story_more = self._link("filing.story_main", "filing.story.more", self._more)
        self.story = StoryList()
        self.story.setObjectName("filing.story")
        self._timer = QTimer(self, singleShot=True, interval=0)
        self._timer.timeout.connect(self.verify)
        head = QHBoxLayout()
        head.setSpacing(14)
        head.addWidget(self._title, 1)
        head.addWidget(self._again)
        head.addWidget(self._file)
        middle = QHBoxLayout()
        middle.addWidget(Label(say("filing.story"), Letter.HEAD, bold=True), 1)
        middle.addWidget(self._story_more)
        page = QVBoxLayout(self)
        page.setContentsMargins(14, 14, 20, 0)
        page.setSpacing(8)
        page.addLayout(head)
        page.addWidget(self._lines)
        page.addWidget(self._findings, 0, Qt.AlignmentFlag.AlignLeft)
        page.addWidget(rule())
        page.addLayout(middle)
        page.addWidget(self.story, 1)

    def _link(self, id: str, name: str, act: Callable[[], None]) -> Button:
        button = Button(say(id), Kind.LINK, Place.OFFICE)
        button.setObjectName(name)
        button.clicked.connect(lambda _checked=False: act())
        return button

    def show_permit(self, number: str) -> None:
        """Tell its story at once, and verify it as soon as the story is painted."""
        self._number = number
        self._show_story()
        version = self._desk.office.permit(number).version
        if self._verified != (number, version):
            self._verified = (number, version)
            self._proof = None
            self._show_proof()
            self._timer.start()

    def verify(self) -> None:
        """Verify now."""
        if self._number:
            self._show(lambda office: proof(office, self._number))

    def check_file(self) -> None:
        """Verify a page that someone handed in."""
        name = self.ask_file(self)
        if name:
            self._show(lambda office: proof_of_file(office, _read(name), Path(name).name))

    def _show(self, find: Callable[[Office], Proof]) -> None:
        found: list[Proof] = []
        if self._desk.do(lambda office: found.append(find(office))):
            self._proof = found[0]
            self._show_proof()

    def _show_proof(self) -> None:
        done = self._proof
        if done is None:
            self._title.setText(say("filing.verifying"))
            self._lines.show_lines(())
            self._findings.hide()
            return
        self._title.setText(done.title)
        self._title.set_tone(Role.TEXT if done.genuine else Role.DANGER_TEXT, bold=True)
        self._lines.show_lines(done.lines if self._whole else done.glance)
        more = len(done.lines) - len(done.glance)
        self._findings.setVisible(more > 0)
        self._findings.set_words(
            say("filing.fewer_findings") if self._whole else say("filing.all_findings", n=str(more))
        )

    def _all_findings(self) -> None:
        self._whole = not self._whole
        self._show_proof()

    def _show_story(self) -> None:
        lines: tuple[StoryLine, ...] = story(self._desk.office, self._number)
        main = tuple(line for line in lines if not line.quiet)
        hidden = len(lines) - len(main)
        self.story.show_lines(lines if self._all else main)
        self._story_more.setVisible(hidden > 0)
        self._story_more.set_words(say("filing.story_main") if self._all else say("filing.story_all", n=str(hidden)))

    def _more(self) -> None:
        self._all = not self._all
        self._show_story()


def _ask_file(parent: QWidget) -> str:
    chosen, _kind = QFileDialog.getOpenFileName(parent, say("filing.check_file"), "", say("filing.pdf_files"))
    return chosen


def _read(name: str) -> bytes:
    try:
        return Path(name).read_bytes()
    except OSError as error:
        raise Refusal(sentence("filing.not_read", name=name, why=error.strerror or str(error))) from error
