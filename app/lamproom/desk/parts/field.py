"""A field: label above, unit after, trouble beside with its sign; what was typed always stays."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLineEdit, QPlainTextEdit, QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.dress import puts_on
from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import Letter, Look, Place, Role, look_of
from lamproom.words import say

DRAFT_AFTER = 700
"""Milliseconds after the last key until ``typing`` tells the draft: under the second that a power cut may cost."""


class LineBox(QLineEdit):
    """A line to type in: the height of its place, letters of the look."""

    def __init__(self, place: Place, size: Letter | int, bold: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._place, self._size, self._bold = place, size, bold
        self.wear(look_of(self))

    def wear(self, look: Look) -> None:
        """Take font and height from the look."""
        self.setFont(letter(look, self._size, self._bold))
        self.setFixedHeight(look.px(self._place))

    def event(self, event: QEvent) -> bool:
        """Dress when first shown."""
        if puts_on(event):
            self.wear(look_of(self))
        return super().event(event)


class PageBox(QPlainTextEdit):
    """Several lines to type in; Tab leaves it, so that the keyboard is never trapped."""

    left = Signal()

    def __init__(self, lines: int, size: Letter | int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines, self._size = lines, size
        self.setTabChangesFocus(True)
        self.wear(look_of(self))

    def wear(self, look: Look) -> None:
        """Take font and height from the look."""
        self.setFont(letter(look, self._size))
        self.setFixedHeight(round(self.fontMetrics().lineSpacing() * self._lines) + look.px(20))

    def event(self, event: QEvent) -> bool:
        """Dress when first shown."""
        if puts_on(event):
            self.wear(look_of(self))
        return super().event(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Leaving it commits what it holds."""
        super().focusOutEvent(event)
        self.left.emit()


def mnemonic_text(label: str, key: str) -> str:
    """The label with its mnemonic marked for Qt; every other ampersand is an ampersand."""
    plain = label.replace("&", "&&")
    if not key:
        return plain
    at = plain.lower().find(key.lower())
    return plain if at < 0 else plain[:at] + "&" + plain[at:]


