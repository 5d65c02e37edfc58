"""The floors hold, and each of their four contracts refuses what it is there to refuse.

Tried on a bare skeleton of the rooms with the contracts of the real pyproject.toml: one breach of each, in one run.
"""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]
ROOMS = ["desk", "office", "record", "paper", "intake", "permit", "bench", "air", "words"]


@pytest.fixture
def skeleton(tmp_path: Path) -> Path:
    """The rooms, empty, under the real contracts."""
    shutil.copy(TOP / "pyproject.toml", tmp_path)
    house = tmp_path / "lamproom"
    for room in ROOMS:
        (house / room).mkdir(parents=True)
        (house / room / "__init__.py").touch()
    for file in ("__init__.py", "__main__.py", "cli.py"):
        (house / file).touch()
    return house


def floors(house: Path) -> tuple[int, str]:
    """The exit code and the words of the checker of imports, run on that house."""
    tool = Path(sys.executable).with_name("lint-imports")
    run = subprocess.run(
        [str(tool), "--no-cache", "--no-logo"], cwd=house.parent, capture_output=True, text=True, check=False,
        env={"PATH": "", "COLUMNS": "200", "PYTHONIOENCODING": "utf-8", "LC_ALL": "C.UTF-8"},
    )  # fmt: skip
    return run.returncode, run.stdout + run.stderr


def test_an_empty_house_keeps_all_four_contracts(skeleton: Path) -> None:
    code, words = floors(skeleton)
    assert (code, "4 kept, 0 broken" in words) == (0, True), words


def test_a_breach_of_each_contract_is_refused_with_its_line(skeleton: Path) -> None:
    (skeleton / "air" / "limits.py").write_text("import lamproom.permit\n")  # upward
    (skeleton / "cli.py").write_text("import lamproom.desk\n")  # sideways
    (skeleton / "attic").mkdir()
    (skeleton / "attic" / "__init__.py").touch()  # a room without a floor
    (skeleton / "office" / "go_in.py").write_text("from PySide6 import QtCore\n")
    (skeleton / "bench" / "readiness.py").write_text("'''When it runs out.'''\nimport time\n")
    (skeleton / "desk" / "watch.py").write_text("import lamproom.desk.board\n")
    (skeleton / "desk" / "board.py").write_text("import lamproom.desk.watch\n")  # a circle
    code, words = floors(skeleton)
    assert code == 1
    for refused in (
        "0 kept, 4 broken",
        "lamproom.air.limits -> lamproom.permit (l.1)",
        "lamproom.cli -> lamproom.desk (l.1)",
        "lamproom.attic",
        "lamproom.office.go_in -> PySide6 (l.1)",
        "lamproom.bench.readiness -> time (l.2)",
        "No cycles are allowed in lamproom.desk.",
    ):
        assert refused in words, f"{refused}\n{words}"
