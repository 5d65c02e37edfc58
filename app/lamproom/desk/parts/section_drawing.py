"""The section through the space: soil, walls, opening, ladder, today's liquid, points of the test, the hose."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.depth_scale import DepthScale, paint_axis, spread
from lamproom.desk.parts.strokes import edge_pen, hatch
from lamproom.desk.theme import RADIUS, Letter, Look, Role, look_of
from lamproom.words import say

_WALL = 14.0


@dataclass(frozen=True, slots=True)
class PointMark:
    """A point of the test: its depth, its name ("2.7 m"), the time it was tested (empty: not tested), the one now;
    when it was read before the air changed, and that in words."""

    depth: float
    name: str
    time: str = ""
    current: bool = False
    old_time: str = ""
    old_words: str = ""

    @property
    def tested(self) -> bool:
        """It has a time."""
        return bool(self.time)


@dataclass(frozen=True, slots=True)
class SectionView:
    """What the section shows. Depths are below the portal, in the unit of the space.

    ``liquid``: depth of today's surface, None for a dry space; ``liquid_words`` stand on it.
    ``opening``: share of the width of the space that is open at the top, 0 to 1.
    ``inlet``: depth of a pipe in the left wall, None for none. ``instrument``: what the hose ends in.
    """

    depth: float
    points: tuple[PointMark, ...] = ()
    unit: str = "m"
    liquid: float | None = None
    liquid_words: str = ""
    opening: float = 0.36
    ladder: bool = True
    inlet: float | None = None
    instrument: str = ""


def paint_section(painter: QPainter, area: QRectF, scale: DepthScale, view: SectionView, look: Look) -> None:
    """Draw the section into ``area``; its top strip (above ``scale.top``) holds the instrument and the cover."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    inside = QRectF(area.left() + 48, scale.top, area.width() - 48 - 56, scale.y(view.depth) - scale.top)
    mouth = (inside.left() + inside.width() * 0.36, inside.left() + inside.width() * (0.36 + view.opening))
    hose = inside.left() + inside.width() * 0.36 + min(26.0, (mouth[1] - mouth[0]) / 2)
    _paint_walls(painter, area, inside, mouth, look)
    if view.inlet is not None:
        _paint_inlet(painter, inside, scale.y(view.inlet), look)
    if view.ladder:
        _paint_ladder(painter, inside, look)
    if view.liquid is not None:
        _paint_liquid(painter, inside, scale.y(view.liquid), view.liquid_words, look)
    _paint_points(painter, area, inside, hose, scale, view, look)
    painter.restore()


def _paint_walls(painter: QPainter, area: QRectF, inside: QRectF, mouth: tuple[float, float], look: Look) -> None:
    ink = look.colour(Role.TEXT)
    left, right, bottom = inside.left(), inside.right(), inside.bottom()
    top, roof = inside.top(), inside.top() + 11
    parts = (
        QRectF(left - _WALL, top, mouth[0] - left + _WALL, 11),
        QRectF(mouth[1], top, right - mouth[1] + _WALL, 11),
        QRectF(left - _WALL, roof, _WALL, bottom - roof),
        QRectF(right, roof, _WALL, bottom - roof),
        QRectF(left - _WALL, bottom, inside.width() + 2 * _WALL, _WALL),
    )
    for part in parts:
        hatch(painter, part, look, Role.TEXT if look.sun else Role.SECOND, 7)
    outline = QPainterPath(QPointF(mouth[0], top))
    for x, y in (
        (left - _WALL, top),
        (left - _WALL, bottom + _WALL),
        (right + _WALL, bottom + _WALL),
        (right + _WALL, top),
        (mouth[1], top),
        (mouth[1], roof),
        (right, roof),
        (right, bottom),
        (left, bottom),
        (left, roof),
        (mouth[0], roof),
    ):
        outline.lineTo(x, y)
    outline.closeSubpath()
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(edge_pen(ink, look.emphasis))
    painter.drawPath(outline)
    painter.setPen(edge_pen(look.colour(Role.TEXT if look.sun else Role.SECOND), look.line))
    for start, end in ((area.left(), left - _WALL), (right + _WALL, area.right())):
        painter.drawLine(QPointF(start, top), QPointF(end, top))
        for x in range(int(start) + 6, int(end), 9):
            painter.drawLine(QPointF(x, top), QPointF(x - 5, top + 6))
    painter.setPen(edge_pen(ink, look.emphasis + 1))
    painter.drawLine(QPointF(mouth[0], top), QPointF(mouth[0], top - 8))
    painter.drawLine(QPointF(mouth[1], top), QPointF(mouth[1], top - 8))
    painter.drawLine(QPointF(mouth[0], top - 8), QPointF(mouth[0] - 26, top - 34))


