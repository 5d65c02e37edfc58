"""Reading a signed page back: what its bytes prove, as values. A damaged or strange file is a value too, never a crash.

Stricter than the format asks: exactly one signature; it covers every byte of the file but its own digits; its padding
is zeros in the form we write; the document allows no changes. What cannot be determined counts as not proved. The
journal knows the hash and length of the whole file, so a caller who has the journal compares these as well.
"""

from __future__ import annotations

import logging
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from hashlib import sha256
from io import BytesIO
from typing import TYPE_CHECKING, Any

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from cryptography.x509.oid import NameOID

from lamproom.paper.signing import FIELD, JOURNAL
from lamproom.words import Refusal, Sentence, sentence

if TYPE_CHECKING:
    from pyhanko.pdf_utils.reader import PdfFileReader
    from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature

MOST_BYTES = 100_000_000
"""Larger files are not read: a permit with four hundred sets of readings is under one megabyte."""

# What the signing library finds strange in a file is said by our troubles; its log would print traces on a terminal.
logging.getLogger("pyhanko").addHandler(logging.NullHandler())

_DIGITS = re.compile(rb"<[0-9A-F]*>")


@dataclass(frozen=True, slots=True)
class Signer:
    """Who signed, by the certificate: name, person id and station, the key's id (SHA-256 of its public key, hex)."""

    name: str
    person: str
    station: str
    key: str
    certificate: x509.Certificate


