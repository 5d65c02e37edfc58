"""The main window: the bar, the places, what was just done or refused, whether the time is confirmed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtGui import QCloseEvent, QKeySequence, QPainter, QPaintEvent, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk, Question
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.label import Label, StateWord
from lamproom.desk.parts.notice import MessageLine
from lamproom.desk.parts.pages import Pages
from lamproom.desk.parts.top_bar import TopBar
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Look, Place, Role, Theme, look_of
from lamproom.words import say

PLACES = ("board", "workbook", "watch", "bench", "filing", "registers")
DONE_STAYS = 8_000
"""Milliseconds that the line about a done act stays; one about a refused act stays until the next act."""


def screen_of(place: str, desk: Desk) -> QWidget:
    """The screen of a place, made when it is first shown, so that the window is there before all six are."""
    module = import_module(f"lamproom.desk.{place}.{place}_screen")
    made: QWidget = getattr(module, f"{place.capitalize()}Screen")(desk)
    return made


class MainWindow(QWidget):
    """The one window. ``make_screen`` makes the screen of a place; a test may give plain widgets."""

    def __init__(self, desk: Desk, make_screen: Callable[[str, Desk], QWidget] = screen_of) -> None:
        super().__init__()
        self._desk, self._make = desk, make_screen
        self._screens: dict[str, QWidget] = {}
        self._where: dict[str, Mapping[str, str]] = {}
        self._place = ""
        self._look = Look(self._kept_theme())
        self.setWindowTitle(say("desk.name"))
        self.setObjectName("window")
        self.bar = TopBar([(place, say(f"desk.window.{place}")) for place in PLACES])
        for place in PLACES:
            self.bar.tab(place).setObjectName(f"window.{place}")
        self._person = Button("", Kind.LINK, Place.OFFICE)
        self._person.setObjectName("window.person")
        self._theme = Button(say("desk.window.theme"), Kind.LINK, Place.OFFICE, sign=Sign.SUN)
        self._theme.setObjectName("window.theme")
        self._notice = MessageLine()
        self._notice.setObjectName("window.notice")
        self._notice_leaves = QTimer(self, singleShot=True, interval=DONE_STAYS)
        self._notice_leaves.timeout.connect(self._notice.clear)
        self._time_line = self._clock_trouble()
        self._way_back = self._back_line()
        self._stack = Pages()
        self._lay()
        self._listen()
        desk.asker = self._ask
        dress(self, self._look)
        self._resize_as_before()
        self._tell()
        self._begin()

    # Laying out -------------------------------------------------------------------------------------------------------

    def _lay(self) -> None:
        # The bar's last label is the clock; before the line that separates date and clock stands who is at the desk.
        place = self.bar.findChildren(Label)[-1].parentWidget()
        row = place.layout() if place is not None else None
        assert isinstance(row, QHBoxLayout)
        row.insertWidget(row.count() - 3, self._person)
        row.insertWidget(row.count() - 3, self._theme)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(0)
        page.addWidget(self.bar)
        page.addWidget(self._time_line)
        page.addWidget(self._way_back)
        page.addWidget(self._stack, 1)
        page.addWidget(self._notice)

    def _clock_trouble(self) -> QWidget:
        line = QWidget()
        line.setObjectName("window.time-not-confirmed")
        row = QHBoxLayout(line)
        row.setContentsMargins(22, 2, 20, 2)
        row.setSpacing(16)
        row.addWidget(StateWord(Sign.CAUTION, say("desk.window.unconfirmed"), Letter.TABLE))
        confirm = Button(say("desk.window.confirm_time"), Kind.LINK, Place.OFFICE)
        confirm.setObjectName("window.confirm-time")
        confirm.clicked.connect(self.confirm_time)
        row.addWidget(confirm)
        row.addStretch(1)
        line.hide()
        return line

    def _back_line(self) -> QWidget:
        """Whoever followed a permit's link to the bench or a register is one press from that permit."""
        self._came_from = ""
        self._back = Button("", Kind.LINK, Place.OFFICE, sign=Sign.LEFT)
        self._back.setObjectName("window.back")
        self._back.clicked.connect(lambda _checked=False: self.show_place("workbook", permit=self._came_from))
        self._back_note = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(22, 2, 20, 2)
        row.setSpacing(16)
        row.addWidget(self._back)
        row.addWidget(self._back_note, 1)
        line.hide()
        return line

    def _show_way_back(self, place: str, where: Mapping[str, str]) -> None:
        aside = place in ("bench", "registers")
        if aside and where.get("permit"):
            self._came_from = where["permit"]
            self._back.set_words(say("desk.window.back", number=self._came_from))
            of_space = where.get("target", "").startswith("space")
            self._back_note.setText(say("desk.window.back_note") if of_space else "")
        elif place != self._place or not aside:
            self._came_from = ""
        self._way_back.setVisible(bool(self._came_from))

    def _listen(self) -> None:
        desk = self._desk
        self.bar.chosen.connect(self.show_place)
        self._person.clicked.connect(self.choose_person)
        self._theme.clicked.connect(self.next_theme)
        desk.changed.connect(self._stored)
        desk.ticked.connect(self._tell)
        desk.went.connect(lambda place, where: self.show_place(place, **where))
        desk.said.connect(self._say)
        desk.person_changed.connect(self._tell)
        for number, place in enumerate(PLACES, 1):
            QShortcut(QKeySequence(f"Ctrl+{number}"), self, lambda place=place: self.show_place(place))
        self._theme_key = QShortcut(QKeySequence("F8"), self, self.next_theme)
        QShortcut(QKeySequence("Ctrl+Q"), self, self.close)

    def _ask(self, question: Question) -> bool:
        # Dialogs, like screens, are only loaded when they are first shown: the Board is there sooner.
        from lamproom.desk.dialogs import asker

        return asker(self)(question)

    # Places -----------------------------------------------------------------------------------------------------------

    def _begin(self) -> None:
        if self._desk.office.begun:
            self.show_place("board")
            return
        self.bar.hide()
        from lamproom.desk.registers.first_start import FirstStart

        first = FirstStart(self._desk)
        first.begun.connect(self._site_begun)
        self._stack.addWidget(first)
        self._stack.setCurrentWidget(first)

    def _site_begun(self) -> None:
        first = self._stack.currentWidget()
        self.bar.show()
        self.show_place("registers")
        if first is not None:
            self._stack.removeWidget(first)
            first.deleteLater()

    @property
    def place(self) -> str:
        """The place that is open; empty during the first start."""
        return self._place

    def show_place(self, place: str, **where: str) -> None:
        """Open a place, and in it whatever ``where`` says to the screen."""
        if not self._desk.office.begun:
            return
        # What belongs to the site itself, its time and its forms, lies in the registers.
        place = "registers" if place == "site" else place
        if place not in self._screens:
            self._screens[place] = self._make(place, self._desk)
            self._stack.addWidget(self._screens[place])
        screen: Any = self._screens[place]
        self._show_way_back(place, where)
        if where or place != self._place:
            screen.show_where(**where)
        self._place = place
        self._stack.setCurrentWidget(screen)
        self.bar.set_current(place)
        # The Watch has the whole window: nothing there may move for a bar that nobody at the portal needs.
        self.bar.setVisible(place != "watch")
        # The Watch has a look of its own, sun by day, and its own key for it.
        self._theme_key.setEnabled(place != "watch")
        self._tell()

    # What is said -----------------------------------------------------------------------------------------------------

    def _say(self, kind: str, words: str) -> None:
        refused = kind == "refused"
        self._notice.say_it(Sign.DANGER if refused else Sign.WITHIN, words, at_once=refused)
        if refused:
            self._notice_leaves.stop()
        else:
            self._notice_leaves.start()
        if self._place == "watch":
            self._notice.clear()

    def say_fault(self) -> None:
        """A fault of ours came up: say so, and that what was typed is kept."""
        self._say("refused", say("desk.window.fault"))

    def _stored(self, _streams: object) -> None:
        now = self._desk.office.now().astimezone(self._desk.office.zone)
        self.bar.set_stored(say("desk.window.stored", clock=now.strftime("%H:%M:%S")))
        if self._notice.text() and not self._notice_leaves.isActive():
            self._notice.clear()

    def _tell(self) -> None:
        office = self._desk.office
        judged = office.judged()
        local = judged.now.astimezone(office.zone)
        self.bar.set_clock(f"{local.strftime('%a %b')} {local.day}", local.strftime("%H:%M"))
        name = office.names().get(self._desk.person or "")
        words = name or say("desk.window.nobody")
        if words != self._person.words:
            self._person.set_words(words)
        self._time_line.setVisible(office.begun and not judged.confirmed and self._place != "watch")

    # Person, time, look -----------------------------------------------------------------------------------------------

    def choose_person(self) -> None:
        """Ask who is at the desk."""
        from lamproom.desk.dialogs import PersonDialog

        dialog = PersonDialog(self, self._desk)
        dialog.chosen.connect(self._desk.set_person)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def confirm_time(self) -> None:
        """Ask what another watch says."""
        if self._desk.person is None:
            self.choose_person()
            return
        from lamproom.desk.dialogs import ConfirmTimeDialog

        dialog = ConfirmTimeDialog(self, self._desk)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    @property
    def look(self) -> Look:
        """Theme and scale of this window."""
        return self._look

    def next_theme(self) -> None:
        """Light, dark, sun, and round again; kept on this machine."""
        themes = list(Theme)
        theme = themes[(themes.index(self._look.theme) + 1) % len(themes)]
        self._look = Look(theme, self._look.scale)
        self._desk.office.journal.put_setting("theme", theme.value)
        dress(self, self._look)
        for screen in self._screens.values():
            if look_of(screen) != self._look:
                dress(screen, look_of(screen))

    def _kept_theme(self) -> Theme:
        kept = self._desk.office.journal.settings().get("theme", "")
        return next((theme for theme in Theme if theme.value == kept), Theme.LIGHT)

    def _resize_as_before(self) -> None:
        wide, _, high = self._desk.office.journal.settings().get("window", "").partition("x")
        if wide.isdigit() and high.isdigit():
            self.resize(max(int(wide), 1024), max(int(high), 700))
        else:
            self.resize(1366, 768)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The ground of the theme under everything."""
        QPainter(self).fillRect(self.rect(), self._look.colour(Role.GROUND))

    def closeEvent(self, event: QCloseEvent) -> None:
        """Remember the size; drafts are kept already."""
        self._desk.office.journal.put_setting("window", f"{self.width()}x{self.height()}")
        super().closeEvent(event)
