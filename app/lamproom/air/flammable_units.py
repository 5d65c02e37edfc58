"""One flammable reading in three units, as workings: % LEL, ppm, and % LEL of another LEL."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

from lamproom.air.flammable import percent_lel_to_ppm, ppm_to_percent_lel, rebase
from lamproom.air.working import Working, finite, of, within, worked


def lel_in_ppm(percent_lel: Decimal, lel_vol_percent: Decimal) -> Working:
    """ppm of a reading in % LEL, whole, half up: % LEL x LEL x 100; the volume percent is a ten-thousandth of it.

    >>> lel_in_ppm(Decimal(10), Decimal("5.0")).result
    Decimal('5000')
    """
    ppm = percent_lel_to_ppm(finite("percent_lel", percent_lel), lel_vol_percent).quantize(Decimal(1), ROUND_HALF_UP)
    inputs = (of("percent_lel", percent_lel, "% LEL"), of("lel", lel_vol_percent, "vol%"))
    return worked("lel_in_ppm", ppm, "ppm", inputs, "definition")


def ppm_in_lel(ppm: Decimal, lel_vol_percent: Decimal) -> Working:
    """% LEL of a level in ppm, to 0.01, rounded up: ppm / (LEL x 100).

    >>> ppm_in_lel(Decimal(600), Decimal("1.2")).result
    Decimal('5.00')
    """
    share = ppm_to_percent_lel(within("ppm", ppm, 0), lel_vol_percent).quantize(Decimal("0.01"), ROUND_CEILING)
    inputs = (of("ppm", ppm, "ppm"), of("lel", lel_vol_percent, "vol%"))
    return worked("ppm_in_lel", share, "% LEL", inputs, "definition")


def rebased(percent_lel: Decimal, made_with: Decimal, wanted: Decimal) -> Working:
    """The same gas in % LEL of another LEL, to 0.01, rounded up: reading x its LEL / the other LEL.

    >>> rebased(Decimal(10), Decimal("5.0"), Decimal("4.4")).result
    Decimal('11.37')
    """
    share = rebase(finite("percent_lel", percent_lel), made_with, wanted).quantize(Decimal("0.01"), ROUND_CEILING)
    inputs = (
        of("percent_lel", percent_lel, "% LEL"),
        of("lel", made_with, "vol%"),
        of("wanted_lel", wanted, "vol%"),
    )
    return worked("rebased", share, "% LEL", inputs, "definition")
