"""The table of substances says what it knows, from where, and what it does not know."""

import pytest

from lamproom.air.substance_table import SUBSTANCES
from lamproom.air.substances import Exposure, Substance, Sure, enforceable, relative_density, table, unconfirmed


@pytest.mark.parametrize("substance", SUBSTANCES.values(), ids=lambda s: s.name)
def test_every_figure_has_a_source_and_limits_agree_with_the_state(substance: Substance) -> None:
    figures = [substance.molar_mass, substance.lel, substance.uel, substance.ionization, substance.lel_low]
    figures += [limit.ppm for limit in substance.limits]
    assert all(figure.source and figure.value > 0 for figure in figures if figure is not None)
    assert bool(substance.limits) is (substance.exposure is Exposure.LIMITED)
    assert (substance.lel is None) is (substance.uel is None)
    if substance.lel and substance.uel:
        assert substance.lel.value < substance.uel.value
    if substance.lel_low and substance.lel:
        assert substance.lel_low.value < substance.lel.value


@pytest.mark.parametrize("substance", SUBSTANCES.values(), ids=lambda s: s.name)
def test_the_cas_number_has_its_right_check_digit(substance: Substance) -> None:
    """CAS check digit: digits from the right, weighted 1, 2, 3 ..., modulo 10. Source: CAS Registry rule."""
    digits = substance.cas.replace("-", "")
    assert sum(int(d) * n for n, d in enumerate(reversed(digits[:-1]), 1)) % 10 == int(digits[-1])


def test_the_three_states_of_a_limit_are_kept_apart() -> None:
    assert SUBSTANCES["nitrogen"].exposure is Exposure.NONE_EXISTS
    assert SUBSTANCES["gasoline vapor"].exposure is Exposure.NOT_FOUND
    assert SUBSTANCES["chlorine"].exposure is Exposure.LIMITED


def test_no_exposure_limit_rests_on_memory() -> None:
    for substance in SUBSTANCES.values():
        assert all(limit.ppm.sure is Sure.SEEN for limit in substance.limits), substance.name


def test_what_rests_on_memory_is_named() -> None:
    assert unconfirmed(SUBSTANCES["chlorine"]) == ("ionization",)
    assert unconfirmed(SUBSTANCES["benzene"]) == ()


def test_the_enforceable_limit_is_the_strictest_as_an_instant_value() -> None:
    found = {name: enforceable(one) for name, one in SUBSTANCES.items()}
    figures = {name: str(one.ppm.value) for name, one in found.items() if one is not None}
    assert figures == {
        "hydrogen sulfide": "20",
        "carbon monoxide": "50",
        "carbon dioxide": "5000",
        "toluene": "200",
        "ammonia": "50",
        "chlorine": "1",
        "sulfur dioxide": "5",
        "benzene": "1",
    }


def test_a_mixture_has_no_density_of_its_own() -> None:
    assert relative_density(SUBSTANCES["gasoline vapor"]) is None


def test_two_substances_of_one_name_are_a_fault() -> None:
    one = SUBSTANCES["argon"]
    with pytest.raises(ValueError, match="share"):
        table((one, one))
