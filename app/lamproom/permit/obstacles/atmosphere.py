"""What the air says: readings missing, early, outside, unexplained, or too old."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal

from lamproom.air.flammable import percent_lel_to_ppm, vol_to_ppm
from lamproom.air.humidity import STANDARD_PASCAL, Moist, damp_oxygen, water_vapor
from lamproom.air.limits import Standing, judge
from lamproom.air.oxygen import standard_pressure, unaccounted
from lamproom.air.working import Unworkable, Working
from lamproom.bench.bump import CLEAN_OXYGEN, gas_name
from lamproom.permit.asked import excluded, fan_needed
from lamproom.permit.facts import (
    VERIFYING,
    Facts,
    fit_then,
    points,
    since_change,
    standing,
    tests_of,
)
from lamproom.permit.flammable_reading import as_vapors, by_flammable_sensor_alone, governs_alone, shows, voids
from lamproom.permit.gas_limits import gases_of, line_for
from lamproom.permit.obstacles.obstacle import Found
from lamproom.permit.obstacles.untested import why_untested
from lamproom.permit.state import OUTSIDE, ReadingSet, outside
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
    yield from _duct(facts)
    yield from _outside(facts)
    yield from _as_vapors(facts)
    yield from _void(facts)
    yield from unexplained(facts)
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
    lid = [s for s in permit.sets if s.event.phase == "through-lid"]
    # Once entry was authorized the lid is off: an instrument that is thrown into doubt later asks for no lid again.
    tested = bool(lid) if permit.authorised is not None else any(standing(facts, s) for s in lid)
    if permit.opened.registered.portal.lid and not tested:
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
    for depth in points(facts.permit) or ():
        if tests_of(facts, depth):
            continue
        where = str(depth)
        says, values = why_untested(facts, depth)
        if says == "early":
            yield Found(
                "reading-early",
                sentence("permit.point_early.one", depth=where),
                "29 CFR 1910.146 Appendix B",
                sentence("permit.clears.hold", depth=where),
                f"air-test/point/{where}",
                where,
            )
        else:
            yield Found(
                "point-not-tested",
                sentence(f"permit.point_{says}.one", depth=where, **values),
                TESTS,
                sentence("permit.clears.read", depth=where),
                f"air-test/point/{where}",
                where,
            )


def _duct(facts: Facts) -> Iterator[Found]:
    """What a fan blows in is breathed inside: it is read once at the duct's outlet since the fan was started."""
    if duct_needed(facts) and duct_set(facts) is None:
        yield Found(
            "duct-not-tested",
            sentence("permit.duct_not_tested"),
            "29 CFR 1910.146(c)(5)(ii)(E)(3)",
            sentence("permit.clears.duct"),
            "air-test/duct",
        )


def duct_needed(facts: Facts) -> bool:
    """Is a fan running that is part of what lets people in?"""
    return facts.permit.fan is not None and fan_needed(facts)


def duct_set(facts: Facts) -> ReadingSet | None:
    """The newest set taken at the duct's outlet since this fan was started that counts; None when there is none."""
    return next((one for one in _at_duct(facts) if standing(facts, one)), None)


def current(facts: Facts) -> Iterator[ReadingSet]:
    """The sets that speak of the air now, newest first at each place: all since the air last changed, down to the
    newest that counts. A set that does not count for entry (early, not whole, by an instrument that was not ready)
    never takes the place of one that counts against it."""
    return iter(facts.once("current", None, lambda: tuple(_current(facts))))


def _current(facts: Facts) -> Iterator[ReadingSet]:
    permit = facts.permit
    answered: set[Decimal | None] = set()
    for one in facts.newest:
        if one.event.phase in OUTSIDE or one.version <= permit.counts_from:
            continue
        place = Decimal(one.event.point_m) if one.event.point_m is not None else None
        if place not in answered:
            yield one
            if _answers(facts, one):
                answered.add(place)


