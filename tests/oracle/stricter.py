"""Changes that can only make a permit worse: none may turn a refusal into leave (R5)."""

from __future__ import annotations

import copy
import random
from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

from tests.oracle.lives import FORMS, GOOD, Doc, at_each, barring, points_of, reading_act, whole

FORM = FORMS["us-general-industry"]
TIGHTER = (
    ('low = "19.5"', 'low = "20.9"'),
    ('high = "23.5"', 'high = "20.9"'),
    ('high = "10"                   # tightened', 'high = "2"                   # tightened'),
    ('high = "35"', 'high = "5"'),
    ("every_min = 15", "every_min = 5"),
    ("bound_intervals = 2", "bound_intervals = 1"),
    ("verification_min = 60", "verification_min = 20"),
    ("under_h = 24", "under_h = 2"),
    ('accept_low = "90"', 'accept_low = "99"'),
    ("alarm_within_s = 60", "alarm_within_s = 10"),
    ("block_within_s = 30", "block_within_s = 5"),
    ('spacing_m = "1.2"', 'spacing_m = "0.6"'),
    ('top_m = "0.3"', 'top_m = "0.2"'),
    ('above_m = "0.3"', 'above_m = "0.2"'),
    ("flushes = 1", "flushes = 3"),
    ('ppm = "10000"', 'ppm = "1000"'),
    ("longest_h = 12", "longest_h = 4"),
    ("extend = true", "extend = false"),
)
FAVOURABLE = {
    "briefed", "point-isolated", "authorised", "reendorsed", "rescue-confirmed", "rescue-call-tried", "hose-tested",
    "watch-taken", "answered", "hazard-held", "work-described", "hours-planned", "person-named", "break-ended",
    "condition-cleared", "stop-determined", "instrument-assigned",
}  # fmt: skip
CHANGES = {"answered", "hazard-held", "work-described", "hours-planned", "person-named", "instrument-assigned"}
LATER = (1, 16, 31, 61, 240, 1440)


def refusals(seed: int, most: int) -> list[Doc]:
    """States of a life in which entry is refused, the ones nearest to leave first."""
    document, moments = whole(seed)
    bars = at_each(document, moments)
    order = sorted(range(len(moments)), key=lambda i: (len(set(bars[i]["enter"])) or 99, random.Random(i).random()))
    return [_until(document, moments[i]) for i in order[:most] if bars[i]["enter"]]


def _until(document: Doc, at: datetime) -> Doc:
    cut = copy.deepcopy({**document, "at": at.isoformat()})
    for told in (cut, *cut["instruments"]):
        told["happened"] = [a for a in told["happened"] if datetime.fromisoformat(a["at"]) <= at]
    return cut


def _also(document: Doc, what: str, **fields: Any) -> Doc:
    act = {"what": what, "at": document["at"], "by": "P-01", **fields}
    return {**document, "happened": [*document["happened"], act]}


def adverse(document: Doc) -> Iterator[tuple[str, Doc]]:
    """One bad thing more."""
    now = datetime.fromisoformat(document["at"])
    for condition in ("symptoms", "engine-started", "dust", "attendant-unable"):
        yield f"condition {condition}", _also(document, "condition-reported", condition=condition)
    yield "stop", _also(document, "stop-ordered", cause="pressed")
    yield "fan stopped", _also(document, "ventilation-stopped", why="no fuel")
    yield "isolation released", _also(document, "point-released", point="main-east", why="wanted")
    yield "hazard added", _also(document, "hazard-added", hazard="x", name="x", shows="x", sort="other")
    yield "instrument failed", _also(document, "instrument-returned", instrument="07", why="failed")
    for gas, figure in (("oxygen", "19.4"), ("oxygen", "19.6"), ("flammable", "10"), ("hydrogen-sulfide", "12")):
        for point in points_of(float(document["space"]["depth_m"]))[-2:]:
            act = reading_act(now, now, point, {**GOOD, gas: figure}, "07", None, 75)
            yield f"reading {gas} {figure}", {**document, "happened": [*document["happened"], act]}
    worse = copy.deepcopy(document)
    for person in worse["people"]:
        for training in person["training"]:
            training["good_until"] = "2026-11-16"
    yield "training over", worse
    worse = copy.deepcopy(document)
    for one in worse["instruments"]:
        bump = copy.deepcopy(next((a for a in one["happened"] if a["what"] == "bump-tested"), None))
        if bump:
            bump["results"][0]["reading"] = "1"
            one["happened"].append({**bump, "at": document["at"]})
    yield "bump failed", worse
    yield "time not confirmed", {**document, "clock_confirmed": False}


