"""The command line: for scripts and for checking. Every command goes through the office, as the window does."""

from __future__ import annotations

import argparse
import gc
import json
import sys
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from lamproom.words import Refusal, say, sentence


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code. A refusal is said in one sentence, with exit code 2."""
    parser = _parser()
    given = parser.parse_args(arguments)
    try:
        return int(given.run(given))
    except Refusal as refusal:
        print(refusal.why.say(), file=sys.stderr)
        return 2


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="lamproom", description=say("cli.about"))
    parser.set_defaults(run=_window)
    parser.add_argument("--site", type=Path, metavar="FOLDER", help=say("cli.site"))
    commands = parser.add_subparsers(metavar="COMMAND")

    demo = commands.add_parser("demo", help=say("cli.demo"), description=say("cli.demo"))
    demo.add_argument("--out", type=Path, metavar="FOLDER", help=say("cli.demo_out"))
    demo.set_defaults(run=_demo)

    verify = commands.add_parser("verify", help=say("cli.verify"), description=say("cli.verify"))
    verify.add_argument("files", nargs="+", type=Path, metavar="FILE")
    verify.add_argument("--root", metavar="FINGERPRINT", help=say("cli.root"))
    verify.add_argument("--json", action="store_true", help=say("cli.json"))
    _site(verify)
    verify.set_defaults(run=_verify)

    assess = commands.add_parser("assess", help=say("cli.assess"), description=say("cli.assess_more"))
    assess.add_argument("file", nargs="?", metavar="FILE", help=say("cli.assess_file"))
    assess.add_argument("--example", action="store_true", help=say("cli.assess_example"))
    assess.add_argument("--schema", action="store_true", help=say("cli.assess_schema"))
    assess.add_argument("--stage", choices=("authorise", "enter", "stay"), help=say("cli.assess_stage"))
    assess.add_argument("--at", metavar="TIME", help=say("cli.assess_at"))
    assess.add_argument("--json", action="store_true", help=say("cli.json"))
    assess.set_defaults(run=_assess)

    # Its own --help tells of one working by its name, so argparse's gives way.
    working = commands.add_parser("working", help=say("cli.working"), add_help=False)
    working.add_argument("name", nargs="?", metavar="NAME")
    working.add_argument("figures", nargs="*", metavar="KEY=FIGURE")
    working.add_argument("-h", "--help", action="store_true", dest="explain")
    working.set_defaults(run=_working)

    export = commands.add_parser("export", help=say("cli.export"), description=say("cli.export"))
    export.add_argument("target", type=Path, metavar="TARGET")
    _site(export)
    export.set_defaults(run=_export)

    backup = commands.add_parser("backup", help=say("cli.backup"), description=say("cli.backup"))
    backup.add_argument("target", type=Path, metavar="FILE")
    _site(backup)
    backup.set_defaults(run=_backup)

    test = commands.add_parser("self-test", help=say("cli.self_test"), description=say("cli.self_test"))
    test.set_defaults(run=_self_test)
    return parser


def _site(parser: argparse.ArgumentParser) -> None:
    """The site may also be named after the command; the name before it is kept when it is not."""
    parser.add_argument("--site", type=Path, metavar="FOLDER", help=say("cli.site"), default=argparse.SUPPRESS)


def _window(given: argparse.Namespace) -> int:
    """Open the window on the site. The window is not on this floor: it is found only when it is asked for."""
    begin_quickly()
    from importlib import import_module

    from lamproom.office.opening import open_office

    office = open_office(given.site)
    return int(import_module("lamproom.desk.opening").run(office))


def begin_quickly() -> None:
    """Start without the collector of garbage: nothing that is made while the window is built is any. The window turns
    it on again once it is shown."""
    gc.disable()


def _demo(given: argparse.Namespace) -> int:
    from lamproom.office import demo

    if given.out is None:
        from importlib import import_module

        office = demo.fresh_demo(_told)
        return int(import_module("lamproom.desk.opening").run(office))
    left = demo.demo_in(given.out, _told)
    print(say("cli.demo_left", folder=str(given.out)))
    for file in left:
        print(f"  {file}")
    return 0


def _told(line: str) -> None:
    print(line, flush=True)


def _verify(given: argparse.Namespace) -> int:
    from lamproom.office.opening import open_office
    from lamproom.office.verify import Verdict, verify_file

    office = open_office(given.site) if given.site is not None else None
    worst = 0
    told = []
    for file in given.files:
        verdict: Verdict = verify_file(_bytes_of(file), office, given.root)
        worst = verdict.code if worst == 0 else max(worst, verdict.code) if 1 not in (worst, verdict.code) else 1
        lines = [{"found": line.found, "sentence": line.sentence.say()} for line in verdict.lines]
        told.append(
            {"file": str(file), "code": verdict.code, "permit": verdict.permit, "root": verdict.root, "lines": lines}
        )
        if not given.json:
            print(say(f"cli.verdict.{verdict.code}", file=str(file)))
            for line in verdict.lines:
                print(f"  {say(f'cli.found.{line.found}')} {line.sentence.say()}")
    if given.json:
        print(json.dumps(told, ensure_ascii=False, indent=2))
    return worst


def _assess(given: argparse.Namespace) -> int:
    """0 allowed, 1 refused, 2 unreadable."""
    from lamproom.intake.permit_document import example, read_document, schema
    from lamproom.office.assess import answer_of, answer_words, assess
    from lamproom.office.opening import forms_at_hand
    from lamproom.permit.obstacles import Stage

    if given.schema or given.example:
        print(json.dumps(schema(), ensure_ascii=False, indent=2) if given.schema else example(), end="\n")
        return 0
    if given.file is None:
        raise Refusal(sentence("cli.assess_what"))
    document = read_document(_text_of(given.file))
    stage = Stage(given.stage) if given.stage is not None else None
    answer = assess(document, forms_at_hand(), stage, _moment(given.at))
    if given.json:
        print(json.dumps(answer_of(answer), ensure_ascii=False, indent=2))
    else:
        for line in answer_words(answer):
            print(line)
    return 0 if answer.allowed else 1


def _working(given: argparse.Namespace) -> int:
    """Work one thing out, tell what it asks for, or list all."""
    from lamproom.air.working_list import WORKINGS
    from lamproom.air.workings import explained, find, told, work_out

    if given.name is None:
        print(say("cli.working_more"))
        for entry in WORKINGS:
            print(f"  {entry.name:<22} {entry.title()}")
        return 0
    entry = find(WORKINGS, given.name)
    for line in explained(entry) if given.explain else told(work_out(entry, given.figures)):
        print(line)
    return 0


def _text_of(file: str) -> str:
    """The text of a file, or of standard input for '-'. Refused when it is no text."""
    data = sys.stdin.buffer.read() if file == "-" else _bytes_of(Path(file))
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Refusal(sentence("cli.no_text", file=file)) from error


def _moment(text: str | None) -> datetime | None:
    """The moment of '--at', None when none was given. Refused without its offset from UTC."""
    if text is None:
        return None
    try:
        moment = datetime.fromisoformat(text)
    except ValueError as error:
        raise Refusal(sentence("cli.no_moment", text=text)) from error
    if moment.tzinfo is None:
        raise Refusal(sentence("cli.no_moment", text=text))
    return moment.astimezone(UTC)


def _bytes_of(file: Path) -> bytes:
    try:
        return file.read_bytes()
    except OSError as error:
        raise Refusal(sentence("cli.cannot_read", file=str(file), why=error.strerror or "")) from error


def _export(given: argparse.Namespace) -> int:
    from lamproom.office.export import export_site
    from lamproom.office.opening import open_office

    done = export_site(open_office(given.site), given.target)
    print(say("cli.exported", target=str(done.where), count=done.head.number))
    return 0


def _backup(given: argparse.Namespace) -> int:
    from lamproom.office.export import back_up_site
    from lamproom.office.opening import open_office

    done = back_up_site(open_office(given.site), given.target)
    print(say("cli.backed_up", target=str(done.where), count=done.head.number))
    return 0


def _self_test(given: argparse.Namespace) -> int:
    from lamproom.office.self_test import self_test

    failed = False
    for found, line in self_test():
        print(f"  {say(f'cli.found.{found}')} {line}", flush=True)
        failed = failed or found == "wrong"
    print(say("cli.self_test_failed" if failed else "cli.self_test_passed"))
    return 1 if failed else 0