@dataclass(frozen=True, slots=True)
class Proof:
    """What the bytes of a file prove.

    ``unaltered`` needs all of: one signature, the whole file covered, digest and signature right, no changes allowed.
    ``origin_confirmed`` says whether the certificate leads to one of the authorities that were given; ``root`` is
    the fingerprint (SHA-256, hex) of the authority the file itself names, '' if none. ``signed_at`` is the signer's
    claim. ``troubles`` are sentences for everything that is not as it should be.
    """

    sha256: str
    length: int
    signatures: int
    whole_file: bool
    intact: bool
    valid: bool
    no_changes_allowed: bool
    origin_confirmed: bool
    signer: Signer | None
    signed_at: datetime | None
    root: str
    attachments: tuple[tuple[str, bytes], ...]
    troubles: tuple[Sentence, ...] = ()

    @property
    def unaltered(self) -> bool:
        return self.signatures == 1 and self.whole_file and self.intact and self.valid and self.no_changes_allowed

    @property
    def journal(self) -> bytes | None:
        """The attached journal; None where there is none, or more than one of that name."""
        found = [content for name, content in self.attachments if name == JOURNAL]
        return found[0] if len(found) == 1 else None


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A file that cannot be read as a signed page, and why, as a sentence that says what to do."""

    sha256: str
    length: int
    why: Sentence


def read_proof(pdf: bytes, roots: Sequence[x509.Certificate] = ()) -> Proof | Unreadable:
    """What the file proves to someone who trusts the authorities ``roots``; without roots no origin is confirmed."""
    digest = sha256(pdf).hexdigest()
    if len(pdf) > MOST_BYTES:
        return Unreadable(digest, len(pdf), _why("too_large", megabytes=str(MOST_BYTES // 1_000_000)))
    if not pdf.startswith(b"%PDF-"):
        return Unreadable(digest, len(pdf), _why("not_pdf"))
    try:
        return _read(pdf, digest, roots)
    except Refusal as refusal:
        return Unreadable(digest, len(pdf), refusal.why)


def _why(what: str, **values: str) -> Sentence:
    return sentence("paper.unreadable", what=sentence(f"paper.unreadable.{what}", **values))


def _read(pdf: bytes, digest: str, roots: Sequence[x509.Certificate]) -> Proof:
    """Every fault of the parsers over foreign bytes means one thing to the reader: this file cannot be read."""
    try:
        return _Reading(pdf, digest, roots).proof()
    except Exception as error:
        raise Refusal(_why("broken")) from error


@dataclass(slots=True)
class _Reading:
    pdf: bytes
    digest: str
    roots: Sequence[x509.Certificate]
    troubles: list[Sentence] = field(default_factory=list)

    def proof(self) -> Proof:
        from pyhanko.pdf_utils.reader import PdfFileReader

        reader = PdfFileReader(BytesIO(self.pdf), strict=True)
        signatures = list(reader.embedded_signatures)
        attachments = _attachments(reader)
        if len(signatures) != 1:
            self._say("none_signed" if not signatures else "more_signed", count=str(len(signatures)))
            return Proof(
                self.digest,
                len(self.pdf),
                len(signatures),
                False,
                False,
                False,
                False,
                False,
                None,
                None,
                "",
                attachments,
                tuple(self.troubles),
            )
        found = signatures[0]
        whole = self._covers_whole_file(found)
        intact, valid = self._holds(found)
        locked = self._allows_no_changes(reader, found)
        signer = _signer(found)
        confirmed, root = self._origin(found, signer)
        return Proof(
            self.digest,
            len(self.pdf),
            1,
            whole,
            intact,
            valid,
            locked,
            confirmed,
            signer,
            found.self_reported_timestamp,
            root,
            attachments,
            tuple(self.troubles),
        )

    def _say(self, what: str, **values: str) -> None:
        self.troubles.append(sentence(f"paper.proof.{what}", **values))

    def _covers_whole_file(self, found: EmbeddedPdfSignature) -> bool:
        """Two ranges that meet the digits of the signature on both sides and end with the file; zeros after the DER."""
        ranges = [int(number) for number in found.byte_range]
        covered = len(ranges) == 4 and ranges[0] == 0 and ranges[2] + ranges[3] == len(self.pdf)
        if covered:
            digits = self.pdf[ranges[1] : ranges[2]]
            covered = _DIGITS.fullmatch(digits) is not None and len(digits) % 2 == 0
            content = bytes.fromhex(digits[1:-1].decode("ascii")) if covered else b""
            covered = covered and content == found.pkcs7_content and not any(content[_der_length(content) :])
        if not covered:
            self._say("not_whole")
        return covered

    def _holds(self, found: EmbeddedPdfSignature) -> tuple[bool, bool]:
        """Digest of the bytes, and signature over that digest, by SHA-256; the container exactly as we write it."""
        from pyhanko.sign.validation.errors import SignatureValidationError
        from pyhanko.sign.validation.generic_cms import validate_sig_integrity

        digest = found.compute_digest()
        try:
            intact, valid = validate_sig_integrity(found.signer_info, found.signer_cert, "data", digest)
        except SignatureValidationError:
            intact, valid = False, False
        plain = _plainly_written(found)
        if not intact:
            self._say("not_intact")
        if not (valid and plain):
            self._say("not_valid")
        return intact, valid and plain

    def _allows_no_changes(self, reader: PdfFileReader, found: EmbeddedPdfSignature) -> bool:
        from pyhanko.sign.fields import MDPPerm
        from pyhanko.sign.validation.pdf_embedded import read_certification_data

        certified = read_certification_data(reader)
        locked = certified is not None and certified.permission == MDPPerm.NO_CHANGES
        locked = locked and found.docmdp_level == MDPPerm.NO_CHANGES
        if not locked:
            self._say("changes_allowed")
        return locked

    def _origin(self, found: EmbeddedPdfSignature, signer: Signer) -> tuple[bool, str]:
        """Follow the issuers, each signature checked, to an authority; then see whether it is one that was given."""
        above = [x509.load_der_x509_certificate(one.dump()) for one in found.other_embedded_certs]
        path = _path(signer.certificate, above)
        root = path[-1] if len(path) > 1 and path[-1].issuer == path[-1].subject else None
        # A certificate that leads nowhere does not belong there: somebody put or changed it.
        stray = len(above) != len(path) - 1
        at = found.self_reported_timestamp
        in_time = at is not None and all(one.not_valid_before_utc <= at <= one.not_valid_after_utc for one in path)
        given = {one.public_bytes(Encoding.DER) for one in self.roots}
        confirmed = (
            root is not None
            and not stray
            and in_time
            and _may_sign(signer.certificate)
            and root.public_bytes(Encoding.DER) in given
        )
        if stray or not in_time or not _may_sign(signer.certificate):
            self._say("certificates_wrong")
        if not confirmed:
            self._say("origin_not_confirmed")
        return confirmed, _fingerprint(root) if root is not None else ""


def _plainly_written(found: EmbeddedPdfSignature) -> bool:
    """Whether the container (RFC 5652) says each thing once and as we write it, so that no bit of it is free.

    The signature covers neither the container's frame nor the names in it, and readers compare names loosely.
    """
    from asn1crypto import cms

    content = found.pkcs7_content[: _der_length(found.pkcs7_content)]
    signed, info, certificate = found.signed_data, found.signer_info, found.signer_cert
    whose = cms.IssuerAndSerialNumber({"issuer": certificate.issuer, "serial_number": certificate.serial_number})
    return (
        cms.ContentInfo.load(content).dump(force=True) == content
        and str(found.fq_name) == FIELD
        and signed["version"].native == info["version"].native == "v1"
        and [one["algorithm"].native for one in signed["digest_algorithms"]] == ["sha256"]
        and info["digest_algorithm"]["algorithm"].native == "sha256"
        and info["sid"].chosen.dump() == whose.dump()
        and len(signed["signer_infos"]) == 1
        and not signed["crls"]
        and not info["unsigned_attrs"]
    )


def _path(certificate: x509.Certificate, above: Sequence[x509.Certificate]) -> list[x509.Certificate]:
    """From the signer's certificate upward, as far as each was truly issued by the next."""
    path = [certificate]
    while path[-1].issuer != path[-1].subject and len(path) <= len(above):
        issuer = next((one for one in above if one not in path and _issued(path[-1], one)), None)
        if issuer is None:
            break
        path.append(issuer)
    if len(path) > 1 and path[-1].issuer == path[-1].subject and not _issued(path[-1], path[-1]):
        path.pop()
    return path


