"""The state of a permit: the fold of its events. It says what is recorded; what that allows is computed above."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from lamproom.air.flammable import vol_to_percent_lel, vol_to_ppm
from lamproom.air.limits import Standing, judge
from lamproom.bench.events import InstrumentRegistered
from lamproom.bench.happening import Event, Happening
from lamproom.permit import events as e
from lamproom.permit.form import Form, LimitLine
from lamproom.permit.gas_limits import form_for, gases_of
from lamproom.permit.space import HazardKind
from lamproom.permit.tally import Tally

OUTSIDE: frozenset[str] = frozenset({"upwind", "through-lid", "duct"})
"""Phases whose readings are not of the air among those inside."""

SOON = timedelta(minutes=1)
"""A reading may lie this far ahead of the clock: watches differ. Further ahead, its time is wrong."""


@dataclass(frozen=True, slots=True)
class Made:
    """An event with who made it, when, and its version in the stream."""

    event: Event
    at: datetime
    by: str | None
    version: int


@dataclass(frozen=True, slots=True)
class Correction:
    """A figure put right: both figures stay."""

    event: e.ReadingCorrected
    at: datetime
    by: str | None
    version: int


@dataclass(frozen=True, slots=True)
class ReadingSet:
    """One set of readings with its corrections. ``figures`` are those that hold now."""

    version: int
    number: int
    event: e.ReadingsTaken
    at: datetime
    by: str | None
    unconfirmed: bool
    void: bool
    figures: tuple[e.Figure, ...]
    inside: int
    corrections: tuple[Correction, ...] = ()
    assigned: Assigned | None = None
    """The instrument as it served the permit when the set was taken: a hose changed later changes no wait kept then."""
    hose_leaked: bool = False
    """The next leak test of that hose failed: what was drawn through it may have been the portal's air."""

    def figure(self, gas: str) -> e.Figure | None:
        return next((figure for figure in self.figures if figure.gas == gas), None)


@dataclass(frozen=True, slots=True)
class Assigned:
    """An instrument on this permit: as registered then, its duty, its hose, and the hose's leak test."""

    instrument: str
    registered: InstrumentRegistered
    duty: str
    hose_m: str | None
    at: datetime
    version: int
    hose_tested: Made | None = None
    returned: Made | None = None


@dataclass(frozen=True, slots=True)
class Stop:
    """A latched stop: why, since when, and (for a reading) which set. Only a determination lifts it."""

    cause: str
    at: datetime
    version: int
    set_version: int | None = None
    by: str | None = None
    determined: Made | None = None


@dataclass(frozen=True, slots=True)
class Pause:
    """A break: begun, and ended when they came back."""

    begun: Made
    ended: Made | None = None


@dataclass(frozen=True, slots=True)
class Duty:
    """Someone's time in a part (attendant on watch, supervisor)."""

    person: str
    since: datetime
    until: datetime | None = None


