"""Who signs: a station in its own name, a person after giving their code.

A signer lives as long as the act it signs; nothing keeps it, so the next act of authority asks the code again.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from cryptography import x509
from cryptography.exceptions import UnsupportedAlgorithm
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256

from lamproom.record.certificates import key_of


@dataclass(frozen=True, slots=True)
class Signer:
    """One private key of this computer, open. ``holder`` is a person id or 'station'."""

    holder: str
    certificate: x509.Certificate
    private_key: ec.EllipticCurvePrivateKey = field(repr=False)

    @property
    def key(self) -> str:
        """The key's id: SHA-256 of its SubjectPublicKeyInfo (DER), 64 hex digits."""
        return key_of(self.private_key.public_key())

    def sign(self, data: bytes) -> bytes:
        """ECDSA over SHA-256 of ``data``, DER. The same data gives the same bytes (RFC 6979) where OpenSSL can."""
        try:
            return self.private_key.sign(data, ec.ECDSA(SHA256(), deterministic_signing=True))
        except UnsupportedAlgorithm:
            return self.private_key.sign(data, ec.ECDSA(SHA256()))


@dataclass(frozen=True, slots=True)
class PersonSigner(Signer):
    """A person who has just given their code. ``wrong_tries_before`` is for their eyes: was that all me?"""

    wrong_tries_before: int = 0
