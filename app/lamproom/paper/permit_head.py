"""The top of the permit: title and state, what it is for, where each item stands, in brief, and the obstacles."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import signs, typeface
from lamproom.paper.content import Counts, Obstacles, PermitPage
from lamproom.paper.flow import Block, Piece
from lamproom.paper.sheet import HAIR, HEAVIEST, MM, THIN, Grid, draw_item
from lamproom.paper.signs import Sign
from lamproom.paper.tables import Column, answered, gap, heads, paragraph, table
from lamproom.paper.text import Line, Rich, Run, draw_line, plain, width_of, wrap
from lamproom.words import say, say_count

TITLE_SIZE = 23.0
STRIP_ROW = 19.0
_ITEM_BOX = 4.8 * MM
_FIELD_GAP = 12.0
_SITE = 9.0
"""Points of the line of site and form, and of the state's time beside it."""


def title_words(page: PermitPage) -> str:
    """What the paper calls itself: a permit, or the certificate of a shorter route."""
    return say("paper.title", page.language) if page.certificate is None else page.certificate.title


def title_height(page: PermitPage, grid: Grid, strip_rows: int) -> float:
    """Height of the title on the first page, to the rule under the strip."""
    fields = _fields(page, grid)
    return _masthead_height(page, grid) + _fields_height(fields) + STRIP_ROW * strip_rows


Strip = Sequence[Sequence[tuple[str, Sequence[int]]]]
"""Rows of the strip; each holds groups: a page's caption and the items that begin on it."""


def draw_title(canvas: Canvas, grid: Grid, page: PermitPage, strip: Strip) -> None:
    """Title with state, fields, and the strip that says on which page each item stands."""
    y = grid.height - grid.margin
    _draw_masthead(canvas, grid, page, y)
    y -= _masthead_height(page, grid)
    canvas.setLineWidth(HEAVIEST)
    canvas.line(grid.left, y, grid.right, y)
    fields = _fields(page, grid)
    for x, _, caption, lines in fields:
        canvas.setFont(typeface.PLAIN, 8.5)
        canvas.drawString(x, y - 12, caption)
        for row, line in enumerate(lines):
            draw_line(canvas, line, x, y - 26 - 14 * row)
    y -= _fields_height(fields)
    canvas.setLineWidth(HAIR)
    canvas.line(grid.left, y, grid.right, y)
    if strip:
        canvas.setFont(typeface.FIGURES, 8.5)
        canvas.drawString(grid.left, y - 13, say("paper.items_of", page.language, rule="1910.146(f)"))
    for groups in strip:
        _draw_strip_row(canvas, grid, page, groups, y)
        y -= STRIP_ROW


def _state_size(page: PermitPage, grid: Grid) -> float:
    """23 points, or as much as lets title and state share a line ('Ended: prohibited condition' is long)."""
    room = grid.right - grid.left - typeface.width(title_words(page), typeface.BOLD, TITLE_SIZE) - 48
    full = typeface.width(typeface.printable(page.state_words), typeface.BOLD, TITLE_SIZE)
    return max(12.5, min(TITLE_SIZE, TITLE_SIZE * room / full))


def _masthead_height(page: PermitPage, grid: Grid) -> float:
    return 38.0 + 11 * (len(_site_lines(page, grid)) - 1) + 6


def _site_lines(page: PermitPage, grid: Grid) -> tuple[Line, ...]:
    rich: Rich = (Run(page.site, bold=True), Run(". " + page.form_title + ", " + page.form_rules))
    beside = typeface.width(typeface.printable(page.state_time), typeface.FIGURES, _SITE) + 8
    return wrap(rich, grid.right - grid.left - beside, _SITE, True)


def _draw_masthead(canvas: Canvas, grid: Grid, page: PermitPage, top: float) -> None:
    baseline = top - 18
    canvas.setFont(typeface.BOLD, TITLE_SIZE)
    canvas.drawString(grid.left - 1, baseline, typeface.printable(title_words(page)))
    size = _state_size(page, grid)
    words = typeface.printable(page.state_words)
    canvas.setFont(typeface.BOLD, size)
    canvas.drawRightString(grid.right, baseline, words)
    left = grid.right - typeface.width(words, typeface.BOLD, size)
    signs.draw(canvas, page.state, left - size * 1.25, baseline, size * 0.95)
    for row, line in enumerate(_site_lines(page, grid)):
        draw_line(canvas, line, grid.left, baseline - 16 - 11 * row)
    canvas.setFont(typeface.FIGURES, _SITE)
    canvas.drawRightString(grid.right, baseline - 16, typeface.printable(page.state_time))


