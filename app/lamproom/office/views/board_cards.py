"""One permit as a card: its state, its space, who is inside, what is next; in that order and place."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from lamproom.office.office import Office
from lamproom.office.views.listed import listed
from lamproom.office.views.spans import ago, ahead, late_by
from lamproom.office.views.workbook import in_order
from lamproom.permit.facts import Facts
from lamproom.permit.obstacles import Obstacle, Stage, obstacles
from lamproom.permit.state import Permit
from lamproom.permit.timing import RetestTimes, contact_late, retest
from lamproom.permit.words import State, clock, state_of, stop_words
from lamproom.words import say, say_count


class Section(Enum):
    """Where a card stands, in the order of need."""

    OVERDUE = "overdue"
    UNDER_WAY = "under way"
    PREPARING = "being prepared"
    ENDED = "ended today"


SIGNS: dict[State, str] = {
    State.DRAFT: "SOME_OPEN",
    State.READY: "WITHIN",
    State.WAITS: "DUE",
    State.ALLOWED: "ALLOWED",
    State.DUE: "DUE",
    State.LATE: "CAUTION",
    State.REFUSED: "REFUSED",
    State.OUT: "DANGER",
    State.BREAK: "SUSPENDED",
    State.EXPIRED: "CAUTION",
    State.ENDED: "ENDED",
    State.CLOSED: "CLOSED_OUT",
}
"""The sign of each state, by the name of the desk's signs."""

REASONS = 2
"""So many reasons stand on a card; the Watch shows all."""

_OVERDUE = (State.OUT, State.LATE, State.EXPIRED)


@dataclass(frozen=True, slots=True)
class Rule:
    """A time rule: from the last set to the second bound; when the next falls due and from when it is late."""

    start: datetime
    due: datetime
    late: datetime
    end: datetime
    words: str


@dataclass(frozen=True, slots=True)
class Card:
    """A permit on the Board. ``lines`` are pairs of a sign's name and words. ``band`` are the few words beside the
    large sign of an overdue card, ``reason`` its sentence, ``after`` what happens next if nobody acts.
    ``opens`` is the place a press shows: 'workbook', 'watch' or 'filing'; ``target`` where in it."""

    number: str
    section: Section
    order: tuple[float, ...]
    state: State
    sign: str
    word: str
    permit: str
    space: str
    place: str
    inside: int
    inside_words: str
    people: str
    lines: tuple[tuple[str, str], ...]
    rule: Rule | None
    opens: str
    open_words: str
    band: str = ""
    reason: str = ""
    last: str = ""
    after: str = ""
    target: str = ""


def card_of(office: Office, number: str, at: datetime) -> Card:
    """The card of a permit at a moment."""
    facts = office.facts(number, at)
    permit = facts.permit
    standing = obstacles(facts)
    times = retest(facts)
    barred = frozenset(stage.value for one in standing for stage in one.stages)
    codes = frozenset(one.code for one in standing if one.bars(Stage.ENTER))
    state = state_of(permit, at, barred, times.due if times else None, times.late if times else None, codes)
    silent = contact_late(facts)
    section = _section(permit, state, silent)
    opens = {Section.PREPARING: "workbook", Section.ENDED: "filing"}.get(section, "watch")
    first = _first(standing, Stage.AUTHORISE)
    return Card(
        number=number,
        section=section,
        order=_order(permit, state, section, at),
        state=state,
        sign="CAUTION" if silent is not None and state not in _OVERDUE else SIGNS[state],
        word=_word(permit, state, standing),
        permit=say("board.permit_draft" if permit.authorised is None else "board.permit", number=number),
        space=permit.opened.registered.name,
        place=permit.opened.registered.place,
        inside=len(permit.tally.inside),
        inside_words=_inside(permit),
        people=_people(facts),
        lines=_lines(facts, state, standing, times),
        rule=None if state is State.OUT else _rule(facts, times),
        opens=opens,
        open_words=say(f"board.open.{opens}"),
        band=_band(facts, state, times),
        reason=_reason(facts, state, standing, times),
        last=_last(facts, times),
        after=_after(facts, state, times),
        target=first.target if section is Section.PREPARING and first else "",
    )


