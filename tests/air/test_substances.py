"""The table of substances says what it knows, from where, and what it does not know."""

import pytest

from lamproom.air.entry_figure import basis_name
from lamproom.air.substance_table import SUBSTANCES, named
from lamproom.air.substances import Exposure, Substance, Sure, relative_density, table, unconfirmed


@pytest.mark.parametrize("substance", SUBSTANCES.values(), ids=lambda s: s.name)
def test_every_figure_has_a_source_and_limits_agree_with_the_state(substance: Substance) -> None:
    figures = [substance.molar_mass, substance.lel, substance.uel, substance.ionization, substance.lel_low]
    figures += [limit.ppm for limit in substance.limits]
    assert all(figure.source and figure.value > 0 for figure in figures if figure is not None)
    assert bool(substance.limits) is (substance.exposure is Exposure.LIMITED)
    assert (substance.lel is None) is (substance.uel is None) or substance.name == "phosphine"  # none is established
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
    assert SUBSTANCES["isobutylene"].exposure is Exposure.NOT_FOUND
    assert SUBSTANCES["gasoline vapor"].exposure is Exposure.NOT_FOUND
    assert SUBSTANCES["chlorine"].exposure is Exposure.LIMITED


def test_the_table_holds_at_least_45_substances_found_by_any_of_their_names() -> None:
    assert len(SUBSTANCES) >= 45
    for one in SUBSTANCES.values():
        for name in (one.name.upper(), one.cas, *one.also):
            assert named(f" {name} ") is one, name
    assert named("") is None
    assert named("granite") is None


def test_only_british_limits_and_five_named_others_rest_on_memory() -> None:
    memory = {
        (one.name, basis_name(limit))
        for one in SUBSTANCES.values()
        for limit in one.limits
        if limit.ppm.sure is Sure.MEMORY
    }
    assert {(name, basis) for name, basis in memory if not basis.startswith("HSE")} == {
        ("methanol", "NIOSH IDLH"),
        ("hydrogen chloride", "NIOSH IDLH"),
        ("methyl mercaptan", "NIOSH IDLH"),
        ("trichloroethylene", "NIOSH IDLH"),
        ("formaldehyde", "NIOSH IDLH"),
        ("methyl ethyl ketone", "NIOSH TWA"),
        ("methyl ethyl ketone", "NIOSH STEL"),
        ("methyl ethyl ketone", "NIOSH IDLH"),
        ("methyl bromide", "OSHA ceiling"),
        ("methyl bromide", "NIOSH IDLH"),
    }
    british = [limit for one in SUBSTANCES.values() for limit in one.limits if limit.adopter == "HSE"]
    assert all(limit.ppm.sure is Sure.MEMORY for limit in british)
    assert len(british) > 40


def test_what_rests_on_memory_is_named() -> None:
    assert unconfirmed(SUBSTANCES["chlorine"]) == ("HSE STEL",)
    assert unconfirmed(SUBSTANCES["acetone"]) == ("ionization", "HSE TWA", "HSE STEL")
    assert unconfirmed(SUBSTANCES["methane"]) == ()


def test_what_pushes_air_out_and_what_goes_through_the_skin_is_marked() -> None:
    asphyxiants = {one.name for one in SUBSTANCES.values() if one.asphyxiant}
    assert asphyxiants == {
        "methane",
        "hydrogen",
        "propane",
        "n-butane",
        "ethylene",
        "acetylene",
        "nitrogen",
        "argon",
        "helium",
    }
    skin = {one.name for one in SUBSTANCES.values() if one.skin}
    assert skin == {"hydrogen cyanide", "benzene", "methanol", "carbon disulfide", "methyl bromide"}


def test_a_mixture_has_no_density_of_its_own() -> None:
    assert relative_density(SUBSTANCES["gasoline vapor"]) is None


def test_two_substances_of_one_name_are_a_fault() -> None:
    one = SUBSTANCES["argon"]
    with pytest.raises(ValueError, match="share"):
        table((one, one))
