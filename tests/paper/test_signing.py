"""One signature over the whole file, read by our own verifier and by an independent one."""

from __future__ import annotations

import random
from functools import lru_cache
from io import BytesIO
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.hashes import SHA256
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.paper.invented_authority import SIGNED_AT, Keys, make_keys
from tests.paper.reading_pages import poppler
from tests.paper.sample_content import ENDED

from lamproom.paper.permit_page import render_permit
from lamproom.paper.signing import JOURNAL, attach, sign
from lamproom.paper.verifying import Proof, Unreadable, read_proof

JOURNAL_BYTES = b'{"kind":"permit opened"}\n{"kind":"permit ended"}\n'


@lru_cache(maxsize=1)
def keys() -> Keys:
    return make_keys()


@lru_cache(maxsize=1)
def signed() -> bytes:
    pdf = attach(render_permit(ENDED), JOURNAL, JOURNAL_BYTES, SIGNED_AT, "The permit's events")
    return _sign(pdf, keys())


def _sign(pdf: bytes, by: Keys) -> bytes:
    return sign(pdf, by.private_key, by.certificate, [by.root], "Ends the entry", "Osprel Bend", SIGNED_AT)


def genuine(pdf: bytes) -> bool:
    found = read_proof(pdf, [keys().root])
    return isinstance(found, Proof) and found.unaltered and found.origin_confirmed


def test_a_signed_page_proves_who_signed_when_and_that_nothing_changed() -> None:
    proof = read_proof(signed(), [keys().root])
    assert isinstance(proof, Proof)
    assert proof.unaltered
    assert proof.origin_confirmed
    assert proof.troubles == ()
    assert proof.signer is not None
    assert (proof.signer.name, proof.signer.person, proof.signer.station) == (
        "Inés Varga-Holm",
        "person-7",
        "trailer-1",
    )
    assert proof.signed_at == SIGNED_AT
    assert proof.journal == JOURNAL_BYTES
    assert proof.length == len(signed())


def test_an_independent_reader_finds_one_valid_signature_over_the_whole_document(tmp_path: Path) -> None:
    told = poppler("pdfsig", signed(), tmp_path, "-nocert")
    assert told.count("Signature #") == 1
    assert "Signature is Valid" in told
    assert "Total document signed" in told
    assert "SHA-256" in told
    assert "Inés Varga-Holm" in told


def test_an_independent_reader_finds_the_attached_journal(tmp_path: Path) -> None:
    assert JOURNAL in poppler("pdfdetach", signed(), tmp_path, "-list")


def test_the_machines_clock_leaves_no_trace_in_the_file(tmp_path: Path) -> None:
    """The time of an act is judged elsewhere; the file bears the times it was given."""
    dates = [line for line in poppler("pdfinfo", signed(), tmp_path, "-isodates").splitlines() if "Date" in line]
    assert all("2026-11-25T13:05:00-06" in line for line in dates), dates
    assert b"20261125" in signed()


@pytest.mark.parametrize("of_each", [50, pytest.param(150, marks=pytest.mark.full)])
def test_every_flip_of_the_sampled_places_is_reported(of_each: int) -> None:
    """Half of the sample lies in the signature and the tail, where readers of PDF are known to look away."""
    pdf = signed()
    choose = random.Random(20261125)
    tail = len(pdf) - 6500
    places = [choose.randrange(len(pdf)) for _ in range(of_each)]
    places += [choose.randrange(tail, len(pdf)) for _ in range(of_each)]
    for place in places:
        changed = bytearray(pdf)
        changed[place] ^= 1 << choose.randrange(8)
        assert not genuine(bytes(changed)), f"a flip at {place} was not seen"


@pytest.mark.parametrize("extra", [b"\n", b" ", b"\x00", b"%%EOF\n", b"1 0 obj\n<<>>\nendobj\n"])
def test_appended_bytes_are_reported(extra: bytes) -> None:
    assert not genuine(signed() + extra)


def test_bytes_put_before_the_file_are_reported() -> None:
    assert not genuine(b"\n" + signed())


