"""What every store promises, whatever it is made of: the same suite for all."""

from __future__ import annotations

import dataclasses

import pytest
from tests.record.signing import Pen, envelope, page, run

from lamproom.record.certificates import certificates_of
from lamproom.record.chain import verify
from lamproom.record.envelope import seal
from lamproom.record.journal import GENESIS, Head, Journal, KeyRow
from lamproom.record.refusals import Overtaken, RepeatedOtherwise


def test_a_new_journal_is_empty(journal: Journal) -> None:
    assert journal.head() == Head(0, GENESIS)
    assert journal.tail("permit/1") == (0, GENESIS)
    assert list(journal.entries()) == []
    assert journal.streams() == ()
    assert journal.file("00") is None


def test_what_was_appended_is_read_byte_for_byte(journal: Journal, pen: Pen) -> None:
    events = run(pen, 3)
    stored = [entry for event in events for entry in journal.append([event])]
    assert [entry.sealed for entry in journal.entries()] == events
    assert list(journal.entries()) == stored == list(journal.stream("permit/1"))
    assert journal.tail("permit/1") == (3, events[-1].hash)
    assert journal.head() == Head(3, stored[-1].chain)


def test_numbers_run_over_all_streams_without_a_gap(journal: Journal, pen: Pen) -> None:
    for first, second in zip(run(pen, 3), run(pen, 3, "instrument/7"), strict=True):
        journal.append([first])
        journal.append([second])
    assert [entry.number for entry in journal.entries()] == [1, 2, 3, 4, 5, 6]
    assert verify(journal.entries(), certificates_of([pen.row()])) == []


def test_reading_goes_on_from_where_it_stopped(journal: Journal, pen: Pen) -> None:
    for event in run(pen, 5):
        journal.append([event])
    assert [entry.number for entry in journal.entries(after=3)] == [4, 5]
    assert [entry.sealed.version for entry in journal.stream("permit/1", after=4)] == [5]
    assert list(journal.entries(after=5)) == []


def test_streams_are_named_in_the_order_they_began(journal: Journal, pen: Pen) -> None:
    for stream in ("permit/2", "instrument/7", "permit/1", "permit_1", "Permit/9", "permit/%"):
        journal.append(run(pen, 1, stream))
    assert journal.streams("permit/") == ("permit/2", "permit/1", "permit/%")
    assert journal.streams()[0:2] == ("permit/2", "instrument/7")


def test_an_act_is_stored_whole_over_several_streams(journal: Journal, pen: Pen) -> None:
    events = [*run(pen, 2, act="a-1"), *run(pen, 1, "instrument/7", act="a-1")]
    stored = journal.append(events)
    assert [entry.sealed for entry in stored] == events
    assert journal.act("a-1") == stored
    assert journal.act("a-2") == ()


def test_an_act_repeated_is_stored_once(journal: Journal, pen: Pen) -> None:
    """A second press makes new events with the same act id; the first ones are returned."""
    first = journal.append(run(pen, 2, act="a-1"), [page()])
    again = journal.append(run(pen, 2, act="a-1", data={"pressed": "twice"}), [page(b"another")])
    assert again == first
    assert len(list(journal.entries())) == 2
    assert journal.files() == (page().sha256,)


def test_an_act_repeated_with_other_contents_is_refused(journal: Journal, pen: Pen) -> None:
    journal.append(run(pen, 1, act="a-1"))
    with pytest.raises(RepeatedOtherwise) as refused:
        journal.append(run(pen, 1, "permit/2", act="a-1"))
    assert "(a-1)" in str(refused.value)
    assert journal.streams() == ("permit/1",)


def test_a_writer_who_was_overtaken_is_told_and_stores_nothing(journal: Journal, pen: Pen) -> None:
    first = run(pen, 1)[0]
    journal.append([first])
    late = [*run(pen, 1, "instrument/7", act="late"), *run(pen, 1, act="late")]
    with pytest.raises(Overtaken) as refused:
        journal.append(late, [page()])
    assert str(refused.value).startswith("Not recorded: permit/1 has changed. You saw 0 entries, it now has 1.")
    assert [entry.sealed for entry in journal.entries()] == [first]
    assert journal.files() == ()
    assert journal.act("late") == ()


def test_a_version_too_far_ahead_is_refused(journal: Journal, pen: Pen) -> None:
    with pytest.raises(Overtaken):
        journal.append([run(pen, 2)[1]])


def test_another_past_at_the_right_version_is_refused(journal: Journal, pen: Pen) -> None:
    journal.append(run(pen, 1))
    with pytest.raises(Overtaken):
        journal.append([seal(envelope(version=2, previous=bytes([1] * 32)), pen)])
    assert journal.tail("permit/1")[0] == 1


