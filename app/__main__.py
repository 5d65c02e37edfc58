"""`python3 app …` is `lamproom …`, and makes a fresh machine ready first.

`python3 app demo` opens the invented site in the real window. Without a display it says so, and lives the demo's
shift without a window: permits and pictures are left in a folder that it names.
"""

from __future__ import annotations

import subprocess
import sys
from itertools import count
from pathlib import Path

import fresh_machine


def main(arguments: list[str]) -> None:
    """Make ready, then let the program take our place."""
    python = str(fresh_machine.make_ready())
    if arguments == ["demo"] and not fresh_machine.display_found():
        _without_a_window(python)
    if not arguments and not fresh_machine.display_found():
        fresh_machine.refuse(
            "Lamproom has no display to open its window on: start it in a desktop session, or run "
            "`python3 app demo` to live a demo shift without a window."
        )
    fresh_machine.become([python, "-m", "lamproom", *arguments])


def _without_a_window(python: str) -> None:
    folder = _new_folder()
    fresh_machine.say("no display found, so the demo shift is lived without a window.")
    fresh_machine.say(f"its permits and pictures go to {folder}")
    # Without a screen Qt warns at each window that it has no frame; a reader would take that for a fault of ours.
    quiet = {"QT_QPA_PLATFORM": "offscreen", "QT_LOGGING_RULES": "default.warning=false"}
    environment = {**fresh_machine.surroundings(), **quiet}
    for step in (["-m", "lamproom", "demo"], [str(fresh_machine.TOP / "demo" / "pictures.py")]):
        if code := subprocess.call([python, *step, "--out", str(folder)], env=environment):
            raise SystemExit(code)
    fresh_machine.say(f"done; look into {folder}")
    raise SystemExit(0)


def _new_folder() -> Path:
    """The first of build/demo-1, build/demo-2 … that does not exist; an earlier one is never written over."""
    return next(folder for n in count(1) if not (folder := fresh_machine.TOP / "build" / f"demo-{n}").exists())


if __name__ == "__main__":
    main(sys.argv[1:])
