"""The Watch: the attendant's station at the portal. Nine things always seen, a few things to do, one order."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QEvent, QRect, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QWidget

from lamproom.desk.desk import Desk
from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.dress import dress
from lamproom.desk.parts.evacuate import EvacuateButton
from lamproom.desk.parts.notice import UNDO_FOR
from lamproom.desk.parts.obstacle_list import ObstacleList
from lamproom.desk.parts.trend import Trend, TrendPoint, TrendView
from lamproom.desk.signs import Sign
from lamproom.desk.sound import Pattern, Sound, SoundState
from lamproom.desk.theme import Letter, Look, Place, Role, Theme, look_of
from lamproom.desk.watch.acts_panels import (
    BackPanel,
    BreakPanel,
    ClearPanel,
    ClosePanel,
    NamePanel,
    NotePanel,
    SoundPanel,
    TakePanel,
)
from lamproom.desk.watch.authority_panels import DeterminePanel, EndorsePanel, EndPanel, RelievePanel
from lamproom.desk.watch.cells import Cell, PeoplePane
from lamproom.desk.watch.correct_panel import CorrectPanel
from lamproom.desk.watch.gases import GasPane
from lamproom.desk.watch.lists_panels import ConditionsPanel, LogPanel, MorePanel, StandsPanel, obstacle_rows
from lamproom.desk.watch.panel import Foot, Panel, Post
from lamproom.desk.watch.reading_panel import ReadingPanel
from lamproom.desk.watch.station import Sounding, battery
from lamproom.desk.watch.tiles import CallPane, ClockPane, CountTile, Head, RescueTile, StateBand
from lamproom.desk.watch.zones import EVACUATE, KEY, Zones, zones
from lamproom.office.go_in import go_in
from lamproom.office.go_out import go_out
from lamproom.office.make_contact import make_contact
from lamproom.office.note import note
from lamproom.office.order_stop import order_stop
from lamproom.office.someone_went_in import someone_went_in
from lamproom.office.views.watch import Band, Station, WatchView, to_watch, watch_view
from lamproom.office.views.watch_air import nearest, trend
from lamproom.office.views.watch_alarms import Attention
from lamproom.permit.words import State, clock
from lamproom.words import say

FLASH = 500
"""Milliseconds of half a flash: once a second, never faster than three (WCAG 2.3.1)."""

PATTERNS = {
    "everyone-out": Pattern.EVERYONE_OUT,
    "limit": Pattern.LIMIT,
    "late": Pattern.LATE,
    "soon": Pattern.SOON,
}
DAY = range(6, 18)
"""Hours (local) in which the Watch starts in the sun theme; dark is for the night only."""


class WatchScreen(QWidget):
    """The whole window of the attendant. ``sound`` is the station's own unless a test gives a recorder."""

    heard = Signal(object)

    def __init__(self, desk: Desk, sound: Sounding | None = None) -> None:
        super().__init__()
        self.setObjectName("watch")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._desk, self._given = desk, sound
        self._sound: Sounding | None = None
        self._number: str | None = None
        self._view: WatchView | None = None
        self._zones: Zones | None = None
        self._panel: Panel | None = None
        self._gas: str | None = None
        self._attention = Attention()
        self._not_recorded = False
        self._outside = False
        self._heavy = False
        self._undo: tuple[str, bool] | None = None
        self._make()
        self._listen()
        self._look = Look(Theme.SUN)
        self._choose_look()

    # Making -----------------------------------------------------------------------------------------------------------

    def _make(self) -> None:
        self.head, self.band, self.count = Head(self), StateBand(self), CountTile(self)
        self.clock, self.people, self.gases = ClockPane(self), PeoplePane(self), GasPane(self)
        self.trend, self.call, self.rescue = Trend(self), CallPane(self), RescueTile(self)
        self.trend.setObjectName("watch.trend")
        self.stands = ObstacleList(self)
        self.stands.setObjectName("watch.obstacles")
        self.foot = Foot(self)
        self.someone = Cell("watch.someone", say("watch.someone"), sign=Sign.PLUS, parent=self)
        self.changed_key = Cell("watch.conditions", say("watch.changed"), "F7", Sign.CAUTION, parent=self)
        self.contact = Cell("watch.contact", say("watch.contact"), "", Sign.RADIO, parent=self)
        self.duty = Cell("watch.attendant", "", "", size=Letter.TABLE, parent=self)
        self.undo = Cell("watch.undo", say("desk.undo"), parent=self)
        self.undo.hide()
        self._undo_leaves = QTimer(self, singleShot=True, interval=UNDO_FOR)
        self._undo_leaves.timeout.connect(self._forget_undo)
        self._keys = {
            "reading": self._key("watch.reading", "watch.key.reading", "F2", Sign.PLUS, Kind.MAIN),
            "log": self._key("watch.log", "watch.key.log", "F5", Sign.SHEET),
            "silence": self._key("watch.silence", "watch.key.silence", "F4", Sign.BELL),
            "acknowledge": self._key("watch.acknowledge", "watch.key.acknowledge", "F6", Sign.TICK),
            "more": self._key("watch.more", "watch.key.more", "F9", Sign.DOWN),
            "theme": self._key("watch.theme", "watch.key.theme", "F8", Sign.SUN),
        }
        self.evacuate = EvacuateButton(self)
        self.evacuate.setObjectName("watch.evacuate")
        self._flash = QTimer(self, interval=FLASH)
        self._flash.timeout.connect(self._flash_edge)

    def _key(self, name: str, words: str, hint: str, sign: Sign, kind: Kind = Kind.PLAIN) -> Button:
        key = Button(say(words), kind, Place.PORTAL, sign=sign, hint=hint, parent=self)
        key.setObjectName(name)
        return key

    def _listen(self) -> None:
        desk = self._desk
        desk.changed.connect(self._changed)
        desk.ticked.connect(self.refresh)
        desk.said.connect(self._said)
        self.heard.connect(lambda _state: self.refresh())
        self.evacuate.ordered.connect(self.order)
        self.people.goes_in.connect(self._go_in)
        self.people.comes_out.connect(self._go_out)
        self.gases.chosen.connect(self._choose_gas)
        self.stands.chosen.connect(self.follow)
        self.someone.clicked.connect(self._someone)
        self.changed_key.clicked.connect(lambda: self.open("conditions"))
        self.contact.clicked.connect(self._contact)
        self.duty.clicked.connect(lambda: self.open("take" if self._nobody_on_watch() else "relieve"))
        self.undo.clicked.connect(self._take_back)
        for key, act in self._acts().items():
            self._keys[key].clicked.connect(lambda _checked=False, do=act: do())

    def _acts(self) -> dict[str, Callable[[], None]]:
        return {
            "reading": self._first_key,
            "log": self._second_key,
            "silence": self.silence,
            "acknowledge": self.acknowledge,
            "more": lambda: self.open("more"),
            "theme": self.next_theme,
        }

    # Showing ----------------------------------------------------------------------------------------------------------

    @property
    def number(self) -> str | None:
        """The permit that is watched."""
        return self._number

    def show_where(self, **where: str) -> None:
        """Show a permit (``permit``), and in it a place (``target``, such as 'watch/reading')."""
        number = where.get("permit") or self._number or to_watch(self._desk.office)
        if number != self._number:
            self._close_panel()
            self._number, self._gas, self._attention = number, None, Attention()
            self.foot.clear()
        self._begin_sound()
        self.refresh()
        target = where.get("target", "")
        if target:
            self.follow(target)
        elif self._number is not None and self._nobody_on_watch() and self._desk.office.permit(self._number).running:
            self.open("take")
        if self._panel is None:
            self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _begin_sound(self) -> None:
        if self._sound is None:
            self._sound = self._given or Sound(told=self.heard.emit)
            self._sound.check()

    def showEvent(self, event: QShowEvent) -> None:
        """The Watch wears its own theme, whatever the window around it wears."""
        super().showEvent(event)
        self._wear()
        self.refresh()

    def _choose_look(self) -> None:
        kept = self._desk.office.journal.settings().get("watch-theme", "")
        local = self._desk.office.now().astimezone(self._desk.office.zone)
        usual = Theme.SUN if local.hour in DAY else Theme.DARK
        theme = next((theme for theme in Theme if theme.value == kept), usual)
        self._look = Look(theme, self._look.scale)
        self._wear()

    def _wear(self) -> None:
        dress(self, self._look)

    def next_theme(self) -> None:
        """Sun, dark, light, and round again; kept on this machine."""
        order = [Theme.SUN, Theme.DARK, Theme.LIGHT]
        theme = order[(order.index(self._look.theme) + 1) % len(order)]
        self._look = Look(theme, self._look.scale)
        self._desk.office.journal.put_setting("watch-theme", theme.value)
        self._wear()

    def _station(self) -> Station:
        state = self._sound.state if self._sound is not None else SoundState.UNTRIED
        silent = state in (SoundState.NO_DEVICE, SoundState.NO_LIBRARY, SoundState.FAILED)
        tried = self._desk.office.journal.settings().get("watch-sound-tried", "")
        if state is SoundState.PLAYING:
            words = say("watch.sound.on")
        elif silent:
            words = say("watch.sound.failed" if state is SoundState.FAILED else "watch.sound.none")
        else:
            words = say("watch.sound.tried", time=tried) if tried else say("watch.sound.untried")
        return Station(words, silent, battery())

    def _changed(self, streams: object) -> None:
        if self._number is not None:
            self.refresh()

    def refresh(self) -> None:
        """Compute the view anew and give every tile what it shows; a tile repaints only what is another."""
        if self._number is None:
            self._show_nothing()
            return
        view = watch_view(self._desk.office, self._number, self._station())
        moved = self._view is None or view.state is not self._view.state or len(view.people) != len(self._view.people)
        self._view = view
        self._show_tiles(view)
        if moved:
            self._lay()
        self._show_air(view)
        self._show_keys(view)
        if self._panel is not None:
            self._panel.refresh(view)
        self._sound_out(view)

    def _show_nothing(self) -> None:
        self.band.show_band(Band("NOT_STARTED", say("watch.band.no_permit"), say("watch.band.no_permit_do")))
        self._lay()

    def _show_tiles(self, view: WatchView) -> None:
        stored = say("watch.head.not_recorded") if self._not_recorded else view.stored
        self.head.show_head(view.space, view.number, view.ends, "   ".join((stored, *view.station)), view.now)
        self.band.show_band(view.band)
        self.count.show_count(view.inside, view.count_words, view.count_below)
        self.clock.show_clock(view.clock)
        out = view.state is State.OUT
        people = tuple(row for row in view.people if row.inside) if out and self._panel is None else view.people
        self.people.show_people(people, say("watch.all_out") if out else say("watch.nobody_named"))
        self.rescue.show_rescue(view.rescue)
        plan = self._desk.office.permit(view.number).opened.evaluated.rescue
        self.call.show_call(say("watch.call", means=plan.means), view.rescue[1], view.call)
        self.contact.set_words(say("watch.contact"), view.contact, Sign.CAUTION if view.contact_late else Sign.RADIO)
        if out:
            self.duty.set_words(view.out_words)
        else:
            self.duty.set_words(*view.attendant)

    def _show_air(self, view: WatchView) -> None:
        out = view.state is State.OUT
        self.gases.show_gases(view.gases, view.gases_words, out or self._panel is not None)
        barred = view.state in (State.REFUSED, State.DRAFT, State.READY, State.EXPIRED)
        room = self._zones is not None and not self._zones.trend.isEmpty()
        self.stands.setVisible(room and barred and bool(view.obstacles))
        self.trend.setVisible(room and not self.stands.isVisibleTo(self))
        if self.stands.isVisibleTo(self):
            self.stands.set_obstacles(obstacle_rows(view.obstacles))
        elif room:
            facts = self._desk.office.facts(view.number)
            data = trend(facts, self._gas or nearest(facts), view.late_from)
            points = tuple(
                TrendPoint(m.at, m.value, m.text, m.late, m.corrected, m.outside, m.detail) for m in data.marks
            )
            moves = tuple((at, Sign[sign], name) for at, sign, name in data.moves)
            self.trend.set_view(
                TrendView(
                    data.name,
                    data.unit,
                    points,
                    data.scale,
                    data.limits,
                    data.start,
                    data.now,
                    data.every,
                    data.times,
                    moves,
                    data.late_from,
                )
            )

    def _show_keys(self, view: WatchView) -> None:
        at = self._desk.office.now()
        panel = self._panel
        first, second = self._keys["reading"], self._keys["log"]
        if panel is None:
            first.set_words(say("watch.key.reading"), "F2", Sign.PLUS)
            second.set_words(say("watch.key.log"), "F5", Sign.SHEET)
        else:
            first.set_words(panel.acts or say("watch.key.reading"), "F2", Sign.TICK if panel.acts else Sign.PLUS)
            second.set_words(say("watch.key.leave"), say("watch.key.leave_below"), Sign.CROSS)
        first.set_available(view.state is not State.CLOSED or panel is not None)
        left = self._attention.silent_for(view.alarms, at)
        silence, seen = self._keys["silence"], self._keys["acknowledge"]
        silence.set_words(say("watch.key.silence"), say("watch.key.silence_left", seconds=left) if left else "F4")
        silence.set_available(bool(view.alarms) and not left, say("watch.no_alarm"))
        seen.set_available(self._attention.unseen(view.alarms) is not None, say("watch.no_alarm"))
        permit = self._desk.office.permit(view.number)
        stop = permit.stop
        if stop is not None:
            time = stop.at.astimezone(permit.zone).strftime("%H:%M:%S")
            self.evacuate.set_below(say("watch.ordered_at", time=time))
        else:
            self.evacuate.set_below(say("desk.evacuate_below"))
        self.contact.setEnabled(bool(view.inside))
        closed = view.state is State.CLOSED
        self.someone.setEnabled(not closed)
        self.changed_key.setEnabled(not closed)

    # Laying out -------------------------------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Everything in its place."""
        self._lay()

    def _mode(self) -> str:
        if self._panel is not None:
            return self._panel.mode
        return "out" if self._view is not None and self._view.state is State.OUT else "calm"

    def _lay(self) -> None:
        view = self._view
        crowd = len(view.people) if view is not None else 0
        mode = self._mode()
        z = self._zones = zones(self.width(), self.height(), mode, crowd)
        fixed: list[tuple[QWidget, QRect]] = [
            (self.head, z.head),
            (self.band, z.band),
            (self.count, z.count),
            (self.clock, z.clock),
            (self.rescue, z.rescue),
            (self.people, z.people),
            (self.gases, z.gases),
            (self.trend, z.trend),
            (self.stands, z.trend),
            (self.call, z.call),
        ]
        there = self._number is not None
        for widget, room in fixed:
            widget.setGeometry(room)
            if widget not in (self.trend, self.stands):
                widget.setVisible(not room.isEmpty() and (there or widget is self.band))
        self.evacuate.setGeometry(z.evacuate.x(), z.evacuate.y(), EVACUATE, KEY)
        self._lay_strip(z, mode, there)
        self._lay_keys(z)
        self._lay_foot(z, mode)
        if self._panel is not None:
            self._panel.place(z)
            self.trend.hide()
            self.stands.hide()

    def _lay_strip(self, z: Zones, mode: str, there: bool) -> None:
        gap = 12
        wide = round((z.strip.width() - 3 * gap) * (0.26 if mode != "panel" and mode != "reading" else 0.34))
        cells = [self.someone, self.changed_key]
        if mode == "out":
            cells = [self.someone]
        elif mode == "calm":
            cells = [self.someone, self.changed_key, self.contact]
        else:
            cells = [self.someone, self.changed_key, self.contact]
            wide = (z.strip.width() - 2 * gap) // 3
        x = z.strip.x()
        for cell in (self.someone, self.changed_key, self.contact, self.duty):
            cell.setVisible(there and cell in cells)
        for cell in cells:
            cell.setGeometry(x, z.strip.y(), wide, z.strip.height())
            x += wide + gap
        rest = z.strip.right() + 1 - x
        self.duty.setVisible(there and rest > 100)
        self.undo.setVisible(there and rest > 100 and self._undo is not None)
        if self.undo.isVisibleTo(self):
            self.undo.setGeometry(x + rest - 96, z.strip.y(), 96, z.strip.height())
            rest -= 96 + gap
        self.duty.setGeometry(x, z.strip.y(), max(rest, 0), z.strip.height())

    def _lay_keys(self, z: Zones) -> None:
        shares = {"reading": 168, "log": 152, "silence": 112, "acknowledge": 158, "more": 96, "theme": 106}
        gap = 12
        room = z.keys.width() - gap * (len(shares) - 1)
        x, whole = z.keys.x(), sum(shares.values())
        for key, share in shares.items():
            wide = round(room * share / whole)
            self._keys[key].setGeometry(x, z.keys.y(), wide, z.keys.height())
            x += wide + gap

    def _lay_foot(self, z: Zones, mode: str) -> None:
        room = QRect(z.foot)
        if mode == "calm":
            room.moveTop(z.strip.top() - 12 - room.height())
        elif mode == "out":
            left = self.duty.geometry()
            room = QRect(left.x(), left.y(), z.strip.right() - left.x(), left.height())
        self.foot.setGeometry(room)
        self.foot.raise_()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The ground of the Watch's own theme."""
        QPainter(self).fillRect(self.rect(), look_of(self).colour(Role.GROUND))

    # Panels -----------------------------------------------------------------------------------------------------------

    @property
    def panel(self) -> Panel | None:
        """The panel that is open."""
        return self._panel

    def open(self, panel: str, **what: Any) -> None:
        """Open a panel in place of the plot; pressing its key again leaves it."""
        if self._number is None:
            return
        if panel == "board":
            self._close_panel()
            self._desk.go("board")
            return
        if panel == "permit":
            self.show_where(permit=str(what["number"]))
            return
        again = self._panel is not None and self._panel.name == panel and not what
        self._close_panel()
        if again:
            return
        self.refresh()
        if panel == "sound" and self._sound is not None:
            self._sound.play(Pattern.TRIAL)
        self._panel = made = self._made(panel, what)
        self.foot.clear()
        dress(self, self._look)
        self._lay()
        made.show()
        self.refresh()
        made.begin()

    def _made(self, panel: str, what: dict[str, Any]) -> Panel:
        assert self._number is not None and self._view is not None
        post = Post(self._desk, self._number, self.foot, self._close_panel, self.open, self._outside_typed)
        if panel == "more":
            return MorePanel(post, self, self._view)
        if panel == "stands":
            stands = StandsPanel(post, self, str(what.get("person", "")))
            stands.chosen.connect(self.follow)
            return stands
        if panel == "name":
            label = what.get("label") or self._unnamed()
            return NamePanel(post, self, str(label))
        if panel == "sound":
            return SoundPanel(post, self, self._sound_tried)
        plain: dict[str, Callable[..., Panel]] = {
            "reading": ReadingPanel,
            "correct": CorrectPanel,
            "log": LogPanel,
            "conditions": ConditionsPanel,
            "clear": ClearPanel,
            "note": NotePanel,
            "break": BreakPanel,
            "back": BackPanel,
            "close": ClosePanel,
            "take": TakePanel,
            "relieve": RelievePanel,
            "determine": DeterminePanel,
            "endorse": EndorsePanel,
            "end": EndPanel,
        }
        return plain[panel](post, self, **what)

    def _unnamed(self) -> str:
        assert self._number is not None
        trips = self._desk.office.permit(self._number).tally.trips
        return next((trip.who for trip in trips if trip.unknown and not trip.name), "")

    def _close_panel(self) -> None:
        if self._panel is None:
            return
        panel, self._panel = self._panel, None
        self.foot.clear()
        panel.end()
        self._lay()
        self.refresh()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def follow(self, target: str) -> None:
        """Go to what clears an obstacle: a panel of the Watch, or a sheet of another place."""
        place, _, rest = target.partition("/")
        panels = {"reading": "reading", "determine": "determine", "back": "back", "reendorse": "endorse", "end": "end"}
        if place == "watch":
            kind, _, which = rest.partition("/")
            if kind == "condition":
                self.open("clear", condition=which)
            elif kind == "take":
                self.open("take")
            elif kind in panels:
                self.open(panels[kind])
        elif place == "air-test" and self._number is not None and self._desk.office.permit(self._number).running:
            self.open("reading", **({"point": rest.removeprefix("point/")} if rest.startswith("point/") else {}))
        elif place == "bench":
            self._desk.go("bench", target=target)
        elif place in ("site", "registers"):
            self._desk.go("registers", target=target)
        elif place == "board":
            self._desk.go("board")
        elif self._number is not None:
            self._desk.go("workbook", permit=self._number, target=target)

    # Acts -------------------------------------------------------------------------------------------------------------

    def _first_key(self) -> None:
        if self._panel is not None and self._panel.acts:
            self._panel.act()
        else:
            self.open("reading")

    def _second_key(self) -> None:
        if self._panel is not None:
            self._close_panel()
        else:
            self.open("log")

    def _by(self) -> str | None:
        permit = self._desk.office.permit(self._number) if self._number else None
        return (permit.attendant if permit is not None else None) or self._desk.person

    def _nobody_on_watch(self) -> bool:
        if self._number is None:
            return False
        return self._desk.office.permit(self._number).attendant is None

    def _go_in(self, who: str) -> None:
        view = self._view
        row = next((row for row in view.people if row.who == who), None) if view is not None else None
        if row is not None and row.barred:
            self.open("stands", person=who)
            return
        if self._desk.do(go_in, self._number, who, by=self._by()):
            self._offer_undo(who, True)

    def _go_out(self, who: str) -> None:
        if self._desk.do(go_out, self._number, who, by=self._by()):
            self._offer_undo(who, False)

    def _offer_undo(self, who: str, went_in: bool) -> None:
        self._undo = (who, went_in)
        self._undo_leaves.start()
        row = next((r for r in self._view.people if r.who == who), None) if self._view is not None else None
        name = row.name if row is not None else who
        now = self._view.now if self._view is not None else ""
        words = say("watch.went_in" if went_in else "watch.went_out", name=name, time=now)
        self.undo.setAccessibleDescription(words)
        self.undo.set_words(say("desk.undo"), name.split(" ")[0])
        self._lay()

    def _forget_undo(self) -> None:
        self._undo = None
        self._lay()

    def _take_back(self) -> None:
        """The opposite fact, at once: both stay in the record. Someone who is inside is inside, whatever bars."""
        if self._undo is None:
            return
        (who, went_in), self._undo = self._undo, None
        if went_in:
            self._desk.do(go_out, self._number, who, by=self._by())
        else:
            self._desk.do(go_in, self._number, who, against=True, by=self._by())
        self._lay()

    def _someone(self) -> None:
        number = self._number
        if number is None:
            return
        before = self._desk.office.permit(number).tally.unknowns
        if self._desk.do(someone_went_in, number, by=self._by()):
            label = f"unknown {before + 1}"
            choices = [("watch.someone.name", say("watch.more.name"), lambda: self.open("name", label=label))]
            if self._panel is None:
                self.foot.say_it(Sign.PERSON, say("watch.someone_did", label=label), choices)
                QTimer.singleShot(UNDO_FOR, self.foot, self._leave_foot)

    def _leave_foot(self) -> None:
        if self._panel is None:
            self.foot.clear()

    def _contact(self) -> None:
        if self._desk.do(make_contact, self._number, by=self._by()) and self._view is not None:
            if self._panel is None:
                self.foot.say_it(Sign.WITHIN, say("watch.contact_did", time=self._view.now))

    def _choose_gas(self, gas: str) -> None:
        self._gas = gas
        self.refresh()

    # The order --------------------------------------------------------------------------------------------------------

    def order(self) -> None:
        """Everyone out: the sound first, then the record, then the whole screen. Nothing is asked, nothing can stop it."""
        self._begin_sound()
        assert self._sound is not None
        self._attention = Attention()
        self._sound.play(Pattern.EVERYONE_OUT)
        if self._number is None:
            return
        self._close_panel()
        self._not_recorded = True
        try:
            self._not_recorded = not self._desk.do(order_stop, self._number, by=self._by())
        finally:
            self.foot.clear() if not self._not_recorded else None
            self.refresh()
            self._lay()

    # Alarms -----------------------------------------------------------------------------------------------------------

    def _outside_typed(self, outside: bool) -> None:
        if outside != self._outside:
            self._outside = outside
            self.refresh()

    def _sound_out(self, view: WatchView) -> None:
        sound = self._sound
        self._attention.keep(view.alarms)
        unseen = self._attention.unseen(view.alarms)
        if unseen is not None and unseen.priority <= 2:
            self._flash.start() if not self._flash.isActive() else None
        else:
            self._flash.stop()
            self.band.set_heavy(False)
        if sound is None:
            return
        alarm = self._attention.sounding(view.alarms, self._desk.office.now())
        if self._not_recorded:
            return
        if alarm is not None and not (self._outside and alarm.priority > 1):
            sound.play(PATTERNS[alarm.pattern])
        elif self._outside:
            sound.play(Pattern.LIMIT)
        elif (
            sound.state is SoundState.PLAYING
            or not view.alarms
            or self._attention.silent_for(view.alarms, self._desk.office.now())
        ):
            self._hush(sound)

    @staticmethod
    def _hush(sound: Sounding) -> None:
        playing = getattr(sound, "playing", None)
        if playing is not None and playing.repeats:
            sound.stop()

    def _flash_edge(self) -> None:
        self._heavy = not self._heavy
        self.band.set_heavy(self._heavy)

    def silence(self) -> None:
        """Quiet for a short time; a new or worse alarm sounds all the same."""
        if self._view is not None and self._view.alarms:
            self._attention.silence(self._view.alarms, self._desk.office.now())
            if self._sound is not None:
                self._sound.stop()
            self.refresh()

    def acknowledge(self) -> None:
        """The attendant saw the first alarm: stored with the name. It stays until its cause is gone."""
        if self._view is None or self._number is None:
            return
        alarm = self._attention.acknowledge(self._view.alarms, self._desk.office.now())
        if alarm is not None:
            words = say("watch.acknowledged", alarm=alarm.words.strip())
            self._desk.do(note, self._number, words, by=self._by())
            self.foot.say_it(Sign.TICK, alarm.words.strip())

    def _sound_tried(self, heard: bool) -> None:
        office = self._desk.office
        office.journal.put_setting("watch-sound-tried", clock(office.now(), office.zone) if heard else "")

    def _said(self, kind: str, words: str) -> None:
        if self.isVisible() and kind == "refused":
            self.foot.say_it(Sign.REFUSED, words)

    # Keys -------------------------------------------------------------------------------------------------------------

    def _shortcuts(self) -> dict[int, Callable[[], None]]:
        return {
            Qt.Key.Key_F2: self._first_key,
            Qt.Key.Key_F3: self.people.next_page,
            Qt.Key.Key_F4: self.silence,
            Qt.Key.Key_F5: lambda: self.open("log"),
            Qt.Key.Key_F6: self.acknowledge,
            Qt.Key.Key_F7: lambda: self.open("conditions"),
            Qt.Key.Key_F8: self.next_theme,
            Qt.Key.Key_F9: lambda: self.open("more"),
            Qt.Key.Key_F10: self._contact,
            Qt.Key.Key_F12: self.order,
            Qt.Key.Key_Escape: self._close_panel,
        }

    def event(self, event: QEvent) -> bool:
        """The Watch's own keys come here, whatever box has the caret, and no shortcut of the window takes them."""
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.ShortcutOverride:
            if event.key() in self._shortcuts():
                event.accept()
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """F12 and the other keys; a key held down acts once."""
        act = self._shortcuts().get(event.key())
        if act is None:
            super().keyPressEvent(event)
        elif not event.isAutoRepeat():
            act()
