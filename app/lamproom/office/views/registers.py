"""What the registers and the first start show and read: plain values, no rule of their own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import get_args
from zoneinfo import ZoneInfo, available_timezones

from lamproom.bench.bump import gas_name
from lamproom.bench.events import InstrumentRegistered, Sensor
from lamproom.office import codes
from lamproom.office.change_employer import OWN
from lamproom.office.device import SHORTEST_WITH_FILE, SHORTEST_WITH_STORE
from lamproom.office.office import SITE, Office
from lamproom.office.views.typed import Filled, Typed, day_words, read_watch
from lamproom.permit.form import fingerprint
from lamproom.permit.people import PersonEmployed, PersonRegistered, PersonTrained, Role
from lamproom.permit.site import TimeConfirmed
from lamproom.permit.words import limit_words
from lamproom.record.envelope import from_bytes
from lamproom.words import Refusal, say

ROLES: tuple[Role, ...] = get_args(Role)
TRAINED: tuple[Role, ...] = ("supervisor", "attendant", "entrant")
"""The roles that 29 CFR 1910.146(h) to (j) gives duties; (g) asks for certified training in them."""
FIRST_ZONES = (
    "America/New_York",
    "America/Chicago",
    "America/Denver",
    "America/Phoenix",
    "America/Los_Angeles",
    "America/Anchorage",
    "Pacific/Honolulu",
)
LEAST_AGREE = timedelta(minutes=2)


@dataclass(frozen=True, slots=True)
class Founding:
    """A site about to begin, as ``begin_site`` takes it."""

    name: str
    zone: str
    founder_name: str
    roles: tuple[Role, ...]
    training: tuple[PersonTrained, ...]
    code: str
    watch_says: datetime


def zones() -> tuple[str, ...]:
    """Time zones to choose from: those of the United States first, then all others by name."""
    others = sorted(zone for zone in available_timezones() if "/" in zone and not zone.startswith(("Etc/", "posix")))
    return (*FIRST_ZONES, *(zone for zone in others if zone not in FIRST_ZONES))


def least_code(office: Office) -> int:
    """Characters that a code needs on this computer."""
    return SHORTEST_WITH_STORE if office.keys.code_note() is None else SHORTEST_WITH_FILE


def code_words(office: Office) -> str:
    """What is said where a code is chosen."""
    return say("registers.code_rules", minimum=least_code(office))


def role_words(role: str) -> str:
    """A role as people call it."""
    return say(f"permit.role.{role}")


def role_line(role: str) -> str:
    """A role with what it does, in one line."""
    return say("registers.role_line", role=role_words(role), does=say(f"registers.role_note.{role}"))


def training_from(typed: Typed, roles: tuple[Role, ...]) -> tuple[PersonTrained, ...]:
    """One training entry for each chosen role that needs training, from the page's trainer and day."""
    wanted = tuple(role for role in roles if role in TRAINED)
    if not wanted:
        return ()
    trainer, day, until = typed.text("trainer"), typed.day("trained-on"), typed.day("good-until", needed=False)
    if day is None:
        return ()
    return tuple(PersonTrained(role=role, trained_on=day, trainer=trainer, good_until=until) for role in wanted)


def code_from(typed: Typed, code: str, again: str, minimum: int, avoid: tuple[str, ...]) -> str:
    """The code chosen; every reason against it is a trouble of its field."""
    if not code:
        typed.troubles["code"] = say("registers.code_missing")
        return code
    reasons = codes.weak(code, minimum, avoid)
    if reasons:
        typed.troubles["code"] = codes.together(reasons).say()
    if code != again:
        typed.troubles["code-again"] = say("registers.codes_differ")
    return code


