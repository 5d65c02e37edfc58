"""What is written is what is read: one sample of every kind, kept here as it was first stored.

A sample is never changed: it stands for records that exist. A kind that is added gets its sample in the same commit.
"""

from __future__ import annotations

import json
from datetime import date, datetime
from pathlib import Path
from typing import Any, Literal, Union, get_args, get_origin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import AwareDatetime, BaseModel

from lamproom.bench.happening import Event
from lamproom.record.envelope import Envelope, from_bytes, to_bytes
from lamproom.record.kinds import KINDS, data_of, event_of

SAMPLES = Path(__file__).parent / "samples.json"


def enveloped(event: Event) -> Envelope:
    at = datetime.fromisoformat("2026-11-17T14:00:00+00:00")
    return Envelope(
        "permit/26-0001",
        1,
        bytes(32),
        event.kind,
        event.kind_version,
        "act-1",
        "P-01",
        "station-1",
        at,
        at,
        "boot-1",
        1,
        "America/Chicago",
        False,
        data_of(event),
    )


def samples() -> dict[str, Any]:
    told: dict[str, Any] = json.loads(SAMPLES.read_text(encoding="utf-8"))
    return told


def test_every_kind_has_a_stored_sample() -> None:
    assert set(samples()) == {f"{kind}/{version}" for kind, version in KINDS}


@pytest.mark.parametrize("name", [f"{kind}/{version}" for kind, version in KINDS])
def test_a_sample_stored_once_is_read_for_ever_and_written_the_same(name: str) -> None:
    kind, version = name.rsplit("/", 1)
    event = KINDS[kind, int(version)].model_validate(samples()[name])
    assert data_of(event) == samples()[name]
    assert event_of(from_bytes(to_bytes(enveloped(event)))) == event


def test_kinds_are_distinct_words() -> None:
    words = [kind for kind, _version in KINDS]
    assert len(words) == len(set(words))


PLAIN = st.text(st.characters(codec="ascii", categories=("L", "N", "P", "Zs")), max_size=12)
NUMBERS = st.decimals(-999, 99999, places=2, allow_nan=False).map(lambda d: format(d, "f"))
MOMENTS = st.datetimes(datetime(2020, 1, 1), datetime(2040, 1, 1)).map(  # noqa: DTZ001
    lambda d: d.replace(microsecond=d.microsecond // 1000 * 1000).astimezone()
)


def a(model: type[BaseModel]) -> st.SearchStrategy[Any]:
    """Any value of a model, by its fields."""
    return st.fixed_dictionaries(
        {name: _field(field.annotation, field.metadata) for name, field in model.model_fields.items()}
    ).map(model.model_validate)


def _field(kind: Any, metadata: list[Any]) -> st.SearchStrategy[Any]:
    origin, inner = get_origin(kind), get_args(kind)
    if any(getattr(mark, "pattern", None) for mark in metadata):
        return NUMBERS
    if hasattr(kind, "__metadata__"):
        return _field(inner[0], list(kind.__metadata__))
    if origin is Literal:
        return st.sampled_from(inner)
    if origin is tuple and inner[-1] is Ellipsis:
        return st.lists(_field(inner[0], []), max_size=2).map(tuple)
    if origin is tuple:
        return st.tuples(*(_field(one, []) for one in inner))
    if origin is dict:
        return st.dictionaries(PLAIN, _field(inner[1], []), max_size=2)
    if origin is Union or str(origin) == "<class 'types.UnionType'>":
        return st.one_of(*(_field(one, []) for one in inner))
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return a(kind)
    return {
        str: PLAIN,
        bool: st.booleans(),
        int: st.integers(0, 10**6),
        datetime: MOMENTS,
        AwareDatetime: MOMENTS,
        date: st.dates(date(2020, 1, 1), date(2040, 1, 1)),
        type(None): st.none(),
    }[kind]


@given(data=st.data(), kind=st.sampled_from(sorted(KINDS)))
def test_any_event_that_is_written_is_read_the_same(data: st.DataObject, kind: tuple[str, int]) -> None:
    event = data.draw(a(KINDS[kind]))
    assert event_of(from_bytes(to_bytes(enveloped(event)))) == event
