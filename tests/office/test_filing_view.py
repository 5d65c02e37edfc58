"""Filing finds, says how long a permit is kept, gives pages byte by byte, and shows what was found wrong first."""

from __future__ import annotations

from datetime import date
from hashlib import sha256
from pathlib import Path

import pytest
from tests.desk.board.busy import busy_day
from tests.desk.board.day import Day
from tests.desk.filing.long_day import long_day

from lamproom.desk.signs import Sign
from lamproom.office.views.filing import FOUND_SIGNS, day_words, found, on_file, page_of, proof, proof_of_file, read_day
from lamproom.words import Refusal


@pytest.fixture(scope="module")
def filed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Day, str]:
    return long_day(tmp_path_factory.mktemp("day"))


@pytest.mark.parametrize("text", ["25 Nov 2026", "2026-11-25", " 25 november 2026 ", "25. Nov. 2026"])
def test_a_day_is_read_in_the_ways_that_have_one_meaning(text: str) -> None:
    """ISO 8601, or the month as a word."""
    assert read_day(text) == date(2026, 11, 25)


@pytest.mark.parametrize("text", ["11/12/26", "11.12.2026", "25 Nov", "yesterday", "31 Feb 2026", "2026-13-01"])
def test_a_day_with_two_meanings_or_none_is_refused_aloud(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        read_day(text)
    assert text in str(refused.value)


def test_no_day_is_no_bound_and_a_day_is_written_as_it_is_read() -> None:
    assert read_day("  ") is None
    assert read_day(day_words(date(2026, 11, 5))) == date(2026, 11, 5)


def test_permits_are_found_by_words_of_space_person_and_substance(filed: tuple[Day, str]) -> None:
    office = filed[0].office
    assert [row.number for row in found(office, "lime, lena").rows] == [filed[1]]
    assert found(office, "lime sulfide").count == "2 permits of 6"
    nothing = found(office, "zeppelin")
    assert not nothing.rows and "Type fewer words" in nothing.empty


def test_days_bound_the_question_and_turned_days_are_refused(filed: tuple[Day, str]) -> None:
    office = filed[0].office
    assert len(found(office, "", date(2026, 11, 25), date(2026, 11, 25)).rows) == 6
    assert not found(office, "", date(2026, 11, 26)).rows
    with pytest.raises(Refusal):
        found(office, "", date(2026, 11, 26), date(2026, 11, 25))


def test_a_running_permit_is_listed_with_the_state_that_the_board_shows(tmp_path: Path) -> None:
    rows = {row.number: row.word for row in found(busy_day(tmp_path).office).rows}
    assert rows["26-0002"] == "Reading due"
    assert rows["26-0003"] == "Entry refused"
    assert rows["26-0001"] == "Closed out"


def test_a_site_without_permits_says_where_the_first_is_opened(tmp_path: Path) -> None:
    assert (
        found(Day(tmp_path).office).empty == "No permit was opened at this site yet. The first is opened on the Board."
    )


def test_a_permit_is_kept_a_year_from_its_end_at_least(filed: tuple[Day, str]) -> None:
    """29 CFR 1910.146(e)(6): each canceled entry permit is retained for at least one year."""
    day, number = filed
    assert on_file(day.office, number).kept == "Kept at least until 25 Nov 2027, by 29 CFR 1910.146(e)(6)."
    assert "365 days from its end" in on_file(day.office, "26-0002").kept


def test_filed_pages_come_newest_first_and_are_the_bytes_that_were_filed(filed: tuple[Day, str]) -> None:
    day, number = filed
    ids = [page.id for page in on_file(day.office, number).pages]
    assert ids == ["closed-out", "ended", "amended", "amended-1", "authorised"]
    hashes = {sha256(page_of(day.office, number, page)).hexdigest() for page in ids}
    assert hashes == {h for h in day.office.journal.files() if h in hashes} and len(hashes) == 5


def test_a_draft_has_the_page_as_it_stands_and_a_running_permit_the_posted_one(filed: tuple[Day, str]) -> None:
    office = filed[0].office
    assert [page.id for page in on_file(office, "26-0004").pages] == ["now"]
    assert [page.id for page in on_file(office, "26-0002").pages] == ["authorised", "posted", "now"]
    assert page_of(office, "26-0004", "now").startswith(b"%PDF")


def test_a_filed_page_that_was_never_filed_is_refused(filed: tuple[Day, str]) -> None:
    with pytest.raises(Refusal):
        page_of(filed[0].office, "26-0004", "authorised")


def test_a_proof_says_what_is_right_and_what_nobody_here_can_know(filed: tuple[Day, str]) -> None:
    day, number = filed
    result = proof(day.office, number)
    assert result.genuine and result.title.startswith("Verified at ")
    signs = [sign for sign, _words in result.lines]
    assert signs[-1] == result.glance[-1][0] == "NOT_MEASURED" and "WITHIN" in signs and "DANGER" not in signs


def test_one_flipped_byte_is_found_and_stands_first(filed: tuple[Day, str]) -> None:
    day, number = filed
    page = bytearray(page_of(day.office, number, "closed-out"))
    page[len(page) // 3] ^= 1
    result = proof_of_file(day.office, bytes(page), "handed-in.pdf")
    assert not result.genuine
    assert result.lines[0][0] == "DANGER"
    assert result.title.startswith("File handed-in.pdf: altered")


def test_signs_of_findings_are_signs_of_the_desk() -> None:
    assert all(name in Sign.__members__ for name in FOUND_SIGNS.values())
