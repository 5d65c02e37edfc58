"""The Board: reading order is need. Overdue first, then under way, being prepared, ended today."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QScrollArea, QStackedWidget, QVBoxLayout, QWidget

from lamproom.desk.board.cards import EndedRow, OverdueCard, SmallCard
from lamproom.desk.board.coming import Coming
from lamproom.desk.board.ready_list import ReadyList
from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.label import Label
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role
from lamproom.office.views.board import BoardView, board
from lamproom.office.views.board_cards import Card
from lamproom.words import say

if TYPE_CHECKING:
    from lamproom.desk.board.duty import Duty
    from lamproom.desk.board.new_permit import NewPermit

CardWidget = OverdueCard | SmallCard | EndedRow
RIGHT, RIGHT_PANEL = 336, 440
"""Width of the column at the right, logical pixels; and of a panel there that asks, so that roles are read whole."""

CARD = 440
"""A card is at least so wide, logical pixels: three stand beside each other on a large screen, two on a small one."""


class _Section(QWidget):
    """A heading with its count, and its cards in columns."""

    def __init__(
        self, title: str, make: Callable[[Card, datetime, Callable[[Card], None]], CardWidget], narrowest: int
    ) -> None:
        super().__init__()
        self._make, self._narrowest, self._columns = make, narrowest, 0
        self._count = Label("", Letter.SMALL, tone=Role.SECOND)
        self._cards: dict[str, CardWidget] = {}
        head = QHBoxLayout()
        head.setSpacing(8)
        head.addWidget(Label(title, Letter.OFFICE, bold=True))
        head.addWidget(self._count, 1)
        self._grid = QGridLayout()
        self._grid.setSpacing(12)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        page.addLayout(head)
        page.addLayout(self._grid)
        self.setAccessibleName(title)

    def show_cards(self, cards: tuple[Card, ...], count: str, at: datetime, opened: Callable[[Card], None]) -> None:
        """Show these; a card that stays keeps its widget and with it the focus."""
        self.setVisible(bool(cards))
        self._count.setText(count)
        if [card.number for card in cards] != list(self._cards):
            self._arrange(cards, at, opened)
        for card in cards:
            self._cards[card.number].show_card(card, at)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """As many columns as the room has place for and the cards fill; a lone card keeps the width of one of two."""
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        fit = max(self.width() // self._narrowest, 1) if self._narrowest else 1
        columns = max(min(fit, max(len(self._cards), 2)), 1)
        for column in range(max(columns, self._columns)):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)
        self._columns = columns
        for place, widget in enumerate(self._cards.values()):
            self._grid.addWidget(widget, place // columns, place % columns)

    def _arrange(self, cards: tuple[Card, ...], at: datetime, opened: Callable[[Card], None]) -> None:
        kept = {card.number: self._cards.pop(card.number, None) for card in cards}
        for gone in self._cards.values():
            self._grid.removeWidget(gone)
            gone.hide()
            gone.deleteLater()
        self._cards = {}
        for card in cards:
            widget = kept[card.number] or self._make(card, at, opened)
            self._cards[card.number] = widget
        self._place()


class BoardScreen(QWidget):
    """The screen that Lamproom opens on."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._title = Label("", Letter.TITLE, bold=True)
        self._hand = Button(say("board.hand_over"), sign=Sign.PERSON, keys="Ctrl+H")
        self._hand.setObjectName("board.hand-over")
        self._hand.clicked.connect(lambda: self.hand_over())
        self._new = Button(say("board.new_permit"), Kind.MAIN, sign=Sign.PLUS, keys="Ctrl+N")
        self._new.setObjectName("board.new-permit")
        self._new.clicked.connect(lambda _checked=False: self.new_permit())
        self._overdue = _Section(say("board.overdue"), OverdueCard, 0)
        self._under_way = _Section(say("board.under_way"), SmallCard, CARD)
        self._preparing = _Section(say("board.preparing"), SmallCard, CARD)
        self._ended = _Section(say("board.ended"), EndedRow, CARD)
        self._empty = Label(say("board.empty"), Letter.BODY, wrap=True)
        self._empty_next = Label(say("board.empty_next"), Letter.TABLE, tone=Role.SECOND, wrap=True)
        self._coming = Coming()
        self._ready = ReadyList()
        self._waits_for_person = False
        self._after = ""
        self._side = QStackedWidget()
        self._lay()
        desk.changed.connect(lambda _streams: self._follow())
        desk.ticked.connect(self._follow)

    # The two panels are loaded and made when they are first asked for: the Board is painted sooner without them.

    @cached_property
    def _permit_panel(self) -> NewPermit:
        from lamproom.desk.board.new_permit import NewPermit

        panel = NewPermit(self._desk)
        panel.left.connect(self._close_panel)
        panel.opened.connect(self._opened_draft)
        self._side.addWidget(panel)
        return panel

    @cached_property
    def _duty(self) -> Duty:
        from lamproom.desk.board.duty import Duty

        panel = Duty(self._desk)
        panel.left.connect(self._duty_left)
        self._side.addWidget(panel)
        return panel

    def _lay(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(12)
        head.setContentsMargins(4, 0, 0, 0)
        head.addWidget(self._title, 1)
        head.addWidget(self._hand)
        head.addWidget(self._new)
        left = QWidget()
        left.setProperty("ground", "clear")
        column = QVBoxLayout(left)
        column.setContentsMargins(4, 4, 12, 8)
        column.setSpacing(14)
        for part in (self._empty, self._empty_next, self._overdue, self._under_way, self._preparing, self._ended):
            column.addWidget(part)
        column.addStretch(1)
        watching = QWidget()
        watching.setProperty("ground", "clear")
        beside = QVBoxLayout(watching)
        beside.setContentsMargins(0, 0, 0, 8)
        beside.setSpacing(12)
        beside.addWidget(self._coming)
        beside.addWidget(self._ready)
        beside.addStretch(1)
        self._side.addWidget(_scrolled(watching))
        self._side.setFixedWidth(RIGHT)
        body = QHBoxLayout()
        body.setSpacing(12)
        body.addWidget(_scrolled(left), 1)
        body.addWidget(self._side)
        page = QVBoxLayout(self)
        page.setContentsMargins(20, 12, 24, 0)
        page.setSpacing(10)
        page.addLayout(head)
        page.addLayout(body, 1)

    def show_where(self, **where: str) -> None:
        """``new`` (any text) opens the panel for a new permit, ``duty`` the one for who is at the desk."""
        if self.isVisible():  # else it is painted as it is shown, and once is enough
            self.refresh()
        if "new" in where or where.get("target") == "new":
            self.new_permit(where.get("permit", ""))
        elif "duty" in where:
            self.hand_over()

    def _follow(self) -> None:
        if self.isVisible():
            self.refresh()

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what happened while another place was shown."""
        super().showEvent(event)
        self.refresh()

    def refresh(self) -> None:
        """Judge everything anew: a permit turns late, or its hours end, by the clock alone."""
        view = board(self._desk.office)
        self._title.setText(say("board.title", site=view.site) if view.site else say("board.title_without_site"))
        self._empty.setVisible(view.empty)
        self._empty_next.setVisible(view.empty)
        self._show_sections(view)
        self._coming.show_lines(view.coming)
        self._ready.show_lines(view.instruments, view.at, self._desk.office.zone)

    def _show_sections(self, view: BoardView) -> None:
        for section, cards, count in (
            (self._overdue, view.overdue, view.overdue_count),
            (self._under_way, view.under_way, view.under_way_count),
            (self._preparing, view.preparing, view.preparing_count),
            (self._ended, view.ended, view.ended_count),
        ):
            section.show_cards(cards, count, view.at, self._open)

    def _open(self, card: Card) -> None:
        where = {"permit": card.number}
        if card.target:
            where["target"] = card.target
        self._desk.go(card.opens, **where)

    def new_permit(self, after: str = "") -> None:
        """Choose a space; whoever opens a permit says first who they are. ``after``: the permit that it follows."""
        self._after = after
        if self._desk.person is None:
            self._waits_for_person = True
            self.hand_over(say("board.say_who_first"))
            return
        self._side.setFixedWidth(RIGHT_PANEL)
        self._side.setCurrentWidget(self._permit_panel)
        self._permit_panel.begin(after)

    def hand_over(self, why: str = "") -> None:
        """Say who is at the desk."""
        self._side.setFixedWidth(RIGHT_PANEL)
        self._side.setCurrentWidget(self._duty)
        self._duty.begin(why)

    def _duty_left(self) -> None:
        waited, self._waits_for_person = self._waits_for_person, False
        if waited and self._desk.person is not None:
            self.new_permit(self._after)
        else:
            self._close_panel(self._hand)

    def _close_panel(self, back: QWidget | None = None) -> None:
        self._side.setCurrentIndex(0)
        self._side.setFixedWidth(RIGHT)
        (back or self._new).setFocus()

    def _opened_draft(self, number: str) -> None:
        self._close_panel()
        self._desk.go("workbook", permit=number)


def _scrolled(inner: QWidget) -> QScrollArea:
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(inner)
    return area
