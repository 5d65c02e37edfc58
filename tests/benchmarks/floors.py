"""Timing a thing against a floor in the same run: medians, paired round by round, never a timed test."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from time import perf_counter, process_time


@dataclass(frozen=True, slots=True)
class Ratio:
    """A thing and its floor: medians in seconds, and the ratio of the two with its goal (None: told only)."""

    name: str
    thing_s: float
    floor_s: float
    goal: float | None

    def line(self) -> str:
        ratio = self.thing_s / self.floor_s
        verdict = "" if self.goal is None else ("  goal met" if ratio <= self.goal else "  GOAL MISSED")
        goal = "" if self.goal is None else f" (goal at most {self.goal:g})"
        times = f"{self.thing_s * 1000:.2f} ms against {self.floor_s * 1000:.2f} ms"
        return f"{self.name}: {times}, ratio {ratio:.2f}{goal}{verdict}"


def timed(do: Callable[[], object]) -> float:
    """Seconds that one call took."""
    begin = perf_counter()
    do()
    return perf_counter() - begin


def worked(do: Callable[[], object]) -> float:
    """Seconds of this process's own work in one call: for goals in seconds, on a machine that others use as well."""
    begin = process_time()
    do()
    return process_time() - begin


def paired(
    name: str, thing: Callable[[], object], floor: Callable[[], object], rounds: int, goal: float | None
) -> Ratio:
    """Both timed in turn, so that whatever else the machine does falls on both; the first round warms up."""
    pairs = [(timed(floor), timed(thing)) for _ in range(rounds + 1)][1:]
    return Ratio(name, median(t for _, t in pairs), median(f for f, _ in pairs), goal)
