"""What is signed, and what the signature means, as plain values."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

from lamproom.office.office import Office
from lamproom.office.permit_change import stream_of
from lamproom.office.views.air_table import AirTable, air_table
from lamproom.office.views.cautions import caution_lines
from lamproom.office.views.listed import listed
from lamproom.office.views.spans import until_words
from lamproom.office.views.workbook import in_order
from lamproom.paper.fingerprint import code_of, in_fours
from lamproom.permit import events as e
from lamproom.permit.facts import Facts, at_point, points
from lamproom.permit.obstacles import Stage, barring
from lamproom.permit.words import clock
from lamproom.words import say, say_count


@dataclass(frozen=True, slots=True)
class Standing:
    """An obstacle as it is listed: the same words as everywhere."""

    code: str
    sentence: str
    clears: str
    rule: str
    target: str


@dataclass(frozen=True, slots=True)
class Part:
    """A row of what is signed: its head and its lines."""

    head: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ReviewView:
    """The whole sheet. ``begins`` and ``ends`` are HH:MM of the hours that would be authorized (empty: not stated)."""

    number: str
    space: str
    standing: tuple[Standing, ...]
    found: str
    cautions: tuple[Part, ...]
    before_air: tuple[Part, ...]
    air: AirTable
    after_air: tuple[Part, ...]
    meaning: str
    begins: str
    ends: str
    supervisor: str | None
    supervisor_name: str
    under_ink: str
    version: str
    fingerprint: str
    done: str
    facts: tuple[str, ...]


def review_view(office: Office, number: str) -> ReviewView:
    """The sheet as it stands now. Refused when there is no such permit."""
    facts = office.facts(number)
    permit = facts.permit
    standing = tuple(
        Standing(o.code, o.sentence.say(), o.clears.say(), o.rule, o.target)
        for o in listed(in_order(barring(facts, Stage.AUTHORISE)))
    )
    begins, ends = _hours(facts)
    version, tail = office.journal.tail(stream_of(number))
    supervisor = facts.name(permit.supervisor) if permit.supervisor is not None else ""
    done = ""
    if permit.authorised is not None:
        done = say("sheets.review.done", time=clock(permit.authorised.at, permit.zone), until=ends)
    return ReviewView(
        number=number,
        space=permit.opened.registered.name,
        standing=standing,
        found=_found(facts),
        cautions=_cautions(facts),
        before_air=(_work(facts), _people(facts), _rescue(facts), _instruments(facts)),
        air=air_table(facts),
        after_air=(_hazards(facts), _not_applying(facts)),
        meaning=_meaning(facts, begins, ends),
        begins=begins,
        ends=ends,
        supervisor=permit.supervisor,
        supervisor_name=supervisor,
        under_ink=say("sheets.review.under_ink", name=supervisor, at=_day_and_time(facts)),
        version=say("sheets.review.version", version=version),
        fingerprint=in_fours(code_of(tail)),
        done=done,
        facts=_question(facts),
    )


def _hours(facts: Facts) -> tuple[str, str]:
    """From the later of plan and now, to the planned end; once authorized, as authorized."""
    permit = facts.permit
    if permit.authorised is not None and isinstance(permit.authorised.event, e.Authorised):
        event = permit.authorised.event
        return clock(event.begins, permit.zone), clock(event.ends, permit.zone)
    if permit.hours is None:
        return "", ""
    return clock(max(permit.hours.begins, facts.at), permit.zone), clock(permit.hours.ends, permit.zone)


def _day_and_time(facts: Facts) -> str:
    """The site's day and time without its offset: for the line under the ink, where the page says the offset."""
    local = facts.at.astimezone(facts.permit.zone)
    return f"{local.day} {local.strftime('%b %Y %H:%M')}"


def _found(facts: Facts) -> str:
    """When it was computed, and what falls due next by the readings."""
    permit = facts.permit
    at = facts.at.astimezone(permit.zone).strftime("%H:%M:%S")
    tested = [s.event.taken for depth in points(permit) or () if (s := at_point(facts, depth)) is not None]
    if not tested:
        return say("sheets.review.computed", time=at)
    old = min(tested) + timedelta(minutes=permit.form.retest.verification_min)
    return say("sheets.review.computed_until", time=at, until=clock(old, permit.zone))


def _meaning(facts: Facts, begins: str, ends: str) -> str:
    if not begins:
        return say("sheets.review.meaning_no_hours")
    if not facts.permit.entrants:
        return say("sheets.review.meaning_nobody", begins=begins, ends=ends)
    return say("sheets.review.meaning", begins=begins, ends=ends, names=_names(facts, facts.permit.entrants))


def _question(facts: Facts) -> tuple[str, ...]:
    permit = facts.permit
    tested = [s.event.taken for depth in points(permit) or () if (s := at_point(facts, depth)) is not None]
    last = say("sheets.review.q_tested", time=clock(max(tested), permit.zone)) if tested else ""
    said = (
        say("sheets.review.q_entrants", names=_names(facts, permit.entrants)),
        say_count("sheets.review.q_attendants", len(permit.attendants), names=_names(facts, permit.attendants)),
        last,
        _not_applying(facts).lines[0],
    )
    return tuple(line for line in said if line)


