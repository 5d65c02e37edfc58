"""Ventilation on the sheet: what the fan does before it counts as running, and why it stopped."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.air.figures import read_figure
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.fan_plan_part import FanPlanPart
from lamproom.desk.workbook.said_line import SaidLine
from lamproom.desk.workbook.sheet import Sheet, block, columns
from lamproom.office.start_fan import start_fan
from lamproom.office.stop_fan import stop_fan
from lamproom.office.views.isolation_sheet import IsolationSheetView
from lamproom.words import Refusal, say


class FanPart(QWidget):
    """Three answers and a press start it; a press and a reason stop it."""

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self._sheet = sheet
        self._runs = False
        self.waits = False
        self._asked = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._again = SaidLine(Sign.MUST, say("workbook.fan.again"))
        self._state = SaidLine(Sign.WITHIN)
        self._note = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._flow = FigureField(say("workbook.fan.flow"), "m³/h", width=110, error_below=True)
        sheet.field("fan", self._flow)
        self._intake = sheet.field("fan.intake", Field(say("workbook.fan.intake")))
        self._noticed = sheet.field("fan.noticed", Field(say("workbook.fan.noticed")))
        self._power = sheet.field("fan.power", Field(say("workbook.fan.power"), optional=True))
        self._start = sheet.button("fan.start", say("workbook.fan.start"), self._record_start)
        self._why = sheet.field("fan.why", Field(say("workbook.fan.why")))
        self._stop = sheet.button("fan.stop", say("workbook.fan.stop"), self._press_stop)
        self._starting, starting = block()
        starting.addLayout(columns(self._flow, None))
        starting.addWidget(self._intake)
        starting.addWidget(self._noticed)
        starting.addWidget(self._power)
        starting.addLayout(columns(self._start, None))
        self._stopping, stopping = block()
        stopping.addLayout(columns(self._stop, None))
        stopping.addWidget(self._why)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        page.addWidget(self._asked)
        stands = QHBoxLayout()
        stands.setSpacing(12)
        stands.addWidget(self._state, 1)
        stands.addWidget(self._note)
        page.addLayout(stands)
        page.addWidget(self._again)
        page.addWidget(self._starting)
        page.addWidget(self._stopping)
        self._plan = FanPlanPart(sheet)
        page.addWidget(self._plan)
        self._fields = {
            "fan": self._flow,
            "fan.intake": self._intake,
            "fan.noticed": self._noticed,
            "fan.power": self._power,
            "fan.why": self._why,
        }
        for name, field in self._fields.items():
            field.committed.connect(lambda text, name=name: sheet.keep(name, text))
        self._flow.entered.connect(lambda _text: sheet.reach(self._intake.box))
        self._intake.entered.connect(lambda _text: sheet.reach(self._noticed.box))
        self._noticed.entered.connect(lambda _text: self._record_start())
        self._power.entered.connect(lambda _text: self._record_start())
        self._why.entered.connect(lambda _text: self._record_stop())

    def show_fan(self, view: IsolationSheetView) -> None:
        """Show whether it runs, and what to fill in next."""
        self._runs = view.fan_runs
        self.waits = not view.fan_runs and (view.fan_needed or bool(view.fan.done))
        self._plan.show_known(dict(view.fan_figures))
        self._asked.setText(view.fan_asked)
        self._state.say_it(Sign.WITHIN if view.fan_runs else Sign.REFUSED, view.fan.done)
        self._state.setVisible(bool(view.fan.done))
        self._note.setText(view.fan.note)
        self._starting.setVisible(not view.fan_runs)
        self._stopping.setVisible(view.fan_runs)
        self._why.setVisible(self._why.box.hasFocus() or bool(self._sheet.draft("fan.why")))
        for name, field in self._fields.items():
            if not field.box.hasFocus() and field.text() != self._sheet.draft(name):
                field.set_text(self._sheet.draft(name))

    def _record_start(self) -> None:
        texts = [field.text().strip() for field in (self._flow, self._intake, self._noticed)]
        for field, text in zip((self._flow, self._intake, self._noticed), texts, strict=True):
            if not text:
                field.show_error(say("workbook.fan.need"))
                self._sheet.reach(field.box)
                return
        try:
            flow = str(read_figure(texts[0]))
        except Refusal as refusal:
            self._flow.show_error(str(refusal))
            self._sheet.reach(self._flow.box)
            return
        names = ("fan", "fan.intake", "fan.noticed", "fan.power")
        if self._done(names, start_fan, flow, texts[1], texts[2], self._power.text().strip()):
            self._sheet.reach(self._stop)
            self._sheet.finished.emit()

    def _press_stop(self) -> None:
        self._why.show()
        self._sheet.reach(self._why.box)

    def _record_stop(self) -> None:
        why = self._why.text().strip()
        if not why:
            self._why.show_error(say("workbook.fan.need_why"))
            self._sheet.reach(self._why.box)
            return
        if self._done(("fan.why",), stop_fan, why):
            self._sheet.reach(self._flow.box)

    def _done(self, names: tuple[str, ...], act: object, *args: str) -> bool:
        assert callable(act)
        for name in names:
            self._fields[name].commit()
        kept = {name: self._sheet.draft(name) for name in names}
        for name in names:
            self._sheet.keep(name, "")
        if self._sheet.record(act, *args, beside=self._fields[names[0]]):
            for name in names:
                self._fields[name].set_text("")
                self._fields[name].clear_error()
            return True
        for name, text in kept.items():
            self._sheet.keep(name, text)
            self._fields[name].set_text(text)
        return False

    def place(self) -> QWidget:
        """Where a link to the fan leads."""
        return self._stop if self._runs else self._flow.box
