"""Paints the Board on the invented day to PNG files: ``python tests/desk/board/look.py FOLDER``. Not a test."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

sys.path.insert(0, str(Path(__file__).parents[3]))

from tests.desk.board.busy import busy_day, late_day, silent_day

from lamproom.desk.board.board_screen import BoardScreen
from lamproom.desk.desk import Desk
from lamproom.desk.fonts import load_fonts
from lamproom.desk.parts.dress import dress
from lamproom.desk.theme import Look, Theme


def window_of(screen: QWidget, look: Look, width: int, height: int) -> QWidget:
    window = QWidget()
    page = QVBoxLayout(window)
    page.setContentsMargins(0, 0, 0, 0)
    page.addWidget(screen)
    dress(window, look)
    window.resize(width, height)
    window.show()
    return window


def main(folder: Path) -> None:
    application = QApplication.instance() or QApplication([])
    load_fonts()
    for name, make in (("busy", busy_day), ("late", late_day), ("silent", silent_day)):
        day = make(Path(tempfile.mkdtemp()))
        for theme, width, height in (
            (Theme.LIGHT, 1366, 720),
            (Theme.DARK, 1366, 720),
            (Theme.LIGHT, 1920, 1032),
            (Theme.SUN, 1366, 720),
        ):
            screen = BoardScreen(Desk(day.office, "P-01"))
            window = window_of(screen, Look(theme), width, height)
            for _ in range(5):
                application.processEvents()
            window.grab().save(str(folder / f"board-{name}-{theme.value}-{width}.png"))
            if theme is Theme.LIGHT and width == 1366:
                screen.new_permit()
                application.processEvents()
                window.grab().save(str(folder / f"board-{name}-new.png"))
                screen.hand_over()
                for _ in range(5):
                    application.processEvents()
                window.grab().save(str(folder / f"board-{name}-duty.png"))
            window.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