def _answers(facts: Facts, one: ReadingSet) -> bool:
    """Does it take the place of older sets at its point? Before authorizing, only a test that kept its wait does."""
    permit = facts.permit
    watched = permit.authorised is not None and one.version > permit.authorised.version
    return since_change(permit, one) and standing(facts, one) and (watched or one.event.phase in VERIFYING)


def _outside(facts: Facts) -> Iterator[Found]:
    """Every single reading at its worst level is compared, whoever took it and with whatever instrument."""
    permit = facts.permit
    said: set[tuple[str, str]] = set()
    for one in (*_upwind(facts), *_at_duct(facts), *current(facts)):
        place = place_words(one.event.phase, one.event.point_m)
        outdoors = one.event.phase in ("upwind", "duct")
        target = f"air-test/{one.event.phase}" if outdoors else f"air-test/point/{one.event.point_m}"
        for figure in outside(permit.form, one.figures):
            line = permit.form.limit(figure.gas)
            key = (one.event.point_m or one.event.phase, figure.gas)
            if key in said:
                continue
            said.add(key)
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
                target,
                f"{one.event.point_m or one.event.phase}/{figure.gas}",
            )


def _as_vapors(facts: Facts) -> Iterator[Found]:
    """A flammable figure told as each vapor of the hazards that its sensor has a maker's factor for."""
    line = facts.permit.form.limit("flammable")
    gone = frozenset(id for id, *_rest in facts.permit.hazards() if excluded(facts, id))
    gases = gases_of(facts.permit.hazards(), gone)
    if line is None or not gases:
        return
    for one in current(facts):
        for gas, told in as_vapors(facts.permit, one, gases):
            if isinstance(told.result, Decimal) and judge(line.limit(), told.result) is Standing.OUTSIDE:
                yield Found(
                    "reading-outside",
                    sentence(
                        "permit.vapor_outside",
                        gas=gas_name(gas),
                        percent=str(told.result),
                        shown=one.figure("flammable").figure or "",  # type: ignore[union-attr]
                        place=place_words(one.event.phase, one.event.point_m),
                        time=clock(one.event.taken, facts.permit.zone),
                        limit=limit_words(line),
                        sheet=told.source,
                    ),
                    line.basis,
                    sentence("permit.clears.air"),
                    f"air-test/point/{one.event.point_m}",
                    f"{one.event.point_m or one.event.phase}/{gas}",
                )


def _void(facts: Facts) -> Iterator[Found]:
    """A flammable figure that low, unread or enriched oxygen spoils is no figure: never 'within limits'."""
    for one in (*_at_duct(facts), *current(facts)):
        reasons = voids(one)
        oxygen = one.figure("oxygen")
        if reasons and oxygen is not None and oxygen.figure is not None:  # unread, the set is not whole: said already
            figure = one.figure("flammable")
            yield Found(
                "flammable-void",
                sentence(
                    "permit.flammable_void",
                    figure=figure_words(figure) if figure is not None else "",
                    place=place_words(one.event.phase, one.event.point_m),
                    why=reasons[0],
                ),
                "29 CFR 1910.146(c)(5)(ii)(C)",
                sentence("permit.clears.flammable_void"),
                f"air-test/point/{one.event.point_m}",
                str(one.event.point_m),
            )


def _upwind(facts: Facts) -> Iterator[ReadingSet]:
    """What was read upwind, down to the newest that can be the base: bad air there is a danger outside."""
    for one in facts.newest:
        if one.event.phase == "upwind":
            yield one
            if _is_base(facts, one):
                return


def _at_duct(facts: Facts) -> Iterator[ReadingSet]:
    """What was read at the duct's outlet since this fan was started, down to the newest that counts."""
    fan = facts.permit.fan
    for one in facts.newest:
        if one.event.phase == "duct" and fan is not None and one.version > fan.version:
            yield one
            if standing(facts, one):
                return


