"""Instruments: register one with its sensors; the description of one of the same make is filled in by one press."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from lamproom.bench.bump import gas_name
from lamproom.desk.desk import Desk
from lamproom.desk.parts.choice import Option
from lamproom.desk.questions import Questions
from lamproom.desk.registers.entry_page import EntryPage
from lamproom.office.register_instrument import register_instrument
from lamproom.office.views.bench import bench_view
from lamproom.office.views.registers import (
    GASES,
    TECHNOLOGIES,
    instrument_facts,
    instrument_from,
    like,
    unit_of,
)
from lamproom.words import say


class NewInstrumentPage(EntryPage):
    """A new instrument. Its sensors are asked for once their gases are chosen."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "instrument/new", "registers.instruments.new", say("registers.instrument.new"))
        self.setObjectName("registers.instruments.new")
        self._sensors: dict[str, Questions] = {}
        q = self.questions
        known = [Option(id, say("bench_screen.title", id=id)) for id in desk.office.ids("instrument")]
        if known:
            q.drop("like", say("registers.instrument.like"), known, optional=True).chosen.connect(self._like)
        q.side_by_side()
        q.line("id", say("registers.instrument.id"), width=110)
        q.line("name", say("registers.instrument.name"), width=250)
        q.line("serial", say("registers.instrument.serial"), width=200)
        q.side_by_side_ends()
        q.yes_no("pumped", say("registers.instrument.pumped"))
        q.side_by_side()
        q.figure("flow", say("registers.instrument.flow"), "L/min", optional=True, width=90)
        q.figure("hose", say("registers.instrument.hose"), "m", optional=True, width=90)
        q.figure("bore", say("registers.instrument.bore"), "mm", optional=True, width=90)
        q.side_by_side()
        q.figure("battery", say("registers.instrument.battery"), say("bench_screen.h"), width=90)
        q.figure("calibration", say("registers.instrument.interval"), say("registers.days_unit"), width=90)
        q.side_by_side_ends()
        gases = [Option(gas, gas_name(gas).say()) for gas in GASES]
        q.choice("gases", say("registers.instrument.gases"), gases, many=True).changed.connect(
            lambda _values: self._show_sensors()
        )
        self._place = QVBoxLayout()
        self._place.setSpacing(10)
        q.add_layout(self._place)
        q.end()
        self.button("record", say("registers.instrument.record"), self._record)
        self._show_sensors()

    def _show_sensors(self) -> None:
        chosen = self.questions.text("gases").split("\n")
        for gas in GASES:
            if gas in chosen and gas not in self._sensors:
                self._sensors[gas] = self._sensor(gas)
                self._place.addWidget(self._sensors[gas])
            if gas in self._sensors:
                self._sensors[gas].setVisible(gas in chosen)

    def _sensor(self, gas: str) -> Questions:
        q = Questions(self.desk, self.owner, self.name)
        unit = unit_of(gas)
        q.head(gas_name(gas).say())
        q.side_by_side()
        options = [Option(one, say(f"registers.technology.{one}")) for one in TECHNOLOGIES]
        q.drop(f"{gas}.technology", say("registers.instrument.technology"), options)
        q.figure(f"{gas}.range", say("registers.instrument.range"), unit, width=84)
        q.figure(f"{gas}.resolution", say("registers.instrument.resolution"), unit, width=84)
        q.figure(f"{gas}.response", say("registers.instrument.response"), say("bench_screen.s"), width=84)
        q.side_by_side()
        q.figure(f"{gas}.low", say("registers.instrument.low"), unit, optional=gas != "oxygen", width=84)
        q.figure(f"{gas}.high", say("registers.instrument.high"), unit, optional=gas == "oxygen", width=84)
        q.line(f"{gas}.fitted", say("registers.instrument.fitted"), optional=True, width=150)
        q.line(f"{gas}.expires", say("registers.instrument.expires"), optional=True, width=150)
        q.side_by_side_ends()
        return q

    def _like(self, id: str) -> None:
        found = like(self.desk.office, id)
        self.questions.overwrite(found)
        self._show_sensors()
        for sensor in self._sensors.values():
            sensor.overwrite(found)

    def _record(self) -> None:
        answers = dict(self.answers())
        for sensor in self._sensors.values():
            answers |= sensor.answers()
        filled = instrument_from(self.desk.office, answers)
        theirs: set[str] = set()
        for sensor in self._sensors.values():
            own = sensor.own(filled.troubles)
            sensor.show_troubles(own)
            theirs |= set(own)
        also = say("registers.lists_wrong", n=len(theirs)) if theirs else ""
        rest = {key: why for key, why in filled.troubles.items() if key not in theirs}
        self.questions.show_troubles(rest, also)
        by = self.person()
        if filled.value is None or by is None:
            return
        id, registered = filled.value
        if self.desk.do(register_instrument, id, registered, by=by):
            for sensor in self._sensors.values():
                sensor.clear()
            self.done(id, say("registers.instrument.recorded", id=id))


class InstrumentFactsPage(EntryPage):
    """An instrument as registered; its tests are on the Bench."""

    def __init__(self, desk: Desk, id: str) -> None:
        facts = instrument_facts(desk.office, id)
        super().__init__(desk, f"instrument/{id}/facts", "registers.instruments", facts.title)
        self.setObjectName(f"registers.instruments.{id}")
        self.show_facts(facts)
        self.questions.end()
        self.button("bench", say("registers.instrument.to_bench"), lambda: desk.go("bench", instrument=id), main=False)


def listed(desk: Desk) -> list[Option]:
    """The instruments of the register as rows."""
    lines = sorted(bench_view(desk.office).lines, key=lambda line: line.id)
    return [Option(line.id, say("bench_screen.title", id=line.id), line.sees) for line in lines]


def opened(desk: Desk, id: str) -> QWidget:
    """The page of an instrument, or of a new one."""
    return InstrumentFactsPage(desk, id) if id in desk.office.ids("instrument") else NewInstrumentPage(desk)
