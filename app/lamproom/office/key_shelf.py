"""Where the keys lie: rows of the journal's store, read with distrust, written one at a time.

Whoever can write the file can put rows there. So a row counts only when its certificate can be read, speaks for the
key and the person the row names, and was issued by this site's authority.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat, load_der_private_key

from lamproom.office import authority, codes, key_box
from lamproom.office.device import DeviceSecret
from lamproom.office.key_box import BoxDamaged, BoxOfOtherComputer, Hardness, NoMemory
from lamproom.record.certificates import key_of
from lamproom.record.journal import KeyRow
from lamproom.words import Refusal, Sentence, sentence

STATION = "station"
AUTHORITY = "authority"

_KEEPER = "keys.keeper"
_TRIES = "keys.tries."


class KeyStore(Protocol):
    """What the keys need of the journal's door. ``put_key`` replaces the row of the same key id."""

    def put_key(self, row: KeyRow) -> None: ...

    def keys(self) -> tuple[KeyRow, ...]: ...

    def put_setting(self, name: str, value: str) -> None: ...

    def settings(self) -> Mapping[str, str]: ...


@dataclass(frozen=True, slots=True)
class Found:
    """A holder's closed key, checked as far as it can be without the code."""

    row: KeyRow
    certificate: x509.Certificate
    box: bytes

    @property
    def name(self) -> str:
        """The name on the certificate."""
        return authority.common_name(self.certificate)


