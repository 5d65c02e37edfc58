"""What is signed, row by row: work, people, rescue, instruments, the air at each point, hazards and controls."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.air_grid import air_grid
from lamproom.office.views.review_sheet import Part, ReviewView
from lamproom.words import say

_HEAD = 118


class ReviewRows(QWidget):
    """The rows of the review; ``whole`` leads to the whole permit."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.whole = Button(say("sheets.review.whole"), Kind.LINK)
        self.whole.setObjectName("workbook.review.whole")
        self._shown: ReviewView | None = None
        self._boxes: list[tuple[str, QWidget]] = []
        self._page = QVBoxLayout(self)
        self._page.setContentsMargins(0, 0, 0, 0)
        self._page.setSpacing(8)

    def show_view(self, view: ReviewView) -> None:
        """Show it; rows are built anew only when what they say has changed."""
        old = self._shown
        self._shown = view
        if old is not None and _rows(old) == _rows(view):
            return
        _empty(self._page, self.whole)
        self._boxes = []
        for part in (*view.cautions, *view.before_air):
            self._put(part)
        self._put_widget(say("sheets.review.air"), air_grid(view.air))
        for part in view.after_air[:-1]:
            self._put(part)
        last = view.after_air[-1]
        end = QHBoxLayout()
        end.setContentsMargins(0, 0, 0, 0)
        end.addWidget(Label("\n".join(last.lines), Letter.TABLE, wrap=True), 1)
        end.addWidget(self.whole)
        box = QWidget()
        box.setLayout(end)
        self._put_widget(last.head, box)

    def _put(self, part: Part) -> None:
        said = Label("\n".join(part.lines), Letter.TABLE, wrap=True)
        said.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self._put_widget(part.head, said)

    def _put_widget(self, name: str, widget: QWidget) -> None:
        self._page.addWidget(rule())
        head = Label(name, Letter.SMALL, tone=Role.SECOND, wrap=True)
        head.setFixedWidth(_HEAD)
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(head, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(widget, 1)
        box = QWidget()
        box.setLayout(row)
        self._page.addWidget(box)
        self._boxes.append((name, box))

    def below(self, y: int) -> list[str]:
        """The heads of the rows that end below a height of this page, from the top."""
        return [name for name, box in self._boxes if box.y() + box.height() > y]

    def first_below(self, y: int) -> int:
        """Where the first row begins that ends below a height of this page; the height itself where none does."""
        return next((box.y() for _name, box in self._boxes if box.y() + box.height() > y), y)


def _rows(view: ReviewView) -> tuple[object, ...]:
    return (view.cautions, view.before_air, view.air, view.after_air)


def _empty(layout: QVBoxLayout, kept: QWidget) -> None:
    """Take the rows away; the link is taken out first, because it is built only once."""
    kept.setParent(layout.parentWidget())
    kept.hide()
    while layout.count():
        item = layout.takeAt(0)
        if item is not None and (widget := item.widget()) is not None:
            widget.hide()
            widget.deleteLater()
    kept.show()
