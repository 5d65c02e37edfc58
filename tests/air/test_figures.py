"""What is typed is read exactly or refused with its spot marked."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.figures import Unreadable, canonical, read_as, read_figure, shown

READ = {
    "20.9": "20.9",
    "20,9": "20.9",
    " 20.9 ": "20.9",
    "\t20.9\n": "20.9",
    "\u00a020,9": "20.9",
    "0": "0",
    "0.0": "0.0",
    "0,5": "0.5",
    "20.90": "20.90",
    "1,250": "1.250",
    "1.250": "1.250",
    "2600": "2600",
    "100": "100",
    "-0.1": "-0.1",
    "\u22120,1": "-0.1",
    "123456789012": "123456789012",
}

# Text -> the character in brackets in the sentence (None: nothing to mark), words that the sentence says.
REFUSED = {
    "": (None, "not a zero"),
    "   ": (None, "not a zero"),
    "20..9": ("20.[.]9", "second decimal sign"),
    "20,,9": ("20,[,]9", "second decimal sign"),
    "1,250.0": ("1,250[.]0", "no thousands sign"),
    "1.250,0": ("1.250[,]0", "no thousands sign"),
    "2O.9": ("2[O].9", "letter, not a zero"),
    "20.o": ("20.[o]", "letter, not a zero"),
    "2l": ("2[l]", "digit one"),
    "1e3": ("1[e]3", "1000"),
    "1E3": ("1[E]3", "1000"),
    "e": ("[e]", "not a digit"),
    "+5": ("[+]5", "plus sign"),
    "--5": ("-[-]5", "minus sign"),
    "5-": ("5[-]", "minus sign"),
    "-": ("[-]", "minus sign"),
    "2 600": ("2[ ]600", "space inside"),
    "20. 9": ("20.[ ]9", "space inside"),
    "2\u00a0600": ("2[ ]600", "space inside"),
    "2'600": ("2[']600", "not a digit"),
    ".5": ("[.]5", "Type 0.5"),
    "5.": ("5[.]", "Type 0.5"),
    ".": ("[.]", "Type 0.5"),
    "-.5": ("-[.]5", "Type 0.5"),
    "020.9": ("[0]20.9", "not 020.9"),
    "00": ("[0]0", "not 020.9"),
    "-01": ("-[0]1", "not 020.9"),
    "\u0663": ("[\u0663]", "0 to 9"),
    "\u00bd": ("[\u00bd]", "0 to 9"),
    "2\u00b2": ("2[\u00b2]", "0 to 9"),
    "\uff12\uff10": ("[\uff12]\uff10", "0 to 9"),
    "20.9%": ("20.9[%]", "unit"),
    "35ppm": ("35[p]pm", "unit"),
    "nan": ("[n]an", "not a digit"),
    "Infinity": ("[I]nfinity", "digit one"),
    "0x10": ("0[x]10", "not a digit"),
    "1_000": ("1[_]000", "not a digit"),
    "<1": ("[<]1", "not a digit"),
    "20\u202e9": ("20[\ufffd]9", "not a digit"),
    "1234567890123": ("123456789012[3]", "12 digits"),
}


@pytest.mark.parametrize(("typed", "digits"), READ.items())
def test_a_figure_keeps_the_digits_that_were_typed(typed: str, digits: str) -> None:
    assert canonical(read_figure(typed)) == digits


@pytest.mark.parametrize(("typed", "said"), REFUSED.items())
def test_what_is_no_figure_is_refused_and_its_spot_is_marked(typed: str, said: tuple[str | None, str]) -> None:
    marked, words = said
    with pytest.raises(Unreadable) as refused:
        read_figure(typed)
    assert refused.value.text == typed
    assert words in str(refused.value)
    if marked is not None:
        assert str(refused.value).endswith(marked)
        assert refused.value.at == marked.index("[") + len(typed) - len(typed.lstrip())


def test_the_spot_counts_the_spaces_in_front() -> None:
    with pytest.raises(Unreadable) as refused:
        read_figure("  2O.9")
    assert "  2O.9"[refused.value.at] == "O"


@given(st.text(max_size=12))
def test_any_text_at_all_is_read_exactly_or_refused(typed: str) -> None:
    try:
        value = read_figure(typed)
    except Unreadable as refused:
        assert refused.text == typed
        assert str(refused)
    else:
        assert canonical(value) == canonical(read_figure(canonical(value)))
        assert typed.strip().replace(",", ".").replace("\u2212", "-").removeprefix("-") in shown(value) + canonical(
            value
        )


@given(st.text(alphabet="0123456789.,-+eEoO l%\u2212", max_size=8))
def test_near_figures_are_read_exactly_or_refused(typed: str) -> None:
    try:
        value = read_figure(typed)
    except Unreadable as refused:
        assert str(refused)
    else:
        assert value == Decimal(typed.strip().replace(",", ".").replace("\u2212", "-"))


def test_a_comma_that_looks_like_a_thousands_sign_is_said_back() -> None:
    """Carbon monoxide of 1250 ppm must not pass as 1.250 unnoticed."""
    said = read_as("1,250")
    assert said is not None
    assert said.say() == "“1,250” is read as 1.250. A comma is a decimal sign. If you mean 1250, type 1250."


@pytest.mark.parametrize("plain", ["20,9", "1.250", "0,250", "1250", "20,95", "1234,567", "nonsense", ""])
def test_a_figure_that_cannot_be_mistaken_needs_no_caution(plain: str) -> None:
    assert read_as(plain) is None


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Decimal(".5"), "0.5"),
        (Decimal("-0.1"), "\u22120.1"),
        (Decimal("4500"), "4500"),
        (Decimal("1E+4"), "10000"),
        (Decimal("-0.0"), "0.0"),
        ("20.90", "20.90"),
        ("-1", "\u22121"),
        (".5", "0.5"),
    ],
)
def test_a_shown_figure_has_its_zero_its_minus_and_no_thousands_sign(value: Decimal | str, text: str) -> None:
    assert shown(value) == text


@pytest.mark.parametrize("broken", ["", "20,9", "1e3", "x", " 5"])
def test_showing_what_is_no_figure_of_the_record_is_a_fault(broken: str) -> None:
    with pytest.raises(ValueError, match="record"):
        shown(broken)


@pytest.mark.parametrize("broken", ["NaN", "Infinity"])
def test_nothing_but_a_number_is_kept(broken: str) -> None:
    with pytest.raises(ValueError, match="record"):
        canonical(Decimal(broken))
