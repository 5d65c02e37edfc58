"""The site's own registers: the time and what was recorded under a wrong one, the figures of the forms."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.dialogs import ConfirmTimeDialog
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import Option
from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.parts.table import Cell, Table
from lamproom.desk.registers.entry_page import EntryPage
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place, Role
from lamproom.office.confirm_figures import confirm_figures
from lamproom.office.declare_clock_wrong import declare_clock_wrong
from lamproom.office.views.registers import FormLine, form_view, last_entries, people, time_confirmed, wrong_clock_from
from lamproom.words import say


class TimePage(EntryPage):
    """Confirm the time; or two people with codes declare that it was wrong over some entries."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "site/time", "registers.time", say("registers.time.head"))
        self.setObjectName("registers.time.page")
        q = self.questions
        confirmed = desk.office.judged().confirmed
        q.add(
            StateWord(
                Sign.WITHIN if confirmed else Sign.CAUTION,
                say("registers.time.confirmed" if confirmed else "registers.time.not_confirmed"),
                Letter.TABLE,
            )
        )
        last = time_confirmed(desk.office)
        if last:
            q.note(last)
        confirm = Button(say("desk.window.confirm_time"), Kind.PLAIN if confirmed else Kind.MAIN)
        confirm.setObjectName("registers.time.confirm")
        confirm.clicked.connect(lambda _checked=False: self._confirm())
        q.side_by_side()
        q.add(confirm)
        q.side_by_side_ends()
        q.add(rule(strong=True))
        q.head(say("registers.time.wrong"))
        q.note(say("registers.time.wrong_note"))
        q.add(self._entries())
        q.side_by_side()
        q.figure("first", say("registers.time.first"), "", width=110)
        q.figure("last", say("registers.time.last"), "", width=110)
        q.line("watch", say("registers.time.watch"), hint=say("registers.clock_hint"), width=120)
        q.line("day", say("registers.time.day"), hint=say("registers.day_hint"), width=170)
        options = [Option(line.id, line.name) for line in people(desk.office) if line.has_code]
        q.side_by_side()
        for key in ("one", "other"):
            q.drop(key, say(f"registers.time.{key}"), options)
            q.line(f"code-{key}", say("registers.person.code"), secret=True, width=150)
        declare = Button(say("registers.time.declare"))
        declare.setObjectName("registers.time.declare")
        declare.clicked.connect(lambda _checked=False: self._declare())
        q.side_by_side()
        q.add(declare)
        q.end()

    def _entries(self) -> Table:
        heads = [say(f"registers.time.column.{key}") for key in ("number", "at", "what", "stream")]
        table = Table(say("registers.time.entries"), heads, place=Place.OFFICE, stretch=2, choosable=False)
        table.setObjectName("registers.time.entries")
        table.set_rows(
            [
                [
                    Cell(str(line.number), numeric=True, struck=line.void),
                    Cell(line.at, struck=line.void),
                    Cell(line.what, struck=line.void),
                    Cell(line.stream, tone=Role.SECOND),
                ]
                for line in last_entries(self.desk.office)
            ]
        )
        table.setFixedHeight(136)
        return table

    def _confirm(self) -> None:
        if self.person() is not None:
            dialog = ConfirmTimeDialog(self.window(), self.desk)
            dialog.finished.connect(dialog.deleteLater)
            dialog.accepted.connect(lambda: self.recorded.emit("time"))
            dialog.open()

    def _declare(self) -> None:
        secrets = {key: self.questions.text(key) for key in ("code-one", "code-other")}
        filled = wrong_clock_from(self.desk.office, self.answers(), secrets)
        self.show_troubles(filled.troubles)
        wrong = filled.value
        if wrong is None:
            return
        if self.desk.do(declare_clock_wrong, wrong.first, wrong.last, wrong.watch_says, wrong.people):
            self.done("time", say("registers.time.declared", first=wrong.first, last=wrong.last))


class FormPage(EntryPage):
    """A form's figures with their reasons; those from memory wait for a named person who compares them."""

    def __init__(self, desk: Desk, id: str) -> None:
        view = form_view(desk.office, id)
        super().__init__(desk, f"site/form/{id}", "registers.form", view.title)
        self.setObjectName(f"registers.form.{id}")
        self._id = id
        q = self.questions
        for line in view.lines:
            q.add(_line(line))
        if view.unconfirmed:
            q.head(say("registers.form.confirm"))
            q.note(say("registers.form.confirm_note", n=view.unconfirmed))
            q.line("against", say("registers.form.against"))
            self.button("confirm", say("registers.form.confirm"), self._confirm)
        q.end()

    def _confirm(self) -> None:
        by = self.person()
        if by is not None and self.desk.do(confirm_figures, self._id, self.questions.text("against"), by=by):
            self.done(self._id, say("registers.form.confirmed"))


def _line(line: FormLine) -> QWidget:
    widget = QWidget()
    row = QHBoxLayout(widget)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(14)
    what = Label(line.what, Letter.TABLE, bold=True, wrap=True)
    what.setFixedWidth(200)
    row.addWidget(what)
    words = QVBoxLayout()
    words.setSpacing(0)
    words.addWidget(Label(line.figure, Letter.TABLE, wrap=True))
    reason = say("registers.form.memory", reason=line.reason) if line.from_memory else line.reason
    words.addWidget(Label(reason, Letter.SMALL, tone=Role.SECOND, wrap=True))
    row.addLayout(words, 1)
    return widget


def forms_listed(desk: Desk) -> list[Option]:
    """The forms at hand as rows."""
    return [Option(id, form_view(desk.office, id).title) for id in sorted(desk.office.forms)]


def form_opened(desk: Desk, id: str) -> QWidget:
    """The page of a form."""
    return FormPage(desk, id if id in desk.office.forms else min(desk.office.forms))
