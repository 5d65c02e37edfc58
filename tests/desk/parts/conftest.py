"""A dressed window for the parts to stand in."""

import pytest
from PySide6.QtWidgets import QVBoxLayout, QWidget

from lamproom.desk.fonts import load_fonts
from lamproom.desk.parts.dress import dress
from lamproom.desk.theme import Look, Theme


@pytest.fixture
def stand(qtbot):
    """Puts parts into a window of one theme, shows it, and gives the window."""

    windows = []

    def build(*parts, theme=Theme.LIGHT, scale=1.0, size=(700, 600)):
        load_fonts()
        window = QWidget()
        page = QVBoxLayout(window)
        for part in parts:
            page.addWidget(part)
        windows.append(window)
        qtbot.addWidget(window)
        dress(window, Look(theme, scale))
        window.resize(*size)
        window.show()
        with qtbot.waitActive(window):
            window.activateWindow()
        return window

    yield build
    windows.clear()
