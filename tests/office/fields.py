"""Every field of the document: what its absence and what a false value of it do to a permit that is allowed.

``python -m tests.office.fields`` writes the table anew; the test asks each row of it again.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel

from lamproom.intake import permit_document as doc
from lamproom.office.assess import assess
from lamproom.office.opening import forms_at_hand
from lamproom.permit.obstacles import Stage
from lamproom.words import Refusal

TABLE = Path(__file__).parent / "fields.toml"
PERMITS = Path(__file__).parents[1] / "permits"
Path_ = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a field stands in a permit that is allowed."""

    source: str
    path: Path_


@cache
def sources() -> dict[str, str]:
    """The permits in which fields are looked for: the example, the good ones and those closed out, by name."""
    found = {"example": doc.example()}
    for file in (*sorted((PERMITS / "good").glob("*.json")), *sorted((PERMITS / "closed").glob("*.json"))):
        found[file.stem] = file.read_text(encoding="utf-8")
    return found


@cache
def closed() -> frozenset[str]:
    """The permits that are told to their end: what they are asked is whether their close-out is taken."""
    return frozenset(file.stem for file in (PERMITS / "closed").glob("*.json"))


def fields() -> list[str]:
    """Every field of every model that the document can hold."""
    seen: dict[str, None] = {}
    for model in _models(doc.PermitDocument, set()):
        for name in model.model_fields:
            seen[f"{model.__name__}.{name}"] = None
    return list(seen)


def _models(model: type[BaseModel], known: set[type]) -> Iterator[type[BaseModel]]:
    if model in known:
        return
    known.add(model)
    yield model
    for field in model.model_fields.values():
        for inner in _inner(field.annotation):
            yield from _models(inner, known)


