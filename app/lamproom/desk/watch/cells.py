"""Keys of the Watch whose words may need two lines, and the row of a person with IN or OUT."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import RADIUS, Letter, Look, Place, Role, look_of
from lamproom.desk.watch.lettering import CENTRE, LEFT, write
from lamproom.office.views.watch import PersonRow
from lamproom.words import say

DENSE = 270
"""Below this width the whole row of a person is the key."""


NARROW = 150
"""Below this width a key with two lines gives up its sign."""


def slug(words: str) -> str:
    """An id as part of an object name."""
    return words.replace(" ", "-")


class Cell(QAbstractButton):
    """A key with words that wrap, a second line and a sign. ``main`` is filled with ink; checked turns it about."""

    def __init__(
        self,
        name: str,
        words: str,
        below: str = "",
        sign: Sign | None = None,
        *,
        main: bool = False,
        size: Letter = Letter.BODY,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self._words, self._below, self._sign, self._main, self._size = words, below, sign, main, size
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._tell()

    def set_words(self, words: str, below: str = "", sign: Sign | None = None) -> None:
        """Other words, second line and sign."""
        if (words, below, sign) != (self._words, self._below, self._sign):
            self._words, self._below, self._sign = words, below, sign
            self._tell()

    def _tell(self) -> None:
        self.setAccessibleName(self._words.replace("\n", " "))
        self.setAccessibleDescription(self._below)
        self.update()

    def words(self) -> str:
        """The words shown."""
        return self._words

    def sizeHint(self) -> QSize:
        """As high as a gloved finger needs."""
        return QSize(Place.PORTAL, Place.PORTAL)

    def minimumSizeHint(self) -> QSize:
        """Never below it."""
        return QSize(Place.PORTAL, Place.PORTAL - 16)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter presses, like Space."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Sign left, words beside it, the second line under them."""
        look, painter = look_of(self), QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        filled = (self._main or self.isChecked()) != self.isDown()
        ink = look.colour(Role.INK_LABEL if filled and self.isEnabled() else Role.TEXT)
        _ground(painter, self, look, filled and self.isEnabled(), not self.isEnabled())
        w, h, left = self.width(), self.height(), 10.0
        narrow = w < NARROW and bool(self._below)
        if self._sign is not None and not narrow:
            side = min(28.0, h - 24)
            over = ink if filled else None
            draw_sign(painter, QRectF(left, (h - side) / 2, side, side), self._sign, look.theme, over)
            left += side + 8
        align = LEFT if self._sign is not None and not narrow else CENTRE
        below = 26.0 if self._below else 0.0
        if "\n" in self._below and h >= Place.PORTAL - 2:
            below = 42.0
        room = QRectF(left, 5, w - left - 8, h - 10 - below)
        write(painter, look, room, self._words, self._size, bold=True, align=align, colour=ink, wrap=True)
        foot = QRectF(left, h - below - 5, w - left - 8, below)
        write(painter, look, foot, self._below, Letter.TABLE, align=align, colour=ink, wrap=below > 26)


