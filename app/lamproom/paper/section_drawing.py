"""The section of the space, true to scale from its data: one scale down and across, each tested point at its depth.

Drawn from what was recorded and nothing else: a point that was not tested is a dotted ring, a space without liquid
shows none. Ladder, hose, duct, tripod and davit are signs of what is there; their thickness is not to scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from lamproom.paper import typeface
from lamproom.paper.content import Section
from lamproom.paper.text import draw_line, plain, wrap
from lamproom.words import say

SCALE_ROOM = 52.0
"""Left of the wall: the scale of depth, and the words for pipes and level beside it."""
RIGHT_ROOM = 12.0
ABOVE = 46.0
"""Above the portal: tripod, fan and the ground."""
BELOW = 18.0
_SOIL = 7.0


@dataclass(frozen=True, slots=True)
class Tested:
    """A point on the hose: its depth, and whether it was tested in the phase that counts."""

    depth: float
    tested: bool


@dataclass(frozen=True, slots=True)
class Scale:
    """Points of paper for one unit of length, and the drawing's inner size."""

    each: float
    depth: float
    width: float


def scale_for(section: Section, room: float, wanted: float) -> Scale:
    """The largest true scale at which the space is at most ``wanted`` points deep and ``room`` points wide in all."""
    inner = room - SCALE_ROOM - RIGHT_ROOM - 2 * _SOIL
    each = min(wanted / section.depth, inner / section.width)
    return Scale(each, section.depth * each, section.width * each)


def height_of(scale: Scale) -> float:
    """Height of the whole drawing, from above the tripod to under the floor."""
    return ABOVE + scale.depth + BELOW


def draw(
    canvas: Canvas, section: Section, points: Sequence[Tested], scale: Scale, x: float, portal: float, room: float
) -> float:
    """Draw with the portal at ``portal``; returns where the hose hangs, so that leaders can run to the table."""
    left = x + SCALE_ROOM + _SOIL + max((room - SCALE_ROOM - RIGHT_ROOM - 2 * _SOIL - scale.width) / 2, 0)
    floor = portal - scale.depth
    right = left + scale.width
    canvas.saveState()
    if not section.above_ground:
        _soil(canvas, left, right, portal, floor)
    _liquid(canvas, section, scale, left, right, portal, floor)
    _walls(canvas, section, scale, left, right, portal, floor)
    _depth_scale(canvas, section, scale, x, portal)
    _pipes(canvas, section, scale, left, right, portal)
    _notes(canvas, section, scale, x, left, portal)
    _fan(canvas, section, scale, left, right, portal, x)
    if section.ladder:
        _ladder(canvas, section, scale, left, right, portal)
    hose = _hose_at(section, scale, left)
    _hose(canvas, points, scale, hose, right, portal)
    canvas.restoreState()
    return hose


def _hatch(canvas: Canvas, left: float, bottom: float, right: float, top: float, every: float = 4.0) -> None:
    """Lines at 45 degrees within a box, 0.5 pt: only for soil and for what lies outside a limit."""
    canvas.saveState()
    box = canvas.beginPath()
    box.rect(left, bottom, right - left, top - bottom)
    canvas.clipPath(box, stroke=0, fill=0)
    canvas.setLineWidth(0.5)
    lines = canvas.beginPath()
    height = top - bottom
    at = left - height
    while at < right:
        lines.moveTo(at, bottom)
        lines.lineTo(at + height, top)
        at += every
    canvas.drawPath(lines)
    canvas.restoreState()


hatch = _hatch


def _soil(canvas: Canvas, left: float, right: float, portal: float, floor: float) -> None:
    _hatch(canvas, left - _SOIL, floor - _SOIL, left, portal)
    _hatch(canvas, right, floor - _SOIL, right + _SOIL, portal)
    _hatch(canvas, left, floor - _SOIL, right, floor)


