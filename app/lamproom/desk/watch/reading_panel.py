"""A set of readings: empty boxes in their fixed order, own keys, last values beside. An outside figure sounds."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from lamproom.air.figures import canonical
from lamproom.desk.parts.keypad import Keypad
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place
from lamproom.desk.watch.cells import Cell, slug
from lamproom.desk.watch.panel import Choice, Panel, Post, put_away
from lamproom.desk.watch.typed_box import TypedBox
from lamproom.desk.watch.zones import Zones
from lamproom.office.take_readings import take_readings
from lamproom.office.views.watch import WatchView
from lamproom.office.views.watch_air import Echo, PointChoice, ReadingPlan, boxes, echo, reading_plan
from lamproom.office.views.watch_typed import (
    MARKS,
    TYPED_AT,
    draft_field,
    outside_words,
    typed_outside,
    typed_point,
)
from lamproom.permit import events as e
from lamproom.permit.words import clock
from lamproom.words import say

OLD = timedelta(minutes=5)
"""What was typed longer ago and not stored is no reading of now: it is left out, unless it lies outside its limit."""


class ReadingPanel(Panel):
    """One set at one point; in a full retest the points follow one another, each with its wait."""

    mode = "reading"

    def __init__(self, post: Post, parent: QWidget, point: str = "") -> None:
        super().__init__(post, parent, "reading", say("watch.key.reading"), say("watch.key.store"))
        self._title.hide()
        self._plan: ReadingPlan = reading_plan(post.office, post.number)
        self._boxes: list[TypedBox] = []
        self._kept: set[tuple[str, str]] = set()
        self._without = False
        self._judged = False
        self._lowered: datetime | None = None
        self._instrument = self._plan.instruments[0].instrument if self._plan.instruments else ""
        self._point = self._first_point(point)
        self._tile = Cell("watch.reading.point", "", size=Letter.TITLE, parent=parent)
        self._tile.clicked.connect(self._choose)
        self._pad = Keypad(parent)
        self._pad.setObjectName("watch.reading.keypad")
        self._chooser: QWidget | None = None
        self._make_boxes()

    def _first_point(self, wanted: str) -> PointChoice:
        plan = self._plan
        by_name = next((one for one in plan.points if one.point_m == wanted), None)
        if by_name is not None:
            return by_name
        nowhere = PointChoice(None, say("watch.point_inside"), "")
        first = plan.points[0] if plan.points else nowhere
        held = typed_point(self.post.office, self.post.number)
        if held is not None:
            # A figure outside its limit waits to be stored or put right: before any other point.
            there = PointChoice(held[0], say("watch.point", depth=held[0]), "") if held[0] is not None else nowhere
            return next((one for one in plan.points if one.point_m == held[0]), there)
        return next((one for one in plan.points if not one.done), first) if plan.full else first

    # Laying out -------------------------------------------------------------------------------------------------------

    def _make_boxes(self) -> None:
        for box in self._boxes:
            put_away(box)
        self._boxes = []
        for one in boxes(self.post.office, self.post.number, self._instrument):
            box = TypedBox(f"watch.reading.{one.gas}", one, self)
            kept = self._kept_text(one.gas)
            if kept in MARKS:
                box.set_mark(kept)
            else:
                box.set_text(kept)
            box.judged.connect(lambda made=box: self._judge(made))
            box.entered.connect(lambda made=box: self._next(made))
            box.came.connect(lambda made=box: self._came(made))
            box.line.textEdited.connect(lambda text, gas=one.gas: self._keep(f"{gas}", text))
            box.show()
            self._boxes.append(box)
        self._lay()

    def place(self, zones: Zones) -> None:
        """Boxes, point, keypad."""
        super().place(zones)
        self._tile.setGeometry(zones.point)
        self._pad.setGeometry(zones.pad)
        self._tile.show()
        self._pad.show()
        self._lay()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Boxes in two columns, more where a set has more gases."""
        self._lay()

    def _lay(self) -> None:
        count = len(self._boxes)
        if not count or not self.width():
            return
        lines = 2
        columns = -(-count // lines)
        gap = 20
        wide = (self.width() - gap * (columns - 1)) // columns
        high = (self.height() - 12 * (lines - 1)) // lines
        for at, box in enumerate(self._boxes):
            line, column = divmod(at, columns)
            box.setGeometry(QRect(column * (wide + gap), line * (high + 12), wide, high))
        if self._chooser is not None:
            self._chooser.setGeometry(self.rect())

    def begin(self) -> None:
        """The first empty box has the caret."""
        box = next((one for one in self._boxes if one.box.seen and one.empty()), self._boxes[0])
        box.line.setFocus(Qt.FocusReason.OtherFocusReason)
        self._tell_tile()
        self._usual()
        if not self._judged:
            self._judged = True
            self._judge_kept()

    def _judge_kept(self) -> None:
        """What came back half typed is judged before anything else; what is old is left out and said."""
        typed = [box for box in self._boxes if not box.empty()]
        if not typed:
            self._tell_outside()
            return
        at = self._typed_at()
        old = at is None or self.post.office.now() - at > OLD
        time = clock(at, self.post.permit.zone) if at is not None else ""
        if not old:
            for box in typed:
                self._judge(box)
            return
        outside = self._outside_words()
        if outside:
            for box in typed:
                self._judge(box)
            self.post.say(Sign.DANGER, say("watch.typed_old_kept", time=time, words=outside), [self._store_key()])
            return
        for box in typed:
            box.set_text("")
            self._keep(box.box.gas, "")
        self._tell_outside()
        self._boxes[0].line.setFocus(Qt.FocusReason.OtherFocusReason)
        go_on: Choice = ("watch.reading.go-on", say("watch.typed_go_on"), self._usual)
        self.post.say(Sign.CAUTION, say("watch.typed_old", time=time), [go_on])

    def _typed_at(self) -> datetime | None:
        kept = self._kept_text(TYPED_AT)
        return datetime.fromisoformat(kept) if kept else None

    def _kept_text(self, gas: str) -> str:
        return self.post.desk.draft(self.post.drafts, draft_field(self._point.point_m, gas))

    def _tell_outside(self) -> None:
        """What is typed and outside, here and at every other point."""
        there = typed_outside(self.post.office, self.post.number, but=self._point.point_m)
        self.post.outside(", ".join(words for words in (self._outside_words(), there) if words))

    def end(self) -> None:
        """Keypad and point go too. A figure outside its limit goes on sounding until it is stored or put right."""
        put_away(self._tile)
        put_away(self._pad)
        super().end()

    # Point, wait, instrument ------------------------------------------------------------------------------------------

    def refresh(self, view: WatchView) -> None:
        """The wait counts down."""
        self._tell_tile()

    def _hold_left(self) -> int | None:
        """Seconds still to wait at this point; 0 when the hold was kept or none is asked, None when not begun."""
        if not self._plan.full:
            return 0
        one = next((i for i in self._plan.instruments if i.instrument == self._instrument), None)
        if self._lowered is None or one is None or one.hold_s is None:
            return None
        past = self.post.office.now() - self._lowered
        return max(0, one.hold_s - int(past.total_seconds()))

    def _tell_tile(self) -> None:
        below = say("watch.point_tile")
        if self._plan.full:
            below = say("watch.point_left", left=self._plan.left, all=len(self._plan.points))
            left = self._hold_left()
            if left is not None:
                below = say("watch.hold_left", left=f"{left // 60}:{left % 60:02d}") if left else say("watch.hold_over")
        self._tile.set_words(self._point.words, below)

    def _lower(self) -> None:
        self._lowered = self.post.office.now()
        self._tell_tile()
        self._usual()
        self.begin()

    def _usual(self) -> None:
        """The line of messages when nothing is asked: the probe, or the instrument and the two marks."""
        if not self._plan.instruments:
            self.post.say(Sign.REFUSED, say("watch.instrument_none"), [])
            return
        if self._plan.full and self._lowered is None:
            words = say("watch.lowered", point=self._point.words)
            self.post.say(Sign.MUST, "", [("watch.reading.lowered", words, self._lower)])
            return
        one = next(i for i in self._plan.instruments if i.instrument == self._instrument)
        box = self._marked()
        gas = box.box.name if box is not None else ""

        def named(mark: str) -> str:
            return say("watch.mark_of", gas=gas, mark=say(mark)) if gas else say(mark)

        marks: list[Choice] = [
            ("watch.reading.over-range", named("watch.over_range"), lambda: self._mark("over-range")),
            ("watch.reading.fault", named("watch.fault"), lambda: self._mark("fault")),
        ]
        sign = Sign.WITHIN if one.ready else Sign.REFUSED
        self.post.say(sign, say("watch.instrument", name=one.words, note=one.note), marks)

    def _choose(self) -> None:
        """Points and instruments as keys, over the boxes; what is typed stays."""
        if self._chooser is not None:
            self._chosen()
            return
        self._chooser = chooser = QWidget(self)
        chooser.setProperty("ground", "ground")
        chooser.setAutoFillBackground(True)
        cells = [
            (f"watch.reading.point.{one.point_m or 'inside'}", one.words, one.done, self._to_point(one))
            for one in self._plan.points
        ]
        for serving in self._plan.instruments:
            name = f"watch.reading.instrument.{slug(serving.instrument)}"
            cells.append((name, serving.words, serving.note, self._to_instrument(serving.instrument)))
        columns = 3
        lines = max(1, -(-len(cells) // columns))
        wide = (self.width() - 12 * (columns - 1)) // columns
        high = min(Place.PORTAL + 8, (self.height() - 12 * (lines - 1)) // lines)
        for at, (name, words, below, act) in enumerate(cells):
            cell = Cell(name, words, below, size=Letter.HEAD, parent=chooser)
            line, column = divmod(at, columns)
            cell.setGeometry(column * (wide + 12), line * (high + 12), wide, high)
            cell.clicked.connect(act)
        chooser.setGeometry(self.rect())
        chooser.show()
        for box in self._boxes:
            box.hide()

    def _chosen(self) -> None:
        if self._chooser is not None:
            put_away(self._chooser)
            self._chooser = None
        for box in self._boxes:
            box.show()
        self.begin()

    def _to_point(self, one: PointChoice) -> Callable[[], None]:
        def to() -> None:
            before, left = self._point, any(not box.empty() for box in self._boxes)
            if one.point_m == before.point_m:
                self._chosen()
                return
            self._point, self._lowered, self._without, self._judged = one, None, False, False
            self._kept.clear()
            self._make_boxes()
            self._chosen()
            if left:
                next_key: Choice = ("watch.reading.go-on", say("watch.typed_go_on"), self._usual)
                if self._plan.full:
                    words = say("watch.lowered", point=self._point.words)
                    next_key = ("watch.reading.lowered", words, self._lower)
                self.post.say(Sign.PEN, say("watch.typed_point", point=before.words), [next_key])

        return to

    def _to_instrument(self, instrument: str) -> Callable[[], None]:
        def to() -> None:
            self._instrument = instrument
            self._make_boxes()
            self._chosen()

        return to

    # Figures ----------------------------------------------------------------------------------------------------------

    def _keep(self, gas: str, text: str) -> None:
        point = self._point.point_m
        self.post.desk.keep_draft(self.post.drafts, draft_field(point, gas), text)
        if text:
            at = self.post.office.now().isoformat()
            self.post.desk.keep_draft(self.post.drafts, draft_field(point, TYPED_AT), at)

    def _came(self, box: TypedBox) -> None:
        """The keypad feeds the box that has the caret; what was asked about another box is asked again there."""
        self._pad.send_to(box.line)
        self._usual()

    def _focused(self) -> TypedBox | None:
        return next((box for box in self._boxes if box.line.hasFocus()), None)

    def _marked(self) -> TypedBox | None:
        """The box that over range and fault are about: the one with the caret, else the first empty one."""
        return self._focused() or next((one for one in self._boxes if one.box.seen and one.empty()), None)

    def _mark(self, mark: str) -> None:
        box = self._marked()
        if box is not None:
            box.set_mark("" if box.mark == mark else mark)
            self._keep(box.box.gas, box.mark)
            self._tell_outside()
            self._next(box)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """F11 goes through over range, fault, figure; down and up walk along the boxes."""
        box = self._focused()
        if box is not None and event.key() == Qt.Key.Key_F11:
            box.set_mark({"": "over-range", "over-range": "fault"}.get(box.mark, ""))
            self._keep(box.box.gas, box.mark)
            self._tell_outside()
        elif box is not None and event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            (self.focusNextChild if event.key() == Qt.Key.Key_Down else self.focusPreviousChild)()
        else:
            super().keyPressEvent(event)

    def _echo(self, box: TypedBox) -> Echo | None:
        if not box.text() or box.readable() is not None:
            return None
        return echo(
            self.post.office, self.post.number, self._instrument, box.box.gas, box.box.unit, box.text(), box.value()
        )

    def _any_outside(self) -> bool:
        return bool(self._outside_words())

    def _outside_words(self) -> str:
        """Gas and figure of what is typed and lies outside its limit; empty for none."""
        office, number = self.post.office, self.post.number
        words = [outside_words(office, number, self._instrument, b.box, b.mark or b.text()) for b in self._boxes]
        return ", ".join(one for one in words if one)

    def _judge(self, box: TypedBox) -> bool:
        """Say how the figure stands. True when nothing is to be asked about it."""
        wrong = box.readable()
        if wrong is not None:
            box.tell(Sign.CAUTION, box.box.limit)
            self.post.say(Sign.CAUTION, str(wrong), [self._again(box)])
            return False
        told = self._echo(box)
        self._tell_outside()
        if told is None:
            return True
        kept = (box.box.gas, box.text()) in self._kept
        if told.doubt is not None and not kept:
            danger = told.outside and not told.doubt.impossible
            box.tell(Sign.DANGER if danger else Sign.CAUTION, box.box.limit)
            self._ask(box, told)
            return False
        box.tell(Sign.DANGER if told.outside else Sign.WITHIN, box.box.limit)
        if told.outside:
            figure = f"{box.text()} {box.box.unit}".replace(" ", "\u00a0")
            words = say("watch.outside_now", gas=box.box.name, figure=figure)
            self.post.say(Sign.DANGER, words, [self._store_key()])
        return True

    def _ask(self, box: TypedBox, told: Echo) -> None:
        assert told.doubt is not None
        words = told.doubt.question.say()
        choices: list[Choice] = []
        meant = told.doubt.meant
        if meant is not None:
            words = f"{words} {say('watch.query.meant', meant=meant)}"
            choices.append(("watch.reading.meant", meant, lambda: self._meant(box, meant)))
        if not told.doubt.impossible:
            choices.append(("watch.reading.as-typed", say("watch.as_typed"), lambda: self._as_typed(box)))
        self.post.say(Sign.CAUTION, words, choices or [self._again(box)])

    def _again(self, box: TypedBox) -> Choice:
        return ("watch.reading.again", say("watch.correct.mistyped"), lambda: self._empty(box))

    def _store_key(self) -> Choice:
        return ("watch.reading.store-outside", say("watch.key.store"), self.act)

    def _empty(self, box: TypedBox) -> None:
        box.set_text("")
        self._keep(box.box.gas, "")
        self._tell_outside()
        self._usual()
        box.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def _meant(self, box: TypedBox, meant: str) -> None:
        box.set_text(meant)
        self._keep(box.box.gas, meant)
        if self._judge(box):
            self._next(box)

    def _as_typed(self, box: TypedBox) -> None:
        self._kept.add((box.box.gas, box.text()))
        if self._judge(box):
            self._next(box)

    def _next(self, box: TypedBox) -> None:
        """Go on to the next box, unless something is asked about this one."""
        if box.text() and not self._judge(box):
            return
        after = self._boxes[self._boxes.index(box) + 1 :]
        follow = next((one for one in after if one.box.seen), None)
        if follow is not None:
            follow.line.setFocus(Qt.FocusReason.OtherFocusReason)

    # Storing ----------------------------------------------------------------------------------------------------------

    def act(self) -> None:
        """Store the set. With an outside figure nothing is asked first: the alarm is never delayed."""
        outside = self._any_outside()
        if not self._ready_to_store(outside):
            return
        self._store(outside)

    def _ready_to_store(self, outside: bool) -> bool:
        for box in self._boxes:
            told = self._echo(box)
            if box.readable() is not None or (told is not None and _no_air(told)):
                box.line.setFocus()
                self._judge(box)
                return False
        if outside:
            return True
        for box in self._boxes:
            if not self._judge(box):
                box.line.setFocus()
                self._judge(box)
                return False
        empty = next((box for box in self._boxes if box.box.seen and box.empty()), None)
        if empty is not None:
            empty.line.setFocus()
            self.post.say(Sign.MUST, say("watch.empty", gas=empty.box.name), [])
            return False
        return self._hold_kept()

    def _hold_kept(self) -> bool:
        left = self._hold_left()
        if left == 0 or self._without:
            return True
        words = say("watch.hold_not_begun", point=self._point.words)
        if left is not None:
            words = say("watch.hold_short", seconds=left)
        self.post.say(Sign.CAUTION, words, [("watch.reading.store-early", say("watch.store_early"), self._early)])
        return False

    def _early(self) -> None:
        self._without = True
        self.act()

    def _figures(self) -> list[e.Figure]:
        figures = []
        for box in self._boxes:
            gas, unit = box.box.gas, box.box.unit
            if box.mark == "over-range":
                figures.append(e.Figure(gas=gas, unit=unit, state="over-range"))
            elif box.mark == "fault":
                figures.append(e.Figure(gas=gas, unit=unit, state="fault"))
            elif box.text():
                figures.append(e.Figure(gas=gas, unit=unit, figure=canonical(box.value())))
            else:
                figures.append(e.Figure(gas=gas, unit=unit, state="not-measured"))
        return figures

    def _store(self, outside: bool) -> None:
        kept = {(box.box.gas, box.text()) for box in self._boxes} & self._kept
        stored = self.post.do(
            take_readings,
            self._plan.phase,
            self._point.point_m,
            self._instrument,
            self._figures(),
            by=self.post.by,
            lowered=self._lowered,
            as_typed=bool(kept),
        )
        if not stored:
            return
        for box in self._boxes:
            self._keep(box.box.gas, "")
        self._keep(TYPED_AT, "")
        for box in self._boxes:
            box.set_text("")
        self._tell_outside()
        self._after(outside)

    def _after(self, outside: bool) -> None:
        office = self.post.office
        time = clock(office.now(), self.post.permit.zone)
        was_full = self._plan.full
        self._plan = reading_plan(office, self.post.number)
        if outside or not was_full or not self._plan.full or not self._plan.left:
            words = say("watch.stored_set", time=time, point=self._point.words)
            if was_full and not self._plan.left and self.post.permit.awaits is not None:
                words = say("watch.all_points")
            self.post.leave()
            self.post.say(Sign.WITHIN, words)
            return
        self._point, self._lowered, self._without = self._first_point(""), None, False
        self._kept.clear()
        self._make_boxes()
        self.begin()


def _no_air(told: Echo) -> bool:
    """A figure that cannot be stored at all, such as 209 % vol."""
    return told.doubt is not None and told.doubt.impossible
