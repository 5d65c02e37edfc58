"""The section through the space: its shell, ladder, today's liquid, points of the test, the hose, where vapors tend."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.depth_scale import DepthScale, paint_axis, spread
from lamproom.desk.parts.space_shell import CONCRETE, Shell, paint_shell, shell_for
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Letter, Look, Role, look_of
from lamproom.words import say

_TENDS, _BARE = 46.0, 10.0
"""Room at the left for where each vapor tends, and where nothing is said of it."""
_BOTH, _NAMES = 100.0, 52.0
"""Room at the right of a space for names and times, and for names alone."""
_WIDE, _MIDDLE = 148.0, 98.0
"""So wide a space has room for the names of its points and their times, or for the times alone."""
_APART, _LEAST = 34.0, 96.0
"""Points are so far apart and a space so high, in pixels, where it is drawn lower to be as wide as it is."""


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
class TendMark:
    """Where a vapor tends in still air: its short name, its density against air, the sign of it (RISING for lighter,
    STEADY for like air, FALLING for heavier), and all of it in words."""

    name: str
    density: str
    sign: Sign
    words: str


@dataclass(frozen=True, slots=True)
class SectionView:
    """What the section shows. Depths are below the portal, in the unit of the space.

    ``shape`` and ``across`` as registered; ``across`` None for a width that nobody stated.
    ``liquid``: depth of today's surface, None for a dry space; ``liquid_words`` stand under the floor.
    ``opening``: share of the width of the space that is open at the top, 0 to 1.
    ``inlet``: depth of a pipe in the left wall, None for none. ``instrument``: what the hose ends in.
    ``tends`` at the side, with ``caution`` under the floor.
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
    shape: str = "vertical-shaft"
    across: float | None = None
    tends: tuple[TendMark, ...] = ()
    caution: str = ""


def depth_scale(view: SectionView, area: QRectF, top: float, bottom: float) -> DepthScale:
    """The scale of depth: all the height there is, or less where the space is so wide that it would look narrow."""
    full = bottom - top
    if view.across and view.depth > 0:
        wide = _room(view, area).width() / view.across * view.depth
        depths = sorted(point.depth for point in view.points)
        gaps = [b - a for a, b in pairwise(depths) if b > a]
        read = max(_APART / min(gaps) * view.depth if gaps else _LEAST, _LEAST)
        full = min(full, max(wide, read))
    return DepthScale(view.depth, top, top + full)


def _room(view: SectionView, area: QRectF, beside: float = 0.0) -> QRectF:
    longest = max((len(one.name) for one in view.tends), default=0)
    left = area.left() + (max(_TENDS, 15 + 8.0 * longest) if view.tends else _BARE) + CONCRETE
    return QRectF(left, area.top(), area.right() - beside - CONCRETE - left, area.height())


def _shell(view: SectionView, area: QRectF, scale: DepthScale) -> Shell:
    """The space between its walls, with room beside a narrow one for what is said of its points."""
    wanted = view.across * scale.y(1) - view.across * scale.y(0) if view.across else area.width()
    for least, beside in ((_WIDE, 6.0), (_MIDDLE, _NAMES), (0.0, _BOTH)):
        room = _room(view, area, beside)
        if min(wanted, room.width()) >= least:
            break
    return shell_for(view.shape, room, scale.top, scale.y(view.depth), view.depth, view.across, view.opening)


