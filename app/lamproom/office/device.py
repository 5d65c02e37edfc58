"""The secret of this computer: joined to every code, kept outside the site's folder.

A short code alone falls to guessing in hours once the site's folder is copied; with 32 random bytes that the copy
does not hold, it does not fall at all. So the secret never stands in the site's folder and never in its backups.
"""

from __future__ import annotations

import hashlib
import hmac
import os
import secrets
import stat
from dataclasses import dataclass, field
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import Any, Protocol

from platformdirs import user_data_path

from lamproom.words import Refusal, sentence

LENGTH = 32
"""Bytes of the secret: 256 bits."""

SHORTEST_WITH_STORE = 6
"""Characters of a code where the secret is in the system's key store (NIST SP 800-63B-4: activation secret, 6)."""

SHORTEST_WITH_FILE = 8
"""Characters of a code where the secret is only in a file (NIST SP 800-63B-4: a password, 8)."""

_SECRET_FILE = "device-secret"
_MARK_FILE = "device-secret-in-key-store"
_HEADING = "lamproom device secret 1"
_MARK_HEADING = "lamproom device mark 1"


@dataclass(frozen=True, slots=True)
class DeviceSecret:
    """The secret of this computer, and whether the system's protected key store holds it."""

    value: bytes = field(repr=False)
    in_os_store: bool

    @property
    def minimum_code(self) -> int:
        """Characters a code needs on this computer: 6 with the system's key store, else 8."""
        return SHORTEST_WITH_STORE if self.in_os_store else SHORTEST_WITH_FILE

    @property
    def mark(self) -> str:
        """16 hex digits that tell this secret from another without telling anything about it."""
        return hashlib.sha256(b"lamproom device mark 1" + self.value).hexdigest()[:16]


class StoreSilent(Exception):
    """The system's key store is there and does not answer (locked, denied); the text is its own."""


class OsStore(Protocol):
    """The system's key store, as far as we need it. Both methods raise ``StoreSilent``."""

    def read(self) -> str | None: ...

    def write(self, text: str) -> None: ...


class KeyringStore:
    """The system's key store by way of the package ``keyring``, where that is installed."""

    _SERVICE = "lamproom"
    _USER = "device secret"

    def __init__(self, keyring: Any) -> None:
        self._keyring = keyring

    def read(self) -> str | None:
        try:
            text = self._keyring.get_password(self._SERVICE, self._USER)
        except self._keyring.errors.KeyringError as trouble:
            raise StoreSilent(str(trouble)) from trouble
        return None if text is None else str(text)

    def write(self, text: str) -> None:
        try:
            self._keyring.set_password(self._SERVICE, self._USER, text)
        except self._keyring.errors.KeyringError as trouble:
            raise StoreSilent(str(trouble)) from trouble


def of_this_computer() -> DeviceSecret:
    """The secret of this computer, made on the first call. Refusals as ``device_secret``."""
    return device_secret(user_data_path("lamproom", appauthor=False) / "device", system_store())


def system_store() -> OsStore | None:
    """The system's protected key store; None where there is none or where it would keep the secret in plain."""
    if find_spec("keyring") is None:
        return None
    keyring = import_module("keyring")
    backend = keyring.get_keyring()
    # Backends that write plain files live in other packages; 'fail' and 'null' keep nothing.
    if not type(backend).__module__.startswith("keyring.backends.") or backend.priority < 1:
        return None
    return KeyringStore(keyring)


def device_secret(folder: Path, store: OsStore | None = None) -> DeviceSecret:
    """The secret kept in ``folder`` or ``store``; made once, never made anew while an old one is known of.

    Refuses (Refusal) a damaged or unreadable file and a key store that holds the secret but does not give it: a new
    secret in its place would turn every code of this computer into a wrong one.
    """
    file, mark = folder / _SECRET_FILE, folder / _MARK_FILE
    if _exists(file):
        return DeviceSecret(_from_file(file), in_os_store=False)
    if _exists(mark):
        return _from_store(store, mark)
    secret = _first_time(store)
    if secret.in_os_store:
        _put(mark, f"{_MARK_HEADING}\n{secret.mark}\n")
        return _from_store(store, mark)
    _put(file, f"{_HEADING}\n{secret.value.hex()}\n")
    return DeviceSecret(_from_file(file), in_os_store=False)


def _first_time(store: OsStore | None) -> DeviceSecret:
    if store is None:
        return DeviceSecret(secrets.token_bytes(LENGTH), in_os_store=False)
    try:
        kept = _parsed(store.read())
        if kept is None:
            store.write(secrets.token_hex(LENGTH))
            kept = _parsed(store.read())
    except StoreSilent:
        kept = None  # a store that does not work on the first day is not relied on: the file serves
    if kept is None:
        return DeviceSecret(secrets.token_bytes(LENGTH), in_os_store=False)
    return DeviceSecret(kept, in_os_store=True)


def _from_store(store: OsStore | None, mark: Path) -> DeviceSecret:
    expected = _lines(mark, _MARK_HEADING)
    if store is None:
        raise Refusal(sentence("keys.device_store_silent", cause="keyring"))
    try:
        value = _parsed(store.read())
    except StoreSilent as trouble:
        raise Refusal(sentence("keys.device_store_silent", cause=str(trouble))) from trouble
    if value is None:
        raise Refusal(sentence("keys.device_store_silent", cause="-"))
    secret = DeviceSecret(value, in_os_store=True)
    if not hmac.compare_digest(secret.mark, expected):
        raise Refusal(sentence("keys.device_store_other"))
    return secret


def _from_file(file: Path) -> bytes:
    value = _parsed(_lines(file, _HEADING))
    if value is None:
        raise Refusal(sentence("keys.device_damaged", file=str(file)))
    return value


def _parsed(text: str | None) -> bytes | None:
    if text is None or len(text) != 2 * LENGTH or not set(text) <= set("0123456789abcdef"):
        return None
    return bytes.fromhex(text)


def _lines(file: Path, heading: str) -> str:
    """The second line of a two-line file of ours."""
    try:
        if os.name == "posix" and stat.S_IMODE(file.stat().st_mode) & 0o077:
            file.chmod(0o600)  # a copy by hand may have opened it to others
        text = file.read_bytes().decode("ascii", errors="replace").splitlines()
    except OSError as trouble:
        raise Refusal(sentence("keys.device_unreadable", file=str(file), cause=trouble.strerror or "")) from trouble
    if len(text) != 2 or text[0] != heading:
        raise Refusal(sentence("keys.device_damaged", file=str(file)))
    return text[1]


def _exists(file: Path) -> bool:
    try:
        return file.exists()
    except OSError as trouble:
        raise Refusal(sentence("keys.device_unreadable", file=str(file), cause=trouble.strerror or "")) from trouble


def _put(file: Path, text: str) -> None:
    """Write the file whole or not at all; when another start was faster, its file stays and ours is dropped."""
    draft = file.with_name(f"{file.name}.{secrets.token_hex(4)}")
    try:
        file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        handle = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        try:
            with os.fdopen(handle, "w", encoding="ascii", newline="\n") as stream:
                stream.write(text)
                stream.flush()
                os.fsync(stream.fileno())
            _take_name(draft, file)
        finally:
            draft.unlink(missing_ok=True)
        _sync_folder(file.parent)
    except OSError as trouble:
        cause = trouble.strerror or ""
        raise Refusal(sentence("keys.device_unwritable", folder=str(file.parent), cause=cause)) from trouble


def _take_name(draft: Path, file: Path) -> None:
    try:
        os.link(draft, file)
    except FileExistsError:
        return


def _sync_folder(folder: Path) -> None:
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
