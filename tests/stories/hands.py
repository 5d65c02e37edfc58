"""Hands on the real window: clicks, keys and ink on controls that can be seen and used, found by their names."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLineEdit, QPlainTextEdit, QScrollArea, QWidget


class NotThere(AssertionError):
    """A control that a person would look for is not to be seen; the names that are."""

    def __init__(self, name: str, seen: list[str]) -> None:
        near = [other for other in seen if other.split(".")[0] == name.split(".")[0]]
        super().__init__(f"{name} is not to be seen; to be seen are {near}")


# Times of the keystroke-level model in seconds: Card, Moran & Newell, "The keystroke-level model for user performance
# time with interactive systems", Communications of the ACM 23(7), 1980, table of operators: K 0.28 (average
# non-secretary typist), P 1.10, H 0.40, M 1.35; a press of the mouse button and its release BB 0.20 (Kieras, 2001).
KEY, POINT, HOME, MIND, BUTTON = 0.28, 1.10, 0.40, 1.35, 0.20
INK = 3.0
"""A signature with mouse or pen; our own assumption, the model has no operator for it."""


class Hands:
    """One pair of hands. ``inputs`` counts what a person gave: a committed field, a choice or a press; ink apart.
    ``seconds`` is what it took by the keystroke-level model, waits apart."""

    def __init__(self, window: QWidget) -> None:
        self.window = window
        self.inputs: list[str] = []
        window.activateWindow()
        QTest.qWaitForWindowActive(window)
        self.ink = 0
        self.seconds = 0.0

    # Finding ----------------------------------------------------------------------------------------------------------

    def seen(self) -> Iterator[QWidget]:
        """Every named widget that is visible, in dialogs first."""
        for top in sorted(QApplication.topLevelWidgets(), key=lambda w: w is self.window):
            if top.isVisible():
                yield from (w for w in top.findChildren(QWidget) if w.objectName() and w.isVisible())

    def find(self, name: str) -> QWidget:
        """A visible, enabled control by its name, brought into view."""
        self.settle()
        for widget in self.seen():
            if widget.objectName() == name:
                assert widget.isEnabled(), f"{name} is not available"
                self._into_view(widget)
                return widget
        raise NotThere(name, [w.objectName() for w in self.seen()])

    def sees(self, name: str) -> bool:
        self.settle()
        return any(w.objectName() == name and w.isEnabled() for w in self.seen())

    def _into_view(self, widget: QWidget) -> None:
        parent = widget.parentWidget()
        while parent is not None:
            if isinstance(parent, QScrollArea):
                parent.ensureWidgetVisible(widget)
            parent = parent.parentWidget()
        self.settle()

    def settle(self) -> None:
        """Let the window finish what it does."""
        for _ in range(3):
            QApplication.processEvents()

    def wait_until(self, holds: Callable[[], bool], rounds: int = 200) -> None:
        """Let the window work until something holds; a time is never waited for."""
        for _ in range(rounds):
            if holds():
                return
            QTest.qWait(20)
        raise AssertionError("what was waited for did not come")

    # Doing ------------------------------------------------------------------------------------------------------------

    def _awake(self) -> None:
        """Without a window manager nobody gives the focus back to the window after a list was open."""
        if QApplication.activeWindow() is None:
            self.window.activateWindow()
            QTest.qWaitForWindowActive(self.window)

    def press(self, name: str, counted: bool = True) -> None:
        """One click in the middle of a control."""
        self._awake()
        widget = self.find(name)
        QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=widget.rect().center())
        self.seconds += MIND + POINT + BUTTON
        self._did(f"press {name}", counted)

    def press_and_answer(self, name: str, answer: str) -> None:
        """One click that brings a question, and the click that answers it, which waits inside the first."""
        self.answer_next(answer)
        self.press(name)

    def checked(self, name: str) -> bool:
        """Is a key that stays down pressed already?"""
        widget = self.find(name)
        return isinstance(widget, QAbstractButton) and widget.isChecked()

    def answer_next(self, answer: str) -> None:
        """Answer the question that the next input brings."""
        tries = 0

        def look() -> None:
            nonlocal tries
            tries += 1
            if any(w.objectName() == answer for w in self.seen()):
                self.press(answer)
            elif tries < 100:
                QTimer.singleShot(20, look)

        QTimer.singleShot(20, look)

    def write(self, name: str, text: str, counted: bool = True) -> None:
        """Click into a field, replace what stands there, type, and press Enter (Tab in a page)."""
        box = self.find(name)
        assert isinstance(box, QLineEdit | QPlainTextEdit), f"{name} is not a field"
        if not box.hasFocus():  # Enter in the box before often brings the caret here
            QTest.mouseClick(box, Qt.MouseButton.LeftButton, pos=QPoint(8, box.height() // 2))
            self.seconds += POINT + BUTTON + HOME
        self.seconds += MIND + KEY * (len(text) + 1)
        QTest.keyClick(box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        QTest.keyClick(box, Qt.Key.Key_Delete)
        QTest.keyClicks(box, text)
        shown = box.text() if isinstance(box, QLineEdit) else box.toPlainText()
        assert shown == text, f"{name} shows {shown!r} for {text!r}"
        QTest.keyClick(box, Qt.Key.Key_Return if isinstance(box, QLineEdit) else Qt.Key.Key_Tab)
        self._did(f"write {name}", counted)

    def pick(self, name: str, fits: Callable[[object, str], bool]) -> None:
        """Open a list with a key, go down to the entry that fits (its value and its words), choose it with Enter."""
        box = self.find(name)
        assert isinstance(box, QComboBox)
        wanted = next((i for i in range(box.count()) if fits(box.itemData(i), box.itemText(i))), None)
        assert wanted is not None, f"{name} offers nothing that fits: {[box.itemText(i) for i in range(box.count())]}"
        box.setFocus()
        QTest.keyClick(box, Qt.Key.Key_Down)
        view = box.view()
        QTest.keyClick(view, Qt.Key.Key_Home)
        for _ in range(wanted):
            QTest.keyClick(view, Qt.Key.Key_Down)
        QTest.keyClick(view, Qt.Key.Key_Return)
        self.seconds += MIND + 2 * (POINT + BUTTON)
        self._did(f"pick {name}", True)

    def draw(self, name: str, seed: int) -> None:
        """A scribble with the mouse on an ink pad."""
        pad = self.find(name)
        high, wide = pad.height(), pad.width()
        QTest.mousePress(pad, Qt.MouseButton.LeftButton, pos=QPoint(wide // 8, high // 2))
        for step in range(1, 12):
            y = high // 3 + (step * (seed + 3) * 7) % (high // 3)
            QTest.mouseMove(pad, QPoint(wide // 8 + step * wide // 16, y))
        QTest.mouseRelease(pad, Qt.MouseButton.LeftButton, pos=QPoint(wide * 7 // 8, high // 2))
        self.ink += 1
        self.seconds += POINT + INK
        self.settle()

    def key(self, key: Qt.Key, counted: bool = True) -> None:
        """A key pressed wherever the focus is."""
        self._awake()
        QTest.keyClick(QApplication.focusWidget() or self.window, key)
        self.seconds += MIND + KEY
        self._did(f"key {key.name}", counted)

    def _did(self, what: str, counted: bool) -> None:
        if counted:
            self.inputs.append(what)
        self.settle()
