"""The tiles that never move: head, state band, count, clock, rescue, the words to say. Each paints one plain value."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.time_rule import RuleView, TimeRule
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Role, look_of
from lamproom.desk.watch.lettering import CENTRE, LEFT, RIGHT, frame, write
from lamproom.office.views.watch import Band, ClockTile
from lamproom.words import say

FILLS = {"caution": (Role.CAUTION, Role.CAUTION_LABEL, Role.CAUTION_EDGE)}
FILLS["danger"] = (Role.DANGER, Role.DANGER_LABEL, Role.DANGER_EDGE)


LINES = (36, 24, 20)
"""Pixels of the letter of the lines where no clock runs."""

CLOCK = 120
"""Pixels of the letter: digits near 19 mm high where 4.9 px are a millimetre."""


class Head(QWidget):
    """Space and number, the end of the hours, what is stored and how this station is, the time of day."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.head")
        self._told = ("", "", "", "", "")
        self._silent = False

    def show_head(self, space: str, number: str, ends: str, station: str, now: str, silent: bool = False) -> None:
        """Show these words; ``silent``: a sign says that this station cannot be heard."""
        told = (space, number, ends, station, now)
        if (told, silent) != (self._told, self._silent):
            self._told, self._silent = told, silent
            self.setAccessibleName(", ".join(told))
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Left, middle, right, and the clock at the edge."""
        look, painter = look_of(self), QPainter(self)
        space, number, ends, station, now = self._told
        w, h = self.width(), self.height()
        write(painter, look, QRectF(0, 0, w * 0.18, h), space, Letter.TITLE, bold=True)
        write(painter, look, QRectF(w * 0.185, 0, w * 0.09, h), number, Letter.BODY)
        write(painter, look, QRectF(w * 0.28, 0, w * 0.25, h), ends, Letter.HEAD, bold=True)
        room = QRectF(w * 0.53, 0, w * 0.39, h)
        if self._silent:
            side = 24.0
            draw_sign(painter, QRectF(room.right() - side, (h - side) / 2, side, side), Sign.CAUTION, look.theme)
            room.setRight(room.right() - side - 8)
        write(painter, look, room, station, Letter.BODY, bold=self._silent, align=RIGHT)
        write(painter, look, QRectF(w * 0.93, 0, w * 0.07, h), now, Letter.TITLE, bold=True, align=RIGHT)


class StateBand(QWidget):
    """The state: sign, word, one sentence. Its edge flashes while an alarm is not acknowledged; the text never does."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.state")
        self._band = Band("DRAFT", "", "")
        self._heavy = False

    def show_band(self, band: Band) -> None:
        """Show a state."""
        if band != self._band:
            self._band = band
            self.setAccessibleName(f"{band.word}. {band.sentence}")
            self.update()

    def set_heavy(self, heavy: bool) -> None:
        """Thicken the edge, or not: half of a flash."""
        if heavy != self._heavy:
            self._heavy = heavy
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Only an abnormal state has a fill."""
        look, painter, band = look_of(self), QPainter(self), self._band
        fill, label, edge = FILLS.get(band.fill, (None, Role.TEXT, Role.EDGE))
        frame(painter, self, look, fill=fill, edge=edge, heavy=self._heavy)
        h, w = float(self.height()), float(self.width())
        ink = look.colour(label)
        side = min(78.0, h - 28)
        draw_sign(painter, QRectF(20, (h - side) / 2, side, side), Sign[band.sign], look.theme, ink if fill else None)
        beside = w * 0.24
        room = QRectF(32 + side, 0, w - 32 - side - beside - 24, h)
        taken = write(painter, look, room, band.word, Letter.GLANCE, bold=True, colour=ink, fixed=True)
        # The sentence has what the word leaves, so that each alarm keeps a line or two of its own.
        left = min(room.left() + taken + 24, w - beside - 18)
        words = QRectF(left, 6, w - left - 18, h - 12)
        if band.mark:
            wide = min(words.width() - 44, _widest(look, band.sentence))
            mark = QRectF(words.right() - wide - 44, (h - 34) / 2, 34, 34)
            draw_sign(painter, mark, Sign[band.mark], look.theme, ink if fill else None)
            words.setLeft(mark.right() + 10)
        write(painter, look, words, band.sentence, Letter.HEAD, bold=True, align=RIGHT, colour=ink, wrap=True)


def _widest(look: Look, words: str) -> float:
    """Width of the longest line, in the letters of a sentence."""
    metrics = QFontMetricsF(letter(look, Letter.HEAD, True))
    return max(metrics.horizontalAdvance(line) for line in words.split("\n")) + 8


class CountTile(QWidget):
    """How many are inside, readable from 3 m."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.count")
        self._told = (0, "", "")

    def show_count(self, count: int, words: str, below: str) -> None:
        """Show a count with its words."""
        if (count, words, below) != self._told:
            self._told = (count, words, below)
            self.setAccessibleName(say("watch.count", count=count, words=words))
            self.setAccessibleDescription(below)
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The digit as large as the tile."""
        look, painter = look_of(self), QPainter(self)
        frame(painter, self, look)
        count, words, below = self._told
        digit = QRectF(16, -6, 100 if count < 10 else 150, self.height() + 8)
        write(painter, look, digit, str(count), Letter.COUNT, bold=True, align=CENTRE, fixed=True)
        left = digit.right() + 14
        room = self.width() - left - 10
        write(painter, look, QRectF(left, 24, room, 42), words, 34, bold=True)
        write(painter, look, QRectF(left, 70, room, 30), below, Letter.BODY, bold=True)


class ClockPane(QWidget):
    """The running clock with its words and the time rule."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.clock")
        self._tile = ClockTile("", "", "")
        self._rule = TimeRule(self)

    def show_clock(self, tile: ClockTile) -> None:
        """Show a clock; the rule moves with it."""
        if tile == self._tile:
            return
        self._tile = tile
        words = ", ".join(part for part in (tile.digits, tile.first, tile.second, tile.third) if part)
        self.setAccessibleName(words)
        self._rule.setVisible(tile.rule is not None)
        if tile.rule is not None:
            r = tile.rule
            due = say("watch.clock.rule", due=r.due_words)
            words = "" if r.now > r.due - 60 else r.due_words
            ink = FILLS[tile.fill][1] if tile.fill else Role.TEXT
            self._rule.set_view(RuleView(0, r.end, r.now, r.due, r.grace, words, 60.0, 5, False, ink, due))
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The rule along the foot."""
        self._rule.setGeometry(24, self.height() - 39, self.width() - 48, 34)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Digits left, words right."""
        look, painter, tile = look_of(self), QPainter(self), self._tile
        fill, label, edge = FILLS.get(tile.fill, (None, Role.TEXT, Role.EDGE))
        frame(painter, self, look, fill=fill, edge=edge)
        ink = look.colour(label)
        w, h = self.width(), self.height()
        if not tile.digits:
            lines = [(words, size) for words, size in zip((tile.first, tile.second, tile.third), LINES, strict=True)]
            lines = [(words, size) for words, size in lines if words]
            y = (h - sum(size + 12 for _words, size in lines)) / 2
            for words, size in lines:
                write(painter, look, QRectF(20, y, w - 36, size + 12), words, size, bold=True, colour=ink)
                y += size + 12
            return
        wide = len(tile.digits) > 4
        share = (0.64 if wide else 0.54) if tile.rule is not None or tile.second or tile.first else 1.0
        share = 0.66 if not tile.second and tile.rule is None and not tile.third else share
        # The room is higher than the tile: digits have no descenders, and their height is what is read from far off.
        middle = 51.0 if tile.rule is not None else h / 2
        digits = QRectF(16, middle - 74, (w - 32) * share, 148)
        write(painter, look, digits, tile.digits, CLOCK, bold=True, colour=ink, fixed=True)
        left = digits.right() + 12
        room = w - left - 14
        if tile.third:
            for at, words in enumerate((tile.first, tile.second, tile.third)):
                write(painter, look, QRectF(left, 10 + 25 * at, room, 26), words, Letter.BODY, bold=True, colour=ink)
            return
        top = 10.0 if tile.rule is not None else h / 2 - (36 if tile.second else 20)
        if not tile.second and tile.rule is None:
            write(painter, look, QRectF(left, 0, room, h), tile.first, Letter.TITLE, bold=True, colour=ink, wrap=True)
            return
        write(painter, look, QRectF(left, top, room, 30), tile.first, Letter.HEAD, bold=True, colour=ink)
        write(painter, look, QRectF(left, top + 30, room, 42), tile.second, 34, bold=True, colour=ink)


