"""What a permit takes at this moment: the conditions of each act of authority and each step, in one room.

A fact of the world (out, someone went in, a stop, a reading, a condition) is always taken; an act that gives leave is
taken only when nothing stands against it. The office asks here before it records; a permit that is read from a file is
judged by the same answers.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from lamproom.bench.happening import Event
from lamproom.permit import events as e
from lamproom.permit.asked import hot_work, other_employer
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles import Obstacle, Stage, barring
from lamproom.permit.people import trained
from lamproom.permit.plain_reading import plain_reading
from lamproom.permit.state import Permit, only_before
from lamproom.permit.timing import expired
from lamproom.words import Sentence, sentence


@dataclass(frozen=True, slots=True)
class Refused:
    """Why an act is not taken; ``standing`` are the obstacles behind it, empty when the act itself cannot be."""

    why: Sentence
    standing: tuple[Obstacle, ...] = ()


AFTER_ENDED: tuple[type[Event], ...] = (
    e.WentOut,
    e.SomeoneWentIn,
    e.SomeoneNamed,
    e.ReadingsTaken,
    e.ReadingCorrected,
    e.ContactMade,
    e.ConditionReported,
    e.StopOrdered,
    e.Relieved,
    e.ClosedOut,
    e.PageFiled,
    e.Noted,
    e.VentilationStopped,
    e.VentilationStarted,
    e.ConditionCleared,
    e.InstrumentAssigned,
    e.InstrumentReturned,
    e.HoseTested,
    e.PointReleased,
    e.RescueConfirmed,
    e.RescueCallTried,
    e.WatchTaken,
)
"""After its end a permit still takes outs, readings, calls, rescue, what serves those inside, notes and corrections,
until it is closed out."""

AFTER_CLOSED_OUT: tuple[type[Event], ...] = (
    e.Noted,
    e.PageFiled,
    e.ReadingCorrected,
    e.StopOrdered,
    e.SomeoneWentIn,
    e.SomeoneNamed,
    e.WentOut,
)
"""Even then someone may go in, or order everyone out: facts are never refused."""


def allowed(permit: Permit, event: Event) -> Sentence | None:
    """Why this point of the permit's life no longer takes the event; None when it does."""
    if permit.closed_out is not None and not isinstance(event, AFTER_CLOSED_OUT):
        return sentence("office.closed_out", number=permit.number)
    if permit.ended is not None and not isinstance(event, AFTER_ENDED):
        return sentence("office.ended", number=permit.number)
    if permit.authorised is not None and only_before(permit, event):
        return sentence("office.needs_new_permit", number=permit.number)
    return None


def takes(facts: Facts, event: Event, by: str | None) -> Refused | None:
    """Why the permit does not take this act of this person now; None when it does."""
    late = allowed(facts.permit, event)
    if late is not None:
        return Refused(late)
    condition = _CONDITIONS.get(type(event))
    return condition(facts, event, by) if condition is not None else None


def _supervisor(facts: Facts, by: str | None) -> Refused | None:
    """An act of authority is that of someone trained as entry supervisor today."""
    person = facts.people.get(by or "")
    if person is None or not trained(person, "supervisor", facts.at.astimezone(facts.permit.zone).date()):
        return Refused(sentence("office.not_supervisor", name=facts.name(by or "?")))
    return None


def _authorised(facts: Facts, event: e.Authorised, by: str | None) -> Refused | None:
    permit = facts.permit
    if permit.authorised is not None:
        return Refused(sentence("office.already_authorised", number=permit.number))
    standing = barring(facts, Stage.AUTHORISE)
    if standing:
        return Refused(sentence("office.barred_authorise", first=standing[0].sentence, count=len(standing)), standing)
    if permit.hours is None:
        return Refused(sentence("office.authorise_hours"))
    if permit.supervisor != by:
        return Refused(sentence("office.other_supervisor", name=facts.name(by or "?")))
    return _supervisor(facts, by)


def _reendorsed(facts: Facts, event: e.Reendorsed, by: str | None) -> Refused | None:
    if facts.permit.awaits not in ("break", "stop"):
        return Refused(sentence("office.nothing_to_endorse"))
    standing = tuple(o for o in barring(facts, Stage.ENTER) if o.code != "reendorse")
    if standing:
        name = facts.name(by or "?")
        said = sentence("office.entry_barred", name=name, first=standing[0].sentence, count=len(standing))
        return _supervisor(facts, by) or Refused(said, standing)
    return _supervisor(facts, by)


def _went_in(facts: Facts, event: e.WentIn, by: str | None) -> Refused | None:
    permit, name = facts.permit, facts.name(event.person)
    if event.person not in permit.entrants:
        return Refused(sentence("office.not_entrant", name=name))
    if permit.tally.is_inside(event.person):
        return Refused(sentence("office.already_inside", name=name))
    standing = barring(facts, Stage.ENTER)
    if standing:
        said = sentence("office.entry_barred", name=name, first=standing[0].sentence, count=len(standing))
        return Refused(said, standing)
    return None


