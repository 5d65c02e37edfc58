"""The signs, drawn by one function in a square of 24 units: shape after ISO 7010 and ISO 3864, never a letter alone.

A sign always stands with its word; colour only adds to the shape.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from lamproom.desk.theme import Look, Role, Theme, look_of

_UNIT = 24.0
_LINE = 2.2


class Sign(Enum):
    """Every sign, by what it says."""

    DANGER = "danger, everyone out"
    CAUTION = "late or misleading"
    MUST = "must do"
    WITHIN = "within limits, complete"
    ALLOWED = "entry allowed"
    REFUSED = "entry barred"
    SOME_OPEN = "some open"
    NOT_STARTED = "not started"
    DRAFT = "draft"
    DUE = "due"
    SUSPENDED = "suspended"
    ENDED = "ended early"
    CLOSED_OUT = "closed out"
    FAULT = "fault"
    NOT_MEASURED = "not measured"
    GO_IN = "goes in"
    GO_OUT = "comes out"
    RISING = "rising"
    FALLING = "falling"
    STEADY = "steady"
    RIGHT = "leads to"
    LEFT = "leads back"
    TICK = "yes"
    CROSS = "no"
    EQUAL = "does not apply"
    PLUS = "add"
    PERSON = "person"
    RADIO = "radio"
    CLOCK = "clock"
    PEN = "pen"
    SHEET = "sheet"
    BELL = "sound"
    SUN = "theme"
    BACKSPACE = "delete the last digit"
    DOWN = "list"
    LAMP = "Lamproom"


class _Hand:
    """A painter in units of the sign's square, with the colours of its theme, or one ink on a filled ground."""

    def __init__(self, painter: QPainter, look: Look, ink: QColor | None) -> None:
        self.painter = painter
        self.look = look
        self.over = ink
        self.ink = ink or look.colour(Role.TEXT)

    def colour(self, role: Role) -> QColor:
        return self.over or self.look.colour(role)

    def pen(self, colour: QColor | None = None, width: float = _LINE, dash: tuple[float, ...] = ()) -> None:
        pen = QPen(colour or self.ink, width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap, Qt.PenJoinStyle.MiterJoin)
        if dash:
            pen.setDashPattern([part / width for part in dash])
        self.painter.setPen(pen)
        self.painter.setBrush(Qt.BrushStyle.NoBrush)

    def fill(self, colour: QColor | None = None) -> None:
        self.painter.setPen(Qt.PenStyle.NoPen)
        self.painter.setBrush(QBrush(colour or self.ink))

    def lines(self, *points: tuple[float, float]) -> None:
        self.painter.drawPolyline([QPointF(x, y) for x, y in points])

    def shape(self, *points: tuple[float, float]) -> None:
        self.painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in points]))

    def ring(self, radius: float, x: float = 12, y: float = 12) -> None:
        self.painter.drawEllipse(QPointF(x, y), radius, radius)

    def box(self, x: float, y: float, w: float, h: float) -> None:
        self.painter.drawRect(QRectF(x, y, w, h))

    def mark(self, colour: QColor, top: float, height: float) -> None:
        """The exclamation mark, drawn: a bar and its point."""
        self.fill(colour)
        self.box(10.7, top, 2.6, height)
        self.box(10.7, top + height + 1.5, 2.6, 2.6)


def _signal(
    h: _Hand, fill: Role, label: Role, edge: Role, outline: Callable[[], None], top: float, long: float
) -> None:
    if h.over:
        h.pen(width=1.9)
        outline()
        h.mark(h.over, top, long)
        return
    h.pen(h.look.colour(edge), 1.4)
    h.painter.setBrush(h.look.colour(fill))
    outline()
    h.mark(h.look.colour(label), top, long)


