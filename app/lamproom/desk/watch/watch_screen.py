"""The Watch: the attendant's station at the portal. Nine things always seen, a few things to do, one order."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QShowEvent

from lamproom.desk.carry_over import begin_again
from lamproom.desk.desk import Desk
from lamproom.desk.parts.dress import dress
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Look, Theme
from lamproom.desk.watch.bell import Bell
from lamproom.desk.watch.face import Face
from lamproom.desk.watch.panel import Panel, Post
from lamproom.desk.watch.panels import TARGETS, made_panel
from lamproom.desk.watch.station import Sounding
from lamproom.office.go_in import go_in
from lamproom.office.go_out import go_out
from lamproom.office.make_contact import make_contact
from lamproom.office.note import note
from lamproom.office.order_stop import order_stop
from lamproom.office.someone_went_in import someone_went_in
from lamproom.office.views.watch import Band, WatchView, to_watch, typed_view, watch_view
from lamproom.office.views.watch_air import nearest, trend
from lamproom.office.views.watch_typed import typed_outside
from lamproom.permit.words import State
from lamproom.words import say

DAY = range(6, 18)
"""Hours (local) in which the Watch starts in the sun theme; dark is for the night only."""


class WatchScreen(Face):
    """The whole window of the attendant. ``sound`` is the station's own unless a test gives a recorder."""

    heard = Signal(object)

    def __init__(self, desk: Desk, sound: Sounding | None = None) -> None:
        super().__init__()
        self._desk = desk
        self._bell = Bell(sound, self.heard.emit)
        self._number: str | None = None
        self._panel: Panel | None = None
        self._gas: str | None = None
        self._out = ""
        self._outside: dict[str, str] = {}
        self._listen()
        self._look = Look(self._first_theme())
        self._wear()

    def _listen(self) -> None:
        desk = self._desk
        desk.changed.connect(self._changed)
        desk.ticked.connect(self.refresh)
        desk.said.connect(self._said)
        self.heard.connect(self._heard)
        self.evacuate.ordered.connect(self.order)
        self.people.goes_in.connect(self._go_in)
        self.people.comes_out.connect(self._go_out)
        self.gases.chosen.connect(self._choose_gas)
        self.stands.chosen.connect(self.follow)
        strip = self.strip
        strip.someone.clicked.connect(self._someone)
        strip.changed.clicked.connect(lambda: self.open("conditions"))
        strip.contact.clicked.connect(self._contact)
        strip.duty.clicked.connect(lambda: self.open("take" if self._attendant() is None else "relieve"))
        strip.undone.connect(self._take_back)
        self.next_key.clicked.connect(lambda: self.open(self.waits_for))
        acts: dict[str, Callable[[], None]] = {
            "reading": self._first_key,
            "log": self._second_key,
            "silence": self.silence,
            "acknowledge": self.acknowledge,
            "more": lambda: self.open("more"),
            "theme": self.next_theme,
        }
        for key, act in acts.items():
            self.keys[key].clicked.connect(lambda _checked=False, do=act: do())

    # Showing ----------------------------------------------------------------------------------------------------------

    @property
    def number(self) -> str | None:
        """The permit that is watched."""
        return self._number

    def show_where(self, **where: str) -> None:
        """Show a permit (``permit``), and in it a place (``target``, such as 'watch/reading')."""
        number = where.get("permit") or self._still_watched() or to_watch(self._desk.office)
        if number is None:
            self._desk.said.emit("refused", say("watch.no_permit"))
            self._desk.go("board")
            return
        if number != self._number:
            self.close_panel()
            self._number, self._gas, self._out = number, None, ""
            self._bell.forget()
            self.foot.clear()
            # Typed before the program ended, or at another station of this journal: it sounds before any panel opens.
            self._outside[number] = typed_outside(self._desk.office, number)
        self._bell.begin()
        self.refresh()
        target = where.get("target", "")
        if target:
            self.follow(target)
        elif self._attendant() is None and self._desk.office.permit(self._number).running and self._panel is None:
            self.open("take")
        if self._panel is None:
            self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _still_watched(self) -> str | None:
        """The permit shown before, unless it is closed out: then another may need watching more."""
        shown = self._number
        return shown if shown is not None and self._desk.office.permit(shown).closed_out is None else None

    def showEvent(self, event: QShowEvent) -> None:
        """The Watch wears its own theme, whatever the window around it wears."""
        super().showEvent(event)
        self._wear()
        self.refresh()

    def _first_theme(self) -> Theme:
        kept = self._desk.office.journal.settings().get("watch-theme", "")
        local = self._desk.office.now().astimezone(self._desk.office.zone)
        usual = Theme.SUN if local.hour in DAY else Theme.DARK
        return next((theme for theme in Theme if theme.value == kept), usual)

    def _wear(self) -> None:
        dress(self, self._look)

    def next_theme(self) -> None:
        """Sun, dark, light, and round again; kept on this machine."""
        order = [Theme.SUN, Theme.DARK, Theme.LIGHT]
        theme = order[(order.index(self._look.theme) + 1) % len(order)]
        self._look = Look(theme, self._look.scale)
        self._desk.office.journal.put_setting("watch-theme", theme.value)
        self._wear()

    def set_scale(self, scale: float) -> None:
        """Larger or smaller text; huge digits, names and EVACUATE keep their size."""
        self._look = Look(self._look.theme, scale)
        self._wear()

    def _changed(self, _streams: object) -> None:
        self.refresh()

    def _heard(self, _state: object) -> None:
        self.refresh()

    def refresh(self) -> None:
        """Compute the view anew and give every tile what it shows; a tile repaints only what is another."""
        office = self._desk.office
        if self._number is None:
            self.show_nothing()
            self.show_keys(None, 0, "", False)
            return
        tried = office.journal.settings().get("watch-sound-tried", "")
        view = watch_view(office, self._number, self._bell.station(tried))
        view = typed_view(view, self._outside.get(self._number, ""))
        if self._overtaken(view):
            self.close_panel()
            return
        self.show_view(view, self._mode_of(view), self._waits_for(view), self._over(view), self._bell.lost)
        if not self.trend.isHidden():
            facts = office.facts(view.number)
            self.show_trend(trend(facts, self._gas or nearest(facts), view.late_from))
        self._bell.ring(view.alarms, office.now())
        unseen = self._bell.unseen(view.alarms)
        self.flash(unseen is not None and unseen.priority <= 2)
        silent = self._bell.silent_for(view.alarms, office.now())
        acts = self._panel.acts if self._panel is not None else None
        self.show_keys(acts, silent, view.ordered, unseen is not None)
        if self._panel is not None:
            self._panel.refresh(view)

    def _overtaken(self, view: WatchView) -> bool:
        """Has what a panel was opened for passed? A call to come out, each anew, leaves no panel open, half typed or
        not; one opened after it stays. Nobody is asked who takes a watch that is taken or over."""
        before, self._out = self._out, (view.ordered or "seen") if view.state is State.OUT else ""
        if self._panel is None:
            return False
        permit = self._desk.office.permit(view.number)
        taken = permit.attendant is not None or (permit.ended is not None and not view.inside)
        return (bool(self._out) and self._out != before) or (self._panel.name == "take" and taken)

    def _mode_of(self, view: WatchView) -> str:
        if self._panel is not None:
            return self._panel.mode
        return "out" if view.state is State.OUT or self._bell.lost else "calm"

    def _over(self, view: WatchView) -> Band | None:
        """What stands in place of the state while the record does not know it yet."""
        if self._bell.lost:
            return Band("DANGER", say("watch.band.out"), say("watch.band.lost_do"), "danger")
        return None

    def _waits_for(self, view: WatchView) -> str:
        """The panel of the one act that the state waits for; empty where it is the attendant's own choice."""
        permit = self._desk.office.permit(view.number)
        if view.state is State.OUT:
            return "determine" if permit.stop is not None and permit.running and not view.inside else ""
        if view.state is State.REFUSED and {line.code for line in view.obstacles} == {"reendorse"}:
            return "endorse"
        return {State.BREAK: "back", State.EXPIRED: "end", State.ENDED: "close"}.get(view.state, "")

    def lay(self, mode: str, waits_for: str) -> None:
        """Tiles in their places, then the panel in its own."""
        super().lay(mode, waits_for)
        if self._panel is not None and self.zones is not None:
            self._panel.place(self.zones)

    # Panels -----------------------------------------------------------------------------------------------------------

    @property
    def panel(self) -> Panel | None:
        """The panel that is open."""
        return self._panel

    def open(self, panel: str, **what: Any) -> None:
        """Open a panel in place of the plot; its key pressed again leaves it."""
        if panel == "board":
            self.close_panel()
            self._desk.go("board")
            return
        if self._number is None or self.view is None:
            return
        if panel == "again":
            self.close_panel()
            begin_again(self._desk, self._number, self._desk.person)
            return
        if panel == "permit":
            self.show_where(permit=str(what["number"]))
            return
        again = self._panel is not None and self._panel.name == panel and not what
        self.close_panel()
        if again:
            return
        if panel == "sound":
            self._bell.try_it()
        post = Post(self._desk, self._number, self.foot, self.close_panel, self.open, self.follow, self._typed)
        self._panel = made = made_panel(panel, post, self, what)
        self.foot.clear()
        dress(self, self._look)
        made.show()
        self.refresh()
        made.begin()

    def close_panel(self) -> None:
        """Leave the panel; what was half typed is kept."""
        if self._panel is None:
            return
        panel, self._panel = self._panel, None
        self.foot.clear()
        panel.end()
        self.refresh()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def follow(self, target: str) -> None:
        """Go to what clears an obstacle: a panel of the Watch, or a sheet of another place."""
        place, _, rest = target.partition("/")
        kind, _, which = rest.partition("/")
        running = self._number is not None and self._desk.office.permit(self._number).running
        if place == "watch" and kind == "condition":
            self.open("clear", condition=which)
        elif place == "watch" and kind in TARGETS:
            self.open(TARGETS[kind])
        elif place == "air-test" and running:
            self.open("reading", **({"point": which} if kind == "point" else {}))
        elif place == "bench":
            self._desk.go("bench", target=target)
        elif place in ("site", "registers"):
            self._desk.go("registers", target=rest, permit=self._number or "")
        elif place == "board":
            self._desk.go("board", target=rest, permit=self._number or "")
        elif place != "watch" and self._number is not None:
            self._desk.go("workbook", permit=self._number, target=target)

    # Acts -------------------------------------------------------------------------------------------------------------

    def _first_key(self) -> None:
        if self._panel is not None and self._panel.acts:
            self._panel.act()
        else:
            self.open("reading")

    def _second_key(self) -> None:
        if self._panel is not None:
            self.close_panel()
        else:
            self.open("log")

    def _attendant(self) -> str | None:
        return self._desk.office.permit(self._number).attendant if self._number is not None else None

    def _do(self, act: Callable[..., object], *args: Any, **kwargs: Any) -> bool:
        """Do an act on this permit, in the name of the attendant on duty; else of whoever is at the desk."""
        by = self._attendant() or self._desk.person
        return self._number is not None and self._desk.do(act, self._number, *args, by=by, **kwargs)

    def _name(self, who: str) -> str:
        rows = self.view.people if self.view is not None else ()
        return next((row.name for row in rows if row.who == who), who)

    def _go_in(self, who: str) -> None:
        barred = self.view is not None and any(row.barred for row in self.view.people if row.who == who)
        if barred:
            self.open("stands", person=who)
        elif self._do(go_in, who):
            self._moved(who, True)

    def _go_out(self, who: str) -> None:
        name = self._name(who)
        if self._do(go_out, who):
            self._moved(who, False, name)

    def _moved(self, who: str, went_in: bool, name: str = "") -> None:
        name = name or self._name(who)
        now = self.view.now if self.view is not None else ""
        words = say("watch.went_in" if went_in else "watch.went_out", name=name, time=now)
        self.strip.offer_undo(who, went_in, name, words)

    def _take_back(self, who: str, went_in: bool) -> None:
        """The opposite fact, at once: both stay in the record. Someone who is inside is inside, whatever bars."""
        if went_in:
            self._do(go_out, who)
        else:
            self._do(go_in, who, against=True)

    def _someone(self) -> None:
        if self._number is None:
            return
        label = f"unknown {self._desk.office.permit(self._number).tally.unknowns + 1}"
        if self._do(someone_went_in) and self._panel is None:
            choices = [("watch.someone.name", say("watch.more.name"), lambda: self.open("name", label=label))]
            self.foot.say_it(Sign.PERSON, say("watch.someone_did", label=label), choices, leaves=True)

    def _contact(self) -> None:
        if self._number is None or self.view is None or not self.view.inside:
            return
        if self._do(make_contact) and self._panel is None:
            self.foot.say_it(Sign.WITHIN, say("watch.contact_did", time=self.view.now))

    def _choose_gas(self, gas: str) -> None:
        self._gas = gas
        self.refresh()

    def order(self) -> None:
        """Everyone out: the sound, then the record, then the whole screen. Nothing is asked, nothing can stop it."""
        self._bell.order()
        if self._number is None:
            return
        self._bell.lost = True
        self._outside.pop(self._number, None)
        try:
            self._bell.lost = not self._do(order_stop)
        finally:
            self.close_panel()
            self.refresh()

    # Alarms -----------------------------------------------------------------------------------------------------------

    def _typed(self, outside: str) -> None:
        if self._number is not None and outside != self._outside.get(self._number, ""):
            self._outside[self._number] = outside
            self.refresh()

    def silence(self) -> None:
        """Quiet for a short time; a new or worse alarm sounds all the same."""
        if self.view is not None and self.view.alarms:
            self._bell.silence(self.view.alarms, self._desk.office.now())
            self.refresh()

    def acknowledge(self) -> None:
        """The attendant saw the first alarm: stored with the name. It stays until its cause is gone."""
        if self.view is None:
            return
        alarm = self._bell.acknowledge(self.view.alarms, self._desk.office.now())
        if alarm is not None:
            words = alarm.words.strip()
            self._do(note, say("watch.acknowledged", alarm=words))
            if self._panel is None:
                self.foot.say_it(Sign.BELL, words)

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
            Qt.Key.Key_Escape: self.close_panel,
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
        if act is None and event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Up) and self.stands.isVisible():
            self.stands.focus_first()
        elif act is None:
            super().keyPressEvent(event)
        elif not event.isAutoRepeat():
            act()
