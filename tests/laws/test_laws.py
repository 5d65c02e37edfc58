"""Laws that hold for every life of a permit, not only for those that someone thought of.

Lives are the demo's ordinary day and prefixes of it, with happenings taken away and put in at random.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.permit.life import GOOD, KIT, LENA, MARA, NIA, OSKAR, TEO, Life, bump, calibration, check, figures
from tests.permit.life import space as of_register

from lamproom.bench import events as b
from lamproom.bench import state as bench
from lamproom.bench.happening import Event, Happening
from lamproom.permit import events as e
from lamproom.permit import people, site, space
from lamproom.permit import state as permit_state
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles import STAGES, Stage, barring, obstacles
from lamproom.permit.tally import Tally

STEP = 10
"""Versions and numbers of a life lie this far apart, so that a happening can be put in between."""


def spaced(past: list[Happening]) -> list[Happening]:
    return [replace(h, version=h.version * STEP, number=h.number * STEP) for h in past]


class Story:
    """A life as lists that can be cut and added to, and the facts they make."""

    def __init__(self, life: Life) -> None:
        self.life = life
        self.permit = spaced(life.past)
        self.benches = {id: spaced(past) for id, past in life.benches.items()}

    def facts(self, permit: list[Happening], benches: dict[str, list[Happening]], at: datetime) -> Facts:
        state = permit_state.fold(permit)
        known = {id: bench.fold(past, bench.Instrument(id)) for id, past in benches.items()}
        return Facts(
            permit=state,
            instruments={id: known.get(id, bench.Instrument(id)) for id in state.instruments},
            people=self.life.people,
            at=at,
        )


@cache
def day() -> Story:
    """Prepared, authorized, worked, a break, back, a slip of the stop key, worked again."""
    life = Life().inside(TEO, KIT)
    life.pass_time(10)
    life.tell(e.ContactMade())
    life.pass_time(4).read("3.6", "work", held=None)
    life.tell(e.WentOut(person=TEO), e.WentOut(person=KIT))
    life.tell(e.BreakBegun(guarded="rail", left="fan runs", torches_out=True))
    life.pass_time(15)
    life.tell(e.BreakEnded(isolation_found="as left"))
    life.read_all("after-break")
    life.tell(e.Reendorsed(after="break"), by=MARA)
    life.tell(e.WentIn(person=TEO))
    life.tell(e.ConditionReported(condition="engine-started"))
    life.pass_time(1).tell(e.ConditionCleared(condition="engine-started", found="stopped"))
    life.pass_time(2).read("3.6", "work", held=None)
    life.tell(e.StopOrdered(cause="pressed"))
    life.tell(e.WentOut(person=TEO))
    life.tell(e.StopDetermined(finding="none-arose", reason="a slip"), by=MARA)
    life.read_all("after-break")
    life.tell(e.Reendorsed(after="stop"), by=MARA)
    life.read("3.6", "work", held=None)
    life.tell(e.WentIn(person=KIT))
    life.pass_time(14).read("3.6", "work", held=None)
    return Story(life)


def test_the_story_that_the_laws_are_tried_on_is_a_good_one() -> None:
    story = day()
    assert obstacles(story.facts(story.permit, story.benches, story.permit[-1].at)) == ()


def is_favourable(happening: Happening, stage: Stage) -> bool:
    """Does it only ever speak for entry? A statement that takes the place of an earlier one does not belong here."""
    event = happening.event
    if isinstance(event, e.BreakEnded):
        return stage is not Stage.AUTHORISE  # to an authorized permit that stage means nothing
    match event:
        case e.ReadingsTaken():
            return event.phase != "upwind" and {f.gas: f.figure for f in event.figures} == GOOD
        case b.BumpTested() | b.CheckedBeforeUse():
            return True  # all of the story passed
        case b.Calibrated():
            return event.passed
        case e.HoseTested():
            return event.stopped_s is not None
    return isinstance(
        event,
        e.Authorised
        | e.Reendorsed
        | e.Briefed
        | e.RescueCallTried
        | e.ConditionCleared
        | e.StopDetermined
        | e.WatchTaken,
    )


ADVERSE: dict[str, Callable[[datetime], Event]] = {
    "stop": lambda at: e.StopOrdered(cause="pressed"),
    "fan stopped": lambda at: e.VentilationStopped(why="fuel"),
    "break": lambda at: e.BreakBegun(guarded="rail", left="fan runs", torches_out=True),
    "ended": lambda at: e.Ended(cause="work-complete"),
    "condition": lambda at: e.ConditionReported(condition="water-rising"),
    "unknown condition": lambda at: e.ConditionReported(condition="bees"),
    "someone in": lambda at: e.SomeoneWentIn(label="unknown 9"),
    "instrument failed": lambda at: e.InstrumentReturned(instrument="07", why="failed"),
    "monitor failed": lambda at: e.InstrumentReturned(instrument="11", why="failed"),
    "hose leaks": lambda at: e.HoseTested(instrument="07", stopped_s=None),
    "outside": lambda at: taken(at, "3.6", "work", None, oxygen="19.4"),
    "outside, early": lambda at: taken(at, "3.60", "ventilating", 5, hydrogen_sulfide="20"),
    "outside, by nobody known": lambda at: taken(at, "1.4", "open", None, "99", carbon_monoxide="80"),
    "over range": lambda at: taken(at, "4.8", "after-break", 90, flammable="over-range"),
    "good, early": lambda at: taken(at, "3.6", "ventilating", 5),
    "good, by nobody known": lambda at: taken(at, "3.6", "ventilating", 90, "99"),
    "half a set": lambda at: taken(at, "3.6", "after-break", 90, oxygen="not-measured"),
    "fault": lambda at: taken(at, "3.6", "after-break", 90, hydrogen_sulfide="fault"),
    "unexplained": lambda at: taken(at, "2.5", "ventilating", 90, oxygen="20.0"),
    "low base": lambda at: taken(at, None, "upwind", None, "99", oxygen="19.0"),
}

ADVERSE_BENCH: dict[str, Callable[[], Event]] = {
    "bump failed": lambda: bump("oxygen"),
    "dropped": lambda: b.TestVoided(cause="dropped"),
    "out of service": lambda: b.TakenOutOfService(reason="wet"),
    "calibration failed": lambda: calibration(passed=False),
    "check failed": lambda: check(alarm_heard=False),
}


def taken(
    at: datetime, point: str | None, phase: e.Phase, held: float | None, instrument: str = "07", **changes: str | None
) -> e.ReadingsTaken:
    return e.ReadingsTaken(
        phase=phase,
        point_m=point,
        instrument=instrument,
        lowered=None if held is None else at - timedelta(seconds=held),
        taken=at,
        figures=figures(**changes),
    )


def put_in(past: list[Happening], where: int, event: Event, by: str | None = OSKAR) -> list[Happening]:
    """The life with one more happening right after the one at ``where``, at the same moment."""
    before = past[where]
    more = replace(before, version=before.version + 1, number=before.number + 1, event=event, by=by, act="added")
    return [*past[: where + 1], more, *past[where + 1 :]]


STAGE = st.sampled_from(list(Stage))
MINUTES = st.sampled_from([0, 1, 5, 14, 16, 18, 29, 31, 61, 200, 600, 1500])


@given(cut=st.integers(1, 500), remove=st.sets(st.integers(0, 500), min_size=1, max_size=4), stage=STAGE, later=MINUTES)
def test_taking_away_what_speaks_for_entry_never_allows_what_was_barred(
    cut: int, remove: set[int], stage: Stage, later: int
) -> None:
    story = day()
    permit = story.permit[: 1 + cut % len(story.permit)]
    at = permit[-1].at + timedelta(minutes=later)
    before = barring(story.facts(permit, story.benches, at), stage)
    assume(before)
    everything = [*permit, *(h for past in story.benches.values() for h in past)]
    good = [h for h in everything if is_favourable(h, stage)]
    assume(good)
    gone = {id(good[i % len(good)]) for i in remove}
    less = [h for h in permit if id(h) not in gone]
    benches = {name: [h for h in past if id(h) not in gone] for name, past in story.benches.items()}
    assert barring(story.facts(less, benches, at), stage), sorted({o.code for o in before})


@given(
    cut=st.integers(1, 500),
    where=st.integers(0, 500),
    what=st.sampled_from(sorted(ADVERSE)),
    stage=STAGE,
    later=MINUTES,
)
def test_adding_what_speaks_against_entry_never_allows_what_was_barred(
    cut: int, where: int, what: str, stage: Stage, later: int
) -> None:
    story = day()
    permit = story.permit[: 1 + cut % len(story.permit)]
    at = permit[-1].at + timedelta(minutes=later)
    before = barring(story.facts(permit, story.benches, at), stage)
    place = where % len(permit)
    more = put_in(permit, place, ADVERSE[what](permit[place].at))
    after = barring(story.facts(more, story.benches, at), stage)
    assert after or not before, sorted({o.code for o in before})


@given(
    cut=st.integers(1, 500),
    where=st.integers(0, 500),
    what=st.sampled_from(sorted(ADVERSE_BENCH)),
    instrument=st.sampled_from(["07", "11"]),
    void=st.booleans(),
    stage=STAGE,
    later=MINUTES,
)
def test_adding_a_failure_at_the_bench_never_allows_what_was_barred(
    cut: int, where: int, what: str, instrument: str, void: bool, stage: Stage, later: int
) -> None:
    story = day()
    permit = story.permit[: 1 + cut % len(story.permit)]
    at = permit[-1].at + timedelta(minutes=later)
    before = barring(story.facts(permit, story.benches, at), stage)
    past = story.benches[instrument]
    more = put_in(past, where % len(past), ADVERSE_BENCH[what](), NIA)
    more = [replace(h, void=void) if h.act == "added" else h for h in more]
    after = barring(story.facts(permit, {**story.benches, instrument: more}, at), stage)
    assert after or not before, sorted({o.code for o in before})


CLOCK_CLEARS = {"not-begun"}
"""The only code that time alone may clear: all others wait for an act of someone."""


@given(cut=st.integers(1, 500), start=MINUTES, then=MINUTES)
def test_time_alone_clears_nothing_but_the_wait_for_the_hours_to_begin(cut: int, start: int, then: int) -> None:
    story = day()
    permit = story.permit[: 1 + cut % len(story.permit)]
    at = permit[-1].at + timedelta(minutes=start)
    before = {(o.code, o.found.subject) for o in obstacles(story.facts(permit, story.benches, at))}
    after = {
        (o.code, o.found.subject) for o in obstacles(story.facts(permit, story.benches, at + timedelta(minutes=then)))
    }
    gone = {code for code, _subject in before - after}
    replaced = {
        "retest-late": "retest-overdue",
        "instrument-runs-out": "instrument-not-ready",
        "rescue-open": "rescue-over",
    }
    codes = {code for code, _subject in after}
    assert {code for code in gone if replaced.get(code) not in codes} <= CLOCK_CLEARS


@given(cut=st.integers(1, 500), where=st.integers(0, 500), what=st.sampled_from(sorted(ADVERSE)), later=MINUTES)
def test_every_obstacle_has_a_row_and_all_it_says_can_be_said(cut: int, where: int, what: str, later: int) -> None:
    story = day()
    permit = story.permit[: 1 + cut % len(story.permit)]
    permit = put_in(permit, where % len(permit), ADVERSE[what](permit[where % len(permit)].at))
    for one in obstacles(story.facts(permit, story.benches, permit[-1].at + timedelta(minutes=later))):
        assert one.code in STAGES
        for words in (one.sentence.say(), one.clears.say(), one.rule, one.target):
            assert words and "{" not in words


# The fold --------------------------------------------------------------------------------------------------------


@given(cut=st.integers(1, 500), adverse=st.lists(st.tuples(st.integers(0, 500), st.sampled_from(sorted(ADVERSE)))))
def test_a_permit_folded_in_two_parts_is_the_permit_folded_at_once(cut: int, adverse: list[tuple[int, str]]) -> None:
    past = day().permit
    for where, what in adverse[:3]:
        place = where % len(past)
        past = put_in(past, place, ADVERSE[what](past[place].at))
    at = 1 + cut % (len(past) - 1) if len(past) > 1 else 1
    assert permit_state.fold(past[at:], permit_state.fold(past[:at])) == permit_state.fold(past)


@given(
    what=st.lists(st.sampled_from([*sorted(ADVERSE_BENCH), "bump", "check", "calibration"]), max_size=12),
    cut=st.integers(0, 12),
    void=st.sets(st.integers(0, 12)),
)
def test_an_instrument_folded_in_two_parts_is_the_instrument_folded_at_once(
    what: list[str], cut: int, void: set[int]
) -> None:
    good: dict[str, Callable[[], Event]] = {"bump": bump, "check": check, "calibration": calibration}
    at = datetime(2026, 11, 17, 12, tzinfo=UTC)
    past = [
        Happening("instrument/07", i + 1, {**ADVERSE_BENCH, **good}[w](), at, NIA, number=i + 1, void=i in void)
        for i, w in enumerate(what)
    ]
    start = bench.Instrument("07")
    assert bench.fold(past[cut:], bench.fold(past[:cut], start)) == bench.fold(past, start)


def _told(stream: str, events: list[Event]) -> list[Happening]:
    at = datetime(2026, 11, 17, 12, tzinfo=UTC)
    return [Happening(stream, i + 1, event, at, MARA, number=i + 1) for i, event in enumerate(events)]


REGISTERED, EVALUATED = of_register()
OTHERS: dict[str, tuple[Any, Any, list[Event]]] = {
    "person": (
        people.fold,
        people.Person("P-09"),
        [
            people.PersonRegistered(roles=("entrant",)),
            people.PersonTrained(role="entrant", trained_on=datetime(2026, 1, 1, tzinfo=UTC).date(), trainer="D"),
            people.CodeFailed(tries_left=9),
            people.PersonLeft(),
        ],
    ),
    "space": (space.fold, space.Space("S-01"), [REGISTERED, EVALUATED, space.SpaceRetired(reason="filled")]),
    "site": (
        site.fold,
        site.Site(),
        [
            site.SiteBegun(name="A", zone="UTC", authority="0", founder="P-01"),
            site.FiguresConfirmed(form_sha256="0", form_title="a", against="b"),
            site.ClockDeclaredWrong(first=1, last=2, second_person="P-02", watch_says=datetime(2026, 1, 1, tzinfo=UTC)),
        ],
    ),
}


@pytest.mark.parametrize("of", OTHERS)
@given(order=st.lists(st.integers(0, 3), max_size=8), cut=st.integers(0, 8))
def test_person_space_and_site_folded_in_two_parts_are_the_same(of: str, order: list[int], cut: int) -> None:
    fold, start, events = OTHERS[of]
    past = _told(of, [events[i % len(events)] for i in order])
    assert fold(past[cut:], fold(past[:cut], start)) == fold(past, start)


# The tally -------------------------------------------------------------------------------------------------------

WHO = st.sampled_from([TEO, KIT, LENA, "unknown 1", "unknown 2"])


@given(moves=st.lists(st.tuples(st.sampled_from(["in", "out", "someone"]), WHO), max_size=40))
def test_count_and_list_of_those_inside_agree_with_a_plain_set(moves: list[tuple[str, str]]) -> None:
    tally, inside, at = Tally(), set[str](), datetime(2026, 11, 17, 12, tzinfo=UTC)
    for move, who in moves:
        at += timedelta(seconds=30)
        if move == "out":
            tally, _ = tally.went_out(who, at), inside.discard(who)
        else:
            tally, _ = (tally.someone_in if move == "someone" else tally.went_in)(who, at), inside.add(who)
        assert len(tally.inside) == len(inside)
        assert {trip.who for trip in tally.inside} == inside
        assert all(tally.is_inside(one) for one in inside)
        assert (tally.inside_since() is None) == (not inside)
        assert all(trip.went_out is None or trip.went_out >= trip.came_in for trip in tally.trips)
