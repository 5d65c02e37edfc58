"""A working of the air as the lines of a slip: what went in, with unit and source, and what came out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from lamproom.air.working import Input, Working
from lamproom.office.amount import amount
from lamproom.words import say

_PAIRED = ("minutes", "level")


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a working: what, from what, how much. One without ``what`` is said across the whole slip."""

    what: str
    how: str = ""
    figure: str = ""
    total: bool = False


@dataclass(frozen=True, slots=True)
class SlipPage:
    """A slip's worth: ``name`` is the link that leads to it; ``workings`` are those that its figures come from."""

    name: str
    title: str
    steps: tuple[Step, ...]
    formula: str = ""
    source: str = ""
    aside: str = ""
    workings: tuple[Working, ...] = ()


def page_of(working: Working, name: str = "", title: str = "") -> SlipPage:
    """Any working as a page: its inputs, then its result with the formula and the interval."""
    return SlipPage(
        name or working.name,
        title or working.name,
        (*inputs_of(working), *result_of(working)),
        say("workings.formula", formula=working.formula),
        working.source,
        working.validity,
        (working,),
    )


def inputs_of(working: Working) -> Iterator[Step]:
    """A line for each input; timed readings stand in one."""
    timed = [one for one in working.inputs if one.key in _PAIRED]
    together = len(timed) > 2 and len(timed) % 2 == 0
    if together:
        pairs = zip(timed[::2], timed[1::2], strict=True)
        said = "; ".join(say("workings.timed", minutes=at.value, level=level.value) for at, level in pairs)
        yield Step(say("workings.readings"), figure=str(len(timed) // 2))
        yield Step("", said)
    for one in working.inputs:
        if not (together and one in timed):
            yield Step(_named(one), one.source, amount(one.value, one.unit))


def result_of(working: Working) -> Iterator[Step]:
    """The result under its line, and below it the interval where it has one."""
    yield Step(say("workings.result"), "", amount(working.result, working.unit), total=True)
    if working.low is not None or working.high is not None:
        ends = [
            say("workings.no_end") if end is None else amount(end, working.unit) for end in (working.low, working.high)
        ]
        yield Step(say("workings.interval"), "", say("workings.ends", a=ends[0], b=ends[1]))


def _named(one: Input) -> str:
    return one.name[:1].upper() + one.name[1:]
