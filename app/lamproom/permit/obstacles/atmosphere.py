"""What the air says: readings missing, early, outside, unexplained, or too old."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal

from lamproom.air.flammable import percent_lel_to_ppm
from lamproom.air.oxygen import unaccounted
from lamproom.bench.bump import gas_name
from lamproom.permit import events as e
from lamproom.permit.facts import VERIFYING, Facts, at_point, early, points, standing
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.state import ReadingSet, outside
from lamproom.permit.timing import retest
from lamproom.permit.words import clock, figure_words, limit_words, place_words
from lamproom.words import sentence

TESTS = "29 CFR 1910.146(d)(5)(i)"
PERIODIC = "29 CFR 1910.146(d)(5)(ii)"


def found(facts: Facts) -> Iterator[Found]:
    """Everything about the air that stands in the way."""
    yield from _level(facts)
    yield from _lid(facts)
    yield from _points(facts)
    yield from _outside(facts)
    yield from _unexplained(facts)
    yield from _age(facts)


def _level(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    if permit.level is None:
        yield Found(
            "level-missing",
            sentence("permit.level_missing"),
            "common practice",
            sentence("permit.clears.level"),
            "isolation/level",
        )
    elif points(permit) is None:
        yield Found(
            "no-air", sentence("permit.no_air"), "common practice", sentence("permit.clears.level"), "isolation/level"
        )


def _lid(facts: Facts) -> Iterator[Found]:
    """A cover is lifted only after what is under it was tested: 1910.146(c)(5)(ii)(A) asks it of the shorter route."""
    permit = facts.permit
    if permit.opened.registered.portal.lid and not any(s.event.phase == "through-lid" for s in permit.sets):
        yield Found(
            "lid-not-tested",
            sentence("permit.lid_not_tested"),
            "common practice",
            sentence("permit.clears.lid"),
            "air-test/lid",
        )
    if base_oxygen(facts, None) is None:
        yield Found(
            "base-missing",
            sentence("permit.base_missing"),
            "site rule",
            sentence("permit.clears.base"),
            "air-test/upwind",
        )


def _points(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    for depth in points(permit) or ():
        if at_point(facts, depth) is not None:
            continue
        noted = [
            s
            for s in permit.sets
            if s.version > permit.counts_from
            and s.event.phase in VERIFYING
            and s.event.point_m
            and Decimal(s.event.point_m) == depth
        ]
        target = f"air-test/point/{depth}"
        if noted and early(permit, noted[-1]):
            yield Found(
                "reading-early",
                sentence("permit.reading_early", depth=str(depth)),
                "29 CFR 1910.146 Appendix B",
                sentence("permit.clears.hold", depth=str(depth)),
                target,
                str(depth),
            )
        else:
            yield Found(
                "point-not-tested",
                sentence("permit.point_not_tested", depth=str(depth)),
                TESTS,
                sentence("permit.clears.read", depth=str(depth)),
                target,
                str(depth),
            )


def current(facts: Facts) -> Iterator[ReadingSet]:
    """The sets that speak of the air now: at each place the newest since the air last changed, and through the lid the
    newest of all while the space is shut."""
    permit = facts.permit
    seen: set[str | None] = set()
    for one in reversed(permit.sets):
        if one.event.phase in ("upwind", "through-lid") or one.version <= permit.counts_from:
            continue
        if one.event.point_m not in seen:
            seen.add(one.event.point_m)
            yield one


def _outside(facts: Facts) -> Iterator[Found]:
    """Every single reading at its worst level is compared, whoever took it and with whatever instrument."""
    permit = facts.permit
    for one in current(facts):
        place = place_words(one.event.phase, one.event.point_m)
        for figure in outside(permit.form, one.figures):
            line = permit.form.limit(figure.gas)
            yield Found(
                "reading-outside",
                sentence(
                    "permit.reading_outside",
                    gas=gas_name(figure.gas),
                    figure=figure_words(figure),
                    place=place,
                    time=clock(one.event.taken, permit.zone),
                    limit=limit_words(line) if line else sentence("permit.limit.none"),
                ),
                line.basis if line else TESTS,
                sentence("permit.clears.air"),
                f"air-test/point/{one.event.point_m}",
                f"{one.event.point_m}/{figure.gas}",
            )


def base_oxygen(facts: Facts, instrument: str | None) -> Decimal | None:
    """Oxygen of the air at this place: a reading taken upwind of the space, else the instrument's set-up value."""
    for one in reversed(facts.permit.sets):
        oxygen = one.figure("oxygen")
        if one.event.phase == "upwind" and oxygen is not None and oxygen.figure is not None:
            if instrument is None or one.event.instrument == instrument:
                return Decimal(oxygen.figure)
    for id in (instrument,) if instrument else tuple(facts.permit.instruments):
        known = facts.instruments.get(id)
        if known is not None and known.check is not None:
            return Decimal(known.check.event.fresh_air.oxygen_after)
    return None


