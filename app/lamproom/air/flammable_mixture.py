"""Mixtures of flammable gases: their limits by Le Chatelier, and how far a measured mixture is from burning."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from types import MappingProxyType

from lamproom.air.figures import shown
from lamproom.air.flammable import lel_figure
from lamproom.air.working import Input, Unworkable, Working, finite, worked
from lamproom.words import say, sentence

THOUSANDTH = Decimal("0.001")
LE_CHATELIER = "Le Chatelier (1891)"


@dataclass(frozen=True, slots=True)
class Inert:
    """An inert part of a gas: its ``share`` in the unit of the fuels' shares, its ``coefficient`` against nitrogen."""

    share: Decimal
    coefficient: Decimal


# How strongly an inert gas hinders burning, nitrogen 1. Source: ISO 10156:2017, as the open library `chemicals` has it.
INERT_COEFFICIENTS: Mapping[str, Decimal] = MappingProxyType(
    {
        "nitrogen": Decimal(1),
        "oxygen": Decimal(1),
        "carbon dioxide": Decimal("1.5"),
        "helium": Decimal("0.9"),
        "argon": Decimal("0.55"),
        "sulfur dioxide": Decimal("1.5"),
    }
)


def mixture_lel(shares: Mapping[str, Decimal], lels: Mapping[str, Decimal]) -> Working:
    """LEL of a mixture of flammable gases in vol%, by Le Chatelier, rounded down to 0.001.

    ``shares`` in any one unit (their sum is made 1), ``lels`` in vol%, one for each gas. Unworkable for a share that
    is not above 0. Valid for lower limits near 25 C, gases that do not react with each other.
    Source: Le Chatelier (1891), as in US Bureau of Mines Bulletin 503 (1952), from memory.

    >>> gas = {"methane": Decimal(80), "ethane": Decimal(15), "propane": Decimal(4), "butane": Decimal(1)}
    >>> lel = dict(zip(gas, map(Decimal, ("5.0", "3.22", "2.37", "1.86"))))
    >>> mixture_lel(gas, lel).result
    Decimal('4.369')
    """
    lel = _le_chatelier(shares, lels).quantize(THOUSANDTH, ROUND_FLOOR)
    return worked("mixture_lel", lel, "vol%", _inputs(shares, lels, "lel"), LE_CHATELIER)


def mixture_uel(shares: Mapping[str, Decimal], uels: Mapping[str, Decimal]) -> Working:
    """UEL of a mixture in vol%, by the same rule, rounded up to 0.001; it is weaker there, so it is for showing only:
    a mixture over its UEL is one breath of air away from burning.

    >>> gas = {"hexane": Decimal("0.24"), "methane": Decimal("0.61"), "ethylene": Decimal("0.15")}
    >>> mixture_uel(gas, {"hexane": Decimal("7.5"), "methane": Decimal(15), "ethylene": Decimal(32)}).result
    Decimal('12.928')
    """
    uel = _le_chatelier(shares, uels).quantize(THOUSANDTH, ROUND_CEILING)
    return worked("mixture_uel", uel, "vol%", _inputs(shares, uels, "uel"), LE_CHATELIER, showing=True)


def mixture_percent_lel(volumes: Mapping[str, Decimal], lels: Mapping[str, Decimal]) -> Working:
    """How far a measured mixture is on its way to burning, in % LEL of the mixture, rounded up to 0.1.

    Sum of (vol% / LEL) x 100: each gas fills its own share. A reading below 0 counts as 0. Source: Le Chatelier.

    >>> gas = {"hexane": Decimal("0.8"), "methane": Decimal("2.0"), "ethylene": Decimal("0.5")}
    >>> lel = {"hexane": Decimal("1.2"), "methane": Decimal("5.3"), "ethylene": Decimal("3.1")}
    >>> mixture_percent_lel(gas, lel).result
    Decimal('120.6')
    """
    for gas, volume in volumes.items():
        finite("volume", volume)
        lel_figure("lel", _limit(lels, gas))
    parts = (max(volume, Decimal(0)) / lels[gas] for gas, volume in volumes.items())
    share = (sum(parts, Decimal(0)) * 100).quantize(Decimal("0.1"), ROUND_CEILING)
    inputs = tuple(
        given
        for gas, volume in volumes.items()
        for given in (
            Input(say("air.input.volume_of", gas=gas), shown(volume), "vol%", key="volume", gas=gas),
            Input(say("air.input.lel_of", gas=gas), shown(lels[gas]), "vol%", key="lel", gas=gas),
        )
    )
    return worked("mixture_percent_lel", share, "% LEL", inputs, LE_CHATELIER)


