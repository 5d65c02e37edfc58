"""What a person holding the printed permit must be able to find on it."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pypdfium2
import pypdfium2.raw
import pytest
from tests.paper.reading_pages import places_of, poppler, text_of
from tests.paper.sample_content import ENDED, RETESTS, draft, stopped, with_entrants, with_retests

from lamproom.paper import permit_page, sheet
from lamproom.paper.air_before import row_places
from lamproom.paper.content import PermitPage, Retest
from lamproom.paper.permit_page import render_permit
from lamproom.paper.readings import Quarter, condense

# Titles and order of 29 CFR 1910.146(f)(1) to (15), from memory of the paragraph; (f)(10) spans four blocks.
FIFTEEN = (
    (1, "Wet well 2, lift station 4"),
    (2, "Replace the rail bracket"),
    (3, "25 Nov 2026, 08:53 to 14:30: 5 h 37 min"),
    (4, "Marit Solvang"),
    (5, "Calder Nwosk"),
    (6, "Inés Varga-Holm"),
    (7, "Hydrogen sulfide, from sediment"),
    (8, "Discharge valve DV-2"),
    (9, "19.5 to 23.5 % vol"),
    (10, "Bump test 06:58"),
    (11, "technical rescue"),
    (12, "contact every 5 min"),
    (13, "Fan F-12"),
    (14, "Rest after 2 h inside"),
    (15, "Lockout LO-2217"),
)
PAPERS: tuple[sheet.Paper, ...] = ("letter", "a4")


def one_line(text: str) -> str:
    return re.sub(r"\s+", " ", text)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("item", "words"), FIFTEEN)
def test_each_of_the_fifteen_items_is_found_by_an_independent_reader(
    item: int, words: str, paper: sheet.Paper, tmp_path: Path
) -> None:
    text = one_line(poppler("pdftotext", render_permit(ENDED, paper), tmp_path, "-layout"))
    assert words in text


@pytest.mark.parametrize("paper", PAPERS)
def test_the_boxed_numbers_in_the_rail_ascend(paper: sheet.Paper) -> None:
    grid = sheet.grid(paper)
    blocks = permit_page.blocks_of(ENDED, grid.column_width)
    items = [block.item for block in blocks if block.item]
    assert sorted(set(items)) == list(range(1, 16))
    assert items == sorted(items)


def test_only_our_own_typeface_is_named_and_it_is_embedded(tmp_path: Path) -> None:
    """A font that is not embedded is replaced by the reader's machine, and PDF/A (ISO 19005) refuses it."""
    lines = poppler("pdffonts", render_permit(ENDED), tmp_path).splitlines()[2:]
    assert len(lines) == 4
    for line in lines:
        assert "AtkinsonHyperlegible" in line
        assert re.search(r"\byes yes yes\b", line), line


def test_figures_in_columns_all_have_one_width() -> None:
    from lamproom.paper import typeface

    for face in (typeface.FIGURES, typeface.FIGURES_BOLD):
        assert len({typeface.width(digit, face, 10) for digit in "0123456789"}) == 1
    assert typeface.width("1", typeface.PLAIN, 10) != typeface.width("8", typeface.PLAIN, 10)


@pytest.mark.parametrize(
    "page", [ENDED, draft(), with_retests(40), with_entrants(30)], ids=["ended", "draft", "40", "30"]
)
@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_bears_number_version_state_copy_time_and_its_place(page: PermitPage, paper: sheet.Paper) -> None:
    texts = text_of(render_permit(page, paper))
    for number, text in enumerate(texts, start=1):
        for wanted in (page.number, f"version {page.version}", page.state, f"Printed copy {page.copy}", page.printed):
            assert wanted in text
        assert f"Page {number} of {len(texts)}" in text
        assert f"{page.code[:4]} {page.code[4:8]} {page.code[8:12]}" in text


def test_the_same_content_gives_the_same_bytes() -> None:
    assert render_permit(ENDED) == render_permit(ENDED)
    assert render_permit(ENDED) != render_permit(replace(ENDED, copy=3))


def test_a_draft_is_crossed_on_every_page_and_an_issued_permit_on_none() -> None:
    crossed = text_of(render_permit(draft()))
    assert all("NOT A PERMIT" in text for text in crossed)
    assert not any("NOT A PERMIT" in text for text in text_of(render_permit(ENDED)))


def test_a_draft_grants_nothing() -> None:
    text = one_line(" ".join(text_of(render_permit(draft()))))
    assert "no hours granted" in text
    assert "Nobody may go in on this page." in text
    assert "Signatures" not in text
    assert "not answered" in text


def test_obstacles_that_bar_are_counted_and_never_read_none() -> None:
    text = one_line(text_of(render_permit(draft()))[0])
    assert "4 obstacles bar authorizing." in text
    assert "None" not in text.split("Space")[0]
    assert "None 47 rules examined" in one_line(text_of(render_permit(ENDED))[0])


