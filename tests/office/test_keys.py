"""The key ring: a site begun, people enrolled, codes asked, wrong ones counted, and nothing given away."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from lamproom.office import authority
from lamproom.office.device import DeviceSecret
from lamproom.office.key_box import CHEAPEST
from lamproom.office.keys import KeyRing
from lamproom.record.journal import KeyRow
from lamproom.words import Refusal

NOW = datetime(2031, 5, 6, 12, 0, tzinfo=UTC)
DEVICE = DeviceSecret(bytes(range(32)), in_os_store=True)
FOUNDER, FOUNDER_CODE = "p-founder", "lid-4-otter"
ANN, ANN_CODE = "p-ann", "481730"
BOB, BOB_CODE = "p-bob", "kranichfeld"


class Store:
    """The part of the journal's door that keys go through, in memory; it can break down at the nth writing."""

    def __init__(self):
        self.rows = {}
        self.kept = {}
        self.writings = 0
        self.breaks_at = None

    def _write(self):
        self.writings += 1
        if self.breaks_at is not None and self.writings >= self.breaks_at:
            raise KeyboardInterrupt  # as good as a kill: nothing after it runs

    def put_key(self, row):
        self._write()
        self.rows[row.key] = row

    def keys(self):
        return tuple(self.rows.values())

    def put_setting(self, name, value):
        self._write()
        self.kept[name] = value

    def settings(self):
        return dict(self.kept)

    def row_of(self, holder) -> KeyRow:
        return [row for row in self.rows.values() if row.holder == holder and row.sealed_private][-1]


def begun(store, device=DEVICE):
    ring = KeyRing(store, device, CHEAPEST)
    ring.begin_site("Osprel Bend Waterworks", "Trailer 2", FOUNDER, "Ines Marrow", FOUNDER_CODE, NOW)
    return ring


@pytest.fixture
def store():
    return Store()


@pytest.fixture
def ring(store):
    ring = begun(store)
    ring.enrol(ANN, "Ann Pell", ANN_CODE, FOUNDER_CODE, NOW)
    ring.enrol(BOB, "Bob Quist", BOB_CODE, FOUNDER_CODE, NOW)
    return ring


def refusal(act, *values, **named):
    with pytest.raises(Refusal) as refused:
        act(*values, **named)
    said = refused.value.why.say()
    assert "safe" not in said.lower()
    return refused.value.why


# The site and its people ----------------------------------------------------------------------------------------------


def test_a_site_is_begun_once(store):
    assert not KeyRing(store, DEVICE, CHEAPEST).begun
    ring = begun(store)
    root = ring.root_certificate()
    assert ring.begun and ring.people() == (FOUNDER,)
    assert refusal(begun, store).id == "keys.begun"
    assert ring.root_certificate() == root


def test_before_a_site_is_begun_every_door_says_so(store):
    ring = KeyRing(store, DEVICE, CHEAPEST)
    for act in (
        ring.station_signer,
        ring.root_certificate,
        lambda: ring.unlock(ANN, ANN_CODE, NOW),
        lambda: ring.enrol(ANN, "Ann Pell", ANN_CODE, FOUNDER_CODE, NOW),
    ):
        assert refusal(act).id == "keys.not_begun"


def test_a_beginning_cut_short_at_any_writing_is_begun_again(store):
    begun(store)
    for writing in range(1, store.writings + 1):
        cut = Store()
        cut.breaks_at = writing
        with pytest.raises(KeyboardInterrupt):
            begun(cut)
        cut.breaks_at = None
        ring = begun(cut)
        assert ring.unlock(FOUNDER, FOUNDER_CODE, NOW).holder == FOUNDER
        assert ring.chain_for(ring.station_signer().key)
        assert [row.holder for row in cut.keys() if row.sealed_private].count("station") == 1
        ring.enrol(ANN, "Ann Pell", ANN_CODE, FOUNDER_CODE, NOW)


