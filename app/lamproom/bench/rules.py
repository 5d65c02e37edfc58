"""The figures of a form that decide readiness, as plain values the bench can be given."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import time, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo


@dataclass(frozen=True, slots=True)
class BenchRules:
    """What a bump test and a check must show, and how long they count.

    ``accept_low`` and ``accept_high`` are per cent of the applied concentration; ``alarm_within`` the longest time to
    alarm; ``check`` the kind of bump test that counts; ``battery_reserve`` is added to the planned work.
    """

    zone: ZoneInfo
    day_start: time
    bump_under: timedelta
    in_duty_period: bool
    check: str
    accept_low: Decimal
    accept_high: Decimal
    alarm_within: timedelta
    block_within: timedelta
    set_up_shift: Decimal