@dataclass(frozen=True, slots=True)
class Permit:
    """Everything the record says of one permit. ``known_at`` is when the newest set was taken that may keep the air
    known. ``counts_from`` is the version of the last event that changed the air:
    only readings after it count for entry. ``counts_since`` is when it was recorded (None: never, or at a time declared
    wrong): a reading taken earlier and typed later does not count either."""

    number: str
    opened: e.PermitOpened
    form: Form
    opened_at: datetime
    opened_by: str | None
    purpose: str | None = None
    hours: e.HoursPlanned | None = None
    answers: Mapping[str, Made] = field(default_factory=dict)
    held: Mapping[str, Made] = field(default_factory=dict)
    added: tuple[e.HazardAdded, ...] = ()
    isolated: Mapping[str, Made] = field(default_factory=dict)
    level: Made | None = None
    open_since: Made | None = None
    fan: Made | None = None
    fan_stopped: Made | None = None
    instruments: Mapping[str, Assigned] = field(default_factory=dict)
    sets: tuple[ReadingSet, ...] = ()
    peaks: Mapping[str, Decimal] = field(default_factory=dict)
    """The highest figure ever noted of each gas, in ppm, also before it had a limit; a correction never lowers it."""
    known_at: datetime | None = None
    counts_from: int = 0
    counts_since: datetime | None = None
    entrants: tuple[str, ...] = ()
    attendants: tuple[str, ...] = ()
    supervisor: str | None = None
    rescue: Made | None = None
    call_tried: Made | None = None
    briefed: Mapping[str, Made] = field(default_factory=dict)
    authorised: Made | None = None
    extended: tuple[Made, ...] = ()
    """Each time the hours were made longer; the last one says until when."""
    amended: tuple[Made, ...] = ()
    released: tuple[Made, ...] = ()
    """Isolation points whose locks came off, in order."""
    unlocked: tuple[Made, ...] = ()
    """How those points were held until then."""
    basis: Made | None = None
    changed: tuple[Made, ...] = ()
    """What was changed after the signature that only a new permit may change."""
    watch: tuple[Duty, ...] = ()
    supervisors: tuple[Duty, ...] = ()
    tally: Tally = Tally()
    conditions: Mapping[str, Made] = field(default_factory=dict)
    pauses: tuple[Pause, ...] = ()
    stops: tuple[Stop, ...] = ()
    awaits: str | None = None
    contact: Made | None = None
    ended: Made | None = None
    closed_out: Made | None = None
    notes: tuple[Made, ...] = ()
    pages: tuple[Made, ...] = ()
    signed: tuple[Made, ...] = ()
    version: int = 0

    @property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(self.opened.zone)

    @property
    def stop(self) -> Stop | None:
        """The stop that stands now, None when none was ordered or the last one was determined."""
        return self.stops[-1] if self.stops and self.stops[-1].determined is None else None

    @property
    def pause(self) -> Pause | None:
        """The break that is on now."""
        return self.pauses[-1] if self.pauses and self.pauses[-1].ended is None else None

    @property
    def attendant(self) -> str | None:
        """Who stands watch now."""
        return self.watch[-1].person if self.watch and self.watch[-1].until is None else None

    @property
    def running(self) -> bool:
        """Authorised and not ended: the permit's hours are another matter, told by the clock."""
        return self.authorised is not None and self.ended is None

    @property
    def until(self) -> datetime | None:
        """When the authorised hours end."""
        if self.extended and isinstance(self.extended[-1].event, e.Extended):
            return self.extended[-1].event.ends
        if self.authorised is None or not isinstance(self.authorised.event, e.Authorised):
            return None
        return self.authorised.event.ends

    def assigned(self, duty: str) -> tuple[Assigned, ...]:
        """The instruments that serve this permit now in a duty."""
        return tuple(a for a in self.instruments.values() if a.duty == duty and a.returned is None)

    @property
    def route(self) -> e.Route:
        """The lawful way in that this record follows."""
        return self.opened.route

    def sorts(self) -> Mapping[str, tuple[HazardKind, str | None]]:
        """Of each hazard by id, evaluated or added: its sort and its gas."""
        known: dict[str, tuple[HazardKind, str | None]] = {h.id: (h.sort, h.gas) for h in self.opened.evaluated.hazards}
        return {**known, **{h.hazard: (h.sort, h.gas) for h in self.added}}

    def hazards(self) -> tuple[tuple[str, str, str, str | None], ...]:
        """Id, name, how it shows, gas: those of the evaluation, then those added today."""
        known = tuple((h.id, h.name, h.shows, h.gas) for h in self.opened.evaluated.hazards)
        return known + tuple((h.hazard, h.name, h.shows, h.gas) for h in self.added)


def outside(form: Form, figures: Iterable[e.Figure]) -> tuple[e.Figure, ...]:
    """The figures at or past their limit. Over range counts as outside; a gas without a limit is judged elsewhere."""
    bad = []
    for figure in figures:
        line = form.limit(figure.gas)
        if figure.state == "over-range":
            bad.append(figure)
        elif line is not None and figure.figure is not None:
            value = in_unit(figure, line)
            if value is not None and judge(line.limit(), value) is Standing.OUTSIDE:
                bad.append(figure)
    return tuple(bad)


def whole(form: Form, figures: Iterable[e.Figure]) -> bool:
    """Do the figures hold one that was measured for every gas that the form limits, in the form's unit?

    A figure that is missing, in another unit or below zero says nothing about the air.
    """
    known = {figure.gas: figure for figure in figures}
    for line in form.limits:
        figure = known.get(line.gas)
        if figure is None or figure.state != "measured" or figure.figure is None or Decimal(figure.figure) < 0:
            return False
        if in_unit(figure, line) is None or (line.gas in NEEDED_BY_ALL and figure.unit != line.unit):
            return False
    return True