def test_the_stores_rows_hold_no_private_key_in_plain(ring, store):
    from lamproom.office.key_shelf import private_bytes

    signers = [ring.station_signer(), ring.unlock(ANN, ANN_CODE, NOW), ring.unlock(FOUNDER, FOUNDER_CODE, NOW)]
    for signer in signers:
        number = signer.private_key.private_numbers().private_value.to_bytes(32, "big")
        for row in store.keys():
            assert number not in (row.sealed_private or b"") and private_bytes(signer.private_key) not in (
                row.sealed_private or b""
            )


def test_each_persons_certificate_comes_from_the_root_and_names_person_and_station(ring):
    for person, name, code in ((FOUNDER, "Ines Marrow", FOUNDER_CODE), (ANN, "Ann Pell", ANN_CODE)):
        signer = ring.unlock(person, code, NOW)
        leaf, root = ring.chain_for(signer.key)
        assert leaf == signer.certificate == ring.certificate_of(signer.key) and root == ring.root_certificate()
        leaf.verify_directly_issued_by(root)
        assert authority.common_name(leaf) == name and authority.user_id(leaf) == f"{person}@Trailer 2"


def test_the_stations_certificate_lasts_as_long_as_the_root(ring):
    """A stop in year six is signed without asking anyone."""
    assert ring.station_signer().certificate.not_valid_after_utc == ring.root_certificate().not_valid_after_utc


def test_a_person_is_enrolled_once_and_by_the_founders_code_only(ring):
    assert refusal(ring.enrol, ANN, "Ann Pell", "940857", FOUNDER_CODE, NOW).id == "keys.enrolled"
    assert refusal(ring.enrol, "p-cy", "Cy Reed", "940857", ANN_CODE, NOW).id.startswith("keys.wrong_left")
    assert "p-cy" not in ring.people()


def test_a_weak_code_is_refused_with_all_reasons_before_anything_is_written(store):
    ring = KeyRing(store, DEVICE, CHEAPEST)
    why = refusal(ring.begin_site, "Site", "Trailer 2", FOUNDER, "Ines Marrow", "111", NOW)
    assert why.id == "keys.code_refused" and "at least 6" in why.say() and "repeats" in why.say()
    assert store.writings == 0


def test_without_the_systems_store_a_code_needs_eight_characters_and_the_screen_says_why(store):
    plain = KeyRing(store, DeviceSecret(bytes(32), in_os_store=False), CHEAPEST)
    why = refusal(plain.begin_site, "Site", "Trailer 2", FOUNDER, "Ines Marrow", "481730", NOW)
    assert "at least 8" in why.say()
    note = plain.code_note()
    assert note is not None and "8" in note.say()
    assert KeyRing(store, DEVICE, CHEAPEST).code_note() is None


@pytest.mark.parametrize("code", ["marrow77", "Ines-Marrow", "b-4471-b", "4471447"])
def test_a_code_may_not_hold_its_owners_name_or_badge(store, code):
    ring = KeyRing(store, DEVICE, CHEAPEST)
    why = refusal(ring.begin_site, "Site", "Trailer 2", FOUNDER, "Ines Marrow", code, NOW, avoid=("4471",))
    assert "name" in why.say()


# Signing --------------------------------------------------------------------------------------------------------------


def test_a_signature_is_verified_by_the_certificate_of_its_key(ring):
    for signer in (ring.station_signer(), ring.unlock(ANN, ANN_CODE, NOW)):
        signature = signer.sign(b"bytes of an event")
        assert authority.signed(ring.certificate_of(signer.key), b"bytes of an event", signature)
        assert not authority.signed(ring.certificate_of(signer.key), b"bytes of an Event", signature)


def test_the_same_event_signed_twice_has_the_same_signature(ring):
    """RFC 6979, where the OpenSSL at hand has it."""
    from cryptography.hazmat.backends.openssl import backend

    if not backend.ecdsa_deterministic_supported():
        pytest.skip("this OpenSSL signs with random numbers")
    signer = ring.station_signer()
    assert signer.sign(b"event") == signer.sign(b"event")


