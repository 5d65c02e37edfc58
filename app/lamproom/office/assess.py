"""Judge a permit that is told in a document: the same fold, the same acts' conditions and the same obstacles as the
window's, without a site."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from pydantic import BaseModel

from lamproom.bench import events as b
from lamproom.bench import state as bench
from lamproom.bench.happening import Event, Happening
from lamproom.intake import permit_document as doc
from lamproom.office.views.air_places import phase_now
from lamproom.office.views.watch_air import next_phase
from lamproom.permit import events as e
from lamproom.permit import people as register
from lamproom.permit import state as permits
from lamproom.permit.cautions import Caution, cautions
from lamproom.permit.facts import Facts, OtherPermit
from lamproom.permit.latching import AFTER, seen
from lamproom.permit.obstacles import Obstacle, Stage, obstacles
from lamproom.permit.people import Person, PersonLeft, PersonRegistered
from lamproom.permit.space import SpaceEvaluated, SpaceRegistered
from lamproom.permit.state import Permit
from lamproom.permit.takes import takes
from lamproom.words import Refusal, Sentence, say, sentence

_BENCH_KINDS = {event.kind: event for event in b.EVENTS}
_PERMIT_KINDS = {event.kind: event for event in e.EVENTS}


NEEDS_WHO = (
    e.WorkDescribed,
    e.HoursPlanned,
    e.Answered,
    e.HazardHeld,
    e.PointIsolated,
    e.BasisStated,
    e.PersonNamed,
    e.RescueConfirmed,
    e.RescueCallTried,
    e.Briefed,
    e.InstrumentAssigned,
    e.HoseTested,
    e.ConditionCleared,
    e.BreakEnded,
    e.ClosedOut,
)
"""What gives leave is somebody's act: told without a name, it is none. What stops people needs no name."""
MAY_CLEAR = (e.ReadingCorrected, e.PersonUnnamed, e.LevelStated, e.SpaceOpened, e.VentilationStarted)
"""What can count against entry and can clear something too: told without a name, it clears nothing."""
BENCH_NEEDS_WHO = (b.CheckedBeforeUse, b.BumpTested, b.Calibrated, b.ReturnedToService)


TOLD_ALL_THE_SAME = (*permits.ONLY_BEFORE, e.SupervisionHandedOver)
"""What the window refuses and what is true of the world all the same: a change after the signature, an untrained person
in charge. It counts against entry by its own obstacle."""


@dataclass(frozen=True, slots=True)
class NotTaken:
    """Something that the document tells and that a permit would not have taken then: when, what, why."""

    at: datetime
    what: str
    why: Sentence


@dataclass(frozen=True, slots=True)
class Assessment:
    """The answer: ``standing`` bar the stage asked about, ``others`` another. ``later`` entries lie after ``at``."""

    at: datetime
    stage: Stage
    standing: tuple[Obstacle, ...]
    others: tuple[Obstacle, ...]
    cautions: tuple[Caution, ...]
    not_taken: tuple[NotTaken, ...]
    later: int
    facts: Facts

    @property
    def allowed(self) -> bool:
        return not self.standing


def assess(
    document: doc.PermitDocument,
    forms: Mapping[str, str],
    stage: Stage | None = None,
    at: datetime | None = None,
) -> Assessment:
    """Judge a document at its own moment, or at another; ``stage`` None means the next act open in the permit's state.

    Raises Refusal for a form that is unknown or cannot be used.
    """
    moment = at or document.at
    lived = _Lived(document, _form_text(document, forms), moment)
    lived.live()
    facts = lived.facts(moment)
    asked = stage or next_stage(facts.permit)
    found = obstacles(facts)
    return Assessment(
        moment,
        asked,
        tuple(o for o in found if o.bars(asked)),
        tuple(o for o in found if not o.bars(asked)),
        cautions(facts),
        tuple(lived.not_taken),
        lived.later,
        facts,
    )


def answer_of(answer: Assessment) -> dict[str, Any]:
    """The answer as plain data."""
    zone = answer.facts.permit.zone

    def listed(obstacle: Obstacle) -> dict[str, Any]:
        return {
            "code": obstacle.code,
            "stages": [stage.value for stage in Stage if obstacle.bars(stage)],
            "sentence": obstacle.sentence.say(),
            "citation": obstacle.rule,
            "way_out": obstacle.clears.say(),
            "where": obstacle.target,
            "subject": obstacle.found.subject,
        }

    return {
        "verdict": "allowed" if answer.allowed else "refused",
        "stage": answer.stage.value,
        "at": answer.at.astimezone(zone).isoformat(),
        "permit": answer.facts.permit.number,
        "route": answer.facts.permit.route,
        "inside": [trip.who for trip in answer.facts.permit.tally.inside],
        "obstacles": [listed(one) for one in answer.standing],
        "bar_another_stage": [listed(one) for one in answer.others],
        "cautions": [
            {"code": one.code, "sentence": one.sentence.say(), "citation": one.rule} for one in answer.cautions
        ],
        "not_taken": [
            {"at": one.at.astimezone(zone).isoformat(), "what": one.what, "why": one.why.say()}
            for one in answer.not_taken
        ],
        "later_entries": answer.later,
    }


