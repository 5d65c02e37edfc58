"""Cautions on paper: the permit's page keeps those that stood when it was authorized; the posted page carries what the
portal needs. None of them bars anything."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from tests.desk.watch import crew
from tests.paper.reading_pages import text_of

from lamproom.office.authorise import authorise
from lamproom.office.open_permit import open_permit
from lamproom.office.pages import draft_pdf, filed_pdf, posted_pdf
from lamproom.office.plan_hours import plan_hours
from lamproom.permit.obstacles import Stage, barring


@pytest.fixture
def site(tmp_path: Path) -> crew.Site:
    return crew.site(tmp_path)


def words(pdf: bytes | None) -> str:
    assert pdf is not None
    return " ".join(" ".join(text_of(pdf)).split())


def long_one(one: crew.Site) -> crew.Site:
    """A permit of more than 8 h: longer than the sample permit of Appendix D to 29 CFR 1910.146 is good for."""
    crew.draft(one)
    now = one.office.now()
    plan_hours(one.office, one.number, now, now + timedelta(hours=8, minutes=40), by="P-01")
    assert not barring(one.office.facts(one.number), Stage.AUTHORISE)
    return one


def signed(one: crew.Site) -> crew.Site:
    authorise(one.office, one.number, "P-01", crew.CODES["P-01"], None)
    return one


def test_a_draft_names_the_cautions_of_now(site: crew.Site) -> None:
    text = words(draft_pdf(long_one(site).office, site.number))
    assert "To know now" in text and "More than 8 h are planned." in text and "Appendix D" in text


def test_the_filed_page_keeps_those_that_stood_when_it_was_authorized(site: crew.Site) -> None:
    signed(long_one(site))
    text = words(filed_pdf(site.office, site.number))
    assert "To know at authorization" in text and "More than 8 h are planned." in text
    assert "Caution: it bars nothing" in text


def test_what_is_told_at_authorization_is_told_on_every_later_page_too(site: crew.Site) -> None:
    """A figure past half of its limit, read during work, is no caution of the authorization."""
    signed(long_one(site))
    before = words(draft_pdf(site.office, site.number))
    site.minutes(5)
    site.read("20.8 0 7 1", "ventilating", "3.9", lowered=True)
    after = words(draft_pdf(site.office, site.number))
    assert "More than 8 h are planned." in after
    assert "is past half of the limit" not in before and "is past half of the limit" not in after


def test_the_posted_page_carries_what_the_portal_can_act_on_and_nothing_else(site: crew.Site) -> None:
    signed(long_one(site))
    assert "To know:" not in words(posted_pdf(site.office, site.number))
    crew.test_all_points(site, "ventilating")
    site.minutes(3)
    depth = next(s.event.point_m for s in reversed(site.office.permit(site.number).sets) if s.event.point_m)
    site.read("20.8 0 7 1", "ventilating", depth, lowered=True)
    text = words(posted_pdf(site.office, site.number))
    assert "To know:" in text and "7 ppm" in text and "is past half of the limit" in text
    assert "More than 8 h" not in text


def test_rescue_is_no_caution_where_the_route_asks_for_none(tmp_path: Path) -> None:
    from tests.office import shorter_ways

    one = crew.site(tmp_path)
    shorter_ways.vault(one)
    assert "no rescue plan by itself" not in words(filed_pdf(one.office, one.number))
    other = open_permit(one.office, "wet-well-2", by="P-01")
    assert "no rescue plan by itself" in words(draft_pdf(one.office, other))
