"""A form: one regime's demands as data, and the refusal of one that loosens its regime.

A form is read from text, never from a file here, and a permit keeps the exact text it was opened on.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from datetime import time, timedelta
from decimal import Decimal
from functools import lru_cache
from hashlib import sha256
from typing import Annotated, Literal
from zoneinfo import ZoneInfo

from pydantic import (
    AfterValidator,
    Field,
    NonNegativeInt,
    PositiveInt,
    StringConstraints,
    ValidationError,
    model_validator,
)

from lamproom.air import limits
from lamproom.air.limits import Limit, looser
from lamproom.bench.events import Value
from lamproom.bench.rules import BenchRules
from lamproom.permit.regime import REGIMES, Regime
from lamproom.words import Refusal, Sentence, say, sentence

Figure = Annotated[str, StringConstraints(pattern=r"^[0-9]+(\.[0-9]+)?$", max_length=12)]
Clock = Annotated[str, StringConstraints(pattern=r"^([01][0-9]|2[0-3]):[0-5][0-9]$")]


def _a_tenth_at_least(figure: str) -> str:
    if Decimal(figure) < Decimal("0.1"):
        raise ValueError(say("permit.form.why.tenth"))
    return figure


Metres = Annotated[Figure, AfterValidator(_a_tenth_at_least)]
"""Points are planned in tenths of a metre, so none of their distances may be less."""

Sheet = Literal["space", "hazards", "isolation", "instruments", "air-test", "people", "rescue", "review"]
SHEETS: tuple[Sheet, ...] = ("space", "hazards", "isolation", "instruments", "air-test", "people", "rescue", "review")


class LimitLine(Value):
    """An acceptable entry figure: one gas, its unit, its band, whether it fails at the figure, and where it is from."""

    gas: str
    unit: str
    low: Figure | None = None
    high: Figure | None = None
    fails_at_low: bool = False
    fails_at_high: bool = True
    basis: str
    lel_vol: Figure | None = None
    from_memory: bool = False

    @model_validator(mode="after")
    def _a_band(self) -> LimitLine:
        if self.low is None and self.high is None:
            raise ValueError(say("permit.form.why.no_figure"))
        if self.low is not None and self.high is not None and Decimal(self.low) > Decimal(self.high):
            raise ValueError(say("permit.form.why.upside_down"))
        return self

    def limit(self) -> Limit:
        low = Decimal(self.low) if self.low is not None else None
        high = Decimal(self.high) if self.high is not None else None
        return Limit(self.gas, self.unit, low, high, self.fails_at_low, self.fails_at_high, self.basis)


class Item(Value):
    """A question of a sheet. ``expect`` is the answer that bars nothing; ``found`` names what must be said with it."""

    id: str
    sheet: Sheet
    question: str
    expect: Literal["yes", "no", "any"] = "yes"
    found: str = ""
    may_not_apply: bool = False
    critical: bool = False
    rule: str
    clears: str
    page_item: int | None = None
    only_if: str = ""
    """``item=answer`` or ``about:fact`` (several joined by commas): asked only when all of them hold. What facts there
    are stands in ``permit/asked.py``."""
    after_signing: bool = False
    """May it be answered again after the signature? Only where the answer is owed to each who joins later."""
    routes: tuple[Literal["permit", "alternate", "reclassified"], ...] = ("permit", "alternate", "reclassified")
    """The lawful ways in on which it is asked."""


class Condition(Value):
    """Something that can change during entry: whether it bars going in or calls everyone out, and what clears it."""

    id: str
    words: str
    stage: Literal["enter", "stay"]
    clears: str
    retest: bool = False
    retest_after: bool = False
    """Did it go on changing the air until it was over, so that only what is read after it counts?"""


class Certificate(Value):
    """What is signed on one of the shorter routes in place of a permit, in the form's words: 29 CFR
    1910.146(c)(5)(ii)(H), (c)(7)(iii).

    ``statement`` is what the signature certifies, ``notes`` what the route rests on, ``ends`` what ends or voids it.
    """

    route: Literal["alternate", "reclassified"]
    title: str
    rule: str
    statement: str
    notes: tuple[str, ...] = ()
    ends: str
    ends_rule: str


class Retest(Value):
    """Minutes between sets during entry, grace after one falls due, and how many intervals until everyone comes out."""

    every_min: PositiveInt
    grace_min: NonNegativeInt
    bound_intervals: PositiveInt
    verification_min: PositiveInt
    reason: str


class Bump(Value):
    """How long a bump test counts and what it must show (per cent of applied, seconds)."""

    under_h: PositiveInt
    in_duty_period: bool
    check: Literal["function", "calibration"]
    accept_low: Figure
    accept_high: Figure
    alarm_within_s: PositiveInt
    block_within_s: PositiveInt
    reason: str


class Points(Value):
    """Distance between points, the first below the portal and the last above today's level; all in metres."""

    spacing_m: Metres
    top_m: Metres
    above_m: Metres
    flushes: NonNegativeInt


