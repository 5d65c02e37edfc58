"""Who is on the page: entrants, attendants, supervisor, the tally, the signatures."""

from __future__ import annotations

from datetime import datetime

from lamproom.office.page.parts import Pages, lasting, nobody_can_follow, strokes_of
from lamproom.paper import content as c
from lamproom.permit import events as e
from lamproom.permit.state import Duty, Made
from lamproom.permit.tally import Trip
from lamproom.words import say, say_count


def entrants(pages: Pages) -> tuple[c.Entrant, ...]:
    """Item 4, with when each was inside."""
    return tuple(
        c.Entrant(pages.name(p), say("page.entrant"), _trained(pages, p, "entrant"), _inside_words(pages, p))
        for p in pages.permit.entrants
    )


def _trips(pages: Pages, who: str) -> list[Trip]:
    return [trip for trip in pages.permit.tally.trips if trip.who == who]


def _inside_words(pages: Pages, who: str) -> str:
    trips = _trips(pages, who)
    return ", ".join(_span_words(pages, trip) for trip in trips) if trips else _not_inside(pages)


def _not_inside(pages: Pages) -> str:
    return say("page.did_not_enter" if nobody_can_follow(pages) else "page.not_yet_inside")


def _span_words(pages: Pages, trip: Trip) -> str:
    if trip.went_out is None:
        return say("page.since", time=pages.clock(trip.came_in))
    return say("page.from_to", begins=pages.clock(trip.came_in), ends=pages.clock(trip.went_out))


def _trained(pages: Pages, person: str, role: str) -> str:
    known = pages.facts.people.get(person)
    training = known.training(role) if known is not None else None
    if training is None:
        return say("page.not_trained")
    return (
        training.good_until.isoformat()
        if training.good_until
        else say("page.trained_on", day=training.trained_on.isoformat())
    )


def attendants(pages: Pages) -> tuple[c.Attendant, ...]:
    """Item 5, in the order of the watches; someone named who has not watched says so."""
    rows = []
    for duty in pages.permit.watch:
        ends = _watch_ends(pages, duty)
        watch = (
            say("page.from_to", begins=pages.clock(duty.since), ends=pages.clock(ends))
            if ends is not None
            else say("page.since", time=pages.clock(duty.since))
        )
        relief = (
            _relief(pages, duty)
            if duty.until is not None
            else say("page.serving" if ends is None else "page.to_the_end")
        )
        rows.append(c.Attendant(pages.name(duty.person), watch, _trained(pages, duty.person, "attendant"), relief))
    served = {duty.person for duty in pages.permit.watch}
    rows += [
        c.Attendant(pages.name(p), _not_on_watch(pages), _trained(pages, p, "attendant"), say("page.no_relief"))
        for p in pages.permit.attendants
        if p not in served
    ]
    return tuple(rows)


def _not_on_watch(pages: Pages) -> str:
    return say("page.not_on_watch" if nobody_can_follow(pages) else "page.not_on_watch_yet")


def _watch_ends(pages: Pages, duty: Duty) -> datetime | None:
    """When a watch ended: with the hand-over; or, of the last, when the permit had ended and nobody was inside."""
    if duty.until is not None:
        return duty.until
    permit = pages.permit
    if permit.ended is None or permit.tally.inside:
        return None
    outs = [trip.went_out for trip in permit.tally.trips if trip.went_out is not None]
    return max(permit.ended.at, duty.since, *outs)


def _relief(pages: Pages, duty: Duty) -> str:
    """Who took over and what that person agreed with a code; the one who went off signed nothing."""
    for made in pages.permit.signed:
        if isinstance(made.event, e.Relieved) and made.event.outgoing == duty.person and made.at == duty.until:
            event = made.event
            count = len(event.open_alarms)
            return say(
                "page.relieved",
                incoming=pages.name(event.incoming),
                inside=len(event.inside),
                last=say("page.relieved.last" if event.last_set is not None else "page.relieved.no_set"),
                alarms=say_count("page.relieved.alarms", count) if count else say("page.relieved.no_alarm"),
                outgoing=pages.name(event.outgoing),
            )
    return say("page.no_relief")


def supervisor(pages: Pages) -> tuple[c.Said, ...]:
    """Item 6: who serves now, and who originally authorized."""
    permit = pages.permit
    if permit.supervisor is None:
        return ()
    part = say("page.supervisor_serving" if permit.ended is None else "page.supervisor_served")
    said = [c.Said(pages.name(permit.supervisor) + ",", part)]
    if permit.authorised is not None:
        said.append(
            c.Said(
                "",
                say(
                    "page.authorized_by",
                    name=pages.name(permit.authorised.by),
                    time=pages.moment(permit.authorised.at),
                ),
            )
        )
    return tuple(said)


