"""A permit told in a document is judged as the window judges it; what cannot be read is said with its field."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from tests.office.as_document import document_of
from tests.stories.lives import DAY_TABLE, in_memory

from lamproom.bench.state import as_of
from lamproom.cli import main
from lamproom.intake.permit_document import Unreadable, example, read_document, schema
from lamproom.office import replay
from lamproom.office.assess import assess
from lamproom.office.opening import forms_at_hand
from lamproom.permit import state as permits
from lamproom.permit.obstacles import Stage, obstacles


@pytest.fixture(scope="module")
def shift(tmp_path_factory: pytest.TempPathFactory) -> replay.Shift:
    shift = in_memory(tmp_path_factory.mktemp("assess"))
    replay.set_up(shift)
    replay.live(shift, DAY_TABLE)
    return shift


@pytest.mark.parametrize("letter", ["A", "B", "C"])
def test_at_every_moment_of_the_day_the_document_is_judged_as_the_site_is(shift: replay.Shift, letter: str) -> None:
    """The office's own facts, cut at each event, and the document asked at the same moment: the same obstacles."""
    number = shift.permits[letter]
    past = list(shift.office.happenings(f"permit/{number}"))
    document = read_document(json.dumps(document_of(shift.office, number)))
    whole = shift.office.facts(number)
    everyone = {id: shift.office.person(id) for id in shift.office.ids("person")}
    asked = 0
    for at in sorted({h.at for h in past}):
        then = permits.fold(h for h in past if h.at <= at)
        facts = type(whole)(
            permit=then,
            instruments={id: as_of(shift.office.instrument(id), at) for id in then.instruments},
            people=everyone,
            at=at,
            names=whole.names,
        )
        told = assess(document, forms_at_hand(), at=at)
        mine = {(o.code, o.found.subject, o.sentence.say(), o.stages) for o in obstacles(facts)}
        theirs = {(o.code, o.found.subject, o.sentence.say(), o.stages) for o in (*told.standing, *told.others)}
        assert theirs == mine, at
        asked += 1
    assert asked >= 5


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    code = main(["assess", *arguments])
    out, err = capsys.readouterr()
    return code, out, err


def write(folder: Path, told: Any) -> str:
    file = folder / "permit.json"
    file.write_text(told if isinstance(told, str) else json.dumps(told), encoding="utf-8")
    return str(file)


def test_the_example_is_allowed_and_can_be_piped(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    code, out, _ = run(capsys, "--example")
    assert code == 0
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(out.encode())))
    code, out, err = run(capsys, "-", "--json")
    assert (code, err) == (0, "")
    assert json.loads(out)["verdict"] == "allowed"


def test_without_a_stage_the_next_act_is_asked_and_named(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    file = write(tmp_path, example())
    stages = {}
    for at in ("08:40", "08:59", "09:05"):
        _, out, _ = run(capsys, file, "--json", "--at", f"2026-11-17T{at}:00-06:00")
        stages[at] = json.loads(out)["stage"]
    assert stages == {"08:40": "authorise", "08:59": "enter", "09:05": "stay"}


def test_a_refusal_names_code_stage_sentence_citation_and_way_out(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    file = write(tmp_path, example())
    code, out, _ = run(capsys, file, "--json", "--at", "2026-11-17T09:40:00-06:00")
    told = json.loads(out)
    assert (code, told["verdict"], told["stage"]) == (1, "refused", "stay")
    [one] = told["obstacles"]
    assert one["code"] == "retest-overdue"
    assert one["stages"] == ["enter", "stay"]
    assert one["citation"].startswith("29 CFR 1910.146")
    assert all(one[key] for key in ("sentence", "way_out", "where"))
    code, out, _ = run(capsys, file, "--at", "2026-11-17T09:40:00-06:00")
    assert code == 1
    assert "REFUSED" in out and "retest-overdue" in out


UNREADABLE = {
    "no JSON": ("{", "line 1"),
    "a list": ("[]", "one permit"),
    "a word twice": ('{"lamproom": "permit 1", "lamproom": "permit 1"}', "lamproom"),
    "not a number": ('{"at": NaN}', "NaN"),
    "too deep": ("[" * 100_000, "deep"),
}


@pytest.mark.parametrize("name", UNREADABLE)
def test_what_is_no_document_is_said_in_a_sentence(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, name: str
) -> None:
    text, word = UNREADABLE[name]
    code, out, err = run(capsys, write(tmp_path, text))
    assert (code, out) == (2, "")
    assert word in err
    assert "Traceback" not in err


def test_bytes_that_are_no_text_a_missing_file_and_a_time_without_its_offset(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    (tmp_path / "x").write_bytes(b"\xff\xfe\x00")
    assert run(capsys, str(tmp_path / "x"))[0] == 2
    assert run(capsys, str(tmp_path / "nothing"))[0] == 2
    assert run(capsys, write(tmp_path, example()), "--at", "2026-11-17T09:00:00")[0] == 2
    assert run(capsys)[0] == 2


def paths(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    found = [path] if isinstance(value, dict) else []
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return found + [p for key, inner in items for p in paths(inner, (*path, key))]


def at(value: Any, path: tuple[Any, ...]) -> Any:
    for key in path:
        value = value[key]
    return value


FREE = {("evaluation", "standing")}
"""Objects whose keys are the writer's own: item ids, gases."""


def test_an_unknown_word_anywhere_is_unreadable_and_named() -> None:
    told = json.loads(example())
    tried = 0
    for path in paths(told):
        if path in FREE or path[-1:] == ("gases",):
            continue
        changed = json.loads(example())
        at(changed, path)["nobody-declared-this"] = 1
        with pytest.raises(Unreadable) as refused:
            read_document(json.dumps(changed))
        assert "nobody-declared-this" in refused.value.why.say(), path
        tried += 1
    assert tried > 50


def test_the_schema_describes_the_example() -> None:
    told = schema()
    Draft202012Validator.check_schema(told)
    judge = Draft202012Validator(told)
    written = json.loads(example())
    assert [error.message for error in judge.iter_errors(written)] == []
    assert list(judge.iter_errors({**written, "nobody-declared-this": "1"}))


def test_a_step_against_what_stands_is_counted_all_the_same() -> None:
    told = json.loads(example())
    told["happened"] = [one for one in told["happened"] if one["what"] != "briefed"]
    answer = assess(read_document(json.dumps(told)), forms_at_hand())
    assert [trip.who for trip in answer.facts.permit.tally.inside] == ["P-04"]
    assert answer.stage is Stage.STAY
    assert "not-authorised" in {o.code for o in answer.standing}
    assert {lost.what for lost in answer.not_taken} >= {"authorised", "went-in"}