NEEDED_BY_ALL = ("oxygen", "flammable")
"""What the rule tests by name is told in the form's own unit, so that nobody reads one share for another."""


def in_unit(figure: e.Figure, line: LimitLine) -> Decimal | None:
    """A measured figure in the unit of its limit; None where its unit cannot be told in that one."""
    if figure.figure is None:
        return None
    value = Decimal(figure.figure)
    if figure.unit == line.unit:
        return value
    if (figure.unit, line.unit) == ("% vol", "ppm"):
        return vol_to_ppm(value)
    if (figure.unit, line.unit) == ("% vol", "% LEL") and line.lel_vol is not None:
        return vol_to_percent_lel(value, Decimal(line.lel_vol))
    return None


def begin(happening: Happening) -> Permit:
    """The state after the first event of a permit's stream, which is always its opening."""
    event = happening.event
    if not isinstance(event, e.PermitOpened):
        raise ValueError(f"a permit's stream begins with its opening, not with {event.kind}")
    form = form_for(event.form, event.route, frozenset())
    return Permit(event.number, event, form, happening.at, happening.by, version=happening.version)


def _with_limits(state: Permit) -> Permit:
    """Hazards or instruments changed: a gas that a hazard names and an instrument shows has a limit, also where the
    form has none, and every set must hold it."""
    gone = frozenset(
        id for id, made in state.held.items() if isinstance(made.event, e.HazardHeld) and not made.event.held
    )
    here = (one for one in state.instruments.values() if one.returned is None)
    seen = {sensor.gas for one in here for sensor in one.registered.sensors}
    form = form_for(state.opened.form, state.route, gases_of(state.hazards(), gone) & seen)
    return state if form is state.form else replace(state, form=form)


def fold(happenings: Iterable[Happening], start: Permit | None = None) -> Permit:
    """The state after all of these happenings: fold(a + b) is fold(b, fold(a)). At least the opening is needed."""
    state = start
    for happening in happenings:
        state = begin(happening) if state is None else apply(state, happening)
    if state is None:
        raise ValueError("a permit without events")
    return state


def overdue_bound(state: Permit) -> datetime | None:
    """When, with people inside and no further set, everyone must come out: the last set plus the form's bound."""
    if not state.running or not state.tally.inside or state.route == "reclassified":
        return None  # a reclassified space is no longer one whose air can go bad: 29 CFR 1910.146(c)(7)
    if state.known_at is None:
        return state.tally.inside_since()
    retest = state.form.retest
    return state.known_at + timedelta(minutes=retest.every_min * retest.bound_intervals)


ARMS_LENGTH = Decimal("0.5")
"""Metres; a probe held this near is in the same breathing zone: common practice."""


def where_people_work(state: Permit, one: ReadingSet) -> bool:
    """Is it a reading of the air that people breathe: of a full test with nobody inside, called in from inside, or
    within an arm's length of a named retest point (any point, where the evaluation names none)?"""
    event = one.event
    if event.phase in OUTSIDE:
        return False
    named = state.opened.evaluated.retest_points_m
    if (event.phase != "work" and not one.inside) or not named or event.point_m is None:
        return True
    return any(abs(Decimal(point) - Decimal(event.point_m)) <= ARMS_LENGTH for point in named)


def _keeps_known(state: Permit, one: ReadingSet) -> bool:
    """May a set keep the air known? What only the bench can tell (was the instrument ready) is judged above."""
    inside = where_people_work(state, one) and one.event.taken <= one.at + SOON
    return inside and not one.void and one.by is not None and whole(state.form, one.figures)


def apply(state: Permit, happening: Happening) -> Permit:
    """The state after one more happening. What was overdue before it is latched first: time alone can stop an entry."""
    bound = overdue_bound(state)
    if bound is not None and happening.at > bound and state.stop is None:
        state = _stopped(state, Stop("retest-overdue", bound, happening.version))
    event = happening.event
    change = _CHANGES.get(type(event))
    if state.authorised is not None and only_before(state, event):
        state = replace(state, changed=(*state.changed, _made(happening)))
    if change is not None and not (happening.void and isinstance(event, _VOIDED)):
        state = change(state, event, happening)
    return replace(state, version=happening.version)


