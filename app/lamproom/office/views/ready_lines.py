"""The instruments of the site in the order of need: not ready first, then soonest to lapse, on one axis of time."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from lamproom.bench.readiness import readiness
from lamproom.bench.rules import BenchRules
from lamproom.office.office import Office
from lamproom.office.views.spans import until_words
from lamproom.words import say

USUAL_FORM = "us-general-industry"
"""The form whose bench rules judge an instrument that serves no permit."""


@dataclass(frozen=True, slots=True)
class InstrumentLine:
    """One instrument: ``until`` None when it is not ready; ``why`` is then its first reason. ``note`` says where it
    serves now."""

    id: str
    name: str
    sign: str
    words: str
    why: str
    note: str
    until: datetime | None


def instrument_lines(office: Office, at: datetime) -> tuple[InstrumentLine, ...]:
    """Every registered instrument at a moment, each judged by the form of the permit it serves."""
    serving: dict[str, tuple[str, BenchRules]] = {}
    for number in office.ids("permit"):
        permit = office.permit(number)
        if permit.ended is None:
            for one in (*permit.assigned("test"), *permit.assigned("worn")):
                serving[one.instrument] = (permit.opened.registered.name, permit.form.bench_rules(permit.zone))
    usual = office.form(USUAL_FORM)[0].bench_rules(office.zone) if USUAL_FORM in office.forms else None
    lines = []
    for id in office.ids("instrument"):
        instrument = office.instrument(id)
        space, rules = serving.get(id, ("", usual))
        if instrument.registered is None or rules is None:
            continue
        ready = readiness(instrument, rules, at)
        note = space or say("board.not_assigned")
        name = instrument.registered.name
        if ready.ready and ready.until is not None:
            words = say("board.ready_until", until=until_words(ready.until, at, office.zone))
            lines.append(InstrumentLine(id, name, "WITHIN", words, "", note, ready.until))
        else:
            why = ready.unfit[0].sentence.say() if ready.unfit else ""
            lines.append(InstrumentLine(id, name, "REFUSED", say("board.not_ready"), why, note, None))
    return tuple(sorted(lines, key=lambda line: (line.until is not None, line.until or at, not line.note, line.name)))
