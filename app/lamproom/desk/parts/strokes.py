"""Pens and hatches: a dashed edge means not current, a hatch means not allowed or not known."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF

from lamproom.desk.theme import Look, Role


def edge_pen(colour: QColor, width: float, dashed: bool = False) -> QPen:
    """A pen with square joins; dashes keep their length whatever the width."""
    pen = QPen(colour, width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap, Qt.PenJoinStyle.MiterJoin)
    if dashed:
        long, short = (4.0, 3.0) if width < 2 else (6.0, 4.0)
        pen.setDashPattern([long / width, short / width])
    return pen


def hatch(painter: QPainter, area: QRectF, look: Look, role: Role = Role.HATCH, step: float = 8) -> None:
    """Fill an area with slanting lines, aligned over the whole picture so that neighbours join."""
    if area.width() <= 0 or area.height() <= 0:
        return
    painter.save()
    painter.setClipRect(area, Qt.ClipOperation.IntersectClip)
    painter.setPen(QPen(look.colour(role), 2.0 if look.sun else 1.5))
    first = int((area.left() + area.top()) // step)
    last = int((area.right() + area.bottom()) // step) + 1
    lines = []
    for at in range(first, last + 1):
        total = at * step
        lines.append(QLineF(total - area.top(), area.top(), total - area.bottom(), area.bottom()))
    painter.drawLines(lines)
    painter.restore()


def hatch_shape(painter: QPainter, shape: QPolygonF, look: Look, role: Role = Role.HATCH, step: float = 8) -> None:
    """Hatch inside a polygon."""
    painter.save()
    path = QPainterPath()
    path.addPolygon(shape)
    path.closeSubpath()
    painter.setClipPath(path, Qt.ClipOperation.IntersectClip)
    hatch(painter, shape.boundingRect(), look, role, step)
    painter.restore()
