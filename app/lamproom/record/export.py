"""Exports: the whole record as files that anyone can read and check without Lamproom. Same record, same bytes.

No person's name, no private key and no draft leaves the site this way; names stand on the filed pages.
"""

from __future__ import annotations

import base64
import hashlib
import io
import json
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from lamproom.record.durable import written_new
from lamproom.record.journal import Entry, Head, Journal
from lamproom.words import say

MANIFEST, LINES, README = "manifest.json", "journal.jsonl", "README.txt"
FORMAT = 1
_ZIP_DATE = (1980, 1, 1, 0, 0, 0)
"""The earliest a ZIP can hold (APPNOTE 4.4.6): a true date would make two exports of one record differ."""


@dataclass(frozen=True, slots=True)
class Export:
    """An export that was written: where, how many files besides the manifest, and the head it reaches."""

    where: Path
    files: int
    head: Head


def export(journal: Journal, target: Path) -> Export:
    """Write the journal to ``target``, which must be new: a ZIP when the name ends in '.zip', else a folder."""
    entries = tuple(journal.entries())
    head = Head(entries[-1].number, entries[-1].chain) if entries else Head(0, bytes(32))
    with written_new(target) as part:
        write = _Zip(part) if target.suffix.lower() == ".zip" else _Folder(part)
        listed = [_noted(write, name, content) for name, content in _contents(journal, entries, head)]
        write.put(MANIFEST, _manifest(journal, head, listed))
        write.close()
    return Export(target, len(listed), head)


def line_of(entry: Entry) -> str:
    """One line of journal.jsonl. The body is the exact text; base64 only when damage has left it no text at all."""
    event = entry.sealed
    try:
        body = {"body": event.body.decode()}
    except UnicodeDecodeError:
        body = {"body_base64": _base64(event.body)}
    return _json(
        {
            **body,
            "number": entry.number,
            "chain": entry.chain.hex(),
            "stream": event.stream,
            "version": event.version,
            "kind": event.kind,
            "kind_version": event.kind_version,
            "act": event.act,
            "hash": event.hash.hex(),
            "signature": _base64(event.signature),
            "key": event.key,
        }
    )


def manifest_text(manifest: object) -> bytes:
    """The one way a manifest is written, so that reading can tell any other."""
    return (json.dumps(manifest, sort_keys=True, ensure_ascii=False, indent=1) + "\n").encode()


def zip_of(files: Mapping[str, bytes]) -> bytes:
    """The bytes of the ZIP that an export of these files is, in their order."""
    whole = io.BytesIO()
    write = _Zip(whole)
    for name, content in files.items():
        write.put(name, content)
    write.close()
    return whole.getvalue()


def _contents(journal: Journal, entries: tuple[Entry, ...], head: Head) -> Iterator[tuple[str, bytes]]:
    pages = sorted(journal.files())
    yield LINES, "".join(line_of(entry) + "\n" for entry in entries).encode()
    for row in sorted(journal.keys(), key=lambda row: row.key):
        yield f"certificates/{row.key}.der", row.certificate
    for sha256 in pages:
        page = journal.file(sha256)
        if page is not None:
            yield f"pages/{sha256}.pdf", page.content
    readme = say("record.readme", entries=len(entries), pages=len(pages), number=head.number, print=head.chain.hex())
    yield README, readme.encode()


def _manifest(journal: Journal, head: Head, listed: list[dict[str, str | int]]) -> bytes:
    names = {f"pages/{sha256}.pdf": page.name for sha256 in journal.files() if (page := journal.file(sha256))}
    manifest = {
        "format": FORMAT,
        "head": {"number": head.number, "chain": head.chain.hex()},
        "keys": [{"key": row.key, "holder": row.holder} for row in sorted(journal.keys(), key=lambda row: row.key)],
        "pages": names,
        "files": listed,
    }
    return manifest_text(manifest)


def _noted(write: _Folder | _Zip, name: str, content: bytes) -> dict[str, str | int]:
    write.put(name, content)
    return {"name": name, "size": len(content), "sha256": hashlib.sha256(content).hexdigest()}


def _json(fields: dict[str, str | int]) -> str:
    return json.dumps(fields, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def _base64(content: bytes) -> str:
    return base64.b64encode(content).decode("ascii")


class _Folder:
    """Files in a folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        folder.mkdir()

    def put(self, name: str, content: bytes) -> None:
        place = self._folder / name
        place.parent.mkdir(exist_ok=True)
        place.write_bytes(content)

    def close(self) -> None:
        """Nothing is held open."""


class _Zip:
    """Files in a ZIP, stored as they are: what deflate writes differs between versions of its library."""

    def __init__(self, file: Path | BinaryIO) -> None:
        self._zip = zipfile.ZipFile(file, "w", zipfile.ZIP_STORED)

    def put(self, name: str, content: bytes) -> None:
        info = zipfile.ZipInfo(name, _ZIP_DATE)
        info.create_system = 3
        info.external_attr = 0o644 << 16
        self._zip.writestr(info, content)

    def close(self) -> None:
        self._zip.close()