class Unaccounted(Value):
    """Gas nothing here sees: more than ``ppm`` bars; ``tolerance`` is the instrument's, % vol of oxygen."""

    ppm: Figure
    tolerance: Figure
    reason: str


class Hours(Value):
    """Day start (local), the longest permit in hours, and the warnings before its end in minutes."""

    day_start: Clock
    longest_h: PositiveInt
    warn_min: tuple[int, ...]
    reason: str


class Form(Value):
    """The whole form. ``language`` is that of the permit's pages. ``keep_days`` the least time a permit is kept."""

    id: str
    title: str
    version: str
    regime: str
    language: str
    set_up_shift: Figure
    keep_days: int
    contact_every_min: PositiveInt
    spaces_per_attendant: int
    extend: bool
    limits: tuple[LimitLine, ...]
    retest: Retest
    bump: Bump
    points: Points
    unaccounted: Unaccounted
    hours: Hours
    items: tuple[Item, ...]
    conditions: tuple[Condition, ...]
    cautions: tuple[str, ...]
    certificates: tuple[Certificate, ...] = ()
    """The paper of each shorter route; a route without one is filed on the permit's own page."""
    tighten: dict[str, tuple[Literal["authorise", "enter", "stay"], ...]] = Field(default_factory=dict)
    """Obstacle id to further stages that it bars on this form; stages are only ever added."""

    def limit(self, gas: str) -> LimitLine | None:
        """The line of a gas, None when the form has no figure for it."""
        return next((line for line in self.limits if line.gas == gas), None)

    def item(self, id: str) -> Item | None:
        return next((item for item in self.items if item.id == id), None)

    def condition(self, id: str) -> Condition | None:
        return next((condition for condition in self.conditions if condition.id == id), None)

    def certificate(self, route: str) -> Certificate | None:
        """The certificate of a route, None where the permit itself is its paper."""
        return next((one for one in self.certificates if one.route == route), None)

    @property
    def memory_figures(self) -> tuple[LimitLine, ...]:
        """The figures that rest on memory: the form cannot authorise until a named person confirms them."""
        return tuple(line for line in self.limits if line.from_memory)

    def bench_rules(self, zone: ZoneInfo) -> BenchRules:
        bump = self.bump
        return BenchRules(
            zone=zone,
            day_start=time.fromisoformat(self.hours.day_start),
            bump_under=timedelta(hours=bump.under_h),
            in_duty_period=bump.in_duty_period,
            check=bump.check,
            accept_low=Decimal(bump.accept_low),
            accept_high=Decimal(bump.accept_high),
            alarm_within=timedelta(seconds=bump.alarm_within_s),
            block_within=timedelta(seconds=bump.block_within_s),
            set_up_shift=Decimal(self.set_up_shift),
        )


class FormRefused(Refusal):
    """A form that cannot be used, with every line that is wrong."""

    def __init__(self, title: str, faults: tuple[Sentence, ...]) -> None:
        self.faults = faults
        lines = " ".join(fault.say() for fault in faults)
        super().__init__(sentence("permit.form.refused", title=title, faults=lines))


