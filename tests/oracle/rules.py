"""A second opinion on a permit, written from the papers alone: it imports nothing from the program.

``unmet(document, at, stage)`` lists, in plain words with the clause, the conditions of entry that are surely not met.
What the papers leave open it passes over, so that whatever the program allows against this list is a fault. It knows
one form (United States general industry, permit route). Clauses: (x) is 29 CFR 1910.146(x); D is a decision of the
project's own list, L a part of its design. Times are aware; lengths metres.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from itertools import pairwise
from math import pi
from typing import Any
from zoneinfo import ZoneInfo

Act = dict[str, Any]

GASES = ("oxygen", "flammable", "hydrogen-sulfide", "carbon-monoxide")
UNITS = {"oxygen": "% vol", "flammable": "% LEL", "hydrogen-sulfide": "ppm", "carbon-monoxide": "ppm"}
FAILS_AT = {"flammable": Decimal(10), "hydrogen-sulfide": Decimal(10), "carbon-monoxide": Decimal(35)}
OXYGEN = (Decimal("19.5"), Decimal("23.5"))
TOP, ABOVE, APART = Decimal("0.3"), Decimal("0.3"), Decimal("1.2")
HAIR = Decimal("0.05")  # half of the tenth that points are told in
MIN = timedelta(minutes=1)
RETEST, GRACE, BOUND, VERIFIED = 15 * MIN, 2 * MIN, 30 * MIN, 60 * MIN
LONGEST = timedelta(hours=12)

CONDITIONS = {  # what the form's table says each bars
    **dict.fromkeys(("instrument-alarm", "symptoms", "isolation-disturbed", "communication-lost"), "stay"),
    **dict.fromkeys(("water-rising", "outside-danger", "attendant-unable", "rescue-withdrawn", "dust"), "stay"),
    **dict.fromkeys(("engine-started", "unauthorised-person", "re-evaluation-asked"), "enter"),
}
RETEST_AFTER_REPORT = ("instrument-alarm", "symptoms", "re-evaluation-asked", "dust", "water-rising")
RETEST_AFTER_CLEARING = ("engine-started", "isolation-disturbed")  # 'then test again'; C48: after isolation

ITEMS = {  # expected answers of the items that always apply
    "different-today": ("yes", "no"),
    "other-work": ("no",),
    "other-permits": ("yes", "no"),
    "observed": ("yes",),
    "retrieval": ("yes", "does not apply"),
    "communication": ("yes",),
    "equipment": ("yes",),
}
NEEDS_FOUND = ("observed", "retrieval", "communication", "equipment")


def unmet(document: Act, at: datetime, stage: str) -> list[str]:
    """What surely stands against ``stage`` (authorise, enter, stay) at the moment ``at``."""
    life = Life(document, at)
    if stage == "stay":
        return list(dict.fromkeys(_stay(life)))
    if stage == "authorise":
        return list(dict.fromkeys(_prepared(life))) if life.authorised is None else []
    return list(dict.fromkeys([*_prepared(life), *_enter(life), *_stay(life)]))


# The record as read --------------------------------------------------------------------------------------------------


def _when(text: str) -> datetime:
    return datetime.fromisoformat(text)


def _number(value: Any) -> Decimal | None:
    return None if value is None else Decimal(str(value))


@dataclass
class Life:
    """What happened up to a moment, in the order in which it was recorded."""

    doc: Act
    at: datetime
    zone: ZoneInfo = field(init=False)
    acts: list[Act] = field(init=False)
    bench: dict[str, list[Act]] = field(init=False)
    authorised: datetime | None = None
    here: list[Act] | None = None
    fit: dict[tuple[str, datetime], str | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.zone = ZoneInfo(self.doc["zone"])
        self.acts = self._until(self.doc["happened"])
        self.bench = {one["id"]: self._until(one["happened"]) for one in self.doc["instruments"]}
        signed = [a for a in self.all("authorised") if a.get("signed") and self.may(a["by"], "supervisor", a["t"])]
        self.authorised = signed[0]["t"] if signed else None

    def _until(self, told: list[Act]) -> list[Act]:
        timed = [{**act, "t": _when(act["at"])} for act in told]
        return sorted((act for act in timed if act["t"] <= self.at), key=lambda act: act["t"])

    def all(self, *whats: str) -> list[Act]:
        return [act for act in self.acts if act["what"] in whats]

    def last(self, *whats: str, **same: Any) -> Act | None:
        found = [a for a in self.all(*whats) if all(a.get(k) == v for k, v in same.items())]
        return found[-1] if found else None

    def day(self, moment: datetime) -> date:
        return moment.astimezone(self.zone).date()

    def duty_start(self, moment: datetime) -> datetime:
        """06:00 of the duty period that holds a moment: D37."""
        local = moment.astimezone(self.zone)
        day = local.date() if local.time() >= time(6) else local.date() - timedelta(days=1)
        return datetime.combine(day, time(6), self.zone)

    def may(self, person: str | None, role: str, moment: datetime) -> bool:
        """Whether a person has a role and a training for it that is good on that day: (g)(4)."""
        one = next((p for p in self.doc["people"] if p["id"] == person), None)
        if one is None or one.get("left") or role not in one["roles"]:
            return False
        day = self.day(moment)
        return any(
            t["role"] == role
            and t["trainer"]
            and date.fromisoformat(t["trained_on"]) <= day
            and (t.get("good_until") is None or date.fromisoformat(t["good_until"]) >= day)
            for t in one["training"]
        )

    def named(self, part: str) -> list[str]:
        state: dict[str, bool] = {}
        for act in self.all("person-named", "person-unnamed"):
            if act["part"] == part:
                state[act["person"]] = act["what"] == "person-named"
        return [person for person, on in state.items() if on]

    def inside(self, moment: datetime) -> dict[str, datetime]:
        """Who is inside at a moment, since when."""
        now: dict[str, datetime] = {}
        for act in self.all("went-in", "someone-went-in", "went-out"):
            if act["t"] > moment:
                break
            who = act.get("person") or act.get("label")
            if act["what"] == "went-out":
                now.pop(who, None)
            else:
                now.setdefault(who, act["t"])
        return now

    def watcher(self) -> str | None:
        """Who took the watch last; a relief by someone who may not attend is none, the one before keeps it."""
        took = [(a["t"], a.get("person") or a.get("incoming")) for a in self.all("watch-taken", "relieved")]
        able = [person for moment, person in took if self.may(person, "attendant", moment)]
        return able[-1] if able else None

    def fan_runs(self) -> bool:
        act = self.last("ventilation-started", "ventilation-stopped")
        return act is not None and act["what"] == "ventilation-started"

    def bottom(self, moment: datetime) -> Decimal | None:
        """Depth of today's level or floor; None when nobody has said it."""
        said = [a for a in self.all("level-stated") if a["t"] <= moment]
        if not said:
            return None
        return _number(said[-1]["depth_m"]) or _number(self.doc["space"]["depth_m"])