class Field(QWidget):
    """One answer to type.

    Signals: ``committed(text)`` on Enter or on leaving, when the text is another than was last committed;
    ``typing(text)`` at most a second after the last key, for the draft; ``keyed()`` at every key in a field of one
    line; ``entered(text)`` on every Enter.
    """

    committed = Signal(str)
    typing = Signal(str)
    keyed = Signal()
    entered = Signal(str)

    def __init__(
        self,
        label: str,
        unit: str = "",
        *,
        hint: str = "",
        optional: bool = False,
        lines: int = 1,
        width: int = 0,
        place: Place = Place.TRAILER,
        secret: bool = False,
        mnemonic: str = "",
        size: Letter | None = None,
        bold: bool = False,
        error_below: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._stored = ""
        self._secret = secret
        self._width = width
        size = size or (Letter.OFFICE if place is Place.OFFICE else Letter.BODY)
        self._line = LineBox(place, size, bold) if lines == 1 else None
        self._page = PageBox(lines, size) if lines > 1 else None
        box: QWidget = self._line or self._page  # type: ignore[assignment]
        self.box = box
        """The widget that takes the keys, for focus, tab order and the keypad."""
        caption = Label(size=Letter.TABLE if place is not Place.OFFICE else Letter.SMALL, bold=True)
        caption.setBuddy(box)
        caption.setText(mnemonic_text(label, mnemonic))
        self._caption = caption
        self._name = label
        box.setAccessibleName(f"{label}, {unit}" if unit else label)
        box.setAccessibleDescription(hint)
        self._error = Label(size=Letter.TABLE, tone=Role.DANGER_TEXT, wrap=True)
        self._error_sign = SignLabel(Sign.DANGER, "", 20)
        self._last = Label(size=Letter.SMALL, tone=Role.SECOND)
        self._lay(unit, hint, optional, error_below)
        self._timer = QTimer(self, interval=DRAFT_AFTER, singleShot=True)
        self._timer.timeout.connect(lambda: self.typing.emit(self.text()))
        self._connect()
        self.setFocusProxy(box)
        self.wear(look_of(self))
        self.clear_error()
        self._last.hide()

    def _lay(self, unit: str, hint: str, optional: bool, error_below: bool) -> None:
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(self._caption)
        if optional:
            top.addWidget(Label(say("desk.optional"), Letter.SMALL, tone=Role.SECOND))
        if hint:
            top.addWidget(Label(hint, Letter.SMALL, tone=Role.SECOND))
        top.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(10)
        row.addWidget(self.box, 0 if self._width else 1)
        if self._secret and self._line:
            self._line.setEchoMode(QLineEdit.EchoMode.Password)
            self._shower = Button(say("desk.show_code"), Kind.LINK, Place.TRAILER)
            self._shower.clicked.connect(self._show_or_hide)
            row.addWidget(self._shower)
        if unit:
            row.addWidget(Label(unit, Letter.TABLE))
        row.addWidget(self._last)
        if self._width:
            row.addStretch(1)
        # Stays when the trouble goes, so that the box keeps its place at the left.
        beside = QWidget()
        trouble = QHBoxLayout(beside)
        trouble.setContentsMargins(0, 0, 0, 0)
        trouble.setSpacing(8)
        trouble.addWidget(self._error_sign, 0, Qt.AlignmentFlag.AlignTop)
        trouble.addWidget(self._error, 1)
        page = QGridLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setHorizontalSpacing(12)
        page.setVerticalSpacing(2)
        page.addLayout(top, 0, 0, 1, 2)
        page.addLayout(row, 1, 0)
        if error_below or not self._width:
            page.addWidget(beside, 2, 0)
        else:
            beside.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
            page.addWidget(beside, 1, 1)
            page.setColumnStretch(1, 1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def wear(self, look: Look) -> None:
        """A box of a given width grows with its letters."""
        if self._width:
            self.box.setFixedWidth(look.px(self._width))

    def event(self, event: QEvent) -> bool:
        """Dress when first shown."""
        if puts_on(event):
            self.wear(look_of(self))
        return super().event(event)

    def _connect(self) -> None:
        if self._line:
            self._line.textEdited.connect(lambda _text: self._timer.start())
            self._line.textEdited.connect(lambda _text: self.keyed.emit())
            self._line.returnPressed.connect(self._enter)
            self._line.editingFinished.connect(self.commit)
        if self._page:
            self._page.textChanged.connect(self._timer.start)
            self._page.left.connect(self.commit)
            self._page.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Ctrl+Enter commits a page; plain Enter is a new line there."""
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
            if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
                self._enter()
                return True
        return False

    def _enter(self) -> None:
        self.commit()
        self.entered.emit(self.text())

    def commit(self) -> None:
        """Give the text to whoever listens, if it is another than was given last."""
        self._timer.stop()
        text = self.text()
        if text != self._stored:
            self._stored = text
            self.committed.emit(text)

    def text(self) -> str:
        """What stands in the box, as typed."""
        return self._line.text() if self._line else self._page.toPlainText() if self._page else ""

    def set_text(self, text: str) -> None:
        """Put a stored answer in the box; it counts as committed."""
        self._stored = text
        self._write(text)

    def set_draft(self, text: str) -> None:
        """Put back what was half typed before a power cut; it is not committed until left again."""
        self._write(text)

    def _write(self, text: str) -> None:
        if text == self.text():
            return
        if self._line:
            self._line.setText(text)
        if self._page:
            self._page.setPlainText(text)
        self._timer.stop()

    def set_last(self, value: str) -> None:
        """The last value, beside the empty box and never in it."""
        self._last.setText(say("desk.last_value", value=value) if value else "")
        self._last.setVisible(bool(value))

    def show_error(self, words: str) -> None:
        """What is wrong and how to put it right; the text stays."""
        self._say_beside(Sign.DANGER, Role.DANGER_TEXT, words)
        self._trouble(True)
        self.box.setAccessibleDescription(say("desk.field_error", error=words))

    def show_caution(self, words: str) -> None:
        """What may have been meant otherwise; the answer counts as typed."""
        self._say_beside(Sign.CAUTION, Role.CAUTION_TEXT, words)
        self._trouble(False)
        self.box.setAccessibleDescription(words)

    def _say_beside(self, sign: Sign, tone: Role, words: str) -> None:
        self._error.set_tone(tone)
        self._error.setText(words)
        self._error.show()
        self._error_sign.set_sign(sign, words)
        self._error_sign.show()

    def clear_error(self) -> None:
        """No trouble any more."""
        self._error.hide()
        self._error_sign.hide()
        self._trouble(False)
        self.box.setAccessibleDescription("")

    def error(self) -> str:
        """The words of the trouble or caution beside it; empty without any."""
        return "" if self._error.isHidden() else self._error.text()

    def _trouble(self, there: bool) -> None:
        self.box.setProperty("trouble", there)
        self.box.style().unpolish(self.box)
        self.box.style().polish(self.box)
        self.box.update()

    def _show_or_hide(self) -> None:
        if self._line is None:
            return
        hidden = self._line.echoMode() is QLineEdit.EchoMode.Password
        self._line.setEchoMode(QLineEdit.EchoMode.Normal if hidden else QLineEdit.EchoMode.Password)
        self._shower.set_words(say("desk.hide_code") if hidden else say("desk.show_code"))

    def set_read_only(self, read_only: bool) -> None:
        """For reading and copying only."""
        if self._line:
            self._line.setReadOnly(read_only)
        if self._page:
            self._page.setReadOnly(read_only)