def test_what_was_not_answered_is_said_and_never_left_blank() -> None:
    """Missing data never reads as within limits."""
    empty = replace(
        ENDED,
        purpose=(),
        supervisor=(),
        rescue=(),
        communication=(),
        other=(),
        additional_permits=(),
        equipment=(),
        hazards=(),
        isolation=(),
        acceptable=(),
        entrants=(),
        attendants=(),
        instruments=(),
        section=None,
        tests_before=replace(ENDED.tests_before, points=(), notes=()),
    )
    text = " ".join(text_of(render_permit(empty)))
    assert text.count("not answered") >= 14


def test_both_figures_of_a_correction_are_on_the_page_with_who_and_why() -> None:
    text = one_line(" ".join(text_of(render_permit(ENDED))))
    assert re.search(r"21 1 PS CO corrected by PS 11:12: key slipped", text)


def test_lateness_is_told_in_words() -> None:
    assert "13 min late, 2 inside." in one_line(" ".join(text_of(render_permit(ENDED))))


def test_a_stop_without_a_determination_says_that_entry_stays_barred() -> None:
    text = one_line(" ".join(text_of(render_permit(stopped()))))
    assert "none yet: entry stays barred" in text


def test_formulas_read_as_formulas_and_tags_stay_tags() -> None:
    page = replace(ENDED, other=(replace(ENDED.other[0], text="H2S at valve N2-4."),))
    text = " ".join(text_of(render_permit(page)))
    assert "H2S" in text
    assert "N2-4" in text


@pytest.mark.parametrize("name", ["<b>Marit</b> & Søn", "李明", "a" * 300, "Zoë\u202eevil", "", "  ", "x\ny"])
def test_hostile_names_are_drawn_as_text_and_lose_nothing_unseen(name: str) -> None:
    page = replace(ENDED, entrants=(replace(ENDED.entrants[0], name=name), *ENDED.entrants[1:]))
    text = " ".join(text_of(render_permit(page)))
    if "<b>" in name:
        assert "<b>Marit</b> & Søn" in one_line(text)
    if "李" in name:
        assert "[U+674E]" in text


# --- page breaks -----------------------------------------------------------------------------------------------

SIZES = {
    "1 reading": with_retests(1),
    "40 readings": with_retests(40),
    "400 readings": with_retests(400),
    "1 entrant": with_entrants(1),
    "30 entrants": with_entrants(30),
    "ended": ENDED,
    "draft": draft(),
}


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SIZES)
def test_no_row_signature_figure_or_paragraph_is_split_or_runs_into_the_foot(name: str, paper: sheet.Paper) -> None:
    page = SIZES[name]
    grid = sheet.grid(paper)
    blocks = permit_page.blocks_of(page, grid.column_width)
    pages, _ = permit_page._stable(page, grid, blocks)
    for layout in pages:
        assert layout.pieces
        for top, piece in layout.pieces:
            assert top - piece.height >= grid.bottom - 0.01
        for (top, piece), (below, _) in pairwise(layout.pieces):
            assert below <= top - piece.height + 0.01
        for title in layout.titles:
            assert title.top - sheet.rail_height(grid)(title.block, title.continued) >= grid.qr_clear - 0.01


def test_a_table_that_goes_on_repeats_its_title_and_its_head() -> None:
    texts = text_of(render_permit(with_retests(40), "letter"))
    begun = [number for number, text in enumerate(texts) if "Due" in text and "Taken" in text]
    assert len(begun) == 2
    assert "continued" in texts[begun[1]]


def test_many_readings_stay_few_pages_and_say_what_is_left_to_the_file() -> None:
    few, many = text_of(render_permit(with_retests(40))), text_of(render_permit(with_retests(400)))
    assert len(many) <= len(few) + 1
    assert re.search(r"400 sets, \d+ rows shown, all in the attached file", one_line(" ".join(many)))


def test_condensing_keeps_every_set_once_and_each_that_says_something_by_itself() -> None:
    rows = with_retests(400).retests.rows
    shown = list(condense(rows))
    gathered = [row for one in shown for row in (one.sets if isinstance(one, Quarter) else (one,))]
    assert tuple(gathered) == rows
    alone = [one for one in shown if isinstance(one, Retest)]
    assert all(row in alone for row in rows if row.late)
    assert rows[0] in alone
    assert rows[-1] in alone


def test_one_reading_draws_no_trend_line_but_still_shows_who_was_inside() -> None:
    text = " ".join(text_of(render_permit(with_retests(1))))
    assert "limit, hatched outside" not in text
    assert "Solvang" in text


def test_no_readings_are_told_in_words() -> None:
    none = replace(ENDED, retests=replace(ENDED.retests, rows=()))
    assert "No set of readings was taken during entry." in one_line(" ".join(text_of(render_permit(none))))


