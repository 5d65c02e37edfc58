"""What is said of a figure while it is typed: unreadable, outside its limit, or odd. It alarms first and asks after."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from lamproom.air.figures import canonical, read_figure
from lamproom.bench.bump import gas_name
from lamproom.office.office import Office
from lamproom.permit import events as e
from lamproom.permit.plausible import Doubt, doubt
from lamproom.permit.state import Permit, outside
from lamproom.permit.words import figure_words, limit_words
from lamproom.words import Refusal, say


@dataclass(frozen=True, slots=True)
class BoxWords:
    """``trouble`` keeps the set from being stored; ``alarm`` says that the figure is outside; ``doubt`` asks once
    whether it is meant as typed, ``meant`` is the figure that was perhaps meant. Each is empty where there is nothing
    to say."""

    trouble: str = ""
    alarm: str = ""
    doubt: str = ""
    meant: str = ""

    @property
    def first(self) -> str:
        """What is said first: a figure past its limit, then what keeps it from being stored, then what is asked."""
        said = self.alarm or self.trouble or self.doubt
        return f"{said} {say('watch.query.meant', meant=self.meant)}" if self.meant else said


def box_words(office: Office, number: str, instrument: str, gas: str, text: str) -> BoxWords:
    """What is to be said of this text in the box of this gas; an empty box wants a figure or a word for none."""
    permit = office.permit(number)
    name = gas_name(gas)
    if not text.strip():
        return BoxWords(trouble=say("sheets.air.box_open", gas=name))
    try:
        value = read_figure(text)
    except Refusal as refusal:
        return BoxWords(trouble=say("sheets.air.box_wrong", gas=name, why=refusal.why))
    found = _doubt(permit, instrument, gas, text, value)
    said = say("sheets.air.box_wrong", gas=name, why=found.question) if found is not None else ""
    meant = (found.meant or "") if found is not None else ""
    if found is not None and found.impossible:
        return BoxWords(trouble=said, meant=meant)
    return BoxWords(alarm=_alarm(permit, gas, value), doubt=said, meant=meant)


def _doubt(permit: Permit, instrument: str, gas: str, text: str, value: Decimal) -> Doubt | None:
    line = permit.form.limit(gas)
    assigned = permit.instruments.get(instrument)
    sensor = next((s for s in assigned.registered.sensors if s.gas == gas), None) if assigned is not None else None
    unit = line.unit if line is not None else sensor.unit if sensor is not None else ""
    before = [
        Decimal(figure.figure)
        for one in reversed(permit.sets)
        if (figure := one.figure(gas)) is not None and figure.figure is not None
    ]
    return doubt(
        text.strip(),
        value,
        gas,
        unit,
        before,
        Decimal(sensor.resolution) if sensor is not None else None,
        Decimal(sensor.range_high) if sensor is not None else None,
    )


def _alarm(permit: Permit, gas: str, value: Decimal) -> str:
    line = permit.form.limit(gas)
    if line is None:
        return ""
    figure = e.Figure(gas=gas, unit=line.unit, figure=canonical(value))
    if not outside(permit.form, (figure,)):
        return ""
    return say("sheets.air.box_outside", gas=gas_name(gas), figure=figure_words(figure), limit=limit_words(line))
