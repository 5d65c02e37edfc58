"""The plan of the air test as a row of places: read, open, to be read again, or only after opening."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QGridLayout, QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Letter, Place, Role, look_of
from lamproom.office.views.air_places import PlacePlan
from lamproom.words import say

_SIGNS = {
    "done": Sign.WITHIN,
    "open": Sign.NOT_STARTED,
    "again": Sign.CAUTION,
    "outside": Sign.DANGER,
    "shut": Sign.DRAFT,
}
IN_A_ROW = 9
"""Places in a row."""
_LEFT, _SIGN = 7, 15


class _Chip(QAbstractButton):
    """One place: its sign and name, below it the time or what is missing; an ink edge on the one at hand."""

    def __init__(self, place: PlacePlan, parent: QWidget) -> None:
        super().__init__(parent)
        self.place = place
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setObjectName(f"workbook.air-test.place.{place.key}")
        self.show_place(place)

    def show_place(self, place: PlacePlan) -> None:
        self.place = place
        self.setAccessibleName(say("sheets.air.place_title", name=place.name, words=place.words))
        self.updateGeometry()
        self.update()

    def nextCheckState(self) -> None:
        """The strip marks the place at hand."""

    def sizeHint(self) -> QSize:
        look = look_of(self)
        bold, small = letter(look, Letter.SMALL, True), letter(look, Letter.TICK)
        wide = max(
            QFontMetricsF(bold).horizontalAdvance(self.place.name) + look.px(_LEFT + _SIGN + 4),
            QFontMetricsF(small).horizontalAdvance(self.place.words) + look.px(_LEFT),
        )
        return QSize(round(wide) + look.px(5), look.px(Place.TRAILER + 4))

    def minimumSizeHint(self) -> QSize:
        look = look_of(self)
        bold = QFontMetricsF(letter(look, Letter.SMALL, True))
        return QSize(round(bold.horizontalAdvance(self.place.name)) + look.px(_LEFT + _SIGN + 8), look.px(50))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        here = self.isChecked()
        width = look.emphasis + 1 if here else look.edge()
        half = width / 2
        edge = look.colour(Role.INK if here else Role.EDGE)
        painter.setPen(edge_pen(edge, width, dashed=self.place.state == "shut" and not here))
        painter.setBrush(look.colour(Role.PANEL if self.isDown() else Role.GROUND))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)
        side, left = look.px(_SIGN), look.px(_LEFT)
        draw_sign(painter, QRectF(left, look.px(8), side, side), _SIGNS[self.place.state], look.theme)
        painter.setPen(look.colour(Role.TEXT))
        for text, font, x, y in (
            (self.place.name, letter(look, Letter.SMALL, True), left + side + look.px(4), look.px(5)),
            (self.place.words, letter(look, Letter.TICK), left, look.px(26)),
        ):
            painter.setFont(font)
            fitted = QFontMetricsF(font).elidedText(text, Qt.TextElideMode.ElideRight, self.width() - x - 2)
            painter.drawText(QRectF(x, y, self.width() - x, look.px(21)), Qt.AlignmentFlag.AlignVCenter, fitted)
            painter.setPen(look.colour(Role.TEXT if look.sun else Role.SECOND))


class AirPlan(QWidget):
    """The places side by side, nine in a row. Signal: ``chosen(str)``, the key of a place, on each press."""

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._chips: dict[str, _Chip] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(5)
        self.setAccessibleName(say("sheets.air.plan"))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def set_plan(self, plan: Sequence[PlacePlan], here: str) -> None:
        """Show these places; ``here`` is the one at hand."""
        if [place.key for place in plan] != list(self._chips):
            self._build(plan)
        for place in plan:
            chip = self._chips[place.key]
            chip.show_place(place)
            chip.setChecked(place.key == here)

    def _build(self, plan: Sequence[PlacePlan]) -> None:
        for chip in self._chips.values():
            self._grid.removeWidget(chip)
            chip.hide()
            chip.deleteLater()
        self._chips = {}
        for at, place in enumerate(plan):
            chip = _Chip(place, self)
            chip.clicked.connect(lambda _checked=False, key=place.key: self.chosen.emit(key))
            self._chips[place.key] = chip
            self._grid.addWidget(chip, at // IN_A_ROW, at % IN_A_ROW)

    def chip(self, key: str) -> QAbstractButton | None:
        """The button of a place; None where the plan has none."""
        return self._chips.get(key)
