"""The figures of one set: a box for each gas in the fixed order, and the choice of what stands in place of a figure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.air.figures import canonical, read_as, read_figure
from lamproom.desk.parts.choice import DropBox
from lamproom.desk.parts.field import LineBox
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Place, Role
from lamproom.office.views.air_test_sheet import GasBox
from lamproom.office.views.air_working import event_figure
from lamproom.permit.events import Figure
from lamproom.words import Refusal, say

STATES = ("measured", "not-measured", "fault", "over-range")


class GasEntry(QWidget):
    """One gas: name and unit above, the box, limit and last value below, and what the instrument shows instead.

    Signals: ``left()`` when the box was left, ``entered()`` on Enter, ``typed(text)`` while typing,
    ``state_chosen(str)``.
    """

    left = Signal()
    entered = Signal()
    typed = Signal(str)
    state_chosen = Signal(str)

    def __init__(self, box: GasBox, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.gas = box
        self.line = LineBox(Place.TRAILER, Letter.HEAD, True)
        self.line.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.line.setInputMethodHints(Qt.InputMethodHint.ImhFormattedNumbersOnly)
        self.line.setObjectName(f"workbook.air-test.figure.{box.gas}")
        caption = Label(size=Letter.SMALL, bold=True, wrap=True)
        caption.setText(say("sheets.air.figure_of", gas=box.name, unit=box.unit))
        caption.setAlignment(Qt.AlignmentFlag.AlignBottom)
        caption.setBuddy(self.line)
        self._below = Label(size=Letter.TICK, tone=Role.SECOND, wrap=True)
        self.state = DropBox(Place.TRAILER)
        self.state.setObjectName(f"workbook.air-test.state.{box.gas}")
        self.state.setAccessibleName(say("sheets.air.state_of", gas=box.name))
        self.state.setSizeAdjustPolicy(DropBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        for state in STATES:
            self.state.addItem(say(f"sheets.air.state.{state}"), state)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(2)
        page.addWidget(caption, 1)
        page.addWidget(self.line)
        page.addWidget(self._below)
        page.addWidget(self.state)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.line.editingFinished.connect(self.left)
        self.line.returnPressed.connect(self.entered)
        self.line.textEdited.connect(self.typed)
        self.state.activated.connect(lambda _row: self._chose())
        self.show_box(box)

    def show_box(self, box: GasBox) -> None:
        """The limit and the last value of now."""
        self.gas = box
        last = say("sheets.air.limit_last", limit=box.limit, last=box.last)
        self._below.setText(last if box.last else box.limit)
        self.line.setAccessibleName(say("sheets.air.figure_of", gas=box.name, unit=box.unit))
        self.line.setAccessibleDescription(self._below.text())

    def _chose(self) -> None:
        self.set_state(self.shows())
        self.state_chosen.emit(self.shows())

    def shows(self) -> str:
        """'measured' while a figure is to be typed, else what stands in place of it."""
        return str(self.state.currentData())

    def set_state(self, state: str) -> None:
        """What the instrument shows."""
        self.state.setCurrentIndex(max(0, self.state.findData(state)))
        self.line.setEnabled(state == "measured")

    def trouble(self) -> str:
        """Why this box cannot be stored; empty when it can."""
        if self.shows() != "measured":
            return ""
        if not self.line.text().strip():
            return say("sheets.air.box_open", gas=self.gas.name)
        try:
            read_figure(self.line.text())
        except Refusal as refusal:
            return say("sheets.air.box_wrong", gas=self.gas.name, why=refusal.why)
        return ""

    def caution(self) -> str:
        """What could be mistaken about a readable figure; empty when nothing can."""
        doubt = read_as(self.line.text()) if self.shows() == "measured" and not self.trouble() else None
        return say("sheets.air.box_wrong", gas=self.gas.name, why=doubt) if doubt is not None else ""

    def mark(self, wrong: bool) -> None:
        """Edge the box as wrong, or not."""
        self.line.setProperty("trouble", wrong)
        self.line.style().unpolish(self.line)
        self.line.style().polish(self.line)

    def figure(self) -> Figure:
        """The figure as it is stored; only after ``trouble`` was empty."""
        text = canonical(read_figure(self.line.text())) if self.shows() == "measured" else ""
        return event_figure(self.gas.gas, self.gas.unit, self.shows(), text)


class GasBoxes(QWidget):
    """The boxes side by side. Enter goes to the next one. Signals: ``left()``, ``done()`` on Enter in the last box,
    ``typed(gas, text)``."""

    left = Signal()
    done = Signal()
    typed = Signal(str, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.entries: list[GasEntry] = []
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(12)

    def set_boxes(self, boxes: Sequence[GasBox]) -> None:
        """These gases; what stands in a box stays while the gases are the same."""
        if [box.gas for box in boxes] != [entry.gas.gas for entry in self.entries]:
            self._build(boxes)
        for entry, box in zip(self.entries, boxes, strict=True):
            entry.show_box(box)

    def _build(self, boxes: Sequence[GasBox]) -> None:
        for entry in self.entries:
            self._row.removeWidget(entry)
            entry.hide()
            entry.deleteLater()
        self.entries = [GasEntry(box, self) for box in boxes]
        for at, entry in enumerate(self.entries):
            self._row.addWidget(entry, 1)
            entry.left.connect(self.left)
            entry.entered.connect(lambda at=at: self._next(at))
            entry.typed.connect(lambda text, gas=entry.gas.gas: self.typed.emit(gas, text))
            entry.state_chosen.connect(lambda _state: self.left.emit())

    def _next(self, at: int) -> None:
        later = [entry for entry in self.entries[at + 1 :] if entry.shows() == "measured"]
        if later:
            later[0].line.setFocus()
        else:
            self.done.emit()

    def clear(self, without: Iterable[str] = ()) -> None:
        """Empty boxes; a gas that the instrument has no sensor for is not measured, and says so."""
        for entry in self.entries:
            entry.line.clear()
            entry.mark(False)
            entry.set_state("not-measured" if entry.gas.gas in set(without) else "measured")

    def first_open(self) -> QWidget | None:
        """The first box that wants a figure."""
        return next((entry.line for entry in self.entries if entry.trouble()), None)

    def figures(self) -> tuple[Figure, ...]:
        """All figures, in order."""
        return tuple(entry.figure() for entry in self.entries)
