"""Item 10 before entry: the section of the space and the table of tested points as one figure, and the instruments.

Each row of the table stands at the depth of its point; where points lie closer than a row is high, the leaders fan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import section_drawing, signs, typeface
from lamproom.paper.content import Figure, Gas, Instrument, PermitPage, Section, TestedPoint, TestsBefore
from lamproom.paper.flow import Block, Piece
from lamproom.paper.section_drawing import Tested
from lamproom.paper.sheet import HAIR, THIN
from lamproom.paper.tables import Column, answered, gap, heads, not_answered, paragraph, table
from lamproom.paper.text import Run, draw_line, plain, said, wrap
from lamproom.words import say

_ROW = 27.0
"""Least height of a row with one time: name and time on two lines."""
_TIME_LEADING = 9.0
_FIGURES_ABREAST = 10
_DEEPEST = 290.0
_SHALLOWEST = 150.0
_DRAWING = 0.3
_POINT = 66.0
_HEAD = 54.0


def tests_before(page: PermitPage, width: float) -> Block:
    """The figure, then who tested and how."""
    tests = page.tests_before
    pieces: list[Piece] = []
    if tests.points or page.section is not None:
        abreast = _FIGURES_ABREAST // max(len(tests.phases), 2)
        groups = [tests.gases[i : i + abreast] for i in range(0, len(tests.gases), abreast)] or [()]
        for place, gases in enumerate(groups):
            pieces.append(_figure(tests, gases, page.section if place == 0 else None, width, page.language))
    if not tests.points:
        pieces.append(paragraph(not_answered(), width))
    if page.section is None:
        pieces.append(paragraph(plain(say("paper.section.none", page.language)), width))
    elif page.section.caption:
        pieces.append(paragraph(plain(page.section.caption), width, 8, 10.5))
    words = said(tests.notes) if tests.notes else ()
    if any(_ringed(figures) for point in tests.points for figures in point.figures):
        key = Run(say("paper.ring_key", page.language), sign="not answered")
        words = (*words, Run(" "), key) if words else (key,)
    if words:
        pieces.append(paragraph(words, width, 9, 11))
    under = say("paper.under.before", page.language) if page.section is not None else ""
    return Block(say("paper.block.10.before", page.language), tuple(pieces), 10, under)


@dataclass(frozen=True, slots=True)
class _Places:
    """Where rows stand, as distances below the portal: their true depth, and the middle of the row."""

    depths: tuple[float, ...]
    middles: tuple[float, ...]


def _row_height(point: TestedPoint, phases: int) -> float:
    """Name, and below it one time for each phase in which the point was tested."""
    times = sum(bool(time) for time in point.times)
    return _ROW if phases < 2 or times < 2 else _ROW - 3 + _TIME_LEADING * (times - 1)


def row_places(points: Sequence[TestedPoint], each: float, phases: int) -> _Places:
    """Each row at its depth, or as little below it as the rows above ask for."""
    depths = tuple(point.depth * each for point in points)
    middles: list[float] = []
    above = 0.0
    for point, depth in zip(points, depths, strict=True):
        high = _row_height(point, phases)
        middles.append(max(depth, middles[-1] + (above + high) / 2) if middles else depth)
        above = high
    return _Places(depths, tuple(middles))


def _wanted_depth(section: Section, points: Sequence[TestedPoint], row: float) -> float:
    """Deep enough that the closest two points are a row apart, within the room of a page."""
    depths = sorted(point.depth for point in points)
    gaps = [after - before for before, after in pairwise(depths) if after > before]
    wanted = row * section.depth / min(gaps) if gaps else _SHALLOWEST
    return min(max(wanted, _SHALLOWEST), _DEEPEST)


def _figure(tests: TestsBefore, gases: Sequence[Gas], section: Section | None, width: float, language: str) -> Piece:
    room = width * _DRAWING if section is not None else 0.0
    points = sorted(tests.points, key=lambda point: point.depth)
    heights = [_row_height(point, len(tests.phases)) for point in points] or [_ROW]
    high = max(heights)
    if section is not None:
        scale = section_drawing.scale_for(section, room, _wanted_depth(section, points, high))
        places = row_places(points, scale.each, len(tests.phases))
        drawn = scale.depth + section_drawing.BELOW
    else:
        scale = None
        places = _Places((), tuple(high * (row + 0.5) for row in range(len(points))))
        drawn = 0.0
    # The portal lies so low that the first row, at its true depth, still clears the rule under the head.
    ground = _HEAD + max(heights[0] / 2 - (places.middles[0] if places.middles else high), 0)
    ground = max(ground, section_drawing.ABOVE + 3) if section is not None else ground
    below = max(drawn, (places.middles[-1] + heights[-1] / 2 + 4) if places.middles else 0.0)
    chosen = tuple(tests.gases.index(gas) for gas in gases)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        portal = top - ground
        left = x + room
        if section is not None and scale is not None:
            marks = [Tested(p.depth, _tested(p)) for p in points]
            hose = section_drawing.draw(canvas, section, marks, scale, x, portal, room)
            _leaders(canvas, places, hose, left, portal)
        if gases:
            columns = _GasColumns(left + _POINT, x + width, len(gases), len(tests.phases))
            _draw_head(canvas, tests, gases, columns, left, x + width, top, language)
            for row, (point, middle) in enumerate(zip(points, places.middles, strict=True)):
                _draw_point(canvas, point, tests.phases, chosen, columns, left, portal - middle)
                if row + 1 < len(points):
                    low, next_high = middle + heights[row] / 2, places.middles[row + 1] - heights[row + 1] / 2
                    between = portal - (low + next_high) / 2
                    canvas.setLineWidth(HAIR)
                    canvas.line(left, between, x + width, between)

    return Piece(ground + below, draw)


def _ringed(figures: Sequence[Figure]) -> bool:
    """Does a ring stand among these figures?"""
    return not figures or any(not figure.text for figure in figures)


def _tested(point: TestedPoint) -> bool:
    return all(figures and figures[-1].text for figures in point.figures) and bool(point.figures)


def _leaders(canvas: Canvas, places: _Places, hose: float, left: float, portal: float) -> None:
    canvas.setLineWidth(0.6)
    canvas.setDash(0.8, 2.2)
    for depth, middle in zip(places.depths, places.middles, strict=True):
        bend = left - 12
        path = canvas.beginPath()
        path.moveTo(hose + 5, portal - depth)
        path.lineTo(bend, portal - depth)
        path.lineTo(left - 3, portal - middle)
        canvas.drawPath(path)
    canvas.setDash()


@dataclass(frozen=True, slots=True)
class _GasColumns:
    """Right edges of the figures: one for each phase of each gas."""

    left: float
    right: float
    gases: int
    phases: int

    def edge(self, gas: int, phase: int) -> float:
        each = (self.right - self.left) / self.gases
        if self.phases == 1:
            return self.left + each * (gas + 1)
        # The first phase leaves room on its left for the triangle; the others share the rest evenly.
        first = 0.55 if self.phases == 2 else 0.4
        return self.left + each * (gas + first + (1 - first) * phase / (self.phases - 1))


def _draw_head(
    canvas: Canvas,
    tests: TestsBefore,
    gases: Sequence[Gas],
    columns: _GasColumns,
    left: float,
    right: float,
    top: float,
    language: str,
) -> None:
    rows = [top - 9, top - 19.5, top - 30, top - 44]
    draw_line(canvas, wrap(((Run(say("paper.head.point", language), bold=True)),), _POINT, 8)[0], left, rows[0])
    draw_line(canvas, wrap(plain(say("paper.head.limit", language)), _POINT, 8)[0], left, rows[2])
    each = (right - columns.left) / len(gases)
    for place, gas in enumerate(gases):
        edge = columns.edge(place, len(tests.phases) - 1)
        name = gas.name if typeface.width(typeface.printable(gas.name), typeface.BOLD, 8.5) <= each - 4 else gas.short
        for row, (text, bold) in enumerate(((name, True), (gas.unit, False), (gas.limit, False))):
            line = wrap((Run(text or "–", bold=bold),), 1e6, 8.5 if bold else 8, True)[0]
            draw_line(canvas, line, edge - line.width, rows[row])
        if len(tests.phases) > 1:
            for phase, word in enumerate(tests.phases):
                line = wrap((Run(word, bold=phase == len(tests.phases) - 1),), 200, 8, True)[0]
                draw_line(canvas, line, columns.edge(place, phase) - line.width, rows[3])
    if len(tests.phases) > 1:
        draw_line(canvas, wrap(plain(tests.phase_caption), _POINT + 10, 8)[0], left, rows[3])
    canvas.setLineWidth(THIN)
    canvas.line(left, top - _HEAD + 4, right, top - _HEAD + 4)


def _draw_point(
    canvas: Canvas,
    point: TestedPoint,
    phases: Sequence[str],
    chosen: Sequence[int],
    columns: _GasColumns,
    left: float,
    middle: float,
) -> None:
    """Name and depth, below them when each phase was tested, and the figures on the middle of the row."""
    times = [time for time in point.times if time]
    if len(phases) > 1:
        times = [f"{phase}\u00a0{time}" for phase, time in zip(phases, point.times, strict=False) if time]
    lines = max(len(times), 1)
    y = middle + 2 + _TIME_LEADING * (lines - 1) / 2
    depth = point.depth_words.replace(" ", "\u00a0")
    named = wrap((Run(point.name, bold=True), Run(f" {depth}" if point.name else depth)), _POINT, 9, True)
    draw_line(canvas, named[0], left, y)
    for place, time in enumerate(times or ["–"]):
        draw_line(canvas, wrap(plain(time), _POINT, 8, True)[0], left, y - 10.5 - _TIME_LEADING * place)
    for place, gas in enumerate(chosen):
        figures = point.figures[gas] if gas < len(point.figures) else ()
        for phase in range(columns.phases):
            figure = figures[phase] if phase < len(figures) else Figure("")
            _draw_figure(canvas, figure, phase == columns.phases - 1, columns.edge(place, phase), middle)


_TRIANGLE = 8.0


def _draw_figure(canvas: Canvas, figure: Figure, counts: bool, edge: float, middle: float) -> None:
    """A figure to the left of its edge. Its triangle is small and close, so that it cannot be read with the next."""
    size = 10.5 if counts else 9.5
    if not figure.text:
        signs.draw(canvas, "not answered", edge - 8, middle - 3.2, 8)
        return
    runs = [Run(figure.text, bold=counts or figure.outside)]
    if figure.first:
        runs = [Run(figure.first, struck=True), Run(" "), *runs]
    if figure.in_doubt:
        runs.append(Run("", sign="in doubt"))
    line = wrap(tuple(runs), 500, size, True)[0]
    base = middle - size * typeface.CAPITAL / 2
    draw_line(canvas, line, edge - line.width, base)
    if figure.outside:
        signs.draw(canvas, "outside", edge - line.width - _TRIANGLE - 1.5, base, _TRIANGLE)


# --- instruments -----------------------------------------------------------------------------------------------


def instruments(page: PermitPage, width: float) -> Block:
    """Each instrument: what it is, until when it is ready, and the bump test it stands on."""
    pieces: list[Piece] = []
    for place, instrument in enumerate(page.instruments):
        if place:
            pieces.append(gap(5))
        own = _instrument(instrument, width, page.language)
        # An instrument stands whole beside the bump test that it stands on.
        pieces += [*(replace(piece, glued=True) for piece in own[:-1]), own[-1]]
    if not pieces:
        pieces.append(paragraph(not_answered(), width))
    return Block(say("paper.block.10.instrument", page.language), tuple(pieces), 10, may_split=True)


def _instrument(instrument: Instrument, width: float, language: str) -> list[Piece]:
    texts = heads(
        instrument.bump_title,
        *(say(f"paper.head.{name}", language) for name in ("applied", "read", "accepted", "response")),
    )
    columns = [
        Column(text, share, "left" if place == 0 else "right")
        for place, (text, share) in enumerate(zip(texts, (30, 17, 13, 18, 22), strict=True))
    ]
    rows = []
    for row in instrument.bump:
        read = answered(row.read)
        if not row.passed:
            read = (Run(row.read, bold=True, sign="outside"), Run(" " + say("paper.bump_failed", language), bold=True))
        rows.append([answered(row.sensor), answered(row.applied), read, answered(row.accepted), answered(row.response)])
    return [paragraph(said(instrument.words) or not_answered(), width), *table(columns, rows, width)]
