"""An event is written in one way only, and what is written is what is read."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.record.signing import Pen, envelope

from lamproom.record.certificates import verifier_of
from lamproom.record.envelope import LARGEST_INTEGER, Envelope, from_bytes, hash_of, seal, to_bytes
from lamproom.record.refusals import Unreadable

_text = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)
_words = st.text(st.characters(categories=["L", "N", "P", "S"]), min_size=1, max_size=20)
_names = st.text(st.characters(max_codepoint=127), max_size=12)
_values = st.recursive(
    st.none() | st.booleans() | st.integers(-LARGEST_INTEGER, LARGEST_INTEGER) | _text,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(_names, inner, max_size=4),
    max_leaves=12,
)
_moments = st.integers(-62_135_510_400_000, 253_402_128_000_000).map(
    lambda ms: datetime(1970, 1, 1, tzinfo=UTC) + timedelta(milliseconds=ms)  # years 1 to 9999
)
_envelopes = st.builds(
    Envelope,
    stream=_words,
    version=st.integers(1, LARGEST_INTEGER),
    previous=st.binary(min_size=32, max_size=32),
    kind=_words,
    kind_version=st.integers(1, 1000),
    act=_words,
    by=st.none() | _words,
    station=_words,
    at=_moments,
    wall=_moments,
    boot=_words,
    boot_ns=st.integers(0, 10**20 - 1),
    zone=_words,
    unconfirmed=st.booleans(),
    data=st.dictionaries(_names, _values, max_size=5),
)


@given(_envelopes)
def test_what_was_written_is_what_is_read(written: Envelope) -> None:
    assert from_bytes(to_bytes(written)) == written


@given(_envelopes)
def test_reading_and_writing_again_gives_the_same_bytes(written: Envelope) -> None:
    body = to_bytes(written)
    assert to_bytes(from_bytes(body)) == body


@given(_envelopes)
def test_keys_are_sorted_and_nothing_stands_between_the_tokens(written: Envelope) -> None:
    """RFC 8785, 3.2.1 and 3.2.3, for ASCII keys. The outer parser is Python's own, not ours."""
    body = to_bytes(written).decode()
    assert json.dumps(json.loads(body), sort_keys=True, ensure_ascii=False, separators=(",", ":")) == body


def test_strings_are_written_as_in_the_example_of_rfc_8785() -> None:
    """RFC 8785, 3.2.2: the escapes of its sample string and their printed form (from memory)."""
    body = to_bytes(envelope(data={"s": '\u20ac$\u000f\u000aA\'B"\\\\"/'}))
    assert b'"s":"\xe2\x82\xac$\\u000f\\nA\'B\\"\\\\\\\\\\"/"' in body


def test_an_accent_typed_in_two_pieces_is_the_same_event() -> None:
    """Unicode Standard Annex 15: normal form C joins e and U+0301."""
    assert to_bytes(envelope(data={"note": "re\u0301gule\u0301"})) == to_bytes(
        envelope(data={"note": "r\u00e9gul\u00e9"})
    )


def test_a_typed_number_keeps_its_digits() -> None:
    assert from_bytes(to_bytes(envelope(data={"oxygen": "20.90"}))).data == {"oxygen": "20.90"}


def test_times_are_kept_in_utc_to_the_millisecond() -> None:
    chicago = timezone(timedelta(hours=-5))
    written = envelope(at=datetime(2025, 3, 11, 7, 0, 0, 123999, tzinfo=chicago))
    assert b'"at":"2025-03-11T12:00:00.123Z"' in to_bytes(written)


@pytest.mark.parametrize(
    "changes",
    [
        {"data": {"oxygen": 20.9}},
        {"data": {"big": LARGEST_INTEGER + 1}},
        {"data": {"sauerstoff\u00fc": "1"}},
        {"data": {"half": "\ud800"}},
        {"data": {"when": datetime(2025, 1, 1, tzinfo=UTC)}},
        {"at": datetime(2025, 3, 11, 12, tzinfo=UTC).replace(tzinfo=None)},
        {"previous": b"short"},
        {"version": 0},
        {"version": True},
        {"stream": ""},
        {"act": "two\nlines"},
        {"boot_ns": -1},
    ],
    ids=lambda changes: next(iter(changes)),
)
def test_what_cannot_be_written_exactly_is_a_fault(changes: dict[str, Any]) -> None:
    with pytest.raises((ValueError, TypeError)):
        envelope(**changes)


def test_data_nested_without_end_is_a_fault() -> None:
    deep: Any = "x"
    for _ in range(100):
        deep = [deep]
    with pytest.raises(ValueError, match="deep"):
        envelope(data={"deep": deep})


_BODY = to_bytes(envelope())


@pytest.mark.parametrize(
    ("body", "says"),
    [
        (b"\xff" + _BODY, "not text"),
        (b"{", "not well formed"),
        (b"[" * 100_000, "nested too deeply"),
        (_BODY.replace(b'"by":', b'"act":"x","by":'), "'act' stands in it twice"),
        (_BODY.replace(b'"oxygen":"20.9"', b'"oxygen":20.9'), "the number 20.9"),
        (_BODY.replace(b'"oxygen":"20.9"', b'"oxygen":NaN'), "the number NaN"),
        (_BODY.replace(b'"oxygen":"20.9"', b'"oxygen":9007199254740993'), "the number 9007199254740993"),
        (_BODY.replace(b'"oxygen":"20.9"', b'"oxygen":' + b"9" * 5000), "not a whole number of the allowed size"),
        (_BODY.replace(b'"by":"p-17",', b""), "fields missing: by"),
        (_BODY.replace(b'"zone":', b'"zoom":'), "fields missing: zone; fields unknown: zoom"),
        (_BODY.replace(b'"version":1,', b'"version":"1",'), "version"),
        (_BODY.replace(b"12:01:00.000Z", b"12:01:00Z"), "at, wall"),
        (_BODY.replace(b"2025-03-11", b"2025-02-30"), "does not belong"),
        (_BODY.replace(b"{", b"{ ", 1), "not written in the one way"),
        (_BODY + b"\n", "not written in the one way"),
        (_BODY.replace(b"note 1", b"\\u006eote 1"), "not written in the one way"),
        (_BODY.replace(b'"oxygen":"20.9"', b'"oxygen":-0'), "not written in the one way"),
        (_BODY.replace(b"note 1", "re\u0301".encode()), "not written in the one way"),
        (b"null", "does not belong"),
    ],
)
def test_other_writing_is_refused_with_what_is_wrong(body: bytes, says: str) -> None:
    with pytest.raises(Unreadable) as refused:
        from_bytes(body)
    assert says in str(refused.value)


@given(st.binary(max_size=200))
def test_any_bytes_are_either_an_event_or_refused(body: bytes) -> None:
    with pytest.raises(Unreadable):
        from_bytes(body)


@given(st.integers(0, len(_BODY) - 1), st.integers(1, 255))
def test_a_changed_byte_never_reads_as_the_same_event(at: int, change: int) -> None:
    changed = bytes([*_BODY[:at], _BODY[at] ^ change, *_BODY[at + 1 :]])
    assert hash_of(changed) != hash_of(_BODY)
    try:
        assert from_bytes(changed) != envelope()
    except Unreadable:
        return


def test_sealing_signs_the_hash_with_its_purpose(pen: Pen) -> None:
    sealed = seal(envelope(), pen)
    assert sealed.hash == hash_of(sealed.body)
    assert verifier_of(pen.certificate).verify(sealed.signature, b"lamproom signature 1\n" + sealed.hash)
    assert not verifier_of(pen.certificate).verify(sealed.signature, sealed.hash)
