"""Workings tried without a permit: from what is typed in boxes to the slip, or to what is wrong beside each box."""

from __future__ import annotations

import pytest

from lamproom.air.working_list import WORKINGS
from lamproom.air.workings import Entry, Form, again, work_out
from lamproom.office.views.try_workings import names, try_view, try_working


def answers_of(entry: Entry) -> dict[str, str]:
    """The example of a working as it would be typed in its boxes."""
    typed: dict[str, str] = {}
    asks = {ask.key: ask for ask in entry.asks}
    rows: dict[str, int] = {}
    for text in entry.example:
        key, _, value = text.partition("=")
        ask = asks[key]
        if ask.form in (Form.FIGURE, Form.WORD):
            typed[key] = value
            continue
        row = rows[key] = rows.get(key, -1) + 1
        parts = (*(("gas",) if ask.form is Form.GASES else ()), *ask.parts)
        typed |= {f"{key}.{row}.{part}": figure for part, figure in zip(parts, value.split(":"), strict=True)}
    return typed


@pytest.mark.parametrize("entry", WORKINGS, ids=lambda entry: entry.name)
def test_what_is_typed_in_the_boxes_gives_the_working_that_the_command_line_gives(entry: Entry) -> None:
    tried = try_working(entry.name, answers_of(entry))
    assert not tried.troubles and tried.page is not None
    (working,) = tried.page.workings
    assert working.result == work_out(entry, list(entry.example)).result
    if working.key:  # an exposure is made of a whole day, which no slip can hold
        assert again(WORKINGS, working).result == working.result


@pytest.mark.parametrize("entry", WORKINGS, ids=lambda entry: entry.name)
def test_every_thing_that_is_asked_for_has_a_box_with_a_name(entry: Entry) -> None:
    view = try_view(entry.name)
    assert [group.key for group in view.groups] == [ask.key for ask in entry.asks]
    assert all(box.label.strip() for group in view.groups for box in group.boxes)
    assert view.title and view.formula


@pytest.mark.parametrize("entry", WORKINGS, ids=lambda entry: entry.name)
def test_everything_missing_is_said_at_once_each_beside_its_box(entry: Entry) -> None:
    tried = try_working(entry.name, {})
    needed = {ask.key for ask in entry.asks if ask.needed}
    if needed:
        assert tried.page is None and {key.split(".")[0] for key in tried.troubles} == needed


def test_a_slip_of_the_keyboard_is_said_beside_its_box_with_its_spot() -> None:
    tried = try_working("unaccounted", {"oxygen": "2O.1", "base": "20.9"})
    assert set(tried.troubles) == {"oxygen"} and "letter" in tried.troubles["oxygen"]


def test_a_figure_that_cannot_be_is_said_beside_its_box() -> None:
    tried = try_working("saturation-pressure", {"temperature": "200"})
    assert set(tried.troubles) == {"temperature"}


def test_a_row_half_typed_is_said_in_the_box_that_is_empty() -> None:
    tried = try_working("decay-rate", {"reading.0.minutes": "2", "reading.0.level": "", "resolution": "1"})
    assert set(tried.troubles) == {"reading.0.level"}


def test_every_working_of_the_list_is_offered_and_what_is_for_showing_says_so() -> None:
    assert [name for name, _title, _more in names()] == [entry.name for entry in WORKINGS]
    assert {name: more for name, _title, more in names()}["heat-limit"] == "for showing, never for permitting"
