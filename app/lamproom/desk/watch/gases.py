"""The last value of each gas against its limit: rows when there is room, small tiles beside a panel."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Look, Role, look_of
from lamproom.desk.watch.lettering import LEFT, RIGHT, frame, write
from lamproom.office.views.watch_air import GasRow
from lamproom.words import say

LARGE, UNITS = 300, 250
"""From these widths on a tile has the large letters, or at least the unit of its limit."""

UPPER = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop

THREE_LINES = 80
"""From this height on where it was read has a line of its own."""


class GasTile(QAbstractButton):
    """One gas. Pressing it chooses what the plot shows."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._row: GasRow | None = None

    @property
    def row(self) -> GasRow | None:
        """What is shown."""
        return self._row

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses, like Space."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def show_row(self, row: GasRow) -> None:
        """Show a gas."""
        if row == self._row:
            return
        self._row = row
        self.setObjectName(f"watch.gas.{row.gas}")
        self.setAccessibleName(
            say(
                "watch.gas",
                name=row.name,
                figure=row.figure,
                unit=row.unit,
                place=row.place,
                limit=row.limit,
                direction=row.direction,
                age=row.age,
            )
        )
        self.update()

    def drawn(self) -> tuple[str, str, str, str, str]:
        """Name, limit, where it was read, direction and what stands beside the limit, as they are drawn; a small tile
        says the direction by its sign, where and how old beside the limit, and the unit where there is room for it."""
        row = self._row
        if row is None:
            return ("", "", "", "", "")
        if self.width() >= LARGE:
            if row.place and self.height() < THREE_LINES:
                return (
                    row.name,
                    say("watch.limit_place", limit=row.limit, place=row.place),
                    "",
                    row.direction,
                    row.age,
                )
            return (row.name, row.limit, row.place, row.direction, row.age)
        roomy = self.width() >= UNITS
        age = row.age if roomy else row.passed
        beside = say("watch.spot_age", spot=row.spot, age=age) if age and row.spot else row.spot or row.direction
        whole = roomy and (not age or self.height() >= THREE_LINES)
        return (row.name, row.limit if whole else row.bounds, "", "", beside)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Fill only when it lies outside; dashes when it is old."""
        row, look, painter = self._row, look_of(self), QPainter(self)
        if row is None:
            return
        fill = Role.DANGER if row.outside else None
        edge = Role.DANGER_EDGE if row.outside else Role.EDGE
        frame(painter, self, look, dashed=row.old or not row.figure, fill=fill, edge=edge, heavy=False)
        over = look.colour(Role.DANGER_LABEL) if row.outside else None
        w, h = float(self.width()), float(self.height())
        if w < LARGE:
            self._small(painter, row, w, h)
        else:
            self._large(painter, row, w, h, over)

    def _large(self, painter: QPainter, row: GasRow, w: float, h: float, over: QColor | None) -> None:
        look = look_of(self)
        ink = over or look.colour(Role.TEXT)
        left = 16.0
        if row.outside:
            draw_sign(painter, QRectF(12, (h - 40) / 2, 40, 40), Sign.DANGER, look.theme, over)
            left = 62.0
        middle = h / 2
        figure_left = w * 0.53
        name, limit, place, direction, age = self.drawn()
        lines = [(name, Letter.HEAD), (limit, Letter.BODY)]
        if place:
            lines.append((place, Letter.BODY))
        step = min(27.0, (h - 10) / len(lines))
        top = middle - step * len(lines) / 2
        for at, (words, letters) in enumerate(lines):
            room = QRectF(left, top + step * at, figure_left - left, step)
            write(painter, look, room, words, letters, bold=True, colour=ink)
        size = 46 if h > 64 and len(row.figure) < 6 else 30
        room = QRectF(figure_left, 0, w * 0.76 - figure_left, h)
        write(painter, look, room, row.figure or "–", size, bold=True, align=RIGHT, colour=ink, fixed=True)
        right = w * 0.78
        if not row.figure:
            room = QRectF(right, middle - 24, w - right - 8, 48)
            write(painter, look, room, direction, Letter.BODY, bold=True, colour=ink, wrap=True)
            return
        # Signs, direction in words, and how old: only the lines that have something to say.
        signs = [] if row.stale_tick else [(row.sign, over)]
        signs += [(row.direction_sign, ink)] if row.direction_sign else []
        said = [words for words in (direction, age) if words]
        step = 24.0 if len(said) > 1 else 27.0
        top = middle - step * (len(said) + bool(signs)) / 2
        side, x = min(24.0, step - 2), right
        for sign, tone in signs:
            draw_sign(painter, QRectF(x, top, side, side), Sign[sign], look.theme, tone)
            x += side + 12
        for at, words in enumerate(said, start=1 if signs else 0):
            # Words that stand alone have two lines, so that 'rising to limit' keeps its letters.
            high = step if len(said) > 1 else min(2 * step, h - top - step * at - 6)
            room = QRectF(right, top + step * at, w - right - 6, high)
            write(painter, look, room, words, Letter.BODY, bold=True, align=UPPER, colour=ink, wrap=len(said) == 1)

    def _small(self, painter: QPainter, row: GasRow, w: float, h: float) -> None:
        look = look_of(self)
        over = look.colour(Role.DANGER_LABEL) if row.outside else None
        ink = over or look.colour(Role.TEXT)
        _name, limit, _place, _direction, beside = self.drawn()
        arrow = 24.0 if row.direction_sign else 0.0
        three = h >= THREE_LINES
        figure, upper = w * 0.56, h * (0.46 if three else 0.56)
        write(painter, look, QRectF(10, 2, figure - 14, upper - 2), row.name, Letter.BODY, bold=True, colour=ink)
        left, high = 10.0, h - upper - 3
        line = high / 2 if three else high
        if row.figure and not row.stale_tick:
            left = 34.0
            draw_sign(painter, QRectF(10, upper + line / 2 - 9, 18, 18), Sign[row.sign], look.theme, over)
        # The limit keeps its place in every state; where and how old stand beside it. Each has its share of the room,
        # so that both have the same letters.
        wide = w - left - 18
        share = wide if three else wide * _share(look, limit, beside)
        write(painter, look, QRectF(left, upper, share, line), limit, Letter.TABLE, colour=ink)
        room = QRectF(left + share + 8, upper, wide - share, line)
        if three:
            room = QRectF(left, upper + line, wide, line)
        write(painter, look, room, beside, Letter.TABLE, bold=True, align=LEFT if three else RIGHT, colour=ink)
        room = QRectF(figure, 2, w - figure - 10 - arrow, upper)
        size = (34 if h < 80 else 46) if len(row.figure) < 6 else 22
        write(painter, look, room, row.figure or "–", size, bold=True, align=RIGHT, colour=ink, fixed=True)
        if row.direction_sign:
            draw_sign(painter, QRectF(w - 28, upper / 2 - 8, 18, 18), Sign[row.direction_sign], look.theme, ink)


def _share(look: Look, limit: str, beside: str) -> float:
    """The part of a line that the limit takes."""
    own = QFontMetricsF(letter(look, Letter.TABLE, False)).horizontalAdvance(limit)
    other = QFontMetricsF(letter(look, Letter.TABLE, True)).horizontalAdvance(beside)
    return own / (own + other) if own else 0.0


class GasPane(QWidget):
    """All gases in the form's order, one outside its limit first where they are small. Signal: ``chosen(str)``."""

    chosen = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.gases")
        self._rows: tuple[GasRow, ...] = ()
        self._tiles: list[GasTile] = []
        self._small = False
        self._words = ""

    def show_gases(self, rows: tuple[GasRow, ...], words: str, small: bool, plotted: bool = True) -> None:
        """Show these. ``words`` (last reading, how long ago) stand above small tiles. Not ``plotted``: there is no
        plot to choose for, and a finger that misses EVACUATE presses nothing."""
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents, not plotted)
        if (rows, words, small) == (self._rows, self._words, self._small):
            return
        placed = len(rows) == len(self._rows) and small == self._small
        self._rows, self._words, self._small = rows, words, small
        self.setAccessibleName(words)
        while len(self._tiles) < len(rows):
            tile = GasTile(self)
            tile.clicked.connect(lambda _checked=False, one=tile: self._choose(one))
            self._tiles.append(tile)
        for tile, row in zip(self._tiles, rows, strict=False):
            tile.show_row(row)
        if not placed:
            self._place()
        self.update()

    def _choose(self, tile: GasTile) -> None:
        if tile.row is not None:
            self.chosen.emit(tile.row.gas)

    def _place(self) -> None:
        count = len(self._rows)
        for tile in self._tiles[count:]:
            tile.hide()
        if not count:
            return
        w, h = self.width(), self.height()
        columns = 2 if self._small else 1
        top = 28 if self._small and h > 140 else 0
        lines = -(-count // columns)
        gap = 8 if h - top >= lines * 62 else 4
        high = (h - top - gap * (lines - 1)) / lines
        wide = (w - gap * (columns - 1)) / columns
        for at, tile in enumerate(self._tiles[:count]):
            line, column = divmod(at, columns)
            x, y = round(column * (wide + gap)), round(top + line * (high + gap))
            tile.setGeometry(x, y, round(wide), round(top + line * (high + gap) + high) - y)
            tile.show()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Other rows in another room."""
        self._place()

    def paintEvent(self, event: QPaintEvent) -> None:
        """When the values were read, above small tiles."""
        if self._small and self.height() > 140:
            look, painter = look_of(self), QPainter(self)
            write(painter, look, QRectF(2, 0, self.width() - 4, 26), self._words, Letter.BODY, bold=True, align=LEFT)
