"""A second opinion on a permit, written from the papers alone: it imports nothing from the program.

``unmet(document, at, stage)`` lists, in plain words with the clause, the conditions of entry that are surely not met.
What the papers leave open it passes over, so that whatever the program allows against this list is a fault. It knows
one form (United States general industry, permit route). Clauses: (x) is 29 CFR 1910.146(x); C the coverage list and D
the decisions of the project, design its design. Times are aware; lengths metres.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from tests.oracle.air import APART, air_changed, beyond, good, sets_here, unaccounted, untested
from tests.oracle.ready import held_since, not_ready
from tests.oracle.record import MIN, Act, Life, number, when

RETEST, GRACE, BOUND, VERIFIED = 15 * MIN, 2 * MIN, 30 * MIN, 60 * MIN
LONGEST = timedelta(hours=12)

CONDITIONS = {  # what the form's table says each bars
    **dict.fromkeys(("instrument-alarm", "symptoms", "isolation-disturbed", "communication-lost"), "stay"),
    **dict.fromkeys(("water-rising", "outside-danger", "attendant-unable", "rescue-withdrawn", "dust"), "stay"),
    **dict.fromkeys(("engine-started", "unauthorised-person", "re-evaluation-asked"), "enter"),
}

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
    for reading in sets_here(life):
        plain = beyond(reading["typed"])
        if plain and reading["t"] > life.authorised:
            yield reading["t"], f"a reading: {plain}", reading
        elif beyond(reading["now"]) and any(
            f["reading"] == reading.get("id") and f["t"] > life.authorised for f in life.all("reading-corrected")
        ):
            yield life.all("reading-corrected")[-1]["t"], "a corrected reading past its limit", reading
    yield from ((moment, "the air was not read for 30 min", None) for moment in _overdue(life))


def _overdue(life: Life) -> list[datetime]:
    """Moments at which people had been inside for over 30 min with no set of readings in over 30 min: D26, form."""
    if life.authorised is None:
        return []
    sets = sorted(r["taken"] for r in sets_here(life))
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
        for r in sets_here(life)
        if not named or r.get("point_m") is None or any(abs(Decimal(str(r["point_m"])) - p) <= APART / 2 for p in named)
    ]
    return life.at - max([*near, min(inside.values()), life.authorised])


def _standing_stop(life: Life) -> str | None:
    """A stop that no determination has surely lifted: design 3."""
    lifts = [a["t"] for a in life.all("stop-determined") if a.get("signed") and a["finding"] == "none-arose"]
    for moment, why, reading in _latched(life):
        lifted = [t for t in lifts if t >= moment]
        if reading is not None:
            lifted = [t for t in lifted if not beyond(reading["now"]) or _second_instrument(life, reading, t)]
        if not lifted:
            return why
    return None


def _second_instrument(life: Life, bad: Act, until: datetime) -> bool:
    return any(
        r["instrument"] != bad["instrument"] and r["t"] <= until and r["taken"] >= bad["taken"] and good(life, r)
        for r in sets_here(life)
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
        if moment >= max(ends) and untested(life, max(ends), moment) is None:
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
    doc = life.doc
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
    slow = life.last("rescue-confirmed")
    if slow is not None and float(slow["response_min"]) > float(doc["evaluation"]["rescue"]["response_min"]):
        yield "rescue comes later than it was judged able to: (k)(1)(i)"
    if not any(a["answered_by"].strip() for a in life.all("rescue-call-tried")):
        yield "the call for rescue was not tried: (j)(4)"
    if not any(a["guarded"].strip() for a in life.all("space-opened")):
        yield "the opening is not open and guarded: (d)(3)(v)"
    if doc["evaluation"]["ventilation_needed"] and not life.fan_runs():
        yield "the air blown in that the evaluation asks for does not run: (d)(3)(iv)"
    serving = [i["id"] for i in doc["instruments"] if held_since(life, i["id"], at)]
    why = {one: not_ready(life, one, at) for one in serving}
    if not serving or all(why.values()):
        yield f"no ready instrument serves the permit {why}: D14, D27"
    for condition in CONDITIONS:
        last = life.last("condition-reported", "condition-cleared", condition=condition)
        if last is not None and last["what"] == "condition-reported":
            yield f"condition stands: {condition}: (e)(5)(ii)"


def _rescue_until(life: Life) -> datetime | None:
    """Until when rescue last said that it can come; a time already past says nothing."""
    said = [when(a["good_until"]) for a in life.all("rescue-confirmed") if when(a["good_until"]) > a["t"]]
    return said[-1] if said else None


def _ended(life: Life) -> bool:
    """Whether a supervisor has surely ended the permit: a draft is not ended, nor 'expired' before its time, D29."""
    ends = [a for a in life.all("ended") if life.may(a["by"], "supervisor", a["t"])]
    ends = [a for a in ends if life.authorised is not None and a["t"] > life.authorised]
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
    begins, ends = when(planned["begins"]), _ends(life)
    if ends - begins > LONGEST or ends <= begins:
        yield "hours longer than 12 h, or none: form"
    if life.at >= ends:
        yield "the hours are over: (e)(4)"


def _ends(life: Life) -> datetime:
    """The latest end that anyone planned or signed."""
    planned = life.last("hours-planned")
    if planned is None:
        return life.at + MIN
    longer = [when(a["ends"]) for a in life.all("extended") if a.get("signed")]
    return max([when(planned["ends"]), *(t for t in longer if t - when(planned["begins"]) <= LONGEST)])


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
    changed = air_changed(life, life.at)
    missing = untested(life, changed, life.at)
    if missing and untested(life, air_changed(life, life.at, clearing=False), life.at):
        yield f"not tested since the air changed: {missing}: (d)(5)(i), design 4"
    elif missing:
        yield f"read only while a condition still stood: {missing}: form, C48"
    last: dict[Any, Act] = {}
    lifts = [a["t"] for a in life.all("stop-determined") if life.authorised and a["t"] > life.authorised]
    since = max([*lifts, *filter(None, [changed])], default=None)  # a stop found groundless asks for a full retest
    for reading in sorted(sets_here(life), key=lambda r: (r["taken"], r["t"])):
        if since is None or reading["taken"] >= since:
            last[number(reading.get("point_m"))] = reading
    for point, reading in last.items():
        plain = beyond(reading["now"])
        if plain:
            yield f"the last set at {point} shows {plain}: (b), D1, D38"
        elif unaccounted(life, reading["now"]):
            yield f"the last set at {point} leaves gas unaccounted for: design 4, D35"
    proofs = [r for r in sets_here(life) if good(life, r) and r["taken"] > life.at - VERIFIED]
    if not proofs:
        yield "no good set within 60 min: form, verification"
    elif not life.all("went-in", "someone-went-in"):
        old = untested(life, max(filter(None, (changed, life.at - VERIFIED))), life.at)
        if old:
            yield f"older than 60 min before the first entry: {old}: form, verification"


def _enter(life: Life) -> Iterator[str]:
    """What must hold besides for the next person in."""
    doc, at = life.doc, life.at
    if life.authorised is None:
        yield "no supervisor signed: (e)(2)"
        return
    planned = life.last("hours-planned")
    if planned and at < when(planned["begins"]):
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
    if lost and not any(held_since(life, i["id"], life.at) for i in life.doc["instruments"]):
        yield "the last instrument is lost: design 2, D27"
