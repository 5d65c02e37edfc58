"""The site's certificate authority: a root made at first start, and the certificates it issues (RFC 5280).

Nobody outside the site vouches for it, so its fingerprint is printed on every page: that paper is what a reader
compares. The authority issues certificates and nothing else; it never signs an event or a page.
"""

from __future__ import annotations

from datetime import UTC, datetime

from cryptography import x509
from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.x509.oid import NameOID

from lamproom.record.certificates import CertifiedKey
from lamproom.words import Refusal, sentence

ROOT_YEARS = 20
PERSON_YEARS = 5
UNREADABLE = (ValueError, UnsupportedAlgorithm, x509.DuplicateExtension, x509.InvalidVersion)
"""What the library raises over a certificate whose bytes were changed."""

_LONGEST_NAME = 64
"""Of a common name: ub-common-name of RFC 5280, appendix A, is 64 characters; the library counts bytes of UTF-8."""

_SUFFIX = " site authority"


def new_key() -> ec.EllipticCurvePrivateKey:
    """A fresh private key on P-256 (FIPS 186-5)."""
    return ec.generate_private_key(ec.SECP256R1())


def public_key(certificate: x509.Certificate) -> ec.EllipticCurvePublicKey:
    """The key a certificate speaks for. Raises ValueError when it is not on P-256: none of ours is otherwise."""
    key = certificate.public_key()
    if not isinstance(key, ec.EllipticCurvePublicKey) or not isinstance(key.curve, ec.SECP256R1):
        raise ValueError(certificate.subject.rfc4514_string())
    return key


def found(site_name: str, key: ec.EllipticCurvePrivateKey, now: datetime) -> x509.Certificate:
    """The root certificate of a site, signed by itself, for 20 years from ``now``."""
    name = _common_name(site_name, _SUFFIX)
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])
    return (
        _drafted(subject, subject, key.public_key(), now, years_after(now, ROOT_YEARS))
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(issues=True), critical=True)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(key.public_key()), critical=False)
        .sign(key, SHA256())
    )


def issue(
    name: str,
    holder: str,
    station: str,
    key: ec.EllipticCurvePublicKey,
    root: x509.Certificate,
    root_key: ec.EllipticCurvePrivateKey,
    now: datetime,
    years: int = PERSON_YEARS,
    since: datetime | None = None,
) -> x509.Certificate:
    """A certificate for a person (or station) on one machine, for ``years`` from ``now``; it never outlives the root.

    ``since`` lets a renewed certificate begin where the first one did, so that it speaks for all its key has signed.

    Subject: common name, and user id ``holder@station`` (RFC 4519, 2.39). Key usage: digital signature and content
    commitment, which readers of signed pages ask for.
    """
    subject = x509.Name(
        [
            x509.NameAttribute(NameOID.COMMON_NAME, _common_name(name)),
            x509.NameAttribute(NameOID.USER_ID, f"{holder}@{station}"),
        ]
    )
    until = min(years_after(now, years), root.not_valid_after_utc)
    return (
        _drafted(subject, root.subject, key, since or now, until)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(issues=False), critical=True)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(root_key.public_key()), critical=False)
        .sign(root_key, SHA256())
    )


def issued_by(certificate: x509.Certificate, root: x509.Certificate) -> bool:
    """Whether this root, a true authority, signed this certificate; says nothing about times."""
    try:
        certificate.verify_directly_issued_by(root)
        limits = root.extensions.get_extension_for_class(x509.BasicConstraints).value
    except (*UNREADABLE, TypeError, InvalidSignature, x509.ExtensionNotFound):
        return False
    return limits.ca


def read_through(certificate: x509.Certificate) -> None:
    """Read every part we use, since the library reads late. Raises one of ``UNREADABLE``, sooner than in an act."""
    certificate.subject.rfc4514_string()
    certificate.issuer.rfc4514_string()
    certificate.extensions  # noqa: B018  (parsed on first use)
    certificate.not_valid_before_utc  # noqa: B018
    certificate.not_valid_after_utc  # noqa: B018


def covers(certificate: x509.Certificate, at: datetime) -> bool:
    """Whether the certificate stood at ``at``."""
    return certificate.not_valid_before_utc <= at <= certificate.not_valid_after_utc


def signed(certificate: x509.Certificate, data: bytes, signature: bytes) -> bool:
    """Whether the certificate's key made this signature over ``data`` (ECDSA, SHA-256)."""
    return CertifiedKey(public_key(certificate)).verify(signature, data)


def fingerprint(certificate: x509.Certificate) -> str:
    """SHA-256 of the certificate as people read it aloud: 16 groups of 4 hex digits."""
    digits = certificate.fingerprint(SHA256()).hex().upper()
    return " ".join(digits[at : at + 4] for at in range(0, len(digits), 4))


def common_name(certificate: x509.Certificate) -> str:
    """The name on the certificate; empty when it bears none."""
    return _attribute(certificate, NameOID.COMMON_NAME)


def user_id(certificate: x509.Certificate) -> str:
    """``holder@station`` on the certificate; empty when it bears none."""
    return _attribute(certificate, NameOID.USER_ID)


def years_after(at: datetime, years: int) -> datetime:
    """The same day and time so many years later; the 29th of February becomes the 28th where there is none."""
    try:
        return at.replace(year=at.year + years)
    except ValueError:
        return at.replace(year=at.year + years, day=28)


def _attribute(certificate: x509.Certificate, kind: x509.ObjectIdentifier) -> str:
    found_names = certificate.subject.get_attributes_for_oid(kind)
    return str(found_names[0].value) if found_names else ""


def _common_name(name: str, suffix: str = "") -> str:
    name = " ".join(name.split())
    if not name:
        raise Refusal(sentence("keys.no_name"))
    whole, cut = name, len(name)
    while len((whole + suffix).encode()) > _LONGEST_NAME:
        cut -= 1
        whole = name[:cut].rstrip() + "…"
    return whole + suffix


def _drafted(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, since: datetime, until: datetime
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(since.astimezone(UTC).replace(microsecond=0))
        .not_valid_after(until.astimezone(UTC).replace(microsecond=0))
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key), critical=False)
    )


def _usage(issues: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not issues,
        content_commitment=not issues,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=issues,
        crl_sign=issues,
        encipher_only=False,
        decipher_only=False,
    )