def _danger(h: _Hand) -> None:
    corners = ((7.6, 1.4), (16.4, 1.4), (22.6, 7.6), (22.6, 16.4), (16.4, 22.6), (7.6, 22.6), (1.4, 16.4), (1.4, 7.6))
    _signal(h, Role.DANGER, Role.DANGER_LABEL, Role.DANGER_EDGE, lambda: h.shape(*corners), 6.2, 7.4)


def _caution(h: _Hand) -> None:
    _signal(
        h, Role.CAUTION, Role.CAUTION_LABEL, Role.CAUTION_EDGE, lambda: h.shape((12, 2), (23, 21.8), (1, 21.8)), 9, 6
    )


def _must(h: _Hand) -> None:
    _signal(h, Role.MUST, Role.MUST_LABEL, Role.MUST, lambda: h.ring(10.3), 6.2, 7.4)


def _within(h: _Hand) -> None:
    h.pen(h.colour(Role.WITHIN), 3)
    h.lines((3, 12.6), (9.2, 18.8), (21, 5.6))


def _allowed(h: _Hand) -> None:
    h.pen(h.colour(Role.WITHIN))
    h.ring(10.3)
    h.pen(h.colour(Role.WITHIN), 2.8)
    h.lines((6.6, 12.4), (10.6, 16.4), (17.4, 8.2))


def _refused(h: _Hand) -> None:
    h.pen()
    h.ring(10.3)
    h.fill()
    h.box(6.4, 10.6, 11.2, 2.8)


def _some_open(h: _Hand) -> None:
    h.pen()
    h.ring(10.3)
    h.fill()
    h.painter.drawPie(QRectF(5, 5, 14, 14), -90 * 16, 180 * 16)


def _not_started(h: _Hand) -> None:
    h.pen()
    h.ring(10.3)


def _draft(h: _Hand) -> None:
    h.pen(dash=(4.05, 4.05))
    h.ring(10.3)


def _due(h: _Hand) -> None:
    h.pen()
    h.ring(10.3)
    h.fill()
    h.painter.drawPie(QRectF(4.4, 4.4, 15.2, 15.2), 0, 90 * 16)


def _frame(h: _Hand) -> None:
    h.pen()
    h.box(2.6, 2.6, 18.8, 18.8)


def _suspended(h: _Hand) -> None:
    _frame(h)
    h.fill()
    h.box(8, 7, 2.8, 10)
    h.box(13.2, 7, 2.8, 10)


def _ended(h: _Hand) -> None:
    _frame(h)
    h.pen()
    h.lines((7.6, 7.6), (16.4, 16.4))
    h.lines((16.4, 7.6), (7.6, 16.4))


def _closed_out(h: _Hand) -> None:
    _frame(h)
    h.fill()
    h.box(2.6, 12, 18.8, 9.4)


def _fault(h: _Hand) -> None:
    _frame(h)
    h.fill()
    h.shape((13.4, 5.6), (7, 13.2), (11.2, 13.2), (10.2, 18.6), (17, 10.8), (12.6, 10.8))


def _not_measured(h: _Hand) -> None:
    h.pen(dash=(3.8, 3.7))
    h.box(2.6, 2.6, 18.8, 18.8)
    h.pen()
    path = QPainterPath(QPointF(8.4, 9.2))
    path.cubicTo(8.4, 4.9, 15.8, 5, 15.6, 9.2)
    path.cubicTo(15.6, 11.8, 12, 11.4, 12, 14.8)
    h.painter.drawPath(path)
    h.fill()
    h.box(10.8, 16.3, 2.4, 2.4)


def _go_in(h: _Hand) -> None:
    h.pen()
    h.lines((11, 2.6), (20.4, 2.6), (20.4, 21.4), (11, 21.4))
    h.lines((1.6, 12), (15.4, 12))
    h.lines((10.6, 7), (15.6, 12), (10.6, 17))


