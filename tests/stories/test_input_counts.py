"""What it costs a person to stand a stop down, to come back from a break, to issue a permit anew after a cancel.

Counted in the real window by the same hands as the day: a committed field, a choice or a press is one input; air
values and ink are counted apart, as in the story of the day.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from tests.stories.lives import DAY_TABLE, in_file
from tests.stories.window_life import WindowLife

from lamproom.office import replay
from lamproom.office.shift_table import Row, rows_of

READING = re.compile(r"(workbook\.air-test\.|watch\.reading)")
BY_HAND = {
    *("open permit", "plan hours", "isolate point", "open space", "state level", "start fan", "try call"),
    *("name same", "brief", "authorise"),
}


@dataclass(frozen=True, slots=True)
class Counted:
    """The window after the day's stop, with what each row cost."""

    life: WindowLife
    rows: tuple[Row, ...]


def day() -> list[Row]:
    return list(rows_of(DAY_TABLE))


@pytest.fixture(scope="module")
def resumed(qapp: object, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Counted]:
    """Permit A from the break to the next one in after the stop, by hand."""
    shift = in_file(tmp_path_factory.mktemp("resumed"))
    replay.set_up(shift)
    rows = [row for row in day() if row.get("permit", "A") == "A"]
    first = next(at for at, row in enumerate(rows) if row.act == "begin break")
    last = next(at for at, row in enumerate(rows) if row.act == "relieve")
    for row in rows[:first]:
        replay.live_row(shift, row)
    life = WindowLife(shift)
    life.watch(rows[first])  # the attendant is at the Watch already
    for row in rows[first:last]:
        life.live(row)
    yield Counted(life, tuple(rows[first:last]))
    life.close()


def cost(counted: Counted, acts: set[str], after: str, until: str) -> list[str]:
    """Inputs of these acts between two acts, both included; sets of readings are the retest."""
    rows = list(counted.rows)
    begin = next(at for at, row in enumerate(rows) if row.act == after)
    end = next(at for at, row in enumerate(rows) if at > begin and row.act == until)
    return [x for row in rows[begin : end + 1] if row.act in acts for x in counted.life.counts[row.line]]


def test_a_stop_is_stood_down_with_at_most_ten_inputs_beside_the_retest(resumed: Counted) -> None:
    """The finding and the endorsement, each signed; ways from place to place count."""
    inputs = cost(resumed, {"determine", "reendorse"}, "determine", "reendorse")
    assert len(inputs) <= 10, inputs


def test_a_break_and_the_return_cost_at_most_twelve_inputs_beside_the_retest(resumed: Counted) -> None:
    inputs = cost(resumed, {"begin break", "end break", "reendorse"}, "begin break", "reendorse")
    assert len(inputs) <= 12, inputs


AGAIN = """
11:00:00 | Mara | open permit | permit: D; space: S-01
11:01:00 | Mara | plan hours | permit: D; ends: 14:00
11:02:00 | Mara | answer | permit: D; item: different-today; answer: no
11:02:10 | Mara | answer | permit: D; item: other-work; answer: no
11:02:20 | Mara | answer | permit: D; item: other-permits; answer: no
11:03:00 | Mara | hold hazard | permit: D; hazard: lack-of-oxygen; as-evaluated: yes
11:03:10 | Mara | hold hazard | permit: D; hazard: hydrogen-sulfide; as-evaluated: yes
11:03:20 | Mara | hold hazard | permit: D; hazard: methane; as-evaluated: yes
11:03:30 | Mara | hold hazard | permit: D; hazard: inflow; as-evaluated: yes
11:03:40 | Mara | hold hazard | permit: D; hazard: pumps; as-evaluated: yes
11:03:50 | Mara | hold hazard | permit: D; hazard: fall; as-evaluated: yes
11:04:00 | Mara | isolate point | permit: D; point: pump-1; owner: Teo; dead: yes; verified-by: Oskar
11:04:30 | Mara | isolate point | permit: D; point: pump-2; owner: Teo; dead: yes; verified-by: Oskar
11:05:00 | Mara | assign instrument | permit: D; instrument: 11; duty: worn
11:05:10 | Mara | assign instrument | permit: D; instrument: 07; duty: test; hose: 6
11:05:30 | Mara | confirm rescue | permit: D; answered-by: duty officer, Bend; good-until: 15:00; minutes: 14
11:06:00 | Mara | try call | permit: D; answered-by: desk 2; seconds: 20
11:06:10 | Mara | answer | permit: D; item: retrieval; as-evaluated: yes
11:06:20 | Mara | answer | permit: D; item: communication; as-evaluated: yes
11:06:25 | Mara | answer | permit: D; item: equipment; as-evaluated: yes
11:06:30 | Nia | test hose | permit: D; instrument: 07; stopped-s: 4
11:08:00 | Nia | take readings | permit: D; phase: upwind; with: 07; \
oxygen: 20.9; flammable: 0; hydrogen-sulfide: 0; carbon-monoxide: 0
11:10:00 | Nia | take readings | permit: D; phase: through-lid; with: 07; lowered: 11:08:45; \
oxygen: 20.9; flammable: 0; hydrogen-sulfide: 0; carbon-monoxide: 0
11:10:30 | Nia | open space | permit: D
11:11:00 | Nia | state level | permit: D; depth: 5.1
11:11:30 | Nia | start fan | permit: D
11:12:30 | Nia | take readings | permit: D; phase: duct; with: 07; \
oxygen: 20.9; flammable: 0; hydrogen-sulfide: 0; carbon-monoxide: 0
11:16:00 | Nia | take readings | permit: D; phase: ventilating; at: 0.3; with: 07; lowered: 11:14:45; \
oxygen: 20.9; flammable: 0; hydrogen-sulfide: 0; carbon-monoxide: 0
11:18:00 | Nia | take readings | permit: D; phase: ventilating; at: 1.4; with: 07; lowered: 11:16:45; \
oxygen: 20.9; flammable: 0; hydrogen-sulfide: 0; carbon-monoxide: 0
11:20:00 | Nia | take readings | permit: D; phase: ventilating; at: 2.5; with: 07; lowered: 11:18:45; \
oxygen: 20.9; flammable: 0; hydrogen-sulfide: 0; carbon-monoxide: 0
11:22:00 | Nia | take readings | permit: D; phase: ventilating; at: 3.6; with: 07; lowered: 11:20:45; \
oxygen: 20.9; flammable: 0; hydrogen-sulfide: 1; carbon-monoxide: 0
11:24:00 | Nia | take readings | permit: D; phase: ventilating; at: 4.8; with: 07; lowered: 11:22:45; \
oxygen: 20.9; flammable: 0; hydrogen-sulfide: 1; carbon-monoxide: 0
11:25:00 | Nia | name same | permit: D
11:27:00 | Nia | answer | permit: D; item: observed; answer: yes; found: Teo Amadi watched
11:27:30 | Mara | brief | permit: D; people: Teo, Kit, Lena, Oskar, Nia
11:29:00 | Mara | authorise | permit: D
"""