def paint_section(painter: QPainter, area: QRectF, scale: DepthScale, view: SectionView, look: Look) -> None:
    """Draw the section into ``area``; its top strip (above ``scale.top``) holds the instrument and the cover."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    shell = _shell(view, area, scale)
    paint_shell(painter, area, shell, look)
    if view.inlet is not None:
        _paint_inlet(painter, shell.inside, scale.y(view.inlet), look)
    if view.ladder:
        _paint_ladder(painter, shell, look)
    if view.liquid is not None:
        _paint_liquid(painter, shell, scale.y(view.liquid), look)
    _paint_points(painter, area, shell, scale, view, look)
    _paint_tends(painter, area, scale, view, look)
    _paint_foot(painter, area, shell, view, look)
    painter.restore()


def _paint_inlet(painter: QPainter, inside: QRectF, y: float, look: Look) -> None:
    pipe = QRectF(inside.left() - 16, y - 13, 26, 26)
    painter.setPen(edge_pen(look.colour(Role.TEXT), look.emphasis))
    painter.setBrush(look.colour(Role.GROUND))
    painter.drawRect(pipe)
    painter.fillRect(QRectF(pipe.right(), y - 18, 4, 36), look.colour(Role.TEXT))


def _paint_ladder(painter: QPainter, shell: Shell, look: Look) -> None:
    painter.setPen(edge_pen(look.colour(Role.TEXT if look.sun else Role.SECOND), look.line))
    # At the left, clear of the names of the points; as deep as the wall stands upright.
    inside = shell.inside
    wide = 12 if inside.width() > 90 else 8
    foot = inside.bottom()
    while foot > inside.top() and shell.at(foot)[0] > inside.left() + 4:
        foot -= 2
    head = inside.top() + 2
    if shell.shape == "horizontal-tank":  # round: it hangs in the opening
        left = shell.mouth[0] + 2
        foot, head = inside.bottom(), inside.top() - 4
    else:
        left = inside.left() + 5
    right = left + wide
    painter.drawLine(QPointF(left, head), QPointF(left, foot))
    painter.drawLine(QPointF(right, head), QPointF(right, foot))
    y = head + 12
    while y < foot - 4:
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        y += 13


def _paint_liquid(painter: QPainter, shell: Shell, y: float, look: Look) -> None:
    """Its surface from wall to wall, with the strokes that mean liquid."""
    left, right = shell.at(y)
    painter.setPen(edge_pen(look.colour(Role.TEXT), look.emphasis))
    painter.drawLine(QPointF(left, y), QPointF(right, y))
    painter.setPen(edge_pen(look.colour(Role.TEXT if look.sun else Role.SECOND), look.line))
    floor = shell.inside.bottom() - 1
    at, half = y + 5, (right - left) * 0.4
    while at < floor and half > 2:
        wall_left, wall_right = shell.at(at)
        middle = (wall_left + wall_right) / 2
        half = min(half, (wall_right - wall_left) / 2 - 4)
        painter.drawLine(QPointF(middle - half, at), QPointF(middle + half, at))
        at, half = at + 6, half * 0.72


def _paint_points(
    painter: QPainter, area: QRectF, shell: Shell, scale: DepthScale, view: SectionView, look: Look
) -> None:
    ink, second = look.colour(Role.TEXT), look.colour(Role.TEXT if look.sun else Role.SECOND)
    points = sorted(view.points, key=lambda point: point.depth)
    inside, wall = shell.inside, shell.wall
    hose = (shell.mouth[0] + shell.mouth[1]) / 2 + (6 if shell.shape == "horizontal-tank" else 0)
    for point in points:
        painter.setPen(QPen(second, 1.2, Qt.PenStyle.DotLine))
        painter.drawLine(QPointF(hose, scale.y(point.depth)), QPointF(area.right(), scale.y(point.depth)))
    reached = max((p.depth for p in points if p.tested or p.current), default=0.0)
    if view.instrument:
        _paint_hose(painter, area, shell, hose, scale.y(reached), view.instrument, look)
    # Names in a wide space, else beside it; the time left of the hose, or after the name beside a narrow space.
    wide, narrow = inside.width() >= _WIDE, inside.width() < _MIDDLE
    name_x = hose + 14 if wide else inside.right() + wall + 5
    high = 17.0
    lift = -3 if wide else 5
    names = spread([scale.y(p.depth) + lift for p in points], high, scale.top + high, scale.bottom + 5)
    times = (
        names if narrow else spread([scale.y(p.depth) + 6 for p in points], high, scale.top + high, scale.bottom + 8)
    )
    bold = QFontMetricsF(letter(look, Letter.SMALL, True))
    plain = QFontMetricsF(letter(look, Letter.SMALL))
    column = max((bold.horizontalAdvance(p.name) for p in points), default=0.0)
    for point, name_y, time_y in zip(points, names, names if narrow else times, strict=True):
        mark = QPointF(hose, scale.y(point.depth))
        painter.setPen(edge_pen(ink, 3 if point.current else 2))
        painter.setBrush(ink if point.tested and not point.current else look.colour(Role.GROUND))
        radius = 6.0 if point.current else 5.0
        painter.drawEllipse(mark, radius, radius)
        _words(painter, QPointF(name_x, name_y), point.name, look, bold=True)
        said = point.time or point.old_time
        if said:
            room = area.right() - name_x - column - 7 if narrow else hose - 14 - inside.left() - 18
            cut = " " in said and plain.horizontalAdvance(said) > room
            said = said.split(" ")[0] if cut else said
            x = name_x + column + 7 if narrow else hose - 14 - plain.horizontalAdvance(said)
            _words(painter, QPointF(x, time_y), said, look, bold=False, struck=not point.tested)
            if cut:  # it does not count, and there is no room for the word that says why: the plan above has it
                left = x + plain.horizontalAdvance(said) + 5 if narrow else x - 19
                painter.fillRect(QRectF(left - 1, time_y - 13, 17, 16), look.colour(Role.GROUND))
                draw_sign(painter, QRectF(left, time_y - 12, 15, 15), Sign.CAUTION, look.theme)


def _paint_tends(painter: QPainter, area: QRectF, scale: DepthScale, view: SectionView, look: Look) -> None:
    """Lighter vapors at the top of the left side, those like air in the middle, heavier ones at the floor: the sign and
    the formula, below them the density."""
    font = letter(look, Letter.TICK)
    line = QFontMetricsF(font).height() - 3
    painter.setFont(font)
    quiet = look.colour(Role.TEXT if look.sun else Role.SECOND)
    ways = (Sign.RISING, Sign.STEADY, Sign.FALLING)
    marks = [one for way in ways for one in view.tends if one.sign is way]
    each = 2 * line + 3
    groups = {way: sum(one.sign is way for one in marks) for way in ways}
    middle = (scale.top + scale.bottom) / 2 - each * groups[Sign.STEADY] / 2
    tops = {Sign.RISING: scale.top + 4, Sign.STEADY: middle, Sign.FALLING: scale.bottom - each * groups[Sign.FALLING]}
    wanted = [tops[one.sign] + each * [m for m in marks if m.sign is one.sign].index(one) for one in marks]
    for one, y in zip(marks, spread(wanted, each, scale.top + 2, scale.bottom - each + 6), strict=True):
        draw_sign(painter, QRectF(area.left(), y + line / 2 - 5, 11, 11), one.sign, look.theme, quiet)
        painter.setPen(quiet)
        for row, words in enumerate((one.name, one.density)):
            painter.drawText(QPointF(area.left() + 13, y + line * (row + 1) - 3), words)


def _paint_foot(painter: QPainter, area: QRectF, shell: Shell, view: SectionView, look: Look) -> None:
    """Under the floor: today's level and how wide the space is, and that gases mix."""
    painter.setFont(letter(look, Letter.SMALL))
    painter.setPen(look.colour(Role.TEXT))
    y = shell.inside.bottom() + (14 if shell.buried else 17) + look.px(15)
    wide = ""
    if view.across is not None:
        key = {True: "desk.across", None: "desk.across_widened", False: "desk.across_shortened"}[shell.true_width]
        wide = say(key, across=f"{view.across:g}", unit=view.unit)
    words = ", ".join(part for part in (view.liquid_words, wide) if part)
    metrics = QFontMetricsF(painter.font())
    if metrics.horizontalAdvance(words) > area.width():
        painter.setFont(letter(look, Letter.TICK))
    painter.drawText(QPointF(area.left(), y), words)
    if view.caution:
        painter.setFont(letter(look, Letter.TICK))
        painter.setPen(look.colour(Role.TEXT if look.sun else Role.SECOND))
        painter.drawText(QPointF(area.left(), y + look.px(14)), view.caution)


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


def _paint_hose(painter: QPainter, area: QRectF, shell: Shell, x: float, end: float, name: str, look: Look) -> None:
    ink = look.colour(Role.TEXT)
    top = shell.inside.top() - shell.wall - 20
    font = letter(look, Letter.SMALL, True)
    width = QFontMetricsF(font).horizontalAdvance(name) + 20
    left = max(min(max(x + 34, shell.mouth[1] + 14), area.right() - width - 46), x + 22)
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
        scale = depth_scale(view, area, 58, self.height() - 48)
        paint_section(painter, area, scale, view, look)
        paint_axis(painter, self.width() - 4, scale, look)


def points_in_words(view: SectionView) -> str:
    """The points in words: tested with the time, not tested, never left out; then where each vapor tends."""
    points = [_point_words(p) for p in sorted(view.points, key=lambda point: point.depth)]
    return "; ".join((*points, *(one.words for one in view.tends), *((view.caution,) if view.caution else ())))


def _point_words(point: PointMark) -> str:
    if point.tested:
        return say("desk.point_tested", point=point.name, time=point.time)
    if point.old_words:
        return say("desk.point_old", point=point.name, words=point.old_words)
    return say("desk.point_not_tested", point=point.name)
