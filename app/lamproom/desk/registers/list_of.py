"""A list whose rows are typed: hazards, isolation points, depths. A row more by one press; empty rows are nothing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button
from lamproom.desk.parts.choice import Option
from lamproom.desk.parts.label import rule
from lamproom.desk.questions import Questions
from lamproom.desk.signs import Sign


@dataclass(frozen=True, slots=True)
class Column:
    """One field of each row: its key, label, width; a list to choose from where ``options`` are given."""

    key: str
    label: str
    width: int = 0
    figure: bool = False
    unit: str = ""
    options: tuple[Option, ...] = ()
    below: bool = False
    """True: it begins a second line of its row."""
    optional: bool = True
    """False: a list that does not call itself optional, since something is barred until it is said."""


class ListOf(QWidget):
    """Rows of the same questions, keys ``<list>.<row>.<column>``."""

    def __init__(
        self, desk: Desk, owner: str, name: str, key: str, columns: Sequence[Column], add: str, rows: int = 1
    ) -> None:
        super().__init__()
        self._desk, self._owner, self._name, self.key = desk, owner, name, key
        self._columns = columns
        self.questions = Questions(desk, owner, name)
        self._count = 0
        self._add = Button(add, sign=Sign.PLUS)
        self._add.setObjectName(f"{name}.{key}.add")
        self._add.clicked.connect(self._one_more)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(4)
        page.addWidget(self.questions)
        row = QHBoxLayout()
        row.addWidget(self._add)
        row.addStretch(1)
        page.addLayout(row)
        kept = desk.draft(owner, f"{key}.rows")
        for _ in range(max(rows, int(kept) if kept.isdigit() else 0, 1)):
            self._row()

    def _row(self) -> None:
        q, at = self.questions, self._count
        self._count += 1
        q.side_by_side()
        for column in self._columns:
            key = f"{self.key}.{at}.{column.key}"
            if column.below:
                q.side_by_side()
            if column.options:
                q.drop(key, column.label, column.options, optional=column.optional)
            elif column.figure:
                q.figure(key, column.label, column.unit, width=column.width)
            else:
                q.line(key, column.label, width=column.width)
        q.side_by_side_ends()
        if any(column.below for column in self._columns):
            q.add(rule())

    def _one_more(self) -> None:
        self._row()
        self._desk.keep_draft(self._owner, f"{self.key}.rows", str(self._count))
        first = self.questions.asked(f"{self.key}.{self._count - 1}.{self._columns[0].key}")
        first.setFocus()

    def answers(self) -> Mapping[str, str]:
        """All rows, the empty ones too."""
        return self.questions.answers()

    def clear(self) -> None:
        """Recorded: empty again."""
        self.questions.clear()
        self._desk.keep_draft(self._owner, f"{self.key}.rows", "")
