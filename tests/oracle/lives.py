"""Random lives of a permit, judged by the program and by a second opinion: ``python -m tests.oracle.lives 10000``.

A life starts from a complete permit or from a blank one and does up to fifty good and bad things in random order. At
each step, whatever the program allows must have no condition unmet in ``rules``. A disagreement is shrunk: acts are
taken out as long as it stays.
"""

from __future__ import annotations

import copy
import json
import math
import random
import re
import sys
from collections import Counter
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from tests.oracle.rules import CONDITIONS, unmet

from lamproom.intake.permit_document import example, read_document
from lamproom.office.assess import _Lived, assess
from lamproom.office.opening import forms_at_hand
from lamproom.permit.obstacles import Stage, obstacles

Doc = dict[str, Any]
STEPS = 50
FORMS = forms_at_hand()
GOOD = {"oxygen": "20.9", "flammable": "0", "hydrogen-sulfide": "0", "carbon-monoxide": "0"}
UNITS = {"oxygen": "% vol", "flammable": "% LEL", "hydrogen-sulfide": "ppm", "carbon-monoxide": "ppm"}
FAR = ("19.4", "23.6", "20.4", "19.5", "20.6")


# What the program says -----------------------------------------------------------------------------------------------


def allowed(document: Doc, form_text: str | None = None) -> dict[str, bool]:
    """Whether the program allows each stage at the document's own moment."""
    bars = barring(document, form_text)
    return {stage: not codes for stage, codes in bars.items()}


def barring(document: Doc, form_text: str | None = None) -> dict[str, list[str]]:
    """The codes that bar each stage."""
    told = document if form_text is None else {**document, "form_text": form_text}
    answer = assess(read_document(json.dumps(told)), FORMS)
    found = [*answer.standing, *answer.others]
    return {stage.value: sorted(o.code for o in found if o.bars(stage)) for stage in Stage}


class Stepwise(_Lived):
    """Lives a document once and looks at every moment asked for as ``assess`` would; a test holds the two equal."""

    def look(self, moments: list[datetime]) -> list[dict[str, list[str]]]:
        """The codes that bar each stage at each moment, the moments in their order."""
        self.answers: list[dict[str, list[str]]] = []
        self.moments = moments
        self.live()
        self._up_to(None)
        return self.answers

    def _up_to(self, at: datetime | None) -> None:
        while self.moments and (at is None or self.moments[0] < at):
            found = obstacles(self.facts(self.moments.pop(0)))
            self.answers.append({stage.value: sorted(o.code for o in found if o.bars(stage)) for stage in Stage})

    def _tell(self, act: Any, at: datetime) -> None:
        self._up_to(at)
        super()._tell(act, at)

    def _do(self, instrument: str, event: Any, at: datetime, by: str | None) -> None:
        if hasattr(self, "permit"):
            self._up_to(at)
        super()._do(instrument, event, at, by)


def at_each(document: Doc, moments: list[datetime]) -> list[dict[str, list[str]]]:
    """The codes that bar each stage at each moment of a whole life."""
    told = read_document(json.dumps(document))
    return Stepwise(told, FORMS[told.form], max(moments)).look(list(moments))


def disagreements(document: Doc, stage: str) -> set[str]:
    """Kinds of conditions that are unmet though the program allows the stage."""
    if not allowed(document)[stage]:
        return set()
    return {kind_of(stage, one) for one in unmet(document, datetime.fromisoformat(document["at"]), stage)}


def shrunk(document: Doc, stage: str, kind: str) -> Doc:
    """The smallest document, by taking out acts, that still shows that kind of disagreement."""
    small = {**document, "happened": [a for a in document["happened"] if a["at"] <= document["at"]]}
    again = True
    while again:
        again = False
        for index in reversed(range(len(small["happened"]))):
            less = {**small, "happened": small["happened"][:index] + small["happened"][index + 1 :]}
            if kind in disagreements(less, stage):
                small, again = less, True
    return small


# A life --------------------------------------------------------------------------------------------------------------


