"""The questions of one sheet below each other: recorded with their answers, kept as drafts while they wait for text."""

from __future__ import annotations

from typing import Literal, cast

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lamproom.desk.parts.label import rule
from lamproom.desk.workbook.item_question import ItemQuestion
from lamproom.desk.workbook.permit_sheet import PermitSheet
from lamproom.office.answer import answer as answer_item
from lamproom.office.views.sheet_items import ItemView

AnswerWord = Literal["yes", "no", "does not apply"]


class SheetQuestions(QWidget):
    """All questions of a sheet; answers go into the record in the name of the person at the desk."""

    def __init__(self, sheet: PermitSheet, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sheet = sheet
        self._items: dict[str, ItemQuestion] = {}
        self._page = QVBoxLayout(self)
        self._page.setContentsMargins(0, 0, 0, 0)
        self._page.setSpacing(12)

    def begin(self) -> None:
        """Another permit: forget what was pressed on the one before."""
        while self._page.count():
            item = self._page.takeAt(0)
            if item is not None and (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        self._items = {}

    def show_items(self, items: tuple[ItemView, ...]) -> None:
        """What is asked and answered now."""
        if [item.id for item in items] != list(self._items):
            self.begin()
            for at, item in enumerate(items):
                if at:
                    self._page.addWidget(rule())
                question = ItemQuestion(item, self._sheet.name)
                question.given.connect(self._give)
                question.pending.connect(self._keep)
                self._items[item.id] = question
                self._page.addWidget(question)
        for item in items:
            draft = (self._sheet.kept(f"{item.id}.answer"), self._sheet.kept(f"{item.id}.text"))
            self._items[item.id].show_item(item, draft)

    def _give(self, item: str, given: str, text: str) -> None:
        desk, number = self._sheet.desk, self._sheet.number
        desk.do(answer_item, number, item, cast(AnswerWord, given), text, by=desk.person)

    def _keep(self, item: str, given: str, text: str) -> None:
        self._sheet.keep(f"{item}.answer", given)
        self._sheet.keep(f"{item}.text", text)

    def focus_item(self, item: str) -> bool:
        """Put the keyboard on a question; False where this sheet does not ask it."""
        question = self._items.get(item)
        if question is not None:
            question.focus_first()
        return question is not None
