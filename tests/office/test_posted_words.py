"""What the posted page says sends everyone out of this space: nothing that the space does not have."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
from tests.desk.board.day import Day

from lamproom.office.pages import posted_pdf
from lamproom.office.start_fan import start_fan


def words(day: Day, number: str) -> str:
    page = pypdfium2.PdfDocument(posted_pdf(day.office, number))[0]
    return " ".join(page.get_textpage().get_text_range().split())


def test_a_fan_is_named_only_where_one_blows(tmp_path: Path) -> None:
    day = Day(tmp_path)
    number = day.open("S-1", "09:00", "14:00")
    assert "engulfment" in words(day, number) and "fan stops" not in words(day, number)
    start_fan(day.office, number, "900", "gate side", "the attendant hears it", by="P-01")
    assert "fan stops" in words(day, number)