# Instruments: design, bench; D14, D37 --------------------------------------------------------------------------------


def _bump_passed(life: Life, one: Act, bump: Act) -> bool:
    if bump["check"] != "calibration" or date.fromisoformat(bump["cylinder"]["expires"]) < life.day(bump["t"]):
        return False
    for sensor in one["sensors"]:
        result = next((r for r in bump["results"] if r["gas"] == sensor["gas"]), None)
        if result is None or result["alarm_s"] is None or Decimal(str(result["alarm_s"])) > 60:
            return False
        applied, read = Decimal(str(result["applied"])), Decimal(str(result["reading"]))
        if not Decimal("0.9") * applied <= read <= Decimal("1.1") * applied:
            return False
    return True


def _check_passed(check: Act) -> bool:
    seen = ("self_test", "alarm_heard", "alarm_seen", "alarm_felt", "display_complete", "housing_sound")
    stopped = _number(check["block_stopped_s"])
    return all(check[k] for k in (*seen, "set_points_as_registered")) and stopped is not None and stopped <= 30


def not_ready(life: Life, instrument: str, moment: datetime) -> str | None:
    if (instrument, moment) not in life.fit:
        life.fit[instrument, moment] = _not_ready(life, instrument, moment)
    return life.fit[instrument, moment]


