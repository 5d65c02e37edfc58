"""Is a page, or a permit of this site, what it claims to be? Everything is computed again; each finding is a line."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Literal

from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding

from lamproom.bench import state as bench
from lamproom.bench.happening import Happening
from lamproom.bench.state import Instrument
from lamproom.office.authority import fingerprint, issued_by
from lamproom.office.office import SITE, Office
from lamproom.office.page_journal import Travelling, read_back, root_of
from lamproom.permit import events as e
from lamproom.permit import people, site
from lamproom.permit import state as permit_state
from lamproom.permit.facts import Facts
from lamproom.permit.form import fingerprint as form_fingerprint
from lamproom.permit.obstacles import Stage, barring
from lamproom.permit.people import Person
from lamproom.permit.site import Site
from lamproom.record.certificates import certificates_of, verifier_of
from lamproom.record.chain import Verifier, verify_streams
from lamproom.record.chain import verify as verify_chain
from lamproom.record.journal import KeyRow
from lamproom.record.kinds import happening_of
from lamproom.words import Refusal, Sentence, sentence

Found = Literal["right", "wrong", "unknown"]
GENUINE, ALTERED, UNREADABLE, ORIGIN_NOT_CONFIRMED = 0, 1, 2, 3
"""Exit codes: 0 genuine, 1 altered, 2 unreadable, 3 nobody here can confirm which authority it comes from."""


@dataclass(frozen=True, slots=True)
class Line:
    """One finding: right, wrong, or not to be known here."""

    found: Found
    sentence: Sentence


@dataclass(frozen=True, slots=True)
class Verdict:
    """All findings and the exit code they lead to. ``permit`` is the number the page claims, empty when unreadable."""

    code: int
    lines: tuple[Line, ...]
    permit: str = ""
    root: str = ""


def verify_file(pdf: bytes, office: Office | None = None, root: str | None = None) -> Verdict:
    """A signed page, against the site open here or the fingerprint of its authority, or against itself alone."""
    from lamproom.paper.verifying import Unreadable, read_proof

    known = office.keys.root_certificate() if office is not None and office.begun else None
    proof = read_proof(pdf, [known] if known is not None else [])
    if isinstance(proof, Unreadable):
        return Verdict(UNREADABLE, (Line("wrong", proof.why),))
    lines = [Line("wrong", trouble) for trouble in proof.troubles if trouble.id != "paper.proof.origin_not_confirmed"]
    lines.append(_line(proof.unaltered, "office.verify.signature_right", "office.verify.signature_wrong"))
    if proof.journal is None:
        lines.append(Line("wrong", sentence("office.verify.no_journal")))
        return Verdict(ALTERED, tuple(lines))
    try:
        travelling = read_back(proof.journal)
        authority = root_of(travelling)
    except Refusal as refusal:
        return Verdict(ALTERED, (*lines, Line("wrong", refusal.why)))
    lines += _journal(travelling, authority)
    lines += _recomputed(travelling)
    lines.append(_same_root(proof.root, authority))
    if office is not None and office.begun:
        lines += _against_site(office, travelling, proof.sha256, proof.length)
    origin = _origin(authority, known, root)
    lines.append(origin)
    wrong = any(line.found == "wrong" for line in lines)
    code = ALTERED if wrong else GENUINE if origin.found == "right" else ORIGIN_NOT_CONFIRMED
    return Verdict(code, tuple(lines), travelling.number, fingerprint(authority))


def _line(right: bool, yes: str, no: str, **values: str | int | Sentence) -> Line:
    return Line("right", sentence(yes, **values)) if right else Line("wrong", sentence(no, **values))


def _journal(travelling: Travelling, authority: x509.Certificate) -> list[Line]:
    """Chain and signatures of the journal inside, with certificates that the page's own authority issued."""
    flaws = verify_streams((sealed for sealed, _number in travelling.events), _certified(travelling, authority))
    lines = [Line("wrong", flaw.why) for flaw in flaws[:10]]
    if not flaws:
        lines.append(Line("right", _events_right("page", len(travelling.events))))
    return lines


def _events_right(of: str, count: int) -> Sentence:
    return sentence("office.verify.events_right", of=sentence(f"office.verify.of_{of}"), count=count)


def _certified(travelling: Travelling, authority: x509.Certificate) -> Callable[[str], Verifier | None]:
    def find(key: str) -> Verifier | None:
        der = travelling.certificates.get(key)
        if der is None:
            return None
        try:
            certificate = x509.load_der_x509_certificate(der)
            verifier = verifier_of(der)
        except (ValueError, Refusal):
            return None
        return verifier if issued_by(certificate, authority) and verifier.key == key else None

    return find


def _recomputed(travelling: Travelling) -> list[Line]:
    """Every authorization in the journal, judged again from what was known then."""
    try:
        happenings = [(happening_of(sealed, number), sealed.stream) for sealed, number in travelling.events]
    except (Refusal, ValueError):
        return [Line("wrong", sentence("office.verify.events_unreadable"))]
    own = [h for h, stream in happenings if stream == f"permit/{travelling.number}"]
    lines: list[Line] = []
    for happening in own:
        if isinstance(happening.event, e.Authorised):
            standing = barring(facts_then(travelling.names, happenings, own, happening), Stage.AUTHORISE)
            lines += [Line("wrong", sentence("office.verify.obstacle_stood", what=o.sentence)) for o in standing]
            if not standing:
                lines.append(Line("right", sentence("office.verify.no_obstacle")))
    return lines or [Line("unknown", sentence("office.verify.never_authorised"))]


