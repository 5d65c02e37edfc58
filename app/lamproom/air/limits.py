"""Limits of the air, and the one judgement of a reading against a limit.

The table ``BOUNDARY`` is the only place that says what a reading exactly at a figure means; before and during entry
the same function reads it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import Enum

OXYGEN = "oxygen"
FLAMMABLE = "flammable"
VOLUME_PERCENT = "vol%"
PERCENT_LEL = "% LEL"
PPM = "ppm"


class Kind(Enum):
    """What a limit guards against; it decides what happens exactly at the figure."""

    OXYGEN = "oxygen"
    FLAMMABLE = "flammable"
    TOXIC = "toxic"


# Kind -> (fails at the low figure, fails at the high figure).
# Oxygen passes at 19.5 and at 23.5: 29 CFR 1910.146(b) says "below 19.5 percent or above 23.5 percent".
# Flammable fails at 10 although 1910.146(b) says "in excess of 10 percent": the stricter sign is taken, as
# 1910.146 Appendix E alarms "at 10% or more". Toxic fails at its figure, as Appendix E alarms "at or above".
BOUNDARY: dict[Kind, tuple[bool, bool]] = {
    Kind.OXYGEN: (False, False),
    Kind.FLAMMABLE: (False, True),
    Kind.TOXIC: (False, True),
}


class Standing(Enum):
    """Where a reading stands against its limit."""

    WITHIN = "within"
    OUTSIDE = "outside"


@dataclass(frozen=True, slots=True)
class Limit:
    """The acceptable figures of one gas.

    ``low`` and ``high`` are in ``unit``; None means no bound on that side, and at least one is there.
    ``fails_at_low`` and ``fails_at_high`` say whether the figure itself is already outside.
    ``basis`` is the rule that the figures come from.
    """

    gas: str
    unit: str
    low: Decimal | None
    high: Decimal | None
    fails_at_low: bool
    fails_at_high: bool
    basis: str

    def __post_init__(self) -> None:
        if self.low is None and self.high is None:
            raise ValueError(f"a limit for {self.gas} needs a figure")
        for figure in (self.low, self.high):
            if figure is not None and not figure.is_finite():
                raise ValueError(f"{figure} is no limit for {self.gas}")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"the limit for {self.gas} runs from {self.low} to {self.high}")


def limit_of(kind: Kind, gas: str, unit: str, low: Decimal | None, high: Decimal | None, basis: str) -> Limit:
    """A limit with the boundary that its kind has in the table.

    >>> limit_of(Kind.TOXIC, "carbon monoxide", "ppm", None, Decimal("35"), "site rule").fails_at_high
    True
    """
    fails_at_low, fails_at_high = BOUNDARY[kind]
    return Limit(gas, unit, low, high, fails_at_low, fails_at_high, basis)


def judge(limit: Limit, value: Decimal) -> Standing:
    """Whether one reading, in the limit's unit and unrounded, is within the limit. ValueError for NaN or infinity.

    >>> oxygen = limit_of(Kind.OXYGEN, "oxygen", "vol%", Decimal("19.5"), Decimal("23.5"), "29 CFR 1910.146(b)")
    >>> judge(oxygen, Decimal("19.5")), judge(oxygen, Decimal("19.4"))
    (<Standing.WITHIN: 'within'>, <Standing.OUTSIDE: 'outside'>)
    >>> lel = limit_of(Kind.FLAMMABLE, "flammable", "% LEL", None, Decimal("10"), "29 CFR 1910.146(b)")
    >>> judge(lel, Decimal("10"))
    <Standing.OUTSIDE: 'outside'>
    """
    if not value.is_finite():
        raise ValueError(f"{value} is no reading")
    if limit.low is not None and (value < limit.low or (limit.fails_at_low and value == limit.low)):
        return Standing.OUTSIDE
    if limit.high is not None and (value > limit.high or (limit.fails_at_high and value == limit.high)):
        return Standing.OUTSIDE
    return Standing.WITHIN


def looser(site: Limit, law: Limit) -> bool:
    """Whether some reading would pass the site's limit and fail the law's: such a form is refused.

    ValueError when the two are not of one gas and one unit, since then they cannot be compared.
    """
    _same(site, law)
    return _looser_side(_floor(site), _floor(law)) or _looser_side(_ceiling(site), _ceiling(law))


def tighter(a: Limit, b: Limit) -> Limit:
    """The limit that only passes what both pass; see ``strictest``."""
    return strictest((a, b))


def strictest(limits: Iterable[Limit]) -> Limit:
    """The acceptable entry figure: it passes only what every adopted basis of one gas passes.

    Its basis names the rule of each figure that decided; the first one wins a tie. ValueError when there is no basis,
    when they are not of one gas and unit, or when they share no reading (a floor above a ceiling).

    >>> law = limit_of(Kind.OXYGEN, "oxygen", "vol%", Decimal("19.5"), Decimal("23.5"), "29 CFR 1910.146(b)")
    >>> site = limit_of(Kind.OXYGEN, "oxygen", "vol%", None, Decimal("22.0"), "site rule")
    >>> both = strictest([law, site])
    >>> str(both.low), str(both.high), both.basis
    ('19.5', '22.0', '29 CFR 1910.146(b); site rule')
    """
    adopted = list(limits)
    if not adopted:
        raise ValueError("no limit was adopted: nothing can be judged")
    floor, ceiling = adopted[0], adopted[0]
    for limit in adopted[1:]:
        _same(limit, adopted[0])
        floor = limit if _looser_side(_floor(floor), _floor(limit)) else floor
        ceiling = limit if _looser_side(_ceiling(ceiling), _ceiling(limit)) else ceiling
    bases = {floor.basis: None} if floor.low is not None else {}
    if ceiling.high is not None:
        bases[ceiling.basis] = None
    return replace(
        adopted[0],
        low=floor.low,
        fails_at_low=floor.fails_at_low,
        high=ceiling.high,
        fails_at_high=ceiling.fails_at_high,
        basis="; ".join(bases),
    )


def halved(limit: Limit, basis: str) -> Limit:
    """The limit of the ventilation-only route: half the figure, and failing at it; oxygen keeps its band.

    Source: 29 CFR 1910.146(c)(5); half of the hazardous level as the measure of "safe for entry" is OSHA's
    guidance in the preamble of 1993, 58 FR 4488 (from memory).
    """
    if limit.gas == OXYGEN:
        return limit
    if limit.low is not None or limit.high is None:
        raise ValueError(f"the limit for {limit.gas} is no ceiling, so it has no half")
    return replace(limit, high=limit.high / 2, fails_at_high=True, basis=basis)


def _same(a: Limit, b: Limit) -> None:
    if (a.gas, a.unit) != (b.gas, b.unit):
        raise ValueError(f"{a.gas} in {a.unit} and {b.gas} in {b.unit} cannot be compared")


# A side as a pair that sorts by strictness: (figure turned so that more is stricter, fails at it); None is no bound.
def _floor(limit: Limit) -> tuple[Decimal, bool] | None:
    return None if limit.low is None else (limit.low, limit.fails_at_low)


def _ceiling(limit: Limit) -> tuple[Decimal, bool] | None:
    return None if limit.high is None else (-limit.high, limit.fails_at_high)


def _looser_side(one: tuple[Decimal, bool] | None, other: tuple[Decimal, bool] | None) -> bool:
    if other is None:
        return False
    return one is None or one < other
