"""How blocks fall onto pages: a row, a signature, a figure or a paragraph is one piece and is never split.

A block that fits on a page is not split, unless it says that it may be (readings). Where a block goes on, its title
stands again with 'continued', and the head of the table with it. No block begins beside the QR in the rail's foot.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from reportlab.pdfgen.canvas import Canvas

Draw = Callable[[Canvas, float, float], None]
"""Draws with the canvas, from the left edge of the column, downward from the top."""


@dataclass(frozen=True, slots=True)
class Piece:
    """What is never split. ``glued`` keeps it on one page with the piece that follows; ``head`` is drawn again above
    it where it comes to stand first on a new page."""

    height: float
    draw: Draw
    glued: bool = False
    head: Piece | None = None


@dataclass(frozen=True, slots=True)
class Block:
    """A block of the column with its name in the rail; ``item`` its number in the regulation, 0 for none."""

    title: str
    pieces: tuple[Piece, ...]
    item: int = 0
    under: str = ""
    may_split: bool = False


@dataclass(frozen=True, slots=True)
class Room:
    """The room on a page, in points from the sheet's lower edge: ``first_top`` on the first page, ``top`` on others.

    ``lowest_title`` is how low the foot of a block's name may reach in the rail.
    """

    first_top: float
    top: float
    bottom: float
    lowest_title: float
    above: float
    below: float
    rail_height: Callable[[Block, bool], float]


@dataclass(slots=True)
class Title:
    """A block's name in the rail of a page."""

    block: Block
    top: float
    continued: bool


@dataclass(slots=True)
class PageLayout:
    """What stands on one page: names in the rail and pieces in the column, each with its top."""

    titles: list[Title] = field(default_factory=list)
    pieces: list[tuple[float, Piece]] = field(default_factory=list)


@dataclass(slots=True)
class _Cursor:
    room: Room
    pages: list[PageLayout]
    y: float

    def turn(self) -> None:
        self.pages.append(PageLayout())
        self.y = self.room.top

    def put(self, piece: Piece) -> None:
        self.pages[-1].pieces.append((self.y, piece))
        self.y -= piece.height

    def begin(self, block: Block, continued: bool) -> float:
        """Put the name of a block into the rail; returns the lowest edge its name reaches."""
        self.y -= self.room.above
        self.pages[-1].titles.append(Title(block, self.y, continued))
        return self.y - self.room.rail_height(block, continued)


def lay_out(blocks: Sequence[Block], room: Room) -> list[PageLayout]:
    """Give every block its page and place."""
    cursor = _Cursor(room, [PageLayout()], room.first_top)
    for block in blocks:
        _place(cursor, block)
    return cursor.pages


def _place(cursor: _Cursor, block: Block) -> None:
    room = cursor.room
    rail = room.rail_height(block, False)
    whole = max(sum(piece.height for piece in block.pieces), rail) + room.above + room.below
    title_fits = cursor.y - room.above - rail >= room.lowest_title
    fresh = not cursor.pages[-1].pieces
    if not (title_fits and whole <= cursor.y - room.bottom) and not fresh:
        splits = block.may_split or whole > room.top - room.bottom
        chunks = _chunks(block.pieces)
        opening = room.above + sum(p.height for chunk in chunks[:2] for p in chunk)
        if not (splits and title_fits and opening <= cursor.y - room.bottom):
            cursor.turn()
    lowest = cursor.begin(block, False)
    for chunk in _chunks(block.pieces):
        height = sum(piece.height for piece in chunk)
        if cursor.y - height < room.bottom and cursor.pages[-1].titles[-1].top > cursor.y:
            cursor.turn()
            lowest = cursor.begin(block, True)
            if chunk[0].head is not None:
                cursor.put(chunk[0].head)
        for piece in chunk:
            cursor.put(piece)
    cursor.y = min(cursor.y, lowest) - room.below


def _chunks(pieces: Sequence[Piece]) -> list[list[Piece]]:
    chunks: list[list[Piece]] = []
    glued = False
    for piece in pieces:
        if glued:
            chunks[-1].append(piece)
        else:
            chunks.append([piece])
        glued = piece.glued
    return chunks