def answer_words(answer: Assessment) -> Iterator[str]:
    """The answer as lines for a person."""
    permit = answer.facts.permit
    verdict = "office.assess_allowed" if answer.allowed else "office.assess_refused"
    time = answer.at.astimezone(permit.zone).strftime("%Y-%m-%d %H:%M")
    stage = sentence(f"office.assess_stage.{answer.stage.value}")
    yield say(verdict, stage=stage, time=time, number=permit.number, count=len(answer.standing))
    for one in answer.standing:
        yield f"  {one.sentence.say()} {one.clears.say()} [{one.code}; {one.rule}]"
    for caution in answer.cautions:
        yield say("office.assess_caution", text=caution.sentence, rule=caution.rule)
    for lost in answer.not_taken:
        time = lost.at.astimezone(permit.zone).strftime("%H:%M")
        yield say("office.assess_not_taken", time=time, what=lost.what, why=lost.why)
    if answer.later:
        yield say("office.assess_later", count=answer.later)


def next_stage(permit: Permit) -> Stage:
    """What would be done next: authorise a draft, stay while someone is inside, else let the next person in."""
    if permit.tally.inside:
        return Stage.STAY
    return Stage.ENTER if permit.authorised is not None or permit.ended is not None else Stage.AUTHORISE


def _form_text(document: doc.PermitDocument, forms: Mapping[str, str]) -> str:
    if document.form_text is not None:
        return document.form_text
    text = forms.get(document.form)
    if text is None:
        raise Refusal(sentence("office.no_form", form=document.form))
    return text


