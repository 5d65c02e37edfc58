"""The check of a record names whatever was changed, taken out, put in or moved."""

from __future__ import annotations

import dataclasses
import hashlib
from typing import Any

import pytest
from tests.record.signing import Pen, envelope, run

from lamproom.record.certificates import certificates_of, verifier_of
from lamproom.record.chain import Flaw, Witness, link, verify, verify_streams
from lamproom.record.envelope import seal
from lamproom.record.journal import GENESIS, Entry, Head, Sealed
from lamproom.record.memory import MemoryJournal
from lamproom.record.refusals import UnusableCertificate


@pytest.fixture(scope="module")
def entries(pen: Pen) -> tuple[Entry, ...]:
    journal = MemoryJournal()
    for first, second in zip(run(pen, 4), run(pen, 4, "instrument/7"), strict=True):
        journal.append([first])
        journal.append([second])
    return tuple(journal.entries())


def check(entries: Any, pen: Pen, **more: Any) -> list[Flaw]:
    return verify(entries, certificates_of([pen.row()]), **more)


def ids(flaws: list[Flaw]) -> list[tuple[int | None, str]]:
    return [(flaw.number, flaw.why.id.removeprefix("record.flaw.")) for flaw in flaws]


def with_event(entries: tuple[Entry, ...], number: int, **changes: Any) -> list[Entry]:
    changed = list(entries)
    entry = changed[number - 1]
    changed[number - 1] = dataclasses.replace(entry, sealed=dataclasses.replace(entry.sealed, **changes))
    return changed


def flipped(content: bytes, at: int, bit: int = 0) -> bytes:
    return bytes([*content[:at], content[at] ^ (1 << bit), *content[at + 1 :]])


def test_a_record_as_it_was_written_has_no_flaw(entries: tuple[Entry, ...], pen: Pen) -> None:
    assert check(entries, pen) == []
    assert check(iter(()), pen) == []


def test_the_chain_is_the_formula_printed_in_the_export(entries: tuple[Entry, ...]) -> None:
    """README.txt of an export, steps 1 and 4, computed here by hand."""
    event = entries[0].sealed
    hash = hashlib.sha256(b"lamproom event 1\n" + event.body).digest()
    chain = hashlib.sha256(b"lamproom chain 1\n" + bytes(32) + hash + event.signature + event.key.encode()).digest()
    assert entries[0].chain == chain


def test_each_changed_byte_of_a_body_is_reported(entries: tuple[Entry, ...], pen: Pen) -> None:
    body = entries[2].sealed.body
    for at in range(len(body)):
        flaws = check(with_event(entries, 3, body=flipped(body, at, at % 8)), pen)
        assert (3, "body") in ids(flaws), at


def test_each_changed_byte_of_a_signature_is_reported(entries: tuple[Entry, ...], pen: Pen) -> None:
    signature = entries[2].sealed.signature
    for at in range(len(signature)):
        flaws = check(with_event(entries, 3, signature=flipped(signature, at, at % 8)), pen)
        assert {(3, "signature"), (3, "chain")} <= set(ids(flaws)), at


def test_each_changed_byte_of_hash_and_chain_is_reported(entries: tuple[Entry, ...], pen: Pen) -> None:
    for at in range(32):
        assert (3, "body") in ids(check(with_event(entries, 3, hash=flipped(entries[2].sealed.hash, at)), pen))
        changed = list(entries)
        changed[2] = dataclasses.replace(entries[2], chain=flipped(entries[2].chain, at))
        assert ids(check(changed, pen)) == [(3, "chain"), (4, "chain")]


@pytest.mark.parametrize(
    ("column", "value"),
    [("stream", "permit/2"), ("version", 9), ("kind", "authorised"), ("kind_version", 2), ("act", "another")],
)
def test_a_column_that_differs_from_the_signed_words_is_named(
    entries: tuple[Entry, ...], pen: Pen, column: str, value: object
) -> None:
    flaws = check(with_event(entries, 3, **{column: value}), pen)
    told = [str(flaw.why) for flaw in flaws if flaw.why.id == "record.flaw.columns"]
    assert len(told) == 1
    assert f"filed under other words than those signed: {column}" in told[0]


def test_one_flaw_does_not_blame_the_entries_after_it(entries: tuple[Entry, ...], pen: Pen) -> None:
    body = entries[0].sealed.body.replace(b"20.9", b"19.9")
    assert ids(check(with_event(entries, 1, body=body), pen)) == [(1, "body")]


