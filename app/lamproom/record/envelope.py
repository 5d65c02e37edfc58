"""The envelope: who, when, where and what of one event, and the one way in which it is written down to be signed.

The written form is a strict subset of RFC 8785 (JSON Canonicalization Scheme): keys are ASCII and sorted, strings are
in Unicode normal form C, numbers are integers within +-2^53, no floats, no space between tokens. Two programs that
agree on an event therefore agree on its bytes. Reading is as strict as writing: ``from_bytes`` accepts only what
``to_bytes`` would have written, so that one event never has two hashes.
"""

from __future__ import annotations

import hashlib
import json
import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from typing import Any, NoReturn, Protocol, TypeAlias

from lamproom.record.journal import Sealed
from lamproom.record.refusals import Unreadable
from lamproom.words import sentence

JSON: TypeAlias = "bool | int | str | Sequence[JSON] | Mapping[str, JSON] | None"

HASH_PURPOSE = b"lamproom event 1\n"
SIGNATURE_PURPOSE = b"lamproom signature 1\n"
LARGEST_INTEGER = 2**53
"""Beyond it other readers of JSON round (RFC 8785, appendix D, after IEEE 754)."""
DEEPEST = 24
"""Levels of nesting in ``data``; forms and readings need about six."""

_TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z")
_BOOT_NS = re.compile(r"0|[1-9]\d{0,19}")


class Signer(Protocol):
    """Whoever holds a key: ``key`` is the key's id, ``sign`` gives an ECDSA P-256 signature with SHA-256, as DER."""

    @property
    def key(self) -> str: ...

    def sign(self, data: bytes) -> bytes: ...


@dataclass(frozen=True, slots=True)
class Envelope:
    """One event before it is sealed.

    ``at`` is the moment as judged by the office's clock, ``wall`` what the wall clock showed, both in UTC to the
    millisecond; ``boot`` and ``boot_ns`` are the boot's id and the time since boot in nanoseconds, ``zone`` the IANA
    name of the zone in which people read it, ``unconfirmed`` true while nobody has confirmed the time. ``by`` is the
    person's id, None when nobody was named (the station acts). ``data`` is the event's own content; its strings are
    brought into normal form C. ValueError or TypeError for what cannot be written exactly (a float, a naive time).
    """

    stream: str
    version: int
    previous: bytes
    kind: str
    kind_version: int
    act: str
    by: str | None
    station: str
    at: datetime
    wall: datetime
    boot: str
    boot_ns: int
    zone: str
    unconfirmed: bool
    data: Mapping[str, JSON]

    def __post_init__(self) -> None:
        for name in ("stream", "kind", "act", "station", "boot", "zone"):
            object.__setattr__(self, name, _word(name, getattr(self, name)))
        if self.by is not None:
            object.__setattr__(self, "by", _word("by", self.by))
        for name in ("at", "wall"):
            object.__setattr__(self, name, _moment(name, getattr(self, name)))
        for name in ("version", "kind_version"):
            _whole(name, getattr(self, name), least=1, most=LARGEST_INTEGER)
        _whole("boot_ns", self.boot_ns, least=0, most=10**20 - 1)
        if len(self.previous) != 32:
            raise ValueError("previous must be the 32 bytes of a hash")
        if not isinstance(self.unconfirmed, bool):
            raise TypeError("unconfirmed must be true or false")
        if not isinstance(self.data, Mapping):
            raise TypeError("data must have names")
        object.__setattr__(self, "data", _normal(self.data, "data", DEEPEST))


_FIELDS = frozenset(Envelope.__slots__)


