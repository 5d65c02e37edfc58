"""A panel of the Watch: takes the place of the plot, never of the nine things. F2 does its act, Esc leaves it.

What was half typed is kept when a panel is left; codes never are.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign, draw_sign
from lamproom.desk.theme import Letter, Place, Role, look_of
from lamproom.desk.watch.cells import Cell
from lamproom.desk.watch.lettering import LEFT, frame, write
from lamproom.desk.watch.zones import Zones
from lamproom.office.office import Office
from lamproom.office.views.watch import WatchView
from lamproom.office.views.watch_typed import draft_owner
from lamproom.permit.state import Permit

Choice = tuple[str, str, Callable[[], None]]
"""A key beside a message: its object name, its words, what it does."""

STAYS = 10_000
"""Milliseconds that a message without a question stays."""


def put_away(widget: QWidget) -> None:
    """Take a widget off the screen for good. Qt deletes it later; until then its names belong to nobody."""
    for part in (widget, *widget.findChildren(QWidget)):
        part.setObjectName("")
    widget.hide()
    widget.deleteLater()


class Foot(QWidget):
    """One message with its sign, and up to three keys. It stands in a place kept for it."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("watch.message")
        self._sign, self._text = Sign.MUST, ""
        self._cells: list[Cell] = []
        self._timer = QTimer(self, singleShot=True, interval=STAYS)
        self._timer.timeout.connect(self.clear)
        self.hide()

    def say_it(
        self, sign: Sign, text: str, choices: Sequence[Choice] = (), leaves: bool = False, stays: bool = False
    ) -> None:
        """Show a message. With keys, or where it ``stays``, it stays until another comes or it is cleared; not when it
        ``leaves``."""
        if (sign, text) == (self._sign, self._text) and not choices and not self._cells and self.isVisible():
            return
        self._sign, self._text = sign, text
        self.setAccessibleName(text)
        for cell in self._cells:
            put_away(cell)
        self._cells = []
        for name, words, act in choices:
            cell = Cell(name, words, parent=self)
            cell.clicked.connect(lambda _checked=False, do=act: do())
            self._cells.append(cell)
            cell.show()
        self._place()
        self._timer.stop()
        if text and not stays and (leaves or not choices):
            self._timer.start()
        self.setVisible(bool(text or choices))
        self.raise_()
        self.update()

    def text(self) -> str:
        """What is said; empty when nothing is."""
        return "" if self.isHidden() else self._text

    def clear(self) -> None:
        """Nothing to say any more."""
        self.say_it(Sign.MUST, "")

    def _words_wide(self) -> int:
        if not self._cells:
            return self.width()
        return 0 if not self._text else max(self.width() - len(self._cells) * 112, round(self.width() * 0.36))

    def _place(self) -> None:
        if not self._cells:
            return
        left = self._words_wide()
        gap = 8 if left else 0
        wide = (self.width() - left - gap * len(self._cells)) / len(self._cells)
        for at, cell in enumerate(self._cells):
            cell.setGeometry(round(left + gap + at * (wide + gap)), 0, round(wide), self.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keys at the right."""
        self._place()

    def paintEvent(self, event: QPaintEvent) -> None:
        """An ink edge, sign and words."""
        look, painter = look_of(self), QPainter(self)
        wide = self._words_wide()
        if not wide:
            return
        painter.fillRect(self.rect(), look.colour(Role.GROUND))
        if not self._cells:
            frame(painter, self, look, edge=Role.INK)
        draw_sign(painter, QRectF(10, self.height() / 2 - 13, 26, 26), self._sign, look.theme)
        room = QRectF(44, 4, wide - 52, self.height() - 8)
        write(painter, look, room, self._text, Letter.BODY, bold=True, wrap=True, align=LEFT)


@dataclass(frozen=True)
class Post:
    """What a panel is given: the desk, the permit, the message line, and the ways to go on."""

    desk: Desk
    number: str
    foot: Foot
    leave: Callable[[], None]
    open: Callable[..., None]
    follow: Callable[[str], None]
    outside: Callable[[str], None]
    """Tell which figure outside its limit stands typed, in words (empty for none): the limit sounds before anything is
    asked or stored, and goes on while the figure is neither stored nor put right."""

    @property
    def office(self) -> Office:
        """The office behind the desk."""
        return self.desk.office

    @property
    def permit(self) -> Permit:
        """The permit as it stands now."""
        return self.office.permit(self.number)

    @property
    def by(self) -> str | None:
        """In whose name ordinary acts are recorded: the attendant on duty, else whoever is at the desk."""
        return self.permit.attendant or self.desk.person

    @property
    def drafts(self) -> str:
        """The owner of what is half typed here."""
        return draft_owner(self.number)

    def do(self, act: Callable[..., object], *args: Any, **kwargs: Any) -> bool:
        """Do an act on this permit; a refusal is said in the message line."""
        return self.desk.do(act, self.number, *args, **kwargs)

    def say(self, sign: Sign, text: str, choices: Sequence[Choice] = ()) -> None:
        """Say something in the message line."""
        self.foot.say_it(sign, text, choices)


class Panel(QWidget):
    """The base. ``acts`` are the words of F2, empty where each key of the panel acts by itself."""

    mode = "panel"

    def __init__(self, post: Post, parent: QWidget, name: str, title: str, acts: str = "") -> None:
        super().__init__(parent)
        self.setObjectName(f"watch.panel.{name}")
        self.setAccessibleName(title)
        self.post, self.name, self.acts = post, name, acts
        self._fields: dict[str, Field] = {}
        self._title = Label(title, Letter.HEAD, bold=True)
        self._title.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        page.addWidget(self._title)
        self.body = QGridLayout()
        self.body.setContentsMargins(0, 0, 0, 0)
        self.body.setHorizontalSpacing(12)
        self.body.setVerticalSpacing(8)
        page.addLayout(self.body, 1)

    def set_title(self, title: str) -> None:
        """Another title."""
        self._title.setText(title)
        self.setAccessibleName(title)

    def hide_title(self) -> None:
        """Keys need all the height; the title stays the panel's accessible name."""
        self._title.hide()

    def place(self, zones: Zones) -> None:
        """Take its room."""
        self.setGeometry(zones.panel)

    def act(self) -> None:
        """What F2 does."""

    def refresh(self, view: WatchView) -> None:
        """The view changed, or a second passed."""

    def begin(self) -> None:
        """Shown: give the keyboard to the first thing to do."""
        first = next(iter(self._fields.values()), None)
        cells = self.findChildren(Cell)
        target = first.box if first is not None else next((cell for cell in cells if cell.isEnabled()), self)
        target.setFocus(Qt.FocusReason.OtherFocusReason)

    def end(self) -> None:
        """About to be taken away."""
        put_away(self)

    # Fields -----------------------------------------------------------------------------------------------------------

    def field(self, field: str, label: str, *, secret: bool = False, optional: bool = False) -> Field:
        """A field to type words in; what is half typed is kept, unless it is a code."""
        made = Field(label, place=Place.PORTAL, secret=secret, optional=optional)
        made.box.setObjectName(f"watch.{self.name}.{field}")
        if secret:
            made.entered.connect(lambda _text: None)
        else:
            made.set_draft(self.post.desk.draft(self.post.drafts, f"{self.name}.{field}"))
            made.typing.connect(lambda text: self._keep(field, text))
            made.committed.connect(lambda text: self._keep(field, text))
        self._fields[field] = made
        return made

    def _keep(self, field: str, text: str) -> None:
        self.post.desk.keep_draft(self.post.drafts, f"{self.name}.{field}", text)

    def text(self, field: str) -> str:
        """What stands in a field."""
        return self._fields[field].text()

    def done(self) -> None:
        """The act is stored: nothing half typed is left, the panel goes."""
        for field, made in self._fields.items():
            made.set_text("")
            self._keep(field, "")
        self.post.leave()


class Pick(QWidget):
    """One of several as large keys side by side; nothing is chosen for anyone unless there is only one."""

    def __init__(
        self,
        name: str,
        label: str,
        options: Sequence[tuple[str, str, str]],
        *,
        lone: bool = False,
        across: bool = True,
        long: bool = False,
    ) -> None:
        super().__init__()
        self.setAccessibleName(label)
        self._cells: dict[str, Cell] = {}
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(2)
        page.addWidget(Label(label, Letter.TABLE, bold=True))
        row: QHBoxLayout | QVBoxLayout = QHBoxLayout() if across else QVBoxLayout()
        row.setSpacing(12 if across else 8)
        page.addLayout(row, 1)
        for value, words, barred in options:
            # Long words need all the room of the key: why it is barred stands in the same text.
            told, below = (f"{words}\n({barred})", "") if long and barred else (words, barred)
            cell = Cell(f"{name}.{value}", told, below, size=Letter.TABLE)
            cell.setCheckable(True)
            cell.setMaximumHeight(Place.PORTAL + (36 if long else 12))
            cell.setEnabled(not barred)
            cell.clicked.connect(lambda _checked=False, chosen=value: self.choose(chosen))
            self._cells[value] = cell
            row.addWidget(cell, 1)
        if lone and len(options) == 1:
            self.choose(options[0][0])

    def choose(self, value: str) -> None:
        """Choose one."""
        for known, cell in self._cells.items():
            cell.setChecked(known == value)

    def value(self) -> str:
        """The one chosen; empty when none is."""
        return next((value for value, cell in self._cells.items() if cell.isChecked()), "")
