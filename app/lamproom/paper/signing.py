"""Putting the journal into a PDF, and then one certifying signature over the whole of it, no changes allowed.

A PAdES baseline signature (ETSI EN 319 142-1, level B-B) with the permission 'no changes' (ISO 32000-2, DocMDP P=1)
and SHA-256. Everything is drawn and attached before the signature; nothing may be added after it.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from io import BytesIO
from typing import TYPE_CHECKING, Any

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePrivateKey
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

if TYPE_CHECKING:
    from pyhanko.sign.signers import SimpleSigner

FIELD = "SIG-01"
"""Names of one length: a signing library compares names of fields by their beginning."""

JOURNAL = "journal.jsonl"
"""The attachment that holds the permit's events, one signed event on a line."""


def attach(pdf: bytes, name: str, content: bytes, at: datetime, description: str = "") -> bytes:
    """The PDF with a file attached, written anew as one revision, so that no older end of file is left inside.

    Attach before signing: a signed file refuses any change. ``at`` becomes the attachment's date.
    """
    from pyhanko.pdf_utils import embed, generic
    from pyhanko.pdf_utils.reader import PdfFileReader
    from pyhanko.pdf_utils.writer import copy_into_new_writer

    writer = _undated(copy_into_new_writer(PdfFileReader(BytesIO(pdf))))
    dates = embed.EmbeddedFileParams(creation_date=at, modification_date=at)
    stream = embed.EmbeddedFileObject.from_file_data(writer, content, params=dates, mime_type="application/jsonl")
    spec = embed.FileSpec(file_spec_string=name, file_name=name, embedded_data=stream, description=description or name)
    embed.embed_file(writer, spec)
    _associate(writer, generic)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def _undated(writer: Any) -> Any:
    """Keep the library from writing the machine's clock into the file as its date of change."""
    writer._update_meta = lambda: None
    return writer


def _associate(writer: Any, generic: Any) -> None:
    """Say in the catalog that the attachments are the source of the pages (ISO 19005-3, 6.8), in PDF 1.7."""
    names = writer.root["/Names"]["/EmbeddedFiles"]["/Names"]
    specs = [names.raw_get(place) for place in range(1, len(names), 2)]
    for spec in specs:
        spec.get_object()["/AFRelationship"] = generic.pdf_name("/Source")
    writer.root["/AF"] = generic.ArrayObject(specs)
    writer.update_root()


def sign(
    pdf: bytes,
    private_key: EllipticCurvePrivateKey,
    certificate: x509.Certificate,
    chain: Sequence[x509.Certificate],
    reason: str,
    location: str,
    at: datetime,
) -> bytes:
    """The PDF with one certifying signature in the field SIG-01.

    ``chain`` are the certificates above the signer's, up to and with the site's authority. ``at`` is the time that
    the signer claims; no third party stamps it. The certificate must allow non-repudiation (content commitment).
    """
    from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
    from pyhanko.sign import fields, signers

    class AtTheGivenTime(signers.PdfSigner):
        """The library would read the machine's clock; the time of an act is judged elsewhere and passed in."""

        def init_signing_session(self, pdf_out: Any, existing_fields_only: bool = False) -> Any:
            session = super().init_signing_session(pdf_out, existing_fields_only)
            session.system_time = at
            return session

    meta = signers.PdfSignatureMetadata(
        field_name=FIELD,
        md_algorithm="sha256",
        reason=reason,
        location=location,
        certify=True,
        docmdp_permissions=fields.MDPPerm.NO_CHANGES,
        subfilter=fields.SigSeedSubFilter.PADES,
    )
    out = BytesIO()
    signer = AtTheGivenTime(meta, signer=_signer(private_key, certificate, chain))
    signer.sign_pdf(_undated(IncrementalPdfFileWriter(BytesIO(pdf))), output=out)
    return out.getvalue()


def _signer(
    key: EllipticCurvePrivateKey, certificate: x509.Certificate, chain: Sequence[x509.Certificate]
) -> SimpleSigner:
    from asn1crypto import keys
    from asn1crypto import x509 as asn1_x509
    from pyhanko.sign.signers import SimpleSigner
    from pyhanko_certvalidator.registry import SimpleCertificateStore

    store = SimpleCertificateStore()  # type: ignore[no-untyped-call]
    store.register_multiple([asn1_x509.Certificate.load(above.public_bytes(Encoding.DER)) for above in chain])
    return SimpleSigner(
        signing_cert=asn1_x509.Certificate.load(certificate.public_bytes(Encoding.DER)),
        signing_key=keys.PrivateKeyInfo.load(key.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())),
        cert_registry=store,
        embed_roots=True,
    )
