"""Buttons: plain, main (ink), link. Drawn here so that dash, sign and second line look alike in every theme."""

from __future__ import annotations

from enum import Enum

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QKeySequence, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Letter, Look, Place, Role, look_of

_SIGN, _BETWEEN = 20, 8


class Kind(Enum):
    """How a button stands out."""

    PLAIN = "plain"
    MAIN = "main"
    LINK = "link"


class Button(QAbstractButton):
    """A button that acts on release inside it. ``hint`` is a second line (a key, a reason), ``cap`` a key in a frame.

    Signals: ``clicked`` of Qt.
    """

    def __init__(
        self,
        words: str,
        kind: Kind = Kind.PLAIN,
        place: Place = Place.TRAILER,
        *,
        sign: Sign | None = None,
        hint: str = "",
        cap: str = "",
        keys: str = "",
        size: Letter | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._words, self._hint, self._kind, self._place, self._sign, self._cap = words, hint, kind, place, sign, cap
        usual = {Place.OFFICE: Letter.OFFICE, Place.TRAILER: Letter.TABLE, Place.PORTAL: Letter.BODY}[place]
        self._size = size or (Letter.SMALL if kind is Kind.LINK else usual)
        self._why = ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Fixed)
        if keys:
            self.setShortcut(QKeySequence(keys))
        self._tell()

    @property
    def words(self) -> str:
        """The first line."""
        return self._words

    @property
    def place(self) -> Place:
        """Where it is used: the least size of its target."""
        return self._place

    def set_words(self, words: str, hint: str | None = None, sign: Sign | None = None) -> None:
        """Other words (and hint, and sign if given); the place on screen stays."""
        self._words = words
        self._hint = self._hint if hint is None else hint
        self._sign = self._sign if sign is None else sign
        self._tell()

    @property
    def kind(self) -> Kind:
        """How it stands out."""
        return self._kind

    def set_kind(self, kind: Kind) -> None:
        """Stand out otherwise: what is the first thing to do in one state is not in another."""
        if kind is not self._kind:
            self._kind = kind
            self.update()

    def set_available(self, available: bool, why: str = "") -> None:
        """Not available now: dashed, cannot be pressed, and a screen reader hears why."""
        self._why = "" if available else why
        self.setEnabled(available)
        self._tell()

    def _tell(self) -> None:
        self.setAccessibleName(self._words)
        self.setAccessibleDescription(", ".join(part for part in (self._hint, self._why) if part))
        self.updateGeometry()
        self.update()

    def _metrics(self, look: Look) -> tuple[QFontMetricsF, QFontMetricsF]:
        return (QFontMetricsF(letter(look, self._size, True)), QFontMetricsF(letter(look, Letter.SMALL, False)))

    def _stacked(self) -> bool:
        return bool(self._hint) and self._place is Place.PORTAL

    def sizeHint(self) -> QSize:
        """At least the target of its place."""
        look = look_of(self)
        first, second = self._metrics(look)
        wide = first.horizontalAdvance(self._words)
        if self._stacked():
            wide = max(wide, QFontMetricsF(letter(look, Letter.TABLE, True)).horizontalAdvance(self._hint))
            return QSize(round(wide) + look.px(24), max(look.px(112), look.px(self._place)))
        if self._hint:
            wide += look.px(_BETWEEN) + second.horizontalAdvance(self._hint)
        if self._sign:
            wide += look.px(_SIGN + _BETWEEN)
        if self._cap:
            wide += look.px(_BETWEEN + 12) + second.horizontalAdvance(self._cap)
        side = 4 if self._kind is Kind.LINK else 32
        return QSize(max(round(wide) + look.px(side), look.px(self._place)), look.px(self._place))

    def minimumSizeHint(self) -> QSize:
        """A button never shrinks below its words."""
        return self.sizeHint()

    def colours(self, look: Look) -> tuple[QColor | None, QColor, QColor]:
        """Fill, letters and border; pressing turns ground and ink about, at once."""
        ink, label = look.colour(Role.INK), look.colour(Role.INK_LABEL)
        pressed = self.isDown() or self.isChecked()
        if not self.isEnabled():
            return None, look.colour(Role.SECOND), look.colour(Role.EDGE)
        if (self._kind is Kind.MAIN) != pressed and self._kind is not Kind.LINK:
            return ink, label, ink
        return None, look.colour(Role.TEXT), ink if self._kind is Kind.MAIN else look.colour(Role.EDGE)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Border, then sign and words in the middle."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        fill, ink, edge = self.colours(look)
        if self._kind is not Kind.LINK:
            self._paint_ground(painter, look, fill, edge)
        if self._stacked():
            self._paint_stack(painter, look, ink)
        else:
            self._paint_row(painter, look, ink)

    def _paint_ground(self, painter: QPainter, look: Look, fill: QColor | None, edge: QColor) -> None:
        width = look.edge(self._place)
        painter.setPen(edge_pen(edge, width, dashed=not self.isEnabled()))
        painter.setBrush(fill if fill is not None else look.colour(Role.GROUND))
        inset = width / 2
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), RADIUS, RADIUS)

    def _paint_row(self, painter: QPainter, look: Look, ink: QColor) -> None:
        first, second = self._metrics(look)
        between, side = look.px(_BETWEEN), look.px(_SIGN)
        wide = first.horizontalAdvance(self._words)
        tail = self._hint or self._cap
        total = wide + (side + between if self._sign else 0)
        total += (between + second.horizontalAdvance(tail) + (12 if self._cap else 0)) if tail else 0
        x = 2.0 if self._kind is Kind.LINK else (self.width() - total) / 2
        middle = self.height() / 2
        if self._sign:
            draw_sign(painter, QRectF(x, middle - side / 2, side, side), self._sign, look.theme, ink)
            x += side + between
        painter.setPen(ink)
        painter.setFont(letter(look, self._size, True))
        base = middle + first.capHeight() / 2
        painter.drawText(QPointF(x, base), self._words)
        if self._kind is Kind.LINK:
            painter.setPen(QPen(ink, 2.0 if look.sun or self.underMouse() else 1.2))
            painter.drawLine(QPointF(x, base + 3.5), QPointF(x + wide, base + 3.5))
        x += wide + between
        if tail:
            painter.setFont(letter(look, Letter.SMALL, False))
            if self._cap:
                painter.setPen(QPen(ink, 1))
                cap = QRectF(x, middle - look.px(13), second.horizontalAdvance(tail) + 12, look.px(26))
                painter.drawRoundedRect(cap, RADIUS, RADIUS)
                x += 6
            painter.setPen(ink)
            painter.drawText(QPointF(x, middle + second.capHeight() / 2), tail)

    def _paint_stack(self, painter: QPainter, look: Look, ink: QColor) -> None:
        lines = 3 if self._sign else 2
        step = min(look.px(29), self.height() / (lines + 0.6))
        y = self.height() / 2 - step * lines / 2
        painter.setPen(ink)
        if self._sign:
            side = look.px(_SIGN + 4)
            draw_sign(painter, QRectF((self.width() - side) / 2, y, side, side), self._sign, look.theme, ink)
            y += step
        for text, size in ((self._words, self._size), (self._hint, Letter.TABLE)):
            painter.setFont(letter(look, size, True))
            painter.drawText(QRectF(0, y, self.width(), step), Qt.AlignmentFlag.AlignCenter, text)
            y += step
