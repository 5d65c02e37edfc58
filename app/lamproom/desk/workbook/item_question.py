"""A question of the form on a sheet: its answer is recorded at the press, or with the text that it asks for."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.parts.button import Button
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.three_way import Answer, ThreeWay
from lamproom.desk.theme import Letter, Role
from lamproom.office.views.sheet_items import ItemView, needs_text
from lamproom.words import say

_RECORDED = {
    Answer.NONE: "",
    Answer.YES: "yes",
    Answer.NO: "no",
    Answer.DOES_NOT_APPLY: "does not apply",
}


class ItemQuestion(QWidget):
    """One question. Signals: ``given(item, answer, text)`` once it may be recorded; ``pending(item, answer, text)``
    while it may not: an answer whose text is still missing, for the draft."""

    given = Signal(str, str, str)
    pending = Signal(str, str, str)

    def __init__(self, item: ItemView, sheet: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.item = item
        self._waiting: Answer | None = None
        self.three = ThreeWay(
            item.question,
            may_not_apply=item.may_not_apply,
            found=item.asks_found[:1].upper() + item.asks_found[1:],
            hint=item.rule,
        )
        self._suggestion = QWidget()
        self._take = Button(say("sheets.item.as_evaluated"))
        self._words = Label(
            say("sheets.item.suggested", text=item.suggested), Letter.SMALL, tone=Role.SECOND, wrap=True
        )
        row = QHBoxLayout(self._suggestion)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(self._take)
        row.addWidget(self._words, 1)
        self.three.found.box.setFixedWidth(420)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(4)
        page.addWidget(self.three)
        page.addWidget(self._suggestion)
        self._name(f"workbook.{sheet}.{item.id}")
        self.three.answered.connect(self._answered)
        self.three.found_committed.connect(self._text)
        self.three.reason_committed.connect(self._text)
        for field in (self.three.found, self.three.reason):
            field.typing.connect(lambda text: self.pending.emit(self.item.id, self._answer(), text))
        self._take.clicked.connect(lambda: self.given.emit(self.item.id, "yes", self.item.suggested))

    def _name(self, base: str) -> None:
        self.setObjectName(base)
        for segment, word in zip(
            self.three.bar.findChildren(QAbstractButton), ("yes", "no", "does-not-apply"), strict=False
        ):
            segment.setObjectName(f"{base}.{word}")
        self.three.found.box.setObjectName(f"{base}.found")
        self.three.reason.box.setObjectName(f"{base}.reason")
        self._take.setObjectName(f"{base}.as-evaluated")
        self._take.setAccessibleDescription(f"{self.item.question} {self.item.suggested}")

    def _answer(self) -> str:
        return _RECORDED[self.three.answer()]

    def show_item(self, item: ItemView, draft: tuple[str, str] = ("", "")) -> None:
        """What is recorded; an answer that still waits for its text stays as pressed. ``draft``: answer and text."""
        self.item = item
        self._suggestion.setVisible(bool(item.suggested) and item.answer == "")
        self.three.set_note(item.note)
        if self._waiting is None and draft[0]:
            self._waiting = next((a for a, word in _RECORDED.items() if word == draft[0]), None)
            if self._waiting is not None:
                self.three.set_answer(self._waiting)
                self._field().set_draft(draft[1])
            return
        if self._waiting is None:
            answer = next(a for a, word in _RECORDED.items() if word == item.answer)
            applies = answer is not Answer.DOES_NOT_APPLY
            self.three.set_answer(answer, "" if applies else item.found, item.found if applies else "")

    def _field(self) -> Field:
        return self.three.reason if self.three.answer() is Answer.DOES_NOT_APPLY else self.three.found

    def _answered(self, value: str) -> None:
        answer = self._answer()
        if not needs_text(self.item, answer):
            self._waiting = None
            self._record(answer, "")
        elif answer != self.item.answer:
            self._waiting = Answer(value)
            self.pending.emit(self.item.id, answer, self._field().text())
            self._field().setFocus()

    def _text(self, text: str) -> None:
        if text.strip():
            self._waiting = None
            self._record(self._answer(), text.strip())

    def _record(self, answer: str, text: str) -> None:
        self.pending.emit(self.item.id, "", "")
        if (answer, text) != (self.item.answer, self.item.found):
            self.given.emit(self.item.id, answer, text)

    def focus_first(self) -> None:
        """Put the keyboard on the answer."""
        self.three.focus_first()