def _issued(below: x509.Certificate, above: x509.Certificate) -> bool:
    try:
        below.verify_directly_issued_by(above)
        constraints = above.extensions.get_extension_for_class(x509.BasicConstraints).value
    except (InvalidSignature, ValueError, TypeError, x509.ExtensionNotFound):
        return False
    return constraints.ca


def _may_sign(certificate: x509.Certificate) -> bool:
    """Whether the certificate was issued for signing documents: key usage content commitment (RFC 5280, 4.2.1.3)."""
    try:
        usage = certificate.extensions.get_extension_for_class(x509.KeyUsage).value
    except x509.ExtensionNotFound:
        return False
    return usage.content_commitment


def _fingerprint(certificate: x509.Certificate) -> str:
    return sha256(certificate.public_bytes(Encoding.DER)).hexdigest()


def _signer(found: EmbeddedPdfSignature) -> Signer:
    certificate = x509.load_der_x509_certificate(found.signer_cert.dump())
    public = certificate.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    person, _, station = _attribute(certificate, NameOID.USER_ID).partition("@")
    return Signer(
        _attribute(certificate, NameOID.COMMON_NAME), person, station, sha256(public).hexdigest(), certificate
    )


def _attribute(certificate: x509.Certificate, oid: x509.ObjectIdentifier) -> str:
    found = certificate.subject.get_attributes_for_oid(oid)
    return str(found[0].value) if found else ""


def _attachments(reader: PdfFileReader) -> tuple[tuple[str, bytes], ...]:
    """Files of the catalog's flat name tree, in its order; a tree with branches is not ours."""
    try:
        listed: Any = reader.root["/Names"]["/EmbeddedFiles"]["/Names"]
    except KeyError:
        return ()
    return tuple((str(listed[place]), listed[place + 1]["/EF"]["/F"].data) for place in range(0, len(listed) - 1, 2))


def _der_length(content: bytes) -> int:
    """Length of the one DER value that begins ``content`` (ITU-T X.690, 8.1.3)."""
    first = content[1]
    if first < 0x80:
        return 2 + first
    digits = first & 0x7F
    return 2 + digits + int.from_bytes(content[2 : 2 + digits], "big")