def _section(permit: Permit, state: State, silent: datetime | None) -> Section:
    """``silent``: since when word with those inside is late; that waits for someone like a late set does."""
    if state in _OVERDUE or silent is not None:
        return Section.OVERDUE
    if permit.authorised is None and permit.ended is None:
        return Section.PREPARING
    if permit.closed_out is not None or (permit.ended is not None and permit.authorised is None):
        return Section.ENDED
    return Section.UNDER_WAY


def _order(permit: Permit, state: State, section: Section, at: datetime) -> tuple[float, ...]:
    """Danger before lateness; then whoever has people inside; then by time."""
    if section is Section.OVERDUE:
        urgency = _OVERDUE.index(state if state in _OVERDUE else State.LATE)
        return (float(urgency), -float(len(permit.tally.inside)))
    if section is Section.UNDER_WAY:
        until = permit.until or at
        return (0.0 if permit.tally.inside else 1.0, until.timestamp())
    if section is Section.PREPARING:
        return (permit.hours.begins.timestamp() if permit.hours else float("inf"),)
    done = permit.closed_out or permit.ended
    return (done.at.timestamp() if done else 0.0,)


def _first(standing: tuple[Obstacle, ...], stage: Stage) -> Obstacle | None:
    """What stands first in the Workbook too."""
    return next((one for one in in_order(standing) if one.bars(stage)), None)


def _word(permit: Permit, state: State, standing: tuple[Obstacle, ...]) -> str:
    if state is State.DRAFT:
        return say_count("board.things", len(listed(one for one in standing if one.bars(Stage.AUTHORISE))))
    words = say(f"permit.state.{state.value}")
    return words[:1].upper() + words[1:]


def _inside(permit: Permit) -> str:
    count = len(permit.tally.inside)
    return say("board.count_inside", count=str(count)) if count else say("board.nobody_inside_card")


def _people(facts: Facts) -> str:
    zone = facts.permit.zone
    return ", ".join(
        say("board.person_in", name=trip.name or facts.name(trip.who), time=clock(trip.came_in, zone))
        for trip in facts.permit.tally.inside
    )


def _rule(facts: Facts, times: RetestTimes | None) -> Rule | None:
    if times is None or not facts.permit.running or not facts.permit.tally.inside:
        return None
    zone = facts.permit.zone
    words = say("board.rule", due=clock(times.due, zone), bound=clock(times.bound, zone))
    return Rule(times.last.event.taken, times.due, times.late, times.bound, words)


def _lines(
    facts: Facts, state: State, standing: tuple[Obstacle, ...], times: RetestTimes | None
) -> tuple[tuple[str, str], ...]:
    permit = facts.permit
    if state is State.CLOSED or (permit.ended is not None and permit.authorised is None):
        return _ending(facts)
    if permit.ended is not None:
        return (("SHEET", say("board.close_out_waits")), *_ending(facts))
    if permit.authorised is None:
        return _preparing(facts, standing)
    lines: list[tuple[str, str]] = []
    if state is State.BREAK and permit.pause is not None:
        lines.append(("SUSPENDED", say("board.break_since", time=clock(permit.pause.begun.at, permit.zone))))
    else:
        barring = list({one.code: one for one in reversed(standing) if one.bars(Stage.ENTER)}.values())[::-1]
        sign = "DUE" if state is State.WAITS else "CROSS"
        lines += [(sign, one.sentence.say()) for one in barring[:REASONS]]
    lines.append(("CLOCK", _hours(facts, times)))
    silent = contact_late(facts)
    if state in _OVERDUE:
        lines = [("CAUTION", _contact(facts, silent))] if silent is not None else []
    if state in _OVERDUE or silent is not None:
        lines.append(("RADIO", _attendant(facts)))
    return tuple(lines)


def _contact(facts: Facts, due: datetime) -> str:
    return say("board.reason.contact", due=clock(due, facts.permit.zone))


