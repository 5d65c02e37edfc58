"""The posted page: one side that hangs at the portal and is read at 1 m, in rain, by people who are in a hurry.

One size for all glance items, the largest that holds the longest line and fits the sheet, never under 26 points (a
capital of 6 mm). What does not fit asks for a larger sheet; names then shrink to initials, type never, and no hazard
is dropped. Two boxes for wet ink, lines of 8 mm, the QR, one foot.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import fingerprint, permit_ending, sheet, signs, typeface
from lamproom.paper.content import PostedPage
from lamproom.paper.sheet import HAIR, HEAVY, MM, QR_SIDE, THIN, Mark, Paper
from lamproom.paper.text import Line, Rich, Run, bold, draw_line, plain, said, width_of, wrap
from lamproom.words import Refusal, say, sentence

LEAST = 26.0
"""Points of the smallest glance item."""
_MOST = 44.0
_STEP = 0.5
_MARGIN = 12.5 * MM
_LABEL = 26 * MM
_LEADING = 1.13
_PAD = 5.0
_OUT_SIZE, _OUT_LEADING = 13.0, 16.5
_BOX_HEIGHT = 15.5 * MM
_LINE = 8.2 * MM
_LARGER = {"letter": "tabloid", "a4": "a3"}


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of the glance part: its label, a note under it, its lines (each with cells across), a note at the right."""

    label: str
    lines: tuple[tuple[Rich, ...], ...]
    note: str = ""
    aside: str = ""


@dataclass(frozen=True, slots=True)
class _Frame:
    width: float
    height: float

    @property
    def left(self) -> float:
        return _MARGIN

    @property
    def right(self) -> float:
        return self.width - _MARGIN

    @property
    def column(self) -> float:
        return self.left + _LABEL

    @property
    def room(self) -> float:
        return self.right - self.column


def render_posted(page: PostedPage, paper: Paper = "letter") -> bytes:
    """One side as PDF bytes. Raises a Refusal that names the larger sheet where 26 points do not hold everything."""
    frame = _Frame(*sheet.SIZES[paper])
    title = f"{page.state_words} {page.number}"
    mark = Mark(
        page.number, page.version, page.state, page.code, page.printed, page.copy, page.language, page.state_words
    )
    canvas = sheet.open_canvas(paper, title, sheet.version_words(mark), page.site, page.language, page.printed_at)
    rows, size = _fitted(page, paper, frame)
    y = _draw_state(canvas, frame, page, size)
    spare = y - _bar_height(frame, page) - _bottom(frame, page) - sum(_height(row, size) for row in rows)
    each = min(spare / len(rows), 16.0)
    y = _draw_bar(canvas, frame, page, y)
    for row in rows:
        y = _draw_row(canvas, frame, row, size, y, each)
    _draw_foot_part(canvas, frame, page, mark)
    if page.state != "authorized":
        top = frame.height - _MARGIN - 60 - _bar_height(frame, page)
        crossing = "paper.crossing_ended" if page.state in ("ended", "closed") else "paper.crossing"
        words = say(crossing if not page.certificate else f"{crossing}_certificate", page.language)
        sheet.cross_out(canvas, frame.left, _MARGIN + 60 * MM, frame.right, top, words)
    canvas.showPage()
    return sheet.close_canvas(canvas)


# --- what fits -------------------------------------------------------------------------------------------------


def _fitted(page: PostedPage, paper: Paper, frame: _Frame) -> tuple[list[_Row], float]:
    size = _largest(page, page.entrants, frame)
    if size is not None:
        return _rows(page, page.entrants, frame, size), size
    if paper in _LARGER:
        why = sentence("paper.posted.too_much", size=f"{LEAST:g}", larger=_LARGER[paper])
        raise Refusal(why)
    short = tuple(_with_initials(name) for name in page.entrants)
    size = _largest(page, short, frame)
    if size is None:
        raise Refusal(sentence("paper.posted.too_much_anywhere", size=f"{LEAST:g}", paper=paper))
    return _rows(page, short, frame, size), size


def _largest(page: PostedPage, entrants: Sequence[str], frame: _Frame) -> float | None:
    size = _MOST if not _bar(page) else _BAR_SIZE - 2
    while size >= LEAST:
        rows = _rows(page, entrants, frame, size)
        room = frame.height - _MARGIN - _state_height(size) - _bar_height(frame, page) - _bottom(frame, page)
        widest = max(_widest(row, size) for row in rows)
        if widest <= frame.room and sum(_height(row, size) for row in rows) <= room:
            return size
        size -= _STEP
    return None


