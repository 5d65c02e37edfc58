"""The carry-on sheet: hangs behind the posted page, so that paper alone goes on if the machine fails.

Empty cells that a hand in a glove can fill: readings, in and out, added entrants, one hand-over of the watch.
"""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import fingerprint, sheet, typeface
from lamproom.paper.content import PostedPage
from lamproom.paper.sheet import HAIR, HEAVIEST, MM, THIN, Grid, Mark, Paper
from lamproom.paper.text import Rich, Run, bold, draw_line, plain, wrap
from lamproom.words import say

_ROW = 8.2 * MM
_READINGS = 14
_PEOPLE = 5
_CELL = 0.6


def render_carry_on(page: PostedPage, paper: Paper = "letter") -> bytes:
    """One side as PDF bytes, with the gases and limits of the permit in the heads."""
    grid = sheet.grid(paper)
    mark = Mark(
        page.number, page.version, page.state, page.code, page.printed, page.copy, page.language, page.state_words
    )
    title = f"{say('paper.carry.title', page.language)} {page.number}"
    canvas = sheet.open_canvas(paper, title, sheet.version_words(mark), page.site, page.language, page.printed_at)
    y = _draw_head(canvas, grid, page)
    y = _draw_readings(canvas, grid, page, y)
    _draw_people(canvas, grid, page, y - 8)
    _draw_hand_over(canvas, grid, page, mark)
    canvas.showPage()
    return sheet.close_canvas(canvas)


def _draw_head(canvas: Canvas, grid: Grid, page: PostedPage) -> float:
    y = grid.height - grid.margin - 15
    canvas.setFont(typeface.BOLD, 19)
    canvas.drawString(grid.left, y, say("paper.carry.title", page.language))
    canvas.setFont(typeface.FIGURES_BOLD, 13)
    canvas.drawRightString(grid.right, y, typeface.printable(page.number))
    draw_line(canvas, wrap(plain(say("paper.carry.why", page.language)), 1e6, 9.5)[0], grid.left, y - 16)
    canvas.setLineWidth(HEAVIEST)
    canvas.line(grid.left, y - 23, grid.right, y - 23)
    return y - 24


def _cells(
    canvas: Canvas, heads: Sequence[Rich], shares: Sequence[float], left: float, right: float, top: float, rows: int
) -> float:
    """A head and empty rows; upright rules between columns, since a hand needs cells."""
    edges = [left]
    for share in shares:
        edges.append(edges[-1] + (right - left) * share / sum(shares))
    wrapped = [wrap(head, edges[place + 1] - edges[place] - 5, 8.5, True) for place, head in enumerate(heads)]
    head_height = 10.5 * max(len(lines) for lines in wrapped) + 6
    for place, lines in enumerate(wrapped):
        for number, line in enumerate(lines):
            draw_line(canvas, line, edges[place] + 3, top - 10.5 * (number + 1))
    y = top - head_height
    canvas.setLineWidth(THIN)
    canvas.line(left, y, right, y)
    canvas.setLineWidth(_CELL)
    for row in range(1, rows + 1):
        canvas.line(left, y - row * _ROW, right, y - row * _ROW)
    for edge in edges[1:-1]:
        canvas.line(edge, top, edge, y - rows * _ROW)
    return y - rows * _ROW


def _draw_readings(canvas: Canvas, grid: Grid, page: PostedPage, top: float) -> float:
    every = page.test_every[:1].lower() + page.test_every[1:]
    canvas.setFont(typeface.BOLD, 10.5)
    canvas.drawString(grid.left, top - 13, typeface.printable(say("paper.carry.readings", page.language, every=every)))
    canvas.setLineWidth(HAIR)
    canvas.line(grid.left, top - 18, grid.right, top - 18)
    heads = [
        bold(say("paper.carry.taken", page.language)),
        bold(say("paper.carry.point", page.language, unit=page.carry_on_unit)),
        *((Run(f"{gas.short} {gas.unit}", bold=True), Run(" "), Run(gas.limit)) for gas in page.carry_on_gases),
        bold(say("paper.carry.initials", page.language)),
        bold(say("paper.carry.seen", page.language)),
    ]
    shares = [10.0, 9.0, *[11.0] * len(page.carry_on_gases), 9.0, 28.0]
    return _cells(canvas, heads, shares, grid.left, grid.right, top - 18, _READINGS)


def _draw_people(canvas: Canvas, grid: Grid, page: PostedPage, top: float) -> None:
    canvas.setFont(typeface.BOLD, 10.5)
    canvas.drawString(grid.left, top - 8, say("paper.carry.tally", page.language))
    canvas.setLineWidth(HAIR)
    canvas.line(grid.left, top - 13, grid.right, top - 13)
    names = ("name", "in", "out", "in", "out", "logged")
    heads = [bold(say(f"paper.carry.{name}", page.language)) for name in names]
    _cells(canvas, heads, [36, 12, 12, 12, 12, 16], grid.left, grid.right, top - 13, _PEOPLE)


def _draw_hand_over(canvas: Canvas, grid: Grid, page: PostedPage, mark: Mark) -> None:
    box_top = grid.margin + 10 * MM + 4 + 2 * 8 * MM + 15.5 * MM
    for number, line in enumerate(wrap(bold(say("paper.carry.handover", page.language)), grid.rail, 10)):
        draw_line(canvas, line, grid.left, box_top - 10 - 12 * number)
    width = (grid.column_width - 4 * MM) / 2
    for place, name in enumerate(("off", "on")):
        _box(canvas, page, grid.column + place * (width + 4 * MM), box_top, width, f"paper.carry.{name}")
    sheet.draw_qr(canvas, mark, grid.left, grid.margin)
    state = page.state_words[:1].lower() + page.state_words[1:]
    space = say("paper.carry.foot", page.language, space=page.space_name, version=page.version, state=state)
    draw_line(canvas, wrap(plain(space), grid.column_width - 90, 8.5, True)[0], grid.column, grid.margin + 14)
    canvas.setFont(typeface.FIGURES, 8.5)
    canvas.drawString(grid.column, grid.margin + 3, typeface.printable(sheet.printed_words(mark)))
    canvas.setFont(typeface.FIGURES_BOLD, 10)
    canvas.drawRightString(grid.right, grid.margin + 14, fingerprint.in_fours(mark.code))
    canvas.setFont(typeface.BOLD, 8.5)
    canvas.drawRightString(grid.right, grid.margin + 3, say("paper.carry.sheet", page.language))


def _box(canvas: Canvas, page: PostedPage, x: float, top: float, width: float, title: str) -> None:
    canvas.setLineWidth(1)
    canvas.rect(x, top - 15.5 * MM, width, 15.5 * MM)
    canvas.setFont(typeface.PLAIN, 8.5)
    canvas.drawString(x + 4, top - 11, say(title, page.language))
    y = top - 15.5 * MM
    for pair in (("paper.carry.name", "paper.carry.inside_now"), ("paper.posted.date", "paper.posted.time")):
        y -= 8 * MM
        for across, id in enumerate(pair):
            canvas.drawString(x + across * width * 0.55, y + 5, say(id, page.language))
        canvas.setLineWidth(HAIR)
        canvas.line(x, y, x + width, y)
