"""From a fresh machine to a running program: what `python3 app` and `python3 tests` do before anything is installed.

Standard library only, and syntax that an older Python can still read, so that it can say which Python is needed.
Order: the Python version, system libraries and programs, the environment `.venv`, the packages, bytecode. Each step
says what it does; a second start finds all of it done and says nothing. What cannot be done here is told in one
sentence that names the command to run (exit 2).
"""

from __future__ import annotations

import compileall
import ctypes
import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Iterable, NoReturn, Sequence  # noqa: UP035  (an older Python must get as far as the version check)

TOP = Path(__file__).resolve().parent.parent
VENV = TOP / ".venv"
OLDEST, NEWEST = (3, 11), (3, 14)

# Debian's package -> the library it brings. The first six are Qt without a screen, the last five a real window.
LIBRARIES = {
    "libgl1": "libGL.so.1",
    "libegl1": "libEGL.so.1",
    "libfontconfig1": "libfontconfig.so.1",
    "libglib2.0-0": "libgthread-2.0.so.0",
    "libdbus-1-3": "libdbus-1.so.3",
    "libxkbcommon0": "libxkbcommon.so.0",
    "libxcb-cursor0": "libxcb-cursor.so.0",
    "libxcb-icccm4": "libxcb-icccm.so.4",
    "libxcb-keysyms1": "libxcb-keysyms.so.1",
    "libxkbcommon-x11-0": "libxkbcommon-x11.so.0",
    "libxcb-shape0": "libxcb-shape.so.0",
}
# Debian's package -> the program it brings: a virtual display, and readers of PDF that share no code with ours.
TEST_PROGRAMS = {"xvfb": "Xvfb", "xauth": "xauth", "poppler-utils": "pdfsig", "qpdf": "qpdf"}


def say(line: str) -> None:
    """One line of progress, at once."""
    print(f"Lamproom: {line}", flush=True)


def refuse(sentence: str) -> NoReturn:
    """Stop with one sentence that says what to do (exit 2)."""
    sys.stdout.flush()
    print(sentence, file=sys.stderr, flush=True)
    raise SystemExit(2)


def make_ready(extras: Sequence[str] = (), programs: dict[str, str] | None = None) -> Path:
    """Everything the program (or, with extras and programs, its tests) needs; returns the environment's Python.

    ``extras`` are names from pyproject.toml; ``programs`` are package -> program, asked for on Linux only.
    """
    _check_python()
    if sys.platform == "linux":
        _system_packages(programs or {})
    python = _environment(extras)
    # Bytecode beforehand: where PYTHONDONTWRITEBYTECODE is set, each start would compile every room again.
    compileall.compile_dir(str(TOP / "app" / "lamproom"), quiet=2)
    return python


def display_found() -> bool:
    """Whether a window can be shown: always on Windows and macOS, else if a display answers."""
    if sys.platform != "linux":
        return True
    if os.environ.get("WAYLAND_DISPLAY"):
        return True
    if not os.environ.get("DISPLAY"):
        return False
    xcb = ctypes.CDLL("libxcb.so.1")
    xcb.xcb_connect.restype = ctypes.c_void_p
    connection = ctypes.c_void_p(xcb.xcb_connect(None, None))
    refused = xcb.xcb_connection_has_error(connection)  # a variable alone proves nothing: a lost session keeps it
    xcb.xcb_disconnect(connection)
    return not refused


def surroundings() -> dict[str, str]:
    """The environment for the programs we start: as ours, with UTF-8 where no language is set (Qt asks for it)."""
    names = dict(os.environ)
    if not any(names.get(name) for name in ("LC_ALL", "LC_CTYPE", "LANG")):
        names["LC_ALL"] = "C.UTF-8"
    return names


def become(command: Sequence[str]) -> NoReturn:
    """Let the given program take our place."""
    sys.stdout.flush()
    if os.name == "nt":  # execv on Windows returns to the shell before the program has ended
        raise SystemExit(subprocess.call(list(command), env=surroundings()))
    os.execve(command[0], list(command), surroundings())


def _check_python() -> None:
    if OLDEST <= sys.version_info[:2] <= NEWEST:
        return
    this = ".".join(str(part) for part in sys.version_info[:3])
    refuse(
        f"Lamproom needs Python {_dotted(OLDEST)} to {_dotted(NEWEST)}, and this is Python {this}: "
        f"install one of those and start again with it, for example `python{_dotted(OLDEST)} {sys.argv[0]}`."
    )


def _dotted(version: tuple[int, int]) -> str:
    return ".".join(str(part) for part in version)


