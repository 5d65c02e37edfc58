"""Letters that fit their place: shrunk until they do, never cut, so that no figure loses a digit."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter
from PySide6.QtWidgets import QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.theme import RADIUS, Letter, Look, Place, Role

LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
CENTRE = Qt.AlignmentFlag.AlignCenter
_LEAST = 13


def write(
    painter: QPainter,
    look: Look,
    room: QRectF,
    text: str,
    size: Letter | int,
    *,
    bold: bool = False,
    align: Qt.AlignmentFlag = LEFT,
    colour: QColor | None = None,
    wrap: bool = False,
    fixed: bool = False,
) -> float:
    """Write a text into its room, smaller where it would not fit; gives the width that its line took. ``fixed``: not
    scaled with the text (huge digits)."""
    if not text or room.width() <= 0 or room.height() <= 0:
        return 0.0
    plain = Look(look.theme) if fixed else look
    flags = int(align) | (Qt.TextFlag.TextWordWrap if wrap else 0)
    px = int(size)
    while px > _LEAST and not _fits(plain, px, bold, room, text, flags, wrap):
        px -= 1 if px < 40 else 2
    painter.setFont(letter(plain, px, bold))
    painter.setPen(colour if colour is not None else look.colour(Role.TEXT))
    painter.drawText(room, flags | Qt.TextFlag.TextDontClip, text)
    return QFontMetricsF(painter.font()).horizontalAdvance(text)


def _fits(look: Look, px: int, bold: bool, room: QRectF, text: str, flags: int, wrap: bool) -> bool:
    metrics = QFontMetricsF(letter(look, px, bold))
    if not wrap:
        lines = text.split("\n")
        wide = max(metrics.horizontalAdvance(line) for line in lines)
        return wide <= room.width() and len(lines) * metrics.capHeight() * 1.5 <= room.height() + 4
    taken = metrics.boundingRect(QRectF(0, 0, room.width(), 10_000), flags, text)
    return taken.height() <= room.height() + 2 and taken.width() <= room.width() + 1


def frame(
    painter: QPainter,
    widget: QWidget,
    look: Look,
    *,
    dashed: bool = False,
    fill: Role | None = None,
    edge: Role = Role.EDGE,
    heavy: bool = False,
) -> None:
    """The border of a tile, and its fill where the state has one."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    width = look.edge(Place.PORTAL) + (4 if heavy else 0)
    half = width / 2
    painter.setPen(edge_pen(look.colour(edge), width, dashed))
    painter.setBrush(look.colour(fill if fill is not None else Role.GROUND))
    painter.drawRoundedRect(QRectF(widget.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)
