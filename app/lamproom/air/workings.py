"""Every working by its name in the trade's words, with what it asks for: for the command line and for trying out.

A working asks for figures ("oxygen=20.5"), for words ("fuel=methane"), for pairs that may come many times
("reading=10:45" is minute 10, level 45) and for gases with their figures ("gas=methane:80:5.0").
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from difflib import get_close_matches
from enum import Enum

from lamproom.air.figures import Unreadable, read_figure
from lamproom.air.working import Input, Unworkable, Working
from lamproom.words import Sentence, say, sentence


class Form(Enum):
    """How an input is written."""

    FIGURE = "figure"
    WORD = "word"
    PAIRS = "pairs"
    GASES = "gases"


@dataclass(frozen=True, slots=True)
class Ask:
    """One input: its ``key``, ``unit`` and ``form``; ``needed`` says whether the working can do without it.

    ``parts`` are the keys of the inputs that a pair, or a gas, is made of.
    """

    key: str
    unit: str = ""
    form: Form = Form.FIGURE
    needed: bool = True
    parts: tuple[str, ...] = ()

    def explained(self) -> str:
        """What it is, in words."""
        return say(f"air.input.{self.key}")

    def written(self) -> str:
        """How it is written, such as reading=MINUTES:LEVEL."""
        blanks = {
            Form.FIGURE: say("air.workings.figure"),
            Form.WORD: say("air.workings.word"),
            Form.PAIRS: ":".join(part.upper() for part in self.parts),
            Form.GASES: ":".join((say("air.workings.gas"), *(part.upper() for part in self.parts))),
        }
        return f"{self.key}={blanks[self.form]}"


@dataclass(frozen=True, slots=True)
class Given:
    """What was given to a working, by key, already read."""

    figures: dict[str, Decimal]
    words: dict[str, tuple[str, ...]]
    pairs: dict[str, tuple[tuple[Decimal, ...], ...]]
    gases: dict[str, dict[str, tuple[Decimal, ...]]]

    def __getitem__(self, key: str) -> Decimal:
        return self.figures[key]

    def get(self, key: str) -> Decimal | None:
        """A figure that may be left out."""
        return self.figures.get(key)

    def at(self, key: str, otherwise: Decimal) -> Decimal:
        """A figure that may be left out, and what counts then."""
        return self.figures.get(key, otherwise)

    def word(self, key: str, otherwise: str = "") -> str:
        """A word that may be left out, and what counts then."""
        return self.words.get(key, (otherwise,))[0]

    def part(self, key: str, index: int) -> dict[str, Decimal]:
        """One of the figures that each gas came with, by gas."""
        return {gas: figures[index] for gas, figures in self.gases.get(key, {}).items()}


@dataclass(frozen=True, slots=True)
class Entry:
    """A working of the list: its ``key`` in the catalogue, what it asks for, what works it out, and an ``example``."""

    key: str
    asks: tuple[Ask, ...]
    run: Callable[[Given], Working]
    example: tuple[str, ...]

    @property
    def name(self) -> str:
        """Its name on the command line."""
        return self.key.replace("_", "-")

    def title(self) -> str:
        """What it works out, in words."""
        return say(f"air.working.{self.key}")


def figure(key: str, unit: str = "", needed: bool = True) -> Ask:
    """An input that is one figure."""
    return Ask(key, unit, Form.FIGURE, needed)


def word(key: str, needed: bool = True) -> Ask:
    """An input that is a word, or several of one key."""
    return Ask(key, "", Form.WORD, needed)


def pairs(key: str, unit: str, *parts: str) -> Ask:
    """An input of figures parted by colons, that may come many times."""
    return Ask(key, unit, Form.PAIRS, True, parts)


def gases(key: str, unit: str, *parts: str, needed: bool = True) -> Ask:
    """An input of a gas and its figures, once for each gas."""
    return Ask(key, unit, Form.GASES, needed, parts)


def find(entries: Sequence[Entry], name: str) -> Entry:
    """The working of that name; Unworkable names the nearest when there is none."""
    by_name = {entry.name: entry for entry in entries}
    if name in by_name:
        return by_name[name]
    near = get_close_matches(name, by_name, n=3, cutoff=0.5)
    if near:
        raise Unworkable(sentence("air.workings.no_such_near", name=name, near=", ".join(near)))
    raise Unworkable(sentence("air.workings.no_such", name=name))


def work_out(entry: Entry, typed: Sequence[str]) -> Working:
    """The working of what was typed, such as ["oxygen=20.5", "base=20.9"]; Unworkable tells all that is wrong."""
    given = _read(entry, typed)
    try:
        return entry.run(given)
    except ArithmeticError as error:
        raise Unworkable(sentence("air.workings.too_large", name=entry.name)) from error


def again(entries: Sequence[Entry], working: Working) -> Working:
    """The same working from nothing but its own inputs: what is shown must be all that it was made of."""
    entry = next(entry for entry in entries if entry.key == working.key)
    return work_out(entry, typed_of(entry, working.inputs))


def typed_of(entry: Entry, inputs: Sequence[Input]) -> list[str]:
    """The inputs of a working as they would be typed."""
    typed = []
    for ask in entry.asks:
        if ask.form in (Form.FIGURE, Form.WORD):
            unknown = (say("air.unknown"), say("air.result.unknown"))
            typed += [f"{ask.key}={one.value}" for one in inputs if one.key == ask.key and one.value not in unknown]
            continue
        columns = [[one for one in inputs if one.key == part] for part in ask.parts]
        for row in zip(*columns, strict=True):
            gas = (row[0].gas,) if ask.form is Form.GASES else ()
            typed.append(f"{ask.key}={':'.join((*gas, *(one.value for one in row)))}")
    return typed


def told(working: Working) -> tuple[str, ...]:
    """A working as lines of text: result, interval, formula, inputs, source, where it holds."""
    result = working.result if isinstance(working.result, str) else f"{working.result:f}".replace("-", "\u2212")
    lines = [working.name, say("air.told.result", result=f"{result} {working.unit}".strip())]
    if working.low is not None or working.high is not None:
        ends = [say("air.told.open") if end is None else f"{end:f}" for end in (working.low, working.high)]
        lines.append(say("air.told.interval", low=ends[0], high=ends[1]))
    lines.append(say("air.told.formula", formula=working.formula))
    lines += _inputs(working.inputs)
    lines.append(say("air.told.source", source=working.source))
    if working.validity:
        lines.append(say("air.told.holds", validity=working.validity))
    return tuple(lines)


def explained(entry: Entry) -> tuple[str, ...]:
    """What a working is and what it asks for, as lines of text, with an example to type."""
    asks = []
    for ask in entry.asks:
        what = ask.explained() + (f", {ask.unit}" if ask.unit else "")
        many = say("air.workings.many") if ask.form in (Form.PAIRS, Form.GASES) else ""
        need = "" if ask.needed else say("air.workings.optional")
        asks.append(f"  {ask.written():<34} {what}{many}{need}")
    return (
        f"{entry.name}: {entry.title()}",
        say("air.told.formula", formula=say(f"air.formula.{entry.key}")),
        *asks,
        say("air.workings.example", example=f"lamproom working {entry.name} {' '.join(entry.example)}"),
    )


def _inputs(inputs: Sequence[Input]) -> list[str]:
    """The inputs as lines; a level with its minutes on one."""
    lines, minutes = [], ""
    levels = sum(one.key == "level" for one in inputs)
    for one in inputs:
        value = f"{one.value} {one.unit}".strip()
        if one.key == "minutes" and levels > 1:
            minutes = value
            continue
        name, minutes = (f"{one.name}, {minutes}" if minutes else one.name), ""
        lines.append(
            say("air.told.input_from" if one.source else "air.told.input", name=name, value=value, source=one.source)
        )
    return lines


def _read(entry: Entry, typed: Sequence[str]) -> Given:
    wrong: list[Sentence] = []
    texts = _texts(entry, typed, wrong)
    given = Given({}, {}, {}, {})
    for ask in entry.asks:
        values = texts.get(ask.key, [])
        if ask.needed and not values:
            wrong.append(sentence("air.workings.missing", key=ask.key, what=ask.explained(), written=ask.written()))
        if values:
            _take(ask, values, given, wrong)
    if wrong:
        raise Unworkable(wrong[0] if len(wrong) == 1 else _all(wrong))
    return given


def _texts(entry: Entry, typed: Sequence[str], wrong: list[Sentence]) -> dict[str, list[str]]:
    """What was typed for each key; what belongs to none is told."""
    known = [ask.key for ask in entry.asks]
    texts: dict[str, list[str]] = {}
    for text in typed:
        key, sign, value = text.partition("=")
        if not sign:
            wrong.append(sentence("air.workings.no_sign", text=text))
        elif key not in known:
            wrong.append(sentence("air.workings.no_key", key=key, name=entry.name, known=", ".join(known)))
        else:
            texts.setdefault(key, []).append(value)
    return texts


def _take(ask: Ask, values: list[str], given: Given, wrong: list[Sentence]) -> None:
    """Read the values of one input into what is given; what is wrong with them is told."""
    if ask.form is Form.WORD:
        given.words[ask.key] = tuple(value.strip() for value in values)
    elif ask.form is Form.FIGURE:
        if len(values) > 1:
            wrong.append(sentence("air.workings.twice", key=ask.key))
        for row in _rows(ask, [[value] for value in values], 1, wrong):
            given.figures[ask.key] = row[0]
    elif ask.form is Form.PAIRS:
        given.pairs[ask.key] = tuple(_rows(ask, [value.split(":") for value in values], len(ask.parts), wrong))
    else:
        named = [value.partition(":") for value in values]
        wrong += [
            sentence("air.workings.parts", text=value, written=ask.written()) for value in values if ":" not in value
        ]
        named = [one for one in named if one[1]]
        rows = _rows(ask, [rest.split(":") for _, _, rest in named], len(ask.parts), wrong)
        given.gases[ask.key] = dict(zip((gas for gas, _, _ in named), rows, strict=False))
        if len({gas for gas, _, _ in named}) < len(named):
            wrong.append(sentence("air.workings.gas_twice", key=ask.key))


def _rows(ask: Ask, rows: list[list[str]], count: int, wrong: list[Sentence]) -> list[tuple[Decimal, ...]]:
    """The figures of each row; what cannot be read is told and left out."""
    read = []
    for row in rows:
        if len(row) != count:
            wrong.append(sentence("air.workings.parts", text=":".join(row), written=ask.written()))
            continue
        try:
            read.append(tuple(read_figure(text) for text in row))
        except Unreadable as error:
            wrong.append(sentence("air.workings.unreadable", key=ask.key, why=error.why))
    return read


def _all(wrong: Sequence[Sentence]) -> Sentence:
    return sentence(
        "air.workings.several", n=len(wrong), all=" ".join(f"({i}) {one}" for i, one in enumerate(wrong, 1))
    )