def test_a_keys_id_is_the_sha256_of_its_public_key(ring):
    import hashlib

    from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

    signer = ring.unlock(ANN, ANN_CODE, NOW)
    spki = signer.certificate.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    assert signer.key == hashlib.sha256(spki).hexdigest()


def test_a_signer_does_not_show_its_key_when_printed(ring):
    assert "private" not in repr(ring.unlock(ANN, ANN_CODE, NOW))


def test_an_unknown_person_is_told_whom_to_ask(ring):
    for person in ("p-nobody", "station", "authority"):
        why = refusal(ring.unlock, person, "481730", NOW)
        assert why.id == "keys.nobody" and "Ines Marrow" in why.say()


def test_an_unknown_key_is_refused(ring):
    assert refusal(ring.chain_for, "00" * 32).id == "keys.unknown_key"


# Theft and damage -----------------------------------------------------------------------------------------------------


def test_a_stolen_store_and_the_right_code_sign_nothing_on_another_computer(ring, store):
    thief = KeyRing(store, DeviceSecret(b"\x01" * 32, in_os_store=True), CHEAPEST)
    assert refusal(thief.unlock, ANN, ANN_CODE, NOW).id == "keys.other_computer"
    assert refusal(thief.station_signer).id == "keys.other_computer_station"
    assert refusal(thief.enrol, "p-x", "Mal X", "940857", FOUNDER_CODE, NOW).id == "keys.other_computer"
    assert ring.wrong_tries(ANN) == 0  # the owner's tries are not used up by it


@pytest.mark.parametrize("holder", [ANN, "station", "authority"])
@pytest.mark.parametrize("part", ["box", "certificate"])
def test_a_flipped_byte_in_a_stored_key_is_a_refusal_and_costs_no_try(ring, store, holder, part):
    whole = store.row_of(holder)
    length = len(whole.sealed_private if part == "box" else whole.certificate)
    for at in range(0, length, 7):
        bytes_ = bytearray(whole.sealed_private if part == "box" else whole.certificate)
        bytes_[at] ^= 0x20
        damaged = (
            replace(whole, sealed_private=bytes(bytes_)) if part == "box" else replace(whole, certificate=bytes(bytes_))
        )
        store.rows[whole.key] = damaged
        try:
            if holder == ANN:
                refusal(ring.unlock, ANN, ANN_CODE, NOW)
            elif holder == "station":
                refusal(ring.station_signer)
            elif part == "box":
                refusal(ring.enrol, "p-cy", "Cy Reed", "940857", FOUNDER_CODE, NOW)
            else:
                refusal(ring.chain_for, store.row_of(ANN).key)
        finally:
            store.rows[whole.key] = whole
    assert ring.wrong_tries(ANN) == 0
    ring.unlock(ANN, ANN_CODE, NOW)


def test_a_key_moved_under_another_persons_name_signs_nothing(ring, store):
    ann = store.row_of(ANN)
    store.rows[store.row_of(BOB).key] = replace(store.row_of(BOB), sealed_private=None)
    store.rows[ann.key] = replace(ann, holder=BOB)
    assert refusal(ring.unlock, BOB, ANN_CODE, NOW).id == "keys.certificate_foreign"


def test_a_row_that_names_another_key_than_its_certificate_is_damaged(ring, store):
    ann = store.row_of(ANN)
    store.rows[ann.key] = replace(ann, certificate=store.row_of(BOB).certificate)
    assert refusal(ring.certificate_of, ann.key).id == "keys.damaged"
    assert refusal(ring.unlock, ANN, ANN_CODE, NOW).id == "keys.damaged"


