"""The purge at a point on the air test's stage: the curve, what it says, its figures, and the way back."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.parts.button import Button
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.purge_curve import CurveView, PurgeCurve
from lamproom.desk.questions import scrolled
from lamproom.desk.theme import Letter
from lamproom.desk.working_slip import WorkingSlip
from lamproom.office.views.purge import PurgeView
from lamproom.words import say

_NAME = "workbook.air-test.purge"


class PurgePage(QWidget):
    """Signal: ``closed()`` back to the test."""

    closed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(_NAME)
        self.title = Label(size=Letter.BODY, bold=True, wrap=True)
        self.says = Label(size=Letter.TABLE, wrap=True)
        self.says.setObjectName(f"{_NAME}.says")
        self.curve = PurgeCurve()
        self.curve.setObjectName(f"{_NAME}.curve")
        self.slip = WorkingSlip(f"{_NAME}.slip", closable=False)
        self.back = Button(say("workings.purge.back"))
        self.back.setObjectName(f"{_NAME}.back")
        self.back.clicked.connect(lambda _checked=False: self.closed.emit())
        words = QVBoxLayout()
        words.setSpacing(2)
        words.addWidget(self.title)
        words.addWidget(self.says)
        top = QHBoxLayout()
        top.setSpacing(12)
        top.addLayout(words, 1)
        top.addWidget(self.back)
        area = scrolled(self.slip)
        area.setMaximumHeight(250)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 4, 0, 0)
        page.setSpacing(8)
        page.addLayout(top)
        page.addWidget(self.curve, 3)
        page.addWidget(area, 2)
        self._area = area

    def show_purge(self, view: PurgeView) -> None:
        """Show what the readings say now."""
        self.title.setText(view.title)
        self.says.setText(view.says)
        self.curve.set_view(
            CurveView(
                what=view.what,
                unit=view.unit,
                limit=view.limit,
                limit_words=view.limit_words,
                marks=tuple((mark.minutes, mark.level, mark.words) for mark in view.marks),
                curve=tuple((one.minutes, one.level, one.low, one.high) for one in view.curve),
                meets=view.meets,
                until=view.until,
                ticks=view.ticks,
                says=view.says,
            )
        )
        self.slip.set_pages((view.page,))
        self._area.setVisible(bool(view.page.steps))