def _not_ready(life: Life, instrument: str, moment: datetime) -> str | None:
    """Why an instrument was surely not ready at a moment; None when nothing is sure."""
    one = next((i for i in life.doc["instruments"] if i["id"] == instrument), None)
    if one is None:
        return "unknown instrument"
    past = [a for a in life.bench[instrument] if a["t"] <= moment]
    start = life.duty_start(moment)
    calibrations = [a for a in past if a["what"] == "calibrated"]
    if not calibrations or not calibrations[-1]["passed"]:
        return "not calibrated"
    calibrated = calibrations[-1]
    if date.fromisoformat(calibrated["due"]) < life.day(moment):
        return "calibration past due"
    for act in past:
        if act["what"] == "taken-out-of-service" and not any(
            back["what"] == "returned-to-service" and back["t"] >= act["t"] for back in past
        ):
            return "out of service"
    return _not_checked(past, start, calibrated) or _not_bumped(life, one, past, moment, calibrated)


def _not_checked(past: list[Act], start: datetime, calibrated: Act) -> str | None:
    checks = [a for a in past if a["what"] == "checked-before-use"]
    if not checks or checks[-1]["t"] < start:
        return "no check before use in this duty period"
    if not _check_passed(checks[-1]):
        return "check before use not passed"
    air = checks[-1]["fresh_air"]
    shift = abs(Decimal(str(air["oxygen_after"])) - Decimal(str(air["oxygen_before"])))
    if shift > Decimal("0.3") and calibrated["t"] < checks[-1]["t"]:
        return "set-up moved oxygen by more than 0.3 %: calibrate"
    return None


def _not_bumped(life: Life, one: Act, past: list[Act], moment: datetime, calibrated: Act) -> str | None:
    bumps = [a for a in past if a["what"] == "bump-tested"]
    if not bumps or not _bump_passed(life, one, bumps[-1]):
        return "bump test missing or failed"
    if moment - bumps[-1]["t"] >= timedelta(hours=24) or bumps[-1]["t"] < life.duty_start(moment):
        return "bump test stale"
    if any(not _bump_passed(life, one, b) and calibrated["t"] < b["t"] for b in bumps):
        return "a bump test failed and no calibration followed"
    if any(a["what"] == "test-voided" and a["t"] > bumps[-1]["t"] for a in past):
        return "bump test voided"
    return None


def in_doubt(life: Life, instrument: str, taken: datetime) -> bool:
    """Whether the next bump test after a reading failed: D14."""
    one = next(i for i in life.doc["instruments"] if i["id"] == instrument)
    later = [a for a in life.bench[instrument] if a["what"] == "bump-tested" and a["t"] > taken]
    return bool(later) and not _bump_passed(life, one, later[0])


def _held(life: Life, instrument: str, moment: datetime) -> datetime | None:
    """Since when an instrument serves this permit at a moment; None when it does not."""
    since: datetime | None = None
    for act in life.all("instrument-assigned", "instrument-returned"):
        if act["instrument"] == instrument and act["t"] <= moment:
            since = act["t"] if act["what"] == "instrument-assigned" else None
    return since


def _wait(life: Life, reading: Act) -> timedelta:
    """Hose volume over pump flow, then the slowest sensor."""
    one = next(i for i in life.doc["instruments"] if i["id"] == reading["instrument"])
    seconds = max(float(s["response_s"]) for s in one["sensors"])
    act = life.last("instrument-assigned", instrument=reading["instrument"])
    if act and act.get("hose_m") and one.get("pump_l_min") and one.get("bore_mm"):
        litres = pi / 4 * (float(one["bore_mm"]) / 100) ** 2 * float(act["hose_m"]) * 10
        seconds += 60 * litres / float(one["pump_l_min"])
    return timedelta(seconds=seconds - 1)


# The air -------------------------------------------------------------------------------------------------------------


def _here(life: Life) -> list[Act]:
    if life.here is None:
        life.here = _read_here(life)
    return life.here


