"""What a certificate says about a key: its id, and whether a signature is its own; not who may hold it."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable

from cryptography import x509
from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

from lamproom.record.chain import Verifier
from lamproom.record.journal import KeyRow
from lamproom.record.refusals import UnusableCertificate


class CertifiedKey:
    """The public key of a certificate: ECDSA on P-256 with SHA-256 (FIPS 186-5), signatures in DER (RFC 3279)."""

    def __init__(self, public: ec.EllipticCurvePublicKey) -> None:
        self._public = public
        self.key = key_of(public)

    def verify(self, signature: bytes, data: bytes) -> bool:
        try:
            self._public.verify(signature, data, ec.ECDSA(SHA256()))
        except InvalidSignature:
            return False
        return True


def key_of(public: ec.EllipticCurvePublicKey) -> str:
    """The id of a key: SHA-256 of its SubjectPublicKeyInfo (RFC 5280) in DER, hexadecimal."""
    return hashlib.sha256(public.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)).hexdigest()


def verifier_of(certificate_der: bytes) -> CertifiedKey:
    """The verifier of a certificate; UnusableCertificate when it is none, or has a key of another kind."""
    try:
        public = x509.load_der_x509_certificate(certificate_der).public_key()
    except (ValueError, UnsupportedAlgorithm) as error:
        raise UnusableCertificate() from error
    if not isinstance(public, ec.EllipticCurvePublicKey) or not isinstance(public.curve, ec.SECP256R1):
        raise UnusableCertificate()
    return CertifiedKey(public)


def certificates_of(rows: Iterable[KeyRow]) -> Callable[[str], Verifier | None]:
    """The verifiers of a journal's keys by id. A row that cannot be used counts as unknown: its entries are flaws."""
    certificates = {row.key: row.certificate for row in rows}

    def find(key: str) -> Verifier | None:
        if key not in certificates:
            return None
        try:
            return verifier_of(certificates[key])
        except UnusableCertificate:
            return None

    return find