def founding_from(office: Office, answers: Mapping[str, str], code: str, again: str) -> Filled[Founding]:
    """The site that the first page describes, or everything that is wrong with it.

    A machine whose clock runs ahead of the watch is refused here: the record's time never goes back.
    """
    typed = Typed(answers)
    name, zone, founder = typed.text("site"), typed.one("zone"), typed.text("name")
    roles = tuple(role for role in ROLES if role in typed.many("roles"))
    training = training_from(typed, roles)
    code_from(typed, code, again, least_code(office), (founder, name))
    watch = None
    if zone:
        try:
            watch = read_watch(answers.get("day", ""), answers.get("watch", ""), ZoneInfo(zone))
        except Refusal as refusal:
            typed.troubles["watch"] = str(refusal)
        else:
            behind = office.now() - watch
            if behind > LEAST_AGREE:
                minutes = int(behind.total_seconds() // 60)
                typed.troubles["watch"] = say("registers.first.machine_ahead", minutes=minutes)
    elif not answers.get("watch", "").strip():
        typed.troubles["watch"] = say("registers.typed.watch")
    if typed.troubles or watch is None:
        return Filled(None, typed.troubles)
    return Filled(Founding(name, zone, founder, roles, training, code, watch), {})


@dataclass(frozen=True, slots=True)
class PersonLine:
    """A person as the register lists them: roles, training said in words, whether they have a code here."""

    id: str
    name: str
    roles: tuple[str, ...]
    training: tuple[str, ...]
    has_code: bool
    left: bool
    employer: str
    """Of another employer the name as registered; '' for the site's own."""
    employed: tuple[str, ...]
    """For whom the person works and worked, the newest first, each with since when and who said so."""


def people(office: Office) -> tuple[PersonLine, ...]:
    """Everyone ever registered, in order of registration."""
    names, coded = office.names(), set(office.keys.people()) if office.begun else set()
    lines = []
    for id in office.ids("person"):
        person = office.person(id)
        newest = {done.role: done for done in person.trained}
        training = tuple(_training_words(done) for done in newest.values())
        employer = "" if person.employer == OWN else person.employer
        employed = tuple(_employed(office, id, names))
        line = PersonLine(id, names.get(id, id), person.roles, training, id in coded, person.left, employer, employed)
        lines.append(line)
    return tuple(lines)


def _employed(office: Office, id: str, names: Mapping[str, str]) -> Iterator[str]:
    """Each employer with the day it began here and who recorded it, the newest first."""
    for done in reversed(office.happenings(f"person/{id}")):
        if isinstance(done.event, PersonRegistered | PersonEmployed):
            told = done.event.employer
            yield say(
                "registers.person.employed",
                employer=say("registers.person.own") if told == OWN else told,
                day=day_words(done.at.astimezone(office.zone).date()),
                by=names.get(done.by, done.by) if done.by else say("registers.person.nobody"),
            )


def _training_words(done: PersonTrained) -> str:
    role, day = role_words(done.role), day_words(done.trained_on)
    if done.good_until is None:
        return say("registers.person.trained", role=role, day=day, trainer=done.trainer)
    return say(
        "registers.person.trained_until", role=role, day=day, trainer=done.trainer, until=day_words(done.good_until)
    )


# People ---------------------------------------------------------------------------------------------------------------

SIGNS: tuple[Role, ...] = ("supervisor", "attendant", "keeper")
"""The roles whose acts ask for a code."""


@dataclass(frozen=True, slots=True)
class NewPerson:
    """A person about to be registered, as ``register_person`` takes it."""

    name: str
    roles: tuple[Role, ...]
    training: tuple[PersonTrained, ...]
    code: str | None
    keeper_code: str | None


def next_id(office: Office, kind: str, mark: str) -> str:
    """The next id of a kind that was never given: 'P-08'."""
    given, number = set(office.ids(kind)), len(office.ids(kind)) + 1
    while f"{mark}-{number:02d}" in given:
        number += 1
    return f"{mark}-{number:02d}"


def person_from(
    office: Office, person: str, answers: Mapping[str, str], secrets: Mapping[str, str]
) -> Filled[NewPerson]:
    """The person as typed; those who sign need a code, and the keeper's to be given one."""
    typed = Typed(answers)
    name = typed.text("name")
    roles = tuple(role for role in ROLES if role in typed.many("roles"))
    training = training_from(typed, roles)
    code, keeper = secrets.get("code", ""), secrets.get("keeper-code", "")
    if code or any(role in SIGNS for role in roles):
        code_from(typed, code, secrets.get("code-again", ""), least_code(office), (name, person))
        if not keeper:
            typed.troubles["keeper-code"] = say("registers.person.keeper_code_missing")
    if typed.troubles:
        return Filled(None, typed.troubles)
    return Filled(NewPerson(name, roles, training, code or None, keeper or None), {})


def training_of(answers: Mapping[str, str]) -> Filled[PersonTrained]:
    """Training for one role, as typed."""
    typed = Typed(answers)
    given = typed.one("role")
    trainer, day, until = typed.text("trainer"), typed.day("trained-on"), typed.day("good-until", needed=False)
    role = next((known for known in ROLES if known == given), None)
    if typed.troubles or role is None or day is None:
        return Filled(None, typed.troubles)
    return Filled(PersonTrained(role=role, trained_on=day, trainer=trainer, good_until=until), {})


# Instruments ----------------------------------------------------------------------------------------------------------

GASES = (
    "oxygen",
    "flammable",
    "hydrogen-sulfide",
    "carbon-monoxide",
    "carbon-dioxide",
    "ammonia",
    "chlorine",
    "sulfur-dioxide",
)
TECHNOLOGIES = ("electrochemical", "catalytic", "infrared", "photoionization")
SENSOR_FIELDS = ("technology", "range", "resolution", "response", "low", "high", "fitted", "expires")


def unit_of(gas: str) -> str:
    """The unit in which an instrument shows a gas: % vol of oxygen, % LEL of flammable gas, ppm of all others."""
    return {"oxygen": "% vol", "flammable": "% LEL"}.get(gas, "ppm")


def _sensor_from(typed: Typed, gas: str) -> Sensor | None:
    technology = typed.one(f"{gas}.technology")
    wide, resolution = typed.figure(f"{gas}.range"), typed.figure(f"{gas}.resolution")
    response = typed.figure(f"{gas}.response")
    low, high = typed.figure(f"{gas}.low", needed=False), typed.figure(f"{gas}.high", needed=gas != "oxygen")
    if gas == "oxygen" and low is None and f"{gas}.low" not in typed.troubles:
        typed.troubles[f"{gas}.low"] = say("registers.typed.missing")
    fitted, expires = typed.day(f"{gas}.fitted", needed=False), typed.day(f"{gas}.expires", needed=False)
    if wide is None or resolution is None or response is None:
        return None
    return Sensor(
        gas=gas,
        unit=unit_of(gas),
        technology=technology,
        range_high=wide,
        resolution=resolution,
        response_s=response,
        alarm_low=low,
        alarm_high=high,
        fitted=fitted,
        expires=expires,
    )


def instrument_from(office: Office, answers: Mapping[str, str]) -> Filled[tuple[str, InstrumentRegistered]]:
    """An instrument and its number, as typed. A number that was given before is refused."""
    typed = Typed(answers)
    id, name, serial = typed.text("id"), typed.text("name"), typed.text("serial")
    if id in office.ids("instrument"):
        typed.troubles["id"] = say("registers.instrument.known", id=id)
    if "/" in id or " " in id:
        typed.troubles["id"] = say("registers.instrument.plain_id")
    pumped = typed.yes("pumped")
    flow = typed.figure("flow") if pumped else None
    hose = typed.figure("hose", needed=False) if pumped else None
    bore = typed.figure("bore", needed=False) if pumped else None
    battery, days = typed.figure("battery"), typed.number("calibration")
    gases = typed.many("gases")
    sensors = [_sensor_from(typed, gas) for gas in GASES if gas in gases]
    if typed.troubles or battery is None or days is None:
        return Filled(None, typed.troubles)
    registered = InstrumentRegistered(
        name=name,
        serial=serial,
        sensors=tuple(sensor for sensor in sensors if sensor is not None),
        pump_l_min=flow,
        hose_m=hose,
        bore_mm=bore,
        battery_h=battery,
        calibration_days=days,
    )
    return Filled((id, registered), {})


def like(office: Office, id: str) -> Mapping[str, str]:
    """The description of an instrument already registered, to fill in for one of the same make; nothing of its own."""
    known = office.instrument(id).registered
    if known is None:
        return {}
    found = {
        "name": known.name,
        "pumped": "yes" if known.pump_l_min is not None else "no",
        "flow": known.pump_l_min or "",
        "hose": known.hose_m or "",
        "bore": known.bore_mm or "",
        "battery": known.battery_h,
        "calibration": str(known.calibration_days),
        "gases": "\n".join(sensor.gas for sensor in known.sensors),
    }
    for sensor in known.sensors:
        found |= {
            f"{sensor.gas}.technology": sensor.technology,
            f"{sensor.gas}.range": sensor.range_high,
            f"{sensor.gas}.resolution": sensor.resolution,
            f"{sensor.gas}.response": sensor.response_s,
            f"{sensor.gas}.low": sensor.alarm_low or "",
            f"{sensor.gas}.high": sensor.alarm_high or "",
        }
    return found


@dataclass(frozen=True, slots=True)
class Facts:
    """Something in a register, opened: its title and lines of (what, words)."""

    title: str
    lines: tuple[tuple[str, str], ...]


def instrument_facts(office: Office, id: str) -> Facts:
    """An instrument as registered."""
    known = office.instrument(id).registered
    title = say("bench_screen.title", id=id)
    if known is None:
        return Facts(title, ())
    lines = [
        (say("registers.instrument.serial"), known.serial),
        (
            say("registers.instrument.pump"),
            say("registers.with_unit", figure=known.pump_l_min, unit="L/min")
            if known.pump_l_min is not None
            else say("registers.instrument.no_pump"),
        ),
        (say("registers.instrument.calibration"), say("registers.days", days=known.calibration_days)),
    ]
    if known.name != title:
        lines.insert(0, (say("registers.instrument.name"), known.name))
    for sensor in known.sensors:
        alarms = ", ".join(figure for figure in (sensor.alarm_low, sensor.alarm_high) if figure is not None)
        words = say(
            "registers.instrument.sensor_line",
            technology=say(f"registers.technology.{sensor.technology}")
            if sensor.technology in TECHNOLOGIES
            else sensor.technology,
            range=sensor.range_high,
            unit=sensor.unit,
            response=sensor.response_s,
            alarms=alarms or say("desk.none"),
        )
        lines.append((gas_name(sensor.gas).say(), words))
    return Facts(title, tuple(lines))


# The form and the time ------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class FormLine:
    """A figure of a form: what, the figure in words, where it is from."""

    what: str
    figure: str
    reason: str
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class FormView:
    """A form's figures with their reasons; ``unconfirmed`` counts those from memory that nobody compared yet."""

    id: str
    title: str
    lines: tuple[FormLine, ...]
    unconfirmed: int


def form_view(office: Office, id: str) -> FormView:
    """The form of that id as it lies at hand now."""
    form, text = office.form(id)
    limits = tuple(
        FormLine(gas_name(line.gas).say(), limit_words(line).say(), line.basis, line.from_memory)
        for line in form.limits
    )
    bump, retest, points = form.bump, form.retest, form.points
    others = (
        FormLine(
            say("registers.form.retest"),
            say("registers.form.retest_words", every=retest.every_min, grace=retest.grace_min),
            retest.reason,
        ),
        FormLine(
            say("registers.form.bump"),
            say("registers.form.bump_words", hours=bump.under_h, low=bump.accept_low, high=bump.accept_high),
            bump.reason,
        ),
        FormLine(
            say("registers.form.points"),
            say("registers.form.points_words", spacing=points.spacing_m, top=points.top_m, above=points.above_m),
            say("registers.form.points_reason"),
        ),
        FormLine(
            say("registers.form.unaccounted"),
            say("registers.form.unaccounted_words", ppm=form.unaccounted.ppm),
            form.unaccounted.reason,
        ),
        FormLine(
            say("registers.form.hours"),
            say("registers.form.hours_words", longest=form.hours.longest_h, start=form.hours.day_start),
            form.hours.reason,
        ),
    )
    seen = fingerprint(text) in office.site.confirmed
    title = say("registers.form.title", title=form.title, version=form.version)
    return FormView(id, title, (*limits, *others), 0 if seen else len(form.memory_figures))


@dataclass(frozen=True, slots=True)
class EntryLine:
    """An entry of the record as the register of time lists it."""

    number: int
    at: str
    what: str
    stream: str
    void: bool


def time_confirmed(office: Office) -> str:
    """Who confirmed the time last, and when, in words; empty while nobody did."""
    for happening in reversed(office.happenings(SITE)):
        if isinstance(happening.event, TimeConfirmed):
            at = happening.at.astimezone(office.zone)
            name = office.names().get(happening.by or "", happening.by or "")
            return say("registers.time.confirmed_by", name=name, day=day_words(at.date()), clock=at.strftime("%H:%M"))
    return ""


def last_entries(office: Office, count: int = 60) -> tuple[EntryLine, ...]:
    """The newest entries of the record, newest first."""
    head = office.journal.head().number
    lines = []
    for entry in office.journal.entries(max(head - count, 0)):
        envelope = from_bytes(entry.sealed.body)
        at = envelope.at.astimezone(office.zone)
        words = say("bench_screen.day_clock", day=day_words(at.date()), clock=at.strftime("%H:%M:%S"))
        void = office.site.void(entry.number)
        lines.append(
            EntryLine(entry.number, words, envelope.kind.replace("-", " "), envelope.stream.replace("/", " "), void)
        )
    return tuple(reversed(lines))


@dataclass(frozen=True, slots=True)
class WrongClock:
    """A declaration as ``declare_clock_wrong`` takes it."""

    first: int
    last: int
    watch_says: datetime
    people: tuple[tuple[str, str], tuple[str, str]]


def wrong_clock_from(office: Office, answers: Mapping[str, str], secrets: Mapping[str, str]) -> Filled[WrongClock]:
    """Which entries, what the watch says, and two people with their codes, as typed."""
    typed = Typed(answers)
    first, last = typed.number("first"), typed.number("last")
    one, other = typed.one("one"), typed.one("other")
    for key in ("code-one", "code-other"):
        if not secrets.get(key):
            typed.troubles[key] = say("registers.typed.missing")
    watch = None
    try:
        watch = read_watch(answers.get("day", ""), answers.get("watch", ""), office.zone)
    except Refusal as refusal:
        typed.troubles["watch"] = str(refusal)
    if typed.troubles or first is None or last is None or watch is None:
        return Filled(None, typed.troubles)
    return Filled(WrongClock(first, last, watch, ((one, secrets["code-one"]), (other, secrets["code-other"]))), {})