def test_a_person_brought_in_by_another_authority_signs_nothing_here(ring, store):
    """Whoever can write the file can make an authority of their own; it is not this site's."""
    other = Store()
    KeyRing(other, DEVICE, CHEAPEST).begin_site("Osprel Bend Waterworks", "Trailer 2", ANN, "Ann Pell", "940857", NOW)
    foreign = other.row_of(ANN)
    store.rows[foreign.key] = foreign
    assert refusal(ring.unlock, ANN, "940857", NOW).id == "keys.certificate_foreign"


# Wrong codes ----------------------------------------------------------------------------------------------------------


def tried(ring, code="000000", at=NOW, person=ANN):
    return refusal(ring.unlock, person, code, at)


def test_wrong_codes_are_counted_down_then_waited_for_then_off(ring):
    said = [tried(ring).say() for _ in range(5)]
    assert ["4 tries left" in said[0], "1 try left" in said[3], "30 s" in said[4]] == [True, True, True]
    at = NOW
    for seconds in (30, 60, 120, 240):
        assert tried(ring, at=at + timedelta(seconds=seconds - 1)).id == "keys.wait"
        at += timedelta(seconds=seconds)
        assert tried(ring, at=at).id == "keys.wrong_wait"
    assert ring.next_try(ANN, at) == timedelta(seconds=480)
    at += timedelta(seconds=480)
    assert tried(ring, at=at).id == "keys.wrong_off"
    assert tried(ring, ANN_CODE, at + timedelta(days=400)).id == "keys.off"
    assert ring.next_try(ANN, at) is None


def test_during_a_wait_the_right_code_is_not_even_looked_at(ring):
    for _ in range(5):
        tried(ring)
    assert tried(ring, ANN_CODE).id == "keys.wait"
    assert ring.wrong_tries(ANN) == 5
    assert ring.unlock(ANN, ANN_CODE, NOW + timedelta(seconds=30)).wrong_tries_before == 5
    assert ring.wrong_tries(ANN) == 0


def test_one_persons_wrong_codes_do_not_hold_up_another_nor_the_station(ring):
    for _ in range(5):
        tried(ring)
    assert ring.unlock(BOB, BOB_CODE, NOW).wrong_tries_before == 0
    assert ring.station_signer().sign(b"stop")


def test_no_code_at_all_is_no_try(ring):
    assert tried(ring, "").id == "keys.code_empty"
    assert ring.wrong_tries(ANN) == 0


@pytest.mark.parametrize("back", [timedelta(seconds=1), timedelta(hours=3), timedelta(hours=24), timedelta(minutes=59)])
def test_a_clock_set_back_shortens_no_wait(store, back):
    ring = KeyRing(store, DEVICE, CHEAPEST)
    ring.begin_site("Site", "Trailer 2", FOUNDER, "Ines Marrow", FOUNDER_CODE, NOW - timedelta(days=2))
    ring.enrol(ANN, "Ann Pell", ANN_CODE, FOUNDER_CODE, NOW - timedelta(days=2))
    for _ in range(5):
        tried(ring)
    before = NOW - back
    assert tried(ring, ANN_CODE, before).id == "keys.wait"
    assert tried(ring, ANN_CODE, before + timedelta(seconds=29)).id == "keys.wait"
    assert tried(ring, ANN_CODE, NOW + timedelta(seconds=29)).id == "keys.wait"
    assert ring.unlock(ANN, ANN_CODE, NOW + timedelta(seconds=30))


def test_a_thousand_guesses_reach_the_check_ten_times_through_restarts_and_clock_changes(ring, store, monkeypatch):
    """Counted at the lock itself, with the ring opened anew for each guess and the clock turned both ways."""
    from lamproom.office import key_box

    reached = []
    really = key_box.open_box
    monkeypatch.setattr(key_box, "open_box", lambda *values: reached.append(1) or really(*values))
    at = NOW
    for guess in range(1000):
        at = max(NOW, at + timedelta(seconds=(7200, -3600, 45, 4000)[guess % 4]))
        tried(KeyRing(store, DEVICE, CHEAPEST), f"{guess:06}", at)
    assert len(reached) == 10
    assert tried(ring, ANN_CODE, at).id == "keys.off"


