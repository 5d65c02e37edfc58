"""Sheet 7, rescue and communication: rescue said that it can come, the call was tried, the means are here."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lamproom.air.figures import canonical, shown
from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.label import Label, StateWord
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place
from lamproom.desk.workbook.evaluated_questions import EvaluatedQuestions
from lamproom.desk.workbook.permit_sheet import Press
from lamproom.desk.workbook.sheet import Sheet
from lamproom.office.confirm_rescue import confirm_rescue
from lamproom.office.try_call import try_call
from lamproom.office.views.rescue_sheet import RescueView, rescue_view, time_today
from lamproom.words import Refusal, say


class RescueSheet(Sheet):
    """What rescue answered and how the call went are recorded by one press each, once their fields are filled."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "rescue", say("sheets.rescue.title"))
        self._view: RescueView | None = None
        self._of = ""
        self._plan = Label(size=Letter.TABLE, wrap=True)
        self._answered = self.field("answered-by", Field(say("sheets.rescue.answered_by"), error_below=True))
        self._until = self.field("until", Field(say("sheets.rescue.until"), width=130, error_below=True))
        minutes = FigureField(say("sheets.rescue.minutes"), say("sheets.rescue.minutes_unit"), width=90)
        self._minutes = minutes
        self.field("minutes", minutes)
        self._confirm = self._press("confirm", say("sheets.rescue.confirm"))
        self._confirmed = _state_word()
        self._means = self.field("means", Field(say("sheets.rescue.means"), error_below=True))
        self._as_planned = self.button("means-as-planned", say("sheets.item.as_evaluated"), self._take_means)
        self._call_answered = self.field("call-answered-by", Field(say("sheets.rescue.answered_by"), error_below=True))
        self._seconds = FigureField(say("sheets.rescue.seconds"), say("sheets.rescue.seconds_unit"), width=90)
        self.field("seconds", self._seconds)
        self._call = self._press("call", say("sheets.rescue.call"))
        self._tried = _state_word()
        self._questions = EvaluatedQuestions(self)
        self._words = Label(size=Letter.TABLE, wrap=True)
        self._lay()
        self._connect()

    def _press(self, name: str, words: str) -> Press:
        button = Press(words)
        button.setObjectName(self.name(name))
        return button

    def _lay(self) -> None:
        self.page.addWidget(self._plan)
        self._not_asked = Label("", Letter.TABLE, bold=True, wrap=True)
        self.page.addWidget(self._not_asked)
        self.section(say("sheets.rescue.confirm_title"))
        self.page.addLayout(_row((self._answered, 1), (self._until, 0)))
        self.page.addLayout(_row((self._minutes, 1), (self._confirmed, 0), (self._confirm, 0)))
        self.section(say("sheets.rescue.call_title"))
        self.page.addLayout(_row((self._means, 1), (self._as_planned, 0)))
        self.page.addLayout(_row((self._call_answered, 1)))
        self.page.addLayout(_row((self._seconds, 1), (self._tried, 0), (self._call, 0)))
        self.section(say("sheets.rescue.here_title"))
        self.page.addWidget(self._questions)
        self.section(say("sheets.rescue.words_title"))
        self.page.addWidget(self._words)
        self.page.addStretch(1)

    def _connect(self) -> None:
        for field, following in (
            (self._answered, self._until.box),
            (self._until, self._minutes.box),
            (self._means, self._call_answered.box),
            (self._call_answered, self._seconds.box),
        ):
            field.entered.connect(lambda _text, following=following: self.reach(following))
            field.committed.connect(lambda _text, field=field: self._typed(field))
        for last, act in ((self._minutes, self._do_confirm), (self._seconds, self._do_call)):
            last.committed.connect(lambda _text, field=last: self._typed(field))
            last.entered.connect(lambda _text, act=act: act())
        self._until.committed.connect(lambda _text: self._read_until())
        self._confirm.clicked.connect(self._do_confirm)
        self._call.clicked.connect(self._do_call)

    # Painted ----------------------------------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Paint what is recorded; what someone is typing stays."""
        before, view = self._view, rescue_view(self.desk.office, self.number)
        if self._of != self.number:
            self._of, before = self.number, None
            self._bring_drafts()
        self._view = view
        plan = say("sheets.rescue.plan", service=view.service, means=view.means, minutes=view.minutes)
        self._plan.setText(" ".join((plan, say("sheets.rescue.then", then=view.then))) if view.then else plan)
        self._as_planned.setAccessibleDescription(say("sheets.rescue.means_plan", means=view.means))
        if view.confirmed is not None and (before is None or before.confirmed != view.confirmed):
            self._answered.set_text(view.confirmed.answered_by)
            self._until.set_text(view.confirmed.until)
            self._minutes.set_text(shown(view.confirmed.minutes))
        if view.tried is not None and (before is None or before.tried != view.tried):
            self._means.set_text(view.tried.means)
            self._call_answered.set_text(view.tried.answered_by)
            self._seconds.set_text(shown(view.tried.seconds))
        _state(self._confirmed, view.confirmed.words if view.confirmed is not None else "")
        _state(self._tried, view.tried.words if view.tried is not None else "")
        self._questions.show_items(view.items, view.bars, view.standing)
        self._words.setText("\n".join(view.call))
        self._not_asked.setText(view.not_asked)
        self._not_asked.setVisible(bool(view.not_asked))

    def _fields(self) -> dict[str, Field]:
        return {
            "answered-by": self._answered,
            "until": self._until,
            "minutes": self._minutes,
            "means": self._means,
            "call-answered-by": self._call_answered,
            "seconds": self._seconds,
        }

    def _bring_drafts(self) -> None:
        for key, field in self._fields().items():
            field.set_text("")
            field.clear_error()
            field.set_draft(self.draft(key))

    def place(self, rest: str) -> QWidget | None:
        """'confirm', 'call', or the id of a question."""
        asked = self._questions.place(rest)
        if asked is not None:
            return asked
        return self._means.box if rest == "call" else self._answered.box

    # Acts -------------------------------------------------------------------------------------------------------------

    def _typed(self, field: Field) -> None:
        """What was left half filled is kept until both parts are recorded."""
        key = next(key for key, known in self._fields().items() if known is field)
        self.keep(key, field.text())

    def _take_means(self) -> None:
        if self._view is not None:
            self._means.set_draft(self._view.means)
            self._means.commit()
            self.reach(self._call_answered.box)

    def _read_until(self) -> None:
        text = self._until.text()
        if text.strip() and time_today(self.desk.office, self.number, text) is None:
            self._until.show_error(say("sheets.time_wrong", text=text))
        else:
            self._until.clear_error()

    def _do_confirm(self) -> None:
        until = time_today(self.desk.office, self.number, self._until.text())
        self._read_until()
        minutes = self._figure(self._minutes)
        if not self._filled(self._answered, self._until, self._minutes) or until is None or minutes is None:
            return
        if self.record(confirm_rescue, self._answered.text(), until, minutes):
            self._drop("answered-by", "until", "minutes")
            self.reach(self._means.box)

    def _do_call(self) -> None:
        seconds = self._figure(self._seconds)
        if not self._filled(self._means, self._call_answered, self._seconds) or seconds is None:
            return
        if self.record(try_call, self._means.text(), self._call_answered.text(), seconds):
            self._drop("means", "call-answered-by", "seconds")
            self.move_on(self._call, self._questions.open_places())

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
            self.reach(wrong[0].box)
        return not wrong

    def _drop(self, *keys: str) -> None:
        for key in keys:
            self.keep(key, "")


def _row(*parts: tuple[QWidget, int]) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(16)
    for widget, stretch in parts:
        row.addWidget(widget, stretch)
        if isinstance(widget, Button | StateWord):
            row.setAlignment(widget, Qt.AlignmentFlag.AlignBottom)
    return row


def _state_word() -> StateWord:
    """As high as the boxes beside it."""
    word = StateWord(Sign.NOT_STARTED, "", Letter.SMALL, bold=False, side=18)
    word.setMinimumHeight(Place.TRAILER)
    return word


def _state(word: StateWord, noted: str) -> None:
    if noted:
        word.set_state(Sign.WITHIN, say("sheets.rescue.recorded", noted=noted))
    else:
        word.set_state(Sign.NOT_STARTED, say("sheets.rescue.open"))
