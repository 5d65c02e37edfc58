"""The acceptable entry figure: the strictest adopted basis, named; a site's own substance from its sheet."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.entry_figure import basis_name, entry_figure
from lamproom.air.limits import Standing, judge
from lamproom.air.own_substance import Sheet, own_substance
from lamproom.air.substance_table import SUBSTANCES
from lamproom.air.substances import Exposure, Substance, Sure, unconfirmed
from lamproom.air.working import Unworkable

SHEET = Sheet("sheet 4711, Osprel Bend Waterworks", date(2026, 1, 12), "R. Alder")
BASES = sorted({basis_name(limit) for one in SUBSTANCES.values() for limit in one.limits} | {"OSHA", "NIOSH", "HSE"})
substances = st.sampled_from(sorted(SUBSTANCES)).map(lambda name: SUBSTANCES[name])
adopted = st.sets(st.sampled_from(BASES))


def test_a_single_reading_is_held_to_a_shift_limit_too() -> None:
    found = entry_figure(SUBSTANCES["carbon monoxide"], ("OSHA", "NIOSH TWA"))
    assert found.limit is not None
    assert judge(found.limit, Decimal(190)) is Standing.OUTSIDE
    assert judge(found.limit, Decimal(35)) is Standing.OUTSIDE
    assert judge(found.limit, Decimal("34.9")) is Standing.WITHIN
    assert found.why.say() == (
        "carbon monoxide: each reading is held to 35 ppm, by NIOSH documentation for IDLH values (1994) (NIOSH TWA)."
    )


@given(substances, adopted, adopted)
def test_adopting_one_more_basis_never_loosens_the_figure(one: Substance, a: set[str], b: set[str]) -> None:
    fewer, more = entry_figure(one, a, BASES).limit, entry_figure(one, a | b, BASES).limit
    if fewer is not None:
        assert more is not None
        assert more.high is not None
        assert fewer.high is not None
        assert more.high <= fewer.high


@given(substances, adopted)
def test_a_stricter_basis_that_was_not_adopted_is_a_caution(one: Substance, bases: set[str]) -> None:
    found = entry_figure(one, bases, BASES)
    for limit in one.limits:
        if limit.kind in ("peak", "IDLH") or limit == found.basis:
            continue
        is_ours = limit.adopter in bases or basis_name(limit) in bases
        stricter = found.basis is None or limit.ppm.value < found.basis.ppm.value
        assert (limit in found.cautions) is (stricter and not is_ours)


def test_a_basis_from_memory_counts_only_when_it_is_confirmed() -> None:
    british = entry_figure(SUBSTANCES["carbon monoxide"], ("HSE",))
    assert (british.limit, british.exposure) == (None, Exposure.NOT_FOUND)
    assert [basis_name(one) for one in british.unconfirmed] == ["HSE TWA", "HSE STEL"]
    confirmed = entry_figure(SUBSTANCES["carbon monoxide"], ("HSE",), ("HSE TWA", "HSE STEL"))
    assert confirmed.limit is not None
    assert confirmed.limit.high == 20
    assert confirmed.unconfirmed == ()


def test_a_peak_never_counts_and_an_idlh_only_by_its_own_name() -> None:
    sulfide = SUBSTANCES["hydrogen sulfide"]
    assert entry_figure(sulfide, ("OSHA peak",)).limit is None
    assert entry_figure(sulfide, ("NIOSH",)).basis == next(
        x for x in sulfide.limits if basis_name(x) == "NIOSH ceiling"
    )
    idlh = entry_figure(sulfide, ("NIOSH IDLH",))
    assert idlh.limit is not None
    assert idlh.limit.high == 100


@pytest.mark.parametrize(
    ("name", "state", "says"),
    [
        ("nitrogen", Exposure.NONE_EXISTS, "no exposure limit exists. Oxygen and the flammable gas reading govern."),
        ("gasoline vapor", Exposure.NOT_FOUND, "no exposure limit that this form goes by was found."),
        ("acetylene", Exposure.NOT_FOUND, "no exposure limit that this form goes by was found."),
    ],
)
def test_without_a_limit_the_state_is_told_and_nothing_is_zero(name: str, state: Exposure, says: str) -> None:
    found = entry_figure(SUBSTANCES[name])
    assert (found.limit, found.basis, found.exposure) == (None, None, state)
    assert says in found.why.say()


def test_a_site_adds_its_own_substance_with_its_sheet() -> None:
    own = own_substance(
        "brine degreaser", SHEET, {"TWA": Decimal(20), "STEL": Decimal(50)}, lel=Decimal("1.1"), uel=Decimal(6)
    )
    assert own.lel is not None
    assert (own.lel.sure, own.lel.source) == (
        Sure.SHEET,
        "sheet 4711, Osprel Bend Waterworks, 2026-01-12 (R. Alder)",
    )
    assert (own.exposure, own.molar_mass, own.ionization, unconfirmed(own)) == (Exposure.ENTERED, None, None, ())
    found = entry_figure(own)
    assert found.limit is not None
    assert (found.limit.high, found.exposure) == (20, Exposure.ENTERED)


def test_what_the_sheet_does_not_say_stays_unknown() -> None:
    own = own_substance("brine degreaser", SHEET, {})
    assert own.exposure is Exposure.NOT_FOUND
    assert entry_figure(own).limit is None


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (lambda: own_substance(" ", SHEET, {}), "needs a name"),
        (lambda: own_substance("x", Sheet("", date(2026, 1, 1), "R. Alder"), {}), "reference of its safety data sheet"),
        (lambda: own_substance("x", Sheet("4711", date(2026, 1, 1), ""), {}), "who entered it"),
        (lambda: own_substance("x", SHEET, {"TWA": Decimal(0)}), "limit must be more than 0"),
        (lambda: own_substance("x", SHEET, {"MAK": Decimal(1)}), "“MAK” is no kind of limit"),
        (lambda: own_substance("x", SHEET, {}, lel=Decimal(6), uel=Decimal(6)), "not below the UEL"),
        (lambda: own_substance("x", SHEET, {}, lel=Decimal(101)), "LEL must be from 0 to 100"),
        (lambda: own_substance("x", SHEET, {}, molar_mass=Decimal(-1)), "molar mass"),
    ],
)
def test_a_sheet_that_cannot_be_is_told(wrong: object, says: str) -> None:
    with pytest.raises(Unworkable, match=says):
        wrong()  # type: ignore[operator]
