"""Sheet 5, the air test: upwind, through the lid, then every point from the top down, each after its wait."""

from __future__ import annotations

from datetime import datetime, timedelta

from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from lamproom.desk.desk import Desk, Question
from lamproom.desk.parts.air_picture import AirPicture, WaitView
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.notice import MessageLine
from lamproom.desk.parts.stray import StrayGuard
from lamproom.desk.questions import scrolled
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Role, look_of
from lamproom.desk.workbook.air_correction import AirCorrection
from lamproom.desk.workbook.air_drawing import columns_of, section_of
from lamproom.desk.workbook.air_entry import SHOW, AirEntry, Noted, lasting
from lamproom.desk.workbook.air_plan import IN_A_ROW, AirPlan
from lamproom.desk.workbook.air_tables import AirTable, ShownResults
from lamproom.desk.workbook.permit_sheet import PermitSheet, head
from lamproom.desk.workbook.purge_page import PurgePage
from lamproom.desk.working_slip import WorkingSlip
from lamproom.office.correct_reading import correct_reading
from lamproom.office.take_readings import take_readings
from lamproom.office.views.air_boxes import BoxWords, box_words
from lamproom.office.views.air_places import PlacePlan
from lamproom.office.views.air_test_sheet import AirTestView, Value, air_test_view
from lamproom.office.views.air_testers import TesterChoice
from lamproom.office.views.air_working import working_view
from lamproom.office.views.purge import purge_of
from lamproom.office.views.watch_time import watch_time
from lamproom.words import say

_PICTURE, _BELOW, _SLIP, _SHORT = 232, 264, 288, 64
"""Pixels: the least height of the picture, and the place kept below it for entry and correction, for a slip, and at
the least."""
_PURGE = "purge"