ONLY_BEFORE = (e.WorkDescribed, e.HoursPlanned, e.Answered, e.HazardHeld, e.HazardAdded, e.PointIsolated, e.BasisStated)
"""A change of hazard, isolation, limit, place or purpose needs a new permit."""


def only_before(state: Permit, event: Event) -> bool:
    """Is it such a change? An item that is owed to each who joins later may be answered again."""
    if isinstance(event, e.Answered):
        item = state.form.item(event.item)
        return item is None or not item.after_signing
    return isinstance(event, ONLY_BEFORE)


_VOIDED = (e.Authorised, e.Reendorsed, e.Extended, e.HoseTested, e.RescueConfirmed, e.RescueCallTried, e.Briefed)


def _made(happening: Happening) -> Made:
    return Made(happening.event, happening.at, happening.by, happening.version)


def _stopped(state: Permit, stop: Stop) -> Permit:
    return state if state.stop is not None else replace(state, stops=(*state.stops, stop))


def _amend(state: Permit, happening: Happening) -> Permit:
    """After authorisation, a change of people or instruments is an amendment: kept, printed, the page posted again."""
    return replace(state, amended=(*state.amended, _made(happening))) if state.authorised else state


def _air_changed(state: Permit, happening: Happening) -> Permit:
    return replace(state, counts_from=happening.version, counts_since=None if happening.void else happening.at)


def _work(state: Permit, event: e.WorkDescribed, happening: Happening) -> Permit:
    return replace(state, purpose=event.purpose)


def _hours(state: Permit, event: e.HoursPlanned, happening: Happening) -> Permit:
    return replace(state, hours=event)


def _answered(state: Permit, event: e.Answered, happening: Happening) -> Permit:
    return replace(state, answers={**state.answers, event.item: _made(happening)})


def _held(state: Permit, event: e.HazardHeld, happening: Happening) -> Permit:
    return _with_limits(replace(state, held={**state.held, event.hazard: _made(happening)}))


def _added(state: Permit, event: e.HazardAdded, happening: Happening) -> Permit:
    state = _with_limits(replace(state, added=(*state.added, event)))
    if state.running and state.tally.inside:
        state = _stopped(state, Stop("new-hazard", happening.at, happening.version, by=happening.by))
    return state


def _isolated(state: Permit, event: e.PointIsolated, happening: Happening) -> Permit:
    back = tuple(
        made
        for made in state.unlocked
        if not (isinstance(made.event, e.PointIsolated) and made.event.point == event.point)
    )
    return replace(state, isolated={**state.isolated, event.point: _made(happening)}, unlocked=back)


def _released(state: Permit, event: e.PointReleased, happening: Happening) -> Permit:
    held = {point: made for point, made in state.isolated.items() if point != event.point}
    off = tuple(made for point, made in state.isolated.items() if point == event.point)
    state = replace(
        state, isolated=held, released=(*state.released, _made(happening)), unlocked=(*state.unlocked, *off)
    )
    if state.running and state.tally.inside:
        state = _stopped(state, Stop("isolation-released", happening.at, happening.version, by=happening.by))
    return state


def _basis(state: Permit, event: e.BasisStated, happening: Happening) -> Permit:
    return replace(state, basis=_made(happening))


def _extended(state: Permit, event: e.Extended, happening: Happening) -> Permit:
    """Hours are made longer only before their end, and never shorter: what came later is told, and extends nothing."""
    until = state.until
    if until is None or happening.at >= until or event.ends <= until or not state.form.extend:
        return state
    made = _made(happening)
    return _amend(replace(state, extended=(*state.extended, made), signed=(*state.signed, made)), happening)


def _step(state: Permit, event: e.WorkStepChanged, happening: Happening) -> Permit:
    return _amend(_air_changed(state, happening), happening)


def _level(state: Permit, event: e.LevelStated, happening: Happening) -> Permit:
    before = state.level.event if state.level is not None else None
    state = replace(state, level=_made(happening))
    same = isinstance(before, e.LevelStated) and _metres(before.depth_m) == _metres(event.depth_m)
    return state if same else _air_changed(state, happening)


def _metres(depth: str | None) -> Decimal | None:
    return Decimal(depth) if depth is not None else None


