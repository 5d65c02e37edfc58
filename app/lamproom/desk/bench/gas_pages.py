"""Bump test and calibration: the cylinder, then what each sensor did with its gas."""

from __future__ import annotations

from typing import Literal

from lamproom.bench.events import Cylinder
from lamproom.desk.bench.act_page import ActPage
from lamproom.desk.desk import Desk
from lamproom.desk.parts.choice import Option
from lamproom.desk.parts.label import Label
from lamproom.desk.theme import Letter
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

_NARROW = 76


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
        q = self.questions
        q.side_by_side()
        name = Label(f"{line.name}, {line.unit}", Letter.TABLE, bold=True, wrap=True)
        name.setFixedWidth(116)
        name.setContentsMargins(0, 26, 0, 0)
        q.add(name)
        q.figure(f"{line.gas}.applied", say("bench_screen.bump.applied"), "", width=_NARROW)


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
        for line in view.sensors:
            self.ask_first(line)
            q.figure(f"{line.gas}.reading", say("bench_screen.bump.read"), "", width=_NARROW)
            q.figure(f"{line.gas}.seconds", say("bench_screen.bump.seconds"), say("bench_screen.s"), width=_NARROW)
            q.choice(f"{line.gas}.silent", " ", [Option("silent", say("bench_screen.bump.silent"))], many=True)
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
        for line in view.sensors:
            self.ask_first(line)
            q.figure(f"{line.gas}.found", say("bench_screen.calibrate.found"), "", width=_NARROW)
            q.figure(f"{line.gas}.left", say("bench_screen.calibrate.left"), "", width=_NARROW)
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
