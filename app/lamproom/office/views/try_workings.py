"""Workings tried without a permit: what each asks for, and its slip from what was typed. Nothing is recorded."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from lamproom.air.figures import Unreadable, read_figure
from lamproom.air.working_list import WORKINGS
from lamproom.air.workings import Ask, Entry, Form, find, work_out
from lamproom.air.workings_for_showing import FOR_SHOWING
from lamproom.office.amount import unit_words
from lamproom.office.views.working_slip import SlipPage, page_of
from lamproom.words import Refusal, say


@dataclass(frozen=True, slots=True)
class Box:
    """One thing to type: its key, label, unit; ``figure`` False is for a word."""

    key: str
    label: str
    unit: str = ""
    figure: bool = True
    needed: bool = True


@dataclass(frozen=True, slots=True)
class Group:
    """What belongs together: one box, or a row of boxes that may be typed many times (``many``)."""

    key: str
    label: str
    boxes: tuple[Box, ...]
    many: bool = False


@dataclass(frozen=True, slots=True)
class TryView:
    """A working to try: its title, formula, what it asks for, and whether it is for showing alone."""

    name: str
    title: str
    formula: str
    groups: tuple[Group, ...]
    showing: bool


@dataclass(frozen=True, slots=True)
class Tried:
    """The slip, or everything wrong by the key of its box (empty key: with no box of its own)."""

    page: SlipPage | None = None
    troubles: Mapping[str, str] = field(default_factory=dict)


def names() -> tuple[tuple[str, str, str], ...]:
    """Every working in the order of the list: its name, its title, and what the title adds or that it shows only."""
    return tuple(_named(entry) for entry in WORKINGS)


def _named(entry: Entry) -> tuple[str, str, str]:
    title, _sign, more = entry.title().partition(": ")
    return (entry.name, title, say("workings.try.showing_short") if entry in FOR_SHOWING else more)


def try_view(name: str) -> TryView:
    """What the working of that name asks for; Unworkable when there is none."""
    entry = find(WORKINGS, name)
    groups = tuple(_group(ask) for ask in entry.asks)
    return TryView(
        entry.name,
        entry.title(),
        say("workings.formula", formula=say(f"air.formula.{entry.key}")),
        groups,
        entry in FOR_SHOWING,
    )


def _group(ask: Ask) -> Group:
    if ask.form in (Form.FIGURE, Form.WORD):
        box = Box(ask.key, _label(ask.key), unit_words(ask.unit), ask.form is Form.FIGURE, ask.needed)
        return Group(ask.key, box.label, (box,))
    named = (Box("gas", say("workings.try.gas"), figure=False),) if ask.form is Form.GASES else ()
    units = [unit_words(unit.strip()) for unit in ask.unit.split(",")]
    parts = tuple(
        Box(part, _label(part), units[min(at, len(units) - 1)] if len(units) == len(ask.parts) else "")
        for at, part in enumerate(ask.parts)
    )
    return Group(ask.key, say("workings.try.many", what=_label(ask.key)), (*named, *parts), many=True)


def _label(key: str) -> str:
    if key == "gas":
        return say("workings.try.gas")
    words = say(f"air.input.{key}", gas=say("workings.try.gas").lower())
    return words[:1].upper() + words[1:]


def try_working(name: str, answers: Mapping[str, str]) -> Tried:
    """Work it out from what was typed: the slip, or what is wrong beside each box. Keys of rows are 'key.0.part'."""
    entry = find(WORKINGS, name)
    troubles: dict[str, str] = {}
    typed = [text for ask in entry.asks for text in _typed(ask, answers, troubles)]
    if troubles:
        return Tried(troubles=troubles)
    try:
        return Tried(page_of(work_out(entry, typed)))
    except Refusal as refusal:
        return Tried(troubles={_about(entry, refusal, answers): str(refusal)})


def _typed(ask: Ask, answers: Mapping[str, str], troubles: dict[str, str]) -> Iterator[str]:
    """The answers to one ask as they would be typed in one line."""
    if ask.form in (Form.FIGURE, Form.WORD):
        text = answers.get(ask.key, "").strip()
        if not text and ask.needed:
            troubles[ask.key] = say("workings.try.missing", what=_label(ask.key))
        elif text and (ask.form is Form.WORD or _reads(ask.key, text, troubles)):
            yield f"{ask.key}={text}"
        return
    parts = (*(("gas",) if ask.form is Form.GASES else ()), *ask.parts)
    rows = sorted({int(key.split(".")[1]) for key in answers if key.startswith(f"{ask.key}.")})
    full = [row for row in rows if any(answers.get(f"{ask.key}.{row}.{part}", "").strip() for part in parts)]
    for row in full:
        texts = []
        for part in parts:
            key = f"{ask.key}.{row}.{part}"
            text = answers.get(key, "").strip()
            if not text:
                troubles[key] = say(
                    "workings.try.missing", what=say("workings.try.gas") if part == "gas" else _label(part)
                )
            elif part != "gas":
                _reads(key, text, troubles)
            texts.append(text.replace(":", " ") if part == "gas" else text)
        yield f"{ask.key}={':'.join(texts)}"
    if not full and ask.needed:
        first = f"{ask.key}.0.{parts[0]}"
        troubles[first] = say("workings.try.no_row", what=_label(ask.key))


def _reads(key: str, text: str, troubles: dict[str, str]) -> bool:
    try:
        read_figure(text)
    except Unreadable as unreadable:
        troubles[key] = str(unreadable)
        return False
    return True


def _about(entry: Entry, refusal: Refusal, answers: Mapping[str, str]) -> str:
    """The box that a refusal speaks of, by the name of the input in its sentence; empty where it names none."""
    what = dict(refusal.why.values).get("what", "")
    words = what if isinstance(what, str) else what.say()
    for ask in entry.asks:
        if ask.form in (Form.FIGURE, Form.WORD) and say(f"air.input.{ask.key}", gas="") == words:
            return ask.key
    return ""
