"""Drives the Workbook as a person does: by keys and clicks on controls found by their names."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QWidget
from tests.desk.workbook.osprel_bend import osprel_bend

from lamproom.bench.happening import Event
from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.desk.parts.dress import dress
from lamproom.desk.theme import Look
from lamproom.desk.workbook.workbook_screen import WorkbookScreen
from lamproom.office.open_permit import open_permit


class ByHand:
    """A Workbook on the invented site, with a draft open for one of its spaces."""

    def __init__(self, qtbot: object, folder: Path, space: str = "wet-well-2", person: str | None = "P-01") -> None:
        load_fonts()
        self.office, self.clock = osprel_bend(folder)
        self.number = open_permit(self.office, space, by="P-01")
        self.desk = Desk(self.office, person)
        self.said: list[tuple[str, str]] = []
        self.went: list[tuple[str, dict[str, str]]] = []
        self.desk.said.connect(lambda kind, words: self.said.append((kind, words)))
        self.desk.went.connect(lambda place, where: self.went.append((place, where)))
        self.qtbot = qtbot
        self.screen = self.open_screen()

    def open_screen(self) -> WorkbookScreen:
        """A fresh screen, as after a restart of the program."""
        screen = WorkbookScreen(self.desk)
        dress(screen, Look())
        self.qtbot.addWidget(screen)  # type: ignore[attr-defined]
        screen.resize(1366, 720)
        screen.show()
        screen.activateWindow()
        self.qtbot.waitUntil(screen.isActiveWindow)  # type: ignore[attr-defined]
        screen.show_where(permit=self.number)
        QApplication.processEvents()
        self.screen = screen
        return screen

    def show(self, target: str) -> None:
        """Open a sheet or follow a link."""
        self.screen.show_where(permit=self.number, target=target)
        QApplication.processEvents()

    def find(self, name: str) -> QWidget:
        """A control by its name; it must be visible, as for a person."""
        found = self.screen.findChild(QWidget, name)
        assert found is not None, name
        assert found.isVisible(), f"{name} is not visible"
        return found

    def hidden(self, name: str) -> bool:
        """Is there no such control to be seen?"""
        found = self.screen.findChild(QWidget, name)
        return found is None or not found.isVisible()

    def press(self, name: str) -> None:
        """Click a control."""
        QTest.mouseClick(self.find(name), Qt.MouseButton.LeftButton)
        QApplication.processEvents()

    def type(self, name: str, text: str, then: Qt.Key | None = Qt.Key.Key_Return) -> None:
        """Type into a field, then Enter (or another key, or none)."""
        field = self.find(name)
        field.setFocus()
        QTest.keyClicks(field, text)
        if then is not None:
            QTest.keyClick(field, then)
        QApplication.processEvents()

    def key(self, key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        """A key for whatever has the keyboard."""
        held = QApplication.focusWidget()
        assert held is not None
        QTest.keyClick(held, key, modifier)
        QApplication.processEvents()

    def keys(self, text: str) -> None:
        """Letters for whatever has the keyboard."""
        held = QApplication.focusWidget()
        assert held is not None
        QTest.keyClicks(held, text)
        QApplication.processEvents()

    def choose(self, name: str, words: str) -> None:
        """Open a list with the arrow, type the words, Enter."""
        box = self.find(name)
        assert isinstance(box, QComboBox)
        box.setFocus()
        QTest.keyClick(box, Qt.Key.Key_Down)
        QApplication.processEvents()
        box.view().keyboardSearch("")  # a new word, not the end of the one before
        QTest.keyClicks(box.view(), words)
        QTest.keyClick(box.view(), Qt.Key.Key_Return)
        QApplication.processEvents()
        # Without a screen the list's window takes the activation with it.
        self.screen.activateWindow()
        QApplication.processEvents()

    @property
    def focus(self) -> str:
        """The name of the control that has the keyboard."""
        held = QApplication.focusWidget()
        return held.objectName() if held is not None else ""

    def events(self, kind: type[Event]) -> list[Event]:
        """What was recorded of a kind on the permit, in order."""
        return [h.event for h in self.office.happenings(f"permit/{self.number}") if isinstance(h.event, kind)]

    @property
    def count(self) -> int:
        """How many events the permit has."""
        return len(self.office.happenings(f"permit/{self.number}"))
