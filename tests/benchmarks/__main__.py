"""`python -m tests.benchmarks`: ratios against floors measured in the same run, medians."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from tests.benchmarks import drawing, exposing, opening, recording, starting


def main() -> int:
    """Print every line; the exit code is 1 when a goal was missed."""
    with TemporaryDirectory() as folder:
        place = Path(folder)
        lines = [recording.measure(place / "recording").line()]
        print(lines[-1], flush=True)
        for line in (*starting.measure(place / "starting"), *opening.measure(place / "opening")):
            lines.append(line)
            print(line, flush=True)
        lines.append(drawing.measure(place / "machine").line())
        print(lines[-1], flush=True)
        for line in exposing.measure():
            lines.append(line)
            print(line, flush=True)
    return 1 if any("MISSED" in line for line in lines) else 0


if __name__ == "__main__":
    sys.exit(main())