@dataclass
class Life:
    """A document that grows; ``now`` is its moment."""

    dice: random.Random
    doc: Doc = field(default_factory=dict)
    now: datetime = datetime.fromisoformat("2026-11-17T07:00:00-06:00")
    plan: list[dict[str, Any]] = field(default_factory=list)
    told: list[str] = field(default_factory=list)

    # Starting ---------------------------------------------------------------------------------------------------------

    def start(self) -> None:
        """A permit of the example's kind with another depth, people and hours: complete, or blank with its plan."""
        self.doc = good_permit(self.dice)
        acts = self.doc["happened"]
        if self.dice.random() < 0.6:
            self.now = datetime.fromisoformat(self.doc["at"])
            if self.dice.random() < 0.3:
                acts.pop(self.dice.randrange(len(acts)))
        else:
            self.plan, self.doc["happened"] = acts, []
            self.doc["at"] = self.now.isoformat()

    def do(self, what: str, by: str | None = "P-01", **fields: Any) -> None:
        self.doc["happened"].append({"what": what, "at": self.now.isoformat(), "by": by, **fields})

    def bench(self, what: str, instrument: str, **fields: Any) -> None:
        one = next(i for i in self.doc["instruments"] if i["id"] == instrument)
        one["happened"].append({"what": what, "at": self.now.isoformat(), "by": "P-02", **fields})

    def wait(self, minutes: float) -> None:
        self.now += timedelta(minutes=minutes)
        self.doc["at"] = self.now.isoformat()

    def last(self, *whats: str) -> dict[str, Any] | None:
        return next((a for a in reversed(self.doc["happened"]) if a["what"] in whats), None)

    def step(self) -> None:
        """One thing more: the plan's next acts, or something good, bad or late."""
        if self.plan and self.dice.random() < 0.85:
            for _ in range(self.dice.choice((1, 2, 4, 8))):
                if self.plan:
                    act = self.plan.pop(0)
                    self.now = max(self.now, datetime.fromisoformat(act["at"]))
                    late = self.now - datetime.fromisoformat(act["at"])
                    for key in ("at", "taken", "lowered"):
                        if act.get(key):
                            act[key] = (datetime.fromisoformat(act[key]) + late).isoformat()
                    self.doc["happened"].append(act)
            self.told.append("plan")
        else:
            kinds: list[Callable[[Life], None]] = list(ACTS)
            act_of = self.dice.choices(kinds, [ACTS[kind] for kind in kinds])[0]
            self.told.append(act_of.__name__)
            act_of(self)
        self.doc["at"] = self.now.isoformat()


def points_of(bottom: float) -> list[float]:
    """Places to test from the opening: 0.3 m, 0.3 m above the bottom, at most 1.2 m apart, in tenths."""
    top, last = 3, round(bottom * 10) - 3
    if last <= top:
        return [max(last, 1) / 10]
    count = math.ceil((last - top) / 12)
    return [math.floor(top + (last - top) * i / count) / 10 for i in range(count + 1)]


def good_permit(dice: random.Random) -> Doc:
    """A complete permit in which nothing is missing, no two alike, someone inside or not."""
    doc: Doc = json.loads(example(), parse_float=str)
    depth = dice.randrange(16, 70) / 10
    doc["space"]["depth_m"] = depth
    doc["evaluation"]["retest_points_m"] = [round(depth * (0.5 if dice.random() < 0.3 else 0.7), 1)]
    people = {p["id"]: p for p in doc["people"]}
    for new, like, name in (("P-06", "P-02", "Ada Lorn"), ("P-08", "P-01", "Ivo Brandt"), ("P-07", "P-04", "Sol Ek")):
        doc["people"].append({**copy.deepcopy(people[like]), "id": new, "name": name})
    doc["people"][-1]["training"][0]["good_until"] = "2026-11-16"
    doc["instruments"].append({**copy.deepcopy(doc["instruments"][0]), "id": "08", "name": "Instrument 08"})
    level = dice.choice((None, None, round(depth - dice.choice((0.2, 0.5, 1.0)), 1)))
    acts: list[dict[str, Any]] = []
    done = False
    for act in doc["happened"]:
        if act["what"] == "level-stated":
            act = {**act, "depth_m": level}
        if act["what"] == "readings-taken" and act.get("phase") == "ventilating":
            if done:
                continue
            done = True
            taken = datetime.fromisoformat("2026-11-17T08:12:00-06:00")
            for point in points_of(level or depth):
                acts.append(reading_act(taken, taken, point, dict(GOOD), "07", "ventilating", 75, dice.random() < 0.5))
                taken += timedelta(minutes=2)
            continue
        acts.append(act)
    for act in acts:
        if act.get("phase") == "work":
            act["point_m"] = doc["evaluation"]["retest_points_m"][0]
    if dice.random() < 0.5:
        acts.pop()  # nobody has gone in yet
    doc["happened"] = acts
    return doc