def again_by_hand(life: WindowLife, row: Row) -> None:
    """The rows that cost less because the permit before described them."""
    hands, shift = life.hands, life.shift
    before, began = len(hands.inputs), hands.seconds
    life._turn_to(row)
    if row.act == "open permit":
        hands.press("watch.again")
        shift.permits["D"] = shift.office.ids("permit")[-1]
    elif row.act == "plan hours":
        life.sheet(row, "space")
        hands.write("workbook.space.ends", row["ends"])
    elif row.act == "brief":  # each signs in ink where the sheet went on to; the supervisor witnesses
        for seed, name in enumerate(row["people"].split(",")):
            hands.draw(f"workbook.people.ink.{shift.person(name.strip())}", seed + row.line)
        hands.press("workbook.people.brief")
    elif row.act == "authorise":  # signed with the supervisor's code, whoever sits at the desk
        hands.draw("workbook.review.ink", row.line)
        hands.write("workbook.review.code", shift.code(shift.person(row.who)))
        hands.press_and_answer("workbook.review.authorise", "question.yes")
        hands.wait_until(lambda: shift.office.permit(shift.permits["D"]).authorised is not None)
    elif row.act == "isolate point":
        life.sheet(row, "isolation")
        second = shift.person(row["verified-by"])
        hands.press(f"workbook.isolation.{row['point']}.dead.yes")
        hands.pick(f"workbook.isolation.{row['point']}.verified", lambda value, _words: value == second)
    elif row.act == "name same":
        life.sheet(row, "people")
        hands.press("workbook.people.same")
    elif row.act == "state level":
        life.sheet(row, "isolation")
        hands.write("workbook.isolation.level", row["depth"])
    elif row.act == "open space":
        life.sheet(row, "isolation")
        hands.press("workbook.isolation.open.record")
    elif row.act == "start fan":
        life.sheet(row, "isolation")
        hands.press("workbook.isolation.fan.start")
    elif row.act == "try call":
        life.sheet(row, "rescue")
        hands.write("workbook.rescue.call-answered-by", row["answered-by"])
        hands.write("workbook.rescue.seconds", row["seconds"])
    life.counts[row.line] = hands.inputs[before:]
    life.times[row.line] = hands.seconds - began


@pytest.fixture(scope="module")
def renewed(qapp: object, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Counted]:
    """Permit A is canceled after its stop; the same work begins again under a new permit that cites it."""
    shift = in_file(tmp_path_factory.mktemp("renewed"))
    replay.set_up(shift)
    rows = [row for row in day() if row.get("permit", "A") == "A"]
    last = next(at for at, row in enumerate(rows) if row.act == "determine")
    for row in rows[:last]:
        replay.live_row(shift, row)
    canceled = "10:48:00 | Mara | determine | permit: A; finding: prohibited-condition; reason: gas at the sill"
    life = WindowLife(shift)
    found = next(iter(rows_of(canceled)))
    life.watch(found)
    life.live(found)
    table = tuple(rows_of(AGAIN.replace("\\\n", "")))
    for row in table:
        again_by_hand(life, row) if row.act in BY_HAND else life.live(row)
    yield Counted(life, table)
    life.close()


def test_the_new_permit_cites_the_canceled_one_and_is_authorized(renewed: Counted) -> None:
    shift = renewed.life.shift
    permit = shift.office.permit(shift.permits["D"])
    assert permit.opened.renews == shift.permits["A"]
    assert permit.purpose == shift.office.permit(shift.permits["A"]).purpose
    assert permit.authorised is not None


def test_a_permit_is_issued_anew_with_at_most_forty_inputs(renewed: Counted) -> None:
    """Every input from opening to the signature but figures of the air and ink: also each way from sheet to sheet and
    from person to person."""
    inputs = [x for row in renewed.rows for x in renewed.life.counts[row.line] if not READING.search(x)]
    assert len(inputs) <= 40, (len(inputs), inputs)


def test_a_permit_is_issued_anew_within_four_minutes_of_a_person(renewed: Counted) -> None:
    """By the keystroke-level model, the figures of the air and every signature among them; waits apart."""
    seconds = sum(renewed.life.times[row.line] for row in renewed.rows)
    assert seconds <= 4 * 60, f"{seconds:.0f} s"
