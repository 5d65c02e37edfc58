"""Did the check before use pass? Each answer apart; the first thing wrong never hides the next."""

from __future__ import annotations

from decimal import Decimal

from lamproom.bench.events import CheckedBeforeUse, InstrumentRegistered
from lamproom.bench.rules import BenchRules
from lamproom.words import Sentence, sentence

_ANSWERS = (
    ("self_test", "bench.check.self_test"),
    ("alarm_heard", "bench.check.alarm_heard"),
    ("alarm_seen", "bench.check.alarm_seen"),
    ("alarm_felt", "bench.check.alarm_felt"),
    ("display_complete", "bench.check.display"),
    ("housing_sound", "bench.check.housing"),
    ("set_points_as_registered", "bench.check.set_points"),
)


def faults(check: CheckedBeforeUse, instrument: InstrumentRegistered, rules: BenchRules) -> tuple[Sentence, ...]:
    """Everything the check found wrong, a sentence each; empty when it passed."""
    found = [sentence(id) for field, id in _ANSWERS if not getattr(check, field)]
    if instrument.pump_l_min is not None:
        limit = int(rules.block_within.total_seconds())
        if check.block_stopped_s is None or Decimal(check.block_stopped_s) > limit:
            found.append(sentence("bench.check.pump_block", limit=limit))
    air = check.fresh_air
    if not air.why_clean.strip():
        found.append(sentence("bench.check.why_clean"))
    if air.beside_portal:
        found.append(sentence("bench.check.beside_portal"))
    shift = abs(Decimal(air.oxygen_after) - Decimal(air.oxygen_before))
    if shift > rules.set_up_shift:
        found.append(sentence("bench.check.shift", shift=str(shift), limit=str(rules.set_up_shift)))
    return tuple(found)