def reading_act(
    at: datetime,
    taken: datetime,
    point: float | None,
    figures: dict[str, str],
    instrument: str,
    phase: str | None,
    wait_s: float | None,
    said: bool = True,
) -> dict[str, Any]:
    act: dict[str, Any] = {
        "what": "readings-taken",
        "at": at.isoformat(),
        "by": "P-02",
        "instrument": instrument,
        "taken": taken.isoformat(),
        "figures": [{"gas": gas, "unit": UNITS[gas], "figure": figure} for gas, figure in figures.items()],
    }
    if point is not None:
        act["point_m"] = point
    if phase is not None and said:
        act["phase"] = phase
    if wait_s is not None:
        act["lowered"] = (taken - timedelta(seconds=wait_s)).isoformat()
    return act


# What can happen -----------------------------------------------------------------------------------------------------


def _bottom(life: Life) -> float:
    level = life.last("level-stated")
    return float((level and level["depth_m"]) or life.doc["space"]["depth_m"])


def _figures(life: Life) -> dict[str, str]:
    """Usually good figures; else one at, past or short of its limit."""
    figures = dict(GOOD)
    roll = life.dice.random()
    if roll < 0.4:
        figures["oxygen"] = life.dice.choice(("20.9", "20.8", "20.7"))
    elif roll > 0.85:
        gas = life.dice.choice(list(figures))
        figures[gas] = life.dice.choice(FAR if gas == "oxygen" else ("9", "10", "12", "34", "35", "60"))
    return figures


def full_retest(life: Life) -> None:
    """Every point again, as it should be, or with one thing wrong somewhere."""
    points = points_of(_bottom(life))
    wrong = life.dice.choice((None, None, None, "skip", "short", "other", "figure", "no-lowered", "early"))
    at = life.dice.randrange(len(points))
    tool = "08" if life.dice.random() < 0.1 else "07"
    last = life.last("ventilation-started", "ventilation-stopped")
    phase = "ventilating" if last and last["what"] == "ventilation-started" else "open"
    said = life.dice.random() < 0.7
    for index, point in enumerate(points):
        life.wait(2)
        here = wrong if index == at else None
        if here == "skip":
            continue
        wait = {"short": life.dice.choice((5.0, 29.0, 40.0)), "no-lowered": None}.get(here or "", 75.0)
        figures = _figures(life) if here == "figure" else dict(GOOD)
        taken = life.now - timedelta(minutes=life.dice.choice((20, 40, 90)) if here == "early" else 0)
        instrument = "08" if here == "other" else tool
        life.doc["happened"].append(reading_act(life.now, taken, point, figures, instrument, phase, wait, said))


def one_reading(life: Life) -> None:
    """One set somewhere, good or bad, now or a little ago, at a wrong place or by another instrument."""
    places = [*points_of(_bottom(life)), *life.doc["evaluation"]["retest_points_m"], 0.9, 2.5]
    point: float | None = float(life.dice.choice(places))
    taken = life.now - timedelta(minutes=life.dice.choice((0, 0, 0, 1, 5, 30)))
    instrument = life.dice.choice(("07", "07", "07", "07", "08"))
    act = reading_act(life.now, taken, point, _figures(life), instrument, None, life.dice.choice((75.0, 75.0, None)))
    if life.dice.random() < 0.05:
        act["figures"].pop()
    if life.dice.random() < 0.03:
        act["figures"][1].update(state="over-range", figure=None)
    if life.dice.random() < 0.3:
        act["id"] = f"r{len(life.doc['happened'])}"
    life.doc["happened"].append(act)


