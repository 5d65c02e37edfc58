"""Dressing a window: its theme, its scale of text, its ring of focus. Changing the theme is dressing it again."""

from __future__ import annotations

from typing import Protocol, runtime_checkable

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.focus_ring import FocusRing
from lamproom.desk.theme import Letter, Look, mark_look, palette, style_sheet


@runtime_checkable
class Worn(Protocol):
    """A widget that must be told when the look changes, because Qt keeps a copy of it: a font, a fixed height."""

    def wear(self, look: Look) -> None:
        """Take fonts and lengths from the look."""


def dress(window: QWidget, look: Look) -> None:
    """Give a window, and everything in it, a theme and a scale; call again to change them."""
    mark_look(window, look)
    window.setFont(letter(look, Letter.BODY))
    window.setPalette(palette(look))
    window.setStyleSheet(style_sheet(look))
    window.setAutoFillBackground(True)
    for child in window.findChildren(QWidget):
        if isinstance(child, Worn):
            child.wear(look)
        child.updateGeometry()
        child.update()
    if window.findChild(FocusRing) is None:
        FocusRing(window)


def puts_on(event: QEvent) -> bool:
    """True for the events on which a widget takes its look: its polish, a new place to stand, every showing.

    A part laid out before it stands in a window is polished in no window's look, and Qt polishes it once; when a window
    changes its look, Qt brings kept palettes back. So a part looks again whenever it is shown.
    """
    return event.type() in (QEvent.Type.Polish, QEvent.Type.ParentChange, QEvent.Type.Show)
