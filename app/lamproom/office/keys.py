"""The keys of a site on this computer: begun once, opened by codes, kept in the journal's store, never in plain.

One key on P-256 for each person and machine, and one for the station, signs both the events and the pages. P-256 and
not Ed25519, because readers of signed PDFs know it; one key and not two, because a person then has one certificate
whose name stands on the event and on the page alike, one code, and one thing to withdraw when a laptop is lost.

The code of the founder opens the founder's key, and that key opens the site's authority: so a change of code is one
row written, and the authority is never closed with a code that nobody remembers.

What may permit asks a code. What only stops or records (stop, in, out, a reading) is signed by the station's key,
which asks nobody anything: wrong codes, waits and ended certificates of people never stand in its way.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from datetime import datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec

from lamproom.office import authority, codes
from lamproom.office.device import SHORTEST_WITH_STORE, DeviceSecret
from lamproom.office.key_box import CHEAPEST, USUAL, Hardness
from lamproom.office.key_shelf import AUTHORITY, STATION, Found, KeyShelf, KeyStore, damaged, private_bytes
from lamproom.office.key_signers import PersonSigner, Signer
from lamproom.record.certificates import key_of
from lamproom.words import Refusal, Sentence, sentence


class KeyRing:
    """The keys in one store, under the secret of one computer. Nothing is remembered here between calls."""

    def __init__(self, store: KeyStore, device: DeviceSecret, hardness: Hardness = USUAL) -> None:
        self._shelf = KeyShelf(store, device)
        self._device = device
        self._hardness = hardness

    # The site's beginning and its people ------------------------------------------------------------------------------

    @property
    def begun(self) -> bool:
        """Whether the site has its authority."""
        return self._shelf.begun

    def begin_site(
        self,
        site_name: str,
        station: str,
        founder_person_id: str,
        founder_name: str,
        founder_code: str,
        now: datetime,
        avoid: Iterable[str] = (),
    ) -> None:
        """Make the authority, the station's key and the founder's. Refuses a weak code and a site that has begun.

        The authority's row is written last: a beginning that was cut short is begun again, not mended.
        """
        _refuse_reserved(founder_person_id)
        if self.begun:
            raise Refusal(sentence("keys.begun", date=_day(self.root_certificate().not_valid_before_utc)))
        self._refuse_weak(founder_code, founder_name, founder_person_id, avoid)
        root_key = authority.new_key()
        root = authority.found(site_name, root_key, now)
        self._shelf.retire(STATION)
        self._shelf.retire(founder_person_id)
        self._admit_station(station, root, root_key, now)
        founder = self._admit(founder_person_id, founder_name, station, founder_code, root, root_key, now)
        self._shelf.put_keeper(founder_person_id)
        self._shelf.put(AUTHORITY, root_key, root, _keeper_secret(founder), CHEAPEST)

    def enrol(
        self, person_id: str, name: str, code: str, keeper_code: str, now: datetime, avoid: Iterable[str] = ()
    ) -> x509.Certificate:
        """Give a person a key and a certificate on this computer; the founder's code opens the authority.

        Refuses a weak code, a person who has a key that opens here, and all that ``unlock`` refuses of the founder
        but an ended certificate.
        ``avoid``: words that must not be in the code (badge, birth date); name and id are always among them.
        """
        _refuse_reserved(person_id)
        self._refuse_weak(code, name, person_id, avoid)
        if self._has_working_key(person_id):
            raise Refusal(sentence("keys.enrolled", name=name))
        return self._enrolled(person_id, name, code, self._open_authority(keeper_code, now), now)

    def renew(self, person_id: str, keeper_code: str, now: datetime) -> x509.Certificate:
        """A certificate for 5 more years over the same key and code, also for the keeper, also after the old one ended.

        It begins where the old one began: what the key signed in between and before keeps its standing.
        """
        found = self._of_person(person_id)
        root_key = self._open_authority(keeper_code, now)
        key, since = authority.public_key(found.certificate), found.certificate.not_valid_before_utc
        renewed = authority.issue(
            found.name, person_id, self._station(), key, self.root_certificate(), root_key, now, since=since
        )
        self._shelf.put_certificate(found, renewed)
        return renewed

    def people(self) -> tuple[str, ...]:
        """Ids of the people who have a key on this computer, in the order of the store."""
        return self._shelf.people()

    # Signing ----------------------------------------------------------------------------------------------------------

    def unlock(self, person_id: str, code: str, now: datetime) -> PersonSigner:
        """The person's signer, for one act. ``now`` is the judged time of the office's clock.

        Raises nothing but Refusal: no key here, damaged, made on another computer, certificate ended, no code typed,
        wait, off, wrong code. Each try that reaches the check is counted in the store before its answer is known.
        """
        found = self._of_person(person_id)
        self._refuse_times(found, now)
        return self._opened(found, code, now)

    def station_signer(self) -> Signer:
        """The station's signer: no code, no clock. Refuses only a site not begun, damage, another computer."""
        found = self._shelf.find(STATION)
        if found is None:
            raise Refusal(sentence("keys.not_begun"))
        private_key = self._shelf.open(found, None)
        if private_key is None:
            raise Refusal(damaged(STATION))
        return Signer(STATION, found.certificate, private_key)

    # Codes ------------------------------------------------------------------------------------------------------------

    def change_code(self, person_id: str, old: str, new: str, now: datetime, avoid: Iterable[str] = ()) -> None:
        """Close the same key with a new code. Refuses a weak or unchanged new code, and as ``unlock`` the old one."""
        found = self._of_person(person_id)
        self._refuse_weak(new, found.name, person_id, avoid)
        signer = self.unlock(person_id, old, now)
        if codes.clean(old) == codes.clean(new):
            raise Refusal(sentence("keys.code_same"))
        self._shelf.put(person_id, signer.private_key, found.certificate, new, self._hardness)

    def reset_code(
        self,
        person_id: str,
        new: str,
        keeper_code: str,
        second_id: str,
        second_code: str,
        now: datetime,
        avoid: Iterable[str] = (),
    ) -> x509.Certificate:
        """A new key and code for one who forgot theirs, by the keeper of the authority and a second person.

        The person types the new code. The old certificate stays, so that what it signed can be read for ever.
        """
        found = self._of_person(person_id)
        keeper_id = self._shelf.keeper()
        if person_id == keeper_id:
            raise Refusal(sentence("keys.keeper_code_kept", name=found.name))
        _refuse_same_people(found.name, person_id, keeper_id, second_id)
        self._refuse_weak(new, found.name, person_id, avoid)
        self.unlock(second_id, second_code, now)
        return self._enrolled(person_id, found.name, new, self._open_authority(keeper_code, now), now)

    def turn_on(self, person_id: str, first: tuple[str, str], second: tuple[str, str], now: datetime) -> None:
        """End a wait or an 'off' of one who knows the code: two other people, each (person id, code), vouch."""
        found = self._of_person(person_id)
        _refuse_same_people(found.name, person_id, first[0], second[0])
        self.unlock(*first, now)
        self.unlock(*second, now)
        self._shelf.put_tries(person_id, codes.Tries())

    def wrong_tries(self, person_id: str) -> int:
        """Wrong codes in a row since the last right one."""
        return self._shelf.tries(person_id).failures

    def next_try(self, person_id: str, now: datetime) -> timedelta | None:
        """How long the person's next try has to wait: zero when it need not, None when the code is off."""
        tries = self._shelf.tries(person_id)
        return None if tries.off else tries.wait(now)

    def code_note(self) -> Sentence | None:
        """What the screen says where codes are chosen on a computer without a protected key store."""
        if self._device.in_os_store:
            return None
        return sentence("keys.longer_codes", minimum=self._device.minimum_code, with_store=SHORTEST_WITH_STORE)

    # Certificates -----------------------------------------------------------------------------------------------------

    def certificate_of(self, key: str) -> x509.Certificate:
        """The certificate of a key id, also of people long gone and of other machines. Refuses an unknown id."""
        return self._shelf.certificate(key)

    def root_certificate(self) -> x509.Certificate:
        """The certificate of the site's authority, whose fingerprint stands on each page."""
        return self._shelf.root()

    def chain_for(self, key: str) -> tuple[x509.Certificate, x509.Certificate]:
        """The key's certificate and the root that issued it. Refuses one that this site's authority did not issue."""
        return self._shelf.issued(key)

    # Inside -----------------------------------------------------------------------------------------------------------

    def _of_person(self, person_id: str) -> Found:
        found = self._shelf.find(person_id) if person_id not in (STATION, AUTHORITY) else None
        if found is not None:
            return found
        keeper = self._shelf.keeper()
        if keeper == person_id:
            raise Refusal(damaged(AUTHORITY))
        raise Refusal(sentence("keys.nobody", person=person_id, keeper=self._shelf.name_of(keeper)))

    def _opened(self, found: Found, code: str, now: datetime) -> PersonSigner:
        person_id = found.row.holder
        if not code:
            raise Refusal(sentence("keys.code_empty", name=found.name))
        before = self._shelf.tries(person_id)
        self._refuse_waiting(person_id, found.name, before, now)
        counted = before.one_more(now)
        self._shelf.put_tries(person_id, counted)
        try:
            private_key = self._shelf.open(found, code)
        except Refusal:
            self._shelf.put_tries(person_id, before)  # no answer was had (no memory, damage inside): no try
            raise
        if private_key is None:
            raise Refusal(self._wrong(person_id, found.name, counted))
        self._shelf.put_tries(person_id, codes.Tries())
        return PersonSigner(person_id, found.certificate, private_key, before.failures)

    def _open_authority(self, keeper_code: str, now: datetime) -> ec.EllipticCurvePrivateKey:
        # The keeper's own certificate may have ended: it signs nothing here, and it could not be renewed otherwise.
        keeper = self._opened(self._of_person(self._shelf.keeper()), keeper_code, now)
        found = self._shelf.find(AUTHORITY)
        root_key = None if found is None else self._shelf.open(found, _keeper_secret(keeper.private_key))
        if root_key is None:
            raise Refusal(damaged(AUTHORITY))
        return root_key

    def _station(self) -> str:
        return authority.user_id(self.station_signer().certificate).removeprefix(f"{STATION}@")

    def _has_working_key(self, person_id: str) -> bool:
        """Whether the person has a key that a code opens here; a damaged or foreign one may be replaced."""
        try:
            return self._shelf.find(person_id) is not None
        except Refusal:
            return False

    def _admit_station(
        self, station: str, root: x509.Certificate, root_key: ec.EllipticCurvePrivateKey, now: datetime
    ) -> None:
        # As long as the root: a stop must be signed in year six without asking anyone for a new certificate.
        key = authority.new_key()
        years = authority.ROOT_YEARS
        certificate = authority.issue(station, STATION, station, key.public_key(), root, root_key, now, years)
        self._shelf.put(STATION, key, certificate, None, self._hardness)

    def _admit(
        self,
        holder: str,
        name: str,
        station: str,
        code: str,
        root: x509.Certificate,
        root_key: ec.EllipticCurvePrivateKey,
        now: datetime,
    ) -> ec.EllipticCurvePrivateKey:
        key = authority.new_key()
        certificate = authority.issue(name, holder, station, key.public_key(), root, root_key, now)
        self._shelf.put(holder, key, certificate, code, self._hardness)
        return key

    def _enrolled(
        self, person_id: str, name: str, code: str, root_key: ec.EllipticCurvePrivateKey, now: datetime
    ) -> x509.Certificate:
        station, root = self._station(), self.root_certificate()
        self._shelf.retire(person_id)
        key = self._admit(person_id, name, station, code, root, root_key, now)
        self._shelf.put_tries(person_id, codes.Tries())
        return self.certificate_of(key_of(key.public_key()))

    # Refusals ---------------------------------------------------------------------------------------------------------

    def _refuse_weak(self, code: str, name: str, person_id: str, avoid: Iterable[str]) -> None:
        reasons = codes.weak(code, self._device.minimum_code, (name, person_id, *avoid))
        if reasons:
            raise Refusal(sentence("keys.code_refused", reasons=codes.together(reasons)))

    def _refuse_times(self, found: Found, now: datetime) -> None:
        since, until = found.certificate.not_valid_before_utc, found.certificate.not_valid_after_utc
        if now > until:
            keeper = self._shelf.name_of(self._shelf.keeper())
            raise Refusal(sentence("keys.certificate_ended", name=found.name, date=_day(until), keeper=keeper))
        if now < since:
            raise Refusal(sentence("keys.certificate_early", name=found.name, date=_minute(since), now=_minute(now)))

    def _refuse_waiting(self, person_id: str, name: str, tries: codes.Tries, now: datetime) -> None:
        if tries.off:
            raise Refusal(self._off(person_id, name))
        wait = tries.wait(now)
        if not wait:
            return
        seen = tries.seen(now)
        if seen != tries:
            self._shelf.put_tries(person_id, seen)
        failures, limit = tries.failures, codes.LIMIT
        raise Refusal(sentence("keys.wait", name=name, failures=failures, limit=limit, wait=_lasting(wait)))

    def _wrong(self, person_id: str, name: str, tries: codes.Tries) -> Sentence:
        if tries.off:
            return sentence("keys.wrong_off", name=name, off=self._off(person_id, name))
        failures, limit, wait = tries.failures, codes.LIMIT, codes.wait_after(tries.failures)
        if wait:
            return sentence("keys.wrong_wait", name=name, failures=failures, limit=limit, wait=_lasting(wait))
        left = codes.FREE_TRIES - failures
        return sentence("keys.wrong_left.one" if left == 1 else "keys.wrong_left.other", name=name, n=left)

    def _off(self, person_id: str, name: str) -> Sentence:
        others = [it for it in self.people() if it != person_id and not self._shelf.tries(it).off]
        keeper, limit = self._shelf.keeper(), codes.LIMIT
        if len(others) >= 2:
            return sentence("keys.off", name=name, limit=limit)
        if keeper in others:
            return sentence("keys.off_alone", name=name, limit=limit, keeper=self._shelf.name_of(keeper))
        return sentence("keys.off_alone_keeper", name=name, limit=limit)


def _keeper_secret(founder: ec.EllipticCurvePrivateKey) -> str:
    """What closes the authority: 256 bits that only the founder's open key gives."""
    return hashlib.sha256(b"lamproom authority 1\n" + private_bytes(founder)).hexdigest()


def _refuse_same_people(name: str, person_id: str, *others: str) -> None:
    if person_id in others or len(set(others)) != len(others):
        raise Refusal(sentence("keys.two_people", name=name))


def _refuse_reserved(person_id: str) -> None:
    if person_id in (STATION, AUTHORITY):
        raise ValueError(person_id)  # ids of people are made by us, so this is a fault of ours


def _day(at: datetime) -> str:
    return at.date().isoformat()


def _minute(at: datetime) -> str:
    return at.strftime("%Y-%m-%d %H:%M %Z")


def _lasting(wait: timedelta) -> str:
    """A wait as a figure with its unit, rounded up: 30 s, 8 min."""
    seconds = -(-wait // timedelta(seconds=1))
    return f"{seconds} s" if seconds <= 120 else f"{-(-seconds // 60)} min"
