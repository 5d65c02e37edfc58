"""Item 10 during entry, the picture: the air and the people on one clock.

Each gas has its strip with a fixed scale that always holds its limits, hatched outside; a line is broken where a set
was late, and the gap is told. Below, who was inside and who stood watch: 'two inside while the reading was late' can
be seen.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import typeface
from lamproom.paper.content import Figure, Gas, PermitPage, Retest, Tally
from lamproom.paper.flow import Block, Piece
from lamproom.paper.readings import number
from lamproom.paper.section_drawing import hatch
from lamproom.paper.sheet import HAIR, THIN
from lamproom.paper.tables import Column, answered, heads, paragraph, table
from lamproom.paper.text import Rich, Run, draw_line, plain, wrap
from lamproom.paper.timeline import Timeline, apart
from lamproom.words import say

_LABEL = 76.0
_LAST = 50.0
_STRIP_GAP = 5.5
_MANY = 60
_STOP = 1.2


def tests_during(page: PermitPage, width: float) -> Block | None:
    """The picture; None where nobody went in and nothing was retested. One set alone draws no line."""
    moments = [row.at for row in page.retests.rows]
    moments += [m for row in page.tally.rows for span in row.spans for m in (span.begins, span.ends) if m is not None]
    if not any(row.spans for row in page.tally.rows) and len(page.retests.rows) < 2:
        return None
    moments += [m for watch in page.tally.watches for m in (watch.span.begins, watch.span.ends) if m is not None]
    line = Timeline.over(moments, _LABEL, width - _LAST)
    pieces: list[Piece] = []
    if len(page.retests.rows) >= 2:
        pieces.append(_legend(page, width))
        height = 36.0 if len(page.retests.gases) <= 5 else 30.0
        pieces += [_strip(page, place, line, height) for place in range(len(page.retests.gases))]
    pieces.append(_axis(line))
    pieces += _people(page, line, width)
    glued = [Piece(piece.height, piece.draw, glued=True) for piece in pieces[:-1]]
    under = say("paper.under.during", page.language)
    return Block(say("paper.block.10.during", page.language), (*glued, pieces[-1]), 10, under)


# --- the air ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Scale:
    """The fixed scale of a strip: figures between ``bottom`` and ``top``, whatever was read."""

    bottom: Decimal
    top: Decimal

    @classmethod
    def of(cls, gas: Gas) -> Scale:
        """Three eighths of the band beyond each limit of two; six tenths above a limit that stands alone."""
        high = Decimal(gas.high) if gas.high is not None else None
        low = Decimal(gas.low) if gas.low is not None else None
        if low is not None and high is not None:
            beyond = (high - low) * Decimal("0.375")
            return cls(low - beyond, high + beyond)
        if high is not None:
            return cls(Decimal(0), high * Decimal("1.6"))
        if low is not None:
            return cls(low * Decimal("0.6"), low * Decimal("1.4"))
        return cls(Decimal(0), Decimal(100))

    def at(self, figure: Decimal, height: float) -> float:
        """Height of a figure above the strip's foot, held within the strip."""
        part = min(max(figure, self.bottom), self.top)
        return float((part - self.bottom) / (self.top - self.bottom)) * height


def _legend(page: PermitPage, width: float) -> Piece:
    kinds = ["reading"]
    rows = page.retests.rows
    kinds += ["late"] if any(row.late for row in rows) else []
    kinds += ["corrected"] if any(f.first for row in rows for f in row.figures) else []
    kinds += ["outside"] if any(f.outside for row in rows for f in row.figures) else []
    kinds += ["other"] if any(not row.at_work for row in rows) else []
    kinds += ["stop"] if page.retests.stops else []
    kinds.append("limit")

    words = {kind: say(f"paper.trend.{kind}", page.language) for kind in kinds}
    needed = sum(typeface.width(told, typeface.PLAIN, 8) + 19 for told in words.values())

    def draw(canvas: Canvas, x: float, top: float) -> None:
        at, y = x + min(_LABEL, width - needed), top - 8
        for kind in kinds:
            if kind == "limit":
                hatch(canvas, at, y, at + 14, y + 6)
                at += 18
            else:
                _marker(canvas, kind, at + 3, y + 2.8)
                at += 9
            canvas.setFont(typeface.PLAIN, 8)
            canvas.drawString(at, y, words[kind])
            at += typeface.width(words[kind], typeface.PLAIN, 8) + 10

    return Piece(15, draw)


def _marker(canvas: Canvas, kind: str, x: float, y: float) -> None:
    canvas.setLineWidth(1)
    if kind == "reading":
        canvas.circle(x, y, 1.7, 0, 1)
        return
    if kind == "stop":
        canvas.setLineWidth(_STOP)
        canvas.line(x, y - 4, x, y + 4)
        return
    canvas.setFillGray(1)
    if kind == "other":
        canvas.setLineWidth(0.8)
        canvas.circle(x, y, 1.9, 1, 1)
        canvas.setFillGray(0)
        return
    path = canvas.beginPath()
    shapes = {
        "late": ((-4, 0), (0, 4), (4, 0), (0, -4)),
        "corrected": ((-2.8, -2.8), (-2.8, 2.8), (2.8, 2.8), (2.8, -2.8)),
        "outside": ((-4, -2.6), (4, -2.6), (0, 4)),
    }
    first, *rest = shapes[kind]
    path.moveTo(x + first[0], y + first[1])
    for dx, dy in rest:
        path.lineTo(x + dx, y + dy)
    path.close()
    canvas.drawPath(path, 1, 1)
    canvas.setFillGray(0)


