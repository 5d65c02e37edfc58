"""The Watch as plain values: the nine things that the attendant always sees, in words, at one moment."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from lamproom.bench.happening import Happening
from lamproom.office.office import Office
from lamproom.office.permit_change import stream_of
from lamproom.office.views.cautions import CautionLine, caution_lines
from lamproom.office.views.listed import listed
from lamproom.office.views.watch_air import GasRow, gas_rows, inside_sets, lasting, shown
from lamproom.office.views.watch_alarms import Alarm, alarms
from lamproom.office.views.watch_trend import trend_cautions
from lamproom.permit import events as e
from lamproom.permit.facts import Facts, at_point, points
from lamproom.permit.obstacles import Obstacle, Stage, obstacles
from lamproom.permit.people import trained
from lamproom.permit.plain_reading import plain_reading
from lamproom.permit.state import Permit
from lamproom.permit.tally import Trip
from lamproom.permit.timing import contact_due, retest
from lamproom.permit.words import State, clock, figure_words, state_of, stop_words
from lamproom.words import say, say_count

NO_TIME = "–:––"

_STOP_CLOCK = {"reading": "limit", "instrument-lost": "loss", "continuous-lost": "loss", "ventilation-stopped": "loss"}
"""What the clock counts from where the station saw why everyone must be out and nobody pressed."""


@dataclass(frozen=True, slots=True)
class Station:
    """What this machine says of itself: a word for the sound, whether it can be heard, battery per cent or None."""

    sound: str = ""
    silent: bool = False
    battery: int | None = None


@dataclass(frozen=True, slots=True)
class Band:
    """The state: a sign, one word or two, one sentence; ``fill`` is '', 'caution' or 'danger'.

    ``mark`` is the sign before a sentence that tells an alarm, empty where it tells the state.
    """

    sign: str
    word: str
    sentence: str
    fill: str = ""
    mark: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """The time rule in seconds: from the last reading to past the grace."""

    end: float
    now: float
    due: float
    grace: float
    due_words: str


@dataclass(frozen=True, slots=True)
class ClockTile:
    """The clock that runs: large digits, two or three lines beside, the rule under them. Without digits nothing runs,
    and the lines stand alone."""

    digits: str
    first: str
    second: str
    third: str = ""
    fill: str = ""
    rule: Rule | None = None


@dataclass(frozen=True, slots=True)
class PersonRow:
    """Someone who is inside or may go in. ``barred``: why going in is not offered now, empty when it is."""

    who: str
    name: str
    inside: bool
    line: str
    short: str
    barred: str = ""
    unknown: bool = False
    over: bool = False
    """The permit has ended: nobody goes in on it any more."""


@dataclass(frozen=True, slots=True)
class ConditionCell:
    """A change that can be reported with one press; ``since`` when it stands reported."""

    id: str
    words: str
    stays: bool
    since: str


@dataclass(frozen=True, slots=True)
class ObstacleLine:
    """What stands in the way, in the same words as everywhere."""

    code: str
    sentence: str
    clears: str
    rule: str
    target: str


@dataclass(frozen=True, slots=True)
class WatchView:
    """Everything on the Watch at one moment."""

    number: str
    space: str
    state: State
    ends: str
    stored: str
    station: tuple[str, ...]
    now: str
    band: Band
    clock: ClockTile
    inside: int
    count_words: str
    count_below: str
    people: tuple[PersonRow, ...]
    gases: tuple[GasRow, ...]
    gases_words: str
    attendant: tuple[str, str]
    contact: str
    contact_late: bool
    rescue: tuple[str, str]
    call: tuple[str, str, str]
    ordered: str
    out_words: str
    obstacles: tuple[ObstacleLine, ...]
    alarms: tuple[Alarm, ...]
    conditions: tuple[ConditionCell, ...]
    late_from: datetime | None
    silent: bool = False
    cautions: tuple[CautionLine, ...] = ()


def watch_view(office: Office, number: str, station: Station | None = None) -> WatchView:
    """The Watch of a permit now. Refused where there is none of that number."""
    station = station or Station()
    facts = office.facts(number)
    found = obstacles(facts)
    permit = facts.permit
    times = retest(facts)
    barred = frozenset(stage.value for one in found for stage in one.stages)
    entering = listed(one for one in found if one.bars(Stage.ENTER))
    codes = frozenset(one.code for one in entering)
    state = state_of(permit, facts.at, barred, times.due if times else None, times.late if times else None, codes)
    rows = gas_rows(facts, aged=state is State.OUT, over=state in (State.ENDED, State.CLOSED))
    order = _order(office, permit)
    standing = alarms(facts, found, station.silent, order.at if order is not None else None)
    people = _people(facts, entering, state)
    return WatchView(
        number=number,
        space=permit.opened.registered.name,
        state=state,
        ends=hours_words(facts),
        stored=_stored(office, permit),
        station=_station(facts, station),
        now=clock(facts.at, permit.zone),
        band=_alarmed(_band(facts, state, entering, found, rows, order), state, standing),
        clock=_clock(facts, state, order),
        inside=len(permit.tally.inside),
        count_words=say("watch.still_inside" if state is State.OUT else "watch.inside"),
        count_below=say("watch.of", count=len(people)),
        people=people,
        gases=rows,
        gases_words=_gases_words(facts),
        attendant=_attendant(facts),
        contact=_contact(facts),
        contact_late=(due := contact_due(facts)) is not None and facts.at > due,
        rescue=_rescue(permit),
        call=_call(office, facts, rows),
        ordered=_ordered(permit, order),
        out_words=_out_words(facts),
        obstacles=tuple(ObstacleLine(o.code, o.sentence.say(), o.clears.say(), o.rule, o.target) for o in entering),
        alarms=standing,
        conditions=_conditions(permit),
        silent=station.silent,
        cautions=(*trend_cautions(facts), *caution_lines(facts)) if permit.running else (),
        late_from=times.due if times is not None and permit.running and permit.tally.inside else None,
    )


def typed_view(view: WatchView, words: str) -> WatchView:
    """The same moment while a figure outside its limit stands typed and not stored: nobody goes in, those inside come
    out, and it is an alarm like any other. ``words``: gas and figure; empty for none."""
    if not words or view.state in (State.ENDED, State.CLOSED):
        return view
    alarm = Alarm(f"typed/{words}", 1, "limit", say("watch.typed", words=words), "", say("watch.alarm.out_do"))
    standing = (alarm, *view.alarms)
    if view.state is State.OUT:
        # An order, or what the record knows, goes before what is only typed.
        standing = tuple(sorted((*view.alarms, alarm), key=lambda one: one.priority))
        return replace(view, alarms=standing)
    line = ObstacleLine("typed", alarm.what, say("watch.typed_clears"), "", "watch/reading")
    return replace(
        view,
        alarms=standing,
        band=Band("DANGER", say("watch.band.typed"), alarm.words.replace("  ", " "), "danger"),
        people=tuple(row if row.inside else replace(row, barred=alarm.what) for row in view.people),
        obstacles=(line, *view.obstacles),
    )


def to_watch(office: Office) -> str | None:
    """The permit that a station shows when none is named: people inside first, then running, then the newest open."""
    open_ones = [permit for number in office.ids("permit") if (permit := office.permit(number)).closed_out is None]
    for wanted in (
        [permit for permit in open_ones if permit.tally.inside],
        [permit for permit in open_ones if permit.running],
        open_ones,
    ):
        if wanted:
            return wanted[-1].number
    return None


def watched(office: Office) -> tuple[tuple[str, str], ...]:
    """Number and space of every permit that is running or has people inside, for changing between them."""
    numbers = (office.permit(number) for number in office.ids("permit"))
    return tuple((p.number, p.opened.registered.name) for p in numbers if p.running or p.tally.inside)


def digits(passed: timedelta) -> str:
    """A running clock: minutes and seconds; hours and minutes once minutes alone would not be read at a glance."""
    seconds = max(0, int(passed.total_seconds()))
    if seconds >= 6000:
        return say("watch.clock.hours", hours=seconds // 3600, minutes=f"{seconds % 3600 // 60:02d}")
    return f"{seconds // 60}:{seconds % 60:02d}"


def hours_words(facts: Facts) -> str:
    """What the head says of the permit's hours."""
    permit, zone = facts.permit, facts.permit.zone
    if permit.closed_out is not None:
        return say("watch.head.closed", time=clock(permit.closed_out.at, zone))
    if permit.ended is not None:
        return say("watch.head.ended", time=clock(permit.ended.at, zone))
    if permit.until is None:
        return say("watch.head.not_authorised")
    ends = clock(permit.until, zone)
    if permit.stop is not None:
        return say("watch.head.stopped", time=clock(permit.stop.at, zone), ends=ends)
    if facts.at >= permit.until:
        return say("watch.head.expired", time=ends)
    authorised = permit.authorised.event if permit.authorised is not None else None
    if isinstance(authorised, e.Authorised) and facts.at < authorised.begins:
        return say("watch.head.hours", begins=clock(authorised.begins, zone), ends=ends)
    return say("watch.head.ends", time=ends, left=lasting(permit.until - facts.at))


