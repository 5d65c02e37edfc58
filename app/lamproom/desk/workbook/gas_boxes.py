"""The figures of one set: a box for each gas in the fixed order, and the choice of what stands in place of a figure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QStyleOptionComboBox, QVBoxLayout, QWidget

from lamproom.air.figures import canonical, read_figure
from lamproom.desk.parts.choice import DropBox
from lamproom.desk.parts.field import LineBox
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Place, Role
from lamproom.office.views.air_boxes import BoxWords
from lamproom.office.views.air_test_sheet import GasBox
from lamproom.office.views.air_working import event_figure
from lamproom.permit.events import Figure
from lamproom.words import say

_DROP = 42
STATES = ("measured", "not-measured", "fault", "over-range")
Judge = Callable[[str, str], BoxWords]
"""Gas and text to what is to be said of it."""


class _StateDrop(DropBox):
    """Only its sign is shown: what was chosen stands in the box beside it."""

    def __init__(self, place: Place) -> None:
        super().__init__(place)
        self.setFixedWidth(_DROP)
        self.view().setMinimumWidth(200)

    def initStyleOption(self, option: QStyleOptionComboBox) -> None:
        super().initStyleOption(option)
        option.currentText = ""


class GasEntry(QWidget):
    """One gas: name and unit above, the box, limit and last value below, and what the instrument shows instead.

    Signals: ``left()`` when the box was left, ``entered()`` on Enter, ``typed(text)`` while typing,
    ``state_chosen(str)``.
    """

    left = Signal()
    entered = Signal()
    typed = Signal(str)
    state_chosen = Signal(str)

    def __init__(self, box: GasBox, judge: Judge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.gas = box
        self._judge = judge
        self.line = LineBox(Place.TRAILER, Letter.HEAD, True)
        self.line.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.line.setInputMethodHints(Qt.InputMethodHint.ImhFormattedNumbersOnly)
        self.line.setObjectName(f"workbook.air-test.figure.{box.gas}")
        caption = Label(size=Letter.SMALL, bold=True)
        caption.setText(box.name)
        caption.setBuddy(self.line)
        self._below = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._last = Label(size=Letter.TICK, tone=Role.SECOND)
        self.state = _StateDrop(Place.TRAILER)
        self.state.setObjectName(f"workbook.air-test.state.{box.gas}")
        self.state.setAccessibleName(say("sheets.air.state_of", gas=box.name))
        for state in STATES:
            self.state.addItem(say(f"sheets.air.state.{state}"), state)
        row = QHBoxLayout()
        row.setSpacing(4)
        row.addWidget(self.line, 1)
        row.addWidget(self.state)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(2)
        page.addWidget(caption)
        page.addLayout(row)
        page.addWidget(self._below)
        page.addWidget(self._last)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.line.editingFinished.connect(self.left)
        self.line.returnPressed.connect(self.entered)
        self.line.textEdited.connect(self.typed)
        self.state.activated.connect(lambda _row: self._chose())
        self.show_box(box)

    def show_box(self, box: GasBox) -> None:
        """The limit and the last value of now."""
        self.gas = box
        self._below.setText(box.limit)
        self._last.setText(say("desk.last_value", value=box.last) if box.last else "")
        self.line.setAccessibleName(say("sheets.air.figure_of", gas=box.name, unit=box.unit))
        limit_and_last = say("sheets.air.limit_last", limit=box.limit, last=box.last) if box.last else box.limit
        self.line.setAccessibleDescription(limit_and_last)

    def _chose(self) -> None:
        self.set_state(self.shows())
        self.state_chosen.emit(self.shows())

    def shows(self) -> str:
        """'measured' while a figure is to be typed, else what stands in place of it."""
        return str(self.state.currentData())

    def set_state(self, state: str) -> None:
        """What the instrument shows."""
        self.state.setCurrentIndex(max(0, self.state.findData(state)))
        measured = state == "measured"
        self.line.setEnabled(measured)
        if not measured:
            self.line.clear()
        # Not a hint in an empty box: it is the answer that stands in place of a figure.
        self.line.setPlaceholderText("" if measured else say(f"sheets.air.state.{state}"))

    def words(self) -> BoxWords:
        """What is to be said of this box as it stands."""
        return self._judge(self.gas.gas, self.line.text()) if self.shows() == "measured" else BoxWords()

    def filled(self) -> bool:
        """Does something stand in the box?"""
        return bool(self.line.text().strip())

    def mark(self, wrong: bool) -> None:
        """Edge the box as wrong, or not."""
        self.line.setProperty("trouble", wrong)
        self.line.style().unpolish(self.line)
        self.line.style().polish(self.line)

    def figure(self) -> Figure:
        """The figure as it is stored; only after its words held no trouble."""
        text = canonical(read_figure(self.line.text())) if self.shows() == "measured" else ""
        return event_figure(self.gas.gas, self.gas.unit, self.shows(), text)


class GasBoxes(QWidget):
    """The boxes side by side. Enter goes to the next one. Signals: ``left()``, ``done()`` on Enter in the last box,
    ``typed(gas, text)``."""

    left = Signal()
    done = Signal()
    typed = Signal(str, str)

    def __init__(self, judge: Judge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._judge = judge
        self.entries: list[GasEntry] = []
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(14)

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
        self.entries = [GasEntry(box, self._judge, self) for box in boxes]
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

    def go_on(self, entry: GasEntry) -> None:
        """To the box after this one, as Enter does."""
        self._next(self.entries.index(entry))

    def clear(self, without: Iterable[str] = ()) -> None:
        """Empty boxes; a gas that the instrument has no sensor for is not measured, and says so."""
        for entry in self.entries:
            entry.line.clear()
            entry.mark(False)
            entry.set_state("not-measured" if entry.gas.gas in set(without) else "measured")

    def first_open(self) -> QWidget | None:
        """The first box that wants a figure."""
        return next((entry.line for entry in self.entries if entry.words().trouble), None)

    def figures(self) -> tuple[Figure, ...]:
        """All figures, in order."""
        return tuple(entry.figure() for entry in self.entries)
