"""Nothing but office/clock.py reads the clock, and no trouble is swallowed: the linter refuses both by name."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]


def refused(source: str, place: str) -> set[str]:
    """The rules broken by that text, were it the file at that place."""
    run = subprocess.run(
        [sys.executable, "-m", "ruff", "check", "--no-cache", "--output-format=json", "--stdin-filename", place, "-"],
        input=source, cwd=TOP, capture_output=True, text=True, check=False,
    )  # fmt: skip
    return {finding["code"] for finding in json.loads(run.stdout)}


@pytest.mark.parametrize(
    "source",
    [
        "from datetime import UTC, datetime\n\nSTART = datetime.now(UTC)\n",
        "import datetime as d\n\nSTART = d.datetime.now(d.UTC)\n",
        "from time import monotonic\n\nSTART = monotonic()\n",
        "from PySide6.QtCore import QDateTime\n\nSTART = QDateTime.currentDateTime()\n",
    ],
)
def test_reading_the_clock_outside_its_file_is_refused(source: str) -> None:
    assert "TID251" in refused(source, "app/lamproom/office/go_in.py")


def test_the_clock_file_reads_the_clock() -> None:
    source = "import time\nfrom datetime import UTC, datetime\n\nSTART = (datetime.now(UTC), time.monotonic())\n"
    assert refused(source, "app/lamproom/office/clock.py") == set()


@pytest.mark.parametrize(
    ("source", "rule"),
    [
        ("try:\n    import a\nexcept Exception:\n    a = None\n", "BLE001"),
        ("try:\n    import a\nexcept:\n    raise SystemExit(1)\n", "E722"),
        ("try:\n    import a\nexcept OSError:\n    pass\n", "S110"),
        ("import sqlite3\n\nsqlite3.connect('x')\n", "TID251"),
    ],
)
def test_what_the_house_forbids_is_refused(source: str, rule: str) -> None:
    assert rule in refused(source, "app/lamproom/record/sqlite.py")