def _read_here(life: Life) -> list[Act]:
    """Sets of readings of this space, each with its figures as corrected (``now``) and as first typed (``typed``)."""
    found = []
    for act in life.all("readings-taken"):
        if act.get("place", "this-space") != "this-space" or act.get("phase") in ("upwind", "duct"):
            continue
        typed = {f["gas"]: f for f in act["figures"]}
        now = {gas: dict(f) for gas, f in typed.items()}
        for fix in life.all("reading-corrected"):
            if act.get("id") and fix["reading"] == act["id"] and fix["t"] >= act["t"] and fix["gas"] in now:
                now[fix["gas"]]["figure"] = fix["new"]
        found.append({**act, "taken": _when(act["taken"]), "typed": typed, "now": now})
    return found


def _beyond(figures: dict[str, Act]) -> str | None:
    """A measured figure at or past its limit: D1, D2."""
    for gas, figure in figures.items():
        value = _number(figure.get("figure"))
        if figure.get("state", "measured") == "over-range" and gas in FAILS_AT:
            return f"{gas} over range"
        if value is None or figure.get("state", "measured") != "measured":
            continue
        if gas == "oxygen" and not OXYGEN[0] <= value <= OXYGEN[1]:
            return f"oxygen {value}"
        if gas in FAILS_AT and value >= FAILS_AT[gas]:
            return f"{gas} {value}"
    return None


def _unaccounted(life: Life, figures: dict[str, Act]) -> bool:
    """Whether surely more than 10,000 ppm of something unmeasured stands in for oxygen: design 4, D35, D36."""
    base = [
        Decimal(str(f["figure"]))
        for act in life.all("readings-taken")
        if act.get("phase") == "upwind"
        for f in act["figures"]
        if f["gas"] == "oxygen" and f.get("figure") is not None
    ]
    values = {gas: _number(f.get("figure")) for gas, f in figures.items()}
    if not base or values.get("oxygen") is None:
        return False
    oxygen = values["oxygen"] or Decimal(0)
    missing = (min(base) - oxygen - Decimal("0.1")) / Decimal("20.9") * 1_000_000
    measured = (values.get("flammable") or 0) * 500 + sum(
        values.get(g) or 0 for g in ("hydrogen-sulfide", "carbon-monoxide")
    )
    return missing - measured > 10_500


def _air_changed(life: Life, until: datetime) -> datetime | None:
    """The last moment that surely voids earlier points: design 3 and 4, C56, the form's conditions."""
    moments: list[datetime] = []
    level: Any = "unsaid"
    runs = False
    for act in life.acts:
        what = act["what"]
        if act["t"] > until:
            break
        if what == "level-stated" and _number(act["depth_m"]) != level:
            level = _number(act["depth_m"])
            moments.append(act["t"])
        elif what in ("ventilation-started", "ventilation-stopped") and runs != (what == "ventilation-started"):
            runs = not runs
            moments.append(act["t"])
        elif what == "space-opened" and life.last("space-opened") == act:
            moments.append(act["t"])
        elif what == "work-step-changed" and life.authorised is not None and act["t"] >= life.authorised:
            moments.append(act["t"])
        elif (what == "condition-reported" and act["condition"] in RETEST_AFTER_REPORT) or (
            what == "condition-cleared" and act["condition"] in RETEST_AFTER_CLEARING and _was_reported(life, act)
        ):
            moments.append(act["t"])
    return max(moments) if moments else None


def _was_reported(life: Life, cleared: Act) -> bool:
    """Whether a clearing cleared something that stood then."""
    acts = [a for a in life.all("condition-reported", "condition-cleared") if a["condition"] == cleared["condition"]]
    before = [a for a in acts if a["t"] < cleared["t"]]
    return bool(before) and before[-1]["what"] == "condition-reported"


def _good(life: Life, reading: Act) -> bool:
    """Whether nothing sure speaks against a set as proof of good air at its point."""
    held = _held(life, reading["instrument"], reading["taken"])
    complete = all(
        reading["now"].get(g, {}).get("figure") is not None
        and reading["now"][g].get("state", "measured") == "measured"
        and reading["now"][g]["unit"] == UNITS[g]
        for g in GASES
    )
    if held is None or not complete or reading["taken"] > reading["t"]:
        return False
    if not_ready(life, reading["instrument"], reading["taken"]) or in_doubt(
        life, reading["instrument"], reading["taken"]
    ):
        return False
    return not _beyond(reading["now"]) and not _unaccounted(life, reading["now"])


