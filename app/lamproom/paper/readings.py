"""Item 10 during entry, the table: every set due and taken, lateness in words, both figures of a correction.

Above sixty sets the table is condensed: one row for a quarter hour, and every row that says something of its own.
All sets are in the file that is attached.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal, InvalidOperation
from itertools import groupby

from lamproom.paper.content import Figure, Gas, PermitPage, Retest
from lamproom.paper.flow import Block, Piece
from lamproom.paper.tables import Column, answered, paragraph, table
from lamproom.paper.text import Rich, Run, plain
from lamproom.words import say, say_count

MOST_ROWS = 60
"""More sets than these are condensed."""


@dataclass(frozen=True, slots=True)
class Quarter:
    """Plain sets of one quarter hour, together."""

    sets: tuple[Retest, ...]


def readings(page: PermitPage, width: float) -> Block:
    """The table of sets; where none was due or taken, that in words."""
    title = say("paper.block.10.readings", page.language)
    retests = page.retests
    if not retests.rows:
        words = retests.none_words or say("paper.no_retests", page.language)
        return Block(title, (paragraph(plain(words), width),), 10)
    shown: list[Retest | Quarter] = list(retests.rows)
    pieces: list[Piece] = []
    if len(retests.rows) > MOST_ROWS:
        shown = list(condense(retests.rows))
        words = say("paper.condensed", page.language, all=len(retests.rows), shown=len(shown))
        pieces.append(paragraph(plain(words), width, 9, 11, below=4))
    rows = [_quarter(row, retests.gases, page.language) if isinstance(row, Quarter) else _row(row) for row in shown]
    pieces += table(
        _columns(retests.gases, page.language, wide=len(shown) < len(retests.rows)),
        rows,
        width,
        size=9,
        leading=10.6,
        pad=0.9,
    )
    if retests.note:
        pieces.append(paragraph(plain(retests.note), width, 8, 10.5))
    return Block(title, tuple(pieces), 10, may_split=True)


def condense(rows: Sequence[Retest]) -> Iterator[Retest | Quarter]:
    """Rows that stand for themselves, and the others gathered by quarter hours, in the order of time."""
    last = len(rows) - 1
    marked = [(row, _stands_alone(row) or place in (0, last)) for place, row in enumerate(rows)]
    for (alone, _), found in groupby(marked, key=lambda pair: (pair[1], None if pair[1] else _quarter_of(pair[0].at))):
        sets = tuple(row for row, _ in found)
        if alone or len(sets) == 1:
            yield from sets
        else:
            yield Quarter(sets)


def _stands_alone(row: Retest) -> bool:
    told = row.late or row.corrected or row.note or row.keep
    return bool(told) or any(f.outside or f.first or f.in_doubt or not f.text for f in row.figures)


def _quarter_of(at: datetime) -> tuple[int, int, int]:
    return at.toordinal(), at.hour, at.minute // 15


def _columns(gases: Sequence[Gas], language: str, wide: bool) -> list[Column]:
    """The columns; where rows are gathered (``wide``), a gas with two limits shows a range and needs more room."""
    each = 10.5 if len(gases) <= 4 else max(46 / len(gases), 7.5)
    columns = [
        Column(plain(" "), 3),
        Column((Run(say("paper.head.due", language), bold=True),), 7),
        Column((Run(say("paper.head.taken", language), bold=True),), 7),
    ]
    for gas in gases:
        head = (Run(gas.short, bold=True), Run(" "), Run(gas.unit.replace(" ", "\u00a0"), bold=True), Run(" "))
        share = each + 2.5 if wide and gas.low is not None else each
        columns.append(Column((*head, Run(_limit(gas, language).replace(" ", "\u00a0"))), share, "right"))
    columns.append(Column((Run(say("paper.head.by", language), bold=True),), 5))
    columns.append(Column((Run(say("paper.head.note", language), bold=True),), 78 - each * len(gases)))
    return columns


def _limit(gas: Gas, language: str) -> str:
    """The limit as short as a narrow head needs it."""
    if gas.low is not None and gas.high is not None:
        return say("paper.range", language, low=gas.low, high=gas.high)
    return gas.limit


def _row(row: Retest) -> list[Rich]:
    sign: Rich = (Run("\u00a0"),)
    if row.late:
        sign = (Run("", sign="late"),)
    elif row.corrected:
        sign = (Run("", sign="corrected"),)
    elif any(figure.outside for figure in row.figures):
        sign = (Run("", sign="outside"),)
    note: list[Run] = []
    for text, bold in ((row.late, True), (row.corrected, True), (row.note, False)):
        if text:
            note += [Run(" "), Run(text if text.endswith((".", ";", ":")) or not bold else text + ".", bold=bold)]
    return [
        sign,
        plain(row.due or "–"),
        (Run(row.taken, bold=bool(row.late)),),
        *(_figure(figure) for figure in row.figures),
        answered(row.by),
        tuple(note),
    ]


def _figure(figure: Figure) -> Rich:
    if not figure.text:
        return (Run("", sign="not answered"),)
    runs: list[Run] = []
    if figure.first:
        runs += [Run(figure.first, struck=True), Run(" ")]
    bold = figure.outside or bool(figure.first)
    runs.append(Run(figure.text, bold=bold, sign="outside" if figure.outside else None))
    if figure.in_doubt:
        runs += [Run(" "), Run("", sign="in doubt")]
    return tuple(runs)


def _quarter(quarter: Quarter, gases: Sequence[Gas], language: str) -> list[Rich]:
    """Lowest and highest where a gas has limits on both sides (oxygen), the highest of the rest, and how many sets."""
    first, last = quarter.sets[0], quarter.sets[-1]
    cells: list[Rich] = []
    for place, gas in enumerate(gases):
        texts = [row.figures[place].text for row in quarter.sets if place < len(row.figures)]
        cells.append(plain(_extremes(texts, both=gas.low is not None, language=language)))
    makers = dict.fromkeys(row.by for row in quarter.sets)
    count = say_count("paper.condensed_sets", len(quarter.sets), language)
    return [plain("\u00a0"), plain(first.taken), plain(last.taken), *cells, answered(" ".join(makers)), plain(count)]


def _extremes(texts: Sequence[str], both: bool, language: str) -> str:
    known = sorted(texts, key=number)
    if not both or number(known[0]) == number(known[-1]):
        return known[-1]
    return say("paper.range", language, low=known[0], high=known[-1])


def number(text: str) -> Decimal:
    """The number a figure begins with; a figure that cannot be read ('over range') counts as the highest."""
    try:
        return Decimal(text)
    except InvalidOperation:
        return Decimal("Infinity")