@dataclass(slots=True)
class _Lived:
    """A document being lived, one happening after the other in the order in which they were recorded."""

    document: doc.PermitDocument
    form: str
    moment: datetime
    permit: Permit = field(init=False)
    instruments: dict[str, bench.Instrument] = field(default_factory=dict)
    people: dict[str, Person] = field(default_factory=dict)
    versions: dict[str, int] = field(default_factory=dict)
    sets: dict[str, int] = field(default_factory=dict)
    not_taken: list[NotTaken] = field(default_factory=list)
    number: int = 0
    later: int = 0

    def live(self) -> None:
        told = self.document
        for person in told.people:
            self.people[person.id] = _person(person)
        timed: list[tuple[datetime, str | None, BaseModel]] = []
        for one in told.instruments:
            self.instruments[one.id] = bench.Instrument(one.id)
            self._do(one.id, _registered(one), told.opened.at, None)
            timed += [(act.at, one.id, act) for act in one.happened]  # type: ignore[attr-defined]
        self.permit = permits.begin(self._happening(self._stream, self._opening(), told.opened.at, told.opened.by))
        timed += [(act.at, None, act) for act in told.happened]  # type: ignore[attr-defined]
        timed.sort(key=lambda act: act[0])
        for at, instrument, act in timed:
            if at > self.moment:
                self.later += 1
            elif instrument is not None:
                self._on_bench(instrument, act, at)
            else:
                self._tell(act, at)

    def facts(self, at: datetime) -> Facts:
        """What is known at a moment, as the office would gather it."""
        told = self.document
        return Facts(
            permit=self.permit,
            instruments={id: self.instruments.get(id, bench.Instrument(id)) for id in self.permit.instruments},
            people=self.people,
            at=at,
            clock_confirmed=told.clock_confirmed,
            figures_confirmed=told.figures_confirmed or not self.permit.form.memory_figures,
            names={person.id: person.name or person.id for person in told.people},
            others=tuple(_others(told)),
        )

    # Recording --------------------------------------------------------------------------------------------------------

    @property
    def _stream(self) -> str:
        return f"permit/{self.document.number}"

    def _happening(self, stream: str, event: Event, at: datetime, by: str | None) -> Happening:
        self.number += 1
        version = self.versions[stream] = self.versions.get(stream, 0) + 1
        return Happening(stream, version, event, at, by, "document", f"act-{self.number}", self.number)

    def _known(self, by: str | None) -> str | None:
        """A person whom the document lists; one whom it does not is nobody."""
        return by if by in self.people else None

    def _on_bench(self, instrument: str, act: BaseModel, at: datetime) -> None:
        by = self._known(act.by)  # type: ignore[attr-defined]
        event = _event(act, _BENCH_KINDS)
        if by is None and isinstance(event, BENCH_NEEDS_WHO):
            self.not_taken.append(NotTaken(at, event.kind, sentence("office.assess_nobody")))
            return
        self._do(instrument, event, at, by)

    def _do(self, instrument: str, event: Event, at: datetime, by: str | None) -> None:
        happening = self._happening(f"instrument/{instrument}", event, at, by)
        self.instruments[instrument] = bench.apply(self.instruments[instrument], happening)

    def _record(self, event: Event, at: datetime, by: str | None) -> None:
        self.permit = permits.apply(self.permit, self._happening(self._stream, event, at, by))
        if isinstance(event, AFTER):
            stop = seen(self.facts(at))
            if stop is not None:
                self._record(stop, at, None)

    def _tell(self, act: BaseModel, at: datetime) -> None:
        by = self._known(act.by)  # type: ignore[attr-defined]
        what: str = act.what  # type: ignore[attr-defined]
        if getattr(act, "signed", None) is False:
            self.not_taken.append(NotTaken(at, what, sentence("office.assess_not_signed")))
            return
        event = self._event(act, at)
        if by is None and isinstance(event, NEEDS_WHO):
            event = sentence("office.assess_nobody")
        elif by is None and isinstance(event, MAY_CLEAR) and self._clears(event, at):
            event = sentence("office.assess_nobody")
        elif isinstance(event, e.ReadingCorrected) and not event.reason.strip() and self._clears(event, at):
            event = sentence("office.correction_reason")
        if isinstance(event, Sentence):
            self.not_taken.append(NotTaken(at, what, event))
            return
        refused = takes(self.facts(at), event, by)
        if refused is not None and not isinstance(event, TOLD_ALL_THE_SAME):
            self.not_taken.append(NotTaken(at, what, refused.why))
            if not isinstance(event, e.WentIn) or self.permit.tally.is_inside(event.person):
                return
            # Whoever goes in against it is inside all the same.
            codes = tuple(dict.fromkeys(o.code for o in refused.standing))
            event = replace_against(event, codes) if codes else e.SomeoneWentIn(label=event.person)
        self._record(event, at, by)
        if isinstance(act, doc.ReadingsTaken) and act.id:
            self.sets[act.id] = self.permit.sets[-1].version
        if isinstance(event, e.StopDetermined) and event.finding == "prohibited-condition":
            self._record(e.Ended(cause="prohibited-condition", reason=event.reason), at, by)

    def _clears(self, event: Event, at: datetime) -> bool:
        """Would anything that stands no longer stand after it?"""
        happening = Happening(self._stream, self.permit.version + 1, event, at, None, "document", "", self.number + 1)
        now = self.facts(at)
        then = replace(now, permit=permits.apply(self.permit, happening))
        left = {(one.code, one.found.subject) for one in obstacles(then)}
        return any((one.code, one.found.subject) not in left for one in obstacles(now))

    # From the document's words to the record's ------------------------------------------------------------------------

    def _opening(self) -> e.PermitOpened:
        told = self.document
        space = told.space.model_dump(exclude={"id", "openings"})
        return e.PermitOpened(
            number=told.number,
            space=told.space.id,
            registered=SpaceRegistered.model_validate({**space, "portal": told.space.openings[0].model_dump()}),
            evaluated=SpaceEvaluated.model_validate(told.evaluation.model_dump()),
            form=self.form,
            zone=told.zone,
            renews=told.renews,
            route=told.route,
        )

    def _event(self, act: BaseModel, at: datetime) -> Event | Sentence:
        """The event that the record would hold, or why there would be none."""
        match act:
            case doc.ReadingsTaken():
                return self._readings(act, at)
            case doc.ReadingCorrected():
                if act.reading not in self.sets:
                    return sentence("office.assess_no_reading", id=act.reading)
                version = self.sets[act.reading]
                return e.ReadingCorrected(set_version=version, gas=act.gas, old=act.old, new=act.new, reason=act.reason)
            case doc.Briefed():
                return e.Briefed(inks=tuple(e.Ink(person=person, strokes=()) for person in act.people))
            case doc.InstrumentAssigned():
                one = next((i for i in self.document.instruments if i.id == act.instrument), None)
                if one is None:
                    return sentence("office.assess_no_instrument", id=act.instrument)
                if act.duty == "test" and one.pump_l_min is not None and "hose_m" not in act.model_fields_set:
                    return sentence("office.assess_hose_unsaid")
                return e.InstrumentAssigned(
                    instrument=act.instrument, registered=_registered(one), duty=act.duty, hose_m=act.hose_m
                )
            case doc.SomeoneNamed():
                return e.SomeoneNamed(label=act.label, name=act.name, what=act.who)
            case doc.Relieved():
                inside = tuple(trip.who for trip in self.permit.tally.inside)
                last = self.permit.sets[-1].version if self.permit.sets else None
                outgoing = self.permit.attendant or ""
                return e.Relieved(
                    outgoing=outgoing, incoming=act.incoming, inside=inside, last_set=last, open_alarms=()
                )
            case doc.Authorised():
                hours = self.permit.hours
                return e.Authorised(
                    begins=max(hours.begins, at) if hours is not None else at,
                    ends=hours.ends if hours is not None else at,
                    on_version=self.permit.version,
                    entrants=self.permit.entrants,
                    ink=None,
                )
            case doc.Reendorsed():
                return e.Reendorsed(after="break" if self.permit.awaits == "break" else "stop")
        return _event(act, _PERMIT_KINDS)

    def _phase(self, at: datetime) -> e.Phase:
        """The phase that the window would give the next set."""
        if self.permit.authorised is not None:
            return next_phase(self.facts(at))
        return phase_now(self.permit) or "through-lid"

    def _readings(self, act: doc.ReadingsTaken, at: datetime) -> Event | Sentence:
        """A set of this space: one of another space says nothing here, one from outside is the base alone."""
        outside = act.phase in ("upwind", "duct")
        if act.place == "another-space" or (act.place == "outside" and act.phase not in (None, "upwind", "duct")):
            return sentence("office.assess_other_place")
        if act.place == "this-space" and outside and act.phase == "upwind":
            return sentence("office.assess_other_place")
        phase = act.phase or ("upwind" if act.place == "outside" else self._phase(at))
        return e.ReadingsTaken(
            phase=phase,
            point_m=act.point_m,
            instrument=act.instrument,
            lowered=act.lowered,
            taken=act.taken,
            figures=tuple(e.Figure(gas=f.gas, unit=f.unit, state=f.state, figure=f.figure) for f in act.figures),
            called_in_by=act.called_in_by,
            as_typed=act.as_typed,
            temperature_c=act.temperature_c,
            humidity_pct=act.humidity_pct,
        )


