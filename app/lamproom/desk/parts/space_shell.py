"""The shell of a space in section: shaft and vault in the ground, tank and silo on it, as wide and deep as they are."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPainterPathStroker

from lamproom.desk.parts.strokes import edge_pen, hatch
from lamproom.desk.theme import Look, Role

CONCRETE, STEEL = 13.0, 5.0
"""Thickness of walls in pixels: drawn to be seen, not to scale."""
_NARROWEST = 46.0
"""Room for a ladder and a hose."""
_NEARLY = 0.9
"""So near to its true width a space still counts as drawn to scale: a wall is as thick."""
_BURIED = ("vertical-shaft", "vault", "pit")
_CONE, _OUTLET = 0.74, 0.24
"""A silo's hopper begins so far down and ends so wide, as shares."""


@dataclass(frozen=True, slots=True)
class Shell:
    """Where a space stands on the picture. ``inside`` is the room between its walls, ``mouth`` its opening (left,
    right). ``true_width``: it is as wide as it is deep by one scale; False where shortened, None where widened."""

    shape: str
    inside: QRectF
    mouth: tuple[float, float]
    true_width: bool | None

    @property
    def buried(self) -> bool:
        """It lies in the ground; else it stands on it."""
        return self.shape in _BURIED

    @property
    def wall(self) -> float:
        """The thickness of its walls."""
        return CONCRETE if self.buried else STEEL

    def at(self, y: float) -> tuple[float, float]:
        """Where its walls stand at a height: left and right."""
        box, share = self.inside, (y - self.inside.top()) / max(self.inside.height(), 1.0)
        left, right = box.left(), box.right()
        if self.shape == "silo" and share > _CONE:
            narrow = (share - _CONE) / (1 - _CONE) * (1 - _OUTLET) * box.width() / 2
            return left + narrow, right - narrow
        if self.shape == "horizontal-tank":
            round_end = box.width() * 0.16
            away = min(abs(2 * share - 1), 1.0)
            in_from = round_end * (1 - sqrt(1 - away * away))
            return left + in_from, right - in_from
        return left, right

    def path(self) -> QPainterPath:
        """The outline of the room inside."""
        box, path = self.inside, QPainterPath()
        if self.shape == "silo":
            middle, outlet = box.center().x(), box.width() * _OUTLET / 2
            cone = box.top() + box.height() * _CONE
            path.moveTo(box.topLeft())
            for point in (
                box.topRight(),
                QPointF(box.right(), cone),
                QPointF(middle + outlet, box.bottom()),
                QPointF(middle - outlet, box.bottom()),
                QPointF(box.left(), cone),
            ):
                path.lineTo(point)
            path.closeSubpath()
        elif self.shape == "horizontal-tank":
            path.addRoundedRect(box, box.width() * 0.16, box.height() / 2)
        elif self.shape == "vertical-tank":
            path.addRoundedRect(box, 9, 9)
        else:
            path.addRect(box)
        return path


def shell_for(
    shape: str, room: QRectF, top: float, bottom: float, deep: float, across: float | None, opening: float
) -> Shell:
    """A shell in the room that there is from ``room.left()`` to ``room.right()``: as wide as ``across`` by the scale of
    depth, where that can be drawn. ``opening`` is the clear share of the width."""
    wanted = room.width() if across is None else across * (bottom - top) / deep
    wide = min(max(wanted, _NARROWEST), room.width())
    left = room.left() + (room.width() - wide) / 2
    inside = QRectF(left, top, wide, bottom - top)
    clear = min(max(wide * opening, 22.0), wide - 8)
    # Left of the middle where names stand on its right; right of it where only times stand in the space.
    middle = left + wide * (0.46 if wide >= 148 else 0.66 if wide >= 98 else 0.5)
    middle = min(max(middle, left + clear / 2 + 3), left + wide - clear / 2 - 3)
    true = True if wide >= wanted * _NEARLY and wanted >= wide * _NEARLY else False if wide < wanted else None
    return Shell(shape, inside, (middle - clear / 2, middle + clear / 2), true)


def paint_shell(painter: QPainter, area: QRectF, shell: Shell, look: Look) -> None:
    """Walls, ground, opening with its cover."""
    ink, quiet = look.colour(Role.TEXT), Role.TEXT if look.sun else Role.SECOND
    box, wall = shell.inside, shell.wall
    left, right = shell.mouth
    stroker = QPainterPathStroker()
    stroker.setWidth(2 * wall)
    stroker.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    ring = stroker.createStroke(shell.path()).united(shell.path()).subtracted(shell.path())
    gap = QPainterPath()
    gap.addRect(QRectF(left, box.top() - wall - 4, right - left, wall + 8))
    ring = ring.subtracted(gap)
    painter.save()
    painter.setClipPath(ring, Qt.ClipOperation.IntersectClip)
    if shell.buried:
        hatch(painter, ring.boundingRect(), look, quiet, 7)
    else:
        painter.fillRect(ring.boundingRect(), ink)
    painter.restore()
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(edge_pen(ink, look.emphasis))
    painter.drawPath(ring)
    _paint_ground(painter, area, shell, look, quiet)
    _paint_cover(painter, shell, look)


def _paint_ground(painter: QPainter, area: QRectF, shell: Shell, look: Look, role: Role) -> None:
    """The soil beside a shaft; below a tank the floor that it stands on."""
    box, wall = shell.inside, shell.wall
    painter.setPen(edge_pen(look.colour(role), look.line))
    if shell.buried:
        y = box.top() - wall
        spans = [(area.left(), box.left() - wall), (box.right() + wall, area.right())]
    else:
        y = box.bottom() + wall + (9 if shell.shape in ("silo", "horizontal-tank") else 1)
        spans = [(area.left(), area.right())]
        if shell.shape == "silo":
            for x in (box.left() + 2, box.right() - 2):
                painter.drawLine(QPointF(x, box.top() + box.height() * _CONE), QPointF(x, y))
        elif shell.shape == "horizontal-tank":
            for x in (box.left() + box.width() * 0.25, box.right() - box.width() * 0.25):
                painter.drawLine(QPointF(x - 8, y), QPointF(x - 5, box.bottom() + wall))
                painter.drawLine(QPointF(x + 8, y), QPointF(x + 5, box.bottom() + wall))
    for start, end in spans:
        painter.drawLine(QPointF(start, y), QPointF(end, y))
        for x in range(int(start) + 6, int(end), 9):
            painter.drawLine(QPointF(x, y), QPointF(x - 5, y + 6))


def _paint_cover(painter: QPainter, shell: Shell, look: Look) -> None:
    """The neck of the opening and its cover, laid open."""
    painter.setPen(edge_pen(look.colour(Role.TEXT), look.emphasis + 1))
    left, right = shell.mouth
    top = shell.inside.top() - shell.wall
    painter.drawLine(QPointF(left, top), QPointF(left, top - 7))
    painter.drawLine(QPointF(right, top), QPointF(right, top - 7))
    painter.drawLine(QPointF(left, top - 7), QPointF(left - 22, top - 28))
