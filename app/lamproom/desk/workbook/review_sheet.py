"""Sheet 8, review and authorize: left what is signed, right the signing, read downward."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk, Question
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.ink_pad import InkPad
from lamproom.desk.parts.label import Label, rule
from lamproom.desk.parts.notice import MessageLine
from lamproom.desk.parts.obstacle_list import ObstacleList, ObstacleRow
from lamproom.desk.parts.strokes import edge_pen
from lamproom.desk.signs import Sign, SignLabel
from lamproom.desk.theme import RADIUS, Letter, Place, Role, look_of
from lamproom.desk.workbook.permit_sheet import PermitSheet, Press, head, scrolling
from lamproom.desk.workbook.review_rows import ReviewRows
from lamproom.office.authorise import authorise
from lamproom.office.views.review_sheet import ReviewView, review_view
from lamproom.permit.events import Ink
from lamproom.words import say, say_count

_RIGHT, _GAPS, _PAD = 412, 330, 96
_NO_BOUND = 16_777_215
"""Pixels: a part may be as high as its place."""


class ReviewSheet(PermitSheet):
    """The sheet. The button stays enabled: with gaps it lists them, in the same words as everywhere, with links."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "review", parent)
        self._view: ReviewView | None = None
        self.finding = _Finding()
        self.gaps = ObstacleList()
        self.gaps.setObjectName("workbook.review.gaps")
        self.rows = ReviewRows()
        self.sign_head = head(say("sheets.review.sign_title"))
        self.barred = Label(size=Letter.TABLE, wrap=True)
        self.barred.setObjectName("workbook.review.barred")
        self.meaning_head = Label(say("sheets.review.meaning_head"), Letter.SMALL, tone=Role.SECOND)
        self.meaning = Label(size=Letter.TABLE, wrap=True)
        self.citation = Label(say("sheets.review.citation"), Letter.SMALL, tone=Role.SECOND)
        self.ink = InkPad("", high=_PAD)
        self.ink.pad.setObjectName("workbook.review.ink")
        clear, by_key = self.ink.findChildren(Button)[:2]
        clear.setObjectName("workbook.review.ink-clear")
        by_key.setObjectName("workbook.review.by-key")
        self.code = Field(say("sheets.review.code"), secret=True)
        self.code.box.setObjectName("workbook.review.code")
        self.version = Label(size=Letter.SMALL, tone=Role.SECOND)
        self.fingerprint = Label(size=Letter.BODY, bold=True)
        self.message = MessageLine()
        self.do = Button(say("sheets.review.authorise_open"), Kind.MAIN, sign=Sign.PEN, size=Letter.BODY)
        self.do.setObjectName("workbook.review.authorise")
        self.do.setMinimumHeight(56)
        self.after = Label(say("sheets.review.if_changed"), Letter.SMALL, tone=Role.SECOND, wrap=True)
        self.watch = Button(say("sheets.review.go_watch"), Kind.MAIN)
        self.watch.setObjectName("workbook.review.go-watch")
        self.more = Press("", Kind.LINK)
        self.more.setObjectName("workbook.review.more")
        self.back = Button(say("sheets.review.back"), Kind.LINK)
        self.back.setObjectName("workbook.review.back")
        self._rows_asked = False
        self._seen = 0
        for part in (self.gaps, self.watch, self.more, self.back):
            part.hide()
        self._lay()
        self._connect()

    def _lay(self) -> None:
        inner = QWidget()
        page = QVBoxLayout(inner)
        page.setContentsMargins(0, 0, 8, 8)
        page.setSpacing(10)
        page.addWidget(self.rows)
        page.addStretch(1)
        self.gaps.setMaximumHeight(_GAPS)
        left = QVBoxLayout()
        left.setContentsMargins(18, 12, 6, 8)
        left.setSpacing(10)
        left.addWidget(self.finding)
        left.addWidget(self.back, 0, Qt.AlignmentFlag.AlignLeft)
        left.addWidget(self.gaps, 1)
        self.area = scrolling(inner)
        left.addWidget(self.area, 2)
        left.addWidget(self.more, 0, Qt.AlignmentFlag.AlignLeft)
        self.signing = QWidget()
        self.signing.setLayout(self._lay_signing())
        self.signing.setFixedWidth(_RIGHT)
        whole = QHBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addLayout(left, 1)
        whole.addWidget(rule(vertical=True, strong=True))
        whole.addWidget(self.signing)

    def _lay_signing(self) -> QVBoxLayout:
        """What is read and signed scrolls when the window is low; what is pressed stays in sight below it."""
        inner = QWidget()
        signed = QVBoxLayout(inner)
        signed.setContentsMargins(18, 12, 20, 4)
        signed.setSpacing(6)
        signed.addWidget(self.sign_head)
        signed.addWidget(self.barred)
        for part in (self.meaning_head, self.meaning, self.citation):
            signed.addWidget(part)
        signed.addSpacing(4)
        signed.addWidget(self.ink)
        signed.addWidget(self.code)
        mark = QHBoxLayout()
        mark.addWidget(self.version)
        mark.addStretch(1)
        mark.addWidget(self.fingerprint)
        signed.addLayout(mark)
        signed.addStretch(1)
        pinned = QVBoxLayout()
        pinned.setContentsMargins(18, 4, 20, 10)
        pinned.setSpacing(6)
        for act in (self.message, self.do, self.watch, self.after):
            pinned.addWidget(act)
        side = QVBoxLayout()
        side.setContentsMargins(0, 0, 0, 0)
        side.setSpacing(0)
        self.signed_area = _AsHigh(inner)
        side.addWidget(self.signed_area)
        side.addLayout(pinned)
        side.addStretch(1)
        return side

    def _connect(self) -> None:
        bar = self.area.verticalScrollBar()
        bar.valueChanged.connect(lambda _value: self._announce())
        bar.rangeChanged.connect(lambda _low, _high: self._announce())
        self.ink.written.connect(self._turn_to_unseen)
        self.ink.by_key_chosen.connect(lambda _by_key: self._turn_to_unseen())
        self.code.keyed.connect(self._turn_to_unseen)
        self.more.clicked.connect(lambda: bar.setValue(bar.value() + bar.pageStep()))
        self.back.clicked.connect(self._ask_rows)
        self.gaps.chosen.connect(lambda target: self._follow(target))
        self.rows.whole.clicked.connect(lambda: self.desk.go("filing", permit=self.number, page="now"))
        self.do.clicked.connect(self._authorise)
        self.watch.clicked.connect(lambda: self.desk.go("watch", permit=self.number))
        self.desk.ticked.connect(self._tick)

    # Showing ----------------------------------------------------------------------------------------------------------

    def begin(self) -> None:
        """Another permit: no ink and no code of the one before."""
        self._view = None
        self.ink.clear()
        self.code.set_text("")
        self._hush()
        self._rows_asked = False
        self._from_the_top()

    def refresh(self) -> None:
        """What stands, what is signed, what the signature means, at this moment."""
        before, view = self._view, review_view(self.desk.office, self.number)
        self._view = view
        if before is not None and before.fingerprint != view.fingerprint and not view.done:
            # The ink was drawn under other words: it is asked anew, and they are to be seen anew.
            self.ink.clear()
            self._from_the_top()
        self._show_finding(view)
        self.gaps.set_obstacles([ObstacleRow(o.code, o.sentence, o.clears, o.rule, o.target) for o in view.standing])
        self.gaps.setVisible(bool(view.standing) and not view.done)
        self._give_sheet(not self._rows_asked and not view.done and bool(view.standing))
        self.rows.show_view(view)
        self.meaning.setText(view.meaning)
        self.ink.set_name(view.supervisor_name or say("sheets.review.no_supervisor"))
        self.ink.pad.set_under(view.under_ink if view.supervisor_name else "")
        self.version.setText(view.version)
        self.fingerprint.setText(view.fingerprint)
        self._show_act(view)

    def _ask_rows(self) -> None:
        self._rows_asked = True
        self._hush()
        self._give_sheet(False)

    def _give_sheet(self, to_gaps: bool) -> None:
        """What is missing has the sheet while anything is; what would be signed is shown by a link."""
        self.gaps.setMaximumHeight(_NO_BOUND if to_gaps else _GAPS)
        self.area.setVisible(not to_gaps)
        self.back.setVisible(to_gaps)
        self._announce()

    def _announce(self) -> None:
        """What is signed and lies below the edge is said there: nobody signs what she takes for the end."""
        bar = self.area.verticalScrollBar()
        foot = self._look()
        heads = self.rows.below(foot)
        shown = self.area.isVisibleTo(self) and bar.value() < bar.maximum() and bool(heads)
        if shown:
            listed = ", ".join(heads)
            seen = not self.rows.below(self._seen) or (self._view is not None and bool(self._view.done))
            self.more.set_words(
                say("sheets.review.more_seen", heads=listed)
                if seen
                else say_count("sheets.review.more", len(heads), heads=listed)
            )
        self.more.setVisible(shown)

    # What is signed was in sight --------------------------------------------------------------------------------------

    def _look(self) -> int:
        """Down to which height of the rows they are in sight now; nothing between was passed over unseen."""
        top = self.area.verticalScrollBar().value()
        foot = top + self.area.viewport().height()
        if self.area.isVisible() and top <= self._seen:
            self._seen = max(self._seen, foot)
        return foot

    def _from_the_top(self) -> None:
        self._seen = 0
        self.area.verticalScrollBar().setValue(0)
        self._announce()

    def _unseen(self) -> list[str]:
        """The heads of what is signed and never was in sight; none while the list of what is missing stands there."""
        self._look()
        return self.rows.below(self._seen) if self.area.isVisible() else []

    def _turn_to_unseen(self) -> None:
        """The signer signs: what is signed and lies below comes into sight by itself, so that it costs no press."""
        if self._unseen():
            self.area.verticalScrollBar().setValue(self.rows.first_below(self._seen))

    def _show_finding(self, view: ReviewView) -> None:
        self.finding.setVisible(bool(view.done) or not view.standing)
        if view.done:
            self.finding.show_finding(view.done, view.found)
        else:
            self.finding.show_finding(say("desk.nothing_open"), view.found)

    def _show_act(self, view: ReviewView) -> None:
        words = say("sheets.review.authorise_open")
        if view.begins:
            words = say("sheets.review.authorise", begins=view.begins, ends=view.ends)
        self.do.set_words(words)
        title = "done_title" if view.done else "barred_title" if view.standing else "sign_title"
        self.sign_head.setText(say(f"sheets.review.{title}"))
        barred = bool(view.standing) and not view.done
        for widget in (self.meaning_head, self.meaning, self.citation, self.ink, self.code):
            widget.setVisible(not view.done and not barred)
        for mark in (self.version, self.fingerprint):
            mark.setVisible(not barred)
        self.barred.setText(_barred(len(view.standing)) if barred else "")
        self.barred.setVisible(barred)
        self.do.setVisible(not view.done)
        self.do.set_kind(Kind.PLAIN if barred else Kind.MAIN)
        self.after.setVisible(not view.done and not barred and not self.message.text())
        if view.done:
            self._hush()
        self.watch.setVisible(bool(view.done))

    def _tick(self) -> None:
        """The clock alone can bring an obstacle; everything else waits for an act."""
        if self.number and self.isVisible() and self._view is not None and not self._view.done:
            fresh = review_view(self.desk.office, self.number)
            now, before = ((v.standing, v.begins, v.cautions) for v in (fresh, self._view))
            if now != before:
                self.refresh()
            elif not fresh.standing:
                self._show_finding(fresh)

    def show_target(self, rest: str) -> None:
        """'authorise': the code."""
        if self.code.isVisibleTo(self):
            self._reach(self.code.box)
        else:
            self.show_open()

    def show_open(self) -> bool:
        """What stands in the way; where nothing does, the code, and once authorized the way to the Watch."""
        self.refresh()
        view = self._view
        if view is None:
            return False
        if view.done:
            self.watch.setFocus()
        elif view.standing:
            self.gaps.focus_first()
        else:
            self._reach(self.code.box)
        return True

    def _reach(self, widget: QWidget) -> None:
        """Give the keyboard to a control and bring it into sight."""
        widget.setFocus()
        if self.signed_area.isAncestorOf(widget):
            self.signed_area.ensureWidgetVisible(widget, 0, 8)

    def _follow(self, target: str) -> None:
        place, _, rest = target.partition("/")
        if place in ("bench", "watch", "registers", "board", "site"):
            self.desk.go("registers" if place == "site" else place, permit=self.number, target=rest)
        else:
            self.desk.go("workbook", permit=self.number, target=target)

    # Signing ----------------------------------------------------------------------------------------------------------

    def _authorise(self) -> None:
        self.refresh()
        view = self._view
        if view is None:
            return
        if view.standing:
            self._list_gaps()
        elif (missing := self._missing(view)) is not None:
            words, widget = missing
            self._say(Sign.DANGER, words)
            self._reach(widget)
        elif unseen := self._unseen():
            self._turn_to_unseen()
            self._say(Sign.MUST, say("sheets.review.unseen", heads=", ".join(unseen)))
        elif self.desk.ask(self._question(view)):
            self._sign(view)

    def _list_gaps(self) -> None:
        self._say(Sign.REFUSED, say("sheets.review.refused", count=say_count("desk.stand", len(self.gaps.rows()))))
        self.gaps.show()
        self._rows_asked = False
        self._give_sheet(True)
        first = next((w for w in self.gaps.findChildren(QWidget) if w.focusPolicy() & Qt.FocusPolicy.TabFocus), None)
        if first is not None:
            first.setFocus()

    def _say(self, sign: Sign, words: str) -> None:
        """Say it above the button. What is always said below the button gives its room, so that no field is cut."""
        self.after.hide()
        self.message.say_it(sign, words, at_once=True)

    def _hush(self) -> None:
        self.message.clear()
        self.after.setVisible(self._view is None or not (self._view.done or self._view.standing))

    def _missing(self, view: ReviewView) -> tuple[str, QWidget] | None:
        """What the signing itself still lacks; None when it is whole."""
        if view.supervisor is None:
            return say("sheets.review.nobody_signs"), self.do
        if not self.ink.strokes() and not self.ink.signed_by_key():
            return say("sheets.review.ink_missing"), self.ink.findChildren(Button)[1]
        if not self.code.text():
            return say("sheets.review.code_missing"), self.code.box
        return None

    def _question(self, view: ReviewView) -> Question:
        return Question(
            say("sheets.review.ask", space=view.space, begins=view.begins, ends=view.ends),
            view.facts,
            say("sheets.review.ask_yes"),
            say("sheets.review.ask_no"),
        )

    def _sign(self, view: ReviewView) -> None:
        supervisor = view.supervisor or ""
        strokes = tuple(tuple(stroke) for stroke in self.ink.strokes())
        ink = Ink(person=supervisor, strokes=strokes) if strokes else None
        code = self.code.text()
        self.message.say_it(Sign.CLOCK, say("sheets.review.busy"))
        self.message.repaint()
        self.setCursor(Qt.CursorShape.BusyCursor)
        done = self.desk.do(authorise, self.number, supervisor, code, ink)
        self.unsetCursor()
        self.code.set_text("")
        if done:
            self._hush()
            self.desk.go("watch", permit=self.number)
            return
        heard = self.heard
        self.refresh()
        self._say(Sign.DANGER, heard)
        self._reach(self.code.box)


