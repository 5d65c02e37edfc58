"""One panel for each gas beside the section: its own scale, limits hatched, no line through what is untested."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter

from lamproom.desk.fonts import letter
from lamproom.desk.parts.depth_scale import DepthScale, spread
from lamproom.desk.parts.strokes import edge_pen, hatch
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Role
from lamproom.words import say

HEAD, FOOT, _GAP = 62.0, 50.0, 12.0


@dataclass(frozen=True, slots=True)
class Found:
    """A value at a depth: ``value`` places it, ``text`` is what was typed; ``odd`` rings it, ``outside`` signs it."""

    depth: float
    value: float
    text: str
    odd: bool = False
    outside: bool = False


@dataclass(frozen=True, slots=True)
class GasColumn:
    """One gas: name and unit above, limits hatched, values as typed, the limit in words below.

    ``low``: values below it are out of limits (oxygen), None for none; ``high``: the upper end of what is allowed.
    ``scale``: the two ends of the panel, which keep the limits in view. ``weight``: vapour against air in words with
    its sign (RISING: lighter, FALLING: heavier, STEADY: mixes). ``old``: values that no longer count, shown struck.
    """

    key: str
    name: str
    unit: str
    high: float
    scale: tuple[float, float]
    limit: str
    low: float | None = None
    values: tuple[Found, ...] = ()
    weight: str = ""
    weight_sign: Sign | None = None
    old: tuple[Found, ...] = ()

    def ends(self) -> tuple[float, float, bool]:
        """The ends of the panel, widened (third value True) where a value lies outside them."""
        low, high = self.scale
        least = min((found.value for found in self.values), default=low)
        most = max((found.value for found in self.values), default=high)
        wide = least < low or most > high
        return (least if least < low else low, most * 1.1 if most > high else high, wide)


def column_areas(area: QRectF, count: int) -> list[QRectF]:
    """The panels side by side."""
    if not count:
        return []
    wide = (area.width() - _GAP * (count - 1)) / count
    return [QRectF(area.left() + at * (wide + _GAP), area.top(), wide, area.height()) for at in range(count)]


def paint_column(
    painter: QPainter,
    area: QRectF,
    scale: DepthScale,
    gas: GasColumn,
    look: Look,
    untested: tuple[float, ...] = (),
    chosen: float | None = None,
) -> list[tuple[QRectF, Found]]:
    """Draw a panel between ``scale.top`` and ``scale.bottom``; returns where each value stands, for the press."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    panel = QRectF(area.left(), scale.top, area.width(), scale.bottom - scale.top)
    low, high, widened = gas.ends()

    def across(value: float) -> float:
        return panel.left() + 4 + (panel.width() - 8) * (value - low) / (high - low)

    _paint_head(painter, area, scale.top, gas, look)
    _paint_limits(painter, panel, across, gas, look)
    _paint_foot(painter, area, scale.bottom, gas, widened, look)
    places = _paint_values(painter, panel, across, scale, gas, look, untested, chosen)
    painter.restore()
    return places


def _paint_head(painter: QPainter, area: QRectF, bottom: float, gas: GasColumn, look: Look) -> None:
    box = QRectF(area.left(), bottom - HEAD, area.width(), HEAD - 20)
    painter.setPen(look.colour(Role.TEXT))
    painter.setFont(letter(look, Letter.SMALL, True))
    flags = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom | Qt.TextFlag.TextWordWrap
    painter.drawText(box, flags, gas.name)
    painter.setFont(letter(look, Letter.SMALL))
    painter.setPen(look.colour(Role.SECOND))
    painter.drawText(QRectF(area.left(), bottom - 20, area.width(), 18), Qt.AlignmentFlag.AlignCenter, gas.unit)


