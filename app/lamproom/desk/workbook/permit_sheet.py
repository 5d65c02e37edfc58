"""What the sheets on air, people, rescue and review have in common: they show one permit and listen to the record."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import QFrame, QLayout, QScrollArea, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button
from lamproom.desk.parts.dress import Worn
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, look_of
from lamproom.words import say

_WATCHED = ("instrument/", "person/", "site")


class PermitSheet(QWidget):
    """A sheet of one permit. ``name`` is its key in the workbook; a sheet writes ``refresh`` and ``show_target``.

    It is painted anew when a stored act touched its permit, or an instrument, a person or the site; while hidden it
    only notes that it is stale. Signal: ``finished()`` nothing more is to be done here now.
    """

    finished = Signal()

    def __init__(self, desk: Desk, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.name = name
        self.number = ""
        self._stale = False
        self.heard = ""
        self.setObjectName(f"workbook.{name}")
        desk.changed.connect(self._changed)
        desk.said.connect(self._hear)

    def show_permit(self, number: str) -> None:
        """Show this permit; what was half typed on another one stays with that one."""
        other = number != self.number
        self.number = number
        if other:
            self.begin()
        self.refresh()

    def show_target(self, rest: str) -> None:
        """Put the keyboard on the field that an obstacle names."""

    def show_open(self) -> bool:
        """Put the keyboard on what is open here; False where the sheet has no such place of its own."""
        return False

    def freshen(self) -> None:
        """Paint what changed while the sheet was hidden, before anything is looked for on it."""
        if self._stale and self.number:
            self._stale = False
            self.refresh()

    def begin(self) -> None:
        """Another permit is shown: bring back its drafts."""

    def refresh(self) -> None:
        """Paint what the record says now."""

    def _changed(self, streams: object) -> None:
        if not self.number or not isinstance(streams, Iterable):
            return
        mine = f"permit/{self.number}"
        if any(stream == mine or str(stream).startswith(_WATCHED) for stream in streams):
            if self.isVisible():
                self.refresh()
            else:
                self._stale = True

    def showEvent(self, event: QShowEvent) -> None:
        """Shown again after something changed, perhaps in a window of another look than it was made in."""
        super().showEvent(event)
        look = look_of(self)
        for child in self.findChildren(QWidget):
            if isinstance(child, Worn):
                child.wear(look)
        self.freshen()

    # Acts -------------------------------------------------------------------------------------------------------------

    def _hear(self, kind: str, words: str) -> None:
        """Keep the words of a refusal, to say them where the hand is."""
        self.heard = words if kind == "refused" else ""

    def person(self) -> str | None:
        """In whose name an act is recorded; nobody at the desk is said, and then nothing is recorded."""
        if self.desk.person is None:
            self.desk.said.emit("refused", say("workbook.who"))
        return self.desk.person

    # Drafts -----------------------------------------------------------------------------------------------------------

    @property
    def owner(self) -> str:
        """In whose name half-typed text is kept."""
        return f"permit/{self.number}/{self.name}"

    def keep(self, key: str, text: str) -> None:
        """Keep half-typed text, or let it go when empty."""
        self.desk.keep_draft(self.owner, key, text)

    def kept(self, key: str) -> str:
        """What was half typed."""
        return self.desk.draft(self.owner, key)


class Press(Button):
    """A button that Enter presses too, where the flow of the keyboard ends on it."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses; held down it presses once, so that it cannot answer what comes next."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if not event.isAutoRepeat():
                self.click()
        else:
            super().keyPressEvent(event)


def scrolling(page: QWidget) -> QScrollArea:
    """A page that scrolls up and down when the window is low; it never scrolls sideways."""
    page.setProperty("ground", "clear")
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(page)
    return area


def head(text: str, size: Letter = Letter.HEAD) -> Label:
    """The head of a sheet or of a part of it."""
    return Label(text, size, bold=True)


def emptied(layout: QLayout) -> None:
    """Take everything out of a layout; it leaves the screen at once, not when Qt finds the time."""
    while layout.count():
        item = layout.takeAt(0)
        if item is not None and (widget := item.widget()) is not None:
            widget.hide()
            widget.deleteLater()
