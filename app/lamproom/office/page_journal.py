"""The journal that travels inside a page: every event the permit rests on, with the keys and names to read them."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding

from lamproom.office.office import SITE, Office
from lamproom.permit.state import Permit
from lamproom.record.journal import Sealed
from lamproom.words import Refusal, sentence

FORMAT = 1


@dataclass(frozen=True, slots=True)
class Travelling:
    """A journal read back from a page: its events in order with their site numbers (0 for those of the page's own act),
    certificates by key id (DER), the root's (DER), names by person id, and the permit's number."""

    number: str
    events: tuple[tuple[Sealed, int], ...]
    certificates: Mapping[str, bytes]
    root: bytes
    names: Mapping[str, str]


def streams_of(permit: Permit, people: Iterable[str]) -> tuple[str, ...]:
    """The streams that a permit rests on: the site, the space, its instruments, its people, then its own."""
    return (
        SITE,
        f"space/{permit.opened.space}",
        *(f"instrument/{id}" for id in permit.instruments),
        *(f"person/{id}" for id in dict.fromkeys(people)),
        f"permit/{permit.number}",
    )


def people_of(permit: Permit) -> tuple[str, ...]:
    """Everyone who has a part in the permit or put a name to something in it."""
    named = [
        *permit.entrants,
        *permit.attendants,
        *(d.person for d in permit.watch),
        *(d.person for d in permit.supervisors),
    ]
    if permit.supervisor is not None:
        named.append(permit.supervisor)
    if permit.opened_by is not None:
        named.append(permit.opened_by)
    return tuple(dict.fromkeys(named))


def written(office: Office, permit: Permit, fresh: Sequence[Sealed], people: Iterable[str]) -> bytes:
    """The attachment: a head line, then one event a line, exact bytes as signed."""
    events: list[tuple[Sealed, int]] = []
    for stream in streams_of(permit, people):
        events += [(entry.sealed, entry.number) for entry in office.journal.stream(stream)]
    events += [(sealed, 0) for sealed in fresh]
    keys = dict.fromkeys(sealed.key for sealed, _number in events)
    head = {
        "lamproom_journal": FORMAT,
        "permit": permit.number,
        "root": _base64(office.keys.root_certificate().public_bytes(Encoding.DER)),
        "certificates": {key: _base64(office.keys.certificate_of(key).public_bytes(Encoding.DER)) for key in keys},
        "names": dict(office.names()) if not people else {p: office.names().get(p, p) for p in _all_ids(events)},
    }
    lines = [_line(head), *(_line(_event(sealed, number)) for sealed, number in events)]
    return "\n".join(lines).encode() + b"\n"


def _all_ids(events: Iterable[tuple[Sealed, int]]) -> tuple[str, ...]:
    """Ids of everyone who did something here or whose stream travels; nobody else's name goes into the page."""
    found: dict[str, None] = {}
    for sealed, _number in events:
        by = json.loads(sealed.body).get("by")
        if by:
            found[by] = None
        if sealed.stream.startswith("person/"):
            found[sealed.stream.removeprefix("person/")] = None
    return tuple(found)


def _event(sealed: Sealed, number: int) -> dict[str, Any]:
    return {
        "number": number,
        "stream": sealed.stream,
        "version": sealed.version,
        "kind": sealed.kind,
        "kind_version": sealed.kind_version,
        "act": sealed.act,
        "body": sealed.body.decode(),
        "hash": sealed.hash.hex(),
        "signature": _base64(sealed.signature),
        "key": sealed.key,
    }


def _line(fields: Mapping[str, Any]) -> str:
    return json.dumps(fields, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def _base64(content: bytes) -> str:
    return base64.b64encode(content).decode()


class NoJournal(Refusal):
    """The page holds no journal that can be read."""

    def __init__(self) -> None:
        super().__init__(sentence("office.verify.no_journal"))


def read_back(content: bytes) -> Travelling:
    """The journal of a page. NoJournal for anything that is not one; what it says is not yet verified."""
    try:
        head, *lines = [json.loads(line) for line in content.decode().splitlines()]
        if head["lamproom_journal"] != FORMAT:
            raise NoJournal()
        events = tuple((_sealed(line), int(line["number"])) for line in lines)
        return Travelling(
            number=str(head["permit"]),
            events=events,
            certificates={str(key): base64.b64decode(text) for key, text in head["certificates"].items()},
            root=base64.b64decode(head["root"]),
            names={str(id): str(name) for id, name in head["names"].items()},
        )
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise NoJournal() from error


def _sealed(line: Mapping[str, Any]) -> Sealed:
    return Sealed(
        stream=str(line["stream"]),
        version=int(line["version"]),
        kind=str(line["kind"]),
        kind_version=int(line["kind_version"]),
        act=str(line["act"]),
        body=str(line["body"]).encode(),
        hash=bytes.fromhex(line["hash"]),
        signature=base64.b64decode(line["signature"]),
        key=str(line["key"]),
    )


def root_of(travelling: Travelling) -> x509.Certificate:
    """The root certificate that the page brings; NoJournal when it is none."""
    try:
        return x509.load_der_x509_certificate(travelling.root)
    except ValueError as error:
        raise NoJournal() from error
