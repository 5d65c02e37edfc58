"""Each rule of routes, isolation kinds, rescue and neighbours: a permit refused by its code alone, and its twin that
passes. Clauses are those of 29 CFR 1910.146."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from typing import Any

import pytest
from tests.capable import CAPABLE
from tests.permit.life import MARA, NIA, OSKAR, TEO, ZONE, Life, altered, ink, space

from lamproom.permit import events as e
from lamproom.permit.facts import Facts, OtherPermit
from lamproom.permit.obstacles import Stage, barring, obstacles
from lamproom.permit.obstacles.rescue import year_after
from lamproom.permit.space import AlternateBasis, Hazard, IsolationPoint, RescuePlan

A, E, S = Stage.AUTHORISE, Stage.ENTER, Stage.STAY

AIR = Hazard(
    id="hydrogen-sulfide", name="Hydrogen sulfide", shows="smell", control="air blown in", gas="hydrogen-sulfide",
    sort="atmosphere",
)  # fmt: skip
INFLOW = Hazard(id="inflow", name="Water let in", shows="sound", control="watched", sort="engulfment")
FALL = Hazard(id="fall", name="Fall", shows="a ladder of 5 m", control="line", sort="fall")
DATA = AlternateBasis(
    monitoring="file 12, sheets 1 to 9",
    inspection="file 12, sheet 10",
    ventilation_alone=True,
    decided_by="R. Ansgar",
    decided_on=date(2026, 5, 4),
)


def clock(hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 11, 17, hour, minute, tzinfo=ZONE).astimezone(UTC)


def on(life: Life, route: e.Route, **registered: Any) -> Life:
    """The same permit opened on another route, in a space registered a little differently."""
    first = life.past[0]
    assert isinstance(first.event, e.PermitOpened)
    known = first.event.registered.model_copy(update=registered)
    life.past[0] = replace(first, event=first.event.model_copy(update={"route": route, "registered": known}))
    return life


def alternate(**changes: Any) -> Life:
    """A space whose only hazard is its air, entered by (c)(5)."""
    told: dict[str, Any] = {"hazards": (AIR,), "isolation": (), "unisolable": None, "alternate": DATA} | changes
    only_air = {"engulfment_possible": False, "trapping_shape": False, "other_hazard": False}
    return on(Life(**told), "alternate", **only_air).ready()


def reclassified(eliminated: bool = True, basis: str = "drained, blanked, inspected", **changes: Any) -> Life:
    """A space whose air cannot go bad and whose other hazards are gone, entered by (c)(7)."""
    told: dict[str, Any] = {"hazards": (FALL,), "ventilation_needed": False, "unisolable": None} | changes
    life = on(Life(**told), "reclassified", bad_air_possible=False).check_instruments().describe()
    life.pass_time(45).tell(e.SpaceOpened(guarded="rail on four sides"), by=MARA)
    for hazard in life.permit.opened.evaluated.hazards:
        life.tell(e.HazardHeld(hazard=hazard.id, held=True, how="gone", eliminated=eliminated), by=MARA)
    life.tell(e.BasisStated(basis=basis), by=MARA)
    return life


def plan(**changes: Any) -> RescuePlan:
    _registered, evaluated = space()
    known = evaluated.rescue.model_dump() | CAPABLE | changes
    return RescuePlan.model_validate(known)


OWN = {"team": "own", "practised_on": date(2026, 3, 2), "first_aid_until": date(2027, 3, 2)}


def point(held_as: Any) -> tuple[IsolationPoint, ...]:
    return (IsolationPoint(id="gate", name="Gate", holds="sewage", how="shut", held_as=held_as),)


def near(life: Life, *others: OtherPermit, at: datetime | None = None) -> Facts:
    return replace(life.facts(at), others=others)


def codes(facts: Facts, stage: Stage = A) -> set[str]:
    return {one.code for one in barring(facts, stage)}


@dataclass(frozen=True)
class Pair:
    """What spoils a permit and what mends it; both are made anew, so that neither can lean on the other."""

    code: str
    bad: Callable[[], Life]
    good: Callable[[], Life]


def rescued(**changes: Any) -> Callable[[], Life]:
    return lambda: Life(rescue=plan(**changes)).ready()


def fan(intake: str, noticed: str) -> Life:
    life = Life().ready()
    life.tell(e.VentilationStarted(flow_m3_h="680", intake=intake, stop_noticed_by=noticed), by=MARA)
    life.read(None, "duct", held=None)
    return life.pass_time(20).read_all()


def duct(by_duct: bool) -> Life:
    life = Life().ready()
    if not by_duct:
        life.past = [h for h in life.past if not (isinstance(h.event, e.ReadingsTaken) and h.event.phase == "duct")]
    return life


PAIRS = {
    "what the fan blows in was not read": Pair("duct-not-tested", lambda: duct(False), lambda: duct(True)),
    "where the fan draws is not said": Pair(
        "fan-not-described", lambda: fan(" ", "streamer"), lambda: fan("upwind", "streamer")
    ),
    "how a stop is noticed is not said": Pair(
        "fan-not-described", lambda: fan("upwind", ""), lambda: fan("upwind", "streamer")
    ),
    "one closed valve": Pair(
        "isolation-weak",
        lambda: Life(isolation=point("single-valve")).ready(),
        lambda: Life(isolation=point("double-block-and-bleed")).ready(),
    ),
    "a kind of isolation that nobody said": Pair(
        "isolation-weak",
        lambda: Life(isolation=point("not-said")).ready(),
        lambda: Life(isolation=point("blank")).ready(),
    ),
    "rescue that nobody judged": Pair("rescue-not-evaluated", rescued(evaluated_by=" "), rescued()),
    "rescue judged tomorrow": Pair(
        "rescue-not-evaluated", rescued(evaluated_on=date(2026, 11, 18)), rescued(evaluated_on=date(2026, 11, 17))
    ),
    "rescue of nobody knows whom": Pair("rescue-not-evaluated", rescued(team="not-said"), rescued()),
    "outside rescue not told": Pair("rescue-not-told", rescued(told_hazards=None), rescued()),
    "outside rescue without a way in": Pair("rescue-not-told", rescued(access_given=False), rescued()),
    "own team, practice too long ago": Pair(
        "rescue-practice-old",
        rescued(**OWN | {"practised_on": date(2025, 11, 15)}),
        rescued(**OWN | {"practised_on": date(2025, 11, 17)}),
    ),
    "own team, practice never": Pair("rescue-practice-old", rescued(**OWN | {"practised_on": None}), rescued(**OWN)),
    "own team, practice still to come": Pair(
        "rescue-practice-old", rescued(**OWN | {"practised_on": date(2026, 11, 18)}), rescued(**OWN)
    ),
    "own team, first aid over since yesterday": Pair(
        "rescue-no-first-aid",
        rescued(**OWN | {"first_aid_until": date(2026, 11, 16)}),
        rescued(**OWN | {"first_aid_until": date(2026, 11, 17)}),
    ),
    "deep, and no device": Pair("no-mechanical-device", rescued(mechanical=None), rescued(mechanical=True)),
    "alternate, and something besides the air": Pair(
        "alternate-other-hazard", lambda: alternate(hazards=(AIR, FALL)), alternate
    ),
    "alternate without data": Pair("alternate-no-data", lambda: alternate(alternate=None), alternate),
    "alternate with blank data": Pair(
        "alternate-no-data", lambda: alternate(alternate=DATA.model_copy(update={"inspection": " "})), alternate
    ),
    "alternate, not by air alone": Pair(
        "alternate-not-by-air-alone",
        lambda: alternate(alternate=DATA.model_copy(update={"ventilation_alone": False})),
        alternate,
    ),
    "alternate, decided tomorrow": Pair(
        "alternate-not-by-air-alone",
        lambda: alternate(alternate=DATA.model_copy(update={"decided_on": date(2026, 11, 18)})),
        alternate,
    ),
    "reclassified though held back only": Pair(
        "hazard-not-eliminated", lambda: reclassified(eliminated=False), reclassified
    ),
    "reclassified without a basis": Pair("basis-missing", lambda: reclassified(basis="  "), reclassified),
    "reclassified by blowing air in": Pair(
        "reclassified-by-fan", lambda: reclassified(ventilation_needed=True), reclassified
    ),
    "reclassified where the air can go bad": Pair(
        "reclassified-air",
        lambda: reclassified(hazards=(FALL, AIR.model_copy(update={"gas": None}))),
        reclassified,
    ),
}  # fmt: skip


@pytest.mark.parametrize("what", PAIRS)
def test_a_permit_is_refused_by_this_code_alone_and_its_twin_passes(what: str) -> None:
    pair = PAIRS[what]
    bad, good = pair.bad(), pair.good()
    assert bad.codes(A) == {pair.code}, [o.sentence.say() for o in bad.found()]
    assert good.codes(A) == set(), [o.sentence.say() for o in good.found()]


@pytest.mark.parametrize("what", PAIRS)
def test_each_says_what_is_wrong_by_which_rule_and_where_to_clear_it(what: str) -> None:
    one = next(one for one in PAIRS[what].bad().found() if one.code == PAIRS[what].code)
    assert one.sentence.say() and one.clears.say() and "1910.146" in one.rule and "/" in one.target


# The shorter routes: what they waive and what no route waives -------------------------------------------------------


def test_a_route_waives_rescue_and_attendant_and_never_training_or_a_reading_at_a_limit() -> None:
    life = alternate(rescue=plan(team="not-said", mechanical=None))
    life.past = [h for h in life.past if not isinstance(h.event, (e.RescueConfirmed, e.RescueCallTried))]
    assert life.codes(A) == set()
    life.people[TEO] = replace(life.people[TEO], trained=())
    assert life.codes(A) == {"not-trained"}
    life = alternate()
    life.read("3.6", hydrogen_sulfide="12")
    assert "reading-outside" in life.codes(A) & life.codes(S)


def test_the_alternate_procedures_ask_for_half_of_every_upper_figure_but_oxygens() -> None:
    """The agency's directive, as a state's copy reports it: half of what would be a hazardous atmosphere."""
    at_half, below, on_permit = alternate(), alternate(), Life().ready()
    at_half.read("3.6", hydrogen_sulfide="5")
    below.read("3.6", hydrogen_sulfide="4")
    on_permit.read("3.6", hydrogen_sulfide="5")
    assert "reading-outside" in at_half.codes(S)
    assert "reading-outside" not in below.codes() | on_permit.codes()
    assert "reading-outside" not in alternate().codes(), "oxygen keeps its band"


def test_half_limits_do_not_ask_for_alarms_set_at_half() -> None:
    assert "set-point-above" not in alternate().codes()


def test_a_gas_of_another_sort_is_of_the_air_and_an_unsaid_sort_is_not_taken_for_air() -> None:
    """What nobody sorted cannot open the shorter route: it counts against entry."""
    unsaid = Hazard(id="x", name="Something", shows="?", control="?")
    assert alternate(hazards=(AIR, unsaid)).codes(A) == {"alternate-other-hazard"}
    assert alternate(hazards=(AIR.model_copy(update={"sort": "not-said"}),)).codes(A) == set()


# Neighbours -----------------------------------------------------------------------------------------------------------

ELSEWHERE = OtherPermit("26-0002", "Wet well 3", near=False)


def test_an_attendant_who_watches_elsewhere_bars_and_one_who_is_free_clears_it() -> None:
    """(d)(6) and its note: more spaces only where the form allows them."""
    life = Life().authorised()
    busy = replace(ELSEWHERE, attendant=OSKAR)
    assert codes(near(life, busy), E) - life.codes(E) == {"attendant-elsewhere"}
    assert "attendant-elsewhere" not in codes(near(life, busy), S)
    assert "attendant-elsewhere" not in codes(near(life, replace(busy, attendant="P-09")), E)
    two = Life(form=altered("spaces_per_attendant = 1", "spaces_per_attendant = 2")).authorised()
    assert "attendant-elsewhere" not in codes(near(two, busy), E)


def test_before_the_watch_is_taken_one_free_attendant_is_enough() -> None:
    life = Life().ready()
    first, second = replace(ELSEWHERE, attendant=OSKAR), OtherPermit("26-0003", "Vault", near=False, attendant=NIA)
    assert codes(near(life, first)) == set()
    assert codes(near(life, first, second)) == {"attendant-elsewhere"}


def test_an_instrument_worn_elsewhere_bars_and_another_instrument_there_does_not() -> None:
    life = Life().ready()
    assert codes(near(life, replace(ELSEWHERE, worn=frozenset({"11"})))) == {"worn-elsewhere"}
    assert codes(near(life, replace(ELSEWHERE, worn=frozenset({"12"})))) == set()


def test_a_permit_near_by_is_agreed_with_and_one_far_off_is_nobodys_question() -> None:
    """(d)(11), (f)(15)."""
    life = Life().ready()
    beside = OtherPermit("26-0002", "Wet well 3", near=True)
    assert codes(near(life, beside)) == {"item-open"}
    assert codes(near(life, ELSEWHERE)) == set()
    life.tell(e.Answered(item="near-permits", answer="yes", found="with Oskar, by radio"), by=MARA)
    assert codes(near(life, beside)) == set()


def test_a_lock_taken_off_under_another_permit_is_isolation_lost_here() -> None:
    life = Life().inside()
    assert "isolation-lost" in codes(near(life, replace(ELSEWHERE, unlocked=frozenset({"14"}))), S)
    assert "isolation-lost" not in codes(near(life, replace(ELSEWHERE, unlocked=frozenset({"99"}))), S)


# After signing --------------------------------------------------------------------------------------------------------


def test_isolation_taken_off_with_people_inside_calls_everyone_out_and_after_the_end_bars_nothing() -> None:
    life = Life().inside()
    life.tell(e.PointReleased(point="pump-1", why="needed"), by=MARA)
    stop = life.permit.stop
    assert "isolation-lost" in life.codes(S) and stop is not None and stop.cause == "isolation-released"
    done = Life().inside()
    done.tell(e.WentOut(person=TEO))
    done.tell(e.Ended(cause="work-complete", reason="", ink=None), by=MARA)
    done.tell(e.PointReleased(point="pump-1", why="work done"), by=MARA)
    assert "isolation-lost" not in done.codes() and done.permit.stop is None


def test_isolation_put_back_before_signing_clears_it() -> None:
    life = Life().ready()
    life.tell(e.PointReleased(point="pump-1", why="tried the pump"), by=MARA)
    assert life.codes(A) == {"isolation-lost", "isolation-open"}
    life.tell(e.PointIsolated(point="pump-1", lock="14", owner=TEO, tried_dead=True, verified_by=OSKAR), by=MARA)
    assert life.codes(A) == set()


def test_what_only_a_new_permit_may_change_bars_the_next_person_in() -> None:
    life = Life().inside()
    assert "changed-after-signing" not in life.codes()
    life.tell(e.WorkDescribed(purpose="Weld a bracket"), by=MARA)
    assert "changed-after-signing" in life.codes(E)
    assert "changed-after-signing" not in life.codes(S) | life.codes(A)


def extended(life: Life, hour: int) -> Life:
    life.tell(e.Extended(ends=clock(hour), reason="bolts seized", ink=ink(MARA, 5)), by=MARA)
    return life


def test_hours_are_made_longer_before_their_end_and_neither_after_it_nor_shorter() -> None:
    assert extended(Life().inside(), 18).permit.until == clock(18)
    assert extended(Life().inside(), 12).permit.until == clock(16)
    late = Life().inside()
    late.until(16, 1)
    assert extended(late, 18).permit.until == clock(16), "an end that has passed is not moved"
    kept = Life(form=altered("extend = true", "extend = false")).inside()
    assert extended(kept, 18).permit.until == clock(16), "a form that allows none"


def test_a_new_step_of_the_work_asks_for_the_air_anew() -> None:
    life = Life().inside()
    assert "point-not-tested" not in life.codes(E)
    life.tell(e.WorkStepChanged(step="lifting the pump"), by=MARA)
    assert {"point-not-tested"} <= life.codes(E)


# What the form asks only where a fact makes it matter -----------------------------------------------------------------

DUST = Hazard(id="dust", name="Dust", shows="haze", control="wetted", sort="dust")
HOT = Hazard(id="hot", name="Hot work", shows="sparks", control="watch", sort="hot-work")
ASKED = {
    "hot work": ({"hazards": (AIR, INFLOW, HOT)},
                 {"hot-work-permit", "fire-watch", "cylinders-outside"}),
    "dust": ({"hazards": (AIR, INFLOW, FALL, DUST)}, {"dust-clear"}),
    "neither": ({"hazards": (AIR, INFLOW, FALL)}, set()),
}  # fmt: skip


@pytest.mark.parametrize("what", ASKED)
def test_items_about_a_hazard_are_asked_where_it_is_and_nowhere_else(what: str) -> None:
    evaluated, items = ASKED[what]
    life = Life(**evaluated).ready()
    assert {o.found.subject for o in obstacles(life.facts()) if o.code == "item-open"} == items
    for item in items:
        life.tell(e.Answered(item=item, answer="yes", found="seen"), by=MARA)
    assert life.codes(A) == set()


def test_someone_elses_people_make_host_and_contractor_tell_each_other() -> None:
    """(c)(8), (c)(9)."""
    life = Life().ready()
    life.people[TEO] = replace(life.people[TEO], employer="contractor")
    assert life.codes(A) == {"item-open"}
    life.tell(e.Answered(item="contractor-exchange", answer="yes", found="both foremen, 07:10"), by=MARA)
    assert life.codes(A) == set()


@pytest.mark.parametrize(
    ("practised", "last"),
    [
        (date(2026, 5, 4), date(2027, 5, 4)),
        (date(2027, 5, 4), date(2028, 5, 4)),
        (date(2028, 2, 29), date(2029, 2, 28)),
    ],
)
def test_practice_is_good_for_twelve_months_to_the_day(practised: date, last: date) -> None:
    """29 CFR 1910.146(k)(2)(iv): at least once every 12 months; a leap year adds no day."""
    assert year_after(practised) == last


def test_one_point_typed_in_two_ways_is_one_point() -> None:
    """A set told again for 3.60 m while it was read at 3.6 m is no probe at two points."""
    life = Life().ready()
    last = life.permit.sets[-1].event
    again = str(last.point_m) + "0"
    life.read(again, "ventilating", taken=last.taken)
    assert "point-not-tested" not in life.codes(A)
