"""What the sheets on space, hazards, isolation and instruments share: head, scrolling, drafts, and moving on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from PySide6.QtCore import QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Kind
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place, Role
from lamproom.desk.workbook.permit_sheet import Press
from lamproom.desk.workbook.said_line import SaidLine
from lamproom.words import say

WIDEST = 1120
"""Pixels beyond which a line of questions is no longer read as one line."""


class Sheet(QWidget):
    """A sheet of a permit. A subclass fills ``page`` once, paints its view in ``refresh``, and names its ``places``.

    Signal: ``finished()`` an answer was given on purpose (a press, Enter) and nothing further down waits: the Workbook
    may go on. Leaving a field records what it holds and turns no page.
    """

    finished = Signal()

    def __init__(self, desk: Desk, key: str, title: str, under: str = "") -> None:
        super().__init__()
        self.desk, self.key, self.number = desk, key, ""
        self._heard = ""
        self._stale = False
        self._fixed = SaidLine(Sign.MUST, side=20)
        self._content = content = QWidget()
        content.setProperty("ground", "clear")
        content.setMaximumWidth(WIDEST)
        self.page = QVBoxLayout(content)
        self.page.setContentsMargins(18, 6, 18, 24)
        self.page.setSpacing(10)
        head = QHBoxLayout()
        head.setSpacing(12)
        head.addWidget(Label(title, Letter.HEAD, bold=True))
        head.addWidget(Label(under, Letter.SMALL, tone=Role.SECOND))
        head.addStretch(1)
        # The head stays while the sheet scrolls under it.
        self.pinned = QVBoxLayout()
        self.pinned.setContentsMargins(18, 10, 18, 4)
        self.pinned.setSpacing(6)
        self.pinned.addLayout(head)
        self.pinned.addWidget(self._fixed)
        self._fixed.hide()
        self._area = QScrollArea()
        self._area.setWidgetResizable(True)
        self._area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._area.setWidget(content)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addLayout(self.pinned)
        whole.addWidget(self._area, 1)
        self.setAccessibleName(title)
        desk.said.connect(self._hear)
        desk.changed.connect(self._changed)

    # Shown ------------------------------------------------------------------------------------------------------------

    def show_permit(self, number: str) -> None:
        """Show another permit."""
        self.number = number
        self.refresh()

    def show_target(self, rest: str) -> None:
        """Put the keyboard on what an obstacle's link names; the first control where nothing of that name is here."""
        place = self.place(rest)
        if place is not None and place.isVisibleTo(self):
            self.reach(place)

    def show_open(self) -> None:
        """Put the keyboard on the first thing that is open here."""
        place = next((place for place in self.open_places() if place.isVisibleTo(self)), None)
        if place is not None:
            self.reach(place)
            return
        first = next((child for child in self.findChildren(QWidget) if takes_keys(child)), None)
        if first is not None:
            first.setFocus(Qt.FocusReason.OtherFocusReason)

    def open_places(self) -> list[QWidget]:
        """The controls that wait for something, from the top."""
        return []

    def place(self, rest: str) -> QWidget | None:
        """The control that a target within this sheet means."""
        raise NotImplementedError

    def refresh(self) -> None:
        """Paint what is recorded now."""
        raise NotImplementedError

    def _changed(self, streams: frozenset[str]) -> None:
        if not self.number or not self.concerns(streams):
            return
        if self.isVisible():
            self.refresh()
        else:
            self._stale = True

    def concerns(self, streams: Iterable[str]) -> bool:
        """Does an act on these streams change this sheet?"""
        return f"permit/{self.number}" in streams

    def showEvent(self, event: QShowEvent) -> None:
        """What changed while another sheet was open is painted now."""
        super().showEvent(event)
        self.freshen()

    def freshen(self) -> None:
        """Paint what changed while the sheet was hidden, before anything is looked for on it."""
        if self._stale and self.number:
            self._stale = False
            self.refresh()

    def say_fixed(self, why: str) -> None:
        """Say under the title why nothing can be changed here; empty: it can."""
        self._fixed.say_it(Sign.MUST, why)
        self._fixed.setVisible(bool(why))

    # Acts -------------------------------------------------------------------------------------------------------------

    def _hear(self, kind: str, words: str) -> None:
        self._heard = words if kind == "refused" else ""

    def record(self, act: Callable[..., Any], *args: object, beside: Field | None = None) -> bool:
        """Do an act on this permit in the name of the person at the desk; a refusal is also said beside the field."""
        if self.desk.person is None:
            self.desk.said.emit("refused", say("workbook.who"))
            done = False
        else:
            done = self.desk.do(act, self.number, *args, by=self.desk.person)
        if beside is not None:
            if done:
                beside.clear_error()
            else:
                beside.show_error(self._heard)
        return done

    # Drafts -----------------------------------------------------------------------------------------------------------

    @property
    def owner(self) -> str:
        """Whose drafts: this permit's."""
        return f"permit/{self.number}"

    def keep(self, name: str, text: str) -> None:
        """Keep half-typed text or a half-given answer; empty text drops it."""
        if self.draft(name) != text:
            self.desk.keep_draft(self.owner, self.name(name), text)

    def draft(self, name: str) -> str:
        """What was kept under a name."""
        return self.desk.draft(self.owner, self.name(name))

    def name(self, *parts: str) -> str:
        """The name of a control of this sheet."""
        return ".".join(("workbook", self.key, *parts))

    # Parts ------------------------------------------------------------------------------------------------------------

    def field(self, name: str, field: Field) -> Field:
        """Name a field and keep its draft while it is typed in."""
        field.box.setObjectName(self.name(name))
        field.typing.connect(lambda text: self.keep(name, text))
        return field

    def button(self, name: str, words: str, pressed: Callable[[], object], kind: Kind = Kind.PLAIN) -> Press:
        """A named button."""
        button = Press(words, kind, Place.TRAILER)
        button.setObjectName(self.name(name))
        button.clicked.connect(lambda _checked=False: pressed())
        return button

    def section(self, title: str) -> Label:
        """A line and a small head over a group."""
        self.page.addSpacing(4)
        self.page.addWidget(rule(strong=True))
        label = Label(title, Letter.TABLE, bold=True)
        self.page.addWidget(label)
        return label

    def reach(self, widget: QWidget) -> None:
        """Give the keyboard to a control and scroll so that it and what stands about it is seen."""
        widget.setFocus(Qt.FocusReason.OtherFocusReason)
        self._area.ensureWidgetVisible(widget, 0, 90)
        # A sheet that was not yet laid out has no place to scroll to: once more when it is.
        QTimer.singleShot(0, widget, lambda: self._see(widget))

    def show_part(self, widget: QWidget) -> None:
        """Scroll so that a part that just came is seen, once it is laid out."""
        QTimer.singleShot(0, widget, lambda: self._area.ensureWidgetVisible(widget, 0, 8))

    def _see(self, widget: QWidget) -> None:
        if self.focusWidget() is widget:
            self._area.ensureWidgetVisible(widget, 0, 90)

    def move_on(self, after: QWidget, places: Iterable[QWidget]) -> None:
        """Give the keyboard to the first open place below a control; where none is open the Workbook goes on."""
        base = self._content
        here = after.mapTo(base, QPoint(0, 0)).y()
        for place in places:
            if place.isVisibleTo(base) and place.mapTo(base, QPoint(0, 0)).y() > here:
                self.reach(place)
                return
        self.finished.emit()


def takes_keys(widget: QWidget) -> bool:
    """Can the keyboard be given to it now?"""
    tab = Qt.FocusPolicy.TabFocus.value
    return widget.isVisible() and widget.isEnabled() and bool(widget.focusPolicy().value & tab)


def columns(*widgets: QWidget | None, spacing: int = 12, middle: bool = False) -> QHBoxLayout:
    """Controls side by side, tops (or middles) level; None is the place that takes what room is left."""
    row = QHBoxLayout()
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(spacing)
    for widget in widgets:
        if widget is None:
            row.addStretch(1)
        else:
            row.addWidget(widget, 0, Qt.AlignmentFlag.AlignVCenter if middle else Qt.AlignmentFlag.AlignTop)
    return row


def block(*, spacing: int = 6) -> tuple[QWidget, QVBoxLayout]:
    """A plain part of a sheet and its column."""
    widget = QWidget()
    column = QVBoxLayout(widget)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(spacing)
    widget.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
    return widget, column
