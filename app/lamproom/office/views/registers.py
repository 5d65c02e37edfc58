"""What the registers and the first start show and read: plain values, no rule of their own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import get_args
from zoneinfo import ZoneInfo, available_timezones

from lamproom.office import codes
from lamproom.office.device import SHORTEST_WITH_FILE, SHORTEST_WITH_STORE
from lamproom.office.office import Office
from lamproom.office.views.typed import Filled, Typed, day_words, read_watch
from lamproom.permit.people import PersonTrained, Role
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
    return say(f"registers.role.{role}")


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
        typed.troubles["watch"] = say("registers.typed.missing")
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


def people(office: Office) -> tuple[PersonLine, ...]:
    """Everyone ever registered, in order of registration."""
    names, coded = office.names(), set(office.keys.people()) if office.begun else set()
    lines = []
    for id in office.ids("person"):
        person = office.person(id)
        newest = {done.role: done for done in person.trained}
        training = tuple(_training_words(done) for done in newest.values())
        lines.append(PersonLine(id, names.get(id, id), person.roles, training, id in coded, person.left))
    return tuple(lines)


def _training_words(done: PersonTrained) -> str:
    role, day = role_words(done.role), day_words(done.trained_on)
    if done.good_until is None:
        return say("registers.person.trained", role=role, day=day, trainer=done.trainer)
    return say(
        "registers.person.trained_until", role=role, day=day, trainer=done.trainer, until=day_words(done.good_until)
    )