def _determined(facts: Facts, event: e.StopDetermined, by: str | None) -> Refused | None:
    permit = facts.permit
    if permit.stop is None:
        return Refused(sentence("office.no_stop"))
    if permit.tally.inside and event.finding == "none-arose":
        return Refused(sentence("office.determine_inside", count=len(permit.tally.inside)))
    if not event.reason.strip():
        return Refused(sentence("office.determine_reason"))
    if event.finding == "none-arose" and plain_reading(permit):
        return Refused(sentence("office.reading_is_plain"))
    return _supervisor(facts, by)


def _ended(facts: Facts, event: e.Ended, by: str | None) -> Refused | None:
    permit = facts.permit
    if event.cause == "never-entered" and permit.tally.trips:
        return Refused(sentence("office.was_entered"))
    if event.cause == "expired" and not expired(facts):
        return Refused(sentence("office.not_expired"))
    undetermined = permit.stop is not None and event.cause != "prohibited-condition"
    if undetermined or (event.cause == "work-complete" and permit.authorised is None):
        return Refused(sentence("office.determine_first"))
    return _supervisor(facts, by)


def _watch_taken(facts: Facts, event: e.WatchTaken, by: str | None) -> Refused | None:
    permit = facts.permit
    if event.person not in permit.attendants:
        return Refused(sentence("office.not_attendant", name=facts.name(event.person)))
    if permit.attendant is not None:
        return Refused(sentence("office.watch_held", name=facts.name(permit.attendant)))
    return None


def _relieved(facts: Facts, event: e.Relieved, by: str | None) -> Refused | None:
    permit, name = facts.permit, facts.name(event.incoming)
    if event.incoming not in permit.attendants:
        return Refused(sentence("office.not_attendant", name=name))
    if permit.attendant is None or permit.attendant == event.incoming:
        return Refused(sentence("office.nobody_to_relieve", name=name))
    if permit.tally.is_inside(event.incoming):
        return Refused(sentence("office.attendant_inside", name=name))
    last = permit.sets[-1].version if permit.sets else None
    if event.inside != tuple(trip.who for trip in permit.tally.inside) or event.last_set != last:
        return Refused(sentence("office.facts_changed"))
    return None


def _extended(facts: Facts, event: e.Extended, by: str | None) -> Refused | None:
    """Longer hours are signed before the old ones end, where the form allows it, and never past its longest permit."""
    permit = facts.permit
    until = permit.until
    if permit.authorised is None or not isinstance(permit.authorised.event, e.Authorised) or until is None:
        return Refused(sentence("office.extend_not_authorised"))
    if not permit.form.extend:
        return Refused(sentence("office.extend_not_allowed", title=permit.form.title))
    if facts.at >= until:
        return Refused(sentence("office.extend_too_late"))
    longest = permit.form.hours.longest_h
    hours = (event.ends - permit.authorised.event.begins).total_seconds() / 3600
    if event.ends <= until or hours > longest:
        return Refused(sentence("office.extend_hours", hours=longest))
    if not event.reason.strip():
        return Refused(sentence("office.extend_reason"))
    standing = tuple(o for o in barring(facts, Stage.STAY))
    if standing:
        return Refused(sentence("office.extend_barred", first=standing[0].sentence, count=len(standing)), standing)
    return _supervisor(facts, by)


def _closed_out(facts: Facts, event: e.ClosedOut, by: str | None) -> Refused | None:
    permit = facts.permit
    if permit.ended is None:
        return Refused(sentence("office.not_ended"))
    if permit.tally.inside:
        return Refused(sentence("office.end_inside", count=len(permit.tally.inside)))
    if not (event.tools.strip() and event.cover.strip() and event.locks.strip()):
        return Refused(sentence("office.close_words"))
    if other_employer(facts) and not event.debrief.strip():
        return Refused(sentence("office.close_debrief"))
    if hot_work(facts) and permit.tally.trips:
        done = event.fire_watch_until
        if done is None or done > facts.at or (done - permit.ended.at).total_seconds() < 30 * 60:
            return Refused(sentence("office.close_fire_watch"))
    return None


def _back(facts: Facts, event: e.BreakEnded, by: str | None) -> Refused | None:
    """Back from a break only after the isolation was looked at again."""
    return None if event.isolation_found.strip() else Refused(sentence("office.isolation_found"))


def _cleared(facts: Facts, event: e.ConditionCleared, by: str | None) -> Refused | None:
    """A condition is gone when somebody found it gone."""
    return None if event.found.strip() else Refused(sentence("office.condition_found"))


def _handed_over(facts: Facts, event: e.SupervisionHandedOver, by: str | None) -> Refused | None:
    permit = facts.permit
    serving = permit.supervisors[-1].person if permit.supervisors else permit.supervisor
    if serving is None or serving == event.incoming:
        return Refused(sentence("office.nobody_to_relieve", name=facts.name(event.incoming)))
    return _supervisor(facts, event.incoming)


_CONDITIONS: dict[type[Event], Callable[[Facts, Any, str | None], Refused | None]] = {
    e.Authorised: _authorised,
    e.Reendorsed: _reendorsed,
    e.Extended: _extended,
    e.WentIn: _went_in,
    e.StopDetermined: _determined,
    e.Ended: _ended,
    e.WatchTaken: _watch_taken,
    e.Relieved: _relieved,
    e.SupervisionHandedOver: _handed_over,
    e.ClosedOut: _closed_out,
    e.BreakEnded: _back,
    e.ConditionCleared: _cleared,
}
