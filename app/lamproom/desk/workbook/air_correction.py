"""Putting a figure right: the old one stays, struck and readable, with the reason."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.air.figures import canonical
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter
from lamproom.desk.workbook.permit_sheet import Press
from lamproom.words import Refusal, say


class AirCorrection(QWidget):
    """New figure and reason. Signals: ``corrected(new, reason)``, ``left()``."""

    corrected = Signal(str, str)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = Label(size=Letter.BODY, bold=True, wrap=True)
        self.new = FigureField(say("sheets.air.correct_new"), "", width=130, error_below=True)
        self.new.box.setObjectName("workbook.air-test.correct.new")
        self.reason = Field(say("sheets.air.correct_reason"))
        self.reason.box.setObjectName("workbook.air-test.correct.reason")
        self.do = Press(say("sheets.air.correct_do"), Kind.MAIN)
        self.do.setObjectName("workbook.air-test.correct.do")
        self.leave = Button(say("sheets.air.correct_leave"))
        self.leave.setObjectName("workbook.air-test.correct.leave")
        fields = QHBoxLayout()
        fields.setSpacing(16)
        fields.addWidget(self.new)
        fields.addWidget(self.reason, 1)
        acts = QHBoxLayout()
        acts.setSpacing(12)
        acts.addWidget(self.do)
        acts.addWidget(self.leave)
        acts.addStretch(1)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(8)
        page.addWidget(self.title)
        page.addLayout(fields)
        page.addLayout(acts)
        page.addStretch(1)
        self.leave.clicked.connect(self.left)
        self.do.clicked.connect(self._correct)
        self.new.entered.connect(lambda _text: self.reason.setFocus())
        self.reason.entered.connect(lambda _text: self.do.setFocus())

    def begin(self, title: str) -> None:
        """Empty fields for one figure."""
        self.title.setText(title)
        self.new.set_text("")
        self.reason.set_text("")
        self.new.clear_error()
        self.reason.clear_error()
        self.new.setFocus()

    def _correct(self) -> None:
        try:
            value = self.new.value()
        except Refusal as refusal:
            self.new.show_error(str(refusal))
            self.new.setFocus()
            return
        if value is None:
            self.new.show_error(say("sheets.rescue.missing"))
            self.new.setFocus()
        elif not self.reason.text().strip():
            self.reason.show_error(say("office.correction_reason"))
            self.reason.setFocus()
        else:
            self.corrected.emit(canonical(value), self.reason.text().strip())
