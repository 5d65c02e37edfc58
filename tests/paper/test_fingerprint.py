"""The code that ties paper to record: read aloud, typed in the rain, scanned."""

from __future__ import annotations

from hashlib import sha256

import pypdfium2
import pytest
import segno
from hypothesis import given
from hypothesis import strategies as st
from tests.paper.sample_content import CODE, ENDED, draft

from lamproom.paper.fingerprint import SIGNS, as_typed, code_of, in_fours, qr_text
from lamproom.paper.permit_page import render_permit
from lamproom.paper.sheet import MM


@given(st.binary(min_size=32, max_size=32))
def test_a_code_has_22_signs_without_i_l_o_u(digest: bytes) -> None:
    code = code_of(digest)
    assert len(code) == 22
    assert not set(code) & set("ILOU")
    assert as_typed(in_fours(code).lower()) == code[:12]


def test_the_code_is_crockfords_base_32_of_the_digest() -> None:
    """Douglas Crockford, 'Base 32': most significant bits first; here the bits are written out by hand."""
    digest = bytes([0b00001_000, 0b10_00011_0, 0b0100_0010, 0b1_00110_00, 0b111_01000]) + bytes(27)
    assert code_of(digest)[:8] == "12345678"
    assert SIGNS.index("Z") == 31


def test_what_people_mishear_is_put_right() -> None:
    assert as_typed("o7tw h6jv-k3fl") == "07TWH6JVK3F1"


def test_changing_one_byte_of_the_record_changes_the_printed_code() -> None:
    assert code_of(sha256(b"record").digest())[:12] != code_of(sha256(b"recorD").digest())[:12]


def test_the_qr_is_alphanumeric_level_q_and_its_modules_are_large_enough() -> None:
    """ISO/IEC 18004: alphanumeric mode takes 0-9, A-Z and nine marks; a module of 0.5 mm at least is ours."""
    text = qr_text(ENDED.number, ENDED.version, CODE)
    qr = segno.make(text, error="q", micro=False, boost_error=False)
    assert qr.mode == "alphanumeric"
    assert qr.error == "Q"
    assert 25 / qr.symbol_size(border=0)[0] >= 0.5
    assert text.endswith(CODE)


@pytest.mark.parametrize("page", [ENDED, draft()], ids=["ended", "draft"])
def test_the_drawn_code_has_the_modules_of_the_symbol_and_a_quiet_zone(page: object) -> None:
    """Read back from the picture of the page, module by module; a full decoder is used where one is installed."""
    from lamproom.paper.content import PermitPage

    assert isinstance(page, PermitPage)
    scale = 300 / 72
    bitmap = pypdfium2.PdfDocument(render_permit(page))[0].render(scale=scale, grayscale=True).to_numpy()
    pixels = bitmap.reshape(bitmap.shape[0], bitmap.shape[1])
    symbol = [list(row) for row in segno.make(qr_text(page.number, page.version, page.code), error="q").matrix]
    module = 25 * MM / len(symbol)
    left, top = 21 * MM, 792 - 12 * MM - 25 * MM

    def dark(across: float, down: float) -> bool:
        return bool(pixels[int((top + down * module) * scale), int((left + across * module) * scale)] < 128)

    size = len(symbol)
    for row in range(-4, size + 4):
        for column in range(-4, size + 4):
            inside = 0 <= row < size and 0 <= column < size
            assert dark(column + 0.5, row + 0.5) == bool(inside and symbol[row][column])
