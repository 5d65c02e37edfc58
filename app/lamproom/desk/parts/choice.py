"""Choosing from a list: rows as large as their place asks, or a drop list that the wheel cannot change."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QAbstractButton, QComboBox, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.dress import puts_on
from lamproom.desk.parts.field import mnemonic_text
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Letter, Look, Place, Role, look_of
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to choose: its value, its words, a second line, and why it cannot be chosen now (empty: it can)."""

    value: str
    words: str
    note: str = ""
    barred: str = ""


class OptionRow(QAbstractButton):
    """One row: a ring (one of many) or a box (any of many), the words, the note."""

    def __init__(self, option: Option, many: bool, place: Place, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.option = option
        self._many, self._place = many, place
        self.setCheckable(True)
        self.setEnabled(not option.barred)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(option.words)
        self.setAccessibleDescription(", ".join(part for part in (option.note, option.barred) if part))

    def _second(self) -> str:
        return self.option.barred or self.option.note

    def sizeHint(self) -> QSize:
        """As high as its place, higher with a second line."""
        look = look_of(self)
        high = max(look.px(self._place), look.px(56) if self._second() else 0)
        wide = QFontMetricsF(letter(look, Letter.TABLE, True)).horizontalAdvance(self.option.words)
        wide = max(wide, QFontMetricsF(letter(look, Letter.SMALL)).horizontalAdvance(self._second()))
        return QSize(round(wide) + look.px(12 + 22 + 12 + 16), high)

    def minimumSizeHint(self) -> QSize:
        """May be narrower; the words are then cut with an ellipsis."""
        return QSize(look_of(self).px(120), self.sizeHint().height())

    def nextCheckState(self) -> None:
        """One of many is not pressed away; any of many is."""
        self.setChecked(not self.isChecked() if self._many else True)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down walk along the rows and choose nothing; Enter or Space chooses."""
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            (self.focusNextChild if event.key() == Qt.Key.Key_Down else self.focusPreviousChild)()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Edge in ink when chosen, dashed when it cannot be."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = self.isChecked()
        width = max(look.edge(self._place), look.emphasis) if chosen or self.isDown() else look.edge(self._place)
        half = width / 2
        painter.setPen(edge_pen(look.colour(Role.INK if chosen else Role.EDGE), width, dashed=not self.isEnabled()))
        painter.setBrush(look.colour(Role.PANEL if self.isDown() else Role.GROUND))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)
        side = look.px(22)
        self._paint_mark(painter, look, QRectF(look.px(12), (self.height() - side) / 2, side, side))
        self._paint_words(painter, look, look.px(12 + 22 + 12))

    def _paint_mark(self, painter: QPainter, look: Look, box: QRectF) -> None:
        ink = look.colour(Role.TEXT if self.isEnabled() else Role.SECOND)
        painter.setPen(QPen(ink, 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        inner = box.adjusted(1, 1, -1, -1)
        painter.drawRect(inner) if self._many else painter.drawEllipse(inner)
        if not self.isChecked():
            return
        if self._many:
            draw_sign(painter, box.adjusted(4, 4, -4, -4), Sign.TICK, look.theme, ink)
        else:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(ink)
            painter.drawEllipse(inner.adjusted(4.5, 4.5, -4.5, -4.5))

    def _paint_words(self, painter: QPainter, look: Look, x: int) -> None:
        first, second = letter(look, Letter.TABLE, self.isChecked()), letter(look, Letter.SMALL)
        room = self.width() - x - look.px(8)
        painter.setPen(look.colour(Role.TEXT if self.isEnabled() else Role.SECOND))
        painter.setFont(first)
        metrics = QFontMetricsF(first)
        words = metrics.elidedText(self.option.words, Qt.TextElideMode.ElideRight, room)
        middle = self.height() / 2
        note = self._second()
        painter.drawText(QPointF(x, middle + (-look.px(4) if note else metrics.capHeight() / 2)), words)
        if note:
            painter.setFont(second)
            painter.setPen(look.colour(Role.SECOND))
            note = QFontMetricsF(second).elidedText(note, Qt.TextElideMode.ElideRight, room)
            painter.drawText(QPointF(x, middle + look.px(18)), note)


class Choice(QWidget):
    """A question and its options as rows; nothing is preset.

    ``many``: any number may be chosen. Signals: ``chosen(str)`` with the value of the row just pressed,
    ``changed(list)`` with all values chosen.
    """

    chosen = Signal(str)
    changed = Signal(list)

    def __init__(
        self,
        question: str,
        options: Sequence[Option] = (),
        *,
        many: bool = False,
        across: bool = False,
        place: Place = Place.TRAILER,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._many, self._place = many, place
        self._rows: list[OptionRow] = []
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        if question:
            page.addWidget(Label(question, Letter.TABLE, bold=True, wrap=True))
        self._list: QHBoxLayout | QVBoxLayout = QHBoxLayout() if across else QVBoxLayout()
        self._list.setSpacing(12 if place is Place.PORTAL else 6)
        page.addLayout(self._list)
        self.setAccessibleName(question)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.set_options(options)

    def set_options(self, options: Iterable[Option]) -> None:
        """Other options; what was chosen stays chosen where it is still there."""
        before = set(self.values())
        focused = next((row.option.value for row in self._rows if row.hasFocus()), None)
        for row in self._rows:
            self._list.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows = []
        for option in options:
            row = OptionRow(option, self._many, self._place, self)
            row.setChecked(option.value in before)
            row.clicked.connect(lambda _checked=False, value=option.value: self._pressed(value))
            self._rows.append(row)
            self._list.addWidget(row)
            row.show()
            if option.value == focused:
                row.setFocus()

    def _pressed(self, value: str) -> None:
        if not self._many:
            for row in self._rows:
                row.setChecked(row.option.value == value)
        self.chosen.emit(value)
        self.changed.emit(self.values())

    def values(self) -> list[str]:
        """Everything chosen, in the order of the rows."""
        return [row.option.value for row in self._rows if row.isChecked()]

    def value(self) -> str:
        """The one chosen; empty when none is."""
        return next(iter(self.values()), "")

    def set_values(self, values: Iterable[str]) -> None:
        """Show what is stored; tells nobody."""
        wanted = set(values)
        for row in self._rows:
            row.setChecked(row.option.value in wanted)

    def row(self, value: str) -> OptionRow:
        """The row of a value; KeyError where there is none."""
        for row in self._rows:
            if row.option.value == value:
                return row
        raise KeyError(value)


class DropBox(QComboBox):
    """Qt's drop list without the wheel, which would change an answer while someone scrolls the sheet."""

    def __init__(self, place: Place, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._place = place
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.wear(look_of(self))

    def wear(self, look: Look) -> None:
        """Take font and height from the look."""
        font = letter(look, Letter.OFFICE if self._place is Place.OFFICE else Letter.BODY)
        self.setFont(font)
        self.view().setFont(font)
        self.setFixedHeight(look.px(self._place))

    def event(self, event: QEvent) -> bool:
        """Dress when first shown."""
        if puts_on(event):
            self.wear(look_of(self))
        return super().event(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Let the sheet scroll instead."""
        event.ignore()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys open the list; only Enter in it chooses. A closed list that changed at each arrow would record, on the
        way to the third name, that the first two had been chosen."""
        plain = event.modifiers() in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier)
        moves = event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Home, Qt.Key.Key_End, Qt.Key.Key_PageUp)
        if plain and (moves or event.key() == Qt.Key.Key_PageDown or event.text().strip()):
            self.showPopup()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Qt's box with our own sign for the list."""
        super().paintEvent(event)
        look = look_of(self)
        painter = QPainter(self)
        side = look.px(16)
        box = QRectF(self.width() - side - look.px(12), (self.height() - side) / 2, side, side)
        draw_sign(painter, box, Sign.DOWN, look.theme, look.colour(Role.TEXT))


class DropList(QWidget):
    """A labelled drop list that begins with no answer. Signal: ``chosen(str)`` on each choice by a person."""

    chosen = Signal(str)

    def __init__(
        self,
        label: str,
        options: Sequence[Option] = (),
        *,
        place: Place = Place.TRAILER,
        mnemonic: str = "",
        optional: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.box = DropBox(place)
        caption = Label(size=Letter.TABLE if place is not Place.OFFICE else Letter.SMALL, bold=True)
        caption.setBuddy(self.box)
        caption.setText(mnemonic_text(label, mnemonic))
        self.box.setAccessibleName(label)
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(caption)
        if optional:
            top.addWidget(Label(say("desk.optional"), Letter.SMALL, tone=Role.SECOND))
        top.addStretch(1)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(2)
        page.addLayout(top)
        page.addWidget(self.box)
        self.setFocusProxy(self.box)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.box.activated.connect(lambda _row: self._choose())
        self.set_options(options)

    def _choose(self) -> None:
        if self.value():
            self.chosen.emit(self.value())

    def set_options(self, options: Iterable[Option]) -> None:
        """Other options; what was chosen stays chosen where it is still there."""
        before = self.value()
        self.box.clear()
        self.box.addItem(say("desk.choose"), "")
        for option in options:
            self.box.addItem(f"{option.words}, {option.note}" if option.note else option.words, option.value)
        self.set_value(before)

    def value(self) -> str:
        """The value chosen; empty when none is."""
        return str(self.box.currentData() or "")

    def set_value(self, value: str) -> None:
        """Show what is stored; tells nobody."""
        self.box.setCurrentIndex(max(0, self.box.findData(value)))