def _walls(
    canvas: Canvas, section: Section, scale: Scale, left: float, right: float, portal: float, floor: float
) -> None:
    canvas.setLineWidth(1.8)
    canvas.setLineJoin(0)
    path = canvas.beginPath()
    path.moveTo(left, portal)
    path.lineTo(left, floor)
    path.lineTo(right, floor)
    path.lineTo(right, portal)
    canvas.drawPath(path)
    middle, half = left + section.opening_at * scale.each, section.opening * scale.each / 2
    canvas.setLineWidth(4)
    canvas.line(left - _SOIL, portal, max(middle - half, left), portal)
    canvas.line(min(middle + half, right), portal, right + _SOIL, portal)
    canvas.setLineWidth(1)
    apex = portal + 34
    if section.retrieval == "tripod":
        for foot in (middle - half - 4, middle, middle + half + 4):
            canvas.line(foot, portal + 2, middle, apex)
    elif section.retrieval == "davit":
        post = min(middle + half, right) + 5
        canvas.setLineWidth(2)
        canvas.line(post, portal + 2, post, apex - 5)
        canvas.setLineWidth(1.2)
        canvas.line(post, apex - 5, middle, apex)
        canvas.setLineWidth(0.8)
        canvas.line(middle, apex, middle, portal + 10)


def _depth_scale(canvas: Canvas, section: Section, scale: Scale, x: float, portal: float) -> None:
    axis = x + 18
    canvas.setLineWidth(0.8)
    canvas.line(axis, portal, axis, portal - scale.depth)
    canvas.setFont(typeface.FIGURES, 8)
    step = next(s for s in (0.5, 1, 2, 4, 5, 10, 20, 50, 100, 1000) if s * scale.each >= 26)
    depth = 0.0
    while depth < section.depth - 13 / scale.each:
        y = portal - depth * scale.each
        canvas.line(axis - 3, y, axis, y)
        canvas.drawRightString(axis - 5, y - 2.7, f"{depth:g}")
        depth += step
    y = portal - scale.depth
    canvas.line(axis - 3, y, axis, y)
    deepest = f"{section.depth:g}\u00a0{section.unit}"
    wide = typeface.width(deepest, typeface.FIGURES, 8)
    canvas.drawString(max(axis - 5 - wide, x), y - (2.7 if axis - 5 - wide >= x else 12.5), deepest)


def _note(canvas: Canvas, text: str, x: float, y: float, width: float, upward: bool = False) -> None:
    lines = wrap(plain(text), width, 8)
    y += 9 * (len(lines) - 1) if upward else 0
    for row, line in enumerate(lines):
        draw_line(canvas, line, x, y - 9 * row)


def _notes(canvas: Canvas, section: Section, scale: Scale, x: float, left: float, portal: float) -> None:
    """Words beside the wall, each at its depth, the lowest first; a note that would cover the one below moves up."""
    found = [(pipe.depth, pipe.words, False) for pipe in section.pipes if pipe.words]
    if section.level is not None and section.level_words:
        found.append((section.level, section.level_words, False))
    if section.works_at is not None:
        found.append((section.works_at, say("paper.section.work"), True))
    width = left - _SOIL - x - 22
    free = portal - scale.depth - 9
    for depth, words, is_work in sorted(found, key=lambda note: note[0], reverse=True):
        lines = wrap(plain(words), width, 8)
        y = portal - depth * scale.each
        lowest = max(y - 2.7 - (0 if is_work or depth == section.level else -9), free)
        for row, line in enumerate(reversed(lines)):
            draw_line(canvas, line, x + 21, lowest + 8.6 * row)
        if is_work:
            _pointer(canvas, x + 21 + lines[-1].width + 3, lowest + 2.7, left - _SOIL - 1, y)
        free = lowest + 8.6 * len(lines) + 1.5


def _pointer(canvas: Canvas, x: float, y: float, to_x: float, to_y: float) -> None:
    canvas.setLineWidth(0.8)
    canvas.line(x, y, to_x - 4, to_y)
    path = canvas.beginPath()
    path.moveTo(to_x, to_y)
    path.lineTo(to_x - 5, to_y + 2.5)
    path.lineTo(to_x - 5, to_y - 2.5)
    path.close()
    canvas.drawPath(path, 0, 1)


def _pipes(canvas: Canvas, section: Section, scale: Scale, left: float, right: float, portal: float) -> None:
    for pipe in section.pipes:
        y = portal - pipe.depth * scale.each
        wall, out = (left, -1) if pipe.side == "left" else (right, 1)
        canvas.setFillGray(1)
        canvas.setLineWidth(1)
        canvas.rect(min(wall, wall + out * 16), y - 5, 16, 10, 1, 1)
        canvas.setFillGray(0)
        canvas.setLineWidth(3)
        canvas.line(wall, y - 7, wall, y + 7)