def _attendant(facts: Facts) -> str:
    attendant = facts.permit.attendant
    return say("board.attendant", name=facts.name(attendant)) if attendant else say("board.no_attendant")


def _hours(facts: Facts, times: RetestTimes | None) -> str:
    permit = facts.permit
    ends = clock(permit.until, permit.zone) if permit.until else ""
    if times is not None and permit.tally.inside:
        due = clock(times.due, permit.zone)
        if facts.at >= times.due:
            return say("board.reading_due", due=due, by=late_by(facts.at - times.due), ends=ends)
        return say("board.next_reading", due=due, when=ahead(facts.at, times.due), ends=ends)
    return say("board.ends", ends=ends, when=ahead(facts.at, permit.until) if permit.until else "")


def _preparing(facts: Facts, standing: tuple[Obstacle, ...]) -> tuple[tuple[str, str], ...]:
    permit = facts.permit
    first = _first(standing, Stage.AUTHORISE)
    who = facts.name(permit.supervisor) if permit.supervisor else say("board.nobody_yet")
    hours = permit.hours
    planned = (
        say("board.planned", begins=clock(hours.begins, permit.zone), ends=clock(hours.ends, permit.zone), who=who)
        if hours
        else say("board.not_planned", who=who)
    )
    step = first.sentence.say() if first else say("board.authorise_next")
    return ("RIGHT", step), ("CLOCK", planned)


def _ending(facts: Facts) -> tuple[tuple[str, str], ...]:
    permit = facts.permit
    lines: list[tuple[str, str]] = []
    if permit.ended is not None:
        cause = getattr(permit.ended.event, "cause", "")
        words = say(f"permit.cause.{cause}")
        ended = say("board.ended_at", cause=words[:1].upper() + words[1:], time=clock(permit.ended.at, permit.zone))
        lines.append(("CLOCK", ended))
    outs = [trip.went_out for trip in permit.tally.trips if trip.went_out is not None]
    if outs and not permit.tally.inside:
        lines.append(("GO_OUT", say("board.everyone_out", time=clock(max(outs), permit.zone))))
    return tuple(lines)


def _band(facts: Facts, state: State, times: RetestTimes | None) -> str:
    if state is State.LATE and times is not None:
        return say("board.band.late", by=late_by(facts.at - times.due))
    silent = contact_late(facts)
    if silent is not None and state not in _OVERDUE:
        return say("board.band.contact", by=late_by(facts.at - silent))
    return {State.OUT: say("board.band.out"), State.EXPIRED: say("board.band.expired")}.get(state, "")


def _reason(facts: Facts, state: State, standing: tuple[Obstacle, ...], times: RetestTimes | None) -> str:
    permit = facts.permit
    if state is State.LATE and times is not None:
        return say("board.reason.late", due=clock(times.due, permit.zone))
    if state is State.EXPIRED and permit.until is not None:
        return say("board.reason.expired", time=clock(permit.until, permit.zone))
    if state is State.OUT:
        if permit.stop is not None and permit.ended is None:
            cause = stop_words(permit, permit.stop)
            return say("board.reason.stopped", time=clock(permit.stop.at, permit.zone), cause=cause)
        staying = _first(standing, Stage.STAY)
        return staying.sentence.say() if staying and permit.ended is None else say("board.reason.inside_without")
    silent = contact_late(facts)
    return "" if silent is None else _contact(facts, silent)


def _last(facts: Facts, times: RetestTimes | None) -> str:
    if times is None or not facts.permit.running:
        return ""
    taken = times.last.event.taken
    return say("board.last_reading", time=clock(taken, facts.permit.zone), ago=ago(taken, facts.at))


def _after(facts: Facts, state: State, times: RetestTimes | None) -> str:
    permit = facts.permit
    if state is State.LATE and times is not None:
        return say("board.after.late", time=clock(times.bound, permit.zone))
    if state is State.OUT:
        return say("board.after.out") if permit.tally.inside else say("board.after.determine")
    if state is State.EXPIRED:
        return say("board.after.expired")
    return "" if contact_late(facts) is None else say("board.after.contact")