def tally(pages: Pages) -> c.Tally:
    """One row for each person who went in, and who stood watch."""
    permit = pages.permit
    rows = []
    for who in dict.fromkeys(trip.who for trip in permit.tally.trips):
        trips = _trips(pages, who)
        unknown = trips[0].unknown
        ends = [trip.went_out or pages.facts.at for trip in trips]
        total = sum(((end - trip.came_in) for trip, end in zip(trips, ends, strict=True)), start=ends[0] - ends[0])
        role = say(f"page.someone.{trips[0].what or 'unknown'}") if unknown else say("page.entrant")
        rows.append(
            c.Inside(
                name=pages.name(who),
                short=pages.name(who).split()[-1] if not unknown else pages.name(who),
                role=role,
                spans=tuple(_span(pages, trip.came_in, trip.went_out) for trip in trips),
                times=tuple(_span_words(pages, trip) for trip in trips),
                total=lasting(total),
            )
        )
    watches = tuple(
        c.Watch(pages.name(d.person).split()[-1], _span(pages, d.since, _watch_ends(pages, d))) for d in permit.watch
    )
    none = say("page.brief.nobody" if nobody_can_follow(pages) else "page.brief.nobody_yet")
    return c.Tally(tuple(rows), watches, none_words=none)


def _span(pages: Pages, begins: datetime, ends: datetime | None) -> c.Span:
    return c.Span(pages.local(begins), pages.local(ends) if ends is not None else None)


_MEANS: dict[type, str] = {
    e.Authorised: "authorised",
    e.Reendorsed: "reendorsed",
    e.Extended: "extended",
    e.StopDetermined: "determined",
    e.SupervisionHandedOver: "handed_over",
    e.Ended: "ended",
    e.ClosedOut: "closed_out",
    e.WatchTaken: "watch_taken",
    e.Relieved: "relieved",
}


def signatures(pages: Pages) -> tuple[c.Signature, ...]:
    """Everyone's signature in order of time, with what it means and which version was signed."""
    done: list[c.Signature] = []
    for made in pages.permit.signed:
        if isinstance(made.event, e.Briefed):
            for ink in made.event.inks:
                role = "attendant" if ink.person in pages.permit.attendants else "entrant"
                done.append(_signature(pages, len(done) + 1, ink.person, role, "briefed", made.at, made.version, ink))
            continue
        meaning = _meaning(pages, made)
        ink_of = getattr(made.event, "ink", None)
        role = _role(pages, made)
        coded = not isinstance(made.event, _WITHOUT_CODE)
        off = pages.name(made.event.outgoing) if isinstance(made.event, e.Relieved) else ""
        done.append(_signature(pages, len(done) + 1, made.by, role, meaning, made.at, made.version, ink_of, coded, off))
    return tuple(done)


def _meaning(pages: Pages, made: Made) -> str:
    """What a signature means; on a certificate the two that grant and end say so in its own terms."""
    meaning = _MEANS[type(made.event)]
    certified = pages.certificate is not None and isinstance(made.event, e.Authorised | e.Ended)
    return f"{meaning}.{pages.permit.route}" if certified else meaning


_WITHOUT_CODE = (e.WatchTaken, e.ClosedOut)
"""Acts that ask nobody's code: the station records them in the person's name."""


def _role(pages: Pages, made: Made) -> str:
    """The part that the act itself needs; a close-out may be anyone's, so there the person's own part counts."""
    if isinstance(made.event, e.WatchTaken | e.Relieved):
        return "attendant"
    if not isinstance(made.event, e.ClosedOut):
        return "supervisor" if pages.certificate is None else "certifier"
    permit = pages.permit
    if made.by == permit.supervisor:
        return "supervisor" if pages.certificate is None else "certifier"
    watched = {duty.person for duty in permit.watch} | set(permit.attendants)
    return "attendant" if made.by in watched else "entrant" if made.by in permit.entrants else ""


def _signature(
    pages: Pages,
    number: int,
    person: str | None,
    role: str,
    meaning: str,
    at: datetime,
    version: int,
    ink: e.Ink | None,
    by_code: bool = False,
    outgoing: str = "",
) -> c.Signature:
    text = say(f"page.means.{meaning}.text", outgoing=outgoing)
    said = c.Said(say(f"page.means.{meaning}.lead"), text)
    as_role = say(f"page.role.{role}") if role else ""
    return c.Signature(number, pages.name(person), as_role, said, pages.moment(at), version, strokes_of(ink), by_code)