def facts_then(
    names: dict[str, str] | object,
    happenings: Iterable[tuple[Happening, str]],
    own: Iterable[Happening],
    act: Happening,
) -> Facts:
    """What was known at an act: everything recorded before it, nothing after."""
    before = [h for h in own if h.version < act.version]
    known = [(h, s) for h, s in happenings if h.at <= act.at and h.act != act.act]
    place = site.fold((h for h, s in known if s == SITE), Site())
    permit = permit_state.fold(before)
    instruments: dict[str, Instrument] = {}
    persons: dict[str, Person] = {}
    for happening, stream in known:
        kind, _, id = stream.partition("/")
        voided = replace(happening, void=place.void(happening.number)) if happening.number else happening
        if kind == "instrument":
            instruments[id] = bench.apply(instruments.get(id, Instrument(id)), voided)
        elif kind == "person":
            persons[id] = people.apply(persons.get(id, Person(id)), voided)
    return Facts(
        permit=permit,
        instruments=instruments,
        people=persons,
        at=act.at,
        clock_confirmed=not act.unconfirmed,
        figures_confirmed=not permit.form.memory_figures or form_fingerprint(permit.opened.form) in place.confirmed,
        names=names if isinstance(names, dict) else {},
    )


def _same_root(named: str, authority: x509.Certificate) -> Line:
    """The authority of the signature must be the authority of the journal inside."""
    own = fingerprint(authority).replace(" ", "").lower()
    return _line(named.replace(" ", "").lower() == own, "office.verify.one_root", "office.verify.two_roots")


def _origin(authority: x509.Certificate, known: x509.Certificate | None, root: str | None) -> Line:
    own = fingerprint(authority)
    if root is not None:
        wanted = "".join(root.split()).lower()
        same = own.replace(" ", "").lower() == wanted
        return _line(same, "office.verify.origin_right", "office.verify.origin_other", root=own)
    if known is not None:
        same = known.public_bytes(Encoding.DER) == authority.public_bytes(Encoding.DER)
        return _line(same, "office.verify.origin_right", "office.verify.origin_other", root=own)
    return Line("unknown", sentence("office.verify.origin_unknown", root=own))


def _against_site(office: Office, travelling: Travelling, sha256: str, length: int) -> list[Line]:
    """The page against this site's own record: the hash filed with the act, and the events themselves."""
    stream = f"permit/{travelling.number}"
    filed = {(h.event.sha256, h.event.length) for h in office.happenings(stream) if isinstance(h.event, e.PageFiled)}
    if not filed:
        return [Line("wrong", sentence("office.verify.not_filed"))]
    lines = [_line((sha256, length) in filed, "office.verify.hash_right", "office.verify.hash_wrong")]
    mine = {
        (x.sealed.stream, x.sealed.version): x.sealed.hash
        for s in _streams(travelling)
        for x in office.journal.stream(s)
    }
    same = all(mine.get((sealed.stream, sealed.version)) == sealed.hash for sealed, _number in travelling.events)
    lines.append(_line(same, "office.verify.record_right", "office.verify.record_wrong"))
    return lines


def _streams(travelling: Travelling) -> tuple[str, ...]:
    return tuple(dict.fromkeys(sealed.stream for sealed, _number in travelling.events))


def verify_permit(office: Office, number: str) -> Verdict:
    """A permit of this site: its events, their signatures, its newest filed page."""
    from lamproom.office.pages import filed_pdf

    flaws = verify_streams(
        (entry.sealed for entry in office.journal.stream(f"permit/{number}")), certificates_of(_own_keys(office))
    )
    lines = [Line("wrong", flaw.why) for flaw in flaws[:10]]
    if not flaws:
        count = len(office.happenings(f"permit/{number}"))
        lines.append(Line("right", _events_right("permit", count)))
    pdf = filed_pdf(office, number)
    if pdf is None:
        lines.append(Line("unknown", sentence("office.verify.no_page")))
    else:
        lines += verify_file(pdf, office).lines
    lines.append(Line("unknown", sentence("office.verify.own_clock")))
    wrong = any(line.found == "wrong" for line in lines)
    return Verdict(ALTERED if wrong else GENUINE, tuple(lines), number)


def _own_keys(office: Office) -> list[KeyRow]:
    return list(office.journal.keys())


def verify_site(office: Office) -> Verdict:
    """The whole record of the site: every entry, in its order, with its signature."""
    flaws = verify_chain(office.journal.entries(), certificates_of(_own_keys(office)))
    lines = [Line("wrong", flaw.why) for flaw in flaws[:20]]
    if not flaws:
        lines.append(Line("right", sentence("office.verify.site_right", count=office.journal.head().number)))
    return Verdict(ALTERED if flaws else GENUINE, tuple(lines))
