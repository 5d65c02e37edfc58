"""A month of ordinary shifts: nothing is refused, little is asked, hardly anything is loud."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.stories.month import Month, live


def judged(month: Month) -> None:
    assert month.stood == {}, month.stood
    assert month.cleared == []
    assert len(month.prompts) * 50 <= month.readings, month.prompts
    assert len(month.loud) <= 4 * month.entry_hours, month.loud


def test_two_ordinary_days_pass_without_a_false_stop(tmp_path: Path) -> None:
    month = live(tmp_path, 2, seed=7)
    assert month.permits == 6
    judged(month)


@pytest.mark.full
def test_a_month_of_ordinary_shifts_passes_without_a_false_stop(tmp_path: Path) -> None:
    month = live(tmp_path, 20)
    assert month.permits == 60
    judged(month)