def _good(act: Doc, acts: list[Doc]) -> bool:
    """A set that can only count for entry: good figures, wait kept, told at once, by the usual instrument, which was
    nowhere else in the meantime: of two such sets each speaks against the other."""
    figures = {f["gas"]: str(f["figure"]) for f in act["figures"]}
    if figures != GOOD or act["taken"] != act["at"] or act["instrument"] != "07" or "lowered" not in act:
        return False
    return not any(
        other is not act
        and other["what"] == "readings-taken"
        and other["instrument"] == act["instrument"]
        and other.get("lowered")
        and other["lowered"] < act["taken"]
        and act["lowered"] < other["taken"]
        for other in acts
    )


def without(document: Doc) -> Iterator[tuple[str, Doc]]:
    """One good thing less."""
    acts = document["happened"]
    signed = next((a["at"] for a in acts if a["what"] == "authorised"), "9")
    for index, act in enumerate(acts):
        if act["what"] in CHANGES and act["at"] > signed:
            continue  # said anew after the signature, it asks for a new permit
        if act["what"] == "rescue-confirmed" and sum(a["what"] == act["what"] for a in acts) > 1:
            continue  # a later word may be the shorter one
        if act["what"] == "hose-tested" and act["stopped_s"] not in (4, "4"):
            continue
        if act["what"] in FAVOURABLE or (act["what"] == "readings-taken" and _good(act, acts)):
            yield f"without {act['what']}", {**document, "happened": acts[:index] + acts[index + 1 :]}
    for which, one in enumerate(document["instruments"]):
        for index, act in enumerate(one["happened"]):
            if act["what"] in ("bump-tested", "calibrated", "checked-before-use") and index < 3:
                less = copy.deepcopy(document)
                del less["instruments"][which]["happened"][index]
                yield f"without {act['what']} {one['id']}", less


def tighter() -> Iterator[tuple[str, str]]:
    """Forms with one figure stricter."""
    for old, new in TIGHTER:
        text = FORM.replace(old, new, 1)
        assert text != FORM, f"the form no longer says {old}"
        yield new.partition("#")[0].strip(), text


def loosened(document: Doc) -> Iterator[str]:
    """Changes for the worse that let in what was refused: 'change: stages'.

    Less and tighter may make an earlier signature void, and with it what followed; then only entry is asked about.
    A second signature starts the permit anew and says nothing here.
    """
    before = {stage for stage, codes in barring(document).items() if codes}
    stages = before if any(a["what"] == "authorised" for a in document["happened"]) else before - {"stay"}

    def now_free(changed: Doc, asked: set[str], form_text: str | None = None) -> set[str]:
        return {stage for stage, codes in barring(changed, form_text).items() if not codes} & asked

    for change, worse in adverse(document):
        if free := now_free(worse, stages):
            yield f"{change}: {sorted(free)}"
    if sum(a["what"] == "authorised" for a in document["happened"]) <= 1:
        for change, worse in without(document):
            if free := now_free(worse, before & {"enter"}):
                yield f"{change}: {sorted(free)}"
        for change, text in tighter():
            if free := now_free(document, before & {"enter"}, text):
                yield f"{change}: {sorted(free)}"
    hours = [datetime.fromisoformat(a["begins"]) for a in document["happened"] if a["what"] == "hours-planned"]
    now = datetime.fromisoformat(document["at"])
    if all(begins <= now for begins in hours):
        for minutes in LATER:
            later = (now + timedelta(minutes=minutes)).isoformat()
            if free := now_free({**document, "at": later}, stages):
                yield f"{minutes} min later: {sorted(free)}"


if __name__ == "__main__":
    import sys

    for seed in range(int(sys.argv[1]), int(sys.argv[2])):
        for state in refusals(seed, 2):
            for fault in loosened(state):
                sys.stdout.write(f"seed {seed} at {state['at']}, refused for {barring(state)}: {fault}\n")
    sys.stdout.write(f"seeds {sys.argv[1:]} done\n")