def _stored(office: Office, permit: Permit) -> str:
    last = office.happenings(stream_of(permit.number))[-1].at
    return say("watch.head.stored", time=last.astimezone(permit.zone).strftime("%H:%M:%S"))


def _station(facts: Facts, station: Station) -> tuple[str, ...]:
    parts = []
    if not facts.clock_confirmed:
        parts.append(say("watch.head.clock"))
    if station.battery is not None:
        parts.append(say("watch.head.battery", percent=station.battery))
    if station.sound:
        parts.append(station.sound)
    return tuple(parts)


def _band(
    facts: Facts,
    state: State,
    entering: tuple[Obstacle, ...],
    found: tuple[Obstacle, ...],
    rows: tuple[GasRow, ...],
    order: Happening | None,
) -> Band:
    permit, zone = facts.permit, facts.permit.zone
    times = retest(facts)
    due = clock(times.due, zone) if times else ""
    late = clock(times.late, zone) if times else ""
    match state:
        case State.OUT:
            return Band("DANGER", say("watch.band.out"), _out_sentence(facts, found), "danger")
        case State.LATE:
            out = clock(times.bound, zone) if times else ""
            return Band("CAUTION", say("watch.band.late"), say("watch.band.late_do", due=due, out=out), "caution")
        case State.DUE:
            return Band("DUE", say("watch.band.due"), say("watch.band.due_do", due=due, late=late))
        case State.ALLOWED:
            return Band("ALLOWED", say("watch.band.allowed"), _within(facts, rows))
        case State.BREAK:
            since = clock(permit.pause.begun.at, zone) if permit.pause else ""
            return Band("SUSPENDED", say("watch.band.break"), say("watch.band.break_do", time=since))
        case State.EXPIRED:
            return Band("ENDED", say("watch.band.expired"), say("watch.band.expired_do", time=_until(permit)))
        case State.ENDED:
            assert permit.ended is not None and isinstance(permit.ended.event, e.Ended)
            cause = say(f"permit.cause.{permit.ended.event.cause}")
            return Band("ENDED", say("watch.band.ended"), say("watch.band.ended_do", cause=_capital(cause)))
        case State.CLOSED:
            return Band("CLOSED_OUT", say("watch.band.closed"), say("watch.band.closed_do"))
        case State.DRAFT | State.READY:
            return Band("DRAFT", say("watch.band.draft"), say_count("watch.band.draft_do", len(entering)))
        case State.WAITS if not any(one.code == "nobody-on-watch" for one in entering):
            return Band("DUE", say("watch.band.waits"), entering[0].sentence.say())
    if any(one.code == "nobody-on-watch" for one in entering):
        return Band("REFUSED", say("watch.band.nobody"), say("watch.band.nobody_do"))
    return Band(
        "REFUSED",
        say("watch.band.refused"),
        say_count("watch.band.refused_do", len(entering), first=entering[0].sentence),
    )


