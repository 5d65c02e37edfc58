"""The list of workings: each can be asked for by name, says what it asks for, and is made of its inputs alone."""

import re
from decimal import Decimal

import pytest

from lamproom.air.working import Unworkable, Working
from lamproom.air.working_list import WORKINGS
from lamproom.air.workings import Entry, Form, again, explained, find, told, typed_of, work_out
from lamproom.cli import main
from lamproom.words import Refusal
from lamproom.words.catalogue import ids

# Readings of a whole day are too many to stand in a working, so this one cannot be worked out again from its inputs.
FROM_READINGS = {"minutes_above"}
# What changes nothing by its nature: a sheet's date, a fallback not used in the example, a range's far end.
each = pytest.mark.parametrize("entry", WORKINGS, ids=lambda entry: entry.name)


def test_every_working_of_the_catalogue_is_in_the_list() -> None:
    """A name in the catalogue without an entry could be shown, and nobody could ask for it."""
    named = {id.removeprefix("air.working.") for id in ids() if id.startswith("air.working.")}
    assert {entry.key for entry in WORKINGS} == named
    assert len({entry.name for entry in WORKINGS}) == len(WORKINGS)


@each
def test_its_example_works_and_is_told_with_all_that_it_was_made_of(entry: Entry) -> None:
    working = work_out(entry, entry.example)
    lines = told(working)
    assert isinstance(working.result, Decimal) or entry.key == "points"
    assert working.formula
    assert working.source
    assert working.validity
    assert working.inputs
    text = "\n".join(lines)
    assert all(one.value in text for one in working.inputs)
    assert "{" not in text
    assert working.showing is working.validity.startswith("For showing, never for permitting")


@each
def test_it_gives_the_same_again_from_its_own_inputs(entry: Entry) -> None:
    if entry.key in FROM_READINGS:
        return
    working = work_out(entry, entry.example)
    twice = again(WORKINGS, working)
    assert (twice.result, twice.low, twice.high) == (working.result, working.low, working.high)


@each
def test_every_figure_of_it_can_move_its_result(entry: Entry) -> None:
    """A figure that is shown and changes nothing would be a decoration."""
    base = work_out(entry, entry.example)
    for ask in entry.asks:
        typed = [text for text in entry.example if text.startswith(f"{ask.key}=")]
        if not typed or (ask.form is Form.WORD and ask.key != "fuel"):
            continue
        assert any(_moved(entry, text, base) for text in typed), ask.key


def _moved(entry: Entry, text: str, base: Working) -> bool:
    others = [other for other in entry.example if other != text]
    for factor in ("0.5", "0.7", "1.3", "1.9", "3", "30"):
        changed = re.sub(r"\d+(\.\d+)?$", lambda m, f=factor: f"{Decimal(m.group()) * Decimal(f):f}", text)
        if text.startswith("fuel="):
            changed = "fuel=hydrogen"
        if _shown(entry, [*others, changed]) not in ("", _shown_of(base)):
            return True
    return False


def _shown(entry: Entry, typed: list[str]) -> str:
    """What it shows for these figures; nothing when it refuses them."""
    try:
        return _shown_of(work_out(entry, typed))
    except Refusal:
        return ""


def _shown_of(working: Working) -> str:
    return f"{working.result} {working.low} {working.high} {working.validity}"


@each
def test_its_help_names_every_input_and_an_example(entry: Entry) -> None:
    text = "\n".join(explained(entry))
    assert all(f"  {ask.written()} " in text and ask.explained() in text for ask in entry.asks)
    assert f"lamproom working {entry.name} {entry.example[0]}" in text


@each
def test_without_its_figures_it_says_which_are_missing(entry: Entry) -> None:
    needed = [ask for ask in entry.asks if ask.needed]
    if not needed:
        return
    with pytest.raises(Unworkable) as refused:
        work_out(entry, [])
    assert all(f"{ask.key} is missing" in str(refused.value) for ask in needed)


@each
@pytest.mark.parametrize("value", ["0", "-1", "999999999999", "0.00000000001", "x", "", "1e5"])
def test_no_figure_ends_in_a_fault(entry: Entry, value: str) -> None:
    """Whatever is typed, it ends in a result or in a sentence."""
    for ask in entry.asks:
        given = {
            Form.FIGURE: value,
            Form.WORD: value,
            Form.PAIRS: ":".join([value] * len(ask.parts)),
            Form.GASES: ":".join(["g", *[value] * len(ask.parts)]),
        }[ask.form]
        typed = [text for text in entry.example if not text.startswith(f"{ask.key}=")]
        try:
            working = work_out(entry, [*typed, f"{ask.key}={given}"])
        except Refusal as refused:
            assert len(str(refused)) > 20
            assert "{" not in str(refused)
        else:
            assert told(working)