def fingerprint(text: str) -> str:
    """SHA-256 of the form's text, hex: what a confirmation of its figures names."""
    return sha256(text.encode()).hexdigest()


@lru_cache(maxsize=32)
def halved(text: str) -> Form:
    """The form that a text describes, with half of each upper figure but oxygen's, for the alternate procedures.

    Source: preamble to the rule, 58 FR 4488, and the agency's directive: half of what would be a hazardous atmosphere,
    as reported by a state's copy of them; oxygen keeps its band.
    """
    form = read_form(text)
    return form.model_copy(update={"limits": tuple(half(line) for line in form.limits)})


def half(line: LimitLine) -> LimitLine:
    """A line with half of its upper figure; oxygen keeps its band."""
    high = limits.halved(line.limit(), line.basis).high
    return line.model_copy(update={"high": f"{high.normalize():f}" if high is not None else None})


@lru_cache(maxsize=32)
def read_form(text: str) -> Form:
    """The form that a text describes. Refused, every line named, when it is malformed or looser than its regime."""
    try:
        form = Form.model_validate(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise FormRefused("?", (sentence("permit.form.not_toml", why=str(error)),)) from error
    except ValidationError as error:
        faults = tuple(_fault_of(text, list(one["loc"]), one["msg"]) for one in error.errors())
        raise FormRefused("?", faults) from error
    regime = REGIMES.get(form.regime)
    if regime is None:
        known = ", ".join(REGIMES)
        raise FormRefused(form.title, (sentence("permit.form.no_regime", regime=form.regime, known=known),))
    faults = tuple(_loosened(form, regime, text))
    if faults:
        raise FormRefused(form.title, faults)
    return form


def _fault_of(text: str, where: list[str | int], message: str) -> Sentence:
    keys = [str(part) for part in where]
    return sentence("permit.form.field", field=".".join(keys), line=_line_of(text, keys[-1]), why=message)


def _line_of(text: str, key: str, after: str = "") -> str:
    """The number of the line where a key stands (after a marker such as ``gas = "oxygen"``), '?' when it is nowhere."""
    start = 0
    lines = text.splitlines()
    if after:
        start = next((i for i, line in enumerate(lines) if after in line), 0)
    for i, line in enumerate(lines[start:], start + 1):
        if line.strip().startswith(key):
            return str(i)
    return "?"


def _loosened(form: Form, regime: Regime, text: str) -> Iterator[Sentence]:
    for law in regime.limits:
        line = form.limit(law.gas)
        at = _line_of(text, "gas", f'gas = "{law.gas}"')
        if line is None:
            yield sentence("permit.form.no_limit", gas=law.gas, law=law.basis)
        elif line.unit != law.unit:
            yield sentence("permit.form.other_unit", gas=law.gas, line=at, unit=law.unit)
        elif looser(line.limit(), law):
            yield sentence("permit.form.looser_limit", gas=law.gas, line=at, law=law.basis)
    gases = [line.gas for line in form.limits]
    for gas in sorted({gas for gas in gases if gases.count(gas) > 1}):
        yield sentence("permit.form.twice", gas=gas)
    if timedelta(hours=form.bump.under_h) > regime.bump_under:
        hours = int(regime.bump_under.total_seconds() // 3600)
        yield sentence("permit.form.looser_bump", line=_line_of(text, "under_h"), hours=hours)
    for key in ("spacing_m", "top_m", "above_m"):  # also from the portal to the first and from the last to the level
        if Decimal(getattr(form.points, key)) > regime.spacing_m:
            yield sentence("permit.form.looser_points", line=_line_of(text, key), spacing=str(regime.spacing_m))
    if timedelta(days=form.keep_days) < regime.keep:
        yield sentence("permit.form.looser_keep", line=_line_of(text, "keep_days"), days=regime.keep.days)
    asked = {
        item.id
        for item in form.items
        if item.only_if == regime.asked_if(item.id)
        and "permit" in item.routes
        and item.expect == regime.expects(item.id, item.expect)
    }
    for missing in sorted(regime.must_ask - asked):
        yield sentence("permit.form.item_missing", item=missing, law=regime.name)
