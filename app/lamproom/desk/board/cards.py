"""Permits as cards: a whole card is one press. Overdue ones are wide and carry the only fill."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QAbstractButton, QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.fonts import letter
from lamproom.desk.parts.button import Button
from lamproom.desk.parts.label import Label, StateWord
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.parts.time_rule import RuleView, TimeRule
from lamproom.desk.signs import Sign, SignLabel, draw_sign
from lamproom.desk.theme import RADIUS, Letter, Place, Role, look_of
from lamproom.office.views.board_cards import Card, Rule
from lamproom.words import say


def rule_view(rule: Rule, at: datetime, tick: float, major: int) -> RuleView:
    """The rule of a card in seconds, for the widget that draws it."""
    return RuleView(
        start=rule.start.timestamp(),
        end=rule.end.timestamp(),
        now=at.timestamp(),
        due=rule.due.timestamp(),
        grace=rule.late.timestamp(),
        tick=tick,
        major=major,
        alarm=True,
        words=rule.words,
    )


class SignedLines(QWidget):
    """Lines of words, each with its sign before it; as many as there are."""

    def __init__(self, size: Letter = Letter.OFFICE, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._size = size
        self._rows: list[tuple[SignLabel, Label]] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(10)
        self._grid.setVerticalSpacing(7)
        self._grid.setColumnStretch(1, 1)

    def show_lines(self, lines: tuple[tuple[str, str], ...]) -> None:
        """Show these; the widgets of the lines before are used again."""
        while len(self._rows) < len(lines):
            row = (SignLabel(Sign.CLOCK, "", 18), Label("", self._size, wrap=True))
            row[1].setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(row[0], len(self._rows), 0, Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(row[1], len(self._rows), 1)
            self._rows.append(row)
        for at, (sign, label) in enumerate(self._rows):
            shown = at < len(lines)
            sign.setVisible(shown)
            label.setVisible(shown)
            if shown and label.text() != lines[at][1]:
                sign.set_sign(Sign[lines[at][0]], lines[at][1])
                label.setText(lines[at][1])
            elif shown and sign.sign is not Sign[lines[at][0]]:
                sign.set_sign(Sign[lines[at][0]], lines[at][1])


class InsideLine(QWidget):
    """How many are inside, in bold, and who."""

    def __init__(self, size: Letter = Letter.OFFICE) -> None:
        super().__init__()
        self._sign = SignLabel(Sign.PERSON, "", 18)
        self._count = Label("", size, bold=True)
        self._bold = True
        self._names = Label("", size, wrap=True)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(10)
        row.addWidget(self._sign, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self._count, 0, Qt.AlignmentFlag.AlignTop)
        self._names.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        row.addWidget(self._names, 1)

    def show_card(self, card: Card) -> None:
        self._count.setText(card.inside_words)
        if self._bold != (card.inside > 0):
            self._bold = card.inside > 0
            self._count.set_tone(Role.TEXT, bold=self._bold)
        self._names.setText(card.people)
        self._sign.set_sign(Sign.PERSON, card.inside_words)


def spoken(card: Card) -> str:
    """A card for a screen reader: space, state, who is inside, the rest."""
    lines = ". ".join(words for _sign, words in card.lines)
    inside = f"{card.inside_words} {card.people}".strip()
    return say("board.card", space=card.space, word=card.reason or card.word, inside=inside, lines=lines)


class SmallCard(QAbstractButton):
    """A permit under way or being prepared."""

    def __init__(self, card: Card, at: datetime, opened: Callable[[Card], None]) -> None:
        super().__init__()
        self.setObjectName(f"board.open.{card.number}")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        # A button lends its children the color of words on buttons; ours carry their own.
        self.setBackgroundRole(QPalette.ColorRole.Window)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._state = StateWord(Sign.DRAFT, "", Letter.TABLE)
        self._permit = Label("", Letter.SMALL, tone=Role.SECOND)
        self._space = Label("", Letter.HEAD, bold=True)
        self._place = Label("", Letter.SMALL, tone=Role.SECOND)
        self._inside = InsideLine()
        self._lines = SignedLines()
        self._rule = TimeRule()
        self._rule.setMinimumWidth(136)
        self._rule.setMaximumWidth(420)
        top = QHBoxLayout()
        top.addWidget(self._state)
        top.addStretch(1)
        top.addWidget(self._permit)
        name = QHBoxLayout()
        name.setSpacing(10)
        name.addWidget(self._space, 0, Qt.AlignmentFlag.AlignBottom)
        name.addWidget(self._place, 1, Qt.AlignmentFlag.AlignBottom)
        who = QHBoxLayout()
        who.addWidget(self._inside, 5)
        who.addWidget(self._rule, 3, Qt.AlignmentFlag.AlignBottom)
        page = QVBoxLayout(self)
        page.setContentsMargins(16, 12, 16, 14)
        page.setSpacing(7)
        for part in (top, name, who):
            page.addLayout(part)
        page.addWidget(self._lines)
        page.addStretch(1)
        # Words for what the press does; the whole card takes it.
        self._act = StateWord(Sign.RIGHT, "", Letter.SMALL, side=16)
        page.addWidget(self._act, 0, Qt.AlignmentFlag.AlignRight)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        for child in self.findChildren(QWidget):
            child.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._card = card
        self.clicked.connect(lambda: opened(self._card))
        self.show_card(card, at)

    def show_card(self, card: Card, at: datetime) -> None:
        """Another state of the same permit."""
        self._card = card
        self._state.set_state(Sign[card.sign], card.word)
        self._permit.setText(card.permit)
        self._space.setText(card.space)
        self._place.setText(card.place)
        self._inside.setVisible(card.opens == "watch")
        self._inside.show_card(card)
        self._lines.show_lines(card.lines)
        self._act.set_state(Sign.RIGHT, card.open_words)
        self._rule.setVisible(card.rule is not None)
        if card.rule is not None:
            self._rule.set_view(rule_view(card.rule, at, 300, 3))
        self.setAccessibleName(spoken(card))
        self.setAccessibleDescription(card.open_words)

    def paintEvent(self, event: QPaintEvent) -> None:
        """A border; heavier while pressed or under the pointer."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        strong = self.isDown() or self.underMouse()
        width = look.emphasis if strong else look.edge()
        painter.setPen(edge_pen(look.colour(Role.INK if strong else Role.EDGE), width))
        painter.setBrush(look.colour(Role.PANEL if self.isDown() else Role.GROUND))
        half = width / 2
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)


