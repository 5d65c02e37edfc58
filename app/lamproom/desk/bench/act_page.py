"""What every page of the Bench shares: its questions, Leave and Record at its foot, who it is recorded by."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.label import Label
from lamproom.desk.questions import Questions, scrolled
from lamproom.desk.theme import Letter, Role
from lamproom.words import say


class ActPage(QWidget):
    """One act on one instrument. Signals: ``left()``, ``recorded()``."""

    left = Signal()
    recorded = Signal()

    def __init__(self, desk: Desk, name: str, instrument: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk, self.instrument, self.name = desk, instrument, name
        self.questions = Questions(desk, f"instrument/{instrument}/{name}", f"bench.{name}")
        self._foot = QHBoxLayout()
        self._foot.setSpacing(12)
        leave = Button(say("bench_screen.leave"))
        leave.setObjectName(f"bench.{name}.leave")
        leave.clicked.connect(self.left)
        self._foot.addWidget(leave)
        self._foot.addWidget(Label(say("bench_screen.leave_note"), Letter.SMALL, tone=Role.SECOND), 1)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(8)
        page.addWidget(scrolled(self.questions), 1)
        page.addLayout(self._foot)

    def record_with(self, words: str, done: Callable[[], object], key: str = "record") -> None:
        """The button that records, at the right of the foot."""
        button = Button(words, Kind.MAIN)
        button.setObjectName(f"bench.{self.name}.{key}")
        button.clicked.connect(lambda _checked=False: done())
        self._foot.addWidget(button)

    def button(self, words: str, done: Callable[[], object], key: str) -> Button:
        """A button that stands among the questions."""
        button = Button(words)
        button.setObjectName(f"bench.{self.name}.{key}")
        button.clicked.connect(lambda _checked=False: done())
        return button

    def person(self) -> str | None:
        """Who is at the desk; said when nobody is."""
        if self.desk.person is None:
            self.desk.said.emit("refused", say("bench_screen.who_first"))
        return self.desk.person

    def show_troubles(self, troubles: Mapping[str, str]) -> None:
        """Everything that is missing or wrong, beside its question."""
        self.questions.show_troubles(troubles)

    def done(self, keep: tuple[str, ...] = ()) -> None:
        """Stored: the page is empty again."""
        self.questions.clear(keep)
        what = say(f"bench_screen.what.{self.name}")
        self.desk.said.emit("done", say("bench_screen.recorded", id=self.instrument, what=what))
        self.recorded.emit()
