"""A box opens with the right code on the right computer, for its owner, whole; with nothing else."""

import pytest
from argon2.low_level import ARGON2_VERSION
from hypothesis import given
from hypothesis import strategies as st

from lamproom.office.device import DeviceSecret
from lamproom.office.key_box import (
    CHEAPEST,
    USUAL,
    BoxDamaged,
    BoxOfOtherComputer,
    Hardness,
    check_box,
    close_box,
    open_box,
)

HERE = DeviceSecret(bytes(range(32)), in_os_store=False)
THERE = DeviceSecret(bytes(range(1, 33)), in_os_store=False)


@given(st.binary(max_size=300), st.text(), st.none() | st.text(min_size=1))
def test_what_was_closed_is_opened_and_stands_nowhere_in_the_box(content, owner, code):
    box = close_box(content, owner, HERE, code, CHEAPEST)
    assert open_box(box, owner, HERE, code) == content
    assert len(content) < 16 or content not in box


@given(st.text(min_size=1), st.text(min_size=1))
def test_another_code_opens_nothing(code, other):
    from unicodedata import normalize

    if normalize("NFKC", code) != normalize("NFKC", other):
        assert open_box(close_box(b"key", "p", HERE, code, CHEAPEST), "p", HERE, other) is None


def test_a_letter_typed_as_one_sign_or_as_two_is_the_same_code():
    box = close_box(b"key", "p", HERE, "h\u00e9ron47", CHEAPEST)
    assert open_box(box, "p", HERE, "he\u0301ron47") == b"key"


def test_a_box_moved_to_another_owner_does_not_open():
    assert open_box(close_box(b"key", "ann", HERE, "481730", CHEAPEST), "bob", HERE, "481730") is None


def test_the_right_code_on_another_computer_opens_nothing():
    box = close_box(b"key", "p", HERE, "481730", CHEAPEST)
    with pytest.raises(BoxOfOtherComputer):
        open_box(box, "p", THERE, "481730")


def test_the_other_computers_secret_opens_nothing_even_when_the_marks_agree(monkeypatch):
    """The mark is a courtesy; what holds is the lock."""
    monkeypatch.setattr(DeviceSecret, "mark", "0123456789abcdef")
    for code in ("481730", None):
        box = close_box(b"key", "p", HERE, code, CHEAPEST)
        assert open_box(box, "p", HERE, code) == b"key"
        assert open_box(box, "p", THERE, code) is None


def test_every_flipped_byte_and_every_cut_is_damage_and_not_a_wrong_code():
    box = close_box(b"a private key", "p", HERE, "481730", CHEAPEST)
    for at in range(len(box)):
        flipped = box[:at] + bytes([box[at] ^ 1]) + box[at + 1 :]
        with pytest.raises(BoxDamaged):
            check_box(flipped, HERE)
        with pytest.raises(BoxDamaged):
            check_box(box[:at], HERE)
    with pytest.raises(BoxDamaged):
        check_box(box + b"\0", HERE)


@given(st.binary(max_size=200))
def test_any_bytes_are_damage_and_not_a_fault(noise):
    for box in (noise, b"lamproom box 1\n" + noise):
        with pytest.raises(BoxDamaged):
            check_box(box, HERE)


@pytest.mark.parametrize(
    "head",
    [
        b'{"device":"x","nonce":"00","salt":"00"}',
        b'{"argon2id":{"lanes":1,"memory_kib":99999999,"passes":1},"device":"x","nonce":"%s","salt":"%s"}'
        % (b"0" * 24, b"0" * 32),
        b'{"argon2id":{"lanes":true,"memory_kib":8,"passes":1},"device":"x","nonce":"%s","salt":"%s"}'
        % (b"0" * 24, b"0" * 32),
        b"[]",
        b"[" * 500,
        b"\xff",
    ],
)
def test_a_head_that_asks_for_nonsense_is_damage_before_any_work(head):
    import hashlib

    body = b"lamproom box 1\n" + len(head).to_bytes(2, "big") + head + b"lock"
    with pytest.raises(BoxDamaged):
        check_box(body + hashlib.sha256(body).digest(), HERE)


def test_a_person_cannot_be_opened_as_a_station_nor_a_station_by_a_code():
    station = close_box(b"key", "station", HERE, None)
    person = close_box(b"key", "station", HERE, "481730", CHEAPEST)
    for box, code in ((station, "481730"), (person, None)):
        with pytest.raises(BoxDamaged):
            open_box(box, "station", HERE, code)


def test_two_boxes_of_the_same_key_and_code_share_nothing():
    one, two = (close_box(b"key", "p", HERE, "481730", CHEAPEST) for _ in range(2))
    assert one != two and one[-60:] != two[-60:]


def test_a_try_costs_what_rfc_9106_recommends_where_memory_is_short():
    """RFC 9106, section 4, second recommended option: argon2id, version 1.3, 3 passes, 4 lanes, 64 MiB."""
    assert USUAL == Hardness(memory_kib=65536, passes=3, lanes=4)
    assert ARGON2_VERSION == 0x13
