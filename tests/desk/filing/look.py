"""Paints Filing on the invented day to PNG files: ``python tests/desk/filing/look.py FOLDER``. Not a test."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[3]))

from PySide6.QtWidgets import QApplication
from tests.desk.board.look import window_of
from tests.desk.filing.long_day import long_day

from lamproom.desk.desk import Desk
from lamproom.desk.filing.filing_screen import FilingScreen
from lamproom.desk.fonts import load_fonts
from lamproom.desk.theme import Look, Theme


def main(folder: Path) -> None:
    application = QApplication.instance() or QApplication([])
    load_fonts()
    day, number = long_day(Path(tempfile.mkdtemp()))
    for theme, width, height in ((Theme.LIGHT, 1366, 720), (Theme.DARK, 1366, 720), (Theme.LIGHT, 1920, 1032)):
        screen = FilingScreen(Desk(day.office, "P-07"))
        window = window_of(screen, Look(theme), width, height)
        window.grab().save(str(folder / f"filing-nothing-{theme.value}-{width}.png"))
        screen.show_where(permit=number)
        for _ in range(8):
            application.processEvents()
        window.grab().save(str(folder / f"filing-{theme.value}-{width}.png"))
        if width == 1366 and theme is Theme.LIGHT:
            screen.page._widen()
            screen.page._annotate()
            for _ in range(5):
                application.processEvents()
            window.grab().save(str(folder / "filing-wide.png"))
        screen.proof.story.scrollToBottom()
        application.processEvents()
        window.grab().save(str(folder / f"filing-end-{theme.value}-{width}.png"))
        window.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
