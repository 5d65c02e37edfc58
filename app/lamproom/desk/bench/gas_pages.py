"""Bump test and calibration: the cylinder, then what each sensor did with its gas."""

from __future__ import annotations

from typing import Literal

from lamproom.bench.events import Cylinder
from lamproom.desk.bench.act_page import ActPage
from lamproom.desk.desk import Desk
from lamproom.desk.parts.choice import Option
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter, Place, Role
from lamproom.office.bump_test import bump_test
from lamproom.office.calibrate import calibrate
from lamproom.office.views.bench import (
    InstrumentView,
    SensorLine,
    bump_from,
    calibration_from,
    cylinder_words,
    cylinders,
)
from lamproom.words import say

_NARROW = 60
_SPACE = 8
NAME, FIGURE, SECONDS = 96, 128, 84
"""Widths of the columns, logical pixels: a sensor's name, a figure with its unit, seconds."""


class GasPage(ActPage):
    """The part with the cylinder. A cylinder used before fills in its description, never a result."""

    def __init__(self, desk: Desk, name: str, view: InstrumentView) -> None:
        super().__init__(desk, name, view.id)
        self._sensors = view.sensors
        self._known: tuple[Cylinder, ...] = cylinders(desk.office)

    def ask_cylinder(self) -> None:
        """Which cylinder: one used before, or its mark, lot and expiry."""
        q = self.questions
        if self._known:
            office = self.desk.office
            options = [Option(str(at), cylinder_words(office, one)) for at, one in enumerate(self._known)]
            which = q.drop("which", say("bench_screen.cylinder.which"), options)
            which.chosen.connect(lambda value: self._fill(self._known[int(value)]))
        q.side_by_side()
        q.line("cylinder", say("bench_screen.cylinder.name"), width=130)
        q.line("lot", say("bench_screen.cylinder.lot"), width=110)
        q.line("expires", say("bench_screen.cylinder.expires"), hint=say("registers.day_hint"), width=160)
        q.side_by_side_ends()

    def _fill(self, cylinder: Cylinder) -> None:
        given = {"cylinder": cylinder.name, "lot": cylinder.lot, "expires": cylinder.expires.isoformat()}
        given |= {f"{gas}.applied": figure for gas, figure in cylinder.gases.items()}
        self.questions.overwrite(given)

    def ask_first(self, line: SensorLine) -> None:
        """The name of the sensor at the left of its row, and what was applied."""
        self.questions.side_by_side(_SPACE)
        name = Label(line.name, Letter.TABLE, bold=True, wrap=True)
        name.setFixedWidth(NAME)
        name.setMinimumHeight(Place.TRAILER)
        self.questions.add(name)
        self.ask_figure(line, "applied", "bench_screen.bump.applied")

    def ask_figure(self, line: SensorLine, key: str, id: str) -> None:
        """A figure of a sensor in its unit; the head of its column says what it is."""
        label = say("bench_screen.of_sensor", sensor=line.name, what=say(id))
        self.questions.figure(f"{line.gas}.{key}", label, line.unit, width=_NARROW, column=FIGURE)

    def heads(self, *columns: tuple[str, int]) -> None:
        """One row of heads over the figures of all sensors."""
        self.questions.side_by_side(_SPACE)
        for id, wide in (("bench_screen.column.sensor", NAME), *columns):
            head = Label(say(id), Letter.SMALL, tone=Role.SECOND)
            head.setFixedWidth(wide)
            self.questions.add(head)


class BumpPage(GasPage):
    """The bump test: of the kind the form asks for."""

    def __init__(self, desk: Desk, view: InstrumentView) -> None:
        super().__init__(desk, "bump", view)
        self._check: Literal["function", "calibration"] = (
            "calibration" if view.check_kind == "calibration" else "function"
        )
        q = self.questions
        q.note(say(f"bench_screen.bump.{self._check}"))
        self.ask_cylinder()
        self.heads(
            ("bench_screen.bump.applied", FIGURE),
            ("bench_screen.bump.read", FIGURE),
            ("bench_screen.bump.seconds", SECONDS),
        )
        for line in view.sensors:
            self.ask_first(line)
            self.ask_figure(line, "reading", "bench_screen.bump.read")
            seconds = say("bench_screen.of_sensor", sensor=line.name, what=say("bench_screen.bump.seconds"))
            q.figure(f"{line.gas}.seconds", seconds, say("bench_screen.s"), width=_NARROW, column=SECONDS)
            q.choice(f"{line.gas}.silent", "", [Option("silent", say("bench_screen.bump.silent"))], many=True)
        q.end()
        self.record_with(say("bench_screen.bump.record"), self._record)

    def _record(self) -> None:
        sensors = self.desk.office.instrument(self.instrument).sensors
        filled = bump_from(self.questions.answers(), sensors, self._check)
        self.show_troubles(filled.troubles)
        person = self.person()
        if filled.value is None or person is None:
            return
        if self.desk.do(bump_test, self.instrument, filled.value, by=person):
            self.done()


class CalibrationPage(GasPage):
    """A calibration: as found, as left; the next falls due by the registered interval or earlier."""

    def __init__(self, desk: Desk, view: InstrumentView) -> None:
        super().__init__(desk, "calibrate", view)
        self._due = view.calibration_due
        q = self.questions
        q.note(view.last_calibration)
        self.ask_cylinder()
        self.heads(
            ("bench_screen.bump.applied", FIGURE),
            ("bench_screen.calibrate.found", FIGURE),
            ("bench_screen.calibrate.left", FIGURE),
        )
        for line in view.sensors:
            self.ask_first(line)
            self.ask_figure(line, "found", "bench_screen.calibrate.found")
            self.ask_figure(line, "left", "bench_screen.calibrate.left")
        q.side_by_side_ends()
        q.yes_no("passed", say("bench_screen.calibrate.passed"))
        q.note(view.calibration_words)
        q.line("due", say("bench_screen.calibrate.earlier"), hint=say("registers.day_hint"), optional=True, width=160)
        q.end()
        self.record_with(say("bench_screen.calibrate.record"), self._record)

    def _record(self) -> None:
        sensors = self.desk.office.instrument(self.instrument).sensors
        filled = calibration_from(self.questions.answers(), sensors, self._due)
        self.show_troubles(filled.troubles)
        person = self.person()
        if filled.value is None or person is None:
            return
        if self.desk.do(calibrate, self.instrument, filled.value, by=person):
            self.done()