def _names(facts: Facts, people: tuple[str, ...]) -> str:
    return ", ".join(facts.name(person) for person in people) or say("sheets.review.nobody")


def _cautions(facts: Facts) -> tuple[Part, ...]:
    """What bars nothing and is to be known before signing, each with its rule; no row where there is none."""
    lines = tuple(say("sheets.review.caution", words=one.words, rule=one.rule) for one in caution_lines(facts))
    return (Part(say("sheets.review.cautions"), lines),) if lines else ()


# The rows -------------------------------------------------------------------------------------------------------------


def _work(facts: Facts) -> Part:
    permit = facts.permit
    lines = [permit.purpose or say("permit.purpose_missing")]
    other = permit.answers.get("other-permits")
    if other is not None and isinstance(other.event, e.Answered):
        if other.event.answer == "yes":
            lines.append(say("sheets.review.other_permits", found=other.event.found))
        else:
            lines.append(say("sheets.review.no_other_permits"))
    return Part(say("sheets.review.work"), tuple(lines))


def _hazards(facts: Facts) -> Part:
    return Part(say("sheets.review.hazards"), tuple(_controls(facts)) or (say("sheets.review.nothing"),))


def _controls(facts: Facts) -> Iterator[str]:
    permit = facts.permit
    for id, name, _shows, _gas in permit.hazards():
        made = permit.held.get(id)
        if made is None or not isinstance(made.event, e.HazardHeld):
            yield say("permit.hazard_open", hazard=name)
        elif made.event.held:
            yield say("sheets.review.held", hazard=name, how=made.event.how)
        else:
            yield say("sheets.review.not_today", hazard=name, why=made.event.how)
    for point in permit.opened.evaluated.isolation:
        made = permit.isolated.get(point.id)
        if made is not None and isinstance(made.event, e.PointIsolated):
            second = facts.name(made.event.verified_by) if made.event.verified_by else say("sheets.review.nobody")
            kind = "sheets.review.isolated" if made.event.tried_dead else "sheets.review.isolated_not_tried"
            yield say(kind, point=point.name, lock=made.event.lock, name=second)
        else:
            yield say("permit.isolation_open", point=point.name)
    if permit.opened.evaluated.unisolable:
        yield say("sheets.review.unisolable", why=permit.opened.evaluated.unisolable)
    fan = permit.fan.event if permit.fan is not None else None
    if permit.fan is not None and isinstance(fan, e.VentilationStarted):
        yield say("sheets.review.fan", flow=fan.flow_m3_h, time=clock(permit.fan.at, permit.zone))


def _instruments(facts: Facts) -> Part:
    permit = facts.permit
    lines = []
    for one in permit.instruments.values():
        if one.returned is not None:
            continue
        ready = facts.ready(one.instrument)
        duty = say(f"sheets.review.duty.{one.duty}")
        if ready.until is not None:
            until = until_words(ready.until, facts.at, permit.zone)
            lines.append(say("sheets.review.ready", name=one.registered.name, duty=duty, until=until))
        else:
            lines.append(say("sheets.review.not_ready", name=one.registered.name, duty=duty))
    return Part(say("sheets.review.instruments"), tuple(lines) or (say("permit.no_instrument"),))


def _people(facts: Facts) -> Part:
    permit = facts.permit
    briefed = [p for p in (*permit.entrants, *permit.attendants) if p in permit.briefed]
    lines = (
        say(
            "sheets.review.people_in",
            entrants=_names(facts, permit.entrants),
            attendants=_names(facts, permit.attendants),
        ),
        say(
            "sheets.review.briefed",
            n=len(briefed),
            all=len(permit.entrants) + len(permit.attendants),
            name=_names(facts, (permit.supervisor,) if permit.supervisor else ()),
        ),
    )
    return Part(say("sheets.review.people"), lines)


def _rescue(facts: Facts) -> Part:
    permit = facts.permit
    lines = []
    rescue = permit.rescue.event if permit.rescue is not None else None
    service = permit.opened.evaluated.rescue.service
    if isinstance(rescue, e.RescueConfirmed):
        until = clock(rescue.good_until, permit.zone)
        lines.append(say("sheets.review.rescue", service=service, until=until, minutes=rescue.response_min))
    else:
        lines.append(say("permit.rescue_open", service=service))
    call = permit.call_tried
    if call is not None and isinstance(call.event, e.RescueCallTried):
        at = clock(call.at, permit.zone)
        lines.append(say("sheets.review.call", means=call.event.means, time=at, seconds=call.event.seconds))
    else:
        lines.append(say("permit.call_not_tried"))
    return Part(say("sheets.review.rescue_head"), tuple(lines))


def _not_applying(facts: Facts) -> Part:
    """How many questions do not apply: those of the day, and those that the evaluation answered for good."""
    permit = facts.permit
    answers = [made.event for made in permit.answers.values() if isinstance(made.event, e.Answered)]
    count = sum(1 for event in answers if event.answer == "does not apply")
    count += len(permit.opened.evaluated.standing)
    words = say_count("sheets.review.not_applying_n", count) if count else say("sheets.review.all_apply")
    return Part(say("sheets.review.not_applying"), (words,))