def _proves(life: Life, reading: Act) -> bool:
    """A good set that may also stand for a point before entry: hose tight, wait kept."""
    if reading.get("point_m") is None or not reading.get("lowered") or not _good(life, reading):
        return False
    held = _held(life, reading["instrument"], reading["taken"])
    hose = [a for a in life.all("hose-tested") if a["instrument"] == reading["instrument"] and held <= a["t"]]
    hose = [a for a in hose if a["t"] <= reading["taken"]]
    if not hose or _number(hose[-1]["stopped_s"]) is None or (_number(hose[-1]["stopped_s"]) or 99) > 30:
        return False
    return reading["taken"] - _when(reading["lowered"]) >= _wait(life, reading)


def _untested(life: Life, since: datetime | None, until: datetime) -> str | None:
    """What part of the depth surely has no good set taken between two moments."""
    bottom = life.bottom(until)
    if bottom is None:
        return "today's level is not stated"
    points = sorted(
        Decimal(str(r["point_m"]))
        for r in _here(life)
        if (since is None or r["taken"] >= since) and r["t"] <= until and _proves(life, r)
    )
    points = [p for p in points if p <= bottom]
    if not points or points[0] > TOP + HAIR:
        return "the top 0.3 m"
    if points[-1] < bottom - ABOVE - HAIR:
        return f"the last 0.3 m above {bottom} m"
    for above, below in pairwise(points):
        if below - above > APART + HAIR:
            return f"between {above} and {below} m"
    return None


# Stops that latch: design 3, D26 -------------------------------------------------------------------------------------


def _latched(life: Life) -> Iterator[tuple[datetime, str, Act | None]]:
    """Every moment since the signature at which everyone was surely ordered out, and the plain reading if one did."""
    if life.authorised is None:
        return
    for act in life.acts:
        if act["t"] <= life.authorised:
            continue
        what = act["what"]
        if what == "stop-ordered":
            yield act["t"], "a stop", None
        elif what == "condition-reported" and CONDITIONS.get(act["condition"]) == "stay" and life.inside(act["t"]):
            yield act["t"], f"condition {act['condition']}", None
        elif what == "point-released" and life.inside(act["t"]):
            yield act["t"], "isolation released", None
        elif what == "ventilation-stopped" and life.doc["evaluation"]["ventilation_needed"] and life.inside(act["t"]):
            yield act["t"], "the fan stopped", None
    for reading in _here(life):
        plain = _beyond(reading["typed"])
        if plain and reading["t"] > life.authorised:
            yield reading["t"], f"a reading: {plain}", reading
        elif _beyond(reading["now"]) and any(
            f["reading"] == reading.get("id") and f["t"] > life.authorised for f in life.all("reading-corrected")
        ):
            yield life.all("reading-corrected")[-1]["t"], "a corrected reading past its limit", reading
    yield from ((moment, "the air was not read for 30 min", None) for moment in _overdue(life))


def _overdue(life: Life) -> list[datetime]:
    """Moments at which people had been inside for over 30 min with no set of readings in over 30 min: D26, form."""
    if life.authorised is None:
        return []
    sets = sorted(r["taken"] for r in _here(life))
    found = []
    for moment in [*(a["t"] for a in life.acts), life.at]:
        inside = life.inside(moment - timedelta(microseconds=1))
        if inside and moment > life.authorised:
            known = sets[: bisect_left(sets, moment)]
            if moment - max([*known[-1:], min(inside.values()), life.authorised]) > BOUND:
                found.append(moment)
    return found


def _unread(life: Life) -> timedelta:
    """For how long people are surely inside with no set anywhere near a named retest point: design 4, points."""
    inside = life.inside(life.at)
    if not inside or life.authorised is None:
        return timedelta(0)
    named = [Decimal(str(p)) for p in life.doc["evaluation"]["retest_points_m"]]
    near = [
        r["taken"]
        for r in _here(life)
        if not named or r.get("point_m") is None or any(abs(Decimal(str(r["point_m"])) - p) <= APART / 2 for p in named)
    ]
    return life.at - max([*near, min(inside.values()), life.authorised])


