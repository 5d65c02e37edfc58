"""What stands between you and entry: each a sentence, what clears it, and the rule it comes from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign, SignLabel, draw_sign
from lamproom.desk.theme import Letter, Look, Role, look_of
from lamproom.words import say, say_count

_SIGN, _INDENT, _TOP = 22, 32, 8
_ARROW = 24
_FIRST = 40
"""Pixels from the top of the list: a row that begins within them is its first, and is shown as far as it goes."""


@dataclass(frozen=True, slots=True)
class ObstacleRow:
    """One obstacle as it is shown.

    ``code``: its obstacle id; ``sentence``: what is wrong, with figures; ``clears``: the words of the link;
    ``rule``: the public rule; ``target``: where the link leads, given back by ``chosen``.
    """

    code: str
    sentence: str
    clears: str = ""
    rule: str = ""
    target: str = ""
    sign: Sign = Sign.REFUSED


def _wrapped(words: str, look: Look, bold: bool, width: int, beside: int = 0) -> list[str]:
    """Small print in lines that fit beside the sign, with so much room left for what follows."""
    metrics = QFontMetricsF(letter(look, Letter.SMALL, bold))
    room = max(40, width - look.px(_INDENT) - beside)
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and metrics.horizontalAdvance(longer) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


class Row(QAbstractButton):
    """The link looks like words, but the whole row takes the press."""

    walked = Signal()

    def __init__(self, shown: ObstacleRow, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.shown = shown
        linked = bool(shown.target)
        self.setEnabled(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if linked else Qt.FocusPolicy.NoFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(
            say("desk.obstacle_row", sentence=shown.sentence, clears=shown.clears, rule=shown.rule).strip(" .")
        )

    def _prose(self, look: Look, width: int) -> QRectF:
        room = QRectF(0, 0, max(40, width - look.px(_INDENT)), 10_000)
        metrics = QFontMetricsF(letter(look, Letter.BODY))
        return metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, self.shown.sentence)

    def _below(self, look: Look, width: int) -> tuple[float, float, bool]:
        """Widths of link and rule, and whether the rule needs a line of its own."""
        link = QFontMetricsF(letter(look, Letter.SMALL, True)).horizontalAdvance(self.shown.clears)
        cited = QFontMetricsF(letter(look, Letter.SMALL)).horizontalAdvance(self.shown.rule)
        arrow = look.px(38) if self.shown.clears else 0
        return link, cited, link + arrow + cited > width - look.px(_INDENT)

    def needed_height(self, width: int) -> int:
        """As many lines as the sentence needs, then link and rule; at least a target's height."""
        look = look_of(self)
        step = look.px(23)
        lines = 1 if self.shown.clears or self.shown.rule else 0
        if self._below(look, width)[2]:
            lines = len(_wrapped(self.shown.clears, look, True, width, look.px(_ARROW))) + len(
                _wrapped(self.shown.rule, look, False, width)
            )
        return max(look.px(46), round(look.px(_TOP) * 2 + self._prose(look, width).height() + lines * step))

    def wear(self, look: Look) -> None:
        """Another scale wraps elsewhere."""
        self.setFixedHeight(self.needed_height(self.width()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The height follows the width; Qt's own way keeps the height of the first width in a scroll area."""
        self.setFixedHeight(self.needed_height(self.width()))

    def sizeHint(self) -> QSize:
        """Narrow columns are allowed; nothing is cut."""
        return QSize(120, self.needed_height(max(self.width(), 120)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down walk along the rows, Enter follows the link."""
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            (self.focusNextChild if event.key() == Qt.Key.Key_Down else self.focusPreviousChild)()
            self.walked.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Sign, sentence, link and arrow, rule, and a line under it."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.isDown():
            painter.fillRect(self.rect(), look.colour(Role.PANEL))
        side, left, top = look.px(_SIGN), look.px(_INDENT), look.px(_TOP)
        if self._hidden():
            return
        whole = self._whole_lines(look)
        if whole is not None:
            painter.setClipRect(QRectF(-6, 0, self.width() + 12, whole))
        draw_sign(painter, QRectF(0, top + 2, side, side), self.shown.sign, look.theme)
        painter.setPen(look.colour(Role.TEXT))
        painter.setFont(letter(look, Letter.BODY))
        prose = self._prose(look, self.width())
        painter.drawText(
            QRectF(left, top, self.width() - left, prose.height() + 2), Qt.TextFlag.TextWordWrap, self.shown.sentence
        )
        self._paint_link(painter, look, left, top + prose.height())
        painter.setPen(QPen(look.colour(Role.RULE if not look.sun else Role.TEXT), 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)

    def _hidden(self) -> bool:
        """A row that is cut at the foot of the list is not shown by halves below another: the count names it."""
        inside = self.parentWidget()
        area = inside.parentWidget() if inside is not None else None
        seen = self.visibleRegion().boundingRect()
        if area is None or seen.isEmpty() or seen.bottom() >= self.height() - 2:
            return False
        return self.mapTo(area, QPoint(0, 0)).y() > _FIRST

    def _whole_lines(self, look: Look) -> float | None:
        """Down to where whole lines are seen, None where the row is seen to its foot: no line is cut through."""
        seen = self.visibleRegion().boundingRect()
        if seen.isEmpty() or seen.bottom() >= self.height() - 2:
            return None
        top, prose = float(look.px(_TOP)), self._prose(look, self.width()).height()
        foot = seen.bottom() + 1 - top
        line = QFontMetricsF(letter(look, Letter.BODY)).lineSpacing()
        if foot < prose:
            return top + max(0, int(foot / line)) * line
        step = float(look.px(22))
        return top + prose + int((foot - prose) / step) * step + 2

    def _paint_link(self, painter: QPainter, look: Look, left: int, y: float) -> None:
        link, _cited, apart = self._below(look, self.width())
        base = y + look.px(18)
        if apart:
            self._paint_apart(painter, look, left, base)
            return
        x = float(left)
        if self.shown.clears:
            painter.setFont(letter(look, Letter.SMALL, True))
            painter.setPen(look.colour(Role.TEXT))
            painter.drawText(QPointF(x, base), self.shown.clears)
            if self.shown.target:
                painter.setPen(QPen(look.colour(Role.TEXT), 2.0 if look.sun else 1.3))
                painter.drawLine(QPointF(x, base + 3.5), QPointF(x + link, base + 3.5))
                arrow = QRectF(x + link + look.px(8), base - look.px(12), look.px(14), look.px(14))
                draw_sign(painter, arrow, Sign.RIGHT, look.theme)
            x += link + look.px(38)
        self._paint_rule(painter, look, x, base)

    def _paint_apart(self, painter: QPainter, look: Look, left: int, base: float) -> None:
        """A narrow column: the link over as many lines as it needs, then the rule."""
        painter.setFont(letter(look, Letter.SMALL, True))
        metrics = QFontMetricsF(painter.font())
        end = float(left)
        for line in _wrapped(self.shown.clears, look, True, self.width(), look.px(_ARROW)):
            painter.setPen(QPen(look.colour(Role.TEXT), 2.0 if look.sun else 1.3))
            painter.drawText(QPointF(left, base), line)
            if self.shown.target:
                under = base + 3.5
                end = left + metrics.horizontalAdvance(line)
                painter.drawLine(QPointF(left, under), QPointF(end, under))
            base += look.px(22)
        if self.shown.target and self.shown.clears:
            side = look.px(14)
            arrow = QRectF(end + look.px(8), base - look.px(22 + 12), side, side)
            draw_sign(painter, arrow, Sign.RIGHT, look.theme)
        for line in _wrapped(self.shown.rule, look, False, self.width()):
            self._paint_rule(painter, look, float(left), base, line)
            base += look.px(22)

    def _paint_rule(self, painter: QPainter, look: Look, x: float, base: float, words: str | None = None) -> None:
        painter.setFont(letter(look, Letter.SMALL))
        painter.setPen(look.colour(Role.SECOND))
        painter.drawText(QPointF(x, base), self.shown.rule if words is None else words)


class ObstacleList(QWidget):
    """The column: a title that counts, when it was computed, the rows. The rows scroll, the title does not.

    Signal: ``chosen(str)`` with the target of the row pressed.
    """

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: list[Row] = []
        self._tick = SignLabel(Sign.WITHIN, say("desk.nothing_stands"), 26)
        self._title = Label(size=Letter.HEAD, bold=True, wrap=True)
        self._computed = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        head = QHBoxLayout()
        head.setSpacing(10)
        head.addWidget(self._tick, 0, Qt.AlignmentFlag.AlignTop)
        head.addWidget(self._title, 1)
        inside = QWidget()
        inside.setProperty("ground", "clear")
        self._list = QVBoxLayout(inside)
        # Room for the ring of the focus at the left and right edge.
        self._list.setContentsMargins(5, 5, 5, 5)
        self._list.setSpacing(0)
        self._list.addStretch(1)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setWidget(inside)
        self._scroll.verticalScrollBar().valueChanged.connect(self._scrolled)
        self._scroll.setAlignment(Qt.AlignmentFlag.AlignTop)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        page.addLayout(head)
        page.addWidget(self._computed)
        page.addWidget(self._scroll, 1)
        self._more = Label(size=Letter.SMALL, tone=Role.SECOND)
        page.addWidget(self._more)
        self._scroll.verticalScrollBar().rangeChanged.connect(lambda _low, _high: self._scrolled())
        self._scroll.viewport().installEventFilter(self)
        self.set_obstacles(())

    def set_obstacles(self, rows: Sequence[ObstacleRow], computed: str = "", title: str = "") -> None:
        """Show these; ``computed`` says when and from what. ``title`` only where the words of entry do not fit."""
        words = title or (say_count("desk.stand", len(rows)) if rows else say("desk.nothing_stands"))
        self._title.setText(words)
        self._tick.setVisible(not rows)
        self._computed.setText(computed)
        self._computed.setVisible(bool(computed))
        self.setAccessibleName(words)
        if [row.shown for row in self._rows] == list(rows):
            return
        focused = next((row.shown.target for row in self._rows if row.hasFocus()), None)
        for row in self._rows:
            self._list.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows = [self._row(at, shown) for at, shown in enumerate(rows)]
        for row in self._rows:
            if focused is not None and row.shown.target == focused:
                row.setFocus()

    def _row(self, at: int, shown: ObstacleRow) -> Row:
        row = Row(shown)
        row.walked.connect(self._follow_focus)
        row.clicked.connect(lambda _checked=False, target=shown.target: self._follow(target))
        self._list.insertWidget(at, row)
        # At once, not when Qt comes round to it: a row not shown cannot take the keyboard back.
        row.show()
        return row

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Another height shows other rows."""
        if event.type() == QEvent.Type.Resize:
            self._scrolled()
        return super().eventFilter(watched, event)

    def more(self) -> str:
        """How many rows lie below the edge, in words; empty where none does."""
        return self._more.text()

    def _scrolled(self) -> None:
        foot = self._scroll.verticalScrollBar().value() + self._scroll.viewport().height()
        below = sum(row.y() + row.height() > foot + 2 for row in self._rows)
        # Its place is kept, so that the rows do not move as it comes and goes.
        self._more.setText(say_count("desk.more", below) if below else "")
        for row in self._rows:
            row.update()

    def _follow_focus(self) -> None:
        """A row that has the keyboard stands at the top, from its first line."""
        row = next((one for one in self._rows if one.hasFocus()), None)
        if row is None:
            return
        self._scroll.verticalScrollBar().setValue(max(0, row.y() - 5))

    def _follow(self, target: str) -> None:
        if target:
            self.chosen.emit(target)

    def rows(self) -> list[ObstacleRow]:
        """What is shown."""
        return [row.shown for row in self._rows]

    def title(self) -> str:
        """The words of the title."""
        return self._title.text()

    def focus_first(self) -> None:
        """Give the keyboard to the first row that leads anywhere; after a press of the issue button with gaps."""
        for row in self._rows:
            if row.shown.target:
                row.setFocus(Qt.FocusReason.OtherFocusReason)
                return