_Field = tuple[float, float, str, tuple[Line, ...]]


def _fields(page: PermitPage, grid: Grid) -> list[_Field]:
    """Permit, space, hours and version: each as wide as it needs, and the space takes what is left or wraps first."""
    paper = "permit" if page.certificate is None else "certificate"
    hours = f"paper.{'no_hours' if page.state == 'draft' else 'hours'}.{paper}"
    texts = [(f"paper.number.{paper}", page.number), ("paper.space", page.space_name), (hours, page.hours_line)]
    texts.append(("paper.version", str(page.version)))
    whole = grid.right - grid.left - 3 * _FIELD_GAP
    needs = [
        max(width_of(answered(text, bold=True), 12.5, True), width_of(plain(say(caption, page.language)), 8.5))
        for caption, text in texts
    ]
    needs[0] = min(needs[0], whole * 0.3)
    needs[2] = min(needs[2], max(whole * 0.42, whole - needs[0] - needs[1] - needs[3]))
    needs[1] = min(needs[1], whole - needs[0] - needs[2] - needs[3])
    spare = (whole - sum(needs)) / 3
    fields: list[_Field] = []
    x = grid.left
    for (caption, text), width in zip(texts, needs, strict=True):
        lines = wrap(answered(text, bold=True), width + 0.1, 12.5, True)
        fields.append((x, width, say(caption, page.language), lines))
        x += width + _FIELD_GAP + spare
    return fields


def _fields_height(fields: Sequence[_Field]) -> float:
    return 33.0 + 14 * (max(len(lines) for _, _, _, lines in fields) - 1)


# --- the strip of items ----------------------------------------------------------------------------------------


def strip_of(page: PermitPage, grid: Grid, items_on: Mapping[int, Sequence[int]]) -> list[list[tuple[str, list[int]]]]:
    """The strip's rows: for each page its caption and the items that begin on it; broken where a row is full."""
    captions = {number: say("paper.strip_page", page.language, page=number) for number in items_on}
    room = grid.right - grid.left - _strip_caption_width(page)
    rows: list[list[tuple[str, list[int]]]] = [[]]
    used = 0.0
    for number, items in items_on.items():
        width = _group_width(captions[number], items)
        if used + width > room and rows[-1]:
            rows.append([])
            used = 0.0
        rows[-1].append((captions[number], list(items)))
        used += width
    return rows


def _strip_caption_width(page: PermitPage) -> float:
    return typeface.width(say("paper.items_of", page.language, rule="1910.146(f)"), typeface.FIGURES, 8.5) + 12


def _group_width(caption: str, items: Sequence[int]) -> float:
    return typeface.width(caption, typeface.FIGURES, 8) + 4 + len(items) * (_ITEM_BOX + 1.5) + 5


def _draw_strip_row(
    canvas: Canvas, grid: Grid, page: PermitPage, row: Sequence[tuple[str, Sequence[int]]], top: float
) -> None:
    used = sum(_group_width(caption, items) for caption, items in row)
    room = grid.right - grid.left - _strip_caption_width(page)
    spread = (room - used + 6.5) / (len(row) - 1) if len(row) > 1 else 0.0
    x = grid.left + _strip_caption_width(page)
    for caption, items in row:
        canvas.setFont(typeface.FIGURES, 8)
        canvas.drawString(x, top - 13, caption)
        box = x + typeface.width(caption, typeface.FIGURES, 8) + 4
        for item in items:
            draw_item(canvas, str(item), box, top - 15.5, 12, _ITEM_BOX)
            box += _ITEM_BOX + 1.5
        x += _group_width(caption, items) + min(spread, 20.0)


# --- in brief --------------------------------------------------------------------------------------------------


def in_brief(page: PermitPage, width: float) -> Block:
    """Three computed sentences and six counted facts, for a reader with ten seconds."""
    pieces = [paragraph(plain(" ".join(page.in_brief)), width, 10.5, 13.5, below=5)] if page.in_brief else []
    return Block(say("paper.block.in_brief", page.language), (*pieces, _counts(page.counts, width, page.language)))


