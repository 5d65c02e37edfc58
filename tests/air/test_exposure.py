"""Exposure: against a plain sum over every second, and laws that hold for any shift."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lamproom.air.exposure import Exposure, Stay, exposure, minutes_above
from lamproom.air.leave_by import leave_by, leave_by_short_term
from lamproom.air.series import Series, logged, series
from lamproom.air.working import Unworkable

START = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
ppm = st.integers(0, 900).map(lambda n: Decimal(n) / 10)
seconds = st.integers(0, 5000)
readings = st.dictionaries(seconds, ppm, min_size=1, max_size=12)
every = st.none() | st.integers(1, 900)
spells = st.lists(seconds, min_size=2, max_size=6, unique=True).map(sorted)
WINDOW = 900


def after(s: int | float) -> datetime:
    return START + timedelta(seconds=s)


def air(at: dict[int, Decimal], step: int | None, gas: str = "carbon monoxide") -> Series:
    return series(gas, [(after(s), v) for s, v in at.items()], None if step is None else timedelta(seconds=step))


def stays_of(one: Series, spell: list[int]) -> list[Stay]:
    pairs = zip(spell[::2], spell[1::2], strict=False)
    return [Stay(one, after(a), after(b)) for a, b in pairs]


def level_at(at: dict[int, Decimal], step: int | None, second: int) -> Decimal:
    """The level that counts in the second from ``second`` on, told once more from the rule's words."""
    times = sorted(at)
    if second < times[0]:
        return at[times[0]]
    before = max(t for t in times if t <= second)
    later = [t for t in times if t > second]
    if not later:
        return at[before]
    if step is not None and later[0] - before <= 1.5 * step:
        return at[before]
    return max(at[before], at[later[0]])


def by_the_second(at: dict[int, Decimal], step: int | None, spell: list[int], end: int) -> list[Decimal]:
    inside = [False] * end
    for a, b in zip(spell[::2], spell[1::2], strict=False):
        for s in range(a, min(b, end)):
            inside[s] = True
    return [level_at(at, step, s) if inside[s] else Decimal(0) for s in range(end)]


def rounded(mean: Fraction) -> Decimal:
    return Decimal((mean * 1000 + Fraction(1, 2)).__floor__()) / 1000


@given(readings, every, spells)
def test_means_and_highest_agree_with_a_sum_over_every_second(
    at: dict[int, Decimal], step: int | None, spell: list[int]
) -> None:
    levels = by_the_second(at, step, spell, 5000)
    sums = [Decimal(0)]
    for level in levels:
        sums.append(sums[-1] + level)
    worst = max(sums[i] - sums[max(i - WINDOW, 0)] for i in range(len(sums)))
    found = exposure(stays_of(air(at, step), spell), after(5000))
    assert abs(found.shift.result - rounded(Fraction(sums[-1]) / 28800)) <= Decimal("0.001")
    assert abs(found.short_term.result - rounded(Fraction(worst) / WINDOW)) <= Decimal("0.001")
    ends = {s for s in at if any(a <= s <= b for a, b in zip(spell[::2], spell[1::2], strict=False))}
    assert found.highest == max([*levels, *(at[s] for s in ends)])


@given(readings, every, spells, st.data())
def test_what_was_settled_before_gives_the_same_answer_as_all_of_it_again(
    at: dict[int, Decimal], step: int | None, spell: list[int], data: st.DataObject
) -> None:
    """Readings come one by one, now and then late; each answer starts from the last."""
    order = data.draw(st.permutations(sorted(at))) if data.draw(st.booleans()) else sorted(at)
    one, found, now = air({order[0]: at[order[0]]}, step), None, max(order[0], spell[0])
    for s in order:
        one = one.add(after(s), at[s])
        now = max(now, s) + data.draw(st.sampled_from((0, 0, 1, 400)))
        stays = [Stay(one, after(a), after(b) if b <= now else None) for a, b in _pairs(spell) if a <= now]
        found = exposure(stays, after(now), found)
        fresh = exposure([Stay(_again(one), stay.since, stay.until) for stay in stays], after(now))
        assert _told(found) == _told(fresh)


def _pairs(spell: list[int]) -> list[tuple[int, int]]:
    return list(zip(spell[::2], spell[1::2], strict=False))


def _again(one: Series) -> Series:
    """The same readings put together from nothing."""
    times = [START + timedelta(milliseconds=int(t)) - (START - datetime(1970, 1, 1, tzinfo=UTC)) for t in one.times]
    step = None if one.every is None else timedelta(milliseconds=one.every)
    return logged(times, {one.gas: [Decimal(int(v)) / 1000 for v in one.values]}, step)[one.gas]


