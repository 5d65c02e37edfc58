"""What we ask for is pinned at a version that satisfies the asking, so that two machines install the same."""

import re
import tomllib
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TOP = Path(__file__).resolve().parents[2]


def test_every_dependency_is_pinned_at_a_version_that_it_allows() -> None:
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = [Requirement(line) for line in project["dependencies"]]
    asked += [Requirement(line) for extra in project["optional-dependencies"].values() for line in extra]
    pins: dict[str, list[str]] = {}
    for line in (TOP / "packaging" / "constraints.txt").read_text(encoding="utf-8").splitlines():
        pin = Requirement(line)
        pins.setdefault(canonicalize_name(pin.name), []).append(str(pin.specifier).removeprefix("=="))
    wrong = [
        str(need)
        for need in asked
        if not any(need.specifier.contains(version) for version in pins.get(canonicalize_name(need.name), []))
    ]
    assert wrong == []


def test_the_constraints_hold_names_and_versions_only() -> None:
    lines = (TOP / "packaging" / "constraints.txt").read_text(encoding="utf-8").splitlines()
    assert [line for line in lines if not re.fullmatch(r"[a-z0-9-]+==[\w.+]+( ; [\w.'=<>! ]+)?", line)] == []