@pytest.mark.parametrize("kept", [0, 1, 5, 100, 0.5, 0.9, -1, -2, -20])
def test_a_cut_file_is_a_value_and_never_a_crash(kept: float) -> None:
    pdf = signed()
    length = int(len(pdf) * kept) if 0 < kept < 1 else int(kept)
    cut = pdf[:length]
    found = read_proof(cut, [keys().root])
    assert not (isinstance(found, Proof) and found.unaltered)


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=400))
def test_any_bytes_give_a_value(content: bytes) -> None:
    for pdf in (content, b"%PDF-1.7\n" + content):
        assert isinstance(read_proof(pdf), Unreadable)


def test_an_incremental_change_after_signing_is_reported() -> None:
    from pyhanko.pdf_utils.generic import pdf_string
    from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter

    writer = IncrementalPdfFileWriter(BytesIO(signed()))
    writer.root["/Changed"] = pdf_string("later")
    writer.update_root()  # type: ignore[no-untyped-call]
    out = BytesIO()
    writer.write(out)  # type: ignore[no-untyped-call]
    found = read_proof(out.getvalue(), [keys().root])
    assert isinstance(found, Proof)
    assert not found.whole_file
    assert not found.unaltered


def test_a_page_signed_by_another_authority_is_whole_but_its_origin_is_not_confirmed() -> None:
    """Decision: a self-consistent file of another authority never verifies as genuine."""
    other = make_keys("Osprel Bend Waterworks site authority")
    forged = _sign(attach(render_permit(ENDED), JOURNAL, JOURNAL_BYTES, SIGNED_AT), other)
    found = read_proof(forged, [keys().root])
    assert isinstance(found, Proof)
    assert found.unaltered
    assert not found.origin_confirmed
    assert any("Origin not confirmed" in str(trouble) for trouble in found.troubles)


def test_without_a_given_authority_the_file_names_its_own_root_for_comparison() -> None:
    found = read_proof(signed())
    assert isinstance(found, Proof)
    assert not found.origin_confirmed
    assert found.root == keys().root.fingerprint(SHA256()).hex()


def test_a_stranger_who_uses_the_authoritys_name_is_not_taken_for_it() -> None:
    other = make_keys("Osprel Bend Waterworks site authority")
    mixed = Keys(keys().root, other.certificate, other.private_key)
    found = read_proof(_sign(render_permit(ENDED), mixed), [keys().root])
    assert isinstance(found, Proof)
    assert not found.origin_confirmed


def test_an_unsigned_page_says_that_nobody_signed() -> None:
    found = read_proof(render_permit(ENDED), [keys().root])
    assert isinstance(found, Proof)
    assert found.signatures == 0
    assert not found.unaltered
    assert "Nobody has signed" in str(found.troubles[0])


def test_a_file_that_is_no_pdf_says_so_in_a_sentence() -> None:
    found = read_proof(b"Dear Sir")
    assert isinstance(found, Unreadable)
    assert "not a PDF" in str(found.why)


def test_a_second_signature_is_refused_by_the_signed_file() -> None:
    from pyhanko.sign.general import SigningError

    with pytest.raises(SigningError):
        _sign(signed(), keys())


def test_a_signature_that_allows_changes_is_not_enough() -> None:
    from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
    from pyhanko.sign import fields, signers

    from lamproom.paper import signing

    by = keys()
    meta = signers.PdfSignatureMetadata(
        field_name="SIG-01",
        md_algorithm="sha256",
        certify=True,
        docmdp_permissions=fields.MDPPerm.FILL_FORMS,
        subfilter=fields.SigSeedSubFilter.PADES,
    )
    out = BytesIO()
    signer = signing._signer(by.private_key, by.certificate, [by.root])
    signers.PdfSigner(meta, signer=signer).sign_pdf(IncrementalPdfFileWriter(BytesIO(render_permit(ENDED))), output=out)
    found = read_proof(out.getvalue(), [by.root])
    assert isinstance(found, Proof)
    assert not found.no_changes_allowed
    assert not found.unaltered
