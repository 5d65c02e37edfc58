"""Every figure of the table of substances against somebody else's: an open library, and the federal tables."""

from decimal import Decimal

import pytest
from chemicals import MW
from chemicals.safety import LFL, UFL, LFL_methods

from lamproom.air.substance_table import SUBSTANCES
from lamproom.air.substances import Figure, Substance, enforceable

METHODS = {
    "NFPA 497 (2008)": "NFPA 497 (2008)",
    "IEC 60079-20-1 (2010)": "IEC 60079-20-1 (2010)",
    "NIOSH Pocket Guide to Chemical Hazards, as an open library keeps it": "WIKIDATA",
}
EVERY = list(SUBSTANCES.values())


@pytest.mark.parametrize("substance", [one for one in EVERY if one.molar_mass], ids=lambda s: s.name)
def test_molar_masses(substance: Substance) -> None:
    """`chemicals.MW`, from IUPAC's atomic masses: to 0.003 g/mol."""
    assert substance.molar_mass is not None
    assert abs(float(substance.molar_mass.value) - MW(substance.cas)) <= 0.003


@pytest.mark.parametrize("substance", [one for one in EVERY if one.lel], ids=lambda s: s.name)
def test_flammable_limits_are_those_of_the_set_that_they_name(substance: Substance) -> None:
    """`chemicals.LFL` and `UFL`: NFPA 497, IEC 60079-20-1 and the set with the Pocket Guide's figures."""
    for figure, ask in ((substance.lel, LFL), (substance.lel_low, LFL), (substance.uel, UFL)):
        if figure is not None and figure.source in METHODS:
            theirs = ask(CASRN=substance.cas, method=METHODS[figure.source])
            assert abs(float(figure.value) - 100 * theirs) < 1e-6, figure


@pytest.mark.parametrize("substance", [one for one in EVERY if one.lel], ids=lambda s: s.name)
def test_no_published_lel_lies_below_the_lowest_that_we_know(substance: Substance) -> None:
    """The lowest of all sets of `chemicals` is our LEL or our ``lel_low``."""
    known = [figure.value for figure in (substance.lel, substance.lel_low) if figure is not None]
    for method in METHODS.values():
        theirs = LFL(CASRN=substance.cas, method=method) if _has(substance, method) else None
        assert theirs is None or float(min(known)) <= 100 * theirs + 1e-6, method


def _has(substance: Substance, method: str) -> bool:
    return method in LFL_methods(CASRN=substance.cas)


# Ours against IEC 60079-20-1, where they differ: (ours, IEC). Ours is the book that US instruments and rules go by, and
# the lower figure of the two is kept beside it; where IEC is the higher one, ours is already the stricter.
DIFFERENT_FROM_IEC = {
    "methane": ("5", "4.4"),  # NFPA 497; a catalytic sensor set with 5.0 shows 12 % less
    "carbon monoxide": ("12.5", "10.9"),  # NIOSH (1994); damp air burns sooner, which IEC measured
    "hydrogen cyanide": ("5.6", "5.4"),
    "methyl mercaptan": ("3.9", "4.1"),
    "ethylene": ("2.7", "2.3"),
    "acetylene": ("2.5", "2.3"),
    "ethylene oxide": ("3", "2.6"),
    "propane": ("2.1", "1.7"),
    "n-butane": ("1.6", "1.4"),  # NIOSH Pocket Guide; NFPA 497 has 1.9
    "n-pentane": ("1.5", "1.1"),
    "n-hexane": ("1.1", "1.0"),
    "n-heptane": ("1.05", "0.85"),  # NIOSH (1994); NFPA 497 rounds to 1.0
    "n-octane": ("1", "0.8"),
    "toluene": ("1.1", "1.0"),
    "o-xylene": ("0.9", "1.0"),
    "styrene": ("0.9", "1.0"),
    "ethanol": ("3.3", "3.1"),
    "methyl ethyl ketone": ("1.4", "1.5"),  # 1.4 is for 93 C
    "carbon disulfide": ("1.3", "0.6"),  # a factor of two; the lower counts wherever the basis is not known
}


