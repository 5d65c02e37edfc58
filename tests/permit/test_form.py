"""Forms are data: stricter passes, looser is refused with its line, what cannot be meant is refused before it is used.

Sources: 29 CFR 1910.146(b) (oxygen, flammable), 1910.1000 Table Z-1 (carbon monoxide 50 ppm) and Z-2 (hydrogen sulfide
ceiling 20 ppm), 1910.146 Appendix B (points about 4 ft apart), 1910.146(e)(6) (kept at least a year).
"""

from __future__ import annotations

import pytest
from tests.permit.life import FORM, Life, altered

from lamproom.permit.form import FormRefused, fingerprint, read_form
from lamproom.permit.obstacles import STAGES, Stage
from lamproom.permit.regime import US_GENERAL_INDUSTRY


def refusal(old: str, new: str) -> tuple[str, int]:
    """What the form is refused with, and the number of the line that was changed."""
    text = altered(old, new)
    with pytest.raises(FormRefused) as refused:
        read_form(text)
    lines = text.splitlines()
    return refused.value.why.say(), next(i for i, line in enumerate(lines, 1) if new.splitlines()[-1] in line)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('low = "19.5"', 'low = "19.4"'),
        ('high = "23.5"', 'high = "23.6"'),
        ('unit = "% LEL"\nhigh = "10"', 'unit = "% LEL"\nhigh = "10.1"'),
        ('high = "10"                   # tightened', 'high = "20.1" # tightened'),
        ('high = "35"', 'high = "51"'),
    ],
)
def test_a_looser_limit_is_refused_and_its_gas_and_line_are_named(old: str, new: str) -> None:
    said, line = refusal(old, new)
    named = [int(word.strip(":")) for word in said.replace("Line", "").split() if word.strip(":").isdigit()]
    assert any(0 <= line - n <= 4 for n in named), (said, line)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("under_h = 24", "under_h = 25"),
        ('spacing_m = "1.2"', 'spacing_m = "1.3"'),
        ('top_m = "0.3"', 'top_m = "1.3"'),
        ('above_m = "0.3"', 'above_m = "1.3"'),
        ("keep_days = 365", "keep_days = 364"),
    ],
)
def test_every_looser_figure_is_refused_with_its_line(old: str, new: str) -> None:
    said, line = refusal(old, new)
    assert f"Line {line}" in said


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('low = "19.5"', 'low = "20.0"'),
        ('high = "23.5"', 'high = "22.0"'),
        ('unit = "% LEL"\nhigh = "10"', 'unit = "% LEL"\nhigh = "5"'),
        ('high = "35"', 'high = "25"'),
        ("fails_at_low = false", "fails_at_low = true"),
        ("under_h = 24", "under_h = 12"),
        ('spacing_m = "1.2"', 'spacing_m = "0.9"'),
        ("keep_days = 365", "keep_days = 10957"),
        ("every_min = 15", "every_min = 5"),
        ('high = "35"', 'high = "49"'),
    ],
)
def test_a_stricter_form_and_one_at_the_law_pass(old: str, new: str) -> None:
    assert read_form(altered(old, new))


def test_the_law_itself_is_a_form_that_passes() -> None:
    text = altered('high = "35"', 'high = "50"', altered('high = "10"                   #', 'high = "20" #'))
    assert read_form(text)


def test_all_that_is_looser_is_said_at_once() -> None:
    text = altered("under_h = 24", "under_h = 48", altered("keep_days = 365", "keep_days = 30"))
    with pytest.raises(FormRefused) as refused:
        read_form(text)
    assert len(refused.value.faults) == 2


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('low = "19.5"', 'low = "24.0"'),  # above its high figure
        ('high = "35"', 'lel_vol = "35"'),  # no figure at all
        ('high = "35"', 'high = "-1"'),
        ('high = "35"', 'high = "1e9"'),
        ('unit = "% LEL"', 'unit = "% vol"'),
        ('day_start = "06:00"', 'day_start = "25:00"'),
        ('day_start = "06:00"', 'day_start = "six"'),
        ('top_m = "0.3"', 'top_m = "0.0"'),
        ('above_m = "0.3"', 'above_m = "0"'),
        ("every_min = 15", "every_min = 0"),
        ("bound_intervals = 2", "bound_intervals = 0"),
        ("flushes = 1", "flushes = -1"),
        ('regime = "us-general-industry"', 'regime = "none"'),
        ("extend = true", "extended = true"),
        ("[points]", "[points"),
        ('gas = "carbon-monoxide"', 'gas = "hydrogen-sulfide"'),  # one twice, one missing
    ],
)
def test_a_form_that_cannot_be_meant_is_refused_in_words_before_any_permit_is_opened(old: str, new: str) -> None:
    said, _line = refusal(old, new)
    assert said.startswith("The form ")


@pytest.mark.parametrize(
    "item",
    ["observed", "retrieval", "communication", "equipment", "other-permits", "other-work"],
)
def test_a_form_that_does_not_ask_what_the_rule_asks_is_refused(item: str) -> None:
    """29 CFR 1910.146(d)(5)(iv), (k)(3), (f)(12), (d)(4), (f)(15), (d)(11), (d)(3)(v)."""
    said, _line = refusal(f'id = "{item}"', f'id = "{item}-renamed"')
    assert item in said
    said, _line = refusal(f'id = "{item}"', f'only_if = "different-today=yes"\nid = "{item}"')
    assert item in said, "asked only sometimes is not asked"


@pytest.mark.parametrize(("item", "condition"), US_GENERAL_INDUSTRY.conditional)
def test_an_item_of_the_rule_is_asked_wherever_its_fact_holds_and_not_more_seldom(item: str, condition: str) -> None:
    head, tail = FORM.split(f'id = "{item}"', 1)
    for old, new in (
        (f'id = "{item}"', f'id = "{item}-renamed"'),
        (f'only_if = "{condition}"', f'only_if = "{condition}, different-today=yes"'),
        ('expect = "yes"', 'expect = "any"'),
    ):
        part = f'id = "{item}"' + tail
        assert old in part
        with pytest.raises(FormRefused) as refused:
            read_form(head + part.replace(old, new, 1))
        assert item in refused.value.why.say(), new


def test_a_form_that_takes_any_answer_to_a_question_of_the_rule_is_refused() -> None:
    said, _line = refusal(
        'question = "Could the entrants watch the tests, and were they shown the results?"\nexpect = "yes"',
        'question = "Could the entrants watch the tests, and were they shown the results?"\nexpect = "any"',
    )
    assert "observed" in said


def test_a_figure_from_memory_blocks_authorizing_until_it_is_confirmed() -> None:
    text = altered('high = "35"', 'from_memory = true\nhigh = "35"')
    assert [line.gas for line in read_form(text).memory_figures] == ["carbon-monoxide"]
    life = Life(form=text).ready()
    life.figures_confirmed = False
    assert life.codes(Stage.AUTHORISE) == {"figures-unconfirmed"}
    assert "figures-unconfirmed" not in life.codes(Stage.STAY)


def test_a_confirmation_names_one_text_and_no_other() -> None:
    assert fingerprint(FORM) != fingerprint(FORM + "\n")


def test_a_form_adds_stages_and_never_takes_one_away() -> None:
    text = FORM + '\n[tighten]\nretest-late = ["stay"]\nrescue-over = ["stay"]\nstopped = ["enter"]\n'
    life = Life(form=text).inside().pass_time(17, 1)
    late = next(o for o in life.found() if o.code == "retest-late")
    assert late.stages == {Stage.ENTER, Stage.STAY}
    assert all(STAGES[o.code] <= o.stages for o in life.found())
