"""Figures of 29 CFR 1910.146, and what happens exactly at them.

The expected words are those of the rule; where our sign is stricter than the rule's, the reason stands beside it.
"""

from decimal import Decimal

import pytest

from lamproom.air.limits import Kind, Limit, Standing, judge, limit_of

RULE = "29 CFR 1910.146(b), hazardous atmosphere"
OXYGEN = limit_of(Kind.OXYGEN, "oxygen", "vol%", Decimal("19.5"), Decimal("23.5"), RULE)
FLAMMABLE = limit_of(Kind.FLAMMABLE, "flammable", "% LEL", None, Decimal("10"), RULE)
SULFIDE = limit_of(Kind.TOXIC, "hydrogen sulfide", "ppm", None, Decimal("10"), "29 CFR 1910.146 Appendix E")
MONOXIDE = limit_of(Kind.TOXIC, "carbon monoxide", "ppm", None, Decimal("35"), "29 CFR 1910.146 Appendix E")

CASES = [
    # 1910.146(b): "below 19.5 percent or above 23.5 percent": the figures themselves are not hazardous.
    (OXYGEN, "19.5", Standing.WITHIN),
    (OXYGEN, "19.49", Standing.OUTSIDE),
    (OXYGEN, "19.4", Standing.OUTSIDE),
    (OXYGEN, "22.0", Standing.WITHIN),
    (OXYGEN, "23.0", Standing.WITHIN),
    (OXYGEN, "23.5", Standing.WITHIN),
    (OXYGEN, "23.51", Standing.OUTSIDE),
    (OXYGEN, "23.6", Standing.OUTSIDE),
    (OXYGEN, "20.9", Standing.WITHIN),
    (OXYGEN, "0", Standing.OUTSIDE),
    # 1910.146(b) says "in excess of 10 percent"; Appendix E alarms at "10% or more" and shipyards, 1915.12(b), at
    # "equal to or greater than 10 percent". The stricter sign is taken: 10 fails.
    (FLAMMABLE, "5", Standing.WITHIN),
    (FLAMMABLE, "9.9", Standing.WITHIN),
    (FLAMMABLE, "9.99", Standing.WITHIN),
    (FLAMMABLE, "10", Standing.OUTSIDE),
    (FLAMMABLE, "10.0", Standing.OUTSIDE),
    (FLAMMABLE, "11", Standing.OUTSIDE),
    (FLAMMABLE, "-1", Standing.WITHIN),
    # Appendix E: "at or above 10 ppm" and "at or above 35 ppm", there as 8-hour means; here each single reading.
    (SULFIDE, "9.9", Standing.WITHIN),
    (SULFIDE, "10", Standing.OUTSIDE),
    (MONOXIDE, "34", Standing.WITHIN),
    (MONOXIDE, "35", Standing.OUTSIDE),
    (MONOXIDE, "190", Standing.OUTSIDE),
]


@pytest.mark.parametrize(("limit", "reading", "standing"), CASES, ids=lambda v: getattr(v, "gas", str(v)))
def test_the_value_on_the_line_stands_where_the_rule_puts_it(limit: Limit, reading: str, standing: Standing) -> None:
    assert judge(limit, Decimal(reading)) is standing


def test_a_stricter_form_may_bar_the_figure_that_the_rule_allows() -> None:
    """The sample permit of Appendix D-1 prints oxygen "> 19.5 %"; shipyards, 1915.12(a), keep below 22.0."""
    sample = Limit("oxygen", "vol%", Decimal("19.5"), None, True, False, "29 CFR 1910.146 Appendix D-1")
    assert judge(sample, Decimal("19.5")) is Standing.OUTSIDE
    shipyard = Limit("oxygen", "vol%", Decimal("19.5"), Decimal("22.0"), False, True, "29 CFR 1915.12(a)")
    assert judge(shipyard, Decimal("22.0")) is Standing.OUTSIDE
    assert judge(shipyard, Decimal("21.9")) is Standing.WITHIN