def test_faults_of_the_caller_are_raised_as_such(journal: Journal, pen: Pen) -> None:
    event = run(pen, 1)[0]
    for events, files in (
        ([], []),
        ([event, run(pen, 1, "instrument/7")[0]], []),
        ([dataclasses.replace(event, kind="authorised")], []),
        ([dataclasses.replace(event, hash=bytes(32))], []),
        ([event], [dataclasses.replace(page(), content=b"other")]),
    ):
        with pytest.raises(ValueError, match=r"append|signed|hash"):
            journal.append(events, files)
    assert journal.head().number == 0


def test_a_page_is_kept_with_its_act(journal: Journal, pen: Pen) -> None:
    journal.append(run(pen, 1), [page()])
    assert journal.file(page().sha256) == page()
    assert journal.files() == (page().sha256,)


def test_the_same_page_filed_twice_is_kept_once(journal: Journal, pen: Pen) -> None:
    journal.append(run(pen, 1), [page(b"b"), page(b"a")])
    journal.append(run(pen, 1, "permit/2"), [page(b"b")])
    assert journal.files() == (page(b"b").sha256, page(b"a").sha256)


def test_any_writing_is_kept(journal: Journal, pen: Pen) -> None:
    text = "\u201cNorth\u201d \u00b0 \u2265 \u4e0b\u6c34 \U0001f9ea r\u00e9 \u202e'; DROP TABLE events; -- \x00 end"
    journal.append(run(pen, 1, "permit/\u00fcber ' \" ;", data={"note": text}))
    journal.put_draft("permit/1", "note", text)
    journal.put_personal("p-17", {"name": text})
    assert journal.streams() == ("permit/\u00fcber ' \" ;",)
    assert journal.drafts("permit/1") == {"note": text}
    assert journal.personal() == {"p-17": {"name": text}}
    assert verify(journal.entries(), certificates_of([pen.row()])) == []


def test_a_draft_lives_until_it_is_dropped(journal: Journal) -> None:
    journal.put_draft("permit/1", "work", "Rep")
    journal.put_draft("permit/1", "work", "Replace float")
    journal.put_draft("permit/1", "note", "x")
    journal.put_draft("permit/2", "work", "other")
    journal.drop_draft("permit/1", "note")
    journal.drop_draft("permit/1", "never there")
    assert journal.drafts("permit/1") == {"work": "Replace float"}
    assert journal.drafts("permit/3") == {}


def test_keys_stand_in_the_order_they_came_and_are_replaced_by_id(journal: Journal) -> None:
    first, second = KeyRow("b", "station", b"1", None), KeyRow("a", "p-17", b"2", b"sealed")
    journal.put_key(first)
    journal.put_key(second)
    journal.put_key(KeyRow("b", "station", b"3", b"now sealed"))
    assert journal.keys() == (KeyRow("b", "station", b"3", b"now sealed"), second)


def test_what_is_personal_is_replaced_whole(journal: Journal) -> None:
    journal.put_personal("p-17", {"name": "R. Example", "phone": "555-0100"})
    journal.put_personal("p-17", {"name": "R. Sample"})
    assert journal.personal() == {"p-17": {"name": "R. Sample"}}


def test_a_setting_is_replaced(journal: Journal) -> None:
    journal.put_setting("theme", "dark")
    journal.put_setting("theme", "sun")
    assert journal.settings() == {"theme": "sun"}


def test_what_is_read_cannot_be_changed_behind_the_journal(journal: Journal) -> None:
    journal.put_setting("theme", "dark")
    with pytest.raises(TypeError):
        journal.settings()["theme"] = "sun"  # type: ignore[index]


@pytest.mark.parametrize(
    ("question", "found"),
    [
        ("wet well", ("permit/3", "permit/1")),
        ("WELL", ("permit/3", "permit/1")),
        ("reg", ("permit/1",)),
        ("R\u00c9GUL", ("permit/1",)),
        ("well osprel", ("permit/3",)),
        ("north well vessel", ()),
        ("\u4e0b\u6c34", ("permit/2",)),
        ("h2s", ("permit/2",)),
        ("egul", ()),
        ("", ()),
        ('" OR *', ()),
        ("NEAR(wet", ()),
        ("100%", ("permit/2",)),
    ],
)
def test_words_find_streams_whatever_their_case_and_accents(
    journal: Journal, question: str, found: tuple[str, ...]
) -> None:
    journal.put_words("permit/3", "never found again")
    journal.put_words("permit/1", "Wet well north, r\u00e9gulateur")
    journal.put_words("permit/2", "Vessel 4: \u4e0b\u6c34\u9053, H2S 100 ppm")
    journal.put_words("permit/3", "Osprel Bend wet-well")
    assert journal.find(question) == found


def test_words_given_anew_replace_those_before(journal: Journal) -> None:
    journal.put_words("permit/1", "silo")
    journal.put_words("permit/2", "vessel")
    journal.put_words("permit/1", "vault")
    assert journal.find("silo") == ()
    assert journal.find("v") == ("permit/1", "permit/2")


def test_many_entries_are_read_in_order_over_several_pages(journal: Journal, pen: Pen) -> None:
    journal.append(run(pen, 1201, act="a-1"))
    assert [entry.number for entry in journal.entries()] == list(range(1, 1202))
