"""Where to test the air before entry, and how long to wait at each point."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from lamproom.air.figures import shown
from lamproom.air.working import Input, Working, of, within, worked
from lamproom.words import Refusal, Sentence, sentence

TENTH = Decimal("0.1")
# 4 ft is 1.2192 m; 1.2 m keeps within it. 29 CFR 1910.146 Appendix B (4) speaks of "approximately 4 feet (1.22 m)".
SPACING = Decimal("1.2")
# 0.3 m under the portal and 0.3 m above the liquid or sludge: common practice, no clause gives the figure.
TOP = Decimal("0.3")
ABOVE = Decimal("0.3")
DEEPEST = 200
PI = Decimal("3.14159265358979323846")


class NoSuchPoints(Refusal):
    """The depth or today's level cannot be right, so no plan can be made from them."""


class NoSuchWait(Refusal):
    """The hose, flow or response time cannot be right, so no wait can be worked out from them."""


def verification_points(
    depth_m: Decimal,
    level_depth_m: Decimal | None,
    top: Decimal = TOP,
    above: Decimal = ABOVE,
    spacing: Decimal = SPACING,
) -> tuple[Decimal, ...]:
    """Depths below the portal, in m with one decimal, at which the air is tested before entry, top first.

    ``depth_m`` is the floor below the portal. ``level_depth_m`` is today's liquid or sludge surface below the portal;
    None means a dry floor. The first point is ``top`` below the portal, the last ``above`` over today's level
    (rounded toward the level, never away from it), the others evenly between, never more than ``spacing`` apart.
    Where there is too little air for both, one point: as low as ``above`` allows, else half way down.

    Raises NoSuchPoints when the figures contradict each other. Source: 29 CFR 1910.146 Appendix B (4), stratified
    atmospheres, 4 ft (1.22 m); top, middle and bottom: common practice.

    >>> [str(d) for d in verification_points(Decimal("4.2"), Decimal("3.6"))]
    ['0.3', '1.3', '2.3', '3.3']
    >>> [str(d) for d in verification_points(Decimal("4.2"), Decimal("2.1"))]
    ['0.3', '1.0', '1.8']
    """
    level = _level(depth_m, level_depth_m)
    if above < TENTH or top < TENTH or spacing < TENTH:
        raise ValueError("points are planned in tenths of a meter: top, above and spacing must be at least 0.1")
    first = _tenths(top, ROUND_FLOOR)
    last = _tenths(level - above, ROUND_CEILING)
    if last <= first:
        only = last if last > 0 else _tenths(level / 2, ROUND_FLOOR)
        return (only * TENTH,)
    widest = _tenths(spacing, ROUND_FLOOR)
    gaps = -((first - last) // widest)
    # Whole tenths: neighbors differ by the even share rounded down or up, and the share rounded up is at most widest.
    return tuple((first + (last - first) * i // gaps) * TENTH for i in range(gaps + 1))


def point_name(index: int, count: int) -> Sentence:
    """The name of the point ``index`` (from 0, top first) of ``count``: top, middle, bottom; middles are numbered.

    >>> [point_name(i, 4).say() for i in range(4)]
    ['top', 'middle 1', 'middle 2', 'bottom']
    """
    if not 0 <= index < count:
        raise IndexError(f"there is no point {index} of {count}")
    if count == 1:
        return sentence("air.point.only")
    if index == 0:
        return sentence("air.point.top")
    if index == count - 1:
        return sentence("air.point.bottom")
    return sentence("air.point.middle") if count == 3 else sentence("air.point.middle_of_many", n=index)


def hose_delay(hose_m: Decimal, bore_mm: Decimal, flow_l_min: Decimal) -> Working:
    """Seconds until the first air from the hose's end reaches the sensor, rounded up to 0.1 s.

    t = (pi / 4) d^2 L / flow, with d the bore in mm, L in m (so mL), flow in L/min. Plug flow, no leak. Source:
    geometry; no published figure found.

    >>> hose_delay(Decimal("10"), Decimal("4"), Decimal("0.5")).result
    Decimal('15.1')
    """
    _check_hose(hose_m, bore_mm, flow_l_min)
    seconds = _first_arrival(hose_m, bore_mm, flow_l_min).quantize(TENTH, ROUND_CEILING)
    return worked("hose_delay", seconds, "s", _hose_inputs(hose_m, bore_mm, flow_l_min), "geometry")


def wait(
    hose_m: Decimal | None, bore_mm: Decimal | None, flow_l_min: Decimal | None, flushes: Decimal | int, t90_s: Decimal
) -> Working:
    """Whole seconds to wait at each point before a reading counts, rounded up.

    Hose volume / flow x (1 + flushes) + t90. Units: m, mm, L/min, number, s. ``hose_m`` None or 0 means an instrument
    that samples by diffusion at the point itself: only t90, and bore and flow are not asked for. Raises NoSuchWait for
    a figure that is missing or cannot be. Source: 29 CFR 1910.146 Appendix B (3), at least the instrument maker's
    minimum response time; the hose volume is geometry, the flushes common practice.

    >>> wait(Decimal("10"), Decimal("4"), Decimal("0.5"), 2, Decimal("30")).result
    Decimal('76')
    >>> wait(None, None, None, 0, Decimal("30")).result
    Decimal('30')
    """
    _positive("air.sampling.response", t90_s)
    response = of("response", t90_s, "s")
    source = "29 CFR 1910.146 Appendix B (3)"
    if hose_m is None or hose_m == 0:
        seconds = t90_s.to_integral_value(ROUND_CEILING)
        return worked("wait", seconds, "s", (response,), source, formula="wait_diffusion")
    turns = Decimal(flushes)
    if not turns.is_finite() or turns < 0:
        raise _refuse("air.sampling.below_zero", "air.sampling.flushes", turns)
    bore, flow = _check_hose(hose_m, bore_mm, flow_l_min)
    seconds = (_first_arrival(hose_m, bore, flow) * (1 + turns) + t90_s).to_integral_value(ROUND_CEILING)
    inputs = (*_hose_inputs(hose_m, bore, flow), of("flushes", turns), response)
    return worked("wait", seconds, "s", inputs, source)


def points(
    depth_m: Decimal,
    level_depth_m: Decimal | None,
    top: Decimal = TOP,
    above: Decimal = ABOVE,
    spacing: Decimal = SPACING,
) -> Working:
    """The verification points as a working: their depths in m, top first, parted by commas. Down to 200 m.

    >>> points(Decimal("4.2"), Decimal("2.1")).result
    '0.3, 1.0, 1.8'
    """
    within("depth", depth_m, 0, DEEPEST)
    for key, distance in (("first_below", top), ("last_above", above), ("spacing", spacing)):
        within(key, distance, TENTH, DEEPEST)
    depths = ", ".join(shown(depth) for depth in verification_points(depth_m, level_depth_m, top, above, spacing))
    level = () if level_depth_m is None else (of("level_depth", level_depth_m, "m"),)
    inputs = (
        of("depth", depth_m, "m"),
        *level,
        of("first_below", top, "m"),
        of("last_above", above, "m"),
        of("spacing", spacing, "m"),
    )
    return worked("points", depths, "m", inputs, "29 CFR 1910.146 Appendix B (4); common practice")


def _level(depth_m: Decimal, level_depth_m: Decimal | None) -> Decimal:
    if not depth_m.is_finite() or depth_m <= 0:
        raise NoSuchPoints(sentence("air.sampling.no_depth", depth=str(depth_m)))
    level = depth_m if level_depth_m is None else level_depth_m
    if not level.is_finite() or level > depth_m:
        raise NoSuchPoints(sentence("air.sampling.level_below_floor", level=str(level), depth=shown(depth_m)))
    if level <= 0:
        raise NoSuchPoints(sentence("air.sampling.no_air"))
    return level


def _tenths(meters: Decimal, rounding: str) -> int:
    return int((meters / TENTH).to_integral_value(rounding))


def _first_arrival(hose_m: Decimal, bore_mm: Decimal, flow_l_min: Decimal) -> Decimal:
    millilitres = PI / 4 * bore_mm * bore_mm * hose_m
    return millilitres / (flow_l_min * 1000 / 60)


def _hose_inputs(hose_m: Decimal, bore_mm: Decimal, flow_l_min: Decimal) -> tuple[Input, ...]:
    return of("hose", hose_m, "m"), of("bore", bore_mm, "mm"), of("flow", flow_l_min, "L/min")


def _check_hose(hose_m: Decimal, bore_mm: Decimal | None, flow_l_min: Decimal | None) -> tuple[Decimal, Decimal]:
    _positive("air.sampling.hose", hose_m)
    return _positive("air.sampling.bore", bore_mm), _positive("air.sampling.flow", flow_l_min)


def _positive(what: str, value: Decimal | None) -> Decimal:
    if value is None or not value.is_finite() or value <= 0:
        raise _refuse("air.sampling.nothing_flows", what, value)
    return value


def _refuse(id: str, what: str, value: Decimal | None) -> NoSuchWait:
    return NoSuchWait(sentence(id, what=sentence(what), value="—" if value is None else str(value)))