class RescueTile(QWidget):
    """How rescue is called: always there, always in the same place."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.rescue")
        self._told = ("", "")

    def show_rescue(self, told: tuple[str, str]) -> None:
        """Show the means and what comes after it."""
        if told != self._told:
            self._told = told
            self.setAccessibleName(", ".join(told))
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Radio, then the words."""
        look, painter = look_of(self), QPainter(self)
        frame(painter, self, look)
        draw_sign(painter, QRectF(18, (self.height() - 42) / 2, 42, 42), Sign.RADIO, look.theme)
        room = self.width() - 76 - 12
        write(painter, look, QRectF(76, 8, room, 34), self._told[0], Letter.TITLE, bold=True)
        write(painter, look, QRectF(76, 40, room, 28), self._told[1], Letter.HEAD, bold=True)


class CallPane(QWidget):
    """The words to say to rescue, while everyone is being called out."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.call")
        self._told = ("", "", "")

    def show_call(self, means: str, then: str, words: str) -> None:
        """Show means and words."""
        told = (means, then, words)
        if told != self._told:
            self._told = told
            self.setAccessibleName(" ".join(told))
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Means, a line, the words to say."""
        look, painter = look_of(self), QPainter(self)
        frame(painter, self, look)
        means, then, words = self._told
        draw_sign(painter, QRectF(20, 14, 44, 44), Sign.RADIO, look.theme)
        room = self.width() - 100.0
        write(painter, look, QRectF(84, 8, room, 34), means, 30, bold=True)
        write(painter, look, QRectF(84, 42, room, 26), then, Letter.HEAD, bold=True)
        painter.setPen(QPen(look.colour(Role.TEXT), look.line))
        painter.drawLine(20, 74, self.width() - 20, 74)
        quote = QRectF(20, 80, self.width() - 40, self.height() - 88)
        flags = LEFT & ~Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignTop
        write(painter, look, quote, say("watch.call.quote", words=words), 23, bold=True, wrap=True, align=flags)
