"""Is a figure that was typed likely? A doubt is a question beside the box; it changes nothing and delays no alarm.

Only what cannot be air at all is impossible (below zero, more oxygen than everything). Every other doubt is answered
by 'as typed'. Clean air that never moves (20.9, 0, 0) is the ordinary day and raises no doubt.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from lamproom.air.figures import canonical, read_as
from lamproom.bench.bump import CLEAN_OXYGEN
from lamproom.words import Sentence, sentence

OXYGEN_MOST = Decimal(25)
"""Above this many % vol, oxygen in a space is rarer than a slipped decimal sign: common practice."""

SAME_RUN = 3
"""The same figure this many times before, away from clean air, may be a frozen display: common practice."""

_SHIFTS = (Decimal("0.1"), Decimal("10"), Decimal("0.01"), Decimal("100"))
_CLEAN_BAND = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class Doubt:
    """What is odd about a figure. ``meant`` is the figure that was perhaps meant, None where none suggests itself;
    ``impossible`` that it cannot be stored as it is."""

    question: Sentence
    meant: str | None = None
    impossible: bool = False


def doubt(
    typed: str,
    value: Decimal,
    gas: str,
    unit: str,
    last: Sequence[Decimal] = (),
    resolution: Decimal | None = None,
    range_high: Decimal | None = None,
) -> Doubt | None:
    """The first doubt about a figure, None when it is likely enough.

    ``last`` are the figures read before at this gas, newest first; ``resolution`` and ``range_high`` are the
    instrument's, in the same unit. A comma that looks like a thousands sign is doubted first: 1,250 reads 1.250.
    """
    comma = read_as(typed)
    if comma is not None:
        return Doubt(comma)
    if value < 0:
        return Doubt(sentence("watch.query.below_zero", figure=typed), impossible=True)
    meant = _shifted(value, gas, last)
    if unit == "% vol" and value > 100:
        return Doubt(sentence("watch.query.over_hundred", figure=typed), meant, impossible=True)
    if range_high is not None and value > range_high:
        return Doubt(sentence("watch.query.over_range", figure=typed, range=f"{range_high} {unit}"), meant)
    if gas == "oxygen" and value > OXYGEN_MOST:
        return Doubt(sentence("watch.query.odd_oxygen", figure=typed), meant)
    if meant is not None and not last:
        # Nothing was read before: only oxygen has a figure that it is known to have in clean air.
        return Doubt(sentence("watch.query.odd_oxygen", figure=typed), meant)
    if meant is not None:
        return Doubt(sentence("watch.query.jump", figure=typed, last=canonical(last[0])), meant)
    return _digits(typed, value, resolution) or _frozen(typed, value, gas, last, resolution or Decimal(0))


def _shifted(value: Decimal, gas: str, last: Sequence[Decimal]) -> str | None:
    """The figure with its decimal sign moved so that it fits the last one; None when it fits as it stands."""
    before = last[0] if last else CLEAN_OXYGEN if gas == "oxygen" else None
    if before is None or before == 0 or value == 0 or before / 5 < value < before * 5:
        return None
    for shift in _SHIFTS:
        moved = value * shift
        if before * Decimal("0.8") <= moved <= before * Decimal("1.25"):
            return canonical(moved.normalize())
    return None


def _digits(typed: str, value: Decimal, resolution: Decimal | None) -> Doubt | None:
    if resolution is None or (resolution >= 1 and "." not in typed and "," not in typed):
        return None
    shown = max(0, -_exponent(resolution))
    given = max(0, -_exponent(value))
    if given > shown:
        return Doubt(sentence("watch.query.too_fine", figure=typed, step=canonical(resolution)))
    if given == 0 and shown > 0 and value != 0:
        return Doubt(sentence("watch.query.no_tenths", figure=typed, step=canonical(resolution)))
    return None


def _exponent(value: Decimal) -> int:
    exponent = value.as_tuple().exponent
    return exponent if isinstance(exponent, int) else 0


def _frozen(typed: str, value: Decimal, gas: str, last: Sequence[Decimal], step: Decimal) -> Doubt | None:
    """One figure again and again. Within two steps of clean air that is the ordinary day, not a frozen display."""
    clean = abs(value - (CLEAN_OXYGEN if gas == "oxygen" else 0)) <= max(2 * step, _CLEAN_BAND)
    if clean or len(last) < SAME_RUN or any(before != value for before in last[:SAME_RUN]):
        return None
    return Doubt(sentence("watch.query.frozen", figure=typed, times=SAME_RUN + 1))
