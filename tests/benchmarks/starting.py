"""The Board painted with its data and a first key answered, against a bare window with the same packages imported."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from statistics import median

from tests.benchmarks.floors import Ratio
from tests.stories.lives import DAY_TABLE, in_file

from lamproom.office import replay

BOARD = """
import sys
from pathlib import Path
from time import perf_counter
begin = perf_counter()
from lamproom.cli import begin_quickly
begin_quickly()
from PySide6.QtCore import QEvent, QTimer, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication
from lamproom.desk.opening import open_window
from lamproom.office.opening import in_folder, open_office
from lamproom.office.key_box import CHEAPEST
application = QApplication([])
folder = Path(sys.argv[1])
office = open_office(folder / "site", None, in_folder(folder / "machine"), CHEAPEST)
desk, window = open_window(office)
window.resize(1366, 768)
window.show()
application.processEvents()
window.grab()
application.sendEvent(window, QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Tab, Qt.KeyboardModifier.NoModifier))
application.processEvents()
print(perf_counter() - begin)
"""

SAME_PACKAGES = """
import sys
from time import perf_counter
begin = perf_counter()
from contextlib import suppress
from importlib import import_module
for name in sys.argv[2].split(","):
    with suppress(ImportError):  # a name that a package made up for itself
        import_module(name)
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLabel
application = QApplication([])
window = QLabel("bare")
window.resize(1366, 768)
window.show()
application.processEvents()
window.grab()
application.sendEvent(window, QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Tab, Qt.KeyboardModifier.NoModifier))
application.processEvents()
print(perf_counter() - begin)
"""

IMPORTED = """
import sys
exec(sys.argv[2])
ours = ("lamproom", "__main__")
theirs = [n for n in sys.modules if n.split(".")[0] not in sys.stdlib_module_names and n.split(".")[0] not in ours]
print(",".join(n for n in theirs if getattr(sys.modules[n], "__spec__", None) is not None), file=sys.stderr)
"""


def measure(folder: Path, rounds: int = 7) -> list[str]:
    """Two ratios: to a bare window with the same packages imported (goal 1.5), and to a bare window (told only)."""
    shift = in_file(folder)
    replay.set_up(shift)
    replay.live(shift, DAY_TABLE)
    shift.office.journal.close()
    names = _imported(folder)
    times: dict[str, list[float]] = {"board": [], "same": [], "bare": []}
    for _ in range(rounds + 1):
        times["same"].append(_run(SAME_PACKAGES, folder, names))
        times["board"].append(_run(BOARD, folder))
        times["bare"].append(_run(SAME_PACKAGES, folder, "sys"))
    board, same, bare = (median(times[key][1:]) for key in ("board", "same", "bare"))
    return [
        Ratio("Board painted, first key answered / bare window with the same packages", board, same, 1.5).line(),
        Ratio("Board painted, first key answered / bare window", board, bare, None).line(),
    ]


def _run(code: str, *arguments: object) -> float:
    command = [sys.executable, "-c", code, *map(str, arguments)]
    done = subprocess.run(command, capture_output=True, text=True, check=True, env=_as_installed())
    return float(done.stdout.split()[-1])


def _as_installed() -> dict[str, str]:
    """The environment of an installed program: its modules are compiled once (by the first round), not each time."""
    return {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def _imported(folder: Path) -> str:
    """The modules of other people's packages that opening the Board imports, in their order."""
    code = IMPORTED.replace("exec(sys.argv[2])", BOARD)
    done = subprocess.run([sys.executable, "-c", code, str(folder)], capture_output=True, text=True, check=True)
    return done.stderr.strip().splitlines()[-1]
