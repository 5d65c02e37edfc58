"""Ventilation planned with figures on the sheet: opened by a press, never needed, never recorded."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.sheet import Sheet, block, columns
from lamproom.desk.working_slip import WorkingSlip
from lamproom.office.views.fan_plan import KEYS, plan_fan
from lamproom.words import say

_UNITS = {"flow": "m³/h", "volume": "m³", "mixing": "", "start": "", "target": ""}


class FanPlanPart(QWidget):
    """Five figures and a slip. ``show_known`` offers what the permit knows, where nothing is typed."""

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self._sheet = sheet
        self._owner = ""
        self.link = sheet.button("fan.plan", say("workings.plan.open"), self._turn, Kind.LINK)
        self._open, opened = block()
        opened.addWidget(Label(say("workings.plan.note"), Letter.SMALL, tone=Role.SECOND, wrap=True))
        self.fields: dict[str, FigureField] = {}
        for key in KEYS:
            made = FigureField(
                say(f"workings.plan.{key}"), _UNITS[key], width=92, error_below=True, optional=key not in KEYS[:2]
            )
            made.box.setObjectName(sheet.name(f"fan.plan.{key}"))
            made.entered.connect(lambda _text: self.work())
            self.fields[key] = made
        first, second = [self.fields[key] for key in KEYS[:2]], [self.fields[key] for key in KEYS[2:]]
        opened.addLayout(columns(*first, None))
        opened.addLayout(columns(*second, None))
        opened.addLayout(columns(sheet.button("fan.plan.do", say("workings.try.do"), self.work), None))
        self.slip = WorkingSlip(sheet.name("fan.plan.slip"))
        self.slip.closed.connect(self.slip.hide)
        self.slip.hide()
        opened.addWidget(self.slip)
        self._open.hide()
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        page.addLayout(columns(self.link, None))
        page.addWidget(self._open)

    def show_known(self, known: dict[str, str]) -> None:
        """Offer these where a field is empty and nobody types in it; on another permit begin anew."""
        if self._owner != self._sheet.owner:
            self._owner = self._sheet.owner
            self.clear()
        for key, text in known.items():
            made = self.fields[key]
            if text and not made.text() and not made.box.hasFocus():
                made.set_text(text)

    def clear(self) -> None:
        """Another permit: nothing of the last one's figures stays."""
        self.slip.hide()
        for made in self.fields.values():
            made.set_text("")
            made.clear_error()

    def _turn(self) -> None:
        self._open.setVisible(not self._open.isVisibleTo(self))
        if self._open.isVisibleTo(self):
            self._sheet.reach(next((f.box for f in self.fields.values() if not f.text()), self.fields["flow"].box))

    def work(self) -> None:
        """The slip, or what is wrong beside its field."""
        plan = plan_fan({key: made.text() for key, made in self.fields.items()})
        for key, made in self.fields.items():
            if key in plan.troubles:
                made.show_error(plan.troubles[key])
            else:
                made.clear_error()
        self.slip.setVisible(bool(plan.pages))
        if plan.pages:
            self.slip.set_pages(plan.pages)
            self._sheet.show_part(self.slip)