def _standing_stop(life: Life) -> str | None:
    """A stop that no determination has surely lifted: design 3."""
    lifts = [a["t"] for a in life.all("stop-determined") if a.get("signed") and a["finding"] == "none-arose"]
    for moment, why, reading in _latched(life):
        lifted = [t for t in lifts if t >= moment]
        if reading is not None:
            lifted = [t for t in lifted if not _beyond(reading["now"]) or _second_instrument(life, reading, t)]
        if not lifted:
            return why
    return None


def _second_instrument(life: Life, bad: Act, until: datetime) -> bool:
    return any(
        r["instrument"] != bad["instrument"] and r["t"] <= until and r["taken"] >= bad["taken"] and _good(life, r)
        for r in _here(life)
    )


def _endorsement(life: Life) -> str | None:
    """After a break or a stop: a full retest, then the supervisor's endorsement."""
    if life.authorised is None:
        return None
    ends = [a["t"] for a in life.all("break-ended") if a["t"] > life.authorised and _in_break(life, a["t"])]
    determined = [a["t"] for a in life.all("stop-determined") if a.get("signed") and a["finding"] == "none-arose"]
    ends += [min(later) for moment, _, _ in _latched(life) if (later := [t for t in determined if t >= moment])]
    if not ends:
        return None
    signed = [a["t"] for a in life.all("reendorsed") if a.get("signed") and life.may(a["by"], "supervisor", a["t"])]
    for moment in signed:
        if moment >= max(ends) and _untested(life, max(ends), moment) is None:
            return None
    return "no full retest and endorsement since the break or stop: design 3"


def _in_break(life: Life, moment: datetime) -> bool:
    """Whether a break surely ran until a moment: begun after the signature, with nobody inside."""
    past = [a for a in life.all("break-begun", "break-ended") if a["t"] < moment]
    return bool(
        past
        and past[-1]["what"] == "break-begun"
        and life.authorised is not None
        and past[-1]["t"] > life.authorised
        and not life.inside(past[-1]["t"])
    )


# The conditions ------------------------------------------------------------------------------------------------------


def _prepared(life: Life) -> Iterator[str]:
    """What must hold before the signature and for everyone who goes in after it."""
    doc, at = life.doc, life.at
    if _ended(life):
        yield "the permit has ended: (e)(5)"
    if not doc.get("clock_confirmed"):
        yield "nobody confirmed the time: D28"
    if not any(a["purpose"].strip() for a in life.all("work-described")):
        yield "no purpose: (f)(2)"
    yield from _hours(life)
    yield from _items(life)
    yield from _hazards(life)
    yield from _isolation(life)
    yield from _people(life)
    yield from _around(life)
    yield from _air(life)


def _isolation(life: Life) -> Iterator[str]:
    doc, at = life.doc, life.at
    for point in doc["evaluation"]["isolation"]:
        last = life.last("point-isolated", "point-released", point=point["id"])
        if last is None or last["what"] == "point-released" or not last["tried_dead"] or not last["verified_by"]:
            yield f"{point['id']} is not isolated and verified: (d)(3)(iii), (f)(8)"
    if life.authorised and any(a["t"] > life.authorised for a in life.all("point-released")):
        yield "isolation changed after the signature: a new permit: design 3"
    if date.fromisoformat(doc["evaluation"]["review_by"]) < life.day(at):
        yield "the evaluation is past its review: design 4"


def _around(life: Life) -> Iterator[str]:
    """Rescue, the opening, the fan, instruments and what was reported."""
    doc, at = life.doc, life.at
    until = _rescue_until(life)
    if until is None or until <= at:
        yield "rescue is not confirmed: (j)(4), (k)(1)"
    if not any(a["answered_by"].strip() for a in life.all("rescue-call-tried")):
        yield "the call for rescue was not tried: (j)(4)"
    if not any(a["guarded"].strip() for a in life.all("space-opened")):
        yield "the opening is not open and guarded: (d)(3)(v)"
    if doc["evaluation"]["ventilation_needed"] and not life.fan_runs():
        yield "the air blown in that the evaluation asks for does not run: (d)(3)(iv)"
    serving = [i["id"] for i in doc["instruments"] if _held(life, i["id"], at)]
    why = {one: not_ready(life, one, at) for one in serving}
    if not serving or all(why.values()):
        yield f"no ready instrument serves the permit {why}: D14, D27"
    for condition in CONDITIONS:
        last = life.last("condition-reported", "condition-cleared", condition=condition)
        if last is not None and last["what"] == "condition-reported":
            yield f"condition stands: {condition}: (e)(5)(ii)"


