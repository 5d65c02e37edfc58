"""The sheet: paper sizes, the grid of rail and column, and what stands on every page whatever its content.

The foot carries code, version, state, copy and page x of y; the rail's foot the QR; a draft is crossed out. Layout
is in points; the grid is written in millimetres, as it is measured on paper.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from math import atan2, degrees, hypot
from typing import Literal

import segno
from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import fingerprint, signs, typeface
from lamproom.paper.content import PageState
from lamproom.paper.flow import Block, Title
from lamproom.paper.text import Rich, bold, draw_line, plain, wrap
from lamproom.words import say

Paper = Literal["letter", "a4", "tabloid", "a3"]
MM = 72 / 25.4
SIZES: dict[str, tuple[float, float]] = {
    "letter": (612.0, 792.0),
    "a4": (210 * MM, 297 * MM),
    "tabloid": (792.0, 1224.0),
    "a3": (297 * MM, 420 * MM),
}
QR_SIDE = 25 * MM
HAIR, THIN, HEAVY, HEAVIEST = 0.5, 0.8, 1.6, 2.4


@dataclass(frozen=True, slots=True)
class Grid:
    """Rail and column of one paper, in points. The left margin clears punched holes and the QR's quiet zone."""

    width: float
    height: float
    left: float = 21 * MM
    rail: float = 25 * MM
    gutter: float = 5 * MM
    right_margin: float = 12 * MM
    margin: float = 12 * MM
    foot: float = 10 * MM

    @property
    def column(self) -> float:
        """Left edge of the column."""
        return self.left + self.rail + self.gutter

    @property
    def right(self) -> float:
        return self.width - self.right_margin

    @property
    def column_width(self) -> float:
        return self.right - self.column

    @property
    def bottom(self) -> float:
        """Lowest edge of content: above the foot."""
        return self.margin + self.foot + 2

    @property
    def qr_clear(self) -> float:
        """Nothing in the rail below this: the code's top and its quiet zone of four modules."""
        return self.margin + QR_SIDE + 10


def grid(paper: Paper) -> Grid:
    return Grid(*SIZES[paper])


@dataclass(frozen=True, slots=True)
class Mark:
    """What identifies a page: the same on every sheet of one printing."""

    number: str
    version: int
    state: PageState
    code: str
    printed: str
    copy: int
    language: str
    words: str = ""
    """The state as the title says it; '' says it by the state alone."""


def open_canvas(paper: Paper, title: str, subject: str, site: str, language: str, at: datetime | None) -> Canvas:
    """A canvas that begins in our own face, and whose bytes depend on nothing but what is drawn and ``at``."""
    typeface.faces()
    canvas = Canvas(BytesIO(), SIZES[paper], invariant=1, initialFontName=typeface.PLAIN, pageCompression=1)
    if at is not None:
        stamp = _pdf_date(at)
        canvas.setDateFormatter(lambda *_: stamp)
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setAuthor(site)
    canvas.setCreator("Lamproom")
    canvas.setProducer("Lamproom")
    canvas.setCatalogEntry("Lang", language)
    canvas.setViewerPreference("DisplayDocTitle", "true")
    return canvas


def close_canvas(canvas: Canvas) -> bytes:
    """The bytes of the finished file."""
    data: bytes | str = canvas.getpdfdata()
    return data if isinstance(data, bytes) else data.encode("latin-1")


def _pdf_date(at: datetime) -> str:
    offset = at.utcoffset()
    if offset is None:
        raise ValueError("the time of printing needs its zone")
    minutes = int(offset.total_seconds()) // 60
    sign = "-" if minutes < 0 else "+"
    return f"D:{at:%Y%m%d%H%M%S}{sign}{abs(minutes) // 60:02d}'{abs(minutes) % 60:02d}'"


# --- the rail --------------------------------------------------------------------------------------------------


def rail_lines(block: Block, continued: bool, width: float) -> list[tuple[Rich, float, float]]:
    """The lines of a block's name: text, size and leading."""
    lines: list[tuple[Rich, float, float]] = [(bold(block.title), 9.5, 11.5)]
    if block.under and not continued:
        lines.append((plain(block.under), 8, 10))
    if continued:
        lines.append((plain(say("paper.continued")), 8, 10))
    return lines


def rail_height(grid_: Grid) -> Callable[[Block, bool], float]:
    def height(block: Block, continued: bool) -> float:
        width = _title_width(grid_)
        return sum(leading * len(wrap(t, width, size)) for t, size, leading in rail_lines(block, continued, width)) + 3

    return height


def _title_width(grid_: Grid) -> float:
    return grid_.rail - 5.3 * MM - 3 + grid_.gutter - 8


def draw_title(canvas: Canvas, grid_: Grid, title: Title, rule: float) -> None:
    """A block's name in the rail, its number in a box before it, a rule over the whole width above."""
    if rule:
        canvas.setLineWidth(rule)
        top = title.top + 6
        canvas.line(grid_.left, top, grid_.right, top)
    x = grid_.left
    if title.block.item:
        draw_item(canvas, str(title.block.item), x, title.top - 11.5)
        x += 5.3 * MM + 3
    width = _title_width(grid_) if title.block.item else grid_.rail + grid_.gutter - 4
    y = title.top
    for rich, size, leading in rail_lines(title.block, title.continued, width):
        for line in wrap(rich, width, size):
            y -= leading
            draw_line(canvas, line, x, y + 2.4)