def _widest(row: _Row, size: float) -> float:
    cells = [sum(width_of(cell, size, True) for cell in line) + 14 * (len(line) - 1) for line in row.lines]
    aside = width_of(plain(row.aside), 11) + 10 if row.aside and row.lines else 0
    return max([*cells, *([cells[0] + aside] if cells else [])], default=0.0)


def _rows(page: PostedPage, entrants: Sequence[str], frame: _Frame, size: float) -> list[_Row]:
    def told(id: str) -> str:
        return say(f"paper.posted.{id}", page.language)

    hazards = ", ".join(page.hazards)
    barred = bool(_bar(page))
    limits = [bold(f"{one.gas} {one.limit}") for one in page.limits]
    rescue = tuple(line for text in page.rescue for line in _flowed(bold(text), frame, size))
    people = page.entrants_title or told("entrants")
    rows = [_Row(told("space"), _flowed(bold(_whereabouts(page)), frame, size))]
    if not barred:
        rows.append(_Row(told("valid"), _flowed(bold(page.valid), frame, size), aside=page.offset))
    if hazards or not barred:
        rows.append(
            _Row(page.hazards_title or told("hazards"), _flowed(plain(hazards[:1].upper() + hazards[1:]), frame, size))
        )
    asks_all = not barred and not page.certificate
    if limits or asks_all:
        rows.append(_Row(told("limits"), _two_abreast(limits, frame, size), page.test_every))
    if entrants or not barred:
        rows.append(_Row(people, _two_abreast([plain(name) for name in entrants], frame, size), page.entrants_note))
    if page.attendant or asks_all:
        rows.append(_Row(told("attendant"), _flowed(bold(page.attendant), frame, size), page.attendant_note))
    if rescue or not barred:
        rows.append(_Row(told("rescue"), rescue, page.rescue_note))
    return rows


def _bar(page: PostedPage) -> str:
    """Why nobody may enter on this page; '' where it grants entry. A page that is not authorized never grants it."""
    if page.bar or page.state == "authorized":
        return page.bar
    return say("paper.posted.no_entry", page.language)


def _whereabouts(page: PostedPage) -> str:
    return f"{page.space_name}, {page.space_place.rstrip('.')}" if page.space_place else page.space_name


def _flowed(text: Rich, frame: _Frame, size: float) -> tuple[tuple[Rich, ...], ...]:
    """A text over as many lines as it needs; an empty one says that it was not answered."""
    if not "".join(run.text for run in text).strip():
        text = bold(say("paper.not_answered"))
    whole = " ".join(run.text for run in text)
    lines: list[str] = []
    for word in whole.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of((*(_like(text, longer)),), size, True) <= frame.room:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple((_like(text, line),) for line in lines)


def _like(text: Rich, words: str) -> Rich:
    return bold(words) if text[0].bold else plain(words)


def _two_abreast(cells: Sequence[Rich], frame: _Frame, size: float) -> tuple[tuple[Rich, ...], ...]:
    """Two in a line where both halves hold them, filled by columns; else one below the other."""
    if not cells:
        return _flowed(bold(""), frame, size)
    if max(width_of(cell, size, True) for cell in cells) > (frame.room - 14) / 2 or len(cells) == 1:
        return tuple((cell,) for cell in cells)
    middle = (len(cells) + 1) // 2
    pairs = [(cells[row], *cells[row + middle : row + middle + 1]) for row in range(middle)]
    return tuple(pairs)


def _with_initials(name: str) -> str:
    first, _, rest = name.partition(" ")
    return f"{first[:1]}. {rest}" if rest else name


# --- drawing ---------------------------------------------------------------------------------------------------


def _state_height(size: float) -> float:
    return size * 1.65 + 4


def _draw_state(canvas: Canvas, frame: _Frame, page: PostedPage, size: float) -> float:
    top = frame.height - _MARGIN
    height = size * 1.65
    canvas.setLineWidth(HEAVY * 1.4)
    canvas.rect(frame.left + 1, top - height, frame.right - frame.left - 2, height)
    baseline = top - height / 2 - size * typeface.CAPITAL / 2
    number = typeface.printable(page.number)
    number_width = typeface.width(number, typeface.FIGURES_BOLD, size)
    canvas.setFont(typeface.FIGURES_BOLD, size)
    canvas.drawRightString(frame.right - 14, baseline, number)
    signs.draw(canvas, page.state, frame.left + 12, baseline, size)
    words = typeface.printable(page.state_words)
    room = frame.right - 14 - number_width - 16 - (frame.left + 20 + size)
    fits = min(size, size * room / typeface.width(words, typeface.BOLD, size))
    canvas.setFont(typeface.BOLD, fits)
    canvas.drawString(frame.left + 20 + size, baseline, words)
    return top - height - 4


