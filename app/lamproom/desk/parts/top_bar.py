"""The bar at the top: our mark, the places, what is stored, who is at the desk, date and clock."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QBoxLayout, QHBoxLayout, QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.label import Label, StateWord, rule
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import Letter, Role, look_of
from lamproom.words import say

HEIGHT = 49


class _Tab(QAbstractButton):
    def __init__(self, key: str, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key, self._name = key, name
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(name)

    def sizeHint(self) -> QSize:
        look = look_of(self)
        wide = QFontMetricsF(letter(look, Letter.TABLE, True)).horizontalAdvance(self._name)
        return QSize(round(wide) + look.px(24), look.px(HEIGHT - 1))

    def nextCheckState(self) -> None:
        """The bar shows where you are; only the window moves it."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            (self.focusNextChild if event.key() == Qt.Key.Key_Right else self.focusPreviousChild)()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        look = look_of(self)
        painter = QPainter(self)
        here = self.isChecked() or self.isDown()
        painter.setFont(letter(look, Letter.TABLE, here))
        painter.setPen(look.colour(Role.TEXT if here else Role.SECOND))
        painter.drawText(QRectF(self.rect()), Qt.AlignmentFlag.AlignCenter, self._name)
        if here:
            painter.fillRect(QRectF(0, self.height() - 4, self.width(), 4), look.colour(Role.INK))


class TopBar(QWidget):
    """The bar of the main window.

    ``tabs``: pairs (key, name) such as Board, Workbook, Watch, Bench, Filing, Registers. Signal: ``chosen(str)`` with
    the key of the tab.
    """

    chosen = Signal(str)

    def __init__(self, tabs: Sequence[tuple[str, str]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("desk.places"))
        self._tabs = [_Tab(key, name) for key, name in tabs]
        self._stored = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._trouble = StateWord(Sign.CAUTION, "", Letter.SMALL, side=20)
        self._person = Label(size=Letter.SMALL)
        self._date = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._clock = Label(size=Letter.BODY, bold=True)
        self._left, self._right = QWidget(), QWidget()
        self._page = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._page.setContentsMargins(22, 0, 20, 1)
        self._page.setSpacing(0)
        self._page.addWidget(self._left)
        self._page.addWidget(self._right)
        row = QHBoxLayout(self._left)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(10)
        row.addWidget(SignLabel(Sign.LAMP, say("desk.name"), 28))
        row.addWidget(Label(say("desk.name"), Letter.BODY, bold=True))
        row.addSpacing(12)
        places = QHBoxLayout()
        places.setSpacing(0)
        for tab in self._tabs:
            tab.clicked.connect(lambda _checked=False, key=tab.key: self.chosen.emit(key))
            places.addWidget(tab)
        row.addLayout(places)
        row.addStretch(1)
        row = QHBoxLayout(self._right)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(10)
        row.addStretch(1)
        row.addWidget(self._trouble)
        row.addWidget(self._stored)
        self._lines = [self._line(), self._line()]
        row.addWidget(self._lines[0])
        row.addWidget(self._person)
        row.addWidget(self._lines[1])
        row.addWidget(self._date)
        row.addWidget(self._clock)
        self._trouble.hide()
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self._show_lines()

    def _line(self) -> QWidget:
        line = rule(vertical=True, strong=True)
        line.setFixedHeight(22)
        return line

    def _show_lines(self) -> None:
        self._lines[0].setVisible(bool(self._stored.text() and self._person.text()))
        self._lines[1].setVisible(bool(self._date.text()))

    def set_current(self, key: str) -> None:
        """The place that is open."""
        for tab in self._tabs:
            tab.setChecked(tab.key == key)

    def tab(self, key: str) -> QAbstractButton:
        """The button of a place; KeyError where there is none."""
        for tab in self._tabs:
            if tab.key == key:
                return tab
        raise KeyError(key)

    def set_stored(self, text: str) -> None:
        """Such as "Stored 09:38:21"."""
        self._stored.setText(text)
        self._show_lines()

    def set_trouble(self, text: str) -> None:
        """A store that failed, a clock not confirmed: said beside what is stored; empty to take it away."""
        self._trouble.set_state(Sign.CAUTION, text)
        self._trouble.setVisible(bool(text))

    def set_person(self, text: str) -> None:
        """Who is at the desk, and as what."""
        self._person.setText(text)
        self._show_lines()

    def set_clock(self, date: str, clock: str) -> None:
        """Date and time of day, in words already."""
        self._date.setText(date)
        self._clock.setText(clock)
        self._show_lines()

    def _fits(self) -> bool:
        return self._left.sizeHint().width() + self._right.sizeHint().width() + 52 <= self.width()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Two rows where one has no room, at large letters: what is stored always shows."""
        super().resizeEvent(event)
        across, down = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self._page.setDirection(across if self._fits() else down)
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        """As high as a bar, or as two rows."""
        high = look_of(self).px(HEIGHT)
        wide = self._left.sizeHint().width() + self._right.sizeHint().width() + 52
        return QSize(wide, high if self._fits() or self.width() < 200 else high + look_of(self).px(32))

    def minimumSizeHint(self) -> QSize:
        """As narrow as its wider row."""
        wide = max(self._left.minimumSizeHint().width(), self._right.minimumSizeHint().width())
        return QSize(wide + 42, self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """The line under it."""
        look = look_of(self)
        QPainter(self).fillRect(0, self.height() - 1, self.width(), 1, look.colour(Role.EDGE))