def correct(life: Life) -> None:
    """Put a figure of a named set right, or wrong."""
    named = [a for a in life.doc["happened"] if a["what"] == "readings-taken" and a.get("id")]
    if named:
        act = life.dice.choice(named)
        figure = life.dice.choice(act["figures"])
        if figure["figure"] is not None:
            new = _figures(life)[figure["gas"]]
            life.do(
                "reading-corrected", "P-02", reading=act["id"], gas=figure["gas"], old=str(figure["figure"]), new=new,
                reason="misread",
            )  # fmt: skip


def fan(life: Life) -> None:
    last = life.last("ventilation-started", "ventilation-stopped")
    if last and last["what"] == "ventilation-started":
        life.do("ventilation-stopped", "P-02", why="generator out of fuel")
        if life.dice.random() < 0.5:
            return
        life.wait(1)
    life.do(
        "ventilation-started", "P-02", flow_m3_h=680, intake="upwind", stop_noticed_by="streamer", power="generator 2"
    )


def duct_reading(life: Life) -> None:
    act = reading_act(life.now, life.now, None, dict(GOOD), "07", "duct", None)
    life.doc["happened"].append(act)


def upwind_reading(life: Life) -> None:
    figures = {**GOOD, "oxygen": life.dice.choice(("20.9", "20.9", "20.8", "20.5"))}
    act = reading_act(life.now, life.now, None, figures, "07", "upwind", None)
    life.doc["happened"].append({**act, "place": "outside"})


def cover(life: Life) -> None:
    life.do("space-opened", "P-02", guarded=life.dice.choice(("rail and cones", "rail and cones", " ")))


def level(life: Life) -> None:
    depth = float(life.doc["space"]["depth_m"])
    said = life.dice.choice((None, round(depth - 0.2, 1), round(depth - 0.6, 1)))
    life.do("level-stated", "P-02", depth_m=said, how="seen with a lamp")


def take_break(life: Life) -> None:
    last = life.last("break-begun", "break-ended")
    if last and last["what"] == "break-begun":
        life.do("break-ended", isolation_found=life.dice.choice(("as left, locks on", "as left, locks on", "")))
        return
    if life.dice.random() < 0.8:
        everyone_out(life)
    life.do("break-begun", "P-02", guarded="grating, P-02", left="fan runs, locks on", torches_out=True)


def stop(life: Life) -> None:
    life.do("stop-ordered", life.dice.choice(("P-02", "P-04", None)), cause="pressed")
    if life.dice.random() < 0.7:
        everyone_out(life)


def determine(life: Life) -> None:
    finding = life.dice.choice(("none-arose",) * 9 + ("prohibited-condition",))
    by = life.dice.choice(("P-01",) * 6 + ("P-02",))
    life.do("stop-determined", by, finding=finding, reason="looked into", signed=life.dice.random() < 0.9)


def reendorse(life: Life) -> None:
    by = life.dice.choice(("P-01",) * 6 + ("P-04",))
    life.do("reendorsed", by, signed=life.dice.random() < 0.9)


def recover(life: Life) -> None:
    """What puts a stop or a break behind: most of it, in order."""
    everyone_out(life)
    acts: list[Callable[[Life], None]] = [clear, isolate, determine, end_break, fan_on, full_retest, reendorse]
    for act in acts:
        if life.dice.random() < 0.93:
            life.wait(1)
            act(life)


def end_break(life: Life) -> None:
    last = life.last("break-begun", "break-ended")
    if last and last["what"] == "break-begun":
        life.do("break-ended", isolation_found="as left, locks on")


def fan_on(life: Life) -> None:
    last = life.last("ventilation-started", "ventilation-stopped")
    if not last or last["what"] == "ventilation-stopped":
        fan(life)
        life.wait(2)
        duct_reading(life)


def everyone_out(life: Life) -> None:
    inside: list[str] = []
    for act in life.doc["happened"]:
        who = act.get("person") or act.get("label")
        if act["what"] in ("went-in", "someone-went-in"):
            inside.append(str(who))
        elif act["what"] == "went-out" and who in inside:
            inside.remove(str(who))
    for who in dict.fromkeys(inside):
        life.do("went-out", "P-02", person=who)


def go_in(life: Life) -> None:
    life.do("went-in", "P-02", person=life.dice.choice(("P-04", "P-05", "P-05", "P-07", "P-02")))


def go_out(life: Life) -> None:
    life.do("went-out", "P-02", person=life.dice.choice(("P-04", "P-05")))


