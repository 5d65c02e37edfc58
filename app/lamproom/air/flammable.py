"""Flammable gas: volume percent, % LEL and ppm, mixtures, warm spaces, and what a flammable reading hides.

A figure in % LEL means nothing without the LEL it was made with (methane is 5.0 in NFPA 497 and 4.4 in
IEC 60079-20-1), so each conversion takes that LEL in volume percent.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal

from lamproom.air.figures import shown
from lamproom.air.working import Input, Working
from lamproom.words import say

PPM_PER_VOLUME_PERCENT = Decimal(10_000)
# Under this much oxygen, in vol%, a catalytic sensor may read too low. A confined-space handbook's figure
# (common practice); the maker's figure replaces it.
CATALYTIC_NEEDS_OXYGEN = Decimal("15")


def percent_lel_to_vol(percent_lel: Decimal, lel_vol_percent: Decimal) -> Decimal:
    """Volume percent of a reading in % LEL: % LEL / 100 x LEL.

    >>> percent_lel_to_vol(Decimal("10"), Decimal("5.0"))
    Decimal('0.5')
    """
    return percent_lel * _lel(lel_vol_percent) / 100


def vol_to_percent_lel(vol_percent: Decimal, lel_vol_percent: Decimal) -> Decimal:
    """% LEL of a volume percent: vol% / LEL x 100.

    >>> vol_to_percent_lel(Decimal("0.5"), Decimal("5.0"))
    Decimal('10')
    """
    return vol_percent * 100 / _lel(lel_vol_percent)


def vol_to_ppm(vol_percent: Decimal) -> Decimal:
    """ppm by volume of a volume percent: x 10,000.

    >>> vol_to_ppm(Decimal("0.5"))
    Decimal('5000.0')
    """
    return vol_percent * PPM_PER_VOLUME_PERCENT


def ppm_to_vol(ppm: Decimal) -> Decimal:
    """Volume percent of a ppm by volume: / 10,000.

    >>> ppm_to_vol(Decimal("5000"))
    Decimal('0.5')
    """
    return ppm / PPM_PER_VOLUME_PERCENT


def percent_lel_to_ppm(percent_lel: Decimal, lel_vol_percent: Decimal) -> Decimal:
    """ppm of a reading in % LEL: % LEL / 100 x LEL x 10,000.

    Source of the check: NIOSH documentation for IDLH values (1994) prints 10 % of the LFL of benzene as 1,200 ppm.

    >>> percent_lel_to_ppm(Decimal("10"), Decimal("1.2"))
    Decimal('1200.0')
    """
    return percent_lel * _lel(lel_vol_percent) * 100


def ppm_to_percent_lel(ppm: Decimal, lel_vol_percent: Decimal) -> Decimal:
    """% LEL of a ppm: ppm / (LEL x 100).

    >>> ppm_to_percent_lel(Decimal("600"), Decimal("1.2"))
    Decimal('5')
    """
    return ppm / (_lel(lel_vol_percent) * 100)


def rebase(percent_lel: Decimal, made_with: Decimal, wanted: Decimal) -> Decimal:
    """The same gas in % LEL of another LEL: a reading made with 5.0 says more of a LEL of 4.4. Both in vol%.

    >>> rebase(Decimal("10"), Decimal("5.0"), Decimal("4.4")).quantize(Decimal("0.01"))
    Decimal('11.36')
    """
    return percent_lel * _lel(made_with) / _lel(wanted)


def catalytic_void(oxygen: Decimal, needs: Decimal = CATALYTIC_NEEDS_OXYGEN) -> bool:
    """Whether a catalytic sensor's reading is void for want of oxygen (vol%): it is, under ``needs``.

    >>> catalytic_void(Decimal("14.9")), catalytic_void(Decimal("15"))
    (True, False)
    """
    return not oxygen >= needs


def toxic_at_lel(percent_lel: Decimal, lel_vol_percent: Decimal, limit_ppm: Decimal) -> Working:
    """How many times its toxic limit a vapor stands at when the flammable sensor shows ``percent_lel``.

    Result: times, to one decimal, whole from 100. Source: arithmetic; NIOSH documentation (1994) prints both figures.

    >>> toxic_at_lel(Decimal("10"), Decimal("1.2"), Decimal("1")).result
    Decimal('1200')
    """
    if not limit_ppm.is_finite() or limit_ppm <= 0:
        raise ValueError(f"{limit_ppm} ppm is no limit")
    ppm = percent_lel_to_ppm(percent_lel, lel_vol_percent)
    times = _readable(ppm / limit_ppm)
    return Working(
        say("air.working.toxic_at_lel", percent=shown(percent_lel)),
        times,
        "",
        say("air.formula.toxic_at_lel"),
        (
            Input(say("air.input.percent_lel"), shown(percent_lel), "% LEL"),
            Input(say("air.input.lel"), shown(lel_vol_percent), "vol%"),
            Input(say("air.input.limit"), shown(limit_ppm), "ppm"),
        ),
        "arithmetic",
        say(
            "air.validity.toxic_at_lel",
            percent=shown(percent_lel),
            ppm=shown(ppm.quantize(Decimal(1), ROUND_HALF_UP)),
            times=shown(times),
            limit=shown(limit_ppm),
        ),
    )


def mixture_lel(shares: Mapping[str, Decimal], lels: Mapping[str, Decimal]) -> Working:
    """LEL of a mixture of flammable gases in vol%, by Le Chatelier, rounded down to 0.001.

    ``shares`` in any one unit (their sum is made 1), ``lels`` in vol%, one for each gas. ValueError for a share that
    is not above 0. Valid for lower limits near 25 C, gases that do not react with each other.
    Source: Le Chatelier (1891), as in US Bureau of Mines Bulletin 503 (1952), from memory.

    >>> gas = {"methane": Decimal(80), "ethane": Decimal(15), "propane": Decimal(4), "butane": Decimal(1)}
    >>> lel = dict(zip(gas, map(Decimal, ("5.0", "3.22", "2.37", "1.86"))))
    >>> mixture_lel(gas, lel).result
    Decimal('4.369')
    """
    if not shares or any(not share.is_finite() or share <= 0 for share in shares.values()):
        raise ValueError("a mixture needs shares above 0")
    whole = sum(shares.values(), Decimal(0))
    lel = whole / sum((share / _lel(lels[gas]) for gas, share in shares.items()), Decimal(0))
    inputs = tuple(
        figure
        for gas, share in shares.items()
        for figure in (
            Input(say("air.input.share", gas=gas), shown(share), ""),
            Input(say("air.input.lel_of", gas=gas), shown(lels[gas]), "vol%"),
        )
    )
    return Working(
        say("air.working.mixture"),
        lel.quantize(Decimal("0.001"), ROUND_FLOOR),
        "vol%",
        say("air.formula.mixture"),
        inputs,
        "Le Chatelier (1891)",
        say("air.validity.mixture"),
    )


def warm_lel(lel_vol_percent: Decimal, temperature_c: Decimal) -> Working:
    """The LEL of a warm space in vol%: only ever lowered, never raised, rounded down to 0.001.

    LEL x (1 - (T - 25) / 875) above 25 C: a straight line to zero at 900 C, the steeper of two published lines (the
    other meets zero near 1300 C and overstates the limit of some fuels). ValueError above 300 C. Source: a study of
    upward flames at 1 atm (900 C); US Bureau of Mines Bulletin 627 (1965) for the other line, from memory.

    >>> warm_lel(Decimal("5.0"), Decimal("100")).result, warm_lel(Decimal("5.0"), Decimal("-5")).result
    (Decimal('4.571'), Decimal('5.000'))
    """
    if not temperature_c.is_finite() or temperature_c > 300:
        raise ValueError(f"{temperature_c} C is outside the formula")
    factor = 1 - max(temperature_c - 25, Decimal(0)) / 875
    return Working(
        say("air.working.warm"),
        (_lel(lel_vol_percent) * factor).quantize(Decimal("0.001"), ROUND_FLOOR),
        "vol%",
        say("air.formula.warm"),
        (
            Input(say("air.input.lel"), shown(lel_vol_percent), "vol%"),
            Input(say("air.input.temperature"), shown(temperature_c), "°C"),
        ),
        "upward flame limits, zero near 900 °C",
        say("air.validity.warm"),
    )


def _lel(vol_percent: Decimal) -> Decimal:
    if not vol_percent.is_finite() or not 0 < vol_percent <= 100:
        raise ValueError(f"{vol_percent} vol% is no LEL")
    return vol_percent


def _readable(times: Decimal) -> Decimal:
    return times.quantize(Decimal(1) if times >= 100 else Decimal("0.1"), ROUND_HALF_UP)
