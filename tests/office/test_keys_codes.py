"""Which codes may be chosen, and how wrong ones are counted."""

import random
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.office.codes import Tries, together, tries_from, tries_text, wait_after, weak

NOW = datetime(2031, 5, 6, 12, 0, tzinfo=UTC)


def ids(code, minimum=6, avoid=()):
    return [reason.id for reason in weak(code, minimum, avoid)]


@pytest.mark.parametrize(
    ("code", "reason"),
    [
        ("40718", "keys.code_short"),
        ("", "keys.code_short"),
        ("7" * 40 + "4813" * 30, "keys.code_long"),
        ("777777", "keys.code_one_character"),
        ("474477", "keys.code_one_character"),
        ("417417", "keys.code_repeat"),
        ("123456", "keys.code_run"),
        ("654321", "keys.code_run"),
        ("abcdef", "keys.code_run"),
        ("qwerty", "keys.code_run"),
        ("123987", "keys.code_run"),
        ("147258", "keys.code_run"),
        ("031179", "keys.code_date"),
        ("311279", "keys.code_date"),
        ("790311", "keys.code_date"),
        ("290200", "keys.code_date"),
        ("03111979", "keys.code_date"),
        ("31121979", "keys.code_date"),
        ("1979-03-11", "keys.code_date"),
        ("12/31/1999", "keys.code_date"),
        ("Password", "keys.code_common"),
        ("permit2024", "keys.code_common"),
        (" kiln47x", "keys.code_spaces"),
        ("kiln\u200b47x", "keys.code_spaces"),
    ],
)
def test_a_code_that_is_guessed_first_is_refused_with_its_reason(code, reason):
    assert reason in ids(code)


@pytest.mark.parametrize("code", ["481730", "70 41 95", "lid-4-otter", "kranichfeld", "940817263", "héron47", "320179"])
def test_an_ordinary_code_is_taken(code):
    assert ids(code) == []


def test_the_minimum_is_the_one_given():
    assert ids("481730", 8) == ["keys.code_short"]
    assert "8" in weak("481730", 8)[0].say()


@pytest.mark.parametrize("code", ["rosamund7", "7Rosamund", "xx00417x", "rosa-mund-1", "lee4813"])
def test_a_code_with_its_owners_name_or_badge_is_refused(code):
    assert "keys.code_personal" in ids(code, avoid=("Rosamund Lee", "0041-7"))


def test_a_short_name_inside_a_longer_word_is_chance():
    assert ids("planning7", avoid=("Ann Ott",)) == []


def test_all_reasons_are_said_and_the_code_is_not():
    reasons = weak("111", 8, ())
    said = together(reasons).say()
    assert len(reasons) == 2 and all(reason.say() in said for reason in reasons)
    assert "111" not in said and "safe" not in said.lower()


def test_at_most_one_in_eight_random_codes_of_six_digits_is_refused():
    """A list that refuses too much drives people to write the code on the lid. Dates alone are some 9 in 100."""
    draw = random.Random(6)
    refused = sum(bool(weak(f"{draw.randrange(10**6):06}", 6)) for _ in range(4000))
    assert refused <= 500


@given(st.text(), st.integers(1, 12), st.lists(st.text(), max_size=3))
def test_any_text_is_judged_without_a_fault(code, minimum, avoid):
    for reason in weak(code, minimum, avoid):
        assert reason.say()


def test_waits_begin_after_five_tries_double_and_end_at_an_hour():
    seconds = [int(wait_after(n).total_seconds()) for n in range(15)]
    assert seconds == [0, 0, 0, 0, 0, 30, 60, 120, 240, 480, 960, 1920, 3600, 3600, 3600]


def test_a_wait_ends_at_its_second_and_not_before():
    tries = Tries(5, NOW)
    assert tries.wait(NOW + timedelta(seconds=29.9)) > timedelta(0)
    assert tries.wait(NOW + timedelta(seconds=30)) == timedelta(0)


@given(st.integers(5, 9), st.lists(st.integers(-10_000_000, 0), min_size=1, max_size=5))
def test_a_clock_set_back_never_shortens_a_wait(failures, jumps):
    """Set back by any amounts, with a try at each: the wait that remains is the whole one, or what the first left."""
    tries = Tries(failures, NOW)
    whole = wait_after(failures)
    now = NOW
    for jump in jumps:
        now += timedelta(seconds=jump)
        tries = tries.seen(now)
        assert tries.wait(now) >= whole
    assert tries.wait(now + whole / 2) >= whole / 2
    assert tries.wait(NOW + whole / 2) >= whole / 2  # set right again, the old wait still holds


def test_a_clock_once_years_ahead_does_not_lock_a_person_out_for_years():
    tries = Tries(6, NOW.replace(year=2041)).seen(NOW)
    assert tries.wait(NOW + timedelta(seconds=59)) > timedelta(0)
    assert tries.wait(NOW + timedelta(seconds=60)) == timedelta(0)


@given(
    st.integers(0, 10),
    st.none() | st.datetimes(timezones=st.just(UTC)),
    st.none() | st.datetimes(timezones=st.just(UTC)),
)
def test_tries_written_and_read_are_the_same(failures, last, again):
    tries = Tries(failures, last, again)
    assert tries_from(tries_text(tries)) == tries


@given(st.text())
def test_a_count_that_cannot_be_read_is_off_and_never_a_fresh_start(text):
    assert tries_from(text).off or text[:1].isdigit()
    assert tries_from(None) == Tries()