def _ground(painter: QPainter, widget: QWidget, look: Look, filled: bool, dashed: bool) -> None:
    width = look.edge(Place.PORTAL)
    half = width / 2
    painter.setPen(edge_pen(look.colour(Role.INK if filled else Role.EDGE), width, dashed))
    painter.setBrush(look.colour(Role.INK if filled else Role.GROUND))
    painter.drawRoundedRect(QRectF(widget.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)


class _MoveKey(QAbstractButton):
    """IN, OUT or wait. In a dense list it carries the name as well."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.row: PersonRow | None = None
        self.dense = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        row, look, painter = self.row, look_of(self), QPainter(self)
        if row is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        down = self.isDown()
        if self.dense:
            _ground(painter, self, look, down, not row.inside)
        else:
            self._part(painter, look, down, not row.inside)
        ink = look.colour(Role.INK_LABEL if down else Role.TEXT)
        sign = Sign.GO_OUT if row.inside else Sign.REFUSED if row.barred else Sign.GO_IN
        word = (
            say("watch.out")
            if row.inside
            else say("watch.no_entry" if row.over else "watch.wait")
            if row.barred
            else say("watch.in")
        )
        w, h = float(self.width()), float(self.height())
        if self.dense:
            write(painter, look, QRectF(10, 4, w - 20, h * 0.5 - 4), row.name, 28, bold=True, colour=ink)
            side = 22.0
            draw_sign(painter, QRectF(10, h * 0.74 - side / 2, side, side), sign, look.theme, ink)
            room = QRectF(38, h * 0.5, w * 0.3, h * 0.46)
            write(painter, look, room, word, Letter.HEAD, bold=True, colour=ink)
            rest = QRectF(w * 0.3 + 42, h * 0.5, w * 0.7 - 48, h * 0.46)
            if w >= NARROW:
                write(painter, look, rest, row.short, Letter.TABLE, colour=ink)
            return
        side = 30.0
        draw_sign(painter, QRectF(16, (h - side) / 2, side, side), sign, look.theme, ink)
        write(painter, look, QRectF(54, 0, w - 60, h), word, Letter.TITLE, bold=True, colour=ink)

    def _part(self, painter: QPainter, look: Look, down: bool, dashed: bool) -> None:
        """The frame is the row's own: one line parts the key from the name, and a press fills what it encloses."""
        width = look.edge(Place.PORTAL)
        w, h = float(self.width()), float(self.height())
        if down:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.colour(Role.INK))
            painter.drawRect(QRectF(0, width, w - width, h - 2 * width))
        painter.setPen(edge_pen(look.colour(Role.EDGE), width, dashed))
        painter.drawLine(QPointF(width / 2, width), QPointF(width / 2, h - width))


class PersonTile(QWidget):
    """A name, since when, and the key beside it. Signals: ``goes_in(str)``, ``comes_out(str)``."""

    goes_in = Signal(str)
    comes_out = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._row: PersonRow | None = None
        self.key = _MoveKey(self)
        self.key.clicked.connect(self._pressed)

    def show_row(self, row: PersonRow) -> None:
        """Show a person; the key's name tells which way it leads."""
        if row == self._row:
            return
        self._row = row
        self.key.row = row
        self.key.setObjectName(f"watch.{'out' if row.inside else 'in'}.{slug(row.who)}")
        name = say("watch.comes_out" if row.inside else "watch.goes_in", name=row.name)
        self.key.setAccessibleName(name)
        self.key.setAccessibleDescription(row.barred or row.line)
        self.key.update()
        self.update()

    def _pressed(self) -> None:
        if self._row is not None:
            (self.comes_out if self._row.inside else self.goes_in).emit(self._row.who)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The key at the right, or over all of a narrow row."""
        w, h = self.width(), self.height()
        self.key.dense = w < DENSE
        wide = w if self.key.dense else max(126, min(200, round(w * 0.3)))
        self.key.setGeometry(w - wide, 0, wide, h)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Solid inside, dashed outside."""
        row, look, painter = self._row, look_of(self), QPainter(self)
        if row is None or self.key.dense:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        _ground(painter, self, look, False, not row.inside)
        room = self.width() - self.key.width() - 24.0
        h = float(self.height())
        top = max(4.0, h / 2 - 38)
        write(painter, look, QRectF(16, top, room, 44), row.name, min(46, round(h * 0.49)), bold=True, fixed=True)
        write(painter, look, QRectF(16, top + 42, room, 28), row.line, Letter.HEAD, bold=True, fixed=True)