def _go_out(h: _Hand) -> None:
    h.pen()
    h.lines((12, 2.6), (2.6, 2.6), (2.6, 21.4), (12, 21.4))
    h.lines((7.6, 12), (21.6, 12))
    h.lines((16.8, 7), (21.8, 12), (16.8, 17))


def _arrow(h: _Hand, turn: float) -> None:
    h.painter.translate(12, 12)
    h.painter.rotate(turn)
    h.pen()
    h.lines((-9.4, 0), (9, 0))
    h.lines((3.6, -5.6), (9.2, 0), (3.6, 5.6))


def _steady(h: _Hand) -> None:
    h.pen()
    h.lines((3, 8.4), (21, 8.4))
    h.lines((3, 15.6), (21, 15.6))


def _tick(h: _Hand) -> None:
    h.pen(width=3)
    h.lines((3, 12.6), (9.2, 18.8), (21, 5.6))


def _cross(h: _Hand) -> None:
    h.pen()
    h.lines((5, 5), (19, 19))
    h.lines((19, 5), (5, 19))


def _plus(h: _Hand) -> None:
    h.pen()
    h.lines((12, 3.4), (12, 20.6))
    h.lines((3.4, 12), (20.6, 12))


def _person(h: _Hand) -> None:
    h.fill()
    h.ring(5, 12, 6.8)
    path = QPainterPath(QPointF(3, 22))
    path.cubicTo(3, 11.2, 21, 11.2, 21, 22)
    path.closeSubpath()
    h.painter.drawPath(path)


def _radio(h: _Hand) -> None:
    h.pen(width=2.4)
    h.box(6.2, 8.2, 11.6, 13.6)
    h.lines((15.8, 8.2), (15.8, 1.4))
    h.fill()
    h.box(9, 11, 6, 3.2)


def _clock(h: _Hand) -> None:
    h.pen()
    h.ring(10.3)
    h.lines((12, 5.6), (12, 12.4), (16.8, 15.2))


def _pen(h: _Hand) -> None:
    h.pen()
    h.shape((3.6, 20.4), (4.8, 15.4), (16.4, 3.8), (20.2, 7.6), (8.6, 19.2))
    h.lines((13.4, 6.8), (17.2, 10.6))


def _sheet(h: _Hand) -> None:
    h.pen()
    h.shape((4.6, 2.6), (14, 2.6), (19.4, 8), (19.4, 21.4), (4.6, 21.4))
    h.lines((8.2, 12), (15.8, 12))
    h.lines((8.2, 16.6), (15.8, 16.6))


def _bell(h: _Hand) -> None:
    h.pen()
    path = QPainterPath(QPointF(4.2, 18.2))
    path.lineTo(4.2, 16.8)
    path.cubicTo(6.6, 14.4, 6.2, 12, 6.2, 10)
    path.cubicTo(6.2, 1.4, 17.8, 1.4, 17.8, 10)
    path.cubicTo(17.8, 12, 17.4, 14.4, 19.8, 16.8)
    path.lineTo(19.8, 18.2)
    path.closeSubpath()
    h.painter.drawPath(path)
    h.fill()
    h.box(9, 20.2, 6, 2.6)


def _sun(h: _Hand) -> None:
    h.fill()
    h.ring(4.6)
    h.pen()
    for turn in range(8):
        h.painter.save()
        h.painter.translate(12, 12)
        h.painter.rotate(45 * turn)
        h.lines((0, -7.4), (0, -11))
        h.painter.restore()


def _backspace(h: _Hand) -> None:
    h.pen()
    h.shape((8.4, 4.6), (22.4, 4.6), (22.4, 19.4), (8.4, 19.4), (1.8, 12))
    h.lines((11.4, 8.6), (18.2, 15.4))
    h.lines((18.2, 8.6), (11.4, 15.4))


def _down(h: _Hand) -> None:
    h.pen()
    h.lines((4, 8.4), (12, 16.4), (20, 8.4))


