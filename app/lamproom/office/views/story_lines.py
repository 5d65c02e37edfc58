"""How each kind of event is told: what happened, and with it by whom and the facts that belong to it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from lamproom.bench.bump import gas_name
from lamproom.bench.happening import Event, Happening
from lamproom.permit import events as e
from lamproom.permit.state import Permit, outside
from lamproom.permit.words import clock, figure_words, limit_words, place_words
from lamproom.words import say, say_count

QUIET: tuple[type[Event], ...] = (
    e.WorkDescribed,
    e.HoursPlanned,
    e.Answered,
    e.HazardHeld,
    e.HazardAdded,
    e.PointIsolated,
    e.BasisStated,
    e.InstrumentAssigned,
    e.InstrumentReturned,
    e.HoseTested,
    e.PersonNamed,
    e.PersonUnnamed,
    e.RescueConfirmed,
    e.RescueCallTried,
    e.PageFiled,
    e.ContactMade,
)
"""Events of preparation and routine, which a reader of the entry may fold away."""

TYPED_LATER = timedelta(minutes=5)
"""A set typed longer than this after it was taken is told with both times: common practice."""


@dataclass(frozen=True, slots=True)
class Told:
    """What is told of one event. ``at`` is when it happened, if that is not when it was recorded."""

    sign: str
    what: str
    detail: str = ""
    struck: str = ""
    put_right: str = ""
    heavy: bool = False
    at: datetime | None = None


class Teller:
    """Tells events of one permit in words, given the state that they led to and how people are called."""

    def __init__(self, permit: Permit, names: Mapping[str, str]) -> None:
        self.permit = permit
        self.names = names

    def tell(self, happening: Happening) -> Told:
        """The words for one happening."""
        return _WAYS[type(happening.event)](self, happening.event, happening)

    def name(self, person: str | None) -> str:
        """How a person is called; the station where nobody did it."""
        return self.names.get(person, person) if person else say("filing.story.station")

    def clock(self, at: datetime) -> str:
        return clock(at, self.permit.zone)

    def parts(self, *parts: str) -> str:
        """Facts that belong to a line, one after the other; a full stop that someone typed ends none but the last."""
        return "; ".join(part.strip().rstrip(".") for part in parts if part.strip())

    def hazard(self, id: str) -> str:
        return next((name for hazard, name, _shows, _gas in self.permit.hazards() if hazard == id), id)

    def instrument(self, id: str) -> str:
        one = self.permit.instruments.get(id)
        return one.registered.name if one else id


def _opened(t: Teller, event: e.PermitOpened, h: Happening) -> Told:
    form = t.permit.form
    detail = t.parts(say("filing.story.form", title=form.title, version=form.version), t.name(h.by))
    if event.renews:
        detail = t.parts(detail, say("filing.story.renews", number=event.renews))
    return Told("SHEET", say("filing.story.opened", space=event.registered.name), detail)


def _work(t: Teller, event: e.WorkDescribed, h: Happening) -> Told:
    return Told("SHEET", say("filing.story.work", purpose=event.purpose), t.name(h.by))


def _hours(t: Teller, event: e.HoursPlanned, h: Happening) -> Told:
    what = say("filing.story.hours", begins=t.clock(event.begins), ends=t.clock(event.ends))
    return Told("CLOCK", what, t.name(h.by))


def _answered(t: Teller, event: e.Answered, h: Happening) -> Told:
    item = t.permit.form.item(event.item)
    what = say(
        "filing.story.answered",
        question=item.question if item else event.item,
        answer=say(f"permit.answer.{event.answer}"),
    )
    return Told("SHEET", what, t.parts(event.found, t.name(h.by)))


def _held(t: Teller, event: e.HazardHeld, h: Happening) -> Told:
    id = "filing.story.held" if event.held else "filing.story.not_today"
    return Told("SHEET", say(id, hazard=t.hazard(event.hazard)), t.parts(event.how, t.name(h.by)))


def _added(t: Teller, event: e.HazardAdded, h: Happening) -> Told:
    return Told("PLUS", say("filing.story.added", hazard=event.name), t.parts(event.shows, t.name(h.by)))


def _isolated(t: Teller, event: e.PointIsolated, h: Happening) -> Told:
    point = next((p.name for p in t.permit.opened.evaluated.isolation if p.id == event.point), event.point)
    verified = (
        say("filing.story.verified", name=t.name(event.verified_by))
        if event.verified_by
        else say("filing.story.not_verified")
    )
    dead = say("filing.story.dead" if event.tried_dead else "filing.story.not_dead")
    owner = say("filing.story.lock_of", name=t.name(event.owner))
    return Told("SHEET", say("filing.story.isolated", point=point, lock=event.lock), t.parts(owner, dead, verified))


def _released(t: Teller, event: e.PointReleased, h: Happening) -> Told:
    point = next((p.name for p in t.permit.opened.evaluated.isolation if p.id == event.point), event.point)
    heavy = t.permit.ended is None
    sign = "CAUTION" if heavy else "SHEET"
    return Told(sign, say("filing.story.released", point=point), t.parts(event.why, t.name(h.by)), heavy=heavy)


def _basis(t: Teller, event: e.BasisStated, h: Happening) -> Told:
    return Told("SHEET", say("filing.story.basis"), t.parts(event.basis, t.name(h.by)))


def _level(t: Teller, event: e.LevelStated, h: Happening) -> Told:
    what = say("filing.story.level", depth=event.depth_m) if event.depth_m else say("filing.story.dry")
    return Told("STEADY", what, t.parts(event.how, t.name(h.by)))


def _space_opened(t: Teller, event: e.SpaceOpened, h: Happening) -> Told:
    return Told("NOT_STARTED", say("filing.story.space_opened"), t.parts(event.guarded, t.name(h.by)))


def _fan_on(t: Teller, event: e.VentilationStarted, h: Happening) -> Told:
    detail = t.parts(
        say("filing.story.intake", intake=event.intake),
        say("filing.story.stop_noticed", by=event.stop_noticed_by),
        t.name(h.by),
    )
    return Told("NOT_STARTED", say("filing.story.fan_on", flow=event.flow_m3_h), detail)


def _fan_off(t: Teller, event: e.VentilationStopped, h: Happening) -> Told:
    return Told("CAUTION", say("filing.story.fan_off"), t.parts(event.why, t.name(h.by)))


def _assigned(t: Teller, event: e.InstrumentAssigned, h: Happening) -> Told:
    what = say(f"filing.story.assigned.{event.duty}", name=event.registered.name)
    hose = say("filing.story.hose", length=event.hose_m) if event.hose_m else ""
    return Told("SHEET", what, t.parts(hose, t.name(h.by)))


def _returned(t: Teller, event: e.InstrumentReturned, h: Happening) -> Told:
    what = say(f"filing.story.returned.{event.why}", name=t.instrument(event.instrument))
    return Told("SHEET" if event.why in ("done", "swapped") else "FAULT", what, t.name(h.by))


def _hose(t: Teller, event: e.HoseTested, h: Happening) -> Told:
    name = t.instrument(event.instrument)
    if event.stopped_s is None:
        return Told("FAULT", say("filing.story.hose_leaks", name=name), t.name(h.by))
    return Told("SHEET", say("filing.story.hose_tight", name=name, seconds=event.stopped_s), t.name(h.by))


def _held_together(figure: e.Figure) -> str:
    """A figure and its unit, never parted by the end of a line."""
    return figure_words(figure).say().replace(" ", "\u00a0")


def _place(event: e.ReadingsTaken) -> str:
    place = place_words(event.phase, event.point_m).say()
    return place[:1].upper() + place[1:]


def _readings(t: Teller, event: e.ReadingsTaken, h: Happening) -> Told:
    figures = "; ".join(
        say("filing.story.figure", gas=gas_name(f.gas), figure=_held_together(f)) for f in event.figures
    )
    late = say("filing.story.typed", time=t.clock(h.at)) if h.at - event.taken > TYPED_LATER else ""
    called = say("filing.story.called_in", name=t.name(event.called_in_by)) if event.called_in_by else ""
    as_typed = say("filing.story.as_typed") if event.as_typed else ""
    damp = ""
    if event.temperature_c is not None and event.humidity_pct is not None:
        damp = say("filing.story.damp", celsius=event.temperature_c, humidity=event.humidity_pct)
    detail = t.parts(figures, damp, as_typed, called, late, t.name(h.by))
    bad = outside(t.permit.form, event.figures)
    if bad:
        line = t.permit.form.limit(bad[0].gas)
        what = say(
            "filing.story.outside",
            place=_place(event),
            gas=gas_name(bad[0].gas),
            figure=figure_words(bad[0]),
            limit=limit_words(line) if line else say("permit.limit.none"),
        )
        return Told("DANGER", what, detail, heavy=True, at=event.taken)
    whole = all(
        any(f.gas == line.gas and f.state == "measured" for f in event.figures) for line in t.permit.form.limits
    )
    what = say("filing.story.within" if whole else "filing.story.part_within", place=_place(event))
    return Told("WITHIN" if whole else "NOT_MEASURED", what, detail, at=event.taken)


def _corrected(t: Teller, event: e.ReadingCorrected, h: Happening) -> Told:
    one = next((s for s in t.permit.sets if s.version == event.set_version), None)
    unit = next((f.unit for f in one.figures if f.gas == event.gas), "") if one else ""
    place = place_words(one.event.phase, one.event.point_m).say() if one else ""
    time = t.clock(one.event.taken) if one else ""
    what = say("filing.story.corrected", gas=gas_name(event.gas), place=place, time=time)
    detail = t.parts(say("filing.story.quoted", text=event.reason), t.name(h.by))
    old = say("permit.figure.measured", figure=event.old, unit=unit) if event.old else say("permit.figure.not-measured")
    return Told("SHEET", what, detail, old, say("permit.figure.measured", figure=event.new, unit=unit))


def _named(t: Teller, event: e.PersonNamed, h: Happening) -> Told:
    role = say(f"permit.role.{event.part}")
    return Told("PERSON", say("filing.story.named", name=t.name(event.person), role=role), t.name(h.by))


def _unnamed(t: Teller, event: e.PersonUnnamed, h: Happening) -> Told:
    role = say(f"permit.role.{event.part}")
    return Told("PERSON", say("filing.story.unnamed", name=t.name(event.person), role=role), t.name(h.by))


def _rescue(t: Teller, event: e.RescueConfirmed, h: Happening) -> Told:
    what = say("filing.story.rescue", until=t.clock(event.good_until), minutes=event.response_min)
    return Told("RADIO", what, t.parts(say("filing.story.said_by", name=event.answered_by), t.name(h.by)))


def _call(t: Teller, event: e.RescueCallTried, h: Happening) -> Told:
    detail = say("filing.story.call_answer", name=event.answered_by, seconds=event.seconds)
    return Told("RADIO", say("filing.story.call", means=event.means), t.parts(detail, t.name(h.by)))


def _briefed(t: Teller, event: e.Briefed, h: Happening) -> Told:
    people = ", ".join(t.name(ink.person) for ink in event.inks)
    return Told("PEN", say_count("filing.story.briefed", len(event.inks), people=people), t.name(h.by))


def _authorised(t: Teller, event: e.Authorised, h: Happening) -> Told:
    what = say("filing.story.authorised", begins=t.clock(event.begins), ends=t.clock(event.ends))
    entrants = say("filing.story.entrants", names=", ".join(t.name(person) for person in event.entrants))
    return Told("PEN", what, t.parts(t.name(h.by), entrants if event.entrants else ""))


def _page(t: Teller, event: e.PageFiled, h: Happening) -> Told:
    what = say(f"filing.story.page.{event.milestone}")
    return Told("SHEET", what, say("filing.story.hash", start=event.sha256[:12]))


def _watch(t: Teller, event: e.WatchTaken, h: Happening) -> Told:
    return Told("PERSON", say("filing.story.watch", name=t.name(event.person)))


def _relieved(t: Teller, event: e.Relieved, h: Happening) -> Told:
    what = say("filing.story.relieved", incoming=t.name(event.incoming), outgoing=t.name(event.outgoing))
    inside = ", ".join(t.name(person) for person in event.inside)
    return Told("PERSON", what, say("filing.story.inside", names=inside) if inside else say("filing.story.nobody"))


def _in(t: Teller, event: e.WentIn, h: Happening) -> Told:
    if event.against:
        count = say_count("filing.story.against", len(event.against))
        return Told(
            "CAUTION", say("filing.story.in", name=t.name(event.person)), t.parts(count, t.name(h.by)), heavy=True
        )
    return Told("GO_IN", say("filing.story.in", name=t.name(event.person)), t.name(h.by))


def _out(t: Teller, event: e.WentOut, h: Happening) -> Told:
    trip = next((trip for trip in reversed(t.permit.tally.trips) if trip.who == event.person), None)
    stayed = ""
    if trip is not None and trip.went_out == h.at:
        minutes = int((h.at - trip.came_in) / timedelta(minutes=1))
        stayed = say_count("filing.story.stayed", minutes) if minutes else say("filing.story.stayed_briefly")
    return Told("GO_OUT", say("filing.story.out", name=t.name(event.person)), t.parts(stayed, t.name(h.by)))


def _someone(t: Teller, event: e.SomeoneWentIn, h: Happening) -> Told:
    what = say("filing.story.someone", label=event.label)
    return Told("CAUTION", what, t.name(h.by), heavy=True)


def _someone_named(t: Teller, event: e.SomeoneNamed, h: Happening) -> Told:
    what = say(f"filing.story.someone_was.{event.what}", label=event.label, name=event.name)
    return Told("PERSON", what, t.name(h.by))


def _contact(t: Teller, event: e.ContactMade, h: Happening) -> Told:
    return Told("RADIO", say("filing.story.contact"), t.name(h.by))


def _condition_words(t: Teller, id: str) -> str:
    line = t.permit.form.condition(id)
    return line.words if line else id


def _condition(t: Teller, event: e.ConditionReported, h: Happening) -> Told:
    what = say("filing.story.condition", words=_condition_words(t, event.condition))
    return Told("CAUTION", what, t.parts(event.note, t.name(h.by)), heavy=True)


def _cleared(t: Teller, event: e.ConditionCleared, h: Happening) -> Told:
    what = say("filing.story.cleared", words=_condition_words(t, event.condition))
    return Told("TICK", what, t.parts(event.found, t.name(h.by)))


def _break(t: Teller, event: e.BreakBegun, h: Happening) -> Told:
    return Told("SUSPENDED", say("filing.story.break"), t.parts(event.guarded, event.left, t.name(h.by)))


def _back(t: Teller, event: e.BreakEnded, h: Happening) -> Told:
    found = say("filing.story.isolation_found", found=event.isolation_found)
    return Told("SUSPENDED", say("filing.story.back"), t.parts(found, t.name(h.by)))


def _stop(t: Teller, event: e.StopOrdered, h: Happening) -> Told:
    cause = say("permit.stop.pressed") if event.cause == "pressed" else _condition_words(t, event.cause)
    return Told("DANGER", say("filing.story.ordered_out"), t.parts(cause, t.name(h.by)), heavy=True)


def _determined(t: Teller, event: e.StopDetermined, h: Happening) -> Told:
    what = say(f"filing.story.found.{event.finding}")
    return Told("PEN", what, t.parts(say("filing.story.quoted", text=event.reason), t.name(h.by)), heavy=True)


def _reendorsed(t: Teller, event: e.Reendorsed, h: Happening) -> Told:
    return Told("PEN", say(f"filing.story.reendorsed.{event.after}"), t.name(h.by))


def _extended(t: Teller, event: e.Extended, h: Happening) -> Told:
    """What the record made of it: hours that had ended already are not made longer."""
    made = any(one.version == h.version for one in t.permit.extended)
    words = "filing.story.extended" if made else "filing.story.not_extended"
    return Told("PEN", say(words, ends=t.clock(event.ends)), t.parts(event.reason, t.name(h.by)))


def _step(t: Teller, event: e.WorkStepChanged, h: Happening) -> Told:
    return Told("SHEET", say("filing.story.step", step=event.step), t.name(h.by))


def _handed(t: Teller, event: e.SupervisionHandedOver, h: Happening) -> Told:
    what = say("filing.story.handed", incoming=t.name(event.incoming), outgoing=t.name(event.outgoing))
    return Told("PEN", what)


def _ended(t: Teller, event: e.Ended, h: Happening) -> Told:
    what = say(f"permit.cause.{event.cause}")
    return Told("ENDED", what[:1].upper() + what[1:], t.parts(event.reason, t.name(h.by)), heavy=True)


def _closed(t: Teller, event: e.ClosedOut, h: Happening) -> Told:
    return Told("CLOSED_OUT", say("filing.story.closed"), t.parts(event.tools, event.cover, event.locks, t.name(h.by)))


def _noted(t: Teller, event: e.Noted, h: Happening) -> Told:
    return Told("PEN", say("filing.story.noted", text=event.text), t.name(h.by))


_WAYS: dict[type[Event], Callable[..., Told]] = {
    e.PermitOpened: _opened,
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
    e.WentIn: _in,
    e.WentOut: _out,
    e.SomeoneWentIn: _someone,
    e.SomeoneNamed: _someone_named,
    e.ContactMade: _contact,
    e.ConditionReported: _condition,
    e.ConditionCleared: _cleared,
    e.BreakBegun: _break,
    e.BreakEnded: _back,
    e.StopOrdered: _stop,
    e.StopDetermined: _determined,
    e.Reendorsed: _reendorsed,
    e.Extended: _extended,
    e.WorkStepChanged: _step,
    e.SupervisionHandedOver: _handed,
    e.Ended: _ended,
    e.ClosedOut: _closed,
    e.Noted: _noted,
}
"""The way to tell each kind of event; a test holds it against the list of events."""
