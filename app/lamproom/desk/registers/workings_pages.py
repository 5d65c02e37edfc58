"""The workings of the air, tried without a permit: what one asks for, and its slip. Nothing is recorded."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import Option
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label
from lamproom.desk.questions import Questions, scrolled
from lamproom.desk.registers.list_of import Column, ListOf
from lamproom.desk.theme import Letter, Role
from lamproom.desk.working_slip import WorkingSlip
from lamproom.office.views.try_workings import Box, Group, TryView, names, try_view, try_working
from lamproom.words import say

_NAME = "registers.workings"
_ROWS = 5
"""Rows shown at first for what comes many times: as many readings as a fit takes."""


class WorkingsPage(QWidget):
    """One working: its boxes, the button, the slip. Enter in a box works it out too."""

    worked = Signal()

    def __init__(self, desk: Desk, name: str) -> None:
        super().__init__()
        self._view: TryView = try_view(name)
        self.setObjectName(f"{_NAME}.{name}")
        owner = f"try/{name}"
        self.questions = Questions(desk, owner, _NAME)
        self.lists: list[ListOf] = []
        self.slip = WorkingSlip(f"{_NAME}.slip")
        self.slip.closed.connect(self.slip.hide)
        self.slip.hide()
        for group in self._view.groups:
            self._ask(desk, owner, group)
        self.questions.add(self.slip)
        self.questions.end()
        self._area = scrolled(self.questions)
        self._lay()

    def _lay(self) -> None:
        view = self._view
        do = Button(say("workings.try.do"), Kind.MAIN)
        do.setObjectName(f"{_NAME}.do")
        do.clicked.connect(lambda _checked=False: self.work())
        clear = Button(say("workings.try.clear"))
        clear.setObjectName(f"{_NAME}.clear")
        clear.clicked.connect(lambda _checked=False: self._clear())
        foot = QHBoxLayout()
        foot.setSpacing(12)
        note = say("workings.try.showing" if view.showing else "workings.try.note")
        foot.addWidget(Label(note, Letter.SMALL, tone=Role.SECOND, wrap=True), 1)
        foot.addWidget(clear)
        foot.addWidget(do)
        page = QVBoxLayout(self)
        page.setContentsMargins(18, 12, 20, 12)
        page.setSpacing(8)
        page.addWidget(Label(view.title, Letter.TITLE, bold=True, wrap=True))
        page.addWidget(Label(view.formula, Letter.SMALL, tone=Role.SECOND, wrap=True))
        page.addWidget(self._area, 1)
        page.addLayout(foot)

    def _ask(self, desk: Desk, owner: str, group: Group) -> None:
        if group.many:
            self.questions.side_by_side_ends()
            columns = [Column(b.key, b.label, 170 if not b.figure else 110, b.figure, b.unit) for b in group.boxes]
            rows = ListOf(desk, owner, _NAME, group.key, columns, say("workings.try.add"), _rows_of(group))
            self.questions.add(Label(group.label, Letter.TABLE, bold=True, wrap=True))
            self.questions.add(rows)
            self.lists.append(rows)
            return
        asked = self._box(group.boxes[0])
        asked.entered.connect(lambda _text: self.work())

    def _box(self, box: Box) -> Field:
        if box.figure:
            return self.questions.figure(box.key, box.label, box.unit, optional=not box.needed)
        return self.questions.line(box.key, box.label, optional=not box.needed, width=260)

    def work(self) -> None:
        """Work it out: the slip, or what is wrong beside each box."""
        answers = dict(self.questions.answers())
        for one in self.lists:
            answers |= one.answers()
        tried = try_working(self._view.name, answers)
        for one in self.lists:
            one.questions.show_troubles(one.questions.own(tried.troubles), counted=False)
        rows = {key for one in self.lists for key in one.questions.own(tried.troubles)}
        self.questions.show_troubles({key: why for key, why in tried.troubles.items() if key not in rows})
        self.slip.setVisible(tried.page is not None)
        if tried.page is not None:
            # The formula stands over the boxes already.
            self.slip.set_pages((replace(tried.page, formula=""),))
            # Below its boxes, and in sight once it is laid out.
            QTimer.singleShot(0, self.slip, lambda: self._area.ensureWidgetVisible(self.slip, 0, 8))
            self.worked.emit()

    def _clear(self) -> None:
        self.slip.hide()
        self.questions.clear()
        for one in self.lists:
            one.clear()


def _rows_of(group: Group) -> int:
    return _ROWS if all(box.figure for box in group.boxes) else 2


def listed(desk: Desk) -> list[Option]:
    """Every working by its name."""
    return [Option(*row) for row in names()]


def opened(desk: Desk, id: str) -> QWidget:
    """The page of one working; the first where the id is none."""
    known = [name for name, _title, _more in names()]
    return WorkingsPage(desk, id if id in known else known[0])
