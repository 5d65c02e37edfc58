"""On a fresh machine the two commands do what they can, and say in one sentence what they cannot."""

import ast
import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

APP = Path(__file__).resolve().parents[2] / "app"


@pytest.fixture
def launcher() -> ModuleType:
    spec = importlib.util.spec_from_file_location("fresh_machine", APP / "fresh_machine.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_an_older_python_can_read_the_launchers_far_enough_to_refuse() -> None:
    for path in (APP / "fresh_machine.py", APP / "__main__.py", APP.parent / "tests" / "__main__.py"):
        ast.parse(path.read_text(encoding="utf-8"), feature_version=(3, 8))


def test_a_wrong_python_is_told_which_is_needed(
    launcher: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 9, 2, "final", 0))
    with pytest.raises(SystemExit) as ended:
        launcher.make_ready()
    assert ended.value.code == 2
    assert "needs Python 3.11 to 3.14, and this is Python 3.9.2" in capsys.readouterr().err


@pytest.mark.skipif(sys.platform != "linux", reason="system packages are asked for on Linux only")
def test_an_ordinary_user_gets_one_sentence_with_the_command_to_run(
    launcher: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("os.geteuid", lambda: 1000)
    monkeypatch.setattr("shutil.which", lambda name: "/usr/bin/apt-get" if name == "apt-get" else None)
    with pytest.raises(SystemExit) as ended:
        launcher.make_ready(programs={"qpdf": "qpdf"})
    told = capsys.readouterr()
    assert ended.value.code == 2
    assert told.out == ""
    assert len(told.err.splitlines()) == 1
    assert "sudo apt-get install -y --no-install-recommends" in told.err
    assert "qpdf`, then start again." in told.err


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere there is always a display")
def test_a_variable_that_names_a_display_which_does_not_answer_is_no_display(
    launcher: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.setenv("DISPLAY", ":6543")
    assert not launcher.display_found()
    monkeypatch.delenv("DISPLAY")
    assert not launcher.display_found()