class PeoplePane(QWidget):
    """Everyone in the list. Whoever is inside is never on a hidden page. Signals as of a tile."""

    goes_in = Signal(str)
    comes_out = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.people")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._rows: tuple[PersonRow, ...] = ()
        self._tiles: list[PersonTile] = []
        self._words = ""
        self._page = 0
        self._next = Cell("watch.people.page", "", parent=self)
        self._next.clicked.connect(self._turn)
        self._next.hide()

    def show_people(self, rows: tuple[PersonRow, ...], words: str) -> None:
        """Show these; ``words`` stand where there is nobody."""
        if (rows, words) == (self._rows, self._words):
            return
        fresh = [row.who for row in rows] != [row.who for row in self._rows] or [r.inside for r in rows] != [
            r.inside for r in self._rows
        ]
        self._rows, self._words = rows, words
        self.setAccessibleName(words)
        if fresh:
            self._place()
        else:
            for tile, row in zip(self._tiles, self._shown(), strict=False):
                tile.show_row(row)
        self.update()

    def rows(self) -> tuple[PersonRow, ...]:
        """Everyone, shown or on another page."""
        return self._rows

    def next_page(self) -> None:
        """F3: the next page; the list has the keyboard, and Tab leads to its keys: a key pressed blind moves nobody."""
        if self._next.isVisible():
            self._turn()
        self.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down walk along the keys."""
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            (self.focusNextChild if event.key() == Qt.Key.Key_Down else self.focusPreviousChild)()
        else:
            super().keyPressEvent(event)

    def _grid(self) -> tuple[int, int, int]:
        """Columns, rows, and how many fit."""
        down = max(1, (self.height() + 12) // (Place.PORTAL + 12))
        most = max(1, self.width() // (200 if self.width() > 500 or len(self._rows) <= 6 else 130))
        columns = min(most, -(-len(self._rows) // down)) or 1
        return columns, down, columns * down

    def _shown(self) -> tuple[PersonRow, ...]:
        _columns, _down, room = self._grid()
        if len(self._rows) <= room:
            return self._rows
        inside = [row for row in self._rows if row.inside]
        others = [row for row in self._rows if not row.inside]
        step = max(1, room - 1 - len(inside))
        pages = max(1, -(-len(others) // step))
        self._page %= pages
        return (*inside, *others[self._page * step : (self._page + 1) * step])

    def _turn(self) -> None:
        self._page += 1
        self._place()

    def _place(self) -> None:
        columns, down, room = self._grid()
        shown = self._shown()
        while len(self._tiles) < len(shown):
            tile = PersonTile(self)
            tile.goes_in.connect(self.goes_in)
            tile.comes_out.connect(self.comes_out)
            self._tiles.append(tile)
        paged = len(self._rows) > room
        cells = len(shown) + paged
        down = max(down, -(-cells // columns))
        used = max(1, min(down, cells))
        wide = (self.width() - 12 * (columns - 1)) / columns
        tallest = 76 if down > 2 and used > 2 else 116
        high = min(tallest, (self.height() - 12 * (used - 1)) / used)
        for at, tile in enumerate(self._tiles):
            tile.setVisible(at < len(shown))
            if at < len(shown):
                column, line = divmod(at, used)
                tile.setGeometry(round(column * (wide + 12)), round(line * (high + 12)), round(wide), round(high))
                tile.show_row(shown[at])
        self._next.setVisible(paged)
        if paged:
            column, line = divmod(len(shown), used)
            self._next.setGeometry(round(column * (wide + 12)), round(line * (high + 12)), round(wide), round(high))
            step = max(1, room - 1 - sum(row.inside for row in self._rows))
            pages = max(1, -(-sum(not row.inside for row in self._rows) // step))
            self._next.set_words(say("watch.page", page=self._page % pages + 1, pages=pages), "F3")

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Other columns in another room."""
        self._place()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Words where nobody is; a ring round the list while it has the keyboard."""
        if self.hasFocus():
            look, painter = look_of(self), QPainter(self)
            painter.setPen(QPen(look.colour(Role.FOCUS), 4))
            painter.drawRect(self.rect().adjusted(2, 2, -2, -2))
        if not self._rows:
            look, painter = look_of(self), QPainter(self)
            painter.setPen(QPen(look.colour(Role.TEXT)))
            write(painter, look, QRectF(0, 0, self.width(), 76), self._words, Letter.TITLE, bold=True, wrap=True)