def test_every_lel_is_iecs_or_stands_in_the_list_of_differences() -> None:
    """`chemicals.LFL` with IEC 60079-20-1 (2010)."""
    iec = METHODS["IEC 60079-20-1 (2010)"]
    found = {}
    for one in EVERY:
        if one.lel is not None and _has(one, iec):
            theirs = Decimal(str(round(100 * LFL(CASRN=one.cas, method=iec), 4)))
            if theirs != one.lel.value:
                found[one.name] = (one.lel.value, theirs)
    assert found == {name: (Decimal(a), Decimal(b)) for name, (a, b) in DIFFERENT_FROM_IEC.items()}


# 29 CFR 1910.1000 Tables Z-1 and Z-2 and the substance standards, written down apart from our table: 8-hour TWA,
# ceiling (C), 15-minute limit (S), peak (P), in ppm.
FEDERAL = """
acetone 1000; ammonia 50; carbon dioxide 5000; carbon monoxide 50; chlorine C1; ethanol 1000; ethyl acetate 400;
n-heptane 500; n-hexane 500; hydrogen chloride C5; hydrogen cyanide 10; isopropanol 400; methanol 200;
methyl ethyl ketone 200; methyl bromide C20; methyl mercaptan C10; nitric oxide 25; nitrogen dioxide C5; n-octane 500;
ozone 0.1; n-pentane 1000; phosphine 0.3; propane 1000; sulfur dioxide 5; o-xylene 100;
carbon disulfide 20 C30 P100; hydrogen sulfide C20 P50; styrene 100 C200 P600; toluene 200 C300 P500;
trichloroethylene 100 C200 P300; benzene 1 S5; ethylene oxide 1 S5; vinyl chloride 1 C5; dichloromethane 25 S125;
formaldehyde 0.75 S2
"""
KINDS = {"C": "ceiling", "S": "STEL", "P": "peak"}


def federal() -> dict[str, dict[str, Decimal]]:
    found: dict[str, dict[str, Decimal]] = {}
    for entry in FEDERAL.replace("\n", " ").strip().split(";"):
        words = entry.split()
        figures = [word for word in words if word[-1].isdigit() and word.lstrip("CSP")[0].isdigit()]
        name = " ".join(word for word in words if word not in figures)
        found[name] = {KINDS.get(word[0], "TWA"): Decimal(word.lstrip("CSP")) for word in figures}
    return found


def test_enforceable_limits_are_those_of_the_federal_tables_and_no_others() -> None:
    """29 CFR 1910.1000 Tables Z-1 and Z-2, 1910.1017, .1028, .1047, .1048, .1052."""
    ours = {
        one.name: {limit.kind: limit.ppm.value for limit in one.limits if limit.adopter == "OSHA"}
        for one in EVERY
        if any(limit.adopter == "OSHA" for limit in one.limits)
    }
    assert ours == federal()


def test_the_strictest_enforceable_limit_is_the_lowest_of_them_without_the_peak() -> None:
    for name, kinds in federal().items():
        limit = enforceable(SUBSTANCES[name])
        assert limit is not None
        assert limit.ppm.value == min(value for kind, value in kinds.items() if kind != "peak")


def test_ten_percent_of_the_lel_is_the_idlh_where_niosh_says_so() -> None:
    """NIOSH documentation: where the IDLH was set at 10 % of the LEL it prints both; ours must agree."""
    for name in (
        "propane",
        "n-butane",
        "n-pentane",
        "n-hexane",
        "n-octane",
        "ethanol",
        "isopropanol",
        "acetone",
        "ethyl acetate",
    ):
        substance = SUBSTANCES[name]
        idlh = next(limit.ppm.value for limit in substance.limits if limit.kind == "IDLH")
        assert _ppm(substance.lel) == idlh, name


def _ppm(lel: Figure | None) -> Decimal | None:
    return None if lel is None else lel.value * 1000