def _alarmed(band: Band, state: State, standing: tuple[Alarm, ...]) -> Band:
    """No alarm without words: the first that the band does not tell by itself stands in its sentence, on a line of its
    own."""
    told = {State.LATE: "late/", State.DUE: "due/"}.get(state)
    first = next((one for one in standing if told is None or not one.key.startswith(told)), None)
    if first is None or state in (State.OUT, State.CLOSED):
        return band
    words = " ".join(first.words.split())
    sentence = words if state is State.ALLOWED else f"{words}\n{band.sentence}"
    return replace(band, sentence=sentence, mark="CAUTION" if first.priority <= 2 else "BELL")


def _until(permit: Permit) -> str:
    return clock(permit.until, permit.zone) if permit.until is not None else ""


def _within(facts: Facts, rows: tuple[GasRow, ...]) -> str:
    sets = inside_sets(facts.permit)
    if not sets:
        return ""
    last = sets[-1].event
    known = sum(1 for row in rows if row.figure and not row.outside)
    time = clock(last.taken, facts.permit.zone)
    if last.point_m is None:
        return say_count("watch.band.within", known, time=time)
    return say_count("watch.band.within_at", known, time=time, point=last.point_m)


def _out_sentence(facts: Facts, found: tuple[Obstacle, ...]) -> str:
    permit = facts.permit
    stop = permit.stop
    if stop is None:
        staying = next((one for one in found if one.bars(Stage.STAY)), None)
        cause = staying.sentence.say() if staying is not None else say("permit.ended")
        return say("watch.band.out_cause", cause=cause)
    if stop.cause == "pressed":
        time = stop.at.astimezone(permit.zone).strftime("%H:%M:%S")
        return say("watch.band.out_ordered", time=time, name=facts.name(stop.by or permit.attendant or ""))
    return say("watch.band.out_cause", cause=_capital(stop_words(permit, stop).say()) + ".")