def base_oxygen(facts: Facts, instrument: str | None) -> Decimal | None:
    """Oxygen of the air at this place: a reading taken upwind of the space, else the instrument's set-up value.

    For an instrument that has neither, those of the permit's other instruments. A base that is too low would explain
    away what is missing inside: one by an instrument that was not ready, or outside its limit, is none.
    """
    return facts.once("base", instrument, lambda: _base_oxygen(facts, instrument))


def _base_set(facts: Facts, instrument: str | None) -> ReadingSet | None:
    """The newest set taken upwind that may be the base of this instrument (None: of any); None where none may."""
    for one in facts.newest:
        oxygen = one.figure("oxygen")
        if one.event.phase == "upwind" and oxygen is not None and oxygen.figure is not None:
            if instrument in (None, one.event.instrument) and _is_base(facts, one):
                return one
    return None


def _base_oxygen(facts: Facts, instrument: str | None) -> Decimal | None:
    upwind = _base_set(facts, instrument)
    read = upwind.figure("oxygen") if upwind is not None else None
    if read is not None and read.figure is not None:
        return Decimal(read.figure)
    for id in (instrument,) if instrument else tuple(facts.permit.instruments):
        known = facts.instruments.get(id)
        if known is not None and known.check is not None:
            return Decimal(known.check.event.fresh_air.oxygen_after)
    return base_oxygen(facts, None) if instrument is not None else None


def _is_base(facts: Facts, one: ReadingSet) -> bool:
    sure = not one.void and not one.unconfirmed and one.by is not None and not _strays(facts, one)
    return sure and fit_then(facts, one) and not outside(facts.permit.form, one.figures)


def _strays(facts: Facts, one: ReadingSet) -> bool:
    """Does outdoor air read so much less oxygen than at the instrument's set-up that the form doubts the instrument?"""
    known = facts.instruments.get(one.event.instrument)
    oxygen = one.figure("oxygen")
    if known is None or known.check is None or oxygen is None or oxygen.figure is None:
        return False
    short = Decimal(known.check.event.fresh_air.oxygen_after) - Decimal(oxygen.figure)
    return short > Decimal(facts.permit.form.set_up_shift)


def measured_ppm(facts: Facts, one: ReadingSet) -> dict[str, Decimal]:
    """What the other sensors saw, in ppm. A flammable figure counts as its calibration gas, methane."""
    seen: dict[str, Decimal] = {}
    for figure in one.figures:
        if figure.gas == "oxygen" or figure.figure is None:
            continue
        line = facts.permit.form.limit(figure.gas)
        if figure.unit == "ppm":
            seen[figure.gas] = Decimal(figure.figure)
        elif figure.unit == "% vol" and figure.gas != "flammable":  # whether that one stands is known in % LEL alone
            seen[figure.gas] = vol_to_ppm(Decimal(figure.figure))
        elif figure.unit == "% LEL" and line is not None and line.lel_vol is not None:
            if not voids(one):  # a figure that does not stand explains nothing
                seen[figure.gas] = percent_lel_to_ppm(Decimal(figure.figure), Decimal(line.lel_vol))
    return seen


def moist(one: ReadingSet | None) -> Moist | None:
    """Temperature and humidity of a set; None where they were not both read, or cannot be what they are called."""
    if one is None or one.event.temperature_c is None or one.event.humidity_pct is None:
        return None
    air = Moist(Decimal(one.event.temperature_c), Decimal(one.event.humidity_pct))
    try:
        water_vapor(air, air)
    except Unworkable:
        return None
    return air


def water_at(facts: Facts, one: ReadingSet) -> Working:
    """The water vapor of a set above that of its base, in ppm; below 0 in drier air, which hides more; 0 where either
    was not read: it explains nothing."""
    return water_vapor(_moist_base(facts, one), moist(one), _pressure(facts))


def _moist_base(facts: Facts, one: ReadingSet) -> Moist | None:
    return moist(_base_set(facts, one.event.instrument) or _base_set(facts, None))


