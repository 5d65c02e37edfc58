"""A figure with its unit as screens and pages write both."""

from __future__ import annotations

from decimal import Decimal

from lamproom.air.figures import Unreadable, read_figure

_UNITS = {"vol%": "% vol", "ppm·min": "ppm × min"}
"""Units as the screens write them."""


def amount(value: Decimal | str, unit: str = "") -> str:
    """A figure with its unit as the screens write both: 36,800 ppm; words stay words."""
    unit = unit_words(unit)
    try:
        figure = read_figure(value) if isinstance(value, str) else value
    except Unreadable:  # words, or figures in a row
        return f"{value} {unit}".strip() if str(value)[:1].isdigit() else str(value)
    if unit == "ppm" and figure == figure.to_integral_value():
        figure = figure.quantize(Decimal(1))
    text = f"{figure:,f}" if abs(figure) >= 1000 else f"{figure:f}"
    return f"{text} {unit}".strip().replace("-", "\u2212")


def unit_words(unit: str) -> str:
    """A unit as the screens write it."""
    return _UNITS.get(unit, unit)
