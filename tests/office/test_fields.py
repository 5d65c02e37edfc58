"""Each field of the document: what its absence and a false value of it do is what the table says."""

from __future__ import annotations

import pytest
from tests.office.fields import (
    WORST,
    absent_effect,
    closed,
    false_effect,
    fields,
    is_closed_out,
    places,
    sources,
    table,
)

from lamproom.intake.permit_document import read_document


def test_every_field_has_its_row() -> None:
    assert list(table()) == fields()


def test_some_permit_says_each_field() -> None:
    assert [name for name in fields() if name not in places()] == []


def test_every_row_has_its_answers_and_what_is_harmless_has_its_reason() -> None:
    unanswered = [name for name, row in table().items() if not {row["absent"], row["false"]} <= set(WORST)]
    assert unanswered == []
    harmless = [name for name, row in table().items() if "harmless" in (row["absent"], row["false"])]
    assert [name for name in harmless if not table()[name].get("why", "").strip()] == []


@pytest.mark.parametrize("source", sorted(closed()))
def test_a_permit_told_to_its_end_is_closed_out(source: str) -> None:
    assert is_closed_out(read_document(sources()[source]))


@pytest.mark.full
@pytest.mark.parametrize("name", fields())
def test_absence_and_a_false_value_do_what_the_table_says(name: str) -> None:
    row = table()[name]
    assert (absent_effect(name), false_effect(name)) == (row["absent"], row["false"])
