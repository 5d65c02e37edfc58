"""The top of the tree is small enough to read at a glance, and nothing in it knows where it was written."""

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
ALLOWED = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "app", "tests", "forms", "demo", "packaging"}
MADE_HERE = {"build", "dist", "__pycache__"}  # by the launchers and the packager; ignored by version control
TEXT = {".py", ".md", ".toml", ".txt", ".json", ".svg", ".yml", ".yaml", ".sh", ".csv", ""}

ELSEWHERE = re.compile(r"(?<![\w.])/(?:home|root|work|Users)/\w|(?<![\w/-])shared/\w")
PACKAGE_HOST = re.compile(r"index-url|find-links|pythonhosted|artifactory|//[\w.-]*pypi", re.IGNORECASE)
PAPER = re.compile(r"(?<![\w*{}<>])[\w./-]*\w\.md\b")


def texts() -> Iterator[tuple[Path, str]]:
    """Every text file of the tree but this one, which has to name what it looks for."""
    for path in sorted(TOP.rglob("*")):
        parts = path.relative_to(TOP).parts
        if parts[0] in MADE_HERE or (parts[0].startswith(".") and parts[0] != ".ci") or "__pycache__" in parts:
            continue
        if path.is_file() and path.suffix in TEXT and path != Path(__file__).resolve():
            yield path.relative_to(TOP), path.read_text(encoding="utf-8")


def lines_with(pattern: re.Pattern[str]) -> list[str]:
    return [
        f"{path}:{number}: {line.strip()}"
        for path, text in texts()
        for number, line in enumerate(text.splitlines(), 1)
        if pattern.search(line)
    ]


def test_only_the_agreed_names_stand_at_the_top() -> None:
    names = {path.name for path in TOP.iterdir() if not path.name.startswith(".")}
    assert names - MADE_HERE - ALLOWED == set()


def test_no_file_names_a_folder_of_the_machine_it_was_written_on() -> None:
    assert lines_with(ELSEWHERE) == []


def test_no_file_names_a_host_of_packages() -> None:
    assert lines_with(PACKAGE_HOST) == []


def test_every_paper_that_is_named_is_in_the_tree() -> None:
    """A reader sent to a paper that only its author has is sent nowhere."""
    present = {path.name for path, _ in texts() if path.suffix == ".md"}
    named = {
        f"{path}: {name}" for path, text in texts() for name in PAPER.findall(text) if Path(name).name not in present
    }
    assert named - {"packaging/changes/README.md: retest-sounds-earlier.md"} == set()


def test_every_form_can_be_read_as_toml() -> None:
    forms = sorted((TOP / "forms").glob("*.toml"))
    assert forms
    for form in forms:
        assert tomllib.loads(form.read_text(encoding="utf-8")), form.name
