"""The pad for a signature in ink: strokes as points with times, by pen, finger or mouse; and a way without ink."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QPen, QSinglePointEvent, QTabletEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.button import Button
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Letter, Place, Role, look_of
from lamproom.words import say

Stroke = list[tuple[int, int, int]]
"""Points (x, y, milliseconds since the first): x and y in thousandths of the pad's width, so the shape is kept."""

_UNITS = 1000
_HIGH, _LEAST = 150, 120
"""Heights of a pad as it is wished, and as little as is given where room is short, pixels at 100 %."""


class Pad(QWidget):
    """The writing surface. Signal: ``written()`` at the end of each stroke. Touches come as Qt's mouse events."""

    written = Signal()

    def __init__(self, parent: QWidget | None = None, high: int = _HIGH) -> None:
        super().__init__(parent)
        self._high = high
        self._strokes: list[Stroke] = []
        self._writing = False
        self._by_key = False
        self._under = ""
        self._first = 0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_AcceptTouchEvents, False)
        self.setCursor(Qt.CursorShape.CrossCursor)

    def sizeHint(self) -> QSize:
        """Room for a name."""
        return QSize(392, look_of(self).px(self._high))

    def minimumSizeHint(self) -> QSize:
        """Smaller than this nobody can sign."""
        return QSize(240, look_of(self).px(min(self._high, _LEAST)))

    def strokes(self) -> list[Stroke]:
        """What was written: empty without ink."""
        return [list(stroke) for stroke in self._strokes]

    def set_strokes(self, strokes: list[Stroke]) -> None:
        """Show stored ink."""
        self._strokes = [list(stroke) for stroke in strokes]
        self.update()

    def set_under(self, text: str) -> None:
        """The line under the ink: who, as what, when."""
        self._under = text
        self.update()

    def under(self) -> str:
        """The line under the ink; none without ink, or an empty pad would look signed."""
        return self._under if self._strokes else ""

    def set_by_key(self, by_key: bool) -> None:
        """Without ink: the pad is closed and says so."""
        self._by_key = by_key
        self.setEnabled(not by_key)
        self.update()

    def clear(self) -> None:
        """Wipe the pad."""
        self._strokes = []
        self.update()

    def _begin(self, event: QSinglePointEvent) -> None:
        if not self._strokes:
            # The event's own time, in milliseconds of the input device: only differences are kept.
            self._first = event.timestamp()
        self._writing = True
        self._strokes.append([self._point(event)])
        self.update()

    def _go_on(self, event: QSinglePointEvent) -> None:
        point = self._point(event)
        if self._writing and self._strokes[-1][-1][:2] != point[:2]:
            self._strokes[-1].append(point)
            self.update()

    def _end(self, event: QSinglePointEvent) -> None:
        if self._writing:
            self._go_on(event)
            self._writing = False
            self.written.emit()

    def _point(self, event: QSinglePointEvent) -> tuple[int, int, int]:
        at = event.position()
        unit = _UNITS / max(self.width(), 1)
        across = round(min(max(at.x(), 0), self.width()) * unit)
        down = round(min(max(at.y(), 0), self.height()) * unit)
        return across, down, max(0, event.timestamp() - self._first)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A stroke begins."""
        if event.button() is Qt.MouseButton.LeftButton:
            self._begin(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The stroke goes on."""
        self._go_on(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The stroke ends."""
        self._end(event)

    def tabletEvent(self, event: QTabletEvent) -> None:
        """A pen writes with its own precision."""
        act = {
            QEvent.Type.TabletPress: self._begin,
            QEvent.Type.TabletMove: self._go_on,
            QEvent.Type.TabletRelease: self._end,
        }.get(event.type())
        if act:
            act(event)
        event.accept()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Edge, line to sign on, ink, who signs."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        width = look.edge()
        half = width / 2
        painter.setPen(edge_pen(look.colour(Role.EDGE), width, dashed=self._by_key))
        painter.setBrush(look.colour(Role.GROUND))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)
        base = self.height() - 12 - look.px(26)
        painter.setPen(QPen(look.colour(Role.HATCH), 1.5))
        painter.drawLine(QPointF(20, base), QPointF(self.width() - 20, base))
        draw_sign(painter, QRectF(18, base - 14, 11, 11), Sign.CROSS, look.theme, look.colour(Role.SECOND))
        painter.setFont(letter(look, Letter.SMALL))
        painter.setPen(look.colour(Role.SECOND))
        under = say("desk.ink_key_said") if self._by_key else self.under()
        painter.drawText(QRectF(20, base + 4, self.width() - 40, look.px(26)), Qt.AlignmentFlag.AlignVCenter, under)
        unit = self.width() / _UNITS
        painter.setPen(
            QPen(look.colour(Role.TEXT), 2.6, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin)
        )
        for stroke in self._strokes:
            points = [QPointF(x * unit, y * unit) for x, y, _ms in stroke]
            if len(points) == 1:
                painter.drawPoint(points[0])
            painter.drawPolyline(points)


class InkPad(QWidget):
    """A signature: the pad, Clear, and the way without ink for who cannot write on glass.

    Signals: ``written()`` after each stroke, ``cleared()``, ``by_key_chosen(bool)``.
    """

    written = Signal()
    cleared = Signal()
    by_key_chosen = Signal(bool)

    def __init__(
        self,
        name: str,
        *,
        place: Place = Place.TRAILER,
        by_key: bool = True,
        high: int = _HIGH,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.pad = Pad(high=high)
        self._clear = Button(say("desk.ink_clear"), place=place)
        self._key = Button(say("desk.ink_by_key"), place=place)
        self._by_key = False
        self._name = Label(size=Letter.SMALL, bold=True, wrap=True)
        top = QHBoxLayout()
        top.setSpacing(12)
        top.addWidget(self._name, 1)
        top.addWidget(Label(say("desk.ink_how"), Letter.SMALL, tone=Role.SECOND), 0, Qt.AlignmentFlag.AlignTop)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self._clear)
        row.addWidget(self._key)
        row.addStretch(1)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        page.addLayout(top)
        page.addWidget(self.pad)
        page.addLayout(row)
        self._key.setVisible(by_key)
        self._clear.clicked.connect(self.clear)
        self._key.clicked.connect(lambda _checked=False: self.set_by_key(not self._by_key))
        self.pad.written.connect(self.written)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.set_name(name)

    def set_name(self, name: str) -> None:
        """Whose signature it is."""
        self._name.setText(say("desk.ink_pad", name=name))
        self.pad.setAccessibleName(say("desk.ink_pad", name=name))
        self.setAccessibleName(say("desk.ink_pad", name=name))

    def strokes(self) -> list[Stroke]:
        """The ink; empty without any."""
        return self.pad.strokes()

    def signed_by_key(self) -> bool:
        """True when the way without ink was chosen."""
        return self._by_key

    def set_by_key(self, by_key: bool) -> None:
        """Choose the way without ink, or go back to the pad."""
        self._by_key = by_key
        self.pad.clear()
        self.pad.set_by_key(by_key)
        self._key.set_words(say("desk.ink_with_ink") if by_key else say("desk.ink_by_key"))
        self.by_key_chosen.emit(by_key)

    def clear(self) -> None:
        """Wipe the pad."""
        self.pad.clear()
        self.cleared.emit()
