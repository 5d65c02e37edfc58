"""Try, in the program as installed, everything that a day needs: store, keys, forms, paper, verification."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from lamproom.office.demo import FIXED_DAY, demo_text, shift_in
from lamproom.office.opening import forms_at_hand
from lamproom.office.pages import filed_pdf
from lamproom.office.replay import live, set_up
from lamproom.office.verify import verify_file, verify_site
from lamproom.permit.form import read_form
from lamproom.words import Refusal, say


def self_test() -> Iterator[tuple[str, str]]:
    """Pairs of 'right' or 'wrong' and what was tried; nothing of the user's is touched."""
    for name, text in forms_at_hand().items():
        try:
            yield "right", say("office.self_test.form", title=read_form(text).title)
        except Refusal as refusal:
            yield "wrong", f"{name}: {refusal.why.say()}"
    with TemporaryDirectory(prefix="lamproom-self-test-", ignore_cleanup_errors=True) as folder:
        try:
            yield from _shift(Path(folder))
        except Refusal as refusal:
            yield "wrong", refusal.why.say()


def _shift(folder: Path) -> Iterator[tuple[str, str]]:
    shift = shift_in(folder, FIXED_DAY)
    set_up(shift)
    yield "right", say("office.self_test.site")
    live(shift, demo_text("day.txt"))
    entries = shift.office.journal.head().number
    yield "right", say("office.self_test.shift", count=entries)
    yield ("right" if verify_site(shift.office).code == 0 else "wrong"), say("office.self_test.chain")
    pdf = filed_pdf(shift.office, shift.permits["A"])
    genuine = pdf is not None and verify_file(pdf, shift.office).code == 0
    yield ("right" if genuine else "wrong"), say("office.self_test.page")
    altered = pdf is not None and verify_file(_one_byte_off(pdf), shift.office).code == 1
    yield ("right" if altered else "wrong"), say("office.self_test.altered")
    shift.office.journal.close()


def _one_byte_off(content: bytes) -> bytes:
    """The same bytes with one bit of the middle one turned."""
    middle = len(content) // 2
    return content[:middle] + bytes([content[middle] ^ 1]) + content[middle + 1 :]
