"""The questions that a sheet asks, one below the other, and those that the evaluation answered for good."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.parts.kept_rows import keep_rows
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.question_row import QuestionRow
from lamproom.desk.workbook.sheet import Sheet
from lamproom.office.views.sheet_items import ItemView


class Questions(QWidget):
    """Rows stay as long as their questions are asked, so that nothing moves under a hand."""

    def __init__(self, sheet: Sheet, answered: Callable[[QWidget], None]) -> None:
        super().__init__()
        self._sheet, self._answered = sheet, answered
        self._rows: dict[str, QuestionRow] = {}
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
        keep_rows(self._column, self._rows, of, lambda id: QuestionRow(self._sheet, of[id], self._answered))
        for item in items:
            self._rows[item.id].show_item(item, bars.get(item.id, ""))
        self._standing.setText("\n".join(f"{question} {reason}" for question, reason in standing))
        self._standing.setVisible(bool(standing))

    def open_places(self) -> list[QWidget]:
        """What waits to be answered, from the top."""
        return [place for row in self._rows.values() if (place := row.open_place()) is not None]

    def place(self, item: str) -> QWidget | None:
        """Where a link to a question leads."""
        row = self._rows.get(item)
        return row.place() if row is not None else None
