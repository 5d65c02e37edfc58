"""An export is the same bytes each time, can be checked without us, and shows any change made to it."""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.record.signing import Pen, page, run

from lamproom.record.bundle import read_bundle
from lamproom.record.export import export
from lamproom.record.journal import GENESIS, Head
from lamproom.record.memory import MemoryJournal
from lamproom.record.refusals import Exists, NotAnExport
from lamproom.record.sqlite import SqliteJournal


@pytest.fixture(scope="module")
def journal(pen: Pen) -> MemoryJournal:
    journal = MemoryJournal()
    journal.put_key(pen.row())
    journal.append(run(pen, 2, act="a-1"), [page()])
    journal.append(run(pen, 1, "permit/2", data={"note": "\u4e0b\u6c34 \u2028 line"}))
    journal.put_personal("p-17", {"name": "R. Example"})
    journal.put_draft("permit/1", "work", "Replace flo")
    return journal


@pytest.fixture(scope="module")
def zipped(journal: MemoryJournal, tmp_path_factory: pytest.TempPathFactory) -> bytes:
    where = tmp_path_factory.mktemp("export") / "site.zip"
    export(journal, where)
    return where.read_bytes()


def test_the_same_record_gives_the_same_bytes(journal: MemoryJournal, zipped: bytes, pen: Pen, tmp_path: Path) -> None:
    again = export(journal, tmp_path / "again.zip")
    assert again.where.read_bytes() == zipped
    assert again.head == journal.head()
    other = SqliteJournal(tmp_path / "site.lamproom")
    other.put_key(pen.row())
    for act in ("a-1", "permit/2#1"):
        entries = journal.act(act)
        other.append([e.sealed for e in entries], [page()] if act == "a-1" else [])
    export(other, tmp_path / "other.zip")
    other.close()
    assert (tmp_path / "other.zip").read_bytes() == zipped


def test_folder_and_zip_hold_the_same_files(journal: MemoryJournal, zipped: bytes, tmp_path: Path) -> None:
    export(journal, tmp_path / "site")
    (tmp_path / "site.zip").write_bytes(zipped)
    assert read_bundle(tmp_path / "site").files == read_bundle(tmp_path / "site.zip").files


def test_what_was_exported_is_read_and_has_no_flaw(journal: MemoryJournal, zipped: bytes, tmp_path: Path) -> None:
    (tmp_path / "site.zip").write_bytes(zipped)
    bundle = read_bundle(tmp_path / "site.zip")
    assert bundle.entries == tuple(journal.entries())
    assert bundle.verify() == []


def test_an_empty_record_can_be_exported(tmp_path: Path) -> None:
    assert export(MemoryJournal(), tmp_path / "site").head == Head(0, GENESIS)
    assert read_bundle(tmp_path / "site").verify() == []


def test_no_name_no_key_and_no_draft_leaves_the_site(zipped: bytes) -> None:
    assert b"R. Example" not in zipped
    assert b"Replace flo" not in zipped