def someone(life: Life) -> None:
    life.do("someone-went-in", "P-02", label=f"unknown {life.dice.choice((1, 2))}")


def condition(life: Life) -> None:
    life.do("condition-reported", "P-02", condition=life.dice.choice(list(CONDITIONS)), note="")


def clear(life: Life) -> None:
    standing: dict[str, bool] = {}
    for act in life.doc["happened"]:
        if act["what"].startswith("condition-"):
            standing[act["condition"]] = act["what"] == "condition-reported"
    for name in [one for one, on in standing.items() if on]:
        life.do("condition-cleared", "P-01", condition=name, found="gone")


def relieve(life: Life) -> None:
    life.do("relieved", "P-06", incoming=life.dice.choice(("P-06", "P-02", "P-04")))


def watch(life: Life) -> None:
    life.do("watch-taken", "P-02", person=life.dice.choice(("P-02", "P-06")))


def person(life: Life) -> None:
    what = life.dice.choice(("person-named", "person-unnamed"))
    who, part = life.dice.choice(
        (("P-06", "attendant"), ("P-05", "entrant"), ("P-07", "entrant"), ("P-08", "supervisor"), ("P-02", "attendant"),
         ("P-04", "entrant"), ("P-01", "supervisor"), ("P-05", "entrant"))
    )  # fmt: skip
    life.do(what, person=who, part=part)


def brief(life: Life) -> None:
    life.do("briefed", people=life.dice.choice((["P-04", "P-05", "P-02"], ["P-04"], ["P-06", "P-07"])))


def hand_over(life: Life) -> None:
    life.do("supervision-handed-over", "P-08", outgoing="P-01", incoming="P-08")


def instrument(life: Life) -> None:
    which = life.dice.choice(("07", "08", "08"))
    if life.dice.random() < 0.5:
        why = life.dice.choice(("done", "swapped", "failed", "dropped", "battery-flat"))
        life.do("instrument-returned", instrument=which, why=why)
    else:
        life.do("instrument-assigned", instrument=which, duty=life.dice.choice(("test", "worn")), hose_m=6)
        if life.dice.random() < 0.7:
            life.do("hose-tested", "P-02", instrument=which, stopped_s=life.dice.choice((4, 4, 4, None, 31)))


def hose(life: Life) -> None:
    life.do("hose-tested", "P-02", instrument="07", stopped_s=life.dice.choice((4, 4, None, 40)))


def bump(life: Life) -> None:
    """A bump test again: passed, or off by figure, alarm, kind or date."""
    which = life.dice.choice(("07", "07", "08"))
    one = next(i for i in life.doc["instruments"] if i["id"] == which)
    first = next(a for a in one["happened"] if a["what"] == "bump-tested")
    again = {k: v for k, v in copy.deepcopy(first).items() if k not in ("what", "at", "by")}
    wrong = life.dice.choice((None, None, None, "figure", "alarm", "kind", "expired", "gas"))
    result = life.dice.choice(again["results"])
    if wrong == "figure":
        result["reading"] = float(result["applied"]) * life.dice.choice((0.5, 0.89, 1.12))
    elif wrong == "alarm":
        result["alarm_s"] = life.dice.choice((None, 61))
    elif wrong == "kind":
        again["check"] = "function"
    elif wrong == "expired":
        again["cylinder"]["expires"] = "2026-11-16"
    elif wrong == "gas":
        again["results"].remove(result)
    life.bench("bump-tested", which, **again)


def check(life: Life) -> None:
    which = life.dice.choice(("07", "07", "08"))
    one = next(i for i in life.doc["instruments"] if i["id"] == which)
    first = next(a for a in one["happened"] if a["what"] == "checked-before-use")
    again = {k: v for k, v in copy.deepcopy(first).items() if k not in ("what", "at", "by")}
    wrong = life.dice.choice((None, None, "alarm_heard", "display_complete", "block", "shift"))
    if wrong == "block":
        again["block_stopped_s"] = None
    elif wrong == "shift":
        again["fresh_air"]["oxygen_before"] = 20.2
    elif wrong:
        again[wrong] = False
    life.bench("checked-before-use", which, **again)


