"""The one typeface, Atkinson Hyperlegible, the same on screen and on paper; digits of one width everywhere."""

from __future__ import annotations

from pathlib import Path

import fontpkg_atkinson_hyperlegible as typeface
from PySide6.QtGui import QFont, QFontDatabase

from lamproom.desk.theme import Letter, Look

FAMILY: str = typeface.FAMILY
_FILES = ("AtkinsonHyperlegible-Regular.ttf", "AtkinsonHyperlegible-Bold.ttf")


def load_fonts() -> str:
    """Make the typeface known to Qt and return its family. Call once, after the application object exists.

    A package without its files is a broken installation: it raises, because a page of fallback letters has other
    widths and another zero.
    """
    if FAMILY not in QFontDatabase.families():
        for name in _FILES:
            path = Path(typeface.ROOT) / "files" / name
            if QFontDatabase.addApplicationFont(str(path)) < 0:
                raise RuntimeError(f"typeface file cannot be read: {path}")
    return FAMILY


def letter(look: Look, size: Letter | int = Letter.BODY, bold: bool = False) -> QFont:
    """A font of ``size`` logical pixels at the scale of the look; bold throughout in the sun."""
    font = QFont(FAMILY)
    font.setPixelSize(max(1, look.px(size)))
    font.setBold(bold or look.sun)
    # Digits that count down or stand in columns must not dance.
    font.setFeature(QFont.Tag.fromString("tnum"), 1)
    return font
