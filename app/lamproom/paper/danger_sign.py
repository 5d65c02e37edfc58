"""The danger sign of a space: one side across the sheet, words alone, black on white, read from some meters.

The signal word stands white in a solid band, because a worn mono laser and the sun leave that standing when thin
letters fade. The words are those that 29 CFR 1910.146(c)(2) gives as an example (from memory).
"""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import sheet, typeface
from lamproom.paper.content import DangerSign
from lamproom.paper.sheet import MM
from lamproom.paper.text import Line, bold, draw_line, plain, wrap
from lamproom.words import Refusal, say, sentence

_MARGIN = 11 * MM
_FRAME = 6.0
_BAND = 0.33
"""The band's share of the sheet's height."""
_LEAST_NAME = 24.0
"""Points of the space's name: a capital of 5.6 mm, read from two meters."""


def render_danger_sign(sign: DangerSign, paper: sheet.Paper = "letter") -> bytes:
    """One side across as PDF bytes. Refused for a name that does not fit at its least size."""
    height, width = sheet.SIZES[paper]
    title = f"{say('paper.danger.word', sign.language)}: {sign.space_name}"
    subject = say("paper.danger.what", sign.language)
    canvas = sheet.open_canvas(paper, title, subject, sign.site, sign.language, sign.printed_at)
    canvas.setPageSize((width, height))
    left, right, top, bottom = _MARGIN, width - _MARGIN, height - _MARGIN, _MARGIN
    canvas.setLineWidth(_FRAME)
    canvas.roundRect(left, bottom, right - left, top - bottom, 14)
    inner = right - left - 2 * (_FRAME + 18)
    y = _band(canvas, sign, left, right, top, (top - bottom) * _BAND)
    y = _centred(canvas, say("paper.danger.what", sign.language), width / 2, y - 14, inner, 60.0)
    y = _centred(canvas, say("paper.danger.order", sign.language), width / 2, y - 8, inner, 88.0)
    _which_space(canvas, sign, left + _FRAME + 18, inner, y - 14, bottom + _FRAME + 14)
    canvas.showPage()
    return sheet.close_canvas(canvas)


def _band(canvas: Canvas, sign: DangerSign, left: float, right: float, top: float, height: float) -> float:
    """The signal word, white in a black band; returns the band's lower edge."""
    inset = _FRAME / 2 + 5
    canvas.roundRect(left + inset, top - inset - height, right - left - 2 * inset, height, 10, stroke=0, fill=1)
    word = say("paper.danger.word", sign.language)
    room = right - left - 2 * inset - 40
    size = min(height * 1.12, room / typeface.width(word, typeface.BOLD, 1.0))
    canvas.setFillGray(1)
    canvas.setFont(typeface.BOLD, size)
    middle = top - inset - height / 2
    canvas.drawCentredString((left + right) / 2, middle - size * typeface.CAPITAL / 2, word)
    canvas.setFillGray(0)
    return top - inset - height


def _centred(canvas: Canvas, words: str, middle: float, top: float, room: float, most: float) -> float:
    """A line as large as the room allows; returns its lower edge."""
    size = min(most, room / typeface.width(words, typeface.BOLD, 1.0))
    canvas.setFont(typeface.BOLD, size)
    baseline = top - size * 0.86
    canvas.drawCentredString(middle, baseline, words)
    return baseline - size * 0.16


def _which_space(canvas: Canvas, sign: DangerSign, left: float, room: float, top: float, bottom: float) -> None:
    """A rule, the space with its place and number, who may go in, and whose sign it is."""
    canvas.setLineWidth(sheet.HEAVIEST)
    canvas.line(left, top, left + room, top)
    number = typeface.printable(sign.space_id)
    who = wrap(plain(say("paper.danger.who", sign.language)), room, 15)
    foot_words = say("paper.danger.foot", sign.language, site=sign.site, printed=sign.printed)
    foot = wrap(plain(foot_words), room, 9.5, True)
    below = 19 * len(who) + 12 * len(foot) + 6
    size, lines = _name(sign, room - typeface.width(number, typeface.FIGURES_BOLD, 40) - 24, top - bottom - below)
    y = top - 6
    for line in lines:
        y -= size * 1.12
        draw_line(canvas, line, left, y)
    canvas.setFont(typeface.FIGURES_BOLD, size)
    canvas.drawRightString(left + room, top - 6 - size * 1.12, number)
    y = bottom + below
    for line in who:
        y -= 19
        draw_line(canvas, line, left, y + 4)
    for line in foot:
        y -= 12
        draw_line(canvas, line, left, y)


def _name(sign: DangerSign, room: float, height: float) -> tuple[float, tuple[Line, ...]]:
    """The name and place in the largest size that fits."""
    words = f"{sign.space_name}, {sign.space_place.rstrip('.')}" if sign.space_place else sign.space_name
    size = 40.0
    while size >= _LEAST_NAME:
        lines = wrap(bold(words), room, size, True)
        if size * 1.12 * len(lines) + 8 <= height:
            return size, lines
        size -= 1
    raise Refusal(sentence("paper.danger.too_long"))
