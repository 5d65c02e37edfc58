"""One thing missing or wrong at a time: exactly its obstacle stands, and doing what it says clears it.

Clauses are those of 29 CFR 1910.146 unless said otherwise; 'site rule' and 'common practice' are the form's own.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from tests.permit.life import (
    KIT,
    MARA,
    NIA,
    OSKAR,
    TEO,
    ZONE,
    Life,
    bump,
    check,
    ink,
    instrument,
)

from lamproom.bench.events import Sensor
from lamproom.permit import events as e
from lamproom.permit import people
from lamproom.permit.cautions import cautions
from lamproom.permit.obstacles import STAGES, Stage
from lamproom.permit.obstacles.atmosphere import unseen
from lamproom.permit.space import Hazard

A, E, S = Stage.AUTHORISE, Stage.ENTER, Stage.STAY


def clock(hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 11, 17, hour, minute, tzinfo=ZONE).astimezone(UTC)


def without(*kinds: type, **fields: Any) -> Callable[[Life], None]:
    """The life as if nothing of these kinds (with these fields) had ever been told."""

    def act(life: Life) -> None:
        life.past = [
            h
            for h in life.past
            if not (isinstance(h.event, kinds) and all(getattr(h.event, k) == v for k, v in fields.items()))
        ]

    return act


def tell(*events: e.Event) -> Callable[[Life], None]:
    return lambda life: life.tell(*events, by=MARA) and None


def rescue(until: datetime, who: str = "duty officer") -> e.RescueConfirmed:
    return e.RescueConfirmed(answered_by=who, good_until=until, response_min="14")


def isolated(**changes: Any) -> e.PointIsolated:
    told = {"point": "pump-1", "lock": "14", "owner": TEO, "tried_dead": True, "verified_by": OSKAR}
    return e.PointIsolated.model_validate(told | changes)


def answered(item: str, answer: str, found: str = "seen") -> e.Answered:
    return e.Answered.model_validate({"item": item, "answer": answer, "found": found})


def sensor(life: Life, **changes: Any) -> None:
    """Assign an instrument whose oxygen sensor differs."""
    known = instrument("11")
    one: Sensor = known.sensors[0].model_copy(update=changes)
    told = known.model_copy(update={"sensors": (one, *known.sensors[1:])})
    life.tell(e.InstrumentAssigned(instrument="11", registered=told, duty="worn"))


def trained(life: Life, id: str, role: str, **changes: Any) -> None:
    person = life.people[id]
    others = tuple(t for t in person.trained if t.role != role)
    told = {"role": role, "trained_on": date(2026, 3, 3), "trainer": "D. Harrow"} | changes
    life.people[id] = replace(person, trained=(*others, people.PersonTrained.model_validate(told)))


def battery(life: Life, hours: str) -> None:
    """The instrument was checked again just now, and its battery says so much."""
    life.do("07", check(battery_h=hours))


SPOILED: dict[str, tuple[Callable[[Life], Any], set[str]]] = {
    # purpose and hours: (f)(2) and (f)(3)
    "no purpose": (without(e.WorkDescribed), {"purpose-missing"}),
    "a blank purpose": (tell(e.WorkDescribed(purpose="  ")), {"purpose-missing"}),
    "no hours": (without(e.HoursPlanned), {"hours-missing"}),
    "hours too long": (
        tell(e.HoursPlanned(begins=clock(8), ends=clock(20, 1)), rescue(clock(23))),
        {"hours-too-long", "battery-short"},
    ),
    "hours that end before they begin": (tell(e.HoursPlanned(begins=clock(12), ends=clock(11))), {"hours-too-long"}),
    "hours that are over": (tell(e.HoursPlanned(begins=clock(7), ends=clock(8))), {"hours-over"}),
    # what the form asks
    "an item open": (without(e.Answered, item="observed"), {"item-open"}),
    "an item with nothing found": (tell(answered("observed", "yes", " ")), {"item-open"}),
    "an item against": (tell(answered("observed", "no")), {"item-answered-against"}),
    "other work nearby": (tell(answered("other-work", "yes")), {"item-answered-against"}),
    "does not apply where it may not": (tell(answered("observed", "does not apply", "nobody came")), {"item-open"}),
    "does not apply without a reason": (tell(answered("retrieval", "does not apply", "")), {"item-open"}),
    "no line, and no team at the opening": (  # 1910.134(g)(3), 1910.146(k)(1)(ii), note
        tell(answered("retrieval", "does not apply", "it would snag")),
        {"item-open"},
    ),
    "no line, and a team that does not stand by": (
        tell(answered("retrieval", "does not apply", "it would snag"), answered("standby-team", "no", "on call")),
        {"item-answered-against"},
    ),
    "no line, and a team at the opening": (
        tell(answered("retrieval", "does not apply", "it would snag"), answered("standby-team", "yes", "L. Quist")),
        set(),
    ),
    "different today": (tell(answered("different-today", "yes", "a new pipe")), {"item-open"}),
    "different today, judged": (
        tell(answered("different-today", "yes", "a new pipe"), answered("difference-judged", "yes", "R. Ansgar")),
        set(),
    ),
    "different today, judged against": (
        tell(answered("different-today", "yes", "a new pipe"), answered("difference-judged", "no", "R. Ansgar")),
        {"item-answered-against"},
    ),
    # (d)(3): hazards and isolation; 1910.147(d)(6): tried
    "a hazard open": (without(e.HazardHeld, hazard="fall"), {"hazard-open"}),
    "a hazard held nobody knows how": (tell(e.HazardHeld(hazard="fall", held=True, how=" ")), {"hazard-not-held"}),
    "a hazard that does not apply, without a reason": (
        tell(e.HazardHeld(hazard="fall", held=False, how="")),
        {"hazard-not-held"},
    ),
    "a hazard that does not apply today": (tell(e.HazardHeld(hazard="fall", held=False, how="staged floor")), set()),
    "a hazard added": (tell(e.HazardAdded(hazard="added-1", name="Paint", shows="smell")), {"hazard-open"}),
    "a hazard added whose gas nothing sees": (
        tell(
            e.HazardAdded(hazard="added-1", name="Ammonia", shows="smell", gas="ammonia"),
            e.HazardHeld(hazard="added-1", held=True, how="blown out"),
        ),
        {"gas-unseen"},
    ),
    "a gas that does not apply today": (
        tell(
            e.HazardAdded(hazard="added-1", name="Ammonia", shows="smell", gas="ammonia"),
            e.HazardHeld(hazard="added-1", held=False, how="line blanked, none stored"),
        ),
        set(),
    ),
    "a point not isolated": (without(e.PointIsolated, point="pump-1"), {"isolation-open"}),
    "a point not tried": (tell(isolated(tried_dead=False)), {"isolation-not-dead"}),
    "a point nobody verified": (tell(isolated(verified_by=None)), {"isolation-one-person"}),
    "a point verified by a blank": (tell(isolated(verified_by="  ")), {"isolation-one-person"}),
    "a point whose owner verified it": (tell(isolated(verified_by=TEO)), {"isolation-one-person"}),
    "a lock without an owner": (tell(isolated(owner="")), {"isolation-one-person"}),
    "a guard that nobody described": (
        lambda life: (life.tell(e.SpaceOpened(guarded=" ")), life.read_all()),
        {"opening-not-stated"},
    ),
    "no fan where it is needed": (without(e.VentilationStarted), {"fan-missing"}),
    "an engine started": (
        lambda life: (life.tell(e.ConditionReported(condition="engine-started")), life.read_all()),
        {"condition"},
    ),
    "someone feels ill": (
        lambda life: (life.tell(e.ConditionReported(condition="symptoms")), life.read_all()),
        {"condition-stay"},
    ),
    # the air
    "no test through the lid": (without(e.ReadingsTaken, phase="through-lid"), {"lid-not-tested"}),
    "no test at one point": (without(e.ReadingsTaken, point_m="2.5"), {"point-not-tested"}),
    "no level": (without(e.LevelStated), {"level-missing"}),
    "no air left": (tell(e.LevelStated(depth_m="0", how="full")), {"no-air"}),
    # the instruments
    "no instrument to test with": (
        lambda life: life.tell(e.InstrumentReturned(instrument="07", why="done")),
        {"no-instrument"},
    ),
    "no monitor worn": (
        lambda life: life.tell(e.InstrumentReturned(instrument="11", why="done")),
        {"not-continuous"},
    ),
    "an instrument dropped": (
        lambda life: life.do("11", bump("oxygen")),
        {"instrument-not-ready", "not-continuous"},
    ),
    "a battery that ends too soon": (lambda life: battery(life, "2"), {"battery-short"}),
    "a battery that nobody believes": (lambda life: battery(life, "99999999999999"), set()),
    "an alarm set past the limit": (lambda life: sensor(life, alarm_low="19.0"), {"set-point-above"}),
    "an alarm missing on one side": (lambda life: sensor(life, alarm_high=None), {"set-point-above"}),
    "a sensor without any alarm": (lambda life: sensor(life, alarm_low=None, alarm_high=None), {"set-point-above"}),
    "alarms upside down": (lambda life: sensor(life, alarm_low="24", alarm_high="19"), {"set-point-above"}),
    "an alarm in another unit": (lambda life: sensor(life, unit="ppm"), {"set-point-above"}),
    "an alarm set earlier than the limit": (lambda life: sensor(life, alarm_low="20.0", alarm_high="22.5"), set()),
    # people: (f)(4) and (d)(6), training by (g), briefing by (h)(1) and (i)(1)
    "nobody to go in": (without(e.PersonNamed, part="entrant"), {"no-entrant"}),
    "nobody to watch": (without(e.PersonNamed, part="attendant"), {"no-attendant"}),
    "no supervisor": (without(e.PersonNamed, part="supervisor"), {"no-supervisor"}),
    "nobody briefed": (without(e.Briefed), {"not-briefed"}),
    "training that ended yesterday": (
        lambda life: trained(life, KIT, "entrant", good_until=date(2026, 11, 16)),
        {"not-trained"},
    ),
    "training through today": (lambda life: trained(life, KIT, "entrant", good_until=date(2026, 11, 17)), set()),
    "training tomorrow": (lambda life: trained(life, KIT, "entrant", trained_on=date(2026, 11, 18)), {"not-trained"}),
    "an attendant trained as entrant only": (
        lambda life: (
            life.tell(e.PersonNamed(person="P-06", part="attendant")),
            life.tell(e.Briefed(inks=(ink("P-06", 77),))),
        ),
        {"not-trained"},
    ),
    # rescue, by clause (j)(4): who comes, and was the call answered
    "rescue not asked": (without(e.RescueConfirmed), {"rescue-open"}),
    "rescue that leaves before the hours end": (tell(rescue(clock(15, 59))), {"rescue-open"}),
    "rescue to the end of the hours": (tell(rescue(clock(16))), set()),
    "rescue asked and nobody answered": (tell(rescue(clock(17), " ")), {"rescue-open"}),
    "rescue slower than it was judged": (
        tell(rescue(clock(16)).model_copy(update={"response_min": "14.5"})),
        {"rescue-slow"},
    ),
    "rescue sooner than it was judged": (tell(rescue(clock(16)).model_copy(update={"response_min": "9"})), set()),
    "a call not tried": (without(e.RescueCallTried), {"call-not-tried"}),
    "a call that nobody answered": (
        tell(e.RescueCallTried(means="radio channel 4", answered_by="", seconds="60")),
        {"call-not-tried"},
    ),
}


@pytest.mark.parametrize("what", SPOILED)
def test_one_thing_wrong_bars_authorizing_by_its_own_obstacle_alone(what: str) -> None:
    spoil, expected = SPOILED[what]
    life = Life().ready()
    assert life.codes(A) == set()
    spoil(life)
    assert life.codes(A) == expected, [o.sentence.say() for o in life.found()]


@pytest.mark.parametrize("what", [name for name, (_act, codes) in SPOILED.items() if codes])
def test_each_says_what_is_wrong_where_to_clear_it_and_by_which_rule(what: str) -> None:
    life = Life().ready()
    SPOILED[what][0](life)
    for one in life.found():
        assert one.sentence.say() and one.clears.say() and one.rule and "/" in one.target
        assert one.stages >= STAGES[one.code]


def test_rescue_that_can_no_longer_come_bars_the_next_person_in() -> None:
    life = Life().inside()
    until = clock(17)
    assert "rescue-over" not in life.codes(at=until - timedelta(seconds=1))
    assert "rescue-over" in life.codes(E, at=until)
    assert "rescue-over" not in life.codes(S, at=until)
    life.tell(e.ConditionReported(condition="rescue-withdrawn"))
    assert "condition-stay" in life.codes(S), "withdrawn is lost: everyone out"


def test_nobody_on_watch_calls_everyone_out() -> None:
    """29 CFR 1910.146(d)(6): at least one attendant outside for the duration of entry."""
    life = Life().ready()
    permit = life.permit
    assert permit.hours is not None
    life.tell(
        e.Authorised(begins=life.at, ends=permit.hours.ends, on_version=1, entrants=permit.entrants, ink=None), by=MARA
    )
    assert "nobody-on-watch" in life.codes(S)
    life.tell(e.WatchTaken(person=NIA), by=NIA)
    assert life.codes(S) == set()


def test_an_evaluation_past_its_review_date_bars_authorizing_and_calls_nobody_out() -> None:
    life = Life(review_by=date(2026, 11, 16)).ready()
    assert life.codes(A) == {"review-overdue"}
    assert Life(review_by=date(2026, 11, 17)).ready().codes(A) == set()


def test_a_space_that_is_no_permit_space_gets_no_permit() -> None:
    """29 CFR 1910.146(b): all three of the confined space, and at least one hazard."""
    life = Life().ready()
    first = life.past[0]
    assert isinstance(first.event, e.PermitOpened)
    registered = first.event.registered.model_copy(update={"limited_way": False})
    life.past[0] = replace(first, event=first.event.model_copy(update={"registered": registered}))
    assert life.codes(A) == {"not-permit-required"}


def test_a_standing_does_not_apply_holds_only_where_the_form_allows_it_and_with_a_reason() -> None:
    snag = {"retrieval": "the shaft is offset, a line would snag"}
    assert _asked(snag, "retrieval", answered("standby-team", "yes", "L. Quist")) == set()
    assert _asked(snag, "retrieval") == {"item-open"}, "no line where the air can go bad: a team stands by"
    assert _asked({"retrieval": "  "}, "retrieval") == {"item-open"}
    assert _asked({"observed": "nobody ever wants to"}, "observed") == {"item-open"}


def _asked(standing: dict[str, str], item: str, *told: e.Event) -> set[str]:
    life = Life(standing=standing).ready()
    without(e.Answered, item=item)(life)
    life.tell(*told, by=MARA)
    return life.codes(A)


def test_no_base_for_oxygen_bars() -> None:
    life = Life().describe().assign().pass_time(45)
    assert "base-missing" in life.codes(A)
    life.check_instruments()
    assert "base-missing" not in life.codes(A), "the set-up value of a checked instrument is a base"


def test_a_gas_that_is_seen_but_has_no_figure_on_the_form_bars() -> None:
    """Not found is a state of its own, never 'within limits'; methane and nitrogen have no exposure limit at all."""
    hazard = Hazard(id="vapor", name="Gasoline", shows="smell", control="blown out", gas="gasoline-vapor")
    life = Life(hazards=(hazard,)).ready()
    facts = life.facts()
    one = facts.permit.instruments["07"]
    sensor = one.registered.sensors[2].model_copy(update={"gas": "gasoline-vapor"})
    sees_it = one.registered.model_copy(update={"sensors": (*one.registered.sensors, sensor)})
    held = replace(facts.permit, instruments={**facts.permit.instruments, "07": replace(one, registered=sees_it)})
    assert {found.code for found in unseen(replace(facts, permit=held))} == {"limit-missing"}


def test_nitrogen_shows_as_missing_oxygen_and_to_no_other_sensor() -> None:
    """Nitrogen shows only as missing oxygen; 29 CFR 1910.146 Appendix B(1)."""
    hazard = Hazard(id="nitrogen", name="Nitrogen", shows="no sign", control="blanked", gas="nitrogen")
    life = Life(hazards=(hazard,)).ready()
    assert "gas-unseen" not in life.codes(A)
    facts = life.facts()
    one = facts.permit.instruments["07"]
    blind = one.registered.model_copy(update={"sensors": tuple(s for s in one.registered.sensors if s.gas != "oxygen")})
    held = replace(facts.permit, instruments={"07": replace(one, registered=blind)})
    assert {found.code for found in unseen(replace(facts, permit=held))} == {"gas-unseen"}


def test_readiness_that_ends_before_the_hours_is_a_caution_and_bars_nothing_yet() -> None:
    """What lapses by time bars the next person in when it lapses; it plans nothing away before."""
    life = Life().ready()
    life.tell(e.HoursPlanned(begins=clock(8), ends=clock(23)), by=MARA)
    assert "instrument-not-ready" not in life.codes(A)
    assert "long-hours" in {one.code for one in cautions(life.facts())}
    life.tell(e.HoursPlanned(begins=clock(20), ends=clock(20) + timedelta(hours=11)), by=MARA)
    assert "instrument-runs-out" in {one.code for one in cautions(life.facts())}


def test_newer_training_that_is_worse_does_not_undo_training_that_still_holds() -> None:
    life = Life().ready()
    person = life.people[KIT]
    worse = people.PersonTrained(
        role="entrant", trained_on=date(2025, 1, 1), trainer="D. Harrow", good_until=date(2025, 12, 31)
    )
    life.people[KIT] = replace(person, trained=(*person.trained, worse))
    assert life.codes(A) == set(), "an old certificate recorded late is no bar"


def test_one_who_left_is_not_trained() -> None:
    life = Life().ready()
    life.people[KIT] = replace(life.people[KIT], left=True)
    assert life.codes(A) == {"not-trained"}
