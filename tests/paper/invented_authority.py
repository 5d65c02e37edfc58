"""A site authority and a signer invented for these tests, made with the cryptography library alone."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.x509.oid import NameOID

SIGNED_AT = datetime(2026, 11, 25, 18, 52, 18, tzinfo=UTC)


@dataclass(frozen=True)
class Keys:
    """An authority and one person certified by it."""

    root: x509.Certificate
    certificate: x509.Certificate
    private_key: ec.EllipticCurvePrivateKey


def make_keys(site: str = "Osprel Bend Waterworks site authority") -> Keys:
    root_key = ec.generate_private_key(ec.SECP256R1())
    root_name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, site)])
    root = _certificate(root_name, root_name, root_key.public_key(), root_key, ca=True)
    key = ec.generate_private_key(ec.SECP256R1())
    person = x509.Name(
        [
            x509.NameAttribute(NameOID.COMMON_NAME, "Inés Varga-Holm"),
            x509.NameAttribute(NameOID.USER_ID, "person-7@trailer-1"),
        ]
    )
    return Keys(root, _certificate(person, root_name, key.public_key(), root_key, ca=False), key)


def _certificate(
    subject: x509.Name, issuer: x509.Name, public: ec.EllipticCurvePublicKey, key: ec.EllipticCurvePrivateKey, ca: bool
) -> x509.Certificate:
    usage = x509.KeyUsage(
        digital_signature=not ca,
        content_commitment=not ca,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=ca,
        crl_sign=ca,
        encipher_only=False,
        decipher_only=False,
    )
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(public)
        .serial_number(x509.random_serial_number())
        .not_valid_before(SIGNED_AT - timedelta(days=30))
        .not_valid_after(SIGNED_AT + timedelta(days=365))
        .add_extension(x509.BasicConstraints(ca=ca, path_length=0 if ca else None), critical=True)
        .add_extension(usage, critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(public), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(key.public_key()), critical=False)
        .sign(key, SHA256())
    )
