"""The drawn signs: each says by shape what a worn mono laser cannot say by colour.

Late (a clock), corrected (a stroke and a caret), does not apply (a slashed ring), not answered or not tested (a
dotted ring), outside a limit (a triangle with a bar), in doubt (a ring with a question mark); and the states of a
permit: draft (a dashed square), authorized (a ticked ring), ended (a crossed square), closed out (a barred square).
"""

from __future__ import annotations

from math import sqrt
from typing import Literal

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import typeface

Sign = Literal[
    "late",
    "corrected",
    "does not apply",
    "not answered",
    "outside",
    "in doubt",
    "draft",
    "authorized",
    "ended",
    "closed",
]


def draw(canvas: Canvas, sign: Sign, x: float, baseline: float, size: float) -> None:
    """Draw a sign in the square of ``size`` points that stands a little below the baseline, its left edge at ``x``."""
    middle_x, middle_y, radius = x + size / 2, baseline + typeface.CAPITAL * size / 2, size / 2 * 0.92
    canvas.saveState()
    canvas.setLineWidth(max(0.7, size * 0.09))
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    _DRAWN[sign](canvas, middle_x, middle_y, radius)
    canvas.restoreState()


def _late(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.circle(x, y, r)
    canvas.line(x, y, x, y + r * 0.62)
    canvas.line(x, y, x + r * 0.5, y)


def _corrected(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.line(x - r, y + r * 0.45, x + r, y + r * 0.45)
    canvas.line(x - r * 0.6, y - r * 0.7, x, y)
    canvas.line(x, y, x + r * 0.6, y - r * 0.7)


def _does_not_apply(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.circle(x, y, r)
    canvas.line(x - r * 0.7, y - r * 0.7, x + r * 0.7, y + r * 0.7)


def _not_answered(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.setLineCap(0)
    canvas.setDash(r * 0.42, r * 0.365)
    canvas.circle(x, y, r)


def _outside(canvas: Canvas, x: float, y: float, r: float) -> None:
    path = canvas.beginPath()
    path.moveTo(x - r * 1.05, y - r * 0.75)
    path.lineTo(x + r * 1.05, y - r * 0.75)
    path.lineTo(x, y - r * 0.75 + r * 1.05 * sqrt(3))
    path.close()
    canvas.drawPath(path)
    canvas.line(x, y - r * 0.05, x, y + r * 0.35)
    canvas.line(x, y - r * 0.4, x, y - r * 0.38)


def _in_doubt(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.circle(x, y, r)
    canvas.setFont(typeface.BOLD, r * 1.7)
    canvas.drawCentredString(x, y - r * 0.57, "?")


def _draft(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.setLineCap(0)
    canvas.setDash(r * 0.24, r * 0.16)
    canvas.rect(x - r, y - r, 2 * r, 2 * r)


def _authorized(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.circle(x, y, r)
    canvas.line(x - r * 0.45, y, x - r * 0.1, y - r * 0.4)
    canvas.line(x - r * 0.1, y - r * 0.4, x + r * 0.5, y + r * 0.4)


def _ended(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.rect(x - r, y - r, 2 * r, 2 * r)
    canvas.setLineWidth(r * 0.24)
    canvas.line(x - r * 0.5, y - r * 0.5, x + r * 0.5, y + r * 0.5)
    canvas.line(x - r * 0.5, y + r * 0.5, x + r * 0.5, y - r * 0.5)


def _closed(canvas: Canvas, x: float, y: float, r: float) -> None:
    canvas.rect(x - r, y - r, 2 * r, 2 * r)
    canvas.setLineCap(0)
    canvas.setLineWidth(r * 0.34)
    canvas.line(x - r * 0.55, y, x + r * 0.55, y)


_DRAWN = {
    "late": _late,
    "corrected": _corrected,
    "does not apply": _does_not_apply,
    "not answered": _not_answered,
    "outside": _outside,
    "in doubt": _in_doubt,
    "draft": _draft,
    "authorized": _authorized,
    "ended": _ended,
    "closed": _closed,
}
