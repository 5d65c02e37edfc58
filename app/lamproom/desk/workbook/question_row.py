"""One question of the form on a sheet: question and rule at the left, answer at the right, what was found below."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QGraphicsOpacityEffect, QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.parts.three_way import Answer, ThreeWayBar
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.said_line import SaidLine
from lamproom.desk.workbook.sheet import Sheet
from lamproom.office.answer import answer as answer_item
from lamproom.office.views.sheet_items import ItemView, needs_text
from lamproom.words import say

_PALE = 0.4


class QuestionRow(QWidget):
    """An answer that needs nothing more is recorded at the press; one that needs words when the words are committed.

    ``answered`` is called after each record, so that the sheet can move on.
    """

    def __init__(self, sheet: Sheet, item: ItemView, answered: Callable[[QWidget], None]) -> None:
        super().__init__()
        self._sheet, self._item, self._answered = sheet, item, answered
        self._pending = ""
        self.bar = ThreeWayBar(item.question, may_not_apply=item.may_not_apply)
        for segment, word in zip(self.bar.findChildren(QAbstractButton), ("yes", "no", "does-not-apply"), strict=False):
            segment.setObjectName(sheet.name(item.id, word))
        label = item.asks_found[:1].upper() + item.asks_found[1:]
        self.found = sheet.field(f"{item.id}.found", Field(label or say("desk.found")))
        self.reason = sheet.field(f"{item.id}.reason", Field(say("desk.reason")))
        self._note = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._because = Label(item.because, Letter.SMALL, wrap=True)
        self._wrong = SaidLine(Sign.REFUSED, bold=True)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(2)
        grid.setColumnStretch(0, 1)
        grid.addWidget(Label(item.question, Letter.TABLE, bold=True, wrap=True), 0, 0)
        asked = QVBoxLayout()
        asked.setSpacing(0)
        asked.addWidget(self._because)
        asked.addWidget(self._note)
        grid.addLayout(asked, 1, 0)
        grid.addWidget(self.bar, 0, 1, 2, 1, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        grid.addWidget(self.found, 2, 0, 1, 2)
        grid.addWidget(self.reason, 3, 0, 1, 2)
        grid.addWidget(self._wrong, 4, 0, 1, 2)
        grid.addWidget(rule(), 5, 0, 1, 2)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(item.question)
        self._apart = item.id == "observed" or bool(item.because)
        if self._apart:
            # The link leads to the question, not onto 'yes': Enter once too often may not answer it.
            self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.bar.answered.connect(self._pressed)
        for field in (self.found, self.reason):
            field.committed.connect(self._said)
            field.entered.connect(lambda _text: self._answered(self))

    def show_item(self, item: ItemView, bars: str) -> None:
        """Show what is recorded; an answer that still waits for its words stays as it was pressed."""
        if item.id != self._item.id or not self._pending:
            self._pending = self._kept(item)
        self._item = item
        shown = self._pending or item.answer
        self.bar.set_answer(Answer(shown.replace(" ", "_")))
        self._note.setText(item.waits or item.note or item.rule)
        self._because.setText(item.because)
        self._because.setVisible(bool(item.because))
        self._close_bar(bool(item.waits))
        self.setAccessibleDescription(item.waits)
        field = self._words(shown)
        if not field.box.hasFocus():
            field.set_text(item.found if shown == item.answer else "")
            draft = self._sheet.draft(self._kept_as(shown))
            if draft and draft != item.found:
                field.set_draft(draft)
        self._open(shown)
        self._wrong.say_it(Sign.REFUSED, bars)
        self._wrong.setVisible(bool(bars))

    def _close_bar(self, closed: bool) -> None:
        """An answer that cannot be given yet is seen to be closed."""
        self.bar.setEnabled(not closed)
        if closed and self.bar.graphicsEffect() is None:
            pale = QGraphicsOpacityEffect(self.bar)
            pale.setOpacity(_PALE)
            self.bar.setGraphicsEffect(pale)
        elif not closed and self.bar.graphicsEffect() is not None:
            self.bar.setGraphicsEffect(None)  # type: ignore[arg-type]

    def _kept(self, item: ItemView) -> str:
        kept = self._sheet.draft(f"{item.id}.answer")
        return kept if kept and kept != item.answer and needs_text(item, kept) else ""

    def _words(self, answer: str) -> Field:
        return self.reason if answer == "does not apply" else self.found

    def _kept_as(self, answer: str) -> str:
        return f"{self._item.id}.{'reason' if answer == 'does not apply' else 'found'}"

    def _open(self, answer: str) -> None:
        wanted = bool(answer) and needs_text(self._item, answer)
        for field in (self.found, self.reason):
            field.setVisible(wanted and field is self._words(answer))

    def _pressed(self, value: str) -> None:
        answer = value.replace("_", " ")
        if not needs_text(self._item, answer):
            self._pending = ""
            self._record(answer, "")
            return
        if answer == self._item.answer:
            self._pending = ""
        else:
            self._pending = answer
            self._sheet.keep(f"{self._item.id}.answer", answer)
            self._words(answer).set_text("")
        self._open(answer)
        self._sheet.reach(self._words(answer).box)

    def _said(self, text: str) -> None:
        answer = self._pending or self._item.answer
        if answer and text.strip() and needs_text(self._item, answer):
            self._record(answer, text.strip())

    def _record(self, answer: str, text: str) -> None:
        item = self._item
        if (answer, text) == (item.answer, item.found):
            return
        pending, self._pending = self._pending, ""
        self._sheet.keep(f"{item.id}.answer", "")
        self._sheet.keep(self._kept_as(answer), "")
        beside = self._words(answer) if text else None
        if not self._sheet.record(answer_item, item.id, answer, text, beside=beside):
            self._pending = pending
            if text:
                self._sheet.keep(f"{item.id}.answer", answer)
                self._sheet.keep(self._kept_as(answer), text)
            else:
                self._sheet.refresh()
        elif not text:
            self._answered(self)

    @property
    def waits(self) -> bool:
        """Can it not be answered yet?"""
        return bool(self._item.waits)

    def open_place(self) -> QWidget | None:
        """What waits to be filled in here; None when the question is answered."""
        if self._pending:
            return self._words(self._pending).box
        if self._item.answer:
            return None
        return self if self._apart else self.bar.first()

    def place(self) -> QWidget:
        """Where a link to this question leads."""
        return self.open_place() or (self if self._apart else self.bar.first())
