"""The blocked inlet, timed on screen: pressed as it is blocked, pressed again as the pump stops."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Role
from lamproom.office.views.bench import NO_BLOCK
from lamproom.words import say


class PumpBlock(QWidget):
    """Seconds until the blocked pump stopped, to a tenth. Signal: ``answered(str)``, the seconds or NO_BLOCK.

    The time is that of the office's boot clock, so that setting the wall clock changes nothing.
    """

    answered = Signal(str)

    def __init__(self, desk: Desk, limit_s: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._limit = desk, limit_s
        self._begun_ns: int | None = None
        self._answer = ""
        self._button = Button(say("bench_screen.block.start"))
        self._button.setObjectName("bench.check.block")
        self._button.clicked.connect(self._press)
        self._said = Label(size=Letter.TABLE, bold=True, wrap=True)
        self._trouble = Label(size=Letter.TABLE, tone=Role.DANGER_TEXT, wrap=True)
        self._trouble.hide()
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self._button)
        row.addWidget(self._said, 1)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(2)
        page.addLayout(row)
        page.addWidget(self._trouble)
        self._timer = QTimer(self, interval=100, timerType=Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self.tick)
        self.set_answer("")

    @property
    def answer(self) -> str:
        """Seconds as text, NO_BLOCK, or empty when it was not timed."""
        return self._answer

    def set_answer(self, answer: str) -> None:
        """Show what was timed before; tells nobody."""
        self._begun_ns = None
        self._timer.stop()
        self._answer = answer
        self._button.set_words(say("bench_screen.block.again" if answer else "bench_screen.block.start"))
        if answer == NO_BLOCK:
            self._said.setText(say("bench_screen.block.failed", limit=self._limit))
        elif answer:
            self._said.setText(say("bench_screen.block.stopped", s=answer))
        else:
            self._said.setText(say("bench_screen.block.waiting"))

    def show_trouble(self, words: str) -> None:
        """Not timed yet, said under the button."""
        self._trouble.setText(words)
        self._trouble.setVisible(bool(words))

    def _passed(self) -> Decimal:
        begun = self._begun_ns if self._begun_ns is not None else 0
        tenths = (self._desk.office.clock.sample().boot_ns - begun) // 100_000_000
        return Decimal(tenths) / 10

    def _press(self) -> None:
        if self._begun_ns is None:
            self._begun_ns = self._desk.office.clock.sample().boot_ns
            self._answer = ""
            self.show_trouble("")
            self._button.set_words(say("bench_screen.block.stop"))
            self._timer.start()
            self.tick()
        else:
            passed = self._passed()
            self._end(str(passed) if passed <= self._limit else NO_BLOCK)

    def tick(self) -> None:
        """Seconds on screen; past the limit the answer is that it did not stop."""
        if self._begun_ns is None:
            return
        passed = self._passed()
        if passed > self._limit:
            self._end(NO_BLOCK)
            return
        self._said.setText(say("bench_screen.block.running", s=str(passed), limit=self._limit))

    def _end(self, answer: str) -> None:
        self.set_answer(answer)
        self.answered.emit(answer)
