"""The face of the Watch: every tile, what it shows, where it stands. It decides nothing."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QRect, Qt, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from lamproom.desk.parts.button import Button, Kind
from lamproom.desk.parts.evacuate import EvacuateButton
from lamproom.desk.parts.trend import Trend, TrendPoint, TrendView
from lamproom.desk.signs import Sign
from lamproom.desk.theme import Letter, Place, Role, look_of
from lamproom.desk.watch.caution_pane import CautionPane
from lamproom.desk.watch.cells import Cell, PeoplePane
from lamproom.desk.watch.gases import GasPane
from lamproom.desk.watch.lists_panels import obstacle_rows
from lamproom.desk.watch.panel import Foot
from lamproom.desk.watch.stands import StandsPane
from lamproom.desk.watch.strip import Strip
from lamproom.desk.watch.tiles import CallPane, ClockPane, CountTile, Head, RescueTile, StateBand
from lamproom.desk.watch.zones import EVACUATE, KEY, Zones, zones
from lamproom.office.views.watch import Band, WatchView
from lamproom.office.views.watch_air import TrendData
from lamproom.permit.words import State
from lamproom.words import say, say_count

FLASH = 500
"""Milliseconds of half a flash: once a second, never faster than three (WCAG 2.3.1)."""

KEYS: Mapping[str, tuple[str, Sign, int]] = {
    "reading": ("F2", Sign.PLUS, 168),
    "log": ("F5", Sign.SHEET, 152),
    "silence": ("F4", Sign.BELL, 112),
    "acknowledge": ("F6", Sign.TICK, 158),
    "more": ("F9", Sign.DOWN, 96),
    "theme": ("F8", Sign.SUN, 106),
}
"""The bottom row: key, sign, share of the width."""

NEXT, CAUTIONS = 88, 76
"""Pixels at the foot of the plot for the act that is waited for, and for what is worth knowing."""

BARRED = (State.REFUSED, State.WAITS, State.DRAFT, State.READY, State.EXPIRED)


class Face(QWidget):
    """The tiles. ``mode`` is 'calm', 'out', 'panel' or 'reading'."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("watch")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.view: WatchView | None = None
        self.mode = "calm"
        self.waits_for = ""
        self.zones: Zones | None = None
        self.head, self.band, self.count = Head(self), StateBand(self), CountTile(self)
        self.clock, self.people, self.gases = ClockPane(self), PeoplePane(self), GasPane(self)
        self.trend, self.call, self.rescue = Trend(self), CallPane(self), RescueTile(self)
        self.trend.setObjectName("watch.trend")
        self.stands = StandsPane("watch.obstacles", self)
        self.cautions = CautionPane(self)
        self.strip = Strip(self)
        self.next_key = Cell("watch.next", "", main=True, size=Letter.HEAD, parent=self)
        self.foot = Foot(self)
        self.keys = {name: self._key(name) for name in KEYS}
        self.evacuate = EvacuateButton(self)
        self.evacuate.setObjectName("watch.evacuate")
        self._heavy = False
        self._flash = QTimer(self, interval=FLASH)
        self._flash.timeout.connect(self._flash_edge)

    def _key(self, name: str) -> Button:
        hint, sign, _share = KEYS[name]
        kind = Kind.MAIN if name == "reading" else Kind.PLAIN
        key = Button(say(f"watch.key.{name}"), kind, Place.PORTAL, sign=sign, hint=hint, parent=self)
        key.setObjectName(f"watch.{name}")
        return key

    # What is shown ----------------------------------------------------------------------------------------------------

    def show_nothing(self) -> None:
        """No permit: the band says so, the way to the Board stands, nothing claims anything."""
        self.view = None
        self.band.show_band(Band("NOT_STARTED", say("watch.band.no_permit"), say("watch.band.no_permit_do")))
        self.lay("calm", "board")

    def show_view(self, view: WatchView, mode: str, waits_for: str, over: Band | None, lost: bool) -> None:
        """Give every tile its words. ``over`` stands in place of the state's own band; ``lost``: not recorded."""
        before = self.view
        self.view = view
        stored = say("watch.head.not_recorded") if lost else view.stored
        self.head.show_head(
            view.space, view.number, view.ends, "   ".join((stored, *view.station)), view.now, view.silent
        )
        self.band.show_band(over or view.band)
        self.count.show_count(view.inside, view.count_words, view.count_below)
        self.clock.show_clock(view.clock)
        people = tuple(row for row in view.people if row.inside) if mode == "out" else view.people
        self.people.show_people(people, say("watch.all_out" if mode == "out" else "watch.nobody_named"))
        self.rescue.show_rescue(view.rescue)
        self.call.show_call(*view.call)
        self.strip.show_view(view, lost)
        self.gases.show_gases(view.gases, view.gases_words, mode != "calm", mode != "out")
        self.stands.set_obstacles(obstacle_rows(view.obstacles))
        crowd = None if before is None else len(before.people)
        if (mode, waits_for, crowd) != (self.mode, self.waits_for, len(view.people)) or before is None:
            self.lay(mode, waits_for)
        self._plot_or_obstacles()

    def _plot_or_obstacles(self) -> None:
        """The plot's place shows what stands in the way while going in is barred."""
        view, z = self.view, self.zones
        room = view is not None and z is not None and not z.trend.isEmpty()
        barred = room and view is not None and view.state in BARRED and bool(view.obstacles)
        self.stands.setVisible(barred)
        self.trend.setVisible(room and not barred)
        told = self._tell_cautions(room and not barred)
        if z is not None and room:
            foot = (NEXT if self._next_in_plot() else 0) + (CAUTIONS if told else 0)
            self.trend.setGeometry(z.trend.adjusted(0, 0, 0, -foot))
            high = CAUTIONS - 8
            self.cautions.setGeometry(z.trend.x(), self.trend.geometry().bottom() + 8, z.trend.width(), high)

    def _tell_cautions(self, plotted: bool) -> bool:
        """Quietly under the plot, and not while an alarm stands or something else takes the plot's place."""
        view = self.view
        told = view is not None and plotted and self.mode == "calm" and bool(view.cautions) and not view.alarms
        if view is not None and told:
            first = view.cautions[0]
            words = say("watch.caution", words=first.words, rule=first.rule)
            self.cautions.show_words(say_count("watch.cautions", len(view.cautions), first=words))
        self.cautions.setVisible(told)
        return told

    def _next_in_plot(self) -> bool:
        """Does the one act that the state waits for stand at the foot of the plot?"""
        return not self.next_key.isHidden() and self.zones is not None and self.mode == "calm"

    def show_trend(self, data: TrendData) -> None:
        """Plot one gas."""
        points = tuple(TrendPoint(m.at, m.value, m.text, m.late, m.corrected, m.outside, m.detail) for m in data.marks)
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

    def show_keys(self, acts: str | None, silent: int, ordered: str, unseen: bool) -> None:
        """The bottom row. ``acts``: the words of F2 in a panel, None without one; ``silent``: seconds left."""
        view, first, second = self.view, self.keys["reading"], self.keys["log"]
        if acts is None:
            first.set_words(say("watch.key.reading"), "F2", Sign.PLUS)
            second.set_words(say("watch.key.log"), "F5", Sign.SHEET)
        else:
            first.set_words(acts or say("watch.key.reading"), "F2", Sign.TICK if acts else Sign.PLUS)
            second.set_words(say("watch.key.leave"), say("watch.key.leave_below"), Sign.CROSS)
        there = view is not None
        # Nobody is to read first where the permit is over or everyone comes out.
        over = view is not None and view.state in (State.ENDED, State.CLOSED, State.OUT)
        first.set_kind(Kind.PLAIN if over and not acts else Kind.MAIN)
        first.set_available(there and (acts is not None or (view is not None and view.state is not State.CLOSED)))
        second.set_available(there)
        self.keys["more"].set_available(there)
        hint = say("watch.key.silence_left", seconds=silent) if silent else "F4"
        self.keys["silence"].set_words(say("watch.key.silence"), hint)
        alarmed = view is not None and bool(view.alarms)
        self.keys["silence"].set_available(alarmed and not silent, say("watch.no_alarm"))
        self.keys["acknowledge"].set_available(unseen, say("watch.no_alarm"))
        below = say("desk.evacuate_below")
        if ordered:
            below = say("watch.ordered_at", time=ordered)
        elif view is not None and view.state is State.OUT:
            below = say("watch.not_ordered")
        self.evacuate.set_below(below)

    def flash(self, on: bool) -> None:
        """Flash the edge of the band, or stop."""
        if on and not self._flash.isActive():
            self._flash.start()
        elif not on:
            self._flash.stop()
            self.band.set_heavy(False)

    def _flash_edge(self) -> None:
        self._heavy = not self._heavy
        self.band.set_heavy(self._heavy)

    # Where it stands --------------------------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Everything in its place."""
        self.lay(self.mode, self.waits_for)

    def lay(self, mode: str, waits_for: str) -> None:
        """Lay everything out for a mode; ``waits_for`` is the panel that the state waits for, empty for none."""
        self.mode, self.waits_for = mode, waits_for
        crowd = len(self.view.people) if self.view is not None else 0
        z = self.zones = zones(self.width(), self.height(), mode, crowd)
        there = self.view is not None
        fixed: tuple[tuple[QWidget, QRect], ...] = (
            (self.head, z.head),
            (self.count, z.count),
            (self.clock, z.clock),
            (self.rescue, z.rescue),
            (self.people, z.people),
            (self.gases, z.gases),
            (self.call, z.call),
        )
        for widget, room in fixed:
            widget.setGeometry(room)
            widget.setVisible(there and not room.isEmpty())
        self.band.setGeometry(z.band)
        self.trend.setGeometry(z.trend)
        self.stands.setGeometry(z.trend)
        self.strip.place(z.strip, mode)
        self.strip.setVisible(there)
        self.evacuate.setGeometry(z.evacuate.x(), z.evacuate.y(), EVACUATE, KEY)
        self._lay_keys(z)
        self._lay_next(z)
        self._lay_foot(z)
        self._plot_or_obstacles()

    def _lay_keys(self, z: Zones) -> None:
        gap = 12
        room = z.keys.width() - gap * (len(KEYS) - 1)
        x, whole = z.keys.x(), sum(share for _hint, _sign, share in KEYS.values())
        for name, (_hint, _sign, share) in KEYS.items():
            wide = round(room * share / whole)
            self.keys[name].setGeometry(x, z.keys.y(), wide, z.keys.height())
            x += wide + gap

    def _lay_next(self, z: Zones) -> None:
        room = z.people if self.mode == "out" or self.view is None else z.trend
        shown = bool(self.waits_for) and self.mode in ("calm", "out") and not room.isEmpty()
        self.next_key.setVisible(shown)
        if not shown:
            return
        self.next_key.set_words(say(f"watch.more.{self.waits_for}"), "", Sign.RIGHT)
        if room is z.people:
            self.next_key.setGeometry(room.x(), room.y() + 88, room.width(), 88)
            return
        self.next_key.setGeometry(room.x(), room.bottom() + 1 - 76, room.width(), 76)
        for widget in (self.trend, self.stands):
            widget.setGeometry(room.adjusted(0, 0, 0, -NEXT))

    def _lay_foot(self, z: Zones) -> None:
        room = QRect(z.foot)
        if self.mode == "calm" and not z.trend.isEmpty():
            room.moveTop(z.strip.top() - 12 - room.height())
        elif self.mode in ("calm", "out"):
            # Without the plot, contact (F10) and the name on watch give way for the seconds of a message.
            room = self.strip.said_room()
        self.foot.setGeometry(room)
        self.foot.raise_()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The ground of the Watch's own theme."""
        QPainter(self).fillRect(self.rect(), look_of(self).colour(Role.GROUND))
