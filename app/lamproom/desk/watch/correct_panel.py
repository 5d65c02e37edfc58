"""Put a figure right: old one struck and readable, new one, the reason. A correction across a limit alarms at once."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from lamproom.air.figures import canonical
from lamproom.desk.fonts import letter
from lamproom.desk.parts.keypad import Keypad
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role, look_of
from lamproom.desk.watch.lettering import write
from lamproom.desk.watch.panel import Choice, Panel, Pick, Post, put_away
from lamproom.desk.watch.typed_box import TypedBox
from lamproom.desk.watch.zones import Zones
from lamproom.office.correct_reading import correct_reading
from lamproom.office.views.watch_air import Box, echo
from lamproom.office.views.watch_log import LogFigure, LogSet, log_sets
from lamproom.words import say


class _Struck(QWidget):
    """The figure that stands, struck through and readable."""

    def __init__(self, figure: LogFigure) -> None:
        super().__init__()
        self._figure = figure
        words = say("watch.correct.old", old=figure.figure, unit=figure.unit)
        self.setAccessibleName(words)
        self.setMinimumSize(170, 76)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Digits with a line through them."""
        look, painter = look_of(self), QPainter(self)
        room = QRectF(0, 0, self.width(), self.height())
        painter.setFont(letter(look, Letter.VALUE, True))
        wide = painter.fontMetrics().horizontalAdvance(self._figure.figure)
        write(painter, look, room, self._figure.figure, Letter.VALUE, bold=True)
        painter.setPen(QPen(look.colour(Role.TEXT), 4))
        painter.drawLine(0, self.height() // 2 + 2, wide, self.height() // 2 + 2)
        beside = QRectF(wide + 10, 0, self.width() - wide - 10, self.height())
        write(painter, look, beside, self._figure.unit, Letter.HEAD)


class CorrectPanel(Panel):
    """One figure of one set."""

    mode = "reading"

    def __init__(self, post: Post, parent: QWidget, version: int, gas: str) -> None:
        one, figure = _find(log_sets(post.office, post.number), version, gas)
        title = say("watch.correct", gas=figure.name, place=one.place, time=one.time)
        super().__init__(post, parent, "correct", title, say("watch.correct.act"))
        self._version, self._figure = version, figure
        new = Box(gas, say("watch.correct.new", unit=figure.unit), figure.unit, figure.limit, "", True)
        self._box = TypedBox("watch.correct.new", new)
        self._box.setMinimumHeight(104)
        self._box.judged.connect(self._judge)
        reasons = [(why, say(f"watch.correct.{why}"), "") for why in ("mistyped", "misread", "misheard")]
        self._why = Pick("watch.correct.why", say("watch.correct.why"), reasons)
        self.body.addWidget(_Struck(figure), 0, 0)
        self.body.addWidget(self._box, 0, 1)
        self.body.addWidget(self._why, 1, 0, 1, 2)
        self.body.setColumnStretch(0, 2)
        self.body.setColumnStretch(1, 3)
        self._reason = self.field("other", say("watch.correct.other"), optional=True)
        self._reason.setParent(parent)
        self._reason.hide()
        self._kept = ""
        self._pad = Keypad(parent)
        self._pad.setObjectName("watch.correct.keypad")
        self._pad.send_to(self._box.line)

    def place(self, zones: Zones) -> None:
        """The keypad beside; another reason in the line below while nothing is said there."""
        super().place(zones)
        self._pad.setGeometry(zones.pad)
        self._pad.show()
        room = zones.foot
        self._reason.setGeometry(room.x(), room.y() - 24, room.width(), room.height() + 24)
        self._reason.hide()

    def begin(self) -> None:
        """The caret in the new figure; the other reason is one key away."""
        self._box.line.setFocus(Qt.FocusReason.OtherFocusReason)
        self._offer()

    def _offer(self) -> None:
        other = say("watch.correct.other")
        self.post.say(Sign.PEN, say("watch.correct.say_why"), [("watch.correct.type", other, self._type)])

    def _type(self) -> None:
        self.post.foot.clear()
        self._reason.show()
        self._reason.raise_()
        self._reason.box.setFocus(Qt.FocusReason.OtherFocusReason)

    def end(self) -> None:
        """Keypad and reason go too."""
        put_away(self._pad)
        put_away(self._reason)
        super().end()

    def _judge(self) -> bool:
        wrong = self._box.readable()
        if wrong is not None:
            self._box.tell(Sign.CAUTION, self._figure.limit)
            self.post.say(Sign.CAUTION, str(wrong), [])
            return False
        if not self._box.text():
            return False
        value: Decimal = self._box.value()
        one = next(s for s in self.post.permit.sets if s.version == self._version)
        told = echo(
            self.post.office,
            self.post.number,
            one.event.instrument,
            self._figure.gas,
            self._figure.unit,
            self._box.text(),
            value,
            before=self._version,
        )
        self._box.tell(Sign.DANGER if told.outside else Sign.WITHIN, self._figure.limit)
        odd = told.doubt
        asked = odd is not None and (odd.impossible or (not told.outside and self._kept != self._box.text()))
        if odd is None or not asked:
            return True
        self._box.tell(Sign.CAUTION, self._figure.limit)
        choices: list[Choice] = []
        if not odd.impossible:
            choices.append(("watch.correct.as-typed", say("watch.as_typed"), self._keep_it))
        self.post.say(Sign.CAUTION, odd.question.say(), choices)
        return False

    def _keep_it(self) -> None:
        self._kept = self._box.text()
        self._judge()
        self._offer()

    def act(self) -> None:
        """Store the correction."""
        if not self._box.text():
            self.post.say(Sign.MUST, say("watch.correct.empty"), [])
            return
        if not self._judge():
            return
        chosen = self._why.value()
        reason = self._reason.text().strip() or (say(f"watch.correct.{chosen}") if chosen else "")
        new = canonical(self._box.value())
        if self.post.do(correct_reading, self._version, self._figure.gas, new, reason, by=self.post.by):
            words = say("watch.correct.stored", gas=self._figure.name, old=self._figure.figure, new=new)
            self._reason.set_text("")
            self.done()
            self.post.say(Sign.WITHIN, words)


def _find(sets: tuple[LogSet, ...], version: int, gas: str) -> tuple[LogSet, LogFigure]:
    one = next(s for s in sets if s.version == version)
    return one, next(figure for figure in one.figures if figure.gas == gas)