def test_a_kill_between_count_and_answer_costs_the_try(ring, store, monkeypatch):
    from lamproom.office import key_box

    def killed(*values):
        raise KeyboardInterrupt

    monkeypatch.setattr(key_box, "open_box", killed)
    for _ in range(3):
        with pytest.raises(KeyboardInterrupt):
            ring.unlock(ANN, ANN_CODE, NOW)
    assert KeyRing(store, DEVICE, CHEAPEST).wrong_tries(ANN) == 3


def test_a_try_that_cannot_be_counted_is_not_made(ring, store, monkeypatch):
    from lamproom.office import key_box

    reached = []
    monkeypatch.setattr(key_box, "open_box", lambda *values: reached.append(1))
    store.breaks_at = 0
    with pytest.raises(KeyboardInterrupt):
        ring.unlock(ANN, "000000", NOW)
    assert reached == []


def test_a_computer_short_of_memory_says_so_and_counts_no_try(ring, monkeypatch):
    from argon2.exceptions import HashingError

    from lamproom.office import key_box

    def short(*values, **named):
        raise HashingError("Memory allocation error")

    with monkeypatch.context() as here:
        here.setattr(key_box, "hash_secret_raw", short)
        assert refusal(ring.unlock, ANN, ANN_CODE, NOW).id == "keys.no_memory"
        assert ring.station_signer().sign(b"stop")
    assert ring.wrong_tries(ANN) == 0


def off(ring, person=ANN):
    at = NOW
    for _ in range(10):
        tried(ring, at=at, person=person)
        at += timedelta(hours=1)
    return at


def test_a_code_that_is_off_says_who_turns_it_on_and_two_others_do(ring):
    at = off(ring)
    assert "Two other people" in tried(ring, ANN_CODE, at).say()
    ring.turn_on(ANN, (BOB, BOB_CODE), (FOUNDER, FOUNDER_CODE), at)
    assert ring.unlock(ANN, ANN_CODE, at)


def test_one_other_person_or_the_owner_turns_nothing_on(ring):
    at = off(ring)
    bob, founder = (BOB, BOB_CODE), (FOUNDER, FOUNDER_CODE)
    assert refusal(ring.turn_on, ANN, bob, bob, at).id == "keys.two_people"
    assert refusal(ring.turn_on, ANN, bob, (ANN, ANN_CODE), at).id == "keys.two_people"
    assert refusal(ring.turn_on, ANN, bob, (FOUNDER, "000000"), at).id.startswith("keys.wrong")
    assert tried(ring, ANN_CODE, at).id == "keys.off"
    ring.turn_on(ANN, bob, founder, at)


def test_where_there_are_not_two_others_the_refusal_names_a_way_that_exists(store):
    ring = begun(store)
    ring.enrol(ANN, "Ann Pell", ANN_CODE, FOUNDER_CODE, NOW)
    at = off(ring)
    said = tried(ring, ANN_CODE, at).say()
    assert "Ines Marrow" in said and "enroll one more" in said
    ring.enrol(BOB, "Bob Quist", BOB_CODE, FOUNDER_CODE, at)
    ring.turn_on(ANN, (BOB, BOB_CODE), (FOUNDER, FOUNDER_CODE), at)
    assert ring.unlock(ANN, ANN_CODE, at)


# Codes changed --------------------------------------------------------------------------------------------------------


def test_a_changed_code_opens_the_same_key_and_the_old_one_none(ring):
    before = ring.unlock(ANN, ANN_CODE, NOW)
    ring.change_code(ANN, ANN_CODE, "940857", NOW)
    after = ring.unlock(ANN, "940857", NOW)
    assert after.key == before.key and after.certificate == before.certificate
    assert tried(ring, ANN_CODE).id.startswith("keys.wrong")