def _paint_inlet(painter: QPainter, inside: QRectF, y: float, look: Look) -> None:
    pipe = QRectF(inside.left() - _WALL - 2, y - 13, _WALL + 12, 26)
    painter.setPen(edge_pen(look.colour(Role.TEXT), look.emphasis))
    painter.setBrush(look.colour(Role.GROUND))
    painter.drawRect(pipe)
    painter.fillRect(QRectF(pipe.right(), y - 18, 4, 36), look.colour(Role.TEXT))


def _paint_ladder(painter: QPainter, inside: QRectF, look: Look) -> None:
    painter.setPen(edge_pen(look.colour(Role.TEXT if look.sun else Role.SECOND), look.line))
    # At the left, clear of the names of the points.
    left, right = inside.left() + 5, inside.left() + 17
    painter.drawLine(QPointF(left, inside.top() + 12), QPointF(left, inside.bottom()))
    painter.drawLine(QPointF(right, inside.top() + 12), QPointF(right, inside.bottom()))
    y = inside.top() + 24
    while y < inside.bottom() - 4:
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        y += 13


def _paint_liquid(painter: QPainter, inside: QRectF, y: float, words: str, look: Look) -> None:
    painter.setPen(edge_pen(look.colour(Role.TEXT), look.emphasis))
    painter.drawLine(QPointF(inside.left(), y), QPointF(inside.right(), y))
    painter.setPen(edge_pen(look.colour(Role.TEXT if look.sun else Role.SECOND), look.line))
    centre = inside.right() - 14
    for at, half in enumerate((9, 6, 3)):
        level = y + 5 + at * 5
        if level < inside.bottom() - 1:
            painter.drawLine(QPointF(centre - half, level), QPointF(centre + half, level))
    if words:
        # Below the floor: beside the surface the words would cover the names of the points.
        painter.setFont(letter(look, Letter.SMALL))
        painter.setPen(look.colour(Role.TEXT))
        painter.drawText(QPointF(inside.left() - _WALL, inside.bottom() + _WALL + look.px(19)), words)


def _paint_points(
    painter: QPainter, area: QRectF, inside: QRectF, hose: float, scale: DepthScale, view: SectionView, look: Look
) -> None:
    ink, second = look.colour(Role.TEXT), look.colour(Role.TEXT if look.sun else Role.SECOND)
    points = sorted(view.points, key=lambda point: point.depth)
    for point in points:
        painter.setPen(QPen(second, 1.2, Qt.PenStyle.DotLine))
        painter.drawLine(QPointF(hose, scale.y(point.depth)), QPointF(area.right(), scale.y(point.depth)))
    reached = max((p.depth for p in points if p.tested or p.current), default=0.0)
    if view.instrument:
        _paint_hose(painter, inside, hose, scale.y(reached), view.instrument, look)
    names = spread([scale.y(p.depth) - 3 for p in points], 19, scale.top + 29, scale.bottom + 4)
    times = spread([scale.y(p.depth) + 6 for p in points], 19, scale.top + 29, scale.bottom + 10)
    for point, name_y, time_y in zip(points, names, times, strict=True):
        mark = QPointF(hose, scale.y(point.depth))
        painter.setPen(edge_pen(ink, 3 if point.current else 2))
        painter.setBrush(ink if point.tested and not point.current else look.colour(Role.GROUND))
        radius = 6.0 if point.current else 5.0
        painter.drawEllipse(mark, radius, radius)
        _words(painter, QPointF(hose + 14, name_y), point.name, look, bold=True)
        if point.tested:
            width = QFontMetricsF(letter(look, Letter.SMALL)).horizontalAdvance(point.time)
            _words(painter, QPointF(hose - 14 - width, time_y), point.time, look, bold=False)
        elif point.old_time:
            width = QFontMetricsF(letter(look, Letter.SMALL)).horizontalAdvance(point.old_time)
            _words(painter, QPointF(hose - 14 - width, time_y), point.old_time, look, bold=False, struck=True)