def _pressure(facts: Facts) -> Decimal:
    return pressure_at(facts.permit.opened.registered.altitude_m)


def pressure_at(altitude_m: str | None) -> Decimal:
    """Air pressure in Pa: by the standard atmosphere where the altitude is stated and lies within it, else at sea
    level, at which water explains least."""
    try:
        return Decimal(standard_pressure(Decimal(altitude_m or "0")).result)
    except Unworkable:
        return STANDARD_PASCAL


def unaccounted_at(facts: Facts, one: ReadingSet) -> Working | None:
    """What the oxygen of a set leaves unaccounted for; None without an oxygen figure."""
    oxygen = one.figure("oxygen")
    if oxygen is None or oxygen.figure is None:
        return None
    base = base_oxygen(facts, one.event.instrument) or CLEAN_OXYGEN
    tolerance = Decimal(facts.permit.form.unaccounted.tolerance)
    water = Decimal(water_at(facts, one).result)
    return unaccounted(Decimal(oxygen.figure), base, measured_ppm(facts, one), tolerance, water or None)


def unexplained(facts: Facts) -> Iterator[Found]:
    """Oxygen within its band can still mean a great deal of something that no sensor here sees."""
    permit = facts.permit
    figures = permit.form.unaccounted
    said: set[str | None] = set()
    if not _may_be_short(facts):
        return
    for one in current(facts):
        oxygen = one.figure("oxygen")
        base = base_oxygen(facts, one.event.instrument) or CLEAN_OXYGEN
        if oxygen is None or oxygen.figure is None or one.event.point_m in said:
            continue
        working = unaccounted_at(facts, one)
        if working is not None and Decimal(working.result) > Decimal(figures.ppm):
            said.add(one.event.point_m)
            yield Found(
                "unaccounted",
                sentence(
                    "permit.unaccounted",
                    place=place_words(one.event.phase, one.event.point_m),
                    ppm=f"{int(Decimal(working.result)):,}",
                    oxygen=oxygen.figure,
                    base=str(_clean_here(facts, one, base)),
                ),
                "common practice",
                sentence("permit.clears.unaccounted"),
                f"air-test/point/{one.event.point_m}",
                str(one.event.point_m),
            )


def _clean_here(facts: Facts, one: ReadingSet, base: Decimal) -> Decimal:
    """What clean air would read: the base, or more where the air of the set is drier than that of the base."""
    yard, here = _moist_base(facts, one), moist(one)
    if yard is None or here is None:
        return base
    return max(base, Decimal(damp_oxygen(base, yard, here, _pressure(facts)).result))


def _may_be_short(facts: Facts) -> bool:
    """Is so much oxygen missing anywhere that, were nothing else measured and the best base true, more than the form's
    threshold would be unaccounted for? What other sensors saw only takes away from it, and only air that is drier than
    outside adds to it; most days end here."""
    permit = facts.permit
    figures = permit.form.unaccounted
    least = _best_base(facts) - Decimal(figures.tolerance) - (Decimal(figures.ppm) - 1) * CLEAN_OXYGEN / PPM_OF_ALL
    for one in reversed(permit.sets):  # as they were recorded, so that the rest is older still
        if one.version <= permit.counts_from:
            return False
        if moist(one) is not None:
            return True
        for figure in one.figures:
            if figure.gas == "oxygen" and figure.figure is not None and Decimal(figure.figure) < least:
                return True
    return False


def _best_base(facts: Facts) -> Decimal:
    """The most oxygen that any base could have, whether it counts or not."""
    upwind = (one.figure("oxygen") for one in facts.permit.sets if one.event.phase == "upwind")
    read = [Decimal(figure.figure) for figure in upwind if figure is not None and figure.figure is not None]
    set_up = [
        Decimal(known.check.event.fresh_air.oxygen_after)
        for known in facts.instruments.values()
        if known.check is not None
    ]
    return max((CLEAN_OXYGEN, *read, *set_up))