def _space_opened(state: Permit, event: e.SpaceOpened, happening: Happening) -> Permit:
    return _air_changed(replace(state, open_since=_made(happening)), happening)


def _fan_on(state: Permit, event: e.VentilationStarted, happening: Happening) -> Permit:
    return _air_changed(replace(state, fan=_made(happening), fan_stopped=None), happening)


def _fan_off(state: Permit, event: e.VentilationStopped, happening: Happening) -> Permit:
    state = _air_changed(replace(state, fan=None, fan_stopped=_made(happening)), happening)
    if state.running and state.tally.inside:
        state = _stopped(state, Stop("ventilation-stopped", happening.at, happening.version, by=happening.by))
    return state


def _assigned(state: Permit, event: e.InstrumentAssigned, happening: Happening) -> Permit:
    one = Assigned(event.instrument, event.registered, event.duty, event.hose_m, happening.at, happening.version)
    return _amend(_with_limits(replace(state, instruments={**state.instruments, event.instrument: one})), happening)


def _returned(state: Permit, event: e.InstrumentReturned, happening: Happening) -> Permit:
    one = state.instruments.get(event.instrument)
    if one is None:
        return state
    given = replace(one, returned=_made(happening))
    return _amend(replace(state, instruments={**state.instruments, event.instrument: given}), happening)


def _hose(state: Permit, event: e.HoseTested, happening: Happening) -> Permit:
    one = state.instruments.get(event.instrument)
    if one is None:
        return state
    if not held_tight(event):
        since = one.hose_tested.version if one.hose_tested is not None else one.version
        sets = tuple(
            replace(s, hose_leaked=True) if s.event.instrument == event.instrument and s.version > since else s
            for s in state.sets
        )
        state = replace(state, sets=sets)
    tested = replace(one, hose_tested=_made(happening))
    return replace(state, instruments={**state.instruments, event.instrument: tested})


STOPS_WITHIN_S = 30
"""Seconds within which a blocked hose stops the pump: common practice."""


def held_tight(test: e.HoseTested) -> bool:
    """Did the blocked hose stop the pump in time?"""
    return test.stopped_s is not None and Decimal(test.stopped_s) <= STOPS_WITHIN_S


def _readings(state: Permit, event: e.ReadingsTaken, happening: Happening) -> Permit:
    one = ReadingSet(
        happening.version,
        happening.number,
        event,
        happening.at,
        happening.by,
        happening.unconfirmed,
        happening.void,
        event.figures,
        len(state.tally.inside),
        assigned=_serving(state, event.instrument),
    )
    state = replace(state, sets=(*state.sets, one), peaks=_peaks(state, event.figures))
    if _keeps_known(state, one) and (state.known_at is None or event.taken > state.known_at):
        state = replace(state, known_at=event.taken)
    if state.running and event.phase != "upwind" and outside(state.form, event.figures):
        state = _stopped(state, Stop("reading", happening.at, happening.version, happening.version, happening.by))
    return state


_TO_PPM = {"ppm": Decimal(1), "% vol": vol_to_ppm(Decimal(1))}


def _peaks(state: Permit, figures: Iterable[e.Figure]) -> Mapping[str, Decimal]:
    higher: dict[str, Decimal] = {}
    for figure in figures:
        if figure.figure is None or figure.unit not in _TO_PPM:
            continue
        value = Decimal(figure.figure) * _TO_PPM[figure.unit]
        if value > state.peaks.get(figure.gas, Decimal(-1)):
            higher[figure.gas] = value
    return {**state.peaks, **higher} if higher else state.peaks


def _serving(state: Permit, instrument: str) -> Assigned | None:
    one = state.instruments.get(instrument)
    return one if one is not None and one.returned is None else None


def _corrected(state: Permit, event: e.ReadingCorrected, happening: Happening) -> Permit:
    correction = Correction(event, happening.at, happening.by, happening.version)
    sets = tuple(_put_right(s, correction) if s.version == event.set_version else s for s in state.sets)
    known = max((one.event.taken for one in sets if _keeps_known(state, one)), default=None)
    changed = next((s for s in sets if s.version == event.set_version), None)
    peaks = _peaks(state, changed.figures) if changed is not None else state.peaks
    state = replace(state, sets=sets, known_at=known, peaks=peaks)
    if changed is not None and state.running and changed.event.phase != "upwind":
        if outside(state.form, changed.figures):
            state = _stopped(state, Stop("reading", happening.at, happening.version, event.set_version, happening.by))
    return state