def _order(office: Office, permit: Permit) -> Happening | None:
    """The press of EVACUATE that stands. A stop that the station saw before it does not hide that somebody ordered."""
    stop = permit.stop
    if stop is None:
        return None
    for one in office.happenings(stream_of(permit.number)):
        if one.version >= stop.version and isinstance(one.event, e.StopOrdered) and one.event.cause == "pressed":
            return one
    return None


def _out_since(facts: Facts, order: Happening | None) -> tuple[datetime | None, str]:
    """From what moment everyone is to be out, and the name of its words: only a press is an order."""
    permit = facts.permit
    if order is not None:
        return order.at, "order"
    if permit.stop is not None and permit.stop.cause != "retest-overdue":
        return permit.stop.at, _STOP_CLOCK.get(permit.stop.cause, "stop")
    if permit.ended is not None:
        return permit.ended.at, "end"
    if permit.until is not None and facts.at >= permit.until:
        return permit.until, "hours_end"
    sets = [one for one in inside_sets(permit) if permit.stop is None or one.event.taken <= permit.stop.at]
    return (sets[-1].event.taken, "reading") if sets else (None, "reading")


def _clock(facts: Facts, state: State, order: Happening | None) -> ClockTile:
    permit, zone, at = facts.permit, facts.permit.zone, facts.at
    if state is State.OUT:
        since, words = _out_since(facts, order)
        return ClockTile(digits(at - since) if since is not None else NO_TIME, say(f"watch.clock.{words}"), "")
    if permit.ended is not None:
        return ClockTile("", say("watch.clock.ended", time=clock(permit.ended.at, zone)), "", _last_words(facts))
    if state is State.BREAK and permit.pause is not None:
        break_words = say("watch.clock.break", time=clock(permit.pause.begun.at, zone))
        return ClockTile("", break_words, say("watch.clock.break_do"), _last_words(facts))
    if state is State.EXPIRED and permit.until is not None:
        return ClockTile(digits(at - permit.until), say("watch.clock.over", time=clock(permit.until, zone)), "")
    waited = bool(permit.tally.inside)
    every = points(permit) or ()
    left = sum(at_point(facts, depth) is None for depth in every)
    if permit.awaits is not None and left and not waited:
        words = say_count("watch.clock.points", left, all=len(every))
        return ClockTile("", say("watch.clock.retest"), words, _last_words(facts))
    times = retest(facts)
    if times is None:
        return ClockTile(NO_TIME, say("watch.clock.none"), "")
    taken = times.last.event.taken
    whole = (times.bound - taken).total_seconds() / 1.5
    rule = Rule(
        max(whole, (at - taken).total_seconds()),
        (at - taken).total_seconds(),
        (times.due - taken).total_seconds(),
        (times.late - taken).total_seconds(),
        clock(times.due, zone),
    )
    if not permit.running or permit.stop is not None:
        return ClockTile(digits(at - taken), say("watch.clock.since", time=clock(taken, zone)), "")
    if at >= times.due and not waited:
        # With nobody inside nothing is late: the set is one of the things asked before the next person goes in.
        since_words = say("watch.clock.since", time=clock(taken, zone))
        return ClockTile(digits(at - taken), since_words, "", say("watch.clock.before_entry"))
    if at > times.late:
        return ClockTile(
            digits(at - times.due),
            say("watch.clock.late", due=clock(times.due, zone)),
            say("watch.clock.last", time=clock(taken, zone)),
            say("watch.clock.ago", ago=lasting(at - taken)),
            "caution" if state is State.LATE else "",
            rule,
        )
    second = say("watch.clock.due_now") if at >= times.due else say("watch.clock.next", left=_left(times.due - at))
    return ClockTile(digits(at - taken), say("watch.clock.since", time=clock(taken, zone)), second, rule=rule)


