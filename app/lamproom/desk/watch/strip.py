"""The strip under the people: someone went in, something changed, contact, who is on watch; and undo for a while."""

from __future__ import annotations

from PySide6.QtCore import QRect, QTimer, Signal
from PySide6.QtWidgets import QWidget

from lamproom.desk.parts.notice import UNDO_FOR
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter
from lamproom.desk.watch.cells import Cell
from lamproom.office.views.watch import WatchView
from lamproom.permit.words import State
from lamproom.words import say

GAP, UNDO, BESIDE = 12, 96, 130


class Strip(QWidget):
    """Keys side by side. Signal: ``undone(str, bool)``, who, and whether going in is taken back."""

    undone = Signal(str, bool)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.someone = Cell("watch.someone", say("watch.someone"), sign=Sign.PLUS, parent=self)
        self.changed = Cell("watch.conditions", say("watch.changed"), parent=self)
        self.contact = Cell("watch.contact", say("watch.contact"), sign=Sign.RADIO, parent=self)
        self.duty = Cell("watch.attendant", "", size=Letter.TABLE, parent=self)
        self.undo = Cell("watch.undo", say("desk.undo"), parent=self)
        self.undo.clicked.connect(self._take_back)
        self._offered: tuple[str, bool] | None = None
        self._leaves = QTimer(self, singleShot=True, interval=UNDO_FOR)
        self._leaves.timeout.connect(self._forget)
        self._mode = "calm"
        self._called = False

    def show_view(self, view: WatchView, lost: bool = False) -> None:
        """Words of this moment. While everyone is called out (``lost``: by an order not recorded) nobody is asked for
        contact or for what changed: how it ends stands there, beside a panel too."""
        late = view.contact_late
        self.contact.set_words(say("watch.contact"), view.contact, Sign.CAUTION if late else Sign.RADIO)
        called = lost or view.state is State.OUT
        self.duty.set_words(*((view.out_words, "") if called else view.attendant))
        if called != self._called:
            self._called = called
            self._lay()
        closed = view.state is State.CLOSED
        self.contact.setEnabled(bool(view.inside))
        self.someone.setEnabled(not closed)
        self.changed.setEnabled(not closed)

    def offer_undo(self, who: str, went_in: bool, name: str, words: str) -> None:
        """What was just done, and undo, for ten seconds; a later one takes the place of the earlier."""
        self._offered = (who, went_in)
        self.undo.set_words(say("desk.undo"), name.split(" ")[0])
        self.undo.setAccessibleDescription(words)
        self._leaves.start()
        self._lay()

    def _take_back(self) -> None:
        if self._offered is not None:
            (who, went_in), self._offered = self._offered, None
            self._lay()
            self.undone.emit(who, went_in)

    def _forget(self) -> None:
        self._offered = None
        self._lay()

    def place(self, room: QRect, mode: str) -> None:
        """Take its room; beside a panel the name on watch gives way, while everyone is called out contact does."""
        self._mode = mode
        self.setGeometry(room)
        self._lay()

    def said_room(self) -> QRect:
        """Where a message may stand when there is no plot: from contact to the end."""
        left = self.duty.x() if self._called else self.contact.x()
        return QRect(self.x() + left, self.y(), self.width() - left, self.height())

    def _lay(self) -> None:
        cells = [self.someone, self.changed, self.contact]
        wide = round((self.width() - 3 * GAP) * 0.245)
        if self._called:
            cells = [self.someone]
            wide = wide if self._mode == "out" else BESIDE
        elif self._mode != "calm":
            wide = (self.width() - 2 * GAP) // 3
        x = 0
        for cell in (self.someone, self.changed, self.contact):
            cell.setVisible(cell in cells)
            if cell in cells:
                cell.setGeometry(x, 0, wide, self.height())
                x += wide + GAP
        rest = self.width() - x
        self.duty.setVisible(rest > 100)
        undo = rest > 100 and self._offered is not None
        self.undo.setVisible(undo)
        if undo:
            self.undo.setGeometry(x + rest - UNDO, 0, UNDO, self.height())
            rest -= UNDO + GAP
        self.duty.setGeometry(x, 0, max(rest, 0), self.height())
