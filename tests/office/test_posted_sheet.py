"""A posted page that needs a larger sheet is never made larger in silence: the screen and the command line say it."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from tests.desk.watch import crew

from lamproom.office.demo import demo_in
from lamproom.office.pages import posted_on
from lamproom.office.views.filing import made_page
from lamproom.paper import posted_page

SAID = "does not fit letter paper"


@pytest.fixture
def large_letters(monkeypatch: pytest.MonkeyPatch) -> None:
    """Glance items so large that a letter sheet cannot hold them, and a tabloid can."""
    monkeypatch.setattr(posted_page, "LEAST", 40.0)


def test_a_page_that_fits_says_nothing(tmp_path: Path) -> None:
    one = crew.authorised(crew.site(tmp_path))
    made = posted_on(one.office, one.number)
    assert (made.sheet, made.said) == ("letter", "")
    assert made_page(one.office, one.number, "posted")[1] == ""


@pytest.mark.usefixtures("large_letters")
def test_a_page_that_needs_a_larger_sheet_says_which_and_why(tmp_path: Path) -> None:
    one = crew.authorised(crew.site(tmp_path))
    made = posted_on(one.office, one.number)
    assert made.sheet == "tabloid" and round(pypdfium2.PdfDocument(made.pdf)[0].get_width()) == 792
    assert SAID in made.said and "tabloid (11 x 17 in)" in made.said
    assert SAID in made_page(one.office, one.number, "posted")[1]
    assert made_page(one.office, one.number, "authorised")[1] == ""


@pytest.mark.usefixtures("large_letters")
def test_the_command_line_says_it_too(tmp_path: Path) -> None:
    told: list[str] = []
    demo_in(tmp_path / "demo", told.append)
    assert any(SAID in line for line in told)