class Band(QWidget):
    """The filled part of an overdue card: the large sign and its few words."""

    WIDTH = 128

    def __init__(self) -> None:
        super().__init__()
        self._sign, self._words, self._danger = Sign.CAUTION, "", False
        self.setFixedWidth(self.WIDTH)

    def show_band(self, sign: Sign, words: str) -> None:
        self._sign, self._words, self._danger = sign, words, sign is Sign.DANGER
        self.setAccessibleName(words)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        look = look_of(self)
        painter = QPainter(self)
        label = look.colour(Role.DANGER_LABEL if self._danger else Role.CAUTION_LABEL)
        painter.fillRect(self.rect(), look.colour(Role.DANGER if self._danger else Role.CAUTION))
        painter.setFont(letter(look, Letter.TABLE, True))
        text = painter.fontMetrics().boundingRect(
            0, 0, self.width() - 12, 200, Qt.AlignmentFlag.AlignHCenter | Qt.TextFlag.TextWordWrap, self._words
        )
        side = look.px(60)
        top = (self.height() - side - 8 - text.height()) / 2
        draw_sign(painter, QRectF((self.width() - side) / 2, top, side, side), self._sign, look.theme, label)
        painter.setPen(label)
        painter.drawText(
            QRectF(6, top + side + 8, self.width() - 12, text.height() + 4),
            Qt.AlignmentFlag.AlignHCenter | Qt.TextFlag.TextWordWrap,
            self._words,
        )


