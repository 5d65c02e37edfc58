"""Lists count what is to be done: points with one reason are one row; each obstacle counts on the sheet it is about."""

from __future__ import annotations

import pytest
from tests.permit.life import Life, bump

from lamproom.office.views.listed import listed
from lamproom.office.views.workbook import sheet_of, subject_of
from lamproom.permit.form import SHEETS
from lamproom.permit.obstacles import STAGES

ABOUT_THE_PERMIT = {
    "clock-unconfirmed",
    "figures-unconfirmed",
    "not-authorised",
    "ended",
    "reendorse",
    "stopped",
    "changed-after-signing",
}
"""What no sheet says anything of: the review shows it."""
BY_PLACE = {
    "item-open": "rescue/retrieval",
    "item-answered-against": "space/other-work",
    "purpose-missing": "space/purpose",
    "hours-missing": "space/hours",
    "hours-too-long": "space/hours",
    "hours-over": "space/hours",
    "hazard-open": "hazards/fall",
    "hazard-not-held": "hazards/fall",
    "hazard-not-eliminated": "hazards/fall",
    "limit-missing": "hazards/fall",
    "basis-missing": "hazards/basis",
    "gas-unseen": "instruments/assign",
    "isolation-open": "isolation/gate",
    "isolation-not-dead": "isolation/gate",
    "isolation-one-person": "isolation/gate",
    "isolation-lost": "isolation/gate",
    "opening-not-stated": "isolation/open",
    "level-missing": "isolation/level",
    "no-air": "isolation/level",
    "duct-not-tested": "air-test/duct",
    "lid-not-tested": "air-test/lid",
    "base-missing": "air-test/upwind",
    "point-not-tested": "air-test/point/0.3",
    "reading-outside": "air-test/point/0.3",
    "reading-early": "air-test/point/0.3",
    "unaccounted": "air-test/point/0.3",
    "flammable-void": "air-test/point/0.3",
    "vapor-factor-missing": "instruments/assign",
    "exposure-near": "air-test/points",
    "exposure-over": "air-test/points",
    "verification-old": "air-test/points",
    "no-instrument": "instruments/assign",
    "instrument-lost": "instruments/assign",
    "hose-not-tested": "instruments/hose/07",
    "not-continuous": "instruments/assign",
    "continuous-lost": "instruments/assign",
    "worn-elsewhere": "instruments/assign",
    "no-entrant": "people/entrants",
    "no-attendant": "people/attendant",
    "no-supervisor": "people/supervisor",
    "not-trained": "people/entrant",
    "two-parts": "people/attendant",
    "not-briefed": "people/briefing",
    "rescue-open": "rescue/confirm",
    "rescue-over": "rescue/confirm",
    "rescue-slow": "rescue/confirm",
    "call-not-tried": "rescue/call",
}
"""What is cleared in the sheet that it is about."""


@pytest.mark.parametrize("code", sorted(STAGES))
def test_every_obstacle_counts_on_the_sheet_of_its_subject(code: str) -> None:
    if code in BY_PLACE:
        assert subject_of(code, BY_PLACE[code]) == sheet_of(BY_PLACE[code]) in SHEETS
    else:
        assert (subject_of(code, "elsewhere/at/all") == "review") == (code in ABOUT_THE_PERMIT)


def test_a_weak_isolation_is_cleared_in_the_register_and_open_on_isolation() -> None:
    assert subject_of("isolation-weak", "registers/space/evaluate/isolation/gate") == "isolation"
    assert subject_of("rescue-not-told", "registers/space/evaluate/told-hazards") == "rescue"
    assert subject_of("instrument-not-ready", "bench/07") == "instruments"


def doubted() -> Life:
    life = Life().ready()
    life.do("07", bump("hydrogen-sulfide"))
    return life


def test_points_with_one_reason_are_one_row_that_names_them_all() -> None:
    life = doubted()
    points = life.points()
    rows = [o for o in listed(life.found()) if o.code == "point-not-tested"]
    assert len(rows) == 1 and len(points) > 2
    assert rows[0].sentence.say() == (
        f"{', '.join(points[:-1])} and {points[-1]} m were read with Instrument 07, which failed its next bump test."
    )
    assert rows[0].clears.say() == f"Read at {points[0]} m."
    assert rows[0].target == f"air-test/point/{points[0]}"


def test_points_with_another_reason_keep_a_row_of_their_own() -> None:
    life = doubted().pass_time(3)
    life.read("3.6", hydrogen_sulfide="fault")
    words = [o.sentence.say() for o in listed(life.found()) if o.code == "point-not-tested"]
    assert len(words) == 2 and "3.6 m was read without Hydrogen sulfide." in words


def test_nothing_else_is_put_together() -> None:
    found = Life().describe().found()
    apart = [o for o in found if o.code not in ("point-not-tested", "reading-early")]
    assert [o for o in listed(found) if o.code not in ("point-not-tested", "reading-early")] == apart
    assert len({o.code for o in apart}) < len(apart), "several of one kind stand, and each keeps its row"
