"""Every field of the document: what its absence and what a false value of it do to a permit that is allowed.

``python -m tests.office.fields`` writes the table anew; the test asks each row of it again.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any, get_args

from pydantic import BaseModel

from lamproom.intake import permit_document as doc
from lamproom.office.assess import assess
from lamproom.office.opening import forms_at_hand
from lamproom.permit.obstacles import Stage
from lamproom.words import Refusal

TABLE = Path(__file__).parent / "fields.toml"
GOOD = Path(__file__).parents[1] / "permits" / "good"
Path_ = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a field stands in a permit that is allowed."""

    source: str
    path: Path_


@cache
def sources() -> dict[str, str]:
    """The permits in which fields are looked for: the example, then the good ones by name."""
    found = {"example": doc.example()}
    for file in sorted(GOOD.glob("*.json")):
        found[file.stem] = file.read_text(encoding="utf-8")
    return found


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


MOST = 40
"""Places at which one field is tried."""


@cache
def places() -> dict[str, list[Place]]:
    """Where permits say each field: the example's places, else those of the good permits."""
    found: dict[str, list[Place]] = {}
    for source, text in sources().items():
        for name, path in _said(doc.read_document(text), ()):
            known = found.setdefault(name, [])
            if len(known) < MOST and (not known or known[0].source == source):
                known.append(Place(source, path))
    return found


def worst(effects: set[str]) -> str:
    return next(word for word in WORST if word in effects)


def absent_effect(name: str) -> str:
    """The gravest of what its absence does anywhere."""
    return worst({effect(changed(place, None, absent=True)) for place in places()[name]})


def false_effect(name: str) -> str:
    """The gravest of what a false value does anywhere."""
    return worst({effect(changed(place, other)) for place in places()[name] for other in false_values(at(place))})


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


def effect(text: str) -> str:
    """'unreadable'; 'adverse' when what was allowed is refused at authorizing or at the permit's own moment; else
    'harmless'."""
    try:
        document = doc.read_document(text)
        refused = [not assess(document, forms_at_hand(), stage, at).allowed for stage, at in _asked(document)]
    except Refusal:
        return "unreadable"
    return "adverse" if any(refused) else "harmless"


def _asked(document: doc.PermitDocument) -> Iterator[tuple[Stage | None, datetime | None]]:
    signed: list[datetime] = [one.at for one in document.happened if isinstance(one, doc.Authorised)]  # type: ignore[misc, attr-defined]
    if signed and signed[0] <= document.at:
        yield Stage.AUTHORISE, signed[0] - timedelta(seconds=1)
        yield Stage.ENTER, document.at
    yield None, document.at


MOMENT = re.compile(r"^\d{4}-\d\d-\d\dT")
DAY = re.compile(r"^\d{4}-\d\d-\d\d$")


def false_values(value: Any) -> Iterator[Any]:
    """What a careless or dishonest hand could have written instead."""
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


WORST = ("adverse", "unreadable", "harmless")


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
        if name not in places():
            lines += ['absent = "?"', 'false = "?"', ""]
            continue
        absent, false = absent_effect(name), false_effect(name)
        lines += [f'absent = "{absent}"', f'false = "{false}"']
        why = before.get(name, {}).get("why", "")
        if "harmless" in (absent, false):
            lines.append(f'why = "{why}"')
        lines.append("")
    TABLE.write_text("\n".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
