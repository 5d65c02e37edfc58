"""Flammable gas: volume percent, % LEL and ppm, what voids a flammable reading, and what one hides.

A figure in % LEL means nothing without the LEL it was made with (methane is 5.0 in NFPA 497 and 4.4 in
IEC 60079-20-1), so each conversion takes that LEL in volume percent.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

from lamproom.air.figures import shown
from lamproom.air.working import Working, above_zero, finite, of, within, worked
from lamproom.words import Sentence, say, sentence

PPM_PER_VOLUME_PERCENT = Decimal(10_000)
# Under this much oxygen, in vol%, a catalytic sensor may read too low. A confined-space handbook's figure
# (common practice); the maker's figure replaces it.
CATALYTIC_NEEDS_OXYGEN = Decimal("15")
TOP_OF_RANGE = Decimal(100)
# Air with more oxygen than this is enriched: 29 CFR 1910.146(b), oxygen above 23.5 vol%. Published LELs are for air.
ENRICHED_ABOVE = Decimal("23.5")
TENTH = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class Factor:
    """How much more of a vapor there is than a flammable sensor shows, from the maker's sheet and its date.

    The vapor in % LEL = the reading x ``factor``; 1 is the sensor's own calibration gas.
    """

    vapor: str
    factor: Decimal
    sheet: str
    sheet_date: date


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
    above_zero("limit", limit_ppm)
    ppm = percent_lel_to_ppm(finite("percent_lel", percent_lel), lel_vol_percent)
    times = _readable(ppm / limit_ppm)
    return worked(
        "toxic_at_lel",
        times,
        "",
        (
            of("percent_lel", percent_lel, "% LEL"),
            of("lel", lel_vol_percent, "vol%"),
            of("limit", limit_ppm, "ppm"),
        ),
        "arithmetic",
        percent=shown(percent_lel),
        ppm=shown(ppm.quantize(Decimal(1), ROUND_HALF_UP)),
        times=shown(times),
        limit=shown(limit_ppm),
    )


def as_vapor(percent_lel: Decimal, vapor: str, factor: Factor | None) -> Working:
    """What a flammable reading says of a vapor other than the sensor's calibration gas, in % LEL of that vapor.

    reading x factor, rounded up to 0.1 % LEL. The result is the word for unknown when there is no factor, or one
    without the maker's sheet: a reading of 3 % LEL on a methane sensor says nothing of toluene.
    Source: arithmetic; the factor is the maker's.

    >>> from datetime import date
    >>> as_vapor(Decimal("3"), "toluene", Factor("toluene", Decimal("2.6"), "sheet 12", date(2026, 3, 1))).result
    Decimal('7.8')
    >>> as_vapor(Decimal("3"), "toluene", None).result
    'unknown'
    """
    finite("percent_lel", percent_lel)
    known = factor if factor is not None and factor.vapor == vapor and factor.sheet.strip() else None
    result: Decimal | str = say("air.result.unknown")
    if known is not None:
        result = (percent_lel * above_zero("factor", known.factor)).quantize(TENTH, ROUND_CEILING)
    source = "" if known is None else f"{known.sheet}, {known.sheet_date.isoformat()}"
    given = of("factor", say("air.result.unknown") if known is None else known.factor, "", source)
    sheet = () if known is None else (of("sheet", known.sheet), of("sheet_date", known.sheet_date.isoformat()))
    inputs = (of("percent_lel", percent_lel, "% LEL"), of("vapor", vapor), given, *sheet)
    return worked("as_vapor", result, "% LEL", inputs, source or say("air.result.unknown"))


def void(
    percent_lel: Decimal,
    oxygen: Decimal | None,
    needs: Decimal | None = CATALYTIC_NEEDS_OXYGEN,
    top: Decimal = TOP_OF_RANGE,
    enriched: Decimal = ENRICHED_ABOVE,
) -> tuple[Sentence, ...]:
    """Why a flammable reading counts as not taken, all reasons; none when it stands.

    ``needs`` is the oxygen the sensor needs in vol%, None for one that needs none (infrared). ``top`` is the end of
    its range in % LEL: above it a catalytic sensor may fall back and read low in a rich mixture. ``enriched`` is the
    oxygen above which published LELs do not hold. Oxygen that was not read voids a sensor that needs some.
    Source: OSHA's shipyard rules, 29 CFR 1915.12(a) and (b), test oxygen first for this reason; 15 vol% is common
    practice until the maker's figure is entered.

    >>> [one.id for one in void(Decimal(8), Decimal(9))], void(Decimal(8), Decimal("20.9"))
    (['air.void.low_oxygen'], ())
    """
    reasons = []
    if not percent_lel.is_finite():
        reasons.append(sentence("air.void.no_reading"))
    elif percent_lel > top:
        reasons.append(sentence("air.void.over_range", percent=shown(percent_lel), top=shown(top)))
    if oxygen is None or not oxygen.is_finite():
        reasons.append(sentence("air.void.oxygen_unread"))
    elif needs is not None and catalytic_void(oxygen, needs):
        reasons.append(sentence("air.void.low_oxygen", oxygen=shown(oxygen), needs=shown(needs)))
    elif oxygen > enriched:
        reasons.append(sentence("air.void.enriched", oxygen=shown(oxygen), above=shown(enriched)))
    return tuple(reasons)


def _lel(vol_percent: Decimal) -> Decimal:
    return lel_figure("lel", vol_percent)


def lel_figure(key: str, vol_percent: Decimal) -> Decimal:
    """The figure itself when it can be a flammable limit, above 0 and up to 100 vol%; else Unworkable."""
    return within(key, above_zero(key, vol_percent), 0, 100)


def _readable(times: Decimal) -> Decimal:
    return times.quantize(Decimal(1) if times >= 100 else Decimal("0.1"), ROUND_HALF_UP)
