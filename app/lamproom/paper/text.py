"""Lines of text: runs in plain or bold, drawn signs between words, formulas with lowered digits, broken to a width.

The PDF library's own paragraphs read markup in what people typed; these lines know no markup at all.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import signs, typeface
from lamproom.paper.content import Said
from lamproom.paper.signs import Sign

# Not beside a hyphen: 'valve N2-4' is a tag, not nitrogen.
_FORMULA = re.compile(
    r"(?<![\w-])(?:H2S|H2O|H2|CO2|O2|O3|N2O|N2|CH4|C2H4O|C2H4|C2H6|C3H8|C4H10|NH3|NO2|SO2|SO3|Cl2|ClO2|PH3|AsH3)(?![\w-])"
)
_DIGITS = re.compile(r"\d+|\D+")
# A time keeps its offset, and a word its no-break space, on one line.
_OFFSET = re.compile(r" ([−+]\d\d:\d\d)")
_PIECES = re.compile(r"[^\S\u00a0]+|(?:\S|\u00a0)+")
_LOWERED = 0.68
_DROP = 0.17
_SIGN = 1.0
_SIGN_GAP = 0.35
_SOFT = "\u00ad"


@dataclass(frozen=True, slots=True)
class Run:
    """A run of text in one weight; ``sign`` is drawn before it; ``struck`` is ruled through and stays legible."""

    text: str
    bold: bool = False
    sign: Sign | None = None
    struck: bool = False


Rich = tuple[Run, ...]


def plain(text: str) -> Rich:
    return (Run(text),)


def bold(text: str) -> Rich:
    return (Run(text, bold=True),)


def said(parts: Iterable[Said]) -> Rich:
    """Pieces of a paragraph, with a space between them."""
    runs: list[Run] = []
    for part in parts:
        if runs:
            runs.append(Run(" "))
        if part.lead:
            runs.append(Run(part.lead, bold=True))
        if part.text:
            joined = part.text if not part.lead or part.text[0] in ",.;:" else " " + part.text
            runs.append(Run(joined))
    return tuple(runs)


@dataclass(frozen=True, slots=True)
class Bit:
    """A bit of a line: text in one face and size, ``rise`` points above the baseline, or a sign."""

    x: float
    text: str
    face: str
    size: float
    rise: float = 0.0
    struck: bool = False
    sign: Sign | None = None


@dataclass(frozen=True, slots=True)
class Line:
    bits: tuple[Bit, ...]
    width: float


@dataclass(slots=True)
class _Word:
    bits: list[Bit]
    width: float = 0.0

    def add(self, text: str, face: str, size: float, rise: float, struck: bool) -> None:
        self.bits.append(Bit(self.width, text, face, size, rise, struck))
        self.width += typeface.width(text, face, size)

    def add_sign(self, sign: Sign, size: float) -> None:
        self.bits.append(Bit(self.width, "", typeface.PLAIN, size, sign=sign))
        self.width += size * (_SIGN + _SIGN_GAP)


@lru_cache(maxsize=20_000)
def wrap(rich: Rich, width: float, size: float, figures: bool = False) -> tuple[Line, ...]:
    """Break runs into lines no wider than ``width``; a word that is wider alone is broken, never cut off."""
    space = typeface.width(" ", typeface.name_of(False, figures), size)
    lines: list[Line] = []
    words: list[_Word] = []
    filled = 0.0
    for word in _fitting(_words(rich, size, figures), width):
        needed = word.width if not words else filled + space + word.width
        if words and needed > width + 0.01:
            lines.append(_line(words, space))
            words, needed = [], word.width
        words.append(word)
        filled = needed
    if words:
        lines.append(_line(words, space))
    return tuple(lines)


def draw_line(canvas: Canvas, line: Line, x: float, baseline: float) -> None:
    """Draw a line from its left edge."""
    for bit in line.bits:
        if bit.sign is not None:
            signs.draw(canvas, bit.sign, x + bit.x, baseline, bit.size * _SIGN)
            continue
        text = canvas.beginText(x + bit.x, baseline)
        text.setFont(bit.face, bit.size)
        if bit.rise:
            text.setRise(bit.rise)
        text.textOut(bit.text)
        if bit.rise:
            text.setRise(0)
        canvas.drawText(text)
        if bit.struck:
            canvas.setLineWidth(1)
            end = x + bit.x + typeface.width(bit.text, bit.face, bit.size)
            height = baseline + bit.size * typeface.CAPITAL * 0.5
            canvas.line(x + bit.x - 1, height, end + 1, height)


def width_of(rich: Rich, size: float, figures: bool = False) -> float:
    """The width of runs on one line."""
    lines = wrap(rich, 1e6, size, figures)
    return lines[0].width if lines else 0.0


def _words(rich: Rich, size: float, figures: bool) -> Iterator[_Word]:
    word = _Word([])
    for run in rich:
        if run.sign is not None:
            if word.bits and any(bit.text for bit in word.bits):
                yield word
                word = _Word([])
            word.add_sign(run.sign, size)
        face = typeface.name_of(run.bold, figures)
        text = _OFFSET.sub("\u00a0\\1", typeface.printable(run.text))
        for piece in _PIECES.findall(text):
            if piece.isspace() and "\u00a0" not in piece:
                if any(bit.text for bit in word.bits):
                    yield word
                    word = _Word([])
                continue
            for part, lowered in _formula_parts(piece):
                scale = _LOWERED if lowered else 1.0
                word.add(part, face, size * scale, -_DROP * size if lowered else 0.0, run.struck)
    if word.bits:
        yield word


def _formula_parts(text: str) -> Iterator[tuple[str, bool]]:
    at = 0
    for found in _FORMULA.finditer(text):
        if found.start() > at:
            yield text[at : found.start()], False
        for part in _DIGITS.findall(found.group()):
            yield part, part.isdigit()
        at = found.end()
    if at < len(text):
        yield text[at:], False


def _fitting(words: Iterable[_Word], width: float) -> Iterator[_Word]:
    for word in words:
        soft = any(_SOFT in bit.text for bit in word.bits)
        if soft:
            yield from _softly_broken(word, width)
        elif word.width <= width:
            yield word
        else:
            yield from _hard_broken(word, width)


def _softly_broken(word: _Word, width: float) -> Iterator[_Word]:
    whole = _Word([])
    for bit in word.bits:
        whole.add(bit.text.replace(_SOFT, ""), bit.face, bit.size, bit.rise, bit.struck)
    if whole.width <= width:
        yield whole
        return
    first = word.bits[0]
    parts = "".join(bit.text for bit in word.bits).split(_SOFT)
    for place, part in enumerate(parts):
        piece = _Word([])
        piece.add(part + ("-" if place < len(parts) - 1 else ""), first.face, first.size, first.rise, first.struck)
        yield from _hard_broken(piece, width) if piece.width > width else (piece,)


def _hard_broken(word: _Word, width: float) -> Iterator[_Word]:
    piece = _Word([])
    for bit in word.bits:
        if bit.sign is not None:
            piece.add_sign(bit.sign, bit.size)
            continue
        for mark in bit.text:
            if piece.bits and piece.width + typeface.width(mark, bit.face, bit.size) > width:
                yield piece
                piece = _Word([])
            last = piece.bits[-1] if piece.bits else None
            if last and last.text and (last.face, last.size, last.rise) == (bit.face, bit.size, bit.rise):
                piece.bits[-1] = Bit(last.x, last.text + mark, bit.face, bit.size, bit.rise, bit.struck)
                piece.width = last.x + typeface.width(last.text + mark, bit.face, bit.size)
            else:
                piece.add(mark, bit.face, bit.size, bit.rise, bit.struck)
    if piece.bits:
        yield piece


def _line(words: list[_Word], space: float) -> Line:
    bits: list[Bit] = []
    x = 0.0
    for place, word in enumerate(words):
        if place:
            x += space
        for bit in word.bits:
            _join(bits, Bit(x + bit.x, bit.text, bit.face, bit.size, bit.rise, bit.struck, bit.sign), space)
        x += word.width
    return Line(tuple(bits), x)


def _join(bits: list[Bit], bit: Bit, space: float) -> None:
    """Add a bit, as part of the one before where both can be drawn in one go."""
    last = bits[-1] if bits else None
    if last and last.sign is None and bit.sign is None and not (last.struck or bit.struck):
        same = (last.face, last.size, last.rise) == (bit.face, bit.size, bit.rise)
        end = last.x + typeface.width(last.text, last.face, last.size)
        if same and abs(bit.x - end - space) < 0.01 and abs(typeface.width(" ", bit.face, bit.size) - space) < 0.01:
            bits[-1] = Bit(last.x, f"{last.text} {bit.text}", last.face, last.size, last.rise)
            return
        if same and abs(bit.x - end) < 0.01:
            bits[-1] = Bit(last.x, last.text + bit.text, last.face, last.size, last.rise)
            return
    bits.append(bit)
