"""A made-up signer and made-up events for the tests of the record; nothing here is from a real site."""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime, timedelta
from typing import Any

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509.oid import NameOID

from lamproom.record.certificates import key_of
from lamproom.record.envelope import Envelope, seal
from lamproom.record.journal import GENESIS, File, KeyRow, Sealed

START = datetime(2025, 3, 11, 12, 0, tzinfo=UTC)


class Pen:
    """A key pair with its self-signed certificate."""

    def __init__(self) -> None:
        self._private = ec.generate_private_key(ec.SECP256R1())
        self.key = key_of(self._private.public_key())
        name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "invented station")])
        self.certificate = (
            x509.CertificateBuilder()
            .subject_name(name)
            .issuer_name(name)
            .public_key(self._private.public_key())
            .serial_number(1)
            .not_valid_before(START)
            .not_valid_after(START + timedelta(days=3650))
            .sign(self._private, SHA256())
            .public_bytes(Encoding.DER)
        )

    def sign(self, data: bytes) -> bytes:
        return self._private.sign(data, ec.ECDSA(SHA256()))

    def row(self, holder: str = "station") -> KeyRow:
        return KeyRow(self.key, holder, self.certificate, None)


def envelope(stream: str = "permit/1", version: int = 1, previous: bytes = GENESIS, **changes: Any) -> Envelope:
    """An envelope with all that is not at issue filled in."""
    fields: dict[str, Any] = {
        "stream": stream,
        "version": version,
        "previous": previous,
        "kind": "note made",
        "kind_version": 1,
        "act": f"{stream}#{version}",
        "by": "p-17",
        "station": "trailer-1",
        "at": START + timedelta(minutes=version),
        "wall": START + timedelta(minutes=version, milliseconds=7),
        "boot": "b-1",
        "boot_ns": version * 10**9,
        "zone": "America/Chicago",
        "unconfirmed": False,
        "data": {"oxygen": "20.9", "text": f"note {version}"},
    }
    return Envelope(**{**fields, **changes})


def run(pen: Pen, count: int, stream: str = "permit/1", **changes: Any) -> list[Sealed]:
    """``count`` events of one stream from its beginning, each act holding one."""
    events: list[Sealed] = []
    previous = GENESIS
    for version in range(1, count + 1):
        events.append(seal(envelope(stream, version, previous, **changes), pen))
        previous = events[-1].hash
    return events


def page(content: bytes = b"%PDF- invented") -> File:
    """A page to file; no PDF, the record does not look inside."""
    return File(hashlib.sha256(content).hexdigest(), "permit 1 authorised.pdf", content)