def _left(time: timedelta) -> str:
    """How long until then, rounded up, with its unit: 13 min; seconds in the last minute. Never like a time of day."""
    seconds = -(-time // timedelta(seconds=1))
    if seconds >= 60:
        return lasting(timedelta(minutes=-(-seconds // 60)))
    return say("watch.seconds", seconds=seconds)


def _last_words(facts: Facts) -> str:
    sets = inside_sets(facts.permit)
    if not sets:
        return say("watch.clock.none")
    taken = sets[-1].event.taken
    return say("watch.clock.last_ago", time=clock(taken, facts.permit.zone), ago=lasting(facts.at - taken))


def _gases_words(facts: Facts) -> str:
    return _last_words(facts)


def _people(facts: Facts, entering: tuple[Obstacle, ...], state: State) -> tuple[PersonRow, ...]:
    """Entrants in the order they were named, then everyone else who is inside. Nobody inside is ever left out; while
    everyone is called out they stand first."""
    permit = facts.permit
    trips = {trip.who: trip for trip in permit.tally.trips}
    inside = {trip.who for trip in permit.tally.inside}
    barred = entering[0].sentence.say() if entering else ""
    rows = [_person(facts, who, trips.get(who), who in inside, barred) for who in permit.entrants]
    rows += [
        _person(facts, trip.who, trip, True, barred) for trip in permit.tally.inside if trip.who not in permit.entrants
    ]
    return tuple(sorted(rows, key=lambda row: not row.inside)) if state is State.OUT else tuple(rows)


def _person(facts: Facts, who: str, trip: Trip | None, inside: bool, barred: str) -> PersonRow:
    zone = facts.permit.zone
    unknown = trip is not None and trip.unknown
    name = (trip.name if trip is not None and trip.name else "") or facts.name(who)
    if inside and trip is not None:
        line = say("watch.in_since", time=clock(trip.came_in, zone), ago=lasting(facts.at - trip.came_in))
        short = say("watch.in_at", time=clock(trip.came_in, zone))
    elif trip is not None and trip.went_out is not None:
        line = short = say("watch.out_since", time=clock(trip.went_out, zone))
    else:
        line = short = say("watch.not_yet")
    return PersonRow(
        who, _capital(name), inside, line, short, "" if inside else barred, unknown, facts.permit.ended is not None
    )


def _attendant(facts: Facts) -> tuple[str, str]:
    permit = facts.permit
    if permit.attendant is None:
        return say("watch.attendant.none"), say("watch.attendant.none_do")
    since = clock(permit.watch[-1].since, permit.zone)
    return say("watch.attendant", name=facts.name(permit.attendant)), say("watch.attendant.since", time=since)


def _contact(facts: Facts) -> str:
    due, last = contact_due(facts), facts.permit.contact
    zone = facts.permit.zone
    if due is None:
        words = say("watch.contact.nobody")
    else:
        words = say("watch.contact.late" if facts.at > due else "watch.contact.due", due=clock(due, zone))
    return words if last is None else say("watch.contact.last", time=clock(last.at, zone), then=words)


def _rescue(permit: Permit) -> tuple[str, str]:
    plan = permit.opened.evaluated.rescue
    return say("watch.rescue", means=plan.means), say("watch.rescue.then", then=plan.then)


def _call(office: Office, facts: Facts, rows: tuple[GasRow, ...]) -> tuple[str, str, str]:
    """Means, what comes after, and the words to say to rescue: where, how many, how deep, what air."""
    permit = facts.permit
    registered = permit.opened.registered
    site = office.site.begun.name if office.site.begun is not None else ""
    depths = points(permit)
    deep = str(depths[-1]) if depths else registered.depth_m
    plan = permit.opened.evaluated.rescue
    parts = [say("watch.call.where", site=site, place=registered.place, space=registered.name)]
    gate = plan.then.partition(",")[2].strip()
    if gate and gate not in registered.place:
        parts.append(say("watch.call.gate", gate=_capital(gate)))
    parts.append(_call_inside(len(permit.tally.inside), deep))
    hazards = ", ".join(name for _id, name, _shows, _gas in permit.hazards())
    if hazards:
        parts.append(say("watch.call.hazards", hazards=hazards))
    parts += _call_air(facts, rows)
    return say("watch.call", means=plan.means), say("watch.rescue.then", then=plan.then), " ".join(parts)


def _call_inside(count: int, depth: str) -> str:
    """How many in a word, so that no figure runs into the depth when it is read out."""
    if not count:
        return say("watch.call.nobody")
    word = say(f"watch.call.number.{count}") if count <= 12 else str(count)
    return say_count("watch.call.inside", count, word=word, depth=depth)


def _call_air(facts: Facts, rows: tuple[GasRow, ...]) -> list[str]:
    """Each figure outside its limit with its time; else when the last ones were read."""
    zone = facts.permit.zone
    parts = []
    for row in rows:
        one = shown(facts, row.gas)
        figure = one.figure(row.gas) if one is not None else None
        if one is not None and figure is not None and row.outside:
            words = figure_words(figure).say().replace(" ", "\u00a0")
            parts.append(say("watch.call.gas", gas=row.name, figure=words, time=clock(one.event.taken, zone)))
    sets = inside_sets(facts.permit)
    if not parts and sets:
        known = all(row.figure and row.sign == "WITHIN" for row in rows)
        time = clock(sets[-1].event.taken, zone)
        parts.append(say("watch.call.within" if known else "watch.call.unknown", time=time))
    return parts


def _ordered(permit: Permit, order: Happening | None) -> str:
    """When somebody ordered everyone out, to the second; empty when nobody pressed."""
    return order.at.astimezone(permit.zone).strftime("%H:%M:%S") if order is not None else ""


def _out_words(facts: Facts) -> str:
    permit = facts.permit
    if permit.ended is not None:
        return say("watch.out.ended")
    if permit.stop is None:
        return say("watch.out.not_ordered")
    return say("watch.out.latched" if permit.tally.inside else "watch.out.all_out")


def _conditions(permit: Permit) -> tuple[ConditionCell, ...]:
    made = permit.conditions
    return tuple(
        ConditionCell(
            line.id,
            _capital(line.words),
            line.stage == "stay",
            clock(made[line.id].at, permit.zone) if line.id in made else "",
        )
        for line in permit.form.conditions
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


@dataclass(frozen=True, slots=True)
class Finding:
    """A finding that may be signed about a stop; ``barred`` says why one is not offered."""

    value: str
    words: str
    barred: str = ""


def findings(office: Office, number: str) -> tuple[Finding, ...]:
    """The findings about the stop that stands: where an uncorrected reading is plain, only the first."""
    first = Finding("prohibited-condition", say("watch.finding.prohibited"))
    barred = say("watch.finding.plain") if plain_reading(office.permit(number)) else ""
    return first, Finding("none-arose", say("watch.finding.none"), barred)


def supervisors(office: Office) -> tuple[tuple[str, str], ...]:
    """Ids and names of everyone trained as entry supervisor today."""
    day = office.now().astimezone(office.zone).date()
    names = office.names()
    return tuple(
        (id, names.get(id, id)) for id in office.ids("person") if trained(office.person(id), "supervisor", day)
    )


def may_relieve(office: Office, number: str) -> tuple[tuple[str, str], ...]:
    """Named attendants other than the one on watch."""
    permit, names = office.permit(number), office.names()
    return tuple((id, names.get(id, id)) for id in permit.attendants if id != permit.attendant)


def causes(office: Office, number: str) -> tuple[tuple[str, str], ...]:
    """The causes with which this permit can end now, in the form's words."""
    permit = office.permit(number)
    over = permit.until is not None and office.now() >= permit.until
    entered = any(not trip.unknown for trip in permit.tally.trips)
    known = ["work-complete"] if entered else ["never-entered"]
    if over:
        known.append("expired")
    known.append("prohibited-condition")
    return tuple((cause, _capital(say(f"permit.cause.{cause}"))) for cause in known)
