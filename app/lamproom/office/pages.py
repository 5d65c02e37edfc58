"""Making a permit's pages: drawn from the record, its journal attached, signed, and filed with its act."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Literal

from lamproom.bench import state as bench
from lamproom.bench.happening import Event, Happening
from lamproom.bench.state import Instrument
from lamproom.office.key_signers import Signer
from lamproom.office.office import Office, ToRecord, new_act
from lamproom.office.page.parts import Pages
from lamproom.office.page.permit_page import permit_page
from lamproom.office.page.posted import posted_page
from lamproom.office.page_journal import people_of, written
from lamproom.office.permit_change import allowed, stream_of
from lamproom.paper.content import PostedPage
from lamproom.permit import events as e
from lamproom.permit import people
from lamproom.permit import state as permit_state
from lamproom.permit.facts import Facts, touching
from lamproom.permit.people import Person
from lamproom.permit.state import Permit, apply
from lamproom.record.envelope import from_bytes
from lamproom.record.journal import Entry, File, Sealed
from lamproom.record.kinds import happening_of
from lamproom.words import Refusal, say

Paper = Literal["letter", "a4"]
Larger = Literal["tabloid", "a3"]
Milestone = Literal["authorised", "amended", "ended", "closed-out"]


def record_with_page(
    office: Office,
    number: str,
    events: Sequence[Event],
    by: str | None,
    milestone: Milestone,
    signer: Signer,
    act: str | None = None,
    paper: Paper = "letter",
) -> tuple[Entry, ...]:
    """Record an act of authority together with the page that shows it: one transaction for events, PDF and its hash.

    The page is drawn from the state after the act, carries its journal up to the act, and is signed by ``signer``.
    """
    act = act or new_act()
    if before := office.journal.act(act):
        return before
    permit = office.permit(number)
    for event in events:
        allowed(permit, event)
    stream = stream_of(number)
    sealed = office.sealed([ToRecord(stream, event) for event in events], by, act, signer)
    pdf = signed_page(office, number, sealed, signer, milestone, paper)
    digest = sha256(pdf).hexdigest()
    filed = e.PageFiled(milestone=milestone, sha256=digest, length=len(pdf))
    page_event = office.sealed([ToRecord(stream, filed)], by, act, following=sealed)
    name = file_name(office, number, milestone)
    return office.store([*sealed, *page_event], [File(digest, name, pdf)])


def file_name(office: Office, number: str, milestone: str) -> str:
    """Date, space, permit number, state: safe on all systems, no personal names."""
    permit = office.permit(number)
    day = permit.opened_at.astimezone(permit.zone).date().isoformat()
    space = "".join(c if c.isascii() and c.isalnum() else "-" for c in permit.opened.registered.name).strip("-").lower()
    return f"{day}-{space}-{number}-{milestone}.pdf"


def signed_page(
    office: Office, number: str, fresh: Sequence[Sealed], signer: Signer, milestone: Milestone, paper: Paper
) -> bytes:
    """The signed PDF of a permit after the events in ``fresh``."""
    from lamproom.paper.permit_page import render_permit
    from lamproom.paper.signing import JOURNAL, attach, sign

    at = from_bytes(fresh[-1].body).at
    pages = pages_after(office, number, fresh)
    code = fingerprint_of(fresh[-1].hash)
    pdf = render_permit(permit_page(pages, site_name(office), code, at, authority=_authority(office)), paper)
    journal = written(office, pages.permit, fresh, people_of(pages.permit))
    pdf = attach(pdf, JOURNAL, journal, at, say("page.journal_attached"))
    _leaf, root = office.keys.chain_for(signer.key)
    reason = say(f"page.reason.{milestone}.{pages.paper}", number=number)
    return sign(pdf, signer.private_key, signer.certificate, [root], reason, site_name(office), at)


def fingerprint_of(digest: bytes) -> str:
    """The 22 signs of the page's fingerprint, from the hash of the permit's newest event."""
    from lamproom.paper.fingerprint import code_of

    return code_of(digest)


def site_name(office: Office) -> str:
    """The name of the site, empty before it is set up."""
    return office.site.begun.name if office.site.begun else ""


def _authority(office: Office) -> str:
    """The fingerprint of the site's authority, empty before the site is set up."""
    return office.site.begun.authority if office.site.begun else ""


def pages_after(office: Office, number: str, fresh: Sequence[Sealed] = ()) -> Pages:
    """What a page is made from: the record up to now, and what an act is about to add."""
    facts = office.facts(number)
    past: list[Happening] = list(office.happenings(stream_of(number)))
    permit = facts.permit
    for sealed in fresh:
        happening = happening_of(sealed)
        past.append(happening)
        permit = apply(permit, happening)
    now = _with_everyone(office, replace(facts, permit=permit))
    return Pages(now, tuple(past), facts_at_signing(office, now, past))


