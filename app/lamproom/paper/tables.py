"""Paragraphs and tables of the column, as pieces that are never split."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper.flow import Piece
from lamproom.paper.sheet import HAIR, THIN
from lamproom.paper.text import Line, Rich, Run, draw_line, plain, wrap
from lamproom.words import say

Align = Literal["left", "right", "centre"]
GAP = 6.0
"""Between two columns of a table, in points."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its head, its share of the width (any unit), and where its cells stand."""

    head: Rich
    share: float
    align: Align = "left"


def answered(text: str, bold: bool = False) -> Rich:
    """A cell with its text, or the dotted ring of what was not answered."""
    return (Run(text, bold=bold),) if text.strip() else not_answered()


def not_answered() -> Rich:
    return (Run(say("paper.not_answered"), sign="not answered"),)


def gap(height: float) -> Piece:
    return Piece(height, lambda canvas, x, top: None)


def paragraph(
    rich: Rich, width: float, size: float = 9.25, leading: float = 11.5, figures: bool = True, below: float = 2.0
) -> Piece:
    """A paragraph, one piece."""
    lines = wrap(rich, width, size, figures)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        draw_lines(canvas, lines, x, top, leading, size)

    return Piece(leading * len(lines) + below, draw)


def draw_lines(canvas: Canvas, lines: Sequence[Line], x: float, top: float, leading: float, size: float) -> None:
    """Lines below each other; the first baseline lies so that capitals hang from ``top``."""
    y = top - leading + (leading - size) / 2 + size * 0.16
    for line in lines:
        draw_line(canvas, line, x, y)
        y -= leading


def table(
    columns: Sequence[Column],
    rows: Sequence[Sequence[Rich]],
    width: float,
    size: float = 9.0,
    leading: float = 11.0,
    pad: float = 1.8,
    none: Rich | None = None,
) -> list[Piece]:
    """A head and rows. The head stays with the first row and is drawn again on each page the rows run to.

    Without rows stands ``none``, or the sign of what was not answered.
    """
    edges = _edges(columns, width)
    head = _head(columns, edges, width)
    if not rows:
        return [head, _row([none or not_answered()], [columns[0]], [(0.0, width)], size, leading, pad, 0, head)]
    last = len(rows) - 1
    return [head] + [
        _row(row, columns, edges, size, leading, pad, HAIR if place < last else 0, head, width)
        for place, row in enumerate(rows)
    ]


def _edges(columns: Sequence[Column], width: float) -> list[tuple[float, float]]:
    shares = sum(column.share for column in columns)
    free = width - GAP * (len(columns) - 1)
    edges, x = [], 0.0
    for column in columns:
        own = free * column.share / shares
        edges.append((x, own))
        x += own + GAP
    return edges


def _head(columns: Sequence[Column], edges: Sequence[tuple[float, float]], width: float) -> Piece:
    cells = [wrap(c.head, own, 8, True) for c, (_, own) in zip(columns, edges, strict=True)]
    height = 10 * max(len(cell) for cell in cells) + 4

    def draw(canvas: Canvas, x: float, top: float) -> None:
        for column, (left, own), cell in zip(columns, edges, cells, strict=True):
            _draw_cell(canvas, cell, column.align, x + left, own, top - (height - 4 - 10 * len(cell)), 10, 8)
        canvas.setLineWidth(THIN)
        canvas.line(x, top - height + 1, x + width, top - height + 1)

    return Piece(height, draw, glued=True)


def _row(
    row: Sequence[Rich],
    columns: Sequence[Column],
    edges: Sequence[tuple[float, float]],
    size: float,
    leading: float,
    pad: float,
    rule: float,
    head: Piece,
    width: float = 0.0,
) -> Piece:
    cells = [wrap(cell, own, size, True) for cell, (_, own) in zip(row, edges, strict=True)]
    height = leading * max(max(len(cell) for cell in cells), 1) + 2 * pad + (0 if rule else 1.5)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        for column, (left, own), cell in zip(columns, edges, cells, strict=True):
            _draw_cell(canvas, cell, column.align, x + left, own, top - pad, leading, size)
        if rule:
            canvas.setLineWidth(rule)
            canvas.line(x, top - height, x + width, top - height)

    return Piece(height, draw, head=head)


def _draw_cell(
    canvas: Canvas, cell: Sequence[Line], align: Align, x: float, own: float, top: float, leading: float, size: float
) -> None:
    y = top - leading + (leading - size) / 2 + size * 0.16
    for line in cell:
        shift = {"left": 0.0, "right": own - line.width, "centre": (own - line.width) / 2}[align]
        draw_line(canvas, line, x + shift, y)
        y -= leading


def heads(*texts: str) -> list[Rich]:
    """Heads of columns in bold."""
    return [(Run(text, bold=True),) for text in texts]


def abreast(left: Sequence[Piece], right: Sequence[Piece], shift: float) -> list[Piece]:
    """Two runs of pieces side by side, the right one ``shift`` further; a pair is one piece."""
    pieces = []
    for place in range(max(len(left), len(right))):
        one = left[place] if place < len(left) else None
        two = right[place] if place < len(right) else None
        pieces.append(_pair(one, two, shift))
    return pieces


def abreast_as_one(left: Sequence[Piece], right: Sequence[Piece], shift: float) -> Piece:
    """Two runs side by side, each at its own pace, as one piece."""

    def draw(canvas: Canvas, x: float, top: float) -> None:
        for pieces, at in ((left, x), (right, x + shift)):
            y = top
            for piece in pieces:
                piece.draw(canvas, at, y)
                y -= piece.height

    return Piece(max(sum(p.height for p in left), sum(p.height for p in right)), draw)


def _pair(one: Piece | None, two: Piece | None, shift: float) -> Piece:
    def draw(canvas: Canvas, x: float, top: float) -> None:
        if one is not None:
            one.draw(canvas, x, top)
        if two is not None:
            two.draw(canvas, x + shift, top)

    both = [piece for piece in (one, two) if piece is not None]
    heads_ = [piece.head for piece in both if piece.head is not None]
    head = _pair(one.head if one else None, two.head if two else None, shift) if heads_ else None
    return Piece(max(p.height for p in both), draw, glued=any(p.glued for p in both), head=head)


__all__ = ["Column", "abreast", "answered", "gap", "heads", "not_answered", "paragraph", "plain", "table"]