class KeyShelf:
    """The rows and settings of one store that are about keys, under the secret of one computer."""

    def __init__(self, store: KeyStore, device: DeviceSecret) -> None:
        self._store = store
        self._device = device

    @property
    def begun(self) -> bool:
        """Whether the site has its authority."""
        return any(row.holder == AUTHORITY for row in self._store.keys())

    def people(self) -> tuple[str, ...]:
        """Ids of the people who have a closed key here."""
        holders = (row.holder for row in self._store.keys() if row.sealed_private is not None)
        return tuple(dict.fromkeys(it for it in holders if it not in (STATION, AUTHORITY)))

    def root(self) -> x509.Certificate:
        """The certificate of the site's authority; Refusal before the site has begun."""
        for row in self._store.keys():
            if row.holder == AUTHORITY:
                root = _certificate(row)
                if not authority.issued_by(root, root):
                    raise Refusal(damaged(AUTHORITY))
                return root
        raise Refusal(sentence("keys.not_begun"))

    def certificate(self, key: str) -> x509.Certificate:
        """The certificate of a key id; Refusal for an unknown one."""
        for row in self._store.keys():
            if row.key == key:
                return _certificate(row)
        raise Refusal(sentence("keys.unknown_key", key=key[:16]))

    def issued(self, key: str) -> tuple[x509.Certificate, x509.Certificate]:
        """The certificate of a key id and the root that issued it; Refusal when another authority did."""
        leaf, root = self.certificate(key), self.root()
        if not authority.issued_by(leaf, root):
            raise Refusal(sentence("keys.certificate_foreign", name=authority.common_name(leaf)))
        return leaf, root

    def find(self, holder: str) -> Found | None:
        """The holder's closed key, None when there is none; Refusal when damaged, foreign or of another computer."""
        row = self._row(holder)
        if row is None or row.sealed_private is None:
            return None
        certificate = _certificate(row)
        try:
            key_box.check_box(row.sealed_private, self._device)
        except BoxDamaged as trouble:
            raise Refusal(damaged(holder)) from trouble
        except BoxOfOtherComputer as trouble:
            raise Refusal(_other_computer(holder, authority.common_name(certificate))) from trouble
        if holder != AUTHORITY:
            self.issued(row.key)
            if not authority.user_id(certificate).startswith(f"{holder}@"):
                raise Refusal(sentence("keys.certificate_foreign", name=authority.common_name(certificate)))
        return Found(row, certificate, row.sealed_private)

    def open(self, found: Found, code: str | None) -> ec.EllipticCurvePrivateKey | None:
        """The private key, or None when the code does not open it; Refusal when it is not the key it should be."""
        holder = found.row.holder
        try:
            content = key_box.open_box(found.box, _owner(found.row), self._device, code)
        except BoxDamaged as trouble:
            raise Refusal(damaged(holder)) from trouble
        except NoMemory as trouble:
            raise Refusal(sentence("keys.no_memory")) from trouble
        if content is None:
            return None
        try:
            key = load_der_private_key(content, password=None)
        except ValueError as trouble:
            raise Refusal(damaged(holder)) from trouble
        if not isinstance(key, ec.EllipticCurvePrivateKey) or key_of(key.public_key()) != found.row.key:
            raise Refusal(damaged(holder))
        return key

    def put(
        self,
        holder: str,
        private_key: ec.EllipticCurvePrivateKey,
        certificate: x509.Certificate,
        code: str | None,
        hardness: Hardness,
    ) -> None:
        """Close the key and write its row, in place of the row of the same key."""
        key = key_of(private_key.public_key())
        bare = KeyRow(key, holder, certificate.public_bytes(Encoding.DER), None)
        try:
            box = key_box.close_box(private_bytes(private_key), _owner(bare), self._device, code, hardness)
        except NoMemory as trouble:
            raise Refusal(sentence("keys.no_memory")) from trouble
        self._store.put_key(KeyRow(key, holder, bare.certificate, box))

    def put_certificate(self, found: Found, certificate: x509.Certificate) -> None:
        """Give a key another certificate; the box stays closed as it is."""
        row = found.row
        self._store.put_key(KeyRow(row.key, row.holder, certificate.public_bytes(Encoding.DER), found.box))

    def retire(self, holder: str) -> None:
        """Forget the holder's closed keys and keep the certificates: what they signed is read for ever."""
        for row in self._store.keys():
            if row.holder == holder and row.sealed_private is not None:
                self._store.put_key(KeyRow(row.key, holder, row.certificate, None))

    def keeper(self) -> str:
        """Id of the person whose key opens the authority; Refusal before the site has begun."""
        keeper = self._store.settings().get(_KEEPER)
        if keeper is None or not self.begun:
            raise Refusal(sentence("keys.not_begun"))
        return keeper

    def put_keeper(self, person_id: str) -> None:
        """Remember whose key opens the authority."""
        self._store.put_setting(_KEEPER, person_id)

    def name_of(self, holder: str) -> str:
        """The holder's name for a sentence; the id where the certificate cannot be read."""
        row = self._row(holder)
        if row is None:
            return holder
        try:
            return authority.common_name(_certificate(row)) or holder
        except Refusal:
            return holder  # this names someone inside another refusal, which must be said whatever state they are in

    def tries(self, person_id: str) -> codes.Tries:
        """Wrong codes of this person in a row."""
        return codes.tries_from(self._store.settings().get(_TRIES + person_id))

    def put_tries(self, person_id: str, tries: codes.Tries) -> None:
        """Store the count; returns after the store has it."""
        self._store.put_setting(_TRIES + person_id, codes.tries_text(tries))

    def _row(self, holder: str) -> KeyRow | None:
        closed = [row for row in self._store.keys() if row.holder == holder and row.sealed_private is not None]
        return closed[-1] if closed else None


def private_bytes(private_key: ec.EllipticCurvePrivateKey) -> bytes:
    """The private key as PKCS #8 (DER), for closing in a box and for nothing else."""
    return private_key.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())


def damaged(holder: str) -> Sentence:
    """That the stored key of a holder is damaged, and what to do."""
    if holder in (STATION, AUTHORITY):
        return sentence(f"keys.damaged_{holder}")
    return sentence("keys.damaged", holder=holder)


def _other_computer(holder: str, name: str) -> Sentence:
    if holder in (STATION, AUTHORITY):
        return sentence(f"keys.other_computer_{holder}")
    return sentence("keys.other_computer", holder=name)


def _owner(row: KeyRow) -> str:
    """Whom a box belongs to: bound into its lock, so that boxes cannot change places."""
    return f"{row.holder}\n{row.key}"


def _certificate(row: KeyRow) -> x509.Certificate:
    """The row's certificate; Refusal unless all of it can be read and it speaks for the key the row names."""
    try:
        certificate = x509.load_der_x509_certificate(row.certificate)
        speaks_for = key_of(authority.public_key(certificate))
        authority.read_through(certificate)
    except authority.UNREADABLE as trouble:
        raise Refusal(damaged(row.holder)) from trouble
    if speaks_for != row.key:
        raise Refusal(damaged(row.holder))
    return certificate
