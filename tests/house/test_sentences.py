"""What people read comes from the catalogue: each sentence is said somewhere, and each thing said is a sentence."""

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from string import Formatter

import pytest

from lamproom.words.catalogue import ids, text_of

APP = Path(__file__).resolve().parents[2] / "app" / "lamproom"
SPEAKERS = {"say", "sentence", "say_count"}
CATALOGUE = {id: text_of(id, "en-US") for id in ids()}
COUNTED = {id.removesuffix(".one") for id in CATALOGUE if id.endswith(".one")}

# "Intrinsically safe" is a property of equipment (IEC 60079-11), not a verdict on a space.
VERDICT = re.compile(r"(?<!intrinsically )\bsafe\b|\bO\.?K\b|\bokay\b", re.IGNORECASE)
# British spellings of words the trade uses; the catalogue is English of the United States.
BRITISH = re.compile(
    r"\w*(?:authoris|sulphid|colour|recognis|minimis|labell|programme)\w*|\b(?:milli)?(?:met|lit)res?\b"
)


@dataclass(frozen=True)
class Said:
    """One place where a sentence is said: its literal id and the names of the values given, None if they vary."""

    place: str
    speaker: str
    id: str
    values: frozenset[str] | None


def trees() -> Iterator[tuple[Path, ast.AST]]:
    for path in sorted(APP.rglob("*.py")):
        yield path.relative_to(APP), ast.parse(path.read_text(encoding="utf-8"))


def said() -> Iterator[Said]:
    for path, tree in trees():
        for node in ast.walk(tree):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            first = node.args[0]
            if name in SPEAKERS and isinstance(first, ast.Constant) and isinstance(first.value, str):
                given = {keyword.arg for keyword in node.keywords}
                values = None if None in given else frozenset(str(arg) for arg in given) - {"language"}
                yield Said(f"{path}:{node.lineno}", name, first.value, values)


def mentioned() -> tuple[set[str], set[str]]:
    """Every text literal outside the catalogue, and the beginning of every f-string: tables of ids, ids by kind."""
    whole, beginnings = set(), set()
    for path, tree in trees():
        if path.parts[0] == "words":
            continue
        for node in ast.walk(tree):
            if isinstance(node, ast.JoinedStr) and node.values and isinstance(node.values[0], ast.Constant):
                beginnings.add(str(node.values[0].value))
            elif isinstance(node, ast.Constant) and isinstance(node.value, str):
                whole.add(node.value)
    return whole, {beginning for beginning in beginnings if re.fullmatch(r"[a-z_]+\.[a-z0-9_.]*", beginning)}


def places(text: str) -> set[str]:
    """The names that stand open in a sentence."""
    return {re.split(r"[.\[]", name)[0] for _, name, _, _ in Formatter().parse(text) if name}


def test_everything_said_by_a_literal_id_stands_in_the_catalogue() -> None:
    unknown = [
        f"{one.place}: {one.id}"
        for one in said()
        if one.id not in (COUNTED if one.speaker == "say_count" else CATALOGUE)
    ]
    assert unknown == []


def test_everything_said_gives_the_values_that_its_sentence_names() -> None:
    wrong = []
    for one in said():
        forms = [one.id + ".one", one.id + ".other"] if one.speaker == "say_count" else [one.id]
        open_places = {name for form in forms for name in places(CATALOGUE.get(form, ""))}
        open_places -= {"n"} if one.speaker == "say_count" else set()
        if one.values is not None and not open_places <= one.values:
            wrong.append(f"{one.place}: {one.id} lacks {sorted(open_places - one.values)}")
    assert wrong == []


def test_every_sentence_of_the_catalogue_is_said_somewhere() -> None:
    whole, beginnings = mentioned()
    silent = [
        id
        for id in CATALOGUE
        if id not in whole
        and re.sub(r"\.(one|other)$", "", id) not in whole
        and not any(id.startswith(beginning) for beginning in beginnings)
    ]
    assert silent == []


def test_a_count_has_both_its_forms() -> None:
    assert {id for id in COUNTED if id + ".other" not in CATALOGUE} == set()


def test_no_sentence_gives_the_verdict_safe_or_ok() -> None:
    """The tool names what stands in the way; that nothing does is for people to judge."""
    assert {id: text for id, text in CATALOGUE.items() if VERDICT.search(text)} == {}


def test_sentences_are_spelled_as_in_the_united_states() -> None:
    assert {id: text for id, text in CATALOGUE.items() if BRITISH.search(text)} == {}


@pytest.mark.parametrize(
    ("text", "is_verdict"),
    [("Safe to enter", True), ("All OK.", True), ("Safety office", False), ("an intrinsically safe lamp", False)],
)
def test_the_check_for_verdicts_knows_one_when_it_sees_one(text: str, is_verdict: bool) -> None:
    assert bool(VERDICT.search(text)) == is_verdict
