"""Every everyday change after authorization has its paper: the permit's page filed anew, the posted page issued again,
each saying what changed, when and by whom. That a changed permit is posted again is common practice; 29 CFR
1910.146(e)(3) asks that the permit at the portal be the one that holds."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest
from tests.desk.watch import crew
from tests.paper.reading_pages import poppler, text_of

from lamproom.office.assign_instrument import assign_instrument
from lamproom.office.begin_break import begin_break
from lamproom.office.change_step import change_step
from lamproom.office.end_break import end_break
from lamproom.office.extend import extend
from lamproom.office.go_out import go_out
from lamproom.office.name_person import name_person
from lamproom.office.order_stop import order_stop
from lamproom.office.pages import filed_ids, filed_pdf, posted_on
from lamproom.office.reendorse import reendorse
from lamproom.office.relieve import relieve
from lamproom.office.return_instrument import return_instrument
from lamproom.office.unname_person import unname_person

CODE = crew.CODES["P-01"]


@pytest.fixture
def site(tmp_path: Path) -> crew.Site:
    """Two people inside, air read a few minutes ago."""
    return crew.working(crew.site(tmp_path))


def clock(one: crew.Site) -> str:
    return one.office.now().astimezone(one.office.permit(one.number).zone).strftime("%H:%M")


def filed(one: crew.Site, folder: Path) -> str:
    pdf = filed_pdf(one.office, one.number)
    assert pdf is not None
    return " ".join(poppler("pdftotext", pdf, folder, "-layout").split())


def posted(one: crew.Site) -> str:
    return " ".join(" ".join(text_of(posted_on(one.office, one.number).pdf)).split())


def everyone_out(one: crew.Site) -> None:
    for trip in one.office.permit(one.number).tally.inside:
        go_out(one.office, one.number, trip.who, by="P-02")


def relieved(one: crew.Site) -> None:
    permit = one.office.permit(one.number)
    inside = tuple(trip.who for trip in permit.tally.inside)
    relieve(one.office, one.number, "P-03", crew.CODES["P-03"], inside, permit.sets[-1].version, ())


def extended(one: crew.Site) -> None:
    until = one.office.permit(one.number).until
    assert until is not None
    extend(one.office, one.number, until + timedelta(minutes=30), "the float sticks", "P-01", CODE)


def swapped(one: crew.Site) -> None:
    return_instrument(one.office, one.number, "I-07", "battery-flat", by="P-02")


CHANGES: dict[str, tuple[Callable[[crew.Site], None], str]] = {
    "an added entrant": (
        lambda one: name_person(one.office, one.number, "P-07", "entrant", by="P-01"),
        "Juno Bexley named entrant, by Mara Velde.",
    ),
    "an entrant taken off": (
        lambda one: unname_person(one.office, one.number, "P-06", "entrant", by="P-01"),
        "Lena Quist no longer entrant, by Mara Velde.",
    ),
    "an added attendant": (
        lambda one: name_person(one.office, one.number, "P-03", "attendant", by="P-01"),
        "Nia Falk named attendant, by Mara Velde.",
    ),
    "a relieved attendant": (relieved, "Nia Falk relieved Oskar Wren on watch."),
    "an instrument returned": (swapped, "Instrument 7 returned: its battery is flat, by Oskar Wren."),
    "an instrument added": (
        lambda one: assign_instrument(one.office, one.number, "I-07", "worn", None, by="P-02"),
        "Instrument 7 added: worn inside, by Oskar Wren.",
    ),
    "an extension": (extended, "the float sticks, by Mara Velde."),
    "a work step": (
        lambda one: change_step(one.office, one.number, "clean the sump", by="P-01"),
        "Next work step: clean the sump. Every point is tested again before the next person goes in, by Mara Velde.",
    ),
}


@pytest.mark.parametrize("what", CHANGES)
def test_each_change_is_filed_on_the_permits_page_with_what_when_and_by_whom(
    site: crew.Site, tmp_path: Path, what: str
) -> None:
    change, words = CHANGES[what]
    change(site)
    (newest, _page), *_ = filed_ids(site.office.permit(site.number))
    assert newest == "amended"
    assert f"{clock(site)} " in filed(site, tmp_path) and words in filed_words(site)


def filed_words(one: crew.Site) -> str:
    pdf = filed_pdf(one.office, one.number)
    assert pdf is not None
    return " ".join(" ".join(text_of(pdf)).split())


@pytest.mark.parametrize("what", CHANGES)
def test_each_change_stands_on_the_posted_page_issued_again(site: crew.Site, what: str) -> None:
    assert "Issued again" not in posted(site)
    change, words = CHANGES[what]
    change(site)
    version = site.office.permit(site.number).version
    assert f"Issued again, version {version}. {clock(site)} " in posted(site)
    assert words in posted(site)


def test_after_an_extension_both_pages_say_the_new_end(site: crew.Site) -> None:
    extended(site)
    permit = site.office.permit(site.number)
    assert permit.until is not None
    ends = permit.until.astimezone(permit.zone).strftime("%H:%M")
    assert f"to {ends}" in posted(site).split("Issued again")[0]
    assert filed_words(site).count(f"to {ends}") == 3, "in the head, under date and hours, and as a change"


def test_the_changes_alone_never_ask_for_a_larger_sheet(site: crew.Site) -> None:
    name_person(site.office, site.number, "P-07", "entrant", by="P-01")
    relieved(site)
    extended(site)
    swapped(site)
    made = posted_on(site.office, site.number, "a4")
    assert made.sheet == "a4"
    told = " ".join(" ".join(text_of(made.pdf)).split())
    assert "Instrument 7 returned" in told and "3 earlier changes stand" in told


def test_before_authorization_nothing_is_filed_and_nothing_is_issued_again(tmp_path: Path) -> None:
    one = crew.draft(crew.site(tmp_path))
    name_person(one.office, one.number, "P-07", "entrant", by="P-01")
    assert filed_ids(one.office.permit(one.number)) == () and "Issued again" not in posted(one)


def test_a_break_and_the_return_each_have_their_paper(site: crew.Site, tmp_path: Path) -> None:
    everyone_out(site)
    assert "Valid" in posted(site)
    begin_break(site.office, site.number, "rail", "fan runs", True, by="P-02")
    began = clock(site)
    assert "Everyone out. Rail. Fan runs" in filed_words(site)
    assert f"BREAK since {began}, do not enter" in posted(site) and "Valid" not in posted(site)
    assert "Everyone out for a break, by Oskar Wren." in posted(site)
    site.minutes(5)
    end_break(site.office, site.number, "as left", by="P-02")
    assert "do not enter" in posted(site) and "Back from the break" in posted(site)
    crew.test_all_points(site, "after-break")
    assert "NOT ENDORSED AGAIN" in posted(site)
    reendorse(site.office, site.number, "P-01", CODE)
    assert "do not enter" not in posted(site) and "Valid" in posted(site)
    assert "Entry endorsed again on a full retest, by Mara Velde." in posted(site)


def test_the_posted_page_of_a_stop_lets_nobody_in_and_names_who_is_inside(site: crew.Site) -> None:
    order_stop(site.office, site.number, by="P-02")
    text = posted(site)
    assert f"EVERYONE OUT since {clock(site)}, do not enter" in text
    assert "Still inside: Teo Amadi, Kit Sorrel." in text and "Valid" not in text
    everyone_out(site)
    assert "Entry waits for the supervisor’s determination" in posted(site)


def test_after_a_new_step_the_posted_page_bars_until_every_point_is_tested(site: crew.Site) -> None:
    everyone_out(site)
    change_step(site.office, site.number, "clean the sump", by="P-01")
    assert "AIR NOT TESTED since" in posted(site) and "Valid" not in posted(site)
    crew.test_all_points(site, "ventilating")
    assert "do not enter" not in posted(site) and "Valid" in posted(site)


def test_only_the_newest_changes_stand_on_the_posted_page_and_it_says_how_many_more(site: crew.Site) -> None:
    for person in ("P-07", "P-08", "P-09", "P-10"):
        site.minutes(0.5)
        name_person(site.office, site.number, person, "entrant", by="P-01")
    text = posted(site)
    assert "Bo Larkin named entrant" in text and "Juno Bexley named" not in text
    assert "1 earlier change stands on the permit’s page." in text
