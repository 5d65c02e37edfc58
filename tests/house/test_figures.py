"""A figure that a person saw keeps its digits: events hold decimal strings, never floats."""

import ast
from pathlib import Path

import pytest

APP = Path(__file__).resolve().parents[2] / "app" / "lamproom"


def floats(source: str) -> list[int]:
    """The lines of a module that hold a float, as a literal or by name."""
    return [
        node.lineno
        for node in ast.walk(ast.parse(source))
        if (isinstance(node, ast.Constant) and isinstance(node.value, float))
        or (isinstance(node, ast.Name) and node.id == "float")
    ]


@pytest.mark.parametrize("room", ["permit", "bench"])
def test_no_event_holds_a_float(room: str) -> None:
    assert floats((APP / room / "events.py").read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("line", ["oxygen = 20.9", "oxygen: float", "def took(value: list[float]) -> None: ..."])
def test_the_check_sees_a_float(line: str) -> None:
    assert floats(line) == [1]