def _told(found: Exposure) -> tuple[object, ...]:
    return (found.highest, found.worst_at, found.worst_dose, found.whole_dose, found.unread, found.inside)


@given(readings, every, spells, seconds)
def test_exposure_is_additive_over_a_split_of_time(
    at: dict[int, Decimal], step: int | None, spell: list[int], cut: int
) -> None:
    one = air(at, step)
    whole = exposure(stays_of(one, [0, 5000]), after(5000)).whole_dose
    parts = [exposure([Stay(one, after(a), after(b))], after(5000)).whole_dose for a, b in ((0, cut), (cut, 5000))]
    assert abs(sum(parts) - whole) <= Decimal("0.001")


@given(st.lists(ppm, min_size=2, max_size=8), st.lists(st.integers(1, 900), min_size=8, max_size=8), every, st.data())
def test_a_longer_gap_never_lowers_exposure(
    levels: list[Decimal], steps: list[int], step: int | None, data: st.DataObject
) -> None:
    which, more = data.draw(st.integers(0, len(levels) - 2)), data.draw(st.integers(1, 3000))

    def dose(gaps: list[int]) -> Decimal:
        times = [sum(gaps[:i]) for i in range(len(levels))]
        one = air(dict(zip(times, levels, strict=True)), step)
        return exposure([Stay(one, START, after(times[-1]))], after(times[-1])).whole_dose

    longer = [gap + more if i == which else gap for i, gap in enumerate(steps)]
    assert dose(longer) >= dose(steps)


@given(readings, every, st.integers(1, 4999))
def test_some_15_minutes_hold_at_least_the_mean_of_any_longer_time(
    at: dict[int, Decimal], step: int | None, start: int
) -> None:
    """South Africa, Regulations for Hazardous Chemical Agents 2020, Annexure 3, 96 (as HSE's EH40): a longer mean above
    the short-term limit proves that some 15 minutes were."""
    one = air(at, step)
    found = exposure([Stay(one, START, after(5000))], after(5000))
    part = exposure([Stay(one, after(start), after(5000))], after(5000))
    length = max(5000 - start, WINDOW)
    assert found.short_term.result + Decimal("0.002") >= part.whole_dose * 60 / length


@given(readings, every, ppm)
def test_a_higher_reading_never_lowers_anything(at: dict[int, Decimal], step: int | None, more: Decimal) -> None:
    second = min(at)
    low = exposure([Stay(air(at, step), START, after(5000))], after(5000))
    high = exposure([Stay(air({**at, second: at[second] + more}, step), START, after(5000))], after(5000))
    assert high.whole_dose >= low.whole_dose
    assert high.worst_dose >= low.worst_dose
    assert high.highest >= low.highest


def test_a_gap_takes_the_stricter_neighbor_and_ends_take_the_only_one() -> None:
    one = air({600: Decimal(10), 1200: Decimal(40), 1260: Decimal(4)}, 60)
    found = exposure([Stay(one, START, after(1800))], after(1800))
    # 10 min before at 10, 10 min gap at 40, 1 min at 40, 9 min at 4 after the last
    assert found.whole_dose == 100 + 400 + 40 + 36
    assert found.unread == timedelta(minutes=10 + 10 + 8)
    assert (found.highest, found.worst_dose) == (40, 10 * 40 + 40 + 4 * 10)
    assert found.worst_at == after(1260)
    by_hand = air({600: Decimal(10), 1200: Decimal(40), 1260: Decimal(4)}, None)
    assert exposure([Stay(by_hand, START, after(1800))], after(1800)).unread == timedelta(minutes=30)


def test_time_outside_counts_as_none_and_several_spaces_of_a_day_add_up() -> None:
    tank, vault = air({0: Decimal(20)}, None), air({0: Decimal(60)}, None)
    stays = [Stay(tank, after(0), after(600)), Stay(vault, after(1200), after(1800)), Stay(tank, after(9000))]
    found = exposure(stays, after(9600))
    assert found.whole_dose == 200 + 600 + 200
    assert found.worst_dose == 600
    assert (found.highest, found.inside) == (60, timedelta(minutes=30))


def test_of_two_readings_at_one_moment_the_higher_counts_and_less_than_nothing_is_nothing() -> None:
    one = series("carbon monoxide", [(START, Decimal(9)), (START, Decimal(12)), (after(60), Decimal(-3))])
    found = exposure([Stay(one, START, after(60))], after(60))
    assert (found.whole_dose, found.highest) == (12, 12)
    assert exposure([Stay(one, after(60), after(120))], after(120)).whole_dose == 0


