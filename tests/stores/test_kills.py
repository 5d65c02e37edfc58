"""What was acknowledged survives the writer's death at any moment."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork and SIGKILL")


@pytest.mark.parametrize(
    "count", [50, pytest.param(200, marks=pytest.mark.full), pytest.param(1000, marks=pytest.mark.night)]
)
def test_no_acknowledged_event_is_lost_by_a_kill(count: int) -> None:
    """The writers are forked by a program of its own, not by the test runner with its threads."""
    root = Path(__file__).parents[2]
    done = subprocess.run(
        [sys.executable, "-m", "tests.stores.kills", str(count)], cwd=root, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    found = re.fullmatch(r"(\d+) kills: (\d+) events acknowledged, (\d+) stored, none lost, chain whole\n", done.stdout)
    assert found, done.stdout
    assert int(found[2]) >= count, "too few acts for the kills to mean anything"
