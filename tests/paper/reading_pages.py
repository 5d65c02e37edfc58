"""Independent readers of PDF for these tests: poppler's tools where installed, and pypdfium2."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pypdfium2
import pytest


def text_of(pdf: bytes) -> list[str]:
    """The text of each page, in reading order, by pypdfium2."""
    document = pypdfium2.PdfDocument(pdf)
    return [page.get_textpage().get_text_range() for page in document]


def places_of(pdf: bytes, page: int, wanted: str) -> list[tuple[float, float]]:
    """Lower left corners, in points, of a text on a page (counted from 0), by pypdfium2."""
    textpage = pypdfium2.PdfDocument(pdf)[page].get_textpage()
    searcher = textpage.search(wanted, match_case=True)
    found = []
    while (hit := searcher.get_next()) is not None:
        box = textpage.get_charbox(hit[0])
        found.append((box[0], box[1]))
    return found


def poppler(tool: str, pdf: bytes, folder: Path, *options: str) -> str:
    """Output of one of poppler's tools; skipped where it is not installed."""
    if shutil.which(tool) is None:
        pytest.skip(f"{tool} (poppler-utils) is not installed")
    file = folder / "page.pdf"
    file.write_bytes(pdf)
    end = ["-"] if tool == "pdftotext" else []
    done = subprocess.run([tool, *options, str(file), *end], capture_output=True, text=True, check=True)
    return done.stdout