def _others(told: doc.PermitDocument) -> Iterator[OtherPermit]:
    """The permits that run beside this one: those told, and those that an instrument is said to be out with."""
    for one in told.others:
        yield OtherPermit(one.number, one.space, one.near, one.attendant, frozenset(one.worn), frozenset(one.unlocked))
    for instrument in told.instruments:
        if instrument.holder not in (None, told.number):
            yield OtherPermit(instrument.holder or "", "", near=False, worn=frozenset({instrument.id}))


def replace_against(event: e.WentIn, codes: tuple[str, ...]) -> e.WentIn:
    """The same step, with the obstacles that stood then."""
    return event.model_copy(update={"against": codes})


def _event(act: BaseModel, kinds: Mapping[str, type[Event]]) -> Event:
    """An event whose fields the document tells as the record does."""
    kind = kinds[act.what]  # type: ignore[attr-defined]
    told: dict[str, Any] = {name: getattr(act, name) for name in kind.model_fields if name in act.model_fields_set}
    plain = {name: _plain(value) for name, value in told.items()}
    return kind.model_validate(plain)


def _plain(value: Any) -> Any:
    if isinstance(value, BaseModel):
        return value.model_dump()
    if isinstance(value, tuple):
        return tuple(_plain(one) for one in value)
    return value


def _registered(one: doc.TheInstrument) -> b.InstrumentRegistered:
    return b.InstrumentRegistered.model_validate(one.model_dump(exclude={"id", "holder", "happened"}))


def _person(told: doc.ThePerson) -> Person:
    """A person as the register's own fold leaves one."""
    past: list[Event] = [PersonRegistered(roles=told.roles, employer=told.employer)]
    past += told.training
    if told.left:
        past.append(PersonLeft())
    start = datetime(2000, 1, 1, tzinfo=ZoneInfo("UTC"))
    happenings = [Happening(f"person/{told.id}", i + 1, event, start) for i, event in enumerate(past)]
    return register.fold(happenings, Person(told.id))
