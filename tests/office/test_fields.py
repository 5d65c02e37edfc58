"""Each field of the document: what its absence and a false value of it do is what the table says."""

from __future__ import annotations

import pytest
from tests.office.fields import absent_effect, false_effect, fields, places, table


def test_every_field_has_its_row() -> None:
    assert list(table()) == fields()


UNTOLD = [name for name in fields() if name not in places()]
"""Fields that no permit of ours says; their rows hold a question mark."""


def test_a_row_without_an_answer_is_a_field_that_no_permit_says() -> None:
    assert [name for name, row in table().items() if row["absent"] == "?"] == UNTOLD


@pytest.mark.full
@pytest.mark.parametrize("name", [name for name in fields() if name in places()])
def test_absence_and_a_false_value_do_what_the_table_says(name: str) -> None:
    row = table()[name]
    assert (absent_effect(name), false_effect(name)) == (row["absent"], row["false"])
