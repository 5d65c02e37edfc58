"""The air test as the picture wants it: the section with its points, and a column for each gas."""

from __future__ import annotations

from lamproom.desk.parts.gas_columns import Found, GasColumn
from lamproom.desk.parts.section_drawing import PointMark, SectionView, TendMark
from lamproom.desk.signs import Sign
from lamproom.office.views.air_test_sheet import AirTestView, GasScale

_WAYS = {"lighter": Sign.RISING, "like": Sign.STEADY, "heavier": Sign.FALLING}


def section_of(view: AirTestView, here: str, instrument: str) -> SectionView:
    """The section with today's level; ``here``: the place at hand, ``instrument``: what the hose ends in."""
    place = view.place(here)
    now = float(place.point_m) if place is not None and place.point_m is not None else None
    old = {float(depth): (time, words) for depth, time, words in view.old_times}
    return SectionView(
        view.depth,
        tuple(
            PointMark(depth, name, time, depth == now, *old.get(depth, ("", ""))) for depth, name, time in view.points
        ),
        liquid=view.level,
        liquid_words=view.level_words if view.level is not None else "",
        ladder=view.vertical,
        instrument=instrument,
        opening=view.opening,
        shape=view.shape,
        across=view.across or None,
        tends=tuple(TendMark(one.formula, one.density, _WAYS[one.way], one.words) for one in view.tends),
        caution=view.caution,
    )


def columns_of(view: AirTestView) -> list[GasColumn]:
    """A column for each gas with the figures of now."""
    return [_column(view, scale) for scale in view.scales]


def _column(view: AirTestView, scale: GasScale) -> GasColumn:
    values = tuple(
        Found(float(value.depth), float(value.figure), value.text, odd=value.ringed, outside=value.outside)
        for value in view.values
        if value.gas == scale.gas
    )
    old = tuple(
        Found(float(one.depth), float(one.figure or 0), one.text, outside=one.outside)
        for one in view.old
        if one.gas == scale.gas
    )
    tend = next((one for one in view.tends if one.gas == scale.gas), None)
    return GasColumn(
        scale.gas,
        scale.name,
        scale.unit,
        scale.high,
        scale.ends,
        scale.limit,
        low=scale.low,
        values=values,
        old=old,
        weight=tend.density if tend is not None else "",
        weight_sign=_WAYS[tend.way] if tend is not None else None,
    )
