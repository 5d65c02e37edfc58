"""A box for a private key: closed with a code and the secret of this computer, or with the secret alone.

Inside: AES-256-GCM under HKDF-SHA256(argon2id(code, salt) || device secret) (RFC 9106, RFC 5869, NIST SP 800-38D).
The head of the box (how hard the code is to try, salt, nonce, mark of the computer) and whom it belongs to are bound
in, so a box moved to another person does not open. A checksum over the whole tells damage from a wrong code.
"""

from __future__ import annotations

import hashlib
import json
import secrets
from dataclasses import asdict, dataclass

from argon2.exceptions import HashingError
from argon2.low_level import Type, hash_secret_raw
from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

from lamproom.office.codes import clean
from lamproom.office.device import DeviceSecret

_MAGIC = b"lamproom box 1\n"
_SALT = 16
_NONCE = 12
_CHECK = 32


@dataclass(frozen=True, slots=True)
class Hardness:
    """What one try of a code costs (argon2id, RFC 9106): memory in KiB, passes over it, lanes."""

    memory_kib: int
    passes: int
    lanes: int


USUAL = Hardness(memory_kib=64 * 1024, passes=3, lanes=4)
"""The second recommended choice of RFC 9106, section 4: about a tenth of a second and 64 MiB on a plain laptop."""

CHEAPEST = Hardness(memory_kib=8, passes=1, lanes=1)
"""The least that argon2 takes: for tests, and for a 'code' that is itself 256 random bits."""

_HARDEST = Hardness(memory_kib=1024 * 1024, passes=32, lanes=16)


class BoxDamaged(Exception):
    """The box is not one of ours any more: bytes changed, cut or added."""


class BoxOfOtherComputer(Exception):
    """The box was closed with the secret of another computer."""


class NoMemory(Exception):
    """The computer has not the memory, or the threads, that a try of a code takes."""


@dataclass(frozen=True, slots=True)
class _Head:
    device: str
    salt: bytes
    nonce: bytes
    hardness: Hardness | None
    raw: bytes


def close_box(content: bytes, owner: str, device: DeviceSecret, code: str | None, hardness: Hardness = USUAL) -> bytes:
    """Close ``content`` for ``owner``. With ``code`` None the secret of this computer alone opens it (station key)."""
    head = _head(device, hardness if code is not None else None)
    key = _key(head, owner, device, code)
    lock = AESGCM(key).encrypt(head.nonce, content, head.raw + owner.encode())
    box = _MAGIC + len(head.raw).to_bytes(2, "big") + head.raw + lock
    return box + hashlib.sha256(box).digest()


def check_box(box: bytes, device: DeviceSecret) -> None:
    """Whether a try makes sense, without a code. Raises ``BoxDamaged`` or ``BoxOfOtherComputer``."""
    if _read(box)[0].device != device.mark:
        raise BoxOfOtherComputer


def open_box(box: bytes, owner: str, device: DeviceSecret, code: str | None) -> bytes | None:
    """What is in the box, or None when the code does not open it. Raises as ``check_box``."""
    check_box(box, device)
    head, lock = _read(box)
    if (head.hardness is None) != (code is None):
        raise BoxDamaged
    try:
        return AESGCM(_key(head, owner, device, code)).decrypt(head.nonce, lock, head.raw + owner.encode())
    except InvalidTag:
        return None


def _key(head: _Head, owner: str, device: DeviceSecret, code: str | None) -> bytes:
    stretched = b""
    if code is not None and head.hardness is not None:
        stretched = _stretched(code, head.salt, head.hardness)
    purpose = b"lamproom private key 1\n" + owner.encode()
    return HKDF(algorithm=SHA256(), length=32, salt=head.salt, info=purpose).derive(stretched + device.value)


def _stretched(code: str, salt: bytes, hardness: Hardness) -> bytes:
    try:
        return hash_secret_raw(
            clean(code).encode("utf-8", errors="surrogatepass"),
            salt,
            time_cost=hardness.passes,
            memory_cost=hardness.memory_kib,
            parallelism=hardness.lanes,
            hash_len=32,
            type=Type.ID,
        )
    except HashingError as trouble:
        raise NoMemory(str(trouble)) from trouble


def _head(device: DeviceSecret, hardness: Hardness | None) -> _Head:
    salt, nonce = secrets.token_bytes(_SALT), secrets.token_bytes(_NONCE)
    fields: dict[str, object] = {"device": device.mark, "nonce": nonce.hex(), "salt": salt.hex()}
    if hardness is not None:
        fields["argon2id"] = asdict(hardness)
    raw = json.dumps(fields, sort_keys=True, separators=(",", ":")).encode("ascii")
    return _Head(device.mark, salt, nonce, hardness, raw)


def _read(box: bytes) -> tuple[_Head, bytes]:
    body, check = box[:-_CHECK], box[-_CHECK:]
    start = len(_MAGIC) + 2
    if not body.startswith(_MAGIC) or len(body) < start or hashlib.sha256(body).digest() != check:
        raise BoxDamaged
    end = start + int.from_bytes(body[len(_MAGIC) : start], "big")
    raw, lock = body[start:end], body[end:]
    try:
        return _parse(raw), lock
    except (ValueError, KeyError, TypeError) as trouble:
        raise BoxDamaged from trouble


def _parse(raw: bytes) -> _Head:
    fields = json.loads(raw)
    hardness = Hardness(**fields["argon2id"]) if "argon2id" in fields else None
    if hardness is not None and not _bearable(hardness):
        raise ValueError(hardness)  # a changed head must not make this computer run out of memory
    salt, nonce = bytes.fromhex(fields["salt"]), bytes.fromhex(fields["nonce"])
    if len(salt) != _SALT or len(nonce) != _NONCE:
        raise ValueError(raw)
    return _Head(str(fields["device"]), salt, nonce, hardness, raw)


def _bearable(hardness: Hardness) -> bool:
    given, most, least = (tuple(asdict(it).values()) for it in (hardness, _HARDEST, CHEAPEST))
    if not all(type(figure) is int for figure in given):
        return False
    in_range = all(low <= figure <= high for low, figure, high in zip(least, given, most, strict=True))
    return in_range and hardness.memory_kib >= 8 * hardness.lanes