def _liquid(
    canvas: Canvas, section: Section, scale: Scale, left: float, right: float, portal: float, floor: float
) -> None:
    if section.level is None:
        return
    y = portal - section.level * scale.each
    canvas.setLineWidth(0.8)
    path = canvas.beginPath()
    path.moveTo(left + 1, y)
    at = left + 1
    while at < right - 1:
        path.curveTo(at + 2, y + 2, at + 2, y + 2, min(at + 4, right - 1), y)
        path.curveTo(min(at + 6, right - 1), y - 2, min(at + 6, right - 1), y - 2, min(at + 8, right - 1), y)
        at += 8
    canvas.drawPath(path)
    below = y - 4
    while below > floor + 2:
        canvas.setDash(6, 5)
        canvas.setLineWidth(0.5)
        canvas.line(left + 4, below, right - 4, below)
        canvas.setDash()
        below -= 4.5


def _fan(canvas: Canvas, section: Section, scale: Scale, left: float, right: float, portal: float, x: float) -> None:
    if not section.fan_words:
        return
    fan_x, fan_y = left - 12, portal + 12
    canvas.setLineWidth(1)
    canvas.circle(fan_x, fan_y, 8)
    for turn in (0, 1, 2, 3):
        dx, dy = ((6, 2), (-2, 6), (-6, -2), (2, -6))[turn]
        canvas.line(fan_x, fan_y, fan_x + dx, fan_y + dy)
    _note(canvas, section.fan_words, x, portal + 32, 78, upward=True)
    if section.duct_depth is not None:
        end = portal - section.duct_depth * scale.each
        middle = left + section.opening_at * scale.each
        duct = max(min(left + scale.width * 0.18, middle - 4), left + 6)
        canvas.setFillGray(1)
        path = canvas.beginPath()
        path.moveTo(fan_x + 7, fan_y + 5)
        path.lineTo(duct + 4, fan_y + 5)
        path.lineTo(duct + 4, end)
        path.moveTo(duct - 4, end)
        path.lineTo(duct - 4, fan_y - 4)
        path.lineTo(fan_x + 7, fan_y - 4)
        canvas.setStrokeGray(0)
        canvas.rect(duct - 4, end, 8, fan_y - end, 0, 1)
        canvas.setFillGray(0)
        canvas.drawPath(path)
        canvas.line(duct - 3, end - 3, duct - 6, end - 10)
        canvas.line(duct, end - 3, duct, end - 11)
        canvas.line(duct + 3, end - 3, duct + 6, end - 10)


def _ladder(canvas: Canvas, section: Section, scale: Scale, left: float, right: float, portal: float) -> None:
    middle, half = left + section.opening_at * scale.each, section.opening * scale.each / 2
    side = min(middle + half, right - 3) - 3
    canvas.setLineWidth(0.8)
    foot = portal - scale.depth
    canvas.line(side, portal + 8, side, foot)
    canvas.line(side - 8, portal + 8, side - 8, foot)
    rungs = canvas.beginPath()
    y = portal
    while y > foot + 3:
        rungs.moveTo(side - 8, y)
        rungs.lineTo(side, y)
        y -= max(scale.each, 6)
    canvas.drawPath(rungs)


def _hose_at(section: Section, scale: Scale, left: float) -> float:
    middle = left + section.opening_at * scale.each
    return middle - (6 if section.ladder and scale.width > 40 else 0)


def _hose(canvas: Canvas, points: Sequence[Tested], scale: Scale, hose: float, right: float, portal: float) -> None:
    canvas.setLineWidth(1.4)
    if points:
        canvas.line(hose, portal + 8, hose, portal - max(point.depth for point in points) * scale.each)
    for point in points:
        y = portal - point.depth * scale.each
        canvas.setFillGray(1)
        canvas.setLineWidth(1)
        if point.tested:
            canvas.circle(hose, y, 3.6, 1, 1)
            canvas.setFillGray(0)
            canvas.circle(hose, y, 1.3, 0, 1)
        else:
            canvas.setDash(1.5, 1.3)
            canvas.circle(hose, y, 3.6, 1, 1)
            canvas.setDash()
            canvas.setFillGray(0)
