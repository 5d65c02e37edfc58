"""The certificates of the two shorter routes, read back from the filed PDF: what 29 CFR 1910.146(c)(5)(ii)(H) and
(c)(7)(iii) ask for (date, location of the space, signature; the basis) and what the routes rest on. The paragraphs'
content is from memory and from public summaries of the rule."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from tests.desk.watch import crew
from tests.office import shorter_ways
from tests.paper.reading_pages import poppler, text_of

from lamproom.office.end_permit import end_permit
from lamproom.office.go_in import go_in
from lamproom.office.go_out import go_out
from lamproom.office.pages import draft_pdf, filed_pdf, posted_on
from lamproom.office.verify import verify_file
from lamproom.paper.sheet import Paper

PAPERS: tuple[Paper, ...] = ("letter", "a4")


@pytest.fixture
def site(tmp_path: Path) -> crew.Site:
    return crew.site(tmp_path)


def told(pdf: bytes, folder: Path) -> str:
    return " ".join(poppler("pdftotext", pdf, folder).split())


def filed(one: crew.Site, folder: Path) -> str:
    pdf = filed_pdf(one.office, one.number)
    assert pdf is not None
    return told(pdf, folder)


def lived(one: crew.Site, read: bool) -> None:
    """One person goes in, works half an hour, comes out; then it is ended."""
    one.minutes(2)
    go_in(one.office, one.number, "P-04", by="P-04")
    for _ in range(2):
        one.minutes(12)
        if read:
            one.read("20.8 0 1 1", "work", "1.8")
    go_out(one.office, one.number, "P-04", by="P-04")
    end_permit(one.office, one.number, "work-complete", "", "P-01", crew.CODES["P-01"])


def test_the_alternate_route_files_a_certificate_with_date_location_and_signature(
    site: crew.Site, tmp_path: Path
) -> None:
    shorter_ways.vault(site)
    text = filed(site, tmp_path)
    assert "Alternate entry certificate" in text and "Confined-space entry permit" not in text
    assert "(c)(5)(ii)(H)" in text
    for words in ("25 Nov 2026", "Meter vault 9, Lark Road", "Mara Velde, certifying person", "before anyone went in"):
        assert words in text, words


def test_the_alternate_certificate_carries_its_conditions_data_and_what_ends_it(
    site: crew.Site, tmp_path: Path
) -> None:
    shorter_ways.vault(site)
    text = filed(site, tmp_path)
    assert "The only hazard is the air" in text and "engulfment possible: no" in text
    assert "Continuous forced air alone keeps this air within its limits" in text
    assert "Monitoring data: binder 4, sheets 1 to 14" in text and "Inspection data: binder 4, sheet 15" in text
    assert "half of each limit counts as the limit here" in text and "below 5 % LEL" in text
    assert "everyone leaves at once. How it arose is evaluated" in text
    assert "900 m³/h from the field side, upwind" in text and "rails on four sides; lid lifted after the test" in text
    assert "20.9" in text and "Available to Teo Amadi, Kit Sorrel" in text


def test_a_reclassification_is_certified_with_its_basis_and_how_each_hazard_was_eliminated(
    site: crew.Site, tmp_path: Path
) -> None:
    shorter_ways.mixer(site)
    text = filed(site, tmp_path)
    assert "Reclassification certificate" in text and "(c)(7)(iii)" in text
    for words in ("25 Nov 2026", "Lime mixer 4, Dosing house", "Certifies that every hazard is eliminated"):
        assert words in text, words
    assert "Drive locked out and tried; bowl washed" in text
    assert "Mixing blades" in text and "Eliminated: locked out, tried" in text
    assert "Fall into the bowl" in text and "Eliminated: platform set in, tried" in text
    assert "does not eliminate it, and counts for nothing here" in text
    assert "Any hazard that arises voids it: everyone leaves" in text
    assert "The air is read before" not in text, "no reading is owed where the air cannot go bad"


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("way", [shorter_ways.vault, shorter_ways.mixer])
def test_no_certificate_calls_itself_a_permit_or_numbers_items_of_f(
    site: crew.Site, tmp_path: Path, paper: Paper, way: object
) -> None:
    way(site)  # type: ignore[operator]
    text = told(draft_pdf(site.office, site.number, paper), tmp_path)
    assert "1910.146(f)" not in text and "entry supervisor" not in text
    assert "Authorized " not in text.replace("Authorized entrants", "") and "Canceled" not in text


@pytest.mark.parametrize("way", [shorter_ways.vault, shorter_ways.mixer])
def test_the_ended_certificate_is_filed_signed_with_its_journal_and_proves_genuine(
    site: crew.Site, tmp_path: Path, way: object
) -> None:
    way(site)  # type: ignore[operator]
    lived(site, way is shorter_ways.vault)
    pdf = filed_pdf(site.office, site.number)
    assert pdf is not None
    text = told(pdf, tmp_path)
    assert "Ended" in text and "Canceled" not in text and "Ends" in text
    file = tmp_path / "ended.pdf"
    file.write_bytes(pdf)
    signed = subprocess.run(["pdfsig", "-nocert", file], capture_output=True, text=True).stdout
    assert "Signature is Valid." in signed and "Total document signed" in signed
    assert all(line.found != "wrong" for line in verify_file(pdf, site.office).lines)
    assert b"EmbeddedFile" in pdf


def test_readings_during_the_entry_stand_on_the_ended_certificate(site: crew.Site, tmp_path: Path) -> None:
    shorter_ways.vault(site)
    lived(site, True)
    text = filed(site, tmp_path)
    assert "Tests during entry (c)(5)(ii)(F)" in text and "20.8" in text
    assert "within the limits of this certificate" in text


@pytest.mark.parametrize("way", [shorter_ways.vault, shorter_ways.mixer])
def test_a_draft_of_a_certificate_is_crossed_out_as_none(site: crew.Site, way: object) -> None:
    way(site, certified=False)  # type: ignore[operator]
    text = " ".join(" ".join(text_of(draft_pdf(site.office, site.number))).split())
    assert "DRAFT – NOT A CERTIFICATE" in text and "NOT A PERMIT" not in text
    assert "Certified by not answered" in text


@pytest.mark.parametrize("paper", PAPERS)
def test_the_posted_page_is_the_certificates_short_form(site: crew.Site, tmp_path: Path, paper: Paper) -> None:
    shorter_ways.vault(site)
    made = posted_on(site.office, site.number, paper)
    text = told(made.pdf, tmp_path)
    assert made.sheet == paper
    assert "Certified 26-0001" in text and "Alternate entry certificate. 29 CFR 1910.146(c)(5)(ii)(H)." in text
    assert "Mara Velde, certifying person. 25 Nov 2026" in text and "What ends it:" in text
    assert "Attendant" not in text and "sign in ink" not in text
    assert "LEL under 5 %" in text


def test_the_posted_page_of_a_reclassified_space_names_what_was_eliminated_and_no_limits(
    site: crew.Site, tmp_path: Path
) -> None:
    shorter_ways.mixer(site)
    text = told(posted_on(site.office, site.number).pdf, tmp_path)
    assert "Eliminated Mixing blades" in text and "under 10 ppm" not in text


def test_the_posted_page_of_an_ended_certificate_is_void(site: crew.Site) -> None:
    shorter_ways.mixer(site)
    lived(site, False)
    text = " ".join(" ".join(text_of(posted_on(site.office, site.number).pdf)).split())
    assert "do not enter" in text and "ENDED" in text and "VOID – NOT A CERTIFICATE" in text
    assert "certifying person" not in text


def test_a_permit_keeps_its_own_page(site: crew.Site, tmp_path: Path) -> None:
    crew.authorised(site)
    text = filed(site, tmp_path)
    assert "Confined-space entry permit" in text and "ertificate" not in text.split("Signatures")[0]