def test_an_export_never_writes_over_anything(journal: MemoryJournal, tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    with pytest.raises(Exists):
        export(journal, tmp_path / "site")


_BY_HAND = """
import base64, hashlib, json, subprocess, sys
chain, tails = bytes(32), {}
for line in open("journal.jsonl", encoding="utf-8", newline="\\n"):
    entry = json.loads(line)
    body = entry["body"].encode()
    hash = hashlib.sha256(b"lamproom event 1\\n" + body).digest()
    assert hash.hex() == entry["hash"]
    signature = base64.b64decode(entry["signature"])
    open("s", "wb").write(signature)
    open("d", "wb").write(b"lamproom signature 1\\n" + hash)
    subprocess.run(["openssl", "x509", "-inform", "DER", "-in", "certificates/" + entry["key"] + ".der", "-pubkey",
                    "-noout", "-out", "p"], check=True)
    subprocess.run(["openssl", "dgst", "-sha256", "-verify", "p", "-signature", "s", "d"], check=True)
    signed = json.loads(body)
    assert signed["previous"] == tails.get(signed["stream"], "00" * 32)
    tails[signed["stream"]] = entry["hash"]
    chain = hashlib.sha256(b"lamproom chain 1\\n" + chain + hash + signature + entry["key"].encode()).digest()
    assert chain.hex() == entry["chain"]
print(chain.hex())
"""


def test_an_export_is_checked_by_its_readme_without_our_code(journal: MemoryJournal, tmp_path: Path) -> None:
    """The five steps of README.txt in plain Python and the openssl program, an independent reader of the signatures."""
    where = export(journal, tmp_path / "site").where
    done = subprocess.run(
        [sys.executable, "-I", "-S", "-c", _BY_HAND], cwd=where, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.count("Verified OK") == 3
    fingerprint = done.stdout.split()[-1]
    assert fingerprint == journal.head().chain.hex()
    assert f"with fingerprint {fingerprint}." in (where / "README.txt").read_text()


def test_other_readers_open_the_zip(zipped: bytes, tmp_path: Path) -> None:
    (tmp_path / "site.zip").write_bytes(zipped)
    with zipfile.ZipFile(tmp_path / "site.zip") as opened:
        assert opened.testzip() is None
        manifest = json.loads(opened.read("manifest.json"))
        for listed in manifest["files"]:
            content = opened.read(listed["name"])
            assert (len(content), hashlib.sha256(content).hexdigest()) == (listed["size"], listed["sha256"])
        assert {"manifest.json", *(f["name"] for f in manifest["files"])} == set(opened.namelist())
    assert manifest["pages"] == {f"pages/{page().sha256}.pdf": page().name}


def test_each_changed_byte_of_the_journal_is_reported(journal: MemoryJournal, tmp_path: Path) -> None:
    where = export(journal, tmp_path / "site").where / "journal.jsonl"
    whole = where.read_bytes()
    for at in range(len(whole)):
        where.write_bytes(bytes([*whole[:at], whole[at] ^ (1 << at % 8), *whole[at + 1 :]]))
        assert read_bundle(where.parent).flaws != (), at


def test_a_changed_journal_with_its_hash_put_right_is_still_reported(journal: MemoryJournal, tmp_path: Path) -> None:
    """The list of contents is not signed; entries and chain must tell on their own."""
    where = export(journal, tmp_path / "site").where
    lines, manifest = where / "journal.jsonl", where / "manifest.json"
    before, listed = lines.read_bytes(), manifest.read_text()
    after = before.replace(b"20.9", b"19.9", 1)
    lines.write_bytes(after)
    manifest.write_text(listed.replace(hashlib.sha256(before).hexdigest(), hashlib.sha256(after).hexdigest()))
    told = [str(flaw.why) for flaw in read_bundle(where).verify()]
    assert told == ["permit/1, entry 1 was changed after it was signed."]


def test_a_line_taken_from_the_end_is_reported(journal: MemoryJournal, tmp_path: Path) -> None:
    where = export(journal, tmp_path / "site").where
    lines, manifest = where / "journal.jsonl", where / "manifest.json"
    before, listed = lines.read_bytes(), manifest.read_text()
    after = b"".join(before.splitlines(keepends=True)[:-1])
    lines.write_bytes(after)
    listed = listed.replace(hashlib.sha256(before).hexdigest(), hashlib.sha256(after).hexdigest())
    manifest.write_text(listed.replace(f'"size": {len(before)}', f'"size": {len(after)}'))
    assert [flaw.why.id for flaw in read_bundle(where).verify()] == ["record.flaw.head"]


def test_missing_and_added_files_are_named(journal: MemoryJournal, tmp_path: Path) -> None:
    where = export(journal, tmp_path / "site").where
    (where / "pages" / f"{page().sha256}.pdf").unlink()
    (where / "note.txt").write_text("added")
    told = [str(flaw.why) for flaw in read_bundle(where).flaws]
    assert told == [
        f"pages/{page().sha256}.pdf is not the file that was exported: it is missing.",
        "note.txt is not the file that was exported: it was added later.",
    ]


@pytest.fixture(scope="module")
def scratch(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("scratch") / "site.zip"


@given(data=st.data())
@settings(max_examples=300, deadline=None)
def test_a_changed_byte_anywhere_in_the_zip_is_reported(zipped: bytes, scratch: Path, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(zipped) - 1))
    change = data.draw(st.integers(1, 255))
    scratch.write_bytes(bytes([*zipped[:at], zipped[at] ^ change, *zipped[at + 1 :]]))
    try:
        assert read_bundle(scratch).verify() != []
    except NotAnExport:
        return


@given(data=st.data())
@settings(max_examples=60, deadline=None)
def test_a_zip_cut_or_lengthened_is_reported(zipped: bytes, scratch: Path, data: st.DataObject) -> None:
    cut = zipped[: data.draw(st.integers(0, len(zipped)))]
    scratch.write_bytes(cut + data.draw(st.binary(min_size=1, max_size=8)))
    try:
        assert scratch.read_bytes() == zipped or read_bundle(scratch).verify() != []
    except NotAnExport:
        return


def test_what_is_no_export_is_refused_with_its_reason(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "note.zip").write_text("no zip")
    with pytest.raises(NotAnExport, match="it has no list of contents"):
        read_bundle(tmp_path / "empty")
    for name in ("note.zip", "nothing there"):
        with pytest.raises(NotAnExport, match="neither a folder nor a ZIP file"):
            read_bundle(tmp_path / name)


def test_a_zip_that_swells_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lamproom.record.bundle.MOST_BYTES", 1 << 20)
    with zipfile.ZipFile(tmp_path / "bomb.zip", "w", zipfile.ZIP_DEFLATED) as bomb:
        bomb.writestr("manifest.json", bytes(2 << 20))
    with pytest.raises(NotAnExport, match="it holds more than 20000 files or 1 MiB"):
        read_bundle(tmp_path / "bomb.zip")


def test_names_that_climb_out_are_never_written_anywhere(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "climb.zip", "w") as climbing:
        climbing.writestr("../../outside.txt", "x")
        climbing.writestr("manifest.json", "{}")
    told = [flaw.why.id for flaw in read_bundle(tmp_path / "climb.zip").flaws]
    assert told == ["record.flaw.manifest", "record.flaw.page", "record.flaw.repacked"]
    assert [p.name for p in tmp_path.iterdir()] == ["climb.zip"]