def _system_packages(programs: dict[str, str]) -> None:
    missing = _missing_packages(programs)
    if not missing:
        return
    if not shutil.which("apt-get"):
        names = {**LIBRARIES, **programs}
        parts = ", ".join(names.get(package, package) for package in missing)
        refuse(
            f"Lamproom needs {parts}, not found here: install what brings it with this system's package manager, "
            "then start again."
        )
    if os.geteuid() != 0:
        refuse(
            f"Lamproom needs {_count(missing, 'system package')} that this machine lacks: run `sudo apt-get update && "
            f"sudo apt-get install -y --no-install-recommends {' '.join(missing)}`, then start again."
        )
    say(f"installing {_count(missing, 'system package')}: {' '.join(missing)}")
    _apt_get("update")
    _apt_get("install", "-y", "--no-install-recommends", *missing)
    still = _missing_packages(programs)
    if still:
        refuse(f"Installed, and still not found: {' '.join(still)}. Check these system packages, then start again.")


def _missing_packages(programs: dict[str, str]) -> list[str]:
    missing = [package for package, library in LIBRARIES.items() if not _loads(library)]
    missing += [package for package, program in programs.items() if not shutil.which(program)]
    if not _python_of(VENV).exists() and importlib.util.find_spec("ensurepip") is None:
        missing.append(
            "python3-venv"
        )  # Debian keeps the part of Python that makes environments in a package of its own
    return missing


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def _apt_get(*arguments: str) -> None:
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    shown = ("Get:", "Setting up")
    if _run_showing(["apt-get", "-q", *arguments], shown, environment) != 0:
        refuse(
            f"`apt-get {' '.join(arguments)}` failed, its last lines stand above: "
            "put that right (the network, most often), then start again."
        )


def _environment(extras: Sequence[str]) -> Path:
    """`.venv` with the packages in it, made or brought up to date when pyproject, constraints or Python changed."""
    python, digest = _python_of(VENV), _digest()
    if python.exists() and digest in (_stamp(extras), _stamp(("office", "dev"))):
        return python
    if not _same_python(python):
        say(f"making .venv with Python {_dotted(sys.version_info[:2])}")
        if _run_showing([sys.executable, "-m", "venv", "--clear", str(VENV)], ()) != 0:
            refuse("Could not make .venv, see above: check that this folder can be written, then start again.")
    what = f".[{','.join(sorted(extras))}]" if extras else "."
    say("installing the Python packages, some 300 MB the first time" if extras else "installing the Python packages")
    install = [
        str(python),
        "-m",
        "pip",
        "install",
        "--disable-pip-version-check",
        "--no-input",
        "--progress-bar",
        "off",
    ]
    install += ["-c", str(TOP / "packaging" / "constraints.txt"), "-e", what]
    if _run_showing(install, ("Downloading", "Installing")) != 0:
        refuse("The Python packages did not install, see above: check the network, then start again.")
    _stamp_file(extras).write_text(digest, encoding="ascii")
    return python


def _python_of(venv: Path) -> Path:
    return venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def _same_python(python: Path) -> bool:
    """Whether that Python starts, has pip and is of our version; one moved or upgraded away is not."""
    ask = "import pip, sys; print(*sys.version_info[:2], sep='.')"
    try:
        answer = subprocess.run([str(python), "-c", ask], capture_output=True, text=True, check=False)
    except OSError:
        return False
    return answer.returncode == 0 and answer.stdout.strip() == _dotted(sys.version_info[:2])


def _digest() -> str:
    sha = hashlib.sha256(f"{sys.version_info[:2]} {TOP}".encode())
    for name in ("pyproject.toml", "packaging/constraints.txt"):
        sha.update((TOP / name).read_bytes())
    return sha.hexdigest()


def _stamp_file(extras: Sequence[str]) -> Path:
    return VENV / ("installed-" + ("-".join(sorted(extras)) or "program"))


def _stamp(extras: Sequence[str]) -> str:
    path = _stamp_file(extras)
    return path.read_text(encoding="ascii") if path.exists() else ""


def _run_showing(command: Sequence[str], shown: Iterable[str], environment: dict[str, str] | None = None) -> int:
    """Run a program and show only the lines that begin so; all of its last lines if it fails."""
    starts = tuple(shown)
    last: list[str] = []
    with subprocess.Popen(
        list(command),
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
        env=environment,
        cwd=str(TOP),
    ) as running:
        assert running.stdout is not None
        for line in running.stdout:
            last = [*last[-19:], line.rstrip()]
            if starts and line.lstrip().startswith(starts):
                print(f"  {line.strip()[:118]}", flush=True)
    if running.returncode:
        print("\n".join(f"  {line}" for line in last), flush=True)
    return running.returncode


def _count(things: Sequence[str], noun: str) -> str:
    return f"{len(things)} {noun}" + ("" if len(things) == 1 else "s")
