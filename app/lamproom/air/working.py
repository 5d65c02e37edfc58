"""A working: a result shown with everything it was made of, so that a person can check it with a pencil."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from lamproom.air.figures import shown
from lamproom.words import Refusal, say, sentence


@dataclass(frozen=True, slots=True)
class Input:
    """One figure that went into a working, as text with its unit; ``source`` says where it came from, if known.

    ``key`` is the name under which the same working asks for it (see ``workings.py``), and ``gas`` the gas that it
    speaks of where there are several, so that a result can be worked out again from what is shown.
    """

    name: str
    value: str
    unit: str
    source: str = ""
    key: str = ""
    gas: str = ""


@dataclass(frozen=True, slots=True)
class Working:
    """A result with its formula, inputs, unit and source.

    ``validity`` says where the formula holds and what the result does not prove; empty when nothing limits it.
    ``low`` and ``high`` are the ends of a 95 % interval in ``unit``; None where a result has none.
    ``key`` is its name in the list of ``workings.py``. ``showing`` marks what is for showing, never for permitting.
    """

    name: str
    result: Decimal | str
    unit: str
    formula: str
    inputs: tuple[Input, ...]
    source: str
    validity: str = ""
    low: Decimal | None = None
    high: Decimal | None = None
    key: str = ""
    showing: bool = False


class Unworkable(Refusal):
    """A figure that cannot be what it is called (oxygen of 120 vol%, a flow below 0): nothing is worked out with it."""


def of(key: str, value: Decimal | int | str | None, unit: str = "", source: str = "", /, **values: str) -> Input:
    """The input ``key`` of the catalogue with its value: a figure, a word, or None for what nobody knows."""
    text = value if isinstance(value, str) else say("air.unknown") if value is None else shown(Decimal(value))
    known = "" if value is None else unit
    return Input(say(f"air.input.{key}", **values), text, known, source, key, values.get("gas", ""))


def worked(
    key: str,
    result: Decimal | str,
    unit: str,
    inputs: tuple[Input, ...],
    source: str,
    /,
    *,
    formula: str = "",
    showing: bool = False,
    low: Decimal | None = None,
    high: Decimal | None = None,
    **values: str,
) -> Working:
    """The working ``key`` of the catalogue; ``values`` stand in its name or validity, ``formula`` names another one."""
    return Working(
        say(f"air.working.{key}", **values),
        result,
        unit,
        say(f"air.formula.{formula or key}"),
        inputs,
        source,
        say(f"air.validity.{key}", **values),
        low,
        high,
        key,
        showing,
    )


def within(key: str, value: Decimal, low: Decimal | int, high: Decimal | int | None = None) -> Decimal:
    """The figure itself when it lies from ``low`` to ``high``, both ends allowed; else Unworkable names it and both."""
    if not value.is_finite() or value < low or (high is not None and value > high):
        id = "air.unworkable.below" if high is None else "air.unworkable.outside"
        bounds = {"low": shown(Decimal(low)), "high": shown(Decimal(high or 0))}
        raise Unworkable(sentence(id, what=say(f"air.input.{key}"), value=_said(value), **bounds))
    return value


def above_zero(key: str, value: Decimal) -> Decimal:
    """The figure itself when it is above 0; else Unworkable."""
    if not value.is_finite() or value <= 0:
        raise Unworkable(sentence("air.unworkable.not_above", what=say(f"air.input.{key}"), value=_said(value)))
    return value


def finite(key: str, value: Decimal) -> Decimal:
    """The figure itself when it is one; NaN and infinity are Unworkable: a missing reading is never worked with."""
    if not value.is_finite():
        raise Unworkable(sentence("air.unworkable.no_reading", what=say(f"air.input.{key}"), value=str(value)))
    return value


def _said(value: Decimal) -> str:
    return shown(value) if value.is_finite() else str(value)
