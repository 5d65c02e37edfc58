"""Words in the color of the window that they stand in, in whatever order they were made, laid out, told and shown."""

from __future__ import annotations

from collections.abc import Callable
from itertools import permutations

import pytest
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Look, Role, Theme

Act = Callable[[], object]


@pytest.mark.parametrize("later", [Theme.LIGHT, Theme.SUN, Theme.DARK])
def test_words_have_the_color_of_their_window_whatever_came_first(qtbot: QtBot, later: Theme) -> None:
    """A card is made, Qt's events pass, it is laid into a dark window, its tone is set, the theme changes, it shows."""
    earlier = Theme.DARK if later is not Theme.DARK else Theme.LIGHT
    for order in permutations(("events", "laid", "tone", "theme", "shown")):
        window, page, card = QWidget(), QWidget(), QWidget()
        qtbot.addWidget(window)
        QVBoxLayout(window).addWidget(page)
        in_page, in_card = QVBoxLayout(page), QVBoxLayout(card)
        label = Label("2 inside", bold=True)
        card.setProperty("ground", "panel")
        in_card.addWidget(label)
        dress(window, Look(earlier))
        window.show()
        page.hide()
        acts: dict[str, Act] = {
            "events": QApplication.processEvents,
            "laid": lambda layout=in_page, card=card: layout.addWidget(card),
            "tone": lambda label=label: label.set_tone(Role.TEXT, bold=True),
            "theme": lambda window=window: dress(window, Look(later)),
            "shown": page.show,
        }
        for act in order:
            acts[act]()
        QApplication.processEvents()
        color = label.palette().color(QPalette.ColorRole.WindowText)
        assert color == Look(later).colour(Role.TEXT), order


def test_wrapped_words_give_back_the_height_of_a_narrow_place(qtbot: QtBot) -> None:
    label = Label("2 things stand between you and entry", wrap=True)
    qtbot.addWidget(label)
    label.resize(90, 300)
    label.show()
    narrow = label.minimumHeight()
    label.resize(600, 300)
    assert label.minimumHeight() < narrow / 2


def test_wrapped_words_give_back_their_height_when_they_have_room(stand):
    """At 1920 pixels a row kept the two lines that it needed at 1366."""
    page = QWidget()
    column = QVBoxLayout(page)
    label = Label("Lock 14, Teo Amadi. Tried and found dead; verified by Oskar Wren.", wrap=True)
    column.addWidget(label)
    column.addStretch(1)
    stand(page)
    page.resize(260, 300)
    QApplication.processEvents()
    narrow = label.height()
    page.resize(1400, 300)
    QApplication.processEvents()
    assert label.height() < narrow / 2 + 4