def measured_ppm(facts: Facts, one: ReadingSet) -> dict[str, Decimal]:
    """What the other sensors saw, in ppm. A flammable figure counts as its calibration gas, methane."""
    seen: dict[str, Decimal] = {}
    for figure in one.figures:
        if figure.gas == "oxygen" or figure.figure is None:
            continue
        line = facts.permit.form.limit(figure.gas)
        if figure.unit == "ppm":
            seen[figure.gas] = Decimal(figure.figure)
        elif figure.unit == "% LEL" and line is not None and line.lel_vol is not None:
            seen[figure.gas] = percent_lel_to_ppm(Decimal(figure.figure), Decimal(line.lel_vol))
    return seen


def _unexplained(facts: Facts) -> Iterator[Found]:
    """Oxygen within its band can still mean a great deal of something that no sensor here sees."""
    permit = facts.permit
    figures = permit.form.unaccounted
    for one in current(facts):
        oxygen = one.figure("oxygen")
        base = base_oxygen(facts, one.event.instrument)
        if oxygen is None or oxygen.figure is None or base is None:
            continue
        working = unaccounted(Decimal(oxygen.figure), base, measured_ppm(facts, one), Decimal(figures.tolerance))
        if Decimal(working.result) > Decimal(figures.ppm):
            yield Found(
                "unaccounted",
                sentence(
                    "permit.unaccounted",
                    place=place_words(one.event.phase, one.event.point_m),
                    ppm=f"{int(Decimal(working.result)):,}",
                    oxygen=oxygen.figure,
                    base=str(base),
                ),
                "common practice",
                sentence("permit.clears.unaccounted"),
                f"air-test/point/{one.event.point_m}",
                str(one.event.point_m),
            )


def _age(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    tested = [s for depth in points(permit) or () if (s := at_point(facts, depth)) is not None]
    figures = permit.form.retest
    if permit.authorised is None or permit.awaits is not None:
        if tested:
            oldest = min(s.event.taken for s in tested)
            if facts.at - oldest > timedelta(minutes=figures.verification_min):
                yield Found(
                    "verification-old",
                    sentence(
                        "permit.verification_old", minutes=figures.verification_min, time=clock(oldest, permit.zone)
                    ),
                    "site rule",
                    sentence("permit.clears.read_all"),
                    "air-test/points",
                )
    if permit.authorised is None or permit.ended is not None or permit.pause is not None:
        return
    times = retest(facts)
    if times is None:
        return
    if permit.tally.inside and facts.at > times.bound:
        yield Found(
            "retest-overdue",
            sentence("permit.retest_overdue", time=clock(times.last.event.taken, permit.zone)),
            PERIODIC,
            sentence("permit.clears.out_then_read"),
            "watch/reading",
        )
    elif facts.at > times.late:
        yield Found(
            "retest-late",
            sentence("permit.retest_late", time=clock(times.due, permit.zone)),
            PERIODIC,
            sentence("permit.clears.read_now"),
            "watch/reading",
        )


def counted(facts: Facts) -> tuple[ReadingSet, ...]:
    """The sets that may count for entry now, one a point."""
    return tuple(
        s for depth in points(facts.permit) or () if (s := at_point(facts, depth)) is not None and standing(facts, s)
    )


def sees(facts: Facts, gas: str) -> bool:
    """Is there a sensor for this gas on an instrument of this permit, or a flammable sensor for a flammable gas?"""
    flammable = {"methane", "hydrogen", "gasoline-vapor", "flammable"}
    for assigned in facts.permit.instruments.values():
        if assigned.returned is not None:
            continue
        gases = {sensor.gas for sensor in assigned.registered.sensors}
        if gas in gases or (gas in flammable and "flammable" in gases):
            return True
    return False


def unseen(facts: Facts) -> Iterator[Found]:
    """Gases of the space that no instrument here sees."""
    for id, name, _shows, gas in facts.permit.hazards():
        held = facts.permit.held.get(id)
        excluded = held is not None and isinstance(held.event, e.HazardHeld) and not held.event.held
        if gas is not None and not excluded and not sees(facts, gas):
            yield Found(
                "gas-unseen",
                sentence("permit.gas_unseen", hazard=name),
                "29 CFR 1910.146 Appendix B(1)",
                sentence("permit.clears.unseen"),
                "instruments/assign",
                id,
            )
