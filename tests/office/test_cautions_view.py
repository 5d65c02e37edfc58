"""Cautions in words for every screen and page: the same that the rules know, each said once, and none that bars."""

from __future__ import annotations

from pathlib import Path

from tests.desk.watch import crew

from lamproom.office.views.cautions import caution_lines, cautions_of
from lamproom.permit.cautions import cautions


def test_the_view_says_each_caution_of_the_rules_once_with_its_rule(tmp_path: Path) -> None:
    """The demo's form D-2 comparison: a permit of more than 8 h is long (29 CFR 1910.146, Appendix D)."""
    site = crew.site(tmp_path)
    crew.authorised(site)
    facts = site.office.facts(site.number)
    told = caution_lines(facts)
    assert {one.code for one in told} == {one.code for one in cautions(facts)}
    assert len(told) == len(set(told)) and told == cautions_of(site.office, site.number)
    assert all(one.words and one.rule for one in told)
