"""Filing: what was found, what is known of one permit on file, its pages, and whether it is what it claims to be."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta

from lamproom.office.find import FoundPermit, find
from lamproom.office.office import Office
from lamproom.office.pages import draft_pdf, file_name, filed_ids, filed_pdf, posted_on
from lamproom.office.verify import Verdict, verify_file, verify_permit
from lamproom.office.views.board_cards import SIGNS, card_of
from lamproom.permit.state import Permit
from lamproom.permit.words import State
from lamproom.words import Refusal, say, say_count, sentence

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
FOUND_SIGNS = {"wrong": "DANGER", "right": "WITHIN", "unknown": "NOT_MEASURED"}

RIGHT_AT_A_GLANCE = 3
"""So many findings that are right are shown at a glance; the others are asked for."""
"""The sign of each finding, by the name of the desk's signs, in the order of need."""


@dataclass(frozen=True, slots=True)
class FoundRow:
    """A permit in the list: its state as sign and word, space, day, and what was notable."""

    number: str
    space: str
    day: str
    sign: str
    word: str
    line: str


@dataclass(frozen=True, slots=True)
class FoundList:
    """What a question found, newest first; ``count`` in words; ``empty`` says why when there is nothing."""

    rows: tuple[FoundRow, ...]
    count: str
    empty: str


def read_day(text: str) -> date | None:
    """A day as typed: 25 Nov 2026 or 2026-11-25; nothing typed is None. Refused for what could be read two ways."""
    words = text.strip()
    if not words:
        return None
    iso = re.fullmatch(r"(\d{4})-(\d{1,2})-(\d{1,2})", words)
    named = re.fullmatch(r"(\d{1,2})\.?\s+([A-Za-z]{3})[a-z]*\.?\s+(\d{4})", words)
    try:
        if iso:
            return date(int(iso[1]), int(iso[2]), int(iso[3]))
        if named and named[2].lower() in MONTHS:
            return date(int(named[3]), MONTHS.index(named[2].lower()) + 1, int(named[1]))
    except ValueError as error:
        raise Refusal(sentence("filing.no_such_day", text=words)) from error
    raise Refusal(sentence("filing.day_unread", text=words))


def day_words(day: date, with_year: bool = True) -> str:
    """A day that cannot be misread in any country: 25 Nov 2026, or 25 Nov beside others of this year."""
    month = MONTHS[day.month - 1].capitalize()
    if not with_year:
        return say("filing.day_this_year", day=str(day.day), month=month)
    return say("filing.day", day=str(day.day), month=month, year=str(day.year))


def found(office: Office, words: str = "", begins: date | None = None, ends: date | None = None) -> FoundList:
    """The permits that hold all of the words, opened within the days. Refused when the days are turned about."""
    if begins is not None and ends is not None and ends < begins:
        raise Refusal(sentence("filing.days_turned"))
    rows = tuple(_row(office, one) for one in find(office, words, begins, ends))
    every = len(office.ids("permit"))
    count = say_count("filing.count", len(rows), every=str(every))
    empty = "" if rows else say("filing.none_yet" if every == 0 else "filing.none_found")
    return FoundList(rows, count, empty)


def _row(office: Office, one: FoundPermit) -> FoundRow:
    sign, word = _state(office, office.permit(one.number))
    this_year = office.now().astimezone(office.zone).year == one.day.year
    line = one.line[:1].upper() + one.line[1:]
    return FoundRow(one.number, one.space, day_words(one.day, not this_year), sign, word, line)


def _state(office: Office, permit: Permit) -> tuple[str, str]:
    """The stored state where it is over; else the state at this moment, as the Board says it."""
    if permit.closed_out is not None or (permit.ended is not None and not permit.tally.inside):
        state = State.CLOSED if permit.closed_out is not None else State.ENDED
        word = say(f"permit.state.{state.value}")
        return SIGNS[state], word[:1].upper() + word[1:]
    card = card_of(office, permit.number, office.now())
    return card.sign, card.word


@dataclass(frozen=True, slots=True)
class PageChoice:
    """A page that can be shown: its id ('closed-out', 'ended', 'amended', 'authorised', 'posted', 'now') and words."""

    id: str
    words: str


