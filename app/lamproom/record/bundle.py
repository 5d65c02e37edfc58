"""Reading an export back, and checking it by itself: every changed, missing or added byte of it is reported.

An export is material from outside. It is read into memory with a limit, never unpacked to disk, never into a journal.
"""

from __future__ import annotations

import base64
import hashlib
import json
import zipfile
import zlib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from lamproom.record.certificates import certificates_of
from lamproom.record.chain import START, Flaw, Verifier, verify
from lamproom.record.export import LINES, MANIFEST, manifest_text, zip_of
from lamproom.record.journal import Entry, Head, KeyRow, Sealed
from lamproom.record.refusals import NotAnExport
from lamproom.words import Sentence, sentence

MOST_BYTES = 1 << 30
MOST_FILES = 20_000
"""Limits against a bundle made to exhaust memory; a site files a few thousand pages of about 100 kB in its life."""

_ILL_FORMED = (ValueError, KeyError, TypeError, OverflowError, RecursionError)


@dataclass(frozen=True, slots=True)
class Bundle:
    """An export as read: its entries, keys, files by name, and what is wrong with its files and lines so far."""

    entries: tuple[Entry, ...]
    keys: tuple[KeyRow, ...]
    head: Head
    files: Mapping[str, bytes]
    flaws: tuple[Flaw, ...]

    def verify(self) -> list[Flaw]:
        """All flaws: of files, lines, chain, signatures, end. Whose the certificates are is not judged here."""
        flaws = [*self.flaws, *verify(self.entries, self.certificates())]
        last = Head(self.entries[-1].number, self.entries[-1].chain) if self.entries else START
        if last != self.head:
            flaws.append(_flaw("record.flaw.head", number=self.head.number, print=self.head.chain.hex()))
        return flaws

    def certificates(self) -> Callable[[str], Verifier | None]:
        return certificates_of(self.keys)


def read_bundle(where: Path) -> Bundle:
    """The export in a folder or ZIP. NotAnExport when there is none; flaws in it are collected, not raised."""
    files = _files(where)
    if MANIFEST not in files:
        raise NotAnExport(where, sentence("record.not_an_export.no_manifest"))
    flaws: list[Flaw] = []
    manifest = _manifest(files[MANIFEST], flaws)
    flaws += _file_flaws(manifest["files"], files)
    if where.is_file() and zip_of(files) != where.read_bytes():
        flaws.append(_flaw("record.flaw.repacked"))
    entries = tuple(_entries(files.get(LINES, b""), flaws))
    keys = tuple(
        KeyRow(key, holder, files.get(f"certificates/{key}.der", b""), None) for key, holder in manifest["keys"]
    )
    return Bundle(entries, keys, manifest["head"], files, tuple(flaws))


def _files(where: Path) -> dict[str, bytes]:
    try:
        if where.is_dir():
            return _limited(where, ((p.relative_to(where).as_posix(), p) for p in sorted(where.rglob("*"))))
        with zipfile.ZipFile(where) as opened:
            return _unzipped(where, opened)
    except (zipfile.BadZipFile, zlib.error, OSError, EOFError, NotImplementedError, RuntimeError, ValueError) as error:
        raise NotAnExport(where, sentence("record.not_an_export.no_zip")) from error


def _limited(where: Path, found: Iterator[tuple[str, Path]]) -> dict[str, bytes]:
    files: dict[str, bytes] = {}
    left = MOST_BYTES
    for name, path in found:
        if path.is_symlink() or not path.is_file():
            continue
        left -= path.stat().st_size
        if left < 0 or len(files) >= MOST_FILES:
            raise _too_large(where)
        files[name] = path.read_bytes()
    return files


def _unzipped(where: Path, opened: zipfile.ZipFile) -> dict[str, bytes]:
    files: dict[str, bytes] = {}
    left = MOST_BYTES
    for info in opened.infolist():
        if info.filename in files or info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise NotAnExport(where, sentence("record.not_an_export.no_zip"))
        if len(files) >= MOST_FILES:
            raise _too_large(where)
        with opened.open(info) as stream:
            content = stream.read(left + 1)  # what really comes out counts, not the size the ZIP declares
        left -= len(content)
        if left < 0:
            raise _too_large(where)
        files[info.filename] = content
    return files


def _too_large(where: Path) -> NotAnExport:
    limit = f"{MOST_FILES} files or {MOST_BYTES >> 20} MiB"
    return NotAnExport(where, sentence("record.not_an_export.too_large", limit=limit))


def _manifest(content: bytes, flaws: list[Flaw]) -> dict[str, Any]:
    """The parts of the manifest that are used; when it cannot be read they are empty and a flaw says so."""
    try:
        read = json.loads(content)
        if manifest_text(read) != content:
            raise ValueError("not as it was written")
        return {
            "files": {str(f["name"]): (int(f["size"]), str(f["sha256"])) for f in read["files"]},
            "keys": [(str(k["key"]), str(k["holder"])) for k in read["keys"]],
            "head": Head(int(read["head"]["number"]), bytes.fromhex(read["head"]["chain"])),
        }
    except _ILL_FORMED:
        flaws.append(_flaw("record.flaw.manifest"))
        return {"files": {}, "keys": [], "head": START}


def _file_flaws(listed: dict[str, tuple[int, str]], files: Mapping[str, bytes]) -> Iterator[Flaw]:
    for name, (size, sha256) in listed.items():
        if name not in files:
            yield _page(name, sentence("record.flaw.page.missing"))
        elif len(files[name]) != size or hashlib.sha256(files[name]).hexdigest() != sha256:
            yield _page(name, sentence("record.flaw.page.changed"))
    for name in files:
        if name not in listed and name != MANIFEST:
            yield _page(name, sentence("record.flaw.page.extra"))


def _entries(lines: bytes, flaws: list[Flaw]) -> Iterator[Entry]:
    for place, line in enumerate(lines.splitlines(), 1):
        try:
            yield _entry(json.loads(line))
        except _ILL_FORMED:
            flaws.append(_flaw("record.flaw.line", line=place))


def _entry(line: dict[str, Any]) -> Entry:
    body = base64.b64decode(line["body_base64"], validate=True) if "body_base64" in line else str(line["body"]).encode()
    sealed = Sealed(
        stream=str(line["stream"]),
        version=int(line["version"]),
        kind=str(line["kind"]),
        kind_version=int(line["kind_version"]),
        act=str(line["act"]),
        body=body,
        hash=bytes.fromhex(line["hash"]),
        signature=base64.b64decode(line["signature"], validate=True),
        key=str(line["key"]),
    )
    return Entry(sealed, int(line["number"]), bytes.fromhex(line["chain"]))


def _page(name: str, found: Sentence) -> Flaw:
    return _flaw("record.flaw.page", name=name, found=found)


def _flaw(id: str, **values: str | int | Sentence) -> Flaw:
    return Flaw(None, None, None, sentence(id, **values))