class AirTestSheet(PermitSheet):
    """The sheet. What the probe waits for is kept as a draft, so that a restart loses neither wait nor figures."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "air-test", parent)
        self._view: AirTestView | None = None
        self._here = ""
        self._read = ""
        self._lowered: datetime | None = None
        self._tester = ""
        self._picked = ""
        self._chosen: Value | None = None
        self.note = Label(size=Letter.SMALL, tone=Role.SECOND, wrap=True)
        self.show_button = Button(say("sheets.air.show"), Kind.LINK)
        self.show_button.setObjectName("workbook.air-test.show")
        self.table_button = Button(say("sheets.air.as_table"), Kind.LINK)
        self.table_button.setObjectName("workbook.air-test.as-table")
        self.plan = AirPlan()
        self.picture = AirPicture()
        self.picture.setObjectName("workbook.air-test.picture")
        self.picture.setMinimumHeight(_PICTURE)
        self.alarm = MessageLine()
        self.entry = AirEntry(self._judge)
        self._guard = StrayGuard(self.entry)
        self.slip = WorkingSlip("workbook.air-test.slip")
        self.correct = Button(say("sheets.air.correct"), Kind.LINK)
        self.correct.setObjectName("workbook.air-test.correct")
        self.slip.add(self.correct, beside_title=True)
        self.correction = AirCorrection()
        self.table = AirTable()
        self.shown = ShownResults()
        self.purge = PurgePage()
        self._lay()
        self._connect()

    def _lay(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(12)
        top.addWidget(head(say("sheets.air.title")))
        top.addWidget(self.note, 1)
        top.addWidget(self.alarm, 1)
        top.addWidget(self.show_button)
        top.addWidget(self.table_button)
        self.below = QStackedWidget()
        for part in (self.entry, scrolled(self.slip), self.correction):
            self.below.addWidget(part)
        self.below.setFixedHeight(_BELOW)
        self.below.currentChanged.connect(lambda _page: self._keep_room())
        test = QWidget()
        picture = QVBoxLayout(test)
        picture.setContentsMargins(0, 0, 0, 0)
        picture.setSpacing(6)
        picture.addWidget(self.plan)
        picture.addWidget(self.picture, 1)
        picture.addWidget(self.below)
        self.pages = QStackedWidget()
        for page in (test, self.table, self.shown, self.purge):
            self.pages.addWidget(page)
        page_layout = QVBoxLayout(self)
        page_layout.setContentsMargins(18, 4, 18, 10)
        page_layout.setSpacing(4)
        page_layout.addLayout(top)
        page_layout.addWidget(self.pages, 1)

    def _connect(self) -> None:
        self.desk.ticked.connect(self._tick)
        self.plan.chosen.connect(self._go)
        self.picture.point_chosen.connect(self._choose)
        self.slip.closed.connect(self._close_slip)
        self.slip.led.connect(lambda _key: self._page(3))
        self.purge.closed.connect(lambda: self._page(0))
        self.correct.clicked.connect(self._begin_correction)
        self.correction.left.connect(self._close_slip)
        self.correction.corrected.connect(self._correct)
        self.show_button.clicked.connect(lambda: self._page(2))
        self.shown.closed.connect(lambda: self._page(0))
        self.table_button.clicked.connect(lambda: self._page(0 if self.pages.currentIndex() == 1 else 1))
        self.entry.lowered.connect(self._lower)
        self.entry.store.connect(self._store)
        self.entry.tester_chosen.connect(self._take_tester)
        self.entry.times_typed.connect(self._times)
        self.entry.typed.connect(self.keep)
        self.entry.led.connect(self._lead)
        self.entry.grew.connect(self._keep_room)
        self.slip.turned.connect(self._keep_room)

    # Showing ----------------------------------------------------------------------------------------------------------

    def begin(self) -> None:
        """Another permit: its probe, its place, its half-typed figures."""
        self._view = None
        self._here, self._lowered, self._chosen = self.kept("place"), None, None
        self._picked = ""
        self._tester = self.kept("instrument")
        if self.kept("lowered"):
            self._lowered = datetime.fromisoformat(self.kept("lowered"))
        self._page(0)
        self.below.setCurrentIndex(0)

    def refresh(self) -> None:
        """Paint what is recorded; the place at hand stays until it is read."""
        fresh = self._view is None
        view = self._view = air_test_view(self.desk.office, self.number)
        if self._over(view) and self._here != (following := self._next_key(view, self._read)):
            self._set_here(following)
            self._drop_figures()
            fresh = True
        self._leave_old_slip(view)
        tester = self._tester_now()
        self.note.setText(tester.words if tester is not None else "")
        # A second row of places takes its height from the picture.
        self.picture.setMinimumHeight(_PICTURE if len(view.plan) <= IN_A_ROW else _PICTURE - 30)
        self._show_alarm(view)
        self._paint(view)
        over = self._here != self._picked and self._lowered is None
        self.entry.show_place(view, view.place(self._here), tester, over)
        # No place is at hand while the air is to be changed first.
        self.plan.set_plan(view.plan, self._here if self.entry.at_hand else "")
        if fresh:
            self._begin_place()
        self._show_step()
        self._show_pages(view)

    def _over(self, view: AirTestView) -> bool:
        """Is there nothing to do at the place at hand, so that the plan moves on? Not while a person turned to it."""
        place = view.place(self._here)
        if place is None:
            return True
        if self._here == self._picked or self._lowered is not None:
            return False
        return place.counted or (self._came_first(view) and not self._begun())

    def _came_first(self, view: AirTestView) -> bool:
        """Does the plan ask for a place outside first, which joined it since (a fan was started: its duct)?"""
        first = view.next_place
        return first is not None and not first.waits and first.key != self._here

    def _begun(self) -> bool:
        """Was anything typed for the place at hand?"""
        return any(self.kept(f"figure.{entry.gas.gas}") for entry in self.entry.boxes.entries)

    def _leave_old_slip(self, view: AirTestView) -> None:
        """A slip speaks of the newest figure at its point; when another set was stored it closes."""
        chosen = self._chosen
        if chosen is None or self.below.currentIndex() != 1:
            return
        now = next((v for v in view.values if (v.gas, v.depth) == (chosen.gas, chosen.depth)), None)
        if now is None or now.set_version != chosen.set_version:
            self._close_slip()

    def _show_pages(self, view: AirTestView) -> None:
        if self.pages.currentIndex() == 1:
            self.table.show_view(view)
        elif self.pages.currentIndex() == 2:
            space = self.desk.office.permit(self.number).opened.registered.name
            self.shown.show_air(view.air, space)
        elif self.pages.currentIndex() == 3:
            self._show_purge()

    def _show_purge(self) -> None:
        """The purge at the point of the figure that was chosen; away when there is none to show."""
        chosen = self._chosen
        found = purge_of(self.desk.office, self.number, chosen.gas, chosen.depth) if chosen is not None else None
        if found is None:
            self._page(0)
        else:
            self.purge.show_purge(found)

    def _show_alarm(self, view: AirTestView) -> None:
        self.note.setVisible(not view.outside)
        if not view.outside:
            self.alarm.clear()
        elif self.alarm.text() != view.outside[0]:
            self.alarm.say_it(Sign.DANGER, view.outside[0], at_once=True)

    def _paint(self, view: AirTestView) -> None:
        tester = self._tester_now()
        section = section_of(view, self._here, tester.instrument if tester is not None else "")
        self.picture.set_air(section, columns_of(view), view.old_legend)

    def _lead(self, target: str) -> None:
        if target == SHOW:
            self._page(2)
        else:
            self.desk.go("workbook", permit=self.number, target=target)

    def _page(self, page: int) -> None:
        self.pages.setCurrentIndex(page)
        self.table_button.set_words(say("sheets.air.as_picture" if page == 1 else "sheets.air.as_table"))
        if self._view is not None:
            self._show_pages(self._view)
        if page == 2:
            self.shown.back.setFocus()
        elif page == 3:
            self.purge.back.setFocus()

    def show_target(self, rest: str) -> None:
        """'lid', 'upwind', 'point/2.7', or 'points' for the first that is open."""
        self._page(0)
        self._close_slip()
        self._stale = False
        self.refresh()
        view = self._view
        if view is None:
            return
        self._go(rest if view.place(rest) is not None else self._next_key(view))
        self._focus_entry()

    def show_open(self) -> bool:
        """The place that is next by the plan, at its first field."""
        if self.pages.currentIndex() != 0 or self.below.currentIndex() != 0:
            return False
        if self._lowered is None:
            self._picked = ""
        self.refresh()
        return self._focus_entry()

    # The place at hand and its wait -----------------------------------------------------------------------------------

    def _next_key(self, view: AirTestView, read: str = "") -> str:
        """The next place to be read, after one that was just read; empty when nothing is left to read."""
        following = view.next_place
        if not (following is not None and not following.waits):
            following = view.place_after(read)
        return following.key if following is not None else ""

    def _set_here(self, key: str) -> None:
        self._here = key
        self.keep("place", key)

    def _go(self, key: str) -> None:
        """Turn to a place. The probe is elsewhere then: what it waited for there is over."""
        again = self._picked == key
        self._picked = key
        if key != self._here or not again:
            self._set_here(key)
            self._set_lowered(None)
            self._drop_figures()
            self.refresh()
            self._begin_place()
            self._show_step()
        self._focus_entry()

    def _begin_place(self) -> None:
        self.entry.begin()
        tester = self._tester_now()
        if tester is not None and self._view is not None:
            assigned = self.desk.office.permit(self.number).instruments[tester.instrument]
            seen = {sensor.gas for sensor in assigned.registered.sensors}
            self.entry.without({box.gas for box in self._view.boxes} - seen)
        for entry in self.entry.boxes.entries:
            entry.line.setText(self.kept(f"figure.{entry.gas.gas}"))
        self.entry.show_moist(self.kept("celsius"), self.kept("humidity"))

    def _focus_entry(self) -> bool:
        for widget in (self.entry.down, self.entry.lead):
            if widget.isVisibleTo(self):
                widget.setFocus()
                return True
        first = self.entry.boxes.first_open() if self.entry.boxes.isVisibleTo(self) else None
        if first is not None:
            first.setFocus()
        return first is not None

    def _tester_now(self) -> TesterChoice | None:
        testers = self._view.testers if self._view is not None else ()
        return next((one for one in testers if one.instrument == self._tester), next(iter(testers), None))

    def _take_tester(self, instrument: str) -> None:
        self._tester = instrument
        self.keep("instrument", instrument)
        self._set_lowered(None)
        self.refresh()
        self._begin_place()
        self._show_step()

    def _lower(self) -> None:
        self._set_lowered(self.desk.office.now())
        self._show_step()

    def _set_lowered(self, at: datetime | None) -> None:
        self._lowered = at
        self.keep("lowered", at.isoformat() if at is not None else "")

    def _left(self) -> int | None:
        """Whole seconds that the probe still has to rest; None when nobody can say."""
        tester = self._tester_now()
        if self._lowered is None or tester is None or tester.hold_s is None:
            return None
        end = self._lowered + timedelta(seconds=tester.hold_s)
        # Rounded up: the boxes may not open a moment too soon.
        return max(0, -((self.desk.office.now() - end) // timedelta(seconds=1)))

    def _tick(self) -> None:
        if self.number and self._lowered is not None and self.isVisible():
            self._show_step()

    def _keep_room(self) -> None:
        """What stands below takes the height it needs, so that the picture has the rest."""
        shown = self.below.currentIndex()
        high = {0: self.entry.sizeHint().height(), 1: self.slip.wanted_height(self.below.width())}.get(shown, _BELOW)
        most = _SLIP if shown == 1 else _BELOW
        self.below.setFixedHeight(min(max(high, look_of(self).px(_SHORT)), most))

    def _show_step(self) -> None:
        left = self._left()
        self.entry.show_step(self._lowered, left)
        self._keep_room()
        place = self._view.place(self._here) if self._view is not None else None
        tester = self._tester_now()
        if place is None or place.point_m is None or not left or tester is None or tester.hold_s is None:
            self.picture.set_wait(None)
            return
        clock = f"{left // 60}:{left % 60:02d}"
        self.picture.set_wait(
            WaitView(float(place.point_m), clock, place.name, tester.parts, float(tester.hold_s - left))
        )

    def _judge(self, gas: str, text: str) -> BoxWords:
        tester = self._tester_now()
        return box_words(self.desk.office, self.number, tester.instrument if tester is not None else "", gas, text)

    # Times from a watch -----------------------------------------------------------------------------------------------

    def _watch_times(self, lowered: str, noted: str) -> tuple[datetime, datetime] | None:
        """Both times, or None with the trouble beside the field."""
        read = []
        for field, text in ((self.entry.at_rest, lowered), (self.entry.noted, noted)):
            at = watch_time(self.desk.office, text)
            if at is None and text:
                field.show_error(say("sheets.time_wrong_seconds", text=text))
            else:
                field.clear_error()
            read.append(at)
        first, second = read
        return (first, second) if first is not None and second is not None else None

    def _times(self, lowered: str, noted: str) -> None:
        """Check the wait that was kept by a watch, at once and in words."""
        tester, both = self._tester_now(), self._watch_times(lowered, noted)
        self._show_step()
        if both is None or tester is None:
            self.entry.words.setText("")
            return
        held = int((both[1] - both[0]) / timedelta(seconds=1))
        if held < 0:
            self.entry.words.setText(say("sheets.air.held_backwards"))
        elif tester.hold_s is None:
            self.entry.words.setText(tester.why)
        else:
            enough = "sheets.air.held" if held >= tester.hold_s else "sheets.air.held_short"
            self.entry.words.setText(say(enough, held=lasting(held), needed=lasting(tester.hold_s)))

    # Storing ----------------------------------------------------------------------------------------------------------

    def _store(self, noted: Noted) -> None:
        place, tester = self._view.place(self._here) if self._view is not None else None, self._tester_now()
        if place is None or tester is None:
            return
        lowered, taken = self._lowered, None
        if self.entry.by_watch and place.waits:
            both = self._watch_times(noted.lowered_text, noted.noted_text)
            if both is None:
                self.entry.say_trouble(say("sheets.time_wrong_seconds", text=noted.lowered_text or noted.noted_text))
                return
            lowered, taken = both
        self._keep_readings(place, tester, noted, lowered if place.waits else None, taken)

    def _keep_readings(
        self,
        place: PlacePlan,
        tester: TesterChoice,
        noted: Noted,
        lowered: datetime | None,
        taken: datetime | None,
    ) -> None:
        person = self.person()
        done = person is not None and self.desk.do(
            take_readings,
            self.number,
            place.phase,
            place.point_m,
            tester.instrument,
            noted.figures,
            by=person,
            lowered=lowered,
            taken=taken,
            as_typed=noted.as_typed,
            celsius=noted.celsius,
            humidity=noted.humidity,
        )
        if not done:
            self.entry.say_trouble(self.heard)
            return
        self._set_lowered(None)
        self._drop_figures()
        by_hand = self._picked == place.key
        self._view, self._here, self._picked, self._read = None, "", "", place.key
        self.refresh()
        self._read = ""
        if by_hand and self._lies_below(place.key):  # a probe let down by hand goes on down, also past a limit
            self._picked = self._here
            self.refresh()
        self._focus_entry()
        self._guard.begin()  # Enter once too often would say that the probe is at rest
        if self.entry.leads_on:
            self.finished.emit()

    def _lies_below(self, read: str) -> bool:
        """Does the place at hand come after the one that was read, on the way down?"""
        keys = [place.key for place in self._view.plan] if self._view is not None else []
        return read in keys and self._here in keys and keys.index(self._here) > keys.index(read)

    def _drop_figures(self) -> None:
        for entry in self.entry.boxes.entries:
            self.keep(f"figure.{entry.gas.gas}", "")
        for moist in ("celsius", "humidity"):
            self.keep(moist, "")

    # The slip behind a figure -----------------------------------------------------------------------------------------

    def _choose(self, gas: str, depth: str) -> None:
        values = self._view.values if self._view is not None else ()
        found = next((v for v in values if v.gas == gas and float(v.depth) == float(depth)), None)
        if found is None:
            return
        self._chosen = found
        working = working_view(self.desk.office, self.number, found.set_version, gas)
        if working is None:
            return
        purge = ((_PURGE, say("workings.purge.name")),) if working.purges else ()
        self.slip.set_pages(working.pages, " ".join(working.corrections), purge)
        self.below.setCurrentIndex(1)
        self._keep_room()

    def _close_slip(self) -> None:
        self.below.setCurrentIndex(0)

    def _begin_correction(self) -> None:
        if self._chosen is None:
            return
        place = say("sheets.air.at_point", depth=self._chosen.depth).lower()
        gas = self._gas_name(self._chosen.gas)
        self.below.setCurrentIndex(2)
        self.correction.begin(say("sheets.air.correct_title", gas=gas.lower(), place=place, old=self._chosen.figure))

    def _gas_name(self, gas: str) -> str:
        boxes = self._view.boxes if self._view is not None else ()
        return next((box.name for box in boxes if box.gas == gas), gas)

    def _correct(self, new: str, reason: str) -> None:
        chosen = self._chosen
        if chosen is None:
            return
        unit = next((box.unit for box in (self._view.boxes if self._view else ()) if box.gas == chosen.gas), "")
        question = Question(
            say(
                "sheets.air.correct_ask", gas=self._gas_name(chosen.gas).lower(), old=chosen.figure, new=new, unit=unit
            ),
            (say("sheets.air.correct_fact", reason=reason),),
            say("sheets.air.correct_do"),
            say("sheets.air.correct_leave"),
        )
        if not self.desk.ask(question):
            return
        by = self.person()
        if by is not None and self.desk.do(
            correct_reading, self.number, chosen.set_version, chosen.gas, new, reason, by=by
        ):
            self._close_slip()