def _strip(page: PermitPage, place: int, line: Timeline, height: float) -> Piece:
    gas = page.retests.gases[place]
    scale = Scale.of(gas)
    rows = [row for row in page.retests.rows if place < len(row.figures)]
    name = wrap((Run(gas.name, bold=True),), _LABEL - 22, 9)

    def draw(canvas: Canvas, x: float, top: float) -> None:
        foot = top - height
        left, right = x + line.left, x + line.right
        for row, text in enumerate(name[:2]):
            draw_line(canvas, text, x, top - 9 - 10 * row)
        canvas.setFont(typeface.PLAIN, 8)
        canvas.drawString(x, top - 9 - 10 * min(len(name), 2), typeface.printable(gas.unit))
        _limits(canvas, gas, scale, left, right, foot, height)
        canvas.setLineWidth(THIN)
        canvas.line(left, foot, left, top)
        canvas.line(left, foot, right, foot)
        for stop in page.retests.stops:
            canvas.setLineWidth(_STOP)
            canvas.line(x + line.at(stop), foot, x + line.at(stop), top)
        _trace(canvas, rows, place, line, scale, x, foot, height, page.language)
        if place == min(1, len(page.retests.gases) - 1):
            _breaks(canvas, page, line, x, foot + height * 0.3)
        last = next((row.figures[place] for row in reversed(rows) if row.figures[place].text), None)
        if last is not None:
            canvas.setFont(typeface.FIGURES_BOLD, 9.5)
            middle = foot + scale.at(number(last.text), height)
            base = min(max(middle - 3.2, foot), foot + height - 6.5)
            canvas.drawRightString(x + line.right + _LAST, base, typeface.printable(last.text))

    return Piece(height + _STRIP_GAP, draw)


def _breaks(canvas: Canvas, page: PermitPage, line: Timeline, x: float, y: float) -> None:
    """A bracket over each break with its times, so that the gap in the line is told."""
    told = []
    for span in page.retests.breaks:
        begins = f"{span.begins:%H:%M}"
        left, right = line.at(span.begins), line.right if span.ends is None else line.at(span.ends)
        canvas.setLineWidth(0.7)
        canvas.line(x + left, y, x + right, y)
        for end in (left, *([right] if span.ends is not None else [])):
            canvas.line(x + end, y - 2, x + end, y + 2)
        words = say("paper.trend.break_open", page.language, begins=begins)
        if span.ends is not None:
            words = say("paper.trend.break", page.language, begins=begins, ends=f"{span.ends:%H:%M}")
        told.append(((left + right) / 2, words))
    canvas.setFont(typeface.FIGURES, 8)
    for middle, words in apart(told, line.left, line.right):
        canvas.drawCentredString(x + middle, y + 3, words)


def _limits(canvas: Canvas, gas: Gas, scale: Scale, left: float, right: float, foot: float, height: float) -> None:
    canvas.setFont(typeface.FIGURES, 8)
    for limit, is_high in ((gas.high, True), (gas.low, False)):
        if limit is None:
            continue
        y = foot + scale.at(Decimal(limit), height)
        if is_high:
            hatch(canvas, left, y, right, foot + height)
        else:
            hatch(canvas, left, foot, right, y)
        canvas.setLineWidth(0.6)
        canvas.setDash(4, 2)
        canvas.line(left, y, right, y)
        canvas.setDash()
        canvas.drawRightString(left - 4, y - 2.7, typeface.printable(limit))
    if scale.bottom == 0:
        canvas.drawRightString(left - 4, foot - 0.5, "0")


def _trace(
    canvas: Canvas,
    rows: Sequence[Retest],
    place: int,
    line: Timeline,
    scale: Scale,
    x: float,
    foot: float,
    height: float,
    language: str,
) -> None:
    """The line with its markers; above many sets the line alone, with markers only where something is to be told."""
    before: tuple[float, float, Retest] | None = None
    for row in rows:
        figure = row.figures[place]
        if not figure.text:
            before = None if row.at_work else before
            continue
        here_x, here_y = x + line.at(row.at), foot + scale.at(number(figure.text), height)
        if not row.at_work:
            _first_figure(canvas, figure, here_x, here_y, foot, scale, height)
            continue
        if before is not None and not row.late and not row.apart:
            canvas.setLineWidth(1.1)
            canvas.line(before[0], before[1], here_x, here_y)
        elif before is not None and row.late and place == 1:
            minutes = round((row.at - before[2].at).total_seconds() / 60)
            text = say("paper.trend.gap", language, minutes=minutes)
            canvas.setFont(typeface.PLAIN, 8)
            half = typeface.width(text, typeface.PLAIN, 8) / 2
            middle = min(max((before[0] + here_x) / 2, x + line.left + half), x + line.right - half)
            canvas.drawCentredString(middle, foot + height * 0.3, text)
        _first_figure(canvas, figure, here_x, here_y, foot, scale, height)
        before = (here_x, here_y, row)
    for row in rows:
        figure = row.figures[place]
        plainly = "reading" if row.at_work else "other"
        kind = "outside" if figure.outside else "corrected" if figure.first else "late" if row.late else plainly
        if figure.text and (kind not in ("reading", "other") or len(rows) <= _MANY):
            _marker(canvas, kind, x + line.at(row.at), foot + scale.at(number(figure.text), height))


