"""Reading one place of the plan: the probe comes to rest, the wait runs, the worst figures are noted and stored."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from lamproom.air.figures import canonical
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.choice import DropList, Option
from lamproom.desk.parts.field import Field
from lamproom.desk.parts.figure_field import FigureField
from lamproom.desk.parts.label import Label
from lamproom.desk.parts.notice import MessageLine
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter
from lamproom.desk.workbook.gas_boxes import GasBoxes, GasEntry, Judge
from lamproom.desk.workbook.permit_sheet import Press
from lamproom.desk.working_slip import WorkingSlip
from lamproom.office.views.air_places import PlacePlan
from lamproom.office.views.air_test_sheet import AirTestView
from lamproom.office.views.air_testers import TesterChoice
from lamproom.office.views.working_slip import SlipPage
from lamproom.permit.events import Figure
from lamproom.permit.words import figure_words
from lamproom.words import Refusal, say

SHOW = "show"
"""The lead to the results, shown to the entrants."""


@dataclass(frozen=True, slots=True)
class Noted:
    """What the entry gives to be stored: the texts of the watch are empty when the wait was counted down here."""

    figures: tuple[Figure, ...]
    lowered_text: str
    noted_text: str
    as_typed: bool
    celsius: str | None = None
    humidity: str | None = None


_LEADS = {
    "instruments": "sheets.air.go_instruments",
    "isolation": "sheets.air.go_isolation",
    SHOW: "sheets.air.show",
}


class AirEntry(QWidget):
    """The panel below the picture.

    Signals: ``lowered()`` the probe came to rest now; ``store(Noted)``; ``tester_chosen(str)``; ``typed(key, text)``
    for the drafts; ``times_typed(lowered, noted)`` when either time was committed; ``led(str)`` to another sheet.
    """

    lowered = Signal()
    store = Signal(object)
    tester_chosen = Signal(str)
    typed = Signal(str, str)
    times_typed = Signal(str, str)
    led = Signal(str)
    grew = Signal()

    def __init__(self, judge: Judge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._by_watch = False
        self._again = False
        self._doubts = ""
        self._pages: tuple[SlipPage, ...] = ()
        self.title = Label(size=Letter.BODY, bold=True)
        self.title.setMinimumWidth(1)
        self.tester = DropList(say("sheets.air.instrument"))
        self.tester.box.setObjectName("workbook.air-test.instrument")
        self.watch = Button(say("sheets.air.type_times"), Kind.LINK)
        self.watch.setObjectName("workbook.air-test.type-times")
        self.down = Press("", Kind.MAIN)
        self.down.setObjectName("workbook.air-test.lowered")
        self.lead = Press("")
        self.lead.setObjectName("workbook.air-test.lead")
        self.words = Label(size=Letter.SMALL, wrap=True)
        self.at_rest = Field(say("sheets.air.lowered"), width=120, error_below=True)
        self.at_rest.box.setObjectName("workbook.air-test.lowered-at")
        self.noted = Field(say("sheets.air.noted"), width=120, error_below=True)
        self.noted.box.setObjectName("workbook.air-test.noted-at")
        self.boxes = GasBoxes(judge)
        self.damp = Button(say("sheets.air.damp"), Kind.LINK)
        self.damp.setObjectName("workbook.air-test.damp")
        self.celsius = FigureField(say("sheets.air.celsius"), "°C", width=80)
        self.celsius.box.setObjectName("workbook.air-test.celsius")
        self.humidity = FigureField(say("sheets.air.humidity"), "%", width=80)
        self.humidity.box.setObjectName("workbook.air-test.humidity")
        self.wait = WorkingSlip("workbook.air-test.wait", closable=False)
        self.wait.setMinimumWidth(1)  # it gives way where the window is narrow
        self.message = MessageLine()
        self.meant = Press("")
        self.meant.setObjectName("workbook.air-test.meant")
        self.meant.hide()
        self._offered: tuple[GasEntry, str] | None = None
        self.keep = Press(say("sheets.air.store"), Kind.MAIN)
        self.keep.setObjectName("workbook.air-test.store")
        self._lay()
        self._connect()
        self._show_only()

    def event(self, event: QEvent) -> bool:
        """Words that came or went change what it needs below the picture."""
        if event.type() is QEvent.Type.LayoutRequest:
            self.grew.emit()
        return super().event(event)

    def _lay(self) -> None:
        said = QVBoxLayout()
        said.setSpacing(0)
        said.addWidget(self.title)
        said.addWidget(self.words)
        top = QHBoxLayout()
        top.setSpacing(12)
        top.addWidget(self.down)
        top.addWidget(self.lead)
        top.addWidget(self.at_rest)
        top.addWidget(self.noted)
        top.addLayout(said, 1)
        top.addWidget(self.watch)
        top.addWidget(self.tester)
        self.moist = QWidget()
        moist = QHBoxLayout(self.moist)
        moist.setContentsMargins(0, 0, 0, 0)
        moist.setSpacing(16)
        moist.addWidget(self.celsius)
        moist.addWidget(self.humidity)
        end = QHBoxLayout()
        end.setSpacing(12)
        end.addWidget(self.moist)
        end.addWidget(self.message, 1)
        end.addWidget(self.damp, 0, Qt.AlignmentFlag.AlignRight)
        end.addWidget(self.meant, 0, Qt.AlignmentFlag.AlignRight)
        end.addWidget(self.keep, 0, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(6)
        page.addLayout(top)
        page.addWidget(self.wait)
        page.addWidget(self.boxes)
        page.addLayout(end)
        page.addStretch(1)

    def _connect(self) -> None:
        self.tester.chosen.connect(self.tester_chosen)
        self.watch.clicked.connect(lambda: self._set_by_watch(not self._by_watch))
        self.down.clicked.connect(self._pressed_down)
        self.lead.clicked.connect(lambda: self.led.emit(self._leads_to))
        self.boxes.left.connect(self.judge)
        self.boxes.done.connect(self._entered_last)
        self.boxes.typed.connect(self._typed)
        self.meant.clicked.connect(self._take_meant)
        self.keep.clicked.connect(self._store)
        self.damp.clicked.connect(lambda: self._ask_moist(True))
        self.celsius.entered.connect(lambda _text: self.humidity.box.setFocus())
        self.humidity.entered.connect(lambda _text: self._entered_last())
        for one, key in ((self.celsius, "celsius"), (self.humidity, "humidity")):
            one.typing.connect(lambda text, key=key: self.typed.emit(key, text))
        for field in (self.at_rest, self.noted):
            field.committed.connect(lambda _text: self.times_typed.emit(self.at_rest.text(), self.noted.text()))
            field.entered.connect(lambda _text: self._after_times())

    # What is shown ----------------------------------------------------------------------------------------------------

    def show_place(
        self, view: AirTestView, place: PlacePlan | None, tester: TesterChoice | None, by_plan: bool = True
    ) -> None:
        """The place at hand, ``by_plan`` unless a person turned to it; None when nothing is left to read or can be
        read yet."""
        self.boxes.set_boxes(view.boxes)
        self.tester.set_options([Option(one.instrument, one.name) for one in view.testers])
        self.tester.setVisible(len(view.testers) > 1)
        self.tester.set_value(tester.instrument if tester is not None else "")
        self._leads_to = ""
        if view.closed or place is None or place.state == "shut":
            self._show_nothing(view)
            return
        if by_plan and any(one.state == "outside" and one.point_m is not None for one in view.plan):
            self._show_air_first(view)
            return
        self._place, self._tester = place, tester
        title = "sheets.air.place_done" if place.state == "done" else "sheets.air.place_title"
        self.title.setText(say(title, name=place.name, words=place.title or place.words))
        self.title.show()
        self.down.set_words(place.say_down)
        pages = tester.pages if tester is not None else ()
        if pages != self._pages:
            self._pages = pages
            self.wait.set_pages(pages)

    @property
    def at_hand(self) -> bool:
        """Is a place at hand to be read?"""
        return self._place is not None

    @property
    def leads_on(self) -> bool:
        """Is nothing to be read here now, and nothing wrong that is to be looked at first?"""
        return self._place is None and self._leads_to in ("isolation/level", "isolation/open", SHOW) and not self._bad

    def _show_air_first(self, view: AirTestView) -> None:
        """Past a limit nothing more is asked to be read in this air; a person may still turn to a point."""
        self._place, self._leads_to = None, "isolation/fan"
        places = ", ".join(place.name for place in view.plan if place.state == "outside")
        self.lead.set_words(say("sheets.air.change_air"))
        self.title.hide()
        self.words.setText(say("sheets.air.change_first", places=places))
        self._show_only(lead=True)

    def _show_nothing(self, view: AirTestView) -> None:
        shut = any(place.state == "shut" for place in view.plan)
        self._place, self._bad = None, bool(view.outside)
        if view.closed:
            words, self._leads_to = view.closed, "instruments/assign"
        elif not view.points:
            words, self._leads_to = say("sheets.air.plan_no_level"), "isolation/level"
        elif shut:
            words, self._leads_to = say("sheets.air.plan_shut"), "isolation/open"
        else:
            out = ", ".join(place.name for place in view.plan if place.state == "outside")
            self._bad = self._bad or bool(out)
            words = say("sheets.air.plan_outside", places=out) if out else say("sheets.air.plan_done")
            self._leads_to = SHOW
        head, _, _rest = self._leads_to.partition("/")
        self.lead.set_words(say(_LEADS[head]))
        self.title.hide()
        self.words.setText(words)
        self._show_only(lead=bool(self._leads_to))

    def show_step(self, lowered: datetime | None, left: int | None) -> None:
        """Before the probe is at rest, during the wait (``left`` seconds), or with the boxes open."""
        if self._place is None:
            return
        again = self._place.counted and lowered is None and not self._again
        if again:
            self.down.set_words(say("sheets.air.read_again"))
            self.words.setText("")
            self._show_only(down=True)
        elif not self._place.waits:
            self.words.setText(
                say("sheets.air.stand_duct" if self._place.phase == "duct" else "sheets.air.stand_upwind")
            )
            self._show_only(boxes=True)
        elif self._by_watch:
            self._show_only(times=True, boxes=True, switch=True)
        elif lowered is None:
            self.down.set_words(self._place.say_down)
            self.words.setText(self._wait_words())
            self._show_only(down=True, switch=True)
        elif left is not None and left > 0:
            self.down.set_words(say("sheets.air.lower_again"))
            self.words.setText(say("sheets.air.waiting", left=lasting(left), place=self._place.say_down.lower()))
            self._show_only(down=True, switch=True)
        else:
            self.down.set_words(say("sheets.air.lower_again"))
            why = self._tester.why if self._tester is not None else ""
            self.words.setText(why or say("sheets.air.waited"))
            self._show_only(down=True, boxes=True)

    def _wait_words(self) -> str:
        if self._tester is None or self._tester.hold_s is None:
            return self._tester.why if self._tester is not None else ""
        return say("sheets.air.press_down", wait=lasting(self._tester.hold_s))

    def _show_only(
        self, down: bool = False, times: bool = False, boxes: bool = False, switch: bool = False, lead: bool = False
    ) -> None:
        opened = boxes and not self.boxes.isVisibleTo(self)
        self.down.setVisible(down)
        self.lead.setVisible(lead)
        self.watch.setVisible(switch)
        self.at_rest.setVisible(times)
        self.noted.setVisible(times)
        self.boxes.setVisible(boxes)
        self.wait.setVisible(switch and not boxes and self._tester is not None and bool(self._tester.pages))
        self.keep.setVisible(boxes)
        self.moist.setVisible(boxes and self._moist)
        self.damp.setVisible(boxes and not self._moist)
        if not boxes:
            self._hush()
        if opened and not times and self.isVisible() and self.down.hasFocus():
            first = self.boxes.first_open()
            if first is not None:
                first.setFocus()

    # What a person does -----------------------------------------------------------------------------------------------

    def begin(self) -> None:
        """A fresh start at a place: empty boxes, counted down here; a gas without a sensor is marked so."""
        self._by_watch = self._again = self._moist = False
        self._doubts = ""
        for one in (self.celsius, self.humidity):
            one.set_text("")
            one.clear_error()
        self.watch.set_words(say("sheets.air.type_times"))
        for field in (self.at_rest, self.noted):
            field.set_text("")
            field.clear_error()
        self._hush()
        self.keep.set_words(say("sheets.air.store"))
        self.boxes.clear()

    def without(self, gases: set[str]) -> None:
        """Gases that the instrument at hand has no sensor for."""
        for entry in self.boxes.entries:
            if entry.gas.gas in gases and not entry.line.text():
                entry.set_state("not-measured")

    def _set_by_watch(self, by_watch: bool) -> None:
        self._by_watch = by_watch
        self.watch.set_words(say("sheets.air.count_down") if by_watch else say("sheets.air.type_times"))
        self.times_typed.emit(self.at_rest.text(), self.noted.text())
        if by_watch:
            self.at_rest.setFocus()

    @property
    def by_watch(self) -> bool:
        """Are the times typed from a watch?"""
        return self._by_watch

    def _after_times(self) -> None:
        if not self.noted.text():
            self.noted.setFocus()
        elif (first := self.boxes.first_open()) is not None:
            first.setFocus()

    def _pressed_down(self) -> None:
        if self._place is not None and self._place.counted and not self._again:
            self._again = True
            self.show_step(None, None)
        else:
            self.lowered.emit()

    def judge(self) -> None:
        """Say what is wrong with the boxes that were filled; an empty one is no trouble before storing. A figure past
        its limit is said before anything is asked, also where another figure was perhaps meant."""
        said = [(entry, entry.words()) for entry in self.boxes.entries if entry.filled()]
        for entry in self.boxes.entries:
            entry.mark(entry.filled() and bool(entry.words().trouble))
        for sign, kind in ((Sign.DANGER, "alarm"), (Sign.DANGER, "trouble"), (Sign.CAUTION, "doubt")):
            found = next(((entry, words) for entry, words in said if getattr(words, kind)), None)
            if found is not None:
                entry, words = found
                self._say(sign, words.first)
                self._offer(entry, words.meant)
                return
        if not self._refused:
            self._hush()

    def _hush(self) -> None:
        self._refused = False
        self.message.clear()
        self._offer(None, "")

    def _offer(self, entry: GasEntry | None, meant: str) -> None:
        """The figure that was perhaps meant, one press away; what was typed stays until it is pressed."""
        self._offered = (entry, meant) if entry is not None and meant else None
        self.meant.setVisible(self._offered is not None)
        if entry is not None and meant:
            figure = figure_words(Figure(gas=entry.gas.gas, unit=entry.gas.unit, figure=meant)).say()
            self.meant.set_words(figure)
            self.meant.setAccessibleName(say("sheets.air.take_meant", gas=entry.gas.name, figure=figure))

    def _take_meant(self) -> None:
        if self._offered is None:
            return
        entry, meant = self._offered
        self._doubts = ""
        self.keep.set_words(say("sheets.air.store"))
        entry.line.setText(meant)
        self.typed.emit(f"figure.{entry.gas.gas}", meant)
        self.judge()
        self.boxes.go_on(entry)

    def _say(self, sign: Sign, text: str) -> None:
        if self.message.text() != text:
            self.message.say_it(sign, text, at_once=sign is Sign.DANGER)

    def say_trouble(self, text: str) -> None:
        """A refusal: what was typed stays, and so do its words until something is typed anew."""
        self._refused = True
        self.message.say_it(Sign.DANGER, text, at_once=True)

    def _entered_last(self) -> None:
        """Enter in the last box stores the set; where something is to be said first, the next Enter is on the key."""
        self.keep.setFocus()
        self._store()

    def _store(self) -> None:
        wrong = next((entry for entry in self.boxes.entries if entry.words().trouble), None)
        if wrong is not None:
            wrong.mark(True)
            self._say(Sign.DANGER, wrong.words().first)
            self._offer(wrong, wrong.words().meant)
            wrong.line.setFocus()
            return
        doubts = " ".join(words.doubt for entry in self.boxes.entries if (words := entry.words()).doubt)
        if doubts and doubts != self._doubts:
            self._doubts = doubts
            self._say(Sign.CAUTION, doubts)
            self.keep.set_words(say("sheets.air.store_as_typed"))
            return
        air = self._moist_air()
        if air is None:
            return
        lowered, noted = (self.at_rest.text(), self.noted.text()) if self._by_watch else ("", "")
        self.store.emit(Noted(self.boxes.figures(), lowered, noted, bool(doubts), *air))

    def _typed(self, gas: str, text: str) -> None:
        self._refused = False
        self.typed.emit(f"figure.{gas}", text)

    def show_moist(self, celsius: str, humidity: str) -> None:
        """Half-typed temperature and humidity come back."""
        self.celsius.set_draft(celsius)
        self.humidity.set_draft(humidity)
        if celsius or humidity:
            self._ask_moist(False)

    def _ask_moist(self, reach: bool) -> None:
        """Ask for temperature and humidity: what water vapor takes from the oxygen is known by both alone."""
        self._moist = True
        self.moist.show()
        self.damp.hide()
        if reach:
            self.celsius.box.setFocus()

    def _moist_air(self) -> tuple[str | None, str | None] | None:
        """Temperature and humidity as they are stored, both or none; None with the trouble beside the field."""
        if not self._moist:
            return None, None
        read: list[str | None] = []
        for field in (self.celsius, self.humidity):
            try:
                value = field.value()
            except Refusal as refusal:
                field.show_error(str(refusal))
                field.box.setFocus()
                return None
            read.append(canonical(value) if value is not None else None)
        if (read[0] is None) != (read[1] is None):
            missing = self.celsius if read[0] is None else self.humidity
            missing.show_error(say("sheets.air.both"))
            missing.box.setFocus()
            return None
        return read[0], read[1]

    _place: PlacePlan | None = None
    _tester: TesterChoice | None = None
    _leads_to = ""
    _moist = False
    _refused = False
    _bad = False


def lasting(seconds: int) -> str:
    """A wait as people say it: '33 s', '1 min 14 s'."""
    if seconds < 60:
        return say("sheets.air.seconds", seconds=seconds)
    return say("sheets.air.minutes", minutes=seconds // 60, seconds=f"{seconds % 60:02d}")