def test_up_to_one_and_a_half_intervals_a_reading_stands_and_beyond_it_is_a_gap() -> None:
    for late, dose in ((90, 15), (91, Decimal("60.667"))):
        one = air({0: Decimal(10), late: Decimal(40)}, 60)
        assert exposure([Stay(one, START, after(late))], after(late)).whole_dose == dose
        grown = air({0: Decimal(10)}, 60).add(after(late), Decimal(40))
        assert exposure([Stay(grown, START, after(late))], after(late)).whole_dose == dose


def test_the_time_without_readings_is_counted_from_the_middle_of_a_gap_too() -> None:
    one = air({0: Decimal(1), 60: Decimal(1), 660: Decimal(1), 720: Decimal(1)}, 60)

    def unread(a: int, b: int) -> float:
        return exposure([Stay(one, after(a), after(b))], after(b)).unread.total_seconds()

    assert [unread(a, b) for a, b in ((0, 60), (0, 360), (300, 360), (360, 700), (0, 720), (720, 780), (720, 840))] == [
        0,
        300,
        60,
        300,
        600,
        0,
        60,
    ]


def test_the_worst_15_minutes_may_begin_at_a_rise_and_end_within_a_level() -> None:
    one = air({0: Decimal(0), 600: Decimal(100), 900: Decimal(10), 1080: Decimal(50), 4000: Decimal(0)}, 5000)
    found = exposure([Stay(one, START, after(5000))], after(5000))
    assert (found.worst_at, found.worst_dose) == (after(1500), 5 * 100 + 3 * 10 + 7 * 50)


def test_the_worst_15_minutes_may_begin_as_someone_goes_in_and_end_as_they_go_out() -> None:
    one = air({0: Decimal(100), 300: Decimal(10), 1500: Decimal(20)}, 5000)
    into = exposure([Stay(one, after(60), after(4000))], after(5000))
    assert (into.worst_at, into.worst_dose) == (after(960), 4 * 100 + 11 * 10)
    out = exposure([Stay(one, after(2000), after(2100)), Stay(one, after(2700), after(4700))], after(5000))
    assert out.worst_dose == 15 * 20
    apart = exposure([Stay(one, after(1500), after(1800)), Stay(one, after(2300), after(2500))], after(5000))
    assert (apart.worst_at, apart.worst_dose) == (after(2400), Decimal("133.333"))


def test_a_late_reading_of_a_space_that_was_left_changes_what_was_settled() -> None:
    """The tank was left after its last reading; then one more is noted there, and the time between is a gap."""
    tank, vault = air({0: Decimal(5)}, None), air({1200: Decimal(1)}, None)
    before = [Stay(tank, after(0), after(600)), Stay(vault, after(1200))]
    first = exposure(before, after(1800))
    later = tank.add(after(660), Decimal(80))
    found = exposure(
        [Stay(later, after(0), after(600)), Stay(vault.add(after(1860), Decimal(1)), after(1200))], after(1860), first
    )
    assert found.whole_dose == 80 * 10 + 1 * 11
    # an answer from a longer life says nothing of a shorter one
    assert exposure(before, after(1800), found).whole_dose == first.whole_dose
    assert exposure(before, after(1800), found).worst_dose == first.worst_dose
    assert exposure(before, after(1800), found).highest == first.highest == 5


def test_before_the_first_reading_only_that_reading_counts_against_a_ceiling() -> None:
    """20 ppm noted after an hour inside, 50 ppm an hour later: the second hour is a gap and over, the first is not."""
    found = minutes_above([Stay(air({3600: Decimal(20), 7200: Decimal(50)}, None), after(0))], Decimal(35), after(7200))
    assert found.result == 60


def test_of_equal_windows_the_first_is_told_however_often_it_was_asked() -> None:
    one = air({0: Decimal(40)}, None)
    stays = [Stay(one, after(0))]
    before = None
    for asked in (1200, 1500, 3000):
        before = exposure(stays, after(asked), before)
    assert before is not None
    assert before.worst_at == exposure(stays, after(3000)).worst_at == after(900)


