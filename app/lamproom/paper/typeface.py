"""The one typeface of every page, embedded: Atkinson Hyperlegible, plain and bold, each also with figures of one width.

The face carries tabular figures as alternate glyphs, but the PDF library does not shape text, so a second pair of
faces is derived whose digit codes point at those glyphs. Nothing else may be named on a page, or the reader's
machine would choose the letters.
"""

from __future__ import annotations

import struct
import unicodedata
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import fontpkg_atkinson_hyperlegible
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFNameBytes, TTFont

PLAIN = "Lamproom"
BOLD = "Lamproom-Bold"
FIGURES = "Lamproom-Figures"
FIGURES_BOLD = "Lamproom-FiguresBold"

CAPITAL = 0.668
"""Height of a capital letter as a part of the size (from the face's own table)."""

_FILES = {
    PLAIN: ("AtkinsonHyperlegible-Regular.ttf", False),
    BOLD: ("AtkinsonHyperlegible-Bold.ttf", False),
    FIGURES: ("AtkinsonHyperlegible-Regular.ttf", True),
    FIGURES_BOLD: ("AtkinsonHyperlegible-Bold.ttf", True),
}


@lru_cache(maxsize=1)
def faces() -> dict[str, TTFont]:
    """Load and register the four faces once; each is parsed in a few milliseconds."""
    folder = Path(fontpkg_atkinson_hyperlegible.__file__).parent / "files"
    loaded = {}
    for name, (file, tabular) in _FILES.items():
        font = TTFont(name, str(folder / file), asciiReadable=1)
        if tabular:
            _give_tabular_figures(font, (folder / file).read_bytes())
        pdfmetrics.registerFont(font)
        loaded[name] = font
    return loaded


def name_of(bold: bool, figures: bool) -> str:
    """The face for a run of text."""
    if figures:
        return FIGURES_BOLD if bold else FIGURES
    return BOLD if bold else PLAIN


@lru_cache(maxsize=50_000)
def width(text: str, face: str, size: float) -> float:
    """Width of a text in points."""
    return float(faces()[face].stringWidth(text, size))


@lru_cache(maxsize=50_000)
def printable(text: str) -> str:
    """The text with every letter the face can draw; others are written as their number, so that none is lost unseen."""
    glyphs = faces()[PLAIN].face.charToGlyph
    if all(ord(mark) in glyphs for mark in text):
        return text
    return "".join(_drawable(mark, glyphs) for mark in unicodedata.normalize("NFC", text))


def _drawable(mark: str, glyphs: dict[int, int]) -> str:
    if ord(mark) in glyphs or mark == "\u00ad":
        return mark
    if mark.isspace():
        return " "
    if unicodedata.category(mark) in ("Cf", "Mn") and mark != "\u202e":
        return ""
    return f"[U+{ord(mark):04X}]"


def _give_tabular_figures(font: TTFont, file: bytes) -> None:
    face = font.face
    swaps = _single_substitutions(file, b"tnum")
    widths = {glyph: _advance(file, glyph) for glyph in swaps.values()}
    for digit in "0123456789":
        glyph = swaps.get(face.charToGlyph[ord(digit)])
        if glyph is None:
            raise ValueError(f"the face has no tabular glyph for {digit}")
        face.charToGlyph[ord(digit)] = glyph
        face.charWidths[ord(digit)] = widths[glyph]
    # The library keys its font objects by this name: two faces of one name would overwrite each other in the file.
    face.name = TTFNameBytes(bytes(face.name) + b"-Figures")


def _tables(file: bytes) -> dict[bytes, int]:
    count = struct.unpack(">H", file[4:6])[0]
    entries = (struct.unpack(">4sLLL", file[12 + 16 * i : 28 + 16 * i]) for i in range(count))
    return {tag: offset for tag, _, offset, _ in entries}


def _advance(file: bytes, glyph: int) -> float:
    tables = _tables(file)
    units: int = struct.unpack(">H", file[tables[b"head"] + 18 : tables[b"head"] + 20])[0]
    full: int = struct.unpack(">H", file[tables[b"hhea"] + 34 : tables[b"hhea"] + 36])[0]
    at = tables[b"hmtx"] + 4 * min(glyph, full - 1)
    advance: int = struct.unpack(">H", file[at : at + 2])[0]
    return advance * 1000 / units


def _single_substitutions(file: bytes, feature: bytes) -> dict[int, int]:
    """Glyph to glyph for one feature of the table GSUB (OpenType specification, lookup type 1)."""

    def number(at: int) -> int:
        value: int = struct.unpack(">H", file[at : at + 2])[0]
        return value

    table = _tables(file)[b"GSUB"]
    features, lookups = table + number(table + 6), table + number(table + 8)
    swaps: dict[int, int] = {}
    for i in range(number(features)):
        if file[features + 2 + 6 * i : features + 6 + 6 * i] != feature:
            continue
        found = features + number(features + 6 + 6 * i)
        for j in range(number(found + 2)):
            lookup = lookups + number(lookups + 2 + 2 * number(found + 4 + 2 * j))
            if number(lookup) == 1:
                for k in range(number(lookup + 4)):
                    swaps.update(_subtable(file, lookup + number(lookup + 6 + 2 * k), number))
    return swaps


def _subtable(file: bytes, at: int, number: Callable[[int], int]) -> dict[int, int]:
    covered = _coverage(at + number(at + 2), number)
    if number(at) == 1:
        delta = struct.unpack(">h", file[at + 4 : at + 6])[0]
        return {glyph: (glyph + delta) & 0xFFFF for glyph in covered}
    return {glyph: number(at + 6 + 2 * place) for place, glyph in enumerate(covered)}


def _coverage(at: int, number: Callable[[int], int]) -> list[int]:
    count = number(at + 2)
    if number(at) == 1:
        return [number(at + 4 + 2 * i) for i in range(count)]
    ranges = ((number(at + 4 + 6 * i), number(at + 6 + 6 * i)) for i in range(count))
    return [glyph for first, last in ranges for glyph in range(first, last + 1)]
