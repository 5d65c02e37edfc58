"""The air test in one picture: section, depth and every gas on the same horizontals; and the wait at a point."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.depth_scale import DepthScale, paint_axis, spread
from lamproom.desk.parts.gas_columns import FOOT, HEAD, Found, GasColumn, column_areas, paint_column
from lamproom.desk.parts.section_drawing import SectionView, depth_scale, paint_section, points_in_words
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Role, look_of
from lamproom.words import say

_AXIS, _LEGEND, _LEGEND_UNDER = 58.0, 4.0, 22.0
_OFF = 10.0
"""How far left of the columns the axis of depth stands."""


@dataclass(frozen=True, slots=True)
class WaitView:
    """The wait at a point: what is left ("0:33"), its parts (name, seconds) in order, seconds gone by."""

    depth: float
    left: str
    point: str
    parts: tuple[tuple[str, float], ...]
    gone: float


class AirPicture(QWidget):
    """Section and gas columns. Arrow keys or a press choose a value.

    Signal: ``point_chosen(str, str)``: key of the gas, the value's depth ("2.7").
    """

    point_chosen = Signal(str, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._section: SectionView | None = None
        self._columns: tuple[GasColumn, ...] = ()
        self._wait: WaitView | None = None
        self._chosen: tuple[str, float] | None = None
        self.legend = ""
        self._places: list[tuple[str, QRectF, Found]] = []
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(600, 300)
        self.setAccessibleName(say("desk.air_picture"))

    def set_air(self, section: SectionView, columns: Sequence[GasColumn], legend: str = "") -> None:
        """Draw this, with what struck figures mean in ``legend``; the choice stays where its value is still there."""
        self._section, self._columns, self.legend = section, tuple(columns), legend
        known = {(gas.key, found.depth) for gas in self._columns for found in gas.values}
        if self._chosen not in known:
            self._chosen = None
        self.setAccessibleDescription(self.summary())
        self.update()

    def set_wait(self, wait: WaitView | None) -> None:
        """The wait at a point, or none."""
        self._wait = wait
        self.update()

    def summary(self) -> str:
        """All of the picture in words: points, then each gas with its values and limit."""
        said = [points_in_words(self._section)] if self._section else []
        for gas in self._columns:
            values = ", ".join(
                say("desk.value_at", value=found.text, depth=f"{found.depth:g}", unit=self._section.unit)
                for found in gas.values
                if self._section
            )
            said.append(
                say("desk.gas_summary", gas=gas.name, unit=gas.unit, values=values or say("desk.none"), limit=gas.limit)
            )
        return ". ".join(said)

    def choose(self, key: str, depth: float) -> None:
        """Ring a value and say so."""
        self._chosen = (key, depth)
        self.update()
        self.point_chosen.emit(key, f"{depth:g}")

    def sizeHint(self) -> QSize:
        """The stage of the workbook."""
        return QSize(722, 430)

    def _legend_room(self) -> float:
        """Height that the legend takes beside the limits: more where one of them says that its scale was widened."""
        if not self.legend:
            return 0.0
        return _LEGEND_UNDER if any(gas.ends()[2] for gas in self._columns) else _LEGEND

    def _geometry(self) -> tuple[QRectF, DepthScale, QRectF]:
        section = QRectF(0, 0, self.width() * 0.36, self.height())
        top, bottom = max(HEAD, 58.0), self.height() - FOOT - self._legend_room()
        scale = DepthScale(1.0, top, bottom)
        if self._section is not None and self._section.depth > 0:
            scale = depth_scale(self._section, section.adjusted(0, 0, -6, 0), top, bottom)
        left = section.right() + _AXIS
        return section, scale, QRectF(left, 0, self.width() - left - 4, self.height())

    def strip(self, depth: float) -> QRect:
        """The place beside a depth where its numbers go: for fields laid over the columns, 52 px high."""
        _section, scale, columns = self._geometry()
        y = min(max(scale.y(depth) - 26, scale.top), scale.bottom - 52)
        return QRectF(columns.left() - 2, y, columns.width() + 4, 52).toRect()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Section, axis, columns, strips of what is untested, the wait on top."""
        view = self._section
        if view is None:
            return
        look = look_of(self).drawn
        painter = QPainter(self)
        section, scale, columns = self._geometry()
        paint_section(painter, section.adjusted(0, 0, -6, 0), scale, view, look)
        painter.setFont(letter(look, Letter.SMALL, True))
        painter.setPen(look.colour(Role.TEXT))
        title = QRectF(section.right() - 40, scale.top - 56, _AXIS + 34, 40)
        flags = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom | Qt.TextFlag.TextWordWrap
        painter.drawText(title, flags, say("desk.below_portal", unit=view.unit))
        paint_axis(painter, columns.left() - _OFF, scale, look)
        untested = tuple(point.depth for point in view.points if not point.tested)
        self._places = []
        for gas, area in zip(self._columns, column_areas(columns, len(self._columns)), strict=True):
            chosen = self._chosen[1] if self._chosen and self._chosen[0] == gas.key else None
            # The legend stands where the density would; the side of the section says it as well.
            gas = replace(gas, weight="", weight_sign=None) if self.legend else gas
            places = paint_column(painter, area, scale, gas, look, untested, chosen)
            self._places += [(gas.key, box, found) for box, found in places]
        self._paint_untested(painter, scale, columns, look)
        self._paint_legend(painter, columns, look)
        if self._wait:
            self._paint_wait(painter, self._wait, look)

    def _paint_untested(self, painter: QPainter, scale: DepthScale, columns: QRectF, look: Look) -> None:
        if self._section is None:
            return
        waits = self._wait.depth if self._wait else None
        open_points = [point for point in self._section.points if not point.tested and point.depth != waits]
        # Labels keep clear of the heads and of each other; their rings stay at the true depth.
        rows = spread([scale.y(point.depth) for point in open_points], 23, scale.top + 12, scale.bottom - 12)
        closest = min((b - a for a, b in pairwise(rows)), default=23.0)
        half = min(11.0, closest / 2 - 0.5)
        for point, y in zip(open_points, rows, strict=True):
            box = QRectF(columns.left() - 1, y - half, columns.width() + 2, 2 * half)
            painter.fillRect(box, look.colour(Role.GROUND))
            painter.setPen(edge_pen(look.colour(Role.TEXT), look.line, dashed=True))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(box)
            # On the axis of depth: a ring among the scales would look like a reading.
            painter.setBrush(look.colour(Role.GROUND))
            painter.setPen(edge_pen(look.colour(Role.TEXT), 2))
            painter.drawEllipse(QPointF(columns.left() - _OFF, scale.y(point.depth)), 5, 5)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            if point.old_time:
                self._paint_old(painter, point.depth, box, columns, look)
                continue
            painter.setFont(letter(look, Letter.SMALL))
            painter.setPen(look.colour(Role.TEXT))
            words = say("desk.point_not_tested", point=point.name)
            painter.drawText(box.adjusted(12, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, words)

    def _paint_old(self, painter: QPainter, depth: float, box: QRectF, columns: QRectF, look: Look) -> None:
        """The figures of a point that was not read since the air changed: grey and struck, each under its gas. One that
        was past its limit keeps the sign for it, which is not struck."""
        font = letter(look, Letter.SMALL)
        font.setStrikeOut(True)
        painter.setFont(font)
        painter.setPen(look.colour(Role.TEXT if look.sun else Role.SECOND))
        for gas, area in zip(self._columns, column_areas(columns, len(self._columns)), strict=True):
            found = next((one for one in gas.old if one.depth == depth), None)
            if found is None:
                continue
            place = QRectF(area.left(), box.top(), area.width(), box.height())
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, found.text)
            if found.outside:
                wide = QFontMetricsF(font).horizontalAdvance(found.text)
                left = max(area.left(), area.center().x() - wide / 2 - 22)
                draw_sign(painter, QRectF(left, box.center().y() - 8, 16, 16), Sign.DANGER, look.theme)

    def _paint_legend(self, painter: QPainter, columns: QRectF, look: Look) -> None:
        """What the struck figures mean, under the limits; smaller where the columns are narrow."""
        room = QRectF(columns.left() - 6, self.height() - 22, columns.width() + 10, 22)
        font = letter(look, Letter.SMALL)
        if QFontMetricsF(font).horizontalAdvance(self.legend) > room.width():
            font = letter(look, Letter.TICK)
        painter.setFont(font)
        painter.setPen(look.colour(Role.TEXT))
        painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, self.legend)

    def _paint_wait(self, painter: QPainter, wait: WaitView, look: Look) -> None:
        box = QRectF(self.strip(wait.depth)).adjusted(1, 1, -1, -1)
        ink = look.colour(Role.TEXT)
        painter.fillRect(box, look.colour(Role.GROUND))
        painter.setPen(edge_pen(ink, 2.5))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box)
        big = letter(look, Letter.BIG, True)
        painter.setFont(big)
        wide = QFontMetricsF(big).horizontalAdvance(wait.left)
        painter.setPen(ink)
        painter.drawText(QPointF(box.left() + 10, box.center().y() + 11), wait.left)
        x = box.left() + 16 + wide
        small = letter(look, Letter.SMALL, True)
        painter.setFont(small)
        painter.drawText(QPointF(x, box.center().y() - 4), wait.point)
        painter.setFont(letter(look, Letter.SMALL))
        painter.drawText(QPointF(x, box.center().y() + 16), say("desk.wait"))
        x += max(QFontMetricsF(small).horizontalAdvance(wait.point), 34) + 12
        self._paint_fill(painter, QRectF(x, box.top() + 9, box.right() - x - 12, 12), wait, look)

    def _paint_fill(self, painter: QPainter, bar: QRectF, wait: WaitView, look: Look) -> None:
        total = sum(seconds for _name, seconds in wait.parts) or 1.0
        ink = look.colour(Role.TEXT)
        done = bar.width() * min(1.0, wait.gone / total)
        painter.fillRect(QRectF(bar.left(), bar.top(), done, bar.height()), ink)
        painter.setPen(edge_pen(ink, 1.5))
        painter.drawRect(bar)
        painter.setFont(letter(look, Letter.SMALL))
        x = bar.left()
        for name, seconds in wait.parts:
            wide = bar.width() * seconds / total
            painter.setPen(edge_pen(ink, 1.5))
            painter.drawLine(QPointF(x, bar.top()), QPointF(x, bar.bottom() + 4))
            painter.setPen(look.colour(Role.TEXT))
            painter.drawText(QRectF(x, bar.bottom() + 2, wide, 20), Qt.AlignmentFlag.AlignCenter, name)
            x += wide

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press near a value chooses it."""
        for key, box, found in self._places:
            if box.contains(event.position()):
                self.choose(key, found.depth)
                return
        super().mousePressEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and right go from gas to gas, up and down from depth to depth."""
        step = {
            Qt.Key.Key_Left: (-1, 0),
            Qt.Key.Key_Right: (1, 0),
            Qt.Key.Key_Up: (0, -1),
            Qt.Key.Key_Down: (0, 1),
        }.get(Qt.Key(event.key()))
        if step is None or not any(gas.values for gas in self._columns):
            super().keyPressEvent(event)
            return
        self._walk(*step)

    def _walk(self, across: int, down: int) -> None:
        filled = [gas for gas in self._columns if gas.values]
        keys = [gas.key for gas in filled]
        if self._chosen is None or self._chosen[0] not in keys:
            self.choose(keys[0], min(found.depth for found in filled[0].values))
            return
        column = min(max(keys.index(self._chosen[0]) + across, 0), len(keys) - 1)
        depths = sorted(found.depth for found in filled[column].values)
        nearest = min(range(len(depths)), key=lambda at: abs(depths[at] - self._chosen[1]))  # type: ignore[index]
        self.choose(keys[column], depths[min(max(nearest + down, 0), len(depths) - 1)])
