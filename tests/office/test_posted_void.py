"""The posted page of a permit that no longer holds, or does not hold yet: it can never be taken for one that does."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from tests.desk.watch import crew

from lamproom.office.close_out import close_out
from lamproom.office.end_permit import end_permit
from lamproom.office.go_out import go_out
from lamproom.office.pages import posted_pdf
from lamproom.paper.sheet import MM, Paper
from lamproom.permit.obstacles import Stage, barring

PAPERS: tuple[Paper, ...] = ("letter", "a4")


def posted(one: crew.Site, paper: Paper = "letter") -> str:
    page = pypdfium2.PdfDocument(posted_pdf(one.office, one.number, paper))[0]
    return " ".join(page.get_textpage().get_text_range().split())


def ink_boxes(one: crew.Site, paper: Paper = "letter") -> int:
    page = pypdfium2.PdfDocument(posted_pdf(one.office, one.number, paper))[0]
    bounds = [found.get_bounds() for found in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH])]
    return sum(70 <= (r - x) / MM <= 90 and 15 <= (t - b) / MM <= 25 for x, b, r, t in bounds)


def everyone_out(one: crew.Site) -> None:
    for trip in one.office.permit(one.number).tally.inside:
        go_out(one.office, one.number, trip.who, by="P-02")


def canceled(one: crew.Site) -> str:
    """Ended by the supervisor; returns the time of day on the site's wall."""
    end_permit(one.office, one.number, "work-complete", "switch changed", "P-01", crew.CODES["P-01"])
    return one.office.now().astimezone(one.office.permit(one.number).zone).strftime("%H:%M")


@pytest.fixture
def site(tmp_path: Path) -> crew.Site:
    return crew.site(tmp_path)


def test_the_page_of_an_authorized_permit_still_says_until_when_it_is_valid(site: crew.Site) -> None:
    crew.authorised(site)
    text = posted(site)
    assert "Valid" in text and "do not enter" not in text and "sign in ink" in text
    assert ink_boxes(site) == 2
    assert "Osprel Bend Fire Department, 8 min away" in text


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("closed", [False, True])
def test_the_page_of_a_canceled_permit_is_plainly_void(site: crew.Site, paper: Paper, closed: bool) -> None:
    crew.working(site)
    everyone_out(site)
    at = canceled(site)
    site.minutes(8)
    if closed:
        close_out(site.office, site.number, "counted", "shut", "off", by="P-02")
    text = posted(site, paper)
    assert f"CANCELED {at}, do not enter" in text
    assert "VOID – NOT A PERMIT" in text
    for live in ("Valid", "stays outside until relieved", "sign in ink", "Entrants", "Teo Amadi", "These only"):
        assert live not in text
    assert ink_boxes(site, paper) == 0


def test_who_is_still_inside_a_canceled_permit_stands_on_its_page_with_the_way_to_fetch_them(site: crew.Site) -> None:
    crew.working(site)
    canceled(site)
    text = posted(site)
    assert "Everyone out now. Still inside:" in text and "Teo Amadi" in text
    assert "winch over the hatch" in text.lower() and "Oskar Wren" in text
    assert ink_boxes(site) == 0


@pytest.mark.parametrize("paper", PAPERS)
def test_the_page_of_a_draft_bars_entry_with_its_obstacles_and_asks_for_no_ink(tmp_path: Path, paper: Paper) -> None:
    from tests.desk.board.day import Day

    day = Day(tmp_path)
    number = day.open("S-1", "09:00", "14:00")
    count = len(barring(day.office.facts(number), Stage.AUTHORISE))
    assert count > 1
    site = crew.Site(day.office, day.clock)
    site.number = number
    text = posted(site, paper)
    assert f"DRAFT, do not enter: {count} obstacles" in text
    assert "Fire district 4: not confirmed" in text and "min away" not in text
    for live in ("Valid", "sign in ink", "These only", "stays outside until relieved"):
        assert live not in text
    assert ink_boxes(site, paper) == 0


def test_a_draft_without_obstacles_still_bars_entry(site: crew.Site) -> None:
    crew.draft(site)
    text = posted(site)
    assert "DRAFT, do not enter: not authorized" in text
    assert "Teo Amadi" in text and "Named only" in text


@pytest.mark.parametrize("inside", [False, True])
def test_the_page_of_a_permit_whose_hours_are_over_bars_entry(site: crew.Site, inside: bool) -> None:
    (crew.working if inside else crew.authorised)(site)
    site.minutes(8 * 60)
    text = posted(site)
    assert "HOURS OVER 15:18, do not enter" in text and "VOID – NOT A PERMIT" in text
    assert "Authorized" not in text and "Valid" not in text and "These only" not in text
    assert ("Still inside: Teo Amadi" in text) is inside
    assert ink_boxes(site) == 0