def _counts(counts: Counts, width: float, language: str) -> Piece:
    facts: list[tuple[int, str, Sign | None]] = [
        (counts.retests, "retests", None),
        (counts.late, "late", "late"),
        (counts.corrected, "corrected", "corrected"),
        (counts.outside, counts.outside_when, "outside"),
        (counts.evacuations, "evacuations", None),
        (counts.does_not_apply, "does_not_apply", "does not apply"),
    ]

    told = [(count, _counted(name, count, language), sign) for count, name, sign in facts]
    needs = [max(typeface.width(words, typeface.PLAIN, 8.5), 34.0) + 7 for _, words, _ in told]
    spare = max(width - sum(needs), 0.0) / len(told)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        left = x
        for place, (count, words, sign) in enumerate(told):
            at = left
            if place:
                canvas.setLineWidth(THIN)
                canvas.line(left, top - 2, left, top - 28)
                at += 5
            canvas.setFont(typeface.FIGURES_BOLD, 19)
            canvas.drawString(at, top - 15, str(count))
            if sign is not None and count:
                after = at + typeface.width(str(count), typeface.FIGURES_BOLD, 19) + 4
                signs.draw(canvas, sign, after, top - 14, 11.5)
            canvas.setFont(typeface.PLAIN, 8.5)
            canvas.drawString(at, top - 27, words)
            left += needs[place] + spare

    return Piece(33, draw)


def _counted(name: str, count: int, language: str) -> str:
    """The words under a count; the two that are things agree with their number."""
    if name in ("retests", "evacuations"):
        return say_count(f"paper.count.{name}", count, language)
    return say(f"paper.count.{name}", language)


# --- obstacles -------------------------------------------------------------------------------------------------


def obstacles(page: PermitPage, width: float) -> Block:
    """None, or each with its rule and its cure; below, those that had to be cleared first."""
    title = "paper.block.obstacles_now" if page.state == "draft" else _at_signing(page, "obstacles")
    pieces = [_verdict(page.obstacles, page, width)]
    if page.obstacles.standing:
        columns = [Column(plain("\u00a0"), 2.4), *_obstacle_columns("paper.missing_or_wrong", page.language)]
        rows = [
            [(Run("", sign="not answered"),), answered(row.sentence), answered(row.rule), answered(row.clears)]
            for row in page.obstacles.standing
        ]
        pieces += table(columns, rows, width)
    if page.obstacles.cleared:
        if page.obstacles.standing:
            pieces.append(gap(4))
        columns = _obstacle_columns("paper.cleared_before", page.language)
        rows = [[answered(row.sentence), answered(row.rule), answered(row.clears)] for row in page.obstacles.cleared]
        pieces += table(columns, rows, width)
    return Block(say(title, page.language), tuple(pieces))


def _at_signing(page: PermitPage, what: str) -> str:
    return f"paper.block.{what}.{'permit' if page.certificate is None else 'certificate'}"


def told(page: PermitPage, width: float) -> Block | None:
    """The cautions that stood at authorization, each with its rule; None where there was none. They bar nothing."""
    if not page.told:
        return None
    title = "paper.block.told_now" if page.state == "draft" else _at_signing(page, "told")
    texts = heads(say("paper.head.told", page.language), say("paper.rule", page.language))
    columns = [Column(text, share) for text, share in zip(texts, (68, 32), strict=True)]
    rows = [[answered(row.sentence), answered(row.rule)] for row in page.told]
    return Block(say(title, page.language), tuple(table(columns, rows, width)))


def _obstacle_columns(first: str, language: str) -> list[Column]:
    texts = heads(say(first, language), say("paper.rule", language), say("paper.cleared_by", language))
    return [Column(text, share) for text, share in zip(texts, (36, 30, 34), strict=True)]


def _verdict(found: Obstacles, page: PermitPage, width: float) -> Piece:
    count = len(found.standing)
    large = str(count) if count else say("paper.none", page.language)
    left = typeface.width(large, typeface.FIGURES_BOLD, 19) + 14
    words = f"{found.examined} {say('paper.obstacles_computed', page.language)}"
    if count:
        stood = "paper.obstacles_bar" if page.state == "draft" else "paper.obstacles_stood"
        words = f"{say_count(stood, count, page.language)} {found.examined}"
        if page.state == "draft":
            words += f" {say('paper.nobody_goes_in', page.language)}"
    lines = wrap(plain(words), width - left, 9.25, True)
    height = max(11.5 * len(lines) + 4, 24)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setFont(typeface.FIGURES_BOLD, 19)
        canvas.drawString(x, top - 15, large)
        for row, line in enumerate(lines):
            draw_line(canvas, line, x + left, top - 9 - 11.5 * row)

    return Piece(height, draw)