def _rescue_until(life: Life) -> datetime | None:
    """Until when rescue last said that it can come; a time already past says nothing."""
    said = [_when(a["good_until"]) for a in life.all("rescue-confirmed") if _when(a["good_until"]) > a["t"]]
    return said[-1] if said else None


def _ended(life: Life) -> bool:
    """Whether a supervisor has surely ended the permit: 'expired' before its hours are over is no end, D29."""
    ends = [a for a in life.all("ended") if life.may(a["by"], "supervisor", a["t"])]
    causes = [a for a in ends if a["cause"] != "expired" or a["t"] >= _ends(life)]
    found = [a for a in life.all("stop-determined") if a["finding"] == "prohibited-condition" and a.get("signed")]
    lifts = [a["t"] for a in life.all("stop-determined") if a.get("signed") and a["finding"] == "none-arose"]
    stops = [t for t, _, _ in _latched(life)]
    return bool(causes) or any(
        life.may(a["by"], "supervisor", a["t"])
        and any(t <= a["t"] and not any(t <= lift <= a["t"] for lift in lifts) for t in stops)
        for a in found
    )


def _hours(life: Life) -> Iterator[str]:
    planned = life.last("hours-planned")
    if planned is None:
        yield "no hours: (f)(3)"
        return
    begins, ends = _when(planned["begins"]), _ends(life)
    if ends - begins > LONGEST or ends <= begins:
        yield "hours longer than 12 h, or none: form"
    if life.at >= ends:
        yield "the hours are over: (e)(4)"


def _ends(life: Life) -> datetime:
    """The latest end that anyone planned or signed."""
    planned = life.last("hours-planned")
    if planned is None:
        return life.at + MIN
    longer = [_when(a["ends"]) for a in life.all("extended") if a.get("signed")]
    return max([_when(planned["ends"]), *(t for t in longer if t - _when(planned["begins"]) <= LONGEST)])


def _items(life: Life) -> Iterator[str]:
    answers = {a["item"]: a for a in life.all("answered")}

    def said(item: str) -> tuple[str, str]:
        act = answers.get(item)
        return (act["answer"], act.get("found", "").strip()) if act else ("", "")

    needed = dict(ITEMS)
    if said("different-today")[0] == "yes":
        needed["difference-judged"] = ("yes",)
    if any(o.get("near", True) for o in life.doc.get("others", [])):
        needed["near-permits"] = ("yes",)
    if any(h["sort"] == "hot-work" for h in _all_hazards(life)):
        needed |= dict.fromkeys(("hot-work-permit", "fire-watch", "cylinders-outside"), ("yes",))
    if said("retrieval")[0] == "does not apply" and life.doc["space"]["bad_air_possible"]:
        needed["standby-team"] = ("yes",)
    for item, expected in needed.items():
        answer, found = said(item)
        if answer not in expected or (item in NEEDS_FOUND and not found):
            yield f"item {item} is answered {answer or 'not at all'}: D-1, (d), (j)(2)"
        elif item in ("different-today", "other-permits") and answer == "yes" and not found:
            yield f"item {item} says yes and not what: (f)(15), (c)(6)"


def _all_hazards(life: Life) -> list[Act]:
    added = [{"id": a["hazard"], "sort": a.get("sort", "not-said"), "t": a["t"]} for a in life.all("hazard-added")]
    return [*life.doc["evaluation"]["hazards"], *added]


def _hazards(life: Life) -> Iterator[str]:
    for hazard in _all_hazards(life):
        last = life.last("hazard-held", hazard=hazard["id"])
        if last is None or not last["how"].strip():
            yield f"hazard {hazard['id']} is not held: (d)(3), (f)(7)-(8)"
        if life.authorised is not None and hazard.get("t") and hazard["t"] > life.authorised:
            yield f"hazard {hazard['id']} came after the signature: a new permit: design 3"


