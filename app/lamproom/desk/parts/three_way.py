"""A check: yes, no, does not apply. Nothing is preset, and not answered is shown as such."""

from __future__ import annotations

from collections.abc import Collection
from enum import Enum

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label, StateWord
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Place, Role, look_of
from lamproom.words import say


class Answer(Enum):
    """The answers to a check; ``NONE`` is no answer yet and never counts as one."""

    NONE = ""
    YES = "yes"
    NO = "no"
    DOES_NOT_APPLY = "does_not_apply"


class _Segment(QAbstractButton):
    """One third of the answer; left and right arrows walk along, Space or Enter chooses."""

    def __init__(self, sign: Sign, word: str, place: Place, parent: QWidget) -> None:
        super().__init__(parent)
        self._sign, self._word, self._place = sign, word, place
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(word)

    def sizeHint(self) -> QSize:
        look = look_of(self)
        wide = QFontMetricsF(letter(look, Letter.TABLE, True)).horizontalAdvance(self._word)
        return QSize(max(round(wide) + look.px(16 + 8 + 24), look.px(self._place)), look.px(self._place))

    def nextCheckState(self) -> None:
        """An answer is changed by giving another, never by pressing it away."""
        self.setChecked(True)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1}.get(Qt.Key(event.key()), 0)
        if step:
            self.parent().walk(self, step)  # type: ignore[union-attr]
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        filled = self.isChecked() != self.isDown()
        width = look.edge()
        half = width / 2
        painter.setPen(QPen(look.colour(Role.EDGE), width))
        painter.setBrush(look.colour(Role.INK if filled else Role.GROUND))
        # Neighbours share one line: only the first draws its left one.
        left = half if self.x() == 0 else -half
        painter.drawRect(QRectF(self.rect()).adjusted(left, half, -half, -half))
        ink = look.colour(Role.INK_LABEL if filled else Role.TEXT)
        side = look.px(16)
        sign = self._sign if self.isChecked() else Sign.NOT_STARTED  # no tick before there is an answer
        draw_sign(painter, QRectF(look.px(12), (self.height() - side) / 2, side, side), sign, look.theme, ink)
        painter.setPen(ink)
        painter.setFont(letter(look, Letter.TABLE, self.isChecked()))
        painter.drawText(
            QRectF(look.px(12 + 16 + 8), 0, self.width(), self.height()), Qt.AlignmentFlag.AlignVCenter, self._word
        )


class ThreeWayBar(QWidget):
    """The three answers side by side. Signal: ``answered(str)``, the value of an Answer, on each choice by a person."""

    answered = Signal(str)

    def __init__(
        self, name: str, place: Place = Place.TRAILER, *, may_not_apply: bool = True, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._segments: dict[Answer, _Segment] = {}
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        ways = [
            (Answer.YES, Sign.TICK, say("desk.yes")),
            (Answer.NO, Sign.CROSS, say("desk.no")),
            (Answer.DOES_NOT_APPLY, Sign.EQUAL, say("desk.does_not_apply")),
        ]
        for answer, sign, word in ways if may_not_apply else ways[:2]:
            segment = _Segment(sign, word, place, self)
            segment.setAccessibleDescription(name)
            segment.clicked.connect(lambda _checked=False, given=answer: self._choose(given))
            self._segments[answer] = segment
            row.addWidget(segment)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def walk(self, from_segment: QAbstractButton, step: int) -> None:
        """Move the focus to the neighbour; moving chooses nothing."""
        segments = list(self._segments.values())
        at = next(i for i, segment in enumerate(segments) if segment is from_segment)
        segments[(at + step) % len(segments)].setFocus(Qt.FocusReason.OtherFocusReason)

    def answer(self) -> Answer:
        """The answer given, or NONE."""
        return next((given for given, segment in self._segments.items() if segment.isChecked()), Answer.NONE)

    def set_answer(self, answer: Answer) -> None:
        """Show a stored answer; tells nobody."""
        for given, segment in self._segments.items():
            segment.setChecked(given is answer)

    def _choose(self, given: Answer) -> None:
        self.set_answer(given)
        self.answered.emit(given.value)

    def first(self) -> QWidget:
        """The segment that takes the focus: the one chosen, else the first."""
        return self._segments.get(self.answer(), next(iter(self._segments.values())))


class ThreeWay(QWidget):
    """A question with its three answers, a note, and fields that open for a reason or for what was found.

    ``reason_for``: the answers after which a reason is asked. ``found``: the label of a field for what was found,
    shown after yes. Signals: ``answered(str)``, ``reason_committed(str)``, ``found_committed(str)``,
    ``typing(str)`` (the draft of either field).
    """

    answered = Signal(str)
    reason_committed = Signal(str)
    found_committed = Signal(str)

    def __init__(
        self,
        question: str,
        *,
        place: Place = Place.TRAILER,
        reason_for: Collection[Answer] = (Answer.DOES_NOT_APPLY,),
        may_not_apply: bool = True,
        found: str = "",
        hint: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._reason_for = frozenset(reason_for)
        self.bar = ThreeWayBar(question, place, may_not_apply=may_not_apply)
        self.reason = Field(say("desk.reason"), place=place)
        self.found = Field(found or say("desk.found"), place=place, width=200)
        self._has_found = bool(found)
        self._unanswered = StateWord(Sign.NOT_STARTED, say("desk.not_answered"), Letter.SMALL, bold=False, side=16)
        self._note = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(4)
        page.addWidget(Label(question, Letter.TABLE, bold=True, wrap=True))
        if hint:
            page.addWidget(Label(hint, Letter.SMALL, tone=Role.SECOND, wrap=True))
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.bar)
        row.addWidget(self._note, 1)
        page.addLayout(row)
        page.addWidget(self._unanswered)
        page.addWidget(self.found)
        page.addWidget(self.reason)
        self.bar.answered.connect(self._answered)
        self.reason.committed.connect(self.reason_committed)
        self.found.committed.connect(self.found_committed)
        self.setAccessibleName(question)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self._open()

    def _answered(self, value: str) -> None:
        self._open()
        self.answered.emit(value)

    def _open(self) -> None:
        answer = self.answer()
        self._unanswered.setVisible(answer is Answer.NONE)
        self.found.setVisible(self._has_found and answer is Answer.YES)
        self.reason.setVisible(answer in self._reason_for)

    def answer(self) -> Answer:
        """The answer given, or NONE."""
        return self.bar.answer()

    def set_answer(self, answer: Answer | str, reason: str = "", found: str = "") -> None:
        """Show what is stored; tells nobody."""
        self.bar.set_answer(Answer(answer))
        self.reason.set_text(reason)
        self.found.set_text(found)
        self._open()

    def set_note(self, note: str) -> None:
        """Who found it and when, or what is recorded."""
        self._note.setText(note)

    def focus_first(self) -> None:
        """Put the keyboard on the answer."""
        self.bar.first().setFocus(Qt.FocusReason.OtherFocusReason)