def test_all_flaws_are_collected(entries: tuple[Entry, ...], pen: Pen) -> None:
    changed = with_event(entries, 2, body=entries[1].sealed.body.replace(b"20.9", b"19.9"))
    changed = with_event(tuple(changed), 7, body=entries[6].sealed.body.replace(b"20.9", b"19.9"))
    assert ids(check(changed, pen)) == [(2, "body"), (7, "body")]


def test_an_entry_taken_out_is_missed_in_the_site_and_in_its_stream(entries: tuple[Entry, ...], pen: Pen) -> None:
    flaws = check([*entries[:2], *entries[3:]], pen)
    assert ids(flaws) == [(4, "gap"), (4, "chain"), (5, "version")]
    assert str(flaws[0].why) == "Entry 4 stands where entry 3 should: entries are missing or out of order."


def test_entries_that_changed_places_are_reported(entries: tuple[Entry, ...], pen: Pen) -> None:
    assert (4, "gap") in ids(check([*entries[:2], entries[3], entries[2], *entries[4:]], pen))


def test_a_record_rehashed_without_the_key_is_reported(entries: tuple[Entry, ...], pen: Pen) -> None:
    """Who owns the machine can rewrite text, hash and chain of every row, but not sign."""
    body = entries[2].sealed.body.replace(b"20.9", b"19.9")
    hash = hashlib.sha256(b"lamproom event 1\n" + body).digest()
    events = [e.sealed for e in entries]
    events[2] = dataclasses.replace(events[2], body=body, hash=hash)
    assert ids(check(_chained(events), pen)) == [(3, "signature"), (5, "previous")]


def test_a_record_signed_anew_by_another_authority_is_reported(pen: Pen) -> None:
    forged = _chained(run(Pen(), 5))
    assert ids(check(forged, pen)) == [(number, "key") for number in range(1, 6)]


def test_a_certificate_put_in_the_place_of_another_is_reported(entries: tuple[Entry, ...], pen: Pen) -> None:
    other = Pen()
    swapped = certificates_of([dataclasses.replace(other.row(), key=pen.key)])
    assert {id for _, id in ids(verify(entries, swapped))} == {"key"}


def test_an_event_that_follows_another_past_is_reported(pen: Pen) -> None:
    events = run(pen, 2)
    events.append(seal(envelope(version=3, previous=events[0].hash), pen))
    assert ids(check(_chained(events), pen)) == [(3, "previous")]


def test_a_cut_end_is_seen_when_a_witness_is_newer(entries: tuple[Entry, ...], pen: Pen) -> None:
    printed = Witness(8, entries[7].chain[:8])
    assert check(entries, pen, witnesses=[printed]) == []
    for left in range(8):
        flaws = check(entries[:left], pen, witnesses=[printed])
        assert [flaw.why.id for flaw in flaws] == ["record.flaw.witness"]
    assert "its end was cut off" in str(flaws[0].why)


def test_the_new_part_of_a_record_is_checked_from_a_head(entries: tuple[Entry, ...], pen: Pen) -> None:
    tails = {e.sealed.stream: (e.sealed.version, e.sealed.hash) for e in entries[:4]}
    assert check(entries[4:], pen, after=Head(4, entries[3].chain), tails=tails) == []
    assert check(entries[4:], pen, after=Head(4, GENESIS), tails=tails) != []


def test_one_stream_is_checked_without_the_site(entries: tuple[Entry, ...], pen: Pen) -> None:
    events = [e.sealed for e in entries if e.sealed.stream == "permit/1"]
    certificates = certificates_of([pen.row()])
    assert verify_streams(events, certificates) == []
    assert ids(verify_streams(events[1:], certificates)) == [(None, "version")]


def test_only_a_p256_certificate_checks_signatures(pen: Pen) -> None:
    with pytest.raises(UnusableCertificate) as refused:
        verifier_of(b"no certificate")
    assert "ECDSA P-256" in str(refused.value)
    assert verifier_of(pen.certificate).key == pen.key


def _chained(events: list[Sealed]) -> list[Entry]:
    chain, entries = GENESIS, []
    for number, event in enumerate(events, 1):
        chain = link(chain, event)
        entries.append(Entry(event, number, chain))
    return entries
