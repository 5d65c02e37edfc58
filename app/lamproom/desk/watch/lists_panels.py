"""Panels of keys: what changed, everything else, what stands in the way, the log."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QListWidget, QWidget

from lamproom.desk.carry_over import may_follow
from lamproom.desk.fonts import letter
from lamproom.desk.parts.obstacle_list import ObstacleRow
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place, Role, look_of
from lamproom.desk.watch.cells import Cell
from lamproom.desk.watch.lettering import write
from lamproom.desk.watch.panel import Panel, Post, put_away
from lamproom.desk.watch.stands import StandsPane
from lamproom.office.go_in import go_in
from lamproom.office.report_condition import report_condition
from lamproom.office.stop_fan import stop_fan
from lamproom.office.views.cautions import CautionLine
from lamproom.office.views.story import story
from lamproom.office.views.watch import ConditionCell, ObstacleLine, WatchView, watched
from lamproom.office.views.watch_log import LogSet, log_sets
from lamproom.words import say

COLUMNS = 4


class Grid:
    """Keys as high as a gloved finger needs; what does not fit stands on another page, one key away."""

    GAP = 12

    def __init__(self, panel: Panel, keys: Sequence[Cell], name: str) -> None:
        self._panel, self._keys, self._page = panel, list(keys), 0
        panel.hide_title()
        for cell in self._keys:
            cell.setParent(panel)
        self._turn = Cell(name, "", sign=Sign.RIGHT, size=Letter.TABLE, parent=panel)
        self._turn.clicked.connect(self._next)
        panel.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def _next(self) -> None:
        self._page += 1
        self.lay()

    def lay(self) -> None:
        """Place the keys of this page; the key to the next page is the last."""
        top, gap = 0, self.GAP
        wide = (self._panel.width() - gap * (COLUMNS - 1)) // COLUMNS
        room = self._panel.height() - top
        lines = max(1, (room + gap) // (Place.PORTAL + gap))
        fits = lines * COLUMNS
        paged = len(self._keys) > fits
        step = fits - 1 if paged else fits
        pages = max(1, -(-len(self._keys) // step))
        self._page %= pages
        shown = self._keys[self._page * step : (self._page + 1) * step]
        used = lines if paged else max(1, -(-len(shown) // COLUMNS))
        high = min(96, (room - gap * (used - 1)) // used)
        for cell in self._keys:
            cell.setVisible(cell in shown)
        places = [(cell, at) for at, cell in enumerate(shown)]
        self._turn.setVisible(paged)
        if paged:
            self._turn.set_words(say("watch.page", page=self._page + 1, pages=pages), "", Sign.RIGHT)
            places.append((self._turn, fits - 1))
        for cell, at in places:
            line, column = divmod(at, COLUMNS)
            cell.setGeometry(column * (wide + gap), top + line * (high + gap), wide, high)


class ConditionsPanel(Panel):
    """One key for each condition of the form; one press reports it, nothing is asked."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "conditions", say("watch.panel.conditions"))
        self._cells: dict[str, Cell] = {}
        for line in post.permit.form.conditions:
            cell = Cell(f"watch.condition.{line.id}", "", size=Letter.TABLE)
            cell.clicked.connect(lambda _checked=False, id=line.id: self._press(id))
            self._cells[line.id] = cell
        keys = list(self._cells.values())
        if post.permit.fan is not None:
            fan = Cell("watch.condition.fan-stopped", say("watch.condition.fan"), sign=Sign.DANGER, size=Letter.TABLE)
            fan.clicked.connect(self._fan)
            keys.insert(0, fan)  # it calls everyone out: never a page away
        if post.permit.opened.evaluated.isolation:
            release = Cell(
                "watch.condition.release", say("watch.condition.release"), sign=Sign.DANGER, size=Letter.TABLE
            )
            release.clicked.connect(lambda _checked=False: post.open("release"))
            keys.insert(1 if post.permit.fan is not None else 0, release)
        self._grid = Grid(self, keys, "watch.conditions.page")

    def begin(self) -> None:
        """No key that calls everyone out has the keyboard until someone goes to it."""
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self.post.foot.say_it(Sign.MUST, say("watch.panel.conditions"), stays=True)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keys of a gloved finger's size, on another page where they do not fit."""
        self._grid.lay()

    def refresh(self, view: WatchView) -> None:
        """Which stand reported."""
        for one in view.conditions:
            self._cells[one.id].set_words(one.words, self._below(one), Sign.DANGER if one.stays else Sign.REFUSED)

    @staticmethod
    def _below(one: ConditionCell) -> str:
        return say("watch.condition.since", time=one.since) if one.since else ""

    def _press(self, condition: str) -> None:
        if condition in self.post.permit.conditions:
            self.post.open("clear", condition=condition)
        elif self.post.do(report_condition, condition, by=self.post.by):
            self.post.leave()

    def _fan(self) -> None:
        if self.post.do(stop_fan, say("watch.condition.fan_why"), by=self.post.by):
            self.post.leave()


