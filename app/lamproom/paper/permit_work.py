"""Items 1 to 9 and 11 to 15: what the work is, when, who, the hazards, what holds them, rescue and equipment."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import typeface
from lamproom.paper.content import Check, Life, PermitPage, Provided, Said
from lamproom.paper.flow import Block, Piece
from lamproom.paper.tables import Column, abreast, answered, heads, not_answered, paragraph, table
from lamproom.paper.text import Rich, Run, plain, said
from lamproom.paper.timeline import Timeline, apart
from lamproom.words import say

ABREAST_FROM = 9
"""From this many entrants on, they stand two abreast by surname."""


def words(item: int, parts: Sequence[Said], page: PermitPage, width: float) -> Block:
    """An item that is answered in a paragraph."""
    text = said(parts) if parts else not_answered()
    return Block(say(f"paper.block.{item}", page.language), (paragraph(text, width),), item)


def space(page: PermitPage, width: float) -> Block:
    place = f", {page.space_place.rstrip('.')}." if page.space_place else "."
    named: tuple[Said, ...] = (Said(page.space_name, place),)
    return words(1, named + page.space_lines, page, width)


# --- item 3 ----------------------------------------------------------------------------------------------------


def date_and_hours(page: PermitPage, width: float) -> Block:
    pieces: list[Piece] = []
    if page.life.authorised_at is not None and page.life.until is not None:
        begun = "paper.life.authorized" if page.certificate is None else "paper.life.certified"
        pieces.append(_line_of_life(page.life, width, page.language, begun))
    text = f"{page.life.words} {page.zone_words}".strip()
    pieces.append(paragraph(answered(text), width))
    return Block(say("paper.block.3", page.language), tuple(pieces), 3)


def _line_of_life(life: Life, width: float, language: str, begun: str) -> Piece:
    """Tests, hours granted (open bar), hours used (filled), the end, and the limit, over one scale of hours."""
    begins, until = life.authorised_at, life.until
    if begins is None or until is None:
        raise ValueError("a line of life needs the hours that were granted")
    moments = [begins, until, *life.tests]
    moments += [m for span in life.inside for m in (span.begins, span.ends) if m is not None]
    moments += [life.ended_at] if life.ended_at else []
    line = Timeline.over(moments, 0.0, width)
    marks = _marks(life, begins, until, line, language, begun)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setFont(typeface.FIGURES, 8)
        for middle, text in marks:
            canvas.drawCentredString(x + middle, top - 9, text)
        low, height = top - 26, 13.0
        for test in life.tests:
            canvas.setLineWidth(0.8)
            canvas.line(x + line.at(test), low, x + line.at(test), low + 8)
        canvas.setLineWidth(1)
        end = life.ended_at or until
        canvas.rect(x + line.at(begins), low, line.at(until) - line.at(begins), height)
        for span in life.inside:
            right = span.ends or end
            canvas.rect(x + line.at(span.begins), low + 3, max(line.at(right) - line.at(span.begins), 1), 7, 0, 1)
        if life.ended_at is not None:
            canvas.setLineWidth(2)
            canvas.line(x + line.at(end), low - 3, x + line.at(end), low + height + 3)
            if end < until:
                canvas.setLineWidth(1)
                canvas.setDash(2, 2)
                canvas.line(x + line.at(end), low + height / 2, x + line.at(until), low + height / 2)
                canvas.setDash()
        line.draw_axis(canvas, x, low)

    return Piece(50, draw)


def _marks(
    life: Life, begins: datetime, until: datetime, line: Timeline, language: str, begun: str
) -> list[tuple[float, str]]:
    """Captions over the line, pushed apart so that none covers another."""
    wanted = [(line.at(begins), say(begun, language, time=f"{begins:%H:%M}"))]
    if life.tests:
        middle = line.at(min(life.tests) + (max(life.tests) - min(life.tests)) / 2)
        wanted.append((middle, say("paper.life.tests", language)))
    if life.inside and life.inside_words:
        last = life.inside[-1].ends or life.ended_at or until
        middle = line.at(life.inside[0].begins + (last - life.inside[0].begins) / 2)
        wanted.append((middle, say("paper.life.inside", language, total=life.inside_words)))
    if life.ended_at is not None:
        wanted.append((line.at(life.ended_at), say("paper.life.ended", language, time=f"{life.ended_at:%H:%M}")))
    wanted.append((line.at(until), say("paper.life.limit", language, time=f"{until:%H:%M}")))
    return apart(sorted(wanted), 0.0, line.right)


# --- people ----------------------------------------------------------------------------------------------------


def entrants(page: PermitPage, width: float) -> Block:
    draft = page.state == "draft"
    names = ("entrants_named", "work", "trained", "inside_now") if draft else ("entrants", "work", "trained", "inside")
    texts = heads(*(say(f"paper.head.{name}", page.language) for name in names))
    rows = [[answered(e.name, True), answered(e.work), answered(e.trained), answered(e.inside)] for e in page.entrants]
    if len(rows) < ABREAST_FROM:
        columns = [Column(text, share) for text, share in zip(texts, (29, 23, 16, 33), strict=True)]
        return Block(say("paper.block.4", page.language), tuple(table(columns, rows, width)), 4)
    by_surname = sorted(page.entrants, key=lambda e: (e.name.split()[-1:], e.name))
    rows = [[answered(e.name, True), _two_lines(e.work, e.trained), answered(e.inside)] for e in by_surname]
    head = [texts[0], (Run(f"{texts[1][0].text}; {texts[2][0].text.lower()}", bold=True),), texts[3]]
    columns = [Column(text, share) for text, share in zip(head, (34, 34, 32), strict=True)]
    half, middle = (width - 14) / 2, (len(rows) + 1) // 2
    pieces = abreast(table(columns, rows[:middle], half), table(columns, rows[middle:], half), half + 14)
    return Block(say("paper.block.4", page.language), tuple(pieces), 4)


def _two_lines(work: str, trained: str) -> Rich:
    return (*answered(work), Run("; "), *answered(trained))


def attendants(page: PermitPage, width: float) -> Block:
    texts = heads(*(say(f"paper.head.{name}", page.language) for name in ("attendants", "watch", "trained", "relief")))
    columns = [Column(text, share) for text, share in zip(texts, (22, 17, 14, 47), strict=True)]
    rows = [
        [answered(one.name, True), answered(one.watch), answered(one.trained), answered(one.relief)]
        for one in page.attendants
    ]
    return Block(say("paper.block.5", page.language), tuple(table(columns, rows, width)), 5)


# --- hazards and what holds them -------------------------------------------------------------------------------


def hazards(page: PermitPage, width: float) -> Block:
    texts = heads(*(say(f"paper.head.{name}", page.language) for name in ("hazard", "shows", _held_head(page))))
    columns = [Column(text, share) for text, share in zip(texts, (35, 30, 36), strict=True)]
    rows = []
    for hazard in page.hazards:
        held = answered(hazard.held_by)
        if not hazard.held_by.strip() and hazard.planned:
            planned = Run(say("paper.planned_only", page.language), bold=True)
            held = (*not_answered(), Run(". "), planned, Run(f" {hazard.planned}"))
        if hazard.unseen:
            held = (Run(say("paper.not_by_instrument", page.language), bold=True), Run(" "), *held)
        rows.append([answered(hazard.name), answered(hazard.shows), held])
    return Block(say("paper.block.7", page.language), tuple(table(columns, rows, width, pad=1.2)), 7)


def _held_head(page: PermitPage) -> str:
    if page.certificate is not None and page.certificate.kind == "reclassified":
        return "gone"
    waits = any(not hazard.held_by.strip() and hazard.planned for hazard in page.hazards)
    return "held_draft" if page.state == "draft" and waits else "held"


def isolation(page: PermitPage, width: float) -> Block:
    texts = heads(*(say(f"paper.head.{name}", page.language) for name in ("measure", "found", "by", "at")))
    columns = [Column(text, share) for text, share in zip(texts, (37, 44, 9, 10), strict=True)]
    rows = [
        [said([one.measure]), _found(one, page.language), _signed_for(one, one.by), _signed_for(one, one.at)]
        for one in page.isolation
    ]
    pieces = table(columns, rows, width)
    if page.isolation_note:
        pieces.append(paragraph(plain(page.isolation_note), width, 8, 10.5, below=3))
    if page.ventilation:
        parts = (Run(say("paper.ventilation", page.language), bold=True), Run(" "), *said(page.ventilation))
        pieces.append(paragraph(parts, width))
    return Block(say("paper.block.8", page.language), tuple(pieces), 8, may_split=True)


def _found(check: Check, language: str) -> Rich:
    if check.answer == "not answered":
        return not_answered()
    if check.answer == "does not apply":
        reason = answered(check.found)
        return (Run(say("paper.does_not_apply", language), bold=True, sign="does not apply"), Run(" "), *reason)
    return answered(check.found)


def _signed_for(check: Check, text: str) -> Rich:
    """Who and when: an open check has nobody yet, and its ring stands in the column of what was found."""
    return plain("–") if check.answer == "not answered" and not text else answered(text)


def acceptable(page: PermitPage, width: float) -> Block:
    texts = heads(*(say(f"paper.head.{name}", page.language) for name in ("condition", "limit", "basis")))
    columns = [Column(text, share) for text, share in zip(texts, (22, 24, 54), strict=True)]
    rows = [[answered(a.condition, True), answered(a.limit), answered(a.basis)] for a in page.acceptable]
    pieces = table(columns, rows, width, pad=1.2)
    if page.acceptable_bars:
        pieces.append(paragraph(said(page.acceptable_bars), width))
    return Block(say("paper.block.9", page.language), tuple(pieces), 9)


# --- equipment -------------------------------------------------------------------------------------------------


def equipment(page: PermitPage, width: float) -> Block:
    """Kinds and what was provided, two abreast."""
    texts = heads(say("paper.head.kind", page.language), say("paper.head.provided", page.language))
    columns = [Column(text, share) for text, share in zip(texts, (32, 68), strict=True)]
    middle = (len(page.equipment) + 1) // 2
    if middle == 0:
        return Block(say("paper.block.13", page.language), tuple(table(columns, [], width)), 13)
    half = (width - 14) / 2
    left = table(columns, _provided(page.equipment[:middle]), half)
    right = table(columns, _provided(page.equipment[middle:]), half) if len(page.equipment) > 1 else []
    return Block(say("paper.block.13", page.language), tuple(abreast(left, right, half + 14)), 13)


def _provided(rows: Sequence[Provided]) -> list[list[Rich]]:
    return [[answered(row.kind, True), answered(row.what)] for row in rows]
