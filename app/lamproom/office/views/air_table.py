"""The air before entry as a table of plain values: for the review, the briefing and the entrants at the screen."""

from __future__ import annotations

from dataclasses import dataclass

from lamproom.bench.bump import gas_name
from lamproom.permit.facts import Facts, at_point, points
from lamproom.permit.obstacles.atmosphere import current
from lamproom.permit.state import ReadingSet, outside
from lamproom.permit.words import clock, figure_words, limit_words
from lamproom.words import say


@dataclass(frozen=True, slots=True)
class AirTable:
    """Gases (name, unit), a row for each point (depth, time, figures), limits without unit; ``out``: (row, gas) cells
    that are outside."""

    gases: tuple[tuple[str, str], ...]
    rows: tuple[tuple[str, str, tuple[str, ...]], ...]
    limits: tuple[str, ...]
    out: frozenset[tuple[int, int]]


def air_table(facts: Facts) -> AirTable:
    """Every point of today's plan with its newest figures since the air changed. Figures that do not count for entry
    are shown all the same, with that said in place of the time."""
    permit = facts.permit
    lines = permit.form.limits
    rows: list[tuple[str, str, tuple[str, ...]]] = []
    out: set[tuple[int, int]] = set()
    for at, depth in enumerate(points(permit) or ()):
        counted = at_point(facts, depth)
        one = counted or _newest(facts, str(depth))
        if one is None:
            rows.append((str(depth), say("sheets.review.not_tested"), ("",) * len(lines)))
            continue
        bad = {figure.gas for figure in outside(permit.form, one.figures)}
        figures = []
        for column, line in enumerate(lines):
            figure = one.figure(line.gas)
            figures.append(figure.figure or figure_words(figure).say() if figure is not None else "")
            if line.gas in bad:
                out.add((at, column))
        time = clock(one.event.taken, permit.zone) if counted is not None else say("sheets.air.not_counted")
        rows.append((str(depth), time, tuple(figures)))
    return AirTable(
        tuple((gas_name(line.gas).say(), line.unit) for line in lines),
        tuple(rows),
        tuple(limit_words(line).say().removesuffix(f" {line.unit}") for line in lines),
        frozenset(out),
    )


def _newest(facts: Facts, depth: str) -> ReadingSet | None:
    return next((one for one in current(facts) if one.event.point_m == depth), None)
