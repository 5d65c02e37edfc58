"""The invented site with its day lived up to a moment, and a sheet of the workbook shown in a window of its own."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget
from tests.stories.lives import DAY_TABLE, in_memory

from lamproom.desk.desk import Desk, Question
from lamproom.desk.fonts import load_fonts
from lamproom.desk.parts.dress import dress
from lamproom.desk.theme import Look, Theme
from lamproom.office import replay


def lived_until(folder: Path, until: str, without: tuple[str, ...] = ()) -> replay.Shift:
    """The day up to a time of day (HH:MM), leaving out the rows that hold any of the words given."""
    shift = in_memory(folder)
    replay.set_up(shift)
    rows = [row for row in DAY_TABLE.splitlines() if row[:5] < until or not row[:2].isdigit()]
    replay.live(shift, "\n".join(row for row in rows if not any(words in row for words in without)))
    return shift


class Room:
    """A desk with a person at it, one sheet shown, and every question answered as ``answers`` says."""

    def __init__(self, shift: replay.Shift, sheet: Any, person: str = "P-01", letter: str = "A") -> None:
        self.shift = shift
        self.desk = Desk(shift.office, person)
        self.asked: list[Question] = []
        self.answers = True
        self.desk.asker = self._answer
        self.went: list[tuple[str, dict[str, str]]] = []
        self.refused: list[str] = []
        self.desk.went.connect(lambda place, where: self.went.append((place, where)))
        self.desk.said.connect(lambda kind, text: self.refused.append(text) if kind == "refused" else None)
        self.number = shift.permits[letter]
        self.window = QWidget()
        self.sheet = sheet(self.desk)
        page = QVBoxLayout(self.window)
        page.setContentsMargins(0, 0, 0, 0)
        page.addWidget(self.sheet)

    def show(self, width: int = 758, height: int = 664, theme: Theme = Theme.LIGHT) -> None:
        """Show the sheet at the size that the workbook leaves it."""
        load_fonts()
        dress(self.window, Look(theme))
        self.sheet.show_permit(self.number)
        self.window.resize(width, height)
        self.window.show()
        QApplication.processEvents()

    def find(self, name: str) -> QWidget:
        """A control by its name; KeyError where none is shown."""
        found = self.window.findChild(QWidget, name)
        if found is None:
            raise KeyError(name)
        return found

    def _answer(self, question: Question) -> bool:
        self.asked.append(question)
        return self.answers