def _barred(count: int) -> str:
    return say("sheets.review.barred", stand=say_count("desk.stand", count))


class _AsHigh(QScrollArea):
    """As high as its page where there is room, so that what follows stands right below; lower, it scrolls."""

    def __init__(self, page: QWidget) -> None:
        super().__init__()
        page.setProperty("ground", "clear")
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self.setWidget(page)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def sizeHint(self) -> QSize:
        page = self.widget()
        return page.sizeHint() if page is not None else super().sizeHint()

    def minimumSizeHint(self) -> QSize:
        return QSize(0, Place.TRAILER)


class _Finding(QWidget):
    """That nothing stands in the way is a finding with its second, never a verdict."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sign = SignLabel(Sign.WITHIN, "", 28)
        self._words = Label(size=Letter.HEAD, bold=True, wrap=True)
        self._when = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addWidget(self._words)
        words.addWidget(self._when)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 8, 12, 8)
        row.setSpacing(16)
        row.addWidget(self._sign)
        row.addLayout(words, 1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setMinimumHeight(Place.TRAILER)

    def show_finding(self, words: str, when: str) -> None:
        """What was found, and when."""
        self._words.setText(words)
        self._when.setText(when)
        self._sign.set_sign(Sign.WITHIN, words)
        self.setAccessibleName(f"{words} {when}")

    def paintEvent(self, event: QPaintEvent) -> None:
        """An edge like that of a field: it is read, not pressed."""
        look = look_of(self)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        half = look.edge() / 2
        painter.setPen(edge_pen(look.colour(Role.EDGE), look.edge()))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(half, half, -half, -half), RADIUS, RADIUS)
