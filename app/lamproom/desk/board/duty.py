"""Handing over duty: who is at the desk, and who supervises the permits that are running."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import Choice, Option
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.theme import Letter, Role
from lamproom.office.hand_over import hand_over
from lamproom.office.views.board import people_for_desk, supervisions
from lamproom.words import say


class Duty(QWidget):
    """The panel for a change of duty. Signal: ``left()``."""

    left = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setProperty("ground", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(say("board.who"))
        self._now = Label("", Letter.SMALL, tone=Role.SECOND, wrap=True)
        self._why = Label("", Letter.OFFICE, bold=True, wrap=True)
        self._people = Choice("")
        self._people.chosen.connect(lambda _value: self._why.setText(""))
        self._sit = Button(say("board.sit_down"), Kind.MAIN)
        self._sit.setObjectName("board.duty.sit")
        self._sit.clicked.connect(self._sit_down)
        leave = Button(say("board.leave"), keys="Escape")
        leave.setObjectName("board.duty.leave")
        leave.clicked.connect(self.left)
        holder = QWidget()
        holder.setProperty("ground", "clear")
        self._rows = QVBoxLayout(holder)
        self._rows.setContentsMargins(4, 4, 8, 4)
        self._rows.setSpacing(10)
        self._rows.addWidget(self._people)
        self._permits = QWidget()
        self._list = QVBoxLayout(self._permits)
        self._list.setContentsMargins(0, 0, 0, 0)
        self._list.setSpacing(8)
        self._area = area = QScrollArea()
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setWidget(holder)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        buttons = QHBoxLayout()
        buttons.setSpacing(12)
        buttons.addWidget(self._sit)
        buttons.addWidget(leave)
        buttons.addStretch(1)
        self._rows.addLayout(buttons)
        self._rows.addWidget(self._permits)
        self._rows.addStretch(1)
        page = QVBoxLayout(self)
        page.setContentsMargins(16, 12, 12, 16)
        page.setSpacing(8)
        page.addWidget(Label(say("board.who"), Letter.HEAD, bold=True))
        page.addWidget(self._now)
        page.addWidget(self._why)
        page.addWidget(area, 1)

    def begin(self, why: str = "") -> None:
        """Show who may sit here; ``why`` says what waits for it."""
        office = self._desk.office
        people = people_for_desk(office, self._desk.person)
        self._people.set_values(())
        self._people.set_options(Option(one.id, one.name, one.roles) for one in people)
        for one in people:
            self._people.row(one.id).setObjectName(f"board.duty.person.{one.id}")
        self._why.setText(why if people else say("board.no_people"))
        self._why.setVisible(bool(self._why.text()))
        self._show_now()
        if people:
            self._people.row(people[0].id).setFocus()

    def _show_now(self) -> None:
        person = self._desk.person
        names = self._desk.office.names()
        self._now.setText(say("board.who_now", name=names.get(person, person)) if person else say("board.who_nobody"))
        self._show_permits()

    def _sit_down(self) -> None:
        person = self._people.value()
        if not person:
            self._why.setText(say("board.choose_person_first"))
            self._why.show()
            return
        self._desk.set_person(person)
        self._show_now()
        if not supervisions(self._desk.office, person):
            self.left.emit()
            return
        for code in self._permits.findChildren(Field):
            code.setFocus()
            # Laid out a moment later: only then is there a place to scroll to.
            QTimer.singleShot(0, self, lambda: self._area.ensureWidgetVisible(self._permits))

    def _show_permits(self) -> None:
        while (item := self._list.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        person = self._desk.person
        open_ones = supervisions(self._desk.office, person) if person else ()
        self._permits.setVisible(bool(open_ones))
        if person is None or not open_ones:
            return
        name = self._desk.office.names().get(person, person)
        self._list.addWidget(rule())
        self._list.addWidget(Label(say("board.supervision"), Letter.TABLE, bold=True, wrap=True))
        self._list.addWidget(Label(say("board.supervision_means"), Letter.SMALL, wrap=True))
        code = Field(say("board.code", name=name), secret=True)
        code.box.setObjectName("board.duty.code")
        self._list.addWidget(code)
        for one in open_ones:
            words = say("board.supervision_of", number=one.number, space=one.space, holder=one.holder)
            take = Button(say("board.take_over"))
            take.setObjectName(f"board.duty.take-over.{one.number}")
            take.setAccessibleDescription(words)
            take.clicked.connect(lambda _c=False, number=one.number: self._take_over(number, person, code))
            self._list.addWidget(Label(words, Letter.OFFICE, wrap=True))
            self._list.addWidget(take, 0, Qt.AlignmentFlag.AlignLeft)

    def _take_over(self, number: str, person: str, code: Field) -> None:
        if self._desk.do(hand_over, number, person, code.text()):
            name = self._desk.office.names().get(person, person)
            self._desk.said.emit("done", say("board.taken_over", name=name, number=number))
            kept = code.text()
            self._show_permits()
            for box in self._permits.findChildren(Field):
                box.set_text(kept)
            if not supervisions(self._desk.office, person):
                self.left.emit()