_BAR_SIZE, _BAR_LEADING = 36.0, 40.0


def _bar_lines(frame: _Frame, page: PostedPage) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    room = frame.right - frame.left
    bar = _bar(page)
    return (
        wrap(bold(bar), room, _BAR_SIZE, True) if bar else (),
        wrap(bold(page.bar_note), room, 17, True) if page.bar_note else (),
    )


def _bar_height(frame: _Frame, page: PostedPage) -> float:
    large, small = _bar_lines(frame, page)
    return _BAR_LEADING * len(large) + 21 * len(small) + 16 if large else 0.0


def _draw_bar(canvas: Canvas, frame: _Frame, page: PostedPage, top: float) -> float:
    """In the place of the validity and larger than anything else: that nobody may enter, and why."""
    large, small = _bar_lines(frame, page)
    if not large:
        return top
    y = top - 4
    for line in large:
        y -= _BAR_LEADING
        draw_line(canvas, line, frame.left, y + 8)
    for line in small:
        y -= 21
        draw_line(canvas, line, frame.left, y + 4)
    bottom = top - _bar_height(frame, page)
    canvas.setLineWidth(HEAVY * 1.4)
    canvas.line(frame.left, bottom + 3, frame.right, bottom + 3)
    return bottom


def _height(row: _Row, size: float) -> float:
    noted = size * 0.9 + 4 + 11.5 * len(wrap(plain(row.note), _LABEL - 6, 9.5)) if row.note else 0.0
    return max(size * _LEADING * len(row.lines), noted) + 2 * _PAD


def _draw_row(canvas: Canvas, frame: _Frame, row: _Row, size: float, top: float, spare: float) -> float:
    y = top - _PAD - spare / 2
    first = y - size * 0.9
    canvas.setFont(typeface.BOLD, 11.5)
    canvas.drawString(frame.left, first, row.label)
    for place, line in enumerate(wrap(plain(row.note), _LABEL - 6, 9.5) if row.note else ()):
        draw_line(canvas, line, frame.left, first - 12.5 - 11.5 * place)
    for place, cells in enumerate(row.lines):
        for across, cell in enumerate(cells):
            x = frame.column + across * (frame.room + 14) / 2
            draw_line(canvas, wrap(cell, 1e6, size, True)[0], x, first - size * _LEADING * place)
    if row.aside:
        canvas.setFont(typeface.FIGURES, 11)
        canvas.drawRightString(frame.right, first, typeface.printable(row.aside))
    bottom = top - _height(row, size) - spare
    canvas.setLineWidth(THIN)
    canvas.line(frame.left, bottom, frame.right, bottom)
    return bottom


def _out_lines(frame: _Frame, page: PostedPage) -> tuple[Line, ...]:
    return wrap(said(page.everyone_out), frame.right - frame.left, _OUT_SIZE)


_SMALL, _SMALL_LEADING = 11.0, 13.5


def _small_lines(frame: _Frame, page: PostedPage) -> tuple[Line, ...]:
    """What is certified, what is to be known, and what changed since: each a paragraph of its own."""
    room = frame.right - frame.left
    paragraphs = (page.certificate, page.told, page.changed)
    return tuple(line for parts in paragraphs if parts for line in wrap(said(parts), room, _SMALL, True))


def _ink_height() -> float:
    return 14 + _BOX_HEIGHT + 2 * _LINE + 8


_FOOT = 28.0


def _bottom(frame: _Frame, page: PostedPage) -> float:
    """Upper edge of what stands below the glance part."""
    text = _OUT_LEADING * len(_out_lines(frame, page)) + _SMALL_LEADING * len(_small_lines(frame, page))
    return _MARGIN + _FOOT + _ink_height() + text + 10


