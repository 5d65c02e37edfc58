"""What happened and who answers for it: stops, breaks, changes, closing, signatures, cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper.content import Dated, PermitPage, Signature
from lamproom.paper.flow import Block, Piece
from lamproom.paper.sheet import HAIR, MM
from lamproom.paper.tables import Column, abreast, abreast_as_one, answered, heads, paragraph, table
from lamproom.paper.text import Rich, Run, draw_line, plain, said, wrap
from lamproom.words import say

Strokes = Sequence[Sequence[tuple[float, float]]]

_ABREAST = 3
_INK = 31.0
_NO_INK = 14.0
_GUTTER = 5 * MM


def stops(page: PermitPage, width: float) -> Block:
    """Each stop: what, how everyone came out, and the determination that was signed."""
    texts = heads(*(say(f"paper.head.{name}", page.language) for name in ("at", "stop", "out", "determination")))
    columns = [Column(text, share) for text, share in zip(texts, (10, 34, 22, 34), strict=True)]
    rows = [
        [answered(s.at), answered(s.what, True), answered(s.out), _determination(s.determination, page.language)]
        for s in page.stops
    ]
    under = say("paper.under.stops", page.language)
    return Block(say("paper.block.stops", page.language), tuple(table(columns, rows, width)), under=under)


def _determination(words: str, language: str) -> Rich:
    return plain(words) if words else (Run(say("paper.no_determination", language), bold=True, sign="not answered"),)


def breaks(page: PermitPage, width: float) -> Block:
    """Each break: how the opening was left, and what was done before anyone went back in."""
    texts = heads(*(say(f"paper.head.{name}", page.language) for name in ("began", "ended", "left", "back")))
    columns = [Column(text, share) for text, share in zip(texts, (9, 9, 40, 42), strict=True)]
    rows = [[answered(b.began), answered(b.ended), answered(b.left), answered(b.back)] for b in page.breaks]
    return Block(say("paper.block.breaks", page.language), tuple(table(columns, rows, width)))


def changed(page: PermitPage, width: float) -> Block:
    """What changed against the page that was posted."""
    pieces = tuple(paragraph((Run(c.at, bold=True), Run(" "), *answered(c.text)), width) for c in page.changed)
    under = say("paper.under.changed", page.language)
    return Block(say("paper.block.changed", page.language), pieces, under=under)


def closing(page: PermitPage, width: float) -> Block | None:
    """How and why the permit ended, problems met, and how long it is kept; None while it runs."""
    ended = page.closing
    if ended is None:
        return None
    half = (width - 14) / 2
    at = (Run(say("paper.head.at", page.language), bold=True),)
    because = (Run(say("paper.head.ended_because", page.language, cause=ended.cause), bold=True),)
    problems = (Run(say("paper.head.problems", page.language), bold=True),)
    left = table([Column(at, 15), Column(because, 85)], _dated(ended.done), half)
    none = plain(say("paper.no_problems", page.language))
    rows = _dated(ended.problems) or [[plain("–"), none]]
    right = table([Column(at, 15), Column(problems, 85)], rows, half)
    pieces = abreast(left, right, half + 14)
    if ended.keep:
        pieces.append(paragraph(said(ended.keep), width, 8, 10.5))
    under = say("paper.under.closing", page.language)
    return Block(say("paper.block.closing", page.language), tuple(pieces), under=under, may_split=True)


def _dated(lines: Sequence[Dated]) -> list[list[Rich]]:
    return [[answered(line.at), answered(line.text)] for line in lines]


# --- signatures ------------------------------------------------------------------------------------------------


def signatures(page: PermitPage, width: float, none: str | None = None) -> Block:
    """Ink above the rule and the signed version at its end; below, who, in which role, what it means, and when.

    ``none`` stands where nobody signed: None says so, an empty text says nothing."""
    pieces: list[Piece] = []
    for first in range(0, len(page.signatures), _ABREAST):
        pieces.append(row_of_signatures(page.signatures[first : first + _ABREAST], width, page.language))
    if pieces and (page.signatures_note or page.authority):
        # What the signatures mean does not stand alone on the next page.
        pieces[-1] = replace(pieces[-1], glued=True)
    if not pieces and none is None:
        pieces.append(paragraph(plain(say("paper.signatures_none", page.language)), width))
    if page.signatures_note:
        pieces.append(paragraph(plain(page.signatures_note), width, 8, 10.5))
    if page.authority:
        told = say("paper.authority", page.language, fingerprint=page.authority)
        pieces.append(paragraph(plain(told), width, 8, 10.5))
    under = say("paper.under.signatures", page.language)
    return Block(say("paper.block.signatures", page.language), tuple(pieces), under=under, may_split=True)


def row_of_signatures(row: Sequence[Signature], width: float, language: str, abreast: int = _ABREAST) -> Piece:
    """Signatures beside each other, each in its share of the width."""
    own = (width - _GUTTER * (abreast - 1)) / abreast
    below = []
    for one in row:
        role = Run(f", {one.role}") if one.role else Run("")
        below.append(
            [
                *wrap((Run(one.name, bold=True), role), own, 8.5, True),
                *wrap(said([one.meaning]), own, 8.5, True),
                *wrap(answered(one.at), own, 8.5, True),
            ]
        )
    ink = _INK if any(one.strokes for one in row) else _NO_INK
    height = ink + 10.5 * max(len(lines) for lines in below) + 5

    def draw(canvas: Canvas, x: float, top: float) -> None:
        for place, (one, lines) in enumerate(zip(row, below, strict=True)):
            left = x + place * (own + _GUTTER)
            _draw_ink(canvas, one, left, top, own, language, ink)
            for number, line in enumerate(lines):
                draw_line(canvas, line, left, top - ink - 9.5 - 10.5 * number)

    return Piece(height, draw)


def _draw_ink(canvas: Canvas, one: Signature, left: float, top: float, own: float, language: str, ink: float) -> None:
    rule = top - ink
    number = wrap((Run(str(one.number), bold=True),), own, 8.5, True)[0]
    draw_line(canvas, number, left, rule + 3)
    version = wrap(plain(say("paper.signed_version", language, version=one.version)), own, 8, True)[0]
    draw_line(canvas, version, left + own - version.width, rule + 3)
    canvas.setLineWidth(HAIR)
    canvas.line(left, rule, left + own, rule)
    room_left, room = left + 13, own - 13 - version.width - 6
    if not one.strokes:
        how = say("paper.by_code" if one.by_code else "paper.by_station", language)
        draw_line(canvas, wrap(plain(how), room, 8)[0], room_left, rule + 3)
        return
    draw_strokes(canvas, one.strokes, room_left, rule + 1, room, ink - 5)


def draw_strokes(canvas: Canvas, strokes: Strokes, left: float, bottom: float, width: float, height: float) -> None:
    """The ink as vectors, as large as its box allows, in its own proportions."""
    points = [point for stroke in strokes for point in stroke]
    if not points:
        return
    least_x, least_y = min(p[0] for p in points), min(p[1] for p in points)
    wide = max(max(p[0] for p in points) - least_x, 1e-6)
    high = max(max(p[1] for p in points) - least_y, 1e-6)
    scale = min(width / wide, height / high)
    path = canvas.beginPath()
    for stroke in strokes:
        for place, (along, down) in enumerate(stroke):
            x, y = left + (along - least_x) * scale, bottom + (high - (down - least_y)) * scale
            if place == 0:
                path.moveTo(x, y)
                if len(stroke) == 1:
                    path.lineTo(x + 0.6, y)
            else:
                path.lineTo(x, y)
    canvas.saveState()
    canvas.setLineWidth(1.1)
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    canvas.drawPath(path)
    canvas.restoreState()


# --- cautions --------------------------------------------------------------------------------------------------


def cautions(page: PermitPage, width: float) -> Block:
    """Two abreast, in the order given."""
    half = (width - 14) / 2
    middle = (len(page.cautions) + 1) // 2
    left = [paragraph(plain(text), half, 8.25, 10, below=2) for text in page.cautions[:middle]]
    right = [paragraph(plain(text), half, 8.25, 10, below=2) for text in page.cautions[middle:]]
    return Block(say("paper.block.cautions", page.language), (abreast_as_one(left, right, half + 14),))