def draw_item(canvas: Canvas, number: str, x: float, y: float, height: float = 13.0, width: float = 5.3 * MM) -> None:
    """The boxed number of an item of the regulation."""
    canvas.setLineWidth(1.1)
    canvas.rect(x + 0.5, y, width - 1, height)
    size = 9.0 if width > 14.5 else 8.0
    canvas.setFont(typeface.FIGURES_BOLD, size)
    canvas.drawCentredString(x + width / 2, y + height / 2 - size * typeface.CAPITAL / 2, number)


# --- the foot --------------------------------------------------------------------------------------------------


def draw_foot(canvas: Canvas, grid_: Grid, mark: Mark, page: int, pages: int) -> None:
    """Rule, code in fours, version and state, page x of y, copy and time of printing; the QR in the rail."""
    top = grid_.margin + grid_.foot
    canvas.setLineWidth(HAIR)
    canvas.line(grid_.column, top, grid_.right, top)
    first, second = top - 11.5, top - 22.5
    canvas.setFont(typeface.PLAIN, 8.5)
    caption = say("paper.title_code", mark.language)
    canvas.drawString(grid_.column, first, caption)
    x = grid_.column + typeface.width(caption, typeface.PLAIN, 8.5) + 6
    code = fingerprint.in_fours(mark.code)
    canvas.setFont(typeface.FIGURES_BOLD, 10.5)
    canvas.drawString(x, first, code)
    x += typeface.width(code, typeface.FIGURES_BOLD, 10.5) + 12
    canvas.setFont(typeface.PLAIN, 8.5)
    canvas.drawString(x, first, version_words(mark))
    canvas.drawString(grid_.column, second, typeface.printable(printed_words(mark)))
    canvas.drawRightString(grid_.right, second, say("paper.foot_scan", mark.language))
    canvas.setFont(typeface.FIGURES_BOLD, 10)
    canvas.drawRightString(grid_.right, first, say("paper.foot_page", mark.language, page=page, pages=pages))
    draw_qr(canvas, mark, grid_.left, grid_.margin)


def version_words(mark: Mark) -> str:
    state = mark.words[:1].lower() + mark.words[1:] or say(f"paper.state.{mark.state}", mark.language)
    text = say("paper.foot_version", mark.language, number=mark.number, version=mark.version, state=state)
    return typeface.printable(text)


def printed_words(mark: Mark) -> str:
    return say("paper.foot_printed", mark.language, copy=mark.copy, printed=mark.printed)


def draw_qr(canvas: Canvas, mark: Mark, x: float, y: float, side: float = QR_SIDE) -> None:
    """The code as a QR of level Q (ISO/IEC 18004); the margins keep its quiet zone of four modules free."""
    text = fingerprint.qr_text(mark.number, mark.version, mark.code)
    qr = segno.make(text, error="q", micro=False, boost_error=False)
    rows = [list(row) for row in qr.matrix]
    module = side / len(rows)
    path = canvas.beginPath()
    for down, row in enumerate(rows):
        start = None
        for across, dark in enumerate([*row, 0]):
            if dark and start is None:
                start = across
            elif not dark and start is not None:
                path.rect(x + start * module, y + side - (down + 1) * module, (across - start) * module, module)
                start = None
    canvas.drawPath(path, stroke=0, fill=1)


# --- heads -----------------------------------------------------------------------------------------------------


def draw_running_head(canvas: Canvas, grid_: Grid, mark: Mark, space: str, state_words: str) -> float:
    """The head of the second and later pages. Returns the lower edge of its rule."""
    baseline = grid_.height - grid_.margin - 10
    canvas.setFont(typeface.FIGURES_BOLD, 11.5)
    number = typeface.printable(mark.number)
    canvas.drawString(grid_.left, baseline, number)
    x = max(grid_.column, grid_.left + typeface.width(number, typeface.FIGURES_BOLD, 11.5) + 10)
    state = typeface.printable(state_words)
    state_width = typeface.width(state, typeface.BOLD, 12)
    canvas.setFont(typeface.BOLD, 12)
    canvas.drawRightString(grid_.right, baseline, state)
    signs.draw(canvas, mark.state, grid_.right - state_width - 17, baseline, 12)
    room = grid_.right - state_width - 24 - x
    draw_line(canvas, wrap(plain(space), room, 10)[0], x, baseline)
    canvas.setLineWidth(HEAVY)
    canvas.line(grid_.left, baseline - 10, grid_.right, baseline - 10)
    return baseline - 10


def running_head_bottom(grid_: Grid) -> float:
    return grid_.height - grid_.margin - 20


# --- a draft ---------------------------------------------------------------------------------------------------


def cross_out(canvas: Canvas, left: float, bottom: float, right: float, top: float, words: str) -> None:
    """Outline letters across the page, over the content and readable through it."""
    angle = atan2(top - bottom, right - left)
    size = hypot(right - left, top - bottom) * 0.96 / typeface.width(words, typeface.BOLD, 1.0)
    size = min(size, 58.0)
    length = typeface.width(words, typeface.BOLD, size)
    middle_x, middle_y = (left + right) / 2, (bottom + top) / 2
    canvas.saveState()
    canvas.translate(middle_x, middle_y)
    canvas.rotate(degrees(angle))
    text = canvas.beginText(-length / 2, -size * typeface.CAPITAL / 2)
    text.setFont(typeface.BOLD, size)
    text.setTextRenderMode(1)
    canvas.setLineWidth(1)
    text.textOut(words)
    text.setTextRenderMode(0)
    canvas.drawText(text)
    canvas.restoreState()
