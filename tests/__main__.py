"""`python3 tests`: every check of the house, on a fresh machine too.

    python3 tests              lint, types, floors, and the tests that fit into five minutes
    python3 tests full         the same with the slow ones (thirty minutes)
    python3 tests night        everything, without a limit of time
    python3 tests -- ARGS      pytest alone, with these arguments

Exit 0 only if every check passed.
"""

from __future__ import annotations

import importlib.util
import subprocess
import sys
from pathlib import Path
from types import ModuleType

TOP = Path(__file__).resolve().parent.parent
SIZES = {"quick": "not full and not night", "full": "not night", "night": ""}
# A file stays with one worker, so that a day lived for many tests is lived once; the long stories begin first, so that
# no worker is left alone with one at the end.
SPREAD = ["-n", "2", "--dist", "loadfile", "--no-loadscope-reorder", "tests/stories", "tests"]


def main(arguments: list[str]) -> int:
    """Make ready, run the checks one after another, tell what failed; returns the exit code."""
    fresh_machine = _fresh_machine()
    only_pytest = arguments[:1] == ["--"]
    size = "quick" if only_pytest or not arguments else arguments[0]
    if size not in SIZES or (len(arguments) > 1 and not only_pytest):
        fresh_machine.refuse(__doc__.partition("\n\n")[2].rstrip())
    python = str(fresh_machine.make_ready(("dev", "office"), fresh_machine.TEST_PROGRAMS))
    environment = {"QT_QPA_PLATFORM": "offscreen", **fresh_machine.surroundings()}
    if only_pytest:
        return _run([python, "-m", "pytest", *arguments[1:]], environment)
    checks = {
        "lint": [python, "-m", "ruff", "check", "."],
        "types": [python, "-m", "mypy"],
        "floors": [str(Path(python).with_name("lint-imports")), "--no-logo"],
        "tests": [python, "-m", "pytest", "-q", "-m", SIZES[size], f"--hypothesis-profile={size}", *SPREAD],
    }
    failed = []
    for name, command in checks.items():
        print(f"== {name}", flush=True)
        if _run(command, environment):
            failed.append(name)
    if failed:
        print(f"Failed: {', '.join(failed)}.", file=sys.stderr)
    return 1 if failed else 0


def _run(command: list[str], environment: dict[str, str]) -> int:
    return subprocess.call(command, env=environment, cwd=TOP)


def _fresh_machine() -> ModuleType:
    """The launcher's other half, by its place: nothing is installed yet, so no import finds it."""
    path = TOP / "app" / "fresh_machine.py"
    spec = importlib.util.spec_from_file_location("fresh_machine", path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
