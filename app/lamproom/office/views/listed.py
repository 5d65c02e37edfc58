"""Obstacles as a list shows them: points that lack the same for the same reason are one row, one thing to be done."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import reduce

from lamproom.permit.obstacles import Obstacle
from lamproom.words import Sentence, sentence

_BY_POINT = frozenset({"point-not-tested", "reading-early"})


def listed(found: Iterable[Obstacle]) -> tuple[Obstacle, ...]:
    """The rows, in the order of the first of each. A row of several points names them all and leads to the first."""
    rows: dict[object, list[Obstacle]] = {}
    for at, one in enumerate(found):
        key = (one.code, one.sentence.id, _without_depth(one), one.stages) if one.code in _BY_POINT else at
        rows.setdefault(key, []).append(one)
    return tuple(_row(same) for same in rows.values())


def _without_depth(one: Obstacle) -> tuple[tuple[str, str | Sentence], ...]:
    return tuple(pair for pair in one.sentence.values if pair[0] != "depth")


def _row(same: list[Obstacle]) -> Obstacle:
    first = same[0]
    if len(same) == 1:
        return first
    depths = [dict(one.sentence.values)["depth"] for one in same]
    begun = reduce(lambda before, depth: sentence("permit.point_list", before=before, depth=depth), depths[:-1])
    both = sentence("permit.point_list_last", before=begun, depth=depths[-1])
    words = Sentence(f"{first.sentence.id.removesuffix('.one')}.other", (("depths", both), *_without_depth(first)))
    return replace(first, found=replace(first.found, sentence=words))
