"""The briefing: what the crew is told, a pad for everyone who has not signed, one press that records it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.ink_pad import InkPad
from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.desk.workbook.air_grid import air_grid
from lamproom.desk.workbook.permit_sheet import Press, emptied
from lamproom.office.views.people_sheet import PeopleView, ToSign
from lamproom.permit.events import Ink
from lamproom.words import say


class BriefingPage(QWidget):
    """Signal: ``briefed(tuple of Ink)``; the ink of whoever is missing is empty."""

    briefed = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pads: dict[str, InkPad] = {}
        self._shown: tuple[object, ...] = ()
        self._crew: tuple[ToSign, ...] = ()
        self.told = QGridLayout()
        self.told.setHorizontalSpacing(16)
        self.told.setVerticalSpacing(8)
        self.told.setColumnStretch(1, 1)
        self.signed = QVBoxLayout()
        self.signed.setSpacing(4)
        self.pads = QGridLayout()
        self.pads.setHorizontalSpacing(24)
        self.pads.setVerticalSpacing(12)
        self.nobody = Label(say("sheets.people.nobody_to_brief"), Letter.TABLE, wrap=True)
        self.witness = Label(size=Letter.TABLE, wrap=True)
        self.done = Press(say("sheets.people.briefed"), Kind.MAIN, sign=Sign.PEN)
        self.done.setObjectName("workbook.people.brief")
        self.done.clicked.connect(self._press)
        foot = QHBoxLayout()
        foot.setSpacing(12)
        foot.addWidget(self.witness, 1)
        foot.addWidget(self.done)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(10)
        page.addLayout(self.told)
        page.addWidget(rule(strong=True))
        page.addWidget(Label(say("sheets.people.sign_title"), Letter.TABLE, bold=True))
        page.addWidget(self.nobody)
        page.addLayout(self.signed)
        page.addLayout(self.pads)
        page.addLayout(foot)

    def begin(self) -> None:
        """Another permit: empty pads."""
        self._shown, self._crew, self._pads = (), (), {}
        emptied(self.pads)

    def show_view(self, view: PeopleView) -> None:
        """What is told now; a pad keeps its ink while its person is still to sign."""
        if (view.told, view.air) != self._shown:
            self._shown = (view.told, view.air)
            self._show_told(view)
        self.witness.setText(view.witness_words)
        self.nobody.setVisible(not view.crew)
        open_ones = any(not one.signed for one in view.crew)
        self.done.setVisible(open_ones)
        self.witness.setVisible(open_ones or not view.crew)
        if view.crew != self._crew:
            self._crew = view.crew
            self._show_crew(view.crew)

    def _show_told(self, view: PeopleView) -> None:
        emptied(self.told)
        rows: list[tuple[str, QWidget]] = [(told.head, _lines(told.lines)) for told in view.told]
        rows.insert(1, (say("sheets.people.results"), air_grid(view.air)))
        for at, (name, widget) in enumerate(rows):
            self.told.addWidget(Label(name, Letter.SMALL, tone=Role.SECOND), at, 0, Qt.AlignmentFlag.AlignTop)
            self.told.addWidget(widget, at, 1)

    def _show_crew(self, crew: tuple[ToSign, ...]) -> None:
        emptied(self.signed)
        for one in crew:
            if one.signed:
                who = say("sheets.people.sign_who", name=one.name, part=one.part)
                self.signed.addWidget(StateWord(Sign.WITHIN, f"{who}, {one.signed}", Letter.TABLE, bold=False))
        kept = {person: pad.strokes() for person, pad in self._pads.items()}
        emptied(self.pads)
        self._pads = {}
        for at, one in enumerate([one for one in crew if not one.signed]):
            pad = InkPad(one.name, by_key=False)
            pad.pad.setObjectName(f"workbook.people.ink.{one.person}")
            pad.pad.set_strokes(kept.get(one.person, []))
            pad.pad.set_under(say("sheets.people.sign_who", name=one.name, part=one.part))
            pad.findChildren(Button)[0].setObjectName(f"workbook.people.ink-clear.{one.person}")
            self._pads[one.person] = pad
            self.pads.addWidget(pad, at // 2, at % 2)

    def _press(self) -> None:
        self.briefed.emit(
            tuple(
                Ink(person=person, strokes=tuple(tuple(stroke) for stroke in pad.strokes()))
                for person, pad in self._pads.items()
            )
        )


def _lines(lines: tuple[str, ...]) -> Label:
    label = Label("\n".join(lines), Letter.TABLE, wrap=True)
    label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
    return label