def to_bytes(envelope: Envelope) -> bytes:
    """The canonical JSON of an envelope, UTF-8. Whatever an envelope can hold can be written."""
    fields: dict[str, JSON] = {
        "act": envelope.act,
        "at": _written(envelope.at),
        "boot": envelope.boot,
        "boot_ns": str(envelope.boot_ns),  # passes 2^53 after 104 days without a restart, hence a string
        "by": envelope.by,
        "data": envelope.data,
        "kind": envelope.kind,
        "kind_version": envelope.kind_version,
        "previous": envelope.previous.hex(),
        "station": envelope.station,
        "stream": envelope.stream,
        "unconfirmed": envelope.unconfirmed,
        "version": envelope.version,
        "wall": _written(envelope.wall),
        "zone": envelope.zone,
    }
    return json.dumps(fields, sort_keys=True, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


@lru_cache(maxsize=64)  # storing one event reads it several times: placing it, chaining it, taking it in
def from_bytes(body: bytes) -> Envelope:
    """The envelope written in ``body``. Unreadable for anything that ``to_bytes`` would have written otherwise."""
    fields = _parsed(body)
    if not isinstance(fields, dict):
        raise Unreadable(sentence("record.unreadable.value", name="event"))
    _check_names(fields)
    try:
        envelope = Envelope(
            **{
                **fields,
                "previous": bytes.fromhex(_text(fields["previous"])),
                "at": _read_time(fields["at"]),
                "wall": _read_time(fields["wall"]),
                "boot_ns": _read_boot(fields["boot_ns"]),
            }
        )
    except (ValueError, TypeError) as error:
        raise Unreadable(sentence("record.unreadable.value", name=str(error))) from error
    if to_bytes(envelope) != body:
        raise Unreadable(sentence("record.unreadable.other_writing"))
    return envelope


def hash_of(body: bytes) -> bytes:
    """SHA-256 of an event's exact bytes, with its purpose in front so that it can never pass for another hash."""
    return hashlib.sha256(HASH_PURPOSE + body).digest()


def seal(envelope: Envelope, signer: Signer) -> Sealed:
    """The event as it will be stored: exact bytes, their hash, and a signature over that hash."""
    body = to_bytes(envelope)
    hash = hash_of(body)
    return Sealed(
        stream=envelope.stream,
        version=envelope.version,
        kind=envelope.kind,
        kind_version=envelope.kind_version,
        act=envelope.act,
        body=body,
        hash=hash,
        signature=signer.sign(SIGNATURE_PURPOSE + hash),
        key=signer.key,
    )


def _word(name: str, value: object) -> str:
    if not isinstance(value, str):
        raise TypeError(f"{name} must be text")
    normal = _nfc(name, value)
    if not normal or not normal.isprintable():
        raise ValueError(f"{name} must be printable text")
    return normal


def _nfc(name: str, text: str) -> str:
    try:
        text.encode()
    except UnicodeEncodeError as error:
        raise ValueError(f"{name} holds half a character") from error
    return unicodedata.normalize("NFC", text)


def _moment(name: str, value: datetime) -> datetime:
    if value.utcoffset() is None:
        raise ValueError(f"{name} must carry its zone")
    utc = value.astimezone(UTC)
    return utc.replace(microsecond=utc.microsecond // 1000 * 1000)


def _whole(name: str, value: object, least: int, most: int) -> None:
    if isinstance(value, bool) or not isinstance(value, int):
        raise TypeError(f"{name} must be a whole number")
    if not least <= value <= most:
        raise ValueError(f"{name} is out of range")


def _normal(value: Any, name: str, deep: int) -> JSON:
    """A copy of ``value`` that nobody else can change, with strings in normal form C."""
    if deep == 0:
        raise ValueError(f"{name} is nested too deeply")
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, str):
        return _nfc(name, value)
    if isinstance(value, int):
        _whole(name, value, least=-LARGEST_INTEGER, most=LARGEST_INTEGER)
        return int(value)
    if isinstance(value, Mapping):
        return {_key(name, key): _normal(item, str(key), deep - 1) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_normal(item, name, deep - 1) for item in value]
    raise TypeError(f"{name} is a {type(value).__name__}, which cannot be written exactly")


def _key(name: str, key: object) -> str:
    if not isinstance(key, str) or not key.isascii():
        raise ValueError(f"{name} has a name that is not ASCII: {key!r}")
    return key


def _written(moment: datetime) -> str:
    return moment.isoformat(timespec="milliseconds").removesuffix("+00:00") + "Z"


def _parsed(body: bytes) -> object:
    try:
        text = body.decode()
    except UnicodeDecodeError as error:
        raise Unreadable(sentence("record.unreadable.not_utf8", at=error.start)) from error
    try:
        return json.loads(
            text,
            object_pairs_hook=_once,
            parse_float=_refuse_number,
            parse_constant=_refuse_number,
            parse_int=_read_integer,
        )
    except json.JSONDecodeError as error:
        raise Unreadable(sentence("record.unreadable.not_json", at=error.pos)) from error
    except RecursionError as error:
        raise Unreadable(sentence("record.unreadable.too_deep")) from error


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    """Python keeps the last of two equal keys without a word; a signed event may have only one."""
    found: dict[str, object] = {}
    for name, value in pairs:
        if name in found:
            raise Unreadable(sentence("record.unreadable.twice", name=name))
        found[name] = value
    return found


def _refuse_number(number: str) -> NoReturn:
    raise Unreadable(sentence("record.unreadable.number", number=number[:40]))


def _read_integer(number: str) -> int:
    if len(number) > 17:  # sign and sixteen digits; longer ones need not be computed to be refused
        _refuse_number(number)
    value = int(number)
    if abs(value) > LARGEST_INTEGER:
        _refuse_number(number)
    return value


def _check_names(fields: dict[str, object]) -> None:
    missing, unknown = sorted(_FIELDS - fields.keys()), sorted(fields.keys() - _FIELDS)
    if missing or unknown:
        none = sentence("record.unreadable.none")
        raise Unreadable(
            sentence("record.unreadable.fields", missing=", ".join(missing) or none, unknown=", ".join(unknown) or none)
        )


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError("previous")
    return value


def _read_time(value: object) -> datetime:
    if not isinstance(value, str) or not _TIME.fullmatch(value):
        raise ValueError("at, wall")
    return datetime.fromisoformat(value)


def _read_boot(value: object) -> int:
    if not isinstance(value, str) or not _BOOT_NS.fullmatch(value):
        raise ValueError("boot_ns")
    return int(value)
