"""What hangs at the portal: one side, large, with boxes for wet ink."""

from __future__ import annotations

from dataclasses import replace

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from tests.paper.reading_pages import text_of
from tests.paper.sample_content import POSTED

from lamproom.paper.carry_on import render_carry_on
from lamproom.paper.posted_page import LEAST, render_posted
from lamproom.paper.sheet import MM, Paper
from lamproom.words import Refusal

PAPERS: tuple[Paper, ...] = ("letter", "a4")


def _size_at(textpage: pypdfium2.PdfTextPage, place: int) -> float:
    return float(pdfium.FPDFText_GetFontSize(textpage, place))


@pytest.mark.parametrize("paper", PAPERS)
def test_it_is_one_side_and_holds_every_glance_item(paper: Paper) -> None:
    texts = text_of(render_posted(POSTED, paper))
    assert len(texts) == 1
    joined = " ".join(texts[0].split())
    wanted = [POSTED.number, "Authorized", POSTED.space_name, POSTED.valid, *POSTED.entrants, POSTED.attendant]
    for words in [*wanted, *POSTED.rescue, "carbon dioxide", "under 35 ppm", "sign in ink"]:
        assert words in joined


@pytest.mark.parametrize("paper", PAPERS)
def test_no_glance_item_is_under_26_points_and_nothing_under_9(paper: Paper) -> None:
    document = pypdfium2.PdfDocument(render_posted(POSTED, paper))
    textpage = document[0].get_textpage()
    text = textpage.get_text_range()
    for words in (POSTED.number, POSTED.space_name, POSTED.valid, *POSTED.entrants, POSTED.attendant, *POSTED.rescue):
        assert _size_at(textpage, text.index(words)) >= LEAST - 0.01
    sizes = [_size_at(textpage, place) for place, mark in enumerate(text) if mark.strip()]
    assert min(size for size in sizes if size > 0) >= 9 - 0.01


@pytest.mark.parametrize("paper", PAPERS)
def test_the_boxes_for_wet_ink_are_at_least_70_by_15_mm(paper: Paper) -> None:
    page = pypdfium2.PdfDocument(render_posted(POSTED, paper))[0]
    boxes = []
    for found in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        left, bottom, right, top = found.get_bounds()
        if 70 <= (right - left) / MM <= 90 and 15 <= (top - bottom) / MM <= 25:
            boxes.append(found)
    assert len(boxes) == 2


def test_too_many_names_ask_for_a_larger_sheet_and_never_for_smaller_type() -> None:
    crew = replace(POSTED, entrants=tuple(f"Entrant{place:02d} Longname-Invented{place:02d}" for place in range(24)))
    with pytest.raises(Refusal, match="tabloid"):
        render_posted(crew, "letter")
    with pytest.raises(Refusal, match="a3"):
        render_posted(crew, "a4")
    assert len(text_of(render_posted(crew, "tabloid"))) == 1


def test_a_draft_that_is_posted_is_crossed() -> None:
    page = replace(POSTED, state="draft", state_words="Draft")
    assert "NOT A PERMIT" in text_of(render_posted(page))[0]


def test_the_carry_on_sheet_has_the_limits_in_its_heads() -> None:
    texts = text_of(render_carry_on(POSTED))
    assert len(texts) == 1
    for words in ("Carry-on sheet", "under 35", "Takes the watch", "Inside now"):
        assert words in " ".join(texts[0].split())