def inert_lel(shares: Mapping[str, Decimal], lels: Mapping[str, Decimal], inerts: Mapping[str, Inert]) -> Working:
    """LEL in vol% of a whole gas of fuels and inert gases, rounded down to 0.001: the lower of two answers.

    One counts the inert gas as mere dilution of the fuel, the other is ISO 10156:2017, which lets a strong inert gas
    raise the limit (and a weak one, such as argon, lower it). ``shares`` and the inert shares are in one unit.

    >>> fuels = {"hydrogen": Decimal(15), "methane": Decimal(15)}
    >>> lel = {"hydrogen": Decimal("4"), "methane": Decimal("4.4")}
    >>> inert_lel(fuels, lel, {"carbon dioxide": Inert(Decimal(30), Decimal("1.5")), "nitrogen": Inert(Decimal(40),
    ... Decimal(1))}).result
    Decimal('13.968')
    """
    fuel = _le_chatelier(shares, lels)
    burning = sum(shares.values(), Decimal(0))
    inert = sum((_share(part.share) for part in inerts.values()), Decimal(0))
    weighed = sum((part.share * finite("coefficient", part.coefficient) for part in inerts.values()), Decimal(0))
    dilution = fuel * (burning + inert) / burning
    # ISO 10156 in vol%: the factor on each fuel's own limit, 1 where the inert gas hinders as nitrogen does.
    factor = (100 - fuel - (inert - weighed) / burning * fuel) / (100 - fuel)
    standard = dilution * factor
    lower = max(min(dilution, standard), Decimal(0)).quantize(THOUSANDTH, ROUND_FLOOR)
    inputs = (
        *_inputs(shares, lels, "lel"),
        *(
            given
            for gas, part in inerts.items()
            for given in (
                Input(say("air.input.inert_of", gas=gas), shown(part.share), "", key="inert", gas=gas),
                Input(
                    say("air.input.coefficient_of", gas=gas), shown(part.coefficient), "", key="coefficient", gas=gas
                ),
            )
        ),
    )
    return worked(
        "inert_lel",
        lower,
        "vol%",
        inputs,
        f"{LE_CHATELIER}; ISO 10156:2017",
        dilution=shown(dilution.quantize(THOUSANDTH, ROUND_HALF_UP)),
        standard=shown(standard.quantize(THOUSANDTH, ROUND_HALF_UP)),
    )


def _le_chatelier(shares: Mapping[str, Decimal], limits: Mapping[str, Decimal]) -> Decimal:
    if not shares:
        raise Unworkable(sentence("air.unworkable.no_shares"))
    whole = sum((_share(share) for share in shares.values()), Decimal(0))
    parts = (share / lel_figure("lel", _limit(limits, gas)) for gas, share in shares.items())
    return whole / sum(parts, Decimal(0))


def _share(share: Decimal) -> Decimal:
    if not share.is_finite() or share <= 0:
        raise Unworkable(sentence("air.unworkable.no_shares"))
    return share


def _limit(limits: Mapping[str, Decimal], gas: str) -> Decimal:
    if gas not in limits:
        raise Unworkable(sentence("air.unworkable.no_lel", gas=gas))
    return limits[gas]


def _inputs(shares: Mapping[str, Decimal], limits: Mapping[str, Decimal], key: str) -> tuple[Input, ...]:
    return tuple(
        given
        for gas, share in shares.items()
        for given in (
            Input(say("air.input.share_of", gas=gas), shown(share), "", key="share", gas=gas),
            Input(say(f"air.input.{key}_of", gas=gas), shown(limits[gas]), "vol%", key=key, gas=gas),
        )
    )