def _draw_foot_part(canvas: Canvas, frame: _Frame, page: PostedPage, mark: Mark) -> None:
    y = _bottom(frame, page) - 4
    for line in _out_lines(frame, page):
        y -= _OUT_LEADING
        draw_line(canvas, line, frame.left, y + 3)
    for line in _small_lines(frame, page):
        y -= _SMALL_LEADING
        draw_line(canvas, line, frame.left, y + 3)
    top = _MARGIN + _FOOT + _ink_height()
    canvas.setLineWidth(THIN)
    canvas.line(frame.left, top, frame.right, top)
    gap, qr_room = 4 * MM, QR_SIDE + 11 * MM
    box = (frame.right - frame.left - qr_room - gap) / 2
    barred = bool(_bar(page))
    if barred:
        told = say("paper.posted.no_ink", page.language)
        for place, line in enumerate(wrap(plain(told), frame.right - frame.left - qr_room, 13, True)):
            draw_line(canvas, line, frame.left, top - 22 - 16 * place)
    if page.certificate and not barred:
        _certified_box(canvas, frame.left, top, 2 * box + gap, page)
    for place, name in enumerate(() if barred or page.certificate else ("supervisor", "relieves")):
        ink_box(
            canvas,
            frame.left + place * (box + gap),
            top,
            box,
            say(f"paper.posted.{name}", page.language),
            say("paper.posted.ink", page.language),
            page.language,
        )
    sheet.draw_qr(canvas, mark, frame.right - QR_SIDE, top - 16 - QR_SIDE)
    canvas.setFont(typeface.FIGURES_BOLD, 10)
    canvas.drawRightString(frame.right, top - 16 - QR_SIDE - 16, fingerprint.in_fours(mark.code))
    _draw_foot(canvas, frame, page, mark)


def ink_box(canvas: Canvas, x: float, top: float, width: float, title: str, hint: str, language: str) -> None:
    """A box for wet ink of at least 70 x 15 mm, and lines of 8 mm for name, role, date and time."""
    canvas.setFont(typeface.BOLD, 9.5)
    canvas.drawString(x, top - 11, title)
    canvas.setFont(typeface.PLAIN, 9.5)
    canvas.drawRightString(x + width, top - 11, hint)
    canvas.setLineWidth(1)
    canvas.rect(x, top - 14 - _BOX_HEIGHT, width, _BOX_HEIGHT)
    y = top - 14 - _BOX_HEIGHT
    for pair in (("name", "role"), ("date", "time")):
        y -= _LINE
        canvas.setFont(typeface.PLAIN, 9.5)
        for across, name in enumerate(pair):
            canvas.drawString(x + across * width * 0.6, y + 5, say(f"paper.posted.{name}", language))
        canvas.setLineWidth(HAIR)
        canvas.line(x, y, x + width, y)


def _certified_box(canvas: Canvas, x: float, top: float, width: float, page: PostedPage) -> None:
    """The signature that certifies, as it was given, and below it who gave it, as what, and when."""
    made = page.certified
    canvas.setFont(typeface.BOLD, 9.5)
    canvas.drawString(x, top - 11, say("paper.posted.certified", page.language))
    canvas.setLineWidth(1)
    bottom = top - 14 - _BOX_HEIGHT
    canvas.rect(x, bottom, width, _BOX_HEIGHT)
    if made is None:
        return
    if made.strokes:
        permit_ending.draw_strokes(canvas, made.strokes, x + 8, bottom + 4, width - 16, _BOX_HEIGHT - 8)
    else:
        canvas.setFont(typeface.PLAIN, 9.5)
        canvas.drawString(x + 8, bottom + 8, say("paper.by_code", page.language))
    words = ((Run(made.name, bold=True), Run(f", {made.role}. {made.at}")), said([made.meaning]))
    for place, rich in enumerate(words):
        draw_line(canvas, wrap(rich, width, _SMALL, True)[0], x, bottom - 14 - _SMALL_LEADING * place)


def _draw_foot(canvas: Canvas, frame: _Frame, page: PostedPage, mark: Mark) -> None:
    top = _MARGIN + _FOOT - 4
    canvas.setLineWidth(HAIR)
    canvas.line(frame.left, top, frame.right, top)
    state = page.state_words[:1].lower() + page.state_words[1:]
    words = {"site": page.site, "number": page.number, "version": str(page.version), "state": state}
    down = {"copy": str(page.copy), "printed": page.printed}
    first = wrap(plain(say("paper.posted.foot", page.language, **words)), frame.right - frame.left - 70, 9.5, True)
    second = wrap(plain(say("paper.posted.take_down", page.language, **down)), frame.right - frame.left, 9, True)
    draw_line(canvas, first[0], frame.left, top - 11.5)
    draw_line(canvas, second[0], frame.left, top - 22.5)
    canvas.setFont(typeface.FIGURES_BOLD, 9.5)
    canvas.drawRightString(frame.right, top - 11.5, say("paper.foot_page", page.language, page=1, pages=1))
