"""The sheet 'space and work': purpose and hours, what is different today, and the space as it is known."""

from __future__ import annotations

from PySide6.QtWidgets import QGridLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.questions import Questions
from lamproom.desk.workbook.sheet import Sheet, columns
from lamproom.office.describe_work import describe_work
from lamproom.office.plan_hours import plan_hours
from lamproom.office.views.space_sheet import SpaceSheetView, hours_as_typed, readable_time, space_sheet
from lamproom.words import Refusal, say


class SpaceSheet(Sheet):
    """Purpose, hours and questions of the day. Hours are recorded when both times stand."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "space", say("workbook.space.title"), say("workbook.space.under"))
        self._view: SpaceSheetView | None = None
        self._purpose = self.field("purpose", Field(say("workbook.purpose"), mnemonic="p"))
        self._begins = self.field("begins", Field(say("workbook.begins"), width=110, mnemonic="b", error_below=True))
        self._ends = self.field("ends", Field(say("workbook.ends"), width=110, mnemonic="e", error_below=True))
        self._day = Label(size=Letter.TABLE, bold=True)
        self._lay_out()
        self._purpose.committed.connect(self._describe)
        self._purpose.entered.connect(lambda _text: self.reach(self._begins.box))
        self._begins.entered.connect(lambda _text: self.reach(self._ends.box))
        self._ends.entered.connect(lambda _text: self._answered(self._ends))
        for field in (self._begins, self._ends):
            field.committed.connect(lambda _text, field=field: self._plan(field))

    def _lay_out(self) -> None:
        self.page.addWidget(self._purpose)
        day = QWidget()
        grid = QGridLayout(day)
        grid.setContentsMargins(0, 0, 0, 4)
        grid.addWidget(Label(" ", Letter.TABLE), 0, 0)
        grid.addWidget(self._day, 1, 0)
        grid.addWidget(Label(say("workbook.time_form"), Letter.SMALL, tone=Role.SECOND), 2, 0)
        grid.setVerticalSpacing(0)
        self.page.addLayout(columns(self._begins, self._ends, day, None, spacing=20))
        self.section(say("workbook.space.today"))
        self._questions = Questions(self, self._answered)
        self.page.addWidget(self._questions)
        self.section(say("workbook.space.known"))
        self._facts = QGridLayout()
        self._facts.setHorizontalSpacing(16)
        self._facts.setVerticalSpacing(4)
        self._facts.setColumnStretch(1, 1)
        self.page.addLayout(self._facts)
        self.section(say("workbook.space.cautions"))
        self._cautions = Label(size=Letter.SMALL, wrap=True)
        self.page.addWidget(self._cautions)
        self.page.addStretch(1)

    def refresh(self) -> None:
        """Paint what is recorded now."""
        view = space_sheet(self.desk.office, self.number)
        self.say_fixed(view.fixed)
        for field, name, text in (
            (self._purpose, "purpose", view.purpose),
            (self._begins, "begins", view.begins),
            (self._ends, "ends", view.ends),
        ):
            self._show(field, name, text)
        self._day.setText(view.day)
        self._questions.show_items(view.items, view.bars, view.standing)
        if self._view is None or self._view.facts != view.facts:
            self._show_facts(view.facts)
        self._cautions.setText("\n".join(view.cautions))
        self._view = view

    def _show(self, field: Field, name: str, text: str) -> None:
        if field.box.hasFocus() and field.text() != text:
            return
        draft = self.draft(name)
        field.set_text(text)
        if draft and draft != text:
            field.set_draft(draft)

    def _show_facts(self, facts: tuple[tuple[str, str], ...]) -> None:
        while (item := self._facts.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for row, (what, how) in enumerate(facts):
            self._facts.addWidget(Label(what, Letter.SMALL, tone=Role.SECOND), row, 0)
            self._facts.addWidget(Label(how, Letter.TABLE, wrap=True), row, 1)

    def _describe(self, text: str) -> None:
        stored = self._view.purpose if self._view is not None else ""
        if text.strip() == stored:
            return
        self.keep("purpose", text.strip())
        if self.record(describe_work, text.strip(), beside=self._purpose):
            self.keep("purpose", "")

    def _plan(self, typed: Field) -> None:
        """The end stands: plan the hours, from now where no beginning was typed. A beginning alone stays a draft."""
        for field, name in ((self._begins, "begins"), (self._ends, "ends")):
            self.keep(name, field.text().strip())
        try:
            if typed.text().strip():
                readable_time(typed.text())
            typed.clear_error()
            if not self._ends.text().strip() or (typed is self._begins and not typed.text().strip()):
                return
            begins, ends = hours_as_typed(self.desk.office, self._begins.text(), self._ends.text())
        except Refusal as refusal:
            typed.show_error(str(refusal))
            return
        zone = self.desk.office.zone
        typed_now = tuple(moment.astimezone(zone).strftime("%H:%M") for moment in (begins, ends))
        if self._view is not None and typed_now == (self._view.begins, self._view.ends):
            return
        if self.record(plan_hours, begins, ends, beside=typed):
            self.keep("begins", "")
            self.keep("ends", "")
            self.refresh()

    def _answered(self, row: QWidget) -> None:
        self.move_on(row, self._questions.open_places())

    def open_places(self) -> list[QWidget]:
        """Purpose, the end of the hours, questions: what is not yet said. A beginning may be left out."""
        fields = [field.box for field in (self._purpose, self._ends) if not field.text().strip()]
        return [*fields, *self._questions.open_places()]

    def place(self, rest: str) -> QWidget | None:
        """Purpose, hours, or a question."""
        if rest == "purpose":
            return self._purpose.box
        if rest == "hours":
            return (
                self._begins.box
                if not self._begins.text().strip() and not self._ends.text().strip()
                else self._ends.box
            )
        return self._questions.place(rest)