def test_time_above_a_ceiling_in_all_and_in_any_window() -> None:
    """29 CFR 1910.1000 Table Z-2 allows some excursions for 10 min in a shift, others for 5 min in any 2 or 3 h."""
    levels = {0: "5", 600: "26", 900: "25", 7200: "30", 7500: "5"}
    one = air({s: Decimal(v) for s, v in levels.items()}, 7200)
    stays = [Stay(one, START, after(28800))]
    assert minutes_above(stays, Decimal(25), after(28800)).result == 10
    assert minutes_above(stays, Decimal(25), after(28800), timedelta(hours=1)).result == 5
    assert minutes_above(stays, Decimal(25), after(28800), timedelta(hours=2)).result == 10
    assert minutes_above(stays, Decimal(30), after(28800)).result == 0
    windows = [minutes_above(stays, Decimal(25), after(28800), w).inputs[1].value for w in (None, timedelta(hours=1))]
    assert windows == ["480.000", "60.000"]
    later = [Stay(one, after(60), after(900)), Stay(one, after(7200))]
    assert minutes_above(later, Decimal(25), after(28800)).inputs[1].value == "479.000"


def test_leave_by_is_when_the_limit_is_reached_at_the_last_level() -> None:
    one = air({0: Decimal(10), 3600: Decimal(70)}, 3600)
    stays = [Stay(one, START)]
    # 60 min at 10 are in: (35 x 480 - 600) / 70 = 231.4 min more
    found = leave_by(stays, after(3600), Decimal(35))
    assert (found.working.result, found.at) == (231, after(3600 + 231 * 60))
    # the last 15 min held 150; each minute takes 10 out and brings 70: 450 - 150 = 300 = 60 x 5
    short = leave_by_short_term(stays, after(3600), Decimal(30))
    assert (short.working.result, short.at) == (5, after(3900))
    assert leave_by_short_term(stays, after(3600), Decimal(10)).working.result == 0
    never = leave_by_short_term(stays, after(3600), Decimal(71))
    assert (never.working.result, never.at) == ("not reached at this level", None)
    assert [one.value for one in short.working.inputs] == ["150.000", "70", "30", "15"]
    out = leave_by([Stay(one, START, after(600))], after(3600), Decimal(35))
    assert out.at is None


def test_the_limit_may_be_reached_while_old_high_air_is_still_within_the_15_minutes() -> None:
    """The last 15 min hold 5 x 100 + 5 x 40 = 700, and 40 more come each minute while nothing yet goes out."""
    one = air({0: Decimal(0), 600: Decimal(100), 900: Decimal(40)}, 600)
    found = leave_by_short_term([Stay(one, START)], after(1200), Decimal(54))
    assert (found.working.result, found.at) == (2, after(1320))  # (810 - 700) / 40 = 2.75 min
    never = leave_by_short_term([Stay(one, START)], after(1200), Decimal(61))
    assert never.at is None  # at most 700 + 5 x 40 = 900, a mean of 60
    exactly = leave_by_short_term([Stay(one, START)], after(1200), Decimal(60))
    assert exactly.working.result == 5


@given(readings, ppm.filter(lambda v: v > 0), st.integers(0, 1200))
def test_by_the_minute_to_leave_the_15_minute_limit_is_not_yet_passed_and_a_minute_later_it_is(
    at: dict[int, Decimal], limit: Decimal, more: int
) -> None:
    one = air(at, None)
    now = max(at) + more
    stays = [Stay(one, START)]
    told = leave_by_short_term(stays, after(now), limit)

    def mean(at_second: int) -> Decimal:
        upto = [Stay(one, START, after(at_second))]
        window = exposure(upto, after(at_second)).whole_dose
        before = exposure([Stay(one, START, after(max(at_second - WINDOW, 0)))], after(at_second)).whole_dose
        return (window - before) / 15

    slack = Decimal("0.001")
    if told.at is None:
        assert all(mean(now + minute * 60) < limit + slack for minute in range(40))
    else:
        minutes = int(told.working.result)
        assert mean(now + minutes * 60) <= limit + slack or minutes == 0
        assert max(mean(now + minutes * 60 + s) for s in range(61)) >= limit - slack


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (lambda: series("a", []), "no readings"),
        (lambda: air({0: Decimal("NaN")}, None), "no reading"),
        (lambda: air({0: Decimal(1_000_001)}, None), "over 1,000,000 ppm"),
        (lambda: exposure([], START), "Nobody was inside"),
        (lambda: exposure([Stay(air({0: Decimal(1)}, None), after(60))], START), "Nobody was inside"),
        (lambda: exposure([Stay(air({0: Decimal(1)}, None, g), START) for g in "ab"], after(60)), "different gases"),
    ],
)
def test_what_cannot_be_worked_out_is_told(wrong: object, says: str) -> None:
    with pytest.raises(Unworkable, match=says):
        wrong()  # type: ignore[operator]
