"""The questions of a sheet, each with what the evaluation describes: one press takes the description as found."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.parts.kept_rows import keep_rows
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.question_row import QuestionRow
from lamproom.desk.workbook.sheet import Sheet
from lamproom.office.answer import answer as answer_item
from lamproom.office.views.sheet_items import ItemView
from lamproom.words import say

_PLACE = 4


class EvaluatedQuestion(QWidget):
    """A question; while it is open, a press beside the evaluation's words answers yes with them."""

    def __init__(self, sheet: Sheet, item: ItemView, answered: Callable[[QWidget], None]) -> None:
        super().__init__()
        self._sheet, self._item, self._answered = sheet, item, answered
        self.row = QuestionRow(sheet, item, answered)
        self._words = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._take = sheet.button(f"{item.id}.as-evaluated", say("sheets.item.as_evaluated"), self._press)
        self._take.setAccessibleDescription(f"{item.question} {item.suggested}")
        self._offer = QWidget()
        offer = QHBoxLayout(self._offer)
        offer.setContentsMargins(0, 2, 0, 6)
        offer.setSpacing(12)
        offer.addWidget(self._take)
        offer.addWidget(self._words, 1)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.addWidget(self.row)
        inside = self.row.layout()
        if isinstance(inside, QGridLayout):
            # In the place of what the answer bars: that is said only once there is one, the offer only before.
            inside.addWidget(self._offer, _PLACE, 0, 1, 2)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_item(self, item: ItemView, bars: str) -> None:
        """What is recorded, and the evaluation's words while nothing is."""
        self._item = item
        self.row.show_item(item, bars)
        self._words.setText(item.suggested)
        self._offer.setVisible(bool(item.suggested) and not item.answer and not item.waits)

    def open_place(self) -> QWidget | None:
        """What waits here: the press that takes the evaluation's words, where they are offered."""
        if self.row.waits or (place := self.row.open_place()) is None:
            return None
        return self._take if self._offer.isVisibleTo(self) else place

    def _press(self) -> None:
        item = self._item
        for half in ("answer", "found", "reason"):
            self._sheet.keep(f"{item.id}.{half}", "")
        if self._sheet.record(answer_item, item.id, "yes", item.suggested):
            self._answered(self)


class EvaluatedQuestions(QWidget):
    """All questions of a sheet; rows stay as long as their questions are asked."""

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self._sheet = sheet
        self._rows: dict[str, EvaluatedQuestion] = {}
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(8)
        self._standing = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._column.addWidget(self._standing)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_items(
        self, items: Sequence[ItemView], bars: Mapping[str, str], standing: Sequence[tuple[str, str]]
    ) -> None:
        """Show these questions."""
        of = {item.id: item for item in items}
        keep_rows(self._column, self._rows, of, lambda id: EvaluatedQuestion(self._sheet, of[id], self._went_on))
        for item in items:
            self._rows[item.id].show_item(item, bars.get(item.id, ""))
        self._standing.setText("\n".join(f"{question} {reason}" for question, reason in standing))
        self._standing.setVisible(bool(standing))

    def _went_on(self, row: QWidget) -> None:
        self._sheet.move_on(row, self.open_places())

    def open_places(self) -> list[QWidget]:
        """What waits to be answered, from the top; not what cannot be answered yet."""
        return [place for row in self._rows.values() if (place := row.open_place()) is not None]

    def place(self, item: str) -> QWidget | None:
        """Where a link to a question leads; None where this sheet does not ask it."""
        row = self._rows.get(item)
        return row.row.place() if row is not None else None
