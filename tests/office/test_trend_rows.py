"""Which sets the printed trend joins: those at the place of work, never over a break, a stop or a long silence."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.desk.watch import crew

from lamproom.office.begin_break import begin_break
from lamproom.office.end_break import end_break
from lamproom.office.go_out import go_out
from lamproom.office.order_stop import order_stop
from lamproom.office.page.air import retests
from lamproom.office.pages import pages_after

CALM = "20.9 0 1 0"


@pytest.fixture
def site(tmp_path: Path) -> crew.Site:
    return crew.working(crew.site(tmp_path))


def joined(one: crew.Site) -> list[bool]:
    """For each set after authorization: does the line lead to it?"""
    rows = retests(pages_after(one.office, one.number)).rows
    return [row.at_work and not row.apart for row in rows]


def everyone_out(one: crew.Site) -> None:
    for person in ("P-04", "P-05"):
        go_out(one.office, one.number, person, by="P-02")


def test_sets_at_the_place_of_work_in_time_are_joined_but_no_line_leads_to_the_first(site: crew.Site) -> None:
    assert joined(site) == [False, True, True]


def test_a_set_elsewhere_is_a_mark_alone_and_the_line_passes_it_by(site: crew.Site) -> None:
    site.read(CALM, point="2.1")
    site.minutes(1)
    site.read(CALM)
    assert joined(site) == [False, True, True, False, True]


def test_a_silence_of_more_than_one_and_a_half_intervals_breaks_the_line(site: crew.Site) -> None:
    """The form's interval is 15 minutes: 22 minutes are joined, 23 are not. The last set was 7.3 minutes ago."""
    every = site.office.permit(site.number).form.retest.every_min
    assert every == 15
    site.minutes(22 - 7.3)
    site.read(CALM)
    site.minutes(23)
    site.read(CALM)
    assert joined(site) == [False, True, True, True, False]


def test_a_break_however_short_breaks_the_line(site: crew.Site) -> None:
    everyone_out(site)
    begin_break(site.office, site.number, "rail", "fan runs", True, by="P-02")
    site.minutes(2)
    end_break(site.office, site.number, "as left", by="P-02")
    crew.test_all_points(site, "after-break")
    site.read(CALM)
    assert joined(site)[:3] == [False, True, True] and not any(joined(site)[3:])


def test_a_stop_however_short_breaks_the_line(site: crew.Site) -> None:
    order_stop(site.office, site.number, by="P-02")
    everyone_out(site)
    site.read(CALM)
    assert joined(site) == [False, True, True, False]
