"""What every page of the registers shares: questions that scroll, Record at the foot, who it is recorded by."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.notice import MessageLine
from lamproom.desk.questions import Questions, scrolled
from lamproom.desk.registers.list_of import ListOf
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter
from lamproom.office.views.registers import Facts
from lamproom.words import say


class EntryPage(QWidget):
    """One page of a register. Signal: ``recorded(str)`` with the id of what was recorded."""

    recorded = Signal(str)

    def __init__(self, desk: Desk, owner: str, name: str, title: str) -> None:
        super().__init__()
        self.desk, self.owner, self.name = desk, owner, name
        self.questions = Questions(desk, owner, name)
        self.lists: list[ListOf] = []
        self._foot = QHBoxLayout()
        self._foot.setSpacing(12)
        self._foot.addStretch(1)
        page = QVBoxLayout(self)
        page.setContentsMargins(18, 12, 20, 12)
        page.setSpacing(8)
        page.addWidget(Label(title, Letter.TITLE, bold=True, wrap=True))
        self._why = MessageLine()
        self._why.setObjectName(f"{name}.why")
        page.addWidget(self._why)
        page.addWidget(scrolled(self.questions), 1)
        page.addLayout(self._foot)

    def button(self, key: str, words: str, done: Callable[[], object], main: bool = True) -> Button:
        """A button at the foot."""
        button = Button(words, Kind.MAIN if main else Kind.PLAIN)
        button.setObjectName(f"{self.name}.{key}")
        button.clicked.connect(lambda _checked=False: done())
        self._foot.addWidget(button)
        return button

    def add_list(self, made: ListOf) -> None:
        """A list of rows among the questions."""
        self.lists.append(made)
        self.questions.add(made)

    def show_facts(self, facts: Facts) -> None:
        """Lines of what is recorded, above the questions."""
        for what, words in facts.lines:
            line = QWidget()
            row = QHBoxLayout(line)
            row.setContentsMargins(0, 0, 0, 0)
            row.setSpacing(12)
            name = Label(what, Letter.TABLE, bold=True, wrap=True)
            name.setFixedWidth(210)
            row.addWidget(name)
            row.addWidget(Label(words, Letter.TABLE, wrap=True), 1)
            self.questions.add(line)

    def say_why(self, words: str) -> None:
        """Say over the page what brought someone here; nothing for empty words."""
        if words:
            self._why.say_it(Sign.REFUSED, words)

    def show_question(self, key: str) -> None:
        """Put the keyboard on the question that an obstacle's link names; the first of a list by the list's name."""
        for questions in (self.questions, *(one.questions for one in self.lists)):
            asked = next((known for known in (key, f"{key}.0.name") if questions.asks(known)), "")
            if asked:
                questions.reach(asked)

    def answers(self) -> Mapping[str, str]:
        """Every answer of the page and its lists."""
        found = dict(self.questions.answers())
        for one in self.lists:
            found |= one.answers()
        return found

    def put(self, answers: Mapping[str, str]) -> None:
        """What is recorded already, where nothing is half typed."""
        self.questions.put(answers)
        for one in self.lists:
            one.questions.put(answers)

    def person(self) -> str | None:
        """Who is at the desk; said when nobody is."""
        if self.desk.person is None:
            self.desk.said.emit("refused", say("bench_screen.who_first"))
        return self.desk.person

    def show_troubles(self, troubles: Mapping[str, str]) -> None:
        """Everything wrong, beside its question, in lists too."""
        own = dict(troubles)
        for one in self.lists:
            theirs = one.questions.own(troubles)
            one.questions.show_troubles(theirs)
            own = {key: why for key, why in own.items() if key not in theirs}
        lost = len(troubles) - len(own)
        self.questions.show_troubles(own, say("registers.lists_wrong", n=lost) if lost else "")

    def done(self, id: str, words: str) -> None:
        """Stored: the page is empty, its drafts gone."""
        self.questions.clear()
        for one in self.lists:
            one.clear()
        self.desk.said.emit("done", words)
        self.recorded.emit(id)