def _words(painter: QPainter, at: QPointF, text: str, look: Look, bold: bool, struck: bool = False) -> None:
    """Words on the drawing, with the ground behind them so that no line runs through."""
    font = letter(look, Letter.SMALL, bold)
    font.setStrikeOut(struck)
    metrics = QFontMetricsF(font)
    cap = metrics.capHeight()
    box = QRectF(at.x() - 3, at.y() - cap - 3, metrics.horizontalAdvance(text) + 6, cap + 5)
    painter.fillRect(box, look.colour(Role.GROUND))
    painter.setFont(font)
    painter.setPen(look.colour(Role.TEXT if bold or look.sun else Role.SECOND))
    painter.drawText(at, text)


def _paint_hose(painter: QPainter, inside: QRectF, x: float, end: float, name: str, look: Look) -> None:
    ink = look.colour(Role.TEXT)
    top = inside.top() - 22
    font = letter(look, Letter.SMALL, True)
    width = QFontMetricsF(font).horizontalAdvance(name) + 20
    left = max(x + 50, inside.left() + inside.width() * 0.6)
    path = QPainterPath(QPointF(left, top))
    path.lineTo(x + 10, top)
    path.quadTo(x, top, x, top + 10)
    path.lineTo(x, end)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(edge_pen(ink, 3))
    painter.drawPath(path)
    box = QRectF(left, top - 14, width, 28)
    painter.setPen(edge_pen(ink, look.emphasis))
    painter.setBrush(look.colour(Role.GROUND))
    painter.drawRoundedRect(box, RADIUS, RADIUS)
    painter.setFont(font)
    painter.setPen(ink)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, name)


class SectionDrawing(QWidget):
    """The section alone, with its axis of depth: for the sheet of the space."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view: SectionView | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(260, 240)

    def set_view(self, view: SectionView) -> None:
        """Draw this; a screen reader hears the same in words."""
        self._view = view
        self.setAccessibleName(say("desk.section", depth=f"{view.depth:g}", unit=view.unit))
        self.setAccessibleDescription(points_in_words(view))
        self.update()

    def sizeHint(self) -> QSize:
        """Enough for five points."""
        return QSize(320, 430)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Section at the left, axis at the right."""
        view = self._view
        if view is None or view.depth <= 0:
            return
        look = look_of(self).drawn
        painter = QPainter(self)
        area = QRectF(self.rect()).adjusted(0, 0, -52, 0)
        scale = DepthScale(view.depth, 58, self.height() - 42)
        paint_section(painter, area, scale, view, look)
        paint_axis(painter, self.width() - 4, scale, look)


def points_in_words(view: SectionView) -> str:
    """The points in words: tested with the time, not tested, never left out."""
    return "; ".join(_point_words(p) for p in sorted(view.points, key=lambda point: point.depth))


def _point_words(point: PointMark) -> str:
    if point.tested:
        return say("desk.point_tested", point=point.name, time=point.time)
    if point.old_words:
        return say("desk.point_old", point=point.name, words=point.old_words)
    return say("desk.point_not_tested", point=point.name)
