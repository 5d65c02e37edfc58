"""The permit's page carries the workings that decided, and none where nothing had to be decided."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from tests.office.test_workings_shown import site_of

from lamproom.air.working_list import WORKINGS
from lamproom.air.workings import again
from lamproom.office.page import air
from lamproom.office.page.air_workings import deciding
from lamproom.office.pages import pages_after

TOLD = {
    "oxygen 20.4, all else zero, nothing to explain it": "Missing oxygen:",
    "20.5 in air of 22 °C, saturated, from a yard of 5 °C and 70 %": "Water vapor:",
    "toluene with the maker's factor": "As toluene:",
}


def notes(name: str, folder: Path) -> dict[str, str]:
    site = site_of(name, folder)
    return {one.lead: one.text for one in air.tests_before(pages_after(site.office, site.number)).notes}


@pytest.mark.parametrize("name", TOLD)
def test_what_decided_stands_beside_the_table_with_its_figures(name: str, tmp_path: Path) -> None:
    found = notes(name, tmp_path)
    assert TOLD[name] in found
    assert not (set(TOLD.values()) - {TOLD[name]}) & set(found)


def test_the_missing_oxygen_is_the_rules_own_figure(tmp_path: Path) -> None:
    """(20.9 - 20.4 - 0.1) / 20.9 x 1,000,000 = 19,139, by hand."""
    assert (
        "19,139 ppm seen by no sensor"
        in notes("oxygen 20.4, all else zero, nothing to explain it", tmp_path)["Missing oxygen:"]
    )


def test_a_factor_is_told_with_its_sheet(tmp_path: Path) -> None:
    """3 % LEL x 2.6 = 7.8 % LEL."""
    said = notes("toluene with the maker's factor", tmp_path)["As toluene:"]
    assert "× 2.6 = 7.8 % LEL" in said and "maker's sheet 12, 2026-03-01" in said


@pytest.mark.parametrize("name", ["20.8 and zeros", "methane, oxygen and LEL right", "20.9 at 2,400 m"])
def test_where_nothing_was_to_be_decided_nothing_is_said(name: str, tmp_path: Path) -> None:
    assert not set(TOLD.values()) & set(notes(name, tmp_path))


@pytest.mark.parametrize("name", TOLD)
def test_each_working_on_the_page_is_worked_out_again_from_its_inputs(name: str, tmp_path: Path) -> None:
    site = site_of(name, tmp_path)
    pages = pages_after(site.office, site.number)
    found = [working for _said, working in deciding(pages, pages.permit.sets)]
    assert found
    for working in found:
        assert again(WORKINGS, working).result == working.result
        assert isinstance(working.result, Decimal)