def _put_right(one: ReadingSet, correction: Correction) -> ReadingSet:
    event = correction.event
    figures = tuple(
        figure.model_copy(update={"figure": event.new, "state": "measured"}) if figure.gas == event.gas else figure
        for figure in one.figures
    )
    return replace(one, figures=figures, corrections=(*one.corrections, correction))


def _named(state: Permit, event: e.PersonNamed, happening: Happening) -> Permit:
    if event.part == "supervisor":
        return replace(state, supervisor=event.person)
    if event.part == "entrant":
        state = replace(state, entrants=(*(p for p in state.entrants if p != event.person), event.person))
    else:
        state = replace(state, attendants=(*(p for p in state.attendants if p != event.person), event.person))
    return _amend(state, happening)


def _unnamed(state: Permit, event: e.PersonUnnamed, happening: Happening) -> Permit:
    if event.part == "supervisor":
        return replace(state, supervisor=None)
    if event.part == "entrant":
        state = replace(state, entrants=tuple(p for p in state.entrants if p != event.person))
    else:
        state = replace(state, attendants=tuple(p for p in state.attendants if p != event.person))
    return _amend(state, happening)


def _rescue(state: Permit, event: e.RescueConfirmed, happening: Happening) -> Permit:
    return replace(state, rescue=_made(happening))


def _call(state: Permit, event: e.RescueCallTried, happening: Happening) -> Permit:
    return replace(state, call_tried=_made(happening))


def _briefed(state: Permit, event: e.Briefed, happening: Happening) -> Permit:
    briefed = {**state.briefed, **{ink.person: _made(happening) for ink in event.inks}}
    return replace(state, briefed=briefed, signed=(*state.signed, _made(happening)))


def _authorised(state: Permit, event: e.Authorised, happening: Happening) -> Permit:
    supervisors = (Duty(happening.by or "", happening.at),)
    made = _made(happening)
    return replace(state, authorised=made, supervisors=supervisors, awaits=None, signed=(*state.signed, made))


def _page(state: Permit, event: e.PageFiled, happening: Happening) -> Permit:
    return replace(state, pages=(*state.pages, _made(happening)))


def _watch(state: Permit, event: e.WatchTaken, happening: Happening) -> Permit:
    return replace(
        state,
        watch=(*state.watch, Duty(event.person, happening.at)),
        signed=(*state.signed, _made(happening)),
    )


def _relieved(state: Permit, event: e.Relieved, happening: Happening) -> Permit:
    done = tuple(replace(duty, until=happening.at) if duty.until is None else duty for duty in state.watch)
    state = replace(
        state,
        watch=(*done, Duty(event.incoming, happening.at)),
        signed=(*state.signed, _made(happening)),
    )
    return _amend(state, happening)


def _went_in(state: Permit, event: e.WentIn, happening: Happening) -> Permit:
    return replace(state, tally=state.tally.went_in(event.person, happening.at, event.against))


def _someone(state: Permit, event: e.SomeoneWentIn, happening: Happening) -> Permit:
    return replace(state, tally=state.tally.someone_in(event.label, happening.at))


def _someone_named(state: Permit, event: e.SomeoneNamed, happening: Happening) -> Permit:
    return replace(state, tally=state.tally.named(event.label, event.name, event.what))


def _went_out(state: Permit, event: e.WentOut, happening: Happening) -> Permit:
    return replace(state, tally=state.tally.went_out(event.person, happening.at))


def _contact(state: Permit, event: e.ContactMade, happening: Happening) -> Permit:
    return replace(state, contact=_made(happening))


def _condition(state: Permit, event: e.ConditionReported, happening: Happening) -> Permit:
    state = replace(state, conditions={**state.conditions, event.condition: _made(happening)})
    line = state.form.condition(event.condition)
    if line is None or line.retest:
        state = _air_changed(state, happening)
    if state.running and state.tally.inside and (line is None or line.stage == "stay"):
        state = _stopped(state, Stop(event.condition, happening.at, happening.version, by=happening.by))
    return state


