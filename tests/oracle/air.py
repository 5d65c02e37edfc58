"""Which readings surely prove nothing, and what surely voids them: design 3 and 4, D1, D2, D35, D36, D38."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from itertools import pairwise
from typing import Any

from tests.oracle.ready import held_since, in_doubt, not_ready, wait_of
from tests.oracle.record import Act, Life, number, when

GASES = ("oxygen", "flammable", "hydrogen-sulfide", "carbon-monoxide")
UNITS = {"oxygen": "% vol", "flammable": "% LEL", "hydrogen-sulfide": "ppm", "carbon-monoxide": "ppm"}
FAILS_AT = {"flammable": Decimal(10), "hydrogen-sulfide": Decimal(10), "carbon-monoxide": Decimal(35)}
OXYGEN = (Decimal("19.5"), Decimal("23.5"))
TOP, ABOVE, APART = Decimal("0.3"), Decimal("0.3"), Decimal("1.2")
HAIR = Decimal("0.05")  # half of the tenth that points are told in
RETEST_AFTER_REPORT = ("instrument-alarm", "symptoms", "re-evaluation-asked", "dust", "water-rising")
RETEST_AFTER_CLEARING = ("engine-started", "isolation-disturbed")  # 'then test again'; C48: after isolation


def sets_here(life: Life) -> list[Act]:
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
        found.append({**act, "taken": when(act["taken"]), "typed": typed, "now": now})
    return found


def beyond(figures: dict[str, Act]) -> str | None:
    """A measured figure at or past its limit: D1, D2."""
    for gas, figure in figures.items():
        value = number(figure.get("figure"))
        if figure.get("state", "measured") == "over-range" and gas in FAILS_AT:
            return f"{gas} over range"
        if value is None or figure.get("state", "measured") != "measured":
            continue
        if gas == "oxygen" and not OXYGEN[0] <= value <= OXYGEN[1]:
            return f"oxygen {value}"
        if gas in FAILS_AT and value >= FAILS_AT[gas]:
            return f"{gas} {value}"
    return None


def unaccounted(life: Life, figures: dict[str, Act]) -> bool:
    """Whether surely more than 10,000 ppm of something unmeasured stands in for oxygen: design 4, D35, D36."""
    base = [
        Decimal(str(f["figure"]))
        for act in life.all("readings-taken")
        if act.get("phase") == "upwind"
        for f in act["figures"]
        if f["gas"] == "oxygen" and f.get("figure") is not None
    ]
    values = {gas: number(f.get("figure")) for gas, f in figures.items()}
    if not base or values.get("oxygen") is None:
        return False
    oxygen = values["oxygen"] or Decimal(0)
    missing = (min(base) - oxygen - Decimal("0.1")) / Decimal("20.9") * 1_000_000
    measured = (values.get("flammable") or 0) * 500 + sum(
        values.get(g) or 0 for g in ("hydrogen-sulfide", "carbon-monoxide")
    )
    return missing - measured > 10_500


def air_changed(life: Life, until: datetime, clearing: bool = True) -> datetime | None:
    """The last moment that surely voids earlier points: design 3 and 4, C56, the form's conditions."""
    moments: list[datetime] = []
    level: Any = "unsaid"
    runs = False
    for act in life.acts:
        what = act["what"]
        if act["t"] > until:
            break
        if what == "level-stated" and number(act["depth_m"]) != level:
            level = number(act["depth_m"])
            moments.append(act["t"])
        elif what in ("ventilation-started", "ventilation-stopped") and runs != (what == "ventilation-started"):
            runs = not runs
            moments.append(act["t"])
        elif what == "space-opened" and life.last("space-opened") == act:
            moments.append(act["t"])
        elif what == "work-step-changed" and life.authorised is not None and act["t"] >= life.authorised:
            moments.append(act["t"])
        elif (what == "condition-reported" and act["condition"] in RETEST_AFTER_REPORT) or (
            clearing
            and what == "condition-cleared"
            and act["condition"] in RETEST_AFTER_CLEARING
            and _was_reported(life, act)
        ):
            moments.append(act["t"])
    return max(moments) if moments else None


def _was_reported(life: Life, cleared: Act) -> bool:
    """Whether a clearing cleared something that stood then."""
    acts = [a for a in life.all("condition-reported", "condition-cleared") if a["condition"] == cleared["condition"]]
    before = [a for a in acts if a["t"] < cleared["t"]]
    return bool(before) and before[-1]["what"] == "condition-reported"


def good(life: Life, reading: Act) -> bool:
    """Whether nothing sure speaks against a set as proof of good air at its point."""
    held = held_since(life, reading["instrument"], reading["taken"])
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
    return not beyond(reading["now"]) and not unaccounted(life, reading["now"])


def _proves(life: Life, reading: Act) -> bool:
    """A good set that may also stand for a point before entry: hose tight, wait kept."""
    if reading.get("point_m") is None or not reading.get("lowered") or not good(life, reading):
        return False
    held = held_since(life, reading["instrument"], reading["taken"])
    hose = [a for a in life.all("hose-tested") if a["instrument"] == reading["instrument"] and held <= a["t"]]
    hose = [a for a in hose if a["t"] <= reading["taken"]]
    if not hose or number(hose[-1]["stopped_s"]) is None or (number(hose[-1]["stopped_s"]) or 99) > 30:
        return False
    return reading["taken"] - when(reading["lowered"]) >= wait_of(life, reading)


def untested(life: Life, since: datetime | None, until: datetime) -> str | None:
    """What part of the depth surely has no good set taken between two moments."""
    bottom = life.bottom(until)
    if bottom is None:
        return "today's level is not stated"
    points = sorted(
        Decimal(str(r["point_m"]))
        for r in sets_here(life)
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