def calibrate(life: Life) -> None:
    which = life.dice.choice(("07", "07", "08"))
    one = next(i for i in life.doc["instruments"] if i["id"] == which)
    first = next(a for a in one["happened"] if a["what"] == "calibrated")
    again = {k: v for k, v in copy.deepcopy(first).items() if k not in ("what", "at", "by")}
    again["passed"] = life.dice.random() < 0.8
    life.bench("calibrated", which, **again)


def void(life: Life) -> None:
    which = life.dice.choice(("07", "08"))
    if life.dice.random() < 0.5:
        life.bench("test-voided", which, cause=life.dice.choice(("dropped", "poisoned", "over-range")), note="")
    else:
        life.bench("taken-out-of-service", which, reason="smells burnt")


def isolate(life: Life) -> None:
    """Isolate again what was released."""
    last = life.last("point-isolated", "point-released")
    if last is None or last["what"] == "point-released":
        life.do(
            "point-isolated", point="main-east", lock="31", owner="P-04", tried_dead=life.dice.random() < 0.9,
            verified_by=life.dice.choice(("P-02",) * 8 + (None,)), box="Box 2",
        )  # fmt: skip


def release(life: Life) -> None:
    life.do("point-released", point="main-east", why="wanted for a test")


def hazard(life: Life) -> None:
    name = f"new-{life.dice.choice((1, 2))}"
    sort = life.dice.choice(("heat", "hot-work", "energy", "other"))
    life.do("hazard-added", hazard=name, name=name, shows="seen", gas=None, sort=sort)
    if life.dice.random() < 0.6:
        life.do("hazard-held", hazard=name, held=True, how="guarded")


def answer(life: Life) -> None:
    item = life.dice.choice(("different-today", "other-work", "retrieval", "communication", "equipment", "observed"))
    said = life.dice.choice(("yes", "no", "does not apply"))
    life.do("answered", item=item, answer=said, found=life.dice.choice(("", "told in words")))


def work_step(life: Life) -> None:
    life.do("work-step-changed", step="now the lower flange")


def extend(life: Life) -> None:
    ends = life.now + timedelta(hours=life.dice.choice((1, 2, 6, 12)))
    life.do("extended", ends=ends.isoformat(), reason="bolts stuck", signed=life.dice.random() < 0.9)


def rescue(life: Life) -> None:
    until = life.now + timedelta(hours=life.dice.choice((-1, 1, 4, 9)))
    life.do(
        "rescue-confirmed", answered_by="duty officer", good_until=until.isoformat(),
        response_min=life.dice.choice(("14", "14", "40")),
    )  # fmt: skip


def authorise(life: Life) -> None:
    life.do("authorised", life.dice.choice(("P-01", "P-01", "P-02")), signed=life.dice.random() < 0.9)


def end(life: Life) -> None:
    life.do("ended", cause=life.dice.choice(("work-complete", "prohibited-condition", "expired")), reason="")


def minutes(life: Life) -> None:
    life.wait(life.dice.choice((1, 3, 8, 14, 16, 18)))


def hours(life: Life) -> None:
    life.wait(life.dice.choice((29, 31, 45, 62, 150, 420, 1440)))


ACTS: dict[Callable[[Life], None], float] = {
    full_retest: 8, one_reading: 8, correct: 2, fan: 2, duct_reading: 2, upwind_reading: 1, cover: 0.5, level: 1,
    take_break: 3, stop: 1.5, determine: 2, reendorse: 3, recover: 7, everyone_out: 1.5, go_in: 5, go_out: 2,
    someone: 0.7, condition: 2, clear: 2, relieve: 1, watch: 1.5, person: 2, brief: 1.5, hand_over: 0.5,
    instrument: 2, hose: 0.7, bump: 1.5, check: 0.7, calibrate: 0.7, void: 0.4, isolate: 0.7, release: 0.4,
    hazard: 0.4, answer: 1, work_step: 0.7, extend: 0.7, rescue: 0.7, authorise: 1, end: 0.2, minutes: 8, hours: 2,
}  # fmt: skip


# Many lives ----------------------------------------------------------------------------------------------------------


def kind_of(stage: str, wrong: str) -> str:
    """A disagreement without its figures, to count alike ones together."""
    return f"{stage}: {wrong.split(': ')[0] if wrong.startswith('older') else re.sub(r'[0-9.]+', '#', wrong)}"