def _lamp(h: _Hand) -> None:
    """A flame lamp with its hook, bonnet, glass and base: our own mark."""
    h.pen(width=1.8)
    h.painter.drawArc(QRectF(9.2, 0.6, 5.6, 6.4), 0, 180 * 16)
    h.fill()
    h.shape((8, 3.8), (16, 3.8), (17.4, 8.4), (6.6, 8.4))
    h.box(5.2, 8.4, 13.6, 1.9)
    h.box(4.6, 19.4, 14.8, 4)
    h.pen(width=1.9)
    h.lines((7.3, 10.3), (7.3, 19.4))
    h.lines((16.7, 10.3), (16.7, 19.4))
    h.fill()
    flame = QPainterPath(QPointF(12, 11.4))
    flame.cubicTo(16.2, 15.4, 14.6, 18.4, 12, 18.4)
    flame.cubicTo(9.4, 18.4, 7.8, 15.4, 12, 11.4)
    h.painter.drawPath(flame)


_DRAWN: dict[Sign, Callable[[_Hand], None]] = {
    Sign.DANGER: _danger,
    Sign.CAUTION: _caution,
    Sign.MUST: _must,
    Sign.WITHIN: _within,
    Sign.ALLOWED: _allowed,
    Sign.REFUSED: _refused,
    Sign.SOME_OPEN: _some_open,
    Sign.NOT_STARTED: _not_started,
    Sign.DRAFT: _draft,
    Sign.DUE: _due,
    Sign.SUSPENDED: _suspended,
    Sign.ENDED: _ended,
    Sign.CLOSED_OUT: _closed_out,
    Sign.FAULT: _fault,
    Sign.NOT_MEASURED: _not_measured,
    Sign.GO_IN: _go_in,
    Sign.GO_OUT: _go_out,
    Sign.RISING: lambda h: _arrow(h, -90),
    Sign.FALLING: lambda h: _arrow(h, 90),
    Sign.STEADY: _steady,
    Sign.RIGHT: lambda h: _arrow(h, 0),
    Sign.LEFT: lambda h: _arrow(h, 180),
    Sign.TICK: _tick,
    Sign.CROSS: _cross,
    Sign.EQUAL: _steady,
    Sign.PLUS: _plus,
    Sign.PERSON: _person,
    Sign.RADIO: _radio,
    Sign.CLOCK: _clock,
    Sign.PEN: _pen,
    Sign.SHEET: _sheet,
    Sign.BELL: _bell,
    Sign.SUN: _sun,
    Sign.BACKSPACE: _backspace,
    Sign.DOWN: _down,
    Sign.LAMP: _lamp,
}


def draw_sign(painter: QPainter, rect: QRectF, sign: Sign, theme: Theme, ink: QColor | None = None) -> None:
    """Draw a sign in the largest square centred in ``rect``.

    ``ink`` draws it in that one colour, unfilled: for signs on a filled ground or on an ink button.
    """
    side = min(rect.width(), rect.height())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(rect.center().x() - side / 2, rect.center().y() - side / 2)
    painter.scale(side / _UNIT, side / _UNIT)
    _DRAWN[sign](_Hand(painter, Look(theme), ink))
    painter.restore()


class SignLabel(QWidget):
    """A sign as a widget; ``word`` is what a screen reader says, and what stands beside it."""

    def __init__(self, sign: Sign, word: str, side: int = 24, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._side = side
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.set_sign(sign, word)

    @property
    def sign(self) -> Sign:
        """The sign shown now."""
        return self._sign

    def set_sign(self, sign: Sign, word: str) -> None:
        """Show another sign, with its word."""
        self._sign = sign
        self.setAccessibleName(word)
        self.update()

    def sizeHint(self) -> QSize:
        """Square, at the scale of the text."""
        side = look_of(self).px(self._side)
        return QSize(side, side)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the sign."""
        painter = QPainter(self)
        draw_sign(painter, QRectF(self.rect()), self._sign, look_of(self).theme)