def _first_figure(
    canvas: Canvas, figure: Figure, here_x: float, here_y: float, foot: float, scale: Scale, height: float
) -> None:
    """A cross where the figure first stood that this one corrects."""
    if not figure.first:
        return
    first_y = foot + scale.at(number(figure.first), height)
    canvas.setLineWidth(0.8)
    canvas.line(here_x, here_y, here_x, first_y)
    canvas.setLineWidth(1.3)
    canvas.line(here_x - 2.5, first_y - 2.5, here_x + 2.5, first_y + 2.5)
    canvas.line(here_x - 2.5, first_y + 2.5, here_x + 2.5, first_y - 2.5)


def _axis(line: Timeline) -> Piece:
    def draw(canvas: Canvas, x: float, top: float) -> None:
        line.draw_axis(canvas, x, top + _STRIP_GAP - 1)

    return Piece(14, draw)


# --- the people ------------------------------------------------------------------------------------------------


def _people(page: PermitPage, line: Timeline, width: float) -> list[Piece]:
    row_height = 13.0 if len(page.tally.rows) <= 12 else 10.5
    went_in = [row for row in page.tally.rows if row.spans]

    def bars(name: str, total: str, spans: Sequence[tuple[datetime, datetime | None]]) -> Piece:
        def draw(canvas: Canvas, x: float, top: float) -> None:
            canvas.setFont(typeface.PLAIN, 8.5)
            canvas.drawString(x, top - 9, typeface.printable(name))
            for begins, ends in spans:
                left = x + line.at(begins)
                right = x + line.at(ends) if ends is not None else x + line.right
                canvas.rect(left, top - row_height + 3, max(right - left, 1), row_height - 5.5, 0, 1)
            canvas.setLineWidth(HAIR)
            canvas.line(x + line.left, top - row_height + 0.5, x + line.right, top - row_height + 0.5)
            canvas.setFont(typeface.FIGURES_BOLD, 9)
            canvas.drawRightString(x + width, top - 9, typeface.printable(total))

        return Piece(row_height, draw)

    pieces = [bars(row.short, row.total, [(s.begins, s.ends) for s in row.spans]) for row in went_in]
    pieces.append(_watches(page.tally, line, page.language))
    return pieces


def _watches(tally: Tally, line: Timeline, language: str) -> Piece:
    def draw(canvas: Canvas, x: float, top: float) -> None:
        canvas.setFont(typeface.PLAIN, 8.5)
        canvas.drawString(x, top - 10, say("paper.trend.attendant", language))
        for watch in tally.watches:
            left = x + line.at(watch.span.begins)
            right = x + line.at(watch.span.ends) if watch.span.ends is not None else x + line.right
            canvas.setLineWidth(0.9)
            canvas.rect(left, top - 13, max(right - left, 1), 11)
            name = typeface.printable(watch.short)
            if typeface.width(name, typeface.PLAIN, 8) < right - left - 4:
                canvas.setFont(typeface.PLAIN, 8)
                canvas.drawCentredString((left + right) / 2, top - 10.2, name)

    return Piece(16, draw)


def tally(page: PermitPage, width: float) -> Block:
    """Who was in, when, and how long."""
    texts = heads(*(say(f"paper.head.{name}", page.language) for name in ("who_in", "role", "in_out", "total")))
    columns = [
        Column(text, share, "right" if place == 3 else "left")
        for place, (text, share) in enumerate(zip(texts, (26, 16, 44, 14), strict=True))
    ]
    rows: list[list[Rich]] = []
    for row in page.tally.rows:
        name = (Run(row.name, bold=bool(row.spans)),)
        rows.append([name, answered(row.role), _stays(row.times), answered(row.total)])
    pieces = table(columns, rows, width, none=plain(page.tally.none_words or say("paper.nobody_inside", page.language)))
    if page.tally.note:
        pieces.append(paragraph(plain(page.tally.note), width, 8, 10.5))
    under = say("paper.under.tally", page.language)
    return Block(say("paper.block.tally", page.language), tuple(pieces), under=under, may_split=True)


def _stays(times: Sequence[str]) -> Rich:
    """Stays one after the other; each keeps together, so that a narrow column puts one on a line."""
    runs: list[Run] = []
    for place, stay in enumerate(times):
        runs += [Run(stay.replace(" ", "\u00a0")), Run(", " if place < len(times) - 1 else "")]
    return tuple(runs) or answered("")