def _people(life: Life) -> Iterator[str]:
    named = {part: life.named(part) for part in ("entrant", "attendant", "supervisor")}
    for part, people in named.items():
        if not people:
            yield f"no {part} is named: (f)(4)-(6)"
        if people and not any(life.may(p, part, life.at) for p in people):
            yield f"no {part} with good training: (g)"
        for person in people:
            if part == "entrant" and not life.may(person, part, life.at):
                yield f"{person} is not trained as {part}: (g)"
    briefed = {p for a in life.all("briefed") for p in a["people"]}
    for person in named["entrant"]:
        if person not in briefed:
            yield f"{person} was not briefed: (h)(1)"


def _air(life: Life) -> Iterator[str]:
    changed = _air_changed(life, life.at)
    missing = _untested(life, changed, life.at)
    if missing:
        yield f"not tested since the air changed: {missing}: (d)(5)(i), design 4"
    last: dict[Any, Act] = {}
    for reading in sorted(_here(life), key=lambda r: (r["taken"], r["t"])):
        if changed is None or reading["taken"] >= changed:
            last[_number(reading.get("point_m"))] = reading
    for point, reading in last.items():
        plain = _beyond(reading["now"])
        if plain:
            yield f"the last set at {point} shows {plain}: (b), D1, D38"
        elif _unaccounted(life, reading["now"]):
            yield f"the last set at {point} leaves gas unaccounted for: design 4, D35"
    good = [r for r in _here(life) if _good(life, r) and r["taken"] > life.at - VERIFIED]
    if not good:
        yield "no good set within 60 min: form, verification"
    elif not life.all("went-in", "someone-went-in"):
        old = _untested(life, max(filter(None, (changed, life.at - VERIFIED))), life.at)
        if old:
            yield f"older than 60 min before the first entry: {old}: form, verification"


def _enter(life: Life) -> Iterator[str]:
    """What must hold besides for the next person in."""
    doc, at = life.doc, life.at
    if life.authorised is None:
        yield "no supervisor signed: (e)(2)"
        return
    planned = life.last("hours-planned")
    if planned and at < _when(planned["begins"]):
        yield "before the hours: (f)(3)"
    watcher = life.watcher()
    if watcher is None or not life.may(watcher, "attendant", at):
        yield f"no trained attendant watches ({watcher}): (d)(6)"
    if watcher and any(o.get("attendant") == watcher for o in doc.get("others", [])):
        yield "the attendant watches another space: form, (d)(6)"
    stop = _standing_stop(life)
    if stop:
        yield f"a stop stands undetermined: {stop}: design 3, D26"
    endorsement = _endorsement(life)
    if endorsement:
        yield endorsement
    past = life.all("break-begun", "break-ended")
    if past and past[-1]["what"] == "break-begun" and _in_break(life, at + MIN):
        yield "a break runs: design 3"
    if _unread(life) > RETEST + GRACE:
        yield "the retest is overdue where people work: form, 15 and 2 min"


def _stay(life: Life) -> Iterator[str]:
    """What orders everyone out: design 2, D26, D27. Judged only while someone is inside."""
    if life.authorised is None or not life.inside(life.at):
        return
    if _ended(life) or life.at >= _ends(life):
        yield "people inside after the permit's end: (e)(5)"
    stop = _standing_stop(life)
    if stop:
        yield f"everyone out: {stop}: design 3, D26"
    if life.doc["evaluation"]["ventilation_needed"] and not life.fan_runs():
        yield "the fan stands: design 2"
    if life.watcher() in life.inside(life.at):
        yield "the attendant is inside: (d)(6), (i)(4), design 2"
    if _unread(life) > BOUND:
        yield "the air where people work is unread past the second bound: form, design 2"
    for condition, bars in CONDITIONS.items():
        last = life.last("condition-reported", "condition-cleared", condition=condition)
        if bars == "stay" and last is not None and last["what"] == "condition-reported":
            yield f"condition stands: {condition}: design 2"
    lost = [a for a in life.all("instrument-returned") if a["why"] in ("failed", "dropped", "battery-flat")]
    if lost and not any(_held(life, i["id"], life.at) for i in life.doc["instruments"]):
        yield "the last instrument is lost: design 2, D27"