def _inner(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for one in get_args(annotation):
        yield from _inner(one)


FIRST, FURTHER = 40, 3
"""Places at which one field is tried: in the first permit that says it, and in each further one."""


@cache
def places() -> dict[str, list[Place]]:
    """Where permits say each field."""
    found: dict[str, list[Place]] = {}
    for source, text in sources().items():
        here: dict[str, list[Place]] = {}
        for name, path in _said(doc.read_document(text), ()):
            here.setdefault(name, []).append(Place(source, path))
        for name, these in here.items():
            found[name] = [*found[name], *these[:FURTHER]] if name in found else these[:FIRST]
    return found


WORST = ("adverse", "unreadable", "harmless")


def worst(effects: Iterable[str]) -> str:
    """The gravest; nothing is asked after the first that is adverse."""
    seen = set()
    for one in effects:
        seen.add(one)
        if one == WORST[0]:
            break
    return next(word for word in WORST if word in seen)


def absent_effect(name: str) -> str:
    """The gravest of what its absence does anywhere."""
    return worst(effect(place.source, changed(place, None, absent=True)) for place in places()[name])


def false_effect(name: str) -> str:
    """The gravest of what a false value does anywhere."""
    return worst(
        effect(place.source, changed(place, other)) for place in places()[name] for other in false_values(name, place)
    )


def at(place: Place) -> Any:
    """What stands at a place."""
    value: Any = json.loads(sources()[place.source])
    for key in place.path:
        value = value[key]
    return value


def _said(value: Any, path: Path_) -> Iterator[tuple[str, Path_]]:
    if isinstance(value, BaseModel):
        for name in value.model_fields_set:
            yield f"{type(value).__name__}.{name}", (*path, name)
            yield from _said(getattr(value, name), (*path, name))
    elif isinstance(value, tuple):
        for index, one in enumerate(value):
            yield from _said(one, (*path, index))


def changed(place: Place, value: Any, absent: bool = False) -> str:
    """The permit with the field at this place taken out, or made another."""
    told: Any = json.loads(sources()[place.source])
    inner = told
    for key in place.path[:-1]:
        inner = inner[key]
    if absent:
        del inner[place.path[-1]]
    else:
        inner[place.path[-1]] = value
    return json.dumps(told)


def effect(source: str, text: str) -> str:
    """'unreadable'; 'adverse' when what was allowed is refused at authorizing or at the permit's own moment, or the
    close-out that was taken is not; else 'harmless'."""
    try:
        document = doc.read_document(text)
        if source in closed():
            return "harmless" if is_closed_out(document) else "adverse"
        refused = [not assess(document, forms_at_hand(), stage, at).allowed for stage, at in _asked(document)]
    except Refusal:
        return "unreadable"
    return "adverse" if any(refused) else "harmless"


def is_closed_out(document: doc.PermitDocument) -> bool:
    """Was everything told taken, to the close-out?"""
    answer = assess(document, forms_at_hand())
    return answer.facts.permit.closed_out is not None and not answer.not_taken


def _asked(document: doc.PermitDocument) -> Iterator[tuple[Stage | None, datetime | None]]:
    signed: list[datetime] = [one.at for one in document.happened if isinstance(one, doc.Authorised)]  # type: ignore[misc, attr-defined]
    if signed and signed[0] <= document.at:
        yield Stage.AUTHORISE, signed[0] - timedelta(seconds=1)
        yield Stage.ENTER, document.at
    yield None, document.at


MOMENT = re.compile(r"^\d{4}-\d\d-\d\dT")
DAY = re.compile(r"^\d{4}-\d\d-\d\d$")


def false_values(name: str, place: Place) -> Iterator[Any]:
    """What a careless or dishonest hand could have written instead."""
    value = at(place)
    match value:
        case bool():
            yield not value
        case int() | float():
            yield from (0, 999_999)
        case str() if MOMENT.match(value):
            moment = datetime.fromisoformat(value)
            yield from ((moment + timedelta(days=days)).isoformat() for days in (-40, 40))
        case str() if DAY.match(value):
            yield from ("2001-01-01", "2099-01-01")
        case str():
            yield from ("", "nobody knows")
        case list():
            yield []
        case dict():
            yield {}
        case None:
            yield "nobody knows"
    if not isinstance(value, list):
        yield from (word for word in _words(name) if word != value)
    yield from _of_this_permit(name, json.loads(sources()[place.source]))


@cache
def _words(name: str) -> tuple[Any, ...]:
    """The words that alone may stand there."""
    model, _, field = name.partition(".")
    known = next(one for one in _models(doc.PermitDocument, set()) if one.__name__ == model)
    return tuple(_literals(known.model_fields[field].annotation))


def _literals(annotation: Any) -> Iterator[Any]:
    if get_origin(annotation) is Literal:
        yield from get_args(annotation)
    else:
        for one in get_args(annotation):
            yield from _literals(one)


def _of_this_permit(name: str, told: Any) -> Iterator[Any]:
    """Of another permit: what this one has can be said to be there."""
    match name:
        case "Near.attendant":
            yield from (one["person"] for one in told["happened"] if one["what"] == "watch-taken")
            yield from (one["person"] for one in told["happened"] if one.get("part") == "attendant")
        case "Near.worn":
            yield [one["id"] for one in told["instruments"]]
        case "Near.unlocked":
            yield [one["lock"] for one in told["happened"] if one["what"] == "point-isolated"]


def table() -> dict[str, dict[str, str]]:
    """The rows as they stand in the file."""
    if not TABLE.exists():
        return {}
    told: dict[str, dict[str, str]] = tomllib.loads(TABLE.read_text(encoding="utf-8"))
    return told


def main() -> None:
    """Write the table anew; reasons that stand there are kept."""
    before = table()
    lines = ["# Absence and a false value of each field: adverse, harmless (with the reason) or unreadable.", ""]
    for name in fields():
        lines.append(f'["{name}"]')
        absent, false = absent_effect(name), false_effect(name)
        lines += [f'absent = "{absent}"', f'false = "{false}"']
        why = before.get(name, {}).get("why", "")
        if "harmless" in (absent, false):
            lines.append(f'why = "{why}"')
        lines.append("")
    TABLE.write_text("\n".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
