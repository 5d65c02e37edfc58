"""What stands in the way, at the portal: whole rows, nothing scrolls; what has no room is counted on a key."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from lamproom.desk.parts.label import Label
from lamproom.desk.parts.obstacle_list import ObstacleRow, Row
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place
from lamproom.desk.watch.cells import Cell
from lamproom.desk.watch.panel import put_away
from lamproom.words import say, say_count

APART, RING, TWO, MORE = 12, 5, 640, 132
"""Pixels: between columns, left free for the ring of the focus, the width from which on there are two columns, and the
width of the key."""


class StandsPane(QWidget):
    """A title that counts, the rows that fit, and a key that tells how many more and turns to them.

    Signal: ``chosen(str)`` with the target of the row pressed.
    """

    chosen = Signal(str)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._rows: list[Row] = []
        self._all: list[ObstacleRow] = []
        self._first = 0
        self._title = Label("", Letter.HEAD, bold=True, wrap=True, parent=self)
        self._more = Cell(f"{name}.more", "", sign=Sign.DOWN, parent=self)
        self._more.clicked.connect(self._turn)
        self._shown = 0
        self.set_obstacles(())

    def set_obstacles(self, rows: Sequence[ObstacleRow], cautions: Sequence[ObstacleRow] = ()) -> None:
        """Show these; the keyboard stays with a row that is still there. ``cautions`` follow and are not counted."""
        words = say_count("desk.stand", len(rows)) if rows else say("desk.nothing_stands")
        if words != self._title.text():
            self._title.setText(words)
            self.setAccessibleName(words)
        rows = [*rows, *cautions]
        if self._all == rows:
            return
        self._all = rows
        focused = next((row.shown.target for row in self._rows if row.hasFocus()), None)
        for row in self._rows:
            put_away(row)
        self._first = 0
        self._rows = [self._row(shown) for shown in rows]
        self._place()
        for row in self._rows:
            if focused is not None and row.shown.target == focused:
                row.setFocus()

    def _row(self, shown: ObstacleRow) -> Row:
        row = Row(shown, self)
        row.clicked.connect(lambda _checked=False, target=shown.target: self._follow(target))
        return row

    def _follow(self, target: str) -> None:
        if target:
            self.chosen.emit(target)

    def _turn(self) -> None:
        self._first += self._shown
        if self._first >= len(self._rows):
            self._first = 0
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Other rows fit."""
        self._place()

    def _place(self) -> None:
        if not self.width() or not self.height():
            return
        whole = self._all_fit()
        if not whole:
            self._some_fit()
        self._more.setVisible(not whole)
        self._more.set_words(say("watch.stands.more", count=len(self._rows) - self._shown), "", Sign.DOWN)

    def _head(self, wide: int) -> int:
        """Lay the title; gives its height."""
        self._title.setMinimumHeight(0)
        high = self._title.heightForWidth(wide)
        self._title.setGeometry(0, 0, wide, high)
        return high

    def _tell(self, clears: bool, rule: bool) -> None:
        """What each row says beside its sentence."""
        for row, shown in zip(self._rows, self._all, strict=True):
            row.shown = replace(shown, clears=shown.clears if clears else "", rule=shown.rule if rule else "")

    def _all_fit(self) -> bool:
        """All rows, with the rule of each where there is room for it."""
        top = self._head(self.width()) + 4
        for rule in (True, False):
            self._tell(True, rule)
            places = self._packed(0, top, self.height())
            if len(places) == len(self._rows):
                self._first = 0
                self._show(places)
                return True
        return False

    def _some_fit(self) -> None:
        """The key beside the title; sentences alone where more of them fit so. A press still leads to what clears."""
        key = QRect(self.width() - RING - MORE, 0, MORE, Place.PORTAL)
        self._more.setGeometry(key)
        top = max(self._head(key.left() - APART), Place.PORTAL) + 4
        self._tell(True, False)
        places = self._packed(self._first, top, self.height())
        self._tell(False, False)
        bare = self._packed(self._first, top, self.height())
        if len(bare) > len(places):
            places = bare
        else:
            self._tell(True, False)
        self._show(places)

    def _show(self, places: list[QRect]) -> None:
        self._shown = max(1, len(places))
        for row in self._rows:
            row.hide()
        for row, place in zip(self._rows[self._first :], places, strict=False):
            # A row keeps the height of what it told before: it gives way first.
            row.setFixedHeight(place.height())
            row.setGeometry(place)
            row.show()
            row.update()

    def _packed(self, first: int, top: int, foot: int) -> list[QRect]:
        """Places of the rows from ``first`` on that fit whole, column by column; at least one."""
        columns = 2 if self.width() >= TWO else 1
        wide = (self.width() - 2 * RING - APART * (columns - 1)) // columns
        places: list[QRect] = []
        column, y = 0, top
        for row in self._rows[first:]:
            high = row.needed_height(wide)
            if y + high > foot and y > top:
                column, y = column + 1, top
            if column >= columns or (y + high > foot and places):
                break
            places.append(QRect(RING + column * (wide + APART), y, wide, high))
            y += high
        return places

    def rows(self) -> list[ObstacleRow]:
        """All that stands, seen or counted."""
        return list(self._all)

    def focus_first(self) -> None:
        """Give the keyboard to the first row in sight that leads anywhere."""
        for row in self._rows:
            if row.shown.target and not row.isHidden():
                row.setFocus(Qt.FocusReason.OtherFocusReason)
                return