def test_all_that_is_wrong_is_told_at_once() -> None:
    entry = find(WORKINGS, "unaccounted")
    with pytest.raises(Unworkable) as refused:
        work_out(
            entry, ["oxygen=2O.9", "bse=1", "water", "tolerance=1", "tolerance=2", "measured=CO", "measured=a:1:2"]
        )
    text = str(refused.value)
    assert text.startswith("7 things are wrong. (1) unaccounted does not ask for “bse”.")
    for part in ("“water” has no equals sign", "“O” is a letter", "base is missing", "tolerance was given twice"):
        assert part in text
    assert text.count("is not whole") == 2


def test_a_gas_given_twice_is_told() -> None:
    with pytest.raises(Unworkable, match="names one gas twice"):
        work_out(find(WORKINGS, "mixture-lel"), ["gas=methane:80:5", "gas=methane:20:2"])


def test_a_wrong_name_brings_the_nearest() -> None:
    with pytest.raises(Unworkable, match=r"Near it: unaccounted"):
        find(WORKINGS, "unacounted")
    with pytest.raises(Unworkable, match=r"Type: lamproom working"):
        find(WORKINGS, "zzzzzz")


def test_inputs_are_typed_as_they_are_shown() -> None:
    entry = find(WORKINGS, "mixture-lel")
    typed = ["gas=methane:80:5.0", "gas=propane:20:2.1"]
    assert typed_of(entry, work_out(entry, typed).inputs) == typed


def test_words_stand_where_nothing_can_be_fitted() -> None:
    few = ["reading=1:5", "reading=2:4", "resolution=1"]
    flat = [f"reading={i}:5" for i in range(6)] + ["resolution=1"]
    for name in ("decay-rate", "effective-changes", "fitted-steady"):
        assert work_out(find(WORKINGS, name), few).result == "cannot tell"
        assert work_out(find(WORKINGS, name), flat).result == "not falling"
    volume = ["volume_of_space=60"]
    assert work_out(find(WORKINGS, "rebound"), few + volume).result == "cannot tell"
    assert work_out(find(WORKINGS, "rebound"), flat + volume).result == "no rise"


def test_a_factor_without_its_sheet_leaves_the_vapor_unknown() -> None:
    entry = find(WORKINGS, "as-vapor")
    assert work_out(entry, ["percent_lel=3", "vapor=toluene", "factor=2.6"]).result == "unknown"
    with pytest.raises(Unworkable, match="is not a date"):
        work_out(entry, ["percent_lel=3", "vapor=t", "factor=2.6", "sheet=s", "sheet_date=March"])


def test_the_entry_figure_of_a_substance_by_any_of_its_names() -> None:
    entry = find(WORKINGS, "entry-figure")
    working = work_out(entry, ["substance=CO", "adopted=OSHA", "adopted=NIOSH TWA"])
    assert working.result == 35
    assert "Stricter limits that were not adopted: HSE TWA." in working.validity
    assert work_out(entry, ["substance=nitrogen"]).result == "none exists"
    assert work_out(entry, ["substance=gasoline"]).result == "not found"
    with pytest.raises(Unworkable, match="“granite” is not in the table"):
        work_out(entry, ["substance=granite"])


def test_the_command_line_lists_explains_works_out_and_refuses(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["working"]) == 0
    listed = capsys.readouterr().out
    assert all(f"  {entry.name} " in listed for entry in WORKINGS)
    assert main(["working", "shift-mean", "--help"]) == 0
    assert "span=MINUTES:LEVEL" in capsys.readouterr().out
    assert main(["working", "shift-mean", "span=120:150", "span=120:75", "span=240:50"]) == 0
    out = capsys.readouterr().out
    assert "  result: 81.250 ppm" in out
    assert "29 CFR 1910.1000(d)(1)(i)" in out
    assert main(["working", "shift-mean", "span=120"]) == 2
    assert "“120” is not whole. Type it as span=MINUTES:LEVEL." in capsys.readouterr().err
    assert main(["working", "nothing-like-it"]) == 2


def test_the_comma_of_a_typed_figure_is_a_decimal_sign() -> None:
    assert work_out(find(WORKINGS, "warm-lel"), ["lel=5,0", "temperature=100"]).result == Decimal("4.571")
