"""Sheet 7, rescue and communication: rescue said that it can come, the call was tried, the means are here."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.air.figures import canonical, shown
from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter
from lamproom.desk.workbook.permit_sheet import PermitSheet, Press, head, scrolling
from lamproom.desk.workbook.sheet_questions import SheetQuestions
from lamproom.office.confirm_rescue import confirm_rescue
from lamproom.office.try_call import try_call
from lamproom.office.views.rescue_sheet import RescueView, rescue_view, time_today
from lamproom.words import Refusal, say


class RescueSheet(PermitSheet):
    """What rescue answered and how the call went are recorded by one press each, once their fields are filled."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "rescue", parent)
        self._view: RescueView | None = None
        self.plan = Label(size=Letter.TABLE, wrap=True)
        self.answered = Field(say("sheets.rescue.answered_by"))
        self.until = Field(
            say("sheets.rescue.until"), hint=say("sheets.rescue.until_hint"), width=110, error_below=True
        )
        self.minutes = FigureField(
            say("sheets.rescue.minutes"), say("sheets.rescue.minutes_unit"), width=90, error_below=True
        )
        self.confirm = Press(say("sheets.rescue.confirm"), Kind.MAIN)
        self.confirm.setObjectName("workbook.rescue.confirm")
        self.confirmed = StateWord(Sign.NOT_STARTED, "", Letter.SMALL, bold=False, side=18)
        self.means = Field(say("sheets.rescue.means"))
        self.as_planned = Button("")
        self.as_planned.setObjectName("workbook.rescue.means-as-planned")
        self.call_answered = Field(say("sheets.rescue.answered_by"))
        self.seconds = FigureField(
            say("sheets.rescue.seconds"), say("sheets.rescue.seconds_unit"), width=90, error_below=True
        )
        self.call = Press(say("sheets.rescue.call"), Kind.MAIN)
        self.call.setObjectName("workbook.rescue.call")
        self.tried = StateWord(Sign.NOT_STARTED, "", Letter.SMALL, bold=False, side=18)
        self.questions = SheetQuestions(self)
        self.words = Label(size=Letter.TABLE, wrap=True)
        for field, key in (
            (self.answered, "answered-by"),
            (self.until, "until"),
            (self.minutes, "minutes"),
            (self.means, "means"),
            (self.call_answered, "call-answered-by"),
            (self.seconds, "seconds"),
        ):
            self.remember(field, key)
        self._lay()
        self._connect()

    def _lay(self) -> None:
        inner = QWidget()
        page = QVBoxLayout(inner)
        page.setContentsMargins(0, 0, 8, 8)
        page.setSpacing(10)
        page.addWidget(self.plan)
        page.addLayout(_headed(say("sheets.rescue.confirm_title"), self.confirmed))
        page.addLayout(_row((self.answered, 1), (self.until, 0), (self.minutes, 0), (self.confirm, 0)))
        page.addWidget(rule())
        page.addLayout(_headed(say("sheets.rescue.call_title"), self.tried))
        page.addLayout(_row((self.means, 1), (self.as_planned, 0)))
        page.addLayout(_row((self.call_answered, 1), (self.seconds, 0), (self.call, 0)))
        page.addWidget(rule())
        page.addWidget(self.questions)
        page.addWidget(rule())
        page.addWidget(Label(say("sheets.rescue.words_title"), Letter.TABLE, bold=True))
        page.addWidget(self.words)
        page.addStretch(1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(18, 8, 18, 10)
        whole.setSpacing(8)
        whole.addWidget(head(say("sheets.rescue.title")))
        whole.addWidget(scrolling(inner), 1)

    def _connect(self) -> None:
        self.answered.entered.connect(lambda _text: self.until.setFocus())
        self.until.entered.connect(lambda _text: self.minutes.setFocus())
        self.minutes.entered.connect(lambda _text: self.confirm.setFocus())
        self.means.entered.connect(lambda _text: self.call_answered.setFocus())
        self.call_answered.entered.connect(lambda _text: self.seconds.setFocus())
        self.seconds.entered.connect(lambda _text: self.call.setFocus())
        self.until.committed.connect(lambda _text: self._read_until())
        self.confirm.clicked.connect(self._confirm)
        self.call.clicked.connect(self._call)
        self.as_planned.clicked.connect(self._take_means)

    # Showing ----------------------------------------------------------------------------------------------------------

    def begin(self) -> None:
        """Another permit: what was half typed on it."""
        self._view = None
        for field, key in (
            (self.answered, "answered-by"),
            (self.until, "until"),
            (self.minutes, "minutes"),
            (self.means, "means"),
            (self.call_answered, "call-answered-by"),
            (self.seconds, "seconds"),
        ):
            field.set_text("")
            field.clear_error()
            field.set_draft(self.kept(key))
        self.questions.begin()

    def refresh(self) -> None:
        """Paint what is recorded; a field that someone is typing in stays."""
        before, view = self._view, rescue_view(self.desk.office, self.number)
        self._view = view
        plan = say("sheets.rescue.plan", service=view.service, means=view.means, minutes=view.minutes)
        self.plan.setText(" ".join((plan, say("sheets.rescue.then", then=view.then))) if view.then else plan)
        self.as_planned.set_words(say("sheets.item.as_evaluated"))
        self.as_planned.setAccessibleDescription(say("sheets.rescue.means_plan", means=view.means))
        if view.confirmed is not None and (before is None or before.confirmed != view.confirmed):
            self.answered.set_text(view.confirmed.answered_by)
            self.until.set_text(view.confirmed.until)
            self.minutes.set_text(shown(view.confirmed.minutes))
        if view.tried is not None and (before is None or before.tried != view.tried):
            self.means.set_text(view.tried.means)
            self.call_answered.set_text(view.tried.answered_by)
            self.seconds.set_text(shown(view.tried.seconds))
        _state(self.confirmed, view.confirmed.words if view.confirmed is not None else "")
        _state(self.tried, view.tried.words if view.tried is not None else "")
        self.questions.show_items(view.items)
        self.words.setText("\n".join(view.call))

    def show_target(self, rest: str) -> None:
        """'confirm', 'call', or the id of a question."""
        if not self.questions.focus_item(rest):
            (self.means if rest == "call" else self.answered).box.setFocus()

    # Acts -------------------------------------------------------------------------------------------------------------

    def _take_means(self) -> None:
        if self._view is not None:
            self.means.set_draft(self._view.means)
            self.means.commit()
            self.call_answered.setFocus()

    def _read_until(self) -> None:
        text = self.until.text()
        if text.strip() and time_today(self.desk.office, self.number, text) is None:
            self.until.show_error(say("sheets.time_wrong", text=text))
        else:
            self.until.clear_error()

    def _confirm(self) -> None:
        until = time_today(self.desk.office, self.number, self.until.text())
        self._read_until()
        minutes = self._figure(self.minutes)
        if not self._filled(self.answered, self.until, self.minutes) or until is None or minutes is None:
            return
        by = self.desk.person
        if self.desk.do(confirm_rescue, self.number, self.answered.text(), until, minutes, by=by):
            self._drop("answered-by", "until", "minutes")

    def _call(self) -> None:
        seconds = self._figure(self.seconds)
        if not self._filled(self.means, self.call_answered, self.seconds) or seconds is None:
            return
        means, who = self.means.text(), self.call_answered.text()
        if self.desk.do(try_call, self.number, means, who, seconds, by=self.desk.person):
            self._drop("means", "call-answered-by", "seconds")

    def _figure(self, field: FigureField) -> str | None:
        """The figure as it is stored; None with the trouble beside the field."""
        try:
            value = field.value()
        except Refusal as refusal:
            field.show_error(str(refusal))
            return None
        return canonical(value) if value is not None else None

    def _filled(self, *fields: Field) -> bool:
        """Say beside each empty field that it is; the first wrong one takes the keyboard."""
        wrong = []
        for field in fields:
            if not field.text().strip():
                field.show_error(say("sheets.rescue.missing"))
            elif field.error() == say("sheets.rescue.missing"):
                field.clear_error()
            if field.error():
                wrong.append(field)
        if wrong:
            wrong[0].box.setFocus()
        return not wrong

    def _drop(self, *keys: str) -> None:
        for key in keys:
            self.keep(key, "")


def _row(*parts: tuple[QWidget, int]) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(16)
    for widget, stretch in parts:
        row.addWidget(widget, stretch)
        if isinstance(widget, Button):
            row.setAlignment(widget, Qt.AlignmentFlag.AlignBottom)
    return row


def _headed(text: str, state: StateWord) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(12)
    row.addWidget(Label(text, Letter.TABLE, bold=True))
    row.addStretch(1)
    row.addWidget(state)
    return row


def _state(word: StateWord, noted: str) -> None:
    if noted:
        word.set_state(Sign.WITHIN, say("sheets.rescue.recorded", noted=noted))
    else:
        word.set_state(Sign.NOT_STARTED, say("desk.not_answered"))