@dataclass
class Tally:
    """What came of some lives."""

    lives: int = 0
    steps: int = 0
    reached: int = 0
    reached_later: int = 0
    faults: list[tuple[int, str, list[str], Doc]] = field(default_factory=list)
    refused: Counter[str] = field(default_factory=Counter)
    samples: dict[str, tuple[int, str]] = field(default_factory=dict)

    def add(self, other: Tally) -> None:
        self.lives += other.lives
        self.steps += other.steps
        self.reached += other.reached
        self.reached_later += other.reached_later
        self.faults += other.faults
        self.refused += other.refused
        self.samples = {**other.samples, **self.samples}


def whole(seed: int) -> tuple[Doc, list[datetime]]:
    """A whole life, and the moments at which each of its steps was done."""
    life = Life(random.Random(seed))
    life.start()
    moments = [life.now]
    for _ in range(life.dice.choice((STEPS // 4, STEPS // 2, STEPS))):
        life.wait(0.5)  # no two steps at one moment
        life.step()
        moments.append(life.now)
    return life.doc, moments


def lived(seed: int) -> Tally:
    """One life, judged after each step."""
    tally = Tally(lives=1)
    document, moments = whole(seed)
    seen: set[str] = set()
    for step, (at, bars) in enumerate(zip(moments, at_each(document, moments), strict=True)):
        tally.steps += 1
        for stage, codes in bars.items():
            if codes:
                continue
            if stage == "enter":
                tally.reached = 1
                tally.reached_later = int(step > 0 or tally.reached_later)
            wrong = unmet(document, at, stage)
            kinds = {kind_of(stage, one) for one in wrong}
            if kinds - seen:
                seen |= kinds
                tally.faults.append((seed, stage, wrong, {**document, "at": at.isoformat()}))
        if 0 < len(set(bars["enter"])) <= 2 and not unmet(document, at, "enter"):
            tally.refused.update(set(bars["enter"]))
            tally.samples.setdefault(",".join(sorted(set(bars["enter"]))), (seed, at.isoformat()))
    return tally


def live_many(seeds: range) -> Tally:
    tally = Tally()
    for seed in seeds:
        tally.add(lived(seed))
    return tally


def run(count: int, processes: int = 1, first: int = 0) -> Tally:
    """That many lives; the seeds follow each other from ``first``."""
    if processes == 1:
        return live_many(range(first, first + count))
    tally = Tally()
    size = max(1, count // (processes * 25))
    parts = [range(at, min(at + size, first + count)) for at in range(first, first + count, size)]
    with ProcessPoolExecutor(processes) as pool:
        for part in pool.map(live_many, parts):
            tally.add(part)
    return tally


def main(count: int, processes: int, folder: Path | None) -> int:
    tally = run(count, processes)
    share = 100 * tally.reached / tally.lives
    later = 100 * tally.reached_later / tally.lives
    say = sys.stdout.write
    say(f"{tally.lives} lives, {tally.steps} steps, {share:.1f} % reached 'allowed to enter'")
    say(f" ({later:.1f} % after a step of their own), {len(tally.faults)} disagreements\n")
    kinds = Counter(kind_of(stage, one) for _, stage, wrong, _ in tally.faults for one in wrong)
    for index, (kind, number) in enumerate(kinds.most_common()):
        seed, stage, wrong, document = next(
            fault for fault in tally.faults if kind in {kind_of(fault[1], one) for one in fault[2]}
        )
        say(f"{number} x {kind} (seed {seed} at {document['at']}: {'; '.join(wrong)})\n")
        if folder:
            folder.mkdir(parents=True, exist_ok=True)
            small = json.dumps(shrunk(document, stage, kind), indent=1)
            (folder / f"{index:02}-{seed}.json").write_text(small, encoding="utf-8")
    say(f"refused to enter with nothing unmet: {dict(tally.refused.most_common(40))}\nfirst: {tally.samples}\n")
    return 1 if tally.faults or share < 5 else 0


if __name__ == "__main__":
    sys.exit(
        main(
            int(sys.argv[1]) if len(sys.argv) > 1 else 500,
            int(sys.argv[2]) if len(sys.argv) > 2 else 2,
            Path(sys.argv[3]) if len(sys.argv) > 3 else None,
        )
    )
