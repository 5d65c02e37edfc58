"""Exposures of a shift: 8 h at one reading a second, 5 gases, 4 entrants; one more reading; ten times as many."""

from __future__ import annotations

import random
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from statistics import median

import numpy as np
from tests.benchmarks.floors import paired, worked

from lamproom.air.exposure import Exposure, Stay, exposure
from lamproom.air.series import Series, logged

START = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
SECOND = timedelta(seconds=1)
SHIFT = 8 * 3600
GASES = ("carbon monoxide", "hydrogen sulfide", "carbon dioxide", "ammonia", "sulfur dioxide")
ENTRANTS = 4
ROUNDS = 5
GOAL_SHIFT_S, GOAL_MORE_S, GOAL_RATIO = 0.2, 0.005, 11.0

Answers = dict[tuple[str, int], Exposure]


@dataclass(frozen=True)
class Log:
    """What an instrument logged in ``count`` seconds, and when each entrant was inside."""

    times: list[datetime]
    figures: dict[str, list[Decimal]]

    @classmethod
    def of(cls, count: int) -> Log:
        rng = random.Random(count)
        figures = {gas: [Decimal(rng.randint(0, 500)) / 10 for _ in range(count)] for gas in GASES}
        return cls([START + i * SECOND for i in range(count)], figures)

    def stays(self, air: Series, entrant: int) -> list[Stay]:
        """Two stays that are over and one that is not."""
        part = len(self.times) // 10
        first, second = entrant * part, (entrant + 4) * part
        over = [Stay(air, START + at * SECOND, START + (at + 2 * part) * SECOND) for at in (first, second)]
        return [*over, Stay(air, START + 9 * part * SECOND + SECOND)]

    def all_of(self) -> tuple[dict[str, Series], Answers]:
        """All exposures from nothing but the readings as they were typed."""
        air = logged(self.times, self.figures, SECOND)
        return air, self.told(air, self.times[-1], {})

    def as_arrays(self) -> list[np.ndarray]:
        """The floor: each figure as typed made a number, and nothing worked out."""
        return [np.fromiter(map(float, column), dtype=np.float64) for column in self.figures.values()]

    def told(self, air: dict[str, Series], at: datetime, before: Answers) -> Answers:
        return {
            (gas, who): exposure(self.stays(one, who), at, before.get((gas, who)))
            for gas, one in air.items()
            for who in range(ENTRANTS)
        }


def measure() -> list[str]:
    """Four lines: the whole shift, one more reading of each gas, the growth with the number of readings (all in this
    process's own work), and the shift against its floor: the same figures only turned into arrays."""
    log, long = Log.of(SHIFT), Log.of(10 * SHIFT)
    air, told = log.all_of()
    whole = median(worked(log.all_of) for _ in range(ROUNDS))
    ten_times = median(worked(long.all_of) for _ in range(ROUNDS))
    mores = []
    for i in range(1, 4 * ROUNDS):
        at = log.times[-1] + i * SECOND
        before_air, before = air, told

        def more(at: datetime = at, air: dict[str, Series] = before_air, told: Answers = before) -> None:
            log.told({gas: one.add(at, Decimal(3)) for gas, one in air.items()}, at, told)

        mores.append(worked(more))
        air = {gas: one.add(at, Decimal(3)) for gas, one in before_air.items()}
        told = log.told(air, at, before)
    return [
        _line("exposures of a shift", whole * 1000, GOAL_SHIFT_S * 1000, "ms"),
        _line("one more reading", median(mores) * 1000, GOAL_MORE_S * 1000, "ms"),
        _line("ten times the readings", ten_times / whole, GOAL_RATIO, "times the time"),
        paired("exposures of a shift / its figures made arrays", log.all_of, log.as_arrays, ROUNDS, None).line(),
    ]


def _line(name: str, figure: float, goal: float, unit: str) -> str:
    verdict = "goal met" if figure <= goal else "GOAL MISSED"
    return f"{name}: {figure:.1f} {unit} (goal at most {goal:g})  {verdict}"
