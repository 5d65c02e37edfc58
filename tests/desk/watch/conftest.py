"""The Watch in a window of 1280 x 800 on the invented site, with a recorder in place of the loudspeaker."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot
from tests.desk.watch import crew

from lamproom.desk.desk import Desk, Question
from lamproom.desk.fonts import load_fonts
from lamproom.desk.sound import Pattern, SoundState
from lamproom.desk.watch.watch_screen import WatchScreen


class Recorder:
    """Hears what should sound."""

    def __init__(self) -> None:
        self.heard: list[str] = []
        self.state = SoundState.READY

    def play(self, pattern: Pattern) -> None:
        if not self.heard or self.heard[-1] != pattern.name:
            self.heard.append(pattern.name)
        self.state = SoundState.PLAYING

    def stop(self) -> None:
        self.heard.append("silence")
        self.state = SoundState.READY

    def check(self) -> None:
        """Nothing to look for."""


class Station:
    """The Watch as a person meets it: keys, presses, words."""

    def __init__(self, site: crew.Site, watch: WatchScreen, desk: Desk, sound: Recorder) -> None:
        self.site, self.watch, self.desk, self.sound = site, watch, desk, sound
        self.asked: list[Question] = []
        self.answer = True
        self.went: list[tuple[str, dict[str, str]]] = []
        desk.asker = self._ask
        desk.went.connect(lambda place, where: self.went.append((place, where)))

    def _ask(self, question: Question) -> bool:
        self.asked.append(question)
        return self.answer

    @property
    def permit(self) -> Any:
        return self.site.office.permit(self.site.number)

    def part(self, name: str) -> QWidget:
        """The visible widget of a name; a name that is not there fails the test."""
        found = [w for w in self.watch.findChildren(QWidget, name) if w.isVisible()]
        assert len(found) == 1, f"{name}: {len(found)} visible"
        return found[0]

    def shown(self, name: str) -> bool:
        return any(w.isVisible() for w in self.watch.findChildren(QWidget, name))

    def press(self, name: str) -> None:
        QTest.mouseClick(self.part(name), Qt.MouseButton.LeftButton)
        QApplication.processEvents()

    def key(self, key: Qt.Key) -> None:
        QTest.keyClick(QApplication.focusWidget() or self.watch, key)
        QApplication.processEvents()

    def type(self, name: str, text: str, key: Qt.Key | None = Qt.Key.Key_Return) -> None:
        box = self.part(name)
        assert isinstance(box, QLineEdit)
        box.setFocus()
        box.clear()
        QTest.keyClicks(box, text)
        if key is not None:
            QTest.keyClick(box, key)
        QApplication.processEvents()

    def minutes(self, count: float) -> None:
        """Time passes, and the clock of the screen ticks."""
        self.site.minutes(count)
        self.watch.refresh()

    def word(self) -> str:
        return self.watch.band.accessibleName()

    def said(self) -> str:
        return self.watch.foot.text()


Live = Callable[..., crew.Site]


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Callable[..., Station]:
    """Lives a part of the day and opens the Watch on it."""

    def make(live: Live, *args: Any, **kwargs: Any) -> Station:
        load_fonts()
        site = live(crew.site(tmp_path), *args, **kwargs)
        desk = Desk(site.office, "P-02")
        sound = Recorder()
        watch = WatchScreen(desk, sound)
        qtbot.addWidget(watch)
        watch.resize(1280, 800)
        watch.show_where(permit=site.number)
        watch.show()
        qtbot.waitActive(watch)
        return Station(site, watch, desk, sound)

    return make