# --- the section -----------------------------------------------------------------------------------------------


def test_each_row_of_the_table_stands_at_its_true_depth() -> None:
    """Rows at 1, 5, 9, 13 and 17 ft: equal steps of depth are equal steps of paper."""
    pdf = render_permit(ENDED)
    page = next(n for n, text in enumerate(text_of(pdf)) if "Tests before" in text)
    depths = ("1 ft", "5 ft", "9 ft", "13 ft", "17 ft")
    heights = [places_of(pdf, page, depth)[0][1] for depth in depths]
    steps = [above - below for above, below in pairwise(heights)]
    assert max(steps) - min(steps) < 0.5
    assert min(steps) > 25


def test_points_closer_than_a_row_fan_out_and_none_is_lost() -> None:
    close = tuple(replace(point, depth=1.0 + place * 0.3) for place, point in enumerate(ENDED.tests_before.points))
    pdf = render_permit(replace(ENDED, tests_before=replace(ENDED.tests_before, points=close)))
    text = " ".join(text_of(pdf))
    for point in ENDED.tests_before.points:
        assert point.times[0] in text


def test_a_wide_shallow_space_and_six_gases_still_fit() -> None:
    assert ENDED.section is not None
    gases = (*ENDED.tests_before.gases, *ENDED.tests_before.gases[2:])
    points = tuple(replace(p, figures=(*p.figures, *p.figures[2:])) for p in ENDED.tests_before.points)
    retests = replace(
        ENDED.retests, gases=gases, rows=tuple(replace(r, figures=(*r.figures, *r.figures[2:])) for r in RETESTS)
    )
    section = replace(ENDED.section, width=40.0, depth=18.3, opening_at=20.0)
    page = replace(
        ENDED, section=section, tests_before=replace(ENDED.tests_before, gases=gases, points=points), retests=retests
    )
    assert len(text_of(render_permit(page, "a4"))) <= 7


def test_cleared_obstacles_stand_with_what_cleared_them() -> None:
    text = one_line(text_of(render_permit(ENDED))[0])
    assert "H2S 14 ppm at 17 ft; limit under 10" in text
    assert "Air blown in; 08:46 highest 1 ppm" in text


def test_the_authoritys_fingerprint_stands_under_the_signatures() -> None:
    """A reader without the site compares it with the one the file names."""
    page = replace(ENDED, authority="4759 d6a6 30a6 51a4")
    assert "SHA-256: 4759 d6a6 30a6 51a4" in one_line(" ".join(text_of(render_permit(page))))


def test_the_trend_draws_no_line_to_a_set_that_stands_apart() -> None:
    """One line fewer in each of the strips, counted by an independent reader of the page's paths."""
    rows = list(RETESTS)
    rows[2] = replace(rows[2], apart=True)
    broken = replace(ENDED, retests=replace(ENDED.retests, rows=tuple(rows)))
    assert _paths(ENDED) - _paths(broken) == len(ENDED.retests.gases)


def _paths(page: PermitPage) -> int:
    document = pypdfium2.PdfDocument(render_permit(page))
    kind = pypdfium2.raw.FPDF_PAGEOBJ_PATH
    return sum(len(list(sheet.get_objects(filter=[kind]))) for sheet in document)


def test_the_last_figure_of_a_strip_stands_at_the_height_of_its_point() -> None:
    """20.9 lies between the limits 19.5 and 23.5, so it stands between their ticks, not level with the lower."""
    pdf = render_permit(ENDED)
    page = next(n for n, text in enumerate(text_of(pdf)) if "Tests during" in text)
    right = max(x for x, _ in places_of(pdf, page, "20.9"))
    last = next(y for x, y in places_of(pdf, page, "20.9") if x == right)
    left = min(x for x, _ in places_of(pdf, page, "23.5") if x > 100)
    low, high = (max(y for x, y in places_of(pdf, page, tick) if x < left + 3) for tick in ("19.5", "23.5"))
    assert low + 3 < last < high - 3


def test_rows_with_one_time_are_lower_so_that_more_stand_at_their_depth() -> None:
    """Points 28 pt of paper apart: rows with one time (27 pt) keep their depth, a row with two (33 pt) is pushed."""
    once = replace(ENDED.tests_before.points[0], times=("", "08:36"))
    twice = replace(once, times=("07:40", "08:36"))
    points = [replace(once, depth=depth) for depth in (1.0, 2.0, 3.0)]
    assert row_places(points, 28.0, 2).middles == (28.0, 56.0, 84.0)
    middles = row_places([points[0], replace(twice, depth=2.0), points[2]], 28.0, 2).middles
    assert middles[0] == 28.0 and middles[1] > 56.0 and middles[2] > 84.0