@dataclass(frozen=True, slots=True)
class MoreAct:
    """One key of More: the panel it opens, and whether it is for now."""

    panel: str
    words: str
    now: bool


def more_acts(post: Post) -> tuple[MoreAct, ...]:
    """Everything that is not on the face of the Watch. What is not for now stays in its place, dashed."""
    permit = post.permit
    running = permit.running
    nobody = not permit.tally.inside
    unnamed = any(trip.unknown and not trip.name for trip in permit.tally.trips)
    on_break = permit.pause is not None
    return (
        MoreAct("take", say("watch.more.take"), permit.closed_out is None)
        if permit.attendant is None
        else MoreAct("relieve", say("watch.more.relieve"), permit.closed_out is None),
        MoreAct("back", say("watch.more.back"), True)
        if on_break
        else MoreAct("break", say("watch.more.break"), running and nobody and permit.stop is None),
        MoreAct("endorse", say("watch.more.endorse"), running and not on_break)
        if permit.stop is None and permit.awaits is not None
        else MoreAct("determine", say("watch.more.determine"), permit.stop is not None and running),
        MoreAct("step", say("watch.more.step"), running),
        MoreAct("extend", say("watch.more.extend"), running and permit.form.extend),
        MoreAct("end", say("watch.more.end"), permit.ended is None),
        MoreAct("close", say("watch.more.close"), permit.ended is not None and nobody and permit.closed_out is None),
        MoreAct("name", say("watch.more.name"), unnamed),
        *((MoreAct("again", say("watch.again"), True),) if may_follow(post.office, post.number) else ()),
        MoreAct("note", say("watch.more.note"), True),
        MoreAct("stands", say("watch.more.stands"), True),
        MoreAct("sound", say("watch.more.sound"), True),
        MoreAct("board", say("watch.more.board"), True),
    )


class MorePanel(Panel):
    """All the rest, one key each."""

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "more", say("watch.panel.more"))
        keys = []
        others = [one for one in watched(post.office) if one[0] != post.number]
        acts = more_acts(post)
        for one in sorted(acts, key=lambda act: not act.now) if others else acts:
            cell = Cell(f"watch.more.{one.panel}", one.words, size=Letter.TABLE)
            cell.setEnabled(one.now)
            cell.clicked.connect(lambda _checked=False, panel=one.panel: self.post.open(panel))
            keys.append(cell)
        for number, space in others[:COLUMNS]:
            cell = Cell(f"watch.more.permit.{number}", space, number, size=Letter.TABLE)
            cell.clicked.connect(lambda _checked=False, other=number: self.post.open("permit", number=other))
            keys.insert(sum(key.isEnabled() for key in keys), cell)
        self._grid = Grid(self, keys, "watch.more.page")

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keys of a gloved finger's size; what is not for now gives way to another permit."""
        self._grid.lay()


def obstacle_rows(lines: Sequence[ObstacleLine]) -> tuple[ObstacleRow, ...]:
    """Obstacles as the shared list shows them."""
    return tuple(ObstacleRow(one.code, one.sentence, one.clears, one.rule, one.target) for one in lines)


def caution_rows(lines: Sequence[CautionLine]) -> tuple[ObstacleRow, ...]:
    """Cautions as rows of the same list: without a way out, since nothing is to be cleared."""
    return tuple(
        ObstacleRow(one.code, say("watch.cautions.row", words=one.words), "", one.rule, "", Sign.CAUTION)
        for one in lines
    )


class StandsPanel(Panel):
    """What stands in the way; and, for someone who goes in all the same, the fact in one press."""

    def __init__(self, post: Post, parent: QWidget, person: str = "") -> None:
        self._person = person
        name = post.office.names().get(person, person)
        acts = say("watch.stands.act") if person else ""
        title = say("watch.stands.person", name=name) if person else say("watch.stands")
        super().__init__(post, parent, "stands", title, acts)
        self._list = StandsPane("watch.stands.list")
        self._list.chosen.connect(post.follow)
        self.body.addWidget(self._list, 0, 0)

    def begin(self) -> None:
        """The first way out has the keyboard."""
        self._list.focus_first()

    def refresh(self, view: WatchView) -> None:
        """The same words as everywhere."""
        self._list.set_obstacles(obstacle_rows(view.obstacles), caution_rows(view.cautions))

    def act(self) -> None:
        """Against the tool: a fact, with what stood."""
        if self._person and self.post.do(go_in, self._person, against=True, by=self.post.by):
            self.done()


