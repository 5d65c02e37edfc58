"""The few questions that stand before everything else: before an act, who is at the desk, what another watch says."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk, Question
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import Choice, Option
from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.label import Label
from lamproom.desk.questions import Questions, scrolled
from lamproom.desk.theme import Letter, Role, look_of
from lamproom.office.confirm_time import confirm_time
from lamproom.office.views.registers import PersonLine, people, role_words
from lamproom.office.views.typed import day_words, read_watch
from lamproom.words import Refusal, say


class Dialog(QDialog):
    """A plain dialog in the look of its window: title, what stands in it, buttons whose words are verbs."""

    def __init__(self, window: QWidget, name: str, title: str) -> None:
        super().__init__(window)
        self.setObjectName(name)
        self.setWindowTitle(say("desk.name"))
        self.setAccessibleName(title)
        self.setMinimumWidth(560)
        self.page = QVBoxLayout(self)
        self.page.setContentsMargins(24, 20, 24, 20)
        self.page.setSpacing(12)
        self.page.addWidget(Label(title, Letter.HEAD, bold=True, wrap=True))
        self._acts = QHBoxLayout()
        self._acts.setSpacing(12)
        self._acts.addStretch(1)

    def act(self, name: str, words: str, done: Callable[[], object], main: bool = False) -> Button:
        """A button at the foot, in the order given."""
        button = Button(words, Kind.MAIN if main else Kind.PLAIN)
        button.setObjectName(f"{self.objectName()}.{name}")
        button.clicked.connect(lambda _checked=False: done())
        self._acts.addWidget(button)
        return button

    def ready(self) -> None:
        """Everything stands in it: lay the buttons at the foot and dress it."""
        self.page.addLayout(self._acts)
        dress(self, look_of(self.parentWidget()))


class QuestionDialog(Dialog):
    """A question before an act. The harmful answer is never the one that Enter gives; Esc is always no."""

    def __init__(self, window: QWidget, question: Question) -> None:
        super().__init__(window, "question", question.text)
        for fact in question.facts:
            self.page.addWidget(Label(fact, Letter.TABLE, wrap=True))
        no = self.act("no", question.no, self.reject, main=question.harmful)
        yes = self.act("yes", question.yes, self.accept, main=not question.harmful)
        self.ready()
        (no if question.harmful else yes).setFocus()


def asker(window: QWidget) -> Callable[[Question], bool]:
    """What the desk asks with: the dialog over this window, True only for its yes."""

    def ask(question: Question) -> bool:
        dialog = QuestionDialog(window, question)
        try:
            return dialog.exec() == QDialog.DialogCode.Accepted
        finally:
            dialog.deleteLater()

    return ask


class PersonDialog(Dialog):
    """Who is at the desk: one press chooses. No code is asked here; acts of authority ask for it themselves."""

    chosen = Signal(str)

    def __init__(self, window: QWidget, desk: Desk) -> None:
        super().__init__(window, "person", say("desk.window.who"))
        self._desk = desk
        options = [
            Option(person.id, _named(person, desk.person), ", ".join(role_words(role) for role in person.roles))
            for person in people(desk.office)
            if not person.left
        ]
        self._choice = Choice("", options)
        for option in options:
            self._choice.row(option.value).setObjectName(f"person.{option.value}")
        self._choice.set_values([desk.person or ""])
        self._choice.chosen.connect(self._chose)
        area = scrolled(self._choice)
        area.setMinimumHeight(min(len(options) * 62, 440))
        self.page.addWidget(Label(say("desk.window.who_note"), Letter.SMALL, tone=Role.SECOND, wrap=True))
        self.page.addWidget(area, 1)
        self.act("duty", say("board.hand_over"), self._hand_over)
        self.act("leave", say("desk.window.leave"), self.reject)
        self.ready()

    def _hand_over(self) -> None:
        self.reject()
        self._desk.go("board", duty="open")

    def _chose(self, person: str) -> None:
        self.chosen.emit(person)
        self.accept()


def _named(person: PersonLine, now: str | None) -> str:
    return say("board.at_desk", name=person.name) if person.id == now else person.name


class ConfirmTimeDialog(Dialog):
    """What another watch says: typed, never offered, because a time that is only nodded at confirms nothing."""

    def __init__(self, window: QWidget, desk: Desk) -> None:
        super().__init__(window, "confirm-time", say("desk.window.confirm_title"))
        self._desk = desk
        now = desk.office.now().astimezone(desk.office.zone)
        words = say("registers.time.machine", clock=now.strftime("%H:%M"), day=day_words(now.date()))
        self.page.addWidget(Label(words, Letter.TABLE, wrap=True))
        self._questions = Questions(desk, "confirm-time", "confirm-time")
        self._questions.side_by_side()
        self._questions.line("watch", say("registers.time.watch"), hint=say("registers.clock_hint"), width=150)
        self._questions.line("day", say("registers.time.day"), hint=say("registers.day_hint"), width=200)
        self._questions.end()
        self.page.addWidget(self._questions)
        self.act("leave", say("desk.window.leave"), self.reject)
        self.act("record", say("desk.window.confirm"), self._record, main=True)
        self.ready()
        self._questions.asked("watch").setFocus(Qt.FocusReason.OtherFocusReason)

    def _record(self) -> None:
        office = self._desk.office
        try:
            watch = read_watch(self._questions.text("day"), self._questions.text("watch"), office.zone)
            confirm_time(office, watch, by=self._desk.person)
        except Refusal as refusal:
            self._questions.show_troubles({}, str(refusal))
            return
        self._questions.clear()
        self._desk.said.emit("done", say("desk.window.confirmed"))
        self.accept()