def _condition_cleared(state: Permit, event: e.ConditionCleared, happening: Happening) -> Permit:
    left = {id: made for id, made in state.conditions.items() if id != event.condition}
    line = state.form.condition(event.condition)
    gone = replace(state, conditions=left)
    return _air_changed(gone, happening) if line is not None and line.retest_after else gone


def _break(state: Permit, event: e.BreakBegun, happening: Happening) -> Permit:
    return replace(state, pauses=(*state.pauses, Pause(_made(happening))), awaits="break")


def _back(state: Permit, event: e.BreakEnded, happening: Happening) -> Permit:
    if not state.pauses:
        return state
    pauses = (*state.pauses[:-1], replace(state.pauses[-1], ended=_made(happening)))
    return _air_changed(replace(state, pauses=pauses), happening)


def _stop(state: Permit, event: e.StopOrdered, happening: Happening) -> Permit:
    return _stopped(state, Stop(event.cause, happening.at, happening.version, by=happening.by))


def _determined(state: Permit, event: e.StopDetermined, happening: Happening) -> Permit:
    if not state.stops:
        return state
    stops = (*state.stops[:-1], replace(state.stops[-1], determined=_made(happening)))
    state = replace(state, stops=stops, signed=(*state.signed, _made(happening)))
    if event.finding == "none-arose":
        state = _air_changed(replace(state, awaits="stop"), happening)
    return state


def _reendorsed(state: Permit, event: e.Reendorsed, happening: Happening) -> Permit:
    return replace(state, awaits=None, signed=(*state.signed, _made(happening)))


def _handed_over(state: Permit, event: e.SupervisionHandedOver, happening: Happening) -> Permit:
    done = tuple(replace(duty, until=happening.at) if duty.until is None else duty for duty in state.supervisors)
    return replace(
        state,
        supervisor=event.incoming,
        supervisors=(*done, Duty(event.incoming, happening.at)),
        signed=(*state.signed, _made(happening)),
    )


def _ended(state: Permit, event: e.Ended, happening: Happening) -> Permit:
    if state.ended is not None:
        return state
    return replace(state, ended=_made(happening), signed=(*state.signed, _made(happening)))


def _closed_out(state: Permit, event: e.ClosedOut, happening: Happening) -> Permit:
    return replace(state, closed_out=_made(happening), signed=(*state.signed, _made(happening)))


def _noted(state: Permit, event: e.Noted, happening: Happening) -> Permit:
    return replace(state, notes=(*state.notes, _made(happening)))


_CHANGES: dict[type[Event], Callable[[Permit, Any, Happening], Permit]] = {
    e.WorkDescribed: _work,
    e.HoursPlanned: _hours,
    e.Answered: _answered,
    e.HazardHeld: _held,
    e.HazardAdded: _added,
    e.PointIsolated: _isolated,
    e.PointReleased: _released,
    e.BasisStated: _basis,
    e.LevelStated: _level,
    e.SpaceOpened: _space_opened,
    e.VentilationStarted: _fan_on,
    e.VentilationStopped: _fan_off,
    e.InstrumentAssigned: _assigned,
    e.InstrumentReturned: _returned,
    e.HoseTested: _hose,
    e.ReadingsTaken: _readings,
    e.ReadingCorrected: _corrected,
    e.PersonNamed: _named,
    e.PersonUnnamed: _unnamed,
    e.RescueConfirmed: _rescue,
    e.RescueCallTried: _call,
    e.Briefed: _briefed,
    e.Authorised: _authorised,
    e.PageFiled: _page,
    e.WatchTaken: _watch,
    e.Relieved: _relieved,
    e.WentIn: _went_in,
    e.SomeoneWentIn: _someone,
    e.SomeoneNamed: _someone_named,
    e.WentOut: _went_out,
    e.ContactMade: _contact,
    e.ConditionReported: _condition,
    e.ConditionCleared: _condition_cleared,
    e.BreakBegun: _break,
    e.BreakEnded: _back,
    e.StopOrdered: _stop,
    e.StopDetermined: _determined,
    e.Reendorsed: _reendorsed,
    e.Extended: _extended,
    e.WorkStepChanged: _step,
    e.SupervisionHandedOver: _handed_over,
    e.Ended: _ended,
    e.ClosedOut: _closed_out,
    e.Noted: _noted,
}