PPM_OF_ALL = Decimal(1_000_000)


def _age(facts: Facts) -> Iterator[Found]:
    permit = facts.permit
    tested = [s for depth in points(permit) or () for s in tests_of(facts, depth)]
    figures = permit.form.retest
    if permit.authorised is None or permit.awaits is not None or not permit.tally.trips:
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
    resting = permit.pause is not None and not permit.tally.inside  # a break stops no timer of someone who is inside
    if permit.authorised is None or permit.ended is not None or resting:
        return
    times = retest(facts)
    if times is None:
        since = permit.tally.inside_since()
        if since is not None:  # nothing that counts is known of the air round those inside
            yield Found(
                "retest-overdue",
                sentence("permit.retest_overdue", time=clock(since, permit.zone)),
                PERIODIC,
                sentence("permit.clears.out_then_read"),
                "watch/reading",
            )
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
    return tuple({s.version: s for depth in points(facts.permit) or () for s in tests_of(facts, depth)}.values())


def sees(facts: Facts, gas: str) -> bool:
    """Is there a sensor for this gas on an instrument of this permit, or a flammable sensor for a flammable gas?"""
    for assigned in facts.permit.instruments.values():
        if assigned.returned is not None:
            continue
        gases = {sensor.gas for sensor in assigned.registered.sensors}
        if gas in gases or (gas in FLAMMABLE_ONLY and "flammable" in gases):
            return True
        if gas in NO_LIMIT and "oxygen" in gases:  # it takes the place of air, and shows as missing oxygen alone
            return True
    return False


NO_LIMIT = frozenset({"nitrogen", "argon", "helium"})
"""Gases without an exposure limit: they only take the place of air, so that the oxygen figure governs (29 CFR
1910.1000 lists none of them)."""

FLAMMABLE_ONLY = frozenset({"methane", "hydrogen", "gasoline-vapor", "flammable"})
"""Gases that a flammable sensor may stand for: those without an exposure limit that burn, and gasoline vapor, a
mixture. One with a toxic limit is seen by a sensor of its own: 1 % LEL of toluene is 110 ppm."""


def unseen(facts: Facts) -> Iterator[Found]:
    """Gases of the space that no instrument here sees, or that are seen and have no figure to be compared with."""
    for id, name, _shows, gas in facts.permit.hazards():
        gone = excluded(facts, id)
        if gas is not None and not gone and not sees(facts, gas):
            yield Found(
                "gas-unseen",
                sentence("permit.gas_unseen", hazard=name),
                "29 CFR 1910.146 Appendix B(1)",
                sentence("permit.clears.unseen"),
                "instruments/assign",
                id,
            )
        elif gas is not None and not gone and not _told_truly(facts, gas):
            yield Found(
                "vapor-factor-missing",
                sentence("permit.vapor_factor_missing", hazard=name, gas=gas_name(gas)),
                "29 CFR 1910.146 Appendix B(1)",
                sentence("permit.clears.vapor_factor"),
                "instruments/assign",
                id,
            )
        elif gas is not None and not gone and _no_figure(facts, gas):
            yield Found(
                "limit-missing",
                sentence("permit.limit_missing", hazard=name),
                "29 CFR 1910.146(f)(9)",
                sentence("permit.clears.limit"),
                f"hazards/{id}",
                id,
            )


def _told_truly(facts: Facts, gas: str) -> bool:
    """Does each flammable sensor that must stand for this vapor show it truly, by calibration or a maker's factor?
    Any of them may take the next set."""
    return all(shows(sensor, gas) for sensor in by_flammable_sensor_alone(facts.permit, gas))


def _no_figure(facts: Facts, gas: str) -> bool:
    """Has the form no acceptable figure for a gas that should have one? Not found is never 'within limits'."""
    known = gas in NO_LIMIT | {"methane", "hydrogen", "flammable"} or governs_alone(gas)
    return not known and facts.permit.form.limit(gas) is None and line_for(gas) is None
