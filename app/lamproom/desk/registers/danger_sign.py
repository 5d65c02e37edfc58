"""The danger sign of a space on its page of the register: what it says, and print or save it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.filing.page_column import ask_name, written
from lamproom.desk.filing.printing import ask_printer, print_pdf
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import DropList, Option
from lamproom.desk.parts.label import StateWord
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.office.danger_sign import danger_sign_name, danger_sign_pdf
from lamproom.office.office import Office
from lamproom.words import say


class DangerSignPart(QWidget):
    """The words of the sign, the paper, and the two ways to get it onto paper."""

    def __init__(self, desk: Desk, space: str, words: str) -> None:
        super().__init__()
        self._desk, self._space = desk, space
        self.ask_printer: Callable[[QWidget], QPrinter | None] = ask_printer
        self.ask_name: Callable[[QWidget, str], str] = ask_name
        self.setObjectName("registers.spaces.sign")
        papers = [Option(paper, say(f"registers.space.sign_{paper}")) for paper in ("letter", "a4")]
        self._paper = DropList(say("registers.space.sign_paper"), papers)
        self._paper.box.setObjectName("registers.spaces.sign.paper")
        self._paper.set_value("letter")
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self._paper)
        for key, done in (("print", self._print), ("save", self._save)):
            button = Button(say(f"registers.space.{key}_sign"), Kind.PLAIN)
            button.setObjectName(f"registers.spaces.sign.{key}")
            button.clicked.connect(lambda _checked=False, act=done: act())
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignBottom)
        row.addStretch(1)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        page.addWidget(StateWord(Sign.DANGER, words, Letter.BODY, tone=Role.DANGER_TEXT, side=30))
        page.addLayout(row)

    def _drawn(self) -> bytes | None:
        """The sign on the chosen paper; None where it was refused, which was said."""
        made: list[bytes] = []
        paper: Literal["letter", "a4"] = "a4" if self._paper.value() == "a4" else "letter"

        def draw(office: Office) -> None:
            made.append(danger_sign_pdf(office, self._space, paper))

        return made[0] if self._desk.do(draw) else None

    def _print(self) -> None:
        pdf = self._drawn()
        printer = self.ask_printer(self) if pdf is not None else None
        if pdf is None or printer is None:
            return

        def send(_office: Office) -> None:
            print_pdf(pdf, printer)

        if self._desk.do(send):
            self._desk.said.emit("done", say("registers.space.sign_printed"))

    def _save(self) -> None:
        pdf = self._drawn()
        name = self.ask_name(self, danger_sign_name(self._desk.office, self._space)) if pdf is not None else ""
        if pdf is not None and name and self._desk.do(lambda _office: written(name, pdf)):
            self._desk.said.emit("done", say("registers.space.sign_saved", name=name))