class OverdueCard(QWidget):
    """A permit that waits for someone now."""

    def __init__(self, card: Card, at: datetime, opened: Callable[[Card], None]) -> None:
        super().__init__()
        self._card = card
        self._band = Band()
        self._space = Label("", Letter.HEAD, bold=True)
        self._place = Label("", Letter.SMALL, tone=Role.SECOND)
        self._reason = Label("", Letter.TABLE, bold=True, wrap=True)
        self._inside = InsideLine()
        self._lines = SignedLines()
        self._last = Label("", Letter.SMALL, tone=Role.SECOND)
        self._permit = Label("", Letter.SMALL, tone=Role.SECOND)
        self._rule = TimeRule()
        self._after = Label("", Letter.SMALL, wrap=True)
        self._open = Button("", place=Place.TRAILER)
        self._open.setObjectName(f"board.open.{card.number}")
        self._open.clicked.connect(lambda: opened(self._card))
        self._lay()
        self.show_card(card, at)

    def _lay(self) -> None:
        name = QHBoxLayout()
        name.setSpacing(10)
        name.addWidget(self._space, 0, Qt.AlignmentFlag.AlignBottom)
        name.addWidget(self._place, 1, Qt.AlignmentFlag.AlignBottom)
        left = QVBoxLayout()
        left.setSpacing(7)
        left.addLayout(name)
        for part in (self._reason, self._inside, self._lines):
            left.addWidget(part)
        left.addStretch(1)
        top = QHBoxLayout()
        top.setSpacing(16)
        top.addWidget(self._last, 1)
        top.addWidget(self._permit)
        bottom = QHBoxLayout()
        bottom.setSpacing(12)
        bottom.addWidget(self._after, 1)
        bottom.addWidget(self._open, 0, Qt.AlignmentFlag.AlignBottom)
        right = QVBoxLayout()
        right.setSpacing(6)
        right.addLayout(top)
        right.addWidget(self._rule)
        right.addStretch(1)
        right.addLayout(bottom)
        row = QHBoxLayout(self)
        row.setContentsMargins(2, 2, 14, 2)
        row.setSpacing(18)
        row.addWidget(self._band)
        inner = QHBoxLayout()
        inner.setContentsMargins(0, 10, 0, 10)
        inner.setSpacing(20)
        inner.addLayout(left, 5)
        inner.addLayout(right, 4)
        row.addLayout(inner, 1)

    def show_card(self, card: Card, at: datetime) -> None:
        """Another state of the same permit."""
        self._card = card
        self._band.show_band(Sign[card.sign], card.band)
        self._space.setText(card.space)
        self._place.setText(card.place)
        self._reason.setText(card.reason)
        self._inside.show_card(card)
        self._lines.show_lines(card.lines)
        self._last.setText(card.last)
        self._permit.setText(card.number)
        self._rule.setVisible(card.rule is not None)
        if card.rule is not None:
            self._rule.set_view(rule_view(card.rule, at, 60, 5))
        self._after.setText(card.after)
        if self._open.words != card.open_words:
            self._open.set_words(card.open_words)
        self._open.setAccessibleDescription(spoken(card))
        self.setAccessibleName(spoken(card))

    def paintEvent(self, event: QPaintEvent) -> None:
        """An ink edge of two pixels."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        half = look.emphasis / 2
        painter.setPen(edge_pen(look.colour(Role.INK), look.emphasis))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)


class EndedRow(QAbstractButton):
    """A permit that ended today: two lines."""

    def __init__(self, card: Card, at: datetime, opened: Callable[[Card], None]) -> None:
        super().__init__()
        self.setObjectName(f"board.open.{card.number}")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        # A button lends its children the color of words on buttons; ours carry their own.
        self.setBackgroundRole(QPalette.ColorRole.Window)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._sign = SignLabel(Sign.ENDED, "", 24)
        self._space = Label("", Letter.SMALL, bold=True)
        self._word = Label("", Letter.SMALL)
        self._detail = Label("", Letter.SMALL, tone=Role.SECOND)
        first = QHBoxLayout()
        first.setSpacing(8)
        first.addWidget(self._space)
        first.addWidget(self._word, 1)
        lines = QVBoxLayout()
        lines.setSpacing(1)
        lines.addLayout(first)
        lines.addWidget(self._detail)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 6, 6, 6)
        row.setSpacing(12)
        row.addWidget(self._sign)
        row.addLayout(lines, 1)
        for child in self.findChildren(QWidget):
            child.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._card = card
        self.clicked.connect(lambda: opened(self._card))
        self.show_card(card, at)

    def show_card(self, card: Card, at: datetime) -> None:
        """Another state of the same permit."""
        self._card = card
        self._sign.set_sign(Sign[card.sign], card.word)
        self._space.setText(card.space)
        self._word.setText(f"{card.word}, {card.number}")
        self._detail.setText(". ".join(words for _sign, words in card.lines))
        self.setAccessibleName(spoken(card))
        self.setAccessibleDescription(card.open_words)

    def paintEvent(self, event: QPaintEvent) -> None:
        """A rule above; a ground while pressed or under the pointer."""
        look = look_of(self)
        painter = QPainter(self)
        if self.isDown() or self.underMouse():
            painter.fillRect(self.rect(), look.colour(Role.PANEL))
        painter.fillRect(0, 0, self.width(), 1, look.colour(Role.RULE))
