"""Depth below the portal, true to scale: one scale for the section and for every gas beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from lamproom.desk.fonts import letter
from lamproom.desk.theme import Letter, Look, Role


@dataclass(frozen=True, slots=True)
class DepthScale:
    """Metres or feet below the portal onto pixels: 0 at ``top``, ``deepest`` at ``bottom``."""

    deepest: float
    top: float
    bottom: float

    def y(self, depth: float) -> float:
        """The height on the picture of a depth."""
        return self.top + (self.bottom - self.top) * depth / self.deepest

    @property
    def step(self) -> float:
        """The distance of two figures on the axis, chosen so that they are 40 px or more apart."""
        unit = (self.bottom - self.top) / self.deepest
        for step in (0.5, 1, 2, 5, 10, 20, 50, 100):
            if step * unit >= 40:
                return float(step)
        return 200.0


def spread(wanted: Sequence[float], apart: float, low: float, high: float) -> list[float]:
    """Heights for labels near those wanted, in their order, at least ``apart`` px apart, between low and high; closer
    where there is no room for all.

    Only labels move; the marks stay at their true depth.
    """
    apart = min(apart, (high - low) / max(len(wanted) - 1, 1))
    placed: list[float] = []
    for y in wanted:
        placed.append(max(y, placed[-1] + apart if placed else low))
    limit = high
    for at in range(len(placed) - 1, -1, -1):
        placed[at] = min(placed[at], limit)
        limit = placed[at] - apart
    return placed


def paint_axis(painter: QPainter, x: float, scale: DepthScale, look: Look) -> None:
    """The ruled line of depth, figures at its left."""
    painter.setPen(QPen(look.colour(Role.TEXT if look.sun else Role.SECOND), look.line))
    painter.drawLine(QPointF(x, scale.top), QPointF(x, scale.bottom))
    painter.setFont(letter(look, Letter.SMALL))
    fifth = scale.step / 5
    count = floor(scale.deepest / fifth + 1e-6)
    for at in range(count + 1):
        y = scale.y(at * fifth)
        major = at % 5 == 0
        painter.drawLine(QPointF(x - (8 if major else 4), y), QPointF(x, y))
        if major:
            box = QRectF(x - 60, y - 12, 48, 24)
            painter.drawText(
                box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, f"{at // 5 * scale.step:g}"
            )
