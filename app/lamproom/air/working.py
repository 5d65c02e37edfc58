"""A working: a result shown with everything it was made of, so that a person can check it with a pencil."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Input:
    """One figure that went into a working, as text with its unit; ``source`` says where it came from, if known."""

    name: str
    value: str
    unit: str
    source: str = ""


@dataclass(frozen=True, slots=True)
class Working:
    """A result with its formula, inputs, unit and source.

    ``validity`` says where the formula holds and what the result does not prove; empty when nothing limits it.
    """

    name: str
    result: Decimal | str
    unit: str
    formula: str
    inputs: tuple[Input, ...]
    source: str
    validity: str = ""
