"""The plan of the air test: upwind, through the lid, then the points from the top down, and what stands at each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from lamproom.air.sampling import point_name
from lamproom.bench.bump import gas_name
from lamproom.permit import events as e
from lamproom.permit.facts import VERIFYING, Facts, at_point, early
from lamproom.permit.obstacles import atmosphere
from lamproom.permit.state import Permit, ReadingSet, outside
from lamproom.permit.words import clock, figure_words
from lamproom.words import say

_WORDS = {"unaccounted": "sheets.air.unseen_at", "reading-outside": "sheets.air.outside_at"}
"""What bars entry by the air read at a place: oxygen displaced by something unseen, or a figure past its limit."""


@dataclass(frozen=True, slots=True)
class PlacePlan:
    """One place of the plan: ``key`` as in a target ("upwind", "lid", "point/2.7"); ``state`` is 'done', 'open',
    'again' (read, and it does not count), 'outside' (read, and what was read bars entry) or 'shut' (after opening
    only). ``waits``: a probe rests there first. ``counted``: what was read there counts, so nothing is to be read.
    ``title``: words of its own over the boxes."""

    key: str
    name: str
    say_down: str
    phase: e.Phase
    point_m: str | None
    state: str
    words: str
    waits: bool
    counted: bool = False
    title: str = ""


@dataclass(frozen=True, slots=True)
class OldFigure:
    """A figure at a point that was read before the air changed and not since: it counts for nothing, and is shown.
    ``outside``: it was past its limit. ``figure`` is empty where the instrument showed something else than one."""

    depth: str
    gas: str
    figure: str
    text: str
    outside: bool = False


def old_set(permit: Permit, depth: Decimal) -> ReadingSet | None:
    """The newest set at a point, where it is older than the air there is now."""
    here = (
        one
        for one in reversed(permit.sets)
        if one.event.point_m is not None and Decimal(one.event.point_m) == depth and not one.void
    )
    newest = next(here, None)
    return newest if newest is not None and newest.version <= permit.counts_from else None


def before_what(permit: Permit) -> str:
    """In words, before what an old figure was read: the newest change of the air."""
    changes = {
        "fan": permit.fan,
        "fan_stopped": permit.fan_stopped,
        "opening": permit.open_since,
        "level": permit.level,
    }
    what = next((key for key, made in changes.items() if made and made.version == permit.counts_from), "change")
    return say(f"sheets.air.before.{what}")


def old_words(facts: Facts, depth: Decimal) -> str:
    """What was read at a point before the air changed, as a sentence; empty where nothing was."""
    old = old_set(facts.permit, depth)
    if old is None:
        return ""
    figures = ", ".join(
        say("sheets.air.old_figure", gas=gas_name(one.gas), figure=figure_words(one)) for one in old.figures
    )
    time = clock(old.event.taken, facts.permit.zone)
    return say("sheets.air.old_words", time=time, why=before_what(facts.permit), figures=figures)


def phase_now(permit: Permit) -> e.Phase | None:
    """The phase that a point read now belongs to; None while the space is shut."""
    if permit.awaits is not None:
        return "after-break"
    if permit.authorised is not None:
        return "work"
    if permit.fan is not None:
        return "ventilating"
    if permit.fan_stopped is not None:
        return "fan-stopped"
    return "open" if permit.open_since is not None or not permit.opened.registered.portal.lid else None


def plan_of(facts: Facts, depths: tuple[Decimal, ...]) -> Iterator[PlacePlan]:
    permit = facts.permit
    bad = _outside_places(facts)
    yield _outer(facts, "upwind", "upwind", bad.get("upwind"))
    if permit.opened.registered.portal.lid:
        yield _outer(facts, "lid", "through-lid", bad.get("lid"))
    if atmosphere.duct_needed(facts):
        yield _duct(facts, bad.get("duct"))
    phase = phase_now(permit)
    for index, depth in enumerate(depths):
        done = at_point(facts, depth)
        noted = _noted(permit, depth)
        words = point_name(index, len(depths)).say()
        state = "open"
        if done is not None:
            state, words = "done", clock(done.event.taken, permit.zone)
        elif noted is not None:
            early_one = early(permit, noted)
            state, words = "again", say("sheets.air.early" if early_one else "sheets.air.not_counted")
        elif phase is None:
            state, words = "shut", say("sheets.air.after_opening")
        title = ""
        if state == "open" and (old := old_set(permit, depth)) is not None:
            words, title = (
                say("sheets.air.was_at", time=clock(old.event.taken, permit.zone)),
                say("sheets.air.not_since"),
            )
        if f"point/{depth}" in bad and state in ("done", "again"):
            state, words = "outside", say(bad[f"point/{depth}"], words=words)
        name = say("sheets.air.point", depth=str(depth))
        down = say("sheets.air.at_point", depth=str(depth))
        counted = done is not None
        yield PlacePlan(f"point/{depth}", name, down, phase or "open", str(depth), state, words, True, counted, title)


def _outside_places(facts: Facts) -> dict[str, str]:
    """The places whose figures bar entry, by the rule itself, and the words for it; the lid by its newest figures."""
    found = [one for one in atmosphere.found(facts) if one.code in _WORDS]
    found.sort(key=lambda one: list(_WORDS).index(one.code))
    barred = {one.target.removeprefix("air-test/"): _WORDS[one.code] for one in found}
    permit = facts.permit
    lid = next((s for s in reversed(permit.sets) if s.event.phase == "through-lid" and not s.void), None)
    if lid is not None and outside(permit.form, lid.figures):
        barred["lid"] = _WORDS["reading-outside"]
    return barred


def _outer(facts: Facts, key: str, phase: e.Phase, bad: str | None) -> PlacePlan:
    """Upwind or through the lid: read once, before anything is opened; it does not go stale with the air inside."""
    permit = facts.permit
    done = next((s for s in reversed(permit.sets) if s.event.phase == phase and not s.void), None)
    shut = key == "lid" and done is None and permit.open_since is not None
    words = clock(done.event.taken, permit.zone) if done is not None else say(f"sheets.air.{key}_first")
    state = "done" if done is not None else "open"
    if bad and done is not None:
        state, words = "outside", say(bad, words=words)
    return PlacePlan(
        key=key,
        name=say(f"sheets.air.{key}"),
        say_down=say(f"sheets.air.at_{key}"),
        phase=phase,
        point_m=None,
        state=state,
        words=say("sheets.air.lid_late") if shut else words,
        waits=key == "lid",
        counted=done is not None,
    )


def _duct(facts: Facts, bad: str | None) -> PlacePlan:
    """The duct's outlet: read once for each start of the fan, before the points."""
    done = atmosphere.duct_set(facts)
    words = clock(done.event.taken, facts.permit.zone) if done is not None else say("sheets.air.duct_first")
    state = "done" if done is not None else "open"
    if bad:
        state, words = "outside", say(bad, words=words)
    name, down = say("sheets.air.duct"), say("sheets.air.at_duct")
    return PlacePlan("duct", name, down, "duct", None, state, words, waits=False, counted=done is not None)


def _noted(permit: Permit, depth: Decimal) -> ReadingSet | None:
    """The newest set at a point since the air last changed, whether it counts or not."""
    return next(
        (
            s
            for s in reversed(permit.sets)
            if s.version > permit.counts_from
            and s.event.phase in VERIFYING
            and s.event.point_m is not None
            and Decimal(s.event.point_m) == depth
        ),
        None,
    )


def time_at(facts: Facts, depth: Decimal) -> str:
    """When a point was read; an early reading shows its figures and says so."""
    counted = at_point(facts, depth)
    if counted is not None:
        return clock(counted.event.taken, facts.permit.zone)
    noted = _noted(facts.permit, depth)
    if noted is None:
        return ""
    return say("sheets.air.time_early", time=clock(noted.event.taken, facts.permit.zone))
