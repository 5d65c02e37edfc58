"""The day's papers, read by readers that are not ours: pdftotext and pdfsig (poppler), pypdfium2."""

from __future__ import annotations

import subprocess
import zipfile
from pathlib import Path

import pypdfium2
import pytest
from tests.stories.lives import DAY_TABLE, in_memory

from lamproom.cli import main
from lamproom.office import replay
from lamproom.office.demo import demo_in
from lamproom.office.page.air import retests
from lamproom.office.pages import pages_after


@pytest.fixture(scope="module")
def papers(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that `lamproom demo --out` leaves."""
    folder = tmp_path_factory.mktemp("demo")
    demo_in(folder, lambda _line: None)
    return folder


def _one(papers: Path, name: str) -> Path:
    (found,) = (papers / "papers").glob(f"*{name}.pdf")
    return found


def _text(file: Path) -> str:
    return subprocess.run(["pdftotext", file, "-"], capture_output=True, text=True, check=True).stdout


# 29 CFR 1910.146(f)(1) to (15): what the permit identifies, each by a word that only this day's permit could hold.
ITEMS = {
    1: "raw sewage",
    2: "Replace the float switch",
    3: "09:00 to 14:00",
    4: "Lena Quist",
    5: "Nia Falk",
    6: "Mara Velde",
    7: "no sign before collapse",
    8: "lock 14 of Teo Amadi",
    9: "19.5 to 23.5 % vol",
    10: "20.8",
    11: "radio channel 4",
    12: "three bring me out",
    13: "fixed ladder, air horn",
    14: "Well 1 stays in service",
    15: "No. Mara Velde, 07:06.",
}


def test_pdftotext_finds_all_fifteen_items_on_the_ended_permit(papers: Path) -> None:
    text = " ".join(_text(_one(papers, "0001-closed-out")).split())
    missing = {number: words for number, words in ITEMS.items() if words not in text}
    assert not missing


def test_both_figures_of_the_correction_and_the_stop_are_on_the_page(papers: Path) -> None:
    text = " ".join(_text(_one(papers, "0001-closed-out")).split())
    assert "typed a nought too many" in text
    assert "a sleeve caught the key" in text
    assert "ordered by hand" in text


@pytest.mark.parametrize("name", ["0001-authorised", "0001-ended", "0001-closed-out", "0003-ended"])
def test_pdfsig_finds_one_valid_signature_over_the_whole_document(papers: Path, name: str) -> None:
    told = subprocess.run(["pdfsig", "-nocert", _one(papers, name)], capture_output=True, text=True).stdout
    assert told.count("Signature #") == 1
    assert "Signature is Valid." in told
    assert "Total document signed" in told


def test_pypdfium2_draws_every_page_and_finds_the_code_on_each(papers: Path) -> None:
    document = pypdfium2.PdfDocument(_one(papers, "0001-closed-out"))
    assert len(document) >= 4
    codes = set()
    for page in document:
        words = page.get_textpage().get_text_bounded()
        codes.add(words.split("Code ")[1][:14] if "Code " in words else "")
        assert page.render(scale=0.5).to_numpy().min() < 128
    assert len(codes) == 1 and codes != {""}


def test_the_posted_page_fits_on_one_letter_sheet(papers: Path) -> None:
    document = pypdfium2.PdfDocument(_one(papers, "0001-posted"))
    assert len(document) == 1
    assert [round(x) for x in document[0].get_size()] == [612, 792]


def test_the_posted_page_sends_nobody_in_and_names_what_drives_everyone_out_of_this_space(papers: Path) -> None:
    well = " ".join(_text(_one(papers, "0001-posted")).split())
    assert "Nobody goes in. Attendant winches from the tripod." in well
    assert "Wet well 2, Lift station North" in well
    assert "then telephone 911, gate 3" in well
    assert "fan stops, water let in, pumps start" in well
    silo = " ".join(_text(_one(papers, "0003-posted")).split())
    assert "sliding carbon" in silo and "water" not in silo


def test_only_acts_that_asked_a_code_are_called_signed_by_code(papers: Path) -> None:
    """Of thirteen signatures six bear ink; taking the watch and closing out asked no code."""
    text = " ".join(_text(_one(papers, "0001-closed-out")).split())
    assert text.count("recorded at the station") == 2
    assert text.count("signed by code, no ink") == 5
    assert "Nia Falk, attendant Closes out" in text


def test_what_is_said_once_is_not_said_twice_and_names_stand_behind_a_period(papers: Path) -> None:
    text = " ".join(_text(_one(papers, "0001-closed-out")).split())
    assert text.count("the work is complete") == 1
    assert "Yes, as planned. Mara Velde, 08:47." in text
    assert text.count("Attendant winches from the tripod") == 1
    assert "outside, before entry" in text
    assert "version 97, closed out" in text
    assert "Watched by" not in text


def test_the_trend_is_broken_over_the_break_and_the_stop_and_joins_only_the_place_of_work(tmp_path: Path) -> None:
    """From the day: work until 09:42, the break 09:57 to 10:15, work again 10:40, the stop 10:44, work 11:13."""
    shift = in_memory(tmp_path)
    replay.set_up(shift)
    replay.live(shift, DAY_TABLE)
    rows = retests(pages_after(shift.office, shift.permits["A"])).rows
    joined = [row.taken for row in rows if row.at_work and not row.apart]
    assert joined == ["09:13", "09:28", "09:42", "11:27"]


def test_the_refused_draft_names_its_obstacles_and_looks_like_nothing_granted(papers: Path) -> None:
    text = " ".join(_text(_one(papers, "0002-draft")).split())
    assert "Nitrogen line N-3 is not isolated." in text
    assert "No hours granted" in text


def test_verify_says_genuine_with_the_site_and_origin_not_confirmed_without(
    papers: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = str(_one(papers, "0001-closed-out"))
    assert main(["verify", file]) == 3
    assert "origin not confirmed" in capsys.readouterr().out
    assert main(["--site", str(papers / "site"), "verify", file]) == 0


def test_one_flipped_and_one_appended_byte_are_reported(papers: Path, tmp_path: Path) -> None:
    content = _one(papers, "0001-closed-out").read_bytes()
    flipped = tmp_path / "flipped.pdf"
    middle = len(content) // 3
    flipped.write_bytes(content[:middle] + bytes([content[middle] ^ 1]) + content[middle + 1 :])
    appended = tmp_path / "appended.pdf"
    appended.write_bytes(content + b"\n")
    assert main(["--site", str(papers / "site"), "verify", str(flipped)]) == 1
    assert main(["--site", str(papers / "site"), "verify", str(appended)]) == 1


def test_a_journal_resigned_by_another_authority_is_never_genuine(papers: Path, tmp_path: Path) -> None:
    """The same day lived at another site with other keys: consistent in itself, and not this site's."""
    demo_in(tmp_path / "other", lambda _line: None)
    foreign = str(_one(tmp_path / "other", "0001-closed-out"))
    assert main(["verify", foreign]) == 3
    assert main(["--site", str(papers / "site"), "verify", foreign]) == 1


def test_an_unreadable_file_ends_in_a_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    junk = tmp_path / "junk.pdf"
    junk.write_bytes(b"not a page")
    assert main(["verify", str(junk)]) == 2
    assert main(["verify", str(tmp_path / "nowhere.pdf")]) == 2
    told = capsys.readouterr()
    assert "Traceback" not in told.out + told.err


def test_the_export_is_whole_and_backup_is_verified(papers: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(papers / "export.zip") as bundle:
        assert {"journal.jsonl"} <= {Path(name).name for name in bundle.namelist()}
    assert main(["--site", str(papers / "site"), "backup", str(tmp_path / "copy.lamproom")]) == 0
    assert (tmp_path / "copy.lamproom").exists()