def facts_at_signing(office: Office, now: Facts, past: Sequence[Happening]) -> Facts | None:
    """The facts as they stood when the permit was authorized: everything that the site's order puts later is left out,
    of this permit, its instruments and people, and the permits that ran beside it. None before that."""
    signed = next((one for one in past if isinstance(one.event, e.Authorised)), None)
    if signed is None:
        return None
    permit = permit_state.fold([one for one in past if one.version <= signed.version])

    def known(stream: str) -> list[Happening]:
        return [h for h in office.happenings(stream) if not signed.number or h.number < signed.number]

    beside = (permit_state.fold(told) for id in office.ids("permit") if id != permit.number
              if (told := known(stream_of(id))))  # fmt: skip
    return replace(
        now,
        permit=permit,
        instruments={id: bench.fold(known(f"instrument/{id}"), Instrument(id)) for id in permit.instruments},
        people={id: people.fold(known(f"person/{id}"), Person(id)) for id in now.people},
        at=signed.at,
        others=tuple(touching(permit, other) for other in beside if other.running),
    )


def _with_everyone(office: Office, facts: Facts) -> Facts:
    """Facts with everyone who ever had a part, so that the page can say what each was trained for."""
    return replace(facts, people={id: office.person(id) for id in people_of(facts.permit)})


def draft_pdf(office: Office, number: str, paper: Paper = "letter", copy: int = 1) -> bytes:
    """The permit as it stands now, unsigned; a draft is crossed out on every page."""
    from lamproom.paper.permit_page import render_permit

    pages = pages_after(office, number)
    page = permit_page(pages, site_name(office), _code_now(office, number), office.now(), copy, _authority(office))
    return render_permit(page, paper)


@dataclass(frozen=True, slots=True)
class Posted:
    """A posted page, the sheet that it needs, and the sentence that says so where that is larger than was asked."""

    pdf: bytes
    sheet: Paper | Larger
    said: str = ""


def posted_pdf(office: Office, number: str, paper: Paper = "letter", copy: int = 1) -> bytes:
    """The page that hangs at the portal, on whichever sheet it needs."""
    return posted_on(office, number, paper, copy).pdf


def posted_on(office: Office, number: str, paper: Paper = "letter", copy: int = 1) -> Posted:
    """The page that hangs at the portal; on the next larger sheet when names and hazards need it at their size."""
    from lamproom.paper.posted_page import render_posted

    pages = pages_after(office, number)
    larger: Larger = "tabloid" if paper == "letter" else "a3"
    code, at = _code_now(office, number), office.now()
    page = posted_page(pages, site_name(office), code, at, copy)
    short = posted_page(pages, site_name(office), code, at, copy, changes=1)
    try:
        return Posted(_rendered(render_posted, page, short, paper), paper)
    except Refusal:
        asked, needed = (say(f"office.paper.{sheet}") for sheet in (paper, larger))
        return Posted(render_posted(page, larger), larger, say("office.posted_larger", asked=asked, needed=needed))


def _rendered(render: Callable[[PostedPage, Paper], bytes], page: PostedPage, short: PostedPage, paper: Paper) -> bytes:
    """The page, or its shorter telling of the changes where only that fits the sheet that was asked for."""
    try:
        return render(page, paper)
    except Refusal:
        return render(short, paper)


def _code_now(office: Office, number: str) -> str:
    _version, digest = office.journal.tail(stream_of(number))
    return fingerprint_of(digest)


def filed_ids(permit: Permit) -> tuple[tuple[str, e.PageFiled], ...]:
    """Every filed page by its id, the newest first: the milestone, and for an older one of the same its count."""
    filed = [made.event for made in permit.pages if isinstance(made.event, e.PageFiled)]
    ids: list[tuple[str, e.PageFiled]] = []
    for at, page in enumerate(filed):
        count = sum(one.milestone == page.milestone for one in filed[: at + 1])
        newest = all(one.milestone != page.milestone for one in filed[at + 1 :])
        ids.append((page.milestone if newest else f"{page.milestone}-{count}", page))
    return tuple(reversed(ids))


def filed_pdf(office: Office, number: str, page: str | None = None) -> bytes | None:
    """A filed page of a permit by its id, or the newest, exact bytes; None when none was filed."""
    for id, filed in filed_ids(office.permit(number)):
        if page in (None, id):
            file = office.journal.file(filed.sha256)
            return file.content if file is not None else None
    return None