def _paint_limits(
    painter: QPainter, panel: QRectF, across: Callable[[float], float], gas: GasColumn, look: Look
) -> None:
    ink = look.colour(Role.TEXT)
    edges = []
    if gas.low is not None:
        edges.append(across(gas.low))
        hatch(painter, QRectF(panel.left(), panel.top(), edges[-1] - panel.left(), panel.height()), look)
    edges.append(min(across(gas.high), panel.right()))
    hatch(painter, QRectF(edges[-1], panel.top(), panel.right() - edges[-1], panel.height()), look)
    painter.setPen(edge_pen(ink, look.line, dashed=True))
    for x in edges:
        painter.drawLine(QPointF(x, panel.top()), QPointF(x, panel.bottom()))
    painter.setPen(edge_pen(look.colour(Role.EDGE), look.line))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(panel)


def _paint_foot(painter: QPainter, area: QRectF, top: float, gas: GasColumn, widened: bool, look: Look) -> None:
    middle = Qt.AlignmentFlag.AlignCenter
    painter.setFont(letter(look, Letter.SMALL))
    painter.setPen(look.colour(Role.TEXT))
    painter.drawText(QRectF(area.left() - 4, top + 4, area.width() + 8, 20), middle, gas.limit)
    second = say("desk.scale_widened") if widened else gas.weight
    painter.setPen(look.colour(Role.SECOND))
    if not second:
        return
    metrics = QFontMetricsF(painter.font())
    signed = gas.weight_sign is not None and not widened
    wide = metrics.horizontalAdvance(second) + (20 if signed else 0)
    x = area.center().x() - wide / 2
    if signed and gas.weight_sign is not None:
        draw_sign(painter, QRectF(x, top + 27, 14, 14), gas.weight_sign, look.theme, look.colour(Role.SECOND))
        x += 20
    painter.drawText(QPointF(x, top + 40), second)


def _paint_values(
    painter: QPainter,
    panel: QRectF,
    across: Callable[[float], float],
    scale: DepthScale,
    gas: GasColumn,
    look: Look,
    untested: tuple[float, ...],
    chosen: float | None,
) -> list[tuple[QRectF, Found]]:
    ink = look.colour(Role.TEXT)
    values = sorted(gas.values, key=lambda found: found.depth)
    dots = [QPointF(across(found.value), scale.y(found.depth)) for found in values]
    painter.setPen(edge_pen(ink, look.line))
    for at in range(1, len(dots)):
        between = any(values[at - 1].depth < depth < values[at].depth for depth in untested)
        if not between:
            painter.drawLine(dots[at - 1], dots[at])
    font = letter(look, Letter.SMALL, True)
    metrics = QFontMetricsF(font)
    band = (across(gas.low) if gas.low is not None else panel.left(), min(across(gas.high), panel.right()))
    rows = spread([dot.y() for dot in dots], 21, panel.top() + 12, panel.bottom() - 10)
    places = []
    for found, dot, row in zip(values, dots, rows, strict=True):
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        painter.drawEllipse(dot, 5, 5)
        wide = metrics.horizontalAdvance(found.text) + (20 if found.outside else 0)
        right = dot.x() + 10 + wide <= panel.right() + 2
        x = _off_the_hatch(dot.x() + 11 if right else dot.x() - 11 - wide, wide, dot.x(), band)
        box = QRectF(x - 4, row - 10, wide + 8, 20)
        painter.fillRect(box, look.colour(Role.GROUND))
        if found.odd or chosen == found.depth:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(edge_pen(look.colour(Role.FOCUS if chosen == found.depth else Role.TEXT), 3))
            painter.drawRoundedRect(box.adjusted(-1, -2, 1, 2), 3, 3)
        if found.outside:
            draw_sign(painter, QRectF(x, row - 8, 16, 16), Sign.DANGER, look.theme)
            x += 20
        painter.setFont(font)
        painter.setPen(ink)
        painter.drawText(QPointF(x, row + metrics.capHeight() / 2), found.text)
        places.append((box.adjusted(-14, -12, 14, 12), found))
    return places


def _off_the_hatch(x: float, wide: float, dot: float, band: tuple[float, float]) -> float:
    """Where words begin so that they stand on clear ground between the limits, and not on their dot, where they fit."""
    left, right = band[0] + 4, band[1] - 4 - wide
    for wish in (x, dot + 11, dot - 11 - wide, right if dot >= band[1] else left):
        clear = wish >= dot + 8 or wish + wide <= dot - 8
        if left <= wish <= right and clear:
            return wish
    return x
