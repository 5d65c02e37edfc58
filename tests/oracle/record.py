"""The record as a permit's document tells it: for the second opinion in ``rules``."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

Act = dict[str, Any]
MIN = timedelta(minutes=1)


def when(text: str) -> datetime:
    return datetime.fromisoformat(text)


def number(value: Any) -> Decimal | None:
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
        self.authorised = signed[-1]["t"] if signed else None  # the last surely stands: one may have been refused

    def _until(self, told: list[Act]) -> list[Act]:
        timed = [{**act, "t": when(act["at"])} for act in told]
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
        for act in self.all("person-named", "person-unnamed", "supervision-handed-over"):
            if act["what"] == "supervision-handed-over":
                if part == "supervisor":
                    state[act["incoming"]] = True
            elif act["part"] == part:
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
        return number(said[-1]["depth_m"]) or number(self.doc["space"]["depth_m"])