@dataclass(frozen=True, slots=True)
class OnFile:
    """What Filing says of one permit. ``pages`` newest filed first; ``version`` that of its newest event."""

    number: str
    space: str
    heading: str
    sign: str
    word: str
    kept: str
    pages: tuple[PageChoice, ...]
    version: int


def on_file(office: Office, number: str) -> OnFile:
    """A permit as Filing shows it. Refused where there is none of that number."""
    permit = office.permit(number)
    sign, word = _state(office, permit)
    space = permit.opened.registered.name
    return OnFile(
        number=number,
        space=space,
        heading=say("filing.heading", space=space, number=number),
        sign=sign,
        word=word,
        kept=_kept(permit),
        pages=_pages(permit),
        version=permit.version,
    )


def _kept(permit: Permit) -> str:
    """How long it is kept at the least: from its end, 29 CFR 1910.146(e)(6), or longer where the form says so."""
    days = permit.form.keep_days
    if permit.ended is None:
        return say("filing.kept_from_end", days=str(days))
    until = permit.ended.at.astimezone(permit.zone).date() + timedelta(days=days)
    return say("filing.kept_until", day=day_words(until))


def _pages(permit: Permit) -> tuple[PageChoice, ...]:
    choices = [
        PageChoice(id, say("filing.page.older", what=say(f"filing.page.{page.milestone}"), count=id.rsplit("-", 1)[-1]))
        if id != page.milestone
        else PageChoice(id, say(f"filing.page.{page.milestone}"))
        for id, page in filed_ids(permit)
    ]
    if permit.running:
        choices.append(PageChoice("posted", say("filing.page.posted")))
    if permit.ended is None:
        choices.append(PageChoice("now", say("filing.page.now")))
    return tuple(choices)


def page_of(office: Office, number: str, page: str) -> bytes:
    """The PDF of a page: filed ones as they were filed, byte by byte. Refused when a filed one is missing."""
    return made_page(office, number, page)[0]


def made_page(office: Office, number: str, page: str) -> tuple[bytes, str]:
    """The PDF of a page, and what must be said with it: that a posted page needs a larger sheet; else ''."""
    if page == "now":
        return draft_pdf(office, number), ""
    if page == "posted":
        posted = posted_on(office, number)
        return posted.pdf, posted.said
    pdf = filed_pdf(office, number, page)
    if pdf is None:
        raise Refusal(sentence("filing.page_missing", number=number))
    return pdf, ""


def page_name(office: Office, number: str, page: str) -> str:
    """The name under which a page is saved: date, space, number, state; no personal names."""
    return file_name(office, number, page)


@dataclass(frozen=True, slots=True)
class Proof:
    """A verification in words: when, and each finding with its sign. What is wrong stands first, then what was found
    right, last what cannot be known here; the lines of ``glance`` say enough at a glance. ``genuine`` is False when
    anything was altered."""

    title: str
    lines: tuple[tuple[str, str], ...]
    glance: tuple[tuple[str, str], ...]
    genuine: bool


def proof(office: Office, number: str) -> Proof:
    """Verify a permit of this site now: events, signatures, newest filed page."""
    return _proof(office, verify_permit(office, number), "permit")


def proof_of_file(office: Office, pdf: bytes, name: str) -> Proof:
    """Verify a page that someone handed in, against this site's record."""
    return _proof(office, verify_file(pdf, office), "file", name)


def _proof(office: Office, verdict: Verdict, what: str, name: str = "") -> Proof:
    wrong = any(line.found == "wrong" for line in verdict.lines)
    time = office.now().astimezone(office.zone).strftime("%H:%M:%S")
    order = sorted(verdict.lines, key=lambda line: tuple(FOUND_SIGNS).index(line.found))
    title = say(f"filing.title.{'altered' if wrong else 'verified'}.{what}", time=time, name=name)
    lines = tuple((FOUND_SIGNS[line.found], line.sentence.say()) for line in order)
    right = [(sign, words) for sign, words in lines if sign == FOUND_SIGNS["right"]]
    later = right[RIGHT_AT_A_GLANCE:]
    glance = tuple(line for line in lines if line not in later)
    return Proof(title, lines, glance, not wrong)
