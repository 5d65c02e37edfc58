"""The permit as a PDF: a rail of names and boxed numbers at the left, what was found in the column.

The items stand in the order of 29 CFR 1910.146(f), because ascending numbers need no index. Black on white, no fill:
weight, size, rule and sign carry everything, so that a worn mono laser loses nothing.
"""

from __future__ import annotations

from lamproom.paper import air_before, air_during, certificate, permit_ending, permit_head, permit_work, readings, sheet
from lamproom.paper.content import PermitPage
from lamproom.paper.flow import Block, PageLayout, Room, lay_out
from lamproom.paper.sheet import Grid, Mark, Paper
from lamproom.words import say

_MOST_STRIP_ROWS = 4


def render_permit(page: PermitPage, paper: Paper = "letter") -> bytes:
    """The pages as PDF bytes. The same content gives the same bytes; nothing is read from or written to anywhere.

    ``page.printed_at`` becomes the file's date; without it the file bears the fixed date of the PDF library.
    """
    grid = sheet.grid(paper)
    blocks = blocks_of(page, grid.column_width)
    pages, strip = _stable(page, grid, blocks)
    subject = say("paper.foot_version", page.language, number=page.number, version=page.version, state=page.state_words)
    title = f"{permit_head.title_words(page)} {page.number}"
    canvas = sheet.open_canvas(paper, title, subject, page.site, page.language, page.printed_at)
    mark = Mark(
        page.number, page.version, page.state, page.code, page.printed, page.copy, page.language, page.state_words
    )
    for number, layout in enumerate(pages, start=1):
        if number == 1:
            permit_head.draw_title(canvas, grid, page, strip)
        else:
            sheet.draw_running_head(canvas, grid, mark, page.space_name, page.state_words)
        for place, title_ in enumerate(layout.titles):
            first = number > 1 and place == 0
            sheet.draw_title(canvas, grid, title_, 0 if first else sheet.THIN)
        for top, piece in layout.pieces:
            piece.draw(canvas, grid.column, top)
        sheet.draw_foot(canvas, grid, mark, number, len(pages))
        if page.state == "draft":
            top = grid.height - grid.margin - 40
            words = say("paper.crossing" if page.certificate is None else "paper.crossing_certificate", page.language)
            sheet.cross_out(canvas, grid.column, grid.qr_clear, grid.right, top, words)
        canvas.showPage()
    return sheet.close_canvas(canvas)


def blocks_of(page: PermitPage, width: float) -> list[Block]:
    """Every block of the permit in its order: what never happened is left out, what is missing is said."""
    if page.certificate is not None:
        return certificate.blocks_of(page, page.certificate, width)
    draft = page.state == "draft"
    happened = [
        *([permit_ending.breaks(page, width)] if page.breaks else []),
        *([permit_ending.changed(page, width)] if page.changed else []),
    ]
    during: list[Block | None] = [
        air_during.tests_during(page, width),
        readings.readings(page, width),
        air_during.tally(page, width),
    ]
    wanted: list[Block | None] = [
        None if draft else permit_head.in_brief(page, width),
        permit_head.obstacles(page, width),
        permit_head.told(page, width),
        permit_ending.stops(page, width) if page.stops else None,
        permit_work.space(page, width),
        permit_work.words(2, page.purpose, page, width),
        permit_work.date_and_hours(page, width),
        permit_work.entrants(page, width),
        permit_work.attendants(page, width),
        permit_work.words(6, page.supervisor, page, width),
        permit_work.hazards(page, width),
        permit_work.isolation(page, width),
        permit_work.acceptable(page, width),
        air_before.instruments(page, width),
        air_before.tests_before(page, width),
        *(during if not draft or page.retests.rows or any(row.spans for row in page.tally.rows) else []),
        *happened,
        permit_work.words(11, page.rescue, page, width),
        permit_work.words(12, page.communication, page, width),
        permit_work.equipment(page, width),
        permit_work.words(14, page.other, page, width),
        permit_work.words(15, page.additional_permits, page, width),
        permit_ending.closing(page, width),
        None if draft else permit_ending.signatures(page, width),
        permit_ending.cautions(page, width),
    ]
    return [block for block in wanted if block is not None]


def _stable(page: PermitPage, grid: Grid, blocks: list[Block]) -> tuple[list[PageLayout], permit_head.Strip]:
    """Lay out until the strip of items, whose height depends on the page numbers it names, no longer changes."""
    bare = page.state == "draft" or page.certificate is not None
    rows = 0 if bare else 1
    while True:
        pages = lay_out(blocks, _room(page, grid, rows))
        if bare:
            return pages, ()
        items = {
            number: list(dict.fromkeys(t.block.item for t in layout.titles if t.block.item and not t.continued))
            for number, layout in enumerate(pages, start=1)
        }
        strip = permit_head.strip_of(page, grid, {number: found for number, found in items.items() if found})
        if len(strip) <= rows or rows == _MOST_STRIP_ROWS:
            return pages, strip
        rows += 1


def _room(page: PermitPage, grid: Grid, strip_rows: int) -> Room:
    return Room(
        first_top=grid.height - grid.margin - permit_head.title_height(page, grid, strip_rows),
        top=sheet.running_head_bottom(grid) - 2,
        bottom=grid.bottom,
        lowest_title=grid.qr_clear,
        above=7.5,
        below=5.0,
        rail_height=sheet.rail_height(grid),
    )