def test_the_founder_enrolls_with_the_changed_code(ring):
    ring.change_code(FOUNDER, FOUNDER_CODE, "weir-7-heron", NOW)
    assert refusal(ring.enrol, "p-cy", "Cy Reed", "940857", FOUNDER_CODE, NOW).id.startswith("keys.wrong")
    ring.enrol("p-cy", "Cy Reed", "940857", "weir-7-heron", NOW)
    assert ring.unlock("p-cy", "940857", NOW)


def test_a_change_needs_the_old_code_and_a_new_one_that_is_not_weak(ring):
    assert refusal(ring.change_code, ANN, "000000", "940857", NOW).id.startswith("keys.wrong")
    assert refusal(ring.change_code, ANN, ANN_CODE, "123456", NOW).id == "keys.code_refused"
    assert refusal(ring.change_code, ANN, ANN_CODE, ANN_CODE, NOW).id == "keys.code_same"
    assert ring.unlock(ANN, ANN_CODE, NOW)


def test_a_forgotten_code_is_replaced_by_two_people_and_old_signatures_still_verify(ring, store):
    old = ring.unlock(ANN, ANN_CODE, NOW)
    signature = old.sign(b"event")
    at = off(ring)
    assert refusal(ring.reset_code, ANN, "940857", FOUNDER_CODE, ANN, ANN_CODE, at).id == "keys.two_people"
    assert refusal(ring.reset_code, ANN, "940857", FOUNDER_CODE, BOB, "000000", at).id.startswith("keys.wrong")
    ring.reset_code(ANN, "940857", FOUNDER_CODE, BOB, BOB_CODE, at)
    new = ring.unlock(ANN, "940857", at)
    assert new.key != old.key
    leaf, _ = ring.chain_for(old.key)
    assert authority.signed(leaf, b"event", signature)
    assert store.rows[old.key].sealed_private is None


def test_nobody_gives_the_keeper_of_the_authority_a_new_code(ring):
    assert refusal(ring.reset_code, FOUNDER, "940857", FOUNDER_CODE, BOB, BOB_CODE, NOW).id == "keys.keeper_code_kept"


# Time -----------------------------------------------------------------------------------------------------------------


def test_an_ended_certificate_signs_nothing_and_the_keeper_renews_it_their_own_too(ring):
    """Five years from 2031-05-06."""
    old = ring.unlock(ANN, ANN_CODE, datetime(2036, 5, 6, 12, 0, tzinfo=UTC))
    late = datetime(2036, 5, 6, 12, 0, 1, tzinfo=UTC)
    why = refusal(ring.unlock, ANN, ANN_CODE, late)
    assert why.id == "keys.certificate_ended" and "2036-05-06" in why.say() and "Ines Marrow" in why.say()
    assert ring.wrong_tries(ANN) == 0 and ring.station_signer().sign(b"stop")
    for person, code in ((FOUNDER, FOUNDER_CODE), (ANN, ANN_CODE)):
        ring.renew(person, FOUNDER_CODE, late)
        assert ring.unlock(person, code, late).certificate.not_valid_after_utc == late.replace(year=2041)
    again = ring.unlock(ANN, ANN_CODE, late)
    assert again.key == old.key and ring.chain_for(old.key)[0] == again.certificate
    assert authority.covers(again.certificate, NOW)  # it speaks for what the key signed before, too
    ring.enrol("p-cy", "Cy Reed", "940857", FOUNDER_CODE, late)


def test_renewing_needs_the_keepers_code(ring):
    assert refusal(ring.renew, ANN, ANN_CODE, NOW).id.startswith("keys.wrong")
    assert refusal(ring.renew, "p-nobody", FOUNDER_CODE, NOW).id == "keys.nobody"


def test_a_clock_before_the_certificate_is_said(ring):
    assert refusal(ring.unlock, ANN, ANN_CODE, NOW - timedelta(days=1)).id == "keys.certificate_early"