class _FigureCell(Cell):
    """A figure of the log: what was struck stays readable above what holds."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(name, "", parent=parent)
        self.struck: tuple[str, ...] = ()
        self.gas = ""
        self.bad = False

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        look, painter = look_of(self), QPainter(self)
        if self.struck:
            font = letter(look, Letter.SMALL)
            painter.setFont(font)
            painter.setPen(QPen(look.colour(Role.TEXT), 2))
            old = self.struck[-1]
            wide = painter.fontMetrics().horizontalAdvance(old)
            painter.drawText(8, 20, old)
            painter.drawLine(5, 14, 11 + wide, 14)
        room = QRectF(6, self.height() - 24, self.width() - 12, 20)
        write(painter, look, room, self.gas, 14, align=Qt.AlignmentFlag.AlignCenter)


class LogPanel(Panel):
    """Sets of readings, newest first, each figure a key to its correction; and all events as lines."""

    SHOWN = 3

    def __init__(self, post: Post, parent: QWidget) -> None:
        super().__init__(post, parent, "log", say("watch.log"))
        self._sets: tuple[LogSet, ...] = log_sets(post.office, post.number)
        self._from = 0
        self._all = False
        self._made: list[QWidget] = []
        self._events = QListWidget()
        self._events.setObjectName("watch.log.events")
        self._events.setWordWrap(True)
        self._events.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._events.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self._fill()

    def refresh(self, view: WatchView) -> None:
        """A set more, or a correction."""
        sets = log_sets(self.post.office, self.post.number)
        if sets != self._sets:
            self._sets = sets
            self._fill()

    def _fill(self) -> None:
        for widget in self._made:
            self.body.removeWidget(widget)
            put_away(widget)
        self._made = []
        self._events.setVisible(self._all)
        self.set_title(say("watch.log.events" if self._all else "watch.log"))
        if self._all:
            self._lines()
        else:
            for at, one in enumerate(self._sets[self._from : self._from + self.SHOWN]):
                self._row(at, one)
            if not self._sets:
                self._add(_plain(say("watch.log.none")), 0, 0)
        keys = (
            ("newer", say("watch.log.newer"), self._from > 0 and not self._all),
            ("older", say("watch.log.older"), self._from + self.SHOWN < len(self._sets) and not self._all),
            ("all", say("watch.log.sets" if self._all else "watch.log.all"), True),
        )
        for at, (name, words, now) in enumerate(keys):
            cell = Cell(f"watch.log.{name}", words, size=Letter.TABLE)
            cell.setEnabled(now)
            cell.clicked.connect(lambda _checked=False, key=name: self._turn(key))
            cell.setMinimumWidth(96)
            self._add(cell, at, 9)

    def _add(self, widget: QWidget, line: int, column: int, span: int = 1) -> None:
        self.body.addWidget(widget, line, column, 1, span)
        self._made.append(widget)

    def _row(self, at: int, one: LogSet) -> None:
        self._add(_plain(f"{one.time}\n{one.place}\n{one.by}"), at, 0)
        for column, figure in enumerate(one.figures[:8], 1):
            cell = _FigureCell(f"watch.log.{one.version}.{figure.gas}")
            cell.set_words(figure.figure, " ", Sign.DANGER if figure.outside else None)
            cell.struck, cell.gas = figure.struck, figure.name
            name = say("watch.log.figure", gas=figure.name, figure=figure.figure, time=one.time, place=one.place)
            cell.setAccessibleName(name)
            cell.clicked.connect(lambda _c=False, v=one.version, gas=figure.gas: self._correct(v, gas))
            self._add(cell, at, column)
        self.body.setColumnStretch(0, 2)
        for column in range(1, 9):
            self.body.setColumnStretch(column, 2 if column <= len(one.figures) else 0)

    def _correct(self, version: int, gas: str) -> None:
        self.post.open("correct", version=version, gas=gas)

    def _lines(self) -> None:
        self._events.clear()
        self._events.setFont(letter(look_of(self), Letter.TABLE))
        for line in reversed(story(self.post.office, self.post.number)):
            detail = line.detail
            if line.struck:
                changed = say("watch.log.corrected", old=line.struck, new=line.put_right)
                detail = ", ".join(part for part in (changed, detail) if part)
            told = ", ".join(part for part in (line.what, detail) if part)
            self._events.addItem(say("watch.log.line", time=line.clock, told=told))
        self.body.addWidget(self._events, 0, 0, 3, 9)

    def _turn(self, key: str) -> None:
        if key == "all":
            self._all = not self._all
        else:
            self._from = max(0, self._from + (self.SHOWN if key == "older" else -self.SHOWN))
        self._fill()


class _Plain(QWidget):
    """A few lines that fit their place."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self._text = text
        self.setAccessibleName(text.replace("\n", ", "))

    def paintEvent(self, event: QPaintEvent) -> None:
        """The lines."""
        room = QRectF(0, 0, self.width(), self.height())
        write(QPainter(self), look_of(self), room, self._text, Letter.TABLE, bold=True, wrap=True)


def _plain(text: str) -> QWidget:
    return _Plain(text)
