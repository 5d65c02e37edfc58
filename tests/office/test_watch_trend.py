"""Beside the plot: where readings are heading and when, and which cannot be; quiet, and never in an alarm's place."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from tests.desk.watch import crew

from lamproom.air.working_list import WORKINGS
from lamproom.air.workings import again
from lamproom.office.views.watch import watch_view
from lamproom.office.views.watch_trend import trend_lines


@pytest.fixture
def site(tmp_path: Path) -> crew.Site:
    return crew.working(crew.site(tmp_path))


def read(one: crew.Site, *sets: str, minutes: float = 5) -> None:
    """Sets at the place of work, so many minutes apart."""
    for figures in sets:
        one.minutes(minutes)
        one.read(figures)


def said(one: crew.Site) -> list[str]:
    return [line.words for line in trend_lines(one.office.facts(one.number))]


def codes(one: crew.Site) -> list[str]:
    return [line.code for line in trend_lines(one.office.facts(one.number))]


def test_a_gas_on_its_way_to_its_limit_is_told_with_the_time_at_which_it_gets_there(site: crew.Site) -> None:
    """2, 4, 6 ppm five minutes apart: 0.4 ppm a minute, 4 more to 10, so 10 minutes after the last. By hand."""
    read(site, "20.9 0 2 0", "20.9 0 4 0", "20.9 0 6 0")
    last = site.office.permit(site.number).sets[-1].event.taken
    time = (last + timedelta(minutes=10)).astimezone(site.office.permit(site.number).zone).strftime("%H:%M")
    (line,) = [words for words in said(site) if "Hydrogen" in words]
    assert "rising: 10 ppm" in line and f"about {time}" in line


def test_the_time_is_worked_out_again_from_what_its_working_shows(site: crew.Site) -> None:
    read(site, "20.9 0 2 0", "20.9 0 4 0", "20.9 0 6 0")
    (line,) = [one for one in trend_lines(site.office.facts(site.number)) if one.code == "heading"]
    assert line.working is not None and again(WORKINGS, line.working).result == line.working.result


def test_oxygen_on_its_way_down_is_told_with_its_lower_limit(site: crew.Site) -> None:
    read(site, "20.9 0 0 0", "20.6 0 0 0", "20.3 0 0 0")
    assert any("Oxygen" in words and "falling: 19.5 % vol" in words for words in said(site))


def test_an_ordinary_day_says_nothing(site: crew.Site) -> None:
    read(site, "20.9 0 0 0", "20.9 0 0 0", "20.9 0 0 0", "20.8 0 1 0", "20.9 0 0 0")
    assert said(site) == []


def test_a_figure_that_does_not_move_away_from_clean_air_is_doubted(site: crew.Site) -> None:
    read(site, "20.9 0 0 12", "20.9 0 0 12", "20.9 0 0 12")
    assert codes(site) == ["unmoved"] and "12 ppm 3 times" in said(site)[0]


def test_a_jump_that_the_sensor_cannot_follow_is_doubted(site: crew.Site) -> None:
    """In one second a sensor of 20 s to 90 % and 500 ppm has moved 54 ppm at the most: 500 x (1 - 10^-0.05)."""
    read(site, "20.9 0 0 0")
    read(site, "20.9 0 0 300", minutes=1 / 60)
    assert "jump" in codes(site)


def test_more_oxygen_than_that_much_gas_leaves_is_doubted(site: crew.Site) -> None:
    """60 % of 5 vol% is 3 vol% of methane: fresh air of 20.9 can hold 20.3 at most."""
    read(site, "20.9 60 0 0")
    assert "disagree" in codes(site)


def test_it_stands_before_other_cautions_until_the_limit_is_met(site: crew.Site) -> None:
    """Past the limit the alarm speaks; no pace and no time stands beside it."""
    read(site, "20.9 0 2 0", "20.9 0 4 0", "20.9 0 6 0")
    assert watch_view(site.office, site.number).cautions[0].code == "heading"
    read(site, "20.9 0 11 0")
    view = watch_view(site.office, site.number)
    assert view.alarms and not any(one.code == "heading" for one in view.cautions)
