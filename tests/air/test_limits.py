"""One judgement of a reading, and laws of limits put together."""

from decimal import Decimal

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from lamproom.air.limits import Kind, Limit, Standing, halved, judge, limit_of, looser, strictest, tighter

tenths = st.integers(-50, 300).map(lambda n: Decimal(n) / 10)


@st.composite
def limits(draw: st.DrawFn) -> Limit:
    low = draw(st.none() | tenths)
    high = draw(tenths if low is None else st.none() | tenths.filter(lambda h: h >= low))
    return Limit("gas", "ppm", low, high, draw(st.booleans()), draw(st.booleans()), draw(st.sampled_from("ABC")))


def passes(limit: Limit, value: Decimal) -> bool:
    return judge(limit, value) is Standing.WITHIN


@given(st.lists(limits(), min_size=1, max_size=4), tenths)
def test_the_strictest_passes_exactly_what_every_basis_passes(adopted: list[Limit], value: Decimal) -> None:
    lows = [one.low for one in adopted if one.low is not None]
    highs = [one.high for one in adopted if one.high is not None]
    assume(not lows or not highs or max(lows) <= min(highs))
    assert passes(strictest(adopted), value) == all(passes(one, value) for one in adopted)


@given(limits(), limits(), tenths)
def test_a_form_not_looser_never_passes_what_the_law_fails(site: Limit, law: Limit, value: Decimal) -> None:
    if not looser(site, law):
        assert not passes(site, value) or passes(law, value)


@given(limits())
def test_a_limit_is_not_looser_than_itself(limit: Limit) -> None:
    assert not looser(limit, limit)


LAW = limit_of(Kind.FLAMMABLE, "flammable", "% LEL", None, Decimal(10), "29 CFR 1910.146(b)")


@pytest.mark.parametrize(
    ("site", "is_looser"),
    [
        (limit_of(Kind.FLAMMABLE, "flammable", "% LEL", None, Decimal("10.1"), "site"), True),
        (Limit("flammable", "% LEL", None, Decimal(10), False, False, "passes at 10"), True),
        (Limit("flammable", "% LEL", Decimal(0), None, False, False, "no upper figure"), True),
        (limit_of(Kind.FLAMMABLE, "flammable", "% LEL", None, Decimal("10.0"), "site"), False),
        (limit_of(Kind.FLAMMABLE, "flammable", "% LEL", None, Decimal(5), "site"), False),
    ],
)
def test_a_site_may_only_be_stricter(site: Limit, is_looser: bool) -> None:
    assert looser(site, LAW) is is_looser


def test_the_basis_names_only_the_rules_that_decided() -> None:
    law = limit_of(Kind.OXYGEN, "oxygen", "vol%", Decimal("19.5"), Decimal("23.5"), "law")
    site = limit_of(Kind.OXYGEN, "oxygen", "vol%", None, Decimal(22), "site")
    work = limit_of(Kind.OXYGEN, "oxygen", "vol%", Decimal(20), None, "hot work")
    assert strictest([law, site, work]).basis == "hot work; site"
    assert tighter(law, law).basis == "law"


def test_limits_of_two_units_cannot_be_compared() -> None:
    other = limit_of(Kind.FLAMMABLE, "flammable", "vol%", None, Decimal(1), "site")
    for compare in (looser, tighter):
        with pytest.raises(ValueError, match="cannot be compared"):
            compare(other, LAW)


def test_no_limit_is_no_pass() -> None:
    with pytest.raises(ValueError, match="nothing can be judged"):
        strictest([])
    with pytest.raises(ValueError, match="needs a figure"):
        Limit("gas", "ppm", None, None, True, True, "")


@pytest.mark.parametrize("missing", ["NaN", "Infinity", "-Infinity"])
def test_what_is_no_number_is_never_within(missing: str) -> None:
    with pytest.raises(ValueError, match="no reading"):
        judge(LAW, Decimal(missing))


def test_a_floor_above_a_ceiling_is_a_fault() -> None:
    with pytest.raises(ValueError, match="runs from"):
        Limit("oxygen", "vol%", Decimal(24), Decimal(23), False, False, "slip")


def test_half_a_limit_fails_at_the_half_and_oxygen_keeps_its_band() -> None:
    """The ventilation-only route, 29 CFR 1910.146(c)(5); chlorine 0.5 of 1 ppm and methane 5 of 10 % LEL are the
    examples of OSHA's preamble, 58 FR 4488 (from memory)."""
    half = halved(LAW, "29 CFR 1910.146(c)(5)")
    assert (half.high, judge(half, Decimal(5)), judge(half, Decimal("4.9"))) == (5, Standing.OUTSIDE, Standing.WITHIN)
    chlorine = limit_of(Kind.TOXIC, "chlorine", "ppm", None, Decimal(1), "29 CFR 1910.1000 Table Z-1")
    assert halved(chlorine, "").high == Decimal("0.5")
    oxygen = limit_of(Kind.OXYGEN, "oxygen", "vol%", Decimal("19.5"), Decimal("23.5"), "29 CFR 1910.146(b)")
    assert halved(oxygen, "") == oxygen
