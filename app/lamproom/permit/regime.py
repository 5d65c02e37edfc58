"""What the law of a regime demands at the least: the floor that no form may loosen. Figures with their clause.

Marks: 'read' means that the figure was read in a public text or a copy of it by another public rule; 'practice' is
common practice; nothing here rests on memory alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal

from lamproom.air.limits import Limit


@dataclass(frozen=True, slots=True)
class Regime:
    """One regime: its limits by gas, the longest standing of a bump test, the shortest keeping time, its items.

    ``spacing_m`` is the largest distance between points of a vertical test (Appendix B: about 4 ft in the direction of
    travel); ``device_over_m`` the depth from which a vertical space needs a mechanical device for retrieval.
    """

    id: str
    name: str
    limits: tuple[Limit, ...]
    bump_under: timedelta
    spacing_m: Decimal
    keep: timedelta
    device_over_m: Decimal
    page_items: int
    suspends: bool
    must_ask: frozenset[str]
    must_be: tuple[tuple[str, str], ...] = ()
    """Items with the only answer that bars nothing: a form that takes any answer asks for nothing."""

    conditional: tuple[tuple[str, str], ...] = ()
    """Items with the only condition under which the regime lets a form ask them; every other is asked always."""

    def asked_if(self, item: str) -> str:
        """The condition under which an item may be asked; empty: always."""
        return dict(self.conditional).get(item, "")

    def expects(self, item: str, otherwise: str) -> str:
        """The answer that the regime asks of an item, ``otherwise`` where it asks for none."""
        return dict(self.must_be).get(item, otherwise)


US_GENERAL_INDUSTRY = Regime(
    id="us-general-industry",
    name="29 CFR 1910.146",
    limits=(
        Limit("oxygen", "% vol", Decimal("19.5"), Decimal("23.5"), False, False, "29 CFR 1910.146(b)"),
        Limit("flammable", "% LEL", None, Decimal("10"), False, True, "29 CFR 1910.146(b)"),
        Limit("carbon-monoxide", "ppm", None, Decimal("50"), False, True, "29 CFR 1910.1000 Table Z-1"),
        Limit("hydrogen-sulfide", "ppm", None, Decimal("20"), False, True, "29 CFR 1910.1000 Table Z-2"),
    ),
    bump_under=timedelta(hours=24),
    spacing_m=Decimal("1.2"),
    keep=timedelta(days=365),
    device_over_m=Decimal("1.52"),
    page_items=15,
    suspends=False,
    must_ask=frozenset(
        {
            "observed",
            "retrieval",
            "communication",
            "equipment",
            "other-permits",
            "other-work",
            "standby-team",
            "contractor-exchange",
            "near-permits",
            "hot-work-permit",
            "fire-watch",
            "cylinders-outside",
            "dust-clear",
        }
    ),
    conditional=(
        ("standby-team", "retrieval=does not apply, space:bad-air"),
        ("contractor-exchange", "people:other-employer"),
        ("near-permits", "others:near"),
        ("hot-work-permit", "hazard:hot-work"),
        ("fire-watch", "hazard:hot-work"),
        ("cylinders-outside", "hazard:hot-work"),
        ("dust-clear", "hazard:dust"),
    ),
    must_be=(
        ("observed", "yes"),
        ("retrieval", "yes"),
        ("communication", "yes"),
        ("equipment", "yes"),
        ("other-work", "no"),
        ("standby-team", "yes"),
        ("contractor-exchange", "yes"),
        ("near-permits", "yes"),
        ("hot-work-permit", "yes"),
        ("fire-watch", "yes"),
        ("cylinders-outside", "yes"),
        ("dust-clear", "yes"),
    ),
)

REGIMES: dict[str, Regime] = {US_GENERAL_INDUSTRY.id: US_GENERAL_INDUSTRY}
